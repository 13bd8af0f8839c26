//! The crosshatch that the hone is set for, and the finish that a profile shows.

use crate::builder::Builder;
use crate::typed::{Si, Why};
use thou_mechanics::honing::{self, Hone};
use thou_mechanics::roughness::Core;
use thou_sheet::Axis::{Cylinder, One};
use thou_sheet::Sheet;
use uom::si::f64::{Angle, AngularVelocity, Length, Ratio};

pub(super) fn facts(b: &mut Builder) {
    setting(b);
    angles(b);
    overstroke(b);
    profile(b);
}

const ANGLE: &str = "2 atan(axial speed over surface speed), the whole angle about the horizontal";
const STANDS_STILL: Why = Why::Outside("the hone's stroke, strokes or speed is nothing");

fn setting(b: &mut Builder) {
    b.stated("hone.strokes", "count", "finish.honing.strokes", "Strokes of the hone a minute, down and up as one.");
    b.stated("hone.stroke", "length", "finish.honing.stroke", "How far the hone travels one way.");
    b.stated("hone.spindle", "angular-speed", "finish.honing.spindle", "Speed of the hone's spindle.");
    b.stated("hone.stone", "length", "finish.honing.stone", "Length of the hone's stones.");
    b.stated("hone.bore-length", "length", "finish.honing.bore-length", "Length of the bore that is honed.");
    b.stated("hone.angle.wanted", "angle", "finish.honing.angle", "Crosshatch angle wanted, the whole of it.");
}

fn hone(bore: Length, stroke: Length, strokes: Ratio, spindle: AngularVelocity) -> Result<Hone, Why> {
    let hone = Hone { bore: bore.value, stroke: stroke.value, strokes: strokes.value / 60.0, spindle: spindle.value };
    hone.checked().map_err(|_| STANDS_STILL)
}

fn angles(b: &mut Builder) {
    b.derive(
        "crosshatch.set",
        "angle",
        One,
        "Crosshatch that the hone is set for, by its mean speed along the bore.",
        ANGLE,
        ["bore.nominal", "hone.stroke", "hone.strokes", "hone.spindle"],
        |bore: Length, stroke: Length, strokes: Ratio, spindle: AngularVelocity| {
            hone(bore, stroke, strokes, spindle).map(|h| Angle::si(h.mean_angle()))
        },
    );
    b.derive(
        "crosshatch.set.mid-stroke",
        "angle",
        One,
        "The same in the middle of the stroke, where a crank drives the strokes: the angle falls to nothing at the ends.",
        ANGLE,
        ["bore.nominal", "hone.stroke", "hone.strokes", "hone.spindle"],
        |bore: Length, stroke: Length, strokes: Ratio, spindle: AngularVelocity| {
            hone(bore, stroke, strokes, spindle).map(|h| Angle::si(h.mid_stroke_angle()))
        },
    );
    b.derive(
        "crosshatch.off",
        "angle",
        Cylinder,
        "How far the crosshatch that is read lies from the one that the hone is set for.",
        "difference of two angles",
        ["crosshatch-angle", "crosshatch.set"],
        |read: Angle, set: Angle| (read - set).abs(),
    );
    b.derive(
        "hone.strokes.for-angle",
        "count",
        One,
        "Strokes a minute that bring the angle wanted, at this stroke and spindle speed.",
        ANGLE,
        ["bore.nominal", "hone.stroke", "hone.spindle", "hone.angle.wanted"],
        |bore: Length, stroke: Length, spindle: AngularVelocity, angle: Angle| {
            let hone = hone(bore, stroke, Ratio::si(60.0), spindle)?;
            let strokes = hone.strokes_for(angle.value);
            strokes.map(|s| Ratio::si(60.0 * s)).map_err(|_| Why::Outside("an angle between 0 and 180 deg is wanted"))
        },
    );
}

fn overstroke(b: &mut Builder) {
    b.stated(
        "hone.overstroke",
        "length",
        "finish.honing.overstroke",
        "How far the stones run out of each end of the bore.",
    )
    .or(
        "half of what stroke and stone are longer than the bore",
        ["hone.bore-length", "hone.stone", "hone.stroke"],
        |length: Length, stone: Length, stroke: Length| {
            Length::si(honing::overstroke(length.value, stone.value, stroke.value))
        },
    );
    b.derive(
        "hone.overstroke.share",
        "percent",
        One,
        "How much of the stones runs out of each end of the bore.",
        "overstroke over length of the stones",
        ["hone.overstroke", "hone.stone"],
        |out: Length, stone: Length| -> Ratio { out / stone },
    );
}

const PARAMETERS: &str = "ISO 21920-2:2021 (ISO 13565-2:1996 before it), roughness by the filter for plateaus of ISO \
                          13565-1:1996 where the file has its spacing";

fn profile(b: &mut Builder) {
    let at = "finish.profile";
    b.recorded("profile.ra", "roughness", at, "Ra of the profile.", PARAMETERS, |s| read(s, |p| p.ra));
    b.recorded("profile.rq", "roughness", at, "Rq of the profile.", PARAMETERS, |s| read(s, |p| p.rq));
    b.recorded("profile.rz", "roughness", at, "Rz of the profile.", PARAMETERS, |s| read(s, |p| p.rz));
    b.recorded("profile.rk", "roughness", at, "Core of the profile, Rk.", PARAMETERS, |s| core(s, |c| c.rk));
    b.recorded("profile.rpk", "roughness", at, "Peaks of the profile, Rpk.", PARAMETERS, |s| core(s, |c| c.rpk));
    b.recorded("profile.rvk", "roughness", at, "Valleys of the profile, Rvk.", PARAMETERS, |s| core(s, |c| c.rvk));
    b.recorded("profile.mr1", "percent", at, "Material where the core begins, Mr1.", PARAMETERS, |s| {
        ratio(s, |c| c.mr1)
    });
    b.recorded("profile.mr2", "percent", at, "Material where the core ends, Mr2.", PARAMETERS, |s| ratio(s, |c| c.mr2));
}

/// A stylus is good to 5 to 10 % of its value: common practice, no source.
const STYLUS: f64 = 0.05;

fn of(sheet: &Sheet) -> Result<&thou_sheet::Finish, Why> {
    sheet.finish.as_ref().ok_or(Why::Field("finish.profile"))
}

fn read(sheet: &Sheet, value: fn(&thou_sheet::Finish) -> f64) -> Result<(f64, f64), Why> {
    of(sheet).map(value).map(|v| (v, STYLUS * v))
}

fn core(sheet: &Sheet, value: fn(&Core) -> f64) -> Result<(f64, f64), Why> {
    of(sheet).map(|p| value(&p.core)).map(|v| (v, STYLUS * v))
}

fn ratio(sheet: &Sheet, value: fn(&Core) -> f64) -> Result<(f64, f64), Why> {
    of(sheet).map(|p| (value(&p.core), 0.01))
}
