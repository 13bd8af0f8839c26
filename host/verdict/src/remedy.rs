//! Sizes that bring a fact inside its window: the root of the fact graph in one of the facts behind it.

use super::item::Solved;
use super::moves;
use super::view::read_twice;
use thou_facts::{FactInfo, PlaceValue, SheetFacts};
use thou_judge::Limits;
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// What is to be solved: bring `judged` at `place` inside `limits` by changing `change`.
pub struct Wish<'a> {
    /// The fact that is judged.
    pub judged: &'a str,
    /// What that fact runs over.
    pub axis: Axis,
    /// Its place on that axis.
    pub place: usize,
    /// Where it is to end up.
    pub limits: Limits,
    /// The fact that is changed.
    pub change: &'a str,
    /// up, down or either.
    pub may: &'a str,
    /// How often the fact may still be worked out; see [`WORKED_OUT`].
    pub left: &'a std::cell::Cell<usize>,
}

/// How often facts are worked out anew for all the sizes of a page: a pack can miss thousands of windows on purpose, and
/// a bearing's orbit takes milliseconds. A sheet on which everything is missed takes some three thousand.
pub const WORKED_OUT: usize = 10_000;

/// The range of sizes to go to; none where no size of that part does it, or the sheet lacks the fixed parts.
#[must_use]
pub fn solve(sheet: &Sheet, facts: &SheetFacts<'_>, wish: &Wish<'_>) -> Option<Solved> {
    let info = facts.info(wish.change)?;
    let at = sheet.places.project(info.axis, wish.axis, wish.place)?;
    let now_cell = facts.cells(wish.change).get(at).cloned();
    let now = now_cell.as_ref().and_then(|c| c.as_ref().ok()).map(|n| n.value);
    let limit = |target: Option<f64>| target.and_then(|t| root(facts, wish, at, now, t));
    let ends =
        (limit(wish.limits.low.or(wish.limits.never_below)), limit(wish.limits.high.or(wish.limits.never_above)));
    // a size can work against the fact: a larger journal closes its clearance
    let (mut from, mut to) = match ends {
        (Some(a), Some(b)) => (Some(a.min(b)), Some(a.max(b))),
        (Some(a), None) if rises(facts, wish, at, a)? => (Some(a), None),
        (Some(a), None) => (None, Some(a)),
        (None, Some(b)) if rises(facts, wish, at, b)? => (None, Some(b)),
        (None, Some(b)) => (Some(b), None),
        (None, None) => return None,
    };
    if let Some(now) = now {
        match wish.may {
            "up" => from = Some(from.map_or(now, |f| f.max(now))),
            "down" => to = Some(to.map_or(now, |t| t.min(now))),
            _ => {}
        }
    }
    if from.zip(to).is_some_and(|(f, t)| f > t) || !can_be(info, now, from, to) {
        return None;
    }
    // an end that no such part can have is where such parts end: no gasket is -0.004 in or more
    if let Some((least, most)) = band(info) {
        from = from.map(|from| from.max(least));
        to = to.map(|to| to.min(most));
    }
    let inside = |x: f64| from.is_none_or(|f| x >= f) && to.is_none_or(|t| x <= t);
    Some(Solved {
        fact: wish.change.to_owned(),
        place: (info.axis != Axis::One).then_some((info.axis, at)),
        now,
        from,
        to,
        aim: limit(wish.limits.aim).filter(|a| inside(*a)),
        cuts_metal: moves::cuts_metal(wish.change),
        read_twice: now_cell.and_then(Result::ok).is_some_and(|n| read_twice(sheet, facts, &n)),
    })
}

/// Of these sizes the ones that suit what the part itself is held to: one size for one setting.
#[must_use]
pub fn within(solved: Solved, room: &Limits) -> Option<Solved> {
    let tighter = |a: Option<f64>, b: Option<f64>, pick: fn(f64, f64) -> f64| match (a, b) {
        (Some(a), Some(b)) => Some(pick(a, b)),
        (a, b) => a.or(b),
    };
    let from = tighter(solved.from, room.low.or(room.never_below), f64::max);
    let to = tighter(solved.to, room.high.or(room.never_above), f64::min);
    let inside = |aim: &f64| from.is_none_or(|f| *aim >= f) && to.is_none_or(|t| *aim <= t);
    let aim = solved.aim.filter(inside).or(room.aim.filter(inside));
    let some = from.zip(to).is_none_or(|(from, to)| from <= to);
    some.then_some(Solved { from, to, aim, ..solved })
}

