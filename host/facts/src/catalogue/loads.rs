//! Piston speeds and accelerations, and the loads of them.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Word};
use crate::warmth::material;
use thou_mechanics::expansion::{Properties, growth};
use thou_mechanics::kinematics::{Slider, mean_speed};
use thou_mechanics::{bolt, inertia};
use thou_sheet::Axis::One;
use uom::si::f64::{Acceleration, Angle, AngularVelocity, Area, Force, Length, Mass, Pressure, Ratio, Velocity};

const SLIDER: &str = "exact slider-crank; Heywood 1988, section 2.2";
const MEAN: &str = "2 S N; Heywood 1988, eq. 2.9";

pub(super) fn facts(b: &mut Builder) {
    speeds(b);
    accelerations(b);
    rod(b);
    taken_up(b);
    clamp(b);
    pin_offset(b);
}

fn speeds(b: &mut Builder) {
    let mean = |s: Length, w: AngularVelocity| Velocity::si(mean_speed(s.value, w.value));
    for (id, speed, about) in [
        ("piston.speed.mean.at-power", "target.power-speed", "Mean piston speed where the power is wanted."),
        ("piston.speed.mean.at-shift", "working-speed", "Mean piston speed where it is shifted."),
        ("piston.speed.mean.at-limiter", "top-speed", "Mean piston speed at the highest speed it is meant to see."),
    ] {
        b.derive(id, "speed", One, about, MEAN, ["stroke", speed], mean);
    }
    b.derive(
        "piston.speed.max.at-shift",
        "speed",
        One,
        "Greatest piston speed of a turn, where it is shifted.",
        SLIDER,
        ["stroke", "rod.length", "working-speed"],
        |s: Length, l: Length, w: AngularVelocity| {
            let fastest = Slider::new(s.value, l.value).greatest_speed(w.value);
            fastest.map(Velocity::si).map_err(|_| TOO_SHORT)
        },
    );
    b.derive(
        "piston.speed.max.angle",
        "angle",
        One,
        "Crank angle of the greatest piston speed, after top dead centre.",
        SLIDER,
        ["stroke", "rod.length"],
        |s: Length, l: Length| Slider::new(s.value, l.value).fastest().map(Angle::si).map_err(|_| TOO_SHORT),
    );
    b.derive(
        "rod.angle.max",
        "angle",
        One,
        "Greatest slant of the rod.",
        "asin(r/l)",
        ["stroke", "rod.length"],
        |s: Length, l: Length| Angle::si(Slider::new(s.value, l.value).rod_slant()),
    );
}

const TOO_SHORT: Unavailable = Unavailable::Outside("this rod cannot follow this crank");

fn pin_offset(b: &mut Builder) {
    b.stated("pin.offset", "clearance", "pistons.pin-offset", "How far the pin stands from the middle of the piston.");
    b.choice(
        "pin.offset-towards",
        "pistons.pin-offset-towards",
        &["major-thrust", "minor-thrust"],
        "The side the pin is offset to, as fitted.",
    );
    b.derive(
        "piston.top-angle",
        "angle",
        One,
        "How far past the throw's highest place the piston is highest: before it with a pin toward the major thrust side.",
        "offset slider-crank: asin(d/(l + r))",
        ["stroke", "rod.length", "pin.offset", "pin.offset-towards"],
        |s: Length, l: Length, offset: Length, towards: Word| {
            let slider = off_centre(s, l, Some(offset), Some(towards)).checked().map_err(|_| TOO_SHORT)?;
            Ok::<Angle, Unavailable>(Angle::si(slider.top_dead_centre()))
        },
    );
    b.derive(
        "piston.thrust.at-peak",
        "force",
        One,
        "How hard a piston pushes its bore where the pressure at power is most, the pin's offset counted: toward the major \
         thrust side where it is more than nothing.",
        "gas less inertia by the tangent of the rod's slant, friction left out; Bevan, Theory of Machines",
        [
            "stroke",
            "rod.length",
            "bore.nominal",
            "bearing.gas-pressure.at-power",
            "cylinder.peak-pressure-angle",
            "piston.pull.at-peak",
            "pin.offset",
            "pin.offset-towards",
        ],
        |s: Length,
         l: Length,
         bore: Length,
         gas: Pressure,
         at: Angle,
         pull: Force,
         offset: Option<Length>,
         towards: Option<Word>| {
            let slider = off_centre(s, l, offset, towards).checked().map_err(|_| TOO_SHORT)?;
            let area = std::f64::consts::PI / 4.0 * bore.value * bore.value;
            let down = (gas.value - OUTSIDE) * area - pull.value;
            Ok::<Force, Unavailable>(Force::si(down * slider.slant_at(at.value).tan()))
        },
    );
    b.derive(
        "piston.pull.at-peak",
        "force",
        One,
        "What a piston's inertia holds back of that pressure.",
        "greatest reciprocating mass by acceleration",
        ["stroke", "rod.length", "target.power-speed", "cylinder.peak-pressure-angle", "reciprocating.mass.max"],
        |s: Length, l: Length, w: AngularVelocity, at: Angle, m: Mass| {
            let slider = Slider::new(s.value, l.value).checked().map_err(|_| TOO_SHORT)?;
            Ok::<Force, Unavailable>(Force::si(inertia::load(m.value, slider.acceleration(at.value, w.value))))
        },
    );
}

