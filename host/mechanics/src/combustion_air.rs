//! What a fuel needs to burn: stoichiometry from its atoms, flows of air and fuel, injectors and jets, and how far a fuel
//! that boils cools the air it goes into.

use crate::fuel::Fuel;
use std::f64::consts::PI;

/// Share of oxygen in dry air, by volume. US Standard Atmosphere 1976: 0.209476, as usually rounded.
pub const OXYGEN_SHARE: f64 = 0.2095;
/// Molar mass of dry air, kg/mol. US Standard Atmosphere 1976: 28.9644 g/mol.
pub const AIR_MOLAR_MASS: f64 = 28.965e-3;
/// Heat capacity of dry air at constant pressure near 300 K, J/(kg·K). Heywood 1988, appendix D; from memory.
pub const AIR_HEAT_CAPACITY: f64 = 1_005.0;

/// The atoms of a fuel: of one molecule, or, of a petrol, for each atom of carbon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Carbon atoms.
    pub carbon: f64,
    /// Hydrogen atoms.
    pub hydrogen: f64,
    /// Oxygen atoms.
    pub oxygen: f64,
    /// Nitrogen atoms, which leave as they came but weigh.
    pub nitrogen: f64,
}

/// Iso-octane, C8H18.
pub const ISO_OCTANE: Composition = Composition::of(8.0, 18.0, 0.0, 0.0);
/// Petrol without alcohol as CH1.87. Heywood 1988, section 3.5.
pub const PETROL: Composition = Composition::of(1.0, 1.87, 0.0, 0.0);
/// Methanol, CH4O.
pub const METHANOL: Composition = Composition::of(1.0, 4.0, 1.0, 0.0);
/// Ethanol, C2H6O.
pub const ETHANOL: Composition = Composition::of(2.0, 6.0, 1.0, 0.0);
/// Toluene, C7H8.
pub const TOLUENE: Composition = Composition::of(7.0, 8.0, 0.0, 0.0);
/// Nitromethane, CH3NO2.
pub const NITROMETHANE: Composition = Composition::of(1.0, 3.0, 2.0, 1.0);

impl Composition {
    /// These numbers of atoms; none may be negative.
    #[must_use]
    pub const fn of(carbon: f64, hydrogen: f64, oxygen: f64, nitrogen: f64) -> Self {
        Self { carbon, hydrogen, oxygen, nitrogen }
    }

    /// Molar mass, kg/mol. IUPAC 2021, abridged atomic weights.
    #[must_use]
    pub fn molar_mass(self) -> f64 {
        1e-3 * (12.011 * self.carbon + 1.008 * self.hydrogen + 15.999 * self.oxygen + 14.007 * self.nitrogen)
    }

    /// Molecules of oxygen from the air for one of the fuel, burnt to carbon dioxide, water and nitrogen; negative where
    /// the fuel carries more than it needs.
    #[must_use]
    pub fn oxygen_need(self) -> f64 {
        self.carbon + self.hydrogen / 4.0 - self.oxygen / 2.0
    }

    /// Mass of dry air that just burns one of the fuel; NaN for what weighs nothing or needs no air. Heywood 1988,
    /// eq. 3.6, with the fuel's own oxygen and nitrogen.
    #[must_use]
    pub fn stoichiometric_ratio(self) -> f64 {
        let (mass, need) = (self.molar_mass(), self.oxygen_need());
        if mass > 0.0 && need >= 0.0 { need / OXYGEN_SHARE * AIR_MOLAR_MASS / mass } else { f64::NAN }
    }
}

/// One liquid of a blend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlendPart {
    /// Share by volume, before mixing; the shares need not add up to one.
    pub volume: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Its stoichiometric ratio.
    pub ratio: f64,
}

/// Stoichiometric ratio of a blend by volume: the ratios weighed by mass. NaN for an empty blend.
#[must_use]
pub fn blend_ratio(parts: &[BlendPart]) -> f64 {
    let mass = blend_mass(parts);
    if mass > 0.0 { parts.iter().map(|p| p.volume * p.density * p.ratio).sum::<f64>() / mass } else { f64::NAN }
}

/// Share by mass of the first liquid of a blend; NaN for an empty one.
#[must_use]
pub fn mass_share(parts: &[BlendPart]) -> f64 {
    let mass = blend_mass(parts);
    match parts.first() {
        Some(first) if mass > 0.0 => first.volume * first.density / mass,
        _ => f64::NAN,
    }
}

fn blend_mass(parts: &[BlendPart]) -> f64 {
    parts.iter().map(|p| p.volume * p.density).sum()
}

/// Ethanol in petrol, by volume 0 to 1: its stoichiometric ratio; NaN outside. Densities: the middle of
/// [`crate::fuel::density`].
#[must_use]
pub fn ethanol_blend(share: f64) -> f64 {
    if !(0.0..=1.0).contains(&share) {
        return f64::NAN;
    }
    blend_ratio(&in_petrol(share))
}

