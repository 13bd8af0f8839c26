//! The plan as a page for the tool box: what to look at first, every life as low, nominal and high, and the stops.

use super::bench::{Bench, WIDTH, capital, has_tables, wrap};
use super::plan_words::{count, meter_name, named, run};
use super::words::NamedPack;
use super::{plan_detail as detail, plan_log as log, plan_orders, plan_stops, words};
use std::fmt::Write as _;
use thou_contract::System;
use thou_plan::{Due, Plan, ServiceLine, When};
use thou_verdict::Verdict;

/// The page.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack]) -> String {
    let mut out = String::new();
    words::header(bench, "PLAN", &mut out);
    out.push_str(&meters(bench, plan));
    log::counted(plan, &mut out);
    words::accepted(bench, verdict, &mut out);
    for lost in &verdict.lost {
        let _ = writeln!(out, "\n{lost}");
    }
    log::findings(plan, &mut out);
    first(bench, plan, &mut out);
    dated(bench, plan, &mut out);
    plan_orders::events(bench, plan, &mut out);
    plan_stops::text(bench, plan, &mut out);
    plan_orders::text(bench, plan, &mut out);
    log::kept(plan, &mut out);
    lives(bench, plan, &mut out);
    detail::steps(bench, verdict, &mut out);
    detail::cautions(bench, plan, &mut out);
    detail::work(bench, plan, &mut out);
    words::taken(bench, verdict, &mut out);
    super::replaced::services(bench, verdict, &mut out);
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

/// The page with every figure of every life.
#[must_use]
pub fn with_figures(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack]) -> String {
    text(bench, verdict, plan, packs)
}

