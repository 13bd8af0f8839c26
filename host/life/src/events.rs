//! What happened that no count covers: what to do about it before the next pass, and what it does to lives.
//!
//! A single load that opens a rod's joint, or a valve that leaves the cam and touches, is no share of a life: the ladder
//! is by how far over the engine went. Common practice, no source.

use crate::entry::{Entry, What};
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::logged::{LEAN_BY, OVER_REV_RUNGS, OVERHEATED_WATER, OverRev};

/// How far it went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rung {
    /// Written down, and no more.
    Logged,
    /// Looked at that day.
    Looked,
    /// Looked into before it runs again; parts whose service says so count to half of their life.
    Halved,
    /// It does not run.
    Out,
}

/// Something that happened.
#[derive(Debug, Clone, PartialEq)]
pub struct Happening {
    /// The entry's id.
    pub entry: String,
    /// Its place in the log that was given.
    pub index: usize,
    /// The day.
    pub day: Date,
    /// Its word in the log: `over-rev`.
    pub happening: String,
    /// How far it went.
    pub rung: Rung,
    /// The speed that it came to, rad/s.
    pub speed: Option<f64>,
    /// How far over the limit, as a share of it.
    pub over: Option<f64>,
    /// The speed at which the rod bolts let the joint open, where it came past that; rad/s.
    pub opened: Option<f64>,
    /// How long, s.
    pub time: Option<f64>,
    /// The cylinder.
    pub place: Option<String>,
    /// What was read of it, SI, and what that is too much against, where a pass or a reading told of it and nobody wrote it
    /// down as a happening: the reading's name, its value and its limit.
    pub read: Option<(&'static str, f64, f64)>,
    /// What to do before the next pass.
    pub to_do: &'static str,
    /// What was found, once it was settled.
    pub found: Option<String>,
}

/// What an outing is held against: speeds in rad/s, on which the ladder stands, and the mixture.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RunLimits {
    /// The limiter, else the shift, else the redline: what the engine was planned to.
    pub limit: Option<f64>,
    /// Where the valves float, by calculation.
    pub float: Option<f64>,
    /// Where the rod bolts let the joint open, by calculation.
    pub clamp: Option<f64>,
    /// The sheet's mixture at full power, else the leanest that is usual with its fuel: air over the air that just burns
    /// the fuel.
    pub lambda: Option<f64>,
}

/// Longer than this on the limiter is as an over-rev of 5 to 8 %, s.
const BOUNCE: f64 = 2.0;

const LOG: &str = "Written down; nothing asked for.";
const LOOK: &str = "Lash of every valve, spring loads on the head, plugs; leak-down that evening.";
const INTO: &str = "Lash of every valve, spring loads on the head, plugs, leak-down; the crowns through the plug holes \
                    for valve marks, pushrods rolled, filter cut.";
const OUT: &str = "It does not run. Bolts and springs replaced, rods and housings measured, crank crack-tested.";
const OPENED: &str = "It does not run. Rod bolts replaced, whatever they measure; the joints' faces looked at for \
                      fretting, big-end housings measured, shells looked at.";

/// Happenings other than over-revs, what to do, and how far they count.
const OTHERS: &[(&str, Rung, &str)] = &[
    (
        "backfire",
        Rung::Looked,
        "Intake, gaskets and plates looked at, crowns through the plug holes, leak-down, plugs.",
    ),
    (
        "detonation",
        Rung::Looked,
        "Plugs under a glass, crowns through the plug holes, leak-down, filter cut. A ring land can be cracked and still hold.",
    ),
    ("driveline-broken", Rung::Halved, INTO),
    (
        "hard-landing",
        Rung::Looked,
        "Pan and pickup, mounts, end play, filter cut; oil pressure watched at the next start.",
    ),
    (
        "hydraulic-lock",
        Rung::Out,
        "It does not run. Plugs out, turned by hand; rods measured for bend and length, bearings looked at.",
    ),
    (
        "lean-pass",
        Rung::Looked,
        "Plugs under a glass, crowns through the plug holes, leak-down; the fuel side before it runs again.",
    ),
    ("missed-gear", Rung::Halved, INTO),
    (
        "oil-pressure-lost",
        Rung::Out,
        "It does not run. Filter cut, rod and main bearings looked at; why it was lost, before new ones go in.",
    ),
    ("on-the-limiter", Rung::Logged, LOG),
    (
        "overheated",
        Rung::Looked,
        "Leak-down, water side pressed, head gasket and its fasteners, plugs; rings and springs lose load by heat.",
    ),
    ("rod-through-block", Rung::Out, "It does not run and is not turned over."),
    ("seized", Rung::Out, "It does not run: no bar on the nut to free it, no starter."),
    (
        "under-water",
        Rung::Out,
        "It does not run. Oil, filter and plugs out, turned by hand, bores and valves dried and oiled, bearings looked at.",
    ),
    ("valve-dropped", Rung::Out, "It does not run and is not turned over."),
];

