//! What has to be ordered or sent out by which day, what is on the shelf, and the part that the next big stop waits for.

use super::calendar::Season;
use super::day::{days, earlier};
use super::kept::on_the_shelf;
use super::line::{ServiceLine, When};
use super::stops::{Stop, depth};
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_sheet::Sheet;

/// A part that a service will ask for.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The part, as the services name it.
    pub part: String,
    /// Index of the line that asks for it first.
    pub line: usize,
    /// When its low figure comes: by then it should be in.
    pub wanted: Option<When>,
    /// Days of work of the stop that puts it in, after it is on the bench.
    pub work: i64,
    /// How it is come by.
    pub supply: Supply,
    /// The last day to order it, or to send it out. None without a lead time, or where it lies on the shelf.
    pub by: Option<Date>,
    /// The same day where nothing of it lay on the shelf.
    pub by_without_shelf: Option<Date>,
    /// Days that it is late already.
    pub late: i64,
    /// Whose word the days are, and of which day.
    pub said: Option<(String, Option<Date>)>,
    /// What is on the shelf of it: the numbers, with what they have run; an empty text for one without a number.
    pub shelf: Vec<String>,
}

/// How a part is come by.
#[derive(Debug, Clone, PartialEq)]
pub enum Supply {
    /// The sheet has no days for it.
    Unknown,
    /// It is ordered, so many days ahead.
    Ordered(i64),
    /// It is sent out and comes back.
    Sent(Away),
}

/// Send-out work.
#[derive(Debug, Clone, PartialEq)]
pub struct Away {
    /// Days away.
    pub days: i64,
    /// Days free before the event that it has to be in for; none where it is tied to no event.
    pub free: Option<i64>,
    /// The event that is missed without a spare.
    pub misses: Option<String>,
    /// An earlier break that is long enough: it starts after this event, or now (none), and ends with that event.
    pub instead: Option<(Option<String>, String)>,
    /// The last day to send it: for that earlier break where there is one, else the day after the event before.
    by: Option<Date>,
}

impl Order {
    /// Days from the order, or from sending it out, to the bench; nothing for what lies on the shelf.
    #[must_use]
    pub fn lead(&self) -> Option<i64> {
        match &self.supply {
            _ if !self.shelf.is_empty() => Some(0),
            Supply::Unknown => None,
            Supply::Ordered(days) => Some(*days),
            Supply::Sent(away) => Some(away.days),
        }
    }
}

/// The part that a stop waits for.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// Index of the stop.
    pub stop: usize,
    /// The part with the longest way to the bench.
    pub part: String,
    /// Its days to the bench.
    pub lead: i64,
    /// Days of work after it.
    pub work: i64,
    /// The day to set out on, so that the stop ends before its event: the one by which the part is ordered or sent out, or
    /// the first of the work where it lies on the shelf.
    pub begin: Option<Date>,
    /// Where that day is past: the day that it is ready on when it is ordered on the plan's day.
    pub ready: Option<Date>,
    /// The events that start before it is ready.
    pub misses: Vec<String>,
    /// Parts of the stop whose days the sheet does not have.
    pub unknown: Vec<String>,
}

/// What is asked for, the first to be ordered first; what has no day comes last, by when it is wanted.
pub(super) fn orders(
    sheet: &Sheet,
    lines: &[ServiceLine],
    stops: &[Stop],
    season: Option<&Season>,
    as_of: Option<Date>,
) -> Vec<Order> {
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    let wanted = |i: usize| lines.get(i).and_then(|l| l.when.as_ref()).map(|w| w[0].date);
    for (index, line) in lines.iter().enumerate().filter(|(_, l)| l.service.service.renews() && l.used.is_some()) {
        let known = first.entry(&line.service.service.part).or_insert(index);
        // the earlier one counts; one without a day never is
        let (new, old) = (wanted(index), wanted(*known));
        if (new.is_none(), new) < (old.is_none(), old) {
            *known = index;
        }
    }
    let mut out: Vec<Order> =
        first.into_iter().filter_map(|(part, index)| order(sheet, lines, stops, season, as_of, part, index)).collect();
    out.sort_by(|a, b| {
        let day = |o: &Order| o.wanted.as_ref().map(|w| w.date);
        (a.by.is_none(), a.by, day(a).is_none(), day(a), &a.part).cmp(&(
            b.by.is_none(),
            b.by,
            day(b).is_none(),
            day(b),
            &b.part,
        ))
    });
    out
}

