//! The calendar file as a calendar has it that takes one file after another in: what the plan no longer has is gone from
//! it, whatever was moved, merged, done, undone or renamed between two files.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::Date;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use thou_tests::{Run, file, thou_on, value};

struct Shop(tempfile::TempDir);

impl Shop {
    fn new() -> Self {
        let shop = Self(tempfile::tempdir().unwrap());
        let rows = "bracket-main-journals.csv";
        std::fs::copy(file(&format!("sample-builds/{rows}")), shop.0.path().join(rows)).unwrap();
        shop
    }

    fn thou(&self, today: Date, args: &[&str]) -> Run {
        thou_on(&self.0.path().join("shop.book"), today, args)
    }

    fn did(&self, today: Date, args: &[&str]) {
        let run = self.thou(today, args);
        assert_eq!(run.exit, 0, "{args:?}: {}{}", run.out, run.err);
    }

    fn sheet(&self, today: Date, sheet: &Value) {
        let path = self.0.path().join("sheet.json");
        std::fs::write(&path, sheet.to_string()).unwrap();
        self.did(today, &["book", "add", &path.display().to_string(), "--day", &today.to_string(), "--engine", "0417"]);
    }

    fn ics(&self, today: Date) -> String {
        let run = self.thou(today, &["plan", "0417", "--format", "ics"]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        run.out
    }
}

type Entry = BTreeMap<String, String>;

/// The entries of a file, reminders left out; each with its component under "kind".
fn entries(ics: &str) -> Vec<Entry> {
    let (mut out, mut alarm): (Vec<Entry>, bool) = (Vec::new(), false);
    for line in ics.replace("\r\n ", "").split("\r\n") {
        match line {
            "BEGIN:VEVENT" | "BEGIN:VTODO" => out.push(Entry::from([("kind".to_owned(), line[6..].to_owned())])),
            "BEGIN:VALARM" => alarm = true,
            "END:VALARM" => alarm = false,
            _ if alarm => {}
            _ => {
                if let (Some(last), Some((key, text))) = (out.last_mut(), line.split_once(':')) {
                    last.insert(key.split(';').next().unwrap().to_owned(), text.to_owned());
                }
            }
        }
    }
    out
}

/// A calendar: of two entries with one UID that with the higher SEQUENCE counts, of two alike the later DTSTAMP (RFC 5546,
/// section 2.1.5); what is cancelled or completed is shown no more.
#[derive(Default)]
struct Client(BTreeMap<String, Entry>);

impl Client {
    fn take_in(&mut self, ics: &str) {
        let rank = |e: &Entry| (e["SEQUENCE"].parse::<u32>().unwrap(), e["DTSTAMP"].clone());
        let mut uids = std::collections::BTreeSet::new();
        for entry in entries(ics) {
            let uid = entry["UID"].clone();
            assert!(uids.insert(uid.clone()), "{uid} twice");
            if self.0.get(&uid).is_none_or(|known| rank(&entry) >= rank(known)) {
                self.0.insert(uid, entry);
            }
        }
    }

    /// What it shows from a day on: UID and what is seen of it.
    fn shows(&self, from: Date) -> BTreeMap<String, [String; 3]> {
        shown(self.0.values(), from)
    }
}

fn shown<'a>(entries: impl Iterator<Item = &'a Entry>, from: Date) -> BTreeMap<String, [String; 3]> {
    let from = from.to_string().replace('-', "");
    let live = |e: &&Entry| !matches!(e["STATUS"].as_str(), "CANCELLED" | "COMPLETED");
    let ahead = |e: &&Entry| e.get("DTEND").is_none_or(|end| *end > from);
    let of = |e: &Entry, key: &str| e.get(key).cloned().unwrap_or_default();
    entries
        .filter(|e| live(e) && ahead(e))
        .map(|e| (e["UID"].clone(), [of(e, "SUMMARY"), of(e, "DTSTART"), of(e, "DESCRIPTION")]))
        .collect()
}

fn day(text: &str) -> Date {
    text.parse().unwrap()
}

