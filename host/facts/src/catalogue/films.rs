//! The film of the rods' big ends: one orbit, followed once for all the facts that
//! are read from it.

use super::cylinder::{AT_POWER, AT_TORQUE, CycleInputs, Cycles};
use crate::builder::Builder;
use crate::inputs::{NEEDED, named_inputs};
use crate::memo::Memo;
use crate::typed::{Erased, Give, InputSpec, InputValue, Rise, Si, Unavailable};
use std::sync::Arc;
use thou_mechanics::big_end::{BigEnd, pulse};
use thou_mechanics::journal_bearing::{film_over_roughness, rq_from_ra, temperature_rise, unit_load};
use thou_mechanics::kinematics::Slider;
use thou_mechanics::mobility::Finite;
use thou_mechanics::oil::density;
use thou_mechanics::orbit::{Bearing, Loads, orbit};
use thou_sheet::Axis::One;
use uom::si::f64::{Angle, AngularVelocity, Force, Length, Power, Pressure, Ratio};

const MODEL: &str = "mobility method (Booker 1965) with a finite bearing's mobility from Reynolds' equation, inertia of the \
     exact slider-crank, for the gas the cycle of cylinder.modelled-peak (where there is none, a pulse of 25 degrees about \
     the stated peak); rigid, one viscosity, well fed: ±50 % for the film";

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
    /// What the load on a crankpin hangs on beside the shape of the gas's pressure.
    PinInputs {
        speed: "working-speed", "angular-speed", NEEDED;
        bore: "bore.nominal", "length", NEEDED;
        stroke: "stroke", "length", NEEDED;
        rod_length: "rod.length", "length", NEEDED;
        reciprocating: "reciprocating.mass.max", "mass", NEEDED;
        rotating: "rotating.mass.max", "mass", NEEDED;
        gas_pressure: "bearing.gas-pressure", "pressure", NEEDED;
        cycle_pressure: "bearing.gas-pressure.at-power", "pressure", OPTIONAL;
    }
);
named_inputs!(
    /// What carries it.
    ShellInputs {
        journal: "rod-journal.nominal", "length", NEEDED;
        width: "rod-bearing.width", "length", NEEDED;
        clearance: "rod-bearing.clearance.running", "length", NEEDED;
    }
);
/// The oil between them.
const OIL: (&str, InputSpec) = ("oil.viscosity.bearing", InputSpec::new("dynamic-viscosity", NEEDED));

/// A fact, and what it must be.
pub(super) type Wanted = (&'static str, InputSpec);

/// Where in its work an engine's bearings are looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum At {
    /// Where it is shifted, with the gas of the power.
    Shift,
    /// Where the torque is wanted.
    Torque,
    /// At the over-rev, with the gas of the power.
    OverRev,
}

/// What loads a crankpin through a cycle.
#[derive(Debug, Clone, Copy)]
pub(super) struct GasAndPin {
    pub(super) pin: PinInputs<InputValue>,
    cycle: CycleInputs<InputValue>,
}

impl GasAndPin {
    /// How many inputs it is.
    pub(super) const COUNT: usize = PinInputs::<()>::COUNT + CycleInputs::<()>::COUNT;

    /// The fact of each.
    pub(super) fn needs(at: At) -> Vec<Wanted> {
        let (speed, cycle_pressure, cycle) = match at {
            At::Shift => ("working-speed", "bearing.gas-pressure.at-power", AT_POWER),
            At::Torque => ("target.torque-speed", "bearing.gas-pressure.at-torque", AT_TORQUE),
            At::OverRev => ("over-rev", "bearing.gas-pressure.at-power", AT_POWER),
        };
        let own = PinInputs { speed, cycle_pressure, ..PinInputs::FACTS };
        let wanted = PinInputs::NEEDS.map(|(_, wanted)| wanted);
        own.in_order().into_iter().zip(wanted.in_order()).chain(CycleInputs::shape(cycle)).collect()
    }

