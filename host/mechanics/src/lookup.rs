//! Cubics through a table's neighbours, for the tables of films.

use crate::Outside;

/// Rows of the film tables: even steps of the root of the film's share of the clearance, from 1 to 0.07.
pub(crate) const ROWS: usize = 16;
const LAST_ROOT: f64 = 0.07;

/// Where among the rows an eccentricity is.
pub(crate) fn eccentricity_row(eccentricity: f64) -> f64 {
    (1.0 - (1.0 - eccentricity).max(0.0).sqrt()) * ((ROWS - 1) as f64 / (1.0 - LAST_ROOT))
}

/// Four neighbours of a place in a table of evenly spaced rows, and their weights: Lagrange's cubic.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Neighbours {
    pub(crate) first: usize,
    pub(crate) weights: [f64; 4],
}

impl Neighbours {
    /// At a place from 0 to rows - 1; beyond, what stands at the end.
    pub(crate) fn at(place: f64, rows: usize) -> Self {
        let place = place.clamp(0.0, (rows - 1) as f64);
        // the cast of a clamped number cannot fail, and one that is not a number becomes 0
        let first = (place as usize).saturating_sub(1).min(rows - 4);
        let u = place - first as f64;
        let (a, b, c) = (u - 1.0, u - 2.0, u - 3.0);
        Self { first, weights: [-a * b * c / 6.0, u * b * c / 2.0, -u * a * c / 2.0, u * a * b / 6.0] }
    }

    /// Row and weight of each.
    pub(crate) fn weights(&self) -> impl Iterator<Item = (usize, f64)> {
        (self.first..).zip(self.weights)
    }
}

/// Lengths over diameter that the film tables have.
const RATIOS: [f64; 6] = [0.125, 0.25, 0.375, 0.5, 0.75, 1.0];

/// The four nearest lengths over diameter and their weights; beyond the ends, what stands there.
pub(crate) fn blend(ratio: f64) -> [(usize, f64); 4] {
    let ratio = ratio.clamp(0.125, 1.0);
    let first = if ratio < 0.375 {
        0
    } else if ratio < 0.5 {
        1
    } else {
        2
    };
    let node = |k: usize| RATIOS.get(first + k).copied().unwrap_or(1.0);
    std::array::from_fn(|k| {
        let weight = (0..4).filter(|j| *j != k).map(|j| (ratio - node(j)) / (node(k) - node(j))).product();
        (first + k, weight)
    })
}

/// Nothing wrong with a value between two others.
pub(crate) fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<(), Outside> {
    if (low..=high).contains(&value) { Ok(()) } else { Err(Outside::NotBetween { what, value, low, high }) }
}
