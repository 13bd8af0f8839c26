//! Pressure in the cylinder and whether the last of the charge goes off by itself: one cycle, solved once for all the
//! facts that are read from it.

use crate::builder::Builder;
use crate::inputs::named_inputs;
use crate::memo::Memo;
use crate::typed::{Erased, Formula, Give, InputSpec, InputValue, Si, Unavailable};
use std::f64::consts::PI;
use std::sync::{Arc, OnceLock};
use thou_mechanics::cycle::{
    Burn, Charge, Cycle, Cylinder, Exchange, Friction, Near, NoCycle, Setup, Walls, volumetric_efficiency,
};
use thou_mechanics::gas::Blend;
use thou_mechanics::geometry::swept_volume;
use thou_mechanics::kinematics::Slider;
use thou_mechanics::knock::EndGas;
use thou_mechanics::performance;
use thou_sheet::Axis::One;
use uom::si::f64::{Angle, AngularVelocity, Power, Pressure, Ratio, Torque, Volume};

const MODEL: &str = "one zone from inlet closing to exhaust opening, first law with NASA TM-4513 gases, Wiebe's burn (a 5, \
     m 2, 96 % burned), Woschni's heat loss to walls at 450 K, residual gas of 3 % by the \
     exhaust's pressure over the manifold's, the exhaust at the track's air with its back pressure (Heywood 1988, ch. 6, 9 \
     and 12), charge set so \
     that indicated less Chen and Flynn's friction (SAE 650733) gives the power";
/// What the crown, the head and the wall are at, K.
const WALLS: f64 = 450.0;
/// Share of burned gas where exhaust and manifold have one pressure, at full throttle; from memory.
const RESIDUAL: f64 = 0.03;
/// More than this is left at idle; from memory.
const MOST_RESIDUAL: f64 = 0.3;
const BURNED: f64 = 0.96;
const TOO_HOT: &str = "the charge that this power needs is past what gas tables hold";

pub(super) fn facts(b: &mut Builder, cycles: &Arc<Cycles>) {
    burn(b);
    at_power(b, cycles);
    at_torque(b, cycles);
    through_the_pass(b, cycles);
}

named_inputs!(
    /// What a cycle is worked out from.
    CycleInputs {
        brake_pressure: "bmep.at-power", "pressure", NEEDED;
        speed: "target.power-speed", "angular-speed", NEEDED;
        bore: "bore.nominal", "length", NEEDED;
        stroke: "stroke", "length", NEEDED;
        rod_length: "rod.length", "length", NEEDED;
        compression_ratio: "compression.mean", "one", NEEDED;
        intake_closing: "intake-closing", "angle", NEEDED;
        exhaust_opening: "exhaust-opening", "angle", NEEDED;
        fuel: "fuel", "choice", NEEDED;
        ethanol: "fuel.ethanol", "one", OPTIONAL;
        lambda: "fuel.lambda", "one", NEEDED;
        adder: "adder", "choice", NEEDED;
        trapped_temperature: "charge.trapped-temperature", "temperature", NEEDED;
        inlet_pressure: "inlet.pressure", "pressure", NEEDED;
        outside: "air.pressure", "pressure", NEEDED;
        back_pressure: "exhaust.back-pressure", "pressure", NEEDED;
        burn_half: "burn.half", "angle", NEEDED;
        burn_duration: "burn.duration", "angle", NEEDED;
        friction_scale: "friction.scale", "one", NEEDED;
    }
);

const COUNT: usize = CycleInputs::<()>::COUNT;
pub(super) const AT_POWER: [&str; COUNT] = CycleInputs::FACTS.in_order();
pub(super) const AT_TORQUE: [&str; COUNT] = at("bmep.at-torque", "target.torque-speed");

