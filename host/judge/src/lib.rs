//! The judge: what a value is worth against the limits of a window. A build's readings and a pack's cases are judged
//! here and nowhere else.
//!
//! Pure functions on numbers of any one unit; the host's are SI.
//!
//! - A window is *never below, work from, aim, work to, never above*. Outside the working limits a side weighs as its own
//!   level, no louder than their basis allows; outside the never-limits as a hold, whatever these rest on. What rests on
//!   practice, standards or makers the shop can sign for; what physics forbids it cannot.
//! - Limits are inclusive, to [`SAME`].
//! - At a never-limit beyond the working limit, and at a limit of physics that holds, the guard band of [`GUARD`] standard
//!   uncertainties decides whether the value is proven to be inside. At the others the plain value counts, as at a maker's working limits
//!   (simple acceptance, JCGM 106:2012, 8.2.1), and nearness to the edge is told beside it: ordinary gauges cannot prove a
//!   half-thou window, and a page of `unproven` is a page that nobody reads.
#![forbid(unsafe_code)]

mod limits;
mod state;

pub use limits::{Levels, Limits, basis, hold_basis};
pub use state::State;
use thou_contract::Level;

/// Limits are inclusive to this share: half of all "x thou" differ from "x/1000 in" in floating point.
pub const SAME: f64 = 1e-9;

/// One-sided guard band for 95 % conformance, in standard uncertainties: the 95 % quantile of the normal distribution
/// (ISO 14253-1:2017; JCGM 106:2012, 8.3).
pub const GUARD: f64 = 1.644_853_626_951_472_7;

/// On which side of its window a value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Miss {
    /// Too small.
    Low,
    /// Too large.
    High,
}

/// What a value is worth against a window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// No-go, unproven, look, note or go.
    pub state: State,
    /// On which side it is outside and how far from the farthest limit that it missed: the working limit is the farther
    /// one, and the distance back to it is what the hands want to know.
    pub miss: Option<(Miss, f64)>,
    /// Whether it is inside a working limit and nearer to it than the gauge can tell.
    pub near_edge: bool,
    /// Whether a never-limit decided, or could not be proven.
    pub by_never: bool,
}

struct Check {
    side: Miss,
    /// Positive inside.
    room: f64,
    scale: f64,
    level: Level,
    never: bool,
    /// Whether the value has to be proven to be inside.
    guarded: bool,
}

