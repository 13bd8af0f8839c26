//! How warm the bearings' films run by the heat balance of the rods' big ends: their orbit gives the heat and the oil's
//! flow, the oil's line what warmth does to it.

use super::films::{At, Followed, Orbits, RodInputs};
use super::oil::line;
use crate::builder::Builder;
use crate::inputs::named_inputs;
use crate::memo::Memo;
use crate::typed::{Give, InputValue, Rise, Si, Unavailable};
use std::sync::Arc;
use thou_mechanics::film_heat::{Gain, film_rise};
use thou_mechanics::oil::Oil;
use uom::si::f64::{KinematicViscosity, Ratio};

named_inputs!(
    /// What the film's viscosity hangs on.
    OilInputs {
        forty: "oil.viscosity.forty", "kinematic-viscosity", NEEDED;
        hundred: "oil.viscosity.hundred", "kinematic-viscosity", NEEDED;
        high_shear: "oil.high-shear", "dynamic-viscosity", NEEDED;
        density: "oil.density", "density", NEEDED;
        pan: "oil.temperature", "temperature", NEEDED;
    }
);
/// Films that an orbit is followed for, K over the oil in the pan: those of engines are among them.
const FILMS: [f64; 3] = [5.0, 20.0, 45.0];

pub(super) fn facts(b: &mut Builder, orbits: &Arc<Orbits>) {
    let balance = Balance::new(orbits);
    b.out_of_many(
        "rod-bearing.film-rise",
        "temperature-difference",
        "How much warmer the film of the loosest rod bearing is than the oil in the pan if all of its heat goes into the \
         oil that the journal's motion pumps, where it is shifted.",
        "the film as warm as the mean of the oil that comes and that goes (Shigley's Mechanical Engineering Design, \
         section 12-8; ISO 7902-1, from memory), its viscosity that of this warmth; 2.1 kJ/(kg K), from memory",
        &[RodInputs::needs(At::Shift).as_slice(), &OilInputs::NEEDS.in_order()].concat(),
        Box::new(move |inputs| Rise(balance.rise(inputs)?).give()),
    );
    b.usual(
        "bearing.film-rise.share",
        "ratio",
        "Of that warming the part that stays in the film: journal and housing take some of the heat, and what the feed's \
         pressure pushes through carries more of it off.",
        "common practice, no source",
        [],
        |_| Some((0.5, 1.0)),
    );
    b.stated(
        "bearing.film-rise",
        "temperature-difference",
        "bearings.film-rise",
        "How much warmer the film of a bearing is than the oil in the pan.",
    )
    .or(
        "the heat balance of the rods, which run hottest",
        ["rod-bearing.film-rise", "bearing.film-rise.share"],
        |rise: Rise, share: Ratio| Rise(rise.0 * share.value),
    )
    .or_usual("common practice, no source", [], |_| Some((10.0, 30.0)));
}

const ALL: usize = RodInputs::COUNT + OilInputs::<()>::COUNT;

/// What the oil gains by the film's viscosity, and the middle one of the three viscosities that it was found at.
type Curve = (Gain, f64);

/// Finds the warmth at which heat and flow agree.
struct Balance {
    orbits: Arc<Orbits>,
    /// By the figures that a step aside is a step from: a step in the oil stays on the curve, and one in the orbit's own
    /// figures moves all of it by what one orbit says.
    curves: Memo<ALL, Result<Curve, Unavailable>>,
}

impl Balance {
    fn new(orbits: &Arc<Orbits>) -> Self {
        // an engine, and a known good one beside it
        Self { orbits: Arc::clone(orbits), curves: Memo::of(4) }
    }

    fn rise(&self, inputs: &[InputValue]) -> Result<f64, Unavailable> {
        const NONE: Unavailable =
            Unavailable::Outside("heat and flow of this bearing agree at no warmth that an oil stands");
        let (rod, oil) = inputs.split_at_checked(RodInputs::COUNT).ok_or(NONE)?;
        let (rod, oil) = RodInputs::of(rod).zip(OilInputs::of(oil)).ok_or(NONE)?;
        let mut key = [0; ALL];
        key.iter_mut().zip(inputs).for_each(|(slot, input)| *slot = input.centre.to_bits());
        let (curve, middle) = self.curves.get(key, || self.curve(rod, oil))?;
        let curve = if rod.aside() { curve.scaled(self.gained(rod, middle)? / curve.at(middle)) } else { curve };
        let here = in_the_film(oil.map(|i| i.si))?;
        film_rise(|rise| curve.at(here(rise))).ok_or(NONE)
    }

