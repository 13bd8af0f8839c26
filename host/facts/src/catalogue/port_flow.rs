//! How far an inlet valve opens its port, and what the power wanted asks of it.

use super::charge::is_boosted;
use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Word};
use thou_mechanics::expansion::STANDARD_TEMPERATURE;
use thou_mechanics::flow::{self, ATMOSPHERE, Upstream, ValveSeat};
use thou_sheet::Axis::One;
use uom::si::f64::{Angle, Area, Length, MassRate, Pressure, Ratio, ThermodynamicTemperature as Temperature};

const STAGES: &str = "least frustum of three stages; Heywood 1988, eq. 6.7 to 6.9";

pub(super) fn facts(b: &mut Builder) {
    sizes(b);
    areas(b);
    angles(b);
    demand(b);
}

fn sizes(b: &mut Builder) {
    b.stated("throat.diameter", "length", "heads.throat-diameter", "The throat below an inlet seat.");
    b.derive(
        "throat.share",
        "ratio",
        One,
        "The throat over the inlet valve's head.",
        "ratio of two diameters",
        ["throat.diameter", "valve.inlet.diameter"],
        |throat: Length, head: Length| -> Ratio { throat / head },
    );
    b.stated("seat.cut-width", "gap", "heads.seat-cut-width", "The inlet seat's cut, along its face: not the contact.")
        .or_usual("one face of 60 to 90 thou; common practice, no source", [], |_| Some((1.524e-3, 2.286e-3)));
}

const NO_SEAT: Unavailable = Unavailable::Outside("a valve, throat, stem and seat of these sizes do not fit together");

fn seat(head: Length, throat: Length, stem: Length, face: Length, angle: Angle) -> Result<ValveSeat, Unavailable> {
    let width = flow::radial_width(face.value, angle.value);
    let seat = ValveSeat { head: head.value, port: throat.value, stem: stem.value, width, angle: angle.value };
    seat.checked().map_err(|_| NO_SEAT)
}

const SEAT: [&str; 5] =
    ["valve.inlet.diameter", "throat.diameter", "valve.stem-nominal", "seat.cut-width", "seat.angle"];
const SEAT_AND_LIFT: [&str; 6] = [SEAT[0], SEAT[1], SEAT[2], SEAT[3], SEAT[4], "cam.valve-lift.inlet"];

fn areas(b: &mut Builder) {
    b.derive(
        "valve.area.port",
        "area",
        One,
        "The throat below an inlet seat, beside the stem.",
        "area of a ring",
        ["throat.diameter", "valve.stem-nominal"],
        |throat: Length, stem: Length| -> Area { std::f64::consts::FRAC_PI_4 * (throat * throat - stem * stem) },
    );
    b.derive(
        "valve.area.inlet.full",
        "area",
        One,
        "Least area that one inlet valve opens at its full lift by the cam's card.",
        STAGES,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| Area::si(s.least_area(lift.value)))
        },
    );
    b.derive(
        "valve.area.inlet.half",
        "area",
        One,
        "Least area that one inlet valve opens at half of its lift.",
        STAGES,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| Area::si(s.least_area(lift.value / 2.0)))
        },
    );
    b.derive(
        "valve.area.over-port",
        "ratio",
        One,
        "What one inlet valve opens at full lift over the throat below it: 1 once the throat is the least.",
        STAGES,
        ["valve.area.inlet.full", "valve.area.port"],
        |valve: Area, port: Area| -> Ratio { valve / port },
    );
    b.derive(
        "valve.lift.port-limits",
        "length",
        One,
        "Lift from which the throat is the least area of an inlet: more lift brings no more area.",
        STAGES,
        SEAT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle| {
            seat(head, throat, stem, face, angle).map(|s| Length::si(s.port_limits_from()))
        },
    );
    b.derive(
        "valve.lift.over-port-limits",
        "ratio",
        One,
        "Full lift of an inlet over the lift from which its throat is the least area.",
        "ratio of two lifts",
        ["cam.valve-lift.inlet", "valve.lift.port-limits"],
        |lift: Length, limit: Length| -> Ratio { lift / limit },
    );
}

/// Area with a seat of one angle over that of another of the same face, at a share of the lift.
fn over(seat: ValveSeat, one: f64, other: f64, lift: f64) -> Ratio {
    let area = |angle: f64| seat.with_angle(angle).least_area(lift);
    Ratio::si(area(one) / area(other))
}

