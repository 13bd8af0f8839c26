//! What an outing does to a part, as so many of the outings that its life is counted in.
//!
//! A pass is cut into segments, each with its turns and its speed (burnout, idle, run, shut-off). The damage of a segment
//! is its turns times a power of the stress ratio there, and damages add: Palmgren 1924, Miner 1945. A life is counted
//! in the pass that the sheet's intent describes, so a logged pass counts as its own damage over that one's. Nobody knows
//! the power to better than half: a harder outing is weighed with the steep one, a softer one with the shallow one.
//! A planning figure, and no promise. What hurts a part, and by which powers, its service says.

use std::f64::consts::TAU;
use thou_contract::slopes::{LONGEST, SHORTEST};
use thou_contract::wear::{Cause, Stress};
use thou_mechanics::fatigue::{miner, turns};

/// Some time at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// s, zero or more.
    pub time: f64,
    /// Of the crank, rad/s, zero or more.
    pub speed: f64,
    /// Mean effective pressure over that of the run in the intent's own pass; one at full load as described.
    pub load: f64,
}

/// Load of a burnout, idle and shut-off over that of the run: wheels that spin, none, and coasting. Common practice, no
/// source; with powers of 3 and more they hardly count.
const BURNOUT_LOAD: f64 = 0.6;
const IDLE_LOAD: f64 = 0.15;
const SHUT_OFF_LOAD: f64 = 0.05;
/// Load of driving along the road. Common practice, no source.
const ROAD_LOAD: f64 = 0.25;
/// How fast a pull sweeps, rad/s²: 300 rpm a second. Common practice, no source.
const SWEEP: f64 = 300.0 * TAU / 60.0;
/// Steps that a pull is cut into.
const PULL_STEPS: u32 = 10;

/// What surge and shock add to a spring's open load at the peak speed. Common practice, no source.
const SURGE: f64 = 0.1;
/// A ring's own tension over the gas pressure behind it; from memory.
const TENSION: f64 = 0.1;

/// The least that a pass counts for: the pack makes no life longer than one and a half times, so a pass is never less
/// than two thirds of one. Only the shop's own measurements may say more.
pub const LEAST: f64 = 1.0 / LONGEST;
/// The most that an outing counts for, as the pack makes no life shorter than a fifth.
pub const MOST: f64 = 1.0 / SHORTEST;

/// What the sheet's intent says of an outing; SI, nothing where the sheet does not say.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Intent {
    /// Burnout: time in s and speed in rad/s.
    pub burnout: Option<[f64; 2]>,
    /// Idle.
    pub idle: Option<[f64; 2]>,
    /// The run itself; without it no pass is weighed.
    pub run: Option<[f64; 2]>,
    /// Shut-off and the way back.
    pub shut_off: Option<[f64; 2]>,
    /// The highest speed of the pass described: the shift, rad/s.
    pub peak: Option<f64>,
    /// Elapsed time of the pass described, s.
    pub elapsed: Option<f64>,
    /// Mean effective pressure with the adder on, over that of the pass described.
    pub adder_on: Option<f64>,
    /// The same with the adder off: one where the pass described is without.
    pub adder_off: Option<f64>,
    /// Where a pull starts and ends, rad/s.
    pub pull: Option<[f64; 2]>,
    /// Mean speed on the road, rad/s.
    pub road_speed: Option<f64>,
    /// Share of the road at full load.
    pub road_full: Option<f64>,
    /// Way on the road for a radian of the crank in top gear, m.
    pub metres_per_radian: Option<f64>,
}

/// One logged outing of a kind; several of the same are weighed once.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Outing {
    /// The highest speed seen, rad/s.
    pub peak: Option<f64>,
    /// Elapsed time, s.
    pub elapsed: Option<f64>,
    /// Whether the adder was on.
    pub adder: bool,
}

impl Intent {
    /// The segments of a pass; nothing where the sheet does not describe its run.
    #[must_use]
    pub fn pass(&self, outing: Outing) -> Option<Vec<Segment>> {
        let [time, speed] = self.run?;
        let faster = ratio(outing.peak, self.peak);
        let longer = ratio(outing.elapsed, self.elapsed.or(Some(time)));
        let load = if outing.adder { self.adder_on } else { self.adder_off }.unwrap_or(1.0);
        let run = Segment { time: time * longer, speed: speed * faster, load };
        let rest = [(self.burnout, BURNOUT_LOAD), (self.idle, IDLE_LOAD), (self.shut_off, SHUT_OFF_LOAD)];
        let rest = rest.into_iter().filter_map(|(part, load)| part.map(|[time, speed]| Segment { time, speed, load }));
        Some(std::iter::once(run).chain(rest).collect())
    }

