//! Oil, balance, and what is read on the finished engine.

use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, Smallest};
use crate::typed::{Si, Unavailable};
use std::f64::consts::TAU;
use thou_mechanics::balance as balancer;
use thou_mechanics::flow::ATMOSPHERE;
use thou_sheet::Axis::{Cylinder, One};
use uom::si::f64::{AngularVelocity, Force, Length, Mass, Pressure, Ratio, Volume, VolumeRate};

pub(super) fn facts(b: &mut Builder) {
    oil(b);
    balance(b);
    finished(b);
}

fn oil(b: &mut Builder) {
    b.choice(
        "oil.grade",
        "oil.grade",
        &[
            "0W-20", "0W-30", "5W-20", "5W-30", "5W-40", "5W-50", "10W-30", "10W-40", "15W-40", "15W-50", "20W-50",
            "30", "40", "50", "60", "70",
        ],
        "The oil's grade, SAE J300.",
    );
    b.stated("oil.volume", "volume", "oil.volume", "How much oil it holds.");
    b.flag("oil.additive", "oil.additive", "Whether the sheet names an additive in the oil.");
    b.stated("oil.relief", "pressure", "oil.relief-setting", "What the pump's relief valve is set to.");
    b.stated("oil.temperature", "temperature", "oil.temperature", "How warm the oil runs.");
    b.stated(
        "oil.pressure.plan",
        "pressure",
        "oil.pressure-plan",
        "Oil pressure that the builder plans for, hot, at working speed.",
    );
    b.choice("sump", "oil.sump", &["wet", "dry"], "Where the oil is kept.");
    b.stated("crankcase.vacuum", "pressure", "oil.crankcase-vacuum", "Vacuum in the crankcase.");
    b.choice("pan.pickup", "oil.pickup", &["fixed", "rear", "swinging"], "The pickup in the pan.");
    b.stated("pan.pickup.bore", "length", "oil.pickup-bore", "Bore of the pickup's tube.");
    b.read(
        "oil.pressure.hot",
        "pressure",
        One,
        "readings.oil-pressure-hot",
        Smallest,
        "Oil pressure, hot, at working speed.",
    );
    b.derive(
        "oil.pressure.at-work",
        "pressure",
        One,
        "Oil pressure, hot, at working speed: read, or else planned.",
        "a selection",
        ["oil.pressure.hot"],
        |read: Pressure| read,
    )
    .or("a selection", ["oil.pressure.plan"], |plan: Pressure| plan);
    b.read("oil.pressure.idle", "pressure", One, "readings.oil-pressure-idle", Smallest, "Oil pressure, hot, at idle.");
    b.read(
        "oil-pump.end-clearance",
        "clearance",
        One,
        "readings.oil-pump-end",
        Largest,
        "End clearance of the oil pump's gears.",
    );
    b.read("pickup-to-pan", "gap", One, "readings.pickup-to-pan", Smallest, "From the pickup to the floor of the pan.");
}

