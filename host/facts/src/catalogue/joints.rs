//! Head fasteners and rod bolts as bolted joints: tension from torque, its scatter, who takes the load, when it opens.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Word};
use std::f64::consts::FRAC_PI_4;
use thou_mechanics::bolt::{self, TAN_30, Thread};
use thou_mechanics::inertia;
use thou_sheet::Axis::{One, Rod};
use thou_sheet::Sheet;
use uom::si::f64::{AngularVelocity, Area, Force, Length, Mass, Pressure, Ratio, Torque};

const STEEL: (f64, f64) = (200e9, 210e9);
const METHODS: &[&str] = &["torque", "angle", "stretch", "yield"];

pub(super) fn facts(b: &mut Builder) {
    threads(b);
    tension(b);
    sharing(b);
    rod_bolts(b);
}

/// Diameter and pitch, m, and whether metric, of a size as it is written: "7/16-20", "1/2-13 stud", "M11", "M10x1.25".
/// A metric size without a pitch is the coarse one, which is what it means (ISO 261).
pub(crate) fn size(text: &str) -> Option<Thread> {
    let word = text.split_whitespace().next()?;
    if let Some(metric) = word.strip_prefix(['M', 'm']) {
        let (diameter, pitch) = match metric.split_once(['x', 'X', '×']) {
            Some((d, p)) => (d.parse().ok()?, p.parse().ok()?),
            None => {
                let d: f64 = metric.parse().ok()?;
                let coarse = [(6.0, 1.0), (7.0, 1.0), (8.0, 1.25), (9.0, 1.25), (10.0, 1.5), (11.0, 1.5), (12.0, 1.75)];
                let larger = [(14.0, 2.0), (16.0, 2.0), (18.0, 2.5), (20.0, 2.5)];
                let pitch = coarse.iter().chain(&larger).find(|(size, _)| (size - d).abs() < 1e-9)?.1;
                (d, pitch)
            }
        };
        return sound(Thread { diameter: diameter * 1e-3, pitch: pitch * 1e-3, metric: true });
    }
    let (diameter, threads) = word.split_once('-')?;
    let inches: f64 = match diameter.split_once('/') {
        Some((over, under)) => over.parse::<f64>().ok()? / under.parse::<f64>().ok()?,
        None => diameter.parse().ok()?,
    };
    let threads: f64 = threads.parse().ok()?;
    sound(Thread { diameter: inches * 0.0254, pitch: 0.0254 / threads, metric: false })
}

fn sound(thread: Thread) -> Option<Thread> {
    let fits = thread.pitch > 0.0 && thread.pitch < thread.diameter / 2.0 && thread.diameter < 0.1;
    fits.then_some(thread)
}

pub(super) fn of_size(sheet: &Sheet, path: &str) -> Option<Thread> {
    sheet.stated(path).and_then(|(v, _)| v.as_str()).and_then(size)
}

fn threads(b: &mut Builder) {
    b.stated("head-fastener.diameter", "length", "fasteners.heads.diameter", "A head fastener's thread.")
        .or_worked("fasteners.heads.size", |s| of_size(s, "fasteners.heads.size").map(|t| t.diameter));
    b.stated("head-fastener.pitch", "length", "fasteners.heads.pitch", "The pitch of a head fastener's thread.")
        .or_worked("fasteners.heads.size", |s| of_size(s, "fasteners.heads.size").map(|t| t.pitch));
    b.stated("head-fastener.face", "length", "fasteners.heads.face", "What a head fastener's nut or head turns on.");
    b.stated("head-fastener.grip", "length", "fasteners.heads.grip", "What a head fastener clamps.");
    b.stated("head-fastener.torque", "torque", "fasteners.heads.torque", "Torque of the head fasteners, as stated.");
    b.choice("head-fastener.method", "fasteners.heads.method", METHODS, "How the head fasteners are tightened.");
    b.stated("rod-bolt.diameter", "length", "fasteners.rod-bolts.diameter", "A rod bolt's thread.")
        .or_worked("fasteners.rod-bolts.size", |s| of_size(s, "fasteners.rod-bolts.size").map(|t| t.diameter));
    b.stated("rod-bolt.pitch", "length", "fasteners.rod-bolts.pitch", "The pitch of a rod bolt's thread.")
        .or_worked("fasteners.rod-bolts.size", |s| of_size(s, "fasteners.rod-bolts.size").map(|t| t.pitch));
    b.stated("rod-bolt.grip", "length", "fasteners.rod-bolts.grip", "What a rod bolt clamps.");
    b.stated("rod-bolt.strength", "pressure", "fasteners.rod-bolts.strength", "Tensile strength of the rod bolts.");
    let modulus = "Young's modulus of bolt steels; ASM Handbook vol. 1, from memory";
    b.usual("fastener.modulus", "pressure", "How stiff a fastener's steel is.", modulus, [], |_| Some(STEEL));
}