/// What happened to a part, for what its failure reaches: the happening, the part as the services name it, and how.
const FAILURES: &[(&str, &str, &str)] = &[
    ("rod-through-block", "rods", "broke, through the block"),
    ("seized", "rod bearings", "seized"),
    ("seized", "main bearings", "seized"),
    ("valve-dropped", "exhaust valves", "dropped"),
    ("valve-dropped", "retainers and locks", "dropped"),
];

/// The parts that a happening is a failure of, with how they failed.
pub fn failures(happening: &str) -> impl Iterator<Item = (&'static str, &'static str)> {
    FAILURES.iter().filter(move |f| f.0 == happening).map(|f| (f.1, f.2))
}

/// The happening that a part broke: what it asks for is said by the part's service, see [`crate::failure`].
pub const BROKE: &str = "broke";

/// Every happening that is known, in the order of the alphabet.
#[must_use]
pub fn known() -> Vec<&'static str> {
    let mut all: Vec<&str> = OTHERS.iter().map(|o| o.0).chain(["over-rev", BROKE]).collect();
    all.sort_unstable();
    all
}

/// The readings that are events where they are past their limit: a good one after them does not take them back.
pub const READ: [&str; 3] = ["lambda", "peak-speed", "water-temperature"];

/// Everything that happened, in the order of the log: what was written down as that, and what a pass or a reading tells of
/// by itself, the worst of each day.
#[must_use]
pub fn events(entries: &[Entry], limits: RunLimits) -> Vec<Happening> {
    let settled: BTreeMap<&str, (usize, &str)> = entries
        .iter()
        .enumerate()
        .filter_map(|(index, e)| match &e.what {
            What::Settled { entry, found } => Some((entry.as_str(), (index, found.as_str()))),
            _ => None,
        })
        .collect();
    let mut out: Vec<Happening> = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        if let What::Happened { happening, speed, time, place, .. } = &entry.what {
            if happening != BROKE {
                let speed = speed.as_ref().and_then(|s| s.si("angular-speed").ok()).filter(|s| s.is_finite());
                let time = time.as_ref().and_then(|t| t.si("time").ok()).filter(|t| t.is_finite());
                out.push(happening_of(entry, index, happening, (speed, time), place.clone(), limits));
            }
        } else {
            out.extend(told_by_itself(entry, index, limits));
        }
    }
    let worst = |e: &Happening| {
        let more = |other: &Happening| match (e.read, other.read) {
            (Some((of, value, _)), Some((other_of, other, _))) => of == other_of && other > value,
            (Some(("peak-speed", value, _)), None) => other.speed.is_some_and(|s| s >= value * (1.0 - 1e-9)),
            _ => false,
        };
        let first = |other: &Happening| {
            let same = |a: Option<(&str, f64, f64)>| a.map(|(of, value, _)| (of.to_owned(), value.to_bits()));
            other.index < e.index && e.read.is_some() && same(other.read) == same(e.read)
        };
        !out.iter().any(|other| other.day == e.day && (more(other) || first(other)))
    };
    let keep: Vec<bool> = out.iter().map(worst).collect();
    let mut keep = keep.into_iter();
    out.retain(|_| keep.next().unwrap_or(true));
    // an engine that was looked into after a harder one was looked into for the softer ones before it, too
    let looked: Vec<(usize, Rung, String, String)> = out
        .iter()
        .filter_map(|e| {
            let (at, found) = settled.get(e.entry.as_str())?;
            Some((*at, e.rung, e.happening.clone(), (*found).to_owned()))
        })
        .collect();
    for event in &mut out {
        let own = settled.get(event.entry.as_str()).map(|(_, found)| (*found).to_owned());
        let covers = |(at, rung, happening, _): &&(usize, Rung, String, String)| {
            event.read.is_some() && *happening == event.happening && *at > event.index && *rung >= event.rung
        };
        event.found = own.or_else(|| looked.iter().find(covers).map(|l| l.3.clone()));
    }
    out
}

