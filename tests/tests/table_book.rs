//! What a table says as a rule book does: figures of all places, roots, lists and maps, settings, days, steps, and services.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::json;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, Given, LoadedPack, OutcomeState};
use thou::verdict::{self, State};
use thou_tests::{TODAY, builtin, changed, file, sheet_of, thou};

const THOU: f64 = 2.54e-5;

fn loaded(head: &str, rules: &str) -> Result<LoadedPack, String> {
    let text = format!("{{\"table\": \"ours\", \"title\": \"Ours\", {head} \"rules\": [{rules}]}}");
    let table = packs::table("ours.json", text.as_bytes(), &packs::builtin()).map_err(|f| f.to_string())?;
    LoadedPack::load(table.component, "ours.json").map_err(|f| f.to_string())
}

/// What a window's high limit comes to, or why it says nothing; facts by name, in SI, NaN for a place that is not read.
fn high(head: &str, expression: &str, facts: &[(&str, &[f64])]) -> Result<f64, String> {
    let rule = format!(
        "{{\"id\": \"a\", \"why\": \"w\", \"operation\": \"block\", \"window\": {{\"judges\": \"bore.taper.max\", \"high\": \"{expression}\"}}}}"
    );
    let pack = loaded(head, &rule).unwrap_or_else(|f| panic!("{f}"));
    let (mut starts, mut values) = (vec![0], Vec::new());
    for fact in &pack.manifest.facts {
        values.extend(facts.iter().find(|(id, _)| *id == fact.id).map(|(_, v)| v.to_vec()).unwrap_or_default());
        starts.push(u32::try_from(values.len()).unwrap());
    }
    let answer = pack.assess(&[0], &Given { starts: &starts, values: &values, places: &|_| Some(1) }).unwrap();
    match answer.outcomes[0].state {
        OutcomeState::Answered => Ok(answer.windows[0].what.high.unwrap()),
        OutcomeState::CannotSay(reason) => Err(pack.manifest.rules[0].reasons[reason as usize].clone()),
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn comes_to(expression: &str, facts: &[(&str, &[f64])], wanted: f64) {
    let got = high("", expression, facts).unwrap_or_else(|why| panic!("{expression}: {why}"));
    assert!((got - wanted).abs() <= 1e-12 * wanted.abs(), "{expression}: {got}, not {wanted}");
}

#[test]
fn figures_of_all_places() {
    let taper = [1.0 * THOU, 4.0 * THOU, 2.5 * THOU];
    let facts: &[(&str, &[f64])] = &[("bore.taper", &taper)];
    comes_to("worst({bore.taper})", facts, 4.0 * THOU);
    comes_to("least({bore.taper})", facts, 1.0 * THOU);
    comes_to("sum({bore.taper})", facts, 7.5 * THOU);
    comes_to("mean({bore.taper})", facts, 2.5 * THOU);
    // of what is made of them, not of the fact alone
    comes_to("worst(abs({bore.taper} - 3 thou))", facts, 2.0 * THOU);
    comes_to("worst({bore.taper}) - least({bore.taper})", facts, 3.0 * THOU);
    comes_to("count({bore.taper} > 2 thou) * 1 thou", facts, 2.0 * THOU);
    comes_to("any({bore.taper} > 3.9 thou) ? 1 thou : 2 thou", facts, THOU);
    comes_to("any({bore.taper} > 4.1 thou) ? 1 thou : 2 thou", facts, 2.0 * THOU);
    comes_to("all({bore.taper} > 0.9 thou) ? 1 thou : 2 thou", facts, THOU);
    comes_to("all({bore.taper} > 1.1 thou) ? 1 thou : 2 thou", facts, 2.0 * THOU);
}

#[test]
fn a_place_that_is_not_read_is_no_go_for_any_figure_but_where_another_decides() {
    let hole = [1.0 * THOU, f64::NAN, 2.5 * THOU];
    let facts: &[(&str, &[f64])] = &[("bore.taper", &hole)];
    let unread = "what it works from is not in the sheet, or not read yet here";
    for open in [
        "worst({bore.taper})",
        "least({bore.taper})",
        "sum({bore.taper})",
        "mean({bore.taper})",
        "count({bore.taper} > 2 thou) * 1 thou",
        "any({bore.taper} > 3 thou) ? 1 thou : 2 thou",
        "all({bore.taper} > 0.5 thou) ? 1 thou : 2 thou",
    ] {
        assert_eq!(high("", open, facts), Err(unread.to_owned()), "{open}");
    }
    comes_to("any({bore.taper} > 2 thou) ? 1 thou : 2 thou", facts, THOU);
    comes_to("all({bore.taper} > 2 thou) ? 1 thou : 2 thou", facts, 2.0 * THOU);
    comes_to("count(has({bore.taper})) * 1 thou", facts, 2.0 * THOU);
}

#[test]
fn roots_and_powers_have_the_dimension_that_they_come_to() {
    let facts: &[(&str, &[f64])] = &[("bore.nominal", &[0.1]), ("stroke", &[0.09]), ("compression.max", &[16.0])];
    comes_to("sqrt(pow({bore.nominal}, 2) + pow({stroke}, 2)) / 100", facts, (0.01_f64 + 0.0081).sqrt() / 100.0);
    comes_to("pow({compression.max}, 1.5) * 1 thou", facts, 64.0 * THOU);
    comes_to("pow({compression.max}, -0.5) * 1 thou", facts, 0.25 * THOU);
    let told = |expression: &str| high_fault(expression);
    assert!(
        told("sqrt({bore.nominal})").contains("a length has no root that is a quantity"),
        "{}",
        told("sqrt({bore.nominal})")
    );
    assert!(told("pow({bore.nominal}, 2)").contains("this comes to an area"), "{}", told("pow({bore.nominal}, 2)"));
    assert!(told("pow({bore.nominal}, {compression.max})").contains("a power is a number from -6 to 6 in halves"));
    assert_eq!(
        high("", "sqrt({compression.max} - 17) * 1 thou", facts),
        Err("compression.max - 17 is under zero here, and has no square root (line 1 of the table)".to_owned())
    );
}

/// What is told of an expression that is wrong.
fn high_fault(expression: &str) -> String {
    let rule = format!(
        "{{\"id\": \"a\", \"why\": \"w\", \"operation\": \"block\", \"window\": {{\"judges\": \"bore.taper.max\", \"high\": \"{expression}\"}}}}"
    );
    loaded("", &rule).map_or_else(|f| f, |_| "fine".to_owned())
}

#[test]
fn a_division_says_what_it_divides_by_where_that_comes_to_nothing() {
    let expression = "1 thou * {stroke} / ({stroke} - {bore.nominal})";
    comes_to(expression, &[("stroke", &[0.1]), ("bore.nominal", &[0.05])], 2.0 * THOU);
    assert_eq!(
        high("\"settings\": {\n \"a\": \"1 thou\" },\n", expression, &[("stroke", &[0.1]), ("bore.nominal", &[0.1])]),
        Err("it divides by stroke - bore.nominal, which comes to nothing here (line 3 of the table)".to_owned())
    );
    // which of two it was
    assert_eq!(
        high(
            "",
            "1 thou * (1 / {compression.max} + {stroke} / {bore.nominal})",
            &[("stroke", &[0.1]), ("bore.nominal", &[0.0]), ("compression.max", &[9.0])]
        ),
        Err("it divides by bore.nominal, which comes to nothing here (line 1 of the table)".to_owned())
    );
}

#[test]
fn settings_lists_and_maps_stand_beside_the_rules() {
    let head = r#""settings": { "room": "2 thou" }, "lists": { "sizes.ours": ["4.000 in", "4.030 in"] },
        "maps": { "by-bore": { "points": [["4 in", "1 thou"], ["5 in", "3 thou"], ["6 in", "4 thou"]] },
                  "by-use": { "words": { "street": "1 thou", "bracket": "2 thou" } } },"#;
    let at = |inches: f64, expression: &str| high(head, expression, &[("bore.nominal", &[inches * 0.0254])]);
    let near =
        |got: Result<f64, String>, thou: f64| assert!((got.clone().unwrap() / THOU - thou).abs() < 1e-9, "{got:?}");
    near(at(4.0, "{room} + 1 thou"), 3.0);
    for (inches, thou) in [(4.0, 1.0), (4.25, 1.5), (5.0, 3.0), (5.5, 3.5), (6.0, 4.0)] {
        near(at(inches, "lookup(by-bore, {bore.nominal})"), thou);
    }
    for beyond in [3.999, 6.001] {
        let why = at(beyond, "lookup(by-bore, {bore.nominal})").unwrap_err();
        assert!(why.starts_with("bore.nominal is beyond the ends of by-bore (line "), "{why}");
    }
    let listed = "{bore.nominal} in sizes.ours ? 1 thou : 2 thou";
    near(at(4.03, listed), 1.0);
    near(at(4.06, listed), 2.0);
    // the use's words: street, bracket, all-out
    let by = |word: f64| high(head, "lookup(by-use, {use})", &[("use", &[word])]);
    near(by(1.0), 2.0);
    assert_eq!(by(2.0).unwrap_err().split(" (line").next(), Some("by-use says nothing for this use"));
}

#[test]
fn what_is_wrong_beside_the_rules_is_told_at_its_line() {
    let rule = |high: &str| {
        format!(
            "{{\"id\": \"a\", \"why\": \"w\", \"operation\": \"block\", \"window\": {{\"judges\": \"bore.taper.max\", \"high\": \"{high}\"}}}}"
        )
    };
    let told = |head: &str, expression: &str| {
        let text = format!("{{\"table\": \"t\", \"title\": \"T\",\n{head},\n\"rules\": [{}]}}", rule(expression));
        let facts = packs::facts_for_tables();
        let known = thou_table::KnownFacts { facts: &facts, packs: &[] };
        thou_table::translate("t.json", &text, &known).map_or_else(|f| f.to_string(), |_| "fine".to_owned())
    };
    let points = |p: &str| format!("\"maps\": {{ \"m\": {{ \"points\": {p} }} }}");
    for (head, expression, wanted) in [
        (
            r#""settings": { "a": "two" }"#,
            "1 thou",
            "t.json:2:20: two is not one number with its unit, and no day\n    write it like \"60 thou\", \"0.85\" or \"2027-01-01\"\n",
        ),
        (
            r#""settings": { "stroke": "2 in" }"#,
            "1 thou",
            "t.json:2:15: stroke is a fact: a setting of that name would hide it\n",
        ),
        (r#""lists": { "l": [] }"#, "1 thou", "t.json:2:12: the list l is empty, so nothing is in it\n"),
        (
            r#""lists": { "worst": ["a"] }"#,
            "1 thou",
            "t.json:2:12: worst is a word of the expressions\n    give it another name\n",
        ),
        (
            &points(r#"[["2 in", "1 thou"], ["1 in", "2 thou"]]"#),
            "1 thou",
            "t.json:2:50: 1 in does not come after the point before it\n    the points of a map rise, each with its unit\n",
        ),
        (&points(r#"[["2 in", "1 thou"]]"#), "1 thou", "t.json:2:11: the map m has less than two points\n"),
        (
            &points(r#"[["1 psi", "1 thou"], ["2 psi", "2 thou"]]"#),
            "lookup(m, {stroke})",
            "t.json:3:115: m is by a pressure, and this is a length\n",
        ),
        (
            &points(r#"[["1 in", "1 psi"], ["2 in", "2 psi"]]"#),
            "lookup(m, {stroke})",
            "t.json:3:105: this comes to a pressure, and bore.taper.max is a length\n",
        ),
        (
            r#""maps": { "m": { "words": { "stret": "1 thou" } } }"#,
            "lookup(m, {use})",
            "t.json:3:112: no use is called \"stret\"\n    did you mean \"street\"? use is street, bracket or all-out; a table can add a use with \"uses\"\n",
        ),
        (r#""from": "2026-02-30""#, "1 thou", "t.json:2:9: \"from\" is a day of the calendar, like \"2027-01-01\"\n"),
        (
            r#""from": "2026-03-01", "until": "2026-02-01""#,
            "1 thou",
            "t.json:2:32: it ends 2026-02-01 and begins 2026-03-01\n    are the two swapped?\n",
        ),
        (
            r#""version": "1""#,
            "{date} < 2027-02-29 ? 1 thou : 2 thou",
            "t.json:3:114: the calendar has no 2027-02-29\n",
        ),
        (
            r#""version": "1""#,
            "{date} * 2 > 1 ? 1 thou : 2 thou",
            "t.json:3:105: a day cannot be multiplied or divided\n    take the time between two days\n",
        ),
        (
            r#""version": "1""#,
            "{date} < 12 months ? 1 thou : 2 thou",
            "t.json:3:114: a day cannot be compared with a time\n",
        ),
        (
            r#""version": "1""#,
            "worst({stroke})",
            "t.json:3:105: nothing in worst(..) runs over places\n    it is for what has a value a cylinder, a valve and so on; `thou facts` says which\n",
        ),
        (
            r#""version": "1""#,
            "worst(mean({bore.taper}))",
            "t.json:3:111: mean(..) stands in another figure of all places\n",
        ),
        (
            r#""version": "1""#,
            "worts({bore.taper})",
            "t.json:3:105: there is no worts(..) in a table\n    did you mean worst(..)?\n",
        ),
        (r#""version": "1""#, "1e300 thou", "t.json:3:105: no engine has 1e300 of anything\n"),
    ] {
        assert_eq!(told(head, expression), wanted, "{head} {expression}");
    }
}

/// A rule whose days are past says so and counts as not said; what it stood in for counts again.
#[test]
fn a_rule_that_has_ended_says_so_and_makes_nothing_better() {
    let dated = |days: &str| {
        loaded(days, r#"{"id": "rods", "supersedes": ["clearances/rod-clearance"], "window": {"low": "0.1 thou", "high": "9 thou", "never-above": "99 thou"}}"#)
            .unwrap_or_else(|f| panic!("{f}"))
    };
    let weight = |exit: u8| [0, 4, 1].iter().position(|e| *e == exit).unwrap_or(3);
    for name in ["sample-builds/bracket.json", "sample-builds/street.json", "sample-builds/all-out.json"] {
        let mut sheet = sheet_of(name);
        sheet.looked_at = Some(TODAY);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let base = verdict::judge(&sheet, &facts, &builtin(), Some(TODAY));
        let judged = |days: &str| verdict::judge(&sheet, &facts, &[builtin(), vec![dated(days)]].concat(), Some(TODAY));
        let own = |v: &verdict::Verdict| {
            v.items.iter().filter(|i| i.rule == "ours/rods").map(|i| (i.state, i.words.clone())).collect::<Vec<_>>()
        };
        let old = |v: &verdict::Verdict| v.windows.iter().filter(|w| w.rule == "clearances/rod-clearance").count();
        let ended = judged("\"until\": \"2026-06-30\",");
        let words = "this counted until 2026-06-30: see whether there is a newer one, and take it".to_owned();
        assert_eq!(own(&ended), [(State::CannotSay, words)], "{name}");
        assert_eq!(old(&ended), old(&base), "{name}: the old rule counts again");
        let early = judged("\"from\": \"2026-07-02\",");
        assert_eq!(own(&early), [(State::DoesNotApply, "this counts from 2026-07-02 on".to_owned())], "{name}");
        for strict in [false, true] {
            let before = weight(base.exit_code(strict));
            for with in [&ended, &early, &judged("\"from\": \"2026-07-01\", \"until\": \"2026-07-01\",")] {
                assert!(weight(with.exit_code(strict)) >= before, "{name}");
            }
            assert!(weight(ended.exit_code(strict)) >= 1, "{name}: an ended rule is not silent");
        }
        assert!(
            own(&judged("\"from\": \"2026-07-01\", \"until\": \"2026-07-01\","))
                .iter()
                .all(|(s, _)| *s != State::CannotSay)
        );
    }
}

fn written(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ours.json");
    std::fs::write(&path, text).unwrap();
    let path = path.display().to_string();
    (folder, path)
}

/// One line and one lot of work, by the spring that ends first; where one of them is not read, nobody can say.
#[test]
fn a_service_over_valves_is_one_line_by_the_least() {
    let (_keep, pack) = written(
        r#"{"table": "ours", "title": "Ours", "rules": [{"id": "springs", "why": "w", "operation": "heads",
        "service": {"meter": "passes", "part": "our springs", "action": "replace", "opens": "valve-covers", "hours": 4.3, "duty": "outing",
        "held-in": [], "low": "{spring.open-load} > 900 lbf ? 20 passes : 60 passes", "nominal": "{spring.open-load} > 900 lbf ? 30 passes : 80 passes",
        "high": "{spring.open-load} > 900 lbf ? 40 passes : 100 passes"}}]}"#,
    );
    let services = |sheet: &str| {
        let run = thou(&["plan", sheet, "--pack", &pack, "--format", "json"]);
        assert_eq!(run.err, "");
        let plan: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        let mut found = Vec::new();
        each(&plan, &mut |v| {
            if v["rule"] == "ours/springs" && v["nominal"].is_number() {
                found.push(v.clone());
            }
        });
        found
    };
    let one = services("sample-builds/bracket.json");
    assert_eq!(one.len(), 1, "{one:?}");
    let (_keep_sheet, heavy) = changed("bracket", |v| {
        for set in sets(&mut v["readings"]["open-load"]) {
            set["at"]["5E"] = json!("950 lbf");
        }
    });
    let least = services(&heavy);
    assert_eq!(least.len(), 1, "{least:?}");
    assert!((least[0]["nominal"].as_f64().unwrap() - 30.0).abs() < 1e-9, "{least:?}");
    // asked of two valves, one of them not read
    let pack = packs::load_file(pack.as_ref()).unwrap_or_else(|f| panic!("{f}"));
    let answer =
        |loads: [f64; 2]| pack.assess(&[0], &Given { starts: &[0, 2], values: &loads, places: &|_| Some(2) }).unwrap();
    let read = answer([3_000.0, 4_500.0]);
    assert_eq!(read.services.iter().map(|s| (s.what.place, s.what.nominal)).collect::<Vec<_>>(), [(None, 30.0)]);
    let hole = answer([3_000.0, f64::NAN]);
    assert!(hole.services.is_empty());
    assert!(matches!(hole.outcomes[0].state, OutcomeState::CannotSay(1)), "{:?}", hole.outcomes);
}

fn sets(value: &mut serde_json::Value) -> Vec<&mut serde_json::Value> {
    if value.is_array() { value.as_array_mut().unwrap().iter_mut().collect() } else { vec![value] }
}

fn each(value: &serde_json::Value, see: &mut impl FnMut(&serde_json::Value)) {
    see(value);
    match value {
        serde_json::Value::Array(list) => list.iter().for_each(|v| each(v, see)),
        serde_json::Value::Object(object) => object.values().for_each(|v| each(v, see)),
        _ => {}
    }
}

#[test]
fn a_finding_by_place_names_its_places_on_their_own_axis() {
    let pack = loaded(
        "",
        r#"{"id": "a", "why": "w", "operation": "heads", "when": "{spring.open-load} > 950 lbf", "finding": {"words": "heavy at {place}", "points-at": ["use"]}}"#,
    )
    .unwrap();
    let (_keep, sheet) = changed("bracket", |v| {
        for set in sets(&mut v["readings"]["open-load"]) {
            set["at"]["5E"] = json!("990 lbf");
        }
    });
    let sheet = thou::sheet::Sheet::read(sheet.as_ref()).unwrap_or_else(|f| panic!("{f}"));
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let verdict = verdict::judge(&sheet, &facts, &[pack], Some(TODAY));
    let found: Vec<_> = verdict.items.iter().filter(|i| i.rule == "ours/a").map(|i| (i.state, i.place)).collect();
    let at = sheet.places.labels(thou::sheet::Axis::Valve).iter().position(|l| l == "5E").unwrap();
    assert_eq!(found, [(State::Look, Some((thou::sheet::Axis::Valve, at)))]);
}

/// The samples hold to their cases, and every text, limit and reason of theirs is in one.
#[test]
fn the_sample_tables_hold_to_their_cases() {
    for (table, cases) in [("class/fen-road-modified", 28), ("honing/nine-mile-finish", 21)] {
        let run = thou(&["pack", "test", &format!("rulepacks/tables/{table}.json")]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{table}");
        assert!(run.out.contains(&format!(": {cases} cases of ")), "{}", run.out);
        let schema: serde_json::Value =
            serde_json::from_str(&std::fs::read_to_string(file("schemas/table.schema.json")).unwrap()).unwrap();
        let validator = jsonschema::draft202012::new(&schema).unwrap();
        let text = std::fs::read_to_string(file(&format!("rulepacks/tables/{table}.json"))).unwrap();
        let plain: String = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect();
        let value: serde_json::Value = serde_json::from_str(&plain).unwrap();
        let faults: Vec<String> =
            validator.iter_errors(&value).map(|e| format!("{}: {e}", e.instance_path())).collect();
        assert!(faults.is_empty(), "{table}: {faults:?}");
    }
}

/// Over all samples: the status is never better with a sample table than without, within its season, before and after it.
#[test]
fn no_sample_table_makes_a_sheet_better() {
    let weight = |exit: u8| [0, 4, 1].iter().position(|e| *e == exit).unwrap_or(3);
    let tables = ["class/fen-road-modified", "honing/nine-mile-finish"]
        .map(|t| packs::load_file(&file(&format!("rulepacks/tables/{t}.json"))).unwrap_or_else(|f| panic!("{f}")));
    let folders = ["sample-builds", "sample-builds/planted", "sample-builds/right"].into_iter();
    let samples = folders.flat_map(thou_tests::samples).filter(|n| thou_tests::value(n)["format"] == "thou-build-1");
    let mut tried = 0;
    for name in samples {
        for day in ["2025-12-31", "2026-07-01", "2027-01-01"].map(|d| d.parse::<jiff::civil::Date>().unwrap()) {
            let mut sheet = sheet_of(&name);
            sheet.looked_at = Some(day);
            packs::take_fields(&mut sheet, &tables).unwrap_or_else(|f| panic!("{f}"));
            let facts = SheetFacts::new(Catalogue::of_sheet(&sheet), &sheet);
            let base = verdict::judge(&sheet, &facts, &builtin(), Some(day));
            for table in &tables {
                let with = verdict::judge(&sheet, &facts, &[builtin(), vec![table.clone()]].concat(), Some(day));
                assert!(with.lost.is_empty(), "{:?}", with.lost);
                for strict in [false, true] {
                    let (before, after) = (base.exit_code(strict), with.exit_code(strict));
                    assert!(
                        weight(after) >= weight(before),
                        "{name} {day}: {before} without {}, {after} with",
                        table.manifest.id
                    );
                }
                // a book that has ended is not silent, whatever the sheet has
                let ended = day.year() == 2027 && table.manifest.id == "fen-road-modified";
                let says = with
                    .items
                    .iter()
                    .any(|i| i.state == State::CannotSay && i.words.contains("counted until 2026-12-31"));
                assert_eq!(says, ended, "{name} {day}");
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "{tried}");
}

/// A size to go to is one that such a part can have.
#[test]
fn no_gasket_is_thinner_than_nothing() {
    let sheet = sheet_of("sample-builds/bracket.json");
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let info = Catalogue::standard().info("gasket.thickness").unwrap();
    let field = thou_fields::field(info.path.unwrap()).unwrap();
    let (least, most) = field.band.unwrap().si(field.kind().unwrap()).unwrap();
    let solved = |never_below: f64, never_above: Option<f64>| {
        let wish = verdict::remedy::Wish {
            judged: "piston-to-head",
            axis: thou::sheet::Axis::Cylinder,
            place: 0,
            limits: verdict::Limits { never_below: Some(never_below), never_above, ..verdict::Limits::default() },
            change: "gasket.thickness",
            may: "either",
            left: &std::cell::Cell::new(verdict::remedy::WORKED_OUT),
        };
        verdict::remedy::solve(&sheet, &facts, &wish).unwrap()
    };
    // 60 thou below where it touches would want a gasket of less than nothing
    assert_eq!((solved(-60.0 * THOU, None).from, solved(-60.0 * THOU, None).to), (Some(least), None));
    assert_eq!(solved(30.0 * THOU, Some(1.0)).to, Some(most));
    // an end that a gasket can have stays: 30 thou of room want more than the least
    assert!(solved(30.0 * THOU, None).from.unwrap() > least);
}

/// A pack's documentation has all of its rules, what they need and what could silence them, and nothing that a page would run.
#[test]
fn the_docs_of_a_pack_come_of_itself() {
    let table = "rulepacks/tables/class/fen-road-modified.json";
    let pack = packs::load_file(&file(table)).unwrap_or_else(|f| panic!("{f}"));
    let text = thou(&["pack", "docs", table]);
    assert_eq!((text.exit, text.err.as_str()), (0, ""));
    for rule in &pack.manifest.rules {
        assert!(text.out.contains(&format!("### {} (fen-road-modified/{})", rule.title, rule.id)), "{}", rule.id);
        assert!(text.out.contains(&rule.why), "{}", rule.id);
    }
    for input in &pack.manifest.inputs {
        assert!(text.out.contains(&format!("- {} (", input.id)), "{}", input.id);
    }
    assert!(text.out.contains("May say nothing: this counted until 2026-12-31"), "{}", text.out);
    assert!(text.out.contains("Whose numbers: published: the rule book of an invented sanctioning body, season of 2026, says fen-road-modified"));
    let (_keep, odd) = written(
        r#"{"table": "ours", "title": "A & <b>B</b>", "rules": [{"id": "a", "why": "<script>x</script> *w*", "operation": "block",
        "window": {"judges": "bore.taper.max", "high": "1 thou"}}]}"#,
    );
    let html = thou(&["pack", "docs", &odd, "--format", "html"]);
    assert_eq!(html.exit, 0, "{}", html.err);
    assert!(
        html.out.contains("<h1>A &amp; &lt;b&gt;B&lt;/b&gt;</h1>") && !html.out.contains("<script>"),
        "{}",
        html.out
    );
    let plain = thou(&["pack", "docs", &odd]);
    assert!(plain.out.contains(r"\<script\>x\</script\> \*w\*"), "{}", plain.out);
}
