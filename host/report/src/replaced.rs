//! Rules that another pack's rule stands in for: what was, what is now, whose, and what the old one would have said.

use super::bench::{Bench, same, wrap};
use super::plan_words::{count, meter_name};
use std::collections::BTreeMap;
use thou_contract::Basis;
use thou_sheet::model::Axis;
use thou_verdict::{Hold, Limits, Replaced, ServiceItem, State, Verdict, WindowItem};

/// Windows of one rule that are written out; of more, which differ from place to place, the rest is counted.
const WRITTEN_OUT: usize = 3;

/// A hold that is loosened or gone stands at the top of every page, whether somebody signed for it or not.
pub(super) fn on_top(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    for note in verdict.replaced.iter().filter(|r| r.hold != Hold::Kept) {
        out.push_str(&wrap(&of_hold(bench, note), "", "  "));
    }
}

/// The same in one line a rule, for a page with no room.
pub(super) fn in_short(verdict: &Verdict, out: &mut String) {
    for note in verdict.replaced.iter().filter(|r| r.hold != Hold::Kept) {
        let words = match &note.signed {
            Some(signed) => format!("Hold {} by {}: {}. See thou check.", note.hold.word(), signed.by, note.rule),
            None => format!("Not signed for, so it counts on: {}. See thou check.", note.rule),
        };
        out.push_str(&wrap(&words, "", "  "));
    }
}

fn of_hold(bench: &Bench<'_>, note: &Replaced) -> String {
    let what = match note.hold {
        Hold::Dropped => "would drop the hold of",
        _ => "would loosen the hold of",
    };
    let change = change(bench, note);
    match &note.signed {
        Some(signed) => format!(
            "Hold {} by {}: {} stands in for {}, {}. {change}",
            note.hold.word(),
            signed.by,
            by(note),
            note.rule,
            signed.reason
        ),
        None => format!(
            "Nobody signed for it: {} {what} {}, which counts on beside it. {change} To let it go, sign for it in the \
             sheet's \"looser\": rule, instead, reason, by.",
            by(note),
            note.rule
        ),
    }
}

/// The rules of windows and findings that are replaced and hold as before.
pub(super) fn rules(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    list(bench, verdict.replaced.iter().filter(|r| r.lives.0.is_empty() && r.hold == Hold::Kept), out);
}

/// The services that are replaced.
pub(super) fn services(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    list(bench, verdict.replaced.iter().filter(|r| !r.lives.0.is_empty()), out);
}

