//! What the dyno says: corrected by its standard, with its scatter, and whether a gain shows through it.

use crate::builder::Builder;
use crate::typed::Unavailable;
use serde_json::Value;
use thou_contract::Kind;
use thou_mechanics::dyno_air::{Air, Standard};
use thou_mechanics::dyno_room;
use thou_mechanics::dyno_statistics::{self as statistics, USUAL_ALPHA, USUAL_POWER};
use thou_sheet::Axis::One;
use thou_sheet::Sheet;
use uom::si::f64::{Power, Ratio};

pub(super) fn facts(b: &mut Builder) {
    pulls(b);
    scatter(b);
    gain(b);
}

/// One pull.
struct Pull {
    power: f64,
    torque: Option<f64>,
    air: Air,
    standard: Standard,
}

impl Pull {
    fn factor(&self) -> f64 {
        self.standard.factor(self.air)
    }
}

const NO_AIR: Unavailable =
    Unavailable::Outside("the barometer, temperature and humidity of a pull make no air: look at their units");
const MIXED: Unavailable = Unavailable::Outside(
    "its pulls are corrected by different standards, which are not compared: name one standard for all",
);
const TOO_FEW: Unavailable = Unavailable::Outside("one pull has no scatter: make at least two");

fn quantity(pull: &Value, field: &str, kind: &str) -> Option<f64> {
    Kind::by_id(kind)?.parse(pull.get(field)?.as_str()?).ok()
}

fn standard(value: Option<&Value>) -> Option<Standard> {
    value.and_then(Value::as_str).and_then(Standard::by_id)
}

/// The pulls of a list, all by one standard.
fn list(sheet: &Sheet, path: &'static str) -> Result<Vec<Pull>, Unavailable> {
    let of_all = standard(sheet.stated("dyno.standard").map(|(v, _)| v));
    let rows =
        sheet.stated(path).and_then(|(v, _)| v.as_array()).filter(|l| !l.is_empty()).ok_or(Unavailable::Field(path))?;
    let mut pulls: Vec<Pull> = Vec::with_capacity(rows.len());
    for row in rows {
        let need = |field, kind, missing| quantity(row, field, kind).ok_or(Unavailable::Field(missing));
        let pull = Pull {
            power: need("power", "power", "dyno.pulls.power")?,
            torque: quantity(row, "torque", "torque"),
            air: Air {
                barometer: need("barometer", "pressure", "dyno.pulls.barometer")?,
                temperature: need("temperature", "temperature", "dyno.pulls.temperature")?,
                humidity: need("humidity", "percent", "dyno.pulls.humidity")?,
            },
            standard: standard(row.get("standard")).or(of_all).ok_or(Unavailable::Field("dyno.standard"))?,
        };
        if !(pull.factor().is_finite() && pull.air.dry().is_finite()) {
            return Err(NO_AIR);
        }
        if pulls.first().is_some_and(|first| first.standard != pull.standard) {
            return Err(MIXED);
        }
        pulls.push(pull);
    }
    Ok(pulls)
}

fn count(sheet: &Sheet, path: &'static str) -> Result<f64, Unavailable> {
    let rows =
        sheet.stated(path).and_then(|(v, _)| v.as_array()).filter(|l| !l.is_empty()).ok_or(Unavailable::Field(path))?;
    Ok(rows.len() as f64)
}

fn now(sheet: &Sheet) -> Result<Vec<Pull>, Unavailable> {
    list(sheet, "dyno.pulls")
}

fn corrected(pulls: &[Pull]) -> Vec<f64> {
    pulls.iter().map(|p| p.standard.correct(p.power, p.air).power).collect()
}

/// Mean corrected power and standard deviation of one pull, W.
fn spread(sheet: &Sheet) -> Result<(Vec<f64>, f64), Unavailable> {
    let powers = corrected(&now(sheet)?);
    if powers.len() < 2 {
        return Err(TOO_FEW);
    }
    let deviation = statistics::deviation(&powers);
    Ok((powers, deviation))
}

