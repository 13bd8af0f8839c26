//! The plan tied to events: days worked out by hand beside each, the card's size, rows, the calendar file against
//! RFC 5545, and what is told when the season in the sheet is wrong.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use insta::assert_snapshot;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thou_tests::{Run, samples, thou, value};

const BRACKET: &str = "sample-builds/bracket.json";

fn plan(sheet: &str) -> Value {
    serde_json::from_str(&thou(&["plan", sheet, "--format", "json"]).out).unwrap()
}

/// Runs the plan of a changed sheet.
fn changed(sheet: &Value, more: &[&str]) -> Run {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.json");
    std::fs::write(&path, serde_json::to_string_pretty(sheet).unwrap()).unwrap();
    let rows = "bracket-main-journals.csv";
    std::fs::copy(thou_tests::file(&format!("sample-builds/{rows}")), folder.path().join(rows)).unwrap();
    let path = path.display().to_string();
    let args: Vec<&str> = ["plan", path.as_str()].into_iter().chain(more.iter().copied()).collect();
    let run = thou(&args);
    let short = |text: &str| text.replace(&format!("{}/", folder.path().display()), "");
    Run { exit: run.exit, out: short(&run.out), err: short(&run.err) }
}

fn service<'a>(plan: &'a Value, rule: &str, meter: &str) -> &'a Value {
    plan["services"].as_array().unwrap().iter().find(|s| s["rule"] == rule && s["meter"] == meter).unwrap()
}

fn order<'a>(plan: &'a Value, part: &str) -> &'a Value {
    plan["orders"].as_array().unwrap().iter().find(|o| o["part"] == part).unwrap()
}

/// Date, event before, last event that may be run.
fn when(service: &Value, which: usize) -> (String, Option<String>, Option<String>) {
    let when = &service["when"][which];
    let text = |key: &str| when[key].as_str().map(str::to_owned);
    (text("date").unwrap(), text("before"), text("through"))
}

fn at(date: &str, before: Option<&str>, through: Option<&str>) -> (String, Option<String>, Option<String>) {
    (date.to_owned(), before.map(str::to_owned), through.map(str::to_owned))
}

// Most passes of the bracket sample's events, and their sum:
// E1 3+7 = 10, E2 2+7 = 9 (19), E3 10 (29), E4 9 (38), test day 8 (46), E5 3+8 = 11 (57), E6 9 (66), E7 10 (76),
// E8 9 (85), E9 a match of 2+3 = 5 (90), E10 11 (101). Fewest: 4, 3 (7), 4 (11), 3 (14), 8 (22), 4 (26), 3 (29), 4 (33),
// 3 (36), 5 (41), 4 (45).
#[test]
fn lives_are_tied_to_the_events_that_pass_them() {
    let plan = plan(BRACKET);
    let oil = service(&plan, "freshen/oil", "passes");
    assert_eq!((&oil["low"], &oil["nominal"], &oil["high"]), (&json!(25.0), &json!(40.0), &json!(60.0)));
    assert_eq!(when(oil, 0), at("2026-08-01", Some("E3"), Some("E2")));
    assert_eq!(when(oil, 1), at("2026-08-21", Some("test day"), Some("E4")));
    assert_eq!(when(oil, 2), at("2026-09-12", Some("E6"), Some("E5")));
    // with every first round lost 40 hold through E8 (36), and E9 makes 41
    assert_eq!(oil["when"][1]["latest"], json!({ "date": "2026-10-17", "before": "E9" }));
    let sample = service(&plan, "freshen/oil-analysis", "passes");
    // 90 before E10, 101 after it
    assert_eq!(when(sample, 1), at("2026-10-31", Some("E10"), Some("E9")));
    // after 1 November nothing is run for 182 days, until 2 May; from there to 1 November are 184 days for 200 passes:
    // 125 - 101 = 24 passes are 22.1 days
    assert_eq!(when(sample, 2), at("2027-05-24", None, None));
    // 200 - 101 = 99 passes: 91.1 days after 2 May
    assert_eq!(when(service(&plan, "freshen/vacuum-pump", "passes"), 1), at("2027-08-01", None, None));
    // the plugs by events: one is run, then they are due
    assert_eq!(when(service(&plan, "freshen/spark-plugs", "events"), 1), at("2026-07-18", Some("E2"), Some("E1")));
    // twelve months of 30.4375 days: 365.25 days after 25 June 2026, past every event
    assert_eq!(when(service(&plan, "freshen/fuel-system", "months"), 1), at("2027-06-25", None, None));
}

