//! Oil, balance, and what is read on the finished engine.

use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, Smallest};
use crate::typed::Si;
use jiff::civil::Date;
use std::f64::consts::PI;
use thou_mechanics::balance as balancer;
use thou_sheet::Axis::{Cylinder, One};
use thou_sheet::Sheet;
use uom::si::f64::{AngularVelocity, Force, Length, Mass, Pressure, Ratio};

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
    let per = |pressure: Pressure, w: AngularVelocity| pressure * (THOUSAND / w.value);
    b.derive(
        "oil.pressure.per-thousand",
        "pressure",
        One,
        "Hot oil pressure, read or else planned, for each 1,000 rpm of working speed.",
        "pressure over speed",
        ["oil.pressure.hot", "working-speed"],
        per,
    )
    .or("pressure over speed", ["oil.pressure.plan", "working-speed"], per);
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

/// 1,000 rpm in rad/s.
const THOUSAND: f64 = 1_000.0 * PI / 30.0;

fn balance(b: &mut Builder) {
    b.choice("damper.kind", "balance.damper", &["elastomer", "fluid", "friction", "none"], "The damper.");
    b.choice("damper.hub", "balance.damper-hub", &["pressed", "clamped"], "What holds the damper's hub on the crank.");
    b.dated("damper.age", "certificates", "How old the damper is, by the day of its certificate.", |sheet| {
        let made = date(sheet, &certificate(sheet, "issued")?)?;
        days(made, sheet.as_of?)
    });
    b.dated(
        "damper.certificate-left",
        "certificates",
        "How long the damper's certificate still holds; negative once it has lapsed.",
        |sheet| days(sheet.as_of?, date(sheet, &certificate(sheet, "until")?)?),
    );
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

/// JSON pointer of a field of the damper's certificate; of several, the one where it is latest.
fn certificate(sheet: &Sheet, field: &str) -> Option<String> {
    let all = sheet.root.get("certificates").and_then(|v| v.as_array())?;
    let of_damper = |c: &serde_json::Value| c.get("part").and_then(|p| p.as_str()) == Some("damper");
    let pointers =
        (0..all.len()).filter(|i| all.get(*i).is_some_and(of_damper)).map(|i| format!("/certificates/{i}/{field}"));
    pointers.max_by_key(|pointer| date(sheet, pointer))
}

fn date(sheet: &Sheet, pointer: &str) -> Option<Date> {
    sheet.root.pointer(pointer).and_then(|v| v.as_str()).and_then(|text| text.parse().ok())
}

/// From one day to another, s.
fn days(from: Date, to: Date) -> Option<f64> {
    from.until(to).ok().map(|span| f64::from(span.get_days()) * 86_400.0)
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
    b.read("turning-torque", "torque", One, "readings.turning-torque", Largest, "Torque that turns the short block.");
}
