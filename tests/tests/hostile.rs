//! Packs that misbehave, one a file in `hostile/`: each costs its own answer and nothing else, and the words that its
//! user reads are those of the file beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::{Path, PathBuf};
use thou::packs::{Answer, Fault, Given, Limits, Pack, PackFault};
use thou_tests::made::{component, with_manifest};

/// Enough for an answer, and little enough that a test of many packs is quick.
const QUICK: Limits = Limits { fuel: 5_000_000, ..Limits::DEFAULT };

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("hostile")
}

/// Every hostile pack: its name and what stands in for its .wasm file.
fn all() -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder()).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    let kind = |f: &Path| f.extension().unwrap_or_default().to_string_lossy().into_owned();
    let packs = files.iter().filter(|f| ["wat", "bin"].contains(&kind(f).as_str()));
    packs.map(|f| (f.file_stem().unwrap().to_string_lossy().into_owned(), bytes(f))).collect()
}

fn named(name: &str) -> Vec<u8> {
    bytes(&folder().join(format!("{name}.wat")))
}

/// A file's bytes: raw, assembled, or a core module made into a component, as `thou pack build` does it; a component
/// is given the manifest beside it, or the one of all.
fn bytes(file: &Path) -> Vec<u8> {
    if file.extension() == Some("bin".as_ref()) {
        return std::fs::read(file).unwrap();
    }
    let text = std::fs::read_to_string(file).unwrap();
    let assembled = wat::parse_str(&text).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    if text.starts_with(";; core:") {
        return assembled;
    }
    let component = if text.contains("\n(component") { assembled } else { component(assembled) };
    let own = file.with_extension("json");
    let manifest = std::fs::read_to_string(if own.exists() { own } else { folder().join("manifest.json") }).unwrap();
    let name = file.file_stem().unwrap().to_string_lossy();
    with_manifest(component, &manifest.replace("\"id\": \"?\"", &format!("\"id\": \"{name}\"")))
}

/// Loads a pack and asks both its rules about an engine of eight cylinders.
fn run(name: &str, bytes: Vec<u8>, limits: Limits) -> Result<Answer, PackFault> {
    ask(&Pack::load(bytes, &format!("{name}.wasm"))?, limits)
}

fn ask(pack: &Pack, limits: Limits) -> Result<Answer, PackFault> {
    let places = |fact: &str| Some(if fact == "piston-to-wall" { 8 } else { 1 });
    let given = Given { starts: &[0, 1], values: &[0.105_537], places: &places };
    pack.assess_within(&[0, 1], &given, &limits)
}