    /// From what a formula is given; nothing where it is not as many.
    pub(super) fn of(inputs: &[InputValue]) -> Option<Self> {
        let (pin, cycle) = inputs.split_at_checked(PinInputs::<()>::COUNT)?;
        Some(Self { pin: PinInputs::of(pin)?, cycle: CycleInputs::of(cycle)? })
    }

    /// Before a step aside.
    fn before(self) -> Self {
        let before = |i: InputValue| InputValue { si: i.centre, ..i };
        Self { pin: self.pin.map(before), cycle: self.cycle }
    }

    /// All that the load hangs on. Without a cycle its inputs say nothing, with one the peak without a cycle does.
    fn key(&self) -> [u64; Self::COUNT] {
        let of_cycle = self.pin.cycle_pressure.there;
        let pin = self.pin.map(|i| i.si.to_bits());
        let pin = if of_cycle { PinInputs { gas_pressure: 0, ..pin } } else { PinInputs { cycle_pressure: 0, ..pin } };
        let cycle = self.cycle.map(|i| if of_cycle { i.si.to_bits() } else { 0 });
        let mut key = [0; Self::COUNT];
        key.iter_mut().zip(pin.in_order().into_iter().chain(cycle.in_order())).for_each(|(slot, bits)| *slot = bits);
        key
    }
}

/// What an orbit hangs on but for the film's viscosity.
#[derive(Debug, Clone, Copy)]
pub(super) struct RodInputs {
    load: GasAndPin,
    shell: ShellInputs<InputValue>,
}

impl RodInputs {
    /// How many there are.
    pub(super) const COUNT: usize = GasAndPin::COUNT + ShellInputs::<()>::COUNT;

    /// The fact of each.
    pub(super) fn needs(at: At) -> Vec<Wanted> {
        GasAndPin::needs(at).into_iter().chain(ShellInputs::NEEDS.in_order()).collect()
    }

    fn needs_and_oil(at: At) -> Vec<Wanted> {
        Self::needs(at).into_iter().chain([OIL]).collect()
    }

    /// From what a formula is given; nothing where it is not as many.
    pub(super) fn of(inputs: &[InputValue]) -> Option<Self> {
        let (load, shell) = inputs.split_at_checked(GasAndPin::COUNT)?;
        Some(Self { load: GasAndPin::of(load)?, shell: ShellInputs::of(shell)? })
    }

    /// Before a step aside.
    pub(super) fn before(self) -> Self {
        Self { load: self.load.before(), shell: self.shell.map(|i| InputValue { si: i.centre, ..i }) }
    }

    /// Whether this is a step aside.
    pub(super) fn aside(&self) -> bool {
        self.load.pin.in_order().iter().chain(&self.shell.in_order()).any(InputValue::is_aside)
    }
}

/// How many figures an orbit hangs on.
const ORBIT: usize = RodInputs::COUNT + 1;

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
    cycles: Arc<Cycles>,
    /// By what the orbit hangs on, and the viscosity.
    followed: Memo<ORBIT, Result<Followed, Unavailable>>,
    /// By what the load on a pin hangs on: rods and mains have the same throws.
    loads: Memo<{ GasAndPin::COUNT }, Result<Arc<Loads>, Unavailable>>,
}

impl Orbits {
    /// None is followed yet. Room for three speeds with a step to each side of every input, and a known good engine beside.
    pub(super) fn new(cycles: &Arc<Cycles>) -> Arc<Self> {
        Arc::new(Self { cycles: Arc::clone(cycles), followed: Memo::of(128), loads: Memo::of(128) })
    }

