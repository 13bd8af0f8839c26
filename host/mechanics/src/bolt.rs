//! A bolted joint, by bolts, studs or nuts: from torque to tension, how the joint shares a load, when it opens, how long
//! the bolt lives, what clamps a head.
//!
//! Lengths in m, forces in N, torques in N·m, stresses in Pa. Concentric joints loaded along the bolt. A rod's cap is
//! loaded beside its bolts and bends them as well: the figures here are the floor of what such a bolt sees.

use std::f64::consts::{FRAC_PI_4, PI};

/// tan 30°, the half angle of the pressure cone. Shigley, sec. 8-5.
pub const TAN_30: f64 = 0.577_350_269_189_625_8;

/// A thread of 60° flanks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// Nominal diameter d, m, > 0.
    pub diameter: f64,
    /// Pitch P, m, > 0 and well under the diameter.
    pub pitch: f64,
    /// Metric (ISO 68-1, with the rounded root that stress areas count with) or unified inch (ASME B1.1).
    pub metric: bool,
}

impl Thread {
    /// Pitch diameter d2, m: d - 0.649519 P. ISO 68-1 and ASME B1.1.
    #[must_use]
    pub fn pitch_diameter(self) -> f64 {
        self.diameter - 0.649_519_052_8 * self.pitch
    }

    /// Root diameter, m: d - 1.226869 P metric (ISO 898-1), d - 1.299038 P unified (ASME B1.1).
    #[must_use]
    pub fn root_diameter(self) -> f64 {
        let share = if self.metric { 1.226_869_322_1 } else { 1.299_038_105_7 };
        self.diameter - share * self.pitch
    }

    /// Diameter of the stress area, m: d - 0.9382 P metric, d - 0.9743 P unified.
    #[must_use]
    pub fn stress_diameter(self) -> f64 {
        let share = if self.metric { 0.938_194_187_5 } else { 0.9743 };
        self.diameter - share * self.pitch
    }

    /// Tensile stress area, m². ISO 898-1, 9.1.6; ASME B1.1, appendix B.
    #[must_use]
    pub fn stress_area(self) -> f64 {
        let d = self.stress_diameter();
        FRAC_PI_4 * d * d
    }

    /// What the thread's share of the torque is worth a newton of tension, m: 0.159 P + 0.577 d2 mu. VDI 2230-1:2015,
    /// eq. R13/1, whose rounded 1/(2 pi) and 1/(2 cos 30°) cost less than 0.15 %.
    fn thread_arm(self, friction: f64) -> f64 {
        0.159 * self.pitch + 0.577 * self.pitch_diameter() * friction
    }
}

/// Tension by a torque and a torque factor: T/(K d). Shigley, eq. 8-27. NaN for no factor.
#[must_use]
pub fn tension_by_factor(torque: f64, factor: f64, diameter: f64) -> f64 {
    let arm = factor * diameter;
    if arm > 0.0 { torque / arm } else { f64::NAN }
}

/// Torque for a tension by a torque factor: K d F. Shigley, eq. 8-27.
#[must_use]
pub fn torque_by_factor(tension: f64, factor: f64, diameter: f64) -> f64 {
    factor * diameter * tension
}

/// Torque factor K from friction in the thread and under the head: (dm/2d) (tan l + f sec a)/(1 - f tan l sec a)
/// + 0.625 fc, with dm the mean of nominal and root diameter and a washer face of 1.5 d. Shigley, eq. 8-26.
#[must_use]
pub fn torque_factor(thread: Thread, thread_friction: f64, collar_friction: f64) -> f64 {
    let mean = f64::midpoint(thread.diameter, thread.root_diameter());
    let lead = thread.pitch / (PI * mean);
    let rub = thread_friction * 2.0 * TAN_30;
    mean / (2.0 * thread.diameter) * (lead + rub) / (1.0 - lead * rub) + 0.625 * collar_friction
}

/// Mean diameter that a head or nut turns on, m: of the bearing face's outside and the hole under it. VDI 2230-1.
#[must_use]
pub fn collar_diameter(face: f64, hole: f64) -> f64 {
    f64::midpoint(face, hole)
}

/// Torque for a tension by friction in the thread and under the head, with the collar's mean diameter in m: F (0.159 P +
/// 0.577 d2 muG + muK Dkm/2). VDI 2230-1:2015, eq. R13/1.
#[must_use]
pub fn torque_by_friction(thread: Thread, tension: f64, in_thread: f64, under_head: f64, collar: f64) -> f64 {
    tension * (thread.thread_arm(in_thread) + under_head * collar / 2.0)
}

