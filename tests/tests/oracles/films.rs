//! Checks of oils, journal bearings and moving journals.

use super::Inputs;
use std::f64::consts::TAU;
use thou_mechanics::big_end::{BigEnd, pulse};
use thou_mechanics::film_heat::film_rise;
use thou_mechanics::journal_bearing::{self as bearing, Steady};
use thou_mechanics::kinematics::Slider;
use thou_mechanics::mobility::{Mobility, ShortExact, ShortFit};
use thou_mechanics::oil::{self, Vogel, Walther};
use thou_mechanics::oil_grade::{OilGrade, WINTER, WinterGrade};
use thou_mechanics::orbit::{self, Bearing, Load, Loads, Orbit};

/// The value of a check, if it is one of these subjects.
pub(crate) fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    oils(function, x).or_else(|| steady(function, x)).or_else(|| moving(function, x))
}

fn oils(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let line = || Walther::through((at("cold-temperature"), at("cold")), (at("hot-temperature"), at("hot"))).unwrap();
    let winter = || -> WinterGrade { WINTER.into_iter().find(|w| f64::from(w.number) == at("grade")).unwrap() };
    let promise = || OilGrade::of(x.text("grade")).unwrap();
    Some(match function {
        "oil.walther-a" => line().a,
        "oil.walther-b" => line().b,
        "oil.walther" => line().viscosity(at("temperature")),
        "oil.vogel" => {
            let of = |grade: f64| oil::VOGEL.into_iter().find(|v: &Vogel| f64::from(v.grade) == grade).unwrap();
            of(at("grade")).viscosity(at("temperature")) / at("scale")
        }
        "oil.density" => oil::density(at("fifteen"), at("temperature")),
        "oil.dynamic" => oil::dynamic(at("kinematic"), oil::density(at("fifteen"), at("temperature"))),
        "oil.winter-cranking" => winter().cranking,
        "oil.winter-pumping" => winter().pumping,
        "oil.winter-thinnest" => winter().thinnest,
        "oil.winter-cranking-at" => winter().cranking_at,
        "oil.winter-pumping-at" => winter().pumping_at,
        "oil.promise-thinnest" => promise().thinnest(),
        "oil.promise-below" => promise().below(),
        "oil.promise-high-shear" => promise().high_shear().unwrap(),
        _ => return None,
    })
}

fn number(x: &Inputs<'_>) -> f64 {
    let at = |name: &str| x.get(name);
    let unit = bearing::unit_load(at("load"), at("length"), 2.0 * at("radius"));
    bearing::sommerfeld(at("radius"), at("clearance"), at("viscosity"), at("speed"), unit)
}

fn steady(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    if let Some(what) = function.strip_prefix("bearing.case-") {
        return Some(case(what, x));
    }
    Some(match function {
        "bearing.ocvirk-number" => bearing::ocvirk_number(at("eccentricity")),
        "bearing.ocvirk-attitude" => bearing::ocvirk_attitude(at("eccentricity")),
        "bearing.iso-number" => bearing::iso_number(at("eccentricity"), at("ratio")),
        "bearing.steady-number" => Steady::at(at("eccentricity"), at("ratio")).unwrap().number,
        "bearing.steady-attitude" => Steady::at(at("eccentricity"), at("ratio")).unwrap().attitude,
        "bearing.steady-friction" => Steady::at_number(at("number"), at("ratio")).unwrap().friction(),
        "bearing.unit-load" => bearing::unit_load(at("load"), at("length"), at("diameter")),
        "bearing.number" => number(x),
        "bearing.petroff" => {
            bearing::petroff(at("radius"), at("clearance"), at("viscosity"), at("speed"), at("unit-load"))
        }
        "bearing.film-by-rows" => {
            // the example's own way: the film on a straight line between two rows of the table
            let row = |e: &str| Steady::at(at(e), at("length") / (2.0 * at("radius"))).unwrap();
            let (thick, thin) = (row("thick"), row("thin"));
            let share = (thick.number - number(x)) / (thick.number - thin.number);
            at("clearance") * (thick.film() + (thin.film() - thick.film()) * share)
        }
        "bearing.temperature-rise" => bearing::temperature_rise(at("power"), at("flow"), at("density"), at("heat")),
        "bearing.viscosity-for" => {
            let unit = bearing::unit_load(at("load"), at("length"), 2.0 * at("radius"));
            bearing::viscosity_for(at("number"), at("radius"), at("clearance"), at("speed"), unit)
        }
        "bearing.film-rise" => {
            let (diameter, length) = (2.0 * at("radius"), at("length"));
            let unit = bearing::unit_load(at("load"), length, diameter);
            let oil = oil::VOGEL.into_iter().find(|v: &Vogel| f64::from(v.grade) == at("grade")).unwrap();
            // half of what leaves at the sides has its mean warmth; Shigley, eq. 12-15
            let gained = |rise: f64| {
                let viscosity = oil.viscosity(at("inlet") + rise);
                let number = bearing::sommerfeld(at("radius"), at("clearance"), viscosity, at("speed"), unit);
                Steady::at_number(number, length / diameter)
                    .map_or(f64::NAN, |s| 2.0 * TAU * unit / at("heat") * s.friction() / (s.flow - 0.5 * s.side_flow))
            };
            film_rise(gained).unwrap()
        }
        "bearing.film-over-roughness" => bearing::film_over_roughness(at("film"), at("one"), at("other")),
        "bearing.trumpler" => bearing::trumpler_film(at("diameter")),
        "bearing.groove-share" => {
            let flow = |c: f64| bearing::groove_flow(0.06, c, 0.01, 0.0, 4e5, 0.01);
            flow(at("to")) / flow(at("from"))
        }
        _ => return None,
    })
}

