//! What a pass does to what tires and to what wears: to compare one duty with another, not to promise a life.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable};
use thou_mechanics::{fatigue, wear};
use thou_sheet::Axis::One;
use uom::si::f64::{AngularVelocity, Length, Ratio, Time};

pub(super) fn facts(b: &mut Builder) {
    b.usual(
        "rod-bolt.damage-power",
        "ratio",
        "Power of the stress that fatigue of a machined steel goes with.",
        "slope of the line through 0.9 Sut at a thousand and the endurance limit at a million cycles, Shigley's Mechanical \
         Engineering Design, eq. 6-14 and 6-15: 8.5 for a usual steel, 6 to 10 by strength and finish",
        [],
        |_| Some((6.0, 10.0)),
    );
    b.derive(
        "pass.equivalent-revolutions",
        "count",
        One,
        "Revolutions where it is shifted that tire a rod bolt as much as a pass does: run, burnout and shut-off at their \
         mean speeds; idling counts for nothing.",
        "Palmgren 1924, Miner 1945: sum of n (w/w0)^(2 m), since the pull goes with the square of speed; a mean speed \
         hides the peaks of a run, so this is on the low side",
        [
            "duty.run.time",
            "duty.run.mean-speed",
            "duty.burnout.time",
            "duty.burnout.speed",
            "duty.shut-off.time",
            "duty.shut-off.speed",
            "working-speed",
            "rod-bolt.damage-power",
        ],
        |run_t: Time,
         run: AngularVelocity,
         burnout_t: Option<Time>,
         burnout: Option<AngularVelocity>,
         off_t: Option<Time>,
         off: Option<AngularVelocity>,
         shift: AngularVelocity,
         power: Ratio| {
            let over = |speed: Option<AngularVelocity>| speed.is_some_and(|speed| speed > shift);
            if over(Some(run)) || over(burnout) || over(off) {
                return Err(Unavailable::Outside(
                    "a mean speed of the pass is over the speed it is shifted at: one of the two is a slip",
                ));
            }
            let part = |time: Option<Time>, speed: Option<AngularVelocity>| match (time, speed) {
                (Some(time), Some(speed)) => [time.value, speed.value],
                _ => [0.0, 0.0],
            };
            let duty = [[run_t.value, run.value], part(burnout_t, burnout), part(off_t, off)];
            let turns = fatigue::equivalent_turns(&duty, shift.value, power.value);
            if turns.is_finite() { Ok(Ratio::si(turns)) } else { Err(Unavailable::Outside("it is shifted at no speed")) }
        },
    );
    b.derive(
        "pass.hard-share",
        "percent",
        One,
        "How much of a pass's revolutions that is.",
        "ratio of two counts",
        ["pass.equivalent-revolutions", "duty.revolutions"],
        |hard: Ratio, all: Ratio| -> Ratio { hard / all },
    );
    b.derive(
        "freshen.equivalent-revolutions",
        "count",
        One,
        "Such revolutions over the passes that the owner wants between freshens.",
        "passes by revolutions a pass",
        ["freshen.wanted", "pass.equivalent-revolutions"],
        |passes: Ratio, each: Ratio| -> Ratio { passes * each },
    );
    b.derive(
        "ring.travel-a-pass",
        "distance",
        One,
        "How far a ring slides in a pass.",
        "two strokes a revolution; wear goes with it, Archard, J. Applied Physics 24 (1953) 981",
        ["stroke", "duty.revolutions"],
        |stroke: Length, turns: Ratio| Length::si(wear::ring_travel(stroke.value, turns.value)),
    );
    b.derive(
        "ring.travel-wanted",
        "distance",
        One,
        "How far a ring slides in the passes that the owner wants between freshens.",
        "passes by ring travel a pass",
        ["freshen.wanted", "ring.travel-a-pass"],
        |passes: Ratio, slid: Length| -> Length { passes * slid },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::testing::sheet;
    use crate::{Catalogue, SheetFacts};
    use serde_json::json;

    #[test]
    fn a_pass_shifted_under_its_mean_speed_is_a_slip() {
        let turns = |shift: &str| {
            let sheet = sheet(json!({ "intent": { "shift-speed": shift,
                "duty": { "run": { "time": "10 s", "speed": "6000 rpm" } } } }));
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            facts.get("pass.equivalent-revolutions").unwrap().first().unwrap().clone()
        };
        // at the speed itself each of its turns counts as one
        assert!((turns("6000 rpm").unwrap().value - 1_000.0).abs() < 1e-6);
        assert!(turns("7200 rpm").unwrap().value < 1_000.0);
        assert!(turns("4000 rpm").is_err());
    }

    #[test]
    fn a_burnout_or_a_shut_off_over_the_shift_is_a_slip_too() {
        let turns = |part: &str| {
            let sheet = sheet(json!({ "intent": { "shift-speed": "6000 rpm",
                "duty": { "run": { "time": "10 s", "speed": "5000 rpm" }, part: { "time": "8 s", "speed": "12000 rpm" } } } }));
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            facts.get("pass.equivalent-revolutions").unwrap().first().unwrap().clone()
        };
        // at the power 8 of the stress, which goes with the square of speed, they would be 1,600 turns 2^16 times
        assert!(turns("burnout").is_err() && turns("shut-off").is_err());
    }
}