/// Tension by a torque and friction: the same equation turned round. NaN where nothing resists.
#[must_use]
pub fn tension_by_friction(thread: Thread, torque: f64, in_thread: f64, under_head: f64, collar: f64) -> f64 {
    let arm = thread.thread_arm(in_thread) + under_head * collar / 2.0;
    if arm > 0.0 { torque / arm } else { f64::NAN }
}

/// Greatest tension of assembly, N: where tension and the torsion of tightening together use a share `nu` (usually 0.9)
/// of the bolt's yield in Pa. A0 nu Rp/sqrt(1 + 3 (1.5 d2/d0 (P/(pi d2) + 1.155 muG))²). VDI 2230-1:2015, eq. R7/2.
#[must_use]
pub fn assembly_tension(thread: Thread, yield_strength: f64, friction: f64, nu: f64) -> f64 {
    let (d2, d0) = (thread.pitch_diameter(), thread.stress_diameter());
    let twist = 1.5 * d2 / d0 * (thread.pitch / (PI * d2) + 2.0 * TAN_30 * friction);
    thread.stress_area() * nu * yield_strength / (1.0 + 3.0 * twist * twist).sqrt()
}

/// Tension that a stretch stands for, N: A E dL/L. NaN for no length.
#[must_use]
pub fn tension_by_stretch(stretch: f64, area: f64, modulus: f64, length: f64) -> f64 {
    if length > 0.0 { stretch * area * modulus / length } else { f64::NAN }
}

/// Stretch of a bolt under a tension, m: F L/(A E). Shigley, eq. 4-3. NaN for no section.
#[must_use]
pub fn stretch(tension: f64, length: f64, area: f64, modulus: f64) -> f64 {
    let stiffness = area * modulus;
    if stiffness > 0.0 { tension * length / stiffness } else { f64::NAN }
}

/// Turn of the nut past snug for a tension, rad, bolt alone: stretch over pitch, turned into an angle. The parts give as
/// well, so that a real joint turns further.
#[must_use]
pub fn turn_of_nut(stretch: f64, pitch: f64) -> f64 {
    2.0 * PI * stretch / pitch
}

/// Stiffness of a bolt, N/m: plain shank and thread in series. Lengths in the grip in m, areas in m². Shigley, eq. 8-17.
#[must_use]
pub fn bolt_stiffness(shank: f64, shank_area: f64, threaded: f64, stress_area: f64, modulus: f64) -> f64 {
    modulus / (shank / shank_area + threaded / stress_area)
}

/// Stiffness of one cone of clamped metal, N/m: `thickness` of it, from a face of diameter `face` round a hole for a
/// bolt of diameter d, with the tangent of its half angle. Shigley, eq. 8-19 and 8-20.
#[must_use]
pub fn frustum(modulus: f64, diameter: f64, face: f64, thickness: f64, tangent: f64) -> f64 {
    let spread = 2.0 * tangent * thickness;
    let ratio = (spread + face - diameter) * (face + diameter) / ((spread + face + diameter) * (face - diameter));
    if ratio > 1.0 && diameter > 0.0 && face > diameter {
        PI * modulus * diameter * tangent / ratio.ln()
    } else {
        f64::NAN
    }
}

/// Stiffness of a grip of one metal under a washer face, N/m: two equal cones back to back. Shigley, eq. 8-21.
#[must_use]
pub fn members(modulus: f64, diameter: f64, face: f64, grip: f64, tangent: f64) -> f64 {
    frustum(modulus, diameter, face, grip / 2.0, tangent) / 2.0
}

/// Share of a load on the joint that the bolt takes: kb/(kb + km). Shigley, eq. 8-24 (f).
#[must_use]
pub fn load_factor(bolt: f64, members: f64) -> f64 {
    bolt / (bolt + members)
}

/// Tension in the bolt under a load on the joint, N: Fi + C P, while the joint is closed. Shigley, eq. 8-24.
#[must_use]
pub fn loaded_tension(preload: f64, factor: f64, load: f64) -> f64 {
    preload + factor * load
}

/// Clamp that is left on the parts, N: Fi - (1 - C) P; under zero the joint is open. Shigley, eq. 8-25.
#[must_use]
pub fn clamp_left(preload: f64, factor: f64, load: f64) -> f64 {
    preload - (1.0 - factor) * load
}

/// How many times the load the joint opens at: Fi/(P (1 - C)). Shigley, eq. 8-30. NaN for no load.
#[must_use]
pub fn separation(preload: f64, factor: f64, load: f64) -> f64 {
    let eased = load * (1.0 - factor);
    if eased > 0.0 { preload / eased } else { f64::NAN }
}