/// The one that is furthest from a figure.
fn furthest(values: impl Iterator<Item = f64>, from: f64) -> Result<f64, Unavailable> {
    values.max_by(|a, b| (a - from).abs().total_cmp(&(b - from).abs())).ok_or(Unavailable::Field("dyno.pulls"))
}

fn exact(value: Result<f64, Unavailable>) -> Result<(f64, f64), Unavailable> {
    value.map(|v| (v, 0.0))
}

/// A mean with its own standard uncertainty: JCGM 100:2008, 4.2.3.
fn mean(values: &[f64]) -> (f64, f64) {
    let deviation = statistics::deviation(values);
    let u = if deviation.is_finite() { deviation / (values.len() as f64).sqrt() } else { 0.0 };
    (statistics::mean(values), u)
}

fn pulls(b: &mut Builder) {
    const WORDS: &[&str] = &["sae-j1349", "iso-1585", "std-j607", "din-70020"];
    b.choice("dyno.standard", "dyno.standard", WORDS, "The standard that the dyno's figures are corrected by.");
    b.listed("dyno.pulls", "count", "dyno.pulls", "Pulls on the dyno.", "the sheet", |s| exact(count(s, "dyno.pulls")));
    b.listed("dyno.before", "count", "dyno.before", "Pulls before a change.", "the sheet", |s| {
        exact(count(s, "dyno.before"))
    });
    b.listed(
        "dyno.correction-factor",
        "ratio",
        "dyno.pulls",
        "Correction factor, of the pull that is furthest from 1.",
        "the sheet's standard; vapour pressure by IAPWS-IF97, region 4",
        |s| exact(now(s).and_then(|p| furthest(p.iter().map(Pull::factor), 1.0))),
    );
    b.listed(
        "dyno.intake-temperature",
        "temperature",
        "dyno.pulls",
        "Temperature of the intake air, of the pull that is furthest from 25 °C.",
        "the sheet",
        |s| exact(now(s).and_then(|p| furthest(p.iter().map(|p| p.air.temperature), 298.15))),
    );
    b.listed(
        "dyno.dry-pressure",
        "pressure",
        "dyno.pulls",
        "Barometer less vapour pressure, of the pull that is furthest from 99 kPa.",
        "vapour pressure by IAPWS-IF97, region 4",
        |s| exact(now(s).and_then(|p| furthest(p.iter().map(|p| p.air.dry()), 99e3))),
    );
    b.listed(
        "dyno.corrected-power",
        "power",
        "dyno.pulls",
        "Power of the pulls, corrected, on the mean.",
        "measured power by the standard's factor",
        |s| now(s).map(|p| mean(&corrected(&p))),
    );
    b.listed(
        "dyno.corrected-torque",
        "torque",
        "dyno.pulls",
        "Torque of the pulls, corrected, on the mean.",
        "measured torque by the standard's factor",
        |s| {
            let of = |p: &Pull| p.torque.map(|t| t * p.factor()).ok_or(Unavailable::Field("dyno.pulls.torque"));
            let torques = now(s)?.iter().map(of).collect::<Result<Vec<_>, _>>()?;
            Ok(mean(&torques))
        },
    );
    b.derive(
        "dyno.power-over-target",
        "ratio",
        One,
        "Power of the pulls over the power wanted.",
        "ratio of two powers",
        ["dyno.corrected-power", "target.power"],
        |power: Power, wanted: Power| -> Ratio { power / wanted },
    );
    b.flag("dyno.room-air.stated", "dyno.room-air", "Whether the sheet says what air the dyno's room has.");
    b.listed(
        "dyno.room-rise",
        "temperature-difference",
        "dyno.pulls",
        "How much warmer the room's air leaves, if an engine gives it 32 kW for each 100 hp.",
        "trade article for the heat; heat over mass flow",
        |s| {
            let flow = s.stated("dyno.room-air").and_then(|(v, _)| v.as_str());
            let flow = flow.and_then(|t| Kind::by_id("volume-flow")?.parse(t).ok());
            let flow = flow.filter(|f| *f > 0.0).ok_or(Unavailable::Field("dyno.room-air"))?;
            let powers: Vec<f64> = now(s)?.iter().map(|p| p.power).collect();
            Ok((dyno_room::room_rise(dyno_room::room_heat(statistics::mean(&powers)), flow), 0.0))
        },
    )
    .with(&["dyno.room-air"]);
}

