//! The report for programs, as `schemas/report.schema.json` has it: every value in SI beside the words for a person.

use super::bench::Bench;
use super::plan_words::count;
use super::words::NamedPack;
use super::{fact_windows, plan_json, plan_log, plan_say, words};
use serde_json::{Map, Value, json};
use thou_contract::OPERATIONS;
use thou_plan::Plan;
use thou_sheet::model::Axis;
use thou_verdict::{
    Item, ItemValue, Limits, Miss, Replaced, ServiceItem, Solved, State, Unjudged, Verdict, WindowItem,
};

/// The schema of what this module prints.
pub const SCHEMA: &str = include_str!("../../../schemas/report.schema.json");

fn head(bench: &Bench<'_>, page: &str, packs: &[NamedPack]) -> Map<String, Value> {
    let mut out = Map::new();
    out.insert("format".to_owned(), json!("thou-report-1"));
    out.insert("page".to_owned(), json!(page));
    out.insert("thou".to_owned(), json!(env!("CARGO_PKG_VERSION")));
    out.insert("sheet".to_owned(), json!(bench.sheet.source.name));
    if !bench.sheet.changes.is_empty() {
        let change = |c: &thou_sheet::model::Change| json!({ "field": c.path, "was": c.was, "now": c.now });
        out.insert("what-if".to_owned(), bench.sheet.changes.iter().map(change).collect());
    }
    let engine = bench.sheet.stated("engine.name").map_or(Value::Null, |(v, _)| v.clone());
    out.insert("engine".to_owned(), engine);
    let packs: Vec<Value> = packs
        .iter()
        .map(|p| json!({ "id": p.id, "version": p.version, "built-in": p.built_in, "sha256": p.sha256, "key": p.key }))
        .collect();
    out.insert("packs".to_owned(), json!(packs));
    out.insert("defers".to_owned(), json!(words::DEFERS));
    out
}

/// The check.
#[must_use]
pub fn check(bench: &Bench<'_>, verdict: &Verdict, packs: &[NamedPack], exit: u8) -> Value {
    let mut out = head(bench, "check", packs);
    let counts = verdict.counts();
    let summary: Map<String, Value> =
        State::ALL.iter().map(|s| (s.word().replace(' ', "-"), json!(counts.of(*s)))).collect();
    out.insert("summary".to_owned(), Value::Object(summary));
    out.insert("exit-status".to_owned(), json!(exit));
    out.insert("beside".to_owned(), super::like::json(bench));
    let Unjudged { readings, stated } = &verdict.unjudged;
    out.insert("unjudged".to_owned(), json!({ "readings": readings, "stated": stated }));
    let items: Vec<Value> = verdict.items.iter().map(|i| item(bench, i)).collect();
    out.insert("items".to_owned(), json!(items));
    tail(bench, verdict, &mut out);
    Value::Object(out)
}

/// The spec.
#[must_use]
pub fn spec(bench: &Bench<'_>, verdict: &Verdict, packs: &[NamedPack]) -> Value {
    let mut out = head(bench, "spec", packs);
    let mut operations = Vec::new();
    for operation in OPERATIONS {
        let sets = fact_windows::sets(bench, verdict, operation);
        let facts: Vec<Value> = sets
            .iter()
            .map(|set| {
                let windows: Vec<Value> = set.windows.iter().map(|w| window(bench, set.axis, w)).collect();
                let sizes: Vec<Value> = fact_windows::solved(bench, set).iter().map(|s| size(bench, s)).collect();
                json!({ "fact": set.fact, "kind": bench.kind(set.fact).id(), "axis": set.axis.id(), "windows": windows, "sizes": sizes })
            })
            .collect();
        if !facts.is_empty() {
            operations.push(json!({ "operation": operation, "facts": facts }));
        }
    }
    out.insert("operations".to_owned(), json!(operations));
    tail(bench, verdict, &mut out);
    Value::Object(out)
}

/// The plan.
#[must_use]
pub fn plan(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, packs: &[NamedPack]) -> Value {
    let mut out = head(bench, "plan", packs);
    out.insert("as-of".to_owned(), json!(plan.as_of.map(|d| d.to_string())));
    let number = |meter: &str, si: f64| {
        count(meter, si, thou_contract::System::Inch).parse::<f64>().map_or(Value::Null, |n| json!(n))
    };
    let services: Vec<Value> = plan
        .lines
        .iter()
        .map(|l| {
            let s = &l.service;
            json!({
                "rule": s.rule, "title": s.title, "part": s.service.part, "action": s.service.action,
                "opens": s.service.opens, "loses": s.service.loses, "hours": s.service.hours, "meter": s.meter,
                "low": number(&s.meter, s.low), "nominal": number(&s.meter, s.nominal), "high": number(&s.meter, s.high),
                "used": l.used.map(|u| number(&s.meter, u)), "good-for": plan_say::good_for(bench, plan, l),
                "due": format!("{:?}", l.due).to_lowercase(),
                "dates": l.dates.map(|d| d.map(|d| d.to_string())), "when": plan_json::when(l),
                "because": bench.plain(&s.words, &s.args, s.place),
                "sooner-if": s.service.triggers, "caution": s.service.caution,
                "basis": s.basis, "source": s.source, "serial": l.serial, "life-rests-on": l.basis.word(), "why": l.why,
                "by-the-pack": l.pack.map(|v| number(&s.meter, v)),
            })
        })
        .collect();
    plan_log::json(plan, &mut out);
    plan_log::kept_json(plan, &mut out);
    out.insert("services".to_owned(), json!(services));
    let stops: Vec<Value> = plan
        .stops
        .iter()
        .map(|s| {
            let rules: Vec<&str> =
                s.lines.iter().filter_map(|i| plan.lines.get(*i)).map(|l| l.service.rule.as_str()).collect();
            let mut stop = json!({ "opens": s.opens, "meter": s.meter, "at": number(&s.meter, s.at),
                    "date": s.date.map(|d| d.to_string()), "hours": s.hours, "services": rules });
            if let Some(stop) = stop.as_object_mut() {
                plan_json::stop(plan, s, stop);
            }
            stop
        })
        .collect();
    out.insert("stops".to_owned(), json!(stops));
    plan_json::season(plan, &mut out);
    tail(bench, verdict, &mut out);
    Value::Object(out)
}

