//! The ratios that scale a life, read from the facts, and the words that print them.

use crate::class::Class;
use crate::facts::{
    ADDER, BMEP, BURNOUT_TIME, CARD_OPEN_LOAD, FUEL, IDLE_TIME, OIL_TEMPERATURE, OIL_VOLUME, OPEN_LOAD, PISTON_SPEED,
    REVOLUTIONS, RUN_TIME, SPRING_STRESS, STROKE,
};
use crate::severity::{self, Chemistry, heat};
use thou_contract::slopes::{SPRING_LOAD, Slope};
use thou_sdk::prelude::*;

/// One ratio to the reference engine, and how life answers it.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Term {
    /// Mean piston speed: how hard valves land.
    Speed(Slope),
    /// Mean piston speed squared: inertia.
    Inertia(Slope),
    /// Mean effective pressure.
    Pressure(Slope),
    /// The highest open spring load.
    Load(Slope),
    /// Spring stress, by the best that the sheet has; the slope is that of the stress.
    Stress(Slope),
    /// Sliding distance of a ring a pass.
    Slide(Slope),
    /// Oil volume: less of it is thinned sooner.
    Sump(Slope),
    /// Idle a pass: it thins the oil.
    Idle(Slope),
    /// Oxidation: half for every 10 K over 110 °C; rule of thumb, from memory.
    OilHeat,
    /// Relaxation: half for every 20 K over 120 °C; from memory.
    SpringHeat,
    /// Thin films: 0.8 for every 15 K over 110 °C; common practice, no source.
    BearingHeat,
    /// Fuel and adder.
    Chemistry(Chemistry),
}

/// Where a ratio comes from, as an index of [`SOURCES`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Source {
    Sheet,
    Missing,
    Class,
    OwnStress,
    CardLoad,
    ReferenceLoad,
    Petrol,
}

/// The words of [`Source`], in the order of its variants.
pub(crate) const SOURCES: &[&str] = &[
    "",
    " (not scaled: the sheet does not say)",
    " (not scaled: this class's own lives have it)",
    " (the shop's own stress figure)",
    " (open load over the card's, no wire data)",
    " (open load over 650 lbf, no wire data)",
    " (no fuel on the sheet: taken as petrol)",
];

/// A ratio as read: what is printed, where it comes from, and what it does to the life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ratio {
    pub(crate) shown: f64,
    pub(crate) from: Source,
    pub(crate) factor: f64,
}

impl Term {
    /// The ratios by which a stress is read of the sheet; `wire` where that of a spring's wire is wanted and not its load.
    pub(crate) fn of_stress(stress: Stress, wire: bool) -> impl Iterator<Item = Self> {
        let Stress { cause, slope } = stress;
        let (first, second) = match cause {
            Cause::Inertia => (Self::Inertia(slope), None),
            Cause::Landing => (Self::Speed(slope), None),
            Cause::Pressure => (Self::Pressure(slope), None),
            Cause::Spring if wire => (Self::Stress(slope), None),
            Cause::Spring => (Self::Load(slope), None),
            Cause::Sliding => (Self::Pressure(slope), Some(Self::Slide(slope))),
        };
        std::iter::once(first).chain(second)
    }

