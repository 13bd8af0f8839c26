;; Exports the contract's name with nothing in it.
(component
  (instance $pack)
  (export "thou:rules/pack@1.0.0" (instance $pack)))
