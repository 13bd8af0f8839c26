//! Days as the racer has them: in the zone where the engine stands, near midnight, over several days of one event, and as
//! of a day in the past; and the pages of a plan on a phone and for a whole shop.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use serde_json::Value;
use thou_tests::{Run, file, thou_at};

/// A book with the bracket and the all-out engine in it, and a clock.
struct Shop {
    folder: tempfile::TempDir,
    now: Timestamp,
}

impl Shop {
    fn at(now: &str) -> Self {
        let shop = Self { folder: tempfile::tempdir().unwrap(), now: now.parse().unwrap() };
        for (sheet, day) in [("bracket", "2026-06-26"), ("all-out", "2026-05-02")] {
            let sheet = file(&format!("sample-builds/{sheet}.json")).display().to_string();
            let run = shop.thou(&["book", "add", &sheet, "--day", day]);
            assert_eq!((run.exit, run.err.as_str()), (0, ""));
        }
        shop
    }

    /// Runs on this shop's book, its clock in UTC.
    fn thou(&self, args: &[&str]) -> Run {
        thou_at(&self.folder.path().join("shop.book"), self.now.to_zoned_datetime(TimeZone::UTC), args)
    }

    fn said(&self, args: &[&str]) -> String {
        let run = self.thou(args);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{args:?} {}", run.out);
        run.out.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    fn lines(&self) -> Vec<Value> {
        let text = self.thou(&["log", "export", "0417"]).out;
        text.lines().map(|l| serde_json::from_str(l).unwrap()).collect()
    }
}

// 04:40 in UTC on Sunday 5 July is 23:40 on Saturday five hours west of it, 00:40 on Sunday four hours west, and 16:40
// twelve hours east
const NIGHT: &str = "2026-07-05T04:40:00Z";

#[test]
fn the_day_is_that_of_the_place_and_a_line_near_midnight_is_told() {
    let shop = Shop::at(NIGHT);
    let saturday = shop.said(&["log", "add", "0417", "pass", "--zone", "-05:00"]);
    assert!(saturday.starts_with("0417 2026-07-04 E1: 1 pass ["), "{saturday}");
    assert!(
        saturday.contains("It is 23:40 in -05:00: written for 2026-07-04. If it belongs to 2026-07-05:"),
        "{saturday}"
    );
    let sunday = shop.said(&["log", "add", "0417", "2 passes", "--zone", "-04:00"]);
    assert!(sunday.starts_with("0417 2026-07-05 E1: 2 passes ["), "{sunday}");
    assert!(sunday.contains("thou log undo 0417, and once more with --day 2026-07-04"), "{sunday}");
    let day = shop.said(&["log", "add", "0417", "pass", "--zone", "+12:00", "--no-event"]);
    assert!(day.starts_with("0417 2026-07-05: 1 pass [") && !day.contains("It is"), "{day}");
    // a day that was said needs no zone
    shop.said(&["log", "add", "0417", "note", "a word", "--day", "2026-07-04"]);
    let zones: Vec<Value> = shop.lines().iter().map(|l| l["zone"].clone()).collect();
    assert_eq!(zones, [Value::from("-05:00"), Value::from("-04:00"), Value::from("+12:00"), Value::Null]);
    let run = shop.thou(&["log", "add", "0417", "pass", "--zone", "Atlantis"]);
    assert_eq!(run.exit, 2);
    assert!(run.err.starts_with("the zone \"Atlantis\" is none that this computer knows"), "{}", run.err);
}

/// In Auckland it is Monday while it is Sunday in UTC: the racer's own day is no day of the future.
#[test]
fn a_day_that_has_begun_in_the_east_is_not_refused() {
    let shop = Shop::at("2026-07-05T13:00:00Z");
    let said = shop.said(&["log", "add", "0417", "pass", "--day", "2026-07-06", "--zone", "+12:00"]);
    assert!(said.starts_with("0417 2026-07-06: 1 pass ["), "{said}");
    let run = shop.thou(&["log", "add", "0417", "pass", "--day", "2026-07-06"]);
    assert!(run.exit == 2 && run.err.contains("2026-07-06 is after today, 2026-07-05"), "{}", run.err);
    // and in New York a log from there comes in with its zone
    let log = shop.folder.path().join("east.jsonl");
    let line = r#"{"engine":"0417","day":"2026-07-06","zone":"Pacific/Auckland","what":"ran","passes":1}"#;
    std::fs::write(&log, format!("{line}\n{}\n", line.replace("07-06", "07-07"))).unwrap();
    let run = shop.thou(&["log", "import", &log.display().to_string()]);
    assert!(
        run.err.contains("2026-07-07 is after today") && run.out.contains("1 entry written"),
        "{}{}",
        run.out,
        run.err
    );
}

// E1 is on 4 and 5 July, E7 on 26 and 27 September
#[test]
fn the_days_of_an_event_and_the_ways_to_write_its_name_are_one_event() {
    let shop = Shop::at("2026-07-06T18:00:00Z");
    let first = shop.said(&["log", "add", "0417", "3 passes", "--day", "2026-07-04", "--event", "e 1"]);
    assert!(
        first.starts_with("0417 2026-07-04 E1: 3 passes [") && first.contains(" now 3 passes, 1 event Makers,"),
        "{first}"
    );
    let second = shop.said(&["log", "add", "0417", "4 passes", "--day", "2026-07-05"]);
    assert!(
        second.starts_with("0417 2026-07-05 E1: 4 passes [") && second.contains(" now 7 passes, 1 event Makers,"),
        "{second}"
    );
    // an event that no calendar has: its name without case and blanks
    let names = ["Gate Cup", "gatecup", "GATE CUP "];
    for name in names {
        let said = shop.said(&["log", "add", "0417", "pass", "--day", "2026-07-06", "--event", name]);
        assert!(said.contains("2 events"), "{said}");
    }
    let other = shop.said(&["log", "add", "0417", "pass", "--day", "2026-07-03", "--event", "e7"]);
    assert!(
        other.contains("E7 is on 2026-09-26 to 2026-09-27 by the sheet's calendar, and this is written for"),
        "{other}"
    );
    assert_eq!(shop.thou(&["book", "check"]).exit, 0);
    // the plugs count the events that the log has
    let plan: Value = serde_json::from_str(&shop.thou(&["plan", "0417", "--format", "json"]).out).unwrap();
    let plugs = plan["services"]
        .as_array()
        .unwrap()
        .iter()
        .find(|s| s["rule"] == "freshen/spark-plugs" && s["meter"] == "events");
    assert_eq!(plugs.unwrap()["used"], 3.0);
    let next = shop.said(&["plan", "0417", "--next", " E 2"]);
    assert!(next.contains("DO BEFORE E2"), "{next}");
}

/// The set ran 5 passes in the other engine by the day of the plan and 20 later, and was scrapped after that.
#[test]
fn as_of_a_day_nothing_later_is_known() {
    let shop = Shop::at("2026-09-30T12:00:00Z");
    let log = |day: &str, engine: &str, words: &[&str]| {
        let mut args = vec!["log", "add", engine];
        args.extend(words);
        args.extend(["--day", day, "--no-event"]);
        shop.said(&args);
    };
    log("2026-07-01", "0417", &["fitted", "valve springs", "--serial", "set 40"]);
    log("2026-07-02", "0417", &["10 passes"]);
    log("2026-07-03", "0417", &["removed", "--serial", "set 40", "--disposition", "run"]);
    log("2026-07-04", "0709", &["fitted", "valve springs", "--serial", "set 40"]);
    log("2026-07-05", "0709", &["5 passes"]);
    log("2026-07-20", "0709", &["20 passes"]);
    log("2026-07-21", "0709", &["removed", "--serial", "set 40", "--disposition", "scrap", "--failed"]);
    let book = thou_book::Book::open(&shop.folder.path().join("shop.book")).unwrap();
    let on = |day| book.history_on("0417", Some(day)).unwrap();
    let before = on(date(2026, 7, 10));
    assert_eq!(before.elsewhere("set 40", "passes"), 5.0);
    assert_eq!((before.parts["set 40"].still_in(), before.parts["set 40"].disposition()), (Some("0709"), None));
    let after = on(date(2026, 7, 21));
    assert_eq!(after.elsewhere("set 40", "passes"), 25.0);
    assert_eq!((after.parts["set 40"].still_in(), after.parts["set 40"].disposition()), (None, Some("scrap")));
    // before it went over, the other engine knows nothing of it
    assert_eq!(on(date(2026, 7, 3)).parts["set 40"].stretches.len(), 1);
    let lives = book.lives_on("valve springs", Some(date(2026, 7, 10))).unwrap();
    assert_eq!((lives[0].run()["passes"], lives[0].failed()), (15.0, false));
    // what was scrapped does not go in again
    let run = shop.thou(&["log", "add", "0417", "fitted", "valve springs", "--serial", "set 40"]);
    let told = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(run.exit, 2);
    assert!(
        told.starts_with("set 40 was scrapped on 2026-07-21, out of 0709: what was scrapped does not run."),
        "{told}"
    );
}

#[test]
fn a_plan_can_be_read_on_a_phone() {
    let shop = Shop::at("2026-07-06T18:00:00Z");
    shop.said(&["log", "add", "0417", "3 passes", "--day", "2026-07-04"]);
    for args in [
        ["plan", "0417", "--width", "40"].as_slice(),
        &["plan", "0417", "--width", "40", "--next"],
        &["plan", "--all", "--width", "40"],
        &["plan", "--all", "--width", "40", "--next"],
        &["plan", "0417", "--width", "3"],
    ] {
        let run = shop.thou(args);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{args:?}");
        let longest = run.out.lines().max_by_key(|l| l.chars().count()).unwrap();
        assert!(longest.chars().count() <= 40, "{args:?}: {longest}");
        assert!(run.out.lines().count() > 10, "{args:?}");
    }
    let wide = shop.said(&["plan", "0417"]);
    let narrow = shop.said(&["plan", "0417", "--width", "40"]);
    // nothing is left out but the tables' own words
    for words in ["NEXT", "Before", "sanctioning body's rules", "Change the oil"] {
        assert_eq!(
            wide.to_lowercase().contains(&words.to_lowercase()),
            narrow.to_lowercase().contains(&words.to_lowercase()),
            "{words}"
        );
    }
}

#[test]
fn the_plan_of_a_sheet_is_as_of_the_day_that_was_asked_for() {
    let sheet = file("sample-builds/bracket.json").display().to_string();
    let shop = Shop::at("2026-07-06T18:00:00Z");
    let said = shop.said(&["plan", &sheet, "--on", "2026-08-10"]);
    assert!(said.contains("As of 2026-08-10:"), "{said}");
    // E3 ended on 2 August, E4 is on 15 August
    assert!(said.contains("Next event: E4:"), "{said}");
    let run = shop.thou(&["plan", &sheet, "--on", "2026-06-01"]);
    assert_eq!(run.exit, 2);
    let told = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("the sheet is of 2026-06-25, and says nothing of a day before"), "{told}");
}