fn list<'a>(bench: &Bench<'_>, notes: impl Iterator<Item = &'a Replaced>, out: &mut String) {
    let (alike, changed): (Vec<&Replaced>, Vec<&Replaced>) = notes.partition(|r| is_alike(r));
    if alike.is_empty() && changed.is_empty() {
        return;
    }
    out.push_str("\nREPLACED: RULES THAT ANOTHER PACK'S STAND IN FOR\n");
    for note in changed {
        out.push_str(&wrap(&format!("{} by {}. {}", note.rule, by(note), self::change(bench, note)), "  ", "    "));
    }
    let mut packs: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for note in alike {
        for (id, title) in &note.by {
            let pack = id.split('/').next().unwrap_or(id);
            let rules = packs.entry(format!("{pack} ({title})")).or_default();
            if !rules.contains(&note.rule.as_str()) {
                rules.push(&note.rule);
            }
        }
    }
    for (pack, rules) in packs {
        let words = format!("By {pack} with the same figures, and so the same verdict: {}.", rules.join(", "));
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

/// What is said of one rule where somebody asks for it, a line each.
#[must_use]
pub fn of_rule(bench: &Bench<'_>, verdict: &Verdict, rule: &str) -> Vec<String> {
    let of = |r: &&Replaced| r.rule == rule || r.by.contains_key(rule);
    let words = |r: &Replaced| match r.hold {
        Hold::Kept => format!("{} by {}. {}", r.rule, by(r), change(bench, r)),
        _ => of_hold(bench, r),
    };
    verdict.replaced.iter().filter(of).map(words).collect()
}

/// The rules that stand in, with their packs' titles.
fn by(note: &Replaced) -> String {
    let list: Vec<String> = note.by.iter().map(|(id, title)| format!("{id} ({title})")).collect();
    list.join(" and ")
}

/// "Was 2.5 to 2.8 thou, is now 3 thou or more; it would say go, all 8."
fn change(bench: &Bench<'_>, note: &Replaced) -> String {
    let mut parts = Vec::new();
    if let Some(fact) = &note.fact {
        let now = limits(bench, fact, &note.now);
        let now = if now.is_empty() { "nothing".to_owned() } else { now };
        parts.push(format!("Was {}, is now {now}", limits(bench, fact, &note.was)));
    }
    if !note.lives.0.is_empty() {
        parts.push(format!("Was {}, is now {}", lives(bench, &note.lives.0), lives(bench, &note.lives.1)));
    }
    if !note.said.is_empty() {
        let now = note.says.map(|s| format!(", where it now says {}", s.word())).unwrap_or_default();
        parts.push(format!("it would say {}{now}", said(bench, note)));
    }
    let text = parts.join("; ");
    let stop = if text.is_empty() { "" } else { "." };
    let never = |w: &WindowItem| w.limits.never_below.or(w.limits.never_above).is_some();
    let physics = |w: &WindowItem| w.basis == Basis::Physics || w.hold_basis == Basis::Physics && never(w);
    let stays = if note.was.iter().any(physics) { " What physics forbids of it stays." } else { "" };
    format!("{}{stop}{stays}", super::bench::capital(&text))
}

fn limits(bench: &Bench<'_>, fact: &str, windows: &[WindowItem]) -> String {
    let mut all: Vec<String> = Vec::new();
    for window in windows {
        let words = bench.limits(fact, &window.limits, (&window.text.whose, &window.hold_whose), 0);
        if !all.contains(&words) {
            all.push(words);
        }
    }
    let more = all.len().saturating_sub(WRITTEN_OUT);
    all.truncate(WRITTEN_OUT);
    let text = all.join(" and ");
    if more > 0 { format!("{text} and {more} more") } else { text }
}

fn lives(bench: &Bench<'_>, services: &[ServiceItem]) -> String {
    let life = |s: &ServiceItem| {
        let [low, nominal, high] = [s.low, s.nominal, s.high].map(|n| count(&s.meter, n, bench.system));
        format!("{low}, {nominal}, {high} {} ({})", meter_name(&s.meter, bench.system), s.source)
    };
    let mut all: Vec<String> = Vec::new();
    for service in services {
        let words = life(service);
        if !all.contains(&words) {
            all.push(words);
        }
    }
    all.join(" and ")
}

/// "no-go, rod 5; go, 1 2 3 4 6 7 8": the worst first.
fn said(bench: &Bench<'_>, note: &Replaced) -> String {
    let mut of_state: BTreeMap<State, Vec<Option<(Axis, usize)>>> = BTreeMap::new();
    for (place, state) in note.would_say() {
        of_state.entry(state).or_default().push(place);
    }
    let words = of_state.into_iter().map(|(state, places)| {
        let at = bench.places(&places);
        if at.is_empty() { state.word().to_owned() } else { format!("{}, {at}", state.word()) }
    });
    words.collect::<Vec<_>>().join("; ")
}

/// Whether every figure of the old rule is one of the new, so that it says the same.
fn is_alike(note: &Replaced) -> bool {
    let figure = |a: Option<f64>, b: Option<f64>| match (a, b) {
        (Some(a), Some(b)) => same(a, b) || a == b,
        (a, b) => a.is_none() && b.is_none(),
    };
    let window = |a: &Limits, b: &Limits| {
        [(a.never_below, b.never_below), (a.low, b.low), (a.high, b.high), (a.never_above, b.never_above)]
            .into_iter()
            .all(|(a, b)| figure(a, b))
    };
    let (was, now) = &note.lives;
    let life = |a: &ServiceItem, b: &ServiceItem| {
        a.meter == b.meter && same(a.low, b.low) && same(a.nominal, b.nominal) && same(a.high, b.high)
    };
    let windows = note.was.iter().all(|a| note.now.iter().any(|b| b.place == a.place && window(&a.limits, &b.limits)));
    (!note.was.is_empty() || !was.is_empty()) && windows && was.iter().all(|a| now.iter().any(|b| life(a, b)))
}
