;; Is a component, and no pack.
(component
  (instance $pack)
  (export "thou:cams/pack@1.0.0" (instance $pack)))
