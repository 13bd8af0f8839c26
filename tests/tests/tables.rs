//! House tables: a shop's own numbers beside the built-in packs, from the file to the page.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::BTreeMap;
use std::path::PathBuf;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, LoadedPack, PackFaultKind};
use thou::verdict::{self, Limits, State, Verdict, WindowItem};
use thou_contract::Basis;
use thou_tests::{TODAY, file, sheet_of, thou, value};

/// A table with these rules, translated and loaded.
fn table(rules: &str) -> LoadedPack {
    load(&format!("{{\"table\": \"our-shop\", \"title\": \"Nine Mile's numbers\", \"rules\": [{rules}]}}"))
}

fn load(text: &str) -> LoadedPack {
    let table = packs::table("our-shop.json", text.as_bytes(), &packs::builtin()).unwrap_or_else(|f| panic!("{f}"));
    LoadedPack::load(table.component, "our-shop.json").unwrap()
}

fn judged(name: &str, own: &LoadedPack) -> Verdict {
    let sheet = sheet_of(name);
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let packs = [packs::builtin(), vec![own.clone()]].concat();
    let verdict = verdict::judge(&sheet, &facts, &packs, Some(TODAY));
    assert!(verdict.lost.is_empty(), "{name}: {:?}", verdict.lost);
    verdict
}

/// Every sample build: the good ones, the planted ones and the mended ones.
fn every_sample() -> Vec<String> {
    ["sample-builds", "sample-builds/planted", "sample-builds/right"]
        .into_iter()
        .flat_map(thou_tests::samples)
        .filter(|name| value(name)["format"] == "thou-build-1")
        .collect()
}

/// What one window asks, place by place, under a key that does not say who asks it.
fn places(name: &str, windows: &[&WindowItem]) -> BTreeMap<(String, usize, bool), Vec<Limits>> {
    let sheet = sheet_of(name);
    let mut all: BTreeMap<_, Vec<Limits>> = BTreeMap::new();
    for window in windows {
        let axis = Catalogue::standard().info(&window.fact).unwrap().axis;
        for place in 0..sheet.places.count(axis) {
            if window.place.is_none_or(|p| p == place) {
                all.entry((window.fact.clone(), place, window.reuse)).or_default().push(window.limits);
            }
        }
    }
    all
}

/// Whether a window says where parts touch and nothing else.
fn of_contact(window: &WindowItem) -> bool {
    window.hold_basis == Basis::Physics && window.limits.low.is_none() && window.limits.high.is_none()
}

/// With one space between words, however wide a column is.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn same(a: Option<f64>, b: Option<f64>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()),
        (a, b) => a.is_none() && b.is_none(),
    }
}

#[test]
fn the_starter_gives_the_windows_of_the_rules_that_it_copies() {
    let text = thou_table::starter("our-shop");
    let starter = load(&text);
    let copied: Vec<(&str, &str)> =
        starter.manifest.rules.iter().map(|r| (r.id.as_str(), r.supersedes[0].as_str())).collect();
    assert!(copied.len() >= 25, "{} rules", copied.len());
    let mut compared: BTreeMap<&str, usize> = BTreeMap::new();
    let mut unlike = Vec::new();
    for name in every_sample() {
        let sheet = sheet_of(&name);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let without = verdict::judge(&sheet, &facts, &packs::builtin(), Some(TODAY));
        let with = judged(&name, &starter);
        for (own, other) in &copied {
            let of = |verdict: &'_ Verdict, rule: &str| -> Vec<WindowItem> {
                verdict.windows.iter().filter(|w| w.rule == rule).cloned().collect()
            };
            let before = of(&without, other);
            let ours = of(&with, &format!("our-shop/{own}"));
            let left = of(&with, other);
            // what touches stays as the pack has it, whatever a table says
            let (touches, before): (Vec<_>, Vec<_>) = before.into_iter().partition(of_contact);
            let (kept, left): (Vec<_>, Vec<_>) = left.into_iter().partition(|w| touches.contains(w));
            assert_eq!(kept, touches, "{name} {own}");
            if *other == "clearances/piston-to-head" && ours.is_empty() {
                // a short stroke at high speed, as the table says: the pack's own rule stays as it was
                assert!(!before.is_empty(), "{name}");
                assert_eq!(left, before, "{name}");
                continue;
            }
            let before = places(&name, &before.iter().collect::<Vec<_>>());
            let ours = places(&name, &ours.iter().collect::<Vec<_>>());
            let left = places(&name, &left.iter().collect::<Vec<_>>());
            assert_eq!(before.keys().collect::<Vec<_>>(), ours.keys().collect::<Vec<_>>(), "{name} {own}");
            for (key, before) in &before {
                let ([before], [ours]) = (before.as_slice(), ours[key].as_slice()) else {
                    panic!("{name} {own} {key:?}: two windows at one place");
                };
                // a hold of physics is left to the rule that has it
                let stays = left.get(key).and_then(|l| l.first()).copied().unwrap_or_default();
                let alike = same(before.low, ours.low)
                    && same(before.aim, ours.aim)
                    && same(before.high, ours.high)
                    && same(before.never_below, ours.never_below.or(stays.never_below))
                    && same(before.never_above, ours.never_above.or(stays.never_above));
                if !alike {
                    unlike.push(format!("{name} {own} {key:?}:\n{before:?}\n{ours:?}\n{stays:?}"));
                }
                *compared.entry(own).or_default() += 1;
            }
        }
    }
    assert!(unlike.is_empty(), "{} unlike:\n{}", unlike.len(), unlike.join("\n"));
    let never: Vec<_> = copied.iter().filter(|(own, _)| !compared.contains_key(own)).collect();
    assert!(never.is_empty(), "no sample asks {never:?}");
}