impl CycleInputs<(&'static str, InputSpec)> {
    /// What gives the shape of the pressure through a cycle at power, or at torque.
    pub(super) fn shape(facts: [&'static str; COUNT]) -> Vec<(&'static str, InputSpec)> {
        let wanted = CycleInputs::NEEDS.map(|(_, wanted)| wanted.as_shape());
        facts.into_iter().zip(wanted.in_order()).collect()
    }
}

impl CycleInputs<InputValue> {
    /// Those that a cycle cannot do without are there.
    fn there(&self) -> bool {
        let needs = CycleInputs::NEEDS.in_order();
        self.in_order().iter().zip(needs).all(|(input, (_, wanted))| input.there || wanted.optional)
    }
}

/// What feeds a cycle at another speed: the facts of its brake mean effective pressure and of that speed.
const fn at(brake_pressure: &'static str, speed: &'static str) -> [&'static str; COUNT] {
    CycleInputs { brake_pressure, speed, ..CycleInputs::FACTS }.in_order()
}

/// What the facts read from a cycle.
#[derive(Debug)]
pub(super) struct Solved {
    cycle: Cycle,
    friction: f64,
    filling: f64,
    pub(super) petrol: bool,
    near: Near,
    charge: Charge,
    burned_out: f64,
    speed: f64,
    end_gas: OnceLock<EndGas>,
}

impl Solved {
    /// Pressure in the cylinder over `outside`, Pa, as a share of its peak's, by the crank's angle in rad after firing top
    /// dead centre.
    fn shape(&self, angle: f64, outside: f64) -> f64 {
        (self.cycle.pressure(angle) - outside) / (self.cycle.peak - outside)
    }

    /// The charge that burns last, followed when it is first asked for.
    pub(super) fn end_gas(&self) -> &EndGas {
        self.end_gas.get_or_init(|| {
            let Charge { unburned, temperature, .. } = &self.charge;
            EndGas::follow(&self.cycle, unburned, *temperature, self.burned_out, self.speed)
        })
    }
}

type Answer = Result<Arc<Solved>, Unavailable>;

/// The cycles of all facts that are read from one: they ask for the same figures, and their uncertainty for the same
/// steps aside.
pub(super) struct Cycles {
    /// By every input and by what it is a step aside of, where the search for the charge begins. What is absent is not a
    /// number, and a word is the number of its choice.
    solved: Memo<{ 2 * COUNT }, Answer>,
}

impl Cycles {
    /// None is solved yet. Room for five speeds with a step to each side of every input.
    pub(super) fn new() -> Arc<Self> {
        Arc::new(Self { solved: Memo::of(240) })
    }

    /// A formula that reads one figure of a cycle.
    pub(super) fn read<T>(self: &Arc<Self>, figure: fn(&Solved) -> T) -> CycleFigure<T> {
        CycleFigure { cycles: Arc::clone(self), figure }
    }

    /// The shape of the pressure through a cycle, where all is there that it hangs on and there is one.
    pub(super) fn shape(&self, inputs: CycleInputs<InputValue>, outside: f64) -> Option<impl Fn(f64) -> f64 + use<>> {
        let solved = inputs.there().then(|| self.solved(inputs))?.ok()?;
        Some(move |angle| solved.shape(angle, outside))
    }

    fn solved(&self, inputs: CycleInputs<InputValue>) -> Answer {
        let bits = |of: fn(InputValue) -> f64| inputs.in_order().map(|input| of(input).to_bits());
        let (here, centre) = (bits(|i| i.si), bits(|i| i.centre));
        let mut key = [0; 2 * COUNT];
        key.iter_mut().zip(here.into_iter().chain(centre)).for_each(|(slot, bits)| *slot = bits);
        self.solved.get(key, || {
            // a step aside begins at the cycle that it is a step from
            let central =
                if centre == here { None } else { self.solved(inputs.map(|i| InputValue { si: i.centre, ..i })).ok() };
            solve(&inputs, central.as_ref().map(|s| &s.near)).map(Arc::new)
        })
    }
}

/// Reads one figure of a cycle.
pub(super) struct CycleFigure<T> {
    cycles: Arc<Cycles>,
    figure: fn(&Solved) -> T,
}

/// Marks the arguments of [`CycleFigure`].
pub(super) struct OneCycle;

impl<T: Give + 'static> Formula<OneCycle> for CycleFigure<T> {
    fn wants() -> Vec<InputSpec> {
        CycleInputs::NEEDS.map(|(_, wanted)| wanted).in_order().to_vec()
    }
    fn gives() -> &'static str {
        T::DIMENSION
    }
    fn erase(self) -> Erased {
        Box::new(move |x| {
            let inputs = CycleInputs::of(x).ok_or(Unavailable::Outside(TOO_HOT))?;
            self.cycles.solved(inputs).map(|solved| (self.figure)(&solved))?.give()
        })
    }
}