/// How many times larger or smaller than it is a part can be made by work on it or by another of its kind; past that
/// another figure of the sheet is wrong, or another part is wanted. Ours, no source.
const PLAUSIBLE: f64 = 2.0;

/// The sizes that such a part can have in any engine.
fn band(info: &FactInfo) -> Option<(f64, f64)> {
    info.path.and_then(thou_fields::field).and_then(|f| f.band?.si(f.kind()?))
}

/// Whether a part of this kind can have such a size at all, and one that is like the one that is there.
fn can_be(info: &FactInfo, now: Option<f64>, from: Option<f64>, to: Option<f64>) -> bool {
    let (least, most) = band(info).unwrap_or((0.0, f64::INFINITY));
    // a gap is filed, and a clearance cut, to any multiple of what it was
    let part = !matches!(info.value.kind().map(|k| k.id()), Some("clearance" | "gap"));
    let (least, most) = match now {
        Some(now) if now > 0.0 && part => (least.max(now / PLAUSIBLE), most.min(now * PLAUSIBLE)),
        _ => (least, most),
    };
    from.is_none_or(|from| from <= most) && to.is_none_or(|to| to >= least)
}

/// The judged fact with `x` in place of the fact that is changed, as the parts give it.
fn value(facts: &SheetFacts<'_>, wish: &Wish<'_>, at: usize, x: f64) -> Option<f64> {
    if wish.judged == wish.change {
        return Some(x);
    }
    wish.left.set(wish.left.get().checked_sub(1)?);
    let fork = facts.values_with(&[(wish.change, at, x)]);
    let cell: PlaceValue = fork.derived(wish.judged).get(wish.place).cloned()?;
    cell.ok().map(|n| n.value)
}

fn rises(facts: &SheetFacts<'_>, wish: &Wish<'_>, at: usize, x: f64) -> Option<bool> {
    let step = x.abs().max(1e-3) * 1e-6;
    Some(value(facts, wish, at, x + step)? > value(facts, wish, at, x - step)?)
}

/// Where the judged fact is `target`, by the secant rule; the facts that a size is solved for are smooth and monotone.
fn root(facts: &SheetFacts<'_>, wish: &Wish<'_>, at: usize, now: Option<f64>, target: f64) -> Option<f64> {
    let start = now.unwrap_or(0.05);
    let (mut x0, mut x1) = (start, start * 1.001 + 1e-6);
    let mut f0 = value(facts, wish, at, x0)? - target;
    for _ in 0..40 {
        let f1 = value(facts, wish, at, x1)? - target;
        if f1.abs() <= 1e-12 * target.abs().max(1e-6) {
            return Some(x1);
        }
        let slope = (f1 - f0) / (x1 - x0);
        if !slope.is_finite() || slope == 0.0 {
            // the last step was too small to see: near enough if it is near, no root if it is not
            return (f1.abs() <= 1e-9 * target.abs().max(1e-6)).then_some(x1);
        }
        (x0, f0) = (x1, f1);
        x1 -= f1 / slope;
    }
    None
}

/// The limits that all of several windows leave, or none where they leave no room.
#[must_use]
pub fn intersect(all: &[Limits]) -> Option<Limits> {
    let most = |pick: fn(&Limits) -> Option<f64>| {
        all.iter().filter_map(pick).fold(None, |m: Option<f64>, v| Some(m.map_or(v, |m| m.max(v))))
    };
    let least = |pick: fn(&Limits) -> Option<f64>| {
        all.iter().filter_map(pick).fold(None, |m: Option<f64>, v| Some(m.map_or(v, |m| m.min(v))))
    };
    let never_below = most(|l| l.never_below);
    let never_above = least(|l| l.never_above);
    let low = most(|l| l.low.or(l.never_below));
    let high = least(|l| l.high.or(l.never_above));
    if low.zip(high).is_some_and(|(l, h)| l > h * (1.0 + 1e-9)) {
        return None;
    }
    let inside = |a: f64| low.is_none_or(|l| a >= l) && high.is_none_or(|h| a <= h);
    let aim = all.iter().filter_map(|l| l.aim).find(|a| inside(*a));
    Some(Limits { never_below, low, aim, high, never_above })
}
