//! Oil, bearings, and journals that move in them; knock, which came last.

use crate::args::{Answer, Args, one, tried};
use thou_mechanics::mobility::{Finite, Mobility, ShortExact, ShortFit};

pub fn oil(what: &str, a: &Args) -> Answer {
    use thou_mechanics::oil::{self as o, Oil, Vogel, Walther};
    match what {
        "walther" => tried(Walther::through((a.n(0), a.n(1)), (a.n(2), a.n(3))).map(|w| w.viscosity(a.n(4)))),
        "vogel" => {
            let grade = u8::try_from(a.count(0)).unwrap();
            one(Vogel::of(grade).map_or(f64::NAN, |v| v.viscosity(a.n(1))))
        }
        "density" => one(o::density(a.n(0), a.n(1))),
        "in-a-bearing" => {
            let line = Walther::through((a.n(0), a.n(1)), (a.n(2), a.n(3))).map_err(|e| e.to_string())?;
            one(Oil { line, density: a.n(4), high_shear: a.n(5) }.in_a_bearing(a.n(6)))
        }
        "film-rise" => {
            use thou_mechanics::film_heat::{Gain, film_rise};
            let line = Walther::through((a.n(0), a.n(1)), (a.n(2), a.n(3))).map_err(|e| e.to_string())?;
            let oil = Oil { line, density: a.n(4), high_shear: a.n(5) };
            let at = |rise: f64| oil.in_a_bearing(a.n(6) + rise);
            let power = |v: f64| a.n(7) * (v / 8e-3).powf(a.n(8));
            let gain = Gain::through([5.0, 20.0, 45.0].map(|rise| (at(rise), power(at(rise)))));
            one(gain.and_then(|gain| film_rise(|rise| gain.at(at(rise)))).unwrap_or(f64::NAN))
        }
        _ => panic!("no oil.{what}"),
    }
}

pub fn journal_bearing(what: &str, a: &Args) -> Answer {
    use thou_mechanics::journal_bearing::{self as j, Steady};
    match what {
        "ocvirk" => Ok(vec![j::ocvirk_number(a.n(0)), j::ocvirk_attitude(a.n(0))]),
        "iso" => one(j::iso_number(a.n(0), a.n(1))),
        "petroff" => one(j::petroff(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        "steady" => Steady::at(a.n(0), a.n(1))
            .map(|s| vec![s.number, s.attitude, s.flow, s.side_flow, s.mean_over_peak])
            .map_err(|e| e.to_string()),
        "at-number" => tried(Steady::at_number(a.n(0), a.n(1)).map(|s| s.eccentricity)),
        "groove-flow" => one(j::groove_flow(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4), a.n(5))),
        _ => panic!("no journal_bearing.{what}"),
    }
}

pub fn mobility(what: &str, a: &Args) -> Answer {
    use thou_mechanics::big_end::{BigEnd, pulse};
    use thou_mechanics::orbit::{Bearing, Loads, orbit};
    let both = |(along, across): (f64, f64)| Ok(vec![along, across]);
    let end = || BigEnd { slider: a.slider(), bore: a.n(3), reciprocating: a.n(4), rotating: a.n(5) };
    match what {
        "short-exact" => both(ShortExact { ratio: a.n(2) }.at(a.n(0), a.n(1))),
        "short-fit" => both(ShortFit { ratio: a.n(2) }.at(a.n(0), a.n(1))),
        "finite" => both(Finite::new(a.n(2)).at(a.n(0), a.n(1))),
        "big-end" => {
            let load = end().load(a.n(6), a.n(7), a.n(8));
            Ok(vec![load.x, load.y, load.mean, load.relative])
        }
        // big end, then speed, peak pressure | diameter, length, clearance, viscosity
        "orbit" => {
            let (end, speed, peak, b) = (end(), a.n(6), a.n(7), a.list(8));
            let bearing = Bearing { diameter: b[0], length: b[1], lands: 1.0, clearance: b[2], viscosity: b[3] };
            let loads = Loads::of(|angle| end.load(angle, speed, pulse(angle, peak, 14.0, 25.0)));
            let found = orbit(bearing, &ShortFit { ratio: b[1] / b[0] }, speed, &loads).map_err(|e| e.to_string())?;
            let mut all = vec![found.least];
            all.extend(found.films.iter().step_by(20));
            Ok(all)
        }
        // big end, then countered mass, speed, peak pressure, main, angle | pins | axes | turns of the cylinders
        "main" => {
            use thou_mechanics::main_bearing::{Mains, OnCrank};
            let (pins, axes, turns) = (a.list(11), a.list(12), a.list(13));
            let cylinders: Vec<OnCrank> = pins
                .iter()
                .zip(axes.iter().zip(turns))
                .map(|(pin, (axis, turn))| OnCrank { pin: *pin as usize, axis: *axis, turn })
                .collect();
            let mains = Mains { gear: end(), cylinders: &cylinders, countered: a.n(6) };
            let load = mains.load(a.count(9), a.n(10), a.n(7), |own| pulse(own, a.n(8), 14.0, 25.0));
            Ok(vec![load.x, load.y])
        }
        _ => panic!("no mobility.{what}"),
    }
}

pub fn knock(what: &str, a: &Args) -> Answer {
    use thou_mechanics::knock as k;
    match what {
        "delay" => one(k::delay(a.n(0), a.n(1), a.n(2))),
        "integral" => {
            let states: Vec<(f64, f64)> = a.list(2).into_iter().zip(a.list(3)).collect();
            one(k::integral(a.n(0), a.n(1), states))
        }
        "cranking-pressure" => one(k::cranking_pressure(a.n(0), a.n(1), a.n(2))),
        _ => panic!("no knock.{what}"),
    }
}

pub fn charge(what: &str, a: &Args) -> Answer {
    use thou_mechanics::{charge as c, gas, ideal};
    match what {
        "compressed" => one(c::compressed(&gas::air(), a.n(0), a.n(1), a.n(2))),
        "air-at" => one(c::air_at(a.n(0))),
        "ideal" => {
            let cycle = ideal::ConstantVolume {
                pressure: a.n(0),
                volume: a.n(1),
                compression: a.n(2),
                gamma: a.n(3),
                heat: a.n(4),
            };
            Ok(vec![cycle.compressed(), cycle.peak(), cycle.indicated()])
        }
        _ => panic!("no charge.{what}"),
    }
}
