//! Writes two seasons of an invented shop's log, the same bytes each time: `cargo run --release -p thou-tests --example
//! seasons > sample-builds/seasons/nine-mile.jsonl`.
//!
//! Everything in it is invented. What the tests expect to find is planted here by name: a spring set that let go, a set
//! and a rod that moved between engines, cylinder 5 that leaks, a soft spring, lash that opens, copper in the oil,
//! over-revs, passes with the shot, dyno days, services, tear-downs.

use jiff::Span;
use jiff::civil::{Date, date};
use serde_json::{Map, Value, json};
use std::io::Write as _;

/// What was written down so far.
struct Shop {
    lines: Vec<(Date, String)>,
    dice: u32,
}

impl Shop {
    /// One entry, with the fields of its kind.
    fn write(&mut self, engine: &str, day: Date, event: Option<&str>, what: &str, fields: Value) {
        let mut line = Map::new();
        line.insert("id".into(), json!(format!("nm-{:04}", self.lines.len() + 1)));
        line.insert("engine".into(), json!(engine));
        line.insert("day".into(), json!(day.to_string()));
        if let Some(event) = event {
            line.insert("event".into(), json!(event));
        }
        line.insert("by".into(), json!(if engine == "0709" { "M.O." } else { "T.N." }));
        if let Some(note) = fields.get("note") {
            line.insert("note".into(), note.clone());
        }
        line.insert("what".into(), json!(what));
        for (key, value) in fields.as_object().into_iter().flatten().filter(|(key, _)| *key != "note") {
            line.insert(key.clone(), value.clone());
        }
        self.lines.push((day, Value::Object(line).to_string()));
    }

    /// A whole number from 0 up to `sides`, that one not: a linear congruence, so that the log is the same each time.
    fn dice(&mut self, sides: u32) -> u32 {
        self.dice = self.dice.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.dice >> 16) % sides
    }

    fn did(&mut self, engine: &str, day: Date, event: Option<&str>, services: &[&str]) {
        for service in services {
            self.write(engine, day, event, "did", json!({ "service": format!("freshen/{service}") }));
        }
    }

    fn fitted(&mut self, engine: &str, day: Date, part: &str, serial: &str, more: Value) {
        let mut fields = json!({ "part": part, "serial": serial });
        merge(&mut fields, &more);
        self.write(engine, day, None, "fitted", fields);
    }

    fn removed(&mut self, engine: &str, day: Date, serial: &str, disposition: &str, more: Value) {
        let mut fields = json!({ "serial": serial, "disposition": disposition });
        merge(&mut fields, &more);
        self.write(engine, day, None, "removed", fields);
    }

    fn read(&mut self, engine: &str, day: Date, event: Option<&str>, reading: &str, value: String, more: Value) {
        let mut fields = json!({ "reading": reading });
        merge(&mut fields, &more);
        fields["value"] = json!(value);
        self.write(engine, day, event, "read", fields);
    }

    /// Passes of one event: time trials together, each round with its elapsed time.
    fn race(&mut self, engine: &str, day: Date, event: &str, [trials, rounds]: [u32; 2], et: [f64; 2], peak: u32) {
        self.write(engine, day, Some(event), "ran", json!({ "passes": trials }));
        for round in 0..rounds {
            let elapsed = et[0] + f64::from(self.dice(80)) * 0.001 + f64::from(round) * 0.0001;
            let mut fields = json!({ "passes": 1, "elapsed": format!("{:.4} s", elapsed.min(et[1])) });
            if self.dice(3) == 0 {
                fields["peak-speed"] = json!(format!("{} rpm", peak + self.dice(9) * 10 - 40));
            }
            self.write(engine, day, Some(event), "ran", fields);
        }
    }
}

fn merge(into: &mut Value, more: &Value) {
    for (key, value) in more.as_object().into_iter().flatten() {
        into[key] = value.clone();
    }
}

const CYLINDERS: [&str; 8] = ["1", "2", "3", "4", "5", "6", "7", "8"];

fn valves() -> Vec<String> {
    CYLINDERS.iter().flat_map(|c| [format!("{c}I"), format!("{c}E")]).collect()
}

fn main() {
    let mut shop = Shop { lines: Vec::new(), dice: 417 };
    bracket(&mut shop);
    all_out(&mut shop);
    street(&mut shop);
    // by day, and on a day as they were written: what a shop's own log would be
    shop.lines.sort_by_key(|(day, _)| *day);
    let all: Vec<String> = shop.lines.into_iter().map(|(_, line)| line).collect();
    let _ = std::io::stdout().write_all(format!("{}\n", all.join("\n")).as_bytes());
}

