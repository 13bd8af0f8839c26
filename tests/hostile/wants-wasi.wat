;; What most toolchains make unasked.
(component
  (import "wasi:cli/environment@0.2.3" (instance))
  (import "wasi:io/streams@0.2.3" (instance))
  (instance $pack)
  (export "thou:rules/pack@1.0.0" (instance $pack)))
