//! Air, fuel vapour and burned gas as ideal gases whose heat capacity follows temperature.
//!
//! NASA polynomials with seven coefficients, 200 to 6000 K in two ranges that meet at 1000 K: McBride, Gordon and Reno,
//! Coefficients for Calculating Thermodynamic and Transport Properties of Individual Species, NASA TM-4513, 1993. No
//! species dissociates: above some 2300 K real burned gas is a few per cent cooler than this one.

use crate::species::{NasaPolynomial, Species};

/// Molar gas constant, J/(mol·K); exact since 2019.
pub const MOLAR: f64 = 8.314_462_618_153_24;
/// Where the two ranges of the polynomials meet, K.
const MIDDLE: f64 = 1000.0;
/// What the polynomials hold for, K.
const RANGE: std::ops::RangeInclusive<f64> = 200.0..=6000.0;
/// Where heats of combustion are quoted, K.
const REFERENCE: f64 = 298.15;
/// The water-gas reaction is taken as frozen at this temperature, K. Heywood 1988, section 4.9, from Spindt.
const FROZEN: f64 = 1740.0;

/// One gas or a mixture of fixed composition, per kg. NaN outside 200 to 6000 K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gas {
    /// Gas constant, J/(kg·K).
    pub constant: f64,
    low: NasaPolynomial,
    high: NasaPolynomial,
}

impl Gas {
    /// A mixture of so many moles of each; NaN throughout where there is nothing in it.
    #[must_use]
    pub fn mixture(parts: &[(Species, f64)]) -> Self {
        let mass: f64 = parts.iter().map(|(s, n)| s.molar_mass() * n).sum();
        let moles: f64 = parts.iter().map(|(_, n)| n).sum();
        let (mut low, mut high) = ([0.0; 7], [0.0; 7]);
        for (species, n) in parts {
            let [cold, hot] = species.polynomials();
            let share = n * MOLAR / mass;
            add(&mut low, &cold, share);
            add(&mut high, &hot, share);
        }
        Self { constant: moles * MOLAR / mass, low, high }
    }

    /// Two gases by mass: `share` of `other`, 0 to 1, in this one. The entropy leaves out that of mixing, which does
    /// not change while the composition does not.
    #[must_use]
    pub fn with(&self, other: &Self, share: f64) -> Self {
        let (mut low, mut high) = ([0.0; 7], [0.0; 7]);
        add(&mut low, &self.low, 1.0 - share);
        add(&mut low, &other.low, share);
        add(&mut high, &self.high, 1.0 - share);
        add(&mut high, &other.high, share);
        Self { constant: (1.0 - share) * self.constant + share * other.constant, low, high }
    }

    fn at(&self, temperature: f64) -> Option<&NasaPolynomial> {
        RANGE.contains(&temperature).then_some(if temperature < MIDDLE { &self.low } else { &self.high })
    }

    /// Heat capacity at constant pressure, J/(kg·K), at a temperature in K.
    #[must_use]
    pub fn heat_capacity(&self, temperature: f64) -> f64 {
        let t = temperature;
        self.at(t).map_or(f64::NAN, |[a, b, c, d, e, ..]| a + t * (b + t * (c + t * (d + t * e))))
    }