fn happening_of(
    entry: &Entry,
    index: usize,
    happening: &str,
    (speed, time): (Option<f64>, Option<f64>),
    place: Option<String>,
    limits: RunLimits,
) -> Happening {
    let over = speed.zip(limits.limit).map(|(s, limit)| s / limit - 1.0);
    let opened = speed.zip(limits.clamp).filter(|(speed, clamp)| speed > clamp).map(|(_, clamp)| clamp);
    let (rung, to_do) = rung_of(happening, speed, over, time, limits);
    Happening {
        entry: entry.id.clone(),
        index,
        day: entry.day,
        happening: happening.to_owned(),
        rung,
        speed,
        over,
        opened,
        time,
        place,
        read: None,
        to_do,
        found: None,
    }
}

/// What an entry tells of that nobody wrote down as a happening: a peak on the ladder, a lean pass, hot water.
fn told_by_itself(entry: &Entry, index: usize, limits: RunLimits) -> Option<Happening> {
    let happened = |happening: &str, speed: Option<f64>, read: (&'static str, f64, f64)| {
        let event = happening_of(entry, index, happening, (speed, None), None, limits);
        (event.rung > Rung::Logged).then_some(Happening { read: Some(read), ..event })
    };
    let si = |amount: &crate::entry::Amount, kind: &str| amount.si(kind).ok().filter(|v| v.is_finite());
    let peak = |speed: f64| {
        // with nothing to hold it against, a peak is a number
        ladder(Some(speed), limits.limit.map(|limit| speed / limit - 1.0), limits)?;
        happened("over-rev", Some(speed), ("peak-speed", speed, limits.limit.unwrap_or(f64::NAN)))
    };
    match &entry.what {
        What::Ran { peak_speed: Some(peak_speed), .. } => peak(si(peak_speed, "angular-speed")?),
        What::Read { reading, value, .. } => match reading.as_str() {
            "peak-speed" => peak(si(value, "angular-speed")?),
            "lambda" => {
                let lambda = si(value, "ratio")?;
                // with no fuel to go by: no engine makes its power leaner than what just burns
                let limit = limits.lambda.map_or(1.0, |aimed| aimed * (1.0 + LEAN_BY));
                (lambda > limit * (1.0 + 1e-9)).then(|| happened("lean-pass", None, ("lambda", lambda, limit)))?
            }
            "water-temperature" => {
                let water = si(value, "temperature")?;
                let over = water > OVERHEATED_WATER + 1e-6;
                over.then(|| happened("overheated", None, ("water-temperature", water, OVERHEATED_WATER)))?
            }
            _ => None,
        },
        _ => None,
    }
}

fn rung_of(
    happening: &str,
    speed: Option<f64>,
    over: Option<f64>,
    time: Option<f64>,
    limits: RunLimits,
) -> (Rung, &'static str) {
    let ladder = ladder(speed, over, limits);
    let other = OTHERS.iter().find(|o| o.0 == happening).map(|o| (o.1, o.2));
    match (happening, other) {
        // a speed that nobody read off the tach could have been any
        ("over-rev", _) => ladder.unwrap_or((Rung::Halved, INTO)),
        ("on-the-limiter", _) if time.is_some_and(|t| t > BOUNCE) => (Rung::Halved, INTO),
        (_, Some(other)) => ladder.filter(|l| l.0 > other.0).unwrap_or(other),
        _ => ladder.unwrap_or((Rung::Looked, LOOK)),
    }
}

