//! From several readings to one figure: of the points at a place, or of the places of a series.

use super::value::{Num, Roots};

/// Which figure of the points read at one place a fact is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pick {
    /// The smallest of all points.
    Smallest,
    /// The smallest of the points whose name has this word in it.
    SmallestOf(&'static str),
    /// The largest of all points.
    Largest,
    /// The mean of all points.
    Mean,
    /// The mean of the points whose name has this word in it; of all, where none has.
    MeanOf(&'static str),
    /// Within each height or end, the largest less the smallest direction; the greatest of those.
    OutOfRound,
    /// The mean over the directions at each height or end; the largest less the smallest.
    Taper,
}

/// What a series is reduced to, on the axis of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Reduce {
    /// The smallest.
    Min,
    /// The largest.
    Max,
    /// The largest less the smallest.
    Spread,
    /// The mean.
    Mean,
}

impl Reduce {
    /// Those that come by themselves, with the end of their name.
    pub(crate) const ALL: [(Self, &'static str, &'static str); 4] = [
        (Self::Min, ".min", "the smallest of them"),
        (Self::Max, ".max", "the largest of them"),
        (Self::Spread, ".spread", "the largest less the smallest"),
        (Self::Mean, ".mean", "the mean of them"),
    ];

    /// The figure of a series; none for an empty one.
    pub(crate) fn apply(self, series: &[&Num]) -> Option<Num> {
        match self {
            Self::Min => smallest(series).cloned(),
            Self::Max => largest(series).cloned(),
            Self::Spread => Some(difference(largest(series)?, smallest(series)?)),
            Self::Mean => mean(series),
        }
    }
}

impl Pick {
    /// The figure of the points read at one place; none where there are too few points, or none of that name, to say.
    pub(crate) fn apply(self, points: &[String], read: &[Num]) -> Option<Num> {
        let all: Vec<&Num> = read.iter().collect();
        match self {
            Self::Smallest => smallest(&all).cloned(),
            Self::SmallestOf(word) => smallest(&named(points, read, word)).cloned(),
            Self::Largest => largest(&all).cloned(),
            Self::Mean => mean(&all),
            Self::MeanOf(word) => {
                let these = named(points, read, word);
                mean(if these.is_empty() { &all } else { &these })
            }
            Self::OutOfRound => {
                let rounds = heights(points, read).into_iter().filter(|h| h.len() > 1);
                let each: Vec<Num> = rounds.filter_map(|h| Reduce::Spread.apply(&h)).collect();
                largest(&each.iter().collect::<Vec<_>>()).cloned()
            }
            Self::Taper => {
                let means: Vec<Num> = heights(points, read).iter().filter_map(|h| mean(h)).collect();
                if means.len() < 2 {
                    return None;
                }
                Reduce::Spread.apply(&means.iter().collect::<Vec<_>>())
            }
        }
    }
}

fn named<'a>(points: &[String], read: &'a [Num], word: &str) -> Vec<&'a Num> {
    points.iter().zip(read).filter(|(name, _)| name.contains(word)).map(|(_, n)| n).collect()
}

/// Words that say where along a bore or a journal a point is; the other words of its name are the direction.
const ALONG: &[&str] = &["top", "upper", "mid", "middle", "centre", "center", "lower", "bottom", "front", "rear"];

/// The points by height or end, in the order they were read in.
fn heights<'a>(points: &[String], read: &'a [Num]) -> Vec<Vec<&'a Num>> {
    let mut found: Vec<(Vec<&str>, Vec<&'a Num>)> = Vec::new();
    for (name, value) in points.iter().zip(read) {
        let height: Vec<&str> = name.split_whitespace().filter(|w| ALONG.contains(w)).collect();
        match found.iter_mut().find(|(h, _)| *h == height) {
            Some((_, values)) => values.push(value),
            None => found.push((height, vec![value])),
        }
    }
    found.into_iter().map(|(_, values)| values).collect()
}

fn smallest<'a>(these: &[&'a Num]) -> Option<&'a Num> {
    these.iter().copied().reduce(|a, b| if b.value < a.value { b } else { a })
}

/// The last of the largest, where `smallest` is the first of the smallest: the spread of equal readings is that of two
/// readings, which is not known better than either.
fn largest<'a>(these: &[&'a Num]) -> Option<&'a Num> {
    these.iter().copied().reduce(|a, b| if b.value >= a.value { b } else { a })
}

fn difference(a: &Num, b: &Num) -> Num {
    let mut roots = Roots::default();
    roots.add(&a.roots, 1.0);
    roots.add(&b.roots, -1.0);
    Num::of(a.value - b.value, roots)
}

fn mean(these: &[&Num]) -> Option<Num> {
    let count = these.len();
    if count == 0 {
        return None;
    }
    let by = 1.0 / count as f64;
    let mut roots = Roots::default();
    for n in these {
        roots.add(&n.roots, by);
    }
    Some(Num::of(these.iter().map(|n| n.value).sum::<f64>() * by, roots))
}