fn scatter(b: &mut Builder) {
    b.listed(
        "dyno.spread",
        "percent",
        "dyno.pulls",
        "Scatter of one pull: standard deviation of the corrected powers over their mean.",
        "standard deviation of a sample",
        |s| exact(spread(s).map(|(powers, deviation)| deviation / statistics::mean(&powers))),
    );
    b.listed(
        "dyno.gain-resolvable",
        "power",
        "dyno.pulls",
        "Smallest gain that as many pulls before and after would show four times out of five.",
        "non-central t, two-sided at 5 %, 80 % power; Cohen 1988, ch. 2",
        |s| {
            let (powers, deviation) = spread(s)?;
            let pulls = u32::try_from(powers.len()).map_err(|_| TOO_FEW)?;
            Ok((deviation * statistics::smallest_gain(pulls, USUAL_ALPHA, USUAL_POWER), 0.0))
        },
    );
}

fn gain(b: &mut Builder) {
    b.stated("dyno.gain-claimed", "power", "dyno.gain-claimed", "The gain that is claimed for a change.");
    b.derive(
        "dyno.gain-over-resolvable",
        "ratio",
        One,
        "The gain claimed over the smallest that these pulls would show.",
        "ratio of two powers",
        ["dyno.gain-claimed", "dyno.gain-resolvable"],
        |claimed: Power, least: Power| -> Ratio { claimed.abs() / least },
    );
    b.listed(
        "dyno.pulls-needed",
        "count",
        "dyno.pulls",
        "Pulls before and as many after that would show the gain claimed four times out of five.",
        "non-central t, two-sided at 5 %, 80 % power; Cohen 1988, ch. 2",
        |s| {
            let claimed = s.stated("dyno.gain-claimed").and_then(|(v, _)| v.as_str());
            let claimed = claimed.and_then(|t| Kind::by_id("power")?.parse(t).ok());
            let claimed = claimed.ok_or(Unavailable::Field("dyno.gain-claimed"))?;
            let (_, deviation) = spread(s)?;
            let pulls = statistics::pulls_needed(claimed / deviation, USUAL_ALPHA, USUAL_POWER);
            exact(pulls.map(f64::from).ok_or(Unavailable::Outside("no number of pulls would show it")))
        },
    );
    b.listed(
        "dyno.gain",
        "power",
        "dyno.before",
        "Mean corrected power now less that before the change.",
        "difference of two means, by one standard",
        |s| {
            let (now, before) = both(s)?;
            let ((a, ua), (b, ub)) = (mean(&now), mean(&before));
            Ok((a - b, ua.hypot(ub)))
        },
    );
    b.listed(
        "dyno.gain-by-chance",
        "percent",
        "dyno.before",
        "How often scatter alone would show a difference as large as that to the pulls before the change.",
        "Welch, Biometrika 34 (1947) 28, two-sided",
        |s| {
            let (now, before) = both(s)?;
            exact(statistics::welch(&now, &before).map(|w| w.p).ok_or(TOO_FEW))
        },
    );
}

