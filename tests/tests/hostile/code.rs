//! Packs whose code misbehaves: short ones, each a change to what the well-behaved one does.

use super::core;

/// What the good pack answers: piston-to-wall one window, deck clear.
const GOOD: &str = "(data (i32.const 16) (i32 0) (i32 128 2 256 1 0 0 0 0 0 0 0 0))
  (data (i32.const 128) (i32 0 0 0) (i32 1 1 0))
  (data (i32.const 256) (i32 0 0 0 0)
    (i32 1 0) (f64 4e-5) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4)
    (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0) (i8 1 1 0 0) (i32 0 0 0))";
const HANDS_OUT: &str = "(func (export \"cabi_realloc\") (param i32 i32 i32 i32) (result i32)
    (local $at i32)
    (local.set $at (i32.and (i32.add (global.get $top) (i32.const 7)) (i32.const -8)))
    (global.set $top (i32.add (local.get $at) (local.get 3)))
    (local.get $at))";
const ASSESS: &str = "(func (export \"thou:rules/pack@1.0.0#assess\") (param i32 i32 i32 i32 i32 i32) (result i32)";

fn module(realloc: &str, body: &str, rest: &str) -> String {
    format!(
        "(module (memory (export \"memory\") 1) (global $top (mut i32) (i32.const 4096))
         {realloc}
         (func (export \"thou:rules/pack@1.0.0#describe\") (result i32) (i32.const 0))
         {ASSESS} {body})
         {rest})"
    )
}

/// It does this when it is asked, with these other parts.
fn asked(body: &str, rest: &str) -> Vec<u8> {
    core(&module(HANDS_OUT, &format!("{body} (i32.const 16)"), &format!("{rest} {GOOD}")))
}

/// It answers this.
fn answers(data: &str) -> Vec<u8> {
    core(&module(HANDS_OUT, "(i32.const 16)", data))
}

/// It hands out memory like this.
fn realloc(body: &str) -> Vec<u8> {
    let own = format!("(func (export \"cabi_realloc\") (param i32 i32 i32 i32) (result i32) {body})");
    core(&module(&own, "(i32.const 16)", GOOD))
}

/// It takes its answer back like this.
fn takes_back(body: &str) -> Vec<u8> {
    let own = format!("(func (export \"cabi_post_thou:rules/pack@1.0.0#assess\") (param i32) {body})");
    asked("", &own)
}

/// One window with this in it: rule, fact, place; the five limits with whether they are there; levels and wear; text and
/// arguments.
fn window(head: &str, limits: &str, tail: &str) -> Vec<u8> {
    answers(&format!(
        "(data (i32.const 16) (i32 0) (i32 128 2 256 1 0 0 0 0 0 0 0 0))
         (data (i32.const 128) (i32 0 0 0) (i32 1 1 0))
         (data (i32.const 256) (i32 {head}) {limits} {tail})"
    ))
}

const PLAIN: &str =
    "(i32 1 0) (f64 4e-5) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4) (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0)";
const TAIL: &str = "(i8 1 1 0 0) (i32 0 0 0)";

