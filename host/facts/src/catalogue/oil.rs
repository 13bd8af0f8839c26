//! The oil: what its grade promises, what its data sheet says, and how thick it is in a bearing.

use crate::builder::Builder;
use crate::typed::{Rise, Si, Why, Word};
use thou_mechanics::oil::{self, Oil, Walther};
use thou_mechanics::oil_grade::{self, Promise};
use thou_sheet::Axis::One;
use uom::si::f64::{DynamicViscosity, KinematicViscosity, MassDensity, Ratio, ThermodynamicTemperature as Temperature};

const LINE: &str = "Walther's line; ASTM D341";
const GRADES: &str = "SAE J300, limits of January 2015, which the revisions to 2024 keep";
const CAN: &str = "usual for the grade; from memory of data sheets";
pub(super) const THIN: &str = "this oil is thinner or thicker there than its line holds for";

pub(super) fn facts(b: &mut Builder) {
    grade(b);
    viscosity(b);
}

fn promise(grade: Word) -> Result<Promise, Why> {
    Promise::of(grade.0).ok_or(Why::Outside("SAE J300 has no such grade"))
}

/// Usual viscosities by grade: at 40 and 100 °C in mm²/s, under high shear at 150 °C in mPa s.
fn usual(words: &[&str]) -> Option<[(f64, f64); 3]> {
    Some(match words {
        ["0W-20"] => [(40.0, 48.0), (7.8, 8.8), (2.6, 2.8)],
        ["5W-20"] => [(43.0, 52.0), (8.0, 8.9), (2.6, 2.8)],
        ["0W-30"] => [(50.0, 62.0), (9.8, 11.5), (2.9, 3.3)],
        ["5W-30"] => [(55.0, 70.0), (9.8, 11.8), (2.9, 3.5)],
        ["10W-30"] => [(60.0, 78.0), (9.8, 11.5), (3.0, 3.5)],
        ["5W-40"] => [(76.0, 95.0), (13.0, 14.8), (3.5, 4.0)],
        ["10W-40"] => [(85.0, 105.0), (13.2, 15.0), (3.6, 4.1)],
        ["15W-40"] => [(100.0, 120.0), (13.6, 15.4), (3.9, 4.4)],
        ["5W-50"] => [(100.0, 125.0), (16.8, 19.0), (4.2, 4.8)],
        ["15W-50"] => [(115.0, 145.0), (17.0, 19.5), (4.4, 5.2)],
        ["20W-50"] => [(145.0, 180.0), (17.0, 20.0), (4.6, 5.4)],
        ["30"] => [(85.0, 108.0), (10.3, 12.2), (3.2, 3.7)],
        ["40"] => [(125.0, 158.0), (13.3, 15.6), (3.9, 4.5)],
        ["50"] => [(185.0, 235.0), (17.5, 20.8), (4.8, 5.6)],
        ["60"] => [(250.0, 320.0), (22.3, 25.6), (5.6, 6.6)],
        _ => return None,
    })
}

fn scaled(words: &[&str], which: usize, by: f64) -> Option<(f64, f64)> {
    usual(words).and_then(|u| u.get(which).copied()).map(|(low, high)| (low * by, high * by))
}

fn grade(b: &mut Builder) {
    b.choice("oil.base", "oil.base", &["mineral", "semi-synthetic", "synthetic"], "What the oil is made of.");
    b.derive(
        "oil.grade.thinnest",
        "kinematic-viscosity",
        One,
        "Thinnest that the grade may be at 100 °C.",
        GRADES,
        ["oil.grade"],
        |grade: Word| Ok::<_, Why>(KinematicViscosity::si(promise(grade)?.thinnest())),
    );
    b.derive(
        "oil.grade.below",
        "kinematic-viscosity",
        One,
        "At 100 °C the grade is thinner than this.",
        GRADES,
        ["oil.grade"],
        |grade: Word| Ok::<_, Why>(KinematicViscosity::si(promise(grade)?.below())),
    );
    b.derive(
        "oil.grade.high-shear",
        "dynamic-viscosity",
        One,
        "Least that the grade must keep at 150 °C under high shear.",
        GRADES,
        ["oil.grade"],
        |grade: Word| {
            let least = promise(grade)?.high_shear();
            least.map(DynamicViscosity::si).ok_or(Why::Outside("a winter grade alone promises nothing there"))
        },
    );
    b.stated("oil.viscosity.forty", "kinematic-viscosity", "oil.viscosity-40", "The oil at 40 °C, by its data sheet.")
        .or_usual(CAN, ["oil.grade"], |words| scaled(words, 0, 1e-6));
    b.stated(
        "oil.viscosity.hundred",
        "kinematic-viscosity",
        "oil.viscosity-100",
        "The oil at 100 °C, by its data sheet.",
    )
    .or_usual(CAN, ["oil.grade"], |words| scaled(words, 1, 1e-6));
    b.stated(
        "oil.high-shear",
        "dynamic-viscosity",
        "oil.high-shear",
        "The oil at 150 °C under high shear, by its data sheet.",
    )
    .or_usual(CAN, ["oil.grade"], |words| scaled(words, 2, 1e-3));
    b.stated("oil.density", "density", "oil.density", "Weight of the oil at 15 °C, by its data sheet.").or_usual(
        "from memory of data sheets",
        [],
        |_| Some((850.0, 890.0)),
    );
    met(b);
}

