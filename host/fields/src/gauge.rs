//! What a gauge shows, and how well a careful hand reads with it. Common practice, no source.

use thou_contract::Kind;

/// A kind of gauge.
#[derive(Debug, Clone, Copy)]
pub struct GaugeKind {
    /// Its name in a sheet.
    pub name: &'static str,
    /// What it is.
    pub words: &'static str,
    /// The kinds of quantity that it shows; the first is its own.
    pub kinds: &'static [&'static str],
    /// Its smallest step, as text.
    pub step: &'static str,
    /// One standard uncertainty (k = 1), as text: a size, or a share of what is read.
    pub good_for: &'static str,
    /// Whether a shop may state its uncertainty as a share of what is read.
    pub in_percent: bool,
    /// Whether it only compares: what it is set on is part of every reading.
    pub compares: bool,
}

/// How well one reading by a gauge is known: one standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GoodFor {
    /// SI.
    Of(f64),
    /// A share of what is read.
    Share(f64),
}

impl GaugeKind {
    /// Whether it shows this kind; a clearance and a gap are lengths to it.
    #[must_use]
    pub fn shows(&self, kind: Kind) -> bool {
        let of_lengths = |id: &str| matches!(id, "length" | "clearance" | "gap");
        self.kinds.iter().any(|k| *k == kind.id() || *k == "length" && of_lengths(kind.id()))
    }
    fn kind(&self) -> Option<Kind> {
        self.kinds.first().and_then(|id| Kind::by_id(id))
    }
    /// Its smallest step, SI.
    #[must_use]
    pub fn step(&self) -> Option<f64> {
        self.kind()?.parse(self.step).ok()
    }
    /// How well one reading is known.
    #[must_use]
    pub fn good_for(&self) -> Option<GoodFor> {
        match self.kind()?.parse(self.good_for) {
            Ok(si) => Some(GoodFor::Of(si)),
            Err(_) => Kind::by_id("percent")?.parse(self.good_for).ok().map(GoodFor::Share),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    #[test]
    fn every_gauge_has_figures_that_are_more_than_nothing() {
        for gauge in crate::gauges() {
            assert!(gauge.step().unwrap_or_else(|| panic!("{}", gauge.name)) > 0.0, "{}", gauge.name);
            let (GoodFor::Of(u) | GoodFor::Share(u)) = gauge.good_for().unwrap_or_else(|| panic!("{}", gauge.name));
            assert!(u > 0.0, "{}", gauge.name);
        }
        assert_eq!(crate::gauge("leak-down-tester").unwrap().good_for(), Some(GoodFor::Of(0.015)));
        assert_eq!(crate::gauge("spring-tester").unwrap().good_for(), Some(GoodFor::Share(0.02)));
    }
}
