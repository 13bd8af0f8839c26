//! What a spring's wire and coils say: rate, stress, surge.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Word};
use thou_mechanics::valve_spring::{self, Coil};
use thou_sheet::Axis::{One, Valve};
use uom::si::f64::{AngularVelocity, Force, Length, Mass, MassDensity, Pressure, Ratio, SurfaceTension};

const WIRES: &[&str] = &["chrome-silicon", "super-clean", "chrome-vanadium", "music-wire"];
const STYLES: &[&str] = &["single", "dual", "triple", "beehive", "conical", "pneumatic"];

pub(super) fn facts(b: &mut Builder) {
    wire(b);
    rate(b);
    stress(b);
    surge(b);
}

fn wire(b: &mut Builder) {
    b.choice("spring.style", "springs.style", STYLES, "How the springs are built.");
    b.choice("spring.material", "springs.material", WIRES, "What the springs are wound of.");
    b.stated("spring.wire", "length", "springs.wire-diameter", "Wire of the outer spring.");
    b.stated("spring.coil-diameter", "length", "springs.mean-diameter", "Mean coil diameter of the outer spring.");
    b.stated("spring.coils.active", "ratio", "springs.active-coils", "Coils of the outer spring that work.");
    b.stated("spring.coils.total", "ratio", "springs.total-coils", "All coils of the outer spring.");
    b.stated(
        "spring.card.stress-limit",
        "pressure",
        "springs.card.stress-limit",
        "Greatest stress in the wire by the spring maker's card.",
    );
    let metal = "Shigley's Mechanical Engineering Design, table 10-5; from memory";
    b.usual(
        "spring.shear-modulus",
        "pressure",
        "How stiff the wire is in shear.",
        metal,
        ["spring.material"],
        |words| match words {
            ["chrome-silicon" | "super-clean" | "chrome-vanadium"] => Some((77.2e9, 78.5e9)),
            ["music-wire"] => Some((79.3e9, 82.7e9)),
            _ => None,
        },
    );
    b.usual("spring.density", "density", "How heavy the wire is.", metal, ["spring.material"], |_| {
        Some((7830.0, 7870.0))
    });
    b.derive(
        "spring.wire-strength",
        "pressure",
        One,
        "Tensile strength of wire of this kind and thickness.",
        "A/d^m; Shigley's Mechanical Engineering Design, table 10-4; super-clean chrome-silicon from wire makers' \
         tables, all from memory",
        ["spring.material", "spring.wire"],
        |metal: Word, wire: Length| {
            // MPa at one millimetre, exponent
            let (strength, exponent) = match metal.0 {
                "chrome-silicon" => (1974.0, 0.108),
                "super-clean" => (2330.0, 0.10),
                "chrome-vanadium" => (2005.0, 0.168),
                "music-wire" => (2211.0, 0.145),
                _ => return Err(Unavailable::Outside("nobody has a strength for this wire")),
            };
            Ok(Pressure::si(valve_spring::wire_strength(strength * 1e6, exponent, wire.value, 1e-3)))
        },
    )
    .part("springs");
}

/// One coil diameter and one wire, or nothing to reckon with.
fn coil(style: Word, wire: Length, mean: Length, active: Ratio, shear: Pressure) -> Result<Coil, Unavailable> {
    if matches!(style.0, "beehive" | "conical" | "pneumatic") {
        return Err(Unavailable::Outside("a beehive, a conical and an air spring have no one coil diameter"));
    }
    let coil = Coil {
        wire: wire.value,
        mean: mean.value,
        active: active.value,
        shear_modulus: shear.value,
        density: f64::NAN,
    };
    if coil.wire > 0.0 && coil.active > 0.0 && (3.0..=16.0).contains(&coil.index()) {
        Ok(coil)
    } else {
        Err(Unavailable::Outside("springs are wound with a mean coil diameter of 3 to 16 wires"))
    }
}