    /// Enthalpy with that of formation, J/kg, at a temperature in K.
    #[must_use]
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        let t = temperature;
        self.at(t).map_or(f64::NAN, |[a, b, c, d, e, f, _]| {
            f + t * (a + t * (b / 2.0 + t * (c / 3.0 + t * (d / 4.0 + t * e / 5.0))))
        })
    }

    /// Heat capacity and enthalpy at one temperature, in one walk; past 200 to 6000 K the polynomial of that end.
    pub(crate) fn both(&self, temperature: f64) -> (f64, f64) {
        let t = temperature;
        let [a, b, c, d, e, f, _] = if t < MIDDLE { &self.low } else { &self.high };
        let (b, c, d, e) = (b * t, c * t * t, d * t * t * t, e * t * t * t * t);
        (a + b + c + d + e, f + t * (a + b / 2.0 + c / 3.0 + d / 4.0 + e / 5.0))
    }

    /// Internal energy with that of formation, J/kg, at a temperature in K.
    #[must_use]
    pub fn energy(&self, temperature: f64) -> f64 {
        self.enthalpy(temperature) - self.constant * temperature
    }

    /// Entropy at one bar, J/(kg·K), without that of mixing, at a temperature in K.
    #[must_use]
    pub fn entropy(&self, temperature: f64) -> f64 {
        let t = temperature;
        self.at(t).map_or(f64::NAN, |[a, b, c, d, e, _, g]| {
            a * t.ln() + t * (b + t * (c / 2.0 + t * (d / 3.0 + t * e / 4.0))) + g
        })
    }

    /// Ratio of heat capacities at a temperature in K.
    #[must_use]
    pub fn gamma(&self, temperature: f64) -> f64 {
        let cp = self.heat_capacity(temperature);
        cp / (cp - self.constant)
    }

    /// Temperature, K, after a change of pressure without heat or loss, from a temperature in K; `ratio` of the
    /// pressures after and before, > 0. Newton on the entropy, from the answer for a constant heat capacity.
    #[must_use]
    pub fn isentropic(&self, temperature: f64, ratio: f64) -> f64 {
        let change = self.constant * ratio.ln();
        self.isentropic_from(temperature, ratio, temperature * (change / self.heat_capacity(temperature)).exp())
    }

    /// The same from a guess near the answer, K.
    #[must_use]
    pub(crate) fn isentropic_from(&self, temperature: f64, ratio: f64, guess: f64) -> f64 {
        let wanted = self.entropy(temperature) + self.constant * ratio.ln();
        let mut t = guess.clamp(*RANGE.start(), *RANGE.end());
        for _ in 0..12 {
            let step = (self.entropy(t) - wanted) / self.heat_capacity(t) * t;
            t -= step;
            if step.is_nan() || step.abs() < 1e-9 * t {
                break;
            }
        }
        t
    }
}

fn add(sum: &mut NasaPolynomial, of: &NasaPolynomial, share: f64) {
    for (s, x) in sum.iter_mut().zip(of) {
        *s += share * x;
    }
}

// Moles in one mole of dry air; ISO 2533:1975, table 1.
const NITROGEN: f64 = 0.780_84;
const OXYGEN: f64 = 0.209_476;
const ARGON: f64 = 0.009_34;
const CARBON_DIOXIDE: f64 = 0.000_314;
const AIR: [(Species, f64); 4] =
    [(Species::N2, NITROGEN), (Species::O2, OXYGEN), (Species::Ar, ARGON), (Species::CO2, CARBON_DIOXIDE)];

/// Dry air.
#[must_use]
pub fn air() -> Gas {
    Gas::mixture(&AIR)
}

/// Mass of one mole of dry air, kg.
#[must_use]
pub fn air_molar_mass() -> f64 {
    AIR.iter().map(|(s, n)| s.molar_mass() * n).sum()
}

/// What a fuel is made of, moles of each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blend {
    /// 2,2,4-trimethylpentane.
    pub iso_octane: f64,
    /// Toluene.
    pub toluene: f64,
    /// Ethanol.
    pub ethanol: f64,
    /// Methanol.
    pub methanol: f64,
}

impl Blend {
    /// Nothing in it yet.
    pub const EMPTY: Self = Self { iso_octane: 0.0, toluene: 0.0, ethanol: 0.0, methanol: 0.0 };
    /// A petrol of 1.87 hydrogen atoms to one of carbon, of iso-octane and toluene: what stands for it in the cylinder.
    /// The ratio is Heywood's 1988 for a usual petrol (table D.4).
    pub const PETROL: Self = Self { iso_octane: 0.626, toluene: 0.374, ..Self::EMPTY };
    /// Ethanol alone.
    pub const ETHANOL: Self = Self { ethanol: 1.0, ..Self::EMPTY };
    /// Methanol alone.
    pub const METHANOL: Self = Self { methanol: 1.0, ..Self::EMPTY };

