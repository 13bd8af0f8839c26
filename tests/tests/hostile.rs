//! Packs that misbehave, from `tests/hostile/` and from the lists beside this: each costs its own answer and nothing
//! else, and the words that its user reads are those of the file of its name in `tests/hostile/`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "hostile/code.rs"]
mod code;
#[path = "hostile/files.rs"]
mod files;
#[path = "hostile/words.rs"]
mod words;

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use thou::packs::{CheckedAnswer, Given, LoadedPack, PackFault, PackFaultKind, RunLimits};
use thou_tests::made::{component, with_manifest};
use thou_tests::thou;

/// Enough for an answer, and little enough that a test of many packs is quick.
const QUICK: RunLimits = RunLimits { fuel: 5_000_000, ..RunLimits::DEFAULT };

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("hostile")
}

/// Every hostile pack: its name and what stands in for its .wasm file.
fn all() -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder()).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    let kind = |f: &Path| f.extension().unwrap_or_default().to_string_lossy().into_owned();
    let packs = files.iter().filter(|f| ["wat", "bin"].contains(&kind(f).as_str()));
    let files_kept = packs.map(|f| (f.file_stem().unwrap().to_string_lossy().into_owned(), bytes(f)));
    let lists = [code::all(), words::all(), files::all()].concat();
    files_kept.chain(lists.into_iter().map(|(name, bytes)| (name.to_owned(), bytes))).collect()
}

/// The manifest that every hostile pack has which has none of its own.
fn manifest() -> Value {
    let text = std::fs::read_to_string(folder().join("manifest.json")).unwrap();
    serde_json::from_str(&text.replace("\"?\"", "\"hostile\"")).unwrap()
}

/// A pack from the text of its core module.
fn core(text: &str) -> Vec<u8> {
    with_manifest(component(wat::parse_str(text).unwrap_or_else(|e| panic!("{e}\n{text}"))), &manifest().to_string())
}

