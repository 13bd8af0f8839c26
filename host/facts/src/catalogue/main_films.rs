//! The loads and films of the main bearings, by the crank's layout as the sheet has it.

use super::balance::{LAYOUT, layout};
use super::films::{self, At, GasAndPin, LOST, Orbits, Wanted};
use crate::builder::Builder;
use crate::inputs::named_inputs;
use crate::typed::{Erased, InputValue, Si, Unavailable};
use std::f64::consts::TAU;
use std::sync::{Arc, OnceLock};
use thou_mechanics::journal_bearing::{film_over_roughness, rq_from_ra, unit_load};
use thou_mechanics::main_bearing::{Mains, OnCrank};
use thou_mechanics::mobility::{Finite, HalfGrooved, Mobility};
use thou_mechanics::orbit::{Bearing, Loads, orbit};
use thou_sheet::Axis::{self, One};
use thou_sheet::Sheet;
use uom::si::f64::{Force, Length, Pressure, Ratio};

const LOAD: &str = "half of the load of each throw beside it, as if the crank were hinged at every main (Taylor, The \
     Internal-Combustion Engine in Theory and Practice, vol. 2, ch. 8); the crank's own throws countered where they are, a \
     V's bobweights too, and nothing more in line and flat; for the gas the cycle of cylinder.modelled-peak, else a pulse";
const FILM: &str = "mobility method (Booker 1965) with a finite bearing's mobility from Reynolds' equation under half of \
     the load of each throw beside it; two lands where the film is in a grooved half, one where it is not (in a flat engine \
     a groove counts as going all round); rigid, one viscosity, well fed: ±50 % for the film";

named_inputs!(
    /// What a main's load hangs on beside that of a pin.
    CounterweightInputs {
        factor: "balance.factor", "one", OPTIONAL;
    }
);
named_inputs!(
    /// What carries it.
    MainShellInputs {
        journal: "main-journal.nominal", "length", NEEDED;
        width: "main-bearing.width", "length", NEEDED;
        clearance: "main-bearing.clearance.running", "length", NEEDED;
        viscosity: "oil.viscosity.bearing", "dynamic-viscosity", NEEDED;
        groove: "main-bearing.groove", "choice", NEEDED;
    }
);

/// What a main's load hangs on.
#[derive(Debug, Clone, Copy)]
struct LoadInputs {
    load: GasAndPin,
    counterweights: CounterweightInputs<InputValue>,
}

impl LoadInputs {
    const COUNT: usize = GasAndPin::COUNT + CounterweightInputs::<()>::COUNT;

    fn needs(at: At) -> Vec<Wanted> {
        GasAndPin::needs(at).into_iter().chain(CounterweightInputs::NEEDS.in_order()).collect()
    }
    fn of(inputs: &[InputValue]) -> Result<Self, Unavailable> {
        let (load, rest) = inputs.split_at_checked(GasAndPin::COUNT).ok_or(Unavailable::Outside(LOST))?;
        let both = GasAndPin::of(load).zip(CounterweightInputs::of(rest));
        both.map(|(load, counterweights)| Self { load, counterweights }).ok_or(Unavailable::Outside(LOST))
    }
    fn aside(&self) -> bool {
        self.load.pin.in_order().iter().chain(&self.counterweights.in_order()).any(InputValue::is_aside)
    }
}

pub(super) fn facts(b: &mut Builder, orbits: &Arc<Orbits>) {
    shells(b);
    loads(b, orbits);
    films(b, orbits);
}

fn shells(b: &mut Builder) {
    b.stated(
        "main-bearing.width",
        "length",
        "bearings.main-width",
        "Width of the main shell that carries, without chamfers and without a groove that goes all round.",
    )
    .part("bearings");
    b.choice(
        "main-bearing.groove",
        "bearings.groove",
        &["upper", "full", "partial", "none"],
        "Oil groove of the main shells.",
    );
}

/// A crank with its cylinders, without what they weigh.
struct Crank {
    orbits: Arc<Orbits>,
    cylinders: Vec<OnCrank>,
    layout: String,
    central: OnceLock<Central>,
    /// The main with the greatest load; a small step does not move it to another.
    heaviest: OnceLock<usize>,
}

/// What a step aside takes from the figures that it is a step from.
struct Central {
    loads: Vec<Loads>,
    /// The main with the least film; a small step does not move it to another.
    least: usize,
}

