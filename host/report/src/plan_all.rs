//! Every engine of a book in short: what to look at, what is due, and the next that comes.

use super::bench::wrap;
use super::plan_words::{count, meter_name, named, run};
use super::words;
use jiff::civil::Date;
use std::fmt::Write as _;
use thou_contract::System;
use thou_life::condition::Urgency;
use thou_plan::{Due, Plan, ServiceLine};
use thou_sheet::Sheet;

/// Above the list.
#[must_use]
pub fn head(day: Option<Date>, engines: usize) -> String {
    let day = day.map(|d| format!("   as of {d}")).unwrap_or_default();
    format!("PLAN   every engine of the book ({engines}){day}\n")
}

/// One engine in a few lines.
#[must_use]
pub fn engine(name: &str, usage: &str, sheet: &Sheet, plan: &Plan, system: System) -> String {
    let run = run(&sheet.meters, system);
    let mut out = format!("\n{}", wrap(&format!("{name}   {usage}   {run} since the freshen"), "", "  "));
    for finding in plan.log.iter().flat_map(|t| &t.findings).filter(|f| f.weight != Urgency::Note) {
        let word = if finding.weight == Urgency::Stop { "does not run" } else { "look" };
        out.push_str(&wrap(&format!("{word}: {}", finding.words), "  ", "      "));
    }
    for (word, due) in [("past high", Due::Past), ("now", Due::Now), ("soon", Due::Soon)] {
        let lines: Vec<String> = plan.lines.iter().filter(|l| l.due == due).map(|l| short(l, system)).collect();
        if !lines.is_empty() {
            out.push_str(&wrap(&format!("{word}: {}", lines.join("; ")), "  ", "      "));
        }
    }
    if plan.lines.iter().all(|l| l.due >= Due::Later) {
        let next = plan.lines.iter().find(|l| l.used.is_some());
        let words = next.map_or_else(|| "nothing counted".to_owned(), |l| format!("next: {}", short(l, system)));
        let _ = write!(out, "{}", wrap(&words, "  ", "      "));
    }
    out
}

/// "replace the valve springs 95 of 82, 132, 220 passes".
fn short(line: &ServiceLine, system: System) -> String {
    let s = &line.service;
    if super::plan_log::ended(line).is_some() {
        return named(s);
    }
    let number = |v: f64| count(&s.meter, v, system);
    let used = line.used.map_or_else(|| "?".to_owned(), number);
    format!(
        "{} {used} of {}, {}, {} {}",
        named(s),
        number(s.low),
        number(s.nominal),
        number(s.high),
        meter_name(&s.meter, system)
    )
}

/// Under the list.
#[must_use]
pub fn foot() -> String {
    let words = "used of low, nominal, high. Planning figures, and not everything that was asked: `thou plan ENGINE` has \
                 each with its reasons and cautions.";
    format!("\n{}{}", wrap(words, "", ""), words::foot())
}
