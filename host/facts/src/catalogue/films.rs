//! The film of the rods' big ends: one orbit, followed once for all the facts that
//! are read from it.

use crate::builder::Builder;
use crate::memo::Memo;
use crate::typed::{Erased, Formula, Give, Input, Rise, Si, Wanted, Why};
use std::sync::Arc;
use thou_mechanics::big_end::{BigEnd, pulse};
use thou_mechanics::journal_bearing::{film_over_roughness, rq_from_ra, temperature_rise, unit_load};
use thou_mechanics::kinematics::Slider;
use thou_mechanics::mobility::Finite;
use thou_mechanics::oil::density;
use thou_mechanics::orbit::{Bearing, Loads, orbit};
use thou_sheet::Axis::One;
use uom::si::f64::{Angle, Force, Length, Power, Pressure, Ratio};

const MODEL: &str = "mobility method (Booker 1965) with a finite bearing's mobility from Reynolds' equation, inertia of the \
     exact slider-crank, and for the gas a pulse of 25 degrees about its peak; rigid, one viscosity, well fed: ±50 % for \
     the film";

pub(super) fn facts(b: &mut Builder, orbits: &Arc<Orbits>) {
    bearing(b);
    figures(b, orbits);
    films(b);
}

fn bearing(b: &mut Builder) {
    b.stated(
        "rod-bearing.width",
        "length",
        "bearings.rod-width",
        "Width of the rod shell that carries, without chamfers.",
    )
    .part("bearings");
    b.derive(
        "bearing.gas-pressure",
        "pressure",
        One,
        "Peak pressure that the bearings are held against: as stated, else as the cycle gives it.",
        "a selection",
        ["peak-pressure"],
        |stated: Pressure| stated,
    )
    .or("a selection", ["cylinder.peak-pressure"], |modelled: Pressure| modelled);
    b.stated("bearing.roughness", "roughness", "bearings.roughness", "Finish of the shells, Ra.")
        .or_usual("a bored or plated shell; common practice, no source", [], |_| Some((0.2e-6, 0.4e-6)))
        .part("bearings");
}

/// One orbit's inputs, in order: fact and dimension.
pub(super) const INPUTS: [(&str, &str); 11] = [
    ("working-speed", "angular-speed"),
    ("bore.nominal", "length"),
    ("stroke", "length"),
    ("rod.length", "length"),
    ("reciprocating.mass.max", "mass"),
    ("rotating.mass.max", "mass"),
    ("bearing.gas-pressure", "pressure"),
    ("rod-journal.nominal", "length"),
    ("rod-bearing.width", "length"),
    ("rod-bearing.clearance.max", "length"),
    ("oil.viscosity.bearing", "dynamic-viscosity"),
];

const fn needs(speed: &'static str) -> [&'static str; 11] {
    let [_, a, b, c, d, e, f, g, h, i, j] = INPUTS;
    [speed, a.0, b.0, c.0, d.0, e.0, f.0, g.0, h.0, i.0, j.0]
}

pub(super) const WORKING: [&str; 11] = needs("working-speed");
const OVER_REV: [&str; 11] = needs("over-rev");

/// What the facts read from an orbit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Followed {
    peak: f64,
    unit: f64,
    film: f64,
    angle: f64,
    power: f64,
    pub(super) rise: f64,
}

/// The orbits of all facts that are read from one, and the loads that they are followed under: the facts ask for the same
/// figures, and their uncertainty for the same steps aside.
pub(super) struct Orbits {
    /// By every input, in the order of [`INPUTS`].
    followed: Memo<11, Result<Followed, Why>>,
    /// By the first seven: rods and mains have the same throws; width, clearance and oil are not in them.
    loads: Memo<7, Result<Arc<Loads>, Why>>,
}

impl Orbits {
    /// None is followed yet. Room for two speeds with a step to each side of every input, and a known good engine beside.
    pub(super) fn new() -> Arc<Self> {
        Arc::new(Self { followed: Memo::of(64), loads: Memo::of(64) })
    }

