#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use crate::entry::Entry;
use crate::log::tests::line;
use crate::log::{Log, Meters};
use crate::services::LogServices;
use crate::services::tests::service;
use jiff::civil::date;
use serde_json::json;
use thou_contract::System;

fn read(entries: &[Entry]) -> Condition {
    let coils = service("coils", "replace", &json!({ "read-afresh": ["seat-load"], "told-by": ["seat-load"] }));
    let oil = service("oil", "replace", &json!({ "read-afresh": ["oil-fuel"], "told-by": ["oil-fuel"] }));
    let services = LogServices::new([("x/coils".to_owned(), &coils), ("x/drain".to_owned(), &oil)], &[]);
    let log = Log::new(entries, &Meters::new());
    ConditionReader {
        log: &log,
        meter: "passes",
        services: &services,
        sheet: &SheetReadings::new(),
        system: System::Inch,
    }
    .read()
}

/// Runs of passes with a reading after each: `n` readings of one key.
fn season(reading: &str, place: &str, passes: f64, values: &[&str]) -> Vec<Entry> {
    let mut out = Vec::new();
    for (n, value) in values.iter().enumerate() {
        let day = date(2026, 4, 4).checked_add(jiff::Span::new().days(7 * n as i64)).unwrap();
        if n > 0 {
            out.push(line(day, &format!(r#""event":"E{n}","what":"ran","passes":{passes}"#)));
        }
        let place = if place.is_empty() { String::new() } else { format!(r#","place":"{place}""#) };
        let event = if n > 0 { format!(r#""event":"E{n}","#) } else { String::new() };
        let fresh = if n == 0 { r#","baseline":true"# } else { "" };
        out.push(line(
            day,
            &format!(
                r#"{event}"what":"read","reading":"{reading}"{place},"value":"{value}","gauge":"tester 2"{fresh}"#
            ),
        ));
    }
    out
}

#[test]
fn a_cylinder_that_leaks_four_points_more_is_looked_at_and_ten_is_out() {
    let found = read(&season("leak-down", "5", 20.0, &["4 %", "4 %", "5 %", "9 %"])).findings;
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].weight, found[0].title.as_str()), (Urgency::Look, "leak-down cylinder 5"));
    let words = "leak-down cylinder 5 (tester 2): 4, 4, 5, 9 %. +5 points since its fresh reading, 2026-04-04";
    assert_eq!(found[0].words, words);
    // no service says whose end a leak-down tells
    assert_eq!(found[0].part, None);
    assert!(read(&season("leak-down", "5", 20.0, &["4 %", "4 %", "5 %", "7 %"])).findings.is_empty());
    assert_eq!(read(&season("leak-down", "5", 20.0, &["4 %", "4 %", "8 %"])).findings[0].weight, Urgency::Look);
    assert_eq!(read(&season("leak-down", "5", 20.0, &["4 %", "14 %"])).findings[0].weight, Urgency::Stop);
}

#[test]
fn a_reading_with_another_tester_is_another_reading() {
    let mut entries = season("leak-down", "5", 20.0, &["4 %", "4 %"]);
    let last = r#""what":"read","reading":"leak-down","place":"5","value":"12 %","gauge":"tester 7""#;
    entries.push(line(date(2026, 6, 1), last));
    assert!(read(&entries).findings.is_empty());
}

#[test]
fn a_finding_ends_when_somebody_writes_what_was_found() {
    let mut entries = season("leak-down", "5", 20.0, &["4 %", "9 %"]);
    let id = entries.last().unwrap().id.clone();
    entries.push(line(date(2026, 6, 1), &format!(r#""what":"settled","entry":"{id}","found":"5E lash, set""#)));
    assert!(read(&entries).findings.is_empty());
}

#[test]
fn springs_against_their_fresh_load_and_their_mates() {
    let one = |values: &[&str]| read(&season("seat-load", "3E", 10.0, values)).findings;
    assert!(one(&["252 lbf", "250 lbf", "240 lbf"]).is_empty());
    assert_eq!(one(&["252 lbf", "250 lbf", "237 lbf"])[0].weight, Urgency::Look);
    assert_eq!(one(&["252 lbf", "250 lbf", "226.8 lbf"])[0].weight, Urgency::Stop);
    let mut set = Vec::new();
    for (place, last) in [("1E", "250 lbf"), ("3E", "229 lbf"), ("5E", "249 lbf"), ("1I", "200 lbf"), ("3I", "201 lbf")]
    {
        set.extend(season("seat-load", place, 0.0, &["240 lbf", last]));
    }
    set.sort_by_key(|e| e.day);
    let found = read(&set).findings;
    let weak: Vec<&ReadingAlert> = found.iter().filter(|f| f.title == "seat load valve 3E").collect();
    assert!(weak[0].words.contains("8.2 % under its mates (250 lbf)"), "{}", weak[0].words);
    assert_eq!(weak[0].part.as_deref(), Some("coils"));
}

#[test]
fn a_new_set_of_springs_starts_its_readings_afresh() {
    let mut entries = season("seat-load", "3E", 10.0, &["252 lbf", "240 lbf", "232 lbf"]);
    assert_eq!(read(&entries).findings.len(), 1);
    entries.push(line(date(2026, 6, 1), r#""what":"did","service":"x/coils""#));
    assert!(read(&entries).findings.is_empty() && read(&entries).series.is_empty());
    let mut fitted = season("seat-load", "3E", 10.0, &["252 lbf", "240 lbf", "232 lbf"]);
    fitted.push(line(date(2026, 6, 1), r#""what":"fitted","part":"rod bolts","serial":"b""#));
    assert_eq!(read(&fitted).findings.len(), 1);
    fitted.push(line(date(2026, 6, 1), r#""what":"fitted","part":"coils","serial":"set 14""#));
    assert!(read(&fitted).findings.is_empty());
}

#[test]
fn lash_that_opens_four_is_looked_at_and_one_that_moved_with_all_is_the_temperature() {
    let found = read(&season("lash", "5E", 10.0, &["0.016 in", "0.017 in", "0.021 in"])).findings;
    assert!(found[0].words.ends_with("+5 thou since its fresh reading, 2026-04-04"), "{}", found[0].words);
    assert!(found[0].to_do.starts_with("Look before it is set"));
    let mut all = Vec::new();
    for place in ["1E", "3E", "5E", "7E"] {
        all.extend(season("lash", place, 0.0, &["0.016 in", "0.021 in"]));
    }
    all.sort_by_key(|e| e.day);
    let found = read(&all).findings;
    assert!(found.len() == 4 && found.iter().all(|f| f.to_do.starts_with("All of them moved alike")), "{found:?}");
    assert!(read(&season("lash", "5E", 10.0, &["0.016 in", "0.0195 in"])).findings.is_empty());
}

/// Copper of 6 and 7 ppm on 25 passes of oil, then 18: 7.2 each ten passes against 2.6.
#[test]
fn copper_is_held_against_this_engines_own_samples_by_the_pass() {
    let mut entries = Vec::new();
    for (n, ppm) in ["6 ppm", "7 ppm", "18 ppm"].iter().enumerate() {
        let day = date(2026, 4, 4).checked_add(jiff::Span::new().days(14 * n as i64)).unwrap();
        entries.push(line(day, r#""what":"ran","passes":25"#));
        entries.push(line(day, &format!(r#""what":"read","reading":"oil-copper","value":"{ppm}""#)));
        entries.push(line(day, r#""what":"did","service":"x/drain""#));
    }
    let found = read(&entries).findings;
    assert_eq!(found.len(), 1);
    assert!(
        found[0].words.contains("7.2 ppm each 10 passes of that oil, 2.6 in the samples before"),
        "{}",
        found[0].words
    );
    entries.truncate(6);
    assert!(read(&entries).findings.is_empty());
}

#[test]
fn pressure_clearance_power_and_growth() {
    let one = |reading, place, values: &[&str]| read(&season(reading, place, 10.0, values)).findings;
    assert!(one("oil-pressure-hot", "", &["68 psi", "61 psi"]).is_empty());
    assert_eq!(one("oil-pressure-hot", "", &["68 psi", "60 psi"]).len(), 1);
    assert!(one("rod-clearance", "4", &["2.7 thou", "3.1 thou"]).is_empty());
    assert_eq!(one("rod-clearance", "4", &["2.7 thou", "3.2 thou"]).len(), 1);
    assert!(one("power", "", &["700 hp", "687 hp"]).is_empty());
    assert_eq!(one("power", "", &["700 hp", "686 hp"]).len(), 1);
    assert_eq!(one("rod-bolt-growth", "3", &["0.1 thou", "0.5 thou"])[0].weight, Urgency::Stop);
    assert_eq!(one("oil-fuel", "", &["2 %", "3.5 %"]).len(), 1);
    assert_eq!(one("blow-by", "", &["2 cfm", "2.6 cfm"]).len(), 1);
}

#[test]
fn a_line_wants_four_readings_and_a_fresh_one_of_its_own() {
    let rising = ["3 %", "3.5 %", "4 %", "4.5 %", "5 %"];
    let entries = season("leak-down", "5", 20.0, &rising);
    let seen = read(&entries);
    assert_eq!(seen.outlooks.len(), 1);
    let outlook = &seen.outlooks[0];
    // half a point each 20 passes, two points to go to 3 + 4
    let [fast, middle, slow] = outlook.left;
    for left in [fast, middle, slow] {
        assert!((left.unwrap() - 80.0).abs() < 1e-6, "{left:?}");
    }
    assert!((outlook.limit - 0.07).abs() < 1e-12);
    assert!(read(&season("leak-down", "5", 20.0, &rising[..3])).outlooks.is_empty());
    let without: Vec<Entry> = entries
        .into_iter()
        .map(|mut e| {
            if let What::Read { baseline, .. } = &mut e.what {
                *baseline = false;
            }
            e
        })
        .collect();
    let seen = read(&without);
    assert!(seen.outlooks.is_empty() && seen.no_baseline == BTreeMap::from([("leak-down".to_owned(), 1)]));
}

#[test]
fn readings_that_go_up_and_down_are_no_line() {
    assert!(read(&season("leak-down", "5", 20.0, &["3 %", "4 %", "3 %", "4 %", "3 %", "5 %"])).outlooks.is_empty());
}
