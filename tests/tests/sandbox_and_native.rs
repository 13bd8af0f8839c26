//! A rule in the sandbox answers as it does natively, to the last bit: every case of every built-in pack.
#![allow(clippy::unwrap_used, clippy::panic)]

use thou::packs::{CheckedAnswer, Given, LoadedPack, Said};
use thou_cases::{Asked, Case};
use thou_tests::answers::text;

/// An answer without the arguments of its texts, and these.
fn apart(answer: CheckedAnswer) -> (CheckedAnswer, Vec<f64>) {
    fn bare<T: Clone>(all: Vec<Said<T>>, args: &mut Vec<f64>) -> Vec<Said<T>> {
        let of = |said: Said<T>| {
            args.extend(&said.args);
            said.with(Vec::new())
        };
        all.into_iter().map(of).collect()
    }
    let mut args = Vec::new();
    let answer = CheckedAnswer {
        windows: bare(answer.windows, &mut args),
        findings: bare(answer.findings, &mut args),
        services: bare(answer.services, &mut args),
        steps: bare(answer.steps, &mut args),
        ..answer
    };
    (answer, args)
}

/// Asks a pack in the sandbox and natively.
struct Both<'a> {
    pack: &'a LoadedPack,
    native: &'a thou_sdk::Pack,
}

impl Asked for Both<'_> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        let (starts, values) = (&case.facts.starts, &case.facts.values);
        // a case's lists are as long as it likes
        let places = |_: &str| Some(32);
        let name = format!("{}: {}", case.file.display(), case.name);
        let given = Given { starts, values, places: &places };
        let boxed = self.pack.assess(&[case.rule], &given).unwrap_or_else(|f| panic!("{name}: {f}"));
        let raw = self.native.assess(&[case.rule], &thou_sdk::Facts::new(starts, values));
        let native = raw.plain(&self.pack.manifest).unwrap_or_else(|f| panic!("{name}: {f}"));
        let (words, in_words) = apart(boxed.clone());
        let (native, wanted) = apart(native);
        // every number is printed so that it reads back as the same bits
        assert_eq!(text(&words), text(&native), "{name}");
        // a power is the last bit another one in the sandbox's library; such figures stand in words alone
        let near = |(a, b): (&f64, &f64)| (a - b).abs() <= 1e-14 * a.abs();
        assert!(in_words.len() == wanted.len() && in_words.iter().zip(&wanted).all(near), "{name}: {in_words:?}");
        Ok(boxed)
    }
}

fn same(pack: &LoadedPack, native: &thou_sdk::Pack) -> usize {
    assert_eq!(pack.manifest, native.manifest(), "{}: the built pack is not that of the sources", native.id);
    let folder = thou_tests::file(&format!("rulepacks/{}", native.id));
    thou_cases::check(&pack.manifest, &folder, &mut Both { pack, native }).cases
}

#[test]
fn every_case_gives_the_same_bits_in_the_sandbox() {
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
