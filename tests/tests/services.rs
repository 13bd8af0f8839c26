//! What a service says of its part: what holds it, what hurts it, and what settles it.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, clippy::float_cmp)]

use jiff::civil::date;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::PathBuf;
use thou_book::Book;
use thou_contract::ServiceInfo;
use thou_contract::logged::LOG_READINGS;
use thou_tests::{Run, builtin, thou, value};

/// A folder with the bracket engine's sheet, a table of the shop's and, if there is a log, a book.
struct Shop {
    folder: tempfile::TempDir,
}

impl Shop {
    fn new(change: impl FnOnce(&mut Value), service: &Value, log: &[Value]) -> Self {
        Self::standing_in(&[], change, service, log)
    }

    fn standing_in(rules: &[&str], change: impl FnOnce(&mut Value), service: &Value, log: &[Value]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut sheet = value("sample-builds/bracket.json");
        // some of its readings stand in a file beside the sample
        sheet.as_object_mut().unwrap().remove("readings");
        change(&mut sheet);
        let text = sheet.to_string();
        std::fs::write(folder.path().join("sheet.json"), &text).unwrap();
        let rule = json!({ "id": "own", "why": "Ours.", "operation": "hand-over", "supersedes": rules,
            "service": service });
        let table = json!({ "table": "our-shop", "title": "Nine Mile's numbers", "rules": [rule] });
        std::fs::write(folder.path().join("our-shop.json"), table.to_string()).unwrap();
        if !log.is_empty() {
            let mut book = Book::create(&folder.path().join("shop.book")).unwrap();
            book.add_sheet("0417", &text, date(2026, 6, 25)).unwrap();
            let entries = log.iter().enumerate().map(|(n, entry)| {
                let mut entry = entry.clone();
                entry["id"] = json!(format!("e{n}"));
                entry["engine"] = json!("0417");
                serde_json::from_value(entry).unwrap()
            });
            book.append(&entries.collect::<Vec<_>>()).unwrap();
        }
        Self { folder }
    }

    fn path(&self, name: &str) -> String {
        self.folder.path().join(name).display().to_string()
    }

    fn plan(&self, more: &[&str]) -> Run {
        let (sheet, table, book) = (self.path("sheet.json"), self.path("our-shop.json"), self.path("shop.book"));
        let by_book = PathBuf::from(&book).exists();
        let which: &[&str] = if by_book { &["plan", "0417", "--book", &book] } else { &["plan", &sheet] };
        let args = [which, &["--on", "2026-08-30", "--pack", &table], more].concat();
        let run = thou(&args);
        assert_eq!(run.exit, 0, "{}{}", run.out, run.err);
        run
    }

    /// What is used of a service's life on passes, as a page has it: in whole ones.
    fn used(&self, rule: &str) -> f64 {
        let report: Value = serde_json::from_str(&self.plan(&["--format", "json"]).out).unwrap();
        let services = report["services"].as_array().unwrap();
        let found = services.iter().find(|s| s["rule"] == rule && s["meter"] == "passes");
        found.unwrap_or_else(|| panic!("no {rule} in passes"))["used"].as_f64().unwrap()
    }
}

/// A part that no pack of the house knows.
fn spools(more: &Value) -> Value {
    let mut service = json!({ "meter": "passes", "low": "100", "nominal": "150", "high": "200",
        "part": "lifter tie bars", "action": "replace", "opens": "intake" });
    service.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    service
}

fn worn(sheet: &mut Value) {
    sheet["valvetrain"]["state"] = json!("reused");
    sheet["valvetrain"]["used"] = json!({ "passes": "118 passes" });
}

fn season() -> [Value; 2] {
    [
        json!({ "day": "2026-07-04", "what": "ran", "passes": 10 }),
        json!({ "day": "2026-07-05", "what": "ran", "passes": 1000, "peak-speed": "7600 rpm" }),
    ]
}

/// Turns of the sheet's own pass: 9.2 s of run at 6,700, and 6 s at 5,500, 120 s at 1,250 and 8 s at 4,200 beside it.
const RUN: f64 = 9.2 * 6_700.0 / 60.0;
const REST: [(f64, f64); 3] = [(550.0, 5_500.0), (2_500.0, 1_250.0), (560.0, 4_200.0)];

#[test]
fn a_part_of_a_name_that_only_its_pack_knows_is_weighed_and_brings_its_age() {
    let says = spools(&json!({ "held-in": ["valvetrain"], "wears": [[{ "cause": "inertia", "slope": "steel" }]] }));
    assert_eq!(Shop::new(worn, &says, &[]).used("our-shop/own"), 118.0);
    // a thousand passes at 7,600 and not at 7,200: inertia as speed squared, to the power 8.5, and the turns themselves
    let rest: f64 = REST.iter().map(|(turns, speed)| turns * (speed / 6_700.0).powi(17)).sum();
    let hard = (RUN * (7_600.0_f64 / 7_200.0).powi(18) + rest) / (RUN + rest);
    let used = Shop::new(worn, &says, &season()).used("our-shop/own");
    assert_eq!(used, (128.0 + 1_000.0 * hard).floor());
}

