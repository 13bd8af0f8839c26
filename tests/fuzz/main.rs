//! Random input to everything that takes input from others: files offered as packs, packs' answers, sheets, house tables.
//!
//! Each run has a number, and the number alone decides what it does, so a finding is repeated by its number. A short
//! pass is part of the tests; `THOU_FUZZ_RUNS` makes it longer and `THOU_FUZZ_FROM` starts it elsewhere (README.md).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::print_stderr)]

mod answers;
mod bytes;
mod holds;
mod packs;
mod sheets;
mod tables;
mod trees;

use fastrand::Rng;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

/// Where inputs that found something are kept.
fn seeds(target: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/seeds").join(target)
}

/// The kept inputs of a target, in the order of their names.
fn kept(target: &str) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(seeds(target)).into_iter().flatten().map(|e| e.unwrap().path()).collect();
    files.sort();
    files.into_iter().map(|f| (f.display().to_string(), std::fs::read(&f).unwrap())).collect()
}

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok().map(|n| n.parse().unwrap_or_else(|_| panic!("{name}={n} is no number")))
}

/// Runs a target so many times; every run that goes wrong is told with its number, up to a handful.
fn run(target: &str, few: u64, one: impl Fn(&mut Rng)) {
    let from = number("THOU_FUZZ_FROM").unwrap_or(0);
    let runs = number("THOU_FUZZ_RUNS").unwrap_or(few);
    let mut wrong = Vec::new();
    for run in from..from + runs {
        let mut rng = Rng::with_seed(run);
        if let Err(panic) = catch_unwind(AssertUnwindSafe(|| one(&mut rng))) {
            let words = panic
                .downcast_ref::<String>()
                .cloned()
                .or_else(|| panic.downcast_ref::<&str>().map(|s| (*s).to_owned()));
            wrong.push(format!("run {run}: {}", words.unwrap_or_default()));
            if wrong.len() >= 5 {
                break;
            }
        }
    }
    eprintln!("{target}: {runs} runs from {from}, {} wrong, {} MB at the most", wrong.len(), holds::peak());
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    assert!(holds::peak() < holds::MOST_MB, "{} MB", holds::peak());
}

#[test]
fn any_bytes_as_a_pack() {
    for (name, bytes) in kept("bytes") {
        eprintln!("{name}");
        packs::load(&bytes);
    }
    run("bytes", 20_000, |rng| drop(packs::load(&bytes::any(rng))));
}

#[test]
fn packs_that_were_tampered_with() {
    let real = packs::real();
    for (name, bytes) in kept("packs") {
        eprintln!("{name}");
        packs::ask(&bytes);
    }
    run("packs", 1_500, |rng| packs::tampered(rng, &real));
}

#[test]
fn answers_of_every_shape() {
    let bench = answers::Benches::new();
    for number in answers::KEPT {
        answers::one(&mut Rng::with_seed(*number), &bench);
    }
    run("answers", 300, |rng| answers::one(rng, &bench));
}

#[test]
fn sheets_that_were_tampered_with() {
    let real = sheets::real();
    let packs = thou_tests::builtin();
    for (name, bytes) in kept("sheets") {
        eprintln!("{name}");
        sheets::through(&String::from_utf8_lossy(&bytes), &packs, true);
    }
    run("sheets", 60, |rng| sheets::tampered(rng, &real, &packs));
}

#[test]
fn tables_that_were_tampered_with() {
    let real = tables::Tables::new();
    for (name, bytes) in kept("tables") {
        eprintln!("{name}");
        tables::through(&mut Rng::with_seed(0), &String::from_utf8_lossy(&bytes), &real.packs, true);
    }
    run("tables", 400, |rng| tables::tampered(rng, &real));
    let answered = tables::ANSWERED.load(std::sync::atomic::Ordering::Relaxed);
    eprintln!("tables: {answered} answers");
    assert!(answered >= 200 || number("THOU_FUZZ_RUNS").is_some(), "{answered} answers");
}