#[test]
fn five_files_after_changes_leave_no_ghosts() {
    let shop = Shop::new();
    let mut sheet = value("sample-builds/bracket.json");
    let start = day("2026-06-26");
    shop.sheet(start, &sheet);
    let mut client = Client::default();
    let (mut cancelled, mut moved) = (0, 0);
    let mut check = |client: &mut Client, today: Date| {
        let before = client.shows(today);
        let file = shop.ics(today);
        client.take_in(&file);
        let all = entries(&file);
        let wanted = shown(all.iter(), today);
        // each stop, event, order and to-do of the plan, and nothing else from today on
        assert_eq!(client.shows(today), wanted);
        let plan: Value = serde_json::from_str(&shop.thou(today, &["plan", "0417", "--format", "json"]).out).unwrap();
        let with_day =
            |key: &str, day: &str| plan[key].as_array().unwrap().iter().filter(|v| v[day].is_string()).count();
        let of = |kind: &str| all.iter().filter(|e| e["CATEGORIES"] == kind && e["STATUS"] != "CANCELLED").count();
        assert_eq!(of("event"), with_day("events", "first"));
        assert_eq!(of("order"), with_day("orders", "by"));
        assert!(of("stop") >= with_day("stops", "date"), "a stop is missing");
        cancelled += all.iter().filter(|e| e["STATUS"] == "CANCELLED").count();
        moved += before.iter().filter(|(uid, was)| wanted.get(*uid).is_some_and(|is| is[1] != was[1])).count();
        // once more without a change: the same file
        assert_eq!(shop.ics(today), file);
    };
    check(&mut client, start);

    // two events run, E3 rained off to a week later
    let today = day("2026-07-20");
    shop.did(day("2026-07-05"), &["log", "add", "0417", "9 passes", "--event", "E1"]);
    shop.did(day("2026-07-18"), &["log", "add", "0417", "7 passes", "--event", "E2"]);
    sheet["calendar"][2]["date"] = json!("2026-08-08");
    sheet["calendar"][2]["last-date"] = json!("2026-08-09");
    shop.sheet(today, &sheet);
    check(&mut client, today);

    // on the same day: the oil and the plugs are done, an over-rev asks to look, E4 is struck out
    shop.did(today, &["log", "add", "0417", "did", "oil", "oil-filter", "spark-plugs"]);
    shop.did(today, &["log", "add", "0417", "over-rev", "7950 rpm"]);
    sheet["calendar"].as_array_mut().unwrap().retain(|e| e["name"] != "E4");
    shop.sheet(today, &sheet);
    check(&mut client, today);

    // the work that the over-rev asked for is settled, springs are in, their lead time is known, and the job has another name
    let today = day("2026-07-24");
    let over_rev: Value = shop
        .thou(today, &["log", "export", "0417"])
        .out
        .lines()
        .map(|l| serde_json::from_str::<Value>(l).unwrap())
        .find(|e| e["happening"] == "over-rev")
        .unwrap();
    shop.did(today, &["log", "add", "0417", "settled", over_rev["id"].as_str().unwrap(), "no marks"]);
    shop.did(today, &["log", "add", "0417", "fitted", "valve springs", "--serial", "set 14"]);
    sheet["engine"]["job"] = json!("26-099");
    sheet["spares"] = json!([]);
    shop.sheet(today, &sheet);
    check(&mut client, today);
    assert!(client.0.values().any(|e| e["kind"] == "VTODO" && e["STATUS"] == "COMPLETED"));

    // the last entry was wrong, and the season is over sooner
    let today = day("2026-09-15");
    shop.did(today, &["log", "undo", "0417"]);
    sheet["calendar"].as_array_mut().unwrap().truncate(6);
    shop.sheet(today, &sheet);
    check(&mut client, today);

    assert!(cancelled > 5 && moved > 5, "{cancelled} cancelled, {moved} moved: nothing was tried");
}

#[test]
fn a_file_that_was_not_taken_in_leaves_no_ghost_either() {
    let shop = Shop::new();
    let mut sheet = value("sample-builds/bracket.json");
    shop.sheet(day("2026-06-26"), &sheet);
    let mut client = Client::default();
    client.take_in(&shop.ics(day("2026-06-26")));
    sheet["calendar"].as_array_mut().unwrap().retain(|e| e["name"] != "E9");
    shop.sheet(day("2026-06-27"), &sheet);
    let lost = shop.ics(day("2026-06-27"));
    assert!(lost.contains("STATUS:CANCELLED"));
    let file = shop.ics(day("2026-06-28"));
    client.take_in(&file);
    assert_eq!(client.shows(day("2026-06-28")), shown(entries(&file).iter(), day("2026-06-28")));
}

