//! What an engine's log makes of its services: what is used, what low, nominal and high rest on, and what to look at
//! before any date.

use super::brought;
use super::by_sheet::{BySheet, settled_by};
use super::findings::{LogRead, done_by_readings, spoken};
use super::kept::{self, Kept};
use super::line::{Due, ServiceLine};
use super::pace::Pace;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::{Kind, Manifest, System, factor};
use thou_facts::SheetFacts;
use thou_life::condition::{Condition, ReadingAlert, Urgency};
use thou_life::duty::Intent;
use thou_life::entry::Entry;
use thou_life::events::Happening;
use thou_life::history::{History, PartRun};
use thou_life::item::{CountedService, EngineRecord, ServiceCount};
use thou_life::learn::{Consequence, ShopLives};
use thou_life::log::{Log, Meters};
use thou_life::part::{Fitting, again, fittings};
use thou_life::services::LogServices;
use thou_sheet::Sheet;
use thou_verdict::{ServiceItem, Verdict, WindowItem};

/// Lives of the shop's own parts, by part and meter.
pub type OwnLives = BTreeMap<(String, String), ShopLives>;

/// What the book gives for one engine.
#[derive(Debug, Clone, Copy)]
pub struct Ledger<'a> {
    /// Its log, as it is known on the day of the plan.
    pub history: &'a History,
    /// Lives of the shop's own parts in engines of this use, by part and meter.
    pub own: &'a OwnLives,
    /// The manifests of the packs.
    pub packs: &'a [&'a Manifest],
    /// The reader's units.
    pub system: System,
}

/// What the log says beside the services.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LogFindings {
    /// What to look at before the next pass, the weightiest first.
    pub findings: Vec<ReadingAlert>,
    /// What was counted, in a sentence.
    pub counted: String,
    /// Readings that no line is drawn through, since none of them is marked as the fresh one: by reading, how many places.
    pub no_baseline: BTreeMap<String, usize>,
}

/// Lives of the shop's own parts in engines of one use, from every run of them: those that failed, and those that did
/// not. `uses` has the use of every engine. A part that also ran in an engine of another use is no life of either.
#[must_use]
pub fn own_lives(parts: &[PartRun], usage: &str, uses: &BTreeMap<String, String>) -> OwnLives {
    let mut out = OwnLives::new();
    for part in parts {
        if !part.stretches.iter().all(|s| uses.get(&s.engine).is_some_and(|u| u == usage)) {
            continue;
        }
        for (meter, run) in part.run() {
            let own = out.entry((part.part.clone(), meter)).or_default();
            if part.failed() { own.failed.push(run) } else { own.sound.push(run) }
        }
    }
    out
}

/// Sets a sheet to the day and to what its log has on the meters by then, and puts what the book keeps over it, so that
/// all that is printed of it agrees.
pub fn set(sheet: &mut Sheet, history: &History, as_of: Option<Date>) -> Kept {
    let entries = until(history, as_of);
    let log = Log::new(&entries, &history.start);
    let fresh = log.freshened();
    let mut meters = if fresh == 0 { history.start.clone() } else { Meters::new() };
    for meter in ["passes", "miles", "hours", "events", "pulls"] {
        let run = log.run(meter, fresh, entries.len());
        if run > 0.0 {
            *meters.entry(meter.to_owned()).or_default() += run;
        }
    }
    // a pull is no meter of the sheet's
    meters.remove("pulls");
    sheet.meters = meters;
    sheet.as_of = as_of.or(sheet.as_of);
    kept::set(sheet, history, as_of)
}

fn until(history: &History, as_of: Option<Date>) -> Vec<Entry> {
    history.entries.iter().filter(|e| as_of.is_none_or(|day| e.day <= day)).cloned().collect()
}

/// How fast the engine is run, as far as its log goes on this day.
#[must_use]
pub fn pace(sheet: &Sheet, history: &History, as_of: Date) -> Pace {
    let entries = until(history, Some(as_of));
    Pace::of(sheet, Some(&Log::new(&entries, &history.start)), as_of)
}

