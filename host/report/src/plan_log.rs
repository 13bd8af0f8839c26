//! What an engine's log adds to the plan's page: what to look at before any date, and why each life is counted so.

use super::bench::{Bench, wrap};
use super::plan_words::count;
use serde_json::{Map, Value, json};
use std::fmt::Write as _;
use thou_life::condition::{ReadingAlert, Urgency};
use thou_plan::kept::KeptItem;
use thou_plan::{Due, LifeBasis, Plan, ServiceLine};

/// What was counted, in a sentence under the meters.
pub(super) fn counted(plan: &Plan, out: &mut String) {
    if let Some(log) = &plan.log {
        out.push_str(&wrap(&log.counted, "", "  "));
    }
}

/// What to look at, before any date.
pub(super) fn findings(plan: &Plan, out: &mut String) {
    let Some(log) = &plan.log else { return };
    let of = |weight: Urgency| -> Vec<&ReadingAlert> { log.findings.iter().filter(|f| f.weight == weight).collect() };
    for (weight, heading) in [
        (Urgency::Stop, "IT DOES NOT RUN BEFORE THIS IS SETTLED"),
        (Urgency::Look, "LOOK BEFORE THE NEXT PASS OR DRIVE"),
        (Urgency::Note, "WORTH KNOWING"),
    ] {
        let these = of(weight);
        if these.is_empty() {
            continue;
        }
        let _ = writeln!(out, "\n{heading}");
        for finding in these {
            out.push_str(&wrap(&format!("{}.", finding.words.trim_end_matches('.')), "  ", "    "));
            out.push_str(&wrap(&finding.to_do, "      ", "      "));
            out.push_str(&wrap(&format!("({}; entry {})", finding.whose, finding.entry), "      ", "      "));
        }
    }
    if !log.findings.is_empty() {
        out.push_str(&wrap("Write down what was found, as settled: the entry is named with each.", "  ", "  "));
    }
    if !log.no_baseline.is_empty() {
        let list: Vec<String> =
            log.no_baseline.iter().map(|(reading, n)| format!("{} ({n})", reading.replace('-', " "))).collect();
        let words =
            format!("\nNo line is drawn through {}: none of its readings is marked as the fresh one.", list.join(", "));
        out.push_str(words.get(..1).unwrap_or_default());
        out.push_str(&wrap(words.trim_start(), "", "  "));
    }
}

/// What to look at before the next pass, to be ticked, in so many lines; what is left over is named.
pub(super) fn to_tick(plan: &Plan, room: usize) -> String {
    let Some(log) = &plan.log else { return String::new() };
    let mut asked: Vec<&ReadingAlert> = log.findings.iter().filter(|f| f.weight < Urgency::Note).collect();
    if asked.is_empty() {
        return String::new();
    }
    asked.sort_by_key(|f| f.weight);
    let row = |finding: &&ReadingAlert| {
        let first = if finding.weight == Urgency::Stop { "It does not run before this is settled: " } else { "" };
        wrap(&format!("{first}{}. {}", finding.words.trim_end_matches('.'), finding.to_do), "[ ] ", "      ")
    };
    let rows: Vec<String> = asked.iter().map(row).collect();
    let mut out = "\nBEFORE THE NEXT PASS OR DRIVE\n".to_owned();
    // what does not fit is named all the same
    let named = |from: usize| -> String {
        let titles: Vec<&str> = asked.iter().skip(from).map(|f| f.title.as_str()).collect();
        if titles.is_empty() {
            String::new()
        } else {
            wrap(&format!("and, in the plan: {}", titles.join("; ")), "[ ] ", "      ")
        }
    };
    let lines = |text: &str| text.lines().count();
    let fits = |shown: &usize| {
        let full: usize = rows.iter().take(*shown).map(|r| lines(r)).sum();
        full + lines(&named(*shown)) <= room
    };
    let shown = (0..=rows.len()).rev().find(fits).unwrap_or(0);
    out.extend(rows.iter().take(shown).cloned());
    out.push_str(&named(shown));
    out
}

/// Why nothing is left of a part, where something happened that ended it: its count says nothing then.
pub(super) fn ended(line: &ServiceLine) -> Option<&str> {
    let [low, high] = [line.service.low, line.service.high];
    let ended = line.basis == LifeBasis::Event && line.due == Due::Past && low >= high;
    line.why.last().map(String::as_str).filter(|_| ended)
}

/// One thing that the book keeps over the sheet: what holds, what the sheet has, and whose word it is.
#[must_use]
pub fn kept_words(item: &KeptItem) -> String {
    let sheet = item.sheet.as_ref().map_or_else(|| "not in the sheet".to_owned(), |s| format!("the sheet: {s}"));
    let whose = item.by.as_ref().map(|by| format!(", {by}")).unwrap_or_default();
    let shop = if item.of_the_shop { ", for the whole shop" } else { "" };
    format!("{}: {} ({sheet}){shop}{whose}, {}", item.name, item.now, item.day)
}

/// What was taken from the book and what from the sheet; nothing where the book keeps nothing over it.
pub(super) fn kept(plan: &Plan, out: &mut String) {
    if plan.kept.items.is_empty() {
        return;
    }
    out.push_str("\nBY THE SHOP'S BOOK, OVER THE SHEET\n");
    for item in &plan.kept.items {
        out.push_str(&wrap(&format!("{}.", kept_words(item)), "  ", "    "));
    }
    out.push_str(&wrap("All else of dates, days, costs and shelf is the sheet's.", "  ", "  "));
}

/// The same for programs.
pub(super) fn kept_json(plan: &Plan, out: &mut Map<String, Value>) {
    let items: Vec<Value> = plan
        .kept
        .items
        .iter()
        .map(|i| {
            json!({ "kind": i.kind.word(), "name": i.name, "now": i.now, "sheet": i.sheet, "of-the-shop": i.of_the_shop,
                    "by": i.by, "day": i.day.to_string(), "entry": i.entry })
        })
        .collect();
    out.insert("kept".to_owned(), json!(items));
}

/// Why a line is counted so, under its row.
pub(super) fn why(bench: &Bench<'_>, line: &ServiceLine, out: &mut String) {
    for sentence in &line.why {
        out.push_str(&wrap(sentence, "      ", "        "));
    }
    if matches!(line.basis, LifeBasis::Condition | LifeBasis::Event) {
        let [low, nominal, high] = line.pack.map(|v| count(&line.service.meter, v, bench.system));
        out.push_str(&wrap(&format!("by count alone {low}, {nominal}, {high}"), "      ", "        "));
    }
}

/// What to look at, for programs; nothing where there is no log.
pub(super) fn json(plan: &Plan, out: &mut Map<String, Value>) {
    let Some(log) = &plan.log else { return };
    let findings: Vec<Value> = log
        .findings
        .iter()
        .map(|f| {
            let weight = match f.weight {
                Urgency::Stop => "stop",
                Urgency::Look => "look",
                Urgency::Note => "note",
            };
            json!({
                "weight": weight, "title": f.title, "words": f.words, "to-do": f.to_do, "whose": f.whose,
                "day": f.day.to_string(), "entry": f.entry, "part": f.part,
            })
        })
        .collect();
    out.insert("findings".to_owned(), json!(findings));
}
