//! Files that are no pack, and components of an ungainly build.

use super::{core, manifest, well_behaved};
use std::fmt::Write as _;
use thou_tests::made::{component, with_manifest};

fn with_ours(component: Vec<u8>) -> Vec<u8> {
    with_manifest(component, &manifest().to_string())
}

/// A component from its text, with the good manifest.
fn assembled(text: &str) -> Vec<u8> {
    with_ours(wat::parse_str(text).unwrap())
}

/// The well-behaved pack with another function beside its own.
fn beside(function: &str) -> Vec<u8> {
    let good = std::fs::read_to_string(super::folder().join("good.wat")).unwrap();
    let end = good.rfind(')').unwrap();
    core(&format!("{} {function})", &good[..end]))
}

/// A component around an empty pack: its text stands before.
fn hollow(before: &str) -> Vec<u8> {
    assembled(&format!("(component {before} (instance $pack) (export \"thou:rules/pack@1.0.0\" (instance $pack)))"))
}

fn imports(names: &[&str]) -> Vec<u8> {
    hollow(&names.iter().map(|n| format!("(import \"{n}\" (instance))")).collect::<String>())
}

/// The good pack with these sections behind its own.
fn behind(section: &impl wasm_encoder::Encode, id: u8) -> Vec<u8> {
    let mut bytes = well_behaved();
    bytes.push(id);
    section.encode(&mut bytes);
    with_ours(bytes)
}

/// Components within one another, within the good pack.
fn nested(deep: usize) -> Vec<u8> {
    let mut inner = wasm_encoder::Component::new();
    for _ in 1..deep {
        let mut outer = wasm_encoder::Component::new();
        outer.section(&wasm_encoder::NestedComponentSection(&inner));
        inner = outer;
    }
    behind(&wasm_encoder::NestedComponentSection(&inner), wasm_encoder::ComponentSectionId::Component.into())
}

/// The good pack with a module of one memory beside its own, instantiated so many times.
fn memories(count: usize) -> Vec<u8> {
    let mut bytes = well_behaved();
    let own = wasmparser::Parser::new(0).parse_all(&bytes);
    let own = own.filter(|p| matches!(p, Ok(wasmparser::Payload::ModuleSection { .. }))).count();
    let mut module = wasm_encoder::Module::new();
    let mut memory = wasm_encoder::MemorySection::new();
    memory.memory(wasm_encoder::MemoryType {
        minimum: 1,
        maximum: None,
        memory64: false,
        shared: false,
        page_size_log2: None,
    });
    module.section(&memory);
    bytes.push(wasm_encoder::ComponentSectionId::CoreModule.into());
    wasm_encoder::Encode::encode(&wasm_encoder::ModuleSection(&module), &mut bytes);
    let mut instances = wasm_encoder::InstanceSection::new();
    for _ in 0..count {
        instances.instantiate::<[(&str, wasm_encoder::ModuleArg); 0], &str>(u32::try_from(own).unwrap(), []);
    }
    bytes.push(wasm_encoder::ComponentSectionId::CoreInstance.into());
    wasm_encoder::Encode::encode(&instances, &mut bytes);
    with_ours(bytes)
}

fn with_sections(count: usize, name: &str, data: &[u8]) -> Vec<u8> {
    let mut bytes = well_behaved();
    let section = wasm_encoder::CustomSection { name: name.into(), data: data.into() };
    for _ in 0..count {
        bytes.push(0);
        wasm_encoder::Encode::encode(&section, &mut bytes);
    }
    with_ours(bytes)
}

fn repeated(head: &str, piece: impl Fn(usize) -> String, count: usize, tail: &str) -> String {
    let mut text = head.to_owned();
    (0..count).for_each(|i| text.push_str(&piece(i)));
    text + tail
}

