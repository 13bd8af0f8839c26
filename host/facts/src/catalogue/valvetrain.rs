//! Cam, lifters, rockers, springs and lash.

use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, Smallest};
use crate::reduce::Reduce;
use crate::typed::{Si, Unavailable, Word};
use std::f64::consts::PI;
use thou_mechanics::{valve_motion, valve_spring};
use thou_sheet::Axis::{CamJournal, One, Valve};
use uom::si::f64::{Angle, Force, Length, Ratio, SurfaceTension};

pub(super) fn facts(b: &mut Builder) {
    train(b);
    cam(b);
    lift(b);
    spring_cards(b);
    spring_readings(b);
    lash(b);
}

fn train(b: &mut Builder) {
    b.choice("valvetrain.kind", "valvetrain.kind", &["pushrod", "bucket", "finger"], "What opens the valves.");
    b.choice(
        "lifter.type",
        "valvetrain.lifter",
        &["flat-hydraulic", "flat-solid", "roller-hydraulic", "roller-solid", "none"],
        "The lifters.",
    );
    b.choice(
        "lifter.oiling",
        "valvetrain.lifter-oiling",
        &["splash", "pressure-fed", "bushed"],
        "How the lifters' wheels get oil.",
    );
    b.stated(
        "lifter.travel",
        "gap",
        "valvetrain.lifter-travel",
        "How far the plunger of a hydraulic lifter can be pushed in.",
    );
    b.choice(
        "rocker.type",
        "valvetrain.rocker",
        &["pressed-stud", "stud", "shaft", "none"],
        "What the rockers stand on.",
    );
    b.choice("rocker.material", "valvetrain.rocker-material", &["steel", "aluminium"], "What the rockers are made of.");
    b.stated("rocker.ratio", "ratio", "valvetrain.rocker-ratio", "The ratio that the rockers are sold with.");
    b.stated("pushrod.diameter", "length", "valvetrain.pushrod-diameter", "The pushrods.");
    b.read("rocker.ratio.measured", "ratio", Valve, "readings.rocker-ratio", Mean, "The rocker's ratio as measured.")
        .part("valvetrain");
    b.read("lifter-bore", "length", Valve, "readings.lifter-bore", Smallest, "The lifter's hole in the block.")
        .part("block");
    b.read("lifter.diameter", "length", Valve, "readings.lifter", Largest, "The lifter.").part("valvetrain");
    b.read(
        "lifter-to-bore",
        "clearance",
        Valve,
        "readings.lifter-to-bore",
        Smallest,
        "Clearance of the lifter in its bore.",
    )
    .part("valvetrain")
    .or("difference of two diameters", ["lifter-bore", "lifter.diameter"], |bore: Length, lifter: Length| {
        bore - lifter
    });
    b.read(
        "pushrod-to-head",
        "gap",
        Valve,
        "readings.pushrod-to-head",
        Smallest,
        "Nearest that the pushrod comes to the head.",
    )
    .part("valvetrain");
    b.read("preload", "gap", Valve, "readings.preload", Mean, "How far a hydraulic lifter's plunger is pushed in.")
        .part("valvetrain");
    b.read(
        "retainer-to-seal",
        "gap",
        Valve,
        "readings.retainer-to-seal",
        Smallest,
        "From retainer to seal at full lift.",
    )
    .part("springs");
}