    /// Petrol with ethanol, whose share by mass is 0 to 1.
    #[must_use]
    pub fn petrol_with_ethanol(share: f64) -> Self {
        let petrol = (1.0 - share) / Self::PETROL.mass();
        Self {
            iso_octane: petrol * Self::PETROL.iso_octane,
            toluene: petrol * Self::PETROL.toluene,
            ethanol: share / Species::C2H5OH.molar_mass(),
            methanol: 0.0,
        }
    }

    fn parts(&self) -> [(Species, f64); 4] {
        [
            (Species::C8H18, self.iso_octane),
            (Species::C7H8, self.toluene),
            (Species::C2H5OH, self.ethanol),
            (Species::CH3OH, self.methanol),
        ]
    }

    /// Its mass, kg.
    #[must_use]
    pub fn mass(&self) -> f64 {
        self.parts().iter().map(|(s, n)| s.molar_mass() * n).sum()
    }

    /// Atoms of carbon, hydrogen and oxygen, mol.
    fn atoms(&self) -> (f64, f64, f64) {
        let Self { iso_octane: i, toluene: t, ethanol: e, methanol: m } = self;
        (8.0 * i + 7.0 * t + 2.0 * e + m, 18.0 * i + 8.0 * t + 6.0 * e + 4.0 * m, e + m)
    }

    /// Hydrogen atoms to one of carbon.
    #[must_use]
    pub fn hydrogen_to_carbon(&self) -> f64 {
        let (c, h, _) = self.atoms();
        h / c
    }

    /// Moles of air that burn it wholly.
    fn air_moles(&self) -> f64 {
        let (c, h, o) = self.atoms();
        (c + h / 4.0 - o / 2.0) / OXYGEN
    }

    /// Air that burns it wholly, kg to one of fuel. Heywood 1988, eq. 3.6.
    #[must_use]
    pub fn stoichiometric(&self) -> f64 {
        self.air_moles() * air_molar_mass() / self.mass()
    }

    /// Air with its vapour; `richness` is the fuel over what the air could burn, 0 and up.
    #[must_use]
    pub fn mixed(&self, richness: f64) -> Gas {
        let fuel = Gas::mixture(&self.parts());
        let share = richness / (richness + self.stoichiometric());
        air().with(&fuel, share)
    }

    /// What burning leaves: carbon dioxide, water, nitrogen and argon, with oxygen where it was lean, with carbon
    /// monoxide and hydrogen by the water-gas equilibrium at 1740 K where it was rich. NaN where there is too little
    /// air even for carbon monoxide. Heywood 1988, section 4.9.
    #[must_use]
    pub fn burned(&self, richness: f64) -> Gas {
        let (c, h, o) = self.atoms();
        let (c, h, o) = (richness * c, richness * h, richness * o);
        let air = self.air_moles();
        let carbon = c + air * CARBON_DIOXIDE;
        let oxygen = o + 2.0 * air * (OXYGEN + CARBON_DIOXIDE);
        let spare = oxygen - 2.0 * carbon - h / 2.0;
        let co = if spare >= 0.0 { 0.0 } else { monoxide(carbon, h, oxygen) };
        let water = if spare >= 0.0 { h / 2.0 } else { oxygen - 2.0 * carbon + co };
        Gas::mixture(&[
            (Species::N2, air * NITROGEN),
            (Species::Ar, air * ARGON),
            (Species::O2, spare.max(0.0) / 2.0),
            (Species::CO2, carbon - co),
            (Species::CO, co),
            (Species::H2O, water),
            (Species::H2, h / 2.0 - water),
        ])
    }

    /// Lower heating value of its vapour at 25 °C, J/kg: what burning it with just enough air gives off.
    #[must_use]
    pub fn heating_value(&self) -> f64 {
        let given = self.mixed(1.0).enthalpy(REFERENCE) - self.burned(1.0).enthalpy(REFERENCE);
        given * (1.0 + self.stoichiometric())
    }
}

/// Moles of carbon monoxide in a rich burned gas of so many atoms: CO2 + H2 = CO + H2O in equilibrium at 1740 K.
fn monoxide(carbon: f64, hydrogen: f64, oxygen: f64) -> f64 {
    let k = water_gas(FROZEN);
    // b (o - 2c + b) = k (c - b) (h/2 - o + 2c - b), in b
    let water = oxygen - 2.0 * carbon;
    let left = hydrogen / 2.0 - water;
    let (p, q, r) = (1.0 - k, water + k * (carbon + left), -k * carbon * left);
    let root = (q * q - 4.0 * p * r).sqrt();
    let co = -2.0 * r / (q + root);
    if (0.0..=carbon).contains(&co) && water + co >= 0.0 { co } else { f64::NAN }
}