    /// The pass that the intent describes: with the adder, where its power is with it.
    fn described(&self) -> Option<Vec<Segment>> {
        let with = self.adder_off.is_some_and(|off| (off - 1.0).abs() > 1e-12);
        self.pass(Outing { adder: with, ..Outing::default() })
    }

    /// The segments of one pull on the dyno: a steady sweep at full load.
    #[must_use]
    pub fn pull(&self) -> Option<Vec<Segment>> {
        let [from, to] = self.pull.filter(|[from, to]| *from > 0.0 && to > from)?;
        let step = (to - from) / f64::from(PULL_STEPS);
        let at = |n: u32| Segment { time: step / SWEEP, speed: (f64::from(n) + 0.5).mul_add(step, from), load: 1.0 };
        Some((0..PULL_STEPS).map(at).collect())
    }

    /// The segments of a metre on the road.
    #[must_use]
    pub fn metre(&self) -> Option<Vec<Segment>> {
        let speed = self.road_speed.filter(|s| *s > 0.0)?;
        let time = 1.0 / (speed * self.metres_per_radian.filter(|w| *w > 0.0)?);
        let full = self.road_full.unwrap_or(0.0).clamp(0.0, 1.0);
        let part = |share: f64, load: f64| Segment { time: time * share, speed, load };
        Some(vec![part(full, 1.0), part(1.0 - full, ROAD_LOAD)])
    }

    /// What a logged pass counts as, for a life that is counted in passes. None where the sheet does not say enough.
    #[must_use]
    pub fn pass_counts(&self, wears: &[Vec<Stress>], outing: Outing) -> Option<f64> {
        let (pass, one) = (self.pass(outing)?, self.described()?);
        Some(self.over(wears, &pass, &one)?.clamp(LEAST, MOST))
    }

    /// What a pull counts as, for a life in passes. Nothing holds it up: a pull is no pass.
    #[must_use]
    pub fn pull_counts(&self, wears: &[Vec<Stress>]) -> Option<f64> {
        Some(self.over(wears, &self.pull()?, &self.described()?)?.min(MOST))
    }

    /// What a metre of road counts as, for a life in passes.
    #[must_use]
    pub fn metre_counts(&self, wears: &[Vec<Stress>]) -> Option<f64> {
        self.over(wears, &self.metre()?, &self.described()?)
    }

    /// What a pass counts as, in metres, for a life on the road.
    #[must_use]
    pub fn pass_in_metres(&self, wears: &[Vec<Stress>], outing: Outing) -> Option<f64> {
        self.over(wears, &self.pass(outing)?, &self.metre()?)
    }

    /// What a pull counts as, in metres, for a life on the road.
    #[must_use]
    pub fn pull_in_metres(&self, wears: &[Vec<Stress>]) -> Option<f64> {
        self.over(wears, &self.pull()?, &self.metre()?)
    }

    /// Damage over damage in the place that comes off worst, by the steep slope where that is over one for a turn of the
    /// worst segment, else by the shallow one.
    fn over(&self, wears: &[Vec<Stress>], duty: &[Segment], one: &[Segment]) -> Option<f64> {
        let peak = self.run.map(|r| r[1]).or(self.road_speed).filter(|p| *p > 0.0)?;
        let place = |stresses: &Vec<Stress>| {
            let by = |up: bool| damage(stresses, duty, peak, up) / damage(stresses, one, peak, up);
            let (steep, shallow) = (by(true), by(false));
            if steep > 1.0 { steep.max(shallow) } else { shallow.max(steep) }
        };
        wears.iter().map(place).filter(|w| w.is_finite()).reduce(f64::max)
    }
}

fn ratio(value: Option<f64>, reference: Option<f64>) -> f64 {
    match (value, reference) {
        (Some(v), Some(r)) if v > 0.0 && r > 0.0 => v / r,
        _ => 1.0,
    }
}