fn cam(b: &mut Builder) {
    for (id, kind, path, about) in [
        ("cam.lobe-lift.inlet", "length", "cam.inlet.lobe-lift", "Lift of an inlet lobe."),
        ("cam.lobe-lift.exhaust", "length", "cam.exhaust.lobe-lift", "Lift of an exhaust lobe."),
        ("cam.valve-lift.inlet", "length", "cam.inlet.valve-lift", "Net lift of an inlet valve by the cam's card."),
        (
            "cam.valve-lift.exhaust",
            "length",
            "cam.exhaust.valve-lift",
            "Net lift of an exhaust valve by the cam's card.",
        ),
        ("cam.duration.inlet", "angle", "cam.inlet.duration", "Inlet duration, seat to seat."),
        ("cam.duration.exhaust", "angle", "cam.exhaust.duration", "Exhaust duration, seat to seat."),
        ("cam.duration-fifty.inlet", "angle", "cam.inlet.duration-at-50", "Inlet duration at 50 thou of lobe lift."),
        (
            "cam.duration-fifty.exhaust",
            "angle",
            "cam.exhaust.duration-at-50",
            "Exhaust duration at 50 thou of lobe lift.",
        ),
        ("cam.centre-line.inlet", "angle", "cam.inlet.centre-line", "Inlet centre line, after top dead centre."),
        ("cam.centre-line.exhaust", "angle", "cam.exhaust.centre-line", "Exhaust centre line, before top dead centre."),
    ] {
        b.stated(id, kind, path, about);
    }
    b.choice("cam.bearing.kind", "cam.bearings", &["plain", "needle"], "What the cam runs in.");
    b.choice("cam.retention", "cam.retention", &["plate", "button"], "What keeps the cam from walking.");
    b.choice("cam.drive", "cam.drive", &["chain", "belt", "gear"], "What drives the cam.");
    b.read(
        "cam.runout",
        "clearance",
        One,
        "readings.cam-runout",
        Largest,
        "Indicator's full swing at the cam's middle, the cam on its ends.",
    )
    .part("cam");
    b.read(
        "cam.end-play",
        "clearance",
        One,
        "readings.cam-end-play",
        Mean,
        "How far the cam moves along its bearings.",
    )
    .part("cam");
    b.read(
        "cam-bearing.clearance",
        "clearance",
        CamJournal,
        "readings.cam-clearance",
        Mean,
        "Oil clearance of a cam bearing.",
    )
    .part("cam");
    b.derive(
        "cam.advance",
        "angle",
        One,
        "How far a cam with both its lobes on one shaft stands early, in crank degrees; negative: late.",
        "half of the exhaust's centre line less the inlet's",
        ["cam.centre-line.inlet", "cam.centre-line.exhaust"],
        |inlet: Angle, exhaust: Angle| (exhaust - inlet) / 2.0,
    );
    b.derive(
        "cam.separation",
        "angle",
        One,
        "Lobe separation, in cam degrees.",
        "half the sum of the two centre lines",
        ["cam.centre-line.inlet", "cam.centre-line.exhaust"],
        |inlet: Angle, exhaust: Angle| (inlet + exhaust) / 2.0,
    );
    b.derive(
        "cam.overlap",
        "angle",
        One,
        "How long both valves are open, seat to seat.",
        "half of both durations less both centre lines",
        ["cam.duration.inlet", "cam.duration.exhaust", "cam.centre-line.inlet", "cam.centre-line.exhaust"],
        |inlet: Angle, exhaust: Angle, inlet_line: Angle, exhaust_line: Angle| {
            (inlet + exhaust) / 2.0 - inlet_line - exhaust_line
        },
    );
    b.derive(
        "intake-closing",
        "angle",
        One,
        "Where the inlet valve is on its seat again, after bottom dead centre.",
        "half the seat duration past the centre line",
        ["cam.duration.inlet", "cam.centre-line.inlet"],
        |duration: Angle, line: Angle| duration / 2.0 + line - Angle::si(PI),
    );
}

fn lift(b: &mut Builder) {
    b.derive(
        "valve.lift.from-lobe",
        "length",
        Valve,
        "Net lift from lobe, ratio and, with solid lifters, lash.",
        "lobe lift by ratio less lash",
        [
            "cam.lobe-lift.*",
            "valvetrain.kind",
            "lifter.type",
            "rocker.ratio.measured",
            "rocker.ratio",
            "lash.card.*",
            "lash.cold",
        ],
        |lobe: Length,
         kind: Option<Word>,
         lifter: Word,
         measured: Option<Ratio>,
         sold: Option<Ratio>,
         hot: Option<Length>,
         cold: Option<Length>| {
            let bucket = (kind == Some(Word("bucket"))).then(|| Ratio::si(1.0));
            let ratio = measured.or(sold).or(bucket).ok_or(Unavailable::Field("valvetrain.rocker-ratio"))?;
            let lash = if lifter.0.ends_with("hydraulic") {
                Length::si(0.0)
            } else {
                hot.or(cold).ok_or(Unavailable::Field("readings.lash-cold"))?
            };
            Ok(Length::si(valve_motion::net_lift(lobe.value, ratio.value, lash.value)))
        },
    )
    .part("cam");
    b.read(
        "valve.lift.measured",
        "length",
        Valve,
        "readings.valve-lift",
        Mean,
        "Lift at the retainer by the indicator.",
    )
    .part("cam");
    b.read("valve.lift.net", "length", Valve, "readings.valve-lift", Mean, "Lift at the valve, lash taken off.")
        .part("cam")
        .or("lobe lift by ratio less lash", ["valve.lift.from-lobe"], |lift: Length| lift)
        .or("lobe lift by ratio less lash, else the cam's card", ["cam.valve-lift.*"], |card: Length| card);
    let apart = "difference of two lifts";
    b.derive(
        "valve.lift.difference",
        "gap",
        Valve,
        "How far the lift, read or else worked out from the lobe, is from the cam's card.",
        apart,
        ["valve.lift.measured", "cam.valve-lift.*"],
        |lift: Length, card: Length| (lift - card).abs(),
    )
    .or(apart, ["valve.lift.from-lobe", "cam.valve-lift.*"], |lift: Length, card: Length| (lift - card).abs());
}

fn spring_cards(b: &mut Builder) {
    b.stated("spring.rate", "spring-rate", "springs.rate", "The springs' rate.");
    b.stated("spring.bind-height", "length", "springs.bind-height", "Height at which the coils touch.");
    b.stated(
        "spring.card.bind-margin",
        "clearance",
        "springs.card.bind-margin",
        "Room before bind that the card wants.",
    );
    b.stated("spring.card.lift-limit", "length", "springs.card.lift-limit", "Greatest lift by the card.");
    b.stated("spring.card.seat-load", "force", "springs.card.seat-load", "Load on the seat by the card.");
    b.stated("spring.card.open-load", "force", "springs.card.open-load", "Greatest open load by the card.");
    b.stated(
        "spring.card.installed-height",
        "length",
        "springs.card.installed-height",
        "Installed height by the card.",
    );
}