    /// Reads this ratio; 1 where a fact is missing.
    pub(crate) fn read(self, f: &Facts<'_>, class: Class) -> Ratio {
        if class.by_hour() {
            return Ratio { shown: 1.0, from: Source::Class, factor: 1.0 };
        }
        let ratio = |g: Option<f64>, slope: Slope| read(g, Source::Sheet, |g| slope.life(g));
        let share = |factor: Option<f64>| read(factor, Source::Sheet, |factor| factor);
        let speed = f.get(PISTON_SPEED).map(|v| v / severity::PISTON_SPEED);
        let load = f.each(OPEN_LOAD).map(|(_, load)| load).reduce(f64::max);
        let oil = f.get(OIL_TEMPERATURE);
        match self {
            Self::Speed(slope) => ratio(speed, slope),
            Self::Inertia(slope) => ratio(speed.map(|v| v * v), slope),
            // The lives of boosted engines are counted on boosted engines.
            Self::Pressure(_) if class == Class::Hardest => Ratio { shown: 1.0, from: Source::Class, factor: 1.0 },
            Self::Pressure(slope) => ratio(f.get(BMEP).map(|p| p / severity::BMEP), slope),
            Self::Load(slope) => ratio(load.map(|l| l / severity::OPEN_LOAD), slope),
            Self::Stress(slope) => stress(f, load, slope),
            Self::Slide(slope) => ratio(slide(f).map(|s| s / severity::SLIDE), slope),
            Self::Sump(slope) => ratio(f.get(OIL_VOLUME).map(|v| severity::OIL_VOLUME / v), slope),
            Self::Idle(slope) => ratio(f.get(IDLE_TIME).map(|t| t / severity::IDLE), slope),
            Self::OilHeat => share(oil.map(|t| heat(t, celsius(110.0), 10.0, 0.5))),
            Self::SpringHeat => share(oil.map(|t| heat(t, celsius(120.0), 20.0, 0.5))),
            Self::BearingHeat => share(oil.map(|t| heat(t, celsius(110.0), 15.0, 0.8))),
            Self::Chemistry(what) => {
                let adder = if class == Class::Hardest { "none" } else { f.choice(ADDER).unwrap_or("none") };
                let fuel = f.choice(FUEL);
                let factor = what.of_fuel(fuel.unwrap_or("petrol-race")) * what.of_adder(adder);
                Ratio { shown: factor, from: if fuel.is_some() { Source::Sheet } else { Source::Petrol }, factor }
            }
        }
    }
}

fn read(g: Option<f64>, from: Source, life: impl Fn(f64) -> f64) -> Ratio {
    match g.filter(|g| g.is_finite() && *g > 0.0) {
        Some(shown) => Ratio { shown, from, factor: life(shown) },
        None => Ratio { shown: 1.0, from: Source::Missing, factor: 1.0 },
    }
}

/// The shop's stress figure first, then the load its card allows, then the reference engine's load: the last two know
/// nothing of the wire, so they bend less.
fn stress(f: &Facts<'_>, load: Option<f64>, slope: Slope) -> Ratio {
    let flatter = Slope { harder: slope.harder.min(SPRING_LOAD.harder), softer: slope.softer.min(SPRING_LOAD.softer) };
    if let Some(stress) = f.get(SPRING_STRESS) {
        read(Some(stress), Source::OwnStress, |g| slope.life(g))
    } else if let Some(card) = f.get(CARD_OPEN_LOAD) {
        read(load.map(|l| l / card), Source::CardLoad, |g| flatter.life(g))
    } else {
        read(load.map(|l| l / severity::OPEN_LOAD), Source::ReferenceLoad, |g| flatter.life(g))
    }
}

/// Metres that a ring slides in a pass; only where every segment that counts is stated.
fn slide(f: &Facts<'_>) -> Option<f64> {
    f.get(BURNOUT_TIME)?;
    f.get(IDLE_TIME)?;
    f.get(RUN_TIME)?;
    Some(2.0 * f.get(STROKE)? * f.get(REVOLUTIONS)?)
}

