//! What a shop keeps in its book by command, its engines side by side, and its money: what is typed, and what must be read.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::{Date, date};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thou_book::Book;
use thou_tests::{Run, file, thou_on};

/// The last line of what is confirmed.
const FIRST: &str = " Makers, sanctioning body, local codes and licensed practice come first.";

struct Shop {
    folder: tempfile::TempDir,
    today: Date,
}

impl Shop {
    fn empty(today: Date) -> Self {
        Self { folder: tempfile::tempdir().unwrap(), today }
    }

    /// The bracket and the all-out engine, on 1 July 2026.
    fn new() -> Self {
        let shop = Self::empty(date(2026, 7, 1));
        for (sheet, day) in [("bracket", "2026-06-26"), ("all-out", "2026-05-02")] {
            let sheet = file(&format!("sample-builds/{sheet}.json")).display().to_string();
            shop.said(&["book", "add", &sheet, "--day", day]);
        }
        shop
    }

    fn book(&self) -> std::path::PathBuf {
        self.folder.path().join("shop.book")
    }

    fn thou(&self, args: &[&str]) -> Run {
        thou_on(&self.book(), self.today, args)
    }

    /// What it says on one line; it must be fine.
    fn said(&self, args: &[&str]) -> String {
        let run = self.thou(args);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{args:?} {}", run.out);
        flat(&run.out)
    }

    /// What is kept by command, without the line of whom it defers to; the id of its entry is shown as ID.
    fn kept(&self, args: &[&str]) -> (String, String) {
        let said = self.said(&[&["book"], args].concat());
        let id = said.split_once('[').unwrap().1.split_once(']').unwrap().0.to_owned();
        (said.replace(&id, "ID").strip_suffix(FIRST).unwrap().to_owned(), id)
    }

    fn refused(&self, args: &[&str]) -> String {
        let count = || Book::open(&self.book()).unwrap().count().unwrap();
        let before = count();
        let run = self.thou(args);
        assert_eq!((run.exit, count()), (2, before), "{args:?} {}", run.out);
        flat(&run.err)
    }

