//! What the cam asks of the valve and what the spring can give: the speed at which the two part.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Word};
use thou_mechanics::valve_motion::{self, Closing, LiftPoint, Masses, PolydyneLobe};
use thou_sheet::Axis::Valve;
use uom::si::f64::{Acceleration, Angle, AngularVelocity, Force, Length, Mass, Ratio, SurfaceTension};

/// Lift that the trade's short duration is counted at, m.
const FIFTY: f64 = 50.0 * 2.54e-5;
/// Points of half a lobe: the parting speed is then within 0.1 % of that by a thousand times as many.
pub(super) const POINTS: u32 = 48;
const RIGID: &str = "spring and inertia equal, of a rigid train; Rothbart, Cam Design Handbook, 2004, ch. 8, on the \
                     polynomial lift curve that the duration at 50 thou and the lift give";

const TABLE: &str = "the lobe's table, a fourth-order polynomial through 16 degrees about each row; Savitzky and Golay, \
                     Analytical Chemistry 36, 1964, 1627; spring and inertia equal, of a rigid train";

pub(super) fn facts(b: &mut Builder) {
    masses(b);
    curve(b);
    motion(b);
}

fn masses(b: &mut Builder) {
    b.stated("valve.mass.inlet", "mass", "valves.inlet-mass", "An inlet valve.");
    b.stated("valve.mass.exhaust", "mass", "valves.exhaust-mass", "An exhaust valve.");
    b.stated("retainer.mass", "mass", "valves.retainer-mass", "A retainer with its locks.");
    b.stated("spring.mass", "mass", "springs.coil-mass", "The springs of one valve.");
    b.stated(
        "rocker.mass",
        "mass",
        "valvetrain.rocker-mass",
        "The moving part of a rocker or finger, as if it sat at the valve.",
    );
    b.stated("pushrod.mass", "mass", "valvetrain.pushrod-mass", "A pushrod.");
    b.stated("lifter.mass", "mass", "valvetrain.lifter-mass", "A lifter or bucket.");
    b.derive(
        "valve.rocker-ratio",
        "ratio",
        Valve,
        "Rocker's ratio at this valve, as measured, else as sold; one for a bucket.",
        "a selection",
        ["valvetrain.kind", "rocker.ratio.measured", "rocker.ratio"],
        |kind: Option<Word>, measured: Option<Ratio>, sold: Option<Ratio>| {
            let bucket = (kind == Some(Word("bucket"))).then(|| Ratio::si(1.0));
            measured.or(sold).or(bucket).ok_or(Unavailable::Field("valvetrain.rocker-ratio"))
        },
    )
    .part("valvetrain");
    b.derive(
        "valve.moving-mass",
        "mass",
        Valve,
        "What the spring must turn round, as if all of it sat at the valve.",
        "valve, retainer, a third of the spring, the rocker's moving part; pushrod and lifter over the ratio squared; \
         Rayleigh, The Theory of Sound, 1877, for the third",
        [
            "valvetrain.kind",
            "valve.mass.*",
            "retainer.mass",
            "spring.mass",
            "rocker.mass",
            "pushrod.mass",
            "lifter.mass",
            "rocker.ratio",
        ],
        moving,
    )
    .part("valvetrain");
}

#[expect(clippy::too_many_arguments, reason = "one for each part of the train")]
fn moving(
    kind: Word,
    valve: Mass,
    retainer: Mass,
    spring: Mass,
    rocker: Option<Mass>,
    pushrod: Option<Mass>,
    lifter: Option<Mass>,
    ratio: Option<Ratio>,
) -> Result<Mass, Unavailable> {
    let rocker = || rocker.ok_or(Unavailable::Field("valvetrain.rocker-mass"));
    let lifter = || lifter.ok_or(Unavailable::Field("valvetrain.lifter-mass"));
    let mut all = Masses { valve: valve.value, retainer: retainer.value, spring: spring.value, ..Masses::default() };
    let mut by = 1.0;
    match kind.0 {
        "pushrod" => {
            all.rocker = rocker()?.value;
            all.pushrod = pushrod.ok_or(Unavailable::Field("valvetrain.pushrod-mass"))?.value;
            all.lifter = lifter()?.value;
            by = ratio.ok_or(Unavailable::Field("valvetrain.rocker-ratio"))?.value;
        }
        "bucket" => all.lifter = lifter()?.value,
        _ => all.rocker = rocker()?.value,
    }
    Ok(Mass::si(all.at_valve(by)))
}

