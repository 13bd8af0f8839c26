//! What the days on the sheet say: of certificates and tests, and whether the washing came before the assembly.

use crate::builder::Builder;
use jiff::civil::Date;
use serde_json::Value;
use thou_sheet::Sheet;

/// Work that leaves chips or grit in a block.
const CUTS: [&str; 4] = ["bored", "honed", "line-honed", "decked"];

pub(super) fn facts(b: &mut Builder) {
    b.worked(
        "date",
        "day",
        "engine.date",
        "The day that the sheet is looked at; where nobody says, that of its meters, else its own.",
        |sheet| thou_contract::day(&sheet.day()?.to_string()),
    )
    .with(&["meters.date"]);
    damper(b);
    certificates(b);
    tests(b);
    washing(b);
}

fn damper(b: &mut Builder) {
    b.dated(
        "damper.age",
        "balance.damper-made",
        "How old the damper is: by the day on it, else that of its certificate.",
        |sheet| {
            let made = date(sheet, "/balance/damper-made").or_else(|| date(sheet, &certificate(sheet, "issued")?))?;
            days(made, sheet.as_of?)
        },
    )
    .with(&["certificates"]);
    b.dated(
        "damper.certificate-left",
        "certificates",
        "How long the damper's certificate still holds; negative once it has lapsed.",
        |sheet| days(sheet.as_of?, date(sheet, &certificate(sheet, "until")?)?),
    );
}

/// JSON pointer of a field of the damper's certificate; of several, the one where it is latest.
fn certificate(sheet: &Sheet, field: &str) -> Option<String> {
    let of_damper = |c: &Value| c.get("part").and_then(Value::as_str) == Some("damper");
    let all = rows(sheet, "certificates");
    let pointers =
        (0..all.len()).filter(|i| all.get(*i).is_some_and(of_damper)).map(|i| format!("/certificates/{i}/{field}"));
    pointers.max_by_key(|pointer| date(sheet, pointer))
}

fn certificates(b: &mut Builder) {
    b.listed(
        "certificates.count",
        "count",
        "certificates",
        "How many certificates the sheet has.",
        "counted",
        |sheet| Ok((rows(sheet, "certificates").len() as f64, 0.0)),
    );
    b.dated(
        "certificates.left",
        "certificates",
        "How long it is until the first of the certificates lapses, of a part with several the latest of them; negative \
         once one has.",
        |sheet| {
            let all = rows(sheet, "certificates");
            let part = |c: &'_ Value| c.get("part").and_then(Value::as_str).map(str::to_owned);
            let until = |i: usize| date(sheet, &format!("/certificates/{i}/until"));
            let of = |name: &Option<String>| (0..all.len()).filter(|i| all.get(*i).map(part) == Some(name.clone())).filter_map(until).max();
            days(sheet.as_of?, all.iter().filter_map(|c| of(&part(c))).min()?)
        },
    );
}

/// A used part goes back in on a crack test that is younger than its running.
fn tests(b: &mut Builder) {
    b.dated(
        "crank.test-lead",
        "crank.crack-tested",
        "How long before assembly the crank was looked at for cracks; negative where it was after.",
        |sheet| days(date(sheet, "/crank/crack-tested")?, assembled(sheet)?),
    );
    b.dated(
        "rod.test-lead",
        "rods.crack-tested",
        "How long before assembly the rods were looked at for cracks; negative where it was after.",
        |sheet| days(date(sheet, "/rods/crack-tested")?, assembled(sheet)?),
    );
    b.dated(
        "block.test-lead",
        "block.crack-tested",
        "How long before assembly the block was looked at for cracks; negative where it was after.",
        |sheet| days(date(sheet, "/block/crack-tested")?, assembled(sheet)?),
    );
    b.dated(
        "cam.belt-age",
        "cam.belt-date",
        "How long the cam's belt had been on when it was put together.",
        |sheet| days(date(sheet, "/cam/belt-date")?, assembled(sheet)?),
    );
}