fn order(
    sheet: &Sheet,
    lines: &[ServiceLine],
    stops: &[Stop],
    season: Option<&Season>,
    as_of: Option<Date>,
    part: &str,
    index: usize,
) -> Option<Order> {
    let line = lines.get(index)?;
    let wanted = line.when.as_ref().map(|w| w[0].clone());
    let lead = sheet.lead_times.get(part);
    let shelf = shelf(sheet).remove(part).unwrap_or_default();
    let work = stops.iter().find(|s| s.does(lines, line)).map_or(0, Stop::days);
    // what goes out is bought only where nobody says how long it is away
    let sent = lead.and_then(|l| l.away).filter(|_| line.service.service.action == "recondition");
    let supply = match (sent, lead.and_then(|l| l.order.or(l.away))) {
        (Some(days), _) => Supply::Sent(away(season, wanted.as_ref(), days, work)),
        (None, Some(days)) => Supply::Ordered(days),
        (None, None) => Supply::Unknown,
    };
    let event = wanted.as_ref().and_then(|w| Some(season?.events.get(season?.index(w.before.as_ref()?)?)?.first));
    let needed = event.or(wanted.as_ref().map(|w| w.date));
    let by = match &supply {
        Supply::Unknown => None,
        Supply::Ordered(days) => needed.map(|day| earlier(day, *days + work)),
        Supply::Sent(away) => away.by,
    };
    let by_without_shelf = by;
    let by = by.filter(|_| shelf.is_empty());
    let late = by.zip(as_of).map_or(0, |(by, today)| i64::from(days(by, today)).max(0));
    let said = lead.and_then(|l| Some((l.said_by.clone()?, l.said)));
    Some(Order { part: part.to_owned(), line: index, wanted, work, supply, by, by_without_shelf, late, said, shelf })
}

/// What is on the shelf, by part.
pub(super) fn shelf(sheet: &Sheet) -> BTreeMap<String, Vec<String>> {
    let mut out: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for spare in &sheet.spares {
        out.entry(spare.part.clone()).or_default().push(on_the_shelf(spare));
    }
    out
}

/// Whether a part can be away, back and put in between two events.
fn away(season: Option<&Season>, wanted: Option<&When>, days: i64, work: i64) -> Away {
    let all = days + work;
    let none = Away { days, free: None, misses: None, instead: None, by: wanted.map(|w| earlier(w.date, all)) };
    let (Some(season), Some(name)) = (season, wanted.and_then(|w| w.before.as_ref())) else { return none };
    let Some(index) = season.index(name) else { return none };
    let free = season.free_before(index);
    let start = |i: usize| season.events.get(i).map(|e| e.first);
    if free.is_none_or(|free| free >= all) {
        return Away { free, by: start(index).map(|d| earlier(d, all)), ..none };
    }
    let fits = (0..index).rev().find(|i| season.free_before(*i).is_some_and(|f| f >= all));
    let instead = fits.and_then(|i| {
        let after = i.checked_sub(1).and_then(|i| season.events.get(i)).map(|e| e.name.clone());
        Some((after, season.events.get(i)?.name.clone()))
    });
    let by = match fits {
        Some(i) => start(i).map(|d| earlier(d, all)),
        None => start(index).zip(free).map(|(d, free)| earlier(d, free)),
    };
    Away { free, misses: Some(name.clone()), instead, by, ..none }
}

/// The longest way of lead time and work of the next big stop: the first that takes the pan or the heads off, or the
/// engine out.
pub(super) fn chain(
    lines: &[ServiceLine],
    stops: &[Stop],
    orders: &[Order],
    season: Option<&Season>,
    as_of: Option<Date>,
) -> Option<Chain> {
    let (index, stop) = stops.iter().enumerate().find(|(_, s)| depth(&s.opens) >= depth("pan"))?;
    let parts: Vec<&str> = stop
        .lines
        .iter()
        .filter_map(|i| lines.get(*i))
        .filter(|l| l.service.service.renews())
        .map(|l| l.service.service.part.as_str())
        .collect();
    let of_stop: Vec<&Order> = orders.iter().filter(|o| parts.contains(&o.part.as_str())).collect();
    let longest = of_stop.iter().filter_map(|o| Some((o.lead()?, o))).max_by(|a, b| {
        // the first by name where two take as long
        a.0.cmp(&b.0).then_with(|| b.1.part.cmp(&a.1.part))
    })?;
    let unknown = of_stop.iter().filter(|o| o.lead().is_none()).map(|o| o.part.clone()).collect();
    let (lead, work) = (longest.0, stop.days());
    let begin = longest.1.by.or(stop.date.map(|d| earlier(d, lead + work)));
    let late = begin.zip(as_of).is_some_and(|(begin, today)| begin < today);
    let ready = as_of.filter(|_| late).map(|today| earlier(today, -(lead + work)));
    let from = stop.before.as_ref().and_then(|name| season?.index(name));
    let ahead = season.zip(from).zip(ready).map(|((season, from), ready)| {
        season.events.iter().skip(from).filter(|e| e.first < ready).map(|e| e.name.clone()).collect()
    });
    let misses = ahead.unwrap_or_default();
    Some(Chain { stop: index, part: longest.1.part.clone(), lead, work, begin, ready, misses, unknown })
}