/// Leak-down of all eight on tester 2, hot, in percent.
fn leak_down(shop: &mut Shop, day: Date, event: Option<&str>, percent: [f64; 8], fresh: bool) {
    for (cylinder, percent) in CYLINDERS.iter().zip(percent) {
        let mut more = json!({ "place": cylinder, "gauge": "tester 2", "state": "hot" });
        if fresh {
            more["baseline"] = json!(true);
        }
        shop.read("0417", day, event, "leak-down", format!("{percent} %"), more);
    }
    shop.did("0417", day, event, &["leak-down"]);
}

/// Seat loads of the exhausts on the head tester, in lbf.
fn seat_loads(shop: &mut Shop, day: Date, event: Option<&str>, pounds: [u32; 8], fresh: bool) {
    for (cylinder, pounds) in CYLINDERS.iter().zip(pounds) {
        let mut more = json!({ "place": format!("{cylinder}E"), "gauge": "head tester", "state": "on-the-head" });
        if fresh {
            more["baseline"] = json!(true);
        }
        shop.read("0417", day, event, "seat-load", format!("{pounds} lbf"), more);
    }
    shop.did("0417", day, event, &["spring-load"]);
}

/// Lash of all sixteen as found, hot: 16 thou, and what single ones have more.
fn lash(shop: &mut Shop, day: Date, event: Option<&str>, odd: &[(&str, u32)], fresh: bool) {
    for valve in valves() {
        let thou = odd.iter().find(|(v, _)| *v == valve).map_or(16, |(_, t)| *t);
        let mut more = json!({ "place": valve, "gauge": "feeler set", "state": "hot" });
        if fresh {
            more["baseline"] = json!(true);
        }
        shop.read("0417", day, event, "lash", format!("0.0{thou} in"), more);
    }
    shop.did("0417", day, event, &["lash"]);
}

