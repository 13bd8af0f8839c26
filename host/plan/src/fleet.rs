//! Every engine of the shop side by side: what keeps one from running, what is due and what has to be ordered until a day,
//! the most pressing engine first; and one list of orders over all of them.

use super::orders::Supply;
use super::stops::Stop;
use super::{Due, Order, Plan, ServiceLine};
use jiff::Span;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_life::condition::{ReadingAlert, Urgency};

/// Days ahead that the shop's page looks, where nobody says how many: a set of pistons or rods made to order takes six to
/// eight weeks. Common practice, no source.
pub const WITHIN: i64 = 60;

/// One engine with its plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlannedEngine {
    /// Its name in the book.
    pub name: String,
    /// What it is for.
    pub usage: String,
    /// Parts whose stamp is past, and those whose stamp ends, each with its last good day.
    pub stamps: Vec<(String, Date)>,
    /// The plan.
    pub plan: Plan,
}

/// How pressing an engine is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pressing {
    /// It does not run before something is done.
    Stands,
    /// Something is looked at before the next pass.
    Look,
    /// Something is due, or has to be ordered, until the day.
    Due,
    /// Nothing until the day.
    Nothing,
}

impl Pressing {
    /// As a file for programs has it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Stands => "does-not-run",
            Self::Look => "look",
            Self::Due => "due",
            Self::Nothing => "nothing-due",
        }
    }
}

/// What one engine comes to until the day.
#[derive(Debug, Clone, PartialEq)]
pub struct FleetRow {
    /// Its place among the engines that were given.
    pub engine: usize,
    /// How pressing it is.
    pub pressing: Pressing,
    /// Findings of its log that keep it from running.
    pub stands: Vec<ReadingAlert>,
    /// Indices of lines that are past their high and do not only look.
    pub past: Vec<usize>,
    /// Parts whose stamp is past.
    pub lapsed: Vec<String>,
    /// Parts whose stamp ends by the day, with the last good one.
    pub ends: Vec<(String, Date)>,
    /// Findings that ask for a look.
    pub looks: Vec<ReadingAlert>,
    /// Indices of lines that only look and are past their high.
    pub past_looks: Vec<usize>,
    /// Indices of stops that are due already or come by the day.
    pub stops: Vec<usize>,
    /// What of the list of orders is for it, the first day first.
    pub orders: Vec<FleetPart>,
}

/// A part that one engine asks for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FleetPart {
    /// The last day to order it or to send it out.
    pub by: Date,
    /// Whether it is sent out.
    pub sent: bool,
    /// The part.
    pub part: String,
    /// Who it comes from or goes to; empty where nobody said.
    pub from: String,
    /// The event that it has to be in for.
    pub before: Option<String>,
    /// What of it lies on the shelf and is for a more pressing engine.
    pub taken: Option<String>,
}

/// The shop on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Fleet {
    /// The day up to which it looks.
    pub until: Option<Date>,
    /// The engines, the most pressing first.
    pub rows: Vec<FleetRow>,
    /// What has to be ordered or sent out by the day, by who it comes from, then by day, part and engine.
    pub orders: Vec<(FleetPart, String)>,
    /// Parts of stops by the day whose days nobody has said: part and engine.
    pub unknown: Vec<(String, String)>,
    /// What the shop's shelf gives to whom: part, number and engine.
    pub shelf: Vec<(String, String, String)>,
}

/// The shop's engines until so many days after a day.
#[must_use]
pub fn fleet(engines: &[PlannedEngine], as_of: Option<Date>, within: i64) -> Fleet {
    let until = as_of.and_then(|day| day.checked_add(Span::new().days(within)).ok());
    let mut rows: Vec<FleetRow> = engines.iter().enumerate().map(|(at, e)| row(at, e, as_of, until)).collect();
    let key = |row: &FleetRow| {
        let engine = engines.get(row.engine);
        let event = engine.and_then(|e| e.plan.events.first()).map(|e| e.first);
        let stop = engine.and_then(|e| row.stops.iter().filter_map(|i| e.plan.stops.get(*i)?.date).min());
        let order = row.orders.first().map(|o| o.by);
        let day = match row.pressing {
            Pressing::Stands | Pressing::Look => event,
            Pressing::Due => stop.into_iter().chain(order).min(),
            Pressing::Nothing => event,
        };
        (row.pressing, day.is_none(), day, engine.map(|e| e.name.clone()))
    };
    rows.sort_by_cached_key(key);
    let shelf = share(engines, &mut rows, until);
    // what was taken off the shelf by another can make an engine's order the first
    rows.sort_by_cached_key(key);
    let name = |row: &FleetRow| engines.get(row.engine).map(|e| e.name.clone()).unwrap_or_default();
    let mut orders: Vec<(FleetPart, String)> =
        rows.iter().flat_map(|row| row.orders.iter().map(|o| (o.clone(), name(row)))).collect();
    let mut first: BTreeMap<String, Date> = BTreeMap::new();
    for (order, _) in &orders {
        let day = first.entry(order.from.clone()).or_insert(order.by);
        *day = (*day).min(order.by);
    }
    // who has to be called first stands first; who is not known stands last
    orders.sort_by_cached_key(|(o, engine)| {
        (o.from.is_empty(), first.get(&o.from).copied(), o.from.clone(), o.by, o.sent, o.part.clone(), engine.clone())
    });
    let unknown = rows
        .iter()
        .filter_map(|row| Some((row, engines.get(row.engine)?)))
        .flat_map(|(row, e)| unknown(row, &e.plan).into_iter().map(|part| (part, e.name.clone())))
        .collect();
    Fleet { until, rows, orders, unknown, shelf }
}

