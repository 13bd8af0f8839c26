//! How far a part is good, and what waiting means, in sentences about events: what a shop says over the counter.

use super::bench::Bench;
use super::plan_words::{count, meter_name, named};
use thou_plan::{Due, Plan, ServiceLine, Wait, When};
use thou_sheet::clean;
use thou_text::thousands;

/// A count in words up to twelve.
pub(super) fn in_words(number: usize) -> String {
    let words =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    words.get(number).map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// "one more event", "two more events".
fn more_events(number: usize) -> String {
    format!("{} more event{}", in_words(number), if number == 1 { "" } else { "s" })
}

/// So many of a meter, with its name: "1 pass", "12 months".
pub(super) fn amount(bench: &Bench<'_>, meter: &str, si: f64) -> String {
    let n = thousands(&count(meter, si, bench.system));
    let name = meter_name(meter, bench.system);
    let one = if meter == "passes" { "pass" } else { name.trim_end_matches('s') };
    format!("{n} {}", if n == "1" { one } else { name })
}

/// What has run on a part, or since it was looked at last.
pub(super) fn on_it(bench: &Bench<'_>, line: &ServiceLine) -> String {
    let Some(used) = line.used else { return "not counted".to_owned() };
    let run = amount(bench, &line.service.meter, used);
    if line.looks() || line.service.meter == "months" {
        format!("{run} since the last")
    } else {
        format!("{run} on it")
    }
}

/// How far it is good: to which event, or to about which day.
pub(super) fn good_for(bench: &Bench<'_>, plan: &Plan, line: &ServiceLine) -> String {
    let [_, nominal, end] = match &line.when {
        Some(when) => when.each_ref().map(Some),
        None => [None; 3],
    };
    match line.due {
        Due::Uncounted => {
            format!(
                "not counted: the sheet has no {}, or no day to count from",
                meter_name(&line.service.meter, bench.system)
            )
        }
        Due::Past if line.looks() => "overdue: do it before it runs again".to_owned(),
        Due::Past => "it does not run again with these".to_owned(),
        _ if nominal.is_some_and(|w| w.within) => "between the rounds".to_owned(),
        Due::Now => match end {
            Some(When { through: Some(event), .. }) => format!("due, and good through {event} at the most"),
            Some(When { before: Some(event), .. }) => format!("due before {event}"),
            Some(When { date, .. }) => format!("due, and good to about {date} at the most"),
            None => "due".to_owned(),
        },
        Due::Soon | Due::Later => match nominal {
            Some(When { before: Some(event), through, .. }) => {
                let before = plan.events.iter().position(|e| e.name == *event).unwrap_or(0);
                match through {
                    Some(through) if before > 0 => format!("good for {}, through {through}", more_events(before)),
                    _ => format!("not good for another event: do it before {event}"),
                }
            }
            Some(When { date, .. }) if plan.events.is_empty() => format!("good to about {date}"),
            Some(When { date, .. }) => format!("good past the events ahead, to about {date}"),
            None => {
                let left = line.left().map_or(0.0, |l| l[1].max(0.0));
                format!("good for {} more", amount(bench, &line.service.meter, left))
            }
        },
    }
}

/// Every figure of a life in a sentence: what ran on it, and by when a careful shop, most shops, and everybody has it apart.
pub(super) fn figures(bench: &Bench<'_>, plan: &Plan, line: &ServiceLine) -> String {
    let s = &line.service;
    let number = |si: f64| thousands(&count(&s.meter, si, bench.system));
    format!(
        "{}: {}; a careful shop by {}, plan for {}, {} at the most; {}.",
        super::bench::capital(&named(s)),
        on_it(bench, line),
        number(s.low),
        number(s.nominal),
        amount(bench, &s.meter, s.high),
        good_for(bench, plan, line)
    )
}

/// A chance as a racer counts it: so many in a hundred, or in a thousand where it is under one in a hundred.
pub(super) fn in_100(chance: f64) -> String {
    let thousand = (chance * 1e3).round();
    let hundred = (chance * 1e2).round();
    match (thousand, hundred) {
        (t, _) if t < 1.0 => "less than 1 in 1,000".to_owned(),
        (t, _) if t < 10.0 => format!("{t} in 1,000"),
        (_, h) if h > 99.0 => "more than 99 in 100".to_owned(),
        (_, h) => format!("{h} in 100"),
    }
}

/// Money to the whole, with its thousands apart.
pub(super) fn whole(sum: f64) -> String {
    thousands(&format!("{}", sum.abs().round()))
}

/// What is lost with it.
fn takes(loses: &str) -> &'static str {
    match loses {
        "engine" => "the engine goes with it",
        "power" => "power goes with it",
        _ => "there is a bill for it",
    }
}