/// What is said of a rule that another pack's stands in for.
fn replaced(bench: &Bench<'_>, r: &Replaced) -> Value {
    let axis = r.fact.as_deref().and_then(|f| bench.facts.info(f)).map_or(Axis::One, |i| i.axis);
    let windows = |list: &[WindowItem]| list.iter().map(|w| window(bench, axis, w)).collect::<Vec<_>>();
    let lives = |list: &[ServiceItem]| {
        let life = |s: &ServiceItem| json!({ "rule": s.rule, "meter": s.meter, "low": s.low, "nominal": s.nominal, "high": s.high, "source": s.source });
        list.iter().map(life).collect::<Vec<_>>()
    };
    let by: Vec<Value> = r.by.iter().map(|(rule, title)| json!({ "rule": rule, "title": title })).collect();
    let said = r.would_say().into_iter();
    let said: Vec<Value> = said
        .map(|(at, state)| json!({ "verdict": state.word().replace(' ', "-"), "place": place(bench, at) }))
        .collect();
    json!({
        "rule": r.rule, "title": r.title, "fact": r.fact, "by": by,
        "was": { "windows": windows(&r.was), "lives": lives(&r.lives.0) },
        "now": { "windows": windows(&r.now), "lives": lives(&r.lives.1) },
        "would-say": said, "says": r.says.map(|s| s.word().replace(' ', "-")), "hold": r.hold.word(), "counts-beside": r.counts_beside(),
        "signed": r.signed.as_ref().map(|s| json!({ "by": s.by, "reason": s.reason, "instead": s.instead })),
    })
}

fn tail(bench: &Bench<'_>, verdict: &Verdict, out: &mut Map<String, Value>) {
    let all: Vec<Value> = verdict.replaced.iter().map(|r| replaced(bench, r)).collect();
    out.insert("replaced".to_owned(), json!(all));
    let taken: Vec<Value> =
        verdict.taken.iter().map(|t| json!({ "what": t.what, "value": t.value, "source": t.source })).collect();
    out.insert("taken".to_owned(), json!(taken));
    let faults: Vec<Value> =
        verdict.lost.iter().map(|f| json!({ "pack": f.pack, "origin": f.origin, "message": f.to_string() })).collect();
    out.insert("faults".to_owned(), json!(faults));
}

fn place(bench: &Bench<'_>, place: Option<(Axis, usize)>) -> Value {
    match place {
        Some((axis, _)) => json!({ "axis": axis.id(), "label": bench.label(place) }),
        None => Value::Null,
    }
}

fn limits(l: &Limits) -> Value {
    json!({ "never-below": l.never_below, "low": l.low, "aim": l.aim, "high": l.high, "never-above": l.never_above })
}

fn window(bench: &Bench<'_>, axis: Axis, w: &WindowItem) -> Value {
    json!({
        "rule": w.rule, "title": w.title, "place": place(bench, w.place.filter(|_| axis != Axis::One).map(|p| (axis, p))),
        "limits": limits(&w.limits), "reuse": w.reuse, "whose": w.text.whose, "basis": w.basis,
    })
}

fn size(bench: &Bench<'_>, s: &Solved) -> Value {
    json!({ "fact": s.fact, "place": place(bench, s.place), "now": s.now, "from": s.from, "to": s.to, "aim": s.aim })
}

fn value(v: ItemValue) -> Value {
    let mut out = json!({ "si": v.value, "standard-uncertainty": v.u, "measured": v.measured });
    if let (Some(bound), Some(out)) = (v.bound, out.as_object_mut()) {
        out.insert("bound".to_owned(), json!(bound.id()));
    }
    out
}

fn item(bench: &Bench<'_>, i: &Item) -> Value {
    let at = i.pointer.as_deref().map(|pointer| {
        let span = bench.sheet.source.span(pointer);
        let (line, column) = bench.sheet.source.position(span.start);
        json!({ "pointer": pointer, "line": line, "column": column })
    });
    let accepted = i.accepted.as_ref().map(|a| {
        json!({ "by": a.by, "reason": a.reason, "until": a.until.map_or("next-freshen".to_owned(), |d| d.to_string()) })
    });
    json!({
        "rule": i.rule, "title": i.title, "operation": i.operation, "verdict": i.state.word().replace(' ', "-"),
        "fact": i.fact, "place": place(bench, i.place),
        "value": i.value.map(value),
        "limits": i.limits.as_ref().map(limits), "whose": i.whose, "basis": i.basis,
        "outside": i.miss.map(|(side, by)| json!({ "side": if side == Miss::Low { "low" } else { "high" }, "by": by })),
        "near-edge": i.near_edge,
        "words": bench.words(i, &i.words), "do": words::advice(bench, i), "why": i.why,
        "size": i.advice.as_ref().and_then(|a| a.solved.as_ref()).map(|s| size(bench, s)),
        "stale": i.stale.as_ref().map(|s| json!({ "did": s.did, "when": s.when.to_string(), "read": s.read.to_string(), "now-about": s.now_about })),
        "wants": i.wants, "at": at, "accepted": accepted,
    })
}
