//! Files offered as packs: looked at, compiled now and then, and asked.

use super::{bytes, holds, trees};
use fastrand::Rng;
use serde_json::Value;
use thou::packs::{Given, LoadedPack, MANIFEST_SECTION, RunLimits};
use thou_tests::{file, made};

/// Little enough that a loop is soon over.
const QUICK: RunLimits = RunLimits { fuel: 5_000_000, ..RunLimits::DEFAULT };

/// Loads it; what is said of it is fit for a terminal.
pub fn load(bytes: &[u8]) -> Option<LoadedPack> {
    match LoadedPack::load(bytes.to_vec(), "fuzz.wasm") {
        Ok(pack) => {
            holds::plain(&serde_json::to_string(&pack.manifest).unwrap());
            Some(pack)
        }
        Err(fault) => {
            told(&fault.to_string());
            None
        }
    }
}

fn told(text: &str) {
    holds::page(text);
    assert!(text.len() < 6_000, "{} bytes are told of one pack", text.len());
    assert_eq!(text.matches("For its author:").count().min(1), 1, "{text}");
}

/// Loads it, and where it can be loaded, compiles it and asks all its rules with nothing read.
pub fn ask(bytes: &[u8]) {
    let Some(pack) = load(bytes) else { return };
    let rules: Vec<u32> = (0..pack.manifest.rules.len() as u32).collect();
    let starts: Vec<u32> = (0..=pack.manifest.facts.len() as u32).collect();
    let values = vec![0.05; pack.manifest.facts.len()];
    let given = Given { starts: &starts, values: &values, places: &|_| Some(1) };
    let once = || pack.assess_within(&rules, &given, &QUICK);
    match once() {
        Ok(answer) => assert_eq!(once().as_ref(), Ok(&answer), "the same question, another answer"),
        Err(fault) => told(&fault.to_string()),
    }
}

/// Packs that work: the built-in ones, and a small one that compiles in no time.
pub fn real() -> Vec<Vec<u8>> {
    let built = ["clearances", "freshen", "usage-class"]
        .map(|n| std::fs::read(file(&format!("rulepacks/built/{n}.wasm"))).unwrap());
    let text = std::fs::read_to_string(file("tests/hostile/manifest.json")).unwrap().replace("\"?\"", "\"small\"");
    let small = made::good(&serde_json::from_str(&text).unwrap());
    std::iter::once(small).chain(built).collect()
}

/// Bytes changed, sections changed about, or the manifest changed as a tree.
pub fn tampered(rng: &mut Rng, real: &[Vec<u8>]) {
    // the small one most of the time: it is compiled in a thousandth of the time
    let small = rng.u8(..8) != 0;
    let whole = if small { &real[0] } else { &real[rng.usize(1..real.len())] };
    let changed = match rng.u8(..4) {
        0 => bytes::bent(rng, whole),
        1 => sections(rng, whole, real),
        _ => manifest(rng, whole),
    };
    if small || rng.u8(..64) == 0 { ask(&changed) } else { drop(load(&changed)) }
}

/// Where the sections at the top begin and end, with their headers.
fn cuts(bytes: &[u8]) -> Vec<std::ops::Range<usize>> {
    let (mut at, mut all) = (8, Vec::new());
    while at < bytes.len() {
        let start = at;
        let (mut size, mut shift) = (0_usize, 0);
        at += 1;
        while let Some(byte) = bytes.get(at) {
            size |= usize::from(byte & 0x7f) << shift;
            shift += 7;
            at += 1;
            if byte & 0x80 == 0 || shift > 28 {
                break;
            }
        }
        at = (at + size).min(bytes.len());
        all.push(start..at);
    }
    all
}

/// Some sections gone, twice, elsewhere, or taken from another pack.
fn sections(rng: &mut Rng, whole: &[u8], real: &[Vec<u8>]) -> Vec<u8> {
    let mut pieces: Vec<Vec<u8>> = cuts(whole).into_iter().map(|r| whole[r].to_vec()).collect();
    for _ in 0..=rng.usize(..3) {
        if pieces.is_empty() {
            break;
        }
        let (at, to) = (rng.usize(..pieces.len()), rng.usize(..pieces.len()));
        match rng.u8(..5) {
            0 => drop(pieces.remove(at)),
            1 => pieces.swap(at, to),
            2 => pieces.insert(at, pieces[to].clone()),
            3 => {
                let other = &real[rng.usize(..real.len())];
                let from = cuts(other);
                let piece = other[from[rng.usize(..from.len())].clone()].to_vec();
                pieces.insert(at, piece);
            }
            _ => pieces[at] = bytes::bent(rng, &pieces[at]),
        }
    }
    [&whole[..8], &pieces.concat()].concat()
}

/// The manifest changed as a tree, or a few of its bytes.
fn manifest(rng: &mut Rng, whole: &[u8]) -> Vec<u8> {
    let name = MANIFEST_SECTION.as_bytes();
    let is_it = |r: &std::ops::Range<usize>| whole[r.clone()].windows(name.len()).take(12).any(|w| w == name);
    let Some(section) = cuts(whole).into_iter().find(is_it) else { return whole.to_vec() };
    let at = whole[section.clone()].windows(name.len()).position(|w| w == name).unwrap();
    let text = &whole[section.start + at + name.len()..section.end];
    let bare = [&whole[..section.start], &whole[section.end..]].concat();
    let mut tree: Value = serde_json::from_slice(text).unwrap();
    trees::change(rng, &mut tree);
    let mut text = tree.to_string();
    if rng.u8(..8) == 0 {
        text = String::from_utf8_lossy(&bytes::bent(rng, text.as_bytes())).into_owned();
    }
    made::with_manifest(bare, &text)
}