/// The bracket engine: ten events in 2026, eleven in 2027.
fn bracket(shop: &mut Shop) {
    let e = "0417";
    let built = date(2026, 6, 26);
    shop.write(
        e,
        built,
        None,
        "noted",
        json!({ "note": "All of this log is invented, and so are the shop, its people and its engines." }),
    );
    shop.fitted(e, built, "valve springs", "set 11", json!({}));
    shop.fitted(e, built, "rod bolts", "bolts 3", json!({}));
    shop.fitted(e, built, "roller lifters", "lifters 6", json!({}));
    shop.fitted(
        e,
        built,
        "rods",
        "R-21",
        json!({ "place": "3", "brought": { "passes": "96" }, "note": "the one used rod of the set, crack-tested" }),
    );
    let dyno = date(2026, 6, 28);
    shop.write(e, dyno, None, "ran", json!({ "pulls": 9, "hours": "1.5 h" }));
    shop.read(e, dyno, None, "power", "702 hp".into(), json!({ "gauge": "cell 1", "baseline": true }));
    shop.read(
        e,
        dyno,
        None,
        "oil-pressure-hot",
        "68 psi".into(),
        json!({ "state": "hot, 7000 rpm", "baseline": true }),
    );
    shop.did(e, dyno, None, &["oil", "oil-filter"]);
    leak_down(shop, dyno, None, [3.0, 3.0, 4.0, 3.0, 4.0, 3.0, 3.0, 4.0], true);
    seat_loads(shop, dyno, None, [251, 250, 252, 251, 249, 250, 252, 251], true);
    lash(shop, dyno, None, &[], true);

    // 2026: day, name, time trials, rounds
    let first = [
        (date(2026, 7, 4), "E1", 3, 5),
        (date(2026, 7, 18), "E2", 2, 4),
        (date(2026, 8, 1), "E3", 3, 7),
        (date(2026, 8, 15), "E4", 2, 5),
        (date(2026, 8, 29), "E5", 3, 6),
        (date(2026, 9, 12), "E6", 2, 3),
        (date(2026, 9, 26), "E7", 3, 7),
        (date(2026, 10, 10), "E8", 2, 6),
        (date(2026, 10, 17), "E9", 2, 3),
        (date(2026, 10, 31), "E10", 3, 8),
    ];
    for (day, event, trials, rounds) in first {
        shop.race(e, day, event, [trials, rounds], [9.16, 9.32], 7_200);
        shop.did(e, day, Some(event), &["spark-plugs"]);
        match event {
            "E2" => lash(shop, day, Some(event), &[("2E", 17)], false),
            "E3" => oil(shop, e, day, event, "freshen", [4, 28, 6]),
            "E4" => {
                shop.write(e, day, Some(event), "happened", json!({ "happening": "over-rev", "speed": "7750 rpm", "time": "0.4 s", "note": "missed the two-step, tach's tell-tale" }));
                leak_down(shop, day, Some(event), [3.0, 3.0, 4.0, 3.0, 4.0, 3.0, 3.0, 4.0], false);
                seat_loads(shop, day, Some(event), [250, 249, 250, 250, 248, 249, 251, 250], false);
                lash(shop, day, Some(event), &[("2E", 17), ("7E", 17)], false);
            }
            "E6" => {
                oil(shop, e, day, event, "freshen", [5, 30, 6]);
                seat_loads(shop, day, Some(event), [249, 249, 249, 250, 248, 248, 250, 249], false);
            }
            "E8" => shop_missed_gear(shop, day, event),
            _ => {}
        }
    }
    // set 11 let go at the second round of E10: one spring in two pieces, found when the covers came off
    let end = date(2026, 11, 1);
    shop.removed(
        e,
        end,
        "set 11",
        "scrap",
        json!({ "failed": true, "because": "6E in two pieces at the second coil" }),
    );
    shop.fitted(e, end, "valve springs", "set 14", json!({}));
    shop.did(e, end, None, &["springs", "retainers"]);
    seat_loads(shop, end, None, [252, 251, 252, 252, 251, 250, 252, 251], true);
    lash(shop, end, None, &[], true);
    oil(shop, e, end, "E10", "freshen", [5, 32, 7]);
    // winter: pan off, two big ends measured, bolts tightened again
    let winter = date(2027, 1, 16);
    shop.write(
        e,
        winter,
        None,
        "torn-down",
        json!({ "opens": "pan", "note": "big ends 4 and 5 looked at, the rest left" }),
    );
    for (rod, thou) in [("4", "2.7 thou"), ("5", "2.8 thou")] {
        shop.read(
            e,
            winter,
            None,
            "rod-clearance",
            thou.into(),
            json!({ "place": rod, "gauge": "bore gauge 2-3 in", "baseline": true }),
        );
    }
    shop.write(e, winter, None, "tightened", json!({ "serial": "bolts 3" }));
    // before the second season the lifters went out and came back
    let spring = date(2027, 3, 20);
    shop.removed(e, spring, "lifters 6", "recondition", json!({ "because": "by count" }));
    shop.fitted(e, spring, "roller lifters", "lifters 9", json!({}));
    shop.did(e, spring, None, &["lifters"]);
    lash(shop, spring, None, &[], true);
    leak_down(shop, spring, None, [3.0, 3.5, 4.0, 3.0, 4.0, 3.0, 3.5, 4.0], false);
    let test = date(2027, 3, 27);
    shop.write(e, test, Some("test day"), "ran", json!({ "passes": 3 }));
    shop.write(
        e,
        test,
        Some("test day"),
        "ran",
        json!({ "passes": 1, "adder": true, "elapsed": "8.7100 s", "note": "150 shot for the first time" }),
    );
    shop.write(e, test, Some("test day"), "ran", json!({ "passes": 1, "adder": true, "elapsed": "8.6800 s" }));

    for n in 1..=11_u32 {
        let day = date(2027, 4, 10).checked_add(Span::new().days(i64::from(n - 1) * 14)).unwrap_or(spring);
        let event = format!("E{n}");
        let event = event.as_str();
        shop.race(e, day, event, [2, 2 + shop_rounds(n)], [9.16, 9.32], 7_200);
        shop.did(e, day, Some(event), &["spark-plugs"]);
        match n {
            1 => seat_loads(shop, day, Some(event), [251, 250, 250, 251, 250, 249, 251, 250], false),
            2 => {
                oil(shop, e, day, event, "freshen", [5, 30, 6]);
                lash(shop, day, Some(event), &[], false);
            }
            3 => {
                seat_loads(shop, day, Some(event), [250, 250, 246, 250, 249, 249, 250, 250], false);
                leak_down(shop, day, Some(event), [3.0, 4.0, 4.0, 3.0, 4.0, 3.5, 3.0, 4.0], false);
            }
            4 => {
                shop.write(e, day, Some(event), "happened", json!({ "happening": "over-rev", "speed": "8100 rpm", "time": "0.6 s", "note": "driveline yoke let go under power" }));
                let id = shop.last_id();
                lash(shop, day, Some(event), &[("7E", 17)], false);
                shop.write(
                    e,
                    day,
                    Some(event),
                    "settled",
                    json!({ "entry": id, "found": "no marks on the crowns, pushrods straight, filter clean" }),
                );
                shop.write(e, day, Some(event), "ran", json!({ "passes": 1, "adder": true, "elapsed": "8.6950 s" }));
                shop.did(e, day, Some(event), &["oil-filter"]);
            }
            5 => {
                seat_loads(shop, day, Some(event), [250, 249, 242, 250, 249, 248, 250, 249], false);
                leak_down(shop, day, Some(event), [3.0, 4.0, 4.0, 3.5, 5.0, 3.0, 3.5, 4.0], false);
                oil(shop, e, day, event, "freshen", [5, 33, 7]);
            }
            7 => {
                seat_loads(shop, day, Some(event), [249, 249, 238, 249, 248, 248, 249, 249], false);
                lash(shop, day, Some(event), &[("7E", 18), ("3I", 17)], false);
                shop.read(
                    e,
                    day,
                    Some(event),
                    "oil-pressure-hot",
                    "66 psi".into(),
                    json!({ "state": "hot, 7000 rpm" }),
                );
            }
            8 => {
                leak_down(shop, day, Some(event), [3.5, 4.5, 4.0, 3.0, 9.0, 3.0, 3.5, 4.0], false);
                oil(shop, e, day, event, "freshen", [17, 36, 9]);
            }
            9 => {
                seat_loads(shop, day, Some(event), [249, 249, 231, 249, 248, 248, 249, 249], false);
                lash(shop, day, Some(event), &[("7E", 22), ("3I", 17)], false);
            }
            11 => {
                shop.write(e, day, Some(event), "happened", json!({ "happening": "missed-gear", "speed": "7900 rpm" }))
            }
            _ => {}
        }
    }
}

