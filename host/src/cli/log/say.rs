//! Entries in words, short enough for a phone.

use crate::packs::clean::clip;
use std::collections::BTreeMap;
use thou_life::entry::{Amount, Entry, What};
use thou_life::history::MeterNow;
use thou_life::slip::Slip;

/// Wraps to so many columns.
#[derive(Debug, Clone, Copy)]
pub(in crate::cli) struct Wrap(pub(in crate::cli) usize);

impl Wrap {
    /// One paragraph, ended.
    pub(in crate::cli) fn fill(self, text: &str, first: &str, rest: &str) -> String {
        let options = textwrap::Options::new(self.0).initial_indent(first).subsequent_indent(rest);
        let mut out = textwrap::fill(text, options.word_splitter(textwrap::WordSplitter::NoHyphenation));
        out.push('\n');
        out
    }
}

/// A count with its noun: "1 pass", "3 passes".
pub(in crate::cli) fn count(number: f64, one: &str, many: &str) -> String {
    if number == 1.0 { format!("1 {one}") } else { format!("{number} {many}") }
}

/// One meter's reading.
fn meter(name: &str, si: f64) -> String {
    let text = thou_book::shown(name, si);
    match name {
        "miles" | "hours" => text,
        "passes" => count(si, "pass", "passes"),
        "pulls" => count(si, "pull", "pulls"),
        "events" => count(si, "event", "events"),
        _ => format!("{text} {name}"),
    }
}

/// Meters in the order that they are read out in.
const ORDER: &[&str] = &["passes", "pulls", "miles", "hours", "events"];

/// What ran, meter by meter.
pub(in crate::cli) fn run_text(run: &BTreeMap<String, f64>) -> String {
    let ran = ORDER.iter().filter_map(|name| Some((name, run.get(*name).copied().filter(|si| *si > 0.0)?)));
    ran.map(|(name, si)| meter(name, si)).collect::<Vec<_>>().join(", ")
}

/// Meters as they stand: since the freshening, and in all where that is more.
pub(in crate::cli) fn meters(meters: &BTreeMap<String, MeterNow>) -> String {
    let since: BTreeMap<String, f64> = meters.iter().map(|(n, m)| (n.clone(), m.since_freshened)).collect();
    let total: BTreeMap<String, f64> = meters.iter().map(|(n, m)| (n.clone(), m.total)).collect();
    if since == total {
        return run_text(&total);
    }
    let since = run_text(&since);
    format!("{} since it was freshened; {} in all", if since.is_empty() { "nothing" } else { &since }, run_text(&total))
}

/// Letters of a note that a line shows.
const MOST_OF_A_NOTE: usize = 400;