    /// A formula that reads one figure of an orbit.
    fn read<T>(self: &Arc<Self>, figure: fn(&Followed) -> T) -> OrbitFigure<T> {
        OrbitFigure { orbits: Arc::clone(self), figure }
    }

    /// The orbit by [`INPUTS`].
    pub(super) fn followed(&self, inputs: &[Input]) -> Result<Followed, Why> {
        let mut key = [0; 11];
        key.iter_mut().zip(inputs).for_each(|(slot, input)| *slot = input.si.to_bits());
        self.followed.get(key, || self.follow(inputs))
    }

    /// The loads on a crankpin by the first seven of [`INPUTS`].
    pub(super) fn on_a_pin(&self, inputs: [&Input; 7]) -> Result<Arc<Loads>, Why> {
        self.loads.get(inputs.map(|i| i.si.to_bits()), || {
            let [speed, bore, stroke, rod, up, round, gas] = inputs;
            let gear = gear([bore, stroke, rod, up, round])?;
            Ok(Arc::new(Loads::of(|angle| gear.load(angle, speed.si, pulse(angle, gas.si, 14.0, 25.0)))))
        })
    }

    fn follow(&self, inputs: &[Input]) -> Result<Followed, Why> {
        let [speed, bore, stroke, rod, up, round, gas, diameter, width, clearance, viscosity] = inputs else {
            return Err(Why::Outside(LOST));
        };
        let ratio = width.si / diameter.si;
        if !(0.125..=1.0).contains(&ratio) {
            return Err(Why::Outside("the film is worked out for widths from an eighth of the journal to all of it"));
        }
        let bearing = Bearing {
            diameter: diameter.si,
            length: width.si,
            lands: 1.0,
            clearance: clearance.si / 2.0,
            viscosity: viscosity.si,
        };
        let loads = self.on_a_pin([speed, bore, stroke, rod, up, round, gas])?;
        let found = orbit(bearing, &Finite::new(ratio), speed.si, &loads).map_err(|_| Why::Outside(LOST))?;
        let weight = density(OIL_WEIGHT, 383.15);
        Ok(Followed {
            peak: found.peak,
            unit: unit_load(found.peak, width.si, diameter.si),
            film: found.least,
            angle: found.least_at,
            power: found.power,
            rise: temperature_rise(found.power, found.flow, weight, SPECIFIC_HEAT),
        })
    }
}

/// Reads one figure of an orbit.
struct OrbitFigure<T> {
    orbits: Arc<Orbits>,
    figure: fn(&Followed) -> T,
}

/// Marks the arguments of [`OrbitFigure`].
struct OneOrbit;

impl<T: Give + 'static> Formula<OneOrbit> for OrbitFigure<T> {
    fn wants() -> Vec<Wanted> {
        INPUTS.iter().map(|(_, dimension)| Wanted { dimension, optional: false }).collect()
    }
    fn gives() -> &'static str {
        T::DIMENSION
    }
    fn erase(self) -> Erased {
        Box::new(move |x| self.orbits.followed(x).map(|f| (self.figure)(&f))?.give())
    }
}

/// Heat that a cubic metre of warm engine oil takes up, J/K: 2.1 kJ/(kg K) at 110 °C, from memory.
const SPECIFIC_HEAT: f64 = 2_100.0;
const OIL_WEIGHT: f64 = 870.0;

/// Running gear from bore, stroke, rod and the masses that go up and round.
pub(super) fn gear([bore, stroke, rod, up, round]: [&Input; 5]) -> Result<BigEnd, Why> {
    let slider =
        Slider::new(stroke.si, rod.si).checked().map_err(|_| Why::Outside("this rod cannot follow this crank"))?;
    Ok(BigEnd { slider, bore: bore.si, reciprocating: up.si, rotating: round.si })
}

pub(super) const LOST: &str =
    "no film carries this load: clearance, width, viscosity and speed are not those of a bearing that runs";