/// The lines of the page that are about single services and steps, without head and foot: for the cases of a pack.
#[must_use]
pub fn lines(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan) -> String {
    let mut out = String::new();
    if !plan.lines.is_empty() {
        lives(bench, plan, &mut out);
        detail::work(bench, plan, &mut out);
    }
    detail::steps(bench, verdict, &mut out);
    out.trim_start_matches('\n').to_owned()
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

fn meters(bench: &Bench<'_>, plan: &Plan) -> String {
    let run = run(&bench.sheet.meters, bench.system);
    let day = plan.as_of.map(|d| format!("As of {d}: ")).unwrap_or_default();
    let next =
        plan.events.first().map(|e| format!(" Next event: {}.", plan_orders::event_words(e))).unwrap_or_default();
    wrap(&format!("{day}{run} since the freshen.{next}"), "", "  ")
}

/// What comes before any date: a reading may put off a look or a measurement, nothing puts off a part.
pub(super) fn first(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let past: Vec<&ServiceLine> = plan.lines.iter().filter(|l| l.due == Due::Past).collect();
    if past.is_empty() {
        return;
    }
    out.push_str("\nBEFORE THE NEXT PASS OR DRIVE\n");
    for line in past {
        let s = &line.service;
        let looks = line.looks();
        if let Some(why) = log::ended(line) {
            out.push_str(&wrap(&format!("{}. {why}.", named(s)), "  ", "    "));
            continue;
        }
        let words = format!(
            "{}: {} {} run, high is {}. {}",
            named(s),
            count(&s.meter, line.used.unwrap_or(0.0), bench.system),
            meter_name(&s.meter, bench.system),
            count(&s.meter, s.high, bench.system),
            if looks { "Do it before it runs again." } else { "It does not run again with these." },
        );
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

fn lives(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    // what is counted at the track comes first, the calendar last
    for meter in ["passes", "miles", "hours", "events", "months"] {
        if plan.lines.iter().all(|l| l.service.meter != meter) {
            continue;
        }
        let name = meter_name(meter, bench.system);
        if !has_tables() {
            let _ = writeln!(out, "\nIN {}", name.to_uppercase());
            for line in plan.lines.iter().filter(|l| l.service.meter == meter) {
                out.push_str(&wrap(&in_words(bench, line), "  ", "    "));
                log::why(bench, line, out);
            }
            continue;
        }
        let _ = writeln!(
            out,
            "\n{:<32} {:>5} {:>5} {:>7} {:>5}  {:<9} {}",
            format!("IN {}", name.to_uppercase()),
            "used",
            "low",
            "nominal",
            "high",
            "left",
            if plan.events.is_empty() { "about" } else { "before" }
        );
        for line in plan.lines.iter().filter(|l| l.service.meter == meter) {
            let s = &line.service;
            let number = |si: f64| cell(meter, si, bench.system);
            let title = named(s);
            let used = line.used.map_or_else(|| "?".to_owned(), number);
            let left = match line.left() {
                // the thousands are said once
                Some([_, nominal, high]) if nominal > 0.0 => {
                    format!("{}..{}", number(nominal).trim_end_matches('k'), number(high))
                }
                Some([_, _, high]) if high > 0.0 => format!("0..{}", number(high)),
                Some(_) => "past".to_owned(),
                None => "-".to_owned(),
            };
            let about = match line.due {
                Due::Past | Due::Now => "now".to_owned(),
                _ => line.when.as_ref().map(|w| event_or_day(&w[1])).unwrap_or_default(),
            };
            let folded = textwrap::wrap(&title, textwrap::Options::new(32).subsequent_indent("  "));
            let (last, before) = folded.split_last().map_or(("", &[][..]), |(l, b)| (l, b));
            for part in before {
                let _ = writeln!(out, "{part}");
            }
            let (low, nominal, high) = (number(s.low), number(s.nominal), number(s.high));
            let lives = format!("{last:<32} {used:>5} {low:>5} {nominal:>7} {high:>5}");
            let row = format!("{lives}  {left:<9} {about}");
            // lives of seven figures leave no room beside them
            let row = if row.chars().count() > WIDTH { format!("{lives}\n    {left}  {about}") } else { row };
            let _ = writeln!(out, "{}", row.trim_end());
            log::why(bench, line, out);
        }
    }
    if !has_tables() {
        return;
    }
    let events = if plan.events.is_empty() {
        ""
    } else {
        " before: the event in which nominal would be passed with every round won, else the day."
    };
    let _ = write!(out, "\n{}", wrap(&format!("left: to nominal..to high.{events}"), "", ""));
}

/// A row of the lives where a table has no room: "Replace the valve springs: 95 of 82, 132, 220; 37 to nominal, before E8".
fn in_words(bench: &Bench<'_>, line: &ServiceLine) -> String {
    let s = &line.service;
    let number = |si: f64| count(&s.meter, si, bench.system);
    let used = line.used.map_or_else(|| "?".to_owned(), number);
    let left = match line.left() {
        Some([_, nominal, _]) if nominal > 0.0 => format!("; {} to nominal", number(nominal)),
        Some([_, _, high]) if high > 0.0 => format!("; {} to high", number(high)),
        Some(_) => "; past high".to_owned(),
        None => String::new(),
    };
    let when = match line.due {
        Due::Past | Due::Now => ", now".to_owned(),
        _ => line.when.as_ref().map(|w| format!(", {}", w[1].words())).unwrap_or_default(),
    };
    let lives = [s.low, s.nominal, s.high].map(number).join(", ");
    format!("{}: {used} of {lives}{left}{when}", capital(&named(s)))
}

/// The event before which a figure comes, where its name fits the column, else its day.
fn event_or_day(when: &When) -> String {
    let name = when.before.as_ref().filter(|n| n.chars().count() <= 10);
    name.cloned().unwrap_or_else(|| when.date.to_string())
}

/// Parts that count from their own stamp.
fn dated(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    if bench.sheet.certificates.is_empty() {
        return;
    }
    out.push_str("\nDATED PARTS, BY THEIR OWN STAMP\n");
    for c in &bench.sheet.certificates {
        let state = match plan.as_of {
            Some(today) if c.until < today => "LAPSED: not to be run",
            _ => "in date",
        };
        let event = plan.events.iter().find(|e| e.last > c.until).filter(|_| state == "in date");
        let ends = event.map(|e| format!(", and ends before {} does", e.name)).unwrap_or_default();
        out.push_str(&wrap(&format!("{}: until {}, {state}{ends}", c.part, c.until), "  ", "    "));
    }
    out.push_str(&wrap("Check this year's rule book of your own body: only dates are kept here.", "  ", "  "));
}
