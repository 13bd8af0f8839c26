//! Parts that broke, failed or were thrown away, and places where nothing is in: what stands until it is put right.

use crate::entry::{Entry, What, settled};
use crate::events::BROKE;
use crate::part::Fitting;
use crate::services::LogServices;
use jiff::civil::Date;

/// A part that is gone or broken, and that nobody has put right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LostPart {
    /// What it is, as the services name it.
    pub part: String,
    /// Its number; none where it never had one.
    pub serial: Option<String>,
    /// Where, if it is one of several.
    pub place: Option<String>,
    /// The day.
    pub day: Date,
    /// The entry's place in the log.
    pub index: usize,
    /// Its id.
    pub entry: String,
    /// Whether it failed; else it only came out.
    pub failed: bool,
    /// What was decided over it; none where it broke in the engine and nobody has taken it out.
    pub disposition: Option<String>,
    /// How it failed or why it came out, in the words of the log.
    pub because: Option<String>,
    /// Whether the log has nothing of the part in that place now.
    pub none_in: bool,
}

impl LostPart {
    /// Whether the engine does not run before this is put right: it failed, or it was thrown away.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.failed || self.disposition.as_deref() == Some("scrap")
    }
    /// "valve springs set 11: failed on 2026-11-01 (inner broke, 5E), none in since".
    #[must_use]
    pub fn what_became(&self) -> String {
        let became = match (self.failed, self.disposition.as_deref()) {
            (true, None) => "broke on",
            (true, Some(_)) => "failed and came out on",
            (false, Some("scrap")) => "scrapped on",
            (false, _) => "came out on",
        };
        let because = self.because.as_ref().map(|b| format!(" ({b})")).unwrap_or_default();
        let none = if self.none_in { ", none in since" } else { "" };
        format!("{}: {became} {}{because}{none}", self.name(), self.day)
    }
    /// "valve springs set 11", "rods R-21 at 5".
    #[must_use]
    pub fn name(&self) -> String {
        let serial = self.serial.as_ref().map(|s| format!(" {s}")).unwrap_or_default();
        let place = self.place.as_ref().map(|p| format!(" at {p}")).unwrap_or_default();
        format!("{}{serial}{place}", self.part)
    }
}

/// Parts that broke or came out and that neither a part put in nor an entry `settled` has put right, in the order of the
/// log.
#[must_use]
pub fn lost(entries: &[Entry], fittings: &[Fitting], services: &LogServices<'_>) -> Vec<LostPart> {
    let settled = settled(entries);
    let mut out = Vec::new();
    for (index, entry) in entries.iter().enumerate().filter(|(_, e)| !settled.contains(e.id.as_str())) {
        let Some(lost) = of(entry, index, fittings) else { continue };
        if (lost.stops() || lost.none_in) && !put_right(&lost, entries, fittings, services) {
            out.push(lost);
        }
    }
    out
}

fn of(entry: &Entry, index: usize, fittings: &[Fitting]) -> Option<LostPart> {
    let with_note = |because: &Option<String>| match (because, &entry.note) {
        (Some(because), Some(note)) => Some(format!("{because}; {note}")),
        (because, note) => because.clone().or_else(|| note.clone()),
    };
    match &entry.what {
        What::Removed { failed, disposition, because, .. } => {
            let fitting = fittings.iter().find(|f| f.out.as_ref().is_some_and(|o| o.index == index))?;
            let same_place = |f: &&Fitting| f.part == fitting.part && covers(f, fitting.place.as_deref());
            Some(LostPart {
                part: fitting.part.clone(),
                serial: Some(fitting.serial.clone()),
                place: fitting.place.clone(),
                day: entry.day,
                index,
                entry: entry.id.clone(),
                failed: *failed,
                disposition: Some(disposition.clone()),
                because: with_note(because),
                none_in: !fittings.iter().filter(same_place).any(|f| f.out.is_none()),
            })
        }
        What::Happened { happening, part: Some(part), place, .. } if happening == BROKE => {
            // where it was taken out later, that entry speaks
            let came_out = |f: &Fitting| {
                let after = f.out.as_ref().is_some_and(|o| o.index > index && o.failed);
                f.part == *part && f.index < index && covers(f, place.as_deref()) && after
            };
            if fittings.iter().any(came_out) {
                return None;
            }
            let was_in =
                |f: &&Fitting| f.part == *part && f.index < index && f.out.as_ref().is_none_or(|o| o.index > index);
            let serial = fittings.iter().filter(was_in).find(|f| covers(f, place.as_deref())).map(|f| f.serial.clone());
            Some(LostPart {
                part: part.clone(),
                serial,
                place: place.clone(),
                day: entry.day,
                index,
                entry: entry.id.clone(),
                failed: true,
                disposition: None,
                because: with_note(&None),
                none_in: false,
            })
        }
        _ => None,
    }
}

/// Whether a fitting is of this place: the same, or the whole set.
fn covers(fitting: &Fitting, place: Option<&str>) -> bool {
    fitting.place.is_none() || fitting.place.as_deref() == place
}

/// Whether the part was put in after it: another number at its place or a whole set, its service that renews it, or a
/// freshen. On the day itself the next one may have been logged before the last one was.
fn put_right(lost: &LostPart, entries: &[Entry], fittings: &[Fitting], services: &LogServices<'_>) -> bool {
    let next = |f: &Fitting| {
        let later = f.index > lost.index || f.day == lost.day && f.out.as_ref().is_none_or(|o| o.index > lost.index);
        let thrown_away = lost.disposition.as_deref() == Some("scrap");
        let another = Some(&f.serial) != lost.serial.as_ref() || f.index > lost.index && !thrown_away;
        f.part == lost.part && covers(f, lost.place.as_deref()) && later && another
    };
    let renewed = |(n, e): (usize, &Entry)| match &e.what {
        What::Did { service, .. } => {
            (n > lost.index || e.day == lost.day) && services.renewed_by(service) == Some(lost.part.as_str())
        }
        What::Freshened => n > lost.index,
        _ => false,
    };
    fittings.iter().any(next) || entries.iter().enumerate().any(renewed)
}

#[cfg(test)]
#[path = "failure_tests.rs"]
mod tests;
