//! The plan as a page for the tool box: what to look at first, every life as low, nominal and high, and the stops.

use super::bench::{Bench, wrap};
use super::words;
use crate::plan::{Due, Line, Plan};
use crate::verdict::Verdict;
use std::fmt::Write as _;
use thou_contract::System;

/// The page.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[(String, String)]) -> String {
    let mut out = String::new();
    words::header(bench, "PLAN", &mut out);
    out.push_str(&meters(bench, plan));
    words::accepted(bench, verdict, &mut out);
    for fault in &verdict.faults {
        let _ = writeln!(out, "\n{fault}");
    }
    first(bench, plan, &mut out);
    lives(bench, plan, &mut out);
    stops(bench, plan, &mut out);
    triggers(plan, &mut out);
    cautions(plan, &mut out);
    dated(bench, plan, &mut out);
    for step in &verdict.steps {
        let words = bench.plain(&step.words, &step.args, step.place);
        let _ = write!(out, "\n{}", wrap(&format!("{}: {words}", step.title), "", "  "));
    }
    words::taken(verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&wrap(
        "Planning figures: common practice, low confidence, until this engine's own lives are logged. low: a careful \
         shop has it apart by then; nominal: plan for it; high: not past it unmeasured.",
        "",
        "",
    ));
    out.push_str(&words::foot());
    out
}

/// A meter's number in its own unit, rounded down: a life is never printed longer than it is.
pub(super) fn count(meter: &str, si: f64, system: System) -> String {
    let unit = match meter {
        "miles" if system == System::Metric => 1e3,
        "miles" => 1_609.344,
        "hours" => 3_600.0,
        "months" => 365.25 * 86_400.0 / 12.0,
        _ => 1.0,
    };
    format!("{}", (si / unit + 1e-6).floor())
}

/// The same in a narrow column: miles in thousands, still rounded down.
fn cell(meter: &str, si: f64, system: System) -> String {
    if meter != "miles" {
        return count(meter, si, system);
    }
    let thousands = count(meter, si, system).parse::<f64>().map_or(0.0, |n| n / 1e3);
    let shown = if thousands < 10.0 { (thousands * 10.0).floor() / 10.0 } else { thousands.floor() };
    format!("{shown}k")
}

/// A meter as the reader counts it.
pub(super) fn meter_name(meter: &str, system: System) -> &str {
    if meter == "miles" && system == System::Metric { "km" } else { meter }
}

fn meters(bench: &Bench<'_>, plan: &Plan) -> String {
    let mut parts: Vec<String> = bench
        .sheet
        .meters
        .iter()
        .map(|(m, v)| format!("{} {}", count(m, *v, bench.system), meter_name(m, bench.system)))
        .collect();
    if parts.is_empty() {
        parts.push("nothing run yet".to_owned());
    }
    let day = plan.as_of.map(|d| format!("As of {d}: ")).unwrap_or_default();
    wrap(&format!("{day}{} since the freshen.", parts.join(", ")), "", "  ")
}