fn crank(sheet: &Sheet, orbits: &Arc<Orbits>) -> Result<Crank, Unavailable> {
    let pins = &sheet.places.pin_of_cylinder;
    let mut cylinders: Vec<OnCrank> = layout(sheet)?
        .iter()
        .zip(pins)
        .map(|(c, pin)| OnCrank { pin: *pin, axis: c.axis, turn: c.axis - c.pin })
        .collect();
    // a pair on one pin fires a turn apart, less or more its bank angle
    if let [first, second] = cylinders.as_mut_slice()
        && first.pin == second.pin
        && (first.turn - second.turn).abs() < TAU / 2.0
    {
        second.turn += TAU;
    }
    if sheet.places.count(Axis::Main) != pins.iter().max().map_or(0, |last| last + 2) {
        return Err(Unavailable::Outside("it is worked out for a main to each side of every crankpin"));
    }
    let word = sheet.stated("engine.layout").and_then(|(v, _)| v.as_str());
    Ok(Crank {
        orbits: Arc::clone(orbits),
        cylinders,
        layout: word.unwrap_or_default().to_owned(),
        central: OnceLock::new(),
        heaviest: OnceLock::new(),
    })
}

impl Crank {
    /// The loads of every main; of `only` one where it says so.
    fn loads(&self, inputs: LoadInputs, only: Option<usize>) -> Result<Vec<Loads>, Unavailable> {
        let LoadInputs { load, counterweights } = inputs;
        let pin = load.pin;
        let (up, round, factor) = (pin.reciprocating.si, pin.rotating.si, counterweights.factor);
        let countered = match (self.layout.as_str(), factor.there) {
            ("v" | "single", true) => round + factor.si * up,
            // half of a pair's reciprocating mass turns with the crank; Bevan, Theory of Machines, ch. 14
            ("v", false) => round + 0.5 * up,
            ("single", false) => return Err(Unavailable::Field("balance.factor")),
            _ => 0.0,
        };
        let gear = films::gear(pin)?;
        let on_pin = self.orbits.on_a_pin(load)?;
        let mains = Mains { gear, cylinders: &self.cylinders, countered };
        let which = only.map_or(0..mains.count(), |one| one..one + 1);
        Ok(mains.loads(which, &on_pin, pin.speed.si))
    }

    fn peak(&self, inputs: LoadInputs) -> Result<f64, Unavailable> {
        let heaviest = self.heaviest.get().copied().filter(|_| inputs.aside());
        let loads = self.loads(inputs, heaviest)?;
        let (main, most) = loads
            .iter()
            .map(Loads::peak)
            .enumerate()
            .fold((0, 0.0), |most, here| if here.1 > most.1 { here } else { most });
        if !inputs.aside() {
            let _ = self.heaviest.set(main);
        }
        Ok(most)
    }

    fn film(&self, inputs: LoadInputs, shell: MainShellInputs<InputValue>) -> Result<f64, Unavailable> {
        let groove = shell.groove;
        // the half with the groove is the block's: the frame's first axis points to it, but where cases part upright
        let all_round = match (groove.word, self.layout.as_str()) {
            ("none", _) => false,
            ("upper" | "partial", layout) => layout == "flat",
            _ => true,
        };
        let lands = if all_round { 2.0 } else { 1.0 };
        let length = shell.width.si / lands;
        let ratio = length / shell.journal.si;
        let least_ratio = if groove.word == "none" || all_round { ratio } else { ratio / 2.0 };
        if !(0.125..=1.0).contains(&least_ratio) || ratio > 1.0 {
            return Err(Unavailable::Outside(
                "the film is worked out for lands from an eighth of the journal to all of it",
            ));
        }
        let bearing = Bearing {
            diameter: shell.journal.si,
            length,
            lands,
            clearance: shell.clearance.si / 2.0,
            viscosity: shell.viscosity.si,
        };
        let shell_aside = shell.in_order().iter().any(InputValue::is_aside);
        if groove.word == "none" || all_round {
            self.thinnest(inputs, shell_aside, bearing, &Finite::new(ratio))
        } else {
            self.thinnest(inputs, shell_aside, bearing, &HalfGrooved::new(ratio, 0.0))
        }
    }

