//! End gap of the top ring: a window for each cylinder, by its bore, the use and what the ring is made of.

use crate::facts::{ADDER, BORE, BORES, CARD, CLOSING, MATERIAL, POWER, USE};
use thou_sdk::prelude::*;

const FILE: Option<Remedy> = Remedy::solve("File the top ring of {place} to {solve}, square.", "ring.top.gap", "up");
const RENEW: Option<Remedy> = Remedy::say("Fit an oversize ring at {place} and file it, if leak-down asks for it.");

reasons![
    OUTSIDE_TABLE = "a bore under 50 or over 160 mm is outside this table",
    UNKNOWN_USE = "this table has no figure for that use",
];

texts![
    SHOP = Text {
        low: FILE,
        high: RENEW,
        args: &[
            Arg::of("per-inch", "ratio"),
            Arg { name: "use", kind: "choice", choices: &["street", "bracket", "all-out"] },
        ],
        ..Text::new("{arg:per-inch} thou an inch of bore for {arg:use}")
    },
    MAKER = Text {
        low: FILE,
        high: RENEW,
        args: &[Arg::of("per-inch", "ratio")],
        ..Text::card("the card's {arg:per-inch} thou an inch of bore", "ring card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "top-gap",
    title: "Top ring gap",
    operation: "rings",
    why: "Ring ends that meet when hot have nowhere to go.",
    basis: Shop,
    source: "invented for the example",
    judges: &["ring.top.gap"],
    needs: &[USE, BORE],
    takes: &[ADDER, BORES, MATERIAL, CARD, CLOSING, POWER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    if !(0.05..=0.16).contains(&bore) {
        return CannotSay(reason::OUTSIDE_TABLE);
    }
    let Some((usage, per_bore)) = per_bore(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let mut give = |place: Option<u32>, bore: f64| {
        if let Some(card) = f.get(CARD) {
            let low = card * bore;
            let window = Window::between(low, low * 1.5).aim(low).never_below(low).levels(Warn, Note).text(text::MAKER);
            a.window_with(Window { place, ..window }, &[card * 1000.0]);
            return;
        }
        let mut low = per_bore * bore;
        let never_below = f.get(CLOSING);
        if let Some(closing) = never_below
            && closing > low
        {
            low = closing;
        }
        let high = low + 0.001 * bore;
        let window = Window::between(low, high).aim((low + high) / 2.0).levels(Warn, Note).text(text::SHOP);
        a.window_with(Window { place, never_below, ..window }, &[per_bore * 1000.0, usage]);
    };
    let bores = f.all(BORES);
    if bores.is_empty() {
        give(None, bore);
    }
    for (place, read) in (0_u32..).zip(bores) {
        give(Some(place), if read.is_nan() { bore } else { *read });
    }
    Answered
}

/// The use's number and its gap over the bore.
fn per_bore(f: &Facts<'_>) -> Option<(f64, f64)> {
    let (usage, base) = match f.choice(USE)? {
        "street" => (0.0, 0.0040),
        "bracket" => (1.0, 0.0045),
        _ => (2.0, 0.0055),
    };
    let material = match f.choice(MATERIAL) {
        Some("ductile") => 1.05,
        Some("steel") => 1.1,
        _ => 1.0,
    };
    if !f.is(ADDER, &["nitrous", "turbo", "blower"]) {
        return Some((usage, base * material));
    }
    let with_adder = (base + 0.001) * material;
    match f.get(POWER) {
        Some(power) if power > 75_000.0 => Some((usage, with_adder * (power / 75_000.0).sqrt())),
        _ => Some((usage, with_adder)),
    }
}