#[test]
fn a_table_tightens_loosens_and_replaces_and_the_page_says_whose_it_is() {
    let rule = |low: &str, supersedes: &str| {
        format!(
            "{{ \"id\": \"rods\", \"why\": \"Ours.\", \"operation\": \"crank\", {supersedes} \
             \"window\": {{ \"judges\": \"rod-bearing.clearance\", \"low\": \"{low}\", \"below\": \"hold\" }} }}"
        )
    };
    let states = |own: &LoadedPack, rule: &str| {
        let verdict = judged("sample-builds/bracket.json", own);
        verdict.items.iter().filter(|i| i.rule == rule).map(|i| i.state).collect::<Vec<_>>()
    };
    // tighter, beside the pack's own: both judge
    let tight = table(&rule("3.5 thou", ""));
    assert!(states(&tight, "our-shop/rods").iter().all(|s| *s == State::NoGo), "a shop's own number may hold");
    assert!(states(&tight, "clearances/rod-clearance").iter().all(|s| *s == State::Go));
    // looser, in its stead and signed for: what physics holds stays beside it
    let loose = table(&rule("0.1 thou", "\"supersedes\": [\"clearances/rod-clearance\"],"));
    let (_keep, signed) = thou_tests::changed("bracket", |v| {
        v["looser"] = serde_json::json!([{ "rule": "clearances/rod-clearance", "instead": "our-shop/rods",
            "reason": "ours run so", "by": "R. L." }]);
    });
    let verdict = judged(&signed, &loose);
    let left: Vec<&WindowItem> = verdict.windows.iter().filter(|w| w.rule == "clearances/rod-clearance").collect();
    assert!(!left.is_empty());
    for window in left {
        assert!(window.limits.never_below.is_some(), "the journal that closes on its oil is physics");
        assert_eq!((window.limits.low, window.limits.high), (None, None));
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("our-shop.json");
    let text = rule("0.1 thou", "\"supersedes\": [\"clearances/rod-clearance\"],");
    std::fs::write(&path, format!("{{\"table\": \"our-shop\", \"title\": \"Nine Mile\", \"rules\": [{text}]}}"))
        .unwrap();
    let with = ["--pack", path.to_str().unwrap()];
    let check = thou(&["check", &signed, with[0], with[1]]);
    let row = check.out.lines().find(|l| l.ends_with(" Nine Mile")).unwrap_or_else(|| panic!("{}", check.out));
    assert_eq!(words(row), "rod bearing clearance all 8 2.5..2.8 thou 0.1 min Nine Mile");
    let spec = thou(&["spec", &signed, with[0], with[1]]);
    assert!(words(&spec.out).contains("inside 0.1 min (rod bearing clearance, Nine Mile)"), "{}", spec.out);
    let page = thou(&["explain", "our-shop/rods", with[0], with[1]]);
    assert!(page.out.contains("this shop: Nine Mile"), "{}", page.out);
}

/// A rule that lacks what it needs is not missed where a table answers for all that it judges; it is where the table
/// leaves one of its facts out, and where physics may hold.
#[test]
fn a_rule_that_is_open_is_not_listed_beside_the_table_that_stands_in_for_it() {
    let mut bare = value("sample-builds/bracket.json");
    for (section, field) in [("pistons", "alloy"), ("gasket", "kind"), ("pins", "fit")] {
        bare[section].as_object_mut().unwrap().shift_remove(field).unwrap();
    }
    let listed = |rules: &str, signed: bool| -> Vec<(String, State)> {
        let mut bare = bare.clone();
        if signed {
            let entry = |rule: &str| {
                serde_json::json!({ "rule": format!("clearances/{rule}"), "instead": format!("our-shop/{rule}"),
                    "reason": "our own numbers", "by": "R. L." })
            };
            bare["looser"] = ["piston-to-wall", "deck-flatness", "pin-end-play"].map(entry).to_vec().into();
        }
        let sheet = thou_tests::sheet(&bare);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let own = (!rules.is_empty()).then(|| table(rules));
        let packs = [packs::builtin(), own.into_iter().collect()].concat();
        let items = verdict::judge(&sheet, &facts, &packs, Some(TODAY)).items;
        let ours = ["piston-to-wall", "deck-flatness", "pin-end-play"].map(|r| format!("clearances/{r}"));
        items.into_iter().filter(|i| ours.contains(&i.rule)).map(|i| (i.rule, i.state)).collect()
    };
    let open = |rules: &[&str]| -> Vec<(String, State)> {
        rules.iter().map(|r| (format!("clearances/{r}"), State::Open)).collect()
    };
    let rule = |id: &str, windows: &str| {
        format!("{{ \"id\": \"{id}\", \"supersedes\": [\"clearances/{id}\"], \"windows\": [{windows}] }}")
    };
    let wall = rule("piston-to-wall", r#"{ "low": "4 thou" }"#);
    let deck = r#"{ "judges": "deck.flatness", "high": "2 thou" }"#;
    let both = format!(r#"{deck}, {{ "judges": "head.flatness", "high": "2 thou" }}"#);
    let pin = rule("pin-end-play", r#"{ "low": "5 thou" }"#);
    let all = ["deck-flatness", "piston-to-wall", "pin-end-play"];
    assert_eq!(listed("", true), open(&all));
    assert_eq!(listed(&wall, true), open(&["deck-flatness", "pin-end-play"]));
    assert_eq!(listed(&rule("deck-flatness", deck), true), open(&all));
    assert_eq!(listed(&rule("deck-flatness", &both), true), open(&["piston-to-wall", "pin-end-play"]));
    assert_eq!(listed(&pin, true), open(&all));
    // what may hold and cannot say yet is missed until somebody signs for that
    for rules in [&wall, &rule("deck-flatness", &both)] {
        assert_eq!(listed(rules, false), open(&all));
    }
}

#[test]
fn a_finding_of_a_table_stands_in_for_another_but_not_for_physics() {
    // over the planted mistakes, whatever a built-in finding says, a table says instead: that it is fine
    let mut findings: BTreeMap<String, bool> = BTreeMap::new();
    for pack in packs::builtin() {
        for rule in pack.manifest.rules.iter().filter(|r| r.kind == thou_contract::RuleKind::Finding) {
            let id = format!("{}/{}", pack.manifest.id, rule.id);
            findings.insert(id, rule.basis == thou_contract::Basis::Physics);
        }
    }
    let rules: Vec<String> = findings
        .keys()
        .enumerate()
        .map(|(i, id)| {
            format!(
                "{{ \"id\": \"fine-{i}\", \"when\": \"false\", \"supersedes\": [\"{id}\"], \"finding\": {{ \"words\": \"-\" }} }}"
            )
        })
        .collect();
    let own = table(&rules.join(","));
    let (mut stood_in, mut stayed) = (0, 0);
    for name in every_sample() {
        let sheet = sheet_of(&name);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let loud = |v: &Verdict| -> BTreeMap<String, (bool, bool)> {
            let loud = v.items.iter().filter(|i| i.limits.is_none() && findings.contains_key(&i.rule));
            let loud = loud.filter(|i| matches!(i.state, State::NoGo | State::Look | State::Note));
            loud.map(|i| (i.rule.clone(), (i.can_be_accepted, i.state == State::NoGo))).collect()
        };
        let before = loud(&verdict::judge(&sheet, &facts, &packs::builtin(), Some(TODAY)));
        let after = loud(&judged(&name, &own));
        for (rule, (may, holds)) in &before {
            // what holds, holds until somebody signs for it
            assert_eq!(after.contains_key(rule), !may || *holds, "{name}: {rule}");
            stood_in += usize::from(*may && !holds);
            stayed += usize::from(!may);
        }
    }
    assert!(stood_in > 0, "no sample has a finding of practice");
    assert!(stayed > 0, "no sample has a finding of physics");
}

#[test]
fn inches_and_millimetres_make_the_same_table() {
    let rule = |window: &str| {
        format!("{{ \"id\": \"a\", \"why\": \"Ours.\", \"operation\": \"crank\", \"window\": {window} }}")
    };
    let pairs = [
        (
            "{ \"judges\": \"rod-bearing.clearance\", \"low\": \"2.5 thou\", \"high\": \"{rod-journal.nominal} < 2.15 in ? 2.8 thou : 0.0031 in\" }",
            "{ \"judges\": \"rod-bearing.clearance\", \"low\": \"0.0635 mm\", \"high\": \"{rod-journal.nominal} < 54.61 mm ? 71.12 µm : 78.74 um\" }",
        ),
        (
            "{ \"judges\": \"piston-to-wall\", \"low\": \"{bore.nominal} * 0.00125\", \"high\": \"{bore.nominal} * 1.5 thou / 1 in\", \"never-below\": \"{oil.temperature} > 212 °F ? 4 thou : 3.5 thou\" }",
            "{ \"judges\": \"piston-to-wall\", \"low\": \"{bore.nominal} * 1.25 um / 1 mm\", \"high\": \"{bore.nominal} * 0.0381 mm / 25.4 mm\", \"never-below\": \"{oil.temperature} > 100 °C ? 0.1016 mm : 88.9 µm\" }",
        ),
    ];
    for (inch, metric) in pairs {
        let (inch, metric) = (table(&rule(inch)), table(&rule(metric)));
        for name in every_sample() {
            let (a, b) = (judged(&name, &inch), judged(&name, &metric));
            let states = |v: &Verdict| v.items.iter().map(|i| (i.rule.clone(), i.place, i.state)).collect::<Vec<_>>();
            assert_eq!(states(&a), states(&b), "{name}");
        }
    }
}

#[test]
fn the_same_table_gives_the_same_bytes_and_a_file_to_share() {
    let folder = tempfile::tempdir().unwrap();
    let (json, wasm) = (folder.path().join("t.json"), folder.path().join("t.wasm"));
    std::fs::write(&json, thou_table::starter("our-shop")).unwrap();
    let args = |check: bool| {
        let mut args = vec!["pack", "build", json.to_str().unwrap(), "--out", wasm.to_str().unwrap()];
        args.extend(check.then_some("--check"));
        args.into_iter().map(str::to_owned).collect::<Vec<_>>()
    };
    let run = |args: Vec<String>| thou(&args.iter().map(String::as_str).collect::<Vec<_>>());
    let built = run(args(false));
    assert_eq!(built.exit, 0, "{}", built.err);
    assert_eq!(run(args(true)).exit, 0);
    let by = |pack: &std::path::Path| thou(&["check", "sample-builds/bracket.json", "--pack", pack.to_str().unwrap()]);
    // but for the digest of the file
    let page = |file| by(file).out.lines().filter(|l| l.trim().len() != 64).collect::<Vec<_>>().join("\n");
    assert_eq!(page(&json), page(&wasm));
    let pack = packs::load_file(&wasm).unwrap();
    assert_eq!(pack.digest, packs::load_file(&json).unwrap().digest);
    std::fs::write(&json, thou_table::starter("other")).unwrap();
    assert_eq!(run(args(true)).exit, 3, "the file is of another table");
}

#[test]
fn the_packs_file_beside_a_sheet_can_name_a_table() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["bracket.json", "bracket-main-journals.csv"] {
        std::fs::copy(file(&format!("sample-builds/{name}")), folder.path().join(name)).unwrap();
    }
    std::fs::write(folder.path().join("ours.json"), thou_table::starter("our-shop")).unwrap();
    std::fs::write(folder.path().join("packs"), "ours.json   # what we leave\n").unwrap();
    let sheet = folder.path().join("bracket.json");
    assert_eq!(thou(&["pack", "lock", "--sheet", sheet.to_str().unwrap()]).exit, 0);
    let run = thou(&["check", sheet.to_str().unwrap()]);
    assert_eq!(run.exit, 0, "{}{}", run.out, run.err);
    assert!(run.out.contains("our-shop"), "{}", run.out);
}

/// A table that is wrong costs its own answer: its page, and the rest of the report.
#[test]
fn wrong_tables_say_where_and_what_to_write() {
    let folder = file("tests/tests/tables/wrong");
    let mut names: Vec<PathBuf> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().path()).collect();
    names.sort();
    assert!(names.len() >= 10);
    for path in names {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let run = thou(&["pack", "build", path.to_str().unwrap(), "--out", "/nowhere/at-all.wasm"]);
        assert_eq!((run.exit, run.out.as_str()), (3, ""), "{name}");
        insta::assert_snapshot!(format!("wrong-table-{name}"), run.err);
    }
}

#[test]
fn a_wrong_table_leaves_the_rest_of_the_report() {
    let wrong = file("tests/tests/tables/wrong/unknown-fact.json");
    let run = thou(&["check", "sample-builds/bracket.json", "--pack", wrong.to_str().unwrap()]);
    assert_eq!(run.exit, 3);
    assert!(run.out.contains("A rule pack failed"), "{}", run.out);
    assert!(run.out.contains("there is no fact \"bore.diametr\""), "{}", run.out);
    assert!(run.out.contains("GO: INSIDE ITS WINDOW"), "{}", run.out);
}

/// Tables that are made to hurt are refused in words, soon.
#[test]
fn hostile_tables_are_refused_in_words_and_in_time() {
    let rule = |limit: &str| {
        format!(
            "{{\"table\": \"t\", \"title\": \"T\", \"rules\": [{{ \"id\": \"a\", \"why\": \"w\", \"operation\": \"crank\", \
             \"window\": {{ \"judges\": \"rod-bearing.clearance\", \"low\": {} }} }}]}}",
            Value::String(limit.to_owned())
        )
    };
    let entries: Vec<String> = (0..10_000).map(|i| format!("{{ \"id\": \"r-{i}\" }}")).collect();
    let windows: Vec<String> =
        (0..10_000).map(|_| "{ \"judges\": \"piston-to-wall\", \"low\": \"1 thou\" }".to_owned()).collect();
    let list: Vec<String> = (0..50_000).map(|i| format!("{i}")).collect();
    let cases = [
        ("a long expression", rule(&"1 thou + ".repeat(12_000)), "has 108000 characters, and 4000 is the most"),
        (
            "many entries",
            format!("{{\"table\": \"t\", \"title\": \"T\", \"rules\": [{}]}}", entries.join(",")),
            "\"rules\" has 10000 entries, and 500 is the most",
        ),
        (
            "many windows",
            format!(
                "{{\"table\": \"t\", \"title\": \"T\", \"rules\": [{{\"id\": \"a\", \"windows\": [{}]}}]}}",
                windows.join(",")
            ),
            "\"windows\" has 10000 entries, and 40 is the most",
        ),
        (
            "deep brackets",
            rule(&format!("{}1 thou{}", "(".repeat(500), ")".repeat(500))),
            "brackets are nested more than 32 deep",
        ),
        ("deep lists", rule(&"[".repeat(1_900)), "brackets are nested more than 32 deep"),
        ("many signs", rule(&"-".repeat(3_900)), "has more than 400 words, numbers and signs"),
        ("many questions", rule(&"true?1 thou:".repeat(300)), "has more than 400 words, numbers and signs"),
        ("deep JSON", "[".repeat(100_000), "brackets are nested more than 16 deep"),
        (
            "deep JSON in a rule",
            format!("{{\"rules\": {}", "[{\"a\":".repeat(5_000)),
            "brackets are nested more than 16 deep",
        ),
        (
            "a huge list",
            rule(&format!("{{use}} in [{}] ? 1 thou : 2 thou", list.join(","))),
            "characters, and 4000 is the most",
        ),
        ("a large file", format!("{{\"table\": \"{}\"}}", "a".repeat(2 << 20)), "a table is read up to 1 MB"),
        ("no end", "{\"table\": \"t\", \"rules\": [".to_owned(), "this bracket [ is never closed"),
        ("no UTF-8", String::new(), "it is not UTF-8"),
    ];
    for (name, text, words) in cases {
        let bytes = if name == "no UTF-8" { b"{\xff\xfe".to_vec() } else { text.into_bytes() };
        let Err(PackFaultKind::BadTable(page)) = packs::table("t.json", &bytes, &packs::builtin()) else {
            panic!("{name} is taken")
        };
        assert!(page.contains(words), "{name}: {page}");
        assert!(page.len() < 20_000, "{name}: a page of {} bytes", page.len());
    }
    // as much as is allowed is taken, and answers
    let most = rule(&format!("{}1 thou{}", "(".repeat(32), ")".repeat(32)));
    let longest = rule(&format!("1 thou{}", " + 1 thou".repeat(199)));
    for text in [most, longest] {
        let own = load(&text);
        judged("sample-builds/bracket.json", &own);
    }
}

/// Ten tables that nobody has compiled yet: translating, compiling and asking. What that costs is for `tests/benches`.
#[test]
fn a_table_of_forty_rules_answers_all_of_them() {
    let rules: Vec<String> = (0..40)
        .map(|i| {
            format!(
                "{{ \"id\": \"r-{i}\", \"why\": \"Ours.\", \"operation\": \"crank\", \"when\": \"{{use}} != 'street' || {{engine.cylinders}} > {i}\", \
                 \"window\": {{ \"judges\": \"piston-to-wall\", \"low\": \"{{bore.nominal}} * 0.0010{i:02}\", \"aim\": \"({{low}} + {{high}}) / 2\", \
                 \"high\": \"has({{stroke}}) && {{stroke}} > 3.5 in ? 6.{i:02} thou : 6.5{i:02} thou\" }} }}"
            )
        })
        .collect();
    let sheet = sheet_of("sample-builds/bracket.json");
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    for i in 0..10 {
        let own = table(&rules.join(",").replace("Ours.", &format!("Ours, {i}.")));
        let verdict = verdict::judge(&sheet, &facts, &[own], Some(TODAY));
        assert_eq!(verdict.windows.len(), 40, "{:?}", verdict.lost);
    }
}

fn without_remarks(text: &str) -> Value {
    let lines = text.lines().filter(|l| !l.trim_start().starts_with("//"));
    serde_json::from_str(&lines.collect::<Vec<_>>().join("\n")).unwrap()
}

/// The words of a service and the pages stand once in the program; each schema lists them for the editor.
#[test]
fn the_schemas_list_the_programs_own_words() {
    use thou_contract::wear::{Cause, CountBy};
    use thou_contract::{METERS, OPERATIONS, ServiceInfo, logged, slopes};
    let service = "/$defs/rule/properties/service/properties";
    let (slopes, causes) = (slopes::NAMED.map(|s| s.0), Cause::NAMED.map(|c| c.0));
    let duties = CountBy::NAMED.map(|d| d.0);
    let over_revs = logged::OverRev::NAMED.map(|o| o.0);
    let words: [(&[&str], String); 7] = [
        (&over_revs, format!("{service}/over-rev/items")),
        (&ServiceInfo::SECTIONS, format!("{service}/held-in/items")),
        (&OPERATIONS, "/$defs/rule/properties/operation".to_owned()),
        (&ServiceInfo::ACTIONS, format!("{service}/action")),
        (&ServiceInfo::SINCE, format!("{service}/since")),
        (&ServiceInfo::OPENS, format!("{service}/opens")),
        (&ServiceInfo::LOSES, format!("{service}/loses")),
    ];
    let schema = |name: &str| -> Value { serde_json::from_str(&std::fs::read_to_string(file(name)).unwrap()).unwrap() };
    let (pack, table) = (schema("schemas/pack.schema.json"), schema("schemas/table.schema.json"));
    let both = words.into_iter().flat_map(|(words, at)| [(words, &pack, at.clone()), (words, &table, at)]);
    let meters: [&[&str]; 2] = [&METERS, &METERS];
    let places = ["/properties/meters/items".to_owned(), format!("{service}/meter")];
    let meters = meters.into_iter().zip([&pack, &table]).zip(places).map(|((words, schema), at)| (words, schema, at));
    let (causes, slopes, duties): (&[&str], &[&str], &[&str]) = (&causes, &slopes, &duties);
    let wears = |schema, at: &str| {
        let stress = format!("{at}wears/items/items/properties");
        [
            (causes, schema, format!("{stress}/cause")),
            (slopes, schema, format!("{stress}/slope")),
            (duties, schema, format!("{at}duty")),
        ]
    };
    let wears = wears(&pack, "/$defs/").into_iter().chain(wears(&table, &format!("{service}/")));
    let readings = [
        (&pack, "/$defs/log-readings/items".to_owned()),
        (&table, format!("{service}/read-afresh/items")),
        (&table, format!("{service}/told-by/items")),
    ];
    let readings = readings.into_iter().map(|(schema, at)| (&logged::LOG_READINGS[..], schema, at));
    for (words, schema, at) in both.chain(meters).chain(wears).chain(readings) {
        let listed = schema.pointer(&format!("{at}/enum")).and_then(Value::as_array).unwrap();
        assert_eq!(listed.len(), words.len(), "{at}");
        assert!(listed.iter().all(|word| words.contains(&word.as_str().unwrap())), "{at}: {listed:?}");
    }
}

#[test]
fn the_schema_takes_what_the_program_takes() {
    let read = |name: &str| std::fs::read_to_string(file(name)).unwrap();
    let schema: Value = serde_json::from_str(&read("schemas/table.schema.json")).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    let starter = without_remarks(&thou_table::starter("our-shop"));
    let faults: Vec<String> = validator.iter_errors(&starter).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:?}");
    assert!(!validator.is_valid(&without_remarks(&read("tests/tests/tables/wrong/unknown-field.json"))));
    // every field of the schema is known to the program, and the other way round: what each says that it has
    for (path, of) in [
        ("/properties", "a table"),
        ("/$defs/rule/properties", "a rule"),
        ("/$defs/window/properties", "a window"),
        ("/$defs/rule/properties/finding/properties", "a finding"),
        ("/$defs/rule/properties/service/properties", "a service"),
    ] {
        let fields = schema.pointer(path).unwrap().as_object().unwrap();
        for (name, field) in fields {
            assert!(field["description"].as_str().is_some_and(|d| d.len() > 8), "{path}/{name}");
        }
        let stranger = match of {
            "a table" => "{ \"zzzzzzzzzzzz\": 1 }".to_owned(),
            "a rule" => "{ \"table\": \"t\", \"title\": \"T\", \"rules\": [{ \"zzzzzzzzzzzz\": 1 }] }".to_owned(),
            part => format!(
                "{{ \"table\": \"t\", \"title\": \"T\", \"rules\": [{{ \"id\": \"a\", \"{}\": {{ \"zzzzzzzzzzzz\": 1 }} }}] }}",
                part.trim_start_matches("a ")
            ),
        };
        let Err(PackFaultKind::BadTable(page)) = packs::table("t.json", stranger.as_bytes(), &[]) else {
            panic!("{of}")
        };
        let line = page.split(&format!("\n    {of} has ")).nth(1).unwrap_or_else(|| panic!("{page}"));
        let line = words(line.split("\n\n").next().unwrap());
        let mut told: Vec<&str> = line.split(", ").flat_map(|w| w.split(" or ")).collect();
        let mut known: Vec<&str> = fields.keys().map(String::as_str).collect();
        told.sort_unstable();
        known.sort_unstable();
        assert_eq!(told, known, "{of}");
    }
}

/// The table of DEVELOPERS.md, as it stands there.
#[test]
fn the_table_of_the_handbook_does_what_it_says() {
    let text = std::fs::read_to_string(file("DEVELOPERS.md")).unwrap();
    let block = text.split("```jsonc\n").nth(1).unwrap().split("```").next().unwrap();
    let own = load(block);
    let verdict = judged("sample-builds/bracket.json", &own);
    let windows: Vec<&WindowItem> = verdict.windows.iter().filter(|w| w.rule == "our-shop/rods").collect();
    assert_eq!(windows.len(), 1);
    assert_eq!(windows[0].text.whose, "Nine Mile's numbers");
    let looked = |name: &str| {
        let verdict = judged(name, &own);
        verdict.items.iter().find(|i| i.rule == "our-shop/no-cast-pistons").map(|i| i.state)
    };
    assert_eq!(looked("sample-builds/bracket.json"), Some(State::Go));
    let starter = thou_table::COMMON_PRACTICE.as_bytes();
    let rules = packs::table("t.json", starter, &packs::builtin()).unwrap().manifest.rules.len();
    assert!(text.contains(&format!("the windows of {rules} rules")), "{rules}");
}

#[test]
fn a_service_of_a_table_stands_in_for_another() {
    let name = "sample-builds/bracket.json";
    let own = table(
        "{ \"id\": \"springs\", \"supersedes\": [\"freshen/springs\"], \"when\": \"{use} == 'bracket'\", \
         \"service\": { \"meter\": \"passes\", \"low\": \"80\", \"nominal\": \"100\", \"high\": \"{engine.cylinders} * 20\" } }",
    );
    let sheet = sheet_of(name);
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let before = verdict::judge(&sheet, &facts, &packs::builtin(), Some(TODAY));
    let theirs = before.services.iter().find(|s| s.rule == "freshen/springs").unwrap();
    let after = judged(name, &own);
    assert!(after.services.iter().all(|s| s.rule != "freshen/springs"));
    let ours = after.services.iter().find(|s| s.rule == "our-shop/springs").unwrap();
    assert_eq!((ours.low, ours.nominal, ours.high), (80.0, 100.0, 160.0));
    // the work is that of the service it stands in for, the number is the shop's
    assert_eq!((&ours.service.part, &ours.service.opens), (&theirs.service.part, &theirs.service.opens));
    assert_eq!(ours.source, "Nine Mile's numbers");
}

/// What a rule says of itself where its facts are not there, or make no window.
#[test]
fn a_table_that_cannot_say_says_why() {
    let window = |low: &str| {
        format!(
            "{{ \"id\": \"a\", \"why\": \"Ours.\", \"operation\": \"block\", \
             \"window\": {{ \"judges\": \"piston-to-wall\", \"low\": \"{low}\", \"high\": \"6 thou\" }} }}"
        )
    };
    let said = |low: &str| {
        let verdict = judged("sample-builds/bracket.json", &table(&window(low)));
        let items: Vec<_> = verdict.items.iter().filter(|i| i.rule == "our-shop/a").collect();
        (items[0].state, items[0].words.clone(), items[0].wants.clone())
    };
    let words = |text: &str| (State::CannotSay, text.to_owned(), Vec::new());
    assert_eq!(
        said("1 thou / ({engine.cylinders} - 8)"),
        words("it divides by engine.cylinders - 8, which comes to nothing here (line 1 of the table)")
    );
    assert_eq!(said("{engine.cylinders} * 1 thou"), words("its limits come out of order for this build"));
    // no boost in the sheet: the rule needs it, and the field that would bring it is named
    assert_eq!(
        said("{boost} > 1 bar ? 4 thou : 5 thou"),
        (State::Open, String::new(), vec!["intent.boost".to_owned()])
    );
    // asked for with has, it is none of the rule's needs; where it is read all the same there is no number
    assert_eq!(
        said("has({boost}) || {boost} > 1 bar ? 4 thou : 5 thou"),
        words("what it works from is not in the sheet, or not read yet here")
    );
    assert_eq!(said("has({boost}) && {boost} > 1 bar ? 4 thou : 5 thou").0, State::Go);
}

#[test]
fn pack_new_writes_the_starter() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().to_str().unwrap();
    let run = thou(&["pack", "new", "nine-mile", "--table", "--dir", to]);
    assert_eq!(run.exit, 0, "{}", run.err);
    let file = folder.path().join("nine-mile.json");
    // with a line for the editor, whose schema lies beside it
    let text =
        std::fs::read_to_string(&file).unwrap().replacen("  \"$schema\": \"schemas/table.schema.json\",\n", "", 1);
    assert_eq!(text, thou_table::starter("nine-mile"));
    let check = thou(&["check", "sample-builds/bracket.json", "--pack", file.to_str().unwrap()]);
    assert_eq!(check.exit, 0, "{}", check.err);
    assert!(check.out.contains("nine-mile"), "{}", check.out);
    // nothing is written over
    assert_eq!(thou(&["pack", "new", "nine-mile", "--table", "--dir", to]).exit, 2);
}
