//! What a plan for programs says of the season: events, what each life is tied to, what waits, orders.

use super::plan_words::count;
use serde_json::{Map, Value, json};
use thou_contract::System;
use thou_plan::{Chain, Further, Order, Pace, Plan, Rate, ServiceLine, Stop, Supply, When};

fn number(meter: &str, si: f64) -> Value {
    count(meter, si, System::Inch).parse::<f64>().map_or(Value::Null, |n| json!(n))
}

/// When low, nominal and high of a line come.
pub(super) fn when(line: &ServiceLine) -> Value {
    line.when.as_ref().map_or(Value::Null, |all| json!(all.each_ref().map(one)))
}

fn one(when: &When) -> Value {
    json!({
        "date": when.date.to_string(), "before": when.before, "through": when.through, "within": when.within,
        "latest": when.latest.as_ref().map(|(date, before)| json!({ "date": date.to_string(), "before": before })),
    })
}

/// Events ahead, orders, and what the next big stop waits for.
pub(super) fn season(plan: &Plan, out: &mut Map<String, Value>) {
    let events: Vec<Value> = plan
        .events
        .iter()
        .map(|e| {
            json!({ "name": e.name, "first": e.first.to_string(), "last": e.last.to_string(), "fewest": e.fewest,
                    "most": e.most, "known": e.known, "at": e.at })
        })
        .collect();
    out.insert("events".to_owned(), json!(events));
    let again: Vec<Value> = plan
        .again
        .iter()
        .filter_map(|t| {
            let s = &plan.lines.get(t.line)?.service;
            Some(json!({ "rule": s.rule, "meter": s.meter, "turn": t.nth, "date": t.date.to_string(), "before": t.before }))
        })
        .collect();
    out.insert("again".to_owned(), json!(again));
    let orders: Vec<Value> = plan.orders.iter().map(|o| order(plan, o)).collect();
    out.insert("orders".to_owned(), json!(orders));
    out.insert("waits-for".to_owned(), plan.chain.as_ref().map_or(Value::Null, chain));
    out.insert("pace".to_owned(), plan.pace.as_ref().map_or(Value::Null, pace));
}

fn pace(pace: &Pace) -> Value {
    let rate = |meter: &str, rate: &Rate| {
        let logged = rate
            .logged
            .map(|l| json!({ "run": number(meter, l.run), "first": l.first.to_string(), "last": l.last.to_string() }));
        json!({ "intent": rate.intent.map(|i| number(meter, i)), "logged": logged })
    };
    let rest = pace.rest.map(|r| json!({ "after": r.after.to_string(), "until": r.until.to_string() }));
    json!({ "passes": rate("passes", &pace.passes), "miles": rate("miles", &pace.miles), "rest": rest })
}

/// A stop's ties to the events.
pub(super) fn stop(plan: &Plan, stop: &Stop, out: &mut Map<String, Value>) {
    out.insert("before".to_owned(), json!(stop.before));
    out.insert("free-days".to_owned(), json!(stop.free));
    out.insert("days".to_owned(), json!(stop.days()));
    out.insert("now".to_owned(), json!(stop.now));
    out.insert("set-by".to_owned(), json!(plan.lines.get(stop.lead).map(|l| &l.service.rule)));
    out.insert("further".to_owned(), stop.further.as_ref().map_or(Value::Null, |f| further(plan, f)));
}

fn further(plan: &Plan, further: &Further) -> Value {
    let waits: Vec<Value> = further
        .waits
        .iter()
        .filter_map(|w| {
            let line = plan.lines.get(w.line)?;
            let meter = &line.service.meter;
            Some(json!({
                "rule": line.service.rule, "meter": meter, "left": w.left.map(|l| number(meter, l)),
                "loses": line.service.service.loses, "chance": w.chance, "cost": w.cost,
            }))
        })
        .collect();
    json!({ "event": further.event, "passes": further.passes, "waits": waits })
}

fn order(plan: &Plan, order: &Order) -> Value {
    let (how, days) = match &order.supply {
        Supply::Unknown => ("unknown", None),
        Supply::Ordered(days) => ("ordered", Some(*days)),
        Supply::Sent(away) => ("sent-out", Some(away.days)),
    };
    let away = match &order.supply {
        Supply::Sent(away) => json!({
            "free-days": away.free, "misses": away.misses,
            "instead": away.instead.as_ref().map(|(after, before)| json!({ "after": after, "before": before })),
        }),
        _ => Value::Null,
    };
    json!({
        "part": order.part, "rule": plan.lines.get(order.line).map(|l| &l.service.rule),
        "how": how, "days": days, "work-days": order.work, "by": order.by.map(|d| d.to_string()), "late-days": order.late,
        "wanted": order.wanted.as_ref().map(one), "away": away, "on-the-shelf": order.shelf,
        "said-by": order.said.as_ref().map(|s| &s.0), "said": order.said.as_ref().and_then(|s| s.1).map(|d| d.to_string()),
    })
}

fn chain(chain: &Chain) -> Value {
    json!({ "part": chain.part, "days-to-the-bench": chain.lead, "days-of-work": chain.work,
            "begin": chain.begin.map(|d| d.to_string()), "ready": chain.ready.map(|d| d.to_string()),
            "misses": chain.misses, "no-lead-time": chain.unknown })
}