/// A pitch in whole threads an inch is a unified thread's, any other a metric one's.
pub(super) fn thread(diameter: Length, pitch: Length) -> Thread {
    let an_inch = 0.0254 / pitch.value;
    Thread { diameter: diameter.value, pitch: pitch.value, metric: (an_inch - an_inch.round()).abs() > 1e-6 }
}

fn face_or(face: Option<Length>, diameter: f64) -> f64 {
    face.map_or(1.5 * diameter, |f| f.value)
}

fn tension(b: &mut Builder) {
    b.stated(
        "head-fastener.friction-low",
        "ratio",
        "fasteners.heads.friction-low",
        "Least friction of the lubricant in thread and under the nut.",
    )
    .or_usual("oiled and pasted bolts: friction class B of VDI 2230-1, 0.08 to 0.16, as two suppliers of bolts reprint its table", [], |_| Some((0.08, 0.08)));
    b.stated(
        "head-fastener.friction-high",
        "ratio",
        "fasteners.heads.friction-high",
        "Greatest friction of the lubricant in thread and under the nut.",
    )
    .or_usual("oiled and pasted bolts: friction class B of VDI 2230-1, 0.08 to 0.16, as two suppliers of bolts reprint its table", [], |_| Some((0.16, 0.16)));
    let vdi = "VDI 2230-1:2015, eq. R13/1, at equal friction in the thread and under the nut; a face of one and a half \
               diameters where none is stated";
    for (id, friction, about) in [
        (
            "head-fastener.tension.least",
            "head-fastener.friction-high",
            "Tension of a head fastener by its torque, where the lubricant drags most.",
        ),
        (
            "head-fastener.tension.most",
            "head-fastener.friction-low",
            "Tension of a head fastener by its torque, where the lubricant drags least.",
        ),
    ] {
        b.derive(
            id,
            "force",
            One,
            about,
            vdi,
            ["head-fastener.torque", "head-fastener.diameter", "head-fastener.pitch", "head-fastener.face", friction],
            |torque: Torque, diameter: Length, pitch: Length, face: Option<Length>, friction: Ratio| {
                let d = diameter.value;
                let collar = bolt::collar_diameter(face_or(face, d), 1.05 * d);
                let (thread, mu) = (thread(diameter, pitch), friction.value);
                Force::si(bolt::tension_by_friction(thread, torque.value, mu, mu, collar))
            },
        );
    }
    b.usual(
        "head-fastener.scatter",
        "ratio",
        "How far one head fastener's tension is from what it was meant to be, either way.",
        "a gasket maker in a trade article: 30 % by torque, 10 % by angle; stretch and yield common practice, no source",
        ["head-fastener.method"],
        |words| match words {
            ["torque"] => Some((0.25, 0.35)),
            ["angle" | "yield"] => Some((0.08, 0.12)),
            ["stretch"] => Some((0.03, 0.07)),
            _ => None,
        },
    );
    for (id, sign, about) in [
        ("head.clamp-ratio.low", -1.0, "Clamp over lift round a cylinder where every fastener came out slack."),
        ("head.clamp-ratio.high", 1.0, "Clamp over lift round a cylinder where every fastener came out tight."),
    ] {
        b.derive(
            id,
            "ratio",
            One,
            about,
            "the clamp ratio less or more the scatter of tightening",
            ["gasket.clamp-ratio", "head-fastener.scatter"],
            move |ratio: Ratio, scatter: Ratio| -> Ratio { ratio * (Ratio::si(1.0) + scatter * sign) },
        );
    }
}