    fn json(&self, args: &[&str]) -> Value {
        let run = self.thou(&[args, &["--format", "json"]].concat());
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{args:?}");
        serde_json::from_str(&run.out).unwrap()
    }
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn schema(name: &str) -> jsonschema::Validator {
    let text = std::fs::read_to_string(file(&format!("schemas/{name}.schema.json"))).unwrap();
    jsonschema::validator_for(&serde_json::from_str(&text).unwrap()).unwrap()
}

/// The sheet has E2 on 18 July; a week later its part comes a week later, too.
#[test]
fn an_event_that_moved_moves_what_is_done_before_it_and_undone_it_is_where_it_was() {
    let shop = Shop::new();
    let first = |name: &str| {
        let plan = shop.json(&["plan", "0417"]);
        assert!(schema("report").is_valid(&plan));
        let event = plan["events"].as_array().unwrap().iter().find(|e| e["name"] == name).cloned();
        event.map(|e| e["first"].as_str().unwrap().to_owned())
    };
    let by_the_sheet = first("E2").unwrap();
    let moved = by_the_sheet.parse::<Date>().unwrap().checked_add(jiff::Span::new().days(7)).unwrap().to_string();
    let (said, id) = shop.kept(&["event", "0417", "e 2", "--on", &moved, "--by", "R.L."]);
    assert!(said.starts_with(&format!("0417 2026-07-01: e 2 is on {moved} [ID] E2 now {moved}")), "{said}");
    assert!(said.contains(&format!("over what the sheet says, {by_the_sheet}")), "{said}");
    assert!(said.ends_with("Taken back with: thou log undo 0417 ID"), "{said}");
    assert_eq!(first("E2").as_deref(), Some(moved.as_str()));
    // a line of that day finds its event where it is now
    let page = shop.said(&["plan", "0417"]);
    assert!(page.contains("BY THE SHOP'S BOOK, OVER THE SHEET E2: "), "{page}");
    assert!(page.contains("R.L., 2026-07-01. All else of dates, days, costs and shelf is the sheet's."), "{page}");
    // as of the day before nobody knew
    let before = shop.json(&["plan", "0417", "--on", "2026-06-30"]);
    assert!(before["events"].as_array().unwrap().iter().any(|e| e["first"] == by_the_sheet.as_str()));
    // the beginning of its id is enough, in large letters too
    let undone = shop.said(&["log", "undo", "0417", &id[..5].to_uppercase()]);
    assert!(undone.starts_with(&format!("0417 2026-07-01: e 2 is on {moved} [{id}] counts no more")), "{undone}");
    assert_eq!(first("E2"), Some(by_the_sheet));
    let (off, _) = shop.kept(&["event", "shop", "E2", "--off"]);
    assert!(off.starts_with("the whole shop, 2026-07-01: E2 is called off [ID]"), "{off}");
    assert!(
        off.contains(" 0417: E2 now called off, over what the sheet says, ") && off.contains(" 0709: nothing changes."),
        "{off}"
    );
    assert_eq!(first("E2"), None);
    assert_eq!(shop.thou(&["book", "check"]).exit, 0);
}

/// E8 of the bracket engine is on 10 October: 40 days before it, and the days of work, is the day to order by.
#[test]
fn a_lead_time_of_the_whole_shop_is_every_engines_and_its_own_counts_over_it() {
    let shop = Shop::new();
    let order = |engine: &str| {
        let plan = shop.json(&["plan", engine]);
        plan["orders"].as_array().unwrap().iter().find(|o| o["part"] == "pistons and pins").unwrap().clone()
    };
    shop.kept(&["lead-time", "Shop", "Pistons and Pins", "40", "--from", "the bearing house"]);
    for engine in ["0417", "0709"] {
        let order = order(engine);
        assert_eq!((&order["days"], &order["said-by"]), (&json!(40), &json!("the bearing house")), "{engine}");
        // the day itself: what it is wanted for, less its days and those of the work
        let wanted = order["wanted"]["date"].as_str().unwrap().parse::<Date>().unwrap();
        let all = 40 + order["work-days"].as_i64().unwrap();
        let by = wanted.checked_sub(jiff::Span::new().days(all)).unwrap().to_string();
        assert_eq!(order["by"], by.as_str(), "{engine}");
    }
    let (own, _) = shop.kept(&["lead-time", "0417", "pistons and pins", "3 weeks"]);
    assert!(own.contains("pistons and pins: 21 days to come [ID]"), "{own}");
    assert_eq!((&order("0417")["days"], &order("0709")["days"]), (&json!(21), &json!(40)));
    // what nobody knows any more has no day
    shop.kept(&["lead-time", "0417", "pistons and pins", "--unknown"]);
    assert_eq!(order("0417")["how"], "unknown");
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_written() {
    let shop = Shop::new();
    for (args, told) in [
        (
            ["cost", "0417", "valve springs", "420", "--failure", "400"].as_slice(),
            "failure is 400, no more than the planned change, 420:",
        ),
        (&["cost", "0417", "valve springs"], "write what a planned change costs behind the part"),
        (&["cost", "0417", "valve sprungs", "420"], "there is no part \"valve sprungs\"; did you mean valve springs?"),
        (&["lead-time", "0417", "rings", "2000"], "2000 days is over three years: write how long it takes to come"),
        (&["lead-time", "0417", "rings", "soon"], "lead-time soon: write days, or text like \"3 weeks\""),
        (&["event", "0417", "E9", "--on", "10/10"], "--on 10/10: write year, month, day"),
        (
            &["event", "0417", "E9", "--on", "2026-10-10", "--kind", "rally"],
            "there is no kind of event \"rally\"; there is race, match, test.",
        ),
        (&["paid", "shop", "200"], "\"paid\" is of one engine: name the engine, not the whole shop"),
        (&["paid", "0418", "200"], "no engine \"0418\" is in the book"),
        (&["charge", "0417", "--hours=-2"], "hours is -2: less than nothing"),
        (&["spare", "0417", "rings", "--run", "laps=3"], "there is no meter \"laps\""),
    ] {
        let said = shop.refused(&[&["book"], args].concat());
        assert!(said.contains(told), "{args:?}: {said}");
    }
    // what is in an engine does not lie on the shelf
    shop.said(&["log", "add", "0709", "fitted", "valve springs", "--serial", "set 40"]);
    let said = shop.refused(&["book", "spare", "shop", "valve springs", "--serial", "set 40"]);
    assert!(said.starts_with("set 40 is in 0709 by the log: log first that it came out."), "{said}");
}

/// Every entry of the office goes out as a line and comes into another book as it was, in both forms.
#[test]
fn what_is_kept_goes_out_and_into_another_book() {
    let shop = Shop::new();
    for args in [
        ["event", "shop", "R21", "--on", "2026-08-08", "--days", "2", "--rounds", "6", "--where", "the home strip"]
            .as_slice(),
        &["spare", "shop", "valve springs", "--serial", "set 77", "--run", "Passes=10"],
        &["spare", "0417", "rings", "--gone"],
        &["lead-time", "shop", "rings", "28", "--away", "9", "--from", "the ring house"],
        &["cost", "0417", "valve springs", "420", "--failure", "4100", "--hour", "95", "--money", "dollars"],
        &["charge", "0417", "60", "--hours", "1.5", "--note", "crack test, \"dye\""],
        &["paid", "0417", "200"],
        &["budget", "0417", "6000", "--season", "2026"],
        &["customer", "0417", "T. Nine"],
        &["event", "0417", "E2", "--off"],
    ] {
        shop.kept(args);
    }
    let list = shop.said(&["book", "kept"]);
    let money = shop.thou(&["book", "money"]).out;
    for (form, name) in [("jsonl", "log.jsonl"), ("csv", "log.csv")] {
        let out = shop.folder.path().join(name).display().to_string();
        shop.said(&["log", "export", "--all", "--format", form, "--out", &out]);
        let other = Shop::new();
        let said = other.said(&["log", "import", &out]);
        assert!(said.contains("10 entries written"), "{said}");
        assert_eq!(other.said(&["book", "kept"]), list, "{form}");
        assert_eq!(other.thou(&["book", "money"]).out, money, "{form}");
        // read once more it adds nothing
        assert!(other.said(&["log", "import", &out]).contains("0 entries written, 10 were there already"));
        let both = other.said(&["book", "check"]);
        assert!(both.contains("2 engines, 10 entries. The file holds together"), "{both}");
    }
    // a lost page loses none of them
    let saved = shop.folder.path().join("saved.book").display().to_string();
    let recovered = shop.said(&["book", "check", "--recover", &saved]);
    assert!(recovered.contains("2 engines, 2 sheets and 10 entries saved"), "{recovered}");
}

/// 80.5 and 60 bought; 0.5 h at the sheet's 85 and 1.5 h at the 95 of later are 42.5 + 142.5; 200 paid: 125.5 are owed, and
/// 1,000 - 325.5 = 674.5 of the budget are left.
#[test]
fn the_money_is_what_was_logged_at_what_an_hour_cost_then() {
    let shop = Shop::new();
    let rates = shop.json(&["plan", "0417"]);
    assert!(rates["kept"].as_array().unwrap().is_empty());
    shop.said(&["log", "add", "0417", "did", "oil", "--cost", "80.5", "--hours", "0.5", "--day", "2026-06-27"]);
    shop.said(&["log", "add", "0417", "did", "oil-filter", "--day", "2026-06-27"]);
    shop.kept(&["cost", "shop", "--hour", "95", "--day", "2026-06-28"]);
    shop.kept(&["charge", "0417", "60", "--hours", "1.5", "--day", "2026-06-28", "--note", "crack test"]);
    shop.kept(&["paid", "0417", "200", "--day", "2026-06-30"]);
    shop.kept(&["budget", "0417", "1000"]);
    let money = shop.json(&["book", "money"]);
    assert!(schema("shop").is_valid(&money), "{money}");
    let account = &money["accounts"][0];
    let figures: Vec<f64> = ["bought", "hours", "work", "paid", "owed", "budget-left"]
        .iter()
        .map(|name| account[*name].as_f64().unwrap())
        .collect();
    assert_eq!(figures, [140.5, 2.0, 185.0, 200.0, 125.5, 674.5]);
    let page = shop.said(&["book", "money"]);
    for words in [
        "SEASON OF 2026 0417, Hollis Brandt: bought 140.50 dollars; 2 h of work, 185 dollars; paid 200 dollars; budget 1,000 \
         dollars, left of it 674.50 dollars.",
        "STILL OWED Hollis Brandt: 125.50 dollars",
        "Not in the sums: 1 service was done and logged with neither cost nor hours.",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    let rows = shop.thou(&["book", "money", "--format", "csv"]).out;
    let row = csv_rows(&rows).remove(0);
    assert_eq!((row["owed"].as_str(), row["customer"].as_str()), ("125.5", "Hollis Brandt"));
    // in no other year, and on a phone
    assert!(shop.said(&["book", "money", "--season", "2027"]).contains("Nothing was logged with a cost"));
    let narrow = shop.thou(&["book", "money", "--width", "40"]).out;
    assert!(narrow.lines().all(|l| l.chars().count() <= 40), "{narrow}");
}

fn csv_rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().clone();
    let row = |r: csv::StringRecord| head.iter().map(str::to_owned).zip(r.iter().map(str::to_owned)).collect();
    reader.records().map(|r| row(r.unwrap())).collect()
}

/// The bracket engine's sheet, with the files that it names.
fn bracket() -> (Value, BTreeMap<String, String>) {
    let folder = file("sample-builds");
    let text = std::fs::read_to_string(folder.join("bracket.json")).unwrap();
    let sheet = thou::sheet::Sheet::parse("bracket.json", &text, &folder).map_err(|f| f.to_string()).unwrap();
    (serde_json::from_str(&text).unwrap(), sheet.files())
}

/// Forty engines, the event of each a day later than that of the one before, in three groups of lead times.
fn forty() -> Shop {
    let shop = Shop::empty(date(2026, 7, 1));
    let mut book = Book::create(&shop.book()).unwrap();
    let (sheet, files) = bracket();
    for number in 0..40_i8 {
        let mut own = sheet.clone();
        own["engine"]["name"] = json!(format!("N{number:02}"));
        let mut calendar = own["calendar"].as_array().unwrap().clone();
        for event in &mut calendar {
            for day in ["date", "last-date"] {
                if let Some(text) = event[day].as_str() {
                    let later = text.parse::<Date>().unwrap().checked_add(jiff::Span::new().days(number)).unwrap();
                    event[day] = json!(later.to_string());
                }
            }
        }
        own["calendar"] = Value::Array(calendar);
        book.add_sheet_with(&format!("N{number:02}"), &own.to_string(), &files, date(2026, 6, 26)).unwrap();
    }
    shop
}

#[test]
fn forty_engines_stand_on_one_page_the_most_pressing_first() {
    let shop = forty();
    shop.said(&["log", "add", "n17", "broke", "valve springs", "--place", "5E", "--day", "2026-06-28"]);
    let page = shop.thou(&["plan", "--all"]);
    assert_eq!((page.exit, page.err.as_str()), (0, ""));
    let lines: Vec<&str> = page.out.lines().collect();
    assert!(lines.len() < 60, "{} lines\n{}", lines.len(), page.out);
    assert!(lines.iter().all(|l| l.chars().count() <= 80), "{}", page.out);
    let engines: Vec<&str> = lines.iter().filter(|l| l.starts_with('N')).copied().collect();
    let names: BTreeSet<&str> = engines.iter().map(|l| l.split(' ').next().unwrap()).collect();
    assert_eq!((engines.len(), names.len()), (40, 40));
    assert!(engines[0].starts_with("N17") && engines[0].contains("does not run, valve springs"), "{}", engines[0]);
    // the others are alike but for their days: the earlier event first
    let order: Vec<&str> = engines.iter().skip(1).map(|l| l.split(' ').next().unwrap()).collect();
    let wanted: Vec<String> = (0..40).filter(|n| *n != 17).map(|n| format!("N{n:02}")).collect();
    assert_eq!(order, wanted);
    // on a phone every line fits and no engine is missing
    let narrow = shop.thou(&["plan", "--all", "--width", "40"]).out;
    assert!(narrow.lines().all(|l| l.chars().count() <= 40), "{narrow}");
    assert!(wanted.iter().all(|name| narrow.contains(name.as_str())));
}

/// The list of orders is what the engines' own plans ask for until the day, no more and no less.
#[test]
fn one_list_of_orders_has_what_every_engines_plan_asks_for_within_the_days() {
    let shop = forty();
    let all = shop.json(&["plan", "--all", "--within", "150"]);
    let valid = schema("shop");
    assert!(valid.is_valid(&all), "{:?}", valid.iter_errors(&all).next().map(|e| e.to_string()));
    assert_eq!((&all["until"], all["plans"].as_array().unwrap().len()), (&json!("2026-11-28"), 40));
    let mut wanted: BTreeSet<(String, String, String)> = BTreeSet::new();
    for plan in all["plans"].as_array().unwrap() {
        for order in plan["orders"].as_array().unwrap() {
            if let Some(by) = order["by"].as_str().filter(|by| *by <= "2026-11-28") {
                let text = |v: &Value| v.as_str().unwrap().to_owned();
                wanted.insert((by.to_owned(), text(&order["part"]), text(&plan["engine"])));
            }
        }
    }
    assert!(wanted.len() >= 40, "{}", wanted.len());
    let of = |list: &Value| -> BTreeSet<(String, String, String)> {
        let text = |v: &Value| v.as_str().unwrap().to_owned();
        let of = |o: &Value| (text(&o["by"]), text(&o["part"]), text(&o["engine"]));
        list.as_array().unwrap().iter().map(of).collect()
    };
    assert_eq!(of(&all["orders"]), wanted);
    let alone = shop.json(&["plan", "--all", "--within", "150", "--orders"]);
    assert!(valid.is_valid(&alone));
    assert_eq!(alone["orders"], all["orders"]);
    // as rows, with those that have no day; and as a calendar, each engine behind its part
    let rows = csv_rows(&shop.thou(&["plan", "--all", "--within", "150", "--orders", "--format", "csv"]).out);
    let dated: BTreeSet<(String, String, String)> = rows
        .iter()
        .filter(|r| !r["by"].is_empty())
        .map(|r| (r["by"].clone(), r["part"].clone(), r["engine"].clone()))
        .collect();
    assert_eq!(dated, wanted);
    // a supplier's orders stand together, and day by day
    let mut seen: Vec<&str> = rows.iter().map(|r| r["from"].as_str()).collect();
    seen.dedup();
    assert_eq!(seen.len(), seen.iter().collect::<BTreeSet<_>>().len(), "{seen:?}");
    let ics = shop.thou(&["plan", "--all", "--within", "150", "--orders", "--format", "ics"]).out;
    let whole = ics.replace("\r\n ", "");
    assert!(ics.lines().all(|l| l.len() <= 75 + 1));
    for (_, part, engine) in &wanted {
        let named =
            |entry: &str| entry.split("- ").any(|w| w.starts_with(part.as_str()) && w.contains(engine.as_str()));
        assert!(whole.split("BEGIN:VEVENT").any(named), "{part} {engine}");
    }
}

/// One set on the shop's shelf, and two engines that want springs: the more pressing one has it, the other orders.
#[test]
fn a_set_of_the_shops_shelf_is_given_once() {
    let shop = Shop::empty(date(2026, 7, 1));
    let mut book = Book::create(&shop.book()).unwrap();
    let (sheet, files) = bracket();
    for name in ["first", "second"] {
        let mut own = sheet.clone();
        own["engine"]["name"] = json!(name);
        own["spares"] = json!([]);
        own["lead-times"]["valve springs"] = json!({ "order": "14 days", "said-by": "the spring house" });
        book.add_sheet_with(name, &own.to_string(), &files, date(2026, 6, 26)).unwrap();
    }
    drop(book);
    let orders = || {
        let all = shop.json(&["plan", "--all", "--within", "400", "--orders"]);
        let list = all["orders"].as_array().unwrap().clone();
        let springs: Vec<(String, bool)> = list
            .iter()
            .filter(|o| o["part"] == "valve springs")
            .map(|o| (o["engine"].as_str().unwrap().to_owned(), o["taken-by-another"].as_bool().unwrap()))
            .collect();
        (springs, all["from-the-shelf"].clone())
    };
    let both = vec![("first".to_owned(), false), ("second".to_owned(), false)];
    assert_eq!(orders(), (both, json!([])));
    shop.kept(&["spare", "shop", "valve springs", "--serial", "set 77"]);
    let given = json!([{ "part": "valve springs", "number": "set 77", "engine": "first" }]);
    assert_eq!(orders(), (vec![("second".to_owned(), true)], given));
    let page = shop.said(&["plan", "--all", "--within", "400", "--orders"]);
    assert!(page.contains("From the shop's shelf: valve springs set 77 for first."), "{page}");
    assert!(page.contains("and so ordered: valve springs set 77 of second."), "{page}");
    // in an engine it is on nobody's shelf
    shop.said(&["log", "add", "second", "fitted", "valve springs", "--serial", "set 77"]);
    assert_eq!(orders().1, json!([]));
}

/// The bracket engine's sheet has set 14 on its shelf; it goes into the other engine.
#[test]
fn what_a_sheet_has_on_the_shelf_is_gone_once_any_engine_has_it() {
    let shop = Shop::new();
    let page = || shop.said(&["plan", "0417"]);
    assert!(page().contains("On the shelf: oil filter; spark plugs; valve springs set 14."));
    shop.said(&["log", "add", "0709", "fitted", "valve springs", "--serial", "set 14"]);
    assert!(page().contains("On the shelf: oil filter; spark plugs."), "{}", page());
}

/// A part whose own stamp is past keeps an engine from running on the shop's page, too.
#[test]
fn a_lapsed_stamp_stands_on_the_shops_page() {
    let shop = Shop::new();
    let page = shop.said(&["plan", "--all"]);
    assert!(!page.contains("stamp of the"), "{page}");
    let late = shop.said(&["plan", "--all", "--on", "2031-07-01"]);
    assert!(late.contains("does not run, stamp of the"), "{late}");
}

#[test]
fn a_thumb_leaves_out_the_unit_where_only_one_can_be_meant() {
    let shop = Shop::new();
    let said = shop.said(&["log", "add", "0417", "PASS", "--peak", "7450", "--elapsed", "9.21", "--no-event"]);
    assert!(said.contains("1 pass, peak 7450 rpm, in 9.21 s ["), "{said}");
    assert!(said.contains("7450 taken as 7450 rpm: no other unit can be meant than rpm."), "{said}");
    let read = shop.said(&["log", "add", "0417", "Leak-Down", "5=4", "--gauge", "tester 2", "--state", "HOT"]);
    assert!(read.contains("leak-down at 5: 4 %, tester 2, hot ["), "{read}");
    // 180 can be °F and K's like: it is asked for
    let asked = shop.refused(&["log", "add", "0417", "water-temperature", "90"]);
    assert!(asked.contains("Nothing was written."), "{asked}");
    // an event that is kept today is not the event of today's passes
    shop.kept(&["event", "0417", "gate cup", "--on", "2026-09-01"]);
    let pass = shop.said(&["log", "add", "0417", "3p"]);
    assert!(pass.starts_with("0417 2026-07-01: 3 passes ["), "{pass}");
}
