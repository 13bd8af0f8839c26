//! The lives of a part by class, and how a rule gives them.

use crate::class::Class;
use crate::severity::held;
use crate::term::Term;
use thou_contract::slopes::LONGEST;
use thou_sdk::prelude::*;

/// What this pack counts on, in the order of [`Meter`].
pub(crate) const METERS: &[&str] = &["passes", "miles", "months", "hours", "events"];

/// The first reason of every service, which [`Lives::give`] gives: its class has no interval.
pub(crate) const NO_INTERVAL: &str = "practice has no interval of it for this use";
const FIRST: ReasonNumber = ReasonNumber(0);

/// Names the reasons that a service has beside [`NO_INTERVAL`], which stays the first.
macro_rules! service_reasons {
    ($($own:tt)*) => {
        thou_sdk::reasons![NO_INTERVAL = crate::lives::NO_INTERVAL, $($own)*];
    };
}

/// An index of [`METERS`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Meter {
    Passes,
    Miles,
    Months,
    Hours,
    Events,
}

/// One life, in whole numbers of its meter on the reference engine.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Life {
    meter: Meter,
    low: f64,
    nominal: f64,
    high: f64,
    scaled: bool,
}

/// Low, nominal and high in passes.
pub(crate) const fn passes(low: f64, nominal: f64, high: f64) -> Life {
    Life { meter: Meter::Passes, low, nominal, high, scaled: true }
}
/// Low, nominal and high in thousands of miles.
pub(crate) const fn thousand_miles(low: f64, nominal: f64, high: f64) -> Life {
    Life { meter: Meter::Miles, low: low * 1e3, nominal: nominal * 1e3, high: high * 1e3, scaled: true }
}
/// Low, nominal and high in months: a calendar is never scaled.
pub(crate) const fn by_calendar(low: f64, nominal: f64, high: f64) -> Life {
    Life { meter: Meter::Months, low, nominal, high, scaled: false }
}
/// Low, nominal and high in hours.
pub(crate) const fn hours(low: f64, nominal: f64, high: f64) -> Life {
    Life { meter: Meter::Hours, low, nominal, high, scaled: true }
}
/// After each event, and never more than two: not scaled, since less than one cannot be planned.
pub(crate) const EACH_EVENT: Life = Life { meter: Meter::Events, low: 1.0, nominal: 1.0, high: 2.0, scaled: false };
/// After each pass, and never more than two.
pub(crate) const EACH_PASS: Life = Life { meter: Meter::Passes, low: 1.0, nominal: 1.0, high: 2.0, scaled: false };

impl Life {
    /// For a figure that practice states as one: a quarter to either side of it, since no part dies on a number.
    pub(crate) const fn about(self) -> Self {
        Self { low: 0.75 * self.nominal, high: 1.25 * self.nominal, ..self }
    }

    /// In SI at this factor: passes, events, hours and months go down to whole ones, miles to whole hundreds, never to none.
    fn service(self, factor: f64, text: TextNumber) -> Service {
        let factor = if self.scaled { factor } else { 1.0 };
        let step = if self.meter == Meter::Miles { 100.0 } else { 1.0 };
        let unit = match self.meter {
            Meter::Miles => miles(1.0),
            Meter::Months => months(1.0),
            Meter::Hours => 3_600.0,
            Meter::Passes | Meter::Events => 1.0,
        };
        // A product that is whole on paper may fall short of it by a rounding error.
        let whole = |x: f64| (x * factor / step * (1.0 + 1e-12)).floor().max(1.0) * step * unit;
        Service {
            place: None,
            meter: self.meter as u32,
            low: whole(self.low),
            nominal: whole(self.nominal),
            high: whole(self.high),
            text: text.0,
        }
    }
}

/// One about a figure in passes.
pub(crate) const fn about_passes(nominal: f64) -> Life {
    passes(nominal, nominal, nominal).about()
}
/// One about a figure in thousands of miles.
pub(crate) const fn about_thousand_miles(nominal: f64) -> Life {
    thousand_miles(nominal, nominal, nominal).about()
}
/// One about a figure in months.
pub(crate) const fn about_months(nominal: f64) -> Life {
    by_calendar(nominal, nominal, nominal).about()
}

