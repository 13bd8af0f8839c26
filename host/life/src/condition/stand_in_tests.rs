#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::super::{Condition, ConditionReader, SheetReading, SheetReadings, Urgency};
use crate::log::tests::line;
use crate::log::{Log, Meters};
use crate::services::LogServices;
use crate::services::tests::service;
use jiff::civil::date;
use thou_contract::System;
use thou_contract::factor::{POUND_FORCE, PSI};

fn sheet() -> SheetReadings {
    let of = |value: f64| SheetReading {
        value,
        called: "the sheet's after-run reading of 2026-06-24".into(),
        speed: Some(7_000.0 * std::f64::consts::PI / 30.0),
        gauge: Some("tester 2".into()),
    };
    let at = |reading: &str, place: &str| (reading.to_owned(), Some(place.to_owned()));
    let all = [
        (at("leak-down", "5"), of(0.03)),
        (at("seat-load", "5E"), of(260.0 * POUND_FORCE)),
        (("oil-pressure-hot".to_owned(), None), of(76.0 * PSI)),
    ];
    all.into_iter().collect()
}

fn read(lines: &[&str]) -> Condition {
    let days = (1_i8..).zip(lines);
    let entries: Vec<_> = days.map(|(day, json)| line(date(2026, 7, day), json)).collect();
    let log = Log::new(&entries, &Meters::new());
    let new = service("valve springs", "replace", &serde_json::json!({ "read-afresh": ["seat-load"] }));
    let services = LogServices::new([("x/springs".into(), &new)], &[]);
    let (sheet, system) = (sheet(), System::Inch);
    ConditionReader { log: &log, meter: "passes", services: &services, sheet: &sheet, system }.read()
}

#[test]
fn without_a_gauge_it_is_held_against_the_sheet_and_says_so() {
    let found = read(&[r#""what":"read","reading":"leak-down","place":"5","value":"45 %""#]);
    let alert = &found.findings[0];
    assert_eq!(alert.weight, Urgency::Stop);
    assert_eq!(
        alert.words,
        "leak-down cylinder 5: 45 %. +42 points since the sheet's after-run reading of 2026-06-24; no gauge named, \
         compared all the same"
    );
    // 260 to 90 lbf is 65.4 % less
    let soft = read(&[r#""what":"read","reading":"seat-load","place":"5E","value":"90 lbf","gauge":"tester 2""#]);
    assert!(soft.findings[0].words.ends_with("-65.4 % since the sheet's after-run reading of 2026-06-24"));
    assert_eq!(soft.findings[0].weight, Urgency::Stop);
}

#[test]
fn what_cannot_be_compared_says_why() {
    let against = |lines: &[&str]| read(lines).against.into_values().last().unwrap_or_default();
    let cold = r#""what":"read","reading":"leak-down","place":"5","value":"45 %","state":"cold""#;
    assert_eq!(against(&[cold]), "read cold: not compared with the sheet's after-run reading of 2026-06-24");
    assert!(read(&[cold]).findings.is_empty());
    // 6,300 rpm are nine tenths of 7,000
    let slow = r#""what":"read","reading":"oil-pressure-hot","value":"50 psi","state":"hot, 6200 rpm""#;
    assert!(against(&[slow]).contains("under its working speed: not compared with the sheet's after-run"));
    let fast = r#""what":"read","reading":"oil-pressure-hot","value":"50 psi","state":"hot, 6400 rpm""#;
    assert!(read(&[fast]).findings[0].words.contains("-26 psi since the sheet's after-run reading"));
    let new = r#""what":"did","service":"x/springs""#;
    let soft = r#""what":"read","reading":"seat-load","place":"5E","value":"90 lbf""#;
    assert!(against(&[new, soft]).ends_with("is of a part that was renewed since: not compared"));
    let other = r#""what":"read","reading":"leak-down","place":"6","value":"45 %""#;
    assert!(against(&[other]).starts_with("compared with nothing: no fresh one in the log, none on the sheet."));
}

/// 3 % with tester 2 in the log comes before the sheet's.
#[test]
fn the_logs_own_fresh_one_comes_first_whatever_read_it() {
    let fresh = r#""what":"read","reading":"leak-down","place":"5","value":"4 %","gauge":"tester 7","baseline":true"#;
    let late = r#""what":"read","reading":"leak-down","place":"5","value":"9 %""#;
    let found = read(&[fresh, late]);
    assert!(found.findings[0].words.contains("+5 points since its fresh reading, 2026-07-01"), "{found:?}");
    assert!(found.findings[0].words.ends_with("no gauge named, compared with tester 7 all the same"));
    let other = r#""what":"read","reading":"leak-down","place":"5","value":"9 %","gauge":"tester 8""#;
    assert!(read(&[fresh, other]).findings.is_empty());
    let why = read(&[fresh, other]).against.into_values().collect::<Vec<_>>();
    assert_eq!(why, ["read with tester 8, fresh with tester 7: not compared, read it with tester 7 too"]);
    let same = r#""what":"read","reading":"leak-down","place":"5","value":"9 %","gauge":"tester 7""#;
    let found = read(&[fresh, same]);
    assert!(found.against.is_empty() && found.findings[0].words.ends_with("its fresh reading, 2026-07-01"));
    // the fresh one itself is held against nothing
    assert!(read(&[fresh]).against.is_empty() && read(&[fresh]).findings.is_empty());
}
