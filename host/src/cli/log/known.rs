//! What a log can name: services and parts from the rule packs, readings, happenings, the engine's own places.

use crate::packs::Pack;
use crate::sheet::{Axis, Sheet};
use jiff::civil::Date;
use std::collections::BTreeSet;
use thou_contract::Kind;
use thou_life::entry::{Amount, Entry, READINGS, What};

/// Services, parts, and what comes apart for them.
#[derive(Debug, Default)]
pub(super) struct Known {
    services: BTreeSet<String>,
    parts: BTreeSet<String>,
    opens: BTreeSet<String>,
}

/// What can be decided over a part that came out.
const DISPOSITIONS: &[&str] = &["run", "recondition", "watch", "scrap"];
/// What a reading is read in.
const STATES: &[&str] = &["hot", "cold", "on-the-head", "bench"];

impl Known {
    pub(super) fn of(packs: &[Pack]) -> Self {
        let mut known = Self::default();
        for pack in packs {
            for rule in &pack.manifest.rules {
                if let Some(service) = &rule.service {
                    known.services.insert(format!("{}/{}", pack.manifest.id, rule.id));
                    known.parts.insert(service.part.clone());
                    known.opens.insert(service.opens.clone());
                }
            }
        }
        known
    }

    /// A service by its rule's name, with or without its pack.
    pub(super) fn service(&self, name: &str) -> Result<String, String> {
        let tail = |service: &'_ String| service.split_once('/').map_or(String::new(), |(_, rule)| rule.to_owned());
        let found: Vec<&String> = self.services.iter().filter(|s| *s == name || tail(s) == name).collect();
        match found.as_slice() {
            [one] => Ok((*one).clone()),
            [] => {
                let tails: Vec<String> = self.services.iter().map(tail).collect();
                let hint = near(name, tails.iter().map(String::as_str).chain(self.services.iter().map(String::as_str)));
                let hint = hint
                    .map_or_else(|| format!("the services are {}", tails.join(", ")), |n| format!("did you mean {n}?"));
                Err(format!("no loaded pack has a service \"{}\"; {hint}", crate::packs::clean::clip(name, 40)))
            }
            many => {
                let all: Vec<&str> = many.iter().map(|s| s.as_str()).collect();
                Err(format!("{} packs have a service \"{name}\": write {}", many.len(), all.join(" or ")))
            }
        }
    }
}

/// What somebody said is right although it looks wrong.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sure {
    pub(super) day: bool,
    pub(super) part: bool,
}

/// What one entry is held against.
pub(super) struct Bench<'a> {
    pub(super) known: &'a Known,
    pub(super) sheet: Option<&'a Sheet>,
    pub(super) built: Option<Date>,
    pub(super) today: Option<Date>,
    pub(super) sure: Sure,
}

impl Bench<'_> {
    /// What is wrong with an entry, with the field it is about.
    pub(super) fn wrong(&self, entry: &Entry) -> Option<(&'static str, String)> {
        self.day(entry).map(|why| ("day", why)).or_else(|| self.what(&entry.what))
    }

    fn day(&self, entry: &Entry) -> Option<String> {
        if self.sure.day {
            return None;
        }
        let right = "if the day is right, say --day-is-right";
        if let Some(today) = self.today.filter(|today| entry.day > *today) {
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
                        format!(
                            "{reading} is read at each {axis}: write it like {reading} {}",
                            super::words::example(reading)
                        ),
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
        let hint = near(place, labels.iter().map(String::as_str).filter(|l| l.len() > 1));
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
    let hint = match near(written, all.clone()) {
        Some(near) => format!("did you mean {near}?"),
        None => format!("there is {}.", all.collect::<Vec<_>>().join(", ")),
    };
    format!("there is no {noun} \"{}\"; {hint}", short(written))
}

/// The word that was perhaps meant.
pub(super) fn near<'a>(written: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let written = written.to_lowercase().replace(['_', ' '], "-");
    let scored = words.map(|word| (strsim::jaro_winkler(&word.to_lowercase().replace(' ', "-"), &written), word));
    let best = scored.filter(|(score, _)| *score > 0.82).max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(a.1)));
    best.map(|(_, word)| word)
}