fn blend(fuel: &str, ethanol: Option<f64>) -> Result<Blend, Unavailable> {
    // by volume to by mass: densities of ethanol 789, of petrol 745 kg/m³
    let by_mass = |share: f64| share * 789.0 / (share * 789.0 + (1.0 - share) * 745.0);
    match (fuel, ethanol) {
        ("methanol", _) => Ok(Blend::METHANOL),
        ("ethanol", None) => Ok(Blend::ETHANOL),
        ("petrol-pump" | "petrol-race", None) => Ok(Blend::PETROL),
        ("petrol-pump" | "petrol-race" | "e85" | "ethanol", Some(share)) => {
            Ok(Blend::petrol_with_ethanol(by_mass(share)))
        }
        ("e85", None) => Err(Unavailable::Field("fuel.ethanol")),
        _ => Err(Unavailable::Outside("not a fuel whose make-up is known")),
    }
}

/// Share of the trapped gas that burned the time before, by the pressures in exhaust and manifold: what stays in the
/// chamber is at the one, what comes in at the other (Heywood 1988, section 6.4: it grows with their ratio).
fn residual(exhaust: f64, inlet: f64) -> f64 {
    (RESIDUAL * exhaust / inlet).min(MOST_RESIDUAL)
}

fn solve(inputs: &CycleInputs<InputValue>, near: Option<&Near>) -> Result<Solved, Unavailable> {
    if inputs.adder.word == "nitrous" {
        return Err(Unavailable::Outside("nitrous brings its own oxygen, which this cycle does not know"));
    }
    let fuel = blend(inputs.fuel.word, inputs.ethanol.there.then_some(inputs.ethanol.si))?;
    let richness = 1.0 / inputs.lambda.si;
    let (bore, slider) = (inputs.bore.si, Slider::new(inputs.stroke.si, inputs.rod_length.si));
    let swept = swept_volume(bore, slider.stroke());
    let burned = fuel.burned(richness);
    let (inlet, trapped) = (inputs.inlet_pressure.si, inputs.trapped_temperature.si);
    let exhaust = inputs.outside.si + inputs.back_pressure.si;
    let residual = residual(exhaust, inlet);
    let unburned = fuel.mixed(richness).with(&burned, residual);
    let setup = Setup {
        cylinder: Cylinder {
            bore,
            slider,
            clearance: swept / (inputs.compression_ratio.si - 1.0),
            crevice: 0.0,
            inlet_closing: inputs.intake_closing.si,
            exhaust_opening: inputs.exhaust_opening.si,
        },
        charge: Charge { unburned, burned, temperature: trapped },
        burn: Burn { half: inputs.burn_half.si, duration: inputs.burn_duration.si, form: 2.0, efficiency: BURNED },
        walls: Walls { temperature: WALLS, scale: 1.0 },
        exchange: Exchange { inlet, exhaust },
        speed: inputs.speed.si,
    };
    let friction = Friction::USUAL.scaled(inputs.friction_scale.si);
    let cycle = match near {
        Some(near) => setup.at_brake_near(inputs.brake_pressure.si, &friction, near),
        None => setup.at_brake(inputs.brake_pressure.si, &friction),
    };
    let cycle = cycle.map_err(|e| match e {
        NoCycle::Outside(_) => Unavailable::Outside("this rod cannot follow this crank"),
        NoCycle::NeverClosed { .. } => Unavailable::Outside("these valves leave nothing to compress"),
        NoCycle::TooHot { .. } => Unavailable::Outside(TOO_HOT),
        NoCycle::NoSuchPower { .. } => Unavailable::Outside("no charge gives this power"),
    })?;
    let share = richness / (richness + fuel.stoichiometric());
    let density = inlet / (thou_mechanics::gas::air().constant * trapped);
    Ok(Solved {
        friction: cycle.friction(&friction),
        filling: volumetric_efficiency(cycle.mass, residual, share, swept, density),
        petrol: inputs.fuel.word.starts_with("petrol"),
        near: Near::of(&cycle, &friction),
        charge: setup.charge,
        burned_out: setup.burn.start() + setup.burn.duration,
        speed: setup.speed,
        end_gas: OnceLock::new(),
        cycle,
    })
}

