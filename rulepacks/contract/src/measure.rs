//! Dimensions of what an expression comes to, so that a length is never added to a pressure.

use crate::{KINDS, Kind};

/// Exponents of m, kg, s, K and rad. The radian counts (unlike in SI): a speed of rotation is no rate of anything else.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Dim([i16; 5]);

impl Dim {
    /// The same with the radian as the number one, as SI has it.
    #[must_use]
    pub const fn si(self) -> Self {
        let [m, kg, s, k, _] = self.0;
        Self([m, kg, s, k, 0])
    }

    /// To this power; none where an exponent would not be whole.
    #[must_use]
    pub fn power(self, power: f64) -> Option<Self> {
        let mut dim = self;
        for exponent in &mut dim.0 {
            let to = f64::from(*exponent) * power;
            if to.fract() != 0.0 || to.abs() > 100.0 {
                return None;
            }
            *exponent = to as i16;
        }
        Some(dim)
    }
}

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Measure {
    /// Its dimension.
    pub dim: Dim,
    /// A temperature on its scale, or a day: not to be added to another or doubled, unlike a difference.
    pub point: bool,
    /// A share, which is written in % or ppm: 10 would be a thousand percent.
    pub share: bool,
    /// Made of numbers without a unit alone.
    pub bare: bool,
}

impl Measure {
    /// A number without a unit.
    pub const BARE: Self = Self { dim: Dim([0; 5]), point: false, share: false, bare: true };

    /// Of a kind of quantity.
    #[must_use]
    pub fn of(kind: Kind) -> Self {
        let dim = Dim(match kind.id() {
            "acceleration" => [1, 0, -2, 0, 0],
            "angle" => [0, 0, 0, 0, 1],
            "angular-speed" => [0, 0, -1, 0, 1],
            "area" => [2, 0, 0, 0, 0],
            "clearance" | "gap" | "length" | "distance" | "film" | "roughness" => [1, 0, 0, 0, 0],
            "density" => [-3, 1, 0, 0, 0],
            "dynamic-viscosity" => [-1, 1, -1, 0, 0],
            "force" => [1, 1, -2, 0, 0],
            "kinematic-viscosity" => [2, 0, -1, 0, 0],
            "mass" => [0, 1, 0, 0, 0],
            "mass-flow" => [0, 1, -1, 0, 0],
            "power" => [2, 1, -3, 0, 0],
            "pressure" => [-1, 1, -2, 0, 0],
            "span" | "time" | "day" => [0, 0, 1, 0, 0],
            "specific-consumption" => [-2, 0, 2, 0, 0],
            "specific-power" => [-1, 1, -3, 0, 0],
            "speed" => [1, 0, -1, 0, 0],
            "spring-rate" => [0, 1, -2, 0, 0],
            "temperature" | "temperature-difference" => [0, 0, 0, 1, 0],
            "torque" => [2, 1, -2, 0, 0],
            "unbalance" => [1, 1, 0, 0, 0],
            "volume" => [3, 0, 0, 0, 0],
            "volume-flow" => [3, 0, -1, 0, 0],
            _ => [0; 5],
        });
        Self {
            dim,
            point: kind.id() == "temperature" || kind.is_day(),
            share: matches!(kind.id(), "percent" | "trace"),
            bare: false,
        }
    }

    /// As a sentence names it: "a length".
    #[must_use]
    pub fn name(self) -> String {
        if self.bare {
            return "a bare number".to_owned();
        }
        if self.dim == Dim::default() {
            return if self.share { "a share" } else { "a plain number" }.to_owned();
        }
        let first = ["length", "time", "day", "pressure", "force"];
        let kinds = first.into_iter().filter_map(Kind::by_id).chain(KINDS.iter().filter_map(|k| Kind::by_id(k.id)));
        let same = |k: &Kind| {
            let m = Self::of(*k);
            m.dim == self.dim && m.point == self.point
        };
        match kinds.into_iter().find(same) {
            Some(kind) => kind.noun().to_owned(),
            None => self.units(),
        }
    }

    fn units(self) -> String {
        let names = ["m", "kg", "s", "K", "rad"];
        let part = |(name, power): (&str, &i16)| match power {
            0 => None,
            1 => Some(name.to_owned()),
            p => Some(format!("{name}^{p}")),
        };
        let parts: Vec<String> = names.into_iter().zip(&self.dim.0).filter_map(part).collect();
        format!("something in {}", parts.join("·"))
    }

    /// Of a product, or with `-1` of a quotient.
    #[must_use]
    pub fn times(self, other: Self, sign: i16) -> Self {
        let mut dim = self.dim;
        for (mine, its) in dim.0.iter_mut().zip(other.dim.0) {
            *mine = mine.saturating_add(sign.saturating_mul(its));
        }
        Self { dim, point: false, share: false, bare: self.bare && other.bare }
    }

    /// Whether the two may stand on the two sides of a comparison.
    #[must_use]
    pub fn same(self, other: Self) -> bool {
        let bare_share = self.share && other.bare || self.bare && other.share;
        self.dim == other.dim && self.point == other.point && !bare_share
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn of(kind: &str) -> Measure {
        Measure::of(Kind::by_id(kind).unwrap())
    }

    #[test]
    fn what_is_dimensionless_is_said_to_be_so_on_purpose() {
        let zero: Vec<&str> = KINDS.iter().map(|k| k.id).filter(|k| of(k).dim == Dim::default()).collect();
        assert_eq!(zero, ["count", "octane", "passes", "percent", "ratio", "trace"]);
    }

    #[test]
    fn dimensions_agree_with_the_laws_that_join_them() {
        // ISO 80000-4: F = m a, p = F / A, P = F v, M = F r; ISO 80000-3 for the rest
        assert!(of("mass").times(of("acceleration"), 1).same(of("force")));
        assert!(of("force").times(of("area"), -1).same(of("pressure")));
        assert!(of("force").times(of("speed"), 1).same(of("power")));
        assert!(of("force").times(of("length"), 1).same(of("torque")));
        assert!(of("spring-rate").times(of("length"), 1).same(of("force")));
        assert!(of("density").times(of("volume-flow"), 1).same(of("mass-flow")));
        assert!(of("dynamic-viscosity").times(of("density"), -1).same(of("kinematic-viscosity")));
        assert!(of("specific-power").times(of("volume"), 1).same(of("power")));
        assert!(of("specific-consumption").times(of("power"), 1).same(of("mass-flow")));
        assert!(of("mass").times(of("length"), 1).same(of("unbalance")));
        assert!(of("area").times(of("length"), 1).same(of("volume")));
        assert!(of("angular-speed").times(of("time"), 1).same(of("angle")));
    }

    #[test]
    fn names_are_those_of_the_trade() {
        assert_eq!(of("clearance").name(), "a length");
        assert_eq!(of("temperature").name(), "a temperature");
        assert_eq!(of("temperature-difference").name(), "a temperature difference");
        assert_eq!(of("length").times(of("pressure"), 1).name(), "a spring rate");
        assert_eq!(of("length").times(of("power"), 1).name(), "something in m^3·kg·s^-3");
    }
}