#[test]
fn what_is_ordered_leaves_its_days_before_the_event_of_its_low() {
    let plan = plan(BRACKET);
    // low 84 and a part: 76 before E8, 85 after it; E8 on 10 October less the day of work (5.2 h)
    // and 8 days away; E7 ends on 27 September
    let lifters = order(&plan, "roller lifters");
    assert_eq!(
        (&lifters["how"], &lifters["by"], &lifters["late-days"]),
        (&json!("sent-out"), &json!("2026-10-01"), &json!(0))
    );
    assert_eq!(lifters["away"], json!({ "free-days": 12, "misses": null, "instead": null }));
    // set 14 lies on the shelf: no day
    let springs = order(&plan, "valve springs");
    assert_eq!((&springs["by"], &springs["on-the-shelf"]), (&Value::Null, &json!(["set 14"])));
    let without = order(&plan, "engine oil");
    assert_eq!((&without["how"], &without["days"], &without["by"]), (&json!("unknown"), &Value::Null, &Value::Null));
    assert!(
        thou(&["plan", BRACKET]).out.contains("Ask how long these take to come, for a day to order by: engine oil.")
    );
}

#[test]
fn what_does_not_come_back_in_time_misses_its_event() {
    let plan = plan("sample-builds/all-out.json");
    // low 10 of the lifters: R1 8, R2 16. R1 ends on 17 May, R2 starts on 22 May: 4 days between, and 9 away with 5 of work
    // after them. From 1 May to R1 on the 15th there are 14: sent on the 1st they are back and in
    let lifters = order(&plan, "roller lifters");
    assert_eq!(
        lifters["away"],
        json!({ "free-days": 4, "misses": "R2", "instead": { "after": null, "before": "R1" } })
    );
    assert_eq!(lifters["by"], "2026-05-01");
    // 36.5 h of work are 5 days; those and six weeks before 22 May is 5 April, 26 days before 1 May
    let rods = order(&plan, "rods");
    assert_eq!((&rods["work-days"], &rods["by"], &rods["late-days"]), (&json!(5), &json!("2026-04-05"), &json!(26)));
    // 42 days and 36.5 h of work, 5 days: 17 June, after R2 (22 May) and R3 (12 June), before R4
    let chain = &plan["waits-for"];
    assert_eq!(
        (&chain["part"], &chain["ready"], &chain["misses"]),
        (&json!("rods"), &json!("2026-06-17"), &json!(["R2", "R3"]))
    );
    // a pass is shorter than an event: it is no stop
    let plugs = service(&plan, "freshen/spark-plugs", "passes");
    assert_eq!(plugs["when"][1]["within"], true);
    assert!(plan["stops"].as_array().unwrap().iter().all(|s| !s["services"].to_string().contains("spark-plugs")));
}

/// The day to set out on is the one on the page, in the rows for programs and in the calendar.
#[test]
fn page_and_calendar_agree_on_the_day_to_set_out() {
    for (sheet, days) in [(BRACKET, 0), ("sample-builds/all-out.json", 5)] {
        let plan = plan(sheet);
        let chain = &plan["waits-for"];
        let part = chain["part"].as_str().unwrap();
        let order = order(&plan, part);
        if days > 0 {
            assert_eq!((&chain["days-of-work"], &order["work-days"]), (&json!(days), &json!(days)));
        }
        let Some(by) = order["by"].as_str() else { continue };
        assert_eq!(chain["begin"], by, "{sheet}");
        let ics = entries(&thou(&["plan", sheet, "--format", "ics"]).out);
        let entry =
            ics.iter().find(|e| e["SUMMARY"].to_lowercase().ends_with(part) && e["CATEGORIES"] == "order").unwrap();
        // what is late is for today
        let day = by.max(plan["as-of"].as_str().unwrap()).replace('-', "");
        assert_eq!(entry["DTSTART;VALUE=DATE"], day, "{sheet}");
    }
}