/// A bearing of a textbook's example, from its load to its temperature.
fn case(what: &str, x: &Inputs<'_>) -> f64 {
    let at = |name: &str| x.get(name);
    let (radius, clearance, length, load, speed) =
        (at("radius"), at("clearance"), at("length"), at("load"), at("speed"));
    let film = Steady::at_number(number(x), length / (2.0 * radius)).unwrap();
    let friction = film.friction() * clearance / radius;
    let flow = film.flow * radius * clearance * speed * length;
    match what {
        "film-share" => film.film(),
        "film" => film.film() * clearance,
        "offset" => film.eccentricity * clearance,
        "friction-variable" => film.friction(),
        "friction" => friction,
        "couple" => friction * load * radius,
        "power" => friction * load * radius * speed * TAU,
        "flow-variable" => film.flow,
        "flow" => flow,
        "side-share" => film.side_flow / film.flow,
        "mean-over-peak" => film.mean_over_peak,
        "peak" => bearing::unit_load(load, length, 2.0 * radius) / film.mean_over_peak,
        other => panic!("no figure '{other}' of a bearing"),
    }
}

const ROD: Bearing = Bearing { diameter: 0.053_34, length: 0.02, lands: 1.0, clearance: 31.75e-6, viscosity: 8e-3 };
const SPEED: f64 = 6_500.0 * TAU / 60.0;
const RATIO: f64 = ROD.length / ROD.diameter;

fn rod(angle: f64) -> Load {
    let slider = Slider::new(0.088_392, 0.144_78);
    let gear = BigEnd { slider, bore: 0.102_362, reciprocating: 0.7, rotating: 0.45 };
    gear.load(angle, SPEED, pulse(angle, 7e6, 14.0, 25.0))
}

fn map(x: &Inputs<'_>, ratio: f64) -> Box<dyn Mobility> {
    match x.text("model") {
        "fit" => Box::new(ShortFit { ratio }),
        "exact" => Box::new(ShortExact { ratio }),
        other => panic!("no model '{other}'"),
    }
}

/// Either map as one type.
struct Map(Box<dyn Mobility>);
impl Mobility for Map {
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        self.0.at(x, y)
    }
    fn ratio(&self) -> f64 {
        self.0.ratio()
    }
}

fn found(x: &Inputs<'_>) -> Orbit {
    orbit::orbit(ROD, &Map(map(x, RATIO)), SPEED, &Loads::of(rod)).unwrap()
}

fn moving(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let size = |place: [f64; 2]| place[0].hypot(place[1]);
    let half =
        |load: f64, turn: f64| Load { x: load * turn.cos(), y: load * turn.sin(), mean: SPEED / 2.0, relative: SPEED };
    // the journal of the made-up rod, moved for a time of k t/(L/D)²
    let moved = |load: f64, turning: f64, time: f64| {
        let k = load * (2.0 * ROD.clearance / ROD.diameter).powi(2) / (ROD.viscosity * ROD.length * ROD.diameter);
        let to = time * RATIO * RATIO / k * SPEED;
        let map = Map(map(x, RATIO));
        size(orbit::follow(ROD, &map, SPEED, |a| half(load, a * turning), (0.0, [0.0; 2]), to).unwrap())
    };
    Some(match function {
        "mobility.along" => map(x, 1.0).at(at("x"), at("y")).0,
        "mobility.across" => map(x, 1.0).at(at("x"), at("y")).1,
        "mobility.settles" => {
            let number = bearing::ocvirk_number(at("eccentricity")) / (RATIO * RATIO);
            let unit = (ROD.diameter / 2.0 / ROD.clearance).powi(2) * ROD.viscosity * SPEED / TAU / number;
            moved(unit * ROD.length * ROD.diameter, 0.0, 3_000.0)
        }
        "mobility.collapse" => moved(5_000.0, 0.5, at("time")),
        "orbit.peak" => found(x).peak,
        "orbit.peak-angle" => found(x).peak_at,
        "orbit.load-x" => rod(at("angle")).x,
        "orbit.load-y" => rod(at("angle")).y,
        "orbit.eccentricity" => 1.0 - found(x).least / ROD.clearance,
        "orbit.least" => found(x).least,
        "orbit.least-angle" => found(x).least_at,
        "orbit.film" => {
            let degree = at("angle").to_degrees() + 360.0;
            found(x).films.into_iter().nth(degree.round() as usize).unwrap()
        }
        _ => return None,
    })
}
