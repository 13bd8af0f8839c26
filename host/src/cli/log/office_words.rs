//! Entries of the shop's office in words: dates, days, costs, shelf and money.

use thou_life::entry::What;

/// What such an entry says; nothing of any other.
pub(in crate::cli) fn of(what: &What, event: Option<&str>) -> Vec<String> {
    let name = event.unwrap_or("an event");
    let numbered = |part: &str, serial: &Option<String>| {
        serial.as_ref().map_or_else(|| part.to_owned(), |serial| format!("{part} {serial}"))
    };
    let mut parts = Vec::new();
    match what {
        What::Scheduled { on, last, kind, time_trials, rounds, at } => {
            let days = last.filter(|last| last != on).map_or_else(|| on.to_string(), |last| format!("{on} to {last}"));
            parts.push(format!("{name} is on {days}"));
            parts.extend(kind.clone());
            parts.extend(time_trials.map(|n| format!("{n} time trials")));
            parts.extend(rounds.map(|n| format!("{n} rounds")));
            parts.extend(at.clone());
        }
        What::CalledOff => parts.push(format!("{name} is called off")),
        What::Shelved { part, serial, brought } => {
            parts.push(format!("on the shelf: {}", numbered(part, serial)));
            parts.extend(brought.iter().map(|(meter, run)| format!("with {} on {meter}", run.0)));
        }
        What::OffTheShelf { part, serial } => parts.push(format!("gone from the shelf: {}", numbered(part, serial))),
        What::LeadTime { part, days, away, from } => {
            let days_of = |n: u32| if n == 1 { "1 day".to_owned() } else { format!("{n} days") };
            parts.push(match (days, away) {
                (None, None) => format!("{part}: how long they take is not known any more"),
                (Some(days), _) => format!("{part}: {} to come", days_of(*days)),
                (None, Some(away)) => format!("{part}: {} away when sent out", days_of(*away)),
            });
            parts.extend(away.filter(|_| days.is_some()).map(|n| format!("{} away when sent out", days_of(n))));
            parts.extend(from.as_ref().map(|from| format!("from {from}")));
        }
        What::Priced { part, planned, failure, hour, money } => {
            if let Some(part) = part {
                parts.push(match (planned, failure) {
                    (None, None) => format!("{part}: what they cost is not known any more"),
                    (Some(planned), _) => format!("{part}: planned {planned}"),
                    (None, Some(failure)) => format!("{part}: a failure {failure}"),
                });
                parts.extend(failure.filter(|_| planned.is_some()).map(|f| format!("a failure {f}")));
            }
            parts.extend(hour.map(|hour| format!("an hour of work {hour}")));
            parts.extend(money.as_ref().map(|money| format!("the money is {money}")));
        }
        What::Charged { cost, hours } => {
            parts.extend(cost.map(|c| format!("charged {c}")));
            parts.extend(hours.map(|h| format!("{h} h of work")));
        }
        What::Paid { amount } => parts.push(format!("paid {amount}")),
        What::Budgeted { season, amount } => parts.push(format!("budget of {season}: {amount}")),
        What::Customer { name } => parts.push(format!("the engine of {name}")),
        _ => {}
    }
    parts
}
