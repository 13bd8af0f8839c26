//! One service of one engine: what is used on its meter, low, nominal and high that count, what they rest on, and why.
//!
//! The earlier of age and condition counts, and nothing but the shop's own failures, where the part's class allows it,
//! makes a life longer than the pack does.

use crate::condition::{Condition, Outlook};
use crate::duty::Intent;
use crate::events::Happening;
use crate::failure::LostPart;
use crate::learn::{Consequence, Learned, LifeRange, ShopLives, learn, life_behind};
use crate::log::{Counted, Log, Meters};
use crate::part::{Fitting, before, in_now, stretches};
use jiff::Unit;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::logged::OverRev;
use thou_contract::wear::Stress;
use thou_contract::{System, factor};
use thou_mechanics::replacement::{ChangeCosts, best_age};
use thou_mechanics::weibull::Weibull;

/// What a life rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum LifeBasis {
    /// The pack's own range.
    #[default]
    Pack,
    /// The shop's own parts, that failed and that did not.
    Learned,
    /// How its readings go.
    Condition,
    /// Something happened that no count covers.
    Event,
}

impl LifeBasis {
    /// The word in a file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pack => "pack",
            Self::Learned => "learned",
            Self::Condition => "condition",
            Self::Event => "event",
        }
    }
}

/// A service as a pack gives it.
#[derive(Debug, Clone, Copy)]
pub struct CountedService<'a> {
    /// pack/rule.
    pub rule: &'a str,
    /// Rules that settle this one when they are done.
    pub settled_by: &'a [&'a str],
    /// What it is done to.
    pub part: &'a str,
    /// What hurts that; nothing where an outing counts as one, whatever it was.
    pub wears: Option<&'a [Vec<Stress>]>,
    /// The entry that completed the readings which are this service done, the last time.
    pub read: Option<usize>,
    /// The log's readings that tell its end.
    pub told_by: &'a [String],
    /// What an over-rev does to it.
    pub over_rev: &'a [OverRev],
    /// How sharply lives of it end.
    pub shape: f64,
    /// Whether it ends the part's life (replace, rebuild) and does not only look at it.
    pub renews: bool,
    /// Whether it counts from the part's own stamp.
    pub by_stamp: bool,
    /// Its meter: passes, miles, hours, events, months.
    pub meter: &'a str,
    /// Low, nominal and high, SI or a count.
    pub pack: LifeRange,
    /// What the part takes with it.
    pub takes: Consequence,
    /// Used by the sheet alone, before the log's first entry or brought into the last freshen, where the log has nothing
    /// later to count from.
    pub by_sheet: f64,
    /// The day that the sheet counts months from.
    pub day_by_sheet: Option<Date>,
    /// Cost of a planned change with its hours, and of a failure, in the shop's own money.
    pub costs: Option<[f64; 2]>,
}

/// Everything of one engine that services are reckoned from.
pub struct EngineRecord<'a> {
    /// Its log.
    pub log: &'a Log<'a>,
    /// What the sheet says of an outing.
    pub intent: &'a Intent,
    /// Parts by their numbers.
    pub fittings: &'a [Fitting],
    /// What parts of this engine ran in others, by number.
    pub elsewhere: &'a BTreeMap<String, Meters>,
    /// What happened.
    pub events: &'a [Happening],
    /// Parts that are gone or broken.
    pub lost: &'a [LostPart],
    /// What the readings say.
    pub condition: &'a Condition,
    /// The meter that lines are drawn against.
    pub meter: &'a str,
    /// Lives of the shop's own parts in engines of this use, by part and meter.
    pub own: &'a BTreeMap<(String, String), ShopLives>,
    /// The day of the plan.
    pub as_of: Option<Date>,
    /// The reader's units.
    pub system: System,
}

/// What came of one service.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ServiceCount {
    /// Used on its meter, SI or a count.
    pub used: Option<f64>,
    /// Low, nominal and high that count.
    pub range: LifeRange,
    /// What those rest on.
    pub basis: LifeBasis,
    /// How lives spread behind that range; none for what only looks.
    pub life: Option<Weibull>,
    /// Why, a sentence each, with the numbers.
    pub why: Vec<String>,
    /// The number of the part that it counts for.
    pub serial: Option<String>,
    /// The entry that its count starts from; none where that is the build.
    pub since: Option<String>,
}

/// From where a service counts.
struct CountStart {
    used: f64,
    /// Stretches of the log that it counts.
    spans: Vec<[usize; 2]>,
    counted: Counted,
    serial: Option<String>,
    words: Option<String>,
}