/// The same for the heat to boil it, J/kg.
#[must_use]
pub fn ethanol_blend_latent_heat(share: f64) -> f64 {
    if !(0.0..=1.0).contains(&share) {
        return f64::NAN;
    }
    let by_mass = mass_share(&in_petrol(share));
    by_mass * latent_heat(Fuel::Ethanol) + (1.0 - by_mass) * latent_heat(Fuel::Petrol)
}

fn in_petrol(share: f64) -> [BlendPart; 2] {
    let part = |volume, fuel, atoms: Composition| {
        let (low, high) = crate::fuel::density(fuel);
        BlendPart { volume, density: f64::midpoint(low, high), ratio: atoms.stoichiometric_ratio() }
    };
    [part(share, Fuel::Ethanol, ETHANOL), part(1.0 - share, Fuel::Petrol, PETROL)]
}

/// Whose figures [`usual_ethanol`] are.
pub const ETHANOL_SOURCE: &str = "ASTM D5798: 51 to 83 % in E85; ASTM D4814 and the pump: up to 10 %, from memory";

/// Ethanol by volume that a fuel has as it is sold, low and high; none where it has nothing to do with it.
#[must_use]
pub fn usual_ethanol(fuel: Fuel, from_the_pump: bool) -> (f64, f64) {
    match fuel {
        Fuel::Petrol if from_the_pump => (0.0, 0.10),
        Fuel::Petrol | Fuel::Methanol => (0.0, 0.0),
        Fuel::E85 => (0.51, 0.83),
        Fuel::Ethanol => (1.0, 1.0),
    }
}

/// Whose figures [`usual_lambda`] are.
pub const LAMBDA_SOURCE: &str =
    "mixture at full power, air over the air that would just do; common practice, no source";

/// Usual mixture at full power, low and high: air over the air that would just burn the fuel. Two schools of methanol:
/// for power, and rich for a cool and forgiving engine; the range spans both.
#[must_use]
pub fn usual_lambda(fuel: Fuel, boosted: bool) -> (f64, f64) {
    match (fuel, boosted) {
        (Fuel::Petrol, false) => (0.84, 0.90),
        (Fuel::Petrol, true) => (0.76, 0.84),
        (Fuel::E85 | Fuel::Ethanol, false) => (0.80, 0.88),
        (Fuel::E85 | Fuel::Ethanol, true) => (0.75, 0.82),
        (Fuel::Methanol, false) => (0.72, 0.85),
        (Fuel::Methanol, true) => (0.65, 0.78),
    }
}

/// Whose figures [`latent_heat`] and [`heating_value`] are.
pub const HEAT_SOURCE: &str = "US Department of Energy, Alternative Fuels Data Center, fuel properties";

const BTU_PER_LB: f64 = 1_055.055_852_62 / 0.453_592_37;

/// Heat to boil a fuel, J/kg; of E85, ethanol alone: see [`ethanol_blend_latent_heat`].
#[must_use]
pub fn latent_heat(fuel: Fuel) -> f64 {
    match fuel {
        Fuel::Petrol => 150.0 * BTU_PER_LB,
        Fuel::E85 | Fuel::Ethanol => 396.0 * BTU_PER_LB,
        Fuel::Methanol => 506.0 * BTU_PER_LB,
    }
}

/// Lower heating value of a fuel, J/kg; of E85, ethanol alone.
#[must_use]
pub fn heating_value(fuel: Fuel) -> f64 {
    match fuel {
        Fuel::Petrol => 18_676.0 * BTU_PER_LB,
        Fuel::E85 | Fuel::Ethanol => 11_585.0 * BTU_PER_LB,
        Fuel::Methanol => 8_637.0 * BTU_PER_LB,
    }
}

/// Something of a fuel (its heat to boil, its heating value, J/kg) for each kg of the air it burns with: J/kg of air.
/// NaN unless the mixture, air over fuel by mass, is greater than zero.
#[must_use]
pub fn for_the_air(of_the_fuel: f64, air_over_fuel: f64) -> f64 {
    if air_over_fuel > 0.0 { of_the_fuel / air_over_fuel } else { f64::NAN }
}

/// How far boiling fuel cools its air, K: heat to boil in J/kg, air over fuel by mass, `boiled` the share that boils in
/// the air and not on a wall. The heat held by the vapour and the fuel is left out, so this is some 10 % much.
#[must_use]
pub fn charge_cooling(latent: f64, air_over_fuel: f64, boiled: f64) -> f64 {
    boiled * for_the_air(latent, air_over_fuel) / AIR_HEAT_CAPACITY
}

/// Air that a flow of fuel needs, kg/s: fuel in kg/s, stoichiometric ratio, mixture `lambda` (1 just burns it).
#[must_use]
pub fn air_need(fuel: f64, ratio: f64, lambda: f64) -> f64 {
    fuel * ratio * lambda
}

