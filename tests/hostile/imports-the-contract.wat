;; Uses a type of the contract in its world, which makes it an import.
(component
  (import "thou:rules/pack@1.0.0" (instance)))