/// Fatigue margin of a preloaded bolt by Goodman, load coming and going from none: Se (Sut - si)/(sa (Sut + Se)), with
/// si the preload's stress and sa = C P/(2 At), all Pa: how many times that load is the endurance limit. Shigley,
/// eq. 8-45. NaN without an alternating stress.
#[must_use]
pub fn goodman_preloaded(preload_stress: f64, alternating: f64, endurance: f64, strength: f64) -> f64 {
    if alternating > 0.0 {
        endurance * (strength - preload_stress) / (alternating * (strength + endurance))
    } else {
        f64::NAN
    }
}

/// Gas load that would lift a head, N: pressure in Pa on the gasket's own bore in m, which is where it seals.
#[must_use]
pub fn lift_off(pressure: f64, gasket_bore: f64) -> f64 {
    FRAC_PI_4 * gasket_bore * gasket_bore * pressure
}

/// Clamp load of `count` fasteners of `clamp` N each over the load that would lift them, N; NaN unless that is greater
/// than zero. Static: no account of the joint's stiffness.
#[must_use]
pub fn clamp_ratio(count: f64, clamp: f64, load: f64) -> f64 {
    if load > 0.0 { count * clamp / load } else { f64::NAN }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn m10() -> Thread {
        Thread { diameter: 0.010, pitch: 0.0015, metric: true }
    }

    #[test]
    fn torque_and_tension_are_each_others_way_back() {
        for friction in [0.0, 0.05, 0.12, 0.2] {
            let torque = torque_by_friction(m10(), 30e3, friction, friction, 0.0128);
            assert!((tension_by_friction(m10(), torque, friction, friction, 0.0128) / 30e3 - 1.0).abs() < 1e-12);
        }
        let torque = torque_by_factor(41e3, 0.17, 0.011);
        assert!((tension_by_factor(torque, 0.17, 0.011) / 41e3 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn more_friction_leaves_less_tension() {
        let mut last = f64::INFINITY;
        for percent in 0..=30 {
            let mu = f64::from(percent) / 100.0;
            let tension = tension_by_friction(m10(), 48.0, mu, mu, 0.0128);
            assert!(tension < last && tension > 0.0);
            let assembly = assembly_tension(m10(), 640e6, mu, 0.9);
            assert!(assembly < m10().stress_area() * 0.9 * 640e6);
            last = tension;
        }
    }

    #[test]
    fn without_friction_the_torque_lifts_along_the_lead() {
        let arm = torque_by_friction(m10(), 1.0, 0.0, 0.0, 0.0128);
        assert!((arm / (m10().pitch / (2.0 * PI)) - 1.0).abs() < 0.0015);
    }

    #[test]
    fn the_vdi_and_the_handbook_factor_agree_on_the_same_washer_face() {
        // a face of 1.5 d round a hole of d is a mean collar of 1.25 d, the handbook's 0.625
        for mu in [0.08, 0.12, 0.16] {
            let vdi = torque_by_friction(m10(), 1.0, mu, mu, 0.0125) / 0.010;
            let handbook = torque_factor(m10(), mu, mu);
            assert!((vdi / handbook - 1.0).abs() < 0.012, "{vdi} {handbook}");
        }
    }

    #[test]
    fn a_joint_gives_back_its_load_and_opens_where_it_says() {
        for factor in [0.1, 0.2, 0.5] {
            let (preload, load) = (46e3, 15e3);
            let more = loaded_tension(preload, factor, load) - clamp_left(preload, factor, load);
            assert!((more / load - 1.0).abs() < 1e-12);
            let opens = separation(preload, factor, load) * load;
            assert!(clamp_left(preload, factor, opens).abs() < 1e-9 * preload);
        }
        assert!(separation(1.0, 0.2, 0.0).is_nan());
    }

    #[test]
    fn a_softer_bolt_takes_less_and_cones_scale() {
        let grip = members(200e9, 0.010, 0.015, 0.040, TAN_30);
        let thick = bolt_stiffness(0.030, 78.5e-6, 0.010, 58.0e-6, 205e9);
        let waisted = bolt_stiffness(0.030, 45.0e-6, 0.010, 58.0e-6, 205e9);
        assert!(load_factor(waisted, grip) < load_factor(thick, grip));
        let twice = members(200e9, 0.020, 0.030, 0.080, TAN_30);
        assert!((twice / grip - 2.0).abs() < 1e-12);
        assert!(frustum(200e9, 0.010, 0.010, 0.020, TAN_30).is_nan(), "no face to press on");
    }

    #[test]
    fn the_preloaded_bolt_sits_on_goodmans_line_at_its_margin() {
        let (si, sa, se, sut) = (700e6, 30e6, 190e6, 1250e6);
        let n = goodman_preloaded(si, sa, se, sut);
        // n times the load: mean si + n sa, alternating n sa
        assert!((n * sa / se + (si + n * sa) / sut - 1.0).abs() < 1e-12);
        assert!(goodman_preloaded(si, 0.0, se, sut).is_nan());
    }
}
