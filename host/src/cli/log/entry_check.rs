//! What is wrong with an entry: names, quantities and places that nobody knows, days that cannot be.

use super::known::Known;
use crate::sheet::{Axis, Sheet, impossible};
use jiff::civil::Date;
use thou_contract::Kind;
use thou_life::entry::{Amount, Entry, READINGS, What};
use thou_life::slip::{Slip, SlipQuantity};
use thou_text::nearest;

/// What can be decided over a part that came out.
const DISPOSITIONS: &[&str] = &["run", "recondition", "watch", "scrap"];
/// How the rounds of an event go.
const KINDS: &[&str] = &["race", "match", "test"];
/// Three years, the most that a sheet takes for a part to come.
const MOST_DAYS: u32 = 1_100;
/// What a reading is read in.
const STATES: &[&str] = &["hot", "cold", "on-the-head", "bench"];

/// What somebody said is right although it looks wrong.
#[derive(Debug, Clone, Copy, Default)]
pub(in crate::cli) struct Sure {
    pub(in crate::cli) day: bool,
    pub(in crate::cli) part: bool,
}

/// What one entry is held against.
pub(in crate::cli) struct EntryCheck<'a> {
    pub(in crate::cli) known: &'a Known,
    pub(in crate::cli) sheet: Option<&'a Sheet>,
    pub(in crate::cli) built: Option<Date>,
    pub(in crate::cli) today: Option<Date>,
    pub(in crate::cli) sure: Sure,
}