/// The component that does nothing wrong, without a manifest.
fn well_behaved() -> Vec<u8> {
    component(wat::parse_file(folder().join("good.wat")).unwrap())
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
fn run(name: &str, bytes: Vec<u8>, limits: RunLimits) -> Result<CheckedAnswer, PackFault> {
    ask(&LoadedPack::load(bytes, &format!("{name}.wasm"))?, limits)
}

fn ask(pack: &LoadedPack, limits: RunLimits) -> Result<CheckedAnswer, PackFault> {
    let places = |fact: &str| Some(if fact == "piston-to-wall" { 8 } else { 1 });
    let given = Given { starts: &[0, 1], values: &[0.105_537], places: &places };
    pack.assess_within(&[0, 1], &given, &limits)
}

#[test]
fn each_says_what_its_user_reads_and_costs_the_good_pack_nothing() {
    let good = LoadedPack::load(named("good"), "good.wasm").unwrap();
    let answer = ask(&good, QUICK).unwrap();
    assert_eq!(answer.windows[0].what.low, Some(8e-5));
    let mut wrong = Vec::new();
    for (name, bytes) in all() {
        let said = match run(&name, bytes, RunLimits::DEFAULT) {
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
    let loud = LoadedPack::load(named("escape-codes-in-manifest"), "loud.wasm").unwrap();
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
    let pack = LoadedPack::load(named("remembers"), "remembers.wasm").unwrap();
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
        assert_eq!(fault(), PackFaultKind::OutOfFuel(QUICK.fuel), "{name}");
        assert_eq!(fault(), PackFaultKind::OutOfFuel(QUICK.fuel), "{name}, again");
    }
    // what costs the pack an instruction and the host far more has an end of its own
    let every = all();
    for name in ["asks-on-for-memory", "asks-on-for-a-table", "says-on-and-on"] {
        let bytes = &every.iter().find(|(n, _)| n == name).unwrap().1;
        let fault =
            || run(name, bytes.clone(), RunLimits { fuel: u64::MAX, seconds: 3_600, ..QUICK }).unwrap_err().fault;
        assert_eq!(fault(), PackFaultKind::AskedOn(1_000), "{name}");
    }
    // with fuel for years, the clock is all there is
    let endless = RunLimits { fuel: u64::MAX, seconds: 1, ..QUICK };
    let fault = run("loops", named("loops"), endless).unwrap_err().fault;
    assert_eq!(fault.to_string(), "it was stopped after 1 seconds, the longest that one answer may take");
}

#[test]
fn an_answer_has_room_far_below_the_limits() {
    let good = LoadedPack::load(named("good"), "good.wasm").unwrap();
    let few = RunLimits { fuel: 1_000, memory: 128 * 1024, returned: 1_000, items: 8, ..QUICK };
    assert!(ask(&good, few).is_ok());
    let said = |limits: RunLimits| ask(&good, limits).unwrap_err().fault;
    assert_eq!(said(RunLimits { fuel: 10, ..few }), PackFaultKind::OutOfFuel(10));
    assert_eq!(said(RunLimits { memory: 1 << 15, ..few }), PackFaultKind::OutOfMemory(1 << 15));
    assert!(matches!(said(RunLimits { returned: 100, ..few }), PackFaultKind::TooMuchReturned(_)));
    assert!(matches!(said(RunLimits { items: 7, ..few }), PackFaultKind::TooMuchReturned(_)));
}

#[test]
fn every_page_is_counted() {
    for limit in [1 << 20, QUICK.memory] {
        for name in ["eats-memory", "starts-too-big", "huge-table"] {
            let fault = run(name, named(name), RunLimits { memory: limit, ..QUICK }).unwrap_err().fault;
            assert_eq!(fault, PackFaultKind::OutOfMemory(limit), "{name}");
        }
    }
}

#[test]
fn a_file_cut_short_is_damaged_wherever_it_is_cut() {
    let whole = named("good");
    for end in (9..whole.len()).step_by(7) {
        // what is cut off at a section's end is a smaller component, which lacks its manifest
        let fault = LoadedPack::load(whole[..end].to_vec(), "cut.wasm").unwrap_err().fault;
        assert!(matches!(fault, PackFaultKind::Damaged(_) | PackFaultKind::NoManifest), "{end}: {fault}");
    }
}

#[test]
fn every_byte_of_a_pack_may_be_wrong() {
    let whole = named("good");
    for at in 8..whole.len() {
        let mut bytes = whole.clone();
        bytes[at] ^= 0x55;
        // whatever it becomes, it is an answer or a fault, and never the end of the program
        if let Ok(pack) = LoadedPack::load(bytes, "bent.wasm") {
            let _ = ask(&pack, QUICK);
        }
    }
}

#[test]
fn a_manifest_is_there_once_and_is_one() {
    let bare = component(wat::parse_file(folder().join("good.wat")).unwrap());
    let told = |bytes: Vec<u8>| LoadedPack::load(bytes, "x.wasm").unwrap_err().fault.to_string();
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
        .args([
            "tree",
            "--offline",
            "--package",
            "thou-sandbox",
            "--depth",
            "1",
            "--prefix",
            "none",
            "--format",
            "{lib} {f}",
        ])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .unwrap();
    let tree = String::from_utf8(tree.stdout).unwrap();
    let wasmtime: Vec<&str> = tree.lines().filter(|line| line.starts_with("wasmtime ")).collect();
    assert_eq!(wasmtime, ["wasmtime component-model,cranelift,once_cell,runtime,std,wasmtime-jit-icache-coherence"]);
}

/// How many packs misbehave, and that each is told apart from the others by its name.
#[test]
fn every_name_is_there_once() {
    let mut names: Vec<String> = all().into_iter().map(|(name, _)| name).collect();
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count);
    assert!(count > 150, "{count}");
    let texts = std::fs::read_dir(folder()).unwrap().flatten().map(|e| e.path());
    let texts = texts.filter(|f| f.extension().is_some_and(|e| e == "txt"));
    let orphans: Vec<PathBuf> =
        texts.filter(|f| !names.contains(&f.file_stem().unwrap().to_string_lossy().into_owned())).collect();
    assert!(orphans.is_empty(), "{orphans:?}");
}

#[test]
fn what_is_said_fits_a_page_and_speaks_to_both_readers() {
    for (name, _) in all() {
        let told = std::fs::read_to_string(folder().join(format!("{name}.txt"))).unwrap();
        for line in told.lines() {
            let longest = line.split_whitespace().map(|w| w.chars().count()).max().unwrap_or(0);
            assert!(line.chars().count() <= 80 || longest > 60, "{name}: {line}");
        }
        assert_eq!(thou::packs::clean::clean(&told.replace('\n', "")), told.replace('\n', ""), "{name}");
        let good = told == "answers like the good pack\n";
        assert!(good || told.contains("\n  For its author: ") && told.starts_with("pack "), "{name}: {told}");
    }
}

/// The check of a sample beside a hostile pack is, but for that pack's own fault, the check without it.
#[test]
fn the_other_packs_verdicts_are_the_same_bytes() {
    let scratch = tempfile::tempdir().unwrap();
    let sample = "sample-builds/bracket.json";
    let check = |pack: Option<&str>| -> Value {
        let with: &[&str] = &pack.map_or(Vec::new(), |file| vec!["--pack", file]);
        let run = thou(&[&["check", sample, "--format", "json"], with].concat());
        assert_eq!(run.err, "", "{pack:?}");
        serde_json::from_str(&run.out).unwrap_or_else(|e| panic!("{pack:?}: {e}"))
    };
    let strip = |mut check: Value, id: &str| {
        for key in ["faults", "packs", "exit-status", "summary"] {
            check.as_object_mut().unwrap().remove(key);
        }
        let own = format!("{id}/");
        check["items"].as_array_mut().unwrap().retain(|i| !i["rule"].as_str().unwrap().starts_with(&own));
        check.to_string()
    };
    let alone = strip(check(None), "hostile");
    for (name, bytes) in all() {
        let file = scratch.path().join(format!("{name}.wasm"));
        std::fs::write(&file, bytes).unwrap();
        let beside = check(file.to_str());
        // who loads a pack that replaces or adds something wants that; these do neither
        let faults = beside["faults"].as_array().unwrap().len();
        let told = std::fs::read_to_string(folder().join(format!("{name}.txt"))).unwrap();
        assert_eq!(faults, usize::from(told.starts_with("pack ")), "{name}: {}", beside["faults"]);
        let id = beside["packs"].as_array().unwrap().last().unwrap()["id"].as_str().unwrap().to_owned();
        let id =
            if ["clearances", "freshen", "usage-class"].contains(&id.as_str()) { "hostile".to_owned() } else { id };
        assert!(strip(beside, &id) == alone, "{name} changed what another pack says");
        std::fs::remove_file(&file).unwrap();
    }
}

/// Whatever a manifest says, every command shows it as plain text within a page.
#[test]
fn words_that_would_move_a_terminal_are_shown_as_words() {
    let scratch = tempfile::tempdir().unwrap();
    for (name, before, _) in words::LOUD {
        let bytes = words::all().into_iter().find(|(n, _)| *n == name).unwrap().1;
        let file = scratch.path().join(format!("{name}.wasm"));
        std::fs::write(&file, bytes).unwrap();
        let with = ["--pack", file.to_str().unwrap()];
        let mut pages = vec![thou(&[&["pack", "list"][..], &with].concat())];
        for rule in ["hostile/piston-to-wall", "hostile/deck", "hostile/look"] {
            pages.push(thou(&[&["explain", rule][..], &with].concat()));
        }
        for page in ["check", "spec", "plan"] {
            pages.push(thou(&[&[page, "sample-builds/bracket.json"][..], &with].concat()));
            pages.push(thou(&[&[page, "sample-builds/bracket.json", "--format", "json"][..], &with].concat()));
        }
        let visible = thou::packs::clean::clean(before);
        let mut shown = 0;
        for page in pages {
            assert_eq!(page.err, "", "{name}");
            for line in page.out.lines() {
                assert_eq!(thou::packs::clean::clean(line), line, "{name}");
            }
            shown += usize::from(page.out.contains(&visible));
        }
        // as words they stay: nothing is hidden from the reader either
        assert!(shown >= 5, "{name}: {shown}");
    }
}

/// The most memory that the program may take beside any pack, in MB: the pack's own 128, what it hands back, and what
/// the compiler takes for the heaviest functions that it is given.
const MOST_MB: u64 = 800;
/// The longest that a pack may hold it up, in seconds: its compilation and one answer, each with its own limit.
const MOST_SECONDS: u64 = 120 + 30;

/// Each in a process of its own, whose greatest memory is then known.
#[test]
#[cfg(target_os = "linux")]
fn what_a_pack_costs_is_bounded() {
    let scratch = tempfile::tempdir().unwrap();
    let (mut most, mut longest) = ((0, String::new()), (0, String::new()));
    for (name, bytes) in all().into_iter().chain(files::heavy().into_iter().map(|(n, b)| (n.to_owned(), b))) {
        let file = scratch.path().join(format!("{name}.wasm"));
        std::fs::write(&file, bytes).unwrap();
        let child = Command::new(std::env::current_exe().unwrap())
            .args(["--ignored", "--exact", "alone", "--nocapture", "--test-threads=1"])
            .env("THOU_HOSTILE", &file)
            .env("THOU_NO_CACHE", "1")
            .stderr(Stdio::null())
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&child.stdout).into_owned();
        let cost = said
            .lines()
            .find_map(|l| l.split_once("cost "))
            .unwrap_or_else(|| panic!("{name} took the program with it: {said}"))
            .1;
        let (mb, seconds) = cost.split_once(' ').unwrap();
        let (mb, seconds): (u64, u64) = (mb.parse().unwrap(), seconds.trim().parse().unwrap());
        assert!(mb < MOST_MB && seconds < MOST_SECONDS, "{name}: {mb} MB, {seconds} s");
        if seconds > 1 {
            println!("{name}: {mb} MB, {seconds} s");
        }
        most = most.max((mb, name.clone()));
        longest = longest.max((seconds, name));
        std::fs::remove_file(&file).unwrap();
    }
    println!("most memory: {most:?}; longest: {longest:?}");
}