/// Corrected powers now and before a change; refused where they are by different standards.
fn both(sheet: &Sheet) -> Result<(Vec<f64>, Vec<f64>), Unavailable> {
    let (now, before) = (now(sheet)?, list(sheet, "dyno.before")?);
    match (now.first(), before.first()) {
        (Some(a), Some(b)) if a.standard != b.standard => Err(MIXED),
        _ => Ok((corrected(&now), corrected(&before))),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::testing::sheet;
    use crate::{Catalogue, Missing, SheetFacts};
    use serde_json::{Value, json};

    fn pull(power: &str) -> Value {
        json!({ "power": power, "barometer": "98.0 kPa", "temperature": "32 °C", "humidity": "50 %" })
    }

    fn value(root: Value, id: &str) -> Result<f64, Missing> {
        let sheet = sheet(root);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let cell = facts.get(id).unwrap().first().unwrap().clone();
        cell.map(|n| n.value).map_err(|lack| lack.into_iter().next().unwrap())
    }

    #[test]
    fn pulls_are_corrected_and_their_scatter_told() {
        let root =
            json!({ "dyno": { "standard": "sae-j1349", "pulls": [pull("500 kW"), pull("502 kW"), pull("504 kW")] } });
        let of = |id| value(root.clone(), id).unwrap();
        assert!((of("dyno.correction-factor") - 1.055_972).abs() < 1e-6);
        assert!((of("dyno.corrected-power") - 502e3 * of("dyno.correction-factor")).abs() < 1e-6);
        assert!((of("dyno.spread") - 2.0 / 502.0).abs() < 1e-12);
        // three pulls each see 3.0709 standard deviations
        assert!((of("dyno.gain-resolvable") / (2e3 * of("dyno.correction-factor")) - 3.0709).abs() < 1e-4);
        assert_eq!(of("dyno.pulls"), 3.0);
    }

    #[test]
    fn powers_of_different_standards_are_refused() {
        let mut other = pull("502 kW");
        other["standard"] = json!("std-j607");
        let mixed = json!({ "dyno": { "standard": "sae-j1349", "pulls": [pull("500 kW"), other] } });
        let Err(Missing::Outside(why)) = value(mixed.clone(), "dyno.corrected-power") else { unreachable!() };
        assert!(why.contains("different standards"), "{why}");
        let before = json!({ "dyno": { "standard": "iso-1585",
            "pulls": [pull("500 kW"), pull("501 kW")], "before": [mixed["dyno"]["pulls"][1], mixed["dyno"]["pulls"][1]] } });
        assert!(matches!(value(before, "dyno.gain"), Err(Missing::Outside(_))));
    }

    #[test]
    fn what_is_missing_is_named() {
        let field = |root, id: &str| value(root, id).unwrap_err();
        assert_eq!(field(json!({}), "dyno.corrected-power"), Missing::Field("dyno.pulls".to_owned()));
        let unnamed = json!({ "dyno": { "pulls": [pull("500 kW")] } });
        assert_eq!(field(unnamed, "dyno.correction-factor"), Missing::Field("dyno.standard".to_owned()));
        let one = json!({ "dyno": { "standard": "iso-1585", "pulls": [pull("500 kW")] } });
        assert!(matches!(field(one.clone(), "dyno.spread"), Missing::Outside(_)));
        assert_eq!(field(one, "dyno.corrected-torque"), Missing::Field("dyno.pulls.torque".to_owned()));
    }

    #[test]
    fn a_gain_is_the_difference_of_means_and_its_chance_is_welchs() {
        let list = |powers: &[&str]| powers.iter().map(|p| pull(p)).collect::<Vec<_>>();
        let now = list(&["8260 W", "8130 W", "8350 W", "8070 W", "8340 W"]);
        let before = list(&["7950 W", "7890 W", "7900 W", "8140 W", "7920 W", "7840 W"]);
        let root =
            json!({ "dyno": { "standard": "iso-1585", "pulls": now, "before": before, "gain-claimed": "300 W" } });
        assert!((value(root.clone(), "dyno.gain-by-chance").unwrap() - 0.003_505_4).abs() < 1e-7);
        assert!((value(root.clone(), "dyno.gain").unwrap() - 290.0 * 1.057_187).abs() < 0.2);
        assert!(value(root, "dyno.pulls-needed").unwrap() >= 2.0);
    }
}