fn angles(b: &mut Builder) {
    const FORTY_FIVE: f64 = std::f64::consts::FRAC_PI_4;
    const SIXTY: f64 = std::f64::consts::FRAC_PI_3;
    const SAME_FACE: &str = "both of the face on the sheet, least frusta; Heywood 1988, eq. 6.7 to 6.9";
    b.derive(
        "valve.area.over-45.full",
        "ratio",
        One,
        "Area of an inlet with its seat over that with one of 45 degrees, at full lift: the discharge is another matter.",
        SAME_FACE,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| over(s, angle.value, FORTY_FIVE, lift.value))
        },
    );
    b.derive(
        "valve.area.over-45.half",
        "ratio",
        One,
        "The same at half of the lift.",
        SAME_FACE,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| over(s, angle.value, FORTY_FIVE, lift.value / 2.0))
        },
    );
    b.derive(
        "valve.area.60-over-45.full",
        "ratio",
        One,
        "Area that a seat of 60 degrees would open over one of 45, at full lift.",
        SAME_FACE,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| over(s, SIXTY, FORTY_FIVE, lift.value))
        },
    );
    b.derive(
        "valve.area.60-over-45.half",
        "ratio",
        One,
        "The same at half of the lift.",
        SAME_FACE,
        SEAT_AND_LIFT,
        |head: Length, throat: Length, stem: Length, face: Length, angle: Angle, lift: Length| {
            seat(head, throat, stem, face, angle).map(|s| over(s, SIXTY, FORTY_FIVE, lift.value / 2.0))
        },
    );
}

fn choked(area: Area, valves: Ratio, discharge: Ratio, up: Upstream) -> MassRate {
    // of an odd number the odd one is an inlet
    let inlets = (valves.value / 2.0).ceil();
    MassRate::si(flow::choked(inlets * area.value, discharge.value, up))
}

fn demand(b: &mut Builder) {
    b.stated(
        "inlet.discharge",
        "ratio",
        "heads.inlet-discharge",
        "Discharge of an inlet at full lift, on its least area.",
    )
    .or_usual("0.55 to 0.70; Heywood 1988, section 6.3.2, from memory", [], |_| Some((0.55, 0.70)));
    b.derive(
        "inlet.flow-demand",
        "mass-flow",
        One,
        "Air that the inlets of one cylinder pass while they are open, on the mean, where the power is wanted.",
        "air of a cylinder by 720 degrees over the seat duration",
        ["air.need", "engine.cylinders", "cam.duration.inlet"],
        |air: MassRate, cylinders: Ratio, open: Angle| {
            MassRate::si(flow::while_open(air.value / cylinders.value, open.value))
        },
    );
    b.derive(
        "inlet.flow-choked",
        "mass-flow",
        One,
        "The most that the inlets of one cylinder could pass at full lift, choked, from air at 20 °C and 101.3 kPa, or from \
         what boost makes of it.",
        "Heywood 1988, eq. C.9",
        ["valve.area.inlet.full", "head.valves-a-cylinder", "inlet.discharge", "adder"],
        |area: Area, valves: Ratio, discharge: Ratio, adder: Option<Word>| {
            if adder.is_some_and(|a| is_boosted(a.0)) {
                return Err(Unavailable::Outside("what presses the charge in makes it denser and warmer than that"));
            }
            Ok(choked(area, valves, discharge, Upstream::air(ATMOSPHERE, STANDARD_TEMPERATURE)))
        },
    )
    .or(
        "Heywood 1988, eq. C.9, under boost from the manifold's pressure and temperature",
        [
            "valve.area.inlet.full",
            "head.valves-a-cylinder",
            "inlet.discharge",
            "adder",
            "inlet.pressure",
            "charge.temperature",
        ],
        |area: Area, valves: Ratio, discharge: Ratio, adder: Word, pressure: Pressure, temperature: Temperature| {
            if !is_boosted(adder.0) {
                return Err(Unavailable::Outside("nothing presses the charge in"));
            }
            Ok(choked(area, valves, discharge, Upstream::air(pressure.value, temperature.value)))
        },
    );
    b.derive(
        "inlet.demand-over-choked",
        "ratio",
        One,
        "Air that the inlets must pass, on the mean, over the most that they could pass at full lift.",
        "ratio of two flows",
        ["inlet.flow-demand", "inlet.flow-choked"],
        |demand: MassRate, most: MassRate| -> Ratio { demand / most },
    );
}