/// Pressure under the pistons, Pa: the air's.
const OUTSIDE: f64 = 101_325.0;

/// The rod pushes the piston away from the side that the crankpin is on after top dead centre: that is the major thrust
/// side, and an offset toward it is one away from the pin.
fn off_centre(s: Length, l: Length, offset: Option<Length>, towards: Option<Word>) -> Slider {
    let side = if towards.is_some_and(|word| word.0 == "minor-thrust") { 1.0 } else { -1.0 };
    Slider { offset: side * offset.map_or(0.0, |d| d.value), ..Slider::new(s.value, l.value) }
}

fn turned(s: Length, l: Length, w: AngularVelocity, angle: f64) -> Result<Acceleration, Unavailable> {
    let slider = Slider::new(s.value, l.value).checked().map_err(|_| TOO_SHORT)?;
    Ok(Acceleration::si(slider.acceleration(angle, w.value).abs()))
}

fn accelerations(b: &mut Builder) {
    let top = |s: Length, l: Length, w: AngularVelocity| turned(s, l, w, 0.0);
    for (id, speed, about) in [
        (
            "piston.acceleration.at-shift",
            "working-speed",
            "Piston's acceleration at top dead centre, where it is shifted.",
        ),
        (
            "piston.acceleration.at-limiter",
            "top-speed",
            "Piston's acceleration at top dead centre, at the highest speed it is meant to see.",
        ),
        ("piston.acceleration.at-over-rev", "over-rev", "Piston's acceleration at top dead centre, at the over-rev."),
    ] {
        b.derive(id, "acceleration", One, about, SLIDER, ["stroke", "rod.length", speed], top);
    }
    b.derive(
        "piston.acceleration.bottom.at-over-rev",
        "acceleration",
        One,
        "Piston's acceleration at bottom dead centre, at the over-rev.",
        SLIDER,
        ["stroke", "rod.length", "over-rev"],
        |s: Length, l: Length, w: AngularVelocity| turned(s, l, w, std::f64::consts::PI),
    );
    let load = |m: Mass, a: Acceleration| Force::si(inertia::load(m.value, a.value));
    for (id, at, about) in [
        (
            "rod.inertia-load.at-shift",
            "piston.acceleration.at-shift",
            "Pull on the rod at top dead centre, where it is shifted.",
        ),
        (
            "rod.inertia-load.at-over-rev",
            "piston.acceleration.at-over-rev",
            "Pull on the rod at top dead centre, at the over-rev.",
        ),
    ] {
        b.derive(
            id,
            "force",
            One,
            about,
            "greatest reciprocating mass by acceleration",
            ["reciprocating.mass.max", at],
            load,
        );
    }
}