/// One pack in this process; for [`what_a_pack_costs_is_bounded`], which starts it.
#[test]
#[ignore = "started by another test, in a process of its own"]
fn alone() {
    let file = std::env::var("THOU_HOSTILE").expect("THOU_HOSTILE names the file of a pack");
    let start = std::time::Instant::now();
    if let Ok(pack) = thou::packs::load_file(Path::new(&file)) {
        let _ = ask(&pack, QUICK);
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let peak = status.lines().find_map(|l| l.strip_prefix("VmHWM:")).unwrap();
    let kb: u64 = peak.split_whitespace().next().unwrap().parse().unwrap();
    println!("cost {} {}", kb / 1024, start.elapsed().as_secs());
}

/// Compiled code is run as it is, so it is never taken from a file, not even this program's own.
#[test]
#[cfg(unix)]
fn compiled_code_in_place_of_a_pack_is_refused() {
    let cache = tempfile::tempdir().unwrap();
    let sample = thou_tests::file("sample-builds/single.json");
    let child = Command::new(std::env::current_exe().unwrap())
        .args(["--ignored", "--exact", "fills_the_cache"])
        .env("XDG_CACHE_HOME", cache.path())
        .env_remove("THOU_NO_CACHE")
        .env("THOU_HOSTILE", sample)
        .output()
        .unwrap();
    assert!(child.status.success());
    let kept: Vec<PathBuf> =
        std::fs::read_dir(cache.path().join("thou/packs-cache")).unwrap().map(|e| e.unwrap().path()).collect();
    assert!(kept.len() >= 3, "{kept:?}");
    for file in kept {
        let bytes = std::fs::read(&file).unwrap();
        // as the cache keeps it, behind its digest, and as the compiler wrote it
        let fault = |bytes: &[u8]| LoadedPack::load(bytes.to_vec(), "x.wasm").unwrap_err().fault.to_string();
        assert!(fault(&bytes).starts_with("it is not a WebAssembly component but "), "{}", fault(&bytes));
        let told = "it is not a WebAssembly component but a program or compiled code of this kind of machine (ELF)";
        assert_eq!(fault(&bytes[32..]), told);
    }
}

#[test]
#[ignore = "started by another test, in a process of its own"]
fn fills_the_cache() {
    let sheet = std::env::var("THOU_HOSTILE").expect("THOU_HOSTILE names a sheet");
    assert!(thou(&["check", &sheet]).exit != 2);
}

/// As many windows as an answer may hold, all missed, each with a size to solve for through the dearest model there is:
/// the whole check ends, and says of the others what it would have said.
#[test]
fn a_pack_that_misses_everywhere_does_not_hold_up_the_check() {
    use thou::packs::seam::{Raw, stand_in};
    use thou::packs::{OutcomeState, RuleOutcome, Said, Window};
    let mut m = manifest();
    m["rules"][0]["judges"] = serde_json::json!(["rod-bearing.film.modelled", "piston-to-wall"]);
    let remedy =
        serde_json::json!({ "words": "go to {solve}", "solve": { "fact": "rod-journal.diameter", "may": "either" } });
    m["rules"][0]["texts"][0] = serde_json::json!({ "words": "more", "low": remedy, "high": remedy });
    let hold = thou_contract::Level::Hold;
    let window = move |fact: u32, at: f64| {
        let what = Window::at_least(at).aim(at).levels(hold, hold).judging(thou_contract::answer::JudgedNumber(fact));
        Said { rule: 0, what, args: 0 }
    };
    let film = 2_000;
    let answer = move |ask: &[u32]| Raw {
        outcomes: ask
            .iter()
            .map(|r| RuleOutcome {
                rule: *r,
                state: if *r == 0 { OutcomeState::Answered } else { OutcomeState::Clear },
            })
            .collect(),
        windows: (0..film)
            .map(|i| window(0, 1.0 + f64::from(i)))
            .chain((0..350).map(|i| window(1, 1.0 + f64::from(i))))
            .collect(),
        ..Raw::default()
    };
    let sheet = thou_tests::sheet_of("sample-builds/bracket.json");
    let facts = thou::facts::SheetFacts::new(thou::facts::Catalogue::standard(), &sheet);
    let packs = [stand_in(serde_json::from_value(m).unwrap(), answer)];
    let start = std::time::Instant::now();
    let verdict = thou::verdict::judge(&sheet, &facts, &packs, Some(thou_tests::TODAY));
    assert!(verdict.lost.is_empty(), "{:?}", verdict.lost);
    assert!(verdict.items.len() > 4_500, "{}", verdict.items.len());
    println!("judged in {:?}", start.elapsed());
    let bench = thou::report::Bench {
        sheet: &sheet,
        facts: &facts,
        system: thou_contract::System::Inch,
        paint: thou::report::Paint::Plain,
        like: None,
    };
    let page = thou::report::check::text(&bench, &verdict, &[], false);
    println!("check in {:?}, {} lines", start.elapsed(), page.lines().count());
    let page = thou::report::spec::text(&bench, &verdict, &[]);
    println!("spec in {:?}, {} lines", start.elapsed(), page.lines().count());
    assert!(start.elapsed().as_secs() < MOST_SECONDS);
}