#[test]
fn what_may_wait_says_what_that_risks() {
    let page = thou(&["plan", BRACKET, "--next", "E3"]).out;
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    // 19 run before E3, 29 after it, at the scale of the test below: 1 - exp(0.0054977 - 0.0195486) = 0.01395
    // the sheet's planned change and the service's hours at what an hour costs
    let sheet: Value = serde_json::from_str(&std::fs::read_to_string(thou_tests::file(BRACKET)).unwrap()).unwrap();
    let oil = &sheet["costs"]["parts"]["engine oil"];
    let plan: Value = serde_json::from_str(&thou(&["plan", BRACKET, "--format", "json"]).out).unwrap();
    let services = plan["services"].as_array().unwrap();
    let hours = services.iter().find(|s| s["rule"] == "freshen/oil").unwrap()["hours"].as_f64().unwrap();
    let change = oil["planned"].as_f64().unwrap() + hours * sheet["costs"]["hour"].as_f64().unwrap();
    let change = change.round();
    let failure = oil["failure"].as_f64().unwrap();
    assert_eq!(failure.to_string().len(), 4, "written with one comma below");
    let told = format!(
        "Change the oil: a careful shop has it apart by then; plan for it before test day. Engine oil: 1 in 100 that it lets \
         go at E3, and there is a bill for it; that costs {},{} dollars, the change {change}. Waiting ",
        (failure / 1e3).floor(),
        failure % 1e3
    );
    assert!(words.contains(&told), "{told}\n{page}");
}

/// Barlow and Hunter's cost rate with the plainest means: the trapezium rule, and every age tried.
fn least_rate(shape: f64, scale: f64, planned: f64, failure: f64) -> f64 {
    let reach = |t: f64| (-(t / scale).powf(shape)).exp();
    let (mut use_so_far, mut least) = (0.0, f64::INFINITY);
    let step = scale / 20_000.0;
    for n in 1..40_000 {
        let t = f64::from(n) * step;
        use_so_far += step * (reach(t) + reach(t - step)) / 2.0;
        least = f64::min(least, (planned * reach(t) + failure * (1.0 - reach(t))) / use_so_far);
    }
    least
}

#[test]
fn going_one_event_further_costs_what_the_arithmetic_says() {
    let plan = plan(BRACKET);
    let stop = plan["stops"].as_array().unwrap().iter().find(|s| s["before"] == "test day").unwrap();
    let further = &stop["further"];
    let oil = further["waits"].as_array().unwrap().iter().find(|w| w["rule"] == "freshen/oil").unwrap();
    // 38 run before it, 46 after it, of 25, 40 and 60
    assert_eq!(oil["left"], json!([-21.0, -6.0, 14.0]));
    // 5 % gone at 40, shape 3: scale 40/0.0512933^(1/3) = 107.654; (38/s)^3 = 0.0439809, (46/s)^3 = 0.0780158
    let chance = oil["chance"].as_f64().unwrap();
    assert!((chance - 0.033462).abs() < 2e-5, "{chance}");
    let hours = service(&plan, "freshen/oil", "passes")["hours"].as_f64().unwrap();
    let planned = 90.0 + 85.0 * hours;
    let wanted = (2600.0 - planned) * chance - 8.0 * least_rate(3.0, 107.654, planned, 2600.0);
    let cost = oil["cost"].as_f64().unwrap();
    assert!((cost - wanted).abs() < 0.02, "{cost}, wanted {wanted}");
}