/// What comes before any date.
fn first(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let past: Vec<&Line> = plan.lines.iter().filter(|l| l.due == Due::Past).collect();
    if past.is_empty() {
        return;
    }
    out.push_str("\nBEFORE THE NEXT PASS OR DRIVE\n");
    for line in past {
        let s = &line.service;
        let words = format!(
            "{}: {} {} run, and {} is as far as it goes unmeasured. {} it first.",
            s.title,
            count(&s.meter, line.used.unwrap_or(0.0), bench.system),
            meter_name(&s.meter, bench.system),
            count(&s.meter, s.high, bench.system),
            capital(verb(&s.service.action)),
        );
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

fn verb(action: &str) -> &str {
    match action {
        "inspect" => "look at",
        "replace-by-date" => "replace",
        other => other,
    }
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

fn lives(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let mut meters: Vec<&str> = plan.lines.iter().map(|l| l.service.meter.as_str()).collect();
    meters.sort_unstable();
    meters.dedup();
    for meter in meters {
        let name = meter_name(meter, bench.system);
        let _ = writeln!(
            out,
            "\n{:<31} {:>5} {:>5} {:>7} {:>5}  {:<9} about",
            format!("IN {}", name.to_uppercase()),
            "used",
            "low",
            "nominal",
            "high",
            "left"
        );
        for line in plan.lines.iter().filter(|l| l.service.meter == meter) {
            let s = &line.service;
            let number = |si: f64| cell(meter, si, bench.system);
            let title = format!("{} ({})", s.title.to_lowercase(), verb(&s.service.action));
            let used = line.used.map_or_else(|| "?".to_owned(), number);
            let left = match line.left() {
                Some([_, nominal, high]) if nominal > 0.0 => format!("{}..{}", number(nominal), number(high)),
                Some([_, _, high]) if high > 0.0 => format!("0..{}", number(high)),
                Some(_) => "past".to_owned(),
                None => "-".to_owned(),
            };
            let date = line.dates.and_then(|d| d.get(1).copied()).filter(|_| line.due > Due::Now);
            let about = match line.due {
                Due::Past | Due::Now => "now".to_owned(),
                _ => date.map(|d| d.to_string()).unwrap_or_default(),
            };
            let title = if title.chars().count() > 31 {
                let _ = writeln!(out, "{title}");
                String::new()
            } else {
                title
            };
            let row = format!(
                "{title:<31} {used:>5} {:>5} {:>7} {:>5}  {left:<9} {about}",
                number(s.low),
                number(s.nominal),
                number(s.high)
            );
            let _ = writeln!(out, "{}", row.trim_end());
            let why = bench.plain(&s.words, &s.args, s.place);
            if !why.is_empty() {
                out.push_str(&wrap(&why, "    ", "    "));
            }
        }
    }
}

/// What beats the calendar: a reading that says so comes before any count.
fn triggers(plan: &Plan, out: &mut String) {
    let mut told = Vec::new();
    out.push_str("\nWHAT BEATS THE COUNT\n");
    for line in &plan.lines {
        let s = &line.service;
        if !s.service.triggers.is_empty() && !told.contains(&&s.rule) {
            told.push(&s.rule);
            let words = format!("{}: {}", s.title.to_lowercase(), s.service.triggers.join("; "));
            out.push_str(&wrap(&words, "  ", "    "));
        }
    }
}

fn stops(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    if plan.stops.is_empty() {
        return;
    }
    out.push_str("\nSTOPS THAT MAKE SENSE\n");
    for stop in &plan.stops {
        let date = stop.date.map(|d| format!(", about {d}")).unwrap_or_default();
        let apart = match stop.opens.as_str() {
            "nothing" => "nothing apart".to_owned(),
            "plugs" => "plugs out".to_owned(),
            "engine-out" => "engine out".to_owned(),
            other => format!("{} off", other.replace('-', " ")),
        };
        let head = format!(
            "at {} {}{date}: {apart}, {:.1} h of work",
            count(&stop.meter, stop.at, bench.system),
            meter_name(&stop.meter, bench.system),
            stop.hours
        );
        out.push_str(&wrap(&head, "  ", "    "));
        let list: Vec<String> = stop
            .lines
            .iter()
            .filter_map(|i| plan.lines.get(*i))
            .map(|l| {
                let s = &l.service;
                let wait = l.left().map_or(0.0, |[_, _, high]| high.max(0.0));
                let spare = (wait - (stop.at - run(bench, &s.meter))).max(0.0);
                format!(
                    "{} ({}; {} left to high)",
                    s.title.to_lowercase(),
                    verb(&s.service.action),
                    count(&s.meter, spare, bench.system)
                )
            })
            .collect();
        out.push_str(&wrap(&list.join(", "), "      ", "      "));
    }
}

fn run(bench: &Bench<'_>, meter: &str) -> f64 {
    bench.sheet.meters.get(meter).copied().unwrap_or(0.0)
}

fn cautions(plan: &Plan, out: &mut String) {
    let mut cautions: Vec<&str> = plan.lines.iter().filter_map(|l| l.service.service.caution.as_deref()).collect();
    cautions.sort_unstable();
    cautions.dedup();
    if cautions.is_empty() {
        return;
    }
    out.push_str("\nCAUTIONS\n");
    for caution in cautions {
        out.push_str(&wrap(caution, "  ", "    "));
    }
}

/// Parts that count from their own stamp.
fn dated(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    if bench.sheet.certificates.is_empty() {
        return;
    }
    out.push_str("\nDATED PARTS, BY THEIR OWN STAMP\n");
    for c in &bench.sheet.certificates {
        let state = match plan.as_of {
            Some(today) if c.until < today => "lapsed: not to be run",
            _ => "good",
        };
        out.push_str(&wrap(&format!("{}: until {}, {state}", c.part, c.until), "  ", "    "));
    }
    out.push_str(&wrap("Check this year's rule book of your own body: only dates are kept here.", "  ", "  "));
}
