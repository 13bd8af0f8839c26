//! How a fact prints: in the unit that the trade says it in, with the decimals that its gauge can read.
//!
//! A kind has one unit and one count of decimals; some are spoken of otherwise: fields of the sheet have it in their
//! entry, and what is only derived is listed here.

use super::Catalogue;
use super::value::Bound;
use thou_contract::{Kind, System};

/// The unit and the decimals of one fact for one reader.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    unit: &'static str,
    factor: f64,
    offset: f64,
    decimals: usize,
    /// Whether it is read to the half of its unit and no finer.
    half: bool,
}

/// Unit and decimals.
type UnitAndDecimals = (&'static str, usize);

impl Figure {
    /// How values of a kind print.
    #[must_use]
    pub fn of_kind(kind: Kind, system: System) -> Self {
        let print = kind.print(system);
        let half = kind.id() == "angle";
        Self::new(kind, (print.unit, if half { 0 } else { print.decimals }), half)
    }

    /// How a fact prints.
    #[must_use]
    pub fn of(fact: &str, kind: Kind, system: System) -> Self {
        if matches!(fact, "spring.seat-load.spread" | "spring.load-loss" | "spring.load-loss.max") {
            return Self { unit: "%", factor: 0.01, offset: 0.0, decimals: 0, half: false };
        }
        match print_of(fact) {
            Some((inch, metric, half)) => Self::new(kind, if system == System::Inch { inch } else { metric }, half),
            None => Self::of_kind(kind, system),
        }
    }

    fn new(kind: Kind, (unit, decimals): UnitAndDecimals, half: bool) -> Self {
        let found = kind.spec().units.iter().find(|u| u.name == unit);
        let (factor, offset) = found.map_or((1.0, 0.0), |u| (u.factor, u.offset));
        Self { unit, factor, offset, decimals, half: half && matches!(unit, "thou" | "deg") }
    }

    /// The unit; empty for a bare number.
    #[must_use]
    pub fn unit(self) -> &'static str {
        self.unit
    }

    /// The number in its unit, unrounded.
    #[must_use]
    pub fn in_unit(self, si: f64) -> f64 {
        si / self.factor - self.offset
    }

    /// The number alone, rounded as the trade prints it.
    #[must_use]
    pub fn number(self, si: f64) -> String {
        self.number_with(si, 0)
    }

    /// The number alone with `more` decimals than the trade prints.
    #[must_use]
    pub fn number_with(self, si: f64, more: usize) -> String {
        let step = self.step(more);
        self.show((self.in_unit(si) / step).round() * step, more)
    }

    /// The number rounded towards the inside of a window: a low end up, a high end down.
    #[must_use]
    pub fn inward(self, si: f64, low_end: bool, more: usize) -> f64 {
        let step = self.step(more);
        let steps = self.in_unit(si) / step;
        // what is a whole step but for floating point is that step
        let whole = steps.round();
        let steps = match (steps - whole).abs() < 1e-6 {
            true => whole,
            false if low_end => steps.ceil(),
            false => steps.floor(),
        };
        steps * step
    }

    /// A number that is in the unit already.
    #[must_use]
    pub fn show(self, number: f64, more: usize) -> String {
        let whole = (number - number.round()).abs() < 1e-9;
        let decimals = if self.half && more == 0 { usize::from(!whole) } else { self.decimals + more };
        let text = format!("{number:.decimals$}");
        match text.strip_prefix('-') {
            Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
            _ => text,
        }
    }

    /// The number with its unit.
    #[must_use]
    pub fn text(self, si: f64) -> String {
        let number = self.number(si);
        let unit = self.unit_of(&number);
        if unit.is_empty() { number } else { format!("{number} {unit}") }
    }

    /// The number with its unit where it is only a bound of what is true: "8 or more short" of a margin that is gone.
    #[must_use]
    pub fn bounded(self, fact: &str, si: f64, bound: Bound, more: usize) -> String {
        let short = bound == Bound::OrLess && si < 0.0 && fact.ends_with("margin");
        let number = self.number_with(if short { -si } else { si }, more);
        let unit = self.unit_of(&number);
        let number = if unit.is_empty() { number } else { format!("{number} {unit}") };
        if short { format!("{number} or more short") } else { format!("{number} {}", bound.words()) }
    }

    /// The unit after a number: one month, two months.
    #[must_use]
    pub fn unit_of(self, number: &str) -> &'static str {
        match self.unit {
            "months" if number == "1" => "month",
            "passes" if number == "1" => "pass",
            unit => unit,
        }
    }

    /// What the last digit that the trade prints is worth, in the unit.
    #[must_use]
    pub fn last_digit(self) -> f64 {
        self.step(0)
    }

    fn step(self, more: usize) -> f64 {
        if self.half && more == 0 {
            return 0.5;
        }
        10f64.powi(-i32::try_from(self.decimals + more).unwrap_or(0))
    }
}

