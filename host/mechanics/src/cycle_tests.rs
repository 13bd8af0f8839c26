#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::setup::{DEGREE, angle_of};
use super::*;
use crate::gas::Blend;
use crate::geometry::swept_volume;
use crate::kinematics::Slider;
use std::f64::consts::PI;

fn setup(ratio: f64) -> Setup {
    let (bore, slider) = (0.105_537, Slider::new(0.095_25, 0.1524));
    let fuel = Blend::PETROL;
    Setup {
        cylinder: Cylinder {
            bore,
            slider,
            clearance: swept_volume(bore, slider.stroke()) / (ratio - 1.0),
            crevice: 0.0,
            inlet_closing: 70.0 * DEGREE,
            exhaust_opening: 75.0 * DEGREE,
        },
        charge: Charge {
            unburned: fuel.mixed(1.15).with(&fuel.burned(1.15), 0.03),
            burned: fuel.burned(1.15),
            temperature: 330.0,
        },
        burn: Burn { half: 8.0 * DEGREE, duration: 60.0 * DEGREE, form: 2.0, efficiency: 0.96 },
        walls: Walls { temperature: 450.0, scale: 1.0 },
        exchange: Exchange { inlet: 1.0e5, exhaust: 1.1e5 },
        speed: 7000.0 * PI / 30.0,
    }
}

#[test]
fn energy_is_kept() {
    for ratio in [8.0, 11.0, 14.0] {
        for mass in [3e-4, 9e-4, 2e-3] {
            let c = setup(ratio).with_mass(mass).unwrap();
            let left = c.energy.1 - c.energy.0 + c.closed_work + c.heat;
            assert!(left.abs() < 2e-5 * c.closed_work.abs(), "{ratio} {mass}: {left}");
        }
    }
}

#[test]
fn without_heat_it_is_the_isentropic_of_its_gas() {
    let mut s = setup(11.0);
    s.walls.scale = 0.0;
    s.burn.efficiency = 0.0;
    let c = s.with_mass(9e-4).unwrap();
    for at in [252, 300, 340, 360, 380, 430] {
        let p = c.pressures()[at];
        let t = s.charge.unburned.isentropic(330.0, p / c.closing_pressure);
        assert!((c.temperatures()[at] / t - 1.0).abs() < 1e-6, "{at}");
    }
    // symmetric about top dead centre, and what it took to compress comes back
    assert!((c.pressures()[340] / c.pressures()[380] - 1.0).abs() < 1e-7);
    assert!(c.peak_angle.abs() < 1e-3 * DEGREE);
}

#[test]
fn with_constant_heat_capacity_and_all_at_once_it_nears_the_ideal_cycle() {
    // argon: gamma is 5/3 at every temperature; no burning changes it, so that nothing is released
    let argon = crate::gas::Gas::mixture(&[(crate::species::Species::Ar, 1.0)]);
    let mut s = setup(10.0);
    s.walls.scale = 0.0;
    s.charge = Charge { unburned: argon, burned: argon, temperature: 300.0 };
    let c = s.with_mass(1e-3).unwrap();
    let volume = |a: f64| s.cylinder.clearance + crate::geometry::disc(s.cylinder.bore, s.cylinder.slider.below_top(a));
    let wanted = c.closing_pressure * (volume(c.closing) / volume(0.0)).powf(5.0 / 3.0);
    assert!((c.peak / wanted - 1.0).abs() < 1e-7, "{} {wanted}", c.peak);
}

#[test]
fn half_the_step_changes_nothing_that_matters() {
    // fourth order: what the trace sums up to must be that of its own points
    let s = setup(12.5);
    let c = s.with_mass(9e-4).unwrap();
    let volume = |n: usize| {
        let a = angle_of(n) * DEGREE;
        s.cylinder.clearance + crate::geometry::disc(s.cylinder.bore, s.cylinder.slider.below_top(a))
    };
    let (from, to) = (250, 465);
    let whole: f64 =
        (from..to).map(|n| 0.5 * (c.pressures()[n] + c.pressures()[n + 1]) * (volume(n + 1) - volume(n))).sum();
    assert!((whole / c.closed_work - 1.0).abs() < 2e-3, "{whole} {}", c.closed_work);
}

#[test]
fn gives_the_power_asked_for_and_more_charge_gives_more() {
    let s = setup(12.5);
    let mut last = 0.0;
    for brake in [2.0e5, 6.0e5, 10.0e5, 14.0e5, 22.0e5] {
        let c = s.at_brake(brake, &Friction::USUAL).unwrap();
        assert!((c.brake(&Friction::USUAL) / brake - 1.0).abs() < 1e-6, "{brake}");
        assert!(c.mass > last && c.peak / c.indicated > 3.0 && c.peak / c.indicated < 8.0);
        last = c.mass;
    }
    assert!(matches!(s.at_brake(1e9, &Friction::USUAL), Err(NoCycle::NoSuchPower { .. })));
}