/// Whether it is what the can says, and what else it could be called.
fn met(b: &mut Builder) {
    for (id, last, about) in [
        ("oil.met.lightest", false, "Lightest grade for the heat whose limits the oil keeps, by its data sheet."),
        ("oil.met.heaviest", true, "Heaviest grade for the heat whose limits the oil keeps, by its data sheet."),
    ] {
        b.derive(
            id,
            "count",
            One,
            about,
            GRADES,
            ["oil.viscosity.hundred", "oil.high-shear", "oil.grade"],
            move |hundred: KinematicViscosity, shear: DynamicViscosity, grade: Option<Word>| {
                let winter = grade.and_then(|g| Promise::of(g.0)).and_then(|p| p.winter).map(|w| w.number);
                let mut met = oil_grade::met(hundred.value, shear.value, winter);
                let number = if last { met.last() } else { met.next() };
                number.map(|n| Ratio::si(f64::from(n))).ok_or(Why::Outside(
                    "what it has at 100 °C and under high shear at 150 °C belongs to no one grade of SAE J300",
                ))
            },
        );
    }
}

pub(super) fn line(forty: KinematicViscosity, hundred: KinematicViscosity) -> Result<Walther, Why> {
    let (cold, hot) = ((313.15, forty.value), (373.15, hundred.value));
    Walther::through(cold, hot).map_err(|_| Why::Outside("no oil has such viscosities"))
}

fn viscosity(b: &mut Builder) {
    b.derive(
        "oil.viscosity.at-work",
        "kinematic-viscosity",
        One,
        "The oil at the temperature that it works at.",
        LINE,
        ["oil.viscosity.forty", "oil.viscosity.hundred", "oil.temperature"],
        |forty: KinematicViscosity, hundred: KinematicViscosity, at: Temperature| {
            finite(line(forty, hundred)?.viscosity(at.value)).map(KinematicViscosity::si)
        },
    );
    b.derive(
        "oil.density.at-work",
        "density",
        One,
        "Weight of the oil at the temperature that it works at.",
        "0.065 % less a kelvin over 15 °C, which stands in for ASTM D1250; from memory",
        ["oil.density", "oil.temperature"],
        |weight: MassDensity, at: Temperature| MassDensity::si(oil::density(weight.value, at.value)),
    );
    b.derive(
        "oil.viscosity.bearing",
        "dynamic-viscosity",
        One,
        "The oil in a bearing: as warm as the film, and sheared.",
        "Walther's line (ASTM D341), density less 0.065 % a kelvin, and the share that high shear leaves at 150 °C, taken \
         to be the same at every temperature, which is good to 10 %",
        [
            "oil.viscosity.forty",
            "oil.viscosity.hundred",
            "oil.high-shear",
            "oil.density",
            "oil.temperature",
            "bearing.film-rise",
        ],
        |forty: KinematicViscosity,
         hundred: KinematicViscosity,
         shear: DynamicViscosity,
         weight: MassDensity,
         at: Temperature,
         rise: Rise| {
            let oil = Oil { line: line(forty, hundred)?, density: weight.value, high_shear: shear.value };
            finite(oil.in_a_bearing(at.value + rise.0)).map(DynamicViscosity::si)
        },
    );
}

fn finite(value: f64) -> Result<f64, Why> {
    if value.is_finite() { Ok(value) } else { Err(Why::Outside(THIN)) }
}
