//! How long parts lived, maker beside maker: the remission times of Freireich et al. (Blood 21 (1963) 699) as passes of
//! spark plugs, with the figures that Kleinbaum and Klein (Survival Analysis, ch. 2) work out by hand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::ToSpan;
use jiff::civil::{Date, date};
use serde_json::{Value, json};
use thou_tests::{Run, file, thou_on};

const SIX: ([u32; 9], [u32; 12]) = ([6, 6, 6, 7, 10, 13, 16, 22, 23], [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]);
const BLANK: [u32; 21] = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];

struct Shop {
    folder: tempfile::TempDir,
    day: Date,
    lines: String,
}

impl Shop {
    fn new() -> Self {
        let shop = Self { folder: tempfile::tempdir().unwrap(), day: date(2026, 7, 1), lines: String::new() };
        for (sheet, day) in [("bracket", "2026-06-26"), ("all-out", "2026-05-02")] {
            let sheet = file(&format!("sample-builds/{sheet}.json")).display().to_string();
            assert_eq!(shop.thou(&["book", "add", &sheet, "--day", day]).exit, 0);
        }
        shop
    }

    fn thou(&self, args: &[&str]) -> Run {
        let args: Vec<&str> = args.iter().copied().chain(["--width", "100"]).collect();
        thou_on(&self.folder.path().join("shop.book"), date(2027, 1, 1), &args)
    }

    /// Spark plugs that go in, run so long, and come out.
    fn lived(&mut self, engine: &str, maker: Option<&str>, passes: u32, failed: bool) {
        let serial = format!("set {}", self.lines.lines().count());
        let day = self.day.to_string();
        let mut fitted =
            json!({ "engine": engine, "day": day, "what": "fitted", "part": "spark plugs", "serial": serial });
        if let Some(maker) = maker {
            fitted["maker"] = json!(maker);
        }
        let mut all = vec![fitted];
        if passes > 0 {
            all.push(json!({ "engine": engine, "day": day, "what": "ran", "passes": passes }));
        }
        all.push(
            json!({ "engine": engine, "day": day, "what": "removed", "serial": serial, "failed": failed, "disposition": "scrap" }),
        );
        for line in all {
            self.lines += &format!("{line}\n");
        }
        self.day = self.day.checked_add(1.day()).unwrap();
    }

    fn take_in(&self) {
        let path = self.folder.path().join("log.jsonl");
        std::fs::write(&path, &self.lines).unwrap();
        let run = self.thou(&["log", "import", &path.display().to_string(), "--sure", "--all-or-nothing"]);
        assert_eq!(run.exit, 0, "{}{}", run.out, run.err);
    }

    fn lives(&self, more: &[&str]) -> Run {
        let args: Vec<&str> = ["book", "lives", "spark plugs"].into_iter().chain(more.iter().copied()).collect();
        self.thou(&args)
    }
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn two_makers_differ_as_the_textbook_has_it() {
    let mut shop = Shop::new();
    for (lives, failed) in [(&SIX.0[..], true), (&SIX.1[..], false)] {
        lives.iter().for_each(|passes| shop.lived("0417", Some("Six"), *passes, failed));
    }
    BLANK.iter().for_each(|passes| shop.lived("0417", Some("Blank"), *passes, true));
    shop.take_in();
    let run = shop.lives(&[]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    let page = words(&run.out);
    for part in [
        "Six: 21 parts, 9 failed, 12 did not",
        "at 6 passes: 3 of the 21 that had come so far failed; 86 % good",
        "at 10 passes: 1 of the 15 that had come so far failed; 75 % good",
        "half of them are gone by 23 passes",
        "half of them are gone by 8 passes",
        "They differ: were they alike, fewer than 1 in 1,000 shops would see as much between them by luck (log-rank).",
        "Nobody drew lots",
    ] {
        assert!(page.contains(part), "{part} is not in {page}");
    }
    let json: Value = serde_json::from_str(&shop.lives(&["--format", "json"]).out).unwrap();
    let schema: Value =
        serde_json::from_str(&std::fs::read_to_string(file("schemas/log.schema.json")).unwrap()).unwrap();
    let wrong: Vec<String> =
        jsonschema::validator_for(&schema).unwrap().iter_errors(&json).map(|e| e.to_string()).collect();
    assert_eq!(wrong, Vec::<String>::new());
    let near = |value: &Value, wanted: f64, by: f64| (value.as_f64().unwrap() - wanted).abs() < by;
    assert!(near(&json["test"]["chi-square"], 16.79, 0.005), "{}", json["test"]);
    assert!(near(&json["test"]["expected"][0], 10.75, 0.005) && near(&json["test"]["expected"][1], 19.25, 0.005));
    let good: Vec<f64> =
        json["groups"][1]["steps"].as_array().unwrap().iter().map(|s| s["good"].as_f64().unwrap()).collect();
    for (good, wanted) in good.iter().zip([0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448]) {
        assert!((good - wanted).abs() < 6e-4, "{good}");
    }
    // as of a day nothing later is known: after seven sets, none of the other maker
    let early = words(&shop.lives(&["--on", "2026-07-07"]).out);
    assert!(early.contains("Six: 7 parts, 7 failed, 0 did not"), "{early}");
    assert!(early.contains("Only one maker to look at"), "{early}");
}

#[test]
fn too_few_are_told_and_what_belongs_to_nobody_is_named() {
    let mut shop = Shop::new();
    for (maker, passes, failed) in [
        (Some("One"), 10, true),
        (Some("One"), 12, false),
        (Some("Two"), 5, true),
        (None, 9, true),
        (Some("Two"), 0, false),
    ] {
        shop.lived("0417", maker, passes, failed);
    }
    shop.lived("0709", Some("Two"), 7, false);
    shop.take_in();
    let page = words(&shop.lives(&[]).out);
    // at 5 one of four failed, two of them Two's; at 10 one of two, both One's: 0.5 of the two fall to Two
    assert!(
        page.contains("Too few to tell: were they alike, 0.5 failures would fall to the smallest of them"),
        "{page}"
    );
    assert!(
        page.contains(
            "Left out: no maker was written down when they went in: set 9; nothing run on this meter: set 12."
        ),
        "{page}"
    );
    let by_engine = words(&shop.lives(&["--by", "engine"]).out);
    assert!(by_engine.contains("0417: 4 parts, 3 failed, 1 did not"), "{by_engine}");
    assert!(
        by_engine.contains("0709: 1 part, 0 failed, 1 did not none failed; the longest has run 7 passes"),
        "{by_engine}"
    );
    assert!(words(&shop.lives(&["--by", "shop"]).out).contains("the shop: 5 parts, 3 failed, 2 did not"));
    let none = shop.thou(&["book", "lives", "spark plug"]);
    assert_eq!(
        (none.exit, words(&none.err)),
        (2, "the book knows no spark plug by number; did you mean spark plugs?".to_owned())
    );
    assert!(words(&shop.lives(&["--meter", "days"]).err).starts_with("--meter days: write one of passes"));
}