/// The words of one term in a service's text; the arguments have the same names.
macro_rules! words {
    (speed) => {
        "; mean piston speed {arg:speed} of the reference{arg:speed-from}"
    };
    (inertia) => {
        "; inertia {arg:inertia} of the reference{arg:inertia-from}"
    };
    (pressure) => {
        "; cylinder pressure {arg:pressure} of the reference{arg:pressure-from}"
    };
    (load) => {
        "; open spring load {arg:load} of the reference{arg:load-from}"
    };
    (stress) => {
        "; spring stress {arg:stress} of the reference{arg:stress-from}"
    };
    (slide) => {
        "; ring travel a pass {arg:slide} of the reference{arg:slide-from}"
    };
    (sump) => {
        "; fuel into each quart of oil {arg:sump} of the reference{arg:sump-from}"
    };
    (idle) => {
        "; idle a pass {arg:idle} of the reference{arg:idle-from}"
    };
    (heat) => {
        "; oil temperature x {arg:heat}{arg:heat-from}"
    };
    (chemistry) => {
        "; fuel and adder x {arg:chemistry}{arg:chemistry-from}"
    };
}

/// A service's text: what is done, the class, the factor, and every ratio in it with where it comes from.
macro_rules! scaled {
    ($lead:literal) => {
        thou_sdk::Text {
            args: &[crate::args::CLASS],
            duty: Some(thou_sdk::Duty::Outing),
            ..thou_sdk::Text::new(concat!($lead, ": {arg:class}, by count alone, not scaled"))
        }
    };
    ($lead:literal, $($term:ident)+) => {
        thou_sdk::Text {
            args: &[
                crate::args::CLASS,
                crate::args::FACTOR,
                crate::args::HELD,
                $(
                    thou_sdk::Arg::of(stringify!($term), "ratio"),
                    thou_sdk::Arg {
                        name: concat!(stringify!($term), "-from"),
                        kind: "choice",
                        choices: crate::term::SOURCES,
                    },
                )+
            ],
            ..thou_sdk::Text::new(concat!(
                $lead,
                ": {arg:class}, x {arg:factor}{arg:held}"
                $(, words!($term))+
            ))
        }
    };
}

/// The facts behind the terms, and those that decide the class; other names are facts of their own.
macro_rules! takes {
    ($($term:ident)*) => { takes!(@ [ADDER, BOOST, ADDER_POWER, TARGET_POWER,] $($term)*) };
    (@ [$($fact:ident,)*]) => { &[$(crate::facts::$fact),*] };
    (@ [$($fact:ident,)*] speed $($rest:tt)*) => { takes!(@ [$($fact,)* PISTON_SPEED,] $($rest)*) };
    (@ [$($fact:ident,)*] inertia $($rest:tt)*) => { takes!(@ [$($fact,)* PISTON_SPEED,] $($rest)*) };
    (@ [$($fact:ident,)*] pressure $($rest:tt)*) => { takes!(@ [$($fact,)* BMEP,] $($rest)*) };
    (@ [$($fact:ident,)*] load $($rest:tt)*) => { takes!(@ [$($fact,)* OPEN_LOAD,] $($rest)*) };
    (@ [$($fact:ident,)*] stress $($rest:tt)*) => {
        takes!(@ [$($fact,)* OPEN_LOAD, CARD_OPEN_LOAD, SPRING_STRESS,] $($rest)*)
    };
    (@ [$($fact:ident,)*] slide $($rest:tt)*) => {
        takes!(@ [$($fact,)* REVOLUTIONS, STROKE, BURNOUT_TIME, RUN_TIME, IDLE_TIME,] $($rest)*)
    };
    (@ [$($fact:ident,)*] sump $($rest:tt)*) => { takes!(@ [$($fact,)* OIL_VOLUME,] $($rest)*) };
    (@ [$($fact:ident,)*] idle $($rest:tt)*) => { takes!(@ [$($fact,)* IDLE_TIME,] $($rest)*) };
    (@ [$($fact:ident,)*] heat $($rest:tt)*) => { takes!(@ [$($fact,)* OIL_TEMPERATURE,] $($rest)*) };
    (@ [$($fact:ident,)*] chemistry $($rest:tt)*) => { takes!(@ [$($fact,)* FUEL,] $($rest)*) };
    (@ [$($fact:ident,)*] $other:ident $($rest:tt)*) => { takes!(@ [$($fact,)* $other,] $($rest)*) };
}
