//! A rule in the sandbox answers as it does natively, to the last bit: every fixture of every built-in pack.
#![allow(clippy::unwrap_used, clippy::panic)]

use thou::packs::{Answer, Given, Pack, Said};
use thou_tests::answers::text;

/// An answer without the arguments of its texts, and these.
fn apart(answer: Answer) -> (Answer, Vec<f64>) {
    fn bare<T: Clone>(all: Vec<Said<T>>, args: &mut Vec<f64>) -> Vec<Said<T>> {
        let of = |said: Said<T>| {
            args.extend(&said.args);
            said.with(Vec::new())
        };
        all.into_iter().map(of).collect()
    }
    let mut args = Vec::new();
    let answer = Answer {
        windows: bare(answer.windows, &mut args),
        findings: bare(answer.findings, &mut args),
        services: bare(answer.services, &mut args),
        steps: bare(answer.steps, &mut args),
        ..answer
    };
    (answer, args)
}

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
            let raw = native.assess(&[index], &thou_sdk::Facts::new(&starts, &values));
            let native = raw.plain(&pack.manifest).unwrap_or_else(|f| panic!("{name}: {f}"));
            let (boxed, in_words) = apart(boxed);
            let (native, wanted) = apart(native);
            // every number is printed so that it reads back as the same bits
            assert_eq!(text(&boxed), text(&native), "{name}");
            // a power is the last bit another one in the sandbox's library; such figures stand in words alone
            let near = |(a, b): (&f64, &f64)| (a - b).abs() <= 1e-14 * a.abs();
            assert!(in_words.len() == wanted.len() && in_words.iter().zip(&wanted).all(near), "{name}: {in_words:?}");
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
