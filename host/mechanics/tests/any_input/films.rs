//! Oil, and journals in it.

use crate::draw::{Draw, Told, fields, maybe, walks};
use crate::shapes::gear;
use thou_mechanics::big_end::pulse;
use thou_mechanics::film_heat::{Gain, film_rise};
use thou_mechanics::journal_bearing::{self as bearing, Steady};
use thou_mechanics::mobility::{Finite, HalfGrooved, Mobility, ShortExact, ShortFit};
use thou_mechanics::oil::{self, Oil, VOGEL, Vogel, Walther};
use thou_mechanics::oil_grade::{self, HOT, Promise, WINTER};
use thou_mechanics::orbit::{Bearing, Load, Loads, Orbit, follow, orbit};

fields! {
    Walther: a, b;
    Steady: eccentricity, number, attitude, flow, side_flow, mean_over_peak;
}

impl crate::draw::Answer for Orbit {
    fn tell(self, told: &mut Told) {
        told.numbers.extend(self.films);
        told.numbers.extend([self.least, self.least_at, self.peak, self.peak_at, self.power, self.flow]);
    }
}

fn ratio(d: &mut Draw) -> f64 {
    d.between(0.125, 1.0)
}

fn steady(d: &mut Draw) -> Option<Steady> {
    Steady::at(d.between(0.01, 0.995), ratio(d)).ok()
}

/// An engine's oil, thicker cold than hot.
fn engine_oil(d: &mut Draw) -> Result<Oil, thou_mechanics::Outside> {
    let hundred = d.between(6e-6, 25e-6);
    let forty = hundred * d.between(5.0, 12.0);
    let line = Walther::through((313.15, forty), (373.15, hundred))?;
    Ok(Oil { line, density: d.between(800.0, 950.0), high_shear: d.over(1e-3, 8e-3) })
}

fn promise(d: &mut Draw) -> Option<Promise> {
    Promise::of(d.one(&["0W-20", "10W-40", "15W-40", "50", "20w60"]))
}

fn journal(d: &mut Draw) -> Bearing {
    let diameter = d.over(0.03, 0.1);
    let clearance = diameter * d.between(3e-4, 1e-3);
    Bearing {
        diameter,
        length: diameter * ratio(d),
        lands: d.between(1.0, 2.0),
        clearance,
        viscosity: d.over(3e-3, 5e-2),
    }
}

fn loads(d: &mut Draw) -> (Loads, f64) {
    let (gear, speed, peak) = (gear(d), d.between(100.0, 800.0), d.over(1e6, 8e6));
    (Loads::of(|angle| gear.load(angle, speed, pulse(angle, peak, 14.0, 25.0))), speed)
}

/// By three films of an oil that is cold, warm and hot.
fn gain(d: &mut Draw) -> Option<Gain> {
    let (viscosity, power) = (d.over(1e-3, 2e-2), d.between(0.3, 1.0));
    let film = |times: f64| (times * viscosity, 30.0 * times.powf(power));
    Gain::through([film(1.0), film(2.0), film(4.0)])
}

/// Inside the circle.
fn place(d: &mut Draw) -> (f64, f64) {
    let (e, angle) = (d.between(0.0, 0.999), d.angle());
    (e * angle.cos(), e * angle.sin())
}

