#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use crate::condition::{ConditionReader, SheetReadings};
use crate::entry::Entry;
use crate::events::{RunLimits, events};
use crate::failure::lost;
use crate::log::tests::line;
use crate::part::fittings;
use crate::services::LogServices;
use jiff::civil::date;

const RPM: f64 = std::f64::consts::PI / 30.0;

const SPRINGS: CountedService<'static> = CountedService {
    rule: "freshen/springs",
    settled_by: &[],
    part: "valve springs",
    wears: None,
    read: None,
    told_by: &[],
    over_rev: &[OverRev::Ends],
    shape: 3.0,
    renews: true,
    by_stamp: false,
    meter: "passes",
    pack: [82.0, 132.0, 220.0],
    takes: Consequence::Engine,
    by_sheet: 0.0,
    day_by_sheet: None,
    costs: None,
};

const BOLTS: CountedService<'static> = CountedService {
    rule: "freshen/rod-bolts",
    part: "rod bolts",
    pack: [200.0, 300.0, 400.0],
    over_rev: &[OverRev::Halves, OverRev::Ends, OverRev::OpenedJointEnds],
    ..SPRINGS
};

struct Given {
    elsewhere: BTreeMap<String, Meters>,
    own: BTreeMap<(String, String), ShopLives>,
}

fn reckon(entries: &[Entry], given: &Given, asked: &CountedService<'_>) -> ServiceCount {
    let log = Log::new(entries, &Meters::new());
    let services = LogServices::default();
    let condition = ConditionReader {
        log: &log,
        meter: "passes",
        services: &services,
        sheet: &SheetReadings::new(),
        system: System::Inch,
    }
    .read();
    let speeds = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
    EngineRecord {
        log: &log,
        intent: &Intent { run: Some([9.2, 6_700.0 * RPM]), peak: Some(7_200.0 * RPM), ..Intent::default() },
        fittings: &fittings(entries),
        elsewhere: &given.elsewhere,
        events: &events(entries, speeds),
        lost: &lost(entries, &fittings(entries), &services),
        condition: &condition,
        meter: "passes",
        own: &given.own,
        as_of: Some(date(2026, 9, 1)),
        system: System::Inch,
    }
    .reckon(asked)
}

fn nothing() -> Given {
    Given { elsewhere: BTreeMap::new(), own: BTreeMap::new() }
}