fn curve(b: &mut Builder) {
    b.usual(
        "cam.curve.power",
        "ratio",
        "Lowest free power of the polynomial that stands for a lobe where the sheet has no table of it.",
        "fitted to the durations at 6, 20, 50 and 200 thou that street and race cams are sold with; common practice, no \
         source",
        [],
        |_| Some((5.0, 7.0)),
    );
    b.derive(
        "valve.curve.height",
        "length",
        Valve,
        "Lift at the valve before lash is taken off.",
        "lobe lift by ratio",
        ["cam.lobe-lift.*", "valve.rocker-ratio"],
        |lobe: Length, ratio: Ratio| -> Length { lobe * ratio },
    )
    .or("net lift, where the sheet has no lobe lift", ["valve.lift.net"], |lift: Length| lift)
    .part("cam");
    let polydyne = "polynomial of powers 2, n, 2n-2, 3n-4 and 4n-6, lift to jerk continuous; Stoddart, Polydyne cam \
                    design, Machine Design, 1953, from memory";
    let half = |lift: Length, duration: Angle, power: Ratio| {
        let lobe = PolydyneLobe::from_duration(lift.value, FIFTY, duration.value, power.value);
        Ok::<Angle, Unavailable>(Angle::si(lobe.half))
    };
    b.derive(
        "valve.curve.half-angle",
        "angle",
        Valve,
        "From the nose of the lobe to its end, in cam degrees.",
        polydyne,
        ["cam.lobe-lift.*", "cam.duration-fifty.*", "cam.curve.power"],
        half,
    )
    .or(polydyne, ["valve.curve.height", "cam.duration-fifty.*", "cam.curve.power"], half)
    .part("cam");
}

pub(super) fn lobe(height: Length, half: Angle, power: Ratio) -> PolydyneLobe {
    PolydyneLobe { lift: height.value, half: half.value, exponent: power.value }
}

/// The crank's speed, twice the cam's, at which the valve leaves.
fn leaves(
    points: impl Iterator<Item = LiftPoint>,
    seat: Force,
    rate: SurfaceTension,
    mass: Mass,
) -> Result<AngularVelocity, Unavailable> {
    let closing = Closing { seat: seat.value, rate: rate.value };
    let first = valve_motion::leaves(points, closing, mass.value);
    first.map(|(cam, _)| AngularVelocity::si(2.0 * cam)).ok_or(Unavailable::Outside("the spring has nothing to hold"))
}

/// The first harmonic of the cam whose frequency is the spring's own at the top speed or below it.
fn met(surge_ratio: Ratio) -> f64 {
    surge_ratio.value.ceil()
}