/// Sum of turns over what a part stands of each, with one turn at the peak speed and full load as the measure.
fn damage(stresses: &[Stress], duty: &[Segment], peak: f64, up: bool) -> f64 {
    let loads: Vec<[f64; 2]> = duty
        .iter()
        .map(|segment| {
            let faster = segment.speed / peak;
            let hurts = stresses.iter().fold(1.0, |product: f64, stress| {
                let g = match stress.cause {
                    Cause::Inertia => faster * faster,
                    Cause::Landing => faster,
                    Cause::Pressure => segment.load,
                    Cause::Spring => (SURGE * faster).mul_add(faster, 1.0) / (1.0 + SURGE),
                    Cause::Sliding => (segment.load + TENSION) / (1.0 + TENSION),
                };
                product * g.powf(if up { stress.slope.harder } else { stress.slope.softer })
            });
            [turns(segment.time, segment.speed), 1.0 / hurts]
        })
        .collect();
    miner(&loads)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use thou_contract::slopes::{self, BOSS, CROWN, OVERLAY, SPRING_LOAD, STEEL, VALVE, WEAR};
    use thou_contract::wear::Wears;

    const RPM: f64 = TAU / 60.0;

    fn one(cause: Cause, slope: slopes::Slope) -> Wears {
        vec![vec![Stress::of(cause, slope)]]
    }

    fn bolts() -> Wears {
        one(Cause::Inertia, STEEL)
    }

    fn shells() -> Wears {
        vec![vec![Stress::of(Cause::Pressure, OVERLAY)], vec![Stress::of(Cause::Inertia, OVERLAY)]]
    }

    fn pistons() -> Wears {
        vec![vec![Stress::of(Cause::Pressure, CROWN)], vec![Stress::of(Cause::Inertia, BOSS)]]
    }

    /// Every cause by every slope that has a name, several places of one part, two stresses in one place, and turns alone.
    fn kinds() -> Vec<Wears> {
        let causes = Cause::NAMED.into_iter();
        let mut all: Vec<Wears> =
            causes.flat_map(|(_, cause)| slopes::NAMED.into_iter().map(move |(_, slope)| one(cause, slope))).collect();
        let retainers = vec![vec![Stress::of(Cause::Spring, SPRING_LOAD), Stress::of(Cause::Landing, VALVE)]];
        all.extend([shells(), pistons(), retainers, vec![vec![]]]);
        all
    }

    /// The pass of the trade's own worked example: 6 s of burnout at 5,500, 120 s idle at 1,250, 9.2 s at a mean of
    /// 6,700 and 8 s of shut-off at 4,200.
    fn bracket() -> Intent {
        Intent {
            burnout: Some([6.0, 5_500.0 * RPM]),
            idle: Some([120.0, 1_250.0 * RPM]),
            run: Some([9.2, 6_700.0 * RPM]),
            shut_off: Some([8.0, 4_200.0 * RPM]),
            peak: Some(7_200.0 * RPM),
            elapsed: Some(9.2),
            adder_on: Some(1.25),
            adder_off: Some(1.0),
            pull: Some([5_000.0 * RPM, 7_200.0 * RPM]),
            road_speed: Some(2_200.0 * RPM),
            road_full: Some(0.03),
            metres_per_radian: Some(0.103),
        }
    }

    #[test]
    fn the_pass_that_the_sheet_describes_counts_as_one() {
        for wears in kinds() {
            let one = bracket().pass_counts(&wears, Outing::default()).unwrap();
            assert!((one - 1.0).abs() < 1e-12, "{wears:?} {one}");
        }
    }

    /// (7600/7200)^17 is 2.507; every turn of the run is that much harder, and the run is 98 % of the damage and more.
    #[test]
    fn four_hundred_turns_more_cost_the_bolts_two_and_a_half_passes() {
        let outing = Outing { peak: Some(7_600.0 * RPM), ..Outing::default() };
        let counts = bracket().pass_counts(&bolts(), outing).unwrap();
        let turned = 9.2 * 6_700.0 / 60.0;
        let rest = 6.0 * 5_500.0 / 60.0 * (5_500.0_f64 / 6_700.0).powi(17)
            + 8.0 * 4_200.0 / 60.0 * (4_200.0_f64 / 6_700.0).powi(17)
            + 120.0 * 1_250.0 / 60.0 * (1_250.0_f64 / 6_700.0).powi(17);
        // speed to the power 17 by damage a turn, and once more for the turns themselves
        let by_hand = (turned * (7_600.0_f64 / 7_200.0).powi(18) + rest) / (turned + rest);
        assert!((counts / by_hand - 1.0).abs() < 1e-12, "{counts} {by_hand}");
        assert!((2.4..2.65).contains(&counts));
    }

    /// 1.25^6 = 3.81 for the shells, 1.25^5 = 3.05 for the pistons: a pass with the shot is three or four.
    #[test]
    fn a_pass_with_the_shot_counts_as_three_or_four() {
        let shot = Outing { adder: true, ..Outing::default() };
        let of = |wears: &Wears| bracket().pass_counts(wears, shot).unwrap();
        // what is not the run keeps its share: burnout 550 turns at 0.6, idle 2,500 at 0.15, shut-off 560 at 0.05
        let by_hand = |power: i32| {
            let run = 9.2 * 6_700.0 / 60.0;
            let rest = 550.0 * 0.6_f64.powi(power) + 2_500.0 * 0.15_f64.powi(power) + 560.0 * 0.05_f64.powi(power);
            (run * 1.25_f64.powi(power) + rest) / (run + rest)
        };
        assert!((of(&shells()) - by_hand(6)).abs() < 1e-9 && (3.7..3.82).contains(&by_hand(6)));
        assert!((of(&pistons()) - by_hand(5)).abs() < 1e-9 && (2.9..3.06).contains(&by_hand(5)));
        let rings = one(Cause::Sliding, WEAR);
        assert!((1.05..1.25).contains(&of(&rings)), "{}", of(&rings));
        assert!((of(&bolts()) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_soft_pass_never_counts_under_two_thirds_and_a_hard_one_never_over_five() {
        let soft = Outing { peak: Some(5_000.0 * RPM), elapsed: Some(6.0), adder: false };
        let hard = Outing { peak: Some(8_600.0 * RPM), ..Outing::default() };
        let bolts = &bolts();
        assert!((bracket().pass_counts(bolts, soft).unwrap() - LEAST).abs() < 1e-12);
        assert!((bracket().pass_counts(bolts, hard).unwrap() - MOST).abs() < 1e-12);
        // shifted 200 sooner: the shallow slope, not the steep one
        let sooner = Outing { peak: Some(7_000.0 * RPM), ..Outing::default() };
        let counts = bracket().pass_counts(bolts, sooner).unwrap();
        assert!(counts > (7_000.0_f64 / 7_200.0).powi(9) - 0.02 && counts < 0.82, "{counts}");
    }

    #[test]
    fn a_softer_pass_never_counts_for_more_and_a_faster_one_never_for_less() {
        for wears in kinds() {
            let mut before = 0.0;
            for rpm in (4_000..9_000).step_by(100) {
                let outing = Outing { peak: Some(f64::from(rpm) * RPM), ..Outing::default() };
                let counts = bracket().pass_counts(&wears, outing).unwrap();
                assert!(counts >= before - 1e-12, "{wears:?} at {rpm}: {counts} after {before}");
                before = counts;
            }
        }
    }

    /// The run has 1,027 turns of 4,637, and at 7,600 instead of 7,200 it has 1,084.
    #[test]
    fn turns_alone_are_counted_however_hard_they_were() {
        let turns_alone: Wears = vec![vec![]];
        let outing = Outing { peak: Some(7_600.0 * RPM), adder: true, ..Outing::default() };
        let (run, rest) = (9.2 * 6_700.0 / 60.0, 550.0 + 2_500.0 + 560.0);
        let by_hand = (run * 7_600.0 / 7_200.0 + rest) / (run + rest);
        let counts = bracket().pass_counts(&turns_alone, outing).unwrap();
        assert!((counts / by_hand - 1.0).abs() < 1e-12 && (1.01..1.02).contains(&by_hand), "{counts} {by_hand}");
    }

    /// A pull from 5,000 to 7,200 takes 7.3 s, 748 turns, few of them at the top.
    #[test]
    fn a_pull_is_its_own_turns() {
        let pull = bracket().pull().unwrap();
        let time: f64 = pull.iter().map(|s| s.time).sum();
        let turned: f64 = pull.iter().map(|s| turns(s.time, s.speed)).sum();
        assert!((time - 2_200.0 / 300.0).abs() < 1e-9 && (turned - 6_100.0 / 60.0 * 2_200.0 / 300.0).abs() < 1e-6);
        let counts = bracket().pull_counts(&bolts()).unwrap();
        assert!((0.2..1.5).contains(&counts), "{counts}");
    }

    #[test]
    fn what_the_sheet_does_not_say_is_not_counted() {
        let bolts = &bolts();
        let none = Intent::default();
        assert!(none.pass_counts(bolts, Outing::default()).is_none() && none.pull_counts(bolts).is_none());
        assert!(Intent { pull: None, ..bracket() }.pull_counts(bolts).is_none());
        assert!(Intent { metres_per_radian: None, ..bracket() }.metre_counts(bolts).is_none());
        assert!(Intent { run: None, ..bracket() }.pass_in_metres(bolts, Outing::default()).is_none());
        assert!(bracket().metre_counts(bolts).unwrap() < 1e-4);
        assert!(bracket().pass_in_metres(&one(Cause::Sliding, WEAR), Outing::default()).unwrap() > 500.0);
    }
}
