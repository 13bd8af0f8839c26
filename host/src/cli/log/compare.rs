//! `thou log compare`: two passes in the same air.

use super::by_id::by_id;
use super::say::{self, Wrap};
use crate::cli::io::{Exit, Io};
use crate::cli::options::Format;
use crate::cli::pages;
use crate::cli::shelf::{self, Shelf, complain, refuse};
use crate::packs::clean::clean;
use crate::sheet::Sheet;
use serde_json::{Value, json};
use thou_contract::factor::FOOT;
use thou_life::entry::{Entry, What};
use thou_life::slip::{AirWorth, Slip, Standard, at_weight};

/// The standard whose air counts, and whether the sheet names it.
pub(super) fn standard(sheet: Option<&Sheet>) -> (Standard, bool) {
    let named = sheet.and_then(|s| s.stated("dyno.standard")).and_then(|(v, _)| Standard::by_id(v.as_str()?));
    named.map_or((Standard::SaeJ1349, false), |standard| (standard, true))
}

/// What a standard is called.
pub(super) fn called(standard: Standard) -> &'static str {
    match standard {
        Standard::SaeJ1349 => "SAE J1349",
        Standard::Iso1585 => "ISO 1585",
        Standard::StdJ607 => "STD (J607)",
        Standard::Din70020 => "DIN 70020",
    }
}

/// A time of the clock, s, to the thousandth.
fn seconds(time: f64) -> String {
    format!("{time:.3} s")
}

/// What a pass with its air comes to, for who has just written it.
pub(super) fn at_once(entry: &Entry, sheet: Option<&Sheet>) -> Option<String> {
    let What::Ran { elapsed, slip, .. } = &entry.what else { return None };
    let missing = slip.air_missing();
    if missing.len() == 3 {
        return None;
    }
    if !missing.is_empty() {
        return Some(format!("Without {} nobody can say what that air was worth.", missing.join(" and ")));
    }
    let (standard, _) = standard(sheet);
    let Some(worth) = AirWorth::of(slip.air()?, standard) else { return Some(no_worth().to_owned()) };
    let corrected = elapsed
        .as_ref()
        .and_then(|e| e.si("time").ok())
        .map_or_else(String::new, |e| format!("; {} in the air of {}", seconds(worth.elapsed(e)), called(standard)));
    Some(format!("Density altitude {:.0} ft{corrected}.", worth.density_altitude / FOOT))
}

fn no_worth() -> &'static str {
    "Below freezing, and where nothing is left beside the water, no density altitude is worked out."
}

/// One of the two.
struct Pass<'a> {
    entry: &'a Entry,
    elapsed: f64,
    adder: bool,
    slip: &'a Slip,
    worth: AirWorth,
}

/// A pass that can be compared, or why it cannot.
fn pass(entry: &Entry, standard: Standard) -> Result<Pass<'_>, String> {
    let id = &entry.id;
    let What::Ran { elapsed, adder, slip, .. } = &entry.what else {
        return Err(format!("{id} is {}, no pass", entry.what.name()));
    };
    let Some(time) = elapsed.as_ref().and_then(|e| e.si("time").ok()) else {
        return Err(format!("{id} has no elapsed time"));
    };
    let missing = slip.air_missing();
    if !missing.is_empty() {
        return Err(format!(
            "{id} says nothing of its {}: without that nobody can say what its air was worth. Undo it and write it once \
             more with --{}",
            missing.join(", "),
            missing.join(", --")
        ));
    }
    let worth =
        slip.air().and_then(|air| AirWorth::of(air, standard)).ok_or_else(|| format!("{id}: {}", no_worth()))?;
    Ok(Pass { entry, elapsed: time, adder: *adder, slip, worth })
}

pub(super) fn compare(
    shelf: &Shelf,
    engine: &str,
    ids: [&str; 2],
    format: Format,
    io: &mut Io<'_>,
) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
    let sheet = shelf::sheet(&book, engine, wrap, io)?;
    let (standard, named) = standard(sheet.as_ref());
    let find = |id: &str| {
        let entry = by_id(&all, id)?.ok_or_else(|| {
            format!("{engine} has no entry {}: `thou log list {engine} --what ran` shows them", clean(id))
        })?;
        pass(entry, standard)
    };
    let two = find(ids[0]).and_then(|one| Ok([one, find(ids[1])?])).map_err(|why| complain(&why, wrap, io))?;
    let came = Compared::of(two, standard, named);
    match format {
        Format::Json => pages::json(&came.json(engine), io),
        Format::Text => io.say(&came.text(engine, wrap)),
    }
    Ok(())
}

struct Compared<'a> {
    two: [Pass<'a>; 2],
    standard: Standard,
    named: bool,
    /// Both in the standard's air, s.
    in_air: [f64; 2],
    /// The second at the first's weight too, where both say theirs, s.
    same_weight: Option<f64>,
}

