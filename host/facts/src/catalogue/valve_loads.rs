//! What presses the valve train on its cam over the lift curve, at the highest speed it is meant to see.

use super::valve_motion::{POINTS, lobe};
use crate::builder::Builder;
use crate::typed::{Si, Why};
use thou_mechanics::valve_motion::{self, Closing, Point};
use thou_sheet::Axis::Valve;
use uom::si::f64::{Angle, AngularVelocity, Force, Length, Mass, Ratio, SurfaceTension};

const TABLE: &str =
    "spring and inertia at every row of the lobe's table, smoothed as for the float speed, of a rigid train";
const POLYNOMIAL: &str =
    "spring and inertia along the polynomial lift curve that stands for the lobe, of a rigid train";

pub(super) fn facts(b: &mut Builder) {
    for (id, which, about) in [
        (
            "valve.load.least",
            0_usize,
            "Least that presses the valve's side of the train on its cam while the valve is open, at the highest speed it \
             is meant to see; under nothing it has left.",
        ),
        (
            "valve.load.most",
            1,
            "Most that presses the valve's side of the train on its cam while the valve is open, at the highest speed it is \
             meant to see: on the flank, where the cam throws the valve open or catches it.",
        ),
    ] {
        load(b, id, which, about);
    }
    b.derive(
        "lobe.load.most",
        "force",
        Valve,
        "Most that a lobe bears from its valve at the highest speed it is meant to see.",
        "load at the valve by the rocker's ratio",
        ["valve.load.most", "valve.rocker-ratio"],
        |load: Force, ratio: Ratio| -> Force { load * ratio },
    )
    .part("cam");
}

fn load(b: &mut Builder, id: &'static str, which: usize, about: &'static str) {
    b.on_lobe(
        id,
        "force",
        about,
        TABLE,
        ["valve.rocker-ratio", "valve.lift.net", "spring.seat-load", "spring.rate", "valve.moving-mass", "top-speed"],
        move |points| {
            move |ratio: Ratio, net: Length, seat: Force, rate: SurfaceTension, mass: Mass, top: AngularVelocity| {
                let height = points.iter().map(|p| p.lift).fold(0.0, f64::max) * ratio.value;
                let at_valve = points.iter().map(|p| p.at_valve(ratio.value, height - net.value));
                pressed(at_valve, which, seat, rate, mass, top)
            }
        },
    )
    .or(
        POLYNOMIAL,
        [
            "valve.curve.height",
            "valve.curve.half-angle",
            "cam.curve.power",
            "valve.lift.net",
            "spring.seat-load",
            "spring.rate",
            "valve.moving-mass",
            "top-speed",
        ],
        move |height: Length,
              half: Angle,
              power: Ratio,
              net: Length,
              seat: Force,
              rate: SurfaceTension,
              mass: Mass,
              top: AngularVelocity| {
            let lash = (height - net).value;
            let at_valve = lobe(height, half, power).points(POINTS).map(|p| p.at_valve(1.0, lash));
            pressed(at_valve, which, seat, rate, mass, top)
        },
    )
    .part("springs");
}

/// One of the two ends; the cam turns at half of the crank's speed.
fn pressed(
    points: impl Iterator<Item = Point>,
    which: usize,
    seat: Force,
    rate: SurfaceTension,
    mass: Mass,
    top: AngularVelocity,
) -> Result<Force, Why> {
    let closing = Closing { seat: seat.value, rate: rate.value };
    let ends = valve_motion::pressed_between(points, closing, mass.value, top.value / 2.0);
    let end = ends.and_then(|e| e.get(which).copied());
    end.map(Force::si).ok_or(Why::Outside("this valve never opens"))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::{Catalogue, Facts};
    use serde_json::{Value, json};
    use std::f64::consts::PI;
    use std::path::Path;
    use thou_sheet::Sheet;

    fn train(limiter: &str) -> Value {
        json!({
            "format": "thou-build-1",
            "engine": { "name": "x", "cylinders": 1, "layout": "single" },
            "intent": { "use": "bracket", "limiter": limiter },
            "valves": { "inlet-mass": "110 g", "exhaust-mass": "100 g", "retainer-mass": "25 g" },
            "springs": { "rate": "600 lbf/in", "coil-mass": "120 g" },
            "valvetrain": { "kind": "pushrod", "lifter": "roller-solid", "rocker-ratio": 1.6, "rocker-mass": "50 g",
                "pushrod-mass": "80 g", "lifter-mass": "120 g" },
            "cam": {
                "inlet": { "lobe-lift": "0.400 in", "valve-lift": "0.622 in", "duration-at-50": "260 deg" },
                "exhaust": { "lobe-lift": "0.400 in", "valve-lift": "0.622 in", "duration-at-50": "260 deg" }
            },
            "readings": { "seat-load": { "stage": "final", "at": { "1I": "220 lbf", "1E": "220 lbf" } } }
        })
    }

    fn loads(value: &Value) -> [f64; 5] {
        let sheet =
            Sheet::parse_unheld("sheet.json", &value.to_string(), Path::new(".")).unwrap_or_else(|_| unreachable!());
        let facts = Facts::new(Catalogue::standard(), &sheet);
        ["valve.load.least", "valve.load.most", "lobe.load.most", "valve.float-speed", "valve.moving-mass"]
            .map(|id| facts.get(id).unwrap().first().unwrap().as_ref().unwrap().value)
    }

    #[test]
    fn at_the_float_speed_nothing_presses_and_at_a_crawl_the_spring_does() {
        let [_, _, _, float, _] = loads(&train("7600 rpm"));
        let [least, most, lobe, ..] = loads(&train(&format!("{} rpm", float * 30.0 / PI)));
        let spring = 220.0 * 4.448_221_615;
        assert!(least.abs() < 1e-3 * spring, "{least}");
        assert!(most > spring && (lobe / most - 1.6).abs() < 1e-9);
        let [least, most, ..] = loads(&train("1000 rpm"));
        let open = (220.0 + 600.0 * 0.622) * 4.448_221_615;
        assert!((least / spring - 1.0).abs() < 0.05 && (most / open - 1.0).abs() < 0.03, "{least} {most}");
        let [least, ..] = loads(&train(&format!("{} rpm", 1.1 * float * 30.0 / PI)));
        assert!(least < 0.0, "past the float speed it is pulled off: {least}");
    }

    #[test]
    fn a_table_goes_before_the_polynomial() {
        let mut value = train("7600 rpm");
        let degrees: Vec<i32> = (-40..=40).map(|i| 2 * i).collect();
        // a parabola falls away at one rate: the spring alone changes the load, and it is least on the seat
        let thou: Vec<f64> = degrees.iter().map(|d| 400.0 - 400.0 * f64::from(d * d) / 6_400.0).collect();
        value["cam"]["inlet"]["lift-table"] = json!({ "degrees": degrees, "thou": thou });
        let [least, most, _, _, mass] = loads(&value);
        let cam = 3_800.0 * PI / 30.0;
        let thrown = mass * 2.0 * 0.400 * 0.0254 * 1.6 / 80_f64.to_radians().powi(2) * cam * cam;
        let [seat, open] = [220.0, 220.0 + 600.0 * 0.622].map(|lbf| lbf * 4.448_221_615 - thrown);
        assert!((most / open - 1.0).abs() < 1e-6, "{most} {open}");
        // the first row off the seat is a little up the curve
        assert!(least > seat && least < seat + 0.06 * (open - seat), "{least} {seat}");
    }
}
