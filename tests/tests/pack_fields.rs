//! Fields that a pack asks for: read with the same errors as the sheet's own, judged like them, asked for on the spec.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, LoadedPack};
use thou::sheet::Sheet;
use thou::verdict::{self, Item, State};
use thou_tests::{TODAY, changed, file, thou, value};

/// A table that asks for a field of each kind.
const OURS: &str = r#"{
  "table": "ours", "title": "Nine Mile's numbers",
  "inputs": [
    { "id": "wall", "kind": "length", "axis": "cylinder", "gauge": "ultrasonic", "band": ["0.02 in", "1 in"],
      "about": "The sleeve's wall.", "moved-by": ["bored", "new pistons"], "required-for": ["bracket"] },
    { "id": "step", "kind": "length", "band": ["0.01 in", "1 in"], "about": "The sleeve's step." },
    { "id": "plating", "kind": "choice", "choices": ["none", "hard"], "about": "On the step.", "default": "none", "source": "ours" },
    { "id": "pinned", "kind": "flag", "about": "Whether it is pinned." },
    { "id": "sleeved", "kind": "day", "about": "The day it went in." },
    { "id": "part", "kind": "text", "about": "Its number." }
  ],
  "rules": [
    { "id": "wall", "why": "A thin wall moves.", "operation": "block",
      "window": { "judges": "extra.ours.wall", "never-below": "0.080 in", "low": "{plating} == 'hard' ? 0.110 in : 0.100 in" } },
    { "id": "step", "why": "It sits on it.", "operation": "block", "when": "{step} < 0.1 in && {pinned} && {part} in ['N-1'] && {sleeved} < {date}",
      "finding": { "words": "a step of {fact:extra.ours.step}", "points-at": ["extra.ours.step"] } }
  ]
}"#;

fn ours() -> LoadedPack {
    let table = packs::table("ours.json", OURS.as_bytes(), &packs::builtin()).unwrap_or_else(|f| panic!("{f}"));
    LoadedPack::load(table.component, "ours.json").unwrap()
}

/// A bracket engine with these fields of the pack.
fn with(extra: &Value) -> Result<Sheet, String> {
    let mut v = value("sample-builds/bracket.json");
    v["extra"] = json!({ "ours": extra });
    parse(&v)
}

fn parse(v: &Value) -> Result<Sheet, String> {
    let folder = file("sample-builds");
    let mut sheet = Sheet::parse("s", &v.to_string(), &folder).map_err(|f| f.to_string())?;
    packs::take_fields(&mut sheet, &[ours()]).map_err(|f| f.to_string())?;
    Ok(sheet)
}

/// What is told, without where it stands in the text, which is another place.
fn told(sheet: Result<Sheet, String>) -> String {
    let text = sheet.err().unwrap_or_default();
    let message = |line: &str| line.splitn(4, ':').nth(3).filter(|_| line.starts_with("s:")).unwrap_or(line).to_owned();
    text.lines().map(message).collect::<Vec<_>>().join("\n")
}

