//! The plan as rows for a table, with a header: one a service and meter, in an order that does not change with the days,
//! then one for everything that the engine's log asks to look at, in the order of the page.

use super::bench::Bench;
use super::plan_words::count;
use thou_contract::System;
use thou_life::condition::{ReadingAlert, Urgency};
use thou_plan::{Plan, ServiceLine};

/// The columns.
pub const HEADER: [&str; 34] = [
    "engine",
    "as-of",
    "rule",
    "title",
    "part",
    "serial",
    "action",
    "opens",
    "loses",
    "hours",
    "meter",
    "used",
    "low",
    "nominal",
    "high",
    "left-low",
    "left-nominal",
    "left-high",
    "due",
    "basis",
    "date-low",
    "date-nominal",
    "date-high",
    "before-low",
    "before-nominal",
    "not-past",
    "order-by",
    "lead-days",
    "on-the-shelf",
    "because",
    "kind",
    "seen",
    "to-do",
    "entry",
];

/// The rows. Meters in passes, miles, hours, months or events; what is not known is an empty cell. The kind is `service`,
/// or of a finding `stop`, `look` or `worth-knowing`: what was seen is its `because`, with its day, what to do and the
/// log's entry.
///
/// # Errors
/// None in practice: the rows are written to memory. The error is that of the `csv` crate.
pub fn text(bench: &Bench<'_>, plan: &Plan) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADER)?;
    let header = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&header).into_owned() + &rows(bench, plan)?)
}

/// The rows without their header.
///
/// # Errors
/// As [`text`].
pub fn rows(bench: &Bench<'_>, plan: &Plan) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut lines: Vec<&ServiceLine> = plan.lines.iter().collect();
    lines.sort_by(|a, b| {
        let place = |l: &ServiceLine| bench.place(l.service.place);
        (&a.service.rule, place(a), &a.service.meter).cmp(&(&b.service.rule, place(b), &b.service.meter))
    });
    for line in lines {
        writer.write_record(row(bench, plan, line).iter().map(|cell| thou_text::safe_cell(cell)))?;
    }
    for finding in plan.log.iter().flat_map(|t| &t.findings) {
        writer.write_record(found(bench, plan, finding).iter().map(|cell| thou_text::safe_cell(cell)))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn row(bench: &Bench<'_>, plan: &Plan, line: &ServiceLine) -> Vec<String> {
    let s = &line.service;
    let number = |si: f64| count(&s.meter, si, System::Inch);
    let left = |which: usize| line.left().and_then(|l| l.get(which).copied()).map(number).unwrap_or_default();
    let when = |which: usize| line.when.as_ref().and_then(|w| w.get(which));
    let date = |which: usize| when(which).map(|w| w.date.to_string()).unwrap_or_default();
    let before = |which: usize| when(which).and_then(|w| w.before.clone()).unwrap_or_default();
    let order = plan.orders.iter().find(|o| o.part == s.service.part && !line.looks());
    let engine = bench.sheet.stated("engine.name").and_then(|(v, _)| v.as_str()).unwrap_or("");
    vec![
        engine.to_owned(),
        plan.as_of.map(|d| d.to_string()).unwrap_or_default(),
        s.rule.clone(),
        s.title.clone(),
        s.service.part.clone(),
        line.serial.clone().unwrap_or_default(),
        s.service.action.clone(),
        s.service.opens.clone(),
        s.service.loses.clone(),
        s.service.hours.to_string(),
        s.meter.clone(),
        line.used.map(number).unwrap_or_default(),
        number(s.low),
        number(s.nominal),
        number(s.high),
        left(0),
        left(1),
        left(2),
        format!("{:?}", line.due).to_lowercase(),
        line.basis.word().to_owned(),
        date(0),
        date(1),
        date(2),
        before(0),
        before(1),
        when(2).and_then(|w| w.through.clone()).unwrap_or_default(),
        order.and_then(|o| o.by).map(|d| d.to_string()).unwrap_or_default(),
        order.and_then(|o| o.lead()).map(|d| d.to_string()).unwrap_or_default(),
        order.map(|o| o.shelf.join("; ")).unwrap_or_default(),
        bench.plain(&s.words, &s.args, s.place),
        "service".to_owned(),
        String::new(),
        String::new(),
        String::new(),
    ]
}

fn found(bench: &Bench<'_>, plan: &Plan, finding: &ReadingAlert) -> Vec<String> {
    let kind = match finding.weight {
        Urgency::Stop => "stop",
        Urgency::Look => "look",
        Urgency::Note => "worth-knowing",
    };
    let cell = |column: &str| match column {
        "engine" => bench.sheet.stated("engine.name").and_then(|(v, _)| v.as_str()).unwrap_or("").to_owned(),
        "as-of" => plan.as_of.map(|d| d.to_string()).unwrap_or_default(),
        "title" => finding.title.clone(),
        "part" => finding.part.clone().unwrap_or_default(),
        "basis" => finding.whose.clone(),
        "because" => finding.words.clone(),
        "kind" => kind.to_owned(),
        "seen" => finding.day.to_string(),
        "to-do" => finding.to_do.clone(),
        "entry" => finding.entry.clone(),
        _ => String::new(),
    };
    HEADER.iter().map(|column| cell(column)).collect()
}
