//! How bearing clearances change with the metals round them: to compare metals and temperatures, never a limit alone.

use crate::builder::Builder;
use crate::typed::{Rise, Si, Unavailable, Word};
use crate::warmth::material;
use thou_mechanics::expansion::{Material, closing};
use thou_sheet::Axis::{Main, One, Rod};
use uom::si::f64::Length;

const FREE: &str = "free growth of the housing less that of the journal, the shells left out: an iron cap or a stud that holds \
     an aluminium housing lets it grow less; coefficients of ASM Handbook vol. 1 and 2, from memory";
const NO_METAL: Unavailable = Unavailable::Outside("nobody has a coefficient for this metal");

pub(super) fn facts(b: &mut Builder) {
    b.usual(
        "main-housing.rise",
        "temperature-difference",
        "How much warmer than 20 °C a main housing runs.",
        "common practice, no source",
        [],
        |_| Some((50.0, 90.0)),
    );
    b.usual(
        "journal.over-housing",
        "temperature-difference",
        "How much warmer a journal runs than what holds its bearing.",
        "common practice, no source",
        [],
        |_| Some((5.0, 30.0)),
    );
    let change = |housing: Option<Material>, journal: Word, d: Length, warm: Rise, over: Rise| {
        let (Some(housing), Some(journal)) = (housing, material("crank.material", journal.0)) else {
            return Err(NO_METAL);
        };
        let [around, inside] = [housing, journal].map(|m| m.properties().expansion);
        // what a piston loses in its bore a journal gains in its housing
        Ok(Length::si(closing(d.value, around, warm.0, inside, warm.0 + over.0)))
    };
    b.derive(
        "main-bearing.clearance.hot-change",
        "clearance",
        One,
        "How much wider a main clearance is warm than at 20 °C.",
        FREE,
        ["block.material", "crank.material", "main-journal.nominal", "main-housing.rise", "journal.over-housing"],
        move |block: Word, crank: Word, d: Length, housing: Rise, over: Rise| {
            change(material("block.material", block.0), crank, d, housing, over)
        },
    )
    .part("bearings");
    b.derive(
        "rod-bearing.clearance.hot-change",
        "clearance",
        One,
        "How much wider a rod bearing's clearance is warm than at 20 °C.",
        FREE,
        ["rod.material", "crank.material", "rod-journal.nominal", "rod.rise", "journal.over-housing"],
        move |rod: Word, crank: Word, d: Length, housing: Rise, over: Rise| {
            change(material("rods.material", rod.0), crank, d, housing, over)
        },
    )
    .part("bearings");
    let warm = |cold: Length, change: Length| -> Length { cold + change };
    b.derive(
        "main-bearing.clearance.hot",
        "clearance",
        Main,
        "Oil clearance of a main bearing, warm.",
        "as read, with the change by warmth",
        ["main-bearing.clearance", "main-bearing.clearance.hot-change"],
        warm,
    )
    .part("bearings");
    b.derive(
        "rod-bearing.clearance.hot",
        "clearance",
        Rod,
        "Oil clearance of a rod bearing, warm.",
        "as read, with the change by warmth",
        ["rod-bearing.clearance", "rod-bearing.clearance.hot-change"],
        warm,
    )
    .part("bearings");
    for (id, hot, cold, about) in [
        (
            "main-bearing.clearance.running",
            "main-bearing.clearance.hot.max",
            "main-bearing.clearance.max",
            "Oil clearance of the loosest main as its film has it: warm where the metals are known, else as read.",
        ),
        (
            "rod-bearing.clearance.running",
            "rod-bearing.clearance.hot.max",
            "rod-bearing.clearance.max",
            "Oil clearance of the loosest rod bearing as its film has it: warm where the metals are known, else as read.",
        ),
    ] {
        b.derive(id, "clearance", One, about, "a selection", [hot], |warm: Length| warm)
            .or("a selection", [cold], |read: Length| read)
            .part("bearings");
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::testing::sheet;
    use crate::{Catalogue, SheetFacts};
    use serde_json::json;

    fn change(block: &str, rod: &str) -> [f64; 2] {
        let sheet = sheet(json!({
            "engine": { "cylinders": 8 },
            "block": { "material": block },
            "rods": { "material": rod },
            "crank": { "material": "forged", "main-journal": "62.2 mm", "rod-journal": "53.3 mm" }
        }));
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        ["main-bearing.clearance.hot-change", "rod-bearing.clearance.hot-change"]
            .map(|id| facts.get(id).unwrap().first().unwrap().as_ref().unwrap().value)
    }

    #[test]
    fn an_aluminium_housing_opens_and_iron_and_steel_hardly_move() {
        let [iron, steel] = change("grey-iron", "steel");
        let [sleeved, aluminium] = change("aluminium-sleeved", "aluminium");
        // housings 70 K, rods 100 K, journals 17.5 K warmer than what is round them
        let main = |metal: f64| 62.2e-3 * (metal * 70.0 - 12.3 * 87.5) * 1e-6;
        let rod = |metal: f64| 53.3e-3 * (metal * 100.0 - 12.3 * 117.5) * 1e-6;
        for (got, want) in [(iron, main(10.8)), (sleeved, main(21.5)), (steel, rod(12.3)), (aluminium, rod(23.6))] {
            assert!((got - want).abs() < 1e-9, "{got} {want}");
        }
        assert!(sleeved > iron && aluminium > steel);
    }
}