fn rod(b: &mut Builder) {
    let source = "Young's modulus of the rod's material; ASM Handbook vol. 1 and 2, from memory";
    b.usual("rod.modulus", "pressure", "How stiff the rod's metal is.", source, ["rod.material"], |words| {
        figures(words).map(|p| (p.modulus, p.modulus))
    });
    let source = "density of the rod's material; ASM Handbook vol. 1 and 2, from memory";
    b.usual("rod.density", "density", "How heavy the rod's metal is.", source, ["rod.material"], |words| {
        figures(words).map(|p| (p.density, p.density))
    });
    b.derive(
        "rod.stretch",
        "clearance",
        One,
        "How much longer the rod is at top dead centre of the exhaust stroke, at the over-rev: its beam only.",
        "F l/(A E) and rho a l²/(2 E) for its own mass; Shigley's Mechanical Engineering Design, eq. 4-3",
        [
            "rod.inertia-load.at-over-rev",
            "piston.acceleration.at-over-rev",
            "rod.length",
            "rod.beam-area",
            "rod.modulus",
            "rod.density",
        ],
        |force: Force,
         a: Acceleration,
         length: Length,
         area: Area,
         modulus: Pressure,
         density: uom::si::f64::MassDensity| {
            let beam = inertia::Beam {
                length: length.value,
                area: area.value,
                modulus: modulus.value,
                density: density.value,
            };
            Length::si(inertia::stretch_with_own_mass(beam, force.value, a.value))
        },
    );
    b.usual(
        "rod.rise",
        "temperature-difference",
        "How much warmer than 20 °C a rod runs.",
        "common practice, no source",
        [],
        |_| Some((80.0, 120.0)),
    );
    b.derive(
        "rod.growth",
        "clearance",
        One,
        "How much longer the rod is warm.",
        "linear expansion; ASM Handbook vol. 1 and 2, from memory",
        ["rod.material", "rod.length", "rod.rise"],
        |metal: Word, length: Length, rise: crate::typed::Rise| {
            let metal = material("rods.material", metal.0)
                .ok_or(Unavailable::Outside("nobody has a coefficient for this metal"))?;
            Ok(Length::si(growth(metal.properties().expansion, length.value, rise.0)))
        },
    );
}

fn figures(words: &[&str]) -> Option<Properties> {
    words.first().and_then(|w| material("rods.material", w)).map(thou_mechanics::expansion::Material::properties)
}

fn taken_up(b: &mut Builder) {
    b.derive(
        "piston-to-head.growth",
        "gap",
        One,
        "What piston, rod and crank grow towards the head beyond what the block grows: the head comes no nearer, the \
         piston does.",
        "linear expansion, ASM Handbook vol. 1 and 2, from memory: compression height 130 K warmer than 20 °C, rod, \
         throw and block 70 K; the rises are common practice, no source",
        ["piston.compression-height", "rod.length", "stroke", "piston.alloy", "rod.material", "block.material"],
        |height: Length, rod: Length, stroke: Length, alloy: Word, metal: Word, block: Word| {
            let expansion = |path, word: Word| {
                let metal =
                    material(path, word.0).ok_or(Unavailable::Outside("nobody has a coefficient for this metal"))?;
                Ok::<_, Unavailable>(metal.properties().expansion)
            };
            let (piston, beam) = (expansion("pistons.alloy", alloy)?, expansion("rods.material", metal)?);
            let block = expansion("block.material", block)?;
            // every crank is iron or steel, and those grow by much the same
            let throw = thou_mechanics::expansion::Material::Steel.properties().expansion;
            let crown = growth(piston, height.value, PISTON_RISE);
            let below = growth(beam, rod.value, WARM) + growth(throw, stroke.value / 2.0, WARM);
            let deck = growth(block, height.value + rod.value + stroke.value / 2.0, WARM);
            Ok::<_, Unavailable>(Length::si(crown + below - deck))
        },
    );
    b.derive(
        "piston-to-head.taken-up",
        "gap",
        One,
        "What the piston comes nearer to the head at the over-rev than on the bench: rod stretch, and, as far as the \
         sheet has them, the clearances of rod and main bearings, both pin clearances, the piston's rock, each at its \
         greatest, what the parts grow, and the crank's bow. No factor for safety.",
        "sum of the parts: on the bench the crank pushes the rod up, at speed the piston pulls it and the crank up, so that \
         each joint gives its whole clearance; a piston that leans by its wall clearance over a skirt of half a bore lifts \
         the edge of its crown by as much; a crank bows by 0.8 thou an inch of stroke, from memory",
        [
            "rod.stretch",
            "rod-bearing.clearance.max",
            "main-bearing.clearance.max",
            "pin-to-piston.max",
            "pin-to-rod.max",
            "piston-to-wall.max",
            "piston-to-head.growth",
            "stroke",
        ],
        |stretch: Length,
         bearing: Option<Length>,
         main: Option<Length>,
         piston: Option<Length>,
         rod: Option<Length>,
         wall: Option<Length>,
         grown: Option<Length>,
         stroke: Option<Length>| {
            let none = Length::si(0.0);
            // a pressed pin has no clearance to give
            let given = |c: Option<Length>| c.unwrap_or(none).max(none);
            let joints = given(bearing) + given(main) + given(piston) + given(rod) + given(wall);
            stretch + joints + grown.unwrap_or(none) + stroke.map_or(none, |s| BOW * s)
        },
    );
}

