//! Parts by their own number: a life belongs to the part and goes where it goes.

use crate::entry::{Entry, What};
use crate::log::{Log, Meters, meter_si};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// What came of a part when it was taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenOut {
    /// The place of the entry in the log.
    pub index: usize,
    /// The day.
    pub day: Date,
    /// Whether it had let go or was at its end.
    pub failed: bool,
    /// run, recondition, watch or scrap.
    pub disposition: String,
    /// Why, in words.
    pub because: Option<String>,
}

/// One stretch of a part in this engine.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitting {
    /// What it is, as the services name it.
    pub part: String,
    /// Its number.
    pub serial: String,
    /// Where, if it is one of several.
    pub place: Option<String>,
    /// The place of the entry in the log.
    pub index: usize,
    /// The day.
    pub day: Date,
    /// What it had run before the shop's book knew it.
    pub brought: Meters,
    /// The day on its own stamp.
    pub made: Option<Date>,
    /// How often its fasteners were tightened in this stretch, putting them in included.
    pub tightened: u32,
    /// How it came out, if it did.
    pub out: Option<TakenOut>,
}

/// Every stretch of every part, in the order of the log.
#[must_use]
pub fn fittings(entries: &[Entry]) -> Vec<Fitting> {
    let mut all: Vec<Fitting> = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let still = |all: &[Fitting], serial: &str| all.iter().rposition(|f| f.serial == serial && f.out.is_none());
        match &entry.what {
            What::Fitted { part, serial, place, brought, made, .. } => all.push(Fitting {
                part: part.clone(),
                serial: serial.clone(),
                place: place.clone(),
                index,
                day: entry.day,
                brought: brought.iter().map(|(meter, amount)| (meter.clone(), meter_si(meter, amount))).collect(),
                made: *made,
                tightened: 1,
                out: None,
            }),
            What::Removed { serial, failed, disposition, because } => {
                if let Some(fitting) = still(&all, serial).and_then(|n| all.get_mut(n)) {
                    fitting.out = Some(TakenOut {
                        index,
                        day: entry.day,
                        failed: *failed,
                        disposition: disposition.clone(),
                        because: because.clone(),
                    });
                }
            }
            What::Tightened { serial } => {
                if let Some(fitting) = still(&all, serial).and_then(|n| all.get_mut(n)) {
                    fitting.tightened += 1;
                }
            }
            _ => {}
        }
    }
    all
}

/// A part that was thrown away and is in an engine again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScrappedPartBack {
    /// What it is.
    pub part: String,
    /// Its number.
    pub serial: String,
    /// The day that it was thrown away.
    pub scrapped: Date,
    /// The day that it was put in again.
    pub fitted: Date,
    /// The entry that put it in.
    pub entry: String,
}

/// Parts in this engine that were scrapped before, here or in another engine: `scrapped` has the days by number.
#[must_use]
pub fn again(entries: &[Entry], all: &[Fitting], scrapped: &BTreeMap<String, Date>) -> Vec<ScrappedPartBack> {
    let mut out = Vec::new();
    for fitting in all.iter().filter(|f| f.out.is_none()) {
        let here = all
            .iter()
            .filter(|f| f.serial == fitting.serial)
            .filter_map(|f| f.out.as_ref())
            .filter(|o| o.disposition == "scrap" && o.index < fitting.index)
            .map(|o| o.day)
            .max();
        let elsewhere = scrapped.get(&fitting.serial).copied().filter(|day| *day <= fitting.day);
        let Some(day) = here.max(elsewhere) else { continue };
        out.push(ScrappedPartBack {
            part: fitting.part.clone(),
            serial: fitting.serial.clone(),
            scrapped: day,
            fitted: fitting.day,
            entry: entries.get(fitting.index).map(|e| e.id.clone()).unwrap_or_default(),
        });
    }
    out
}

/// The stretches of a part that is in now, by the place it is in: the last one put in, where two are logged for a place.
#[must_use]
pub fn in_now<'a>(all: &'a [Fitting], part: &str) -> Vec<&'a Fitting> {
    let mut by_place: BTreeMap<Option<&str>, &Fitting> = BTreeMap::new();
    for fitting in all.iter().filter(|f| f.part == part && f.out.is_none()) {
        by_place.insert(fitting.place.as_deref(), fitting);
    }
    by_place.into_values().collect()
}