/// Equilibrium constant of CO2 + H2 = CO + H2O at a temperature in K, from the species' own polynomials.
#[must_use]
pub fn water_gas(temperature: f64) -> f64 {
    let free = |s: Species| {
        let gas = Gas::mixture(&[(s, 1.0)]);
        (gas.enthalpy(temperature) - temperature * gas.entropy(temperature)) * s.molar_mass()
    };
    let change = free(Species::CO) + free(Species::H2O) - free(Species::CO2) - free(Species::H2);
    (-change / (MOLAR * temperature)).exp()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const BLENDS: [Blend; 3] = [Blend::PETROL, Blend::ETHANOL, Blend::METHANOL];

    fn gases() -> Vec<Gas> {
        let mut all = vec![air()];
        for blend in BLENDS {
            for richness in [0.7, 1.0, 1.3] {
                all.extend([blend.mixed(richness), blend.burned(richness)]);
            }
        }
        all
    }

    #[test]
    fn the_two_ranges_meet() {
        for gas in gases() {
            for (what, below, above) in [
                ("cp", gas.heat_capacity(999.999_999), gas.heat_capacity(1000.0)),
                ("h", gas.enthalpy(999.999_999), gas.enthalpy(1000.0)),
                ("s", gas.entropy(999.999_999), gas.entropy(1000.0)),
            ] {
                assert!((below / above - 1.0).abs() < 2e-4, "{what}: {below} {above}");
            }
        }
    }

    #[test]
    fn heat_capacity_is_the_slope_of_enthalpy_and_of_entropy() {
        for gas in gases() {
            for t in [220.0, 300.0, 650.0, 990.0, 1010.0, 2400.0, 5900.0] {
                let d = 1e-3 * t;
                let slope = (gas.enthalpy(t + d) - gas.enthalpy(t - d)) / (2.0 * d);
                assert!((slope / gas.heat_capacity(t) - 1.0).abs() < 2e-5, "{t}");
                let slope = (gas.entropy(t + d) - gas.entropy(t - d)) / (2.0 * d) * t;
                assert!((slope / gas.heat_capacity(t) - 1.0).abs() < 2e-5, "{t}");
            }
        }
    }

    #[test]
    fn isentropic_change_keeps_entropy_and_goes_back() {
        for gas in gases() {
            for ratio in [0.2, 1.0, 1.7, 12.0, 60.0] {
                let t = gas.isentropic(400.0, ratio);
                let change = gas.entropy(t) - gas.entropy(400.0) - gas.constant * ratio.ln();
                assert!(change.abs() < 1e-6, "{ratio}: {change}");
                assert!((gas.isentropic(t, 1.0 / ratio) - 400.0).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn burning_is_mass_balanced_across_the_rich_border() {
        for blend in BLENDS {
            let (lean, rich) = (blend.burned(1.0 - 1e-9), blend.burned(1.0 + 1e-9));
            assert!((lean.constant / rich.constant - 1.0).abs() < 1e-7);
            assert!((lean.enthalpy(2000.0) / rich.enthalpy(2000.0) - 1.0).abs() < 1e-6);
            // richer gives less heat a kilogram of fuel, and more a kilogram of air up to a point
            let heat = |r: f64| (blend.mixed(r).enthalpy(300.0) - blend.burned(r).enthalpy(300.0)) / r;
            assert!(heat(1.0) > heat(1.1) && heat(1.1) > heat(1.3));
        }
    }

    #[test]
    fn nothing_outside_the_polynomials() {
        for t in [-1.0, 0.0, 199.0, 6001.0, 1e300, f64::MIN_POSITIVE] {
            assert!(air().heat_capacity(t).is_nan() && air().enthalpy(t).is_nan() && air().entropy(t).is_nan());
        }
        assert!(Blend::PETROL.burned(4.0).constant.is_nan());
    }
}
