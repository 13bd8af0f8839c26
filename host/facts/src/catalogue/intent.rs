//! What the engine is, and what its owner wants to do with it.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable};
use std::f64::consts::TAU;
use thou_sheet::Axis::One;
use uom::si::f64::{AngularVelocity, Ratio, Time};

pub(super) fn facts(b: &mut Builder) {
    engine(b);
    speeds(b);
    duty(b);
}

fn engine(b: &mut Builder) {
    b.choice("use", "intent.use", &thou_contract::USES, "What the engine is for.");
    b.choice("engine.layout", "engine.layout", &["single", "inline", "v", "flat"], "How its cylinders stand.");
    b.stated("engine.cylinders", "count", "engine.cylinders", "How many cylinders it has.");
    b.stated("engine.bank-angle", "angle", "engine.bank-angle", "The angle between its banks.");
    b.stated("target.power", "power", "intent.power", "The power wanted, with everything that adds to it.");
    b.stated("target.torque", "torque", "intent.torque", "The torque wanted.");
    b.choice("adder", "intent.adder", &["none", "nitrous", "turbo", "blower"], "What adds to its own breathing.");
    b.stated("adder.power", "power", "intent.adder-power", "How much of the power the adder brings.");
    b.stated("boost", "pressure", "intent.boost", "Manifold pressure over the air outside.");
    b.flag("adder.cooled", "induction.intercooled", "Whether the charge is cooled after the adder.");
    b.stated("passes-a-season", "passes", "intent.passes-a-season", "How many passes a season it shall make.");
    b.stated("miles-a-year", "distance", "intent.miles-a-year", "How far it shall go in a year.");
    b.stated("freshen.wanted", "passes", "intent.freshen-wanted", "Passes that the owner wants between freshens.");
    b.stated(
        "freshen.wanted-distance",
        "distance",
        "intent.freshen-wanted-distance",
        "Distance that the owner wants between freshens.",
    );
    b.flag("sanctioned", "intent.sanctioned", "Whether it runs under a sanctioning body's rules.");
    b.stated("vehicle.mass", "mass", "intent.vehicle-mass", "The vehicle with its driver.");
    b.stated("tyre.diameter", "length", "intent.tyre-diameter", "The driven tyres.");
    b.stated("final-drive", "ratio", "intent.final-drive", "Turns of the drive shaft to one of the axle.");
    b.stated("peak-pressure", "pressure", "intent.peak-pressure", "Greatest pressure in the cylinder.");
}

fn speeds(b: &mut Builder) {
    b.stated("target.power-speed", "angular-speed", "intent.power-speed", "Where the power is wanted.");
    b.stated("redline", "angular-speed", "intent.redline", "The speed not to be held above.");
    b.stated("limiter", "angular-speed", "intent.limiter", "Where the limiter is set.");
    b.stated("shift-speed", "angular-speed", "intent.shift-speed", "Where it is shifted.");
    b.stated("lights-speed", "angular-speed", "intent.lights-speed", "The speed it goes through the lights at.");
    b.stated(
        "after-shift-speed",
        "angular-speed",
        "intent.after-shift-speed",
        "The speed it falls to when it is shifted.",
    );
    b.stated("launch-speed", "angular-speed", "intent.launch-speed", "The speed it leaves the line at.");
    b.stated("stall-speed", "angular-speed", "intent.stall-speed", "Where the converter stalls.");
    b.derive(
        "top-speed",
        "angular-speed",
        One,
        "The highest speed it is meant to see: the limiter, else the redline.",
        "a selection",
        ["limiter"],
        |limiter: AngularVelocity| limiter,
    )
    .or("a selection", ["redline"], |redline: AngularVelocity| redline);
    b.derive(
        "over-rev",
        "angular-speed",
        One,
        "The speed that clearances must survive: 5 % over the highest it is meant to see.",
        "a missed shift past the limiter; common practice, no source",
        ["top-speed"],
        |top: AngularVelocity| top * 1.05,
    );
    b.derive(
        "working-speed",
        "angular-speed",
        One,
        "The speed it works up to pass after pass: where it is shifted, else the redline.",
        "a selection",
        ["shift-speed"],
        |shift: AngularVelocity| shift,
    )
    .or("a selection", ["redline"], |redline: AngularVelocity| redline);
    b.derive(
        "limiter.margin",
        "angular-speed",
        One,
        "How far the limiter stands above the redline.",
        "difference of two speeds",
        ["limiter", "redline"],
        |limiter: AngularVelocity, redline: AngularVelocity| limiter - redline,
    );
}

fn duty(b: &mut Builder) {
    b.stated("duty.burnout.time", "time", "intent.duty.burnout.time", "How long the burnout takes.");
    b.stated("duty.burnout.speed", "angular-speed", "intent.duty.burnout.speed", "Crank speed in the burnout.");
    b.stated("duty.idle.time", "time", "intent.duty.idle.time", "How long it idles for each pass.");
    b.stated("duty.idle.speed", "angular-speed", "intent.duty.idle.speed", "Crank speed at idle.");
    b.stated("duty.run.time", "time", "intent.duty.run.time", "How long the run takes.");
    b.stated("duty.run.mean-speed", "angular-speed", "intent.duty.run.speed", "Mean crank speed of the run.");
    b.stated("duty.shut-off.time", "time", "intent.duty.shut-off.time", "How long the shut-off and the way back take.");
    b.stated("duty.shut-off.speed", "angular-speed", "intent.duty.shut-off.speed", "Crank speed on the way back.");
    b.stated("duty.street.mean-speed", "angular-speed", "intent.duty.street.speed", "Mean crank speed on the street.");
    b.stated(
        "duty.street.full-load",
        "percent",
        "intent.duty.street.full-load",
        "Share of its time on the street at full load.",
    );
    type Seg = (Option<Time>, Option<AngularVelocity>);
    fn turns((time, speed): Seg) -> Result<Option<f64>, Unavailable> {
        match (time, speed) {
            (Some(t), Some(w)) => Ok(Some(t.value * w.value / TAU)),
            (None, None) => Ok(None),
            (Some(_), None) | (None, Some(_)) => {
                Err(Unavailable::Outside("a part of the pass has a time without a speed, or a speed without a time"))
            }
        }
    }
    b.derive(
        "duty.revolutions",
        "count",
        One,
        "Revolutions of one pass: time by speed of every part of it that the sheet states.",
        "sum of time by speed",
        [
            "duty.run.time",
            "duty.run.mean-speed",
            "duty.burnout.time",
            "duty.burnout.speed",
            "duty.idle.time",
            "duty.idle.speed",
            "duty.shut-off.time",
            "duty.shut-off.speed",
        ],
        |run_t: Time,
         run: AngularVelocity,
         burnout_t: Option<Time>,
         burnout: Option<AngularVelocity>,
         idle_t: Option<Time>,
         idle: Option<AngularVelocity>,
         off_t: Option<Time>,
         off: Option<AngularVelocity>| {
            let mut sum = run_t.value * run.value / TAU;
            for part in [(burnout_t, burnout), (idle_t, idle), (off_t, off)] {
                sum += turns(part)?.unwrap_or(0.0);
            }
            Ok::<Ratio, Unavailable>(Ratio::si(sum))
        },
    );
}