#[test]
fn an_earlier_or_quicker_burn_and_a_tighter_chamber_press_harder() {
    let peak = |s: Setup| s.with_mass(9e-4).unwrap().peak;
    let plain = setup(11.0);
    let with = |f: fn(&mut Setup)| {
        let mut s = plain;
        f(&mut s);
        peak(s)
    };
    assert!(with(|s| s.burn.half -= 4.0 * DEGREE) > peak(plain));
    assert!(with(|s| s.burn.duration *= 0.8) > peak(plain));
    assert!(peak(setup(12.0)) > peak(plain));
    assert!(with(|s| s.walls.scale = 2.0) < peak(plain));
    assert!(with(|s| s.cylinder.crevice = 1e-6) < peak(plain));
}

#[test]
fn a_small_crevice_changes_little_and_an_empty_one_nothing() {
    let mut s = setup(11.0);
    let none = s.with_mass(9e-4).unwrap();
    s.cylinder.crevice = 1e-13;
    let tiny = s.with_mass(9e-4).unwrap();
    assert!((tiny.peak / none.peak - 1.0).abs() < 1e-5);
}

#[test]
fn scales_with_size() {
    // twice the lengths, eight times the gas, half the speed and no heat loss: the same pressures
    let mut small = setup(11.0);
    small.walls.scale = 0.0;
    let mut large = small;
    large.cylinder.bore *= 2.0;
    large.cylinder.slider = Slider::new(2.0 * 0.095_25, 2.0 * 0.1524);
    large.cylinder.clearance *= 8.0;
    large.speed /= 2.0;
    let (a, b) = (small.with_mass(9e-4).unwrap(), large.with_mass(7.2e-3).unwrap());
    assert!((a.peak / b.peak - 1.0).abs() < 1e-9 && (a.indicated / b.indicated - 1.0).abs() < 1e-9);
}

#[test]
fn the_trace_is_whole_and_periodic() {
    let c = setup(11.0).with_mass(9e-4).unwrap();
    assert_eq!(c.pressures().len(), POINTS);
    assert!(c.pressures().iter().all(|p| p.is_finite() && *p > 0.0));
    assert!((c.pressures()[0] / c.pressures()[POINTS - 1] - 1.0).abs() < 1e-9);
    for turn in [-2.0, -1.0, 1.0, 3.0] {
        let a = 0.3;
        assert!((c.pressure(a) - c.pressure(a + turn * 4.0 * PI)).abs() < 1e-3);
    }
    // no step as the valves open and shut
    for pair in c.pressures().windows(2) {
        assert!((pair[1] - pair[0]).abs() < 0.12 * pair[0].max(pair[1]), "{pair:?}");
    }
}

#[test]
fn no_nonsense_from_any_finite_input() {
    let odd = [-1e300, -1.0, 0.0, 1e-300, 1e-9, 0.5, 3.0, 1e6, 1e300];
    for x in odd {
        for field in 0..14 {
            let mut s = setup(11.0);
            let at = [
                &mut s.cylinder.bore,
                &mut s.cylinder.clearance,
                &mut s.cylinder.crevice,
                &mut s.cylinder.inlet_closing,
                &mut s.cylinder.exhaust_opening,
                &mut s.charge.temperature,
                &mut s.burn.half,
                &mut s.burn.duration,
                &mut s.burn.form,
                &mut s.burn.efficiency,
                &mut s.walls.temperature,
                &mut s.walls.scale,
                &mut s.exchange.inlet,
                &mut s.speed,
            ];
            *at.into_iter().nth(field).unwrap() = x;
            for c in [s.with_mass(9e-4), s.at_brake(1e6, &Friction::USUAL)].into_iter().flatten() {
                assert!(c.peak.is_finite() && c.indicated.is_finite(), "{field} {x}");
            }
        }
        if let Ok(c) = setup(11.0).with_mass(x) {
            assert!(c.peak.is_finite());
        }
        let _ = setup(11.0).at_brake(x, &Friction::USUAL);
        assert!(setup(11.0).with_mass(9e-4).unwrap().pressure(x).is_finite());
    }
}

#[test]
fn a_start_from_a_near_cycle_comes_to_the_same() {
    let brake = 12e5;
    let central = setup(11.0).at_brake(brake, &Friction::USUAL).unwrap();
    let near = Near::of(&central, &Friction::USUAL);
    for ratio in [10.8, 11.0, 11.3] {
        for (more, hotter) in [(1.0, 0.0), (1.04, 0.0), (0.9, 25.0)] {
            let mut other = setup(ratio);
            other.charge.temperature += hotter;
            let found = other.at_brake_near(more * brake, &Friction::USUAL, &near).unwrap();
            let anew = other.at_brake(more * brake, &Friction::USUAL).unwrap();
            assert!((found.mass / anew.mass - 1.0).abs() < 2e-5, "{ratio} {more}");
            assert!((found.peak / anew.peak - 1.0).abs() < 5e-5, "{ratio} {more}");
        }
    }
    // one that is not near at all is found all the same, and one that there is not is refused
    let far = setup(9.0).at_brake_near(2.5 * brake, &Friction::USUAL, &near).unwrap();
    assert!((far.brake(&Friction::USUAL) / (2.5 * brake) - 1.0).abs() < 1e-5);
    assert!(matches!(setup(9.0).at_brake_near(1e9, &Friction::USUAL, &near), Err(NoCycle::NoSuchPower { .. })));
}
