//! Items that a page tells together.

use super::bench::Bench;
use thou_verdict::{Item, Limits};

/// A window as it prints: what a hand can tell apart.
struct PrintedWindow {
    limits: [Option<f64>; 4],
    last_digit: f64,
}

impl PrintedWindow {
    fn of(bench: &Bench<'_>, fact: &str, limits: &Limits) -> Self {
        let figure = bench.figure(fact);
        let print = |si: f64| figure.number(si).parse::<f64>().unwrap_or(f64::NAN);
        let limits = [limits.low, limits.high, limits.never_below, limits.never_above].map(|l| l.map(print));
        Self { limits, last_digit: figure.last_digit() }
    }

    /// Whether two windows on a fact are one for a hand: no limit differs by more than the last printed digit.
    fn alike(&self, other: &Self) -> bool {
        let near = |(x, y): (&Option<f64>, &Option<f64>)| match (x, y) {
            (Some(x), Some(y)) => (x - y).abs() < 1.5 * self.last_digit,
            (None, None) => true,
            _ => false,
        };
        self.limits.iter().zip(&other.limits).all(near)
    }
}

/// Whether two windows on a fact are one for a hand.
pub(super) fn alike(bench: &Bench<'_>, fact: &str, a: &Limits, b: &Limits) -> bool {
    PrintedWindow::of(bench, fact, a).alike(&PrintedWindow::of(bench, fact, b))
}

/// Items whose windows are one for a hand and that are otherwise the same, in the order of the first of each set. Each
/// window is printed once: there may be thousands.
pub(super) fn sets<'a>(
    bench: &Bench<'_>,
    items: impl Iterator<Item = &'a Item>,
    same: impl Fn(&Item, &Item) -> bool,
) -> Vec<Vec<&'a Item>> {
    let mut sets: Vec<(Option<PrintedWindow>, Vec<&Item>)> = Vec::new();
    for item in items {
        let printed = item.fact.as_deref().zip(item.limits.as_ref()).map(|(fact, l)| PrintedWindow::of(bench, fact, l));
        let alike = |other: &Option<PrintedWindow>| match (other, &printed) {
            (Some(a), Some(b)) => a.alike(b),
            (None, None) => true,
            _ => false,
        };
        let fits = |(p, set): &(Option<PrintedWindow>, Vec<&Item>)| {
            set.first().is_some_and(|first| first.rule == item.rule && same(first, item)) && alike(p)
        };
        match sets.iter_mut().find(|s| fits(s)) {
            Some((_, set)) => set.push(item),
            None => sets.push((printed, vec![item])),
        }
    }
    sets.into_iter().map(|(_, set)| set).collect()
}