walks! { d:
    "journal_bearing::oil_clearance_from_parts" => bearing::oil_clearance_from_parts(d.size(), d.size(), d.size());
    "journal_bearing::oil_clearance" => bearing::oil_clearance(d.size(), d.size());
    "journal_bearing::unit_load" => bearing::unit_load(d.force(), d.size(), d.size());
    "journal_bearing::sommerfeld" => bearing::sommerfeld(d.size(), d.over(1e-6, 1e-3), d.over(1e-3, 1.0), d.over(1.0, 300.0), d.pressure());
    "journal_bearing::viscosity_for" => bearing::viscosity_for(d.over(1e-3, 10.0), d.size(), d.over(1e-6, 1e-3), d.over(1.0, 300.0), d.pressure());
    "journal_bearing::petroff" => bearing::petroff(d.size(), d.over(1e-6, 1e-3), d.over(1e-3, 1.0), d.over(1.0, 300.0), d.pressure());
    "journal_bearing::ocvirk_number" => bearing::ocvirk_number(d.between(1e-6, 0.999_999));
    "journal_bearing::ocvirk_attitude" => bearing::ocvirk_attitude(d.between(0.0, 0.999_999));
    "journal_bearing::iso_number" => bearing::iso_number(d.between(0.0, 0.98), d.between(0.1, 1.0));
    "journal_bearing::Steady::at" => Steady::at(d.between(0.01, 0.995), ratio(d));
    "journal_bearing::Steady::at_number" => {
        let ratio = ratio(d);
        Steady::at(d.between(0.02, 0.99), ratio).and_then(|s| Steady::at_number(s.number, ratio))
    };
    "journal_bearing::Steady::film" => steady(d).map(|s| s.film());
    "journal_bearing::Steady::friction" => steady(d).map(|s| s.friction());
    "journal_bearing::temperature_rise" => bearing::temperature_rise(d.over(1.0, 1e5), d.over(1e-8, 1e-3), d.over(500.0, 2e3), d.over(1e3, 3e3));
    "journal_bearing::groove_flow" => bearing::groove_flow(d.size(), d.over(1e-6, 1e-3), d.size(), d.share(), d.pressure(), d.over(1e-3, 1.0));
    "journal_bearing::hole_flow" => bearing::hole_flow(d.over(1e-6, 1e-3), d.size(), d.size(), d.pressure(), d.over(1e-3, 1.0));
    "journal_bearing::film_over_roughness" => bearing::film_over_roughness(d.over(1e-8, 1e-3), d.over(1e-8, 1e-5), d.over(1e-8, 1e-5));
    "journal_bearing::rq_from_ra" => bearing::rq_from_ra(d.over(1e-8, 1e-5));
    "journal_bearing::trumpler_film" => bearing::trumpler_film(d.size());
    "oil::Walther::through" => engine_oil(d).map(|o| o.line);
    "oil::Walther::viscosity" => engine_oil(d).map(|o| o.line.viscosity(d.between(290.0, 400.0)));
    "oil::Vogel::of" => Vogel::of(d.one(&[10, 20, 30, 40, 50, 60])).map(|v| v.mu0);
    "oil::Vogel::viscosity" => d.one(&VOGEL).viscosity(d.between(290.0, 420.0));
    "oil::density" => oil::density(d.between(700.0, 1_000.0), d.between(250.0, 500.0));
    "oil::dynamic" => oil::dynamic(d.over(1e-6, 1e-2), d.between(700.0, 1_000.0));
    "oil::Oil::at_rest" => engine_oil(d).map(|o| o.at_rest(d.between(290.0, 400.0)));
    "oil::Oil::left_under_shear" => engine_oil(d).map(|o| o.left_under_shear());
    "oil::Oil::in_a_bearing" => engine_oil(d).map(|o| o.in_a_bearing(d.between(290.0, 400.0)));
    "oil_grade::Winter::meets" => d.one(&WINTER).meets(d.over(1e-6, 1e-4), d.over(1e-1, 1e2), d.over(1.0, 1e3));
    "oil_grade::Hot::least_high_shear" => d.one(&HOT).least_high_shear(d.one(&[None, Some(5), Some(20)]));
    "oil_grade::Hot::meets" => d.one(&HOT).meets(d.over(1e-6, 1e-4), d.over(1e-4, 1e-1), d.one(&[None, Some(5), Some(20)]));
    "oil_grade::Promise::of" => promise(d).map(|_| ());
    "oil_grade::Promise::thinnest" => promise(d).map(|p| p.thinnest());
    "oil_grade::Promise::below" => promise(d).map(|p| p.below());
    "oil_grade::Promise::high_shear" => promise(d).and_then(|p| p.high_shear());
    "oil_grade::met" => oil_grade::met(d.over(1e-6, 1e-4), d.over(1e-4, 1e-1), d.one(&[None, Some(5), Some(20)])).count();
    "film_heat::film_rise" => {
        let (cold, slope) = (d.over(0.1, 200.0), d.over(1e-3, 0.1));
        film_rise(|rise| cold * (-slope * rise).exp())
    };
    "film_heat::Gain::through" => gain(d).map(|g| g.at(8e-3));
    "film_heat::Gain::at" => {
        let viscosity = d.over(1e-3, 0.1);
        gain(d).map(|g| g.at(viscosity))
    };
    "film_heat::Gain::scaled" => {
        let by = d.over(0.1, 10.0);
        gain(d).map(|g| g.scaled(by).at(8e-3))
    };
    "mobility::Finite::new" => {
        let (x, y) = place(d);
        [Finite::new(ratio(d)).at(x, y), ShortFit { ratio: ratio(d) }.at(x, y), ShortExact { ratio: ratio(d) }.at(x, y)]
    };
    "half_grooved::HalfGrooved::new" => {
        let ((x, y), turn) = (place(d), d.angle());
        HalfGrooved::new(d.between(0.25, 1.0), d.angle()).in_frame([x, y], [turn.cos(), turn.sin()])
    };
    "orbit::Loads::of" => {
        let (loads, _) = loads(d);
        loads.at(0.3)
    };
    "orbit::Loads::later" => {
        let (loads, _) = loads(d);
        loads.later(d.angle()).at(d.angle())
    };
    "orbit::Loads::peak" => loads(d).0.peak();
    "orbit::Loads::at" => {
        let loads = Loads::of(|angle| Load { x: angle.cos() * 1e4, y: 2e3, mean: 300.0, relative: 400.0 });
        loads.at(d.angle())
    };
    "orbit::orbit" => {
        let ((loads, speed), bearing) = (loads(d), journal(d));
        let found = orbit(bearing, &Finite::new(bearing.length / bearing.diameter), speed, &loads);
        // a load past what a film can carry is refused
        maybe(found.ok())
    };
    "orbit::follow" => {
        let (x, y) = place(d);
        let (load, bearing) = (d.over(100.0, 2e4), journal(d));
        let to = d.between(0.1, 12.0);
        let still = |_: f64| Load { x: load, y: 0.0, mean: 150.0, relative: 300.0 };
        maybe(follow(bearing, &ShortFit { ratio: 0.4 }, 300.0, still, (0.0, [0.9 * x, 0.9 * y]), to).ok())
    };
}