/// What an entry says, in a line.
pub(in crate::cli) fn what(entry: &Entry) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut add = |word: &str, amount: &Option<Amount>| {
        if let Some(amount) = amount {
            parts.push(if word.is_empty() { amount.0.clone() } else { format!("{word} {}", amount.0) });
        }
    };
    match &entry.what {
        What::Ran { passes, pulls, miles, hours, peak_speed, elapsed, adder, meter, meter_was_reset, slip } => {
            add("", miles);
            add("", hours);
            add("peak", peak_speed);
            add("in", elapsed);
            let counts = [(passes, "pass", "passes"), (pulls, "pull", "pulls")];
            let counts: Vec<String> =
                counts.iter().filter_map(|(n, one, many)| n.map(|n| count(n, one, many))).collect();
            parts.splice(0..0, counts);
            if *adder {
                parts.push("adder on".to_owned());
            }
            parts.extend(meter.iter().map(|(name, amount)| format!("{name} meter at {}", amount.0)));
            if *meter_was_reset {
                parts.push("the meter was reset".to_owned());
            }
            parts.extend(slip_words(slip));
        }
        What::Happened { happening, speed, time, place, part } => {
            add("", speed);
            add("for", time);
            let of = part.as_ref().map(|p| format!(": {p}")).unwrap_or_default();
            parts.insert(0, format!("{happening}{of}"));
            let which = if part.is_some() { "at" } else { "cylinder" };
            parts.extend(place.as_ref().map(|p| format!("{which} {p}")));
        }
        What::Settled { entry, found } => parts.push(format!("settled {entry}: {found}")),
        What::Read { reading, place, value, gauge, state, baseline } => {
            parts.push(match place {
                Some(place) => format!("{reading} at {place}: {}", value.0),
                None => format!("{reading}: {}", value.0),
            });
            parts.extend(gauge.clone());
            parts.extend(state.clone());
            if *baseline {
                parts.push("baseline".to_owned());
            }
        }
        What::Did { service, cost, hours } => {
            parts.push(format!("did {service}"));
            parts.extend(hours.map(|h| format!("{h} h of work")));
            parts.extend(cost.map(|c| format!("cost {c}")));
        }
        What::Fitted { part, serial, place, brought, made, maker } => {
            let place = place.as_ref().map(|p| format!(" at {p}")).unwrap_or_default();
            parts.push(format!("fitted {part}{place}, {serial}"));
            parts.extend(brought.iter().map(|(name, amount)| format!("brought {} on {name}", amount.0)));
            parts.extend(made.map(|d| format!("made {d}")));
            parts.extend(maker.as_ref().map(|m| format!("by {m}")));
        }
        What::Removed { serial, failed, disposition, because } => {
            parts.push(format!("removed {serial}, {}", if *failed { "failed" } else { "sound" }));
            parts.push(disposition.clone());
            parts.extend(because.clone());
        }
        What::Tightened { serial } => parts.push(format!("tightened {serial}")),
        What::TornDown { opens } => parts.push(format!("torn down: {opens}")),
        What::Freshened => parts.push("freshened".to_owned()),
        What::Noted => {}
        What::Undone { entry } => parts.push(format!("undid {entry}")),
        office => parts.extend(super::office_words::of(office, entry.event.as_deref())),
    }
    if let Some(note) = &entry.note {
        let length = note.chars().count();
        parts.push(format!("\"{}\"", clip(note, MOST_OF_A_NOTE)));
        if length > MOST_OF_A_NOTE {
            parts.push(format!("a note of {length} letters, whole in an export"));
        }
    }
    crate::packs::clean::clean(&parts.join(", "))
}

/// The engine's name, or the whole shop.
pub(in crate::cli) fn engine(name: &str) -> String {
    if name == thou_life::entry::SHOP { "the whole shop,".to_owned() } else { crate::packs::clean::clean(name) }
}

/// What a pass was run in and with.
pub(in crate::cli) fn slip_words(slip: &Slip) -> Vec<String> {
    let amount = |a: &Option<Amount>, word: &str| a.as_ref().map(|a| format!("{word}{}", a.0));
    let word = |w: &Option<String>, before: &str, after: &str| w.as_ref().map(|w| format!("{before}{w}{after}"));
    let air: Vec<String> =
        [&slip.air_pressure, &slip.air_temperature].into_iter().flatten().map(|a| a.0.clone()).collect();
    let humidity = amount(&slip.humidity, "").map(|h| format!("{h} humidity"));
    let air: Vec<String> = air.into_iter().chain(humidity).collect();
    let air = (!air.is_empty()).then(|| format!("air {}", air.join(" ")));
    let tire =
        [slip.tire.clone(), amount(&slip.tire_pressure, "")].into_iter().flatten().collect::<Vec<_>>().join(" at ");
    [
        amount(&slip.trap_speed, "at "),
        word(&slip.lane, "", " lane"),
        air,
        amount(&slip.weight, "weight "),
        word(&slip.fuel, "fuel ", ""),
        (!tire.is_empty()).then(|| format!("tire {tire}")),
        word(&slip.tune, "tune: ", ""),
        word(&slip.plugs, "plugs: ", ""),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The day, and the event where there is one.
pub(in crate::cli) fn when(entry: &Entry) -> String {
    // what is said of an event itself names it
    match entry.event.as_ref().filter(|_| !entry.what.of_the_office()) {
        Some(event) => crate::packs::clean::clean(&format!("{} {event}", entry.day)),
        None => entry.day.to_string(),
    }
}