#[test]
fn every_engine_goes_out_for_programs_as_rows_and_into_one_calendar() {
    let shop = Shop::at("2026-07-06T18:00:00Z");
    let list: Value = serde_json::from_str(&shop.thou(&["plan", "--all", "--format", "json"]).out).unwrap();
    let alone = |engine: &str| -> Value {
        serde_json::from_str(&shop.thou(&["plan", engine, "--format", "json"]).out).unwrap()
    };
    assert_eq!(list["plans"], Value::Array(vec![alone("0417"), alone("0709")]));
    let rows = shop.thou(&["plan", "--all", "--format", "csv"]).out;
    let one = |engine: &str| shop.thou(&["plan", engine, "--format", "csv"]).out;
    let without_head = |text: &str| text.split_once('\n').unwrap().1.to_owned();
    assert_eq!(rows, one("0417") + &without_head(&one("0709")));
    let ics = shop.thou(&["plan", "--all", "--format", "ics"]).out;
    assert_eq!((ics.matches("BEGIN:VCALENDAR").count(), ics.matches("END:VCALENDAR").count()), (1, 1));
    for engine in ["0417", "0709"] {
        let own = shop.thou(&["plan", engine, "--format", "ics"]).out;
        for entry in own.split("BEGIN:VEVENT").skip(1).map(|e| e.split("END:VEVENT").next().unwrap()) {
            assert!(ics.contains(entry), "{entry}");
        }
    }
    let next = shop.said(&["plan", "--all", "--next"]);
    assert!(next.contains("BEFORE E2") || next.contains("Before E2"), "{next}");
    let run = shop.thou(&["plan", "--all", "--next", "E2"]);
    assert_eq!(run.exit, 0);
    assert!(run.out.contains("0417") && run.err.contains("has no event \"E2\""), "{}", run.err);
    let run = shop.thou(&["plan", "--all", "--card"]);
    assert!(run.exit == 2 && run.err.contains("--card is the card of one engine"), "{}", run.err);
}

/// A set of services by two meters of each: one stop does each of them once.
#[test]
fn a_service_stands_once_in_its_stop_and_in_no_later_one() {
    for sheet in ["bracket", "street", "all-out"] {
        let sheet = file(&format!("sample-builds/{sheet}.json")).display().to_string();
        let plan: Value = serde_json::from_str(&thou_tests::thou(&["plan", &sheet, "--format", "json"]).out).unwrap();
        let all: Vec<&str> = plan["stops"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|s| s["services"].as_array().unwrap())
            .map(|s| s.as_str().unwrap())
            .collect();
        let once: std::collections::BTreeSet<&str> = all.iter().copied().collect();
        assert_eq!(all.len(), once.len(), "{all:?}");
        // and the hours of a stop are those of its services
        for stop in plan["stops"].as_array().unwrap() {
            let hours = |rule: &Value| {
                let of = plan["services"].as_array().unwrap().iter().find(|s| s["rule"] == *rule).unwrap();
                of["hours"].as_f64().unwrap()
            };
            let sum: f64 = stop["services"].as_array().unwrap().iter().map(hours).sum();
            assert!((sum - stop["hours"].as_f64().unwrap()).abs() < 1e-9, "{stop}");
        }
    }
}