impl EntryCheck<'_> {
    /// What is wrong with an entry, with the field it is about.
    pub(in crate::cli) fn wrong(&self, entry: &Entry) -> Option<(&'static str, String)> {
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
            What::Ran { passes, pulls, miles, hours, peak_speed, elapsed, meter, slip, .. } => {
                let nothing =
                    passes.is_none() && pulls.is_none() && miles.is_none() && hours.is_none() && meter.is_empty();
                if nothing {
                    return Some((
                        "what",
                        "it says that it ran, and not how far: passes, pulls, miles, hours or a meter".to_owned(),
                    ));
                }
                let passes = passes.map(|n| Amount(format!("{n} passes")));
                let pulls = pulls.map(|n| Amount(format!("{n} passes")));
                let meters = || {
                    let of = |(name, amount): (&String, &Amount)| {
                        let passes = name == "passes" && amount.0.trim().parse::<f64>().is_ok();
                        let text = if passes { format!("{} passes", amount.0.trim()) } else { amount.0.clone() };
                        cannot_be("meter", &format!("meters.{name}"), Some(&Amount(text)))
                    };
                    meter.iter().find_map(of)
                };
                quantity("peak-speed", "angular-speed", peak_speed.as_ref())
                    .or_else(|| quantity("elapsed", "time", elapsed.as_ref()))
                    .or_else(|| cannot_be("passes", "meters.passes", passes.as_ref()))
                    .or_else(|| cannot_be("pulls", "meters.passes", pulls.as_ref()))
                    .or_else(|| cannot_be("miles", "meters.miles", miles.as_ref()))
                    .or_else(|| cannot_be("hours", "meters.hours", hours.as_ref()))
                    .or_else(|| cannot_be("peak-speed", "intent.limiter", peak_speed.as_ref()))
                    .or_else(|| cannot_be("elapsed", "intent.elapsed-time", elapsed.as_ref()))
                    .or_else(meters)
                    .or_else(|| slip_cannot_be(slip))
            }
            What::Happened { happening, speed, time, place, part } => {
                let all = thou_life::events::known();
                if !all.contains(&happening.as_str()) {
                    return Some(("happening", no(happening, "happening", all.into_iter())));
                }
                quantity("speed", "angular-speed", speed.as_ref())
                    .or_else(|| quantity("time", "time", time.as_ref()))
                    .or_else(|| cannot_be("speed", "intent.limiter", speed.as_ref()))
                    .or_else(|| match (happening == thou_life::events::BROKE, part) {
                        (true, None) => Some((
                            "part",
                            "broke: write which part, like broke \"valve springs\" --place 5E".to_owned(),
                        )),
                        (true, Some(part)) => {
                            self.part(part).or_else(|| place.as_ref().and_then(|p| self.any_place(p)))
                        }
                        (false, Some(_)) => {
                            Some(("part", format!("{happening} is of the engine: only broke takes a part")))
                        }
                        (false, None) => place.as_ref().and_then(|p| self.place(p, "cylinder")),
                    })
            }
            What::Read { reading, place, value, state, .. } => {
                let Some(known) = READINGS.iter().find(|r| r.name == reading) else {
                    return Some(("reading", no(reading, "reading", READINGS.iter().map(|r| r.name))));
                };
                let all = || {
                    let percent = known.kind == "percent" && value.si("percent").is_ok_and(|v| v > 1.0);
                    let whole = percent.then(|| {
                        ("value", format!("{reading} cannot be {}: it is a share of a whole", short(&value.0)))
                    });
                    known.band_of.and_then(|field| impossible(field, reading, &value.0)).map(|w| ("value", w)).or(whole)
                };
                let wrong = quantity("value", known.kind, Some(value)).or_else(all);
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
            What::Fitted { part, .. } => self.part(part),
            office if office.of_the_office() => self.office(office),
            What::Removed { disposition, .. } if !DISPOSITIONS.contains(&disposition.as_str()) => {
                Some(("disposition", no(disposition, "disposition", DISPOSITIONS.iter().copied())))
            }
            What::TornDown { opens } if !self.known.opens.contains(opens) => {
                Some(("opens", no(opens, "way to open an engine", self.known.opens.iter().map(String::as_str))))
            }
            _ => None,
        }
    }

    /// What cannot be of dates, days, costs, shelf and money.
    fn office(&self, what: &What) -> Option<(&'static str, String)> {
        let less = |field, n: &Option<f64>| {
            n.filter(|n| !n.is_finite() || *n < 0.0).map(|n| (field, format!("{field} is {n}: less than nothing")))
        };
        match what {
            What::Scheduled { on, last, kind, time_trials, rounds, .. } => {
                let passes = time_trials.unwrap_or(0).max(rounds.unwrap_or(0));
                last.filter(|last| last < on)
                    .map(|last| ("last", format!("it ends on {last}, before it starts on {on}")))
                    .or_else(|| {
                        let kind = kind.as_deref().filter(|k| !KINDS.contains(k))?;
                        Some(("kind", no(kind, "kind of event", KINDS.iter().copied())))
                    })
                    .or_else(|| {
                        (passes > 60)
                            .then(|| ("rounds", format!("{passes} passes of one kind in one event: write 60 or fewer")))
                    })
            }
            What::Shelved { part, .. } | What::OffTheShelf { part, .. } => self.part(part),
            What::LeadTime { part, days, away, .. } => {
                let long = |field, n: &Option<u32>| {
                    let over = n.filter(|n| *n > MOST_DAYS)?;
                    Some((
                        field,
                        format!(
                            "{over} days is over three years: write how long it takes to come, not how long it lasts"
                        ),
                    ))
                };
                self.part(part).or_else(|| long("days", days)).or_else(|| long("away", away))
            }
            What::Priced { part, planned, failure, hour, .. } => {
                let no_more = planned.zip(*failure).filter(|(planned, failure)| failure <= planned);
                part.as_ref()
                    .and_then(|part| self.part(part))
                    .or_else(|| less("planned", planned))
                    .or_else(|| less("failure", failure))
                    .or_else(|| less("hour", hour))
                    .or_else(|| {
                        let (planned, failure) = no_more?;
                        let why = format!(
                            "failure is {failure}, no more than the planned change, {planned}: write all that it costs when it \
                             lets go: the part, the work, and what it takes along"
                        );
                        Some(("failure", why))
                    })
            }
            What::Charged { cost: None, hours: None } => {
                Some(("what", "it says that something is charged, and not how much: cost or hours".to_owned()))
            }
            What::Charged { cost, hours } => less("cost", cost).or_else(|| less("hours", hours)),
            What::Paid { amount } | What::Budgeted { amount, .. } => less("amount", &Some(*amount)),
            _ => None,
        }
    }

    /// Whether a service names the part, or somebody said that it is one.
    fn part(&self, part: &str) -> Option<(&'static str, String)> {
        (!self.sure.part && !self.known.parts.contains(part)).then(|| {
            let all = self.known.parts.iter().map(String::as_str);
            ("part", format!("{} If it is a part of its own, say --new-part", no(part, "part", all)))
        })
    }

    /// Whether the engine has such a place on any axis that a part can stand on.
    fn any_place(&self, place: &str) -> Option<(&'static str, String)> {
        let wrong: Vec<_> = ["cylinder", "valve", "main"].iter().map(|axis| self.place(place, axis)).collect();
        if wrong.iter().any(Option::is_none) { None } else { wrong.into_iter().flatten().next() }
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

/// Why a quantity cannot be in any engine, by the band of a field of the sheet.
fn cannot_be(name: &'static str, field: &str, amount: Option<&Amount>) -> Option<(&'static str, String)> {
    impossible(field, name, &amount?.0).map(|why| (name, why))
}

/// Why a slip cannot be one.
fn slip_cannot_be(slip: &Slip) -> Option<(&'static str, String)> {
    let wrong = |(q, amount): (SlipQuantity, Option<&Amount>)| {
        let (kind, text) = (Kind::by_id(q.kind)?, &amount?.0);
        let value = match kind.parse(text) {
            Ok(value) => value,
            Err(error) => return Some((q.name, format!("{}: {error}", q.name))),
        };
        let outside = |limit: &str, beyond: fn(&f64, &f64) -> bool| kind.parse(limit).is_ok_and(|l| beyond(&value, &l));
        // what is a little off by its unit is none
        let wrong = outside(q.low, |v, l| *v < l - l.abs() * 1e-9) || outside(q.high, |v, l| *v > l + l.abs() * 1e-9);
        let (name, low, high) = (q.name, q.low, q.high);
        wrong.then(|| (name, format!("{name} cannot be {}: it is from {low} to {high}", short(text))))
    };
    let lane = || {
        let lane = slip.lane.as_deref().filter(|lane| !matches!(*lane, "left" | "right"))?;
        Some(("lane", no(lane, "lane", ["left", "right"].into_iter())))
    };
    slip.quantities().into_iter().find_map(wrong).or_else(lane)
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