#[test]
fn a_slope_can_be_two_numbers_and_an_outing_can_count_by_turns_or_by_itself() {
    let used = |more: &Value| Shop::new(|_| (), &spools(more), &season()).used("our-shop/own") - 10.0;
    let rest: f64 = REST.iter().map(|(turns, speed)| turns * (speed / 6_700.0).powi(3)).sum();
    let third = (RUN * (7_600.0_f64 / 7_200.0).powi(4) + rest) / (RUN + rest);
    let landing = json!({ "held-in": [], "wears": [[{ "cause": "landing", "harder": 3, "softer": 2 }]] });
    assert_eq!(used(&landing), (1_000.0 * third).floor());
    let rest: f64 = REST.iter().map(|(turns, _)| turns).sum();
    let turns = (RUN * 7_600.0 / 7_200.0 + rest) / (RUN + rest);
    assert_eq!(used(&json!({ "held-in": [], "duty": "turns" })), (1_000.0 * turns).floor());
    assert_eq!(used(&json!({ "held-in": [], "duty": "outing" })), 1_000.0);
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn what_a_pack_leaves_unsaid_costs_nothing_silently() {
    let silent = Shop::new(worn, &spools(&json!({})), &season());
    let build = |shop: &Shop| thou(&["pack", "build", &shop.path("our-shop.json"), "--out", &shop.path("own.wasm")]);
    let built = build(&silent);
    assert_eq!(built.exit, 0, "{}", built.err);
    for told in [
        "rule own: nothing says what holds the lifter tie bars",
        "or write \"held-in\": [] for none",
        "rule own: nothing says what hurts the lifter tie bars",
        "write \"duty\": \"outing\" if that is meant",
    ] {
        assert!(words(&built.err).contains(told), "{told}: {}", built.err);
    }
    let page = words(&silent.plan(&[]).out);
    assert!(page.contains("its pack does not say which section of the sheet holds the lifter tie bars"), "{page}");
    assert!(page.contains("its pack does not say what hurts the lifter tie bars"), "{page}");
    assert_eq!(silent.used("our-shop/own"), 1_010.0);
    // said, and be it that nothing holds it and nothing is known to hurt it
    let plain = Shop::new(worn, &spools(&json!({ "held-in": [], "duty": "outing" })), &season());
    assert_eq!(build(&plain).err, "");
    assert!(!words(&plain.plan(&[]).out).contains("its pack does not say"));
}

#[test]
fn an_oil_change_in_the_sheet_settles_the_filter() {
    let at = |passes: u32, date: &str| json!({ "date": date, "at": { "passes": format!("{passes} passes") } });
    let with = |rows: Value, log: &[Value]| {
        let change = |sheet: &mut Value| {
            sheet["meters"] = json!({ "passes": "100 passes" });
            sheet["serviced"] = rows;
        };
        Shop::new(change, &spools(&json!({ "held-in": [], "duty": "outing" })), log)
    };
    let oil = json!({ "freshen/oil": at(70, "2026-07-20") });
    let shop = with(oil.clone(), &[]);
    assert_eq!((shop.used("freshen/oil"), shop.used("freshen/oil-filter")), (30.0, 30.0));
    // a filter does not settle the oil
    let filter = with(json!({ "freshen/oil-filter": at(70, "2026-07-20") }), &[]);
    assert_eq!((filter.used("freshen/oil"), filter.used("freshen/oil-filter")), (100.0, 30.0));
    // the later of the two, in either order
    for (filter, used) in [(at(20, "2026-07-05"), 30.0), (at(90, "2026-08-02"), 10.0)] {
        let both = json!({ "freshen/oil": at(70, "2026-07-20"), "freshen/oil-filter": filter });
        assert_eq!(with(both, &[]).used("freshen/oil-filter"), used);
    }
    // five passes logged since, and then an oil change that is logged
    let ran = json!({ "day": "2026-08-08", "what": "ran", "passes": 5 });
    let logged = with(oil.clone(), std::slice::from_ref(&ran));
    assert_eq!((logged.used("freshen/oil"), logged.used("freshen/oil-filter")), (35.0, 35.0));
    let did = json!({ "day": "2026-08-09", "what": "did", "service": "freshen/oil" });
    let more = json!({ "day": "2026-08-10", "what": "ran", "passes": 2 });
    let logged = with(oil, &[ran, did, more]);
    assert_eq!((logged.used("freshen/oil"), logged.used("freshen/oil-filter")), (2.0, 2.0));
}

#[test]
fn every_service_of_the_house_says_what_holds_its_part_and_how_an_outing_counts() {
    let mut services = 0;
    for pack in builtin() {
        services += pack.manifest.rules.iter().filter(|r| r.service.is_some()).count();
        assert_eq!(thou::packs::unsaid(&pack.manifest), Vec::<String>::new());
    }
    assert!(services > 30, "{services}");
    let page = words(&thou(&["explain", "freshen/rockers"]).out);
    for told in [
        "Held in valvetrain on the sheet, whose use before this build is counted in",
        "Counts an outing by spring load, to the power 12 where harder and 6 where softer",
        "or an outing by spring load, to the power 3.33 Log a new one begins anew lash failed: Valve tip, lock groove",
    ] {
        assert!(page.contains(told), "{told}: {page}");
    }
}

/// What can hold a part stands once in the contract; the sheet's schema has a `used` in those sections and in no other.
#[test]
fn what_can_hold_a_part_has_a_use_on_the_sheet() {
    fn walk(schema: &Value, node: &Value, path: &str, found: &mut BTreeSet<String>) {
        let reference =
            node.get("$ref").and_then(Value::as_str).and_then(|r| schema.pointer(r.trim_start_matches('#')));
        let fields = reference.unwrap_or(node).get("properties").and_then(Value::as_object);
        for (name, field) in fields.into_iter().flatten() {
            if name == "used" {
                found.insert(path.to_owned());
            } else if path.split('.').count() < 3 {
                let inner = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                walk(schema, field, &inner, found);
            }
        }
    }
    let schema = value("schemas/build.schema.json");
    let mut found = BTreeSet::new();
    walk(&schema, &schema, "", &mut found);
    assert_eq!(found, ServiceInfo::SECTIONS.iter().map(|s| (*s).to_owned()).collect());
}

fn report(shop: &Shop) -> Value {
    serde_json::from_str(&shop.plan(&["--format", "json"]).out).unwrap()
}

fn line<'r>(report: &'r Value, rule: &str) -> &'r Value {
    let services = report["services"].as_array().unwrap();
    services.iter().find(|s| s["rule"] == rule && s["meter"] == "passes").unwrap_or_else(|| panic!("no {rule}"))
}

