//! The plan's second sheet: what an over-rev asks for, what hurts people, and each service with what brings it sooner.

use super::bench::{Bench, capital, wrap};
use super::cautions as standing;
use super::plan_words::named;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use thou_plan::Plan;
use thou_verdict::Verdict;

/// Steps of the packs under their titles.
pub(super) fn steps(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let mut title = "";
    for step in &verdict.steps {
        if step.title != title {
            title = &step.title;
            let _ = writeln!(out, "\n{}", title.to_uppercase());
        }
        let words = bench.plain(&step.words, &step.args, step.place);
        out.push_str(&wrap(&words, "  ", "    "));
        if let Some(caution) = &step.caution {
            out.push_str(&wrap(&format!("Caution: {caution}"), "    ", "    "));
        }
    }
}

/// What hurts people or the engine, each once, with the work that it belongs to.
pub(super) fn cautions(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let mut packs: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for line in &plan.lines {
        if let Some(caution) = line.service.service.caution.as_deref() {
            let work = packs.entry(caution).or_default();
            let name = named(&line.service);
            if !work.contains(&name) {
                work.push(name);
            }
        }
    }
    out.push_str("\nCAUTIONS\n");
    let mut printed = BTreeSet::new();
    for caution in standing::hand_over(bench).into_iter().chain(standing::at_the_track(bench)) {
        if printed.insert(caution) {
            out.push_str(&wrap(caution, "  ", "    "));
        }
    }
    for (caution, work) in packs {
        out.push_str(&wrap(&format!("{}. {caution}", capital(&work.join("; "))), "  ", "    "));
    }
}

/// What each service is, what drives its count, and what beats the count: a reading comes before any number.
pub(super) fn work(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let mut printed = BTreeSet::new();
    out.push_str("\nWHAT EACH IS, AND WHAT BRINGS IT SOONER\n");
    for line in &plan.lines {
        let s = &line.service;
        if !printed.insert(&s.rule) {
            continue;
        }
        let _ = writeln!(out, "  {}", named(s));
        let words = bench.plain(&s.words, &s.args, s.place);
        if !words.is_empty() {
            out.push_str(&wrap(&words, "      ", "      "));
        }
        if !s.service.triggers.is_empty() {
            out.push_str(&wrap(&format!("Sooner: {}", s.service.triggers.join("; ")), "      ", "      "));
        }
    }
}