/// The lives of one part and what scales them. No life in a column: practice has none.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Lives<'a> {
    /// On the street. Never lengthened: street lives are those of street engines, all softer than the reference.
    pub(crate) street: &'a [Life],
    /// In bracket racing.
    pub(crate) bracket: &'a [Life],
    /// All-out without an adder.
    pub(crate) sportsman: &'a [Life],
    /// All-out, boosted or half nitrous.
    pub(crate) hardest: &'a [Life],
    /// By the hour on a road course.
    pub(crate) circuit: &'a [Life],
    /// By the hour for half a day and more.
    pub(crate) endurance: &'a [Life],
    /// By the hour in a single off the road.
    pub(crate) motocross: &'a [Life],
    /// What hurts the part, for the lives here and for the log: the place that leaves the least counts, and in each place
    /// stresses multiply.
    pub(crate) wears: Wears,
    /// Whether spring load is read as the stress of the wire, where the sheet has it.
    pub(crate) wire: bool,
    /// What shortens a life beside stress; these multiply.
    pub(crate) terms: &'a [Term],
    /// The most that the factor may come to.
    pub(crate) most: f64,
    /// The text of lives that go by count alone in a rule that scales others.
    pub(crate) plain: TextNumber,
}

impl Lives<'_> {
    /// Nothing in it, to build the rest on.
    pub(crate) const EMPTY: Lives<'static> = Lives {
        street: &[],
        bracket: &[],
        sportsman: &[],
        hardest: &[],
        circuit: &[],
        endurance: &[],
        motocross: &[],
        wears: &[],
        wire: false,
        terms: &[],
        most: LONGEST,
        plain: TextNumber::ONLY,
    };

    /// Gives the services of this engine's class, with the text of a rule that has one.
    pub(crate) fn give(&self, f: &Facts<'_>, a: &mut Answer) -> Outcome {
        self.give_as(f, a, TextNumber::ONLY)
    }

    /// Gives the services of this engine's class, with this text of the rule.
    pub(crate) fn give_as(&self, f: &Facts<'_>, a: &mut Answer, text: TextNumber) -> Outcome {
        let Some(class) = Class::of(f) else { return CannotSay(FIRST) };
        let lives = match class {
            Class::Street => self.street,
            Class::Bracket => self.bracket,
            Class::Sportsman => self.sportsman,
            Class::Hardest => self.hardest,
            Class::Circuit => self.circuit,
            Class::Endurance => self.endurance,
            Class::Motocross => self.motocross,
            // nobody's hours are known
            Class::CircleTrack | Class::Marine => &[],
        };
        if lives.is_empty() {
            return NotApplicable(FIRST);
        }
        let (factor, args) = self.factor(f, class);
        let scales = args.len() > 1;
        for life in lives {
            if life.scaled || !scales {
                a.service(life.service(factor, text), &args);
            } else {
                a.service(life.service(factor, self.plain), &[class.index()]);
            }
        }
        Answered
    }

    /// The factor on this class's lives and the arguments of the text.
    fn factor(&self, f: &Facts<'_>, class: Class) -> (f64, Vec<f64>) {
        let mut ratios = Vec::new();
        let mut product = |terms: &[Term]| -> f64 {
            let read = terms.iter().map(|term| {
                let read = term.read(f, class);
                ratios.extend([read.shown, f64::from(read.from as u8)]);
                read.factor
            });
            read.product()
        };
        let stresses = |place: &&[Stress]| -> Vec<Term> {
            place.iter().flat_map(|stress| Term::of_stress(*stress, self.wire)).collect()
        };
        let weakest = self.wears.iter().map(|place| product(&stresses(place))).reduce(f64::min);
        let factor = product(self.terms);
        let most = if class == Class::Street { self.most.min(1.0) } else { self.most };
        let (factor, became) = held(factor * weakest.unwrap_or(1.0), most);
        let mut args = vec![class.index()];
        if !ratios.is_empty() {
            args.extend([factor, f64::from(became as u8)]);
            args.extend(ratios);
        }
        (factor, args)
    }
}