fn burn(b: &mut Builder) {
    b.derive(
        "exhaust-opening",
        "angle",
        One,
        "Where the exhaust valve leaves its seat, before bottom dead centre.",
        "half the seat duration and the centre line",
        ["cam.duration.exhaust", "cam.centre-line.exhaust"],
        |duration: Angle, line: Angle| duration / 2.0 + line - Angle::si(PI),
    );
    b.stated("exhaust.back-pressure", "pressure", "exhaust.back-pressure", "Back pressure in the exhaust at power.")
        .or_usual("common practice, no source", ["adder"], |words| match words {
            ["turbo"] => Some((5e4, 15e4)),
            _ => Some((2e3, 15e3)),
        });
    b.usual(
        "burn.half",
        "angle",
        "Where half of the charge is burned, after top dead centre.",
        "7 to 10 degrees at best torque (Heywood 1988, ch. 9, from memory); 10 to 20 where the charge is pressed and the fuel sets the timing \
         (common practice, no source); never an advance to set",
        ["adder"],
        |words| match words {
            ["turbo" | "blower"] => Some((10_f64.to_radians(), 20_f64.to_radians())),
            _ => Some((7_f64.to_radians(), 10_f64.to_radians())),
        },
    );
    b.usual(
        "burn.duration",
        "angle",
        "From the start of the burn to its end.",
        "25 to 35 degrees between 10 and 90 % burned, twice that in all; Heywood 1988, section 9.2, from memory",
        [],
        |_| Some((50_f64.to_radians(), 70_f64.to_radians())),
    );
    b.usual(
        "friction.scale",
        "ratio",
        "Friction over the usual of petrol engines: 0.4 bar, 0.005 of the peak pressure, 0.09 bar a m/s of mean piston \
         speed and 0.0009 bar of its square.",
        "in the form of Chen and Flynn 1965 (SAE 650733); figures and their spread from memory",
        [],
        |_| Some((0.85, 1.15)),
    );
    b.usual(
        "cylinder.model-error",
        "ratio",
        "Measured peak pressure over the modelled one.",
        "one-zone cycles set to a known power, against measured ones: within 10 to 15 %, from memory; no published pair of \
         a measured peak and its mean pressure was at hand. Textbooks put road engines of their day at 20 to 50 bar, full \
         throttle (Newton, Steeds and Garrett 1972 and Lumley 1999, as D. J. Grieve quotes them, Plymouth 2008)",
        [],
        |_| Some((0.87, 1.13)),
    );
}