impl EngineRecord<'_> {
    /// Reckons a service.
    #[must_use]
    pub fn reckon(&self, asked: &CountedService<'_>) -> ServiceCount {
        let mut out = ServiceCount { range: asked.pack, ..ServiceCount::default() };
        if asked.meter == "months" {
            let (used, serial) = self.months(asked);
            out.used = used;
            out.serial = serial;
            out.since = self.done(asked).and_then(|n| self.log.entries.get(n)).map(|e| e.id.clone());
            out.life = life_behind(asked.shape, asked.takes, out.range).filter(|_| asked.renews);
            return out;
        }
        let from = self.from(asked);
        out.used = Some(from.used);
        out.serial.clone_from(&from.serial);
        let first = from.spans.last().map_or(0, |[first, _]| *first);
        // a part counts from the entry that put it in, all else from after the one that was done
        let entry = if from.serial.is_some() { Some(first) } else { first.checked_sub(1) };
        out.since = entry.and_then(|n| self.log.entries.get(n)).map(|e| e.id.clone());
        out.why.extend(from.words.clone());
        out.why.extend(self.counted_words(asked, &from.counted));
        if asked.renews {
            let middle = self.learned(asked, &mut out);
            self.condition(asked, from.used, &mut out);
            self.events(asked, &from, &mut out);
            self.lost(asked, &from, &mut out);
            // of a range that its readings or an event have cut short, no life is known but the range
            out.life = match middle.filter(|_| out.basis == LifeBasis::Learned) {
                Some(middle) => Some(middle),
                None => life_behind(asked.shape, asked.takes, out.range),
            };
            out.why.extend(self.cheapest(asked, &out));
        }
        out
    }

    /// A part that is gone or broken has nothing left to run, whatever its count.
    fn lost(&self, asked: &CountedService<'_>, from: &CountStart, out: &mut ServiceCount) {
        let Some(lost) = self.lost.iter().find(|l| l.part == asked.part && l.stops()) else { return };
        out.range = [from.used; 3];
        out.basis = LifeBasis::Event;
        out.why.push(format!("{}: nothing left to run", lost.what_became()));
    }

    /// What a number of a meter reads, rounded down as lives are.
    fn number(&self, meter: &str, si: f64) -> String {
        let unit = match (meter, self.system) {
            ("miles", System::Metric) => 1e3,
            ("miles", _) => factor::MILE,
            ("hours", _) => 3_600.0,
            _ => 1.0,
        };
        format!("{}", (si / unit + 1e-6).floor())
    }

    fn done(&self, asked: &CountedService<'_>) -> Option<usize> {
        let rules = std::iter::once(asked.rule).chain(asked.settled_by.iter().copied());
        rules.filter_map(|rule| self.log.last_did(rule)).chain(asked.read).max()
    }

    /// What is used since it was last done, since the part was put in, or since the freshen: a numbered part keeps its
    /// life over all of them, what has no number starts anew with each.
    fn from(&self, asked: &CountedService<'_>) -> CountStart {
        let end = self.log.steps.len();
        let done = self.done(asked);
        let fresh = self.log.freshened();
        let start = done.map_or(0, |n| n + 1).max(fresh);
        let since = |start: usize| {
            let counted = self.log.counted(asked.meter, start, end, self.intent, asked.wears);
            let used = counted.counts + if start == fresh { asked.by_sheet } else { 0.0 };
            CountStart { used, spans: vec![[start, end]], counted, serial: None, words: None }
        };
        let in_now = in_now(self.fittings, asked.part);
        // a part that nobody has looked at since it went in is looked at by what it ran in all; the same work may be logged
        // as done after the new part was, so a renewal is another part only on a later day
        let replaced = |f: &Fitting| done.is_some_and(|n| n > f.index && (!asked.renews || self.day(n) > Some(f.day)));
        let mut lives: Vec<CountStart> = in_now.iter().filter(|f| !replaced(f)).map(|f| self.life(asked, f)).collect();
        // the places that nobody logged a part for have been in since then
        if lives.is_empty() || in_now.iter().all(|f| f.place.is_some()) {
            lives.push(since(start));
        }
        lives.into_iter().max_by(|a, b| a.used.total_cmp(&b.used)).unwrap_or_else(|| since(start))
    }

    /// The life of one part by its number.
    fn life(&self, asked: &CountedService<'_>, fitting: &Fitting) -> CountStart {
        let end = self.log.steps.len();
        let mut all = Counted { hardest: 1.0, ..Counted::default() };
        let spans = stretches(self.fittings, &fitting.serial, end);
        for [from, to] in &spans {
            all = all.with(self.log.counted(asked.meter, *from, *to, self.intent, asked.wears));
        }
        let [brought, elsewhere] = before(self.fittings, fitting, self.elsewhere, asked.meter);
        let place = fitting.place.as_deref().map(|p| format!(" at {p}")).unwrap_or_default();
        let mut parts = vec![format!("{} here", self.number(asked.meter, all.counts))];
        if elsewhere > 0.0 {
            parts.push(format!("{} in other engines", self.number(asked.meter, elsewhere)));
        }
        if brought > 0.0 {
            parts.push(format!("{} before this book", self.number(asked.meter, brought)));
        }
        let mut words = format!("{}{place}, in since {}: {}", fitting.serial, fitting.day, parts.join(", "));
        if fitting.tightened > 1 {
            let and = format!("; tightened {} times", fitting.tightened);
            words.push_str(&and);
        }
        if let Some(out) = self.watched(&fitting.serial, fitting.index) {
            words.push_str(&out);
        }
        CountStart {
            used: all.counts + brought + elsewhere,
            spans,
            counted: all,
            serial: Some(fitting.serial.clone()),
            words: Some(words),
        }
    }

    /// A part that came out to be watched, and is in again.
    fn watched(&self, serial: &str, before: usize) -> Option<String> {
        let out = self.fittings.iter().filter(|f| f.serial == serial).filter_map(|f| f.out.as_ref());
        let out = out.filter(|o| o.index <= before && o.disposition == "watch").max_by_key(|o| o.index)?;
        let because = out.because.as_deref().map(|b| format!(" ({b})")).unwrap_or_default();
        Some(format!("; to be watched since {}{because}", out.day))
    }

    fn day(&self, index: usize) -> Option<Date> {
        self.log.entries.get(index).map(|e| e.day)
    }

    fn months(&self, asked: &CountedService<'_>) -> (Option<f64>, Option<String>) {
        let fitted = in_now(self.fittings, asked.part).into_iter().max_by_key(|f| f.index);
        let stamp = fitted.and_then(|f| f.made);
        let done = self.done(asked).and_then(|n| self.day(n));
        let renewed = fitted.filter(|_| asked.renews || asked.by_stamp).map(|f| f.day);
        let freshened = self.log.freshened().checked_sub(1).and_then(|n| self.day(n));
        let from = match stamp.filter(|_| asked.by_stamp || asked.renews) {
            Some(stamp) => Some(stamp),
            None => done.max(renewed).max(asked.day_by_sheet).max(freshened.filter(|_| !asked.by_stamp)),
        };
        let serial = fitted.filter(|_| stamp.is_some()).map(|f| f.serial.clone());
        let days = from.zip(self.as_of).and_then(|(from, to)| from.until((Unit::Day, to)).ok()).map(|s| s.get_days());
        (days.map(|d| f64::from(d.max(0)) * 86_400.0), serial)
    }

    fn counted_words(&self, asked: &CountedService<'_>, c: &Counted) -> Vec<String> {
        let mut out = Vec::new();
        let number = |si: f64| self.number(asked.meter, si);
        let tenth = |v: f64| format!("{v:.1}");
        if (c.counts - c.run).abs() >= 0.5 * self.whole(asked.meter) {
            let mut parts = Vec::new();
            if (c.adder_counts - c.adder).abs() >= 0.5 {
                parts.push(format!("{} with the adder on as {}", c.adder, tenth(c.adder_counts)));
            }
            if c.harder_counts - c.harder >= 0.5 {
                parts.push(format!("{} harder than the pass described as {}", c.harder, tenth(c.harder_counts)));
            }
            if c.others >= self.whole(asked.meter) * 0.5 {
                parts.push(format!("pulls and road as {}", number(c.others)));
            }
            let softer = c.counts - c.others - c.adder_counts - c.harder_counts - (c.run - c.adder - c.harder);
            if softer < -0.5 * self.whole(asked.meter) && asked.meter == "passes" {
                parts.push("the softer ones as less, two thirds at least".to_owned());
            }
            let because = if parts.is_empty() { String::new() } else { format!(": {}", parts.join("; ")) };
            out.push(format!("{} run count as {}{because}", number(c.run), number(c.counts)));
        }
        out
    }

    /// One of a meter's own measure.
    fn whole(&self, meter: &str) -> f64 {
        if meter == "miles" { factor::MILE } else { 1.0 }
    }

    /// What the shop's own lives make of the range, and the distribution in the middle where they moved it.
    fn learned(&self, asked: &CountedService<'_>, out: &mut ServiceCount) -> Option<Weibull> {
        let own = self.own.get(&(asked.part.to_owned(), asked.meter.to_owned()))?;
        let Learned { range, moved, words, middle, .. } = learn(asked.shape, asked.takes, asked.pack, own)?;
        if moved {
            let [a, b, c] = asked.pack.map(|v| self.number(asked.meter, v));
            out.why.push(format!("{words} of {a}, {b}, {c}"));
            out.range = range;
            out.basis = LifeBasis::Learned;
        } else {
            out.why.push(words);
        }
        moved.then_some(middle)
    }

    /// The age at which a planned change is cheapest, where the shop has lives of its own. Barlow and Hunter 1960.
    fn cheapest(&self, asked: &CountedService<'_>, out: &ServiceCount) -> Option<String> {
        self.own.get(&(asked.part.to_owned(), asked.meter.to_owned()))?;
        let counted = matches!(out.basis, LifeBasis::Pack | LifeBasis::Learned);
        let ([planned, failure], life) = asked.costs.zip(out.life.filter(|_| counted))?;
        let (age, _) = best_age(&life, ChangeCosts { planned, failure }).ok()??;
        Some(format!("cheapest to change at about {} by its costs, labor among them", self.number(asked.meter, age)))
    }

    /// The earlier of age and condition: a line that comes to its limit sooner than the life ends takes its place.
    fn condition(&self, asked: &CountedService<'_>, used: f64, out: &mut ServiceCount) {
        if asked.meter != self.meter {
            return;
        }
        let of_part = self.condition.outlooks.iter().filter(|o| asked.told_by.contains(&o.key.reading));
        let end = |o: &&Outlook| o.left.get(1).copied().flatten().unwrap_or(f64::INFINITY);
        let Some(outlook) = of_part.min_by(|a, b| end(a).total_cmp(&end(b))) else { return };
        let [fast, middle, slow] = outlook.left;
        let [low, nominal, high] = out.range;
        let left = |left: Option<f64>| left.map_or_else(|| "not".to_owned(), |l| self.number(asked.meter, l));
        let goes = format!("{}: {}, {} or {} left", outlook.words, left(fast), left(middle), left(slow));
        let by = [fast, middle, slow].map(|l| l.map_or(f64::INFINITY, |l| used + l));
        let [a, b, c] = by;
        if b < nominal {
            out.range = [low.min(a), b, high.min(c)];
            out.basis = LifeBasis::Condition;
            out.why.push(format!("{goes}, sooner than its life"));
        } else {
            out.why.push(format!("{goes}, later than its life"));
        }
    }

    /// What happened since the part went in.
    fn events(&self, asked: &CountedService<'_>, from: &CountStart, out: &mut ServiceCount) {
        let met = |e: &&Happening| from.spans.iter().any(|[a, b]| (*a..*b).contains(&e.index));
        for event in self.events.iter().filter(met) {
            if let Some(why) = event.ends(asked.over_rev) {
                out.range = [from.used; 3];
                out.basis = LifeBasis::Event;
                out.why.push(format!("{} on {}: {why}, they do not run again", event.happening, event.day));
                return;
            }
            if event.halves(asked.over_rev) && out.basis != LifeBasis::Event {
                out.range = out.range.map(|v| v / 2.0);
                out.basis = LifeBasis::Event;
                out.why.push(format!("{} on {}: they count to half of their life", event.happening, event.day));
            }
        }
    }
}

impl Counted {
    /// Two stretches together.
    fn with(self, other: Self) -> Self {
        Self {
            counts: self.counts + other.counts,
            run: self.run + other.run,
            harder: self.harder + other.harder,
            harder_counts: self.harder_counts + other.harder_counts,
            hardest: self.hardest.max(other.hardest),
            adder: self.adder + other.adder,
            adder_counts: self.adder_counts + other.adder_counts,
            others: self.others + other.others,
            pulls_left_out: self.pulls_left_out + other.pulls_left_out,
            road_left_out: self.road_left_out + other.road_left_out,
            passes_left_out: self.passes_left_out + other.passes_left_out,
            adder_unknown: self.adder_unknown + other.adder_unknown,
        }
    }
}

#[cfg(test)]
#[path = "item_tests.rs"]
mod tests;