    /// The least film of the main that has least.
    fn thinnest(
        &self,
        inputs: LoadInputs,
        shell_aside: bool,
        bearing: Bearing,
        mobility: &impl Mobility,
    ) -> Result<f64, Unavailable> {
        let film = |loads: &Loads| orbit(bearing, mobility, inputs.load.pin.speed.si, loads).map(|o| o.least);
        if let Some(central) = self.central.get().filter(|_| shell_aside || inputs.aside()) {
            let (own, loads) = if inputs.aside() {
                (self.loads(inputs, Some(central.least))?, None)
            } else {
                (Vec::new(), central.loads.get(central.least))
            };
            let loads = loads.or(own.first()).ok_or(Unavailable::Outside(LOST))?;
            return film(loads).map_err(|_| Unavailable::Outside(LOST));
        }
        let loads = self.loads(inputs, None)?;
        let mut least = (f64::INFINITY, 0);
        for (main, loads) in loads.iter().enumerate() {
            let here = film(loads).map_err(|_| Unavailable::Outside(LOST))?;
            if here < least.0 {
                least = (here, main);
            }
        }
        let _ = self.central.set(Central { loads, least: least.1 });
        Ok(least.0)
    }
}

fn loads(b: &mut Builder, orbits: &Arc<Orbits>) {
    for (id, at, about) in [
        (
            "main-bearing.load.peak.at-shift",
            At::Shift,
            "Greatest load of a cycle on the main that has most, where it is shifted.",
        ),
        (
            "main-bearing.load.peak.at-torque",
            At::Torque,
            "Greatest load of a cycle on the main that has most, where the torque is wanted.",
        ),
        (
            "main-bearing.load.peak.at-over-rev",
            At::OverRev,
            "Greatest load of a cycle on the main that has most, at the over-rev.",
        ),
    ] {
        let orbits = Arc::clone(orbits);
        b.by_layout(id, "force", about, LOAD, &LoadInputs::needs(at), move |sheet| -> Result<Erased, Unavailable> {
            let crank = crank(sheet, &orbits)?;
            Ok(Box::new(move |inputs| crank.peak(LoadInputs::of(inputs)?)))
        })
        .with(&LAYOUT);
    }
    b.derive(
        "main-bearing.load.peak",
        "force",
        One,
        "Greatest load of a cycle on the main that has most, where it is shifted or the torque is wanted.",
        LOAD,
        ["main-bearing.load.peak.at-shift", "main-bearing.load.peak.at-torque", "target.torque-speed"],
        films::heavier,
    );
    b.derive(
        "main-bearing.load.unit",
        "pressure",
        One,
        "Greatest load on a main bearing over its projected area, where it is shifted or the torque is wanted.",
        LOAD,
        ["main-bearing.load.peak", "main-bearing.width", "main-journal.nominal"],
        |load: Force, width: Length, journal: Length| Pressure::si(unit_load(load.value, width.value, journal.value)),
    );
}

