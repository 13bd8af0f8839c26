//! The first law for one trapped mass, step by step.

use super::setup::{Charge, Setup};

/// Geometry and burn at one angle.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Spot {
    pub(super) volume: f64,
    /// m³/rad
    pub(super) slope: f64,
    pub(super) burned: f64,
    /// 1/rad
    pub(super) burning: f64,
    /// m²
    pub(super) wall: f64,
    /// (volume at inlet closing over this one)^1.3, for Woschni's motored pressure
    pub(super) motored: f64,
}

/// The first law for one trapped mass.
pub(super) struct Law<'a> {
    pub(super) setup: &'a Setup,
    pub(super) mass: f64,
    /// crevice over the walls' temperature, m³/K
    pub(super) held: f64,
    pub(super) piston: f64,
    pub(super) start: f64,
    pub(super) burn: f64,
    pub(super) woschni: f64,
}

/// Change by crank angle.
pub(super) struct Slope {
    /// K/rad
    pub(super) warming: f64,
    /// J/rad
    pub(super) work: f64,
    /// J/rad
    pub(super) heat: f64,
}

impl Law<'_> {
    fn constant(&self, spot: &Spot) -> f64 {
        let Charge { unburned, burned, .. } = &self.setup.charge;
        unburned.constant + spot.burned * (burned.constant - unburned.constant)
    }

    pub(super) fn pressure(&self, spot: &Spot, t: f64) -> f64 {
        self.mass * self.constant(spot) * t / (spot.volume + self.held * t)
    }

    pub(super) fn slope(&self, spot: &Spot, t: f64) -> Slope {
        let Charge { unburned, burned, .. } = &self.setup.charge;
        let constant = self.constant(spot);
        let (cp_raw, h_raw) = unburned.both(t);
        let (cp_burnt, h_burnt) = burned.both(t);
        let cv = cp_raw + spot.burned * (cp_burnt - cp_raw) - constant;
        let constants = burned.constant - unburned.constant;
        let released = (h_burnt - h_raw) - constants * t;
        let volume = spot.volume + self.held * t;
        let p = self.mass * constant * t / volume;
        let m = p * spot.volume / (constant * t);
        // eq. 12.19, kPa: mean piston speed and, once it burns, how far the pressure is above the motored one
        let above = if spot.burned > 0.0 { self.burn * (p - self.start * spot.motored).max(0.0) } else { 0.0 };
        let velocity = self.piston + above;
        let transfer = self.woschni * (0.8 * (p * 1e-3 * velocity).ln() - 0.55 * t.ln()).exp();
        let heat = transfer * spot.wall * (t - self.setup.walls.temperature) / self.setup.speed;
        let work = p * spot.slope;
        let mut gain = -work - heat - m * released * spot.burning;
        if self.held > 0.0 {
            // what goes into the crevice takes its enthalpy along and comes back at the walls' temperature; what it holds is
            // p held/R, in which the charge's own R cancels, so `push` and `rise` leave the change of R out
            let store = self.held / constant;
            let push = gain / (m * cv * t) - spot.slope / spot.volume;
            let wall = self.setup.walls.temperature;
            let own = h_raw + spot.burned * (h_burnt - h_raw);
            let out = if push > 0.0 {
                own
            } else {
                let (a, b) = (unburned.enthalpy(wall), burned.enthalpy(wall));
                a + spot.burned * (b - a)
            };
            let carried = (own - constant * t - out) * store;
            let rise = p * push / (1.0 + store * p / m - p * carried / (m * cv * t));
            gain += carried * rise;
        }
        Slope { warming: gain / (m * cv), work, heat }
    }
}

pub(super) fn energy(law: &Law<'_>, spot: &Spot, t: f64) -> f64 {
    let Charge { unburned, burned, .. } = &law.setup.charge;
    let mass = law.mass / (1.0 + law.held * t / spot.volume);
    let (raw, burnt) = (unburned.energy(t), burned.energy(t));
    mass * (raw + spot.burned * (burnt - raw))
}