/// The rung that a speed stands on; none without a speed and something to hold it against.
fn ladder(speed: Option<f64>, over: Option<f64>, limits: RunLimits) -> Option<(Rung, &'static str)> {
    let speed = speed?;
    let past = |limit: Option<f64>| limit.is_some_and(|l| speed > l);
    let by_share = over.map(|over| {
        let [log, look, into] = OVER_REV_RUNGS.map(|r| over > r * (1.0 + 1e-9));
        if into {
            (Rung::Out, OUT)
        } else if look {
            (Rung::Halved, INTO)
        } else if log {
            (Rung::Looked, LOOK)
        } else {
            (Rung::Logged, LOG)
        }
    });
    let by_clamp = past(limits.clamp).then_some((Rung::Out, OPENED));
    let by_float = past(limits.float).then_some((Rung::Halved, INTO));
    // the last of the highest: over 8 % asks for all that an opened joint does
    by_float.into_iter().chain(by_clamp).chain(by_share).max_by_key(|r| r.0)
}

impl Happening {
    /// Whether it asks for something that nobody wrote down as done.
    #[must_use]
    pub fn open(&self) -> bool {
        self.rung > Rung::Logged && self.found.is_none()
    }
    /// Whether a part that this is said of counts to half of its life from here on, found or not.
    #[must_use]
    pub fn halves(&self, part: &[OverRev]) -> bool {
        self.rung == Rung::Halved && part.contains(&OverRev::Halves)
    }
    /// Why a part that this is said of does not run again.
    #[must_use]
    pub fn ends(&self, part: &[OverRev]) -> Option<&'static str> {
        if self.opened.is_some() && part.contains(&OverRev::OpenedJointEnds) {
            Some("past the speed at which the rods' joints open")
        } else if self.to_do == OUT && part.contains(&OverRev::Ends) {
            Some("more than 8 % over")
        } else {
            None
        }
    }
    /// Whose the limit is.
    #[must_use]
    pub fn whose(&self) -> &'static str {
        if self.to_do == OPENED {
            "clamp against the pull less the bolts' share, by the clamp as stated"
        } else {
            "common practice, no source"
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::entry::Amount;
    use jiff::civil::date;

    const RPM: f64 = std::f64::consts::PI / 30.0;
    const BOLTS: &[OverRev] = &[OverRev::Halves, OverRev::Ends, OverRev::OpenedJointEnds];
    const SPRINGS: &[OverRev] = &[OverRev::Ends];

    fn happened(happening: &str, speed: Option<&str>, time: Option<&str>) -> Entry {
        Entry {
            zone: None,
            id: format!("x-{happening}"),
            engine: "0417".into(),
            day: date(2026, 5, 2),
            event: None,
            by: None,
            note: None,
            what: What::Happened {
                happening: happening.into(),
                speed: speed.map(|s| Amount(s.into())),
                time: time.map(|s| Amount(s.into())),
                place: None,
                part: None,
            },
        }
    }

    fn rung(happening: &str, speed: Option<&str>, time: Option<&str>) -> Rung {
        let speeds = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
        events(&[happened(happening, speed, time)], speeds)[0].rung
    }

    /// 7,600 rpm: 3, 5 and 8 % over are 7,828, 7,980 and 8,208; a limit belongs to the rung below it.
    #[test]
    fn the_ladder_stands_on_the_limiter() {
        for (speed, want) in [
            ("7500 rpm", Rung::Logged),
            ("7750 rpm", Rung::Logged),
            ("7828 rpm", Rung::Logged),
            ("7829 rpm", Rung::Looked),
            ("7980 rpm", Rung::Looked),
            ("7981 rpm", Rung::Halved),
            ("8208 rpm", Rung::Halved),
            ("8209 rpm", Rung::Out),
        ] {
            assert_eq!(rung("over-rev", Some(speed), None), want, "{speed}");
        }
        assert_eq!(rung("over-rev", None, None), Rung::Halved);
    }

    #[test]
    fn a_missed_gear_counts_as_five_to_eight_whatever_the_speed_and_more_where_it_was_more() {
        assert_eq!(rung("missed-gear", Some("7000 rpm"), None), Rung::Halved);
        assert_eq!(rung("missed-gear", Some("8400 rpm"), None), Rung::Out);
        assert_eq!(rung("on-the-limiter", None, Some("1.5 s")), Rung::Logged);
        assert_eq!(rung("on-the-limiter", None, Some("2.5 s")), Rung::Halved);
        assert_eq!(rung("oil-pressure-lost", None, None), Rung::Out);
    }

    #[test]
    fn float_and_an_opened_joint_count_where_they_come_first() {
        let speeds = RunLimits {
            limit: Some(7_600.0 * RPM),
            float: Some(7_650.0 * RPM),
            clamp: Some(7_900.0 * RPM),
            ..RunLimits::default()
        };
        let at = |s: &str| events(&[happened("over-rev", Some(s), None)], speeds)[0].rung;
        assert_eq!(at("7700 rpm"), Rung::Halved);
        assert_eq!(at("7950 rpm"), Rung::Out);
    }

    #[test]
    fn it_stays_open_until_somebody_writes_what_was_found() {
        let mut log = vec![happened("over-rev", Some("8100 rpm"), None)];
        let speeds = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
        assert!(events(&log, speeds)[0].open() && events(&log, speeds)[0].halves(BOLTS));
        let what = What::Settled { entry: "x-over-rev".into(), found: "no marks".into() };
        log.push(Entry { id: "y".into(), what, ..log[0].clone() });
        let settled = &events(&log, speeds)[0];
        assert!(!settled.open() && settled.halves(BOLTS) && settled.found.as_deref() == Some("no marks"));
        assert!(settled.ends(BOLTS).is_none());
    }

    #[test]
    fn bolts_and_springs_do_not_run_again_after_eight_and_a_lost_pressure_leaves_them() {
        let speeds = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
        let over = &events(&[happened("over-rev", Some("8400 rpm"), None)], speeds)[0];
        assert!(over.ends(BOLTS).is_some() && over.ends(SPRINGS).is_some() && over.ends(&[]).is_none());
        let lost = &events(&[happened("oil-pressure-lost", None, None)], speeds)[0];
        assert!(lost.ends(BOLTS).is_none() && lost.open());
    }

    /// 7,900 rpm is 4 % over: the springs run on, the bolts do not, and 8,400 asks for both.
    #[test]
    fn an_opened_joint_ends_the_rod_bolts_alone() {
        let speeds = RunLimits { limit: Some(7_600.0 * RPM), clamp: Some(7_850.0 * RPM), ..RunLimits::default() };
        let at = |s: &str| events(&[happened("over-rev", Some(s), None)], speeds)[0].clone();
        let opened = at("7900 rpm");
        assert_eq!((opened.rung, opened.opened), (Rung::Out, Some(7_850.0 * RPM)));
        assert!(opened.ends(BOLTS).unwrap().contains("joints open") && opened.ends(SPRINGS).is_none());
        assert!(opened.to_do.contains("Rod bolts replaced") && opened.whose().contains("clamp"));
        let over = at("8400 rpm");
        assert!(over.ends(BOLTS).is_some() && over.ends(SPRINGS).is_some());
        assert!(over.to_do.contains("crack-tested"));
        let under = at("7850 rpm");
        assert_eq!((under.rung, under.opened, under.ends(BOLTS)), (Rung::Looked, None, None));
        assert_eq!(at("7000 rpm").opened, None);
        // what happened under another name opens it too
        let missed = &events(&[happened("missed-gear", Some("7900 rpm"), None)], speeds)[0];
        assert!(missed.rung == Rung::Out && missed.ends(BOLTS).is_some());
    }

    fn logged(day: i8, id: &str, json: &str) -> Entry {
        let text = format!(r#"{{"id":"{id}","engine":"0417","day":"2026-05-0{day}",{json}}}"#);
        serde_json::from_str(&text).unwrap()
    }

    /// 7,600 rpm: 8,300 are 9.2 % over, 7,900 are 3.9 %, 7,700 are 1.3 %.
    #[test]
    fn the_ladder_runs_on_the_peak_of_a_pass_and_on_a_peak_that_was_read() {
        let limits = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
        let pass = |id: &str, rpm: &str| logged(2, id, &format!(r#""what":"ran","passes":1,"peak-speed":"{rpm}""#));
        let over = &events(&[pass("a", "8300 rpm")], limits)[0];
        assert_eq!((over.happening.as_str(), over.rung, over.entry.as_str()), ("over-rev", Rung::Out, "a"));
        assert!(over.open() && over.ends(SPRINGS).is_some() && (over.over.unwrap() - 0.0921).abs() < 1e-4);
        assert!(events(&[pass("a", "7700 rpm")], limits).is_empty());
        // without a limiter, a shift or a redline there is nothing to be over
        assert!(events(&[pass("a", "8300 rpm")], RunLimits::default()).is_empty());
        let read = logged(2, "b", r#""what":"read","reading":"peak-speed","value":"7900 rpm""#);
        assert_eq!(events(std::slice::from_ref(&read), limits)[0].rung, Rung::Looked);
        // one a day, the worst of them; and none where somebody wrote the over-rev down
        let day = [pass("a", "7900 rpm"), pass("b", "8300 rpm"), pass("c", "8300 rpm"), read];
        let all = events(&day, limits);
        assert_eq!(all.iter().map(|e| e.entry.as_str()).collect::<Vec<_>>(), ["b"]);
        let wrote = [pass("a", "8300 rpm"), happened("over-rev", Some("8300 rpm"), None)];
        assert_eq!(events(&wrote, limits).iter().map(|e| e.read).collect::<Vec<_>>(), [None]);
    }

    #[test]
    fn a_look_after_the_worst_peak_was_a_look_after_the_others() {
        let limits = RunLimits { limit: Some(7_600.0 * RPM), ..RunLimits::default() };
        let pass =
            |day: i8, id: &str, rpm: &str| logged(day, id, &format!(r#""what":"ran","passes":1,"peak-speed":"{rpm}""#));
        let settled =
            |day: i8, of: &str| logged(day, "s", &format!(r#""what":"settled","entry":"{of}","found":"sound""#));
        let log = [pass(1, "a", "7900 rpm"), pass(2, "b", "8100 rpm"), settled(3, "b"), pass(4, "c", "7900 rpm")];
        let open: Vec<bool> = events(&log, limits).iter().map(Happening::open).collect();
        assert_eq!(open, [false, false, true]);
        // the softer one looked at says nothing of the harder
        let log = [pass(1, "a", "7900 rpm"), pass(2, "b", "8100 rpm"), settled(3, "a")];
        let open: Vec<bool> = events(&log, limits).iter().map(Happening::open).collect();
        assert_eq!(open, [false, true]);
    }

    /// 0.85 and a twentieth are 0.8925; without a mixture on the sheet one is the limit. 240 °F is the ladder's.
    #[test]
    fn a_lean_pass_and_hot_water_are_events_by_what_was_read() {
        let read = |reading: &str, value: &str| {
            logged(2, "a", &format!(r#""what":"read","reading":"{reading}","value":"{value}""#))
        };
        let with = RunLimits { lambda: Some(0.85), ..RunLimits::default() };
        let lean = |value: &str, limits| events(&[read("lambda", value)], limits).first().map(|e| e.happening.clone());
        assert_eq!(lean("0.90", with).as_deref(), Some("lean-pass"));
        assert_eq!((lean("0.89", with), lean("0.99", RunLimits::default())), (None, None));
        assert_eq!(lean("1.02", RunLimits::default()).as_deref(), Some("lean-pass"));
        let hot = &events(&[read("water-temperature", "250 °F")], with)[0];
        assert!(hot.happening == "overheated" && hot.open() && hot.to_do.contains("head gasket"));
        assert!(events(&[read("water-temperature", "240 °F")], with).is_empty());
    }

    #[test]
    fn every_happening_has_something_to_do() {
        assert_eq!(known().len(), 16);
        for (word, _, to_do) in OTHERS {
            assert!(to_do.ends_with('.'), "{word}");
        }
    }
}