/// Load factor of a bolt through one metal: its shank full but for one diameter of thread in the grip.
fn factor(
    diameter: Length,
    pitch: Length,
    grip: Length,
    face: Option<Length>,
    bolt_modulus: Pressure,
    parts: f64,
) -> Result<Ratio, Unavailable> {
    let (d, grip) = (diameter.value, grip.value);
    let thread = thread(diameter, pitch);
    if grip <= d {
        return Err(Unavailable::Outside("a grip shorter than the bolt is thick is no joint that this holds for"));
    }
    let kb = bolt::bolt_stiffness(grip - d, FRAC_PI_4 * d * d, d, thread.stress_area(), bolt_modulus.value);
    let km = bolt::members(parts, d, face_or(face, d), grip, TAN_30);
    Ok(Ratio::si(bolt::load_factor(kb, km)))
}

fn sharing(b: &mut Builder) {
    let cones = "bolt over bolt and parts, parts as two cones of 30 degrees; Shigley's Mechanical Engineering Design, \
                 eq. 8-17, 8-21 and 8-24";
    b.derive(
        "head-fastener.load-factor",
        "ratio",
        One,
        "Share of the lift that a head fastener feels, the gasket taken as hard as the head: a soft one raises it.",
        cones,
        [
            "head-fastener.diameter",
            "head-fastener.pitch",
            "head-fastener.grip",
            "head-fastener.face",
            "fastener.modulus",
            "head.material",
        ],
        |d: Length, p: Length, grip: Length, face: Option<Length>, steel: Pressure, head: Word| {
            // ASM Handbook vol. 1 and 2, from memory
            let parts = if head.0 == "aluminium" { 71e9 } else { 110e9 };
            factor(d, p, grip, face, steel, parts)
        },
    );
    b.derive(
        "rod-bolt.load-factor",
        "ratio",
        One,
        "Share of a pull on the cap that a rod bolt feels.",
        cones,
        ["rod-bolt.diameter", "rod-bolt.pitch", "rod-bolt.grip", "fastener.modulus", "rod.modulus"],
        |d: Length, p: Length, grip: Length, steel: Pressure, rod: Pressure| factor(d, p, grip, None, steel, rod.value),
    )
    .part("rods");
}