fn rate(b: &mut Builder) {
    b.derive(
        "spring.coil-rate",
        "spring-rate",
        One,
        "Rate of the outer spring by its wire and coils.",
        "G d^4/(8 D^3 Na); Shigley's Mechanical Engineering Design, eq. 10-9",
        ["spring.style", "spring.wire", "spring.coil-diameter", "spring.coils.active", "spring.shear-modulus"],
        |style: Word, wire: Length, mean: Length, active: Ratio, shear: Pressure| {
            coil(style, wire, mean, active, shear).map(|c| SurfaceTension::si(c.rate()))
        },
    )
    .part("springs");
    b.derive(
        "spring.load-share",
        "ratio",
        One,
        "Share of the load that the outer spring carries.",
        "its rate over that of the set; all of it where the spring is single",
        ["spring.style", "spring.coil-rate", "spring.rate"],
        |style: Word, own: SurfaceTension, all: SurfaceTension| -> Ratio {
            let whole = Ratio::si(1.0);
            if style.0 == "single" { whole } else { (own / all).min(whole) }
        },
    )
    .part("springs");
    b.derive(
        "spring.card.travel",
        "length",
        One,
        "From its card's installed height down to bind.",
        "difference of the two heights",
        ["spring.card.installed-height", "spring.bind-height"],
        |installed: Length, bind: Length| -> Length { installed - bind },
    )
    .part("springs");
    b.derive(
        "spring.mass.by-wire",
        "mass",
        One,
        "What the outer spring weighs by its wire.",
        "the volume of its wire, coil by coil, by its density",
        ["spring.wire", "spring.coil-diameter", "spring.coils.total", "spring.density"],
        |wire: Length, mean: Length, total: Ratio, density: MassDensity| {
            let section = std::f64::consts::FRAC_PI_4 * wire.value * wire.value;
            Mass::si(section * std::f64::consts::PI * mean.value * total.value * density.value)
        },
    )
    .part("springs");
    b.derive(
        "spring.solid-height",
        "length",
        One,
        "Height at which the outer spring's coils touch, by its wire.",
        "total coils by wire, ends closed and ground; Shigley's Mechanical Engineering Design, table 10-1",
        ["spring.coils.total", "spring.wire"],
        |total: Ratio, wire: Length| -> Length { wire * total },
    )
    .part("springs");
}

fn stress(b: &mut Builder) {
    let of = |load: Force, share: Ratio, wire: Length, mean: Length| {
        let coil = Coil { wire: wire.value, mean: mean.value, active: 1.0, shear_modulus: 1.0, density: 1.0 };
        Pressure::si(coil.stress(load.value * share.value, valve_spring::wahl(coil.index())))
    };
    let source = "K 8 F D/(pi d^3) with Wahl's factor; Wahl, Mechanical Springs, 1963";
    for (id, load, about) in [
        ("spring.stress.seat", "spring.seat-load", "Shear stress in the outer spring's wire, valve shut."),
        ("spring.stress.open", "spring.open-load", "Shear stress in the outer spring's wire at full lift."),
    ] {
        let needs = [load, "spring.load-share", "spring.wire", "spring.coil-diameter"];
        b.derive(id, "pressure", Valve, about, source, needs, of).part("springs");
    }
    b.derive(
        "spring.stress.share",
        "ratio",
        Valve,
        "Shear stress in the wire at full lift, over the wire's tensile strength.",
        "ratio of two stresses",
        ["spring.stress.open", "spring.wire-strength"],
        |stress: Pressure, strength: Pressure| -> Ratio { stress / strength },
    )
    .part("springs");
}

fn surge(b: &mut Builder) {
    b.derive(
        "spring.surge-frequency",
        "angular-speed",
        One,
        "How fast the outer spring swings by itself, in swings a minute, valve shut.",
        "half the root of rate over mass, both ends held; Shigley's Mechanical Engineering Design, eq. 10-25",
        [
            "spring.style",
            "spring.wire",
            "spring.coil-diameter",
            "spring.coils.active",
            "spring.shear-modulus",
            "spring.density",
        ],
        |style: Word, wire: Length, mean: Length, active: Ratio, shear: Pressure, density: MassDensity| {
            let coil = Coil { density: density.value, ..coil(style, wire, mean, active, shear)? };
            Ok(AngularVelocity::si(coil.surge() * std::f64::consts::TAU))
        },
    )
    .part("springs");
    b.derive(
        "spring.surge-ratio",
        "ratio",
        One,
        "How often the outer spring swings while the cam turns once, at the highest speed it is meant to see.",
        "surge frequency over half the crank's speed",
        ["spring.surge-frequency", "top-speed"],
        |surge: AngularVelocity, top: AngularVelocity| -> Ratio { surge / (top / 2.0) },
    )
    .part("springs");
}
