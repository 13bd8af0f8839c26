//! What the valves are made of against what they sit on, and what heats them.

use crate::facts::{ADDER, EXHAUST_VALVE, INLET_VALVE, SEAT};
use thou_sdk::prelude::*;

reasons![VALVES_NOT_STATED = "write in valves.inlet-material or valves.exhaust-material what the valves are"];

texts![
    TITANIUM_INLET = Text {
        low: Remedy::say(
            "Seats of copper alloy, and lash caps; or steel valves. Hard seats suit steel valves in any use.",
        ),
        points_at: &["valve.inlet.material", "seat.material"],
        ..Text::new("titanium inlet valves on a hard seat")
    },
    TITANIUM_ON_POWDERED = Text {
        low: Remedy::say("Valves with a nitrided or oxidised face; bare ones want seats of copper alloy."),
        points_at: &["valve.inlet.material", "seat.material"],
        ..Text::new("titanium inlet valves on powdered seats: their faces must be coated")
    },
    TITANIUM_EXHAUST = Text {
        low: Remedy::say("Seats of copper alloy, and lash caps; or nickel-alloy valves."),
        points_at: &["valve.exhaust.material", "seat.material"],
        ..Text::new("titanium exhaust valves on a hard seat")
    },
    STEEL_EXHAUST = Text {
        low: Remedy::say("Exhaust valves of nickel alloy. Plain steel suits a naturally aspirated engine."),
        points_at: &["valve.exhaust.material", "adder"],
        ..Text::new("plain steel exhaust valves under a power adder")
    },
    BERYLLIUM = Text {
        low: Remedy::say(
            "Cut them wet, with extraction and a filter mask; never grind or blow them dry. Plain copper alloy does without.",
        ),
        points_at: &["seat.material"],
        ..Text::new("beryllium copper: its dust harms lungs for good")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-and-seat",
    title: "Valves and seats",
    operation: "heads",
    why: "Titanium has no hardness of its own: on a hard seat its face pounds hollow, on a bare stem its tip spreads. \
          A plain steel exhaust valve necks and drops its head where boost or nitrous heats it.",
    source: "common practice, no source; makers run coated titanium inlet valves on powdered seats",
    needs: &[SEAT],
    takes: &[INLET_VALVE, EXHAUST_VALVE, ADDER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (inlet, exhaust) = (f.choice(INLET_VALVE), f.choice(EXHAUST_VALVE));
    let hard = f.is(SEAT, &["iron", "hardened", "powdered"]);
    let powdered = f.is(SEAT, &["powdered"]);
    let added = f.is(ADDER, &["nitrous", "turbo", "blower"]);
    let wrong = [
        (hard && !powdered && inlet == Some("titanium"), Warn, text::TITANIUM_INLET),
        (powdered && inlet == Some("titanium"), Note, text::TITANIUM_ON_POWDERED),
        (hard && exhaust == Some("titanium"), Warn, text::TITANIUM_EXHAUST),
        (added && exhaust == Some("steel"), Warn, text::STEEL_EXHAUST),
        (f.is(SEAT, &["beryllium-copper"]), Note, text::BERYLLIUM),
    ];
    let mut outcome = if inlet.is_none() && exhaust.is_none() { CannotSay(reason::VALVES_NOT_STATED) } else { Clear };
    for (found, level, text) in wrong {
        if found {
            a.finding(level, text, &[]);
            outcome = Answered;
        }
    }
    outcome
}