/// Kelvin over 20 °C that a piston runs at between pin and crown; common practice, no source.
const PISTON_RISE: f64 = 130.0;
/// Kelvin over 20 °C that rod, crank and block run at; common practice, no source.
const WARM: f64 = 70.0;
/// What a crank bows at the over-rev over its stroke; from memory, 3 thou in a V8 of 3.75 in.
const BOW: f64 = 0.8e-3;

fn clamp(b: &mut Builder) {
    b.derive(
        "rod-bolt.clamp-margin",
        "ratio",
        One,
        "Clamp of a rod's bolts over what pulls its cap off at the over-rev.",
        "reciprocating mass at the piston's acceleration, and the half of the big end above the joint at the crankpin's; \
         the half is common practice, no source",
        [
            "rod-bolt.count",
            "rod-bolt.clamp",
            "rod.inertia-load.at-over-rev",
            "rod.big-end.mass.max",
            "stroke",
            "over-rev",
        ],
        |count: Ratio, clamp: Force, load: Force, big_end: Mass, stroke: Length, w: AngularVelocity| {
            let upper = inertia::load(big_end.value / 2.0, stroke.value / 2.0 * w.value * w.value);
            Ratio::si(bolt::clamp_ratio(count.value, clamp.value, load.value + upper))
        },
    )
    .part("rods");
    b.stated("head-fastener.count", "count", "fasteners.heads.count-a-cylinder", "Head fasteners round one cylinder.");
    b.stated("head-fastener.clamp", "force", "fasteners.heads.clamp", "Clamp load of one head fastener.").or(
        "middle of the tensions that its torque brings, where no clamp is stated",
        ["head-fastener.tension.least", "head-fastener.tension.most"],
        |least: Force, most: Force| -> Force { (least + most) / 2.0 },
    );
    b.derive(
        "gasket.clamp-ratio",
        "ratio",
        One,
        "Clamp round a cylinder over what lifts the head there.",
        "clamp over peak pressure on the gasket's own bore, which is where it seals; static",
        ["head-fastener.count", "head-fastener.clamp", "peak-pressure", "gasket.bore"],
        |count: Ratio, clamp: Force, pressure: Pressure, bore: Length| {
            let lift = bolt::lift_off(pressure.value, bore.value);
            Ratio::si(bolt::clamp_ratio(count.value, clamp.value, lift))
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::{Catalogue, SheetFacts};
    use std::path::Path;
    use thou_sheet::Sheet;

    #[test]
    fn a_pin_toward_the_major_thrust_side_is_high_early_and_pushes_harder_after_it() {
        let text = include_str!("../../../../sample-builds/bracket.json");
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-builds");
        let with = |pistons: &str| {
            let text = text.replace("\"pistons\": {", &format!("\"pistons\": {{ {pistons}"));
            let sheet = Sheet::parse_unheld("engine.json", &text, &folder).map_err(|e| e.to_string()).unwrap();
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            let of = |id: &str| facts.one(id).map(|n| n.value);
            let [stroke, rod, at] = ["stroke", "rod.length", "cylinder.peak-pressure-angle"].map(|id| of(id).unwrap());
            (of("piston.top-angle"), of("piston.thrust.at-peak").unwrap(), stroke / 2.0 * at.sin(), stroke / 2.0, rod)
        };
        let own = text.contains("\"pin-offset\"");
        assert!(!own);
        let (none, middle, across, radius, rod) = with("");
        let (top, major, ..) = with("\"pin-offset\": \"40 thou\", \"pin-offset-towards\": \"major-thrust\",");
        let (late, minor, ..) = with("\"pin-offset\": \"40 thou\", \"pin-offset-towards\": \"minor-thrust\",");
        assert!(none.is_none() && middle > 0.0);
        // by hand: asin(d/(l + r)), and the tangents of asin((r sin t ± d)/l)
        let angle = (1.016e-3 / (rod + radius)).asin();
        assert!((top.unwrap() + angle).abs() < 1e-9 && (late.unwrap() - angle).abs() < 1e-9);
        let tangent = |d: f64| ((across + d) / rod).asin().tan();
        assert!((major / middle - tangent(1.016e-3) / tangent(0.0)).abs() < 1e-9);
        assert!((minor / middle - tangent(-1.016e-3) / tangent(0.0)).abs() < 1e-9);
    }
}
