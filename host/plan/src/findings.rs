//! What an engine's log asks to look at before any date: what happened, parts that are gone or broken, and readings against
//! the fresh ones, the sheet's own and the windows of the packs.

use std::collections::{BTreeMap, BTreeSet};
use thou_contract::{Kind, System};
use thou_facts::SheetFacts;
use thou_life::condition::{
    Condition, ConditionReader, ReadingAlert, ReadingPoint, Series, SeriesKey, SheetReading, SheetReadings, Urgency,
    about,
};
use thou_life::entry::{Amount, Entry, READINGS, What, settled};
use thou_life::events::{Happening, RunLimits, Rung, events};
use thou_life::failure::{LostPart, lost};
use thou_life::log::Log;
use thou_life::part::Fitting;
use thou_life::services::LogServices;
use thou_sheet::Sheet;
use thou_sheet::model::{Axis, ReadingSet};
use thou_verdict::{Miss, State, WindowItem, windows_of};

/// A reading of a log, the fact that the packs judge it as, and the sheet's reading that it is held against where the log has
/// no fresh one, with the stages at which that is of the engine as it was handed over.
struct OnSheet {
    reading: &'static str,
    fact: &'static str,
    sheet: Option<(&'static str, &'static [&'static str])>,
}

const RUN: &[&str] = &["after-run"];
const BUILT: &[&str] = &["final", "after-run"];

const fn on(
    reading: &'static str,
    fact: &'static str,
    sheet: Option<(&'static str, &'static [&'static str])>,
) -> OnSheet {
    OnSheet { reading, fact, sheet }
}

const ON_SHEET: [OnSheet; 7] = [
    on("cranking-pressure", "cranking-pressure", Some(("cranking-pressure", RUN))),
    on("leak-down", "leak-down", Some(("leak-down", RUN))),
    on("main-clearance", "main-bearing.clearance", Some(("main-clearance", BUILT))),
    on("oil-pressure-hot", "oil.pressure.at-work", Some(("oil-pressure-hot", RUN))),
    on("oil-temperature", "oil.temperature", None),
    on("rod-clearance", "rod-bearing.clearance", Some(("rod-clearance", BUILT))),
    // loads fall by some percent in the first run, so the one from before it is no fresh one
    on("seat-load", "spring.seat-load", Some(("seat-load-run-in", RUN))),
];

/// The facts that a log's readings are judged as.
pub const FACTS: [&str; 7] = [
    "cranking-pressure",
    "leak-down",
    "main-bearing.clearance",
    "oil.pressure.at-work",
    "oil.temperature",
    "rod-bearing.clearance",
    "spring.seat-load",
];

/// A log as it reads, before anything is counted.
pub(super) struct LogRead<'a> {
    log: &'a Log<'a>,
    services: &'a LogServices<'a>,
    pub(super) condition: Condition,
    pub(super) happened: Vec<Happening>,
    pub(super) lost: Vec<LostPart>,
}

impl<'a> LogRead<'a> {
    pub(super) fn new(
        of: Option<(&Sheet, &SheetFacts<'_>)>,
        log: &'a Log<'a>,
        fittings: &[Fitting],
        services: &'a LogServices<'a>,
        meter: &str,
        system: System,
    ) -> Self {
        let sheet = of.map(|(sheet, facts)| sheet_readings(sheet, facts)).unwrap_or_default();
        let limits = of.map_or_else(RunLimits::default, |(sheet, facts)| run_limits(sheet, facts, log.entries));
        Self {
            log,
            services,
            condition: ConditionReader { log, meter, services, sheet: &sheet, system }.read(),
            happened: events(log.entries, limits),
            lost: lost(log.entries, fittings, services),
        }
    }

    /// All that is to be looked at, in no order.
    pub(super) fn findings(
        &self,
        of: Option<(&Sheet, &SheetFacts<'_>, &[WindowItem])>,
        system: System,
    ) -> Vec<ReadingAlert> {
        let mut all: Vec<ReadingAlert> = self.lost.iter().map(|l| self.of_lost(l)).collect();
        all.extend(self.happened.iter().filter_map(|e| of_event(e, self.services, system)));
        all.extend(self.condition.findings.iter().cloned());
        let Some((sheet, facts, windows)) = of else { return all };
        for (alert, past) in self.by_windows(sheet, facts, windows, system) {
            match all.iter_mut().find(|a| a.entry == alert.entry) {
                // one reading, one line: what it moved by and what it is past
                Some(told) => {
                    told.words = format!("{}; {past} ({})", told.words.trim_end_matches('.'), alert.whose);
                    if alert.weight < told.weight {
                        told.to_do = alert.to_do;
                        told.whose = alert.whose;
                        told.weight = alert.weight;
                    }
                }
                None => {
                    let against =
                        self.condition.against.get(&alert.entry).map(|w| format!("; {w}")).unwrap_or_default();
                    all.push(ReadingAlert { words: format!("{}{against}", alert.words), ..alert });
                }
            }
        }
        all
    }

    fn of_lost(&self, lost: &LostPart) -> ReadingAlert {
        let passes = self.log.run("passes", lost.index, self.log.steps.len());
        let run = if passes > 0.0 { format!(", and {passes} passes are logged since") } else { String::new() };
        let how = lost.because.as_deref().unwrap_or_default();
        let reach = if lost.failed { self.services.reach(&lost.part, how) } else { Vec::new() };
        let whose = if reach.is_empty() { "this shop's own log" } else { "common practice, no source" };
        let to_do = if lost.failed {
            let looks = if reach.is_empty() {
                "Look at all that it touched and all that its pieces can have reached.".to_owned()
            } else {
                reach.join(" ")
            };
            format!("It does not run before the next is in, or this is settled. {looks}")
        } else if lost.stops() {
            "It does not run before the next is in: log it as fitted, or write down as settled what is.".to_owned()
        } else {
            "Log what is in as fitted, or write down as settled what is.".to_owned()
        };
        ReadingAlert {
            weight: if lost.stops() { Urgency::Stop } else { Urgency::Look },
            title: lost.name(),
            words: format!("{}{run}", lost.what_became()),
            to_do,
            whose: whose.to_owned(),
            day: lost.day,
            entry: lost.entry.clone(),
            part: Some(lost.part.clone()),
        }
    }

    /// Last readings, each with what it is past, against the windows that the check holds the sheet's against. Oil pressure that was lost once is told
    /// until it is settled, whatever the next run read.
    fn by_windows(
        &self,
        sheet: &Sheet,
        facts: &SheetFacts<'_>,
        windows: &[WindowItem],
        system: System,
    ) -> Vec<(ReadingAlert, String)> {
        let settled = settled(self.log.entries);
        let mut out = Vec::new();
        for series in &self.condition.series {
            let Some(on) = ON_SHEET.iter().find(|o| o.reading == series.key.reading) else { continue };
            if on.reading == "oil-pressure-hot" && !at_work(series, facts) {
                continue;
            }
            let Some(place) = place_of(sheet, series) else { continue };
            let last = series.points.len().saturating_sub(1);
            for (at, point) in series.points.iter().enumerate().filter(|(_, p)| !settled.contains(p.entry.as_str())) {
                let sticks = on.reading == "oil-pressure-hot";
                let alerts = windows_of(sheet, facts, windows, on.fact, place)
                    .filter_map(|w| self.against(w, series, point, system))
                    .filter(|(a, _)| at == last || sticks && a.weight == Urgency::Stop);
                out.extend(alerts.min_by_key(|(a, _)| a.weight));
            }
        }
        out
    }

    fn against(
        &self,
        window: &WindowItem,
        series: &Series,
        point: &ReadingPoint,
        system: System,
    ) -> Option<(ReadingAlert, String)> {
        let judged = window.holds(point.value);
        let weight = match judged.state {
            State::NoGo => Urgency::Stop,
            State::Look => Urgency::Look,
            _ => return None,
        };
        let (side, _) = judged.miss?;
        let limits = &window.limits;
        let (limit, word, remedy) = match (side, judged.by_never) {
            (Miss::Low, true) => (limits.never_below, "under", &window.text.low),
            (Miss::Low, false) => (limits.low, "under", &window.text.low),
            (Miss::High, true) => (limits.never_above, "over", &window.text.high),
            (Miss::High, false) => (limits.high, "over", &window.text.high),
        };
        let reading = READINGS.iter().find(|r| r.name == series.key.reading)?;
        let kind = Kind::by_id(reading.kind)?;
        let text = |si: f64| kind.text(si, system);
        let never = if judged.by_never { ", past which none runs" } else { "" };
        let past = format!("{word} {}{never}", text(limit?));
        let whose = if judged.by_never { &window.hold_whose } else { &window.text.whose };
        let mut to_do = match remedy.as_ref().filter(|r| r.solve.is_none()) {
            Some(remedy) => remedy.words.replace("{place}", series.key.place.as_deref().unwrap_or_default()),
            None => "Read it again; then find out why before it runs.".to_owned(),
        };
        for (name, limit) in [("{low}", limits.low), ("{aim}", limits.aim), ("{high}", limits.high)] {
            to_do = to_do.replace(name, &limit.map(text).unwrap_or_default());
        }
        let stop = if weight == Urgency::Stop { "It does not run like this. " } else { "" };
        let alert = ReadingAlert {
            weight,
            title: untested(series),
            words: format!("{}: {}, {past}", about(&series.key), text(point.value)),
            to_do: format!("{stop}{to_do}"),
            whose: if whose.is_empty() { window.basis.word().to_owned() } else { whose.clone() },
            day: point.day,
            entry: point.entry.clone(),
            part: self.services.told(&series.key.reading).map(str::to_owned),
        };
        Some((alert, past))
    }
}

/// What a series is of, without its tester.
fn untested(series: &Series) -> String {
    about(&SeriesKey { gauge: None, state: None, ..series.key.clone() })
}

/// Whether oil pressure was read hot and at working speed, as far as the log says.
fn at_work(series: &Series, facts: &SheetFacts<'_>) -> bool {
    let Some(state) = series.key.state.as_deref() else { return true };
    let (word, speed) = state.split_once(',').map_or((state, None), |(word, speed)| (word, Some(speed)));
    let speed = speed.and_then(|s| Amount(s.trim().to_owned()).si("angular-speed").ok());
    word.trim() != "cold" && speed.zip(working_speed(facts)).is_none_or(|(speed, at)| speed >= WORKING * at)
}

/// From this share of the working speed on, oil pressure is at working speed. Common practice, no source.
const WORKING: f64 = 0.9;

fn working_speed(facts: &SheetFacts<'_>) -> Option<f64> {
    facts.get("working-speed")?.first()?.as_ref().ok().map(|n| n.value)
}

/// The index of a series' place in this engine.
fn place_of(sheet: &Sheet, series: &Series) -> Option<usize> {
    let reading = READINGS.iter().find(|r| r.name == series.key.reading)?;
    match Axis::by_id(reading.axis)? {
        Axis::One => Some(0),
        axis => sheet.places.labels(axis).iter().position(|label| Some(label) == series.key.place.as_ref()),
    }
}

/// What the sheet has of the engine as it was handed over.
fn sheet_readings(sheet: &Sheet, facts: &SheetFacts<'_>) -> SheetReadings {
    let mut out = BTreeMap::new();
    for on in &ON_SHEET {
        let Some((key, stages)) = on.sheet else { continue };
        let Some(reading) = READINGS.iter().find(|r| r.name == on.reading) else { continue };
        let Some(axis) = Axis::by_id(reading.axis) else { continue };
        let handed_over = |s: &&ReadingSet| s.stage.as_deref().is_some_and(|stage| stages.contains(&stage));
        let Some(set) = sheet.readings.get(key).and_then(|sets| sets.iter().rev().find(handed_over)) else { continue };
        let stage = set.stage.as_deref().unwrap_or_default();
        let when = set.when.map(|day| format!(" of {day}")).unwrap_or_default();
        let speed = (on.reading == "oil-pressure-hot").then(|| working_speed(facts)).flatten();
        for (index, row) in set.rows.iter().enumerate() {
            let place = if axis == Axis::One { None } else { sheet.places.labels(axis).get(index).cloned() };
            let values: Vec<f64> = row.iter().filter_map(|r| r.value).collect();
            if values.is_empty() {
                continue;
            }
            let value = values.iter().sum::<f64>() / values.len() as f64;
            let called = format!("the sheet's {stage} reading{when}");
            out.insert((on.reading.to_owned(), place), SheetReading { value, called, gauge: set.gauge.clone(), speed });
        }
    }
    out
}

/// The entry that completed a service's readings at every place of the engine in one event or on one day, the last time.
pub(super) fn done_by_readings(sheet: &Sheet, entries: &[Entry], done_by: &[String]) -> Option<usize> {
    let mut read: BTreeMap<(&str, String), BTreeSet<&str>> = BTreeMap::new();
    let mut done = None;
    for (index, entry) in entries.iter().enumerate() {
        let What::Read { reading, place, .. } = &entry.what else { continue };
        if !done_by.contains(reading) {
            continue;
        }
        let axis = READINGS.iter().find(|r| r.name == reading).and_then(|r| Axis::by_id(r.axis));
        let Some(wanted) = axis.map(|axis| sheet.places.count(axis)).filter(|n| *n > 0) else { continue };
        let when = entry.event.clone().unwrap_or_else(|| entry.day.to_string());
        let places = read.entry((reading.as_str(), when)).or_default();
        places.insert(place.as_deref().unwrap_or_default());
        if places.len() >= wanted {
            done = Some(index);
        }
    }
    done
}

/// What outings are held against. Where valves float and rods' joints open is asked for only where something happened or
/// went past what the engine was planned to.
fn run_limits(sheet: &Sheet, facts: &SheetFacts<'_>, entries: &[Entry]) -> RunLimits {
    let figure = |path: &str, kind: &str| sheet.figure(path, Kind::by_id(kind)?).filter(|v| v.is_finite() && *v > 0.0);
    let speed = |path: &str| figure(path, "angular-speed");
    let limit = speed("intent.limiter").or_else(|| speed("intent.shift-speed")).or_else(|| speed("intent.redline"));
    let past = |peak: &Amount| peak.si("angular-speed").is_ok_and(|peak| limit.is_none_or(|limit| peak > limit));
    let happened = entries.iter().any(|e| match &e.what {
        What::Happened { .. } => true,
        What::Ran { peak_speed: Some(peak), .. } => past(peak),
        What::Read { reading, value, .. } => reading == "peak-speed" && past(value),
        _ => false,
    });
    let least = |fact: &str| {
        let cells = happened.then(|| facts.get(fact)).flatten().unwrap_or_default();
        cells.iter().filter_map(|c| c.as_ref().ok()).map(|n| n.value).filter(|v| v.is_finite()).reduce(f64::min)
    };
    // a model that puts it under the limiter is told by the check, and would make an over-rev of every pass
    let float = least("valve.float-speed").filter(|f| limit.is_none_or(|l| *f > l));
    let read = entries.iter().any(|e| matches!(&e.what, What::Read { reading, .. } if reading == "lambda"));
    let lambda = figure("fuel.lambda", "ratio").or_else(|| read.then(|| usual_lambda(facts)).flatten());
    RunLimits { limit, float, clamp: least("rod-bolt.separation-speed"), lambda }
}

/// The leanest that is usual at full power with this fuel and adder, where the sheet has no mixture of its own.
fn usual_lambda(facts: &SheetFacts<'_>) -> Option<f64> {
    facts.one("fuel.lambda")?;
    facts.defaults_taken().into_iter().find(|d| d.fact == "fuel.lambda").map(|d| d.high)
}

/// An event that nobody has settled, as something to look at.
fn of_event(event: &Happening, services: &LogServices<'_>, system: System) -> Option<ReadingAlert> {
    if !event.open() {
        return None;
    }
    let happening = spoken(&event.happening);
    let rpm = |speed: f64| Kind::by_id("angular-speed").map(|k| k.text(speed, system)).unwrap_or_default();
    let speed = event.speed.map(|s| format!(" to {}", rpm(s))).unwrap_or_default();
    let over = how_far(event, system);
    let time = event.time.map(|t| format!(", {t:.1} s")).unwrap_or_default();
    let place = event.place.as_ref().map(|p| format!(", cylinder {p}")).unwrap_or_default();
    let failed = |(part, how): (&str, &str)| services.reach(part, how);
    let reach = thou_life::events::failures(&event.happening).flat_map(failed);
    Some(ReadingAlert {
        weight: if event.rung == Rung::Out { Urgency::Stop } else { Urgency::Look },
        title: happening.clone(),
        words: format!("{happening}{speed}{over}{time}{place} on {}{}", event.day, read_of(event, system)),
        to_do: std::iter::once(event.to_do.to_owned()).chain(reach).collect::<Vec<_>>().join(" "),
        whose: event.whose().to_owned(),
        day: event.day,
        entry: event.entry.clone(),
        part: None,
    })
}

#[cfg(test)]
#[path = "findings_tests.rs"]
mod tests;

/// What told of an event, where nobody wrote it down as one: ", by lambda 0.98, 0.89 is the most".
fn read_of(event: &Happening, system: System) -> String {
    let Some((reading, value, limit)) = event.read else { return String::new() };
    let kind = READINGS.iter().find(|r| r.name == reading).and_then(|r| Kind::by_id(r.kind));
    let text = |si: f64| kind.map(|k| k.text(si, system)).unwrap_or_default();
    match reading {
        "peak-speed" => ", by the peak that was logged".to_owned(),
        _ => format!(", by {} {}, {} is the most", reading.replace('-', " "), text(value), text(limit)),
    }
}

/// How far an event went: over the limiter, and past the joint.
fn how_far(event: &Happening, system: System) -> String {
    let rpm = |speed: f64| Kind::by_id("angular-speed").map(|k| k.text(speed, system)).unwrap_or_default();
    let over = event.over.filter(|o| *o > 0.0).map(|o| format!(", {:.1} % over", o * 100.0));
    let opened = event.opened.map(|s| format!(", past {} at which the rods' joints open", rpm(s)));
    over.unwrap_or_default() + &opened.unwrap_or_default()
}

/// A happening as it is spoken of.
pub(super) fn spoken(word: &str) -> String {
    if word == "over-rev" { word.to_owned() } else { word.replace('-', " ") }
}