impl<'a> Compared<'a> {
    fn of(two: [Pass<'a>; 2], standard: Standard, named: bool) -> Self {
        let in_air = two.each_ref().map(|p| p.worth.elapsed(p.elapsed));
        let weights = two.each_ref().map(|p| p.slip.weight.as_ref().and_then(|w| w.si("mass").ok()));
        let [_, second] = in_air;
        let same_weight = match weights {
            [Some(one), Some(other)] => Some(at_weight(second, other, one)),
            _ => None,
        };
        Self { two, standard, named, in_air, same_weight }
    }

    /// What of the two is not the same, or not known of one of them.
    fn differ(&self) -> Vec<String> {
        let [one, other] = &self.two;
        let mut out = Vec::new();
        if one.adder != other.adder {
            out.push(format!("adder {}, then {}", on(one.adder), on(other.adder)));
        }
        for ((name, a), (_, b)) in one.slip.words().into_iter().zip(other.slip.words()) {
            match (a, b) {
                (Some(a), Some(b)) if a != b => out.push(format!("{name} {a}, then {b}")),
                (Some(a), None) => out.push(format!("{name} {a}, and nothing said of the second")),
                (None, Some(b)) => out.push(format!("{name} {b} the second time, and nothing said of the first")),
                _ => {}
            }
        }
        let amounts = |p: &Pass<'_>| [p.slip.weight.clone(), p.slip.tire_pressure.clone()];
        for (name, (a, b)) in ["weight", "tire-pressure"].into_iter().zip(amounts(one).into_iter().zip(amounts(other)))
        {
            match (a, b) {
                (Some(a), Some(b)) if a != b => out.push(format!("{name} {}, then {}", a.0, b.0)),
                (Some(a), None) => out.push(format!("{name} {}, and nothing said of the second", a.0)),
                (None, Some(b)) => out.push(format!("{name} {} the second time, and nothing said of the first", b.0)),
                _ => {}
            }
        }
        out
    }

    /// What neither of them says.
    fn silent(&self) -> Vec<&'static str> {
        let [one, other] = &self.two;
        let mut out: Vec<&str> = one
            .slip
            .words()
            .into_iter()
            .zip(other.slip.words())
            .filter(|((_, a), (_, b))| a.is_none() && b.is_none())
            .map(|((name, _), _)| name)
            .collect();
        if one.slip.weight.is_none() && other.slip.weight.is_none() {
            out.push("weight");
        }
        out
    }

    fn text(&self, engine: &str, wrap: Wrap) -> String {
        let mut out = wrap.fill(&clean(&format!("{engine}: two passes in the same air")), "", "  ");
        for (pass, in_air) in self.two.iter().zip(self.in_air) {
            out.push('\n');
            out += &wrap.fill(&clean(&format!("{} [{}]", say::when(pass.entry), pass.entry.id)), "", "  ");
            out += &wrap.fill(&clean(&say::what(pass.entry)), "  ", "    ");
            let words = format!(
                "density altitude {:.0} ft; power times {:.3} in the air of {}: {}",
                pass.worth.density_altitude / FOOT,
                pass.worth.factor,
                called(self.standard),
                seconds(in_air)
            );
            out += &wrap.fill(&words, "  ", "    ");
            if let Err(why) = &pass.worth.holds {
                out += &wrap.fill(&format!("That standard does not hold here: {why}."), "  ", "    ");
            }
        }
        out.push('\n');
        let [one, other] = &self.two;
        let [first, second] = self.in_air;
        let than = |first: f64, second: f64| match format!("{:.3}", (second - first).abs()).as_str() {
            "0.000" => "no slower and no quicker".to_owned(),
            by if second < first => format!("{by} s quicker"),
            by => format!("{by} s slower"),
        };
        let weight = self
            .same_weight
            .map_or_else(String::new, |s| format!("; at the first one's weight too, {}", than(first, s)));
        let words = format!(
            "The second was {} by the clock, and is {} in the same air{weight}.",
            than(one.elapsed, other.elapsed),
            than(first, second)
        );
        out += &wrap.fill(&words, "", "  ");
        let differ = self.differ();
        if !differ.is_empty() {
            out += &wrap.fill(&clean(&format!("Not the same: {}.", differ.join("; "))), "", "  ");
        }
        let silent = self.silent();
        if !silent.is_empty() {
            out += &wrap.fill(&format!("Neither says its {}.", silent.join(", ")), "", "  ");
        }
        out += &wrap.fill(&self.weakness(), "", "  ");
        out + &wrap.fill(crate::report::DEFERS_SHORT, "", "  ")
    }

    /// Whose correction it is, and what it does not know.
    fn weakness(&self) -> String {
        let of = if self.named { "the sheet's standard" } else { "the sheet names no standard" };
        format!(
            "The air by {} ({of}), made for an engine that breathes by itself at full load on a dyno: \
             with nitrous, nitro or a blower it takes too much off. The time goes with the cube root of the power (Fox, Am. \
             J. Phys. 41, 1973), as if it pulled at full power all the way: the launch, the wind, the track and the shifts are \
             in the difference still. The pressure has to be that at the strip; the weather report's is reduced to sea \
             level.",
            called(self.standard)
        )
    }

    fn json(&self, engine: &str) -> Value {
        let pass = |(p, in_air): (&Pass<'_>, f64)| {
            json!({
                "id": p.entry.id, "day": p.entry.day.to_string(), "event": p.entry.event, "elapsed-s": p.elapsed,
                "density-altitude-m": p.worth.density_altitude, "power-factor": p.worth.factor,
                "in-the-same-air-s": in_air, "standard-holds": p.worth.holds.is_ok(),
                "standard-why-not": p.worth.holds.as_ref().err().map(ToString::to_string),
            })
        };
        let [one, other] = &self.two;
        let [first, second] = self.in_air;
        json!({
            "page": "compare", "engine": engine, "standard": self.standard.id(), "standard-named": self.named,
            "passes": [pass((one, first)), pass((other, second))],
            "second-by-the-clock-s": other.elapsed - one.elapsed, "second-in-the-same-air-s": second - first,
            "second-at-the-same-weight-s": self.same_weight.map(|s| s - first),
            "differ": self.differ(), "neither-says": self.silent(),
        })
    }
}

fn on(adder: bool) -> &'static str {
    if adder { "on" } else { "off" }
}