/// The services of a verdict as the log has them, and what it says beside.
#[must_use]
pub fn lines(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    verdict: &Verdict,
    ledger: &Ledger<'_>,
) -> (Vec<ServiceLine>, LogFindings) {
    let as_of = sheet.as_of;
    let entries = until(ledger.history, as_of);
    let log = Log::new(&entries, &ledger.history.start);
    let intent = intent(sheet);
    let fittings = fittings(&entries);
    let miles = verdict.services.iter().filter(|s| s.meter == "miles").count();
    let passes = verdict.services.iter().filter(|s| s.meter == "passes").count();
    let meter = if miles > passes { "miles" } else { "passes" };
    // those that have a life for this engine first: a reading tells of their parts
    let live = verdict.services.iter().map(|s| (s.rule.clone(), &s.service));
    let services = LogServices::new(live, ledger.packs);
    let of = LogRead::new(Some((sheet, facts)), &log, &fittings, &services, meter, ledger.system);
    let elsewhere = elsewhere(ledger.history);
    let engine = EngineRecord {
        log: &log,
        intent: &intent,
        fittings: &fittings,
        elsewhere: &elsewhere,
        events: &of.happened,
        lost: &of.lost,
        condition: &of.condition,
        meter,
        own: ledger.own,
        as_of,
        system: ledger.system,
    };
    let run = |meter: &str| Some(ledger.history.start.get(meter).copied().unwrap_or(0.0));
    let lines = verdict.services.iter().map(|s| line(sheet, &verdict.services, run(&s.meter), &engine, s)).collect();
    let mut findings = of.findings(Some((sheet, facts, &verdict.windows)), ledger.system);
    findings.extend(scrapped_again(&entries, &fittings, ledger.history));
    in_order(&mut findings);
    let mut counted = counted(&log, &of.happened, ledger.system);
    counted.push_str(&left_out(&log, meter, &intent, ledger.system));
    (lines, LogFindings { findings, counted, no_baseline: of.condition.no_baseline })
}