/// Holds a value of standard uncertainty `u` (zero or more, in the value's unit) against these limits.
#[must_use]
pub fn judge(value: f64, u: f64, limits: &Limits, levels: Levels) -> Judged {
    let at = |side, limit: f64, level, never| {
        let (room, working) = match side {
            Miss::Low => (value - limit, limits.low),
            Miss::High => (limit - value, limits.high),
        };
        // a working limit that is never passed is still a working limit: its card knows the gauges of a shop
        let both = never && working.is_some_and(|w| (w - limit).abs() <= SAME * limit.abs());
        let guarded = never && !both || levels.physics && (both || level == Level::Hold);
        Check { side, room, scale: limit.abs(), level, never, guarded }
    };
    let checks = [
        limits.never_below.map(|l| at(Miss::Low, l, Level::Hold, true)),
        limits.low.map(|l| at(Miss::Low, l, levels.below, false)),
        limits.never_above.map(|l| at(Miss::High, l, Level::Hold, true)),
        limits.high.map(|l| at(Miss::High, l, levels.above, false)),
    ];
    let mut judged = Judged { state: State::Go, miss: None, near_edge: false, by_never: false };
    for check in checks.into_iter().flatten() {
        let outside = check.room < -SAME * check.scale;
        if outside {
            let state = State::from_level(check.level);
            if state < judged.state {
                judged.state = state;
                judged.by_never = check.never;
            }
            if judged.miss.is_none_or(|(_, by)| -check.room > by) {
                judged.miss = Some((check.side, -check.room));
            }
        } else if check.room < GUARD * u - SAME * check.scale {
            if check.guarded && State::Unproven < judged.state {
                judged.state = State::Unproven;
                judged.by_never = check.never;
            }
            judged.near_edge |= !check.never;
        }
    }
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use thou_contract::Basis;

    const LIMITS: Limits =
        Limits { never_below: Some(3.5), low: Some(5.0), aim: Some(5.5), high: Some(6.5), never_above: None };
    const PRACTICE: Levels = Levels { below: Level::Warn, above: Level::Note, physics: false };

    fn state(value: f64, u: f64) -> State {
        judge(value, u, &LIMITS, PRACTICE).state
    }

    #[test]
    fn each_side_speaks_at_its_own_level() {
        assert_eq!(state(5.0, 0.0), State::Go);
        assert_eq!(state(4.99, 0.0), State::Look);
        assert_eq!(state(6.51, 0.0), State::Note);
        assert_eq!(state(3.49, 0.0), State::NoGo);
    }

    #[test]
    fn a_miss_is_told_from_the_farthest_limit() {
        let judged = judge(3.0, 0.0, &LIMITS, PRACTICE);
        assert_eq!((judged.miss, judged.by_never), (Some((Miss::Low, 2.0)), true));
        let judged = judge(4.0, 0.0, &LIMITS, PRACTICE);
        assert_eq!((judged.miss, judged.by_never), (Some((Miss::Low, 1.0)), false));
        let judged = judge(7.0, 0.0, &LIMITS, PRACTICE);
        assert_eq!((judged.miss, judged.by_never), (Some((Miss::High, 0.5)), false));
        assert_eq!(judge(6.0, 0.0, &LIMITS, PRACTICE).miss, None);
    }

    #[test]
    fn the_guard_band_counts_at_never_limits() {
        // 3.6 is 0.1 over a never-limit: a gauge of u = 0.05 proves it (1.645 u = 0.082), one of 0.07 does not (0.115)
        assert_eq!(state(3.6, 0.05), State::Look);
        assert_eq!(state(3.6, 0.07), State::Unproven);
        // 5.05 is as near to a working limit: a go, with the nearness told once a set
        assert_eq!(state(5.05, 0.07), State::Go);
        assert!(judge(5.05, 0.07, &LIMITS, PRACTICE).near_edge);
    }

    #[test]
    fn a_makers_working_limit_takes_the_plain_reading_and_one_of_physics_its_proof() {
        // a rod bolt's stretch of 5.5 to 6.5 thou on its card, read 5.55 with u = 0.07
        let card = Levels::capped(Level::Hold, Level::Hold, Basis::Maker);
        let limits = Limits { low: Some(5.5), high: Some(6.5), ..Limits::default() };
        assert_eq!(judge(5.55, 0.07, &limits, card).state, State::Go);
        assert_eq!(judge(5.45, 0.07, &limits, card).state, State::NoGo);
        let physics = Levels::capped(Level::Hold, Level::Hold, Basis::Physics);
        assert_eq!(judge(5.55, 0.07, &limits, physics).state, State::Unproven);
        assert_eq!(judge(5.62, 0.07, &limits, physics).state, State::Go);
    }

    #[test]
    fn a_cards_band_that_must_not_be_left_takes_the_plain_reading_at_its_ends() {
        // a rod bolt's card: 5.7 to 6.7 thou and nothing outside; the stretch gauge reads to a tenth
        let never =
            Limits { never_below: Some(5.7), low: Some(5.7), high: Some(6.7), never_above: Some(6.7), aim: None };
        let card = Levels::capped(Level::Hold, Level::Hold, Basis::Maker);
        assert_eq!(judge(5.7, 0.1, &never, card).state, State::Go);
        assert_eq!(judge(6.7, 0.1, &never, card).state, State::Go);
        assert_eq!(judge(5.6, 0.1, &never, card).state, State::NoGo);
        let physics = Levels::capped(Level::Hold, Level::Hold, Basis::Physics);
        assert_eq!(judge(5.7, 0.1, &never, physics).state, State::Unproven);
    }

    #[test]
    fn conformance_probability_at_the_guard_band_is_95_percent() {
        // JCGM 106:2012, 8.3.2: acceptance limit = tolerance limit + 1.645 u gives 95 %
        let probability =
            thou_mechanics::uncertainty::conformance_probability(3.5 + GUARD * 0.07, 0.07, 3.5, f64::INFINITY);
        assert!((probability - 0.95).abs() < 1e-9, "{probability}");
    }

    #[test]
    fn practice_caps_working_limits_and_never_is_never() {
        let capped = Levels::capped(Level::Hold, Level::Warn, Basis::Practice);
        assert_eq!(judge(4.0, 0.0, &LIMITS, capped).state, State::Look);
        assert_eq!(judge(1.0, 0.0, &LIMITS, capped).state, State::NoGo);
    }

    #[test]
    fn inches_and_thou_are_the_same_limit() {
        let limits = Limits { low: Some(0.005 * 0.0254), ..Limits::default() };
        assert_eq!(judge(5.0 * 2.54e-5, 0.0, &limits, PRACTICE).state, State::Go);
    }
}