fn balance(b: &mut Builder) {
    b.choice("damper.kind", "balance.damper", &["elastomer", "fluid", "friction", "none"], "The damper.");
    b.choice("damper.hub", "balance.damper-hub", &["pressed", "clamped"], "What holds the damper's hub on the crank.");
    b.flag("engine.firing-order.stated", "engine.firing-order", "Whether the sheet says in which order it fires.");
    b.flag("balance.fitted", "balance.fitted", "Whether the sheet says what was on the crank when it was balanced.");
    b.choice("balance.kind", "balance.kind", &["internal", "external"], "Where the crank is balanced.");
    b.stated("balance.factor", "percent", "balance.factor", "Share of the reciprocating mass that is balanced.");
    b.stated("bobweight.card", "mass", "balance.bobweight", "Bobweight on the balance card.");
    b.stated("crank.balance-radius", "length", "balance.radius", "Radius at which mass is taken off or put on.");
    b.read(
        "balance.residual.front",
        "unbalance",
        One,
        "readings.balance-front",
        Largest,
        "Unbalance left at the front.",
    )
    .part("crank");
    b.read("balance.residual.rear", "unbalance", One, "readings.balance-rear", Largest, "Unbalance left at the rear.")
        .part("crank");
    b.read(
        "damper.interference",
        "clearance",
        One,
        "readings.damper-interference",
        Smallest,
        "How tight the damper's hub is on the snout.",
    );
    b.derive(
        "bobweight.from-parts",
        "mass",
        One,
        "Bobweight of one throw from the parts on the balance.",
        "rods on the pin by rotating mass and factor of reciprocating mass; Bevan, Theory of Machines, ch. 14",
        ["rods-a-pin", "rotating.mass.mean", "balance.factor", "reciprocating.mass.mean"],
        |rods: Ratio, rotating: Mass, factor: Ratio, reciprocating: Mass| {
            Mass::si(balancer::bobweight(rods.value, rotating.value, reciprocating.value, factor.value))
        },
    );
    b.derive(
        "bobweight.difference",
        "mass",
        One,
        "How far the balance card is from the parts.",
        "difference of two masses",
        ["bobweight.card", "bobweight.from-parts"],
        |card: Mass, parts: Mass| (card - parts).abs(),
    );
    b.derive(
        "unbalance.force",
        "force",
        One,
        "Pull of the bobweight's error at the highest speed it is meant to see, at the balance radius, else at the crankpin.",
        "m r w²",
        ["bobweight.difference", "stroke", "top-speed", "crank.balance-radius"],
        |mass: Mass, stroke: Length, w: AngularVelocity, radius: Option<Length>| {
            let radius = radius.unwrap_or(stroke / 2.0);
            Force::si(balancer::unbalance_force(mass.value, radius.value, w.value))
        },
    );
}

fn finished(b: &mut Builder) {
    b.read("idle.vacuum", "pressure", One, "readings.idle-vacuum", Mean, "Manifold vacuum at idle.");
    b.read("leak-down", "percent", Cylinder, "readings.leak-down", Mean, "Leak-down, against this tester only.");
    b.read(
        "cranking-pressure",
        "pressure",
        Cylinder,
        "readings.cranking-pressure",
        Mean,
        "Cranking pressure, throttle open, all plugs out.",
    );
    b.derive(
        "cranking-pressure.evenness",
        "ratio",
        One,
        "Cranking pressure of the weakest cylinder over that of the strongest.",
        "ratio of two pressures",
        ["cranking-pressure.min", "cranking-pressure.max"],
        |weakest: Pressure, strongest: Pressure| -> Ratio { weakest / strongest },
    );
    b.derive(
        "cranking-pressure.share",
        "ratio",
        Cylinder,
        "Cranking pressure over what compression from where the inlet shuts makes of the room's air.",
        "p = p0 (e^1.25 - 1): between isothermal and adiabatic, from memory",
        ["cranking-pressure", "compression.effective", "air.pressure"],
        |reads: Pressure, ratio: Ratio, room: Option<Pressure>| {
            let room = room.map_or(ATMOSPHERE, |p| p.value);
            Ratio::si(reads.value / (room * (ratio.value.powf(1.25) - 1.0)))
        },
    );
    b.read("turning-torque", "torque", One, "readings.turning-torque", Largest, "Torque that turns the short block.");
    b.derive(
        "oil.pressure.at-idle",
        "pressure",
        One,
        "Oil pressure, hot, at idle, where it was read.",
        "a selection",
        ["oil.pressure.idle"],
        |read: Pressure| read,
    );
    b.read("blow-by", "volume-flow", One, "readings.blow-by", Largest, "Blow-by at power.");
    b.derive(
        "blow-by.share",
        "percent",
        One,
        "Blow-by over what the pistons draw at power: the swept volume every second turn, pressed together by the boost.",
        "ratio of two flows",
        ["blow-by", "displacement", "target.power-speed", "inlet.pressure"],
        |leaks: VolumeRate, size: Volume, speed: AngularVelocity, inlet: Pressure| {
            let drawn = size.value * speed.value / (2.0 * TAU) * (inlet.value / ATMOSPHERE).max(1.0);
            if drawn > 0.0 { Ok(Ratio::si(leaks.value / drawn)) } else { Err(Unavailable::Outside("it turns at no speed")) }
        },
    );
}