fn figures(b: &mut Builder, orbits: &Arc<Orbits>) {
    for (id, needs, about) in [
        ("rod-bearing.load.peak", WORKING, "Greatest load on a rod bearing of a cycle, where it is shifted."),
        ("rod-bearing.load.peak.at-over-rev", OVER_REV, "Greatest load on a rod bearing of a cycle, at the over-rev."),
    ] {
        b.derive(id, "force", One, about, MODEL, needs, orbits.read(|f| Force::si(f.peak)));
    }
    for (id, needs, about) in [
        (
            "rod-bearing.load.unit",
            WORKING,
            "Greatest load on a rod bearing over its projected area, where it is shifted.",
        ),
        (
            "rod-bearing.load.unit.at-over-rev",
            OVER_REV,
            "Greatest load on a rod bearing over its projected area, at the over-rev.",
        ),
    ] {
        b.derive(id, "pressure", One, about, MODEL, needs, orbits.read(|f| Pressure::si(f.unit)));
    }
    for (id, needs, about) in [
        (
            "rod-bearing.film.modelled",
            WORKING,
            "Least film of the loosest rod bearing by the model, where it is shifted.",
        ),
        (
            "rod-bearing.film.modelled.at-over-rev",
            OVER_REV,
            "Least film of the loosest rod bearing by the model, at the over-rev.",
        ),
    ] {
        b.derive(id, "film", One, about, MODEL, needs, orbits.read(|f| Length::si(f.film)));
    }
    for (id, needs, about) in [
        (
            "rod-bearing.film.angle",
            WORKING,
            "Crank angle of the least film, after firing top dead centre, where it is shifted.",
        ),
        (
            "rod-bearing.film.angle.at-over-rev",
            OVER_REV,
            "Crank angle of the least film, after firing top dead centre, at the over-rev.",
        ),
    ] {
        b.derive(id, "angle", One, about, MODEL, needs, orbits.read(|f| Angle::si(f.angle)));
    }
    b.derive(
        "rod-bearing.power",
        "power",
        One,
        "What one rod bearing turns into heat, where it is shifted.",
        MODEL,
        WORKING,
        orbits.read(|f| Power::si(f.power)),
    );
    b.derive(
        "rod-bearing.oil-rise",
        "temperature-difference",
        One,
        "How much warmer the oil leaves a rod bearing than it came, where it is shifted: all of the heat into the oil that \
         the journal's motion pumps. What the feed's pressure pushes through as well makes it less.",
        "a heat balance of the same orbit; 2.1 kJ/(kg K), from memory",
        WORKING,
        orbits.read(|f| Rise(f.rise)),
    );
}

/// How far the model of a film is to be trusted.
pub(super) const ERROR: &str = "rod-bearing.film.model-error";
pub(super) const OVER_ROUGHNESS: &str =
    "lambda = h/sqrt(Rq1² + Rq2²), Rq from Ra by Gauss's law; Hamrock, Fundamentals of Fluid Film Lubrication, 1994";

fn films(b: &mut Builder) {
    b.usual(
        ERROR,
        "ratio",
        "True least film over the modelled one: housing and rod give, journals are not round, oil is not one viscosity.",
        "±50 %; common practice, no source",
        [],
        |_| Some((0.5, 1.5)),
    );
    for (id, modelled, about) in [
        (
            "rod-bearing.film.minimum",
            "rod-bearing.film.modelled",
            "Least film of the rod bearings with the model's error, where it is shifted. To be compared with a known good \
             engine's, never a gate alone.",
        ),
        (
            "rod-bearing.film.minimum.at-over-rev",
            "rod-bearing.film.modelled.at-over-rev",
            "Least film of the rod bearings with the model's error, at the over-rev.",
        ),
    ] {
        let needs = [modelled, ERROR];
        b.derive(id, "film", One, about, MODEL, needs, |film: Length, error: Ratio| -> Length { film * error });
    }
    b.derive(
        "rod-bearing.film.over-roughness",
        "ratio",
        One,
        "Least film of the rod bearings over the roughness of journal and shell together, where it is shifted.",
        OVER_ROUGHNESS,
        ["rod-bearing.film.minimum", "crank.roughness.max", "bearing.roughness"],
        |film: Length, journal: Length, shell: Length| {
            Ratio::si(film_over_roughness(film.value, rq_from_ra(journal.value), rq_from_ra(shell.value)))
        },
    );
}
