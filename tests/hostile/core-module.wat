;; core: What a compiler makes, and `thou pack build` has not seen.
(module (memory (export "memory") 1))