/// Rounds won at an event of the second season.
fn shop_rounds(n: u32) -> u32 {
    [5, 3, 6, 4, 2, 6, 3, 5, 7, 2, 4].get(n as usize - 1).copied().unwrap_or(3)
}

fn shop_missed_gear(shop: &mut Shop, day: Date, event: &str) {
    shop.write("0417", day, Some(event), "happened", json!({ "happening": "missed-gear", "speed": "7650 rpm" }));
    let id = shop.last_id();
    shop.write(
        "0417",
        day,
        Some(event),
        "settled",
        json!({ "entry": id, "found": "lash, plugs and crowns as before; filter clean" }),
    );
    shop.did("0417", day, Some(event), &["oil-filter"]);
}

/// A sample, then the oil and the filter: copper, iron and silicon in ppm.
fn oil(shop: &mut Shop, engine: &str, day: Date, event: &str, pack: &str, metals: [u32; 3]) {
    for (metal, ppm) in ["oil-copper", "oil-iron", "oil-silicon"].into_iter().zip(metals) {
        shop.read(engine, day, Some(event), metal, format!("{ppm} ppm"), json!({ "gauge": "the laboratory" }));
    }
    for service in ["oil-analysis", "oil", "oil-filter"] {
        shop.write(engine, day, Some(event), "did", json!({ "service": format!("{pack}/{service}") }));
    }
}

impl Shop {
    fn last_id(&self) -> String {
        let line = self.lines.last().map(|l| l.1.clone()).unwrap_or_default();
        let value: Value = serde_json::from_str(&line).unwrap_or_default();
        value["id"].as_str().unwrap_or_default().to_owned()
    }
}