/// What it means to run an event on a part first: the chance, what a failure costs, what waiting saves or costs.
pub(super) fn waiting(bench: &Bench<'_>, plan: &Plan, wait: &Wait, event: &str, with_figures: bool) -> Option<String> {
    let line = plan.lines.get(wait.line)?;
    let s = &line.service;
    let money = clean(bench.sheet.costs.money.as_deref().unwrap_or("of the shop's money"), 20);
    let mut words = match wait.chance {
        Some(chance) => {
            format!(
                "{}: {} that it lets go at {event}, and {}",
                s.service.part,
                in_100(chance),
                takes(&s.service.loses)
            )
        }
        None if wait.left[1] < 0.0 => {
            let past = amount(bench, &s.meter, -wait.left[1]);
            format!("{}: {past} past its time when {event} is over", named(s))
        }
        None => format!("{}: still within its time when {event} is over", named(s)),
    };
    if let (Some(cost), Some(part)) = (wait.cost, bench.sheet.costs.parts.get(&s.service.part)) {
        let planned = part.planned + bench.sheet.costs.hour.unwrap_or(0.0) * s.service.hours;
        if let Some(failure) = part.failure {
            words.push_str(&format!("; that costs {} {money}, the change {}", whole(failure), whole(planned)));
        }
        words.push_str(". ");
        words.push_str(&match cost.round() {
            c if c > 0.0 => format!("Waiting costs {} {money} on the average", whole(c)),
            c if c < 0.0 => format!("Waiting saves {} {money} on the average", whole(c)),
            _ => "Waiting comes out even on the average".to_owned(),
        });
    }
    if with_figures {
        let [low, nominal, high] = wait.left.map(|l| {
            let n = count(&s.meter, l.abs(), bench.system);
            if l < 0.0 { format!("{n} past") } else { format!("{n} before") }
        });
        words.push_str(&format!(
            ". After it {low} what a careful shop does, {nominal} the plan, {high} the most, in {}",
            meter_name(&s.meter, bench.system)
        ));
    }
    words.push('.');
    Some(super::bench::capital(&words))
}

#[cfg(test)]
mod tests {
    use super::{in_100, in_words, whole};

    /// 0.0234 is 2.34 in 100; 0.0061 is 6.1 in 1,000; 0.0096 is 9.6 in 1,000, and so 1 in 100.
    #[test]
    fn a_chance_is_so_many_in_a_hundred() {
        let told: Vec<String> = [0.0234, 0.0061, 0.0096, 0.0002, 0.5, 0.999].map(in_100).to_vec();
        assert_eq!(
            told,
            ["2 in 100", "6 in 1,000", "1 in 100", "less than 1 in 1,000", "50 in 100", "more than 99 in 100"]
        );
    }

    #[test]
    fn counts_are_words_up_to_twelve_and_money_has_its_thousands() {
        assert_eq!([1, 12, 13].map(in_words), ["one", "twelve", "13"]);
        assert_eq!([15_000.4, -35.0, 999.6].map(whole), ["15,000", "35", "1,000"]);
    }
}
