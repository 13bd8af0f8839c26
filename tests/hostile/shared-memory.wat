;; Needs threads, which are switched off.
(component
  (core module (memory 1 1 shared))
  (instance $pack)
  (export "thou:rules/pack@1.0.0" (instance $pack)))