fn at_power(b: &mut Builder, cycles: &Arc<Cycles>) {
    type Figure = fn(&Solved) -> Pressure;
    let pressures: [(&str, &str, Figure); 4] = [
        (
            "cylinder.modelled-peak",
            "Peak pressure at power as the cycle gives it, without the model's own error.",
            |s| Pressure::si(s.cycle.peak),
        ),
        ("cylinder.indicated-pressure", "Net indicated mean effective pressure at power.", |s| {
            Pressure::si(s.cycle.indicated)
        }),
        ("cylinder.friction-pressure", "Mean effective pressure lost to friction at power.", |s| {
            Pressure::si(s.friction)
        }),
        ("cylinder.closing-pressure", "Pressure in the cylinder when the inlet valve shuts, at power.", |s| {
            Pressure::si(s.cycle.closing_pressure)
        }),
    ];
    for (id, about, figure) in pressures {
        b.derive(id, "pressure", One, about, MODEL, AT_POWER, cycles.read(figure));
    }
    b.derive(
        "cylinder.peak-pressure",
        "pressure",
        One,
        "Peak pressure by the model with its error, at power or, where it is stated and more, at torque. A measured one, or \
         the maker's of the combination, goes before it: see peak-pressure.",
        MODEL,
        ["cylinder.modelled-peak", "cylinder.modelled-peak.at-torque", "cylinder.model-error"],
        |power: Pressure, torque: Option<Pressure>, error: Ratio| -> Pressure {
            torque.map_or(power, |torque| torque.max(power)) * error
        },
    );
    b.derive(
        "cylinder.model-scale",
        "ratio",
        One,
        "Pressure in the cylinder over what the cycle gives: the stated peak over the greater one of power and torque, else \
         the model's own error.",
        "a ratio of two pressures",
        ["peak-pressure", "cylinder.modelled-peak", "cylinder.modelled-peak.at-torque"],
        |stated: Pressure, power: Pressure, torque: Option<Pressure>| -> Ratio {
            stated / torque.map_or(power, |torque| torque.max(power))
        },
    )
    .or("the model's own error", ["cylinder.model-error"], |error: Ratio| error);
    for (id, modelled, about) in [
        (
            "bearing.gas-pressure.at-power",
            "cylinder.modelled-peak",
            "Peak of the cycle's pressure that the bearings are held against, at power and where it is shifted.",
        ),
        (
            "bearing.gas-pressure.at-torque",
            "cylinder.modelled-peak.at-torque",
            "Peak of the cycle's pressure that the bearings are held against, where the torque is wanted.",
        ),
    ] {
        let needs = [modelled, "cylinder.model-scale"];
        b.derive(id, "pressure", One, about, MODEL, needs, |peak: Pressure, scale: Ratio| -> Pressure { peak * scale });
    }
    b.derive(
        "peak-pressure.best",
        "pressure",
        One,
        "Greatest pressure in the cylinder: as stated, else by the model.",
        "a selection",
        ["peak-pressure"],
        |stated: Pressure| stated,
    )
    .or("a selection", ["cylinder.peak-pressure"], |modelled: Pressure| modelled);
    b.derive(
        "cylinder.peak-pressure-angle",
        "angle",
        One,
        "Crank angle of the peak pressure, after top dead centre.",
        MODEL,
        AT_POWER,
        cycles.read(|s| Angle::si(s.cycle.peak_angle)),
    );
    b.derive(
        "cylinder.pumping-pressure",
        "pressure",
        One,
        "What exhaust and inlet stroke cost at power, as a mean effective pressure: the pressures in the manifolds only.",
        MODEL,
        AT_POWER,
        cycles.read(|s| Pressure::si(-s.cycle.pumping)),
    );
    b.derive(
        "cylinder.filling",
        "ratio",
        One,
        "Air trapped at power over what would fill the swept volume at the manifold's pressure and the trapped \
         temperature.",
        MODEL,
        AT_POWER,
        cycles.read(|s| Ratio::si(s.filling)),
    );
}

