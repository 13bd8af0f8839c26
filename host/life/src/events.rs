//! What happened that no count covers: what to do about it before the next pass, and what it does to lives.
//!
//! A single load that opens a rod's joint, or a valve that leaves the cam and touches, is no share of a life: the ladder
//! is by how far over the engine went. Common practice, no source.

use crate::entry::{Entry, What};
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::logged::{OVER_REV_RUNGS, OverRev};

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
    /// What to do before the next pass.
    pub to_do: &'static str,
    /// What was found, once it was settled.
    pub found: Option<String>,
}

/// The speeds that the ladder stands on, rad/s.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Speeds {
    /// The limiter, else the shift, else the redline: what the engine was planned to.
    pub limit: Option<f64>,
    /// Where the valves float, by calculation.
    pub float: Option<f64>,
    /// Where the rod bolts let the joint open, by calculation.
    pub clamp: Option<f64>,
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
    (
        "under-water",
        Rung::Out,
        "It does not run. Oil, filter and plugs out, turned by hand, bores and valves dried and oiled, bearings looked at.",
    ),
];

/// Every happening that is known, in the order of the alphabet.
#[must_use]
pub fn known() -> Vec<&'static str> {
    let mut all: Vec<&str> = OTHERS.iter().map(|o| o.0).chain(["over-rev"]).collect();
    all.sort_unstable();
    all
}

/// Everything that happened, in the order of the log.
#[must_use]
pub fn events(entries: &[Entry], speeds: Speeds) -> Vec<Happening> {
    let settled: BTreeMap<&str, &str> = entries
        .iter()
        .filter_map(|e| match &e.what {
            What::Settled { entry, found } => Some((entry.as_str(), found.as_str())),
            _ => None,
        })
        .collect();
    let mut out = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let What::Happened { happening, speed, time, place } = &entry.what else { continue };
        let speed = speed.as_ref().and_then(|s| s.si("angular-speed").ok()).filter(|s| s.is_finite());
        let time = time.as_ref().and_then(|t| t.si("time").ok()).filter(|t| t.is_finite());
        let over = speed.zip(speeds.limit).map(|(s, limit)| s / limit - 1.0);
        let opened = speed.zip(speeds.clamp).filter(|(speed, clamp)| speed > clamp).map(|(_, clamp)| clamp);
        let (rung, to_do) = rung_of(happening, speed, over, time, speeds);
        out.push(Happening {
            entry: entry.id.clone(),
            index,
            day: entry.day,
            happening: happening.clone(),
            rung,
            speed,
            over,
            opened,
            time,
            place: place.clone(),
            to_do,
            found: settled.get(entry.id.as_str()).map(|f| (*f).to_owned()),
        });
    }
    out
}

fn rung_of(
    happening: &str,
    speed: Option<f64>,
    over: Option<f64>,
    time: Option<f64>,
    speeds: Speeds,
) -> (Rung, &'static str) {
    let ladder = ladder(speed, over, speeds);
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
fn ladder(speed: Option<f64>, over: Option<f64>, speeds: Speeds) -> Option<(Rung, &'static str)> {
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
    let by_clamp = past(speeds.clamp).then_some((Rung::Out, OPENED));
    let by_float = past(speeds.float).then_some((Rung::Halved, INTO));
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
            },
        }
    }

    fn rung(happening: &str, speed: Option<&str>, time: Option<&str>) -> Rung {
        let speeds = Speeds { limit: Some(7_600.0 * RPM), float: None, clamp: None };
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
        let speeds = Speeds { limit: Some(7_600.0 * RPM), float: Some(7_650.0 * RPM), clamp: Some(7_900.0 * RPM) };
        let at = |s: &str| events(&[happened("over-rev", Some(s), None)], speeds)[0].rung;
        assert_eq!(at("7700 rpm"), Rung::Halved);
        assert_eq!(at("7950 rpm"), Rung::Out);
    }

    #[test]
    fn it_stays_open_until_somebody_writes_what_was_found() {
        let mut log = vec![happened("over-rev", Some("8100 rpm"), None)];
        let speeds = Speeds { limit: Some(7_600.0 * RPM), ..Speeds::default() };
        assert!(events(&log, speeds)[0].open() && events(&log, speeds)[0].halves(BOLTS));
        let what = What::Settled { entry: "x-over-rev".into(), found: "no marks".into() };
        log.push(Entry { id: "y".into(), what, ..log[0].clone() });
        let settled = &events(&log, speeds)[0];
        assert!(!settled.open() && settled.halves(BOLTS) && settled.found.as_deref() == Some("no marks"));
        assert!(settled.ends(BOLTS).is_none());
    }

    #[test]
    fn bolts_and_springs_do_not_run_again_after_eight_and_a_lost_pressure_leaves_them() {
        let speeds = Speeds { limit: Some(7_600.0 * RPM), ..Speeds::default() };
        let over = &events(&[happened("over-rev", Some("8400 rpm"), None)], speeds)[0];
        assert!(over.ends(BOLTS).is_some() && over.ends(SPRINGS).is_some() && over.ends(&[]).is_none());
        let lost = &events(&[happened("oil-pressure-lost", None, None)], speeds)[0];
        assert!(lost.ends(BOLTS).is_none() && lost.open());
    }

    /// 7,900 rpm is 4 % over: the springs run on, the bolts do not, and 8,400 asks for both.
    #[test]
    fn an_opened_joint_ends_the_rod_bolts_alone() {
        let speeds = Speeds { limit: Some(7_600.0 * RPM), float: None, clamp: Some(7_850.0 * RPM) };
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

    #[test]
    fn every_happening_has_something_to_do() {
        assert_eq!(known().len(), 12);
        for (word, _, to_do) in OTHERS {
            assert!(to_do.ends_with('.'), "{word}");
        }
    }
}
