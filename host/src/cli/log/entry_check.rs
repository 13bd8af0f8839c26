//! What is wrong with an entry: names, quantities and places that nobody knows, days that cannot be.

use super::known::Known;
use crate::sheet::{Axis, Sheet};
use jiff::civil::Date;
use thou_contract::Kind;
use thou_life::entry::{Amount, Entry, READINGS, What};
use thou_text::nearest;

/// What can be decided over a part that came out.
const DISPOSITIONS: &[&str] = &["run", "recondition", "watch", "scrap"];
/// What a reading is read in.
const STATES: &[&str] = &["hot", "cold", "on-the-head", "bench"];

/// What somebody said is right although it looks wrong.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sure {
    pub(super) day: bool,
    pub(super) part: bool,
}

/// What one entry is held against.
pub(super) struct EntryCheck<'a> {
    pub(super) known: &'a Known,
    pub(super) sheet: Option<&'a Sheet>,
    pub(super) built: Option<Date>,
    pub(super) today: Option<Date>,
    pub(super) sure: Sure,
}

impl EntryCheck<'_> {
    /// What is wrong with an entry, with the field it is about.
    pub(super) fn wrong(&self, entry: &Entry) -> Option<(&'static str, String)> {
        self.day(entry).map(|why| ("day", why)).or_else(|| self.what(&entry.what))
    }

    fn day(&self, entry: &Entry) -> Option<String> {
        if self.sure.day {
            return None;
        }
        let right = "if the day is right, say --day-is-right";
        // in a zone farther east it can be tomorrow already
        let latest = |today: Date| if entry.zone.is_some() { today.tomorrow().unwrap_or(today) } else { today };
        if let Some(today) = self.today.filter(|today| entry.day > latest(*today)) {
            return Some(format!("{} is after today, {today}; {right}", entry.day));
        }
        let built = self.built.filter(|built| entry.day < *built)?;
        Some(format!("{} is before {} was built, {built}; {right}", entry.day, entry.engine))
    }

    fn what(&self, what: &What) -> Option<(&'static str, String)> {
        match what {
            What::Ran { passes, pulls, miles, hours, peak_speed, elapsed, meter, .. } => {
                let nothing =
                    passes.is_none() && pulls.is_none() && miles.is_none() && hours.is_none() && meter.is_empty();
                if nothing {
                    return Some((
                        "what",
                        "it says that it ran, and not how far: passes, pulls, miles, hours or a meter".to_owned(),
                    ));
                }
                quantity("peak-speed", "angular-speed", peak_speed.as_ref())
                    .or_else(|| quantity("elapsed", "time", elapsed.as_ref()))
            }
            What::Happened { happening, speed, time, place } => {
                let all = thou_life::events::known();
                if !all.contains(&happening.as_str()) {
                    return Some(("happening", no(happening, "happening", all.into_iter())));
                }
                quantity("speed", "angular-speed", speed.as_ref())
                    .or_else(|| quantity("time", "time", time.as_ref()))
                    .or_else(|| place.as_ref().and_then(|p| self.place(p, "cylinder")))
            }
            What::Read { reading, place, value, state, .. } => {
                let Some(known) = READINGS.iter().find(|r| r.name == reading) else {
                    return Some(("reading", no(reading, "reading", READINGS.iter().map(|r| r.name))));
                };
                let wrong = quantity("value", known.kind, Some(value));
                let at = || match (known.axis, place) {
                    ("one", Some(place)) => {
                        Some(("place", format!("{reading} is read once an engine, not at \"{}\"", short(place))))
                    }
                    ("one", None) => None,
                    (axis, None) => Some((
                        "place",
                        format!("{reading} is read at each {axis}: write it like {reading} {}", example(reading)),
                    )),
                    (axis, Some(place)) => self.place(place, axis),
                };
                let state = || {
                    let (word, speed) =
                        state.as_deref()?.split_once(',').map_or((state.as_deref()?, None), |(w, s)| (w, Some(s)));
                    if !STATES.contains(&word.trim()) {
                        return Some(("state", no(word.trim(), "state", STATES.iter().copied())));
                    }
                    let why = Amount(speed?.trim().to_owned()).si("angular-speed").err()?;
                    Some((
                        "state",
                        format!("after the comma stands the speed it was read at, like \"hot, 7000 rpm\": {why}"),
                    ))
                };
                wrong.or_else(at).or_else(state)
            }
            What::Did { service, cost, hours } => {
                let negative = |field, n: &Option<f64>| {
                    n.filter(|n| *n < 0.0).map(|n| (field, format!("{field} is {n}: less than nothing")))
                };
                self.known
                    .service(service)
                    .err()
                    .map(|why| ("service", why))
                    .or_else(|| negative("cost", cost))
                    .or_else(|| negative("hours", hours))
            }
            What::Fitted { part, .. } if !self.sure.part && !self.known.parts.contains(part) => Some((
                "part",
                format!(
                    "{} If it is a part of its own, say --new-part",
                    no(part, "part", self.known.parts.iter().map(String::as_str))
                ),
            )),
            What::Removed { disposition, .. } if !DISPOSITIONS.contains(&disposition.as_str()) => {
                Some(("disposition", no(disposition, "disposition", DISPOSITIONS.iter().copied())))
            }
            What::TornDown { opens } if !self.known.opens.contains(opens) => {
                Some(("opens", no(opens, "way to open an engine", self.known.opens.iter().map(String::as_str))))
            }
            _ => None,
        }
    }

    /// Whether the engine has such a place; without a sheet nobody knows.
    fn place(&self, place: &str, axis: &str) -> Option<(&'static str, String)> {
        let labels = self.sheet?.places.labels(Axis::by_id(axis)?);
        if labels.iter().any(|label| label == place) {
            return None;
        }
        let hint = nearest(place, labels.iter().map(String::as_str).filter(|l| l.len() > 1));
        let hint = hint.map(|n| format!("did you mean {n}? ")).unwrap_or_default();
        Some(("place", format!("there is no {axis} \"{}\": {hint}it has {}", short(place), labels.join(", "))))
    }
}

fn short(text: &str) -> String {
    crate::packs::clean::clip(text, 40)
}

fn quantity(field: &'static str, kind: &str, amount: Option<&Amount>) -> Option<(&'static str, String)> {
    let text = &amount?.0;
    match Kind::by_id(kind)?.parse(text) {
        Ok(value) if value < 0.0 && kind != "clearance" => {
            Some((field, format!("{field} is {}: less than nothing", short(text))))
        }
        Ok(_) => None,
        Err(error) => Some((field, format!("{field}: {error}"))),
    }
}

fn no<'a>(written: &str, noun: &str, all: impl Iterator<Item = &'a str> + Clone) -> String {
    let hint = match nearest(written, all.clone()) {
        Some(near) => format!("did you mean {near}?"),
        None => format!("there is {}.", all.collect::<Vec<_>>().join(", ")),
    };
    format!("there is no {noun} \"{}\"; {hint}", short(written))
}

/// How a reading is written.
pub(super) fn example(name: &str) -> String {
    let reading = READINGS.iter().find(|r| r.name == name);
    let value = match reading.map_or("", |r| r.kind) {
        "percent" => "9 %",
        "pressure" => "60 psi",
        "gap" | "clearance" => "18 thou",
        "trace" => "12 ppm",
        "power" => "690 hp",
        "force" => "250 lbf",
        "volume-flow" => "4 cfm",
        _ => "1",
    };
    match reading.map_or("", |r| r.axis) {
        "one" => format!("\"{value}\""),
        "valve" => format!("5E=\"{value}\""),
        _ => format!("5=\"{value}\""),
    }
}