    /// The curve of the figures that a step aside is a step from.
    fn curve(&self, rod: RodInputs, oil: OilInputs<InputValue>) -> Result<Curve, Unavailable> {
        let before = rod.before();
        let of = in_the_film(oil.map(|i| i.centre))?;
        let mut films = [(0.0, 0.0); 3];
        for (film, rise) in films.iter_mut().zip(FILMS) {
            let viscosity = of(rise);
            *film = (viscosity, self.gained(before, viscosity)?);
        }
        let gain = Gain::through(films).ok_or(Unavailable::Outside(super::oil::THIN))?;
        Ok((gain, films[1].0))
    }

    /// What the oil gains in the orbit of a film of this viscosity, K.
    fn gained(&self, rod: RodInputs, viscosity: f64) -> Result<f64, Unavailable> {
        self.orbits.followed(rod, viscosity).map(|Followed { rise, .. }| rise)
    }
}

/// Viscosity of the film by how much warmer it is than the oil in the pan.
fn in_the_film(oil: OilInputs<f64>) -> Result<impl Fn(f64) -> f64 + use<>, Unavailable> {
    let line = line(KinematicViscosity::si(oil.forty), KinematicViscosity::si(oil.hundred))?;
    let in_film = Oil { line, density: oil.density, high_shear: oil.high_shear };
    Ok(move |rise: f64| in_film.in_a_bearing(oil.pan + rise))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::value::{Grade, Num};
    use crate::{Catalogue, SheetFacts};
    use std::path::Path;
    use thou_sheet::Sheet;

    const BRACKET: &str = include_str!("../../../../sample-builds/bracket.json");
    const STREET: &str = include_str!("../../../../sample-builds/street.json");
    const ALL_OUT: &str = include_str!("../../../../sample-builds/all-out.json");

    fn of(text: &str, ids: &[&str]) -> Vec<Num> {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-builds");
        let sheet = Sheet::parse_unheld("engine.json", text, &folder).map_err(|e| e.to_string()).unwrap();
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let cell = |id: &str| facts.get(id).unwrap().first().unwrap().clone();
        ids.iter().map(|id| cell(id).map_err(|e| format!("{id}: {e:?}")).unwrap()).collect()
    }

    #[test]
    fn the_film_is_where_heat_and_flow_agree() {
        for text in [BRACKET, STREET, ALL_OUT] {
            let ids = ["bearing.film-rise", "rod-bearing.film-rise", "bearing.film-rise.share", "rod-bearing.oil-rise"];
            let [film, rise, share, gained] = of(text, &ids).try_into().unwrap();
            assert!((film.value / rise.value - share.value).abs() < 1e-12);
            assert!((5.0..40.0).contains(&rise.value), "{rise:?}");
            // the films are worked out with the cooler one of the share: thicker oil, which gains more
            assert!(gained.value > 2.0 * rise.value && gained.value < 2.5 * rise.value, "{gained:?} {rise:?}");
            // stated, the balance's own warmth is what the films are worked out with, and then the two agree
            let stated = format!("\"bearings\": {{ \"film-rise\": \"{} K\",", rise.value);
            let stated = text.replace("\"bearings\": {", &stated);
            let [film, gained] = of(&stated, &["bearing.film-rise", "rod-bearing.oil-rise"]).try_into().unwrap();
            assert!((film.value - rise.value).abs() < 1e-9 && film.grade() == Grade::Stated);
            assert!((gained.value / (2.0 * rise.value) - 1.0).abs() < 5e-3, "{gained:?} {rise:?}");
        }
    }

    #[test]
    fn a_wider_bearing_runs_cooler_and_the_warmth_is_as_sure_as_its_readings() {
        let [rise] = of(BRACKET, &["rod-bearing.film-rise"]).try_into().unwrap();
        // a wider one carries the same load on a thicker film, and pumps more oil through it
        let with = |from: &str, to: &str| {
            let text = BRACKET.replace(from, to);
            assert_ne!(text, BRACKET);
            let [rise] = of(&text, &["rod-bearing.film-rise"]).try_into().unwrap();
            rise.value
        };
        assert!(with("\"rod-width\": \"0.800 in\"", "\"rod-width\": \"0.900 in\"") < rise.value);
        assert!(rise.uncertainty() > 0.0 && rise.uncertainty() < 0.3 * rise.value, "{rise:?}");
    }

    #[test]
    fn without_a_bearings_width_the_usual_rise_stands() {
        let without = BRACKET.replace("\"rod-width\": \"0.800 in\", ", "");
        assert_ne!(without, BRACKET);
        let [rise] = of(&without, &["bearing.film-rise"]).try_into().unwrap();
        assert!((rise.value - 20.0).abs() < 1e-12 && rise.grade() == Grade::Default);
    }
}