/// Between the two speeds that the owner states, and a little past them.
fn through_the_pass(b: &mut Builder, cycles: &Arc<Cycles>) {
    const CURVE: &str = "the cubic that has greatest torque and greatest power where they are stated, straight on past the \
         power; nothing is said below the one or over 1.1 times the other";
    const APART: &str =
        "outside the speeds of greatest torque to 1.1 times greatest power, or the two contradict each other";
    let torque = |w: AngularVelocity, most: Torque, from: AngularVelocity, last: Torque, to: AngularVelocity| {
        let found = performance::torque_between(w.value, [from.value, most.value], [to.value, last.value]);
        if found.is_nan() { Err(Unavailable::Outside(APART)) } else { Ok(Torque::si(found)) }
    };
    for [speed, torque_at, power, bmep, peak, about_torque, about_power, about_bmep, about_peak] in [
        [
            "shift-speed",
            "torque.at-shift",
            "power.at-shift",
            "bmep.at-shift",
            "cylinder.modelled-peak.at-shift",
            "Torque where it is shifted.",
            "Power where it is shifted.",
            "Mean effective pressure where it is shifted, four-stroke.",
            "Peak pressure where it is shifted, as the cycle gives it, without the model's own error.",
        ],
        [
            "lights-speed",
            "torque.at-lights",
            "power.at-lights",
            "bmep.at-lights",
            "cylinder.modelled-peak.at-lights",
            "Torque at the speed it goes through the lights at.",
            "Power at the speed it goes through the lights at.",
            "Mean effective pressure at the speed it goes through the lights at, four-stroke.",
            "Peak pressure at the speed it goes through the lights at, as the cycle gives it, without the model's own error.",
        ],
        [
            "after-shift-speed",
            "torque.after-shift",
            "power.after-shift",
            "bmep.after-shift",
            "cylinder.modelled-peak.after-shift",
            "Torque at the speed it falls to when it is shifted.",
            "Power at the speed it falls to when it is shifted.",
            "Mean effective pressure at the speed it falls to when it is shifted, four-stroke.",
            "Peak pressure at the speed it falls to when it is shifted, as the cycle gives it, without the model's own error.",
        ],
    ] {
        let known = [speed, "target.torque", "target.torque-speed", "torque.at-power", "target.power-speed"];
        b.derive(torque_at, "torque", One, about_torque, CURVE, known, torque);
        b.derive(
            power,
            "power",
            One,
            about_power,
            "torque by speed",
            [torque_at, speed],
            |t: Torque, w: AngularVelocity| Power::si(t.value * w.value),
        );
        b.derive(
            bmep,
            "pressure",
            One,
            about_bmep,
            "4 pi T/Vd; Heywood 1988, eq. 2.19 and 2.20",
            [torque_at, "displacement"],
            |torque: Torque, size: Volume| Pressure::si(performance::bmep(torque.value, size.value)),
        );
        b.derive(
            peak,
            "pressure",
            One,
            about_peak,
            MODEL,
            at(bmep, speed),
            cycles.read(|s| Pressure::si(s.cycle.peak)),
        );
    }
}