fn washing(b: &mut Builder) {
    b.listed(
        "block.cuts",
        "count",
        "work",
        "How often the block was bored, honed or decked by this sheet.",
        "counted",
        |sheet| Ok((days_of(sheet, &CUTS).count() as f64, 0.0)),
    );
    b.listed(
        "assembly.count",
        "count",
        "work",
        "How often the engine was assembled by this sheet.",
        "counted",
        |sheet| Ok((days_of(sheet, &["assembled"]).count() as f64, 0.0)),
    );
    b.dated(
        "block.washed-before-assembly",
        "finish.washed",
        "How long before it was assembled the block was washed; negative where that was later.",
        |sheet| days(date(sheet, "/finish/washed")?, days_of(sheet, &["assembled"]).flatten().max()?),
    );
    b.flag("block.deburred", "finish.deburred", "Whether edges were broken.");
}

/// The day it was put together, else the day of the sheet.
fn assembled(sheet: &Sheet) -> Option<Date> {
    days_of(sheet, &["assembled"]).flatten().max().or_else(|| date(sheet, "/engine/date")).or(sheet.as_of)
}

/// The days of this work.
fn days_of<'a>(sheet: &'a Sheet, did: &'a [&str]) -> impl Iterator<Item = Option<Date>> + 'a {
    let all = rows(sheet, "work");
    (0..all.len())
        .filter(move |i| {
            all.get(*i).and_then(|w| w.get("did")).and_then(Value::as_str).is_some_and(|d| did.contains(&d))
        })
        .map(move |i| date(sheet, &format!("/work/{i}/when")))
}

fn rows<'a>(sheet: &'a Sheet, list: &str) -> &'a [Value] {
    sheet.root.get(list).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

fn date(sheet: &Sheet, pointer: &str) -> Option<Date> {
    sheet.root.pointer(pointer).and_then(Value::as_str).and_then(|text| text.parse().ok())
}

/// From one day to another, s.
fn days(from: Date, to: Date) -> Option<f64> {
    from.until(to).ok().map(|span| f64::from(span.get_days()) * 86_400.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::testing::sheet;
    use crate::{Catalogue, SheetFacts};
    use serde_json::{Value, json};

    const DAY: f64 = 86_400.0;

    fn days(root: &Value, id: &str) -> Option<f64> {
        let mut sheet = sheet(root.clone());
        sheet.as_of = Some(jiff::civil::date(2026, 7, 1));
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        facts.get(id).unwrap().first().unwrap().as_ref().ok().map(|n| n.value / DAY)
    }

    #[test]
    fn the_wash_counts_to_the_assembly() {
        let mut root = json!({ "finish": { "washed": "2026-06-15" }, "work": [
            { "did": "honed", "when": "2026-06-14" }, { "did": "bored", "when": "2026-06-04" },
            { "did": "seats-cut", "when": "2026-06-25" }, { "did": "assembled", "when": "2026-06-20" }
        ] });
        assert_eq!(days(&root, "block.washed-before-assembly"), Some(5.0));
        root["finish"]["washed"] = json!("2026-06-10");
        assert_eq!(days(&root, "block.washed-before-assembly"), Some(10.0));
        root["finish"]["washed"] = json!(null);
        assert_eq!(days(&root, "block.washed-before-assembly"), None);
    }

    #[test]
    fn the_day_on_the_damper_goes_before_its_certificate() {
        let mut root = json!({ "balance": { "damper-made": "2016-07-01" }, "certificates": [
            { "part": "damper", "issued": "2026-06-01", "until": "2029-06-30" },
            { "part": "flexplate", "issued": "2023-06-21", "until": "2026-06-21" },
            { "part": "flexplate", "issued": "2026-06-01", "until": "2026-07-11" }
        ] });
        assert_eq!(days(&root, "damper.age"), Some(3_652.0));
        // of two on one part the later counts
        assert_eq!(days(&root, "certificates.left"), Some(10.0));
        root["balance"]["damper-made"] = json!(null);
        assert_eq!(days(&root, "damper.age"), Some(30.0));
    }

    #[test]
    fn a_crack_test_is_counted_to_the_assembly() {
        let root = json!({ "crank": { "crack-tested": "2026-05-28" }, "work": [{ "did": "assembled", "when": "2026-06-20" }] });
        assert_eq!(days(&root, "crank.test-lead"), Some(23.0));
        assert_eq!(days(&root, "rod.test-lead"), None);
    }
}
