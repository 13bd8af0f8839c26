//! Gas, vapour, burning, and what flows.

use crate::args::{Answer, Args, one};
use thou_mechanics::gas::{self, Blend, Gas};
use thou_mechanics::species::Species;

/// Moles of every species in the order of [`Species::ALL`].
fn mixture(moles: &[f64]) -> Gas {
    Gas::mixture(&Species::ALL.into_iter().zip(moles.iter().copied()).collect::<Vec<_>>())
}

/// Moles of iso-octane, toluene, ethanol and methanol.
fn blend(moles: &[f64]) -> Blend {
    Blend { iso_octane: moles[0], toluene: moles[1], ethanol: moles[2], methanol: moles[3] }
}

fn state(gas: &Gas, t: f64) -> Answer {
    Ok(vec![gas.constant, gas.heat_capacity(t), gas.enthalpy(t), gas.energy(t), gas.gamma(t)])
}

pub fn gas(what: &str, a: &Args) -> Answer {
    match what {
        "properties" => state(&mixture(&a.list(0)), a.n(1)),
        "entropy-change" => {
            let gas = mixture(&a.list(0));
            one(gas.entropy(a.n(2)) - gas.entropy(a.n(1)))
        }
        "isentropic" => one(mixture(&a.list(0)).isentropic(a.n(1), a.n(2))),
        "air" => state(&gas::air(), a.n(0)),
        "stoichiometric" => one(blend(&a.list(0)).stoichiometric()),
        "mixed" => state(&blend(&a.list(0)).mixed(a.n(1)), a.n(2)),
        "burned" => state(&blend(&a.list(0)).burned(a.n(1)), a.n(2)),
        "heating-value" => one(blend(&a.list(0)).heating_value()),
        "water-gas" => one(gas::water_gas(a.n(0))),
        "residual" => state(&blend(&a.list(0)).mixed(a.n(1)).with(&blend(&a.list(0)).burned(a.n(1)), a.n(2)), a.n(3)),
        _ => panic!("no gas.{what}"),
    }
}

pub fn combustion_air(what: &str, a: &Args) -> Answer {
    use thou_mechanics::combustion_air::{self as c, BlendPart, Composition};
    match what {
        "stoichiometric-ratio" => one(Composition::of(a.n(0), a.n(1), a.n(2), a.n(3)).stoichiometric_ratio()),
        "molar-mass" => one(Composition::of(a.n(0), a.n(1), a.n(2), a.n(3)).molar_mass()),
        "blend-ratio" => {
            let parts: Vec<BlendPart> =
                a.list(0).chunks_exact(3).map(|p| BlendPart { volume: p[0], density: p[1], ratio: p[2] }).collect();
            Ok(vec![c::blend_ratio(&parts), c::mass_share(&parts)])
        }
        "charge-cooling" => one(c::charge_cooling(a.n(0), a.n(1), a.n(2))),
        "injector-flow" => one(c::injector_flow(a.n(0), a.n(1), a.n(2))),
        "jet-flow" => one(c::jet_flow(a.n(0), a.n(1), a.n(2), a.n(3))),
        _ => panic!("no combustion_air.{what}"),
    }
}

pub fn dyno_air(what: &str, a: &Args) -> Answer {
    use thou_mechanics::dyno_air::{self as d, Air, Standard};
    match what {
        "saturation-pressure" => one(d::saturation_pressure(a.n(0))),
        "density" => one(Air { barometer: a.n(0), temperature: a.n(1), humidity: a.n(2) }.density()),
        "density-altitude" => one(thou_mechanics::standard_atmosphere::density_altitude(a.n(0))),
        "saturation-pressure-magnus" => one(d::saturation_pressure_magnus(a.n(0))),
        "factor" => {
            let air = Air { barometer: a.n(1), temperature: a.n(2), humidity: a.n(3) };
            one(Standard::by_id(a.text(0)).unwrap().factor(air))
        }
        "iso-3046" => one(d::iso_3046_brake(d::iso_3046_indicated(a.n(0), a.n(1), a.n(2), a.n(3)), a.n(4))),
        "room-rise" => one(thou_mechanics::dyno_room::room_rise(a.n(0), a.n(1))),
        "noise-time" => one(thou_mechanics::dyno_room::noise_time(a.n(0), a.n(1), a.n(2))),
        _ => panic!("no dyno_air.{what}"),
    }
}

pub fn flow(what: &str, a: &Args) -> Answer {
    use thou_mechanics::flow::{self as f, Upstream, ValveSeat};
    let up = |first: usize| Upstream {
        pressure: a.n(first),
        temperature: a.n(first + 1),
        gamma: a.n(first + 2),
        constant: a.n(first + 3),
    };
    let seat = || ValveSeat { head: a.n(0), port: a.n(1), stem: a.n(2), width: a.n(3), angle: a.n(4) };
    match what {
        "critical-ratio" => one(f::critical_ratio(a.n(0))),
        "orifice" => one(f::orifice(a.n(0), a.n(1), up(2), a.n(6))),
        "choked" => one(f::choked(a.n(0), a.n(1), up(2))),
        "bench-flow" => one(f::bench_flow(a.n(0), a.n(1), a.n(2), a.n(3))),
        "least-area" => one(seat().least_area(a.n(5))),
        "port-limits-from" => one(seat().port_limits_from()),
        "valve-for-mach" => one(f::valve_for_mach(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4), a.n(5))),
        _ => panic!("no flow.{what}"),
    }
}

pub fn cycle(what: &str, a: &Args) -> Answer {
    use thou_mechanics::cycle::{Burn, Charge, Cylinder, Exchange, Setup, Walls};
    use thou_mechanics::kinematics::Slider;
    match what {
        "wiebe" => Ok(vec![Burn::wiebe(a.n(0), a.n(1)), Burn::progress(Burn::wiebe(a.n(0), a.n(1)), a.n(1))]),
        // bore, radius, rod, offset, clearance, crevice, closing, opening | blend, richness, residual, temperature |
        // half, duration, form, efficiency | walls, scale | speed, mass
        "closed" => {
            let g = a.list(0);
            let (blend, richness) = (blend(&a.list(1)), a.n(2));
            let (c, b) = (a.list(3), a.list(4));
            let burned = blend.burned(richness);
            let setup = Setup {
                cylinder: Cylinder {
                    bore: g[0],
                    slider: Slider { radius: g[1], rod: g[2], offset: g[3] },
                    clearance: g[4],
                    crevice: g[5],
                    inlet_closing: g[6],
                    exhaust_opening: g[7],
                },
                charge: Charge { unburned: blend.mixed(richness).with(&burned, c[0]), burned, temperature: c[1] },
                burn: Burn { half: b[0], duration: b[1], form: b[2], efficiency: b[3] },
                walls: Walls { temperature: c[2], scale: c[3] },
                exchange: Exchange { inlet: 1e5, exhaust: 1e5 },
                speed: a.n(5),
            };
            let cycle = setup.with_mass(a.n(6)).map_err(|e| e.to_string())?;
            let mut all = vec![cycle.closing_pressure, cycle.opening_pressure, cycle.closed_work, cycle.heat];
            // every tenth degree of the closed part, and the greatest
            let (from, to) = (cycle.closing.to_degrees(), cycle.opening.to_degrees());
            for (n, p) in cycle.pressures().iter().enumerate().step_by(10) {
                let degree = n as f64 - 360.0;
                if degree > from && degree < to {
                    all.push(*p);
                }
            }
            all.push(cycle.peak);
            Ok(all)
        }
        _ => panic!("no cycle.{what}"),
    }
}