/// Flow of an injector at another pressure across it, in the unit of `rated`: square root of the ratio of pressures in
/// Pa; NaN unless the rated one is greater than zero and the other not negative. Bernoulli; holds for one liquid.
#[must_use]
pub fn injector_flow(rated: f64, rated_pressure: f64, pressure: f64) -> f64 {
    if rated_pressure > 0.0 && pressure >= 0.0 { rated * (pressure / rated_pressure).sqrt() } else { f64::NAN }
}

/// Share of the time that `count` injectors must be open: need and flow of one, wide open, in the same unit. NaN unless
/// they flow at all.
#[must_use]
pub fn injector_duty(need: f64, count: f64, flow: f64) -> f64 {
    let all = count * flow;
    if all > 0.0 { need / all } else { f64::NAN }
}

/// What `count` injectors deliver wide open over the need: the reciprocal of the duty. NaN unless the need is greater
/// than zero.
#[must_use]
pub fn injector_margin(need: f64, count: f64, flow: f64) -> f64 {
    if need > 0.0 { count * flow / need } else { f64::NAN }
}

/// Flow of a jet or a nozzle, m³/s: bore in m, coefficient of discharge, pressure across it in Pa, density in kg/m³.
/// NaN unless pressure and density are not negative and greater than zero. Heywood 1988, eq. 7.16.
#[must_use]
pub fn jet_flow(bore: f64, discharge: f64, pressure: f64, density: f64) -> f64 {
    if density > 0.0 && pressure >= 0.0 {
        discharge * PI / 4.0 * bore * bore * (2.0 * pressure / density).sqrt()
    } else {
        f64::NAN
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mixture_in_moles_burns_as_its_parts_do() {
        // one molecule of each together is a fuel of all their atoms: its ratio is the mean by mass
        let (a, b) = (ISO_OCTANE, ETHANOL);
        let both = Composition::of(a.carbon + b.carbon, a.hydrogen + b.hydrogen, a.oxygen + b.oxygen, 0.0);
        let parts = [(a, a.molar_mass()), (b, b.molar_mass())].map(|(c, mass)| BlendPart {
            volume: 1.0,
            density: mass,
            ratio: c.stoichiometric_ratio(),
        });
        assert!((both.stoichiometric_ratio() - blend_ratio(&parts)).abs() < 1e-12);
    }

    #[test]
    fn more_ethanol_needs_less_air() {
        let ratios: Vec<f64> = (0..=100).map(|p| ethanol_blend(f64::from(p) / 100.0)).collect();
        assert!(ratios.iter().zip(ratios.iter().skip(1)).all(|(a, b)| a > b));
        assert_eq!(ratios.first().copied(), Some(PETROL.stoichiometric_ratio()));
        assert_eq!(ratios.last().copied(), Some(ETHANOL.stoichiometric_ratio()));
        assert!(ethanol_blend(1.01).is_nan() && ethanol_blend(-0.01).is_nan());
        assert_eq!(ethanol_blend_latent_heat(0.0), latent_heat(Fuel::Petrol));
        assert_eq!(ethanol_blend_latent_heat(1.0), latent_heat(Fuel::Ethanol));
        assert!(ethanol_blend_latent_heat(1.01).is_nan());
    }

    #[test]
    fn carbon_alone_and_hydrogen_alone_burn_as_the_handbook_has_it() {
        // 2.667 and 7.937 kg of oxygen for a kg; oxygen is 23.14 % of dry air by mass
        let by_mass = OXYGEN_SHARE * 31.998e-3 / AIR_MOLAR_MASS;
        for (fuel, oxygen) in
            [(Composition::of(1.0, 0.0, 0.0, 0.0), 2.664), (Composition::of(0.0, 2.0, 0.0, 0.0), 7.936)]
        {
            assert!((fuel.stoichiometric_ratio() * by_mass - oxygen).abs() < 1e-3);
        }
        assert!(Composition::of(0.0, 0.0, 2.0, 0.0).stoichiometric_ratio().is_nan());
        assert!(Composition::of(0.0, 0.0, 0.0, 0.0).stoichiometric_ratio().is_nan());
    }

    #[test]
    fn scales_and_limits() {
        let flow = injector_flow(1.0, 3e5, 4e5);
        assert!((injector_flow(2.0, 3e5, 4e5) - 2.0 * flow).abs() < 1e-15);
        assert!((injector_flow(injector_flow(1.0, 3e5, 4e5), 4e5, 3e5) - 1.0).abs() < 1e-15);
        assert!((injector_duty(3.0, 8.0, 0.5) * injector_margin(3.0, 8.0, 0.5) - 1.0).abs() < 1e-15);
        assert!((jet_flow(2e-3, 0.8, 4e4, 750.0) / jet_flow(1e-3, 0.8, 1e4, 750.0) - 8.0).abs() < 1e-12);
        assert!(injector_flow(1.0, 0.0, 1.0).is_nan() && injector_margin(0.0, 8.0, 1.0).is_nan());
        for x in [0.0, 1e-300, 1.0, 1e9] {
            assert!(charge_cooling(1e6, 1.0 + x, 1.0).is_finite() && air_need(x, 14.6, 0.9).is_finite());
        }
    }
}
