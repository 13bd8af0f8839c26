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
    /// After the point; -1 is to the ten.
    decimals: i32,
    /// Whether it is read to the half of its unit and no finer.
    half: bool,
    /// Whether a whole number stands without decimals: G 16 beside G 6.3.
    bare: bool,
    /// Whether it is a day of the calendar.
    day: bool,
}

/// Unit and decimals.
type UnitAndDecimals = (&'static str, i32);

impl Figure {
    /// How values of a kind print.
    #[must_use]
    pub fn of_kind(kind: Kind, system: System) -> Self {
        let print = kind.print(system);
        let half = kind.id() == "angle";
        Self::new(kind, (print.unit, if half { 0 } else { places(print.decimals) }), half)
    }

    /// How a fact prints.
    #[must_use]
    pub fn of(fact: &str, kind: Kind, system: System) -> Self {
        if matches!(fact, "spring.seat-load.spread" | "spring.load-loss" | "spring.load-loss.max") {
            return Self { unit: "%", factor: 0.01, offset: 0.0, decimals: 0, half: false, bare: false, day: false };
        }
        if matches!(fact, "balance.grade" | "balance.residual.grade") {
            return Self { unit: "", factor: 1.0, offset: 0.0, decimals: 1, half: false, bare: true, day: false };
        }
        match print_of(fact) {
            Some((inch, metric, half)) => Self::new(kind, if system == System::Inch { inch } else { metric }, half),
            None => Self::of_kind(kind, system),
        }
    }

    fn new(kind: Kind, (unit, decimals): UnitAndDecimals, half: bool) -> Self {
        let found = kind.spec().units.iter().find(|u| u.name == unit);
        let (factor, offset) = found.map_or((1.0, 0.0), |u| (u.factor, u.offset));
        Self {
            unit,
            factor,
            offset,
            decimals,
            half: half && matches!(unit, "thou" | "deg"),
            bare: false,
            day: kind.is_day(),
        }
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
        if self.day {
            return thou_contract::day_text(si);
        }
        let step = self.step(more);
        let rounded = (self.in_unit(si) / step).round() * step;
        self.show(if rounded.is_finite() { rounded } else { self.in_unit(si) }, more)
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
        let own = usize::try_from(self.decimals + places(more)).unwrap_or(0);
        let decimals = match (self.half, self.bare) {
            (true, _) if more == 0 => usize::from(!whole),
            (_, true) if whole => 0,
            _ => own,
        };
        let text = thou_contract::short(number, decimals);
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
        10f64.powi(-self.decimals - places(more))
    }

    /// The number and how far it is known: two digits of the expanded uncertainty at the most, and the number to the same
    /// place (JCGM 100:2008, 7.2.6); the number alone where two decimals more than the trade's do not show it, or where
    /// the trade prints no units.
    #[must_use]
    pub fn known(self, si: f64, expanded: f64) -> (String, Option<String>) {
        let most = if self.decimals < 0 { 0 } else { 2 };
        let shows = |digits: &usize| self.number_with(expanded, *digits).parse() != Ok(0.0);
        let Some(digits) = (0..=most).find(shows) else { return (self.number(si), None) };
        let of_it = 10f64.powf((expanded / self.factor).abs().log10().floor() - 1.0);
        let step = self.step(digits).max(of_it);
        let to = |number: f64| self.show((number / step).round() * step, digits);
        (to(self.in_unit(si)), Some(to(expanded / self.factor)))
    }
}

fn places(decimals: usize) -> i32 {
    i32::try_from(decimals).unwrap_or(0)
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
        let print = |unit: thou_fields::PrintUnit| (unit.unit, places(unit.decimals));
        return Some((print(prints.inch), print(prints.metric), prints.halves));
    }
    Some(match fact {
        "bearing.gas-pressure"
        | "peak-pressure.best"
        | "cylinder.friction-pressure"
        | "cylinder.pumping-pressure"
        | "cylinder.closing-pressure" => (("psi", 0), ("bar", 1), false),
        "bmep.at-power"
        | "bmep.at-torque"
        | "bmep.at-shift"
        | "bmep.at-lights"
        | "bmep.after-shift"
        | "cylinder.indicated-pressure" => (("psi", 0), ("bar", 1), false),
        // models good to a tenth
        "cylinder.peak-pressure"
        | "cylinder.modelled-peak"
        | "cylinder.modelled-peak.at-torque"
        | "cylinder.modelled-peak.at-shift"
        | "cylinder.modelled-peak.at-lights"
        | "cylinder.modelled-peak.after-shift"
        | "bearing.gas-pressure.at-power"
        | "bearing.gas-pressure.at-torque"
        | "end-gas.pressure"
        | "rod-bearing.load.unit"
        | "rod-bearing.load.unit.at-over-rev"
        | "main-bearing.load.unit" => (("psi", -1), ("bar", 0), false),
        "rod-bearing.load.peak"
        | "rod-bearing.load.peak.at-shift"
        | "rod-bearing.load.peak.at-torque"
        | "rod-bearing.load.peak.at-over-rev"
        | "main-bearing.load.peak"
        | "main-bearing.load.peak.at-shift"
        | "main-bearing.load.peak.at-torque"
        | "main-bearing.load.peak.at-over-rev" => (("lbf", -1), ("N", -1), false),
        "rod.modulus" | "fastener.modulus" | "spring.shear-modulus" => (("Mpsi", 1), ("GPa", 0), false),
        "rod-bolt.endurance"
        | "rod-bolt.stress"
        | "rod-bolt.torque-stress"
        | "head-fastener.torque-stress"
        | "main-fastener.torque-stress"
        | "spring.stress.seat"
        | "spring.stress.open"
        | "spring.wire-strength" => (("psi", -2), ("MPa", 0), false),
        "vehicle.mass" => (("lb", 0), ("kg", 0), false),
        "crank.mass" | "rotor.mass" => (("lb", 1), ("kg", 2), false),
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
    fn a_figure_prints_to_what_it_knows() {
        let stress = figure("rod-bolt.endurance", "pressure", System::Inch);
        // 176 MPa with ±16.2: psi by 6,894.757 Pa
        assert_eq!(stress.known(176e6, 16.166e6), ("25500".to_owned(), Some("2300".to_owned())));
        assert_eq!(figure("rod.modulus", "pressure", System::Inch).text(205e9), "29.7 Mpsi");
        assert_eq!(figure("rod.modulus", "pressure", System::Metric).text(205e9), "205 GPa");
        // 30.57 MPa is 4,433.8 psi
        assert_eq!(figure("main-bearing.load.unit", "pressure", System::Inch).text(30.57e6), "4430 psi");
        let grade = figure("balance.grade", "ratio", System::Inch);
        assert_eq!([16.0, 6.3, 250.0].map(|g| grade.text(g)), ["16", "6.3", "250"]);
        // a model that prints to the ten says no unit of it
        let load = figure("main-bearing.load.unit", "pressure", System::Inch);
        assert_eq!(load.known(32.611e6, 2e3), ("4730".to_owned(), None));
        // what is known better than its last digit keeps the decimals that show it
        let clearance = figure("bore.taper", "clearance", System::Inch);
        assert_eq!(clearance.known(2.553 * 2.54e-5, 0.021 * 2.54e-5), ("2.55".to_owned(), Some("0.02".to_owned())));
        let inward = figure("rod-bolt.endurance", "pressure", System::Inch);
        assert_eq!(inward.show(inward.inward(176e6, true, 0), 0), "25600");
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