#[test]
fn what_was_altered_in_the_book_is_told_and_no_file_is_made_of_it() {
    let shop = Shop::new();
    let today = day("2026-06-26");
    shop.sheet(today, &value("sample-builds/bracket.json"));
    shop.ics(today);
    shop.did(today, &["book", "check"]);
    let path = shop.0.path().join("shop.book");
    let mut bytes = std::fs::read(&path).unwrap();
    let at = bytes.windows(13).position(|w| w == br#""keys":["E9"]"#).unwrap();
    bytes[at + 10] = b'8';
    std::fs::write(&path, bytes).unwrap();
    let run = shop.thou(today, &["plan", "0417", "--format", "ics"]);
    assert_eq!((run.exit, run.out.as_str()), (2, ""));
    assert!(run.err.starts_with("0417: what its last calendar file said was altered in the book"), "{}", run.err);
    let check = shop.thou(today, &["book", "check"]);
    let words = check.err.split_whitespace().collect::<Vec<_>>().join(" ") + &check.out;
    assert_ne!(check.exit, 0);
    assert!(words.contains("what the last calendar file of 0417 said was altered"), "{words}");
}

/// The reminders of the entries, by category.
fn reminders(ics: &str) -> BTreeMap<String, Vec<String>> {
    let mut out: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for entry in
        ics.replace("\r\n ", "").split("\r\nBEGIN:V").filter(|e| e.starts_with("EVENT") || e.starts_with("TODO"))
    {
        let kind = entry.split("CATEGORIES:").nth(1).unwrap().split("\r\n").next().unwrap();
        out.entry(kind.to_owned()).or_default();
    }
    let mut kind = String::new();
    for line in ics.replace("\r\n ", "").split("\r\n") {
        if let Some(k) = line.strip_prefix("CATEGORIES:") {
            k.clone_into(&mut kind);
        }
        if line.starts_with("TRIGGER") {
            out.get_mut(&kind).unwrap().push(line.to_owned());
        }
    }
    out
}

#[test]
fn reminders_ring_in_the_morning_on_the_days_that_were_asked_for() {
    let ask = |more: &[&str]| {
        let args: Vec<&str> =
            ["plan", "sample-builds/bracket.json", "--format", "ics"].into_iter().chain(more.iter().copied()).collect();
        thou_tests::thou(&args)
    };
    let none = ask(&[]).out;
    assert!(!none.contains("VALARM"));
    let file = ask(&["--remind", "7,0"]).out;
    let all = reminders(&file);
    assert_eq!(all["event"], Vec::<String>::new());
    for kind in ["stop", "order", "dated part"] {
        let of = all[kind].chunks(2).map(<[String]>::to_vec).collect::<Vec<_>>();
        // eight in the morning of the day, and of the day a week before: 7 times 24 less 8 hours
        let wanted = vec!["TRIGGER;RELATED=START:PT8H".to_owned(), "TRIGGER;RELATED=START:-PT160H".to_owned()];
        assert!(!of.is_empty() && of.iter().all(|two| *two == wanted), "{kind}: {of:?}");
    }
    // RFC 5545, section 3.6.6: of a reminder that shows words ACTION, DESCRIPTION and TRIGGER, once each
    let alarm = file.split("BEGIN:VALARM\r\n").nth(1).unwrap().split("END:VALARM").next().unwrap().replace("\r\n ", "");
    let mut keys: Vec<&str> =
        alarm.split("\r\n").filter_map(|l| l.split([':', ';']).next()).filter(|k| !k.is_empty()).collect();
    keys.sort_unstable();
    assert_eq!(keys, ["ACTION", "DESCRIPTION", "TRIGGER"]);
    assert_eq!(ask(&["--remind", "366"]).exit, 2);
    let run = thou_tests::thou(&["plan", "sample-builds/bracket.json", "--remind", "7"]);
    assert_eq!((run.exit, run.err.trim()), (2, "--remind is for a calendar: it goes with --format ics"));
}