/// What a log asks to look at, for whoever writes a line of it: the findings of the plan's page, and what readings without a
/// fresh one of their own were held against, by their entries. `of` is the engine's sheet with the windows on
/// [`super::findings::FACTS`].
#[must_use]
pub fn at_the_log(
    of: Option<(&Sheet, &SheetFacts<'_>, &[WindowItem])>,
    ledger: &Ledger<'_>,
) -> (Vec<ReadingAlert>, BTreeMap<String, String>) {
    let entries = &ledger.history.entries;
    let (log, fittings) = (Log::new(entries, &ledger.history.start), fittings(entries));
    let services = LogServices::new([], ledger.packs);
    let read = LogRead::new(of.map(|(s, f, _)| (s, f)), &log, &fittings, &services, "passes", ledger.system);
    let mut findings = read.findings(of, ledger.system);
    findings.extend(scrapped_again(entries, &fittings, ledger.history));
    in_order(&mut findings);
    (findings, read.condition.against)
}

fn in_order(findings: &mut [ReadingAlert]) {
    findings.sort_by(|a, b| a.weight.cmp(&b.weight).then(b.day.cmp(&a.day)).then_with(|| a.title.cmp(&b.title)));
}

/// What was thrown away and is in again.
fn scrapped_again(entries: &[Entry], fittings: &[Fitting], history: &History) -> Vec<ReadingAlert> {
    let again = again(entries, fittings, &scrapped(history)).into_iter();
    again
        .map(|a| ReadingAlert {
            weight: Urgency::Stop,
            title: format!("{} {}", a.part, a.serial),
            words: format!("{} {}: scrapped on {}, in again since {}", a.part, a.serial, a.scrapped, a.fitted),
            to_do: "Take it out: what was scrapped does not run. If the log is wrong, undo the entry.".to_owned(),
            whose: "this shop's own log".to_owned(),
            day: a.fitted,
            entry: a.entry,
            part: Some(a.part),
        })
        .collect()
}

/// The services of a verdict by the sheet alone: the engine has no log, and its meters are the sheet's.
pub(super) fn lines_by_sheet(sheet: &Sheet, verdict: &Verdict, as_of: Option<Date>) -> Vec<ServiceLine> {
    let engine = EngineRecord {
        log: &Log::new(&[], &Meters::new()),
        intent: &Intent::default(),
        fittings: &[],
        elsewhere: &BTreeMap::new(),
        events: &[],
        lost: &[],
        condition: &Condition::default(),
        meter: "passes",
        own: &OwnLives::new(),
        as_of,
        system: System::Inch,
    };
    // without any meter nothing was run; beside another meter this one is not known
    let unread = sheet.meters.is_empty().then_some(0.0);
    let run = |meter: &str| sheet.meters.get(meter).copied().or(unread);
    verdict.services.iter().map(|s| line(sheet, &verdict.services, run(&s.meter), &engine, s)).collect()
}

/// `run` is what the meter had run before the log's first entry.
fn line(
    sheet: &Sheet,
    services: &[ServiceItem],
    run: Option<f64>,
    engine: &EngineRecord<'_>,
    service: &ServiceItem,
) -> ServiceLine {
    let settled_by = settled_by(services, service);
    let by_sheet = BySheet::of(sheet, service, &settled_by);
    let freshened = engine.log.freshened() > 0;
    let costs = sheet.costs.parts.get(&service.service.part);
    let asked = CountedService {
        rule: &service.rule,
        settled_by: &settled_by,
        part: &service.service.part,
        wears: service.wears.as_deref(),
        read: done_by_readings(sheet, engine.log.entries, &service.service.done_by),
        told_by: &service.service.told_by,
        over_rev: &service.service.over_rev,
        shape: service.service.shape_of_lives(),
        renews: service.service.renews(),
        by_stamp: matches!(service.service.since.as_str(), "made" | "certified"),
        meter: &service.meter,
        pack: [service.low, service.nominal, service.high],
        takes: Consequence::by_word(&service.service.loses),
        by_sheet: if freshened { by_sheet.brought } else { by_sheet.used(run.unwrap_or(0.0)) },
        day_by_sheet: by_sheet.day(sheet),
        costs: costs.and_then(|c| Some([planned_cost(sheet, service)?, c.failure?])),
    };
    let ServiceCount { used, range, basis, life, mut why, serial, since } = engine.reckon(&asked);
    let used = used.filter(|_| run.is_some() || service.meter == "months");
    let from_build = freshened || !by_sheet.done();
    let carried = brought::unsaid(sheet, service).filter(|_| from_build && since.is_none());
    let unsaid: Vec<String> = carried.into_iter().chain(unweighed(engine, service)).collect();
    why.extend(unsaid.iter().cloned());
    let since = since.unwrap_or_else(|| if freshened { "build".to_owned() } else { by_sheet.since() });
    let due = Due::by(used, range);
    let [low, nominal, high] = range;
    let counts = ServiceItem { low, nominal, high, ..service.clone() };
    ServiceLine {
        service: counts,
        pack: asked.pack,
        basis,
        life,
        why,
        unsaid,
        serial,
        since,
        used,
        due,
        when: None,
        dates: None,
    }
}

/// What a planned change costs, its hours of work in it.
pub(super) fn planned_cost(sheet: &Sheet, service: &ServiceItem) -> Option<f64> {
    let part = sheet.costs.parts.get(&service.service.part)?;
    Some(part.planned + sheet.costs.hour.unwrap_or(0.0) * service.service.hours)
}

/// That a pack does not say what hurts its part, where there is a log to weigh.
fn unweighed(engine: &EngineRecord<'_>, service: &ServiceItem) -> Option<String> {
    let said = service.wears.is_some() || service.service.duty.is_some() || !service.service.wears.is_empty();
    let weighed = matches!(service.meter.as_str(), "passes" | "miles") && !engine.log.entries.is_empty();
    (weighed && !said).then(|| {
        let part = &service.service.part;
        format!("its pack does not say what hurts the {part}: by the outing alone, however hard it was")
    })
}

fn stated(sheet: &Sheet, path: &str, kind: &str) -> Option<f64> {
    sheet.figure(path, Kind::by_id(kind)?).filter(|v| v.is_finite() && *v > 0.0)
}

/// What the sheet's intent says of an outing.
fn intent(sheet: &Sheet) -> Intent {
    let speed = |path: &str| stated(sheet, path, "angular-speed");
    let segment = |name: &str| {
        let time = stated(sheet, &format!("intent.duty.{name}.time"), "time")?;
        Some([time, speed(&format!("intent.duty.{name}.speed"))?])
    };
    let power = stated(sheet, "intent.power", "power");
    let adds = stated(sheet, "intent.adder-power", "power").zip(power);
    // the intent's power is with everything that adds to it, so where the sheet has nitrous its pass is with it
    let nitrous = sheet.stated("intent.adder").is_some_and(|(v, _)| v.as_str() == Some("nitrous"));
    let (adder_on, adder_off) = match adds {
        Some((adds, power)) if nitrous && adds < power => (Some(1.0), Some((power - adds) / power)),
        Some((adds, power)) => (Some((power + adds) / power), Some(1.0)),
        None => (None, None),
    };
    let peak = speed("intent.shift-speed").or_else(|| speed("intent.redline"));
    let radius = stated(sheet, "intent.tyre-diameter", "length").map(|d| d / 2.0);
    Intent {
        burnout: segment("burnout"),
        idle: segment("idle"),
        run: segment("run"),
        shut_off: segment("shut-off"),
        peak,
        elapsed: stated(sheet, "intent.elapsed-time", "time"),
        adder_on,
        adder_off,
        pull: speed("intent.torque-speed").zip(peak.or_else(|| speed("intent.power-speed"))).map(|(a, b)| [a, b]),
        road_speed: speed("intent.duty.street.speed"),
        road_full: stated(sheet, "intent.duty.street.full-load", "percent"),
        metres_per_radian: radius
            .zip(stated(sheet, "intent.final-drive", "ratio"))
            .map(|(radius, ratio)| radius / ratio),
    }
}

/// What the parts of this engine ran in others, by number.
fn elsewhere(history: &History) -> BTreeMap<String, Meters> {
    let mut out = BTreeMap::new();
    for (serial, part) in &history.parts {
        let mut all = Meters::new();
        for stretch in part.stretches.iter().filter(|s| s.engine != history.engine) {
            for (meter, run) in &stretch.run {
                *all.entry(meter.clone()).or_default() += run;
            }
        }
        if !all.is_empty() {
            out.insert(serial.clone(), all);
        }
    }
    out
}

/// The day that parts of this engine were scrapped in others, by number.
fn scrapped(history: &History) -> BTreeMap<String, Date> {
    let of = |part: &PartRun| {
        let others = part.stretches.iter().filter(|s| s.engine != history.engine);
        others.filter(|s| s.disposition.as_deref() == Some("scrap")).filter_map(|s| s.removed).max()
    };
    history.parts.iter().filter_map(|(serial, part)| Some((serial.clone(), of(part)?))).collect()
}

/// "118 passes since the freshen: 2 with the adder on, 1 over-rev".
fn counted(log: &Log<'_>, happened: &[Happening], system: System) -> String {
    let fresh = log.freshened();
    let steps = log.steps.get(fresh..).unwrap_or_default();
    let passes: f64 = steps.iter().map(|s| s.passes).sum();
    let adder: f64 = steps.iter().filter(|s| s.outing.adder).map(|s| s.passes).sum();
    let pulls: f64 = steps.iter().map(|s| s.pulls).sum();
    let miles: f64 = steps.iter().map(|s| s.miles).sum();
    let mut parts = Vec::new();
    if passes > 0.0 {
        parts.push(format!("{passes} passes"));
    }
    if adder > 0.0 {
        parts.push(format!("{adder} of them with the adder on"));
    }
    if pulls > 0.0 {
        parts.push(format!("{pulls} pulls on the dyno"));
    }
    if miles > 0.0 {
        let (unit, name) = if system == System::Metric { (1e3, "km") } else { (factor::MILE, "miles") };
        parts.push(format!("{:.0} {name} of road", (miles / unit).floor()));
    }
    let since = happened.iter().filter(|e| e.index >= fresh);
    let mut by_word: BTreeMap<&str, usize> = BTreeMap::new();
    for event in since {
        *by_word.entry(&event.happening).or_default() += 1;
    }
    parts.extend(by_word.into_iter().map(|(word, n)| format!("{n} {}", spoken(word))));
    if parts.is_empty() { "Logged: nothing run.".to_owned() } else { format!("Logged: {}.", parts.join(", ")) }
}

/// What does not count for lives that wear by load, since the sheet does not say enough to weigh it.
fn left_out(log: &Log<'_>, meter: &str, intent: &Intent, system: System) -> String {
    let c = log.counted(meter, log.freshened(), log.steps.len(), intent, Some(&[Vec::new()]));
    let mut parts = Vec::new();
    if c.pulls_left_out > 0.0 {
        parts.push(format!("{} pulls", c.pulls_left_out));
    }
    if c.road_left_out > 0.0 {
        let (unit, name) = if system == System::Metric { (1e3, "km") } else { (factor::MILE, "miles") };
        parts.push(format!("{:.0} {name} of road", (c.road_left_out / unit).floor()));
    }
    if c.passes_left_out > 0.0 {
        parts.push(format!("{} passes", c.passes_left_out));
    }
    let mut out = String::new();
    if !parts.is_empty() {
        out = format!(" Not counted for the lives, for the sheet's duty does not say enough: {}.", parts.join(", "));
    }
    if c.adder_unknown > 0.0 {
        let words = " Passes with the adder on count as plain ones: the sheet has no intent.adder-power.";
        out.push_str(words);
    }
    out
}