/// Every slip in a field of a pack is told in the words in which it is told of a field of the sheet's own.
#[test]
fn a_slip_is_told_in_the_same_words_as_of_the_sheets_own_fields() {
    let stated = [
        json!(0.1),
        json!("0.1"),
        json!("0.1 lb"),
        json!(["0.1 in"]),
        json!(true),
        json!("0,1 in"),
        json!("1/8 in"),
        json!("about 2"),
        json!({ "value": "1 in" }),
        json!("0.1 inch"),
    ];
    for slip in stated {
        let mut v = value("sample-builds/bracket.json");
        v["crank"]["fillet-radius"] = slip.clone();
        let own = told(parse(&v)).replace("crank.fillet-radius", "extra.ours.step");
        assert_ne!(own, "", "{slip}");
        assert_eq!(told(with(&json!({ "step": slip }))), own, "{slip}");
    }
    let sets = [
        json!("0.5 in"),
        json!({ "value": "0.5 in" }),
        json!({ "at": { "1": 0.1 } }),
        json!({ "at": { "1": "0.5 psi" } }),
        json!({ "at": { "9": "0.5 in" } }),
        json!({ "at": { "1": true } }),
        json!({ "att": { "1": "0.5 in" } }),
        json!({ "gauge": "the good one", "at": { "1": "0.5 in" } }),
        json!({ "when": "2026-02-30", "at": { "1": "0.5 in" } }),
        json!({ "when": "yesterday", "at": { "1": "0.5 in" } }),
        json!({ "stage": "finel", "at": { "1": "0.5 in" } }),
        json!({ "at": { "1": { "tenths": [1] } } }),
        json!({ "csv": "nowhere.csv" }),
    ];
    for slip in sets {
        let mut v = value("sample-builds/bracket.json");
        v["readings"]["piston-compression-height"] = slip.clone();
        let own = told(parse(&v)).replace("readings.piston-compression-height", "extra.ours.wall");
        assert_ne!(own, "", "{slip}");
        assert_eq!(told(with(&json!({ "wall": slip }))), own, "{slip}");
    }
    let mut v = value("sample-builds/bracket.json");
    v["block"]["fill"] = json!("nine");
    let own = told(parse(&v));
    let mine = told(with(&json!({ "plating": "nine" })));
    assert_eq!(own, " block.fill cannot be \"nine\"\n    did you mean \"none\"? It can be none, half, full");
    assert_eq!(mine, " extra.ours.plating cannot be \"nine\"\n    did you mean \"none\"? It can be none, hard");
    assert_eq!(
        told(with(&json!({ "plating": "hrad" }))),
        " extra.ours.plating cannot be \"hrad\"\n    did you mean \"hard\"? It can be none, hard"
    );
    assert_eq!(
        told(with(&json!({ "sleeved": "2026-13-01" }))),
        " extra.ours.sleeved: the calendar has no 2026-13-01\n    write year, month, day, like \"2026-03-14\""
    );
    assert_eq!(
        told(with(&json!({ "sleeved": "May" }))),
        " extra.ours.sleeved is a day, not \"May\": write it like \"2026-03-14\""
    );
    let mut v = value("sample-builds/bracket.json");
    v["block"]["honed-with-plate"] = json!("yes");
    let own = told(parse(&v)).replace("block.honed-with-plate", "extra.ours.pinned");
    assert!(own.ends_with("write true or false"), "{own}");
    assert_eq!(told(with(&json!({ "pinned": "yes" }))), own);
}

#[test]
fn what_cannot_be_and_what_nobody_asks_for_is_told() {
    let far = told(with(&json!({ "step": "1e9 m" })));
    assert!(far.starts_with(" extra.ours.step cannot be 1e9 m\n    it can be from 0.01 in to 1 in"), "{far}");
    let slip = told(with(&json!({ "wall": { "at": { "1": "1.2 mm", "2": "130 mm" } } })));
    assert!(slip.contains("extra.ours.wall.at.2 cannot be 130 mm") && slip.contains("0.02 in to 1 in"), "{slip}");
    assert_eq!(
        told(with(&json!({ "stepp": "0.1 in" }))),
        " extra.ours has no field \"stepp\"\n    did you mean \"step\"?"
    );
    assert_eq!(
        told(with(&json!({ "ring": 1 }))),
        " extra.ours has no field \"ring\"\n    its fields are wall, step, plating, pinned, sleeved, part"
    );
}

fn items(sheet: &Sheet) -> Vec<Item> {
    let facts = SheetFacts::new(Catalogue::of_sheet(sheet), sheet);
    let packs = [packs::builtin(), vec![ours()]].concat();
    let verdict = verdict::judge(sheet, &facts, &packs, Some(TODAY));
    assert!(verdict.lost.is_empty(), "{:?}", verdict.lost);
    verdict.items
}

/// State and place of what a rule says.
fn states(sheet: &Sheet, rule: &str) -> Vec<State> {
    items(sheet).iter().filter(|i| i.rule == rule).map(|i| i.state).collect()
}