/// Stretches of the log that a part was in this engine, this one last: from an entry, to one or to the end.
#[must_use]
pub fn stretches(all: &[Fitting], serial: &str, end: usize) -> Vec<[usize; 2]> {
    all.iter().filter(|f| f.serial == serial).map(|f| [f.index, f.out.as_ref().map_or(end, |o| o.index)]).collect()
}

/// What a part brought and what it ran in other engines, on one meter.
#[must_use]
pub fn before(all: &[Fitting], fitting: &Fitting, elsewhere: &BTreeMap<String, Meters>, meter: &str) -> [f64; 2] {
    let of = |meters: Option<&Meters>| meters.and_then(|m| m.get(meter)).copied().unwrap_or(0.0);
    // written at each fitting or only at the first: what it brought is the most that anyone wrote
    let brought = all.iter().filter(|f| f.serial == fitting.serial).map(|f| of(Some(&f.brought))).fold(0.0, f64::max);
    [brought, of(elsewhere.get(&fitting.serial))]
}

/// What the engine had on the meters when an entry was written, from the first entry on.
#[must_use]
pub fn meter_at(log: &Log<'_>, meter: &str, index: usize) -> f64 {
    log.run(meter, 0, index)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::log::tests::line;
    use jiff::civil::date;

    fn entries() -> Vec<Entry> {
        vec![
            line(
                date(2025, 4, 1),
                r#""what":"fitted","part":"valve springs","serial":"set 11","brought":{"passes":"20"}"#,
            ),
            line(date(2025, 5, 1), r#""what":"ran","passes":62"#),
            line(date(2025, 6, 1), r#""what":"removed","serial":"set 11","disposition":"watch""#),
            line(date(2025, 6, 1), r#""what":"fitted","part":"valve springs","serial":"set 14""#),
            line(date(2025, 6, 9), r#""what":"ran","passes":30"#),
            line(date(2025, 7, 1), r#""what":"removed","serial":"set 14","disposition":"scrap","failed":true"#),
            line(date(2025, 7, 1), r#""what":"fitted","part":"valve springs","serial":"set 11""#),
            line(date(2025, 7, 9), r#""what":"ran","passes":10"#),
        ]
    }

    #[test]
    fn a_set_that_comes_back_has_run_in_both_its_stretches() {
        let entries = entries();
        let all = fittings(&entries);
        let log = Log::new(&entries, &Meters::new());
        let now = in_now(&all, "valve springs");
        assert_eq!(now.len(), 1);
        assert_eq!(now[0].serial, "set 11");
        let run: f64 = stretches(&all, "set 11", 8).iter().map(|[a, b]| log.run("passes", *a, *b)).sum();
        assert_eq!(run, 72.0);
        let elsewhere = BTreeMap::from([("set 11".to_owned(), Meters::from([("passes".to_owned(), 41.0)]))]);
        assert_eq!(before(&all, now[0], &elsewhere, "passes"), [20.0, 41.0]);
        assert!(all[1].out.as_ref().unwrap().failed);
    }

    #[test]
    fn a_set_that_was_thrown_away_and_is_in_again_is_told() {
        let mut entries = entries();
        assert!(again(&entries, &fittings(&entries), &BTreeMap::new()).is_empty());
        let elsewhere = BTreeMap::from([("set 11".to_owned(), date(2025, 6, 20))]);
        assert_eq!(again(&entries, &fittings(&entries), &elsewhere)[0].scrapped, date(2025, 6, 20));
        entries.push(line(date(2025, 8, 1), r#""what":"removed","serial":"set 11","disposition":"run""#));
        entries.push(line(date(2025, 8, 1), r#""what":"fitted","part":"valve springs","serial":"set 14""#));
        let told = again(&entries, &fittings(&entries), &BTreeMap::new());
        assert_eq!((told[0].serial.as_str(), told[0].scrapped), ("set 14", date(2025, 7, 1)));
    }

    #[test]
    fn fasteners_count_how_often_they_were_tightened() {
        let entries = [
            line(date(2025, 4, 1), r#""what":"fitted","part":"rod bolts","serial":"bolts 3""#),
            line(date(2025, 5, 1), r#""what":"tightened","serial":"bolts 3""#),
            line(date(2025, 6, 1), r#""what":"tightened","serial":"bolts 3""#),
            line(date(2025, 6, 2), r#""what":"tightened","serial":"bolts 4""#),
        ];
        assert_eq!(fittings(&entries)[0].tightened, 3);
    }
}