fn motion(b: &mut Builder) {
    b.on_lobe(
        "valve.acceleration.peak",
        "acceleration",
        "Greatest acceleration toward the seat while the valve is open, at the highest speed it is meant to see: what \
         the spring must turn round.",
        TABLE,
        ["valve.rocker-ratio", "top-speed"],
        |points| {
            move |ratio: Ratio, top: AngularVelocity| {
                let cam = top.value / 2.0;
                let peak = valve_motion::greatest_deceleration(points.iter().copied());
                Acceleration::si(peak * ratio.value * cam * cam)
            }
        },
    )
    .or(
        "second derivative of the polynomial lift curve",
        ["valve.curve.height", "valve.curve.half-angle", "cam.curve.power", "top-speed"],
        |height: Length, half: Angle, power: Ratio, top: AngularVelocity| {
            let cam = top.value / 2.0;
            let points = lobe(height, half, power).points(POINTS);
            Acceleration::si(valve_motion::greatest_deceleration(points) * cam * cam)
        },
    )
    .part("cam");
    b.on_lobe(
        "valve.surge-harmonic",
        "clearance",
        "How strongly the lift shakes the outer spring at its own frequency: amplitude of the first harmonic of the cam \
         that the spring meets on the way up to the highest speed it is meant to see.",
        "Fourier's coefficient of the table's lift over a turn of the cam, of the number at or next over surge-ratio; \
         Wahl, Mechanical Springs, 1963, on surge, from memory",
        ["valve.rocker-ratio", "spring.surge-ratio"],
        |points| {
            move |ratio: Ratio, surge: Ratio| {
                let number = met(surge);
                Length::si(valve_motion::harmonic(points.iter().copied(), number) * ratio.value)
            }
        },
    )
    .or(
        "Fourier's coefficient of the polynomial lift over a turn of the cam, of the number at or next over surge-ratio",
        ["valve.curve.height", "valve.curve.half-angle", "cam.curve.power", "spring.surge-ratio"],
        |height: Length, half: Angle, power: Ratio, surge: Ratio| {
            Length::si(valve_motion::harmonic(lobe(height, half, power).points(POINTS), met(surge)))
        },
    )
    .part("cam");
    b.on_lobe(
        "valve.float-speed",
        "angular-speed",
        "Crank speed at which the spring can no longer hold the valve on its cam.",
        TABLE,
        ["valve.rocker-ratio", "valve.lift.net", "spring.seat-load", "spring.rate", "valve.moving-mass"],
        |points| {
            move |ratio: Ratio, net: Length, seat: Force, rate: SurfaceTension, mass: Mass| {
                let top = points.iter().map(|p| p.lift).fold(0.0, f64::max) * ratio.value;
                let at_valve = points.iter().map(|p| p.at_valve(ratio.value, top - net.value));
                leaves(at_valve, seat, rate, mass)
            }
        },
    )
    .or(
        RIGID,
        [
            "valve.curve.height",
            "valve.curve.half-angle",
            "cam.curve.power",
            "valve.lift.net",
            "spring.seat-load",
            "spring.rate",
            "valve.moving-mass",
        ],
        |height: Length, half: Angle, power: Ratio, net: Length, seat: Force, rate: SurfaceTension, mass: Mass| {
            let lash = (height - net).value;
            leaves(lobe(height, half, power).points(POINTS).map(|p| p.at_valve(1.0, lash)), seat, rate, mass)
        },
    )
    .part("springs");
    b.listed(
        "cam.lobe-tables",
        "count",
        "cam.inlet.lift-table",
        "How many of the two lobes have a table of their lift.",
        "counted",
        |sheet| {
            let there =
                |lobe: &str| sheet.root.pointer(&format!("/cam/{lobe}/lift-table")).is_some_and(|t| !t.is_null());
            Ok((f64::from(u8::from(there("inlet")) + u8::from(there("exhaust"))), 0.0))
        },
    );
    b.derive(
        "valve.float-margin",
        "ratio",
        Valve,
        "Spring over what the valve's inertia asks of it where the two come nearest, at the highest speed it is meant \
         to see.",
        "inertia goes with the square of speed: the float speed over the top speed, squared",
        ["valve.float-speed", "top-speed"],
        |float: AngularVelocity, top: AngularVelocity| -> Ratio { (float / top) * (float / top) },
    )
    .part("springs");
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::{Catalogue, Missing, SheetFacts};
    use serde_json::{Value, json};
    use std::path::Path;
    use thou_sheet::Sheet;

    fn sheet(value: &Value) -> Sheet {
        Sheet::parse_unheld("sheet.json", &value.to_string(), Path::new(".")).unwrap_or_else(|_| unreachable!())
    }

    fn train() -> Value {
        json!({
            "format": "thou-build-1",
            "engine": { "name": "x", "cylinders": 1, "layout": "single" },
            "intent": { "use": "bracket", "limiter": "7600 rpm" },
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

    fn one(facts: &SheetFacts<'_>, id: &str) -> f64 {
        facts.get(id).unwrap().first().unwrap().as_ref().unwrap().value
    }

    #[test]
    fn mass_curve_and_parting_speed_are_as_by_hand() {
        let s = sheet(&train());
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let mass = 0.110 + 0.025 + 0.040 + 0.050 + 0.200 / 2.56;
        assert!((one(&facts, "valve.moving-mass") - mass).abs() < 1e-12);
        // a little off the nose the curve is turned round as hard and the spring is weaker
        let height = 0.400 * 0.0254 * 1.6;
        let half = one(&facts, "valve.curve.half-angle");
        let nose = height * 2.0 * 6.0 * 10.0 * 14.0 * 18.0 / (4.0 * 8.0 * 12.0 * 16.0) / (half * half);
        let spring = (220.0 + 600.0 * 0.622) * 4.448_221_615;
        let crank = 2.0 * (spring / (mass * nose)).sqrt();
        let float = one(&facts, "valve.float-speed");
        assert!((0.97..1.0).contains(&(float / crank)), "{float} {crank}");
        let top = 7600.0 * std::f64::consts::PI / 30.0;
        assert!((one(&facts, "valve.acceleration.peak") / (nose * top * top / 4.0) - 1.0).abs() < 1e-6);
        assert!((one(&facts, "valve.float-margin") / (float / top).powi(2) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_table_goes_before_the_polynomial() {
        let mut value = train();
        let degrees: Vec<i32> = (-40..=40).map(|i| 2 * i).collect();
        // a parabola falls away at one rate, which is its curvature
        let thou: Vec<f64> = degrees.iter().map(|d| 400.0 - 400.0 * f64::from(d * d) / 6_400.0).collect();
        value["cam"]["inlet"]["lift-table"] = json!({ "degrees": degrees, "thou": thou });
        let s = sheet(&value);
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let cam = 3800.0 * std::f64::consts::PI / 30.0;
        let curvature = 2.0 * 0.400 * 0.0254 * 1.6 / 80f64.to_radians().powi(2);
        assert!((one(&facts, "valve.acceleration.peak") / (curvature * cam * cam) - 1.0).abs() < 1e-6);
        // so it leaves where the spring is least: as it comes off its seat
        let mass = one(&facts, "valve.moving-mass");
        let seat = 2.0 * (220.0 * 4.448_221_615 / (mass * curvature)).sqrt();
        assert!((one(&facts, "valve.float-speed") / seat - 1.0).abs() < 0.06);
    }

    #[test]
    fn what_the_train_lacks_is_named() {
        let mut value = train();
        value["valvetrain"]["pushrod-mass"] = Value::Null;
        let s = sheet(&value);
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let missing = facts.get("valve.float-speed").unwrap().first().unwrap().as_ref().unwrap_err();
        assert!(missing.contains(&Missing::Field("valvetrain.pushrod-mass".to_owned())), "{missing:?}");
    }
}