#[test]
fn a_reading_of_a_pack_is_judged_like_the_sheets_own() {
    let set = |walls: [&str; 8], more: Value| {
        let names = ["1", "2", "3", "4", "5", "6", "7", "8"];
        let at: serde_json::Map<String, Value> =
            names.iter().zip(walls).filter(|(_, w)| !w.is_empty()).map(|(n, w)| ((*n).to_owned(), json!(w))).collect();
        let mut set = json!({ "gauge": "wall gauge", "when": "2026-06-20", "at": at });
        set.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        with(&json!({ "wall": set })).unwrap_or_else(|f| panic!("{f}"))
    };
    // in the shop's order: the left bank's first
    let mut read = ["0.150 in"; 8];
    read[1] = "0.095 in";
    read[3] = "0.070 in";
    read[5] = "";
    let sheet = set(read, json!({}));
    let item = |label: &str| {
        let at = sheet.places.labels(thou::sheet::Axis::Cylinder).iter().position(|l| l == label).unwrap();
        items(&sheet).into_iter().find(|i| i.rule == "ours/wall" && i.place.is_some_and(|p| p.1 == at)).unwrap()
    };
    assert_eq!(item("1").state, State::Go);
    assert_eq!(item("2").state, State::Look);
    assert_eq!(item("4").state, State::NoGo);
    assert_eq!(item("6").state, State::Open, "a hole is a hole");
    assert_eq!(item("6").wants, ["extra.ours.wall at 6"]);
    // the gauge is good for 5 thou: 1.645 of it is 8.2, and 3 thou above the never-limit is not proven
    assert!(item("1").value.unwrap().u > 5.0 * 2.54e-5 - 1e-9, "{:?}", item("1").value);
    let near = set(["0.083 in"; 8], json!({}));
    assert!(states(&near, "ours/wall").iter().all(|s| *s == State::Unproven), "{:?}", states(&near, "ours/wall"));
    // the block was bored after this: read before that it is stale
    let work = value("sample-builds/bracket.json")["work"].clone();
    let bored =
        work.as_array().unwrap().iter().find(|w| w["did"] == "bored").unwrap()["when"].as_str().unwrap().to_owned();
    let before = bored.parse::<jiff::civil::Date>().unwrap().yesterday().unwrap();
    let stale = set(["0.150 in"; 8], json!({ "when": before.to_string() }));
    assert!(states(&stale, "ours/wall").iter().all(|s| *s == State::Stale), "{:?}", states(&stale, "ours/wall"));
    // a default of the pack makes the window; what is stated makes another one
    let plated = |word: &str| {
        let extra = json!({ "wall": { "at": { "1": "0.105 in" } }, "plating": word });
        let all = items(&with(&extra).unwrap());
        all.iter().find(|i| i.rule == "ours/wall" && i.value.is_some()).unwrap().state
    };
    assert_eq!((plated("none"), plated("hard")), (State::Go, State::Look));
}

#[test]
fn what_is_stated_reaches_the_rules() {
    let all = |part: &str| {
        let extra = json!({ "step": "0.05 in", "pinned": true, "sleeved": "2026-06-01", "part": part });
        items(&with(&extra).unwrap()).into_iter().find(|i| i.rule == "ours/step").unwrap().state
    };
    assert_eq!(all("N-1"), State::Look);
    assert_eq!(all("n -1"), State::Look, "a part's number is told by its letters, however they are set");
    assert_eq!(all("N-2"), State::Go);
}

fn written(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ours.json");
    std::fs::write(&path, text).unwrap();
    let path = path.display().to_string();
    (folder, path)
}

#[test]
fn the_spec_has_blanks_and_the_check_says_what_is_missing() {
    let (_keep, pack) = written(OURS);
    let spec = thou(&["spec", "sample-builds/bracket.json", "--pack", &pack]);
    assert_eq!((spec.exit, spec.err.as_str()), (0, ""));
    let line = spec.out.lines().position(|l| l.starts_with("  wall:  ")).unwrap_or_else(|| panic!("{}", spec.out));
    let below: Vec<&str> = spec.out.lines().skip(line + 1).take(2).collect();
    assert!(below.iter().any(|l| l.contains(" 1 _____  3 _____")), "{below:?}");
    let check = thou(&["check", "sample-builds/bracket.json", "--pack", &pack]);
    assert_eq!(check.exit, 4, "{}", check.out);
    assert!(check.out.contains("fields that ours asks for"), "{}", check.out);
    assert!(check.out.contains("extra.ours.plating: none; ours"), "the default is told\n{}", check.out);
    // the same fields in a street engine are not wanted
    let street = thou(&["check", "sample-builds/street.json", "--pack", &pack]);
    assert!(!street.out.contains("fields that ours asks for"), "{}", street.out);
}

