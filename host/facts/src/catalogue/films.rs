//! The film of the rods' big ends: one orbit, followed once for all the facts that
//! are read from it.

use crate::builder::Builder;
use crate::inputs::{NEEDED, named_inputs};
use crate::memo::Memo;
use crate::typed::{Erased, Formula, Give, InputSpec, InputValue, Rise, Si, Unavailable};
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

named_inputs!(
    /// What the load on a crankpin hangs on.
    PinInputs {
        speed: "working-speed", "angular-speed", NEEDED;
        bore: "bore.nominal", "length", NEEDED;
        stroke: "stroke", "length", NEEDED;
        rod_length: "rod.length", "length", NEEDED;
        reciprocating: "reciprocating.mass.max", "mass", NEEDED;
        rotating: "rotating.mass.max", "mass", NEEDED;
        gas_pressure: "bearing.gas-pressure", "pressure", NEEDED;
    }
);
named_inputs!(
    /// What carries it.
    ShellInputs {
        journal: "rod-journal.nominal", "length", NEEDED;
        width: "rod-bearing.width", "length", NEEDED;
        clearance: "rod-bearing.clearance.max", "length", NEEDED;
    }
);
/// The oil between them.
const OIL: (&str, InputSpec) =
    ("oil.viscosity.bearing", InputSpec { dimension: "dynamic-viscosity", optional: NEEDED });

/// What an orbit hangs on but for the film's viscosity.
#[derive(Debug, Clone, Copy)]
pub(super) struct RodInputs<T> {
    pin: PinInputs<T>,
    shell: ShellInputs<T>,
}

impl RodInputs<()> {
    /// How many there are.
    pub(super) const COUNT: usize = PinInputs::<()>::COUNT + ShellInputs::<()>::COUNT;
}

impl RodInputs<(&'static str, InputSpec)> {
    /// The fact of each, and what it must be.
    pub(super) const NEEDS: Self = Self { pin: PinInputs::NEEDS, shell: ShellInputs::NEEDS };
}

impl RodInputs<&'static str> {
    /// The fact of each.
    pub(super) const FACTS: Self = Self { pin: PinInputs::FACTS, shell: ShellInputs::FACTS };

    const fn at(speed: &'static str) -> Self {
        Self { pin: PinInputs { speed, ..PinInputs::FACTS }, ..Self::FACTS }
    }

    const fn and_oil(self) -> [&'static str; ORBIT] {
        let ([a, b, c, d, e, f, g], [h, i, j]) = (self.pin.in_order(), self.shell.in_order());
        [a, b, c, d, e, f, g, h, i, j, OIL.0]
    }
}

impl<T: Copy> RodInputs<T> {
    /// As a formula is given them.
    pub(super) const fn in_order(self) -> [T; RodInputs::<()>::COUNT] {
        let ([a, b, c, d, e, f, g], [h, i, j]) = (self.pin.in_order(), self.shell.in_order());
        [a, b, c, d, e, f, g, h, i, j]
    }
    /// From what a formula is given; nothing where it is not as many.
    pub(super) fn of(inputs: &[T]) -> Option<Self> {
        let (pin, shell) = inputs.split_at_checked(PinInputs::<()>::COUNT)?;
        Some(Self { pin: PinInputs::of(pin)?, shell: ShellInputs::of(shell)? })
    }
    /// Something of each.
    pub(super) fn map<U>(self, of: impl Fn(T) -> U) -> RodInputs<U> {
        RodInputs { pin: self.pin.map(&of), shell: self.shell.map(&of) }
    }
}

/// How many figures an orbit hangs on.
const ORBIT: usize = RodInputs::<()>::COUNT + 1;
const WORKING: [&str; ORBIT] = RodInputs::FACTS.and_oil();
const OVER_REV: [&str; ORBIT] = RodInputs::at("over-rev").and_oil();

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
    /// By what the orbit hangs on, and the viscosity.
    followed: Memo<ORBIT, Result<Followed, Unavailable>>,
    /// By what the load on a pin hangs on: rods and mains have the same throws.
    loads: Memo<{ PinInputs::<()>::COUNT }, Result<Arc<Loads>, Unavailable>>,
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

    /// The orbit in a film of this viscosity, Pa s.
    pub(super) fn followed(&self, rod: RodInputs<InputValue>, viscosity: f64) -> Result<Followed, Unavailable> {
        let figures = rod.in_order().into_iter().map(|input| input.si).chain([viscosity]);
        let mut key = [0; ORBIT];
        key.iter_mut().zip(figures).for_each(|(slot, figure)| *slot = figure.to_bits());
        self.followed.get(key, || self.follow(rod, viscosity))
    }

    /// The loads on a crankpin.
    pub(super) fn on_a_pin(&self, pin: PinInputs<InputValue>) -> Result<Arc<Loads>, Unavailable> {
        self.loads.get(pin.in_order().map(|i| i.si.to_bits()), || {
            let gear = gear(pin)?;
            let gas = pin.gas_pressure.si;
            Ok(Arc::new(Loads::of(|angle| gear.load(angle, pin.speed.si, pulse(angle, gas, 14.0, 25.0)))))
        })
    }

    fn follow(&self, rod: RodInputs<InputValue>, viscosity: f64) -> Result<Followed, Unavailable> {
        let RodInputs { pin, shell } = rod;
        let (diameter, width) = (shell.journal.si, shell.width.si);
        let ratio = width / diameter;
        if !(0.125..=1.0).contains(&ratio) {
            return Err(Unavailable::Outside(
                "the film is worked out for widths from an eighth of the journal to all of it",
            ));
        }
        let bearing = Bearing { diameter, length: width, lands: 1.0, clearance: shell.clearance.si / 2.0, viscosity };
        let loads = self.on_a_pin(pin)?;
        let found =
            orbit(bearing, &Finite::new(ratio), pin.speed.si, &loads).map_err(|_| Unavailable::Outside(LOST))?;
        let weight = density(OIL_WEIGHT, 383.15);
        Ok(Followed {
            peak: found.peak,
            unit: unit_load(found.peak, width, diameter),
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
    fn wants() -> Vec<InputSpec> {
        RodInputs::NEEDS.in_order().into_iter().chain([OIL]).map(|(_, wanted)| wanted).collect()
    }
    fn gives() -> &'static str {
        T::DIMENSION
    }
    fn erase(self) -> Erased {
        Box::new(move |x| {
            let (viscosity, rod) = x.split_last().ok_or(Unavailable::Outside(LOST))?;
            let rod = RodInputs::of(rod).ok_or(Unavailable::Outside(LOST))?;
            self.orbits.followed(rod, viscosity.si).map(|f| (self.figure)(&f))?.give()
        })
    }
}

/// Heat that a cubic metre of warm engine oil takes up, J/K: 2.1 kJ/(kg K) at 110 °C, from memory.
const SPECIFIC_HEAT: f64 = 2_100.0;
const OIL_WEIGHT: f64 = 870.0;

/// The running gear of one throw.
pub(super) fn gear(pin: PinInputs<InputValue>) -> Result<BigEnd, Unavailable> {
    let slider = Slider::new(pin.stroke.si, pin.rod_length.si)
        .checked()
        .map_err(|_| Unavailable::Outside("this rod cannot follow this crank"))?;
    Ok(BigEnd { slider, bore: pin.bore.si, reciprocating: pin.reciprocating.si, rotating: pin.rotating.si })
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