fn row(at: usize, engine: &PlannedEngine, as_of: Option<Date>, until: Option<Date>) -> FleetRow {
    let plan = &engine.plan;
    let found = |weight: Urgency| -> Vec<ReadingAlert> {
        plan.log.iter().flat_map(|l| &l.findings).filter(|f| f.weight == weight).cloned().collect()
    };
    let past = |looks: bool| -> Vec<usize> {
        let of = |(_, l): &(usize, &ServiceLine)| l.due == Due::Past && l.looks() == looks;
        plan.lines.iter().enumerate().filter(of).map(|(i, _)| i).collect()
    };
    let by_then = |day: Date| until.is_some_and(|until| day <= until);
    let due = |s: &Stop| s.now || s.date.is_some_and(by_then);
    let stops: Vec<usize> = plan.stops.iter().enumerate().filter(|(_, s)| due(s)).map(|(i, _)| i).collect();
    let lapsed = |day: Date| as_of.is_some_and(|today| day < today);
    let mut orders: Vec<FleetPart> = plan.orders.iter().filter_map(|o| part(o, o.by)).collect();
    orders.retain(|o| by_then(o.by));
    orders.sort();
    let mut row = FleetRow {
        engine: at,
        pressing: Pressing::Nothing,
        stands: found(Urgency::Stop),
        past: past(false),
        lapsed: engine.stamps.iter().filter(|(_, d)| lapsed(*d)).map(|(p, _)| p.clone()).collect(),
        ends: engine.stamps.iter().filter(|(_, d)| !lapsed(*d) && by_then(*d)).cloned().collect(),
        looks: found(Urgency::Look),
        past_looks: past(true),
        stops,
        orders,
    };
    row.pressing = pressing(&row);
    row
}

fn pressing(row: &FleetRow) -> Pressing {
    match row {
        r if !(r.stands.is_empty() && r.past.is_empty() && r.lapsed.is_empty()) => Pressing::Stands,
        r if !(r.looks.is_empty() && r.past_looks.is_empty()) => Pressing::Look,
        r if !(r.stops.is_empty() && r.orders.is_empty() && r.ends.is_empty()) => Pressing::Due,
        _ => Pressing::Nothing,
    }
}

fn part(order: &Order, by: Option<Date>) -> Option<FleetPart> {
    Some(FleetPart {
        by: by?,
        sent: matches!(order.supply, Supply::Sent(_)),
        part: order.part.clone(),
        from: order.said.as_ref().map(|s| s.0.clone()).unwrap_or_default(),
        before: order.wanted.as_ref().and_then(|w| w.before.clone()),
        taken: None,
    })
}

/// What the shop's shelf has goes to the most pressing engine that asks for it by the day, one engine a set; the others order.
fn share(engines: &[PlannedEngine], rows: &mut [FleetRow], until: Option<Date>) -> Vec<(String, String, String)> {
    let by_then = |day: Option<Date>| day.zip(until).is_some_and(|(day, until)| day <= until);
    let mut taken: BTreeMap<String, usize> = BTreeMap::new();
    let mut given = Vec::new();
    for row in rows.iter_mut() {
        let Some(engine) = engines.get(row.engine) else { continue };
        for order in engine.plan.orders.iter().filter(|o| !o.shelf.is_empty()) {
            let numbers: Vec<&String> =
                engine.plan.kept.shared.iter().filter(|(part, _)| *part == order.part).map(|(_, n)| n).collect();
            let wanted = order.wanted.as_ref().map(|w| w.date);
            let asks = by_then(wanted) || by_then(order.by_without_shelf);
            // its own shelf is nobody else's
            if !asks || order.shelf.len() > numbers.len() {
                continue;
            }
            let so_far = taken.entry(order.part.clone()).or_default();
            match numbers.get(*so_far) {
                Some(number) => {
                    *so_far += 1;
                    given.push((order.part.clone(), (*number).clone(), engine.name.clone()));
                }
                None => {
                    let number = numbers.last().map(|n| (*n).clone());
                    let more = part(order, order.by_without_shelf).filter(|o| by_then(Some(o.by)));
                    row.orders.extend(more.map(|o| FleetPart { taken: number, ..o }));
                }
            }
        }
        row.orders.sort();
        row.pressing = pressing(row);
    }
    given
}

/// Parts of an engine's stops by the day that nobody has said the days of.
fn unknown(row: &FleetRow, plan: &Plan) -> Vec<String> {
    let in_stop = |order: &&Order| {
        let stops = row.stops.iter().filter_map(|i| plan.stops.get(*i));
        plan.lines.get(order.line).is_some_and(|l| stops.clone().any(|s| s.does(&plan.lines, l)))
    };
    let unsaid = plan.orders.iter().filter(|o| o.supply == Supply::Unknown && o.shelf.is_empty());
    unsaid.filter(in_stop).map(|o| o.part.clone()).collect()
}