#[test]
fn every_counted_service_is_in_one_stop() {
    for name in samples("sample-builds") {
        let plan = plan(&name);
        let list = |key: &str| plan[key].as_array().unwrap().clone();
        // a service has a line for each of its meters, and is done once
        let mut in_stops = BTreeMap::<String, usize>::new();
        for stop in list("stops") {
            for rule in stop["services"].as_array().unwrap() {
                *in_stops.entry(rule.as_str().unwrap().to_owned()).or_default() += 1;
            }
        }
        let due = |s: &Value| s["due"] == "past" || s["due"] == "now";
        let within = |s: &Value| s["when"][1]["within"] == true && !due(s);
        let services = list("services");
        // what is done between the rounds starts again on all its meters
        let between = |rule: &Value| services.iter().any(|s| s["rule"] == *rule && within(s));
        let counted: BTreeMap<String, usize> = services
            .iter()
            .filter(|s| !s["used"].is_null() && !within(s) && (due(s) || !between(&s["rule"])))
            .map(|s| (s["rule"].as_str().unwrap().to_owned(), 1))
            .collect();
        assert_eq!(in_stops, counted, "{name}");
    }
}

#[test]
fn pages_of_the_season() {
    for (name, sheet) in [("bracket", BRACKET), ("all-out", "sample-builds/all-out.json")] {
        let page = thou(&["plan", sheet]).out;
        assert_snapshot!(format!("season-{name}"), page.split("\nAFTER AN OVER-REV").next().unwrap());
    }
    for (name, sheet) in [
        ("bracket", BRACKET),
        ("all-out", "sample-builds/all-out.json"),
        ("used", "sample-builds/used-at-freshen.json"),
    ] {
        assert_snapshot!(format!("card-{name}"), thou(&["plan", sheet, "--card"]).out);
        assert_snapshot!(format!("rows-{name}"), thou(&["plan", sheet, "--format", "csv"]).out);
        assert_snapshot!(
            format!("calendar-{name}"),
            thou(&["plan", sheet, "--format", "ics"]).out.replace("\r\n", "\n")
        );
        let season = plan(sheet);
        let part: BTreeMap<&str, &Value> =
            ["events", "stops", "orders", "waits-for"].into_iter().map(|k| (k, &season[k])).collect();
        assert_snapshot!(format!("json-{name}"), serde_json::to_string_pretty(&part).unwrap());
    }
    assert_snapshot!("next-e8", thou(&["plan", BRACKET, "--next", "e8"]).out);
    assert_snapshot!("next-r2", thou(&["plan", "sample-builds/all-out.json", "--next", "R2"]).out);
}

#[test]
fn the_card_is_one_sheet_in_black_and_white() {
    for folder in ["sample-builds", "sample-builds/right"] {
        for name in samples(folder) {
            let run = thou(&["plan", &name, "--card"]);
            assert_eq!(run.exit, 0, "{name}");
            let lines: Vec<&str> = run.out.lines().collect();
            assert!((20..=60).contains(&lines.len()), "{name}: {} lines", lines.len());
            for line in lines {
                assert!(line.chars().count() <= 80, "{name}: {line}");
                assert!(!line.contains('\u{1b}'), "{name}: {line}");
            }
            assert!(run.out.contains("[ ] ") && run.out.contains("___________"), "{name}");
            assert!(run.out.contains("sanctioning body's rules"), "{name}");
        }
    }
}