/// How a fact prints, where that is not how its kind does: inches, metric, and whether it is read to halves. What the
/// sheet holds has it from the field's entry.
fn print_of(fact: &str) -> Option<(UnitAndDecimals, UnitAndDecimals, bool)> {
    let fact = ["min", "max", "spread", "mean"]
        .iter()
        .fold(fact, |f, end| f.strip_suffix(end).and_then(|f| f.strip_suffix('.')).unwrap_or(f));
    if let Some(info) = Catalogue::standard().info(fact)
        && let Some(field) = info.path.and_then(thou_fields::field)
        && let Some(prints) = field.prints.filter(|_| field.kind() == info.value.kind())
    {
        let print = |unit: thou_fields::PrintUnit| (unit.unit, unit.decimals);
        return Some((print(prints.inch), print(prints.metric), prints.halves));
    }
    Some(match fact {
        "bmep.at-power" | "bearing.gas-pressure" => (("psi", 0), ("bar", 0), false),
        "rod.modulus" => (("ksi", 0), ("MPa", 0), false),
        "rod.density" => (("g/cc", 2), ("g/cc", 2), false),
        "displacement" => (("in³", 0), ("cc", 0), false),
        "lash.hot.predicted" | "lash.hot.difference" | "lash.growth" => (("thou", 0), ("mm", 2), true),
        "spring.bind-margin" => (("thou", 0), ("mm", 2), false),
        "valve.lift.from-lobe" => (("in", 3), ("mm", 2), false),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::{Bound, Figure};
    use thou_contract::{Kind, System};

    fn figure(fact: &str, kind: &str, system: System) -> Figure {
        Figure::of(fact, Kind::by_id(kind).unwrap(), system)
    }

    #[test]
    fn a_vacuum_prints_in_mercury_and_a_pressure_does_not() {
        let seat = figure("seat.vacuum", "pressure", System::Inch);
        assert_eq!(seat.text(20.0 * 3_386.389), "20 inHg");
        assert_eq!(figure("boost", "pressure", System::Inch).text(6_894.757_293_168), "1.0 psi");
        assert_eq!(figure("seat.vacuum.min", "pressure", System::Metric).text(67_728.0), "68 kPa");
    }

    #[test]
    fn angles_and_lash_print_in_halves_and_round_inward_by_halves() {
        let angle = figure("cam.centre-line.inlet", "angle", System::Inch);
        assert_eq!(angle.text(107f64.to_radians()), "107 deg");
        assert_eq!(angle.text(107.3f64.to_radians()), "107.5 deg");
        assert_eq!(angle.show(angle.inward(102.2f64.to_radians(), true, 0), 0), "102.5");
        let lash = figure("lash.cold", "clearance", System::Inch);
        assert_eq!(lash.text(12.0 * 2.54e-5), "12 thou");
        assert_eq!(lash.number_with(12.26 * 2.54e-5, 1), "12.3");
        assert_eq!(figure("lash.cold", "clearance", System::Metric).text(12.0 * 2.54e-5), "0.30 mm");
    }

    #[test]
    fn what_is_only_a_bound_says_which_way() {
        let margin = |si, bound| figure("octane.margin", "octane", System::Inch).bounded("octane.margin", si, bound, 0);
        assert_eq!(margin(-8.0, Bound::OrLess), "8 or more short");
        assert_eq!(margin(3.0, Bound::OrLess), "3 or less");
        assert_eq!(margin(12.0, Bound::OrMore), "12 or more");
        let needed = figure("octane.needed", "octane", System::Metric);
        assert_eq!(needed.bounded("octane.needed", 80.0, Bound::OrLess, 0), "80 or less");
        let pressure = figure("boost", "pressure", System::Inch);
        assert_eq!(pressure.bounded("boost", 6_894.757_293, Bound::OrMore, 0), "1.0 psi or more");
    }

    #[test]
    fn one_month_is_not_months_and_nothing_is_minus_nothing() {
        let month = 365.25 * 86_400.0 / 12.0;
        assert_eq!(figure("damper.age", "span", System::Inch).text(month), "1 month");
        assert_eq!(figure("bore.taper", "clearance", System::Inch).text(-1e-9), "0.0 thou");
    }
}