/// What a log says of the house's parts it says of anybody's: the service says by what and how.
#[test]
fn a_log_speaks_of_a_part_that_only_its_pack_knows() {
    let read = |day: &str, value: &str, more: Value| {
        let mut entry = json!({ "day": day, "what": "read", "reading": "seat-load", "place": "3E", "value": value });
        entry.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        entry
    };
    let ran = |day: &str| json!({ "day": day, "what": "ran", "passes": 10 });
    // 250 lbf, and 3 less each ten passes: a step of no more than 4.8 %, 25 to lose to 90 %, 12 of them gone in 40 passes
    let mut log = vec![read("2026-07-04", "250 lbf", json!({ "baseline": true }))];
    for (n, day) in ["2026-07-05", "2026-07-11", "2026-07-12", "2026-07-18"].into_iter().enumerate() {
        log.extend([ran(day), read(day, &format!("{} lbf", 247 - 3 * n), json!({}))]);
    }
    let says = |more: Value| {
        let mut says = json!({ "held-in": [], "duty": "outing" });
        says.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        spools(&says)
    };
    let told = says(json!({ "told-by": ["seat-load"], "read-afresh": ["seat-load"] }));
    let own = report(&Shop::new(|_| (), &told, &log));
    let own = line(&own, "our-shop/own");
    assert_eq!((&own["life-rests-on"], &own["used"]), (&json!("condition"), &json!(40.0)));
    // 13 lbf left at 3 in ten passes: 43.3 of them beside the 40, in whole ones, and not the pack's 150
    assert_eq!(own["nominal"], 83.0);
    // said by nobody, it is nothing to the part
    let silent = report(&Shop::new(|_| (), &says(json!({})), &log));
    assert_eq!(line(&silent, "our-shop/own")["life-rests-on"], "pack");

    // 5 more lost on the last pass, a tenth in all: the house's springs are named where both say that it tells of theirs,
    // ours where the house's rule is stood in for; and with new ones in, nothing is left of it
    log.extend([ran("2026-08-01"), read("2026-08-01", "225 lbf", json!({}))]);
    let part_of = |shop: &Shop| {
        let report = report(shop);
        let found = report["findings"].as_array().unwrap().iter().find(|f| f["title"] == "seat load valve 3E").cloned();
        found.map(|f| f["part"].as_str().unwrap_or_default().to_owned())
    };
    assert_eq!(part_of(&Shop::new(|_| (), &told, &log)).as_deref(), Some("valve springs"));
    let instead = |service: &Value| Shop::standing_in(&["freshen/springs"], |_| (), service, &log);
    assert_eq!(part_of(&instead(&told)).as_deref(), Some("lifter tie bars"));
    log.push(json!({ "day": "2026-08-02", "what": "fitted", "part": "lifter tie bars", "serial": "T-2" }));
    assert_eq!(part_of(&Shop::new(|_| (), &told, &log)), None);
    assert_eq!(
        part_of(&Shop::new(|_| (), &says(json!({ "told-by": ["seat-load"] })), &log)).as_deref(),
        Some("valve springs")
    );
}