#[test]
fn rows_are_one_a_service_under_a_header() {
    for name in ["bracket", "all-out", "used-at-freshen"] {
        let sheet = format!("sample-builds/{name}.json");
        let out = thou(&["plan", &sheet, "--format", "csv"]).out;
        let mut reader = csv::Reader::from_reader(out.as_bytes());
        assert_eq!(reader.headers().unwrap().iter().collect::<Vec<_>>(), thou::report::plan_csv::HEADER);
        let rows: Vec<BTreeMap<String, String>> = reader.deserialize().map(Result::unwrap).collect();
        let plan = plan(&sheet);
        assert_eq!(rows.len(), plan["services"].as_array().unwrap().len());
        for row in &rows {
            let s = service(&plan, &row["rule"], &row["meter"]);
            assert_eq!(row["nominal"].parse::<f64>().unwrap(), s["nominal"].as_f64().unwrap());
            assert_eq!(row["date-nominal"], s["when"][1]["date"].as_str().unwrap_or(""));
            assert_eq!(row["before-nominal"], s["when"][1]["before"].as_str().unwrap_or(""));
            assert_eq!(row["because"], s["because"].as_str().unwrap());
        }
        let keys: Vec<(String, String)> = rows.iter().map(|r| (r["rule"].clone(), r["meter"].clone())).collect();
        assert!(keys.is_sorted());
    }
}

/// Content lines with their folding undone: a line break and the blank after it (RFC 5545, section 3.1).
fn unfolded(ics: &str) -> Vec<String> {
    ics.replace("\r\n ", "").split("\r\n").map(str::to_owned).filter(|l| !l.is_empty()).collect()
}

fn entries(ics: &str) -> Vec<BTreeMap<String, String>> {
    let mut out = Vec::new();
    for line in unfolded(ics) {
        if line == "BEGIN:VEVENT" {
            out.push(BTreeMap::new());
        } else if let (Some(last), Some((key, text))) = (out.last_mut(), line.split_once(':')) {
            last.insert(key.to_owned(), text.to_owned());
        }
    }
    out
}

#[test]
fn the_calendar_holds_to_rfc_5545() {
    let mut sheet = value(BRACKET);
    sheet["calendar"][0]["name"] = json!("Night race, north; gate 4\\B");
    sheet["calendar"][0]["at"] = json!("Brücke, ".repeat(12));
    let ics = changed(&sheet, &["--format", "ics"]).out;
    // 3.1: lines end in CR LF and hold 75 octets without it; no character is cut in two, since every line is text
    assert!(ics.ends_with("END:VCALENDAR\r\n") && !ics.replace("\r\n", "").contains(['\r', '\n']));
    for line in ics.split("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
    }
    assert!(ics.split("\r\n").any(|l| l.len() >= 73), "nothing was folded");
    let all = entries(&ics);
    // 3.3.11: a backslash, a semicolon and a comma are escaped, a line break is \n; a colon is not
    let first = all.iter().find(|e| e["DTSTART;VALUE=DATE"] == "20260704").unwrap();
    assert_eq!(first["SUMMARY"], r"0417: Night race\, north\; gate 4\\B");
    assert_eq!(first["LOCATION"], r"Brücke\, ".repeat(12));
    assert!(
        first["DESCRIPTION"]
            .contains(r"\nPlanning figures. Makers\, sanctioning body\, local codes and licensed practice")
    );
    let mut uids = BTreeSet::new();
    for entry in &all {
        // 3.6.1: the end of whole days is the day after the last
        assert!(entry["DTEND;VALUE=DATE"] > entry["DTSTART;VALUE=DATE"]);
        // 3.8.7.2: in UTC; the plan's day, whatever day it is printed on
        assert_eq!(entry["DTSTAMP"], "20260625T000000Z");
        // days from 1 January 2000 to 25 June 2026: 26 years with 7 leap days, and 175 days of 2026
        assert_eq!(entry["SEQUENCE"], (26 * 365 + 7 + 175).to_string());
        // 3.8.4.7: each its own
        assert!(uids.insert(entry["UID"].clone()), "{} twice", entry["UID"]);
        assert!(!entry["UID"].contains("2026-"), "a day in {}", entry["UID"]);
    }
    // 3.6.1, the example of a whole-day entry over several days: 20070628 to 20070709 means 28 June to 8 July
    let stop = all.iter().find(|e| e["SUMMARY"].contains("before E8")).unwrap();
    assert_eq!((&*stop["DTSTART;VALUE=DATE"], &*stop["DTEND;VALUE=DATE"]), ("20261009", "20261010"));
}

