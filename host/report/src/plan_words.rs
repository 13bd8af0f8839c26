//! Meters and services as the plan's pages call them.

use std::collections::BTreeMap;
use thou_contract::{System, factor};
use thou_verdict::ServiceItem;

/// A meter's number in its own unit, rounded down: a life is never printed longer than it is.
pub(super) fn count(meter: &str, si: f64, system: System) -> String {
    let unit = match meter {
        "miles" if system == System::Metric => 1e3,
        "miles" => factor::MILE,
        "hours" => 3_600.0,
        "months" => factor::MONTH,
        _ => 1.0,
    };
    format!("{}", (si / unit + 1e-6).floor())
}

/// A meter as the reader counts it.
pub(super) fn meter_name(meter: &str, system: System) -> &str {
    if meter == "miles" && system == System::Metric { "km" } else { meter }
}

/// What the engine has run, meter by meter: "79 passes, 1 hour"; or that it has run nothing.
pub(super) fn run(meters: &BTreeMap<String, f64>, system: System) -> String {
    let of = |meter: &&str| {
        let n = count(meter, *meters.get(*meter)?, system);
        let name = meter_name(meter, system);
        let one = if *meter == "passes" { "pass" } else { name.trim_end_matches('s') };
        Some(format!("{n} {}", if n == "1" { one } else { name }))
    };
    let parts: Vec<String> = ["passes", "miles", "hours", "events"].iter().filter_map(of).collect();
    if parts.is_empty() { "nothing run".to_owned() } else { parts.join(", ") }
}

/// A service by its title, with what is done where the title does not say it.
pub(super) fn named(service: &ServiceItem) -> String {
    let title = service.title.to_lowercase();
    let verbs = [
        "replace",
        "rebuild",
        "measure",
        "look",
        "touch",
        "change",
        "send",
        "cut",
        "set ",
        "crack-test",
        "read ",
        "roll",
        "pressure",
        "leak-down",
    ];
    if verbs.iter().any(|v| title.contains(v)) {
        return title;
    }
    format!("{title}: {}", verb(&service.service.action))
}

fn verb(action: &str) -> &str {
    match action {
        "inspect" => "look at",
        "replace-by-date" => "replace",
        other => other,
    }
}