fn rod_bolts(b: &mut Builder) {
    b.derive(
        "rod-bolt.pull",
        "force",
        One,
        "What pulls on one rod bolt's share of the cap at the over-rev.",
        "reciprocating mass at the piston's acceleration, and the half of the big end above the joint at the crankpin's, \
         over the bolts; the half is common practice, no source",
        ["rod-bolt.count", "rod.inertia-load.at-over-rev", "rod.big-end.mass.max", "stroke", "over-rev"],
        |count: Ratio, load: Force, big_end: Mass, stroke: Length, w: AngularVelocity| -> Force {
            let upper = inertia::load(big_end.value / 2.0, stroke.value / 2.0 * w.value * w.value);
            (load + Force::si(upper)) / count
        },
    )
    .part("rods");
    b.derive(
        "rod-bolt.stress-area",
        "area",
        One,
        "Tensile stress area of a rod bolt.",
        "ISO 898-1; ASME B1.1",
        ["rod-bolt.diameter", "rod-bolt.pitch"],
        |d: Length, p: Length| Area::si(thread(d, p).stress_area()),
    )
    .part("rods");
    b.derive(
        "rod-bolt.clamp.by-stretch",
        "force",
        Rod,
        "Clamp that the least stretch of a rod's bolts stands for, were a bolt one section all along its grip, that of its \
         thread: a waisted shank clamps less, by about as much as it is thinner.",
        "A E dL/L; Shigley's Mechanical Engineering Design, eq. 4-3",
        ["rod-bolt.stretch", "rod-bolt.stress-area", "fastener.modulus", "rod-bolt.grip"],
        |stretch: Length, area: Area, modulus: Pressure, grip: Length| {
            Force::si(bolt::tension_by_stretch(stretch.value, area.value, modulus.value, grip.value))
        },
    )
    .part("rods");
    b.derive(
        "rod-bolt.clamp.stretch-over-stated",
        "ratio",
        Rod,
        "Clamp that the stretch stands for over the clamp that the sheet has: rods that differ were not pulled alike.",
        "ratio of two forces",
        ["rod-bolt.clamp.by-stretch", "rod-bolt.clamp"],
        |read: Force, stated: Force| -> Ratio { read / stated },
    )
    .part("rods");
    b.derive(
        "rod-bolt.stress",
        "pressure",
        One,
        "Stress in a rod bolt by its clamp, engine still.",
        "clamp over tensile stress area",
        ["rod-bolt.clamp", "rod-bolt.stress-area"],
        |clamp: Force, area: Area| -> Pressure { clamp / area },
    )
    .part("rods");
    b.derive(
        "rod-bolt.separation-margin",
        "ratio",
        One,
        "How many times the pull at the over-rev a rod's joint opens at.",
        "Fi/(P (1 - C)), loaded along the bolt; Shigley's Mechanical Engineering Design, eq. 8-30",
        ["rod-bolt.clamp", "rod-bolt.load-factor", "rod-bolt.pull"],
        |clamp: Force, factor: Ratio, pull: Force| Ratio::si(bolt::separation(clamp.value, factor.value, pull.value)),
    )
    .part("rods");
    b.derive(
        "rod-bolt.separation-speed",
        "angular-speed",
        One,
        "The speed at which the pull opens a rod's joint.",
        "the over-rev times the root of the margin there: the pull goes by the square of the speed",
        ["rod-bolt.separation-margin", "over-rev"],
        |margin: Ratio, w: AngularVelocity| -> AngularVelocity { w * margin.value.sqrt() },
    )
    .part("rods");
    b.usual(
        "rod-bolt.endurance",
        "pressure",
        "Alternating stress that rolled bolt threads bear without end.",
        "rolled threads of classes 10.9 and 12.9; Shigley's Mechanical Engineering Design, table 8-17, from memory",
        [],
        |_| Some((162e6, 190e6)),
    );
    b.derive(
        "rod-bolt.fatigue-margin",
        "ratio",
        One,
        "How many times the pull at the over-rev a rod bolt bears without end, if the joint stays shut and pulls along \
         the bolt.",
        "Goodman's line, the pull coming and going each turn; Shigley's Mechanical Engineering Design, eq. 8-45",
        [
            "rod-bolt.stress",
            "rod-bolt.load-factor",
            "rod-bolt.pull",
            "rod-bolt.stress-area",
            "rod-bolt.endurance",
            "rod-bolt.strength",
        ],
        |still: Pressure, factor: Ratio, pull: Force, area: Area, endurance: Pressure, strength: Pressure| {
            if still >= strength {
                return Err(Unavailable::Outside("the clamp alone is past the bolt's stated strength"));
            }
            let swing = factor.value * pull.value / (2.0 * area.value);
            Ok(Ratio::si(bolt::goodman_preloaded(still.value, swing, endurance.value, strength.value)))
        },
    )
    .part("rods");
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::size;
    use crate::{Catalogue, Missing, SheetFacts};
    use serde_json::{Value, json};
    use std::path::Path;
    use thou_sheet::Sheet;

    fn heads(joint: &Value) -> Sheet {
        let sheet = json!({
            "format": "thou-build-1",
            "engine": { "name": "x", "cylinders": 1, "layout": "single" },
            "intent": { "use": "bracket", "peak-pressure": "100 bar" },
            "heads": { "material": "aluminium" },
            "gasket": { "bore": "100 mm" },
            "fasteners": { "heads": joint }
        });
        Sheet::parse_unheld("sheet.json", &sheet.to_string(), Path::new(".")).unwrap_or_else(|_| unreachable!())
    }

    #[test]
    fn a_torque_stands_in_for_a_clamp_that_nobody_stated() {
        let joint = json!({ "size": "M10", "torque": "48.3 N·m", "face": "15.1 mm", "method": "torque",
            "count-a-cylinder": 4, "friction-low": 0.12, "friction-high": 0.12 });
        let s = heads(&joint);
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let one = |id: &str| facts.get(id).unwrap().first().unwrap().as_ref().unwrap().clone();
        // the standard's table has 29.6 kN for this torque and friction on a collar of 12.8 mm
        assert!((one("head-fastener.clamp").value / 29.6e3 - 1.0).abs() < 0.005, "{:?}", one("head-fastener.clamp"));
        let lift = std::f64::consts::FRAC_PI_4 * 0.01 * 10e6;
        let ratio = 4.0 * one("head-fastener.clamp").value / lift;
        assert!((one("gasket.clamp-ratio").value / ratio - 1.0).abs() < 1e-9);
        assert!((one("head.clamp-ratio.low").value / (0.7 * ratio) - 1.0).abs() < 1e-9);
        assert!((one("head.clamp-ratio.high").value / (1.3 * ratio) - 1.0).abs() < 1e-9);
        assert!(one("head.clamp-ratio.low").uncertainty() > 0.0, "the scatter is a range");
    }

    #[test]
    fn a_stated_clamp_goes_before_and_a_missing_method_is_asked_for() {
        let s = heads(&json!({ "clamp": "50 kN", "count-a-cylinder": 4 }));
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let cell = |id: &str| facts.get(id).unwrap().first().unwrap().clone();
        assert!((cell("head-fastener.clamp").unwrap().value - 50e3).abs() < 1e-6);
        let missing = cell("head.clamp-ratio.low").unwrap_err();
        assert_eq!(missing, [Missing::Field("fasteners.heads.method".to_owned())].into());
        let missing = cell("head-fastener.load-factor").unwrap_err();
        assert!(missing.contains(&Missing::Field("fasteners.heads.grip".to_owned())), "{missing:?}");
    }

    #[test]
    fn sizes_as_shops_write_them() {
        let read = |text| size(text).map(|t| (t.diameter * 1e3, t.pitch * 1e3, t.metric));
        for (text, diameter, pitch, metric) in [
            ("7/16-20", 11.1125, 1.27, false),
            ("1/2-13 stud", 12.7, 25.4 / 13.0, false),
            ("M11 stud", 11.0, 1.5, true),
            ("M10x1.25", 10.0, 1.25, true),
            ("M9", 9.0, 1.25, true),
        ] {
            let (d, p, m) = read(text).unwrap_or((0.0, 0.0, !metric));
            assert!((d - diameter).abs() < 1e-9 && (p - pitch).abs() < 1e-9 && m == metric, "{text}: {d} {p} {m}");
        }
        for text in ["", "stud", "M", "M13.7", "7/16", "7/0-20", "1/2-1", "-", "M10x", "M9999"] {
            assert_eq!(read(text), None, "{text}");
        }
    }

    /// At the speed itself the margin is one: the over-rev is a twentieth past the limiter.
    #[test]
    fn the_joint_opens_at_the_speed_that_leaves_no_margin() {
        let path = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-builds/bracket.json"));
        let text = std::fs::read_to_string(path).unwrap();
        let of = |text: &str, fact: &str| {
            let sheet =
                Sheet::parse_unheld("bracket.json", text, path.parent().unwrap()).map_err(|f| f.to_string()).unwrap();
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            facts.get(fact).unwrap().first().unwrap().as_ref().unwrap().value
        };
        let speed = of(&text, "rod-bolt.separation-speed") * 30.0 / std::f64::consts::PI;
        let at_it = text.replace("\"limiter\": \"7600 rpm\"", &format!("\"limiter\": \"{} rpm\"", speed / 1.05));
        assert_ne!(at_it, text);
        assert!((of(&at_it, "rod-bolt.separation-margin") - 1.0).abs() < 1e-9);
        assert!((of(&at_it, "rod-bolt.separation-speed") * 30.0 / std::f64::consts::PI / speed - 1.0).abs() < 1e-9);
    }
}
