//! The models that are integrated: a big end's orbit beside scipy's integrators, and a cylinder's cycle.

use crate::timing::{Subject, Times, rounds};
use crate::{Failed, peers, print};
use serde_json::{Value, json};
use std::f64::consts::PI;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use thou_mechanics::big_end::{BigEnd, pulse};
use thou_mechanics::cycle::{Burn, Charge, Cylinder, Exchange, Friction, Setup, Walls};
use thou_mechanics::gas::Blend;
use thou_mechanics::geometry::swept_volume;
use thou_mechanics::kinematics::Slider;
use thou_mechanics::knock::EndGas;
use thou_mechanics::mobility::{Finite, ShortFit};
use thou_mechanics::orbit::{Bearing, Loads, orbit};

const ROUNDS: usize = 61;
/// Orbits that Python follows with each of its integrators.
const PYTHON: usize = 15;
/// What the least films of two integrators may differ by: that of the crosscheck.
const NEAR: f64 = 3e-2;

const GEAR: BigEnd = BigEnd {
    slider: Slider { radius: 0.088_392, rod: 0.144_78, offset: 0.0 },
    bore: 0.102_362,
    reciprocating: 0.7,
    rotating: 0.45,
};
const BEARING: Bearing = Bearing { diameter: 0.053_34, length: 0.02, lands: 1.0, clearance: 31.75e-6, viscosity: 8e-3 };
/// Peak of the gas, Pa.
const PEAK: f64 = 7e6;
const ORBIT: &str = "orbit, short film";

pub(crate) fn run() -> Result<(), Failed> {
    orbits()?;
    cycles()
}

fn orbits() -> Result<(), Failed> {
    let speed = 6_500.0 * PI / 30.0;
    let ratio = BEARING.length / BEARING.diameter;
    let loads = || Loads::of(|a| black_box(GEAR).load(a, speed, pulse(a, PEAK, 14.0, 25.0)));
    let short = || orbit(BEARING, &ShortFit { ratio }, speed, &loads());
    let finite = || orbit(BEARING, &Finite::new(black_box(ratio)), speed, &loads());
    let (found, in_finite) = (short()?, finite()?);
    println!("\n- orbit: short film {} evaluations, finite film {}", found.evaluations, in_finite.evaluations);
    let mut subjects = [
        Subject { name: ORBIT, work: Box::new(|| drop(black_box(short()))) },
        Subject { name: "(the loads of its 720 degrees)", work: Box::new(|| _ = black_box(loads())) },
        Subject { name: "orbit, finite film, as the facts ask", work: Box::new(|| drop(black_box(finite()))) },
    ];
    let mut lines = named(rounds(&mut subjects, ROUNDS));
    match python() {
        Err(why) => println!("\nThe lines of scipy are left out: {why}."),
        Ok(python) => {
            let job = json!({
                "rounds": PYTHON, "speed": speed, "peak": PEAK, "bore": GEAR.bore,
                "crank": [GEAR.slider.radius, GEAR.slider.rod, GEAR.slider.offset],
                "masses": [GEAR.reciprocating, GEAR.rotating],
                "bearing": [BEARING.diameter, BEARING.length, BEARING.clearance, BEARING.viscosity],
            });
            let script = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src/scipy_orbit.py"));
            let told = peers::ask(&python, &[script], &job)?;
            for peer in told.as_array().into_iter().flatten() {
                let name = peer.get("name").and_then(Value::as_str).unwrap_or("?");
                let least = peer.get("least").and_then(Value::as_f64).unwrap_or(f64::NAN);
                let off = least / found.least - 1.0;
                if off.is_nan() || off.abs() > NEAR {
                    return Err(format!("{name}: least film {least} m, here {}: nothing is timed", found.least).into());
                }
                let asked = peer.get("evaluations").and_then(Value::as_u64).unwrap_or(0);
                println!("- {name}: {asked} evaluations, least film {:+.2} % of the first line's", off * 100.0);
                let times = peer.get("us").cloned().unwrap_or_default();
                lines.push((format!("orbit, short film, {name}"), Times(serde_json::from_value(times)?)));
            }
        }
    }
    print::table("A big end's orbit until it repeats", "µs", 1.0, ORBIT, &lines);
    Ok(())
}

/// The venv that the crosscheck makes.
fn python() -> Result<PathBuf, String> {
    let of = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let cache = of("XDG_CACHE_HOME").or_else(|| Some(of("HOME")?.join(".cache"))).ok_or("there is no home folder")?;
    let python = cache.join("thou/crosscheck/bin/python");
    if python.is_file() { Ok(python) } else { Err(format!("there is no {}", python.display())) }
}

fn cycles() -> Result<(), Failed> {
    let (bore, slider, fuel) = (0.105_537, Slider::new(0.095_25, 0.1524), Blend::PETROL);
    let degrees = f64::to_radians;
    let setup = Setup {
        cylinder: Cylinder {
            bore,
            slider,
            clearance: swept_volume(bore, slider.stroke()) / 10.0,
            crevice: 0.0,
            inlet_closing: degrees(70.0),
            exhaust_opening: degrees(75.0),
        },
        charge: Charge {
            unburned: fuel.mixed(1.15).with(&fuel.burned(1.15), 0.03),
            burned: fuel.burned(1.15),
            temperature: 330.0,
        },
        burn: Burn { half: degrees(8.0), duration: degrees(60.0), form: 2.0, efficiency: 0.96 },
        walls: Walls { temperature: 450.0, scale: 1.0 },
        exchange: Exchange { inlet: 1.0e5, exhaust: 1.1e5 },
        speed: 7_000.0 * PI / 30.0,
    };
    let brake = 12.0e5;
    let set = setup.at_brake(brake, &Friction::USUAL)?;
    let end = setup.burn.start() + setup.burn.duration;
    let follow = || EndGas::follow(&set, &setup.charge.unburned, setup.charge.temperature, end, setup.speed);
    let one = "one cycle of a known charge";
    let mut subjects = [
        Subject { name: one, work: Box::new(|| drop(black_box(black_box(setup).with_mass(set.mass)))) },
        Subject {
            name: "charge set to a power",
            work: Box::new(|| drop(black_box(black_box(setup).at_brake(brake, &Friction::USUAL)))),
        },
        Subject {
            name: "end gas of a cycle",
            work: Box::new(|| {
                black_box(follow());
            }),
        },
    ];
    print::table("A cylinder's cycle", "µs", 1.0, one, &named(rounds(&mut subjects, ROUNDS)));
    Ok(())
}

fn named(times: Vec<(&'static str, Times)>) -> Vec<(String, Times)> {
    times.into_iter().map(|(name, times)| (name.to_owned(), times)).collect()
}