#[test]
fn without_a_number_it_counts_from_when_it_was_done_and_from_the_freshen() {
    let mut entries = vec![line(date(2026, 4, 1), r#""what":"ran","passes":40"#)];
    let asked = CountedService { by_sheet: 10.0, ..SPRINGS };
    assert_eq!(reckon(&entries, &nothing(), &asked).used, Some(50.0));
    entries.push(line(date(2026, 4, 2), r#""what":"did","service":"freshen/springs""#));
    entries.push(line(date(2026, 4, 3), r#""what":"ran","passes":7"#));
    assert_eq!(reckon(&entries, &nothing(), &asked).used, Some(7.0));
    assert_eq!(reckon(&entries, &nothing(), &BOLTS).used, Some(47.0));
    entries.push(line(date(2026, 4, 4), r#""what":"freshened""#));
    entries.push(line(date(2026, 4, 5), r#""what":"ran","passes":3"#));
    // what the sheet of the freshen says was brought into it
    assert_eq!(reckon(&entries, &nothing(), &asked).used, Some(13.0));
    assert_eq!(reckon(&entries, &nothing(), &SPRINGS).used, Some(3.0));
    // looked at when something else was done
    let look =
        CountedService { rule: "freshen/spring-load", renews: false, settled_by: &["freshen/springs"], ..SPRINGS };
    assert_eq!(reckon(&entries[..3], &nothing(), &look).used, Some(7.0));
}

#[test]
fn a_numbered_set_brings_what_it_ran_and_keeps_it_over_a_freshen() {
    let entries = [
        line(date(2026, 4, 1), r#""what":"fitted","part":"valve springs","serial":"set 9","brought":{"passes":"20"}"#),
        line(date(2026, 4, 2), r#""what":"ran","passes":30"#),
        line(date(2026, 5, 1), r#""what":"freshened""#),
        line(date(2026, 5, 2), r#""what":"ran","passes":5"#),
    ];
    let mut given = nothing();
    given.elsewhere.insert("set 9".into(), Meters::from([("passes".to_owned(), 41.0)]));
    let got = reckon(&entries, &given, &SPRINGS);
    assert_eq!((got.used, got.serial.as_deref()), (Some(96.0), Some("set 9")));
    assert_eq!(got.why, ["set 9, in since 2026-04-01: 35 here, 41 in other engines, 20 before this book"]);
    // done on a later day, and nobody wrote a number down: another set
    let mut later = entries.to_vec();
    later.push(line(date(2026, 6, 1), r#""what":"did","service":"freshen/springs""#));
    later.push(line(date(2026, 6, 2), r#""what":"ran","passes":4"#));
    assert_eq!(reckon(&later, &given, &SPRINGS).used, Some(4.0));
}

#[test]
fn one_old_rod_among_new_ones_is_the_one_that_counts() {
    let asked = CountedService { rule: "freshen/steel-rods", part: "rods", pack: [300.0, 400.0, 600.0], ..SPRINGS };
    let entries = [
        line(
            date(2026, 4, 1),
            r#""what":"fitted","part":"rods","serial":"R-21","place":"3","brought":{"passes":"210"}"#,
        ),
        line(date(2026, 4, 2), r#""what":"ran","passes":30"#),
    ];
    let got = reckon(&entries, &nothing(), &asked);
    assert_eq!((got.used, got.serial.as_deref()), (Some(240.0), Some("R-21")));
    assert!(got.why[0].starts_with("R-21 at 3"));
}

#[test]
fn bolts_count_to_half_after_five_percent_over_and_not_at_all_after_eight() {
    let with = |speed: &str| {
        let entries = [
            line(date(2026, 4, 1), r#""what":"ran","passes":40"#),
            line(date(2026, 4, 2), &format!(r#""what":"happened","happening":"over-rev","speed":"{speed}""#)),
        ];
        reckon(&entries, &nothing(), &BOLTS)
    };
    assert_eq!((with("7750 rpm").range, with("7750 rpm").basis), ([200.0, 300.0, 400.0], LifeBasis::Pack));
    assert_eq!((with("8100 rpm").range, with("8100 rpm").basis), ([100.0, 150.0, 200.0], LifeBasis::Event));
    let out = with("8300 rpm");
    assert_eq!((out.range, out.used), ([40.0; 3], Some(40.0)));
    // whatever the part is called: what its service says counts
    let over = |speed: &str, theirs: &CountedService<'_>| {
        let entries = [
            line(date(2026, 4, 1), r#""what":"ran","passes":40"#),
            line(date(2026, 4, 2), &format!(r#""what":"happened","happening":"over-rev","speed":"{speed}""#)),
        ];
        reckon(&entries, &nothing(), theirs).range
    };
    let theirs = CountedService { rule: "nine-mile/bolts", part: "connecting-rod bolts", ..BOLTS };
    assert_eq!(over("8100 rpm", &theirs), [100.0, 150.0, 200.0]);
    assert_eq!(over("8300 rpm", &theirs), [40.0; 3]);
    for says in [&[][..], &[OverRev::OpenedJointEnds]] {
        let silent = CountedService { part: "rod bolts", over_rev: says, ..theirs };
        assert_eq!(over("8300 rpm", &silent), [200.0, 300.0, 400.0]);
    }
    // new ones since: nothing of it
    let entries = [
        line(date(2026, 4, 2), r#""what":"happened","happening":"over-rev","speed":"8300 rpm""#),
        line(date(2026, 4, 3), r#""what":"fitted","part":"rod bolts","serial":"bolts 8""#),
    ];
    assert_eq!(reckon(&entries, &nothing(), &BOLTS).basis, LifeBasis::Pack);
}

#[test]
fn a_line_that_comes_to_its_limit_before_the_life_ends_takes_its_place() {
    let mut entries = Vec::new();
    for n in 0..6_i64 {
        let day = date(2026, 4, 4).checked_add(jiff::Span::new().days(7 * n)).unwrap();
        if n > 0 {
            entries.push(line(day, r#""what":"ran","passes":10"#));
        }
        let fresh = if n == 0 { r#","baseline":true"# } else { "" };
        let load = 250 - 3 * n;
        let read = format!(r#""what":"read","reading":"seat-load","place":"3E","value":"{load} lbf"{fresh}"#);
        entries.push(line(day, &read));
    }
    let told_by = ["seat-load".to_owned()];
    let asked = CountedService { told_by: &told_by, ..SPRINGS };
    let got = reckon(&entries, &nothing(), &asked);
    // 25 lbf to lose, 15 gone in 50 passes: 33 left, 83 in all, before the 132 of the pack
    assert_eq!(got.basis, LifeBasis::Condition);
    let [low, nominal, high] = got.range;
    assert!((nominal - 250.0 / 3.0).abs() < 1e-6 && low <= 82.0 && high <= 220.0, "{:?}", got.range);
    assert!(got.why.last().unwrap().ends_with("sooner than its life"), "{:?}", got.why);
    let short = CountedService { pack: [20.0, 60.0, 80.0], ..asked };
    assert_eq!(reckon(&entries, &nothing(), &short).basis, LifeBasis::Pack);
    // of a service that no seat load tells, nothing is told by one
    assert_eq!(reckon(&entries, &nothing(), &SPRINGS).why, Vec::<String>::new());
}

#[test]
fn the_shops_own_failures_shorten_and_say_so() {
    let mut given = nothing();
    let own = ShopLives { failed: vec![70.0, 75.0, 80.0], sound: vec![60.0, 40.0] };
    given.own.insert(("valve springs".into(), "passes".into()), own);
    let entries = [line(date(2026, 4, 1), r#""what":"ran","passes":40"#)];
    let asked = CountedService { costs: Some([400.0, 15_000.0]), ..SPRINGS };
    let got = reckon(&entries, &given, &asked);
    assert!(got.basis == LifeBasis::Learned && got.range[1] < 132.0);
    assert!(
        got.why[0].starts_with("3 of this shop's own failed, 2 did not: they shorten the pack's range of 82, 132, 220")
    );
    // by the life that the chances are made of, the trapezium rule, and every age tried
    let Weibull { shape, scale } = got.life.unwrap();
    let reach = |t: f64| (-(t / scale).powf(shape)).exp();
    let (mut run, mut best) = (0.0, (f64::INFINITY, 0.0));
    for n in 1..60_000_u32 {
        let age = f64::from(n) * 0.005;
        run += 0.005 * (reach(age) + reach(age - 0.005)) / 2.0;
        let rate = (400.0 * reach(age) + 15_000.0 * (1.0 - reach(age))) / run;
        best = if rate < best.0 { (rate, age) } else { best };
    }
    let age = (best.1 + 1e-2).floor();
    assert_eq!(got.why[1], format!("cheapest to change at about {age} by its costs, labor among them"));
    // the pack's range where the shop has nothing of its own, and no age to say
    let alone = reckon(&entries, &nothing(), &asked);
    assert_eq!((alone.life, alone.why), (life_behind(3.0, Consequence::Engine, SPRINGS.pack), Vec::new()));
}

#[test]
fn months_count_from_the_stamp_where_there_is_one() {
    let asked = CountedService { rule: "freshen/damper", part: "damper", by_stamp: true, meter: "months", ..SPRINGS };
    let entries = [line(date(2026, 4, 1), r#""what":"fitted","part":"damper","serial":"D-50311","made":"2025-09-01""#)];
    let got = reckon(&entries, &nothing(), &asked);
    assert_eq!((got.used, got.serial.as_deref()), (Some(365.0 * 86_400.0), Some("D-50311")));
    let by_sheet = CountedService { day_by_sheet: Some(date(2026, 8, 31)), ..asked };
    assert_eq!(reckon(&[], &nothing(), &by_sheet).used, Some(86_400.0));
}

/// 24 passes since the set came out broken: they have nothing left, whatever the pack gives them.
#[test]
fn a_broken_set_has_nothing_left_until_the_next_is_in() {
    let mut entries = vec![
        line(date(2026, 5, 1), r#""what":"fitted","part":"valve springs","serial":"set 11""#),
        line(
            date(2026, 5, 9),
            r#""what":"removed","serial":"set 11","failed":true,"disposition":"scrap","because":"inner broke""#,
        ),
        line(date(2026, 5, 10), r#""what":"ran","passes":24"#),
    ];
    let given = Given { elsewhere: BTreeMap::new(), own: BTreeMap::new() };
    let count = reckon(&entries, &given, &SPRINGS);
    assert_eq!((count.used, count.range, count.basis), (Some(24.0), [24.0; 3], LifeBasis::Event));
    let why =
        "valve springs set 11: failed and came out on 2026-05-09 (inner broke), none in since: nothing left to run";
    assert!(count.why.iter().any(|w| w == why), "{:?}", count.why);
    let look = CountedService { rule: "freshen/spring-load", renews: false, ..SPRINGS };
    assert_eq!(reckon(&entries, &given, &look).range, SPRINGS.pack);
    entries.push(line(date(2026, 5, 11), r#""what":"fitted","part":"valve springs","serial":"set 14""#));
    let count = reckon(&entries, &given, &SPRINGS);
    assert_eq!((count.used, count.range, count.basis), (Some(0.0), SPRINGS.pack, LifeBasis::Pack));
}

#[test]
fn a_service_that_its_readings_are_counts_from_them() {
    let entries = [
        line(date(2026, 5, 1), r#""what":"ran","passes":40"#),
        line(date(2026, 5, 2), r#""what":"read","reading":"leak-down","place":"8","value":"3 %""#),
        line(date(2026, 5, 3), r#""what":"ran","passes":7"#),
    ];
    let given = Given { elsewhere: BTreeMap::new(), own: BTreeMap::new() };
    let look = CountedService { rule: "freshen/leak-down", part: "cylinders", renews: false, ..SPRINGS };
    assert_eq!(reckon(&entries, &given, &look).used, Some(47.0));
    let read = CountedService { read: Some(1), ..look };
    let count = reckon(&entries, &given, &read);
    assert_eq!((count.used, count.since.as_deref()), (Some(7.0), Some(entries[1].id.as_str())));
}
