//! The plan as a page: what to look at first, the stops and what they wait for, what to order, how far the rest is good.

use super::bench::{Bench, wrap};
use super::plan_words::{count, meter_name, named, run};
use super::words::NamedPack;
use super::{plan_detail as detail, plan_log as log, plan_orders, plan_say as say, plan_stops, words};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use thou_plan::{Due, Plan, ServiceLine};
use thou_verdict::Verdict;

/// The page: what stands first, then the stops, what to order, and how far everything else is good.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack]) -> String {
    page(bench, verdict, plan, packs, false)
}

/// The page with every figure of every life, why it is counted so, and what brings it sooner.
#[must_use]
pub fn with_figures(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack]) -> String {
    page(bench, verdict, plan, packs, true)
}

fn page(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack], figures: bool) -> String {
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
    plan_stops::text(bench, plan, figures, &mut out);
    plan_orders::text(bench, plan, &mut out);
    plan_orders::events(bench, plan, &mut out);
    log::kept(plan, &mut out);
    if figures {
        lives(bench, plan, &mut out);
    } else {
        good_for(bench, plan, &mut out);
        unsaid(plan, &mut out);
    }
    detail::steps(bench, verdict, &mut out);
    detail::cautions(bench, plan, &mut out);
    if figures {
        detail::work(bench, plan, &mut out);
    }
    if figures {
        words::taken(bench, verdict, &mut out);
    }
    super::replaced::services(bench, verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    let more = match verdict.taken.len() {
        _ if figures => String::new(),
        0 => " Every figure, with why it is counted so and what brings it sooner: --figures.".to_owned(),
        n => format!(
            " Every figure, with why it is counted so and what brings it sooner, and the {n} values that were taken because \
             the sheet does not say: --figures."
        ),
    };
    out.push_str(&wrap(
        &format!("Planning figures: common practice, low confidence, until this engine's own lives are logged.{more}"),
        "",
        "",
    ));
    out.push_str(&words::foot());
    out
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
        if let Some(why) = log::ended(line) {
            out.push_str(&wrap(&format!("{}. {why}.", named(s)), "  ", "    "));
            continue;
        }
        let words = format!(
            "{}: {}, {} is the most. {}",
            named(s),
            say::on_it(bench, line),
            thou_text::thousands(&count(&s.meter, s.high, bench.system)),
            if line.looks() { "Do it before it runs again." } else { "It does not run again with these." },
        );
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

/// Every figure of every life, the most pressing first.
fn lives(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    out.push_str("\nHOW FAR EACH IS GOOD, AND WHY\n");
    for line in &plan.lines {
        out.push_str(&wrap(&say::figures(bench, plan, line), "  ", "    "));
        log::why(bench, line, out);
    }
}

/// What is not due yet, by how far it is good.
fn good_for(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let mut groups: BTreeMap<(usize, String), Vec<String>> = BTreeMap::new();
    for line in plan.lines.iter().filter(|l| l.due >= Due::Soon) {
        let s = &line.service;
        let (group, words) = match (line.due, line.when.as_ref().map(|w| &w[1])) {
            (Due::Uncounted, _) => {
                let meter = meter_name(&s.meter, bench.system);
                ((usize::MAX, format!("Not counted, for the sheet has no {meter} or no day to count from")), named(s))
            }
            (_, Some(w)) if w.within => continue,
            (_, Some(w)) => match w.before.as_ref().and_then(|e| plan.events.iter().position(|a| a.name == *e)) {
                Some(0) | None if w.before.is_some() => continue,
                Some(events) => {
                    let through = w.through.clone().unwrap_or_default();
                    let more = if events == 1 { "event" } else { "events" };
                    ((events, format!("Through {through}, {} more {more}", say::in_words(events))), named(s))
                }
                None => {
                    let head = if plan.events.is_empty() { "To about" } else { "Past the events ahead, to about" };
                    ((usize::MAX - 2, head.to_owned()), format!("{} {}", w.date, named(s)))
                }
            },
            (_, None) => {
                let left = line.left().map_or(0.0, |l| l[1].max(0.0));
                let words = format!("{} for {}", named(s), say::amount(bench, &s.meter, left));
                ((usize::MAX - 1, "By use alone".to_owned()), words)
            }
        };
        let list = groups.entry(group).or_default();
        if !list.contains(&words) {
            list.push(words);
        }
    }
    if groups.is_empty() {
        return;
    }
    out.push_str("\nGOOD FOR NOW\n");
    for ((_, head), mut list) in groups {
        if head.ends_with("about") {
            list.sort();
        }
        out.push_str(&wrap(&format!("{head}: {}.", list.join("; ")), "  ", "    "));
    }
}

/// What is not counted, for a pack does not say enough.
fn unsaid(plan: &Plan, out: &mut String) {
    let lines: Vec<&ServiceLine> = plan.lines.iter().filter(|l| !l.unsaid.is_empty()).collect();
    if lines.is_empty() {
        return;
    }
    out.push_str("\nNOT COUNTED, FOR ITS PACK DOES NOT SAY ENOUGH\n");
    for line in lines {
        out.push_str(&wrap(&format!("{}: {}.", named(&line.service), line.unsaid.join("; ")), "  ", "    "));
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
            Some(today) if c.until < today => "LAPSED: not to be run",
            _ => "in date",
        };
        let event = plan.events.iter().find(|e| e.last > c.until).filter(|_| state == "in date");
        let ends = event.map(|e| format!(", and ends before {} does", e.name)).unwrap_or_default();
        out.push_str(&wrap(&format!("{}: until {}, {state}{ends}", c.part, c.until), "  ", "    "));
    }
    out.push_str(&wrap("Check this year's rule book of your own body: only dates are kept here.", "  ", "  "));
}