#[test]
fn a_later_plan_moves_its_entries_and_a_service_done_gets_a_new_one() {
    let all = |sheet: &Value| -> BTreeMap<String, String> {
        let ics = changed(sheet, &["--format", "ics"]).out;
        entries(&ics).into_iter().map(|e| (e["UID"].clone(), e["DTSTART;VALUE=DATE"].clone())).collect()
    };
    let fresh = value(BRACKET);
    // E2 is rained off to a week later
    let mut moved = fresh.clone();
    moved["calendar"][1]["date"] = json!("2026-07-25");
    let (before, after) = (all(&fresh), all(&moved));
    let event = "0417~26-031.event.E2@thou.invalid";
    assert_eq!((&*before[event], &*after[event]), ("20260718", "20260725"));
    // the plugs are due after one event: the day before E2
    let plugs = "0417~26-031.stop.freshen~spark-plugs.events.build@thou.invalid";
    assert_eq!((&*before[plugs], &*after[plugs]), ("20260717", "20260724"));
    assert_eq!(before.keys().collect::<Vec<_>>(), after.keys().collect::<Vec<_>>());
    // E1 is run, and the plugs are read
    let mut done = fresh;
    done["meters"] = json!({ "date": "2026-07-06", "passes": "8 passes", "events": 1 });
    done["serviced"] = json!({ "freshen/spark-plugs": { "date": "2026-07-06", "at": { "events": 1 } } });
    let done = all(&done);
    assert!(!done.contains_key(plugs));
    assert!(done.contains_key("0417~26-031.stop.freshen~spark-plugs.events.events-1@thou.invalid"), "{done:#?}");
    assert!(!done.contains_key("0417~26-031.event.E1@thou.invalid"));
}

// Most passes: E1 10, E2 9, E3 10, E4 9, test day 8, E5 11, E6 9, E7 10, E8 9, E9 5, E10 11. The oil (nominal 40) first comes
// before the test day; fresh there, 8 + 11 + 9 + 10 = 38 and E8 makes 47; fresh before E8, 9 + 5 + 11 = 25 to the end.
#[test]
fn every_turn_within_the_season_is_in_the_calendar() {
    let season = plan(BRACKET);
    let of = |rule: &str| -> Vec<(i64, String)> {
        let turns = season["again"].as_array().unwrap().iter().filter(|t| t["rule"] == rule);
        turns.map(|t| (t["turn"].as_i64().unwrap(), t["before"].as_str().unwrap().to_owned())).collect()
    };
    assert_eq!(when(service(&season, "freshen/oil", "passes"), 1).1.as_deref(), Some("test day"));
    assert_eq!(of("freshen/oil"), [(2, "E8".to_owned())]);
    // the plugs after each event: E2 first, then every one to the last
    let events = ["E3", "E4", "test day", "E5", "E6", "E7", "E8", "E9", "E10"];
    let plugs: Vec<(i64, String)> = (2..).zip(events).map(|(n, e)| (n, e.to_owned())).collect();
    assert_eq!(of("freshen/spark-plugs"), plugs);
    let all = entries(&thou(&["plan", BRACKET, "--format", "ics"]).out);
    for event in events {
        let ends = format!(" before {event}");
        let stops: Vec<_> = all.iter().filter(|e| e["CATEGORIES"] == "stop" && e["SUMMARY"].ends_with(&ends)).collect();
        let plugs = stops.iter().filter(|e| e["DESCRIPTION"].contains("read the plugs")).count();
        assert_eq!(plugs, 1, "{event}: {stops:#?}");
    }
    let oil = |e: &&BTreeMap<String, String>| e["CATEGORIES"] == "stop" && e["DESCRIPTION"].contains("hange the oil");
    let before: Vec<&str> = all.iter().filter(oil).map(|e| e["SUMMARY"].rsplit(" before ").next().unwrap()).collect();
    assert_eq!(before, ["test day", "E8"]);
}