pub fn all() -> Vec<(&'static str, Vec<u8>)> {
    let forever = "(loop $l (br $l))";
    vec![
        ("traps-at-the-start", asked("", "(func $s unreachable) (start $s)")),
        ("grows-at-the-start", asked("", "(func $s (drop (memory.grow (i32.const 3000)))) (start $s)")),
        (
            "grows-a-page-at-a-time",
            asked("(loop $l (br_if $l (i32.ne (memory.grow (i32.const 1)) (i32.const -1)))) (unreachable)", ""),
        ),
        ("asks-on-for-memory", asked("(loop $l (drop (memory.grow (i32.const 3000))) (br $l))", "")),
        (
            "asks-on-for-a-table",
            asked(
                "(loop $l (drop (table.grow $t (ref.null func) (i32.const 100000000))) (br $l))",
                "(table $t 1 funcref)",
            ),
        ),
        ("says-on-and-on", asked("(loop $l (drop (memory.grow (i32.const 39521))) (br $l))", "")),
        ("grows-by-nothing", asked("(loop $l (drop (memory.grow (i32.const 0))) (br $l))", "")),
        (
            "grows-its-table-by-nothing",
            asked("(loop $l (drop (table.grow $t (ref.null func) (i32.const 0))) (br $l))", "(table $t 1 funcref)"),
        ),
        (
            "grows-its-table",
            asked(
                "(loop $l (br_if $l (i32.ne (table.grow $t (ref.null func) (i32.const 100000)) (i32.const -1)))) (unreachable)",
                "(table $t 1 funcref)",
            ),
        ),
        (
            "fills-its-table",
            asked(
                "(loop $l (table.fill $t (i32.const 0) (ref.null func) (i32.const 1000000)) (br $l))",
                "(table $t 1000000 funcref)",
            ),
        ),
        (
            "copies-memory",
            asked(
                "(drop (memory.grow (i32.const 1000))) (loop $l (memory.copy (i32.const 0) (i32.const 1) (i32.const 60000000)) (br $l))",
                "",
            ),
        ),
        (
            "copies-its-table",
            asked(
                "(loop $l (table.copy $t $t (i32.const 0) (i32.const 1) (i32.const 900000)) (br $l))",
                "(table $t 1000000 funcref)",
            ),
        ),
        ("reads-out-of-bounds", asked("(drop (i32.load (i32.const -4)))", "")),
        ("writes-out-of-bounds", asked("(i64.store offset=4294967295 (i32.const -1) (i64.const 7))", "")),
        ("rounds-what-is-no-number", asked("(drop (i32.trunc_f64_s (f64.const nan)))", "")),
        ("divides-the-least-by-minus-one", asked("(drop (i32.div_s (i32.const 0x80000000) (i32.const -1)))", "")),
        ("calls-what-is-not-there", asked("(call_indirect $t (i32.const 3))", "(table $t 4 funcref)")),
        (
            "calls-by-another-type",
            asked("(drop (call_indirect $t (result f64) (i32.const 0)))", "(func $f) (table $t funcref (elem $f))"),
        ),
        (
            "recursion-through-a-table",
            asked("(call $f)", "(func $f (call_indirect $t (i32.const 0))) (table $t funcref (elem $f))"),
        ),
        ("recursion-of-two", asked("(call $a)", "(func $a (call $b)) (func $b (call $a))")),
        ("recursion-with-a-big-frame", asked("(call $a (i64.const 1))", &big_frame())),
        ("loops-where-it-hands-out", realloc(&format!("{forever} (i32.const 0)"))),
        ("traps-where-it-hands-out", realloc("unreachable")),
        ("hands-out-what-it-has-not", realloc("(i32.const -8)")),
        ("hands-out-crooked", realloc("(i32.const 4097)")),
        ("hands-out-one-place-twice", realloc("(i32.const 4096)")),
        ("loops-where-it-takes-back", takes_back(forever)),
        ("traps-where-it-takes-back", takes_back("unreachable")),
        ("answers-past-its-memory", core(&module(HANDS_OUT, "(i32.const -16)", GOOD))),
        ("answers-crooked", core(&module(HANDS_OUT, "(i32.const 17)", GOOD))),
        (
            "answers-four-thousand-million-windows",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 2 256 -1 0 0 0 0 0 0 0 0)) (data (i32.const 128) (i32 0 0 0) (i32 1 1 0))",
            ),
        ),
        ("neither-answer-nor-error", answers("(data (i32.const 16) (i32 2))")),
        (
            "outcomes-too-many",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 3 256 1 0 0 0 0 0 0 0 0)) (data (i32.const 128) (i32 0 0 0) (i32 1 1 0) (i32 1 1 0)) (data (i32.const 256) (i32 0 0 0 0) (i32 1 0) (f64 4e-5) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4) (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0) (i8 1 1 0 0) (i32 0 0 0))",
            ),
        ),
        (
            "minus-infinity",
            window(
                "0 0 0 0",
                "(i32 1 0) (f64 -inf) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4) (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0)",
                TAIL,
            ),
        ),
        (
            "not-a-number-with-a-load",
            window(
                "0 0 0 0",
                "(i32 1 0) (f64 -nan:0xdeadbeef) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 1e-4) (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0)",
                TAIL,
            ),
        ),
        (
            "an-aim-outside-its-limits",
            window(
                "0 0 0 0",
                "(i32 0 0) (f64 0) (i32 1 0) (f64 8e-5) (i32 1 0) (f64 9e-4) (i32 1 0) (f64 1.2e-4) (i32 0 0) (f64 0)",
                TAIL,
            ),
        ),
        (
            "high-above-never-above",
            window(
                "0 0 0 0",
                "(i32 0 0) (f64 0) (i32 0 0) (f64 0) (i32 0 0) (f64 0) (i32 1 0) (f64 1.2e-4) (i32 1 0) (f64 1.1e-4)",
                TAIL,
            ),
        ),
        (
            "an-aim-alone",
            window(
                "0 0 0 0",
                "(i32 0 0) (f64 0) (i32 0 0) (f64 0) (i32 1 0) (f64 1e-4) (i32 0 0) (f64 0) (i32 0 0) (f64 0)",
                TAIL,
            ),
        ),
        ("no-such-level", window("0 0 0 0", PLAIN, "(i8 7 1 0 0) (i32 0 0 0)")),
        ("no-such-option", window("0 0 9 0", PLAIN, TAIL)),
        ("at-place-four-thousand-million", window("0 0 1 -1", PLAIN, TAIL)),
        ("a-window-for-a-finding", window("1 0 0 0", PLAIN, TAIL)),
        (
            "a-finding-of-no-rule",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 2 0 0 256 1 0 0 0 0 0 0)) (data (i32.const 128) (i32 0 1 0) (i32 1 0 0)) (data (i32.const 256) (i32 77) (i8 1 0 0 0) (i32 0 0 0 0))",
            ),
        ),
        (
            "a-finding-at-no-place",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 2 0 0 256 1 0 0 0 0 0 0)) (data (i32.const 128) (i32 0 1 0) (i32 1 0 0)) (data (i32.const 256) (i32 1) (i8 1 0 0 0) (i32 1 99 0 0))",
            ),
        ),
        (
            "a-service-that-is-none",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 2 0 0 0 0 256 1 0 0 0 0)) (data (i32.const 128) (i32 0 0 0) (i32 1 1 0)) (data (i32.const 256) (i32 0 0 0 0) (f64 1) (f64 2) (f64 3) (i32 0 0))",
            ),
        ),
        (
            "a-step-that-is-none",
            answers(
                "(data (i32.const 16) (i32 0) (i32 128 2 0 0 0 0 0 0 256 1 0 0)) (data (i32.const 128) (i32 0 0 0) (i32 1 1 0)) (data (i32.const 256) (i32 0 0 0 0 0))",
            ),
        ),
        (
            "an-error-of-bad-text",
            answers("(data (i32.const 16) (i32 1) (i32 512 6)) (data (i32.const 512) \"a\\ed\\a0\\80bc\")"),
        ),
        (
            "an-error-of-a-megabyte",
            asked(
                "(i32.store (i32.const 16) (i32.const 1)) (i32.store (i32.const 20) (i32.const 8192)) (i32.store (i32.const 24) (i32.const 1000000)) (drop (memory.grow (i32.const 20))) (memory.fill (i32.const 8192) (i32.const 97) (i32.const 1000000))",
                "",
            ),
        ),
        (
            "an-error-that-turns-around",
            answers(
                "(data (i32.const 16) (i32 1) (i32 512 42)) (data (i32.const 512) \"0.004\\e2\\80\\ae500.0\\e2\\81\\a6 <b>all go</b>\\1b[2J\\c2\\9b31m\\e2\\80\\8b\")",
            ),
        ),
        ("an-error-of-nothing", answers("(data (i32.const 16) (i32 1) (i32 512 0))")),
        (
            "panics-with-escape-codes",
            asked(
                "(drop (memory.grow (i32.const 39451))) (drop (memory.grow (i32.const 39515))) (drop (memory.grow (i32.const 39474))) (drop (memory.grow (i32.const 39498))) (unreachable)",
                "",
            ),
        ),
    ]
}

/// A function with a thousand variables that all live over its call to itself.
fn big_frame() -> String {
    let sets: String = (1..=1000).map(|i| format!("(local.set {i} (i64.mul (local.get 0) (i64.const {i})))")).collect();
    let sum: String = (1..=1000).map(|i| format!("(local.set 0 (i64.add (local.get 0) (local.get {i})))")).collect();
    format!(
        "(func $a (param i64) (local {}) {sets} (call $a (i64.add (local.get 0) (i64.const 1))) {sum} (global.set $g (local.get 0))) (global $g (mut i64) (i64.const 0))",
        "i64 ".repeat(1000)
    )
}
