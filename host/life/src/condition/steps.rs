//! Sudden steps: what asks for a look before any line is drawn.

use super::limits::Watch;
use super::readings::{ConditionReader, ReadingAlert, ReadingPoint, Series, Urgency};
use super::stand_in::Fresh;
use crate::trend::median;
use thou_contract::Kind;
use thou_contract::factor::{PSI, THOU};

/// Room for what floating point makes of a limit that is written in decimals.
const ROOM: f64 = 1e-9;

const PRACTICE: &str = "common practice, no source";

/// What the last reading of a series says.
struct Said {
    weight: Urgency,
    words: String,
    to_do: &'static str,
}

fn said(weight: Urgency, words: String, to_do: &'static str) -> Option<Said> {
    Some(Said { weight, words, to_do })
}

/// The finding that the last reading of a series asks for, if it does.
pub(super) fn find(
    reader: &ConditionReader<'_>,
    series: &Series,
    watch: &Watch,
    all: &[Series],
    fresh: Option<&Fresh>,
) -> Option<ReadingAlert> {
    let last = series.points.last()?;
    let before = series.points.iter().rev().nth(1);
    let all_the_same = fresh.and_then(|f| f.all_the_same.clone());
    let fresh = fresh.and_then(|f| f.point.as_ref());
    let at = At { reader, watch, series, last, before, fresh };
    let said = match watch.reading {
        "leak-down" => at.leak_down(),
        "seat-load" => at.seat_load(all),
        "lash" => at.lash(all),
        "oil-pressure-hot" => at.oil_pressure(),
        "rod-clearance" | "main-clearance" => at.clearance(),
        "power" => at.power(),
        "cranking-pressure" => at.cranking(all),
        "blow-by" => at.blow_by(),
        "rod-bolt-growth" => at.growth(),
        "oil-fuel" => at.fuel(),
        "oil-aluminium" | "oil-copper" | "oil-iron" | "oil-lead" | "oil-silicon" => at.trace(),
        _ => None,
    }?;
    Some(ReadingAlert {
        weight: said.weight,
        title: watch.about(&series.key),
        words: match all_the_same {
            Some(how) => format!("{}; {how}", said.words.trim_end_matches('.')),
            None => said.words,
        },
        to_do: said.to_do.to_owned(),
        whose: PRACTICE.to_owned(),
        day: last.day,
        entry: last.entry.clone(),
        part: reader.services.told(watch.reading).map(str::to_owned),
    })
}

struct At<'a> {
    reader: &'a ConditionReader<'a>,
    watch: &'a Watch,
    series: &'a Series,
    last: &'a ReadingPoint,
    before: Option<&'a ReadingPoint>,
    fresh: Option<&'a ReadingPoint>,
}