#[test]
fn each_says_what_its_user_reads_and_costs_the_good_pack_nothing() {
    let good = Pack::load(named("good"), "good.wasm").unwrap();
    let answer = ask(&good, QUICK).unwrap();
    assert_eq!(answer.windows[0].low, Some(8e-5));
    let mut wrong = Vec::new();
    for (name, bytes) in all() {
        let said = match run(&name, bytes, Limits::DEFAULT) {
            Ok(other) if other == answer => "answers like the good pack\n".to_owned(),
            Ok(other) => format!("{other:?}\n"),
            Err(fault) => format!("{fault}\n"),
        };
        let file = folder().join(format!("{name}.txt"));
        if std::env::var_os("THOU_WRITE_EXPECTED").is_some() {
            std::fs::write(&file, &said).unwrap();
        }
        if std::fs::read_to_string(&file).ok().as_ref() != Some(&said) {
            wrong.push(format!("{name}.txt should read:\n{said}"));
        }
        assert_eq!(ask(&good, QUICK).as_ref(), Ok(&answer), "after {name}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn nothing_that_a_pack_wrote_reaches_a_terminal_as_it_is() {
    let loud = Pack::load(named("escape-codes-in-manifest"), "loud.wasm").unwrap();
    assert_eq!(loud.manifest.title, "[2J[32mAll go[0m");
    assert_eq!(loud.manifest.about, "Limits desrever and lines of its own");
    assert_eq!(loud.manifest.rules[0].texts[0].words, "for a 1mtest");
    for (name, bytes) in all() {
        let Err(fault) = run(&name, bytes, QUICK) else { continue };
        let ours = fault.to_string().replace('\n', " ");
        assert_eq!(thou::packs::clean::clean(&ours), ours, "{name}");
    }
}

#[test]
fn a_pack_cannot_remember_the_last_build() {
    let pack = Pack::load(named("remembers"), "remembers.wasm").unwrap();
    let first = ask(&pack, QUICK).unwrap();
    assert_eq!(ask(&pack, QUICK).as_ref(), Ok(&first));
    // nor on the same thread, where a whole run is wrapped in one
    let again = thou::packs::on_deep_stack(|| [ask(&pack, QUICK), ask(&pack, QUICK)]).unwrap();
    assert_eq!(again, [Ok(first.clone()), Ok(first)]);
}

#[test]
fn a_loop_is_stopped_by_what_it_did_and_not_by_the_clock() {
    for name in ["loops", "loops-at-the-start", "fills-memory"] {
        let fault = || run(name, named(name), QUICK).unwrap_err().fault;
        assert_eq!(fault(), Fault::OutOfFuel(QUICK.fuel), "{name}");
        assert_eq!(fault(), Fault::OutOfFuel(QUICK.fuel), "{name}, again");
    }
    // with fuel for years, the clock is all there is
    let endless = Limits { fuel: u64::MAX, seconds: 1, ..QUICK };
    let fault = run("loops", named("loops"), endless).unwrap_err().fault;
    assert_eq!(fault.to_string(), "it was stopped after 1 seconds, the longest that one answer may take");
}

#[test]
fn an_answer_has_room_far_below_the_limits() {
    let good = Pack::load(named("good"), "good.wasm").unwrap();
    let few = Limits { fuel: 1_000, memory: 128 * 1024, returned: 1_000, items: 1, ..QUICK };
    assert!(ask(&good, few).is_ok());
    let said = |limits: Limits| ask(&good, limits).unwrap_err().fault;
    assert_eq!(said(Limits { fuel: 10, ..few }), Fault::OutOfFuel(10));
    assert_eq!(said(Limits { memory: 1 << 15, ..few }), Fault::OutOfMemory(1 << 15));
    assert!(matches!(said(Limits { returned: 100, ..few }), Fault::TooMuchReturned(_)));
    assert!(matches!(said(Limits { items: 0, ..few }), Fault::TooMuchReturned(_)));
}

#[test]
fn every_page_is_counted() {
    for limit in [1 << 20, QUICK.memory] {
        for name in ["eats-memory", "starts-too-big", "huge-table"] {
            let fault = run(name, named(name), Limits { memory: limit, ..QUICK }).unwrap_err().fault;
            assert_eq!(fault, Fault::OutOfMemory(limit), "{name}");
        }
    }
}

#[test]
fn a_file_cut_short_is_damaged_wherever_it_is_cut() {
    let whole = named("good");
    for end in (9..whole.len()).step_by(7) {
        // what is cut off at a section's end is a smaller component, which lacks its manifest
        let fault = Pack::load(whole[..end].to_vec(), "cut.wasm").unwrap_err().fault;
        assert!(matches!(fault, Fault::Damaged(_) | Fault::NoManifest), "{end}: {fault}");
    }
}

#[test]
fn every_byte_of_a_pack_may_be_wrong() {
    let whole = named("good");
    for at in 8..whole.len() {
        let mut bytes = whole.clone();
        bytes[at] ^= 0x55;
        // whatever it becomes, it is an answer or a fault, and never the end of the program
        if let Ok(pack) = Pack::load(bytes, "bent.wasm") {
            let _ = ask(&pack, QUICK);
        }
    }
}

#[test]
fn a_manifest_is_there_once_and_is_one() {
    let bare = component(wat::parse_file(folder().join("good.wat")).unwrap());
    let told = |bytes: Vec<u8>| Pack::load(bytes, "x.wasm").unwrap_err().fault.to_string();
    assert_eq!(told(bare.clone()), "it has no manifest (no custom section `thou-manifest`)");
    assert_eq!(
        told(with_manifest(bare.clone(), "{")),
        "its manifest cannot be used: it is not JSON: EOF while parsing an object at line 1 column 1"
    );
    let twice = with_manifest(with_manifest(bare, "{}"), "{}");
    assert_eq!(told(twice), "its manifest cannot be used: there are two of them");
}

#[test]
fn what_is_too_big_is_not_even_read() {
    let file = std::env::temp_dir().join(format!("thou-too-big-{}.wasm", std::process::id()));
    std::fs::File::create(&file).unwrap().set_len(65 << 20).unwrap();
    let fault = thou::packs::load_file(&file).unwrap_err().fault;
    std::fs::remove_file(&file).unwrap();
    assert_eq!(fault.to_string(), "it is 65 MB, and more than 64 MB is not compiled");
}

#[test]
fn nothing_is_compiled_into_wasmtime_that_no_pack_needs() {
    // most of its advisories sit in what is left out here: async, collection, threads, Winch, WASI, its own cache
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let tree = std::process::Command::new(cargo)
        .args(["tree", "--offline", "--package", "thou", "--depth", "1", "--prefix", "none", "--format", "{lib} {f}"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .unwrap();
    let tree = String::from_utf8(tree.stdout).unwrap();
    let wasmtime: Vec<&str> = tree.lines().filter(|line| line.starts_with("wasmtime ")).collect();
    assert_eq!(wasmtime, ["wasmtime component-model,cranelift,once_cell,runtime,std,wasmtime-jit-icache-coherence"]);
}