fn at_torque(b: &mut Builder, cycles: &Arc<Cycles>) {
    b.stated("target.torque-speed", "angular-speed", "intent.torque-speed", "Where the torque is wanted.");
    b.derive(
        "bmep.at-torque",
        "pressure",
        One,
        "Mean effective pressure where the torque is wanted, four-stroke.",
        "4 pi T/Vd; Heywood 1988, eq. 2.19 and 2.20",
        ["target.torque", "displacement"],
        |torque: Torque, size: Volume| Pressure::si(performance::bmep(torque.value, size.value)),
    );
    b.derive(
        "cylinder.modelled-peak.at-torque",
        "pressure",
        One,
        "Peak pressure where the torque is wanted, as the cycle gives it, without the model's own error.",
        MODEL,
        AT_TORQUE,
        cycles.read(|s| Pressure::si(s.cycle.peak)),
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::{Catalogue, SheetFacts};
    use std::path::Path;
    use thou_sheet::Sheet;

    #[test]
    fn a_street_engine_and_its_octane() {
        let text = include_str!("../../../../sample-builds/street.json");
        let sheet = Sheet::parse_unheld("street.json", text, Path::new(".")).unwrap();
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let of =
            |id: &str| facts.get(id).unwrap().first().unwrap().clone().map_err(|e| format!("{id}: {e:?}")).unwrap();
        let peak = of("cylinder.peak-pressure");
        // the model is good to some 15 %, and half a spread of 26 % is its standard uncertainty
        assert!((40e5..85e5).contains(&peak.value), "{peak:?}");
        assert!(peak.uncertainty() > 0.05 * peak.value && peak.uncertainty() < 0.2 * peak.value, "{peak:?}");
        let indicated = of("cylinder.indicated-pressure").value;
        let brake = indicated - of("cylinder.friction-pressure").value;
        assert!((brake / of("bmep.at-power").value - 1.0).abs() < 1e-6);
        assert!((4.0..7.0).contains(&(of("cylinder.modelled-peak").value / indicated)));
        let needed = of("octane.needed.at-torque").value;
        assert!((80.0..=100.0).contains(&needed), "{needed}");
        assert!((of("octane.margin").value - (92.0 - needed)).abs() < 1e-9);
        assert!(of("knock.integral").value > 0.2 && of("end-gas.temperature").value > 700.0);
    }

    /// By hand: what the strokes cost is the exhaust's pressure less the manifold's. Both stand on the air outside, so that a
    /// pressed engine's do not move with the height; an exhaust left at the sea's pressure would cost 29 kPa at 9,000 ft.
    #[test]
    fn the_exhaust_stands_on_the_track_s_own_air() {
        let text = include_str!("../../../../sample-builds/street.json");
        let pumping = |height: &str| {
            let pressed = text
                .replace("\"adder\": \"none\"", "\"adder\": \"turbo\", \"boost\": \"8 psi\"")
                .replace("\"altitude\": \"850 ft\"", &format!("\"altitude\": \"{height}\""));
            assert_ne!(pressed, text);
            let sheet =
                Sheet::parse_unheld("street.json", &pressed, Path::new(".")).map_err(|e| e.to_string()).unwrap();
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            let of = |id: &str| facts.one(id).map(|n| n.value).unwrap();
            (
                of("cylinder.pumping-pressure"),
                of("exhaust.back-pressure") - of("boost"),
                of("cylinder.closing-pressure"),
            )
        };
        let ((sea, over, _), (high, _, closing)) = (pumping("0 ft"), pumping("9000 ft"));
        assert!((sea - high).abs() < 3e3, "{sea} {high}");
        // the blow-down and the charge that is pressed while the valves shut make up the rest
        assert!((sea - over).abs() < 0.3 * closing, "{sea} {over}");
    }

    #[test]
    fn what_is_left_of_the_burned_gas_goes_with_the_pressures() {
        assert!((super::residual(1e5, 1e5) - 0.03).abs() < 1e-15);
        assert!((super::residual(1e5, 2e5) - 0.015).abs() < 1e-15);
        assert!((super::residual(4e6, 1e5) - super::MOST_RESIDUAL).abs() < 1e-15);
    }

    /// What a sample states is invented, as its greatest pressure anywhere: the model where the torque or the power is
    /// wanted, whichever is more, comes as near as it says it does.
    #[test]
    fn the_model_is_as_near_to_every_sample_as_it_says() {
        let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-builds"));
        let files = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path());
        let mut held = 0;
        for path in files.filter(|p| p.extension().is_some_and(|e| e == "json")) {
            let text = std::fs::read_to_string(&path).unwrap();
            let sheet = Sheet::parse_unheld("sample", &text, folder).map_err(|f| f.to_string()).unwrap();
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            let of = |id: &str| facts.get(id).unwrap().first().unwrap().clone().unwrap();
            let stated = of("peak-pressure").value;
            let at_torque = of("cylinder.modelled-peak.at-torque").value;
            let at_power = of("cylinder.peak-pressure");
            let most = at_torque.max(of("cylinder.modelled-peak").value);
            // at power and at torque the same errors weigh alike
            let share = 2.0 * at_power.uncertainty() / at_power.value;
            assert!(share < 0.21, "{}: an error of {share:.2} says nothing", path.display());
            let off = (stated / most - 1.0).abs();
            assert!(off <= share, "{}: stated {stated:.3e}, modelled {most:.3e}", path.display());
            held += 1;
        }
        assert!(held >= 9, "{held} samples");
    }
}