impl At<'_> {
    fn kind(&self) -> Option<Kind> {
        self.watch.kind()
    }

    /// The last five readings, the unit once: "4, 4, 5, 9 %".
    fn row(&self) -> String {
        let Some(kind) = self.kind() else { return String::new() };
        let from = self.series.points.len().saturating_sub(5);
        let points = self.series.points.get(from..).unwrap_or_default();
        let mut all: Vec<String> = points.iter().map(|p| kind.number(p.value, self.reader.system)).collect();
        if all.iter().all(|n| n.ends_with(".0")) {
            all.iter_mut().for_each(|n| *n = trimmed(n).to_owned());
        }
        let unit = kind.print(self.reader.system).unit;
        format!("{}: {} {unit}", self.watch.about_in_full(&self.series.key), all.join(", "))
    }

    /// "+4 % since E7" or since a day.
    fn since(&self, than: &ReadingPoint) -> String {
        let when = than.event.clone().unwrap_or_else(|| than.day.to_string());
        if than.baseline { format!("its fresh reading, {when}") } else { when }
    }

    fn moved(&self, than: &ReadingPoint) -> String {
        let Some(kind) = self.kind() else { return String::new() };
        let by = self.last.value - than.value;
        let sign = if by < 0.0 { "-" } else { "+" };
        let unit = if kind.id() == "percent" { "points" } else { kind.print(self.reader.system).unit };
        let number = kind.number(by.abs(), self.reader.system);
        format!("{sign}{} {unit} since {}", trimmed(&number), self.since(than))
    }

    fn percent(&self, than: &ReadingPoint) -> String {
        let share = (self.last.value / than.value - 1.0) * 100.0;
        format!("{share:+.1} % since {}", self.since(than))
    }

    /// The reading of the two before that it moved the most from, in a direction.
    fn furthest(&self, rising: bool) -> Option<(&ReadingPoint, f64)> {
        let by = |p: &ReadingPoint| if rising { self.last.value - p.value } else { p.value - self.last.value };
        let both = [self.fresh, self.before.filter(|b| Some(b.index) != self.fresh.map(|f| f.index))];
        both.into_iter().flatten().map(|p| (p, by(p))).max_by(|a, b| a.1.total_cmp(&b.1))
    }

    fn leak_down(&self) -> Option<Said> {
        let (than, by) = self.furthest(true)?;
        let words = format!("{}. {}", self.row(), self.moved(than));
        if by >= 0.10 - ROOM {
            let to_do = "Out of the car: air at the intake, exhaust, breather or water says where; nothing more before it \
                         is found.";
            return said(Urgency::Stop, words, to_do);
        }
        let to_do = "Hear where it goes: at the intake or the exhaust it is a valve (lash, plug, bore-scope), at the \
                     breather rings, in the water the gasket. Read it again hot, same tester.";
        (by >= 0.04 - ROOM).then(|| said(Urgency::Look, words, to_do)).flatten()
    }

    fn seat_load(&self, all: &[Series]) -> Option<Said> {
        let share = |than: &ReadingPoint| 1.0 - self.last.value / than.value;
        let mates = self.mates(all);
        let under_mates = mates.map(|m| 1.0 - self.last.value / m);
        let kind = self.kind()?;
        let seen = |more: String| format!("{}. {more}", self.row());
        if let Some(fresh) = self.fresh.filter(|f| share(f) >= 0.10 - ROOM) {
            let words = seen(self.percent(fresh));
            return said(
                Urgency::Stop,
                words,
                "Change the set before the next pass, with its retainers and locks looked at.",
            );
        }
        if let (Some(under), Some(mates)) = (under_mates.filter(|u| *u >= 0.08 - ROOM), mates) {
            let against = kind.text(mates, self.reader.system);
            let since = self.fresh.map(|f| format!(", {}", self.percent(f))).unwrap_or_default();
            let words = seen(format!("{:.1} % under its mates ({against}){since}", under * 100.0));
            return said(Urgency::Look, words, "The weak one of the set: change the set now, not at its date.");
        }
        let (than, _) = self.furthest(false)?;
        let to_do = "Read it again on the same tester; if it stands, the weak one of the set: change the set.";
        (share(than) >= 0.05 - ROOM).then(|| said(Urgency::Look, seen(self.percent(than)), to_do)).flatten()
    }

    /// The middle of what its mates of the same side read with the same tester on the same day; two at least.
    fn mates(&self, all: &[Series]) -> Option<f64> {
        let side = |place: Option<&str>| place.and_then(|p| p.chars().last()).filter(|c| c.is_alphabetic());
        let key = &self.series.key;
        let mut values: Vec<f64> = all
            .iter()
            .filter(|s| s.key.reading == key.reading && s.key.gauge == key.gauge && s.key.state == key.state)
            .filter(|s| s.key.place != key.place && side(s.key.place.as_deref()) == side(key.place.as_deref()))
            .filter_map(|s| s.points.iter().rev().find(|p| p.day == self.last.day))
            .map(|p| p.value)
            .collect();
        values.sort_by(f64::total_cmp);
        if values.len() < 2 { None } else { median(&values) }
    }

    fn lash(&self, all: &[Series]) -> Option<Said> {
        let by = |than: &ReadingPoint| (self.last.value - than.value).abs();
        let (than, _) = [self.fresh, self.before]
            .into_iter()
            .flatten()
            .map(|p| (p, by(p)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .filter(|(_, by)| *by >= 4.0 * THOU - 1e-12)?;
        let words = format!("{}. {}", self.row(), self.moved(than));
        if self.all_moved(all) {
            let to_do = "All of them moved alike: more likely the temperature that they were read at. Read them again \
                         as they were read before.";
            return said(Urgency::Look, words, to_do);
        }
        let to_do = "Look before it is set: lifter wheel, rocker tip, lock groove, valve tip and seat. An exhaust that \
                     opens up can be a dying lifter.";
        said(Urgency::Look, words, to_do)
    }

    /// Whether the valves that were read that day moved by half of this one's way, the middle one of them.
    fn all_moved(&self, all: &[Series]) -> bool {
        let step = |s: &Series| {
            let at = s.points.iter().rposition(|p| p.day == self.last.day)?;
            let than = s.points.get(..at)?.last()?;
            Some(s.points.get(at)?.value - than.value)
        };
        let own = step(self.series).unwrap_or(0.0);
        let mut others: Vec<f64> = all
            .iter()
            .filter(|s| s.key.reading == self.series.key.reading && s.key.place != self.series.key.place)
            .filter_map(step)
            .collect();
        others.sort_by(f64::total_cmp);
        others.len() > 2 && median(&others).is_some_and(|m| m.signum() == own.signum() && m.abs() >= own.abs() / 2.0)
    }

    fn oil_pressure(&self) -> Option<Said> {
        let (than, by) = self.furthest(false)?;
        let to_do = "Same speed, same temperature? Then filter cut, a rod bearing looked at, relief and pickup. If it \
                     drops while running: shut it off, do not rev it to see.";
        (by >= 8.0 * PSI * (1.0 - ROOM))
            .then(|| said(Urgency::Look, format!("{}. {}", self.row(), self.moved(than)), to_do))
            .flatten()
    }

    fn clearance(&self) -> Option<Said> {
        let than = self.fresh?;
        let to_do = "Read journal and housing again; if it stands, new shells, and the journal looked at for taper and \
                     the pattern of its mates.";
        (self.last.value - than.value >= 0.5 * THOU - 1e-12)
            .then(|| said(Urgency::Look, format!("{}. {}", self.row(), self.moved(than)), to_do))
            .flatten()
    }

    fn power(&self) -> Option<Said> {
        let than = self.fresh?;
        let to_do =
            "The same air and the same dyno? Then leak-down, lash, springs and plugs before the rings are blamed.";
        (self.last.value <= than.value * (0.98 + ROOM))
            .then(|| said(Urgency::Look, format!("{}. {}", self.row(), self.percent(than)), to_do))
            .flatten()
    }

    fn cranking(&self, all: &[Series]) -> Option<Said> {
        let mates = self.mates(all)?;
        let under = 1.0 - self.last.value / mates;
        let against = self.kind()?.text(mates, self.reader.system);
        let to_do = "Leak-down on that cylinder, lash first.";
        (under >= 0.10 - ROOM)
            .then(|| {
                said(
                    Urgency::Look,
                    format!("{}. {:.0} % under its mates ({against})", self.row(), under * 100.0),
                    to_do,
                )
            })
            .flatten()
    }

    fn blow_by(&self) -> Option<Said> {
        let than = self.fresh?;
        let to_do = "Leak-down, every cylinder; the breather's own restriction first.";
        (self.last.value >= than.value * (1.30 - ROOM))
            .then(|| said(Urgency::Look, format!("{}. {}", self.row(), self.percent(than)), to_do))
            .flatten()
    }

    fn growth(&self) -> Option<Said> {
        let to_do = "Scrap the bolt; measure the others of the set and the rod's housing.";
        (self.last.value >= 0.5 * THOU - 1e-12).then(|| said(Urgency::Stop, self.row(), to_do)).flatten()
    }

    fn fuel(&self) -> Option<Said> {
        let to_do = "Change the oil before it runs; then the mixture at idle and the plugs.";
        (self.last.value > 0.03 + ROOM)
            .then(|| said(Urgency::Look, format!("{}, over 3 %", self.row()), to_do))
            .flatten()
    }

    /// Parts in a million for each pass that the oil had run, against this engine's own earlier samples: twice their
    /// middle is a jump. Figures that oil laboratories print are for oil of thousands of miles.
    fn trace(&self) -> Option<Said> {
        let rate = |p: &ReadingPoint| {
            let run = p.run - self.oil_from(p);
            (run > 0.0).then(|| p.value / run)
        };
        let (_, earlier) = self.series.points.split_last()?;
        let mut rates: Vec<f64> = earlier.iter().filter_map(rate).collect();
        rates.sort_by(f64::total_cmp);
        let own = median(&rates).filter(|r| *r > 0.0 && rates.len() > 1)?;
        let now = rate(self.last)?;
        let (each, unit) = self.reader.each();
        let per = |r: f64| r * each * 1e6;
        let words = format!(
            "{}; {:.1} ppm each {unit} of that oil, {:.1} in the samples before",
            self.row(),
            per(now),
            per(own)
        );
        let to_do = match self.watch.reading {
            "oil-copper" | "oil-lead" => {
                "Filter cut and looked at; flakes: pan off, a rod bearing looked at before it runs."
            }
            "oil-silicon" => "Dirt: air filter, its seals and the breathers; then iron and the rings.",
            "oil-aluminium" => "Filter cut, crowns and skirts through the plug holes, thrust; then a second sample.",
            _ => "Filter cut and looked at, lifter wheels and lobes; then a second sample.",
        };
        (now >= 2.0 * own * (1.0 - ROOM)).then(|| said(Urgency::Look, words, to_do)).flatten()
    }

    /// What the engine had run when the oil of a sample went in: the last change that is not of the sample's own drain.
    fn oil_from(&self, sample: &ReadingPoint) -> f64 {
        let log = self.reader.log;
        let mut run = 0.0;
        let mut from = 0.0;
        for (entry, step) in log.entries.iter().zip(&log.steps).take(sample.index) {
            run += step.of(self.reader.meter);
            // the fuel in it goes with the oil, and with nothing else
            if self.reader.services.begins_anew(entry, "oil-fuel") && run < sample.run {
                from = run;
            }
        }
        from
    }
}

/// "4.0" as "4".
fn trimmed(number: &str) -> &str {
    number.strip_suffix(".0").unwrap_or(number)
}