fn films(b: &mut Builder, orbits: &Arc<Orbits>) {
    for (id, at, about) in [
        (
            "main-bearing.film.modelled.at-shift",
            At::Shift,
            "Least film of the main that has least by the model, all as loose as the loosest, where it is shifted.",
        ),
        (
            "main-bearing.film.modelled.at-torque",
            At::Torque,
            "Least film of the main that has least by the model, all as loose as the loosest, where the torque is wanted.",
        ),
        (
            "main-bearing.film.modelled.at-over-rev",
            At::OverRev,
            "Least film of the main that has least by the model, all as loose as the loosest, at the over-rev.",
        ),
    ] {
        let needs = [LoadInputs::needs(at).as_slice(), &MainShellInputs::NEEDS.in_order()].concat();
        let orbits = Arc::clone(orbits);
        b.by_layout(id, "film", about, FILM, &needs, move |sheet| -> Result<Erased, Unavailable> {
            let crank = crank(sheet, &orbits)?;
            Ok(Box::new(move |inputs| {
                let (load, shell) = inputs.split_at_checked(LoadInputs::COUNT).ok_or(Unavailable::Outside(LOST))?;
                let shell = MainShellInputs::of(shell).ok_or(Unavailable::Outside(LOST))?;
                crank.film(LoadInputs::of(load)?, shell)
            }))
        })
        .with(&LAYOUT);
    }
    b.derive(
        "main-bearing.film.modelled",
        "film",
        One,
        "Least film of the main that has least by the model, where it is shifted or the torque is wanted, whichever is less.",
        FILM,
        ["main-bearing.film.modelled.at-shift", "main-bearing.film.modelled.at-torque", "target.torque-speed"],
        films::thinner,
    );
    b.derive(
        "main-bearing.film.minimum",
        "film",
        One,
        "Least film of the main bearings with the model's error, where it is shifted or the torque is wanted. To be compared \
         with a known good engine's, never a gate alone.",
        FILM,
        ["main-bearing.film.modelled", films::ERROR],
        |film: Length, error: Ratio| -> Length { film * error },
    );
    b.derive(
        "main-bearing.film.over-roughness",
        "ratio",
        One,
        "Least film of the main bearings over the roughness of journal and shell together, where it is shifted or the torque \
         is wanted.",
        films::OVER_ROUGHNESS,
        ["main-bearing.film.minimum", "crank.roughness.max", "bearing.roughness"],
        |film: Length, journal: Length, shell: Length| {
            Ratio::si(film_over_roughness(film.value, rq_from_ra(journal.value), rq_from_ra(shell.value)))
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use crate::{Catalogue, Missing, SheetFacts};
    use std::path::Path;
    use thou_sheet::Sheet;

    const BRACKET: &str = include_str!("../../../../sample-builds/bracket.json");
    const FOUR: &str = include_str!("../../../../sample-builds/inline-four.json");
    const ALL_OUT: &str = include_str!("../../../../sample-builds/all-out.json");
    const STREET: &str = include_str!("../../../../sample-builds/street.json");

    fn with<T>(text: &str, ask: impl Fn(&SheetFacts<'_>) -> T) -> T {
        let sheet = Sheet::parse_unheld(
            "engine.json",
            text,
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-builds"),
        );
        let sheet = sheet.map_err(|e| e.to_string()).unwrap();
        ask(&SheetFacts::new(Catalogue::standard(), &sheet))
    }

    fn of(facts: &SheetFacts<'_>, id: &str) -> f64 {
        let cell = facts.get(id).unwrap().first().unwrap();
        cell.as_ref().map_err(|lack| format!("{id}: {lack:?}")).unwrap().value
    }

    #[test]
    fn mains_of_the_sample_engines_carry_what_such_engines_do() {
        for (name, text) in [("bracket", BRACKET), ("street", STREET), ("all-out", ALL_OUT), ("four", FOUR)] {
            with(text, |facts| {
                let [load, unit, film, over] = ["load.peak", "load.unit", "film.minimum", "film.over-roughness"]
                    .map(|end| of(facts, &format!("main-bearing.{end}")));
                let area = of(facts, "main-bearing.width") * of(facts, "main-journal.nominal");
                assert!((load / area / unit - 1.0).abs() < 1e-12, "{name}");
                // a main has no more than two halves of a pin's greatest load from each side of it, and some of one
                let pin = of(facts, "rod-bearing.load.peak");
                assert!(load > 0.4 * pin && load < 2.5 * pin, "{name}: {load} N on a main, {pin} N on a pin");
                assert!(film > 0.1e-6 && film < of(facts, "main-bearing.clearance.max") / 2.0, "{name}: {film} m");
                assert!(over > 0.1, "{name}: {over}");
                // less than tri-metal shells are said to stand, 10,000 psi
                assert!(unit < 10_000.0 * 6_894.757, "{name}: {unit} Pa");
            });
        }
    }

    #[test]
    fn the_field_that_is_missing_is_named() {
        let lack =
            |text: &str, id: &str| with(text, |facts| facts.get(id).unwrap().first().unwrap().clone().unwrap_err());
        let without = BRACKET.replace("\"main-width\": \"0.800 in\",", "");
        assert_ne!(without, BRACKET);
        for id in ["main-bearing.load.unit", "main-bearing.film.minimum", "main-bearing.film.over-roughness"] {
            assert_eq!(lack(&without, id), [Missing::Field("bearings.main-width".into())].into(), "{id}");
        }
        with(&without, |facts| assert!(of(facts, "main-bearing.load.peak") > 0.0));
        let order = ",\n    \"firing-order\": [\"1\", \"8\", \"4\", \"3\", \"6\", \"5\", \"7\", \"2\"]";
        let without = BRACKET.replace(order, "");
        assert_ne!(without, BRACKET);
        assert!(lack(&without, "main-bearing.load.peak").contains(&Missing::Field("engine.firing-order".into())));
    }

    #[test]
    fn a_modelled_pressure_stands_in_for_one_that_is_not_stated() {
        let without = BRACKET.replace("\"peak-pressure\": \"1300 psi\",", "");
        assert_ne!(without, BRACKET);
        with(&without, |facts| {
            let modelled = of(facts, "cylinder.peak-pressure");
            assert!((of(facts, "bearing.gas-pressure") / modelled - 1.0).abs() < 1e-12);
            assert!(of(facts, "rod-bearing.load.peak") > 0.0 && of(facts, "main-bearing.load.peak") > 0.0);
        });
        with(BRACKET, |facts| assert!((of(facts, "bearing.gas-pressure") / 6_894.757_293 - 1_300.0).abs() < 1e-3));
    }
}
