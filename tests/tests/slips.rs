//! What stands on a time slip, and two passes in the same air: the figures beside each are worked out by hand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::date;
use serde_json::Value;
use thou_tests::{Run, file, thou_on};

struct Shop(tempfile::TempDir);

impl Shop {
    fn new() -> Self {
        let shop = Self(tempfile::tempdir().unwrap());
        let sheet = file("sample-builds/bracket.json").display().to_string();
        assert_eq!(shop.thou(&["book", "add", &sheet, "--day", "2026-06-26"]).exit, 0);
        shop
    }

    fn thou(&self, args: &[&str]) -> Run {
        let args: Vec<&str> = args.iter().copied().chain(["--width", "100"]).collect();
        thou_on(&self.0.path().join("shop.book"), date(2026, 9, 1), &args)
    }

    fn pass(&self, day: &str, more: &[&str]) -> String {
        let args: Vec<&str> =
            ["log", "add", "0417", "pass", "--day", day].into_iter().chain(more.iter().copied()).collect();
        let run = self.thou(&args);
        assert_eq!(run.exit, 0, "{}", run.err);
        words(&run.out)
    }

    fn ids(&self) -> Vec<String> {
        let log = self.thou(&["log", "export", "0417"]).out;
        log.lines().map(|l| serde_json::from_str::<Value>(l).unwrap()["id"].as_str().unwrap().to_owned()).collect()
    }
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

const JULY: [&str; 20] = [
    "--elapsed",
    "9.20 s",
    "--air-pressure",
    "97.5 kPa",
    "--air-temperature",
    "35 °C",
    "--humidity",
    "40 %",
    "--weight",
    "2700 lb",
    "--lane",
    "left",
    "--trap-speed",
    "145 mph",
    "--tire",
    "slick",
    "--tire-pressure",
    "13 psi",
    "--tune",
    "as it was",
];
const AUGUST: [&str; 14] = [
    "--elapsed",
    "9.15 s",
    "--air-pressure",
    "101 kPa",
    "--air-temperature",
    "20 °C",
    "--humidity",
    "50 %",
    "--weight",
    "2800 lb",
    "--lane",
    "right",
    "--plugs",
    "dry, light ring",
];

// SAE J1349: 35 °C holds 5.628 kPa of water (steam tables), 40 % of it 2.251: dry 95.249 kPa, factor
// 1.18 (99/95.249) sqrt(308/298) - 0.18 = 1.06688, and 9.20 s / 1.06688^(1/3) = 9.004 s.
// 20 °C holds 2.339 kPa, half of it 1.170: dry 99.830 kPa, 1.18 (99/99.830) sqrt(293/298) - 0.18 = 0.98033; 9.15 s / 0.98033^(1/3)
// = 9.211 s. At 2,700 for 2,800 lb: 9.211 (27/28)^(1/3) = 9.100 s.
#[test]
fn two_passes_come_to_the_same_air_and_weight() {
    let shop = Shop::new();
    let said = shop.pass("2026-07-18", &JULY);
    // National Weather Service: Tv = 310.86 K, 3,871 ft
    let feet: f64 = said.split("Density altitude ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    assert!((feet - 3_871.0).abs() < 50.0, "{said}");
    assert!(said.contains("9.004 s in the air of SAE J1349."), "{said}");
    shop.pass("2026-08-15", &AUGUST);
    let ids = shop.ids();
    let run = shop.thou(&["log", "compare", "0417", &ids[0], &ids[1]]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    let page = words(&run.out);
    for part in [
        "air 97.5 kPa 35 °C 40 % humidity",
        "power times 1.067 in the air of SAE J1349: 9.004 s",
        "power times 0.980 in the air of SAE J1349: 9.211 s",
        "The second was 0.050 s quicker by the clock, and is 0.207 s slower in the same air; at the first one's weight \
         too, 0.096 s slower.",
        "lane left, then right",
        "tune as it was, and nothing said of the second",
        "weight 2700 lb, then 2800 lb",
        "Neither says its fuel.",
        "the weather report's is reduced to sea level",
    ] {
        assert!(page.contains(part), "{part} is not in {page}");
    }
    let json = shop.thou(&["log", "compare", "0417", &ids[0], &ids[1], "--format", "json"]).out;
    let json: Value = serde_json::from_str(&json).unwrap();
    let schema: Value =
        serde_json::from_str(&std::fs::read_to_string(file("schemas/log.schema.json")).unwrap()).unwrap();
    let wrong: Vec<String> =
        jsonschema::validator_for(&schema).unwrap().iter_errors(&json).map(|e| e.to_string()).collect();
    assert_eq!(wrong, Vec::<String>::new());
    assert_eq!((&json["standard"], &json["passes"][1]["standard-holds"]), (&"sae-j1349".into(), &true.into()));
    assert!((json["second-in-the-same-air-s"].as_f64().unwrap() - 0.207).abs() < 1e-3);
}

#[test]
fn a_slip_goes_to_a_file_and_back() {
    let shop = Shop::new();
    shop.pass("2026-07-18", &JULY);
    shop.pass("2026-08-15", &AUGUST);
    for form in ["csv", "jsonl"] {
        let log = shop.thou(&["log", "export", "0417", "--format", form]).out;
        let other = Shop::new();
        let path = other.0.path().join("log");
        std::fs::write(&path, &log).unwrap();
        let run = other.thou(&["log", "import", &path.display().to_string()]);
        assert_eq!(run.exit, 0, "{form}: {}{}", run.out, run.err);
        assert_eq!(other.thou(&["log", "export", "0417", "--format", form]).out, log);
        assert!(log.contains("dry, light ring") && log.contains("2700 lb"));
    }
    let list = words(&shop.thou(&["log", "list", "0417"]).out);
    let wanted = "1 pass, in 9.20 s, at 145 mph, left lane, air 97.5 kPa 35 °C 40 % humidity, weight 2700 lb, tire slick at 13 \
                  psi, tune: as it was";
    assert!(list.contains(wanted), "{list}");
}

#[test]
fn what_cannot_be_or_is_not_known_is_told() {
    let shop = Shop::new();
    let refused = |more: &[&str]| {
        let args: Vec<&str> = ["log", "add", "0417", "pass"].into_iter().chain(more.iter().copied()).collect();
        let run = shop.thou(&args);
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{more:?}");
        words(&run.err)
    };
    assert_eq!(
        refused(&["--air-pressure", "14.7 inHg"]),
        "air-pressure cannot be 14.7 inHg: it is from 20 inHg to 32 inHg. Nothing was written."
    );
    assert!(refused(&["--humidity", "101 %"]).starts_with("humidity cannot be 101 %"));
    assert!(refused(&["--humidity", "62"]).starts_with("humidity: "));
    assert!(refused(&["--lane", "middle"]).starts_with("there is no lane \"middle\""));
    assert!(refused(&["--place", "5"]).contains("--place does not go with \"pass\""));
    let said = shop.pass("2026-08-01", &["--elapsed", "9.20 s", "--air-pressure", "29 inHg"]);
    assert!(said.contains("Without air-temperature and humidity nobody can say what that air was worth."), "{said}");
    let cold = ["--elapsed", "9.0 s", "--air-pressure", "29 inHg", "--air-temperature", "20 °F", "--humidity", "40 %"];
    assert!(shop.pass("2026-08-02", &cold).contains("Below freezing"));
    shop.pass("2026-08-03", &JULY);
    let ids = shop.ids();
    let compare = |a: &str, b: &str| {
        let run = shop.thou(&["log", "compare", "0417", a, b]);
        assert_eq!((run.exit, run.out.as_str()), (2, ""));
        words(&run.err)
    };
    assert!(compare(&ids[0], &ids[2]).contains("says nothing of its air-temperature, humidity"));
    assert!(compare(&ids[2], &ids[1]).contains("Below freezing"));
    assert!(compare(&ids[2], "nothing").contains("0417 has no entry nothing"));
    // far up the standard does not hold: 82.97 kPa, of which 0.96 are water, and 1.18 (99/82.00) sqrt(305.2/298) - 0.18 = 1.262
    let high =
        ["--elapsed", "9.9 s", "--air-pressure", "24.5 inHg", "--air-temperature", "90 °F", "--humidity", "20 %"];
    shop.pass("2026-08-04", &high);
    let page = words(&shop.thou(&["log", "compare", "0417", &ids[2], shop.ids().last().unwrap()]).out);
    assert!(page.contains("That standard does not hold here: the correction factor is 1.26"), "{page}");
}
