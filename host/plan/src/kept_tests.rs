#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use jiff::civil::date;
use std::path::Path;

fn sheet() -> Sheet {
    let text = r#"{ "format": "thou-build-1", "engine": { "name": "0417", "cylinders": 8, "layout": "v" },
        "intent": { "use": "bracket" },
        "calendar": [{ "name": "E9", "date": "2026-10-03", "last-date": "2026-10-04", "time-trials": 2, "rounds": 7 }],
        "lead-times": { "rings": { "order": "21 days", "said-by": "the ring house" } },
        "costs": { "hour": 85, "parts": { "rings": { "planned": 120, "failure": 900 } } },
        "spares": [{ "part": "rings", "serial": "R-1" }] }"#;
    Sheet::parse("0417.json", text, Path::new("")).map_err(|f| f.to_string()).unwrap()
}

/// Entries of one engine, or of the shop where it is `*`, each `(day, json)`.
fn entries(engine: &str, lines: &[(i8, &str)]) -> Vec<Entry> {
    let of = |(day, json): &(i8, &str)| {
        let text = format!(r#"{{"id":"{engine}{day}","engine":"{engine}","day":"2026-09-{day:02}",{json}}}"#);
        serde_json::from_str(&text).unwrap()
    };
    lines.iter().map(of).collect()
}

fn told(kept: &Kept) -> Vec<String> {
    let of = |i: &KeptItem| format!("{}: {} / {}", i.name, i.now, i.sheet.as_deref().unwrap_or("-"));
    kept.items.iter().map(of).collect()
}

#[test]
fn an_event_that_moved_keeps_its_length_its_rounds_and_its_name() {
    let mut sheet = sheet();
    let own = entries("0417", &[(1, r#""event":"e 9","what":"scheduled","on":"2026-10-10""#)]);
    let kept = over(&mut sheet, [&[], &own], None);
    let event = &sheet.calendar[0];
    assert_eq!((event.name.as_str(), event.first, event.last), ("E9", date(2026, 10, 10), date(2026, 10, 11)));
    assert_eq!((event.fewest(), event.most(), event.known), (3, 9, true));
    assert_eq!(told(&kept), ["E9: 2026-10-10 to 2026-10-11, 3 to 9 passes / 2026-10-03 to 2026-10-04, 3 to 9 passes"]);
    // as of the day before it was written nothing moved
    let mut before = super::tests::sheet();
    assert_eq!(over(&mut before, [&[], &own], Some(date(2026, 8, 31))), Kept::default());
    assert_eq!(before.calendar[0].first, date(2026, 10, 3));
}

#[test]
fn what_is_said_of_one_engine_counts_over_what_is_said_of_all() {
    let mut sheet = sheet();
    // the shop's is the later one, and the engine's own counts
    let shop =
        entries("*", &[(9, r#""what":"lead-time","part":"rings","days":28"#), (10, r#""what":"priced","hour":95"#)]);
    let own = entries("0417", &[(1, r#""what":"lead-time","part":"rings","days":35,"from":"the other house""#)]);
    let kept = over(&mut sheet, [&shop, &own], None);
    let rings = &sheet.lead_times["rings"];
    assert_eq!((rings.order, rings.said_by.as_deref()), (Some(35), Some("the other house")));
    assert_eq!(sheet.costs.hour, Some(95.0));
    assert_eq!(
        told(&kept),
        ["rings: 35 days to come, the other house / 21 days to come, the ring house", "an hour of work: 95 / 85",]
    );
    // without a figure it is not known
    let own =
        entries("0417", &[(12, r#""what":"lead-time","part":"rings""#), (13, r#""what":"priced","part":"rings""#)]);
    over(&mut sheet, [&shop, &own], None);
    assert!(!sheet.lead_times.contains_key("rings") && !sheet.costs.parts.contains_key("rings"));
}

#[test]
fn a_failure_that_costs_no_more_than_the_change_is_told_and_not_counted() {
    let mut sheet = sheet();
    let own = entries("0417", &[(1, r#""what":"priced","part":"rings","planned":900"#)]);
    let kept = over(&mut sheet, [&[], &own], None);
    assert_eq!(sheet.costs.parts["rings"].failure, None);
    assert_eq!(
        told(&kept),
        ["rings: planned 900; a failure at 900 is no more, and not counted / planned 120, a failure 900"]
    );
}

#[test]
fn the_shelf_is_the_sheets_with_what_came_and_without_what_went() {
    let mut sheet = sheet();
    let shop =
        entries("*", &[(1, r#""what":"shelved","part":"valve springs","serial":"set 14","brought":{"passes":"12"}"#)]);
    let own = entries("0417", &[(2, r#""what":"off-the-shelf","part":"rings","serial":"R-1""#)]);
    let kept = over(&mut sheet, [&shop, &own], None);
    let shelf: Vec<(&str, f64)> =
        sheet.spares.iter().map(|s| (s.serial.as_deref().unwrap(), s.used["passes"])).collect();
    assert_eq!(shelf, [("set 14", 12.0)]);
    assert_eq!(kept.shared, [("valve springs".to_owned(), "set 14".to_owned())]);
    assert_eq!(told(&kept), ["rings R-1: gone from the shelf / R-1", "valve springs set 14: on the shelf / -"]);
}

#[test]
fn a_set_of_the_shops_shelf_that_went_into_another_engine_lies_there_no_more() {
    let mut sheet = sheet();
    let stretch =
        thou_life::history::Stretch { engine: "0522".to_owned(), fitted: date(2026, 9, 5), ..Default::default() };
    let run = PartRun { serial: "set 14".to_owned(), stretches: vec![stretch], ..PartRun::default() };
    let history = History {
        shop: entries("*", &[(1, r#""what":"shelved","part":"valve springs","serial":"set 14""#)]),
        from_the_shelf: BTreeMap::from([("set 14".to_owned(), run)]),
        ..History::default()
    };
    let on = |day| {
        let mut sheet = super::tests::sheet();
        let kept = set(&mut sheet, &history, Some(day));
        (sheet.spares.len(), kept.shared.len(), kept.items.len())
    };
    assert_eq!(on(date(2026, 9, 4)), (2, 1, 1));
    assert_eq!(on(date(2026, 9, 5)), (1, 0, 0));
    set(&mut sheet, &History::default(), None);
    assert_eq!(sheet.spares.len(), 1);
}

#[test]
fn work_is_charged_at_what_an_hour_cost_on_its_day() {
    let shop = entries("*", &[(10, r#""what":"priced","hour":95"#)]);
    let own = entries("0417", &[(20, r#""what":"priced","hour":100"#)]);
    let on = |day| hour_on(Some(85.0), [&shop, &own], date(2026, 9, day));
    assert_eq!([on(9), on(10), on(20)], [Some(85.0), Some(95.0), Some(100.0)]);
}