fn spring_readings(b: &mut Builder) {
    b.read(
        "spring.bind-height.measured",
        "length",
        Valve,
        "readings.bind-height",
        Largest,
        "Bind height of this spring.",
    )
    .part("springs");
    b.read(
        "spring.installed-height",
        "length",
        Valve,
        "readings.installed-height",
        Mean,
        "The spring's room, valve shut.",
    )
    .part("springs");
    b.reduce(
        "spring.installed-height.spread",
        "gap",
        Reduce::Spread,
        "spring.installed-height",
        "Highest less lowest installed height.",
    )
    .part("springs");
    b.read("spring.seat-load", "force", Valve, "readings.seat-load", Mean, "Load on the seat at the installed height.")
        .part("springs");
    b.read(
        "spring.seat-load-run-in",
        "force",
        Valve,
        "readings.seat-load-run-in",
        Mean,
        "Load on the seat after run-in, which later ones are held against.",
    )
    .part("springs");
    b.derive(
        "spring.seat-load.spread",
        "ratio",
        One,
        "Greatest less least seat load, over their mean.",
        "spread over mean",
        ["spring.seat-load.max", "spring.seat-load.min", "spring.seat-load.mean"],
        |max: Force, min: Force, mean: Force| -> Ratio { (max - min) / mean },
    )
    .part("springs");
    b.read("spring.open-load", "force", Valve, "readings.open-load", Mean, "Load at full lift.").part("springs").or(
        "seat load and rate by lift; Shigley's Mechanical Engineering Design, ch. 10",
        ["spring.seat-load", "spring.rate", "valve.lift.net"],
        |seat: Force, rate: SurfaceTension, lift: Length| {
            Force::si(valve_spring::open_load(seat.value, rate.value, lift.value))
        },
    );
    let margin = "installed height less net lift less bind height";
    b.derive(
        "spring.bind-margin",
        "clearance",
        Valve,
        "What is left before the coils touch, at full lift.",
        margin,
        ["spring.installed-height", "valve.lift.net", "spring.bind-height.measured"],
        bind_margin,
    )
    .part("springs")
    .or(margin, ["spring.installed-height", "valve.lift.net", "spring.bind-height"], bind_margin);
    b.derive(
        "spring.load-loss",
        "ratio",
        Valve,
        "Share of its run-in seat load that the spring has lost.",
        "one less the load now over the load after run-in",
        ["spring.seat-load", "spring.seat-load-run-in"],
        |now: Force, run_in: Force| -> Ratio { Ratio::si(1.0) - now / run_in },
    )
    .part("springs");
}

fn bind_margin(height: Length, lift: Length, bind: Length) -> Length {
    Length::si(valve_spring::bind_margin(height.value, lift.value, bind.value))
}

const THOU: f64 = 2.54e-5;

fn lash(b: &mut Builder) {
    b.stated(
        "lash.card.inlet",
        "clearance",
        "valvetrain.card.lash-hot-inlet",
        "Hot lash of the inlet valves by the card.",
    );
    b.stated(
        "lash.card.exhaust",
        "clearance",
        "valvetrain.card.lash-hot-exhaust",
        "Hot lash of the exhaust valves by the card.",
    );
    b.stated(
        "lash.card.cold.inlet",
        "clearance",
        "valvetrain.card.lash-cold-inlet",
        "Cold lash of the inlet valves by the card.",
    );
    b.stated(
        "lash.card.cold.exhaust",
        "clearance",
        "valvetrain.card.lash-cold-exhaust",
        "Cold lash of the exhaust valves by the card.",
    );
    b.read("lash.cold", "clearance", Valve, "readings.lash-cold", Mean, "Lash, cold.").part("valvetrain");
    b.usual(
        "lash.growth",
        "clearance",
        "How much wider the lash is hot than cold, by block and heads.",
        "a cam maker's table in a trade article",
        ["block.material", "head.material"],
        |words| match words {
            [block, "iron"] if block.ends_with("iron") => Some((-2.0 * THOU, -2.0 * THOU)),
            [block, "aluminium"] if block.ends_with("iron") => Some((6.0 * THOU, 6.0 * THOU)),
            [_, "aluminium"] => Some((12.0 * THOU, 12.0 * THOU)),
            _ => None,
        },
    );
    b.derive(
        "lash.hot.predicted",
        "clearance",
        Valve,
        "Lash to be expected hot.",
        "cold lash and its usual growth",
        ["lash.cold", "lash.growth"],
        |cold: Length, growth: Length| cold + growth,
    )
    .part("valvetrain");
    b.derive(
        "lash.hot.difference",
        "clearance",
        Valve,
        "Lash to be expected hot less the card's.",
        "difference of two lashes",
        ["lash.hot.predicted", "lash.card.*"],
        |hot: Length, card: Length| hot - card,
    )
    .part("valvetrain");
}