#[test]
fn without_its_pack_a_field_is_one_remark_and_changes_nothing() {
    let (_keep, sheet) = changed("bracket", |v| v["extra"] = json!({ "ours": { "step": 0.1, "x": [1, 2] } }));
    let check = thou(&["check", &sheet]);
    assert_eq!((check.exit, check.err.as_str()), (0, ""));
    assert_eq!(check.out.matches("nobody reads extra.ours").count(), 1, "{}", check.out);
    let (_keep_pack, pack) = written(OURS);
    let with = thou(&["check", &sheet, "--pack", &pack]);
    assert_eq!(with.exit, 2, "{}", with.out);
    assert!(with.err.contains("extra.ours.step is a length: write it with its unit"), "{}", with.err);
    assert!(with.err.contains("extra.ours has no field \"x\""), "{}", with.err);
}

/// What a manifest says of an input is held to what a field of the sheet could have.
#[test]
fn an_input_that_no_sheet_could_have_is_refused_at_its_line() {
    let told = |input: &str| {
        let text = format!(
            "{{\"table\": \"ours\", \"title\": \"Ours\", \"inputs\": [\n{input}], \"rules\": [\
             {{\"id\": \"a\", \"why\": \"w\", \"operation\": \"block\", \"window\": {{\"judges\": \"bore.taper\", \"high\": \"1 thou\"}}}}]}}"
        );
        let facts = packs::facts_for_tables();
        let known = thou_table::KnownFacts { facts: &facts, packs: &[] };
        thou_table::translate("t.json", &text, &known).map_or_else(|f| f.to_string(), |_| "fine".to_owned())
    };
    let rest = r#""about": "It.""#;
    for (input, words) in [
        (
            r#"{"id": "w", "kind": "lenght", ABOUT}"#,
            "t.json:2:21: there is no kind \"lenght\"\n    did you mean \"length\"?\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "axis": "valve", ABOUT}"#,
            "t.json:2:8: input w: it has a value a valve, and names no `gauge`: what is not one for the engine is read\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "gauge": "burette", ABOUT}"#,
            "t.json:2:8: input w: a burette shows no length\n",
        ),
        (r#"{"id": "w", "kind": "flag", "gauge": "burette", ABOUT}"#, "t.json:2:8: input w: no gauge reads words\n"),
        (r#"{"id": "w", "kind": "choice", ABOUT}"#, "t.json:2:8: input w: a choice lists its `choices`\n"),
        (
            r#"{"id": "w", "kind": "length", "band": ["2 in", "1 in"], ABOUT}"#,
            "t.json:2:8: input w: its band does not rise: 2 in, 1 in\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "gauge": "feeler", "moved-by": ["hoaned"], ABOUT}"#,
            "t.json:2:8: input w: no work is called hoaned, did you mean honed?\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "required-for": ["marine"], ABOUT}"#,
            "t.json:2:8: input w: it is required for marine, which is no use: street, bracket, all-out\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "default": "2 psi", "source": "s", ABOUT}"#,
            "t.json:2:42: the default of w: this is a length; 'psi' is for a pressure: write in, thou, tenths, mm, µm, um\n",
        ),
        (
            r#"{"id": "w", "kind": "length", "default": "2 in", ABOUT}"#,
            "t.json:2:42: this default does not say whose it is\n    add \"source\", such as \"our own number\"\n",
        ),
        (
            r#"{"id": "stroke", "kind": "length", ABOUT}"#,
            "t.json:2:8: stroke is a fact or a setting already: a field of that name would hide it\n",
        ),
    ] {
        assert_eq!(told(&input.replace("ABOUT", rest)), words, "{input}");
    }
}
