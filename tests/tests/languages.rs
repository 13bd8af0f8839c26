//! One rule pack in several languages: the same answers to the last bit, and the same pages.
//!
//! The packs in Rust and C are committed. Those in JavaScript and Python are 12 and 18 MB, so they are built by
//! rulepacks/examples/build.sh into the folder that THOU_EXAMPLES names; without it they are left out, and said so.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{CheckedAnswer, LoadedPack};
use thou::report::{self, Bench, Paint};
use thou_contract::System;
use thou_tests::answers::{Handed, text};
use thou_tests::{TODAY, file, samples, sheet_of, thou};

const RULES: [u32; 2] = [0, 1];

/// Every built pack that is there, by its language.
fn packs() -> BTreeMap<&'static str, PathBuf> {
    let kept = file("tests/compat/rules-1.0");
    let mut packs = BTreeMap::from([("Rust", kept.join("ring-gaps-rust.wasm")), ("C", kept.join("ring-gaps-c.wasm"))]);
    match std::env::var_os("THOU_EXAMPLES") {
        Some(folder) => {
            for (language, name) in
                [("JavaScript", "javascript"), ("Python", "python"), ("Rust, built now", "rust"), ("C, built now", "c")]
            {
                packs.insert(language, Path::new(&folder).join(format!("ring-gaps-{name}.wasm")));
            }
        }
        None => println!("skipped: JavaScript and Python (THOU_EXAMPLES does not say where they are built)"),
    }
    packs
}

fn loaded() -> Vec<(&'static str, LoadedPack)> {
    let load = |file: &Path| thou::packs::load_file(file).unwrap_or_else(|f| panic!("{f}"));
    packs().into_iter().map(|(language, file)| (language, load(&file))).collect()
}

/// The rules as the Rust crate has them, outside the sandbox.
fn native(handed: &Handed) -> CheckedAnswer {
    let facts = thou_sdk::Facts::new(&handed.starts, &handed.values);
    ring_gaps::PACK.assess(&RULES, &facts).plain(&ring_gaps::PACK.manifest()).unwrap()
}

/// Facts at random, odd ones among them: absent, not read, words that the pack does not know, figures out of range,
/// infinite or negative.
fn random(rng: &mut fastrand::Rng) -> Handed {
    let mut handed = Handed::default();
    let word = |rng: &mut fastrand::Rng, words: i32| match rng.u8(..10) {
        0 => vec![],
        1 => vec![-1.0],
        _ => vec![f64::from(rng.i32(0..words))],
    };
    let number = |rng: &mut fastrand::Rng, least: f64, most: f64| match rng.u8(..40) {
        0 => f64::NAN,
        1 => f64::INFINITY,
        2 => -most,
        3 => 0.0,
        _ => least + (most - least) * rng.f64(),
    };
    let maybe = |rng: &mut fastrand::Rng, least: f64, most: f64| {
        if rng.bool() { vec![number(rng, least, most)] } else { vec![] }
    };
    handed.push(&word(rng, 3));
    handed.push(&word(rng, 4));
    handed.push(&[number(rng, 0.045, 0.165)]);
    let bores: Vec<f64> = (0..8).map(|_| if rng.u8(..5) == 0 { f64::NAN } else { 0.08 + 0.04 * rng.f64() }).collect();
    match rng.u8(..4) {
        0 => handed.push(&[]),
        1 => handed.push(&[&bores[..7], &[number(rng, 0.08, 0.12)]].concat()),
        _ => handed.push(&bores),
    }
    handed.push(&word(rng, 3));
    handed.push(&if rng.u8(..4) == 0 { vec![number(rng, 0.003, 0.007)] } else { vec![] });
    handed.push(&maybe(rng, 1e-4, 8e-4));
    // an argument that is infinite is refused whoever gives it, and the host has no such power
    handed.push(&maybe(rng, 3e4, 2e5).into_iter().filter(|p| p.is_finite()).collect::<Vec<_>>());
    handed
}

#[test]
fn every_language_gives_the_same_bits_over_facts_at_random() {
    let seed = 0x7468_6f75;
    let loaded = loaded();
    for (language, pack) in &loaded {
        assert_eq!(pack.manifest, ring_gaps::PACK.manifest(), "{language}: another manifest than the crate's");
    }
    let mut rng = fastrand::Rng::with_seed(seed);
    let mut seen = BTreeMap::new();
    for round in 0..3_000 {
        let handed = random(&mut rng);
        let wanted = text(&native(&handed));
        for line in wanted.lines().filter(|l| l.starts_with("rule ")) {
            *seen.entry(line.to_owned()).or_insert(0) += 1;
        }
        for (language, pack) in &loaded {
            let answer = handed.ask(pack, &RULES).unwrap_or_else(|f| panic!("{language}: {f}"));
            assert_eq!(text(&answer), wanted, "{language}, round {round} of seed {seed:#x}: {handed:?}");
        }
    }
    // all that the two rules can come to was among them
    let all = ["answered", "cannot-say, reason 0", "cannot-say, reason 1", "cannot-say, reason 2"].map(|s| (0, s));
    let all = all.iter().chain(&[(1, "answered"), (1, "clear"), (1, "not-applicable, reason 1")]);
    for (rule, state) in all.chain(&[(1, "cannot-say, reason 0")]) {
        let count = seen.get(&format!("rule {rule}: {state}"));
        assert!(count.is_some_and(|c| *c > 50), "rule {rule}: {state}: {count:?} in {seen:?}");
    }
}

#[test]
fn every_language_gives_the_same_pages_of_every_sample_build() {
    let packs = loaded();
    let mut spoke = BTreeSet::new();
    for sample in ["sample-builds", "sample-builds/planted", "sample-builds/right"].iter().flat_map(|f| samples(f)) {
        let sheet = sheet_of(&sample);
        let mut first: Option<(&str, [String; 3])> = None;
        for (language, pack) in &packs {
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            let all = [&thou_tests::builtin()[..], std::slice::from_ref(pack)].concat();
            let verdict = thou::verdict::judge(&sheet, &facts, &all, Some(TODAY));
            assert_eq!(verdict.lost, [], "{language}, {sample}");
            let names = thou_tests::named(&all);
            let bench = Bench { sheet: &sheet, facts: &facts, system: System::Inch, paint: Paint::Plain, like: None };
            let check = report::check::text(&bench, &verdict, &names, false);
            if check.contains("ring-gaps/") {
                spoke.insert(sample.clone());
            }
            let pages = [check, report::spec::text(&bench, &verdict, &names), format!("{:?}", verdict.windows)];
            match &first {
                None => first = Some((language, pages)),
                Some((other, wanted)) => assert!(*wanted == pages, "{sample}: {language} differs from {other}"),
            }
        }
    }
    assert!(spoke.len() > 10, "the packs spoke on {spoke:?} alone");
}

#[test]
fn the_program_prints_the_same_page_whichever_language_a_pack_is_in() {
    let said: BTreeMap<&str, (u8, String, String)> = packs()
        .into_iter()
        .map(|(language, file)| {
            let run = thou(&["check", "sample-builds/bracket.json", "--pack", &file.display().to_string()]);
            // the files differ, and so do their digests
            let page: Vec<&str> = run.out.lines().filter(|l| l.trim().len() != 64).collect();
            (language, (run.exit, page.join("\n"), run.err))
        })
        .collect();
    let (exit, page, err) = &said["C"];
    assert_eq!((*exit, err.as_str()), (0, ""), "{page}");
    for (language, run) in &said {
        assert!(run == &said["C"], "{language} prints another page than C:\n{}", run.1);
    }
}
