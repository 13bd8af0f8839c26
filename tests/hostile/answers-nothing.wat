;; Says that it answered, and gives nothing.
(module
  (memory (export "memory") 1)
  ;; hands out what follows, and never takes back
  (global $top (mut i32) (i32.const 4096))
  (func (export "cabi_realloc") (param i32 i32 i32 i32) (result i32)
    (local $at i32)
    (local.set $at (i32.and (i32.add (global.get $top) (i32.const 7)) (i32.const -8)))
    (global.set $top (i32.add (local.get $at) (local.get 3)))
    (local.get $at))
  (func (export "thou:rules/pack@1.0.0#describe") (result i32) (i32.const 0))
  (func (export "thou:rules/pack@1.0.0#assess") (param i32 i32 i32 i32 i32 i32) (result i32)
    (i32.const 16))
  ;; ok: outcomes, windows, findings, services, steps, numbers, each where and how many
  (data (i32.const 16) (i32 0) (i32 128 2 0 0 0 0 0 0 0 0 0 0))
  (data (i32.const 128) (i32 0 0 0) (i32 1 1 0))        ;; piston-to-wall: answered, deck: clear
)