pub fn all() -> Vec<(&'static str, Vec<u8>)> {
    let whole = with_ours(well_behaved());
    let half = whole[..whole.len() / 2].to_vec();
    let behind = [&whole[..], b"and some more bytes behind it"].concat();
    let many = |n: usize| {
        (0..n).fold(String::new(), |mut s, i| {
            let _ = write!(s, "(import \"i{i}\" (instance))");
            s
        })
    };
    vec![
        ("half-of-a-pack", half),
        ("more-behind-it", behind),
        ("a-windows-program", b"MZ\x90\0\x03\0\0\0".to_vec()),
        ("a-macos-program", b"\xcf\xfa\xed\xfe\x07\0\0\x01".to_vec()),
        ("a-zip-archive", b"PK\x03\x04\x14\0\0\0".to_vec()),
        ("a-gzip-archive", b"\x1f\x8b\x08\0\0\0\0\0".to_vec()),
        ("text-not-assembled", b"(component (core module))".to_vec()),
        ("the-first-four-bytes", b"\0asm".to_vec()),
        ("a-component-of-another-age", b"\0asm\x0a\0\x01\0".to_vec()),
        ("text-of-two-bytes-a-letter", b"\xff\xfe{\0\"\0a\0\"\0".to_vec()),
        (
            "wants-what-javascript-does",
            imports(&["wasi:http/types@0.2.3", "wasi:random/random@0.2.3", "wasi:clocks/wall-clock@0.2.3"]),
        ),
        (
            "wants-what-python-does",
            imports(&[
                "wasi:filesystem/types@0.2.0",
                "wasi:sockets/tcp@0.2.0",
                "wasi:cli/environment@0.2.0",
                "wasi:cli/exit@0.2.0",
            ]),
        ),
        (
            "wants-what-go-does",
            imports(&["wasi:cli/stdout@0.2.0", "wasi:clocks/monotonic-clock@0.2.0", "wasi:random/random@0.2.0"]),
        ),
        ("wants-what-rust-does", imports(&["wasi:cli/stderr@0.2.6", "wasi:io/error@0.2.6"])),
        ("wants-a-function-of-its-own", hollow("(import \"read-the-sheet\" (func (result string)))")),
        ("wants-ten-thousand-things", hollow(&many(10_000))),
        ("components-within-one-another", nested(2_000)),
        ("a-hundred-memories", memories(100)),
        ("a-thousand-instances", memories(1_001)),
        ("sixty-thousand-functions", beside(&"(func)".repeat(60_000))),
        (
            "a-function-of-a-megabyte",
            beside(&repeated(
                "(func (param i32)",
                |i| format!("(i32.store offset={i} (local.get 0) (i32.const {i}))"),
                100_000,
                ")",
            )),
        ),
        ("blocks-within-one-another", beside(&format!("(func {} {})", "block ".repeat(50_000), "end ".repeat(50_000)))),
        (
            "branches-within-one-another",
            beside(&format!("(func (param i32) {} {})", "local.get 0 if ".repeat(20_000), "end ".repeat(20_000))),
        ),
        (
            "forty-thousand-variables",
            beside(&format!(
                "(func (param i32) (local {}) {})",
                "i64 ".repeat(40_000),
                "loop local.get 0 br_if 0 end ".repeat(1_000)
            )),
        ),
        ("jump-tables", beside(&jump_tables())),
        ("a-thousand-values-a-call", beside(&handed(5_000))),
        (
            "a-list-of-lists-of-lists",
            hollow(&repeated("(type $t0 (list u8))", |i| format!("(type $t{} (list $t{i}))", i + 1), 200, "")),
        ),
        (
            "a-type-that-doubles",
            hollow(&repeated(
                "(type $t0 (tuple u8 u8))",
                |i| format!("(type $t{} (tuple $t{i} $t{i}))", i + 1),
                60,
                "",
            )),
        ),
        ("a-memory-of-more-than-there-is", hollow("(core module $m (memory 65537))")),
        ("a-memory-of-eight-bytes-an-address", hollow("(core module $m (memory i64 1))")),
        ("two-memories", hollow("(core module $m (memory 1) (memory 1))")),
        ("throws", hollow("(core module $m (tag $t) (func (throw $t)))")),
        ("collects", hollow("(core module $m (type $s (struct (field i32))) (func (drop (struct.new_default $s))))")),
        ("calls-by-its-tail", hollow("(core module $m (func $f (return_call $f)))")),
        (
            "sums-in-any-order",
            hollow(
                "(core module $m (func (param v128) (result v128) (f32x4.relaxed_madd (local.get 0) (local.get 0) (local.get 0))))",
            ),
        ),
        ("producers-of-noise", with_sections(1, "producers", b"\xff\xff\xff\xff\x0fnot a list of producers")),
        ("names-of-noise", with_sections(1, "name", b"\x01\xff\xff\xff\x7f")),
        ("a-hundred-thousand-sections", with_sections(100_000, "x", b"y")),
        ("a-section-with-a-name-of-a-megabyte", with_sections(1, &"n".repeat(1 << 20), b"y")),
        ("manifest-within", hidden()),
    ]
}

/// What is just light enough to be compiled; the compiler gets most of its memory from these.
pub fn heavy() -> Vec<(&'static str, Vec<u8>)> {
    vec![
        ("just-so-many-functions", beside(&"(func)".repeat(49_000))),
        (
            "just-so-many-stores",
            beside(&repeated(
                "(func (param i32)",
                |i| format!("(i32.store offset={i} (local.get 0) (i32.const {i}))"),
                15_000,
                ")",
            )),
        ),
        (
            "just-so-many-loops",
            beside(&format!(
                "(func (param i32) {} {})",
                "loop local.get 0 br_if 0 ".repeat(3_900),
                "end ".repeat(3_900)
            )),
        ),
        ("just-so-many-variables", beside(&variables(9_000, 1_000))),
        ("just-so-many-blocks", beside(&format!("(func {})", "block end ".repeat(170_000)))),
        ("just-so-many-values", beside(&handed(980))),
    ]
}

/// Loops within one another, each of which changes some of many variables.
fn variables(many: usize, loops: usize) -> String {
    let change = |i: usize| {
        format!("loop (local.set {} (i64.add (local.get {}) (i64.const 1))) ", 1 + i * 8 % many, 1 + i * 7 % many)
    };
    format!(
        "(func (param i32) (local {}) {} {})",
        "i64 ".repeat(many),
        repeated("", change, loops, ""),
        "local.get 0 br_if 0 end ".repeat(loops)
    )
}

/// The manifest in a component inside, where it is not the pack's own.
fn hidden() -> Vec<u8> {
    let inner = with_ours(component(wat::parse_file(super::folder().join("good.wat")).unwrap()));
    let mut outer = wasm_encoder::Component::new();
    let raw = wasm_encoder::RawSection { id: 4, data: &inner };
    outer.section(&raw);
    outer.finish()
}

fn jump_tables() -> String {
    let targets = (0..200).map(|i| i.to_string()).collect::<Vec<_>>().join(" ");
    let one = format!("block local.get 0 br_table {targets} end ");
    format!("(func (param i32) {} {} {})", "block ".repeat(200), one.repeat(200), "end ".repeat(200))
}

fn handed(calls: usize) -> String {
    let values = "i32 ".repeat(500);
    let given: String = (0..500).map(|i| format!("local.get {i} ")).collect();
    format!(
        "(func $h (param {values}) (result {values}) {given}) (func (param {values}) (result {values}) {given} {})",
        "call $h ".repeat(calls)
    )
}
