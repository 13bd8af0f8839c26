;; Answers once, and differently from then on: a fresh instance each time must not let it.
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
  (global $asked (mut i32) (i32.const 0))
  (func (export "thou:rules/pack@1.0.0#assess") (param i32 i32 i32 i32 i32 i32) (result i32)
    (if (global.get $asked) (then (unreachable))) (global.set $asked (i32.const 1)) (i32.const 16))
  ;; ok: outcomes, windows, findings, services, steps, numbers, each where and how many
  (data (i32.const 16) (i32 0) (i32 128 2 256 1 0 0 0 0 0 0 0 0))
  (data (i32.const 128) (i32 0 0 0) (i32 1 1 0))        ;; piston-to-wall: answered, deck: clear
  ;; rule, fact, place; never-below, low, aim, high, never-above; below warn, above warn, new parts; text, numbers
  (data (i32.const 256) (i32 0 0 0 0)
    (i32 1 0) (f64 4e-5) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4)
    (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0) (i8 1 1 0 0) (i32 0 0 0))
)
