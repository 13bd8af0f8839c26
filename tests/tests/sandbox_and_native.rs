//! A rule in the sandbox answers as it does natively, to the last bit: every fixture of every built-in pack.
#![allow(clippy::unwrap_used, clippy::panic)]

use thou::packs::{Given, Pack, State};
use thou_sdk::Outcome;

fn same(pack: &Pack, native: &thou_sdk::Pack) -> usize {
    assert_eq!(pack.manifest, native.manifest(), "{}: the built pack is not that of the sources", native.id);
    let folder = thou_tests::file(&format!("rulepacks/{}/fixtures", native.id));
    let mut count = 0;
    for (index, rule) in (0u32..).zip(native.rules) {
        for entry in std::fs::read_dir(folder.join(rule.id)).unwrap().flatten() {
            let fixture: serde_json::Value =
                serde_json::from_str(&std::fs::read_to_string(entry.path()).unwrap()).unwrap();
            let (starts, values) = thou_sdk::fixtures::given(native, &fixture).unwrap();
            // a fixture's lists are as long as it likes: every fact has as many places as were given, or sixteen
            let places = |_: &str| Some(32);
            let given = Given { starts: &starts, values: &values, places: &places };
            let name = entry.path().display().to_string();
            let boxed = pack.assess(&[index], &given).unwrap_or_else(|f| panic!("{name}: {f}"));
            let (outcomes, answer) = native.assess(&[index], &thou_sdk::Facts::new(&starts, &values));
            let outcome = match boxed.outcomes.first().unwrap().state {
                State::Answered => Outcome::Answered,
                State::Clear => Outcome::Clear,
                State::NotApplicable(r) => Outcome::NotApplicable(r),
                State::CannotSay(r) => Outcome::CannotSay(r),
            };
            assert_eq!(outcome, outcomes.first().unwrap().1, "{name}");
            let bits = |list: &[Option<f64>]| list.iter().map(|v| v.map(f64::to_bits)).collect::<Vec<_>>();
            let ours: Vec<_> = answer
                .windows
                .iter()
                .map(|(_, w, _)| {
                    (w.fact, w.place, bits(&[w.never_below, w.low, w.aim, w.high, w.never_above]), w.text, w.reuse)
                })
                .collect();
            let theirs: Vec<_> = boxed
                .windows
                .iter()
                .map(|w| {
                    (w.fact, w.place, bits(&[w.never_below, w.low, w.aim, w.high, w.never_above]), w.text, w.reuse)
                })
                .collect();
            assert_eq!(theirs, ours, "{name}");
            let ours: Vec<_> = answer
                .services
                .iter()
                .map(|(_, s, _)| (s.meter, s.low.to_bits(), s.nominal.to_bits(), s.high.to_bits(), s.text))
                .collect();
            let theirs: Vec<_> = boxed
                .services
                .iter()
                .map(|s| (s.meter, s.low.to_bits(), s.nominal.to_bits(), s.high.to_bits(), s.text))
                .collect();
            assert_eq!(theirs, ours, "{name}");
            let ours: Vec<_> = answer.findings.iter().map(|(_, f, _)| (f.level, f.place, f.text)).collect();
            let theirs: Vec<_> = boxed.findings.iter().map(|f| (f.level, f.place, f.text)).collect();
            assert_eq!(theirs, ours, "{name}");
            count += 1;
        }
    }
    count
}

#[test]
fn every_fixture_gives_the_same_bits_in_the_sandbox() {
    let packs = thou_tests::builtin();
    let find = |id: &str| packs.iter().find(|p| p.manifest.id == id).unwrap();
    let natives = [clearances::PACK, usage_class::PACK, freshen::PACK];
    let counts: Vec<usize> = natives.iter().map(|n| same(find(n.id), n)).collect();
    assert!(counts.iter().all(|c| *c > 100), "{counts:?}");
}

/// A pack that remembers would answer a second time otherwise; a fresh store cannot remember.
#[test]
fn the_second_answer_is_the_first() {
    let sheet = thou_tests::sheet_of("sample-builds/bracket.json");
    let (a, b) = (thou_tests::judge(&sheet), thou_tests::judge(&sheet));
    assert_eq!(a.windows, b.windows);
    assert_eq!(a.services, b.services);
}

#[test]
fn the_packs_are_as_large_as_was_promised() {
    let packs = thou_tests::builtin();
    let count = |id: &str| packs.iter().find(|p| p.manifest.id == id).unwrap().manifest.rules.len();
    assert!(count("clearances") >= 35, "{}", count("clearances"));
    assert!(count("usage-class") >= 30, "{}", count("usage-class"));
    assert!(count("freshen") >= 24, "{}", count("freshen"));
    assert!(thou::facts::Catalogue::standard().all().filter(|f| f.series.is_none()).count() >= 100);
}