    /// A formula that reads one figure of an orbit.
    fn read<T: Give + 'static>(self: &Arc<Self>, figure: fn(&Followed) -> T) -> Erased {
        let orbits = Arc::clone(self);
        Box::new(move |inputs| {
            let (viscosity, rod) = inputs.split_last().ok_or(Unavailable::Outside(LOST))?;
            let rod = RodInputs::of(rod).ok_or(Unavailable::Outside(LOST))?;
            orbits.followed(rod, viscosity.si).map(|f| figure(&f))?.give()
        })
    }

    /// The orbit in a film of this viscosity, Pa s.
    pub(super) fn followed(&self, rod: RodInputs, viscosity: f64) -> Result<Followed, Unavailable> {
        let shell = rod.shell.in_order().map(|input| input.si.to_bits());
        let figures = rod.load.key().into_iter().chain(shell).chain([viscosity.to_bits()]);
        let mut key = [0; ORBIT];
        key.iter_mut().zip(figures).for_each(|(slot, figure)| *slot = figure);
        self.followed.get(key, || self.follow(rod, viscosity))
    }

    /// The loads on a crankpin, under the cycle's own pressure where there is a cycle, else under a pulse.
    pub(super) fn on_a_pin(&self, load: GasAndPin) -> Result<Arc<Loads>, Unavailable> {
        self.loads.get(load.key(), || {
            let GasAndPin { pin, cycle } = load;
            let gear = gear(pin)?;
            let shape = if pin.cycle_pressure.there { self.cycles.shape(cycle, CRANKCASE) } else { None };
            let over = |angle: f64| match &shape {
                Some(shape) => shape(angle) * (pin.cycle_pressure.si - CRANKCASE),
                None => pulse(angle, pin.gas_pressure.si, 14.0, 25.0),
            };
            Ok(Arc::new(Loads::of(|angle| gear.load(angle, pin.speed.si, over(angle)))))
        })
    }

    fn follow(&self, rod: RodInputs, viscosity: f64) -> Result<Followed, Unavailable> {
        let RodInputs { load, shell } = rod;
        let (diameter, width) = (shell.journal.si, shell.width.si);
        let ratio = width / diameter;
        if !(0.125..=1.0).contains(&ratio) {
            return Err(Unavailable::Outside(
                "the film is worked out for widths from an eighth of the journal to all of it",
            ));
        }
        let bearing = Bearing { diameter, length: width, lands: 1.0, clearance: shell.clearance.si / 2.0, viscosity };
        let loads = self.on_a_pin(load)?;
        let found =
            orbit(bearing, &Finite::new(ratio), load.pin.speed.si, &loads).map_err(|_| Unavailable::Outside(LOST))?;
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

/// Pressure under the pistons, Pa: the air's.
const CRANKCASE: f64 = 101_325.0;

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
    let [shift, torque, over_rev] = [At::Shift, At::Torque, At::OverRev].map(RodInputs::needs_and_oil);
    for (id, needs, about) in [
        ("rod-bearing.load.peak.at-shift", &shift, "Greatest load on a rod bearing of a cycle, where it is shifted."),
        (
            "rod-bearing.load.peak.at-torque",
            &torque,
            "Greatest load on a rod bearing of a cycle, where the torque is wanted.",
        ),
        ("rod-bearing.load.peak.at-over-rev", &over_rev, "Greatest load on a rod bearing of a cycle, at the over-rev."),
    ] {
        b.out_of_many(id, "force", about, MODEL, needs, orbits.read(|f| Force::si(f.peak)));
    }
    b.derive(
        "rod-bearing.load.peak",
        "force",
        One,
        "Greatest load on a rod bearing of a cycle, where it is shifted or the torque is wanted, whichever is more.",
        MODEL,
        ["rod-bearing.load.peak.at-shift", "rod-bearing.load.peak.at-torque", "target.torque-speed"],
        heavier,
    );
    b.derive(
        "rod-bearing.load.unit",
        "pressure",
        One,
        "Greatest load on a rod bearing over its projected area, where it is shifted or the torque is wanted.",
        MODEL,
        ["rod-bearing.load.peak", "rod-bearing.width", "rod-journal.nominal"],
        |load: Force, width: Length, journal: Length| Pressure::si(unit_load(load.value, width.value, journal.value)),
    );
    b.out_of_many(
        "rod-bearing.load.unit.at-over-rev",
        "pressure",
        "Greatest load on a rod bearing over its projected area, at the over-rev.",
        MODEL,
        &over_rev,
        orbits.read(|f| Pressure::si(f.unit)),
    );
    for (id, needs, about) in [
        (
            "rod-bearing.film.modelled.at-shift",
            &shift,
            "Least film of the loosest rod bearing by the model, where it is shifted.",
        ),
        (
            "rod-bearing.film.modelled.at-torque",
            &torque,
            "Least film of the loosest rod bearing by the model, where the torque is wanted, in oil as warm as where it is \
             shifted.",
        ),
        (
            "rod-bearing.film.modelled.at-over-rev",
            &over_rev,
            "Least film of the loosest rod bearing by the model, at the over-rev.",
        ),
    ] {
        b.out_of_many(id, "film", about, MODEL, needs, orbits.read(|f| Length::si(f.film)));
    }
    b.derive(
        "rod-bearing.film.modelled",
        "film",
        One,
        "Least film of the loosest rod bearing by the model, where it is shifted or the torque is wanted, whichever is less.",
        MODEL,
        ["rod-bearing.film.modelled.at-shift", "rod-bearing.film.modelled.at-torque", "target.torque-speed"],
        thinner,
    );
    for (id, needs, about) in [
        (
            "rod-bearing.film.angle",
            &shift,
            "Crank angle of the least film, after firing top dead centre, where it is shifted.",
        ),
        (
            "rod-bearing.film.angle.at-over-rev",
            &over_rev,
            "Crank angle of the least film, after firing top dead centre, at the over-rev.",
        ),
    ] {
        b.out_of_many(id, "angle", about, MODEL, needs, orbits.read(|f| Angle::si(f.angle)));
    }
    b.out_of_many(
        "rod-bearing.power",
        "power",
        "What one rod bearing turns into heat, where it is shifted.",
        MODEL,
        &shift,
        orbits.read(|f| Power::si(f.power)),
    );
    b.out_of_many(
        "rod-bearing.oil-rise",
        "temperature-difference",
        "How much warmer the oil leaves a rod bearing than it came, where it is shifted: all of the heat into the oil that \
         the journal's motion pumps. What the feed's pressure pushes through as well makes it less.",
        "a heat balance of the same orbit; 2.1 kJ/(kg K), from memory",
        &shift,
        orbits.read(|f| Rise(f.rise)),
    );
}

