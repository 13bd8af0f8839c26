//! What a gauge is good for, and which one is usual for a reading. A shop that states its own figures, or its gauges'
//! certificates, beats what is usual.

use thou_contract::Kind;
use thou_fields::GoodFor;
use thou_sheet::model::{Gauge, ReadingSet, Sheet};

/// The gauge of one set of readings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GaugeUse {
    /// The shop's name for it, or the kind of gauge taken.
    pub(crate) name: String,
    /// None was named.
    pub(crate) assumed: bool,
    step: f64,
    own: GoodFor,
    /// The master it shares a bias with, by name, and that bias.
    pub(crate) master: Option<(String, f64)>,
}

impl GaugeUse {
    /// Standard uncertainty of one reading's own: its smallest step spread evenly (JCGM 100:2008, F.2.2.1), with what
    /// the hand adds.
    pub(crate) fn own(&self, value: f64) -> f64 {
        let hand = match self.own {
            GoodFor::Of(u) => u,
            GoodFor::Share(share) => share * value.abs(),
        };
        (self.step * self.step / 12.0).sqrt().hypot(hand)
    }

    /// The gauge of a set; the usual one where it names none that the sheet knows.
    pub(crate) fn of(sheet: &Sheet, key: &str, set: &ReadingSet) -> Self {
        let named = set.gauge.as_ref().and_then(|name| sheet.gauges.get(name).map(|g| (name, g)));
        let Some((name, gauge)) = named else {
            let kind = usual_for(sheet, key);
            let (step, own) = usual(kind);
            // nobody says what it was set on: a master of the set's own, shared by its readings only
            let master = compares(kind).then(|| (format!("the master of {key}"), bias_of_a_master()));
            return Self { name: kind.to_owned(), assumed: true, step, own, master };
        };
        let (step, own) = figures(sheet, gauge, key);
        let set_on = gauge.set_on.clone().map(|master| {
            let bias = sheet.gauges.get(&master).map_or(bias_of_a_master(), |g| absolute(figures(sheet, g, key).1));
            (master, bias)
        });
        let is_master = sheet.gauges.values().any(|g| g.set_on.as_ref() == Some(name));
        let master = set_on.or_else(|| {
            if is_master {
                Some((name.clone(), absolute(own)))
            } else if compares(&gauge.kind) && gauge.uncertainty.is_none() {
                Some((name.clone(), bias_of_a_master()))
            } else {
                None
            }
        });
        Self { name: name.clone(), assumed: false, step, own, master }
    }
}

fn absolute(u: GoodFor) -> f64 {
    match u {
        GoodFor::Of(u) => u,
        GoodFor::Share(_) => bias_of_a_master(),
    }
}

/// The bias of a master that nobody states, m.
fn bias_of_a_master() -> f64 {
    Kind::by_id("length").and_then(|length| length.parse(thou_fields::MASTER).ok()).unwrap_or(0.0)
}

fn compares(kind: &str) -> bool {
    thou_fields::gauge(kind).is_some_and(|g| g.compares)
}

fn usual_for(sheet: &Sheet, key: &str) -> &'static str {
    sheet.reading_field(key).map_or("", |r| r.gauge)
}

fn usual(kind: &str) -> (f64, GoodFor) {
    let figures = thou_fields::gauge(kind).and_then(|g| Some((g.step()?, g.good_for()?)));
    figures.unwrap_or((0.0, GoodFor::Of(0.0)))
}

/// What the shop says of its gauge, else what is usual for its kind, else what is usual for the reading.
fn figures(sheet: &Sheet, gauge: &Gauge, key: &str) -> (f64, GoodFor) {
    let known = thou_fields::gauge(&gauge.kind).is_some();
    let (step, own) = usual(if known { &gauge.kind } else { usual_for(sheet, key) });
    let own = match gauge.uncertainty {
        Some(share) if gauge.relative => GoodFor::Share(share),
        Some(u) => GoodFor::Of(u),
        None => own,
    };
    (gauge.resolution.unwrap_or(step), own)
}

#[cfg(test)]
mod tests {
    use super::*;

    const THOU: f64 = 2.54e-5;

    #[test]
    fn a_tenth_micrometer_is_good_for_six_hundredths_of_a_thou() {
        let set = ReadingSet::default();
        let used = GaugeUse::of(&Sheet::default(), "piston", &set);
        assert!(used.assumed);
        assert_eq!(used.name, "outside-micrometer");
        // sqrt(0.1^2/12 + 0.05^2) thou
        assert!((used.own(0.1) / THOU - 0.057_735).abs() < 1e-6);
    }
}