#[test]
fn an_over_rev_and_a_failure_speak_of_a_part_that_only_its_pack_knows() {
    let happened = |what: &str, speed: Option<&str>| {
        let mut entry = json!({ "day": "2026-07-05", "what": "happened", "happening": what });
        if let Some(speed) = speed {
            entry["speed"] = json!(speed);
        }
        [json!({ "day": "2026-07-04", "what": "ran", "passes": 10 }), entry]
    };
    let after = |over_rev: Value, log: &[Value]| {
        let service = spools(&json!({ "held-in": [], "duty": "outing", "over-rev": over_rev }));
        let report = report(&Shop::new(|_| (), &service, log));
        let own = line(&report, "our-shop/own");
        (own["life-rests-on"].as_str().unwrap().to_owned(), own["nominal"].as_f64().unwrap())
    };
    let all = json!(["halves", "ends", "opened-joint-ends"]);
    // the sheet's limiter is at 7,600: 6 and 9 % over are 8,056 and 8,284
    let (missed, far) = (happened("missed-gear", None), happened("over-rev", Some("8284 rpm")));
    let hard = happened("over-rev", Some("8056 rpm"));
    for log in [&missed, &hard] {
        assert_eq!(after(all.clone(), log), ("event".to_owned(), 75.0));
        assert_eq!(after(json!(["ends"]), log), ("pack".to_owned(), 150.0));
    }
    assert_eq!(after(all, &far), ("event".to_owned(), 10.0));
    assert_eq!(after(json!(["halves"]), &far), ("pack".to_owned(), 150.0));

    // three that failed at 40 passes: the shop's own lives shorten it, by the shape that the service says
    let mut log = Vec::new();
    for n in 0..3 {
        let day = |d: usize| format!("2026-07-{:02}", 5 * n + d);
        let serial = format!("T-{n}");
        log.push(json!({ "day": day(1), "what": "fitted", "part": "lifter tie bars", "serial": serial }));
        log.push(json!({ "day": day(2), "what": "ran", "passes": 40 }));
        log.push(json!({ "day": day(3), "what": "removed", "serial": serial, "disposition": "scrap", "failed": true }));
    }
    log.push(json!({ "day": "2026-07-14", "what": "fitted", "part": "lifter tie bars", "serial": "T-3" }));
    let nominal = |shape: f64| {
        let service = spools(&json!({ "held-in": [], "duty": "outing", "loses": "money", "shape": shape }));
        let report = report(&Shop::new(|_| (), &service, &log));
        let own = line(&report, "our-shop/own").clone();
        assert_eq!(own["life-rests-on"], "learned", "{own}");
        own["nominal"].as_f64().unwrap()
    };
    let (blunt, sharp) = (nominal(1.5), nominal(6.0));
    // three that early are within chance where lives end bluntly; where they end sharply, only a shorter life has them
    assert!(sharp < blunt && blunt < 150.0, "{blunt} {sharp}");
}

/// No reading that a log keeps is of no part, and each is named where a service says what a log tells.
#[test]
fn every_reading_of_a_log_tells_of_a_part_of_the_house() {
    let packs = builtin();
    let services: Vec<&ServiceInfo> =
        packs.iter().flat_map(|p| &p.manifest.rules).filter_map(|r| r.service.as_ref()).collect();
    // what was read of a run is an event of the engine, or held against the window of its oil
    let of_a_run = ["lambda", "oil-temperature", "peak-speed", "water-temperature"];
    for reading in LOG_READINGS.iter().filter(|r| !of_a_run.contains(r)) {
        assert!(services.iter().any(|s| s.told_by.iter().any(|r| r == *reading)), "{reading}");
    }
    let page = words(&thou(&["explain", "freshen/rod-bolts"]).out);
    for told in [
        "its end is told by rod-bolt-growth",
        "a new one begins anew rod-bolt-growth",
        "of an over-rev, 5 to 8 % over leaves half of its life; more than 8 % over ends it; a rod's joint that has opened",
    ] {
        assert!(page.contains(told), "{told}: {page}");
    }
}