/// Of two places in an engine's work the worse one; where the torque's speed is stated and nothing follows there, none.
fn worse<T>(
    shift: T,
    torque: Option<T>,
    speed: Option<AngularVelocity>,
    worse: fn(T, T) -> T,
) -> Result<T, Unavailable> {
    match (torque, speed) {
        (Some(torque), _) => Ok(worse(shift, torque)),
        (None, None) => Ok(shift),
        (None, Some(_)) => Err(Unavailable::Outside(LOST)),
    }
}

/// The greater load.
pub(super) fn heavier(
    shift: Force,
    torque: Option<Force>,
    speed: Option<AngularVelocity>,
) -> Result<Force, Unavailable> {
    worse(shift, torque, speed, Force::max)
}

/// The lesser film.
pub(super) fn thinner(
    shift: Length,
    torque: Option<Length>,
    speed: Option<AngularVelocity>,
) -> Result<Length, Unavailable> {
    worse(shift, torque, speed, Length::min)
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
            "Least film of the rod bearings with the model's error, where it is shifted or the torque is wanted. To be \
             compared with a known good engine's, never a gate alone.",
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
        "Least film of the rod bearings over the roughness of journal and shell together, where it is shifted or the torque is \
         wanted.",
        OVER_ROUGHNESS,
        ["rod-bearing.film.minimum", "crank.roughness.max", "bearing.roughness"],
        |film: Length, journal: Length, shell: Length| {
            Ratio::si(film_over_roughness(film.value, rq_from_ra(journal.value), rq_from_ra(shell.value)))
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::{Catalogue, SheetFacts};
    use std::f64::consts::PI;
    use std::path::Path;
    use thou_mechanics::kinematics::Slider;
    use thou_sheet::Sheet;

    const BRACKET: &str = include_str!("../../../../sample-builds/bracket.json");

    fn with<T>(text: &str, ask: impl Fn(&dyn Fn(&str) -> f64) -> T) -> T {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-builds");
        let sheet = Sheet::parse_unheld("engine.json", text, &folder).map_err(|e| e.to_string()).unwrap();
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        ask(&|id| facts.one(id).map(|n| n.value).ok_or_else(|| format!("{id}: {:?}", facts.get(id))).unwrap())
    }

    /// By hand: at exhaust top dead centre the crank and the rod are in line, so that piston, pin and big end pull with
    /// m r w² (1 + r/l) and m r w², and the gas pushes with what is in the cylinder over the air outside.
    #[test]
    fn at_the_shift_the_pull_at_exhaust_top_dead_centre_is_most() {
        with(BRACKET, |of| {
            let (radius, speed) = (of("stroke") / 2.0, of("working-speed"));
            let (up, round) = (of("reciprocating.mass.max"), of("rotating.mass.max"));
            let pull = radius * speed * speed * (up * (1.0 + radius / of("rod.length")) + round);
            // while the valves overlap: between the manifold's pressure and the exhaust's
            let area = PI / 4.0 * of("bore.nominal").powi(2);
            let most = area * of("exhaust.back-pressure").max((of("inlet.pressure") - 101_325.0).abs());
            let off = pull - of("rod-bearing.load.peak.at-shift");
            assert!((-1e-4 * pull..1.1 * most).contains(&off), "{off} N of {pull}");
        });
    }

    /// By hand at the angle of the peak: gas less inertia along the bore, by the rod's slant on the pin, and the big end
    /// across it.
    #[test]
    fn at_the_torque_the_gas_presses_most() {
        with(BRACKET, |of| {
            let (radius, rod, speed) = (of("stroke") / 2.0, of("rod.length"), of("target.torque-speed"));
            let area = PI / 4.0 * of("bore.nominal").powi(2);
            let gas = area * (of("bearing.gas-pressure.at-torque") - 101_325.0);
            let load = |angle: f64| {
                let up = of("reciprocating.mass.max") * Slider::new(2.0 * radius, rod).acceleration(angle, speed) - gas;
                let turning = of("rotating.mass.max") * radius * speed * speed;
                let slant = (radius * angle.sin() / rod).asin();
                (up + turning * angle.cos()).hypot(turning * angle.sin() - up * slant.tan())
            };
            // the peak lies between 5 and 25 degrees, where the burn puts it
            let (near, far) = (load(5_f64.to_radians()), load(25_f64.to_radians()));
            let peak = of("rod-bearing.load.peak.at-torque");
            assert!(peak > near.min(far) && peak < 1.01 * near.max(far), "{peak} N, {near} to {far}");
            assert!(of("rod-bearing.load.peak") >= peak);
        });
    }

    #[test]
    fn the_peak_of_the_cycle_is_the_stated_one_where_it_is_greatest() {
        with(BRACKET, |of| {
            let [power, torque] = ["power", "torque"].map(|at| of(&format!("bearing.gas-pressure.at-{at}")));
            assert!((power.max(torque) / of("peak-pressure") - 1.0).abs() < 1e-12);
            let modelled = of("cylinder.modelled-peak") / of("cylinder.modelled-peak.at-torque");
            assert!((power / torque / modelled - 1.0).abs() < 1e-12);
        });
    }

    #[test]
    fn without_a_cycle_the_pulse_about_the_stated_peak_stands() {
        let nitrous = BRACKET.replace("\"adder\": \"none\"", "\"adder\": \"nitrous\"");
        assert_ne!(nitrous, BRACKET);
        let thick = with(&nitrous, |of| of("rod-bearing.film.modelled"));
        let thin = with(BRACKET, |of| of("rod-bearing.film.modelled"));
        assert!(thick > 0.0 && thin > 0.0);
    }
}