#[test]
fn a_stamp_that_ends_in_the_season_says_before_which_event() {
    let mut sheet = value(BRACKET);
    sheet["certificates"][0]["until"] = json!("2026-08-29");
    let page = changed(&sheet, &[]).out;
    assert!(page.contains("damper: until 2026-08-29, in date, and ends before E5 does\n"), "{page}");
    let next = changed(&sheet, &["--next", "E5"]).out;
    assert!(next.contains("Damper: its stamp ends on 2026-08-29, before this event does.\n"), "{next}");
    assert!(!changed(&sheet, &["--next", "E4"]).out.contains("its stamp ends"));
}

#[test]
fn without_costs_or_a_calendar_the_plan_says_no_more_than_it_knows() {
    let mut sheet = value(BRACKET);
    for section in ["calendar", "lead-times", "costs", "spares"] {
        sheet.as_object_mut().unwrap().remove(section);
    }
    let page = changed(&sheet, &[]).out;
    for word in ["EVENTS AHEAD", "ORDER AND SEND OUT", "lets go", "first, "] {
        assert!(!page.contains(word), "{word}");
    }
    // 200 a season: 40 passes are 73 days after 25 June
    assert!(page.contains("  at 40 passes, about 2026-09-06: nothing apart, 1 h of work\n"), "{page}");
    let mut free = value(BRACKET);
    free.as_object_mut().unwrap().remove("costs");
    let text = changed(&free, &["--format", "json"]).out;
    let plan: Value = serde_json::from_str(&text).unwrap();
    let waits: Vec<&Value> =
        plan["stops"].as_array().unwrap().iter().filter_map(|s| s["further"]["waits"].as_array()).flatten().collect();
    assert!(waits.len() > 3 && waits.iter().all(|w| w["cost"].is_null()));
    assert!(waits.iter().any(|w| w["chance"].is_number()));
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    for more in [&["--format", "ics"][..], &["--format", "csv"], &["--format", "json"], &["--card"], &["--next"]] {
        let args: Vec<&str> = ["plan", BRACKET].into_iter().chain(more.iter().copied()).collect();
        assert_eq!(thou(&args).out, thou(&args).out);
    }
}

#[test]
fn a_season_that_is_wrong_is_told() {
    let mut page = String::new();
    let mut ask = |what: &str, change: &dyn Fn(&mut Value), more: &[&str]| {
        let mut sheet = value(BRACKET);
        change(&mut sheet);
        let run = changed(&sheet, more);
        assert_eq!(run.exit, 2, "{what}: {}{}", run.out, run.err);
        assert_eq!(run.out, "", "{what}");
        // where a line is broken hangs on how long the folder's own name is
        let words: Vec<&str> = run.err.split_whitespace().collect();
        page.push_str(&format!("{what}\n{}\n\n", words.join(" ")));
    };
    ask(
        "a part that no service names, in lead-times",
        &|s| s["lead-times"]["valve sprngs"] = json!({ "order": "3 days" }),
        &[],
    );
    ask("a part that no service names, in costs", &|s| s["costs"]["parts"]["turbine"] = json!({ "planned": 3 }), &[]);
    ask("a part that no service names, on the shelf", &|s| s["spares"][0]["part"] = json!("rod bolt"), &[]);
    ask("an event that is none", &|_| (), &["--next", "test-day"]);
    ask("an event far from all names", &|_| (), &["--next", "spring nationals"]);
    ask(
        "an event that is over",
        &|s| s["meters"] = json!({ "date": "2026-07-06", "passes": "6 passes" }),
        &["--next", "E1"],
    );
    ask("no event at all", &|s| s["calendar"] = json!([]), &["--next"]);
    ask("a page for people, for programs", &|_| (), &["--next", "--format", "ics"]);
    ask("a card for programs", &|_| (), &["--card", "--format", "json"]);
    assert_snapshot!("season-errors", page);
}