/// The all-out engine: spring sets by the score, a rod that went on to the bracket engine, a freshen in the winter.
fn all_out(shop: &mut Shop) {
    let e = "0709";
    let built = date(2026, 5, 2);
    shop.write(e, built, None, "noted", json!({ "note": "All of this log is invented." }));
    shop.fitted(e, built, "valve springs", "set 5", json!({}));
    shop.fitted(e, built, "rod bolts", "bolts 7", json!({}));
    shop.fitted(e, built, "rods", "R-07", json!({ "place": "4" }));
    shop.write(e, date(2026, 5, 5), None, "ran", json!({ "pulls": 14, "hours": "2 h" }));
    shop.read(e, date(2026, 5, 5), None, "power", "903 hp".into(), json!({ "gauge": "cell 1", "baseline": true }));
    let springs = ["set 6", "set 7", "set 8", "set 10", "set 15", "set 16"];
    let mut in_now = "set 5";
    let mut next = springs.iter();
    for n in 1..=12_u32 {
        let day = if n <= 6 { date(2026, 5, 15) } else { date(2027, 4, 24) };
        let day = day.checked_add(Span::new().days(i64::from((n - 1) % 6) * 24)).unwrap_or(day);
        let event = format!("R{}", (n - 1) % 6 + 1);
        let event = event.as_str();
        shop.race(e, day, event, [4, 2 + (n * 7 + 1) % 4], [7.84, 7.98], 9_000);
        shop.did(e, day, Some(event), &["spark-plugs", "lash", "spring-load"]);
        shop.read(
            e,
            day,
            Some(event),
            "oil-pressure-hot",
            format!("{} psi", 74 - n % 2),
            json!({ "state": "hot, 8500 rpm", "baseline": n == 1 }),
        );
        if n % 2 == 0 {
            shop.did(e, day, Some(event), &["oil", "oil-filter"]);
        }
        if n % 2 == 0 {
            // set 7 and set 15 let go; set 8 came out sound and went on to the bracket engine
            let failed = matches!(in_now, "set 7" | "set 15");
            let (disposition, because) = match in_now {
                "set 8" => ("run", "by count"),
                _ if failed => ("scrap", "one broken"),
                _ => ("scrap", "by count"),
            };
            let mut more = json!({ "because": because });
            if failed {
                more["failed"] = json!(true);
            }
            shop.removed(e, day, in_now, disposition, more);
            in_now = next.next().copied().unwrap_or("set 17");
            shop.fitted(e, day, "valve springs", in_now, json!({}));
            shop.did(e, day, Some(event), &["springs"]);
        }
        if n == 6 {
            let winter = date(2026, 12, 5);
            shop.write(e, winter, None, "torn-down", json!({ "opens": "engine-out" }));
            shop.removed(e, winter, "R-07", "watch", json!({ "because": "big end 0.2 thou larger, crack-tested" }));
            shop.removed(e, winter, "bolts 7", "scrap", json!({ "because": "by count" }));
            shop.fitted(e, winter, "rod bolts", "bolts 8", json!({}));
            for service in
                ["rings", "rod-bearings", "main-bearings", "rod-bolts", "pistons", "bores", "oil", "oil-filter"]
            {
                shop.did(e, winter, None, &[service]);
            }
            shop.write(e, winter, None, "freshened", json!({}));
            // the rod goes into the bracket engine for its own number 3
            let moved = date(2027, 1, 16);
            shop.removed("0417", moved, "R-21", "scrap", json!({ "because": "nick in the beam" }));
            shop.fitted("0417", moved, "rods", "R-07", json!({ "place": "3" }));
        }
    }
    // the bracket engine's soft set out, and the sound one of this engine in
    let moved = date(2027, 9, 4);
    shop.removed("0417", moved, "set 14", "watch", json!({ "because": "3E soft" }));
    shop.fitted("0417", moved, "valve springs", "set 8", json!({}));
    shop.did("0417", moved, None, &["springs"]);
}

/// The street engine: a drive a week, a strip night now and then.
fn street(shop: &mut Shop) {
    let e = "0522";
    shop.write(e, date(2026, 3, 28), None, "noted", json!({ "note": "All of this log is invented." }));
    let mut total = 0;
    for week in 0..78_u32 {
        let day = date(2026, 3, 29).checked_add(Span::new().days(i64::from(week) * 7)).unwrap_or(date(2026, 3, 29));
        // laid up from December to February
        if matches!(day.month(), 12 | 1 | 2) {
            continue;
        }
        let miles = 70 + shop.dice(110);
        total += miles;
        shop.write(e, day, None, "ran", json!({ "miles": format!("{miles} miles") }));
        if week % 17 == 9 {
            let peak = 5_600 + shop.dice(8) * 10;
            shop.write(
                e,
                day,
                Some("street night"),
                "ran",
                json!({ "passes": 3, "peak-speed": format!("{peak} rpm") }),
            );
        }
        if week % 26 == 20 {
            shop.did(e, day, None, &["oil", "oil-filter"]);
        }
        if week == 40 {
            shop.write(
                e,
                day,
                None,
                "ran",
                json!({ "meter": { "miles": format!("{} miles", total + 25) }, "note": "by the odometer" }),
            );
        }
    }
}
