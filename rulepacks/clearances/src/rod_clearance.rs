//! Oil clearance of the rods.

use crate::bearings::{CARD, QuotedLimits, hold, scaled};
use crate::common::{ROLLER, roller, work};
use crate::facts::{BEARING, CARD_ROD_HIGH, CARD_ROD_LOW, ROD, ROD_JOURNAL, USE};
use thou_sdk::prelude::*;

const POLISH: Option<Remedy> = Remedy::solve(
    "Swap in the next looser shell or a half of it for {place}, or polish the pin to {solve}.",
    "rod-journal.diameter",
    "down",
);
const SWAP: Option<Remedy> =
    Remedy::say("Swap in the next tighter shell or a half of it at {place}; say which oil it gets.");

reasons![ROLLER, NO_JOURNAL = "the sheet does not give the journal (crank.rod-journal)"];

texts![
    SHOP = Text { low: POLISH, high: SWAP, ..Text::new("on diameter, up and down, for this journal and use") },
    MAKER = Text { low: POLISH, high: SWAP, ..CARD },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-clearance",
    title: "Rod bearing clearance",
    operation: "crank",
    why: "The rod bearing takes the fire and the whip of the piston through a film of a few tenths: too little room \
          and it wipes, too much and the oil is thrown out before the load comes.",
    source: "journal-bearing bulletin, two reprints: one source, 0.75 to 1.0 thou per inch of journal and half a thou \
             more for performance; common practice for racing use and aluminium rods",
    hold_basis: Some(Physics),
    hold_source: Some(crate::bearings::CLOSES),
    judges: &["rod-bearing.clearance"],
    needs: &[USE],
    takes: &[ROD_JOURNAL, BEARING, ROD, CARD_ROD_LOW, CARD_ROD_HIGH],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Thou on a journal of 2.10 in.
const LIMITS: QuotedLimits = QuotedLimits { journal: 2.10, bracket: (2.3, 2.9), all_out: (2.4, 3.4) };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    if let (Some(low), Some(high)) = (f.get(CARD_ROD_LOW), f.get(CARD_ROD_HIGH)) {
        a.window(work(low, high).never_below(low).text(text::MAKER));
        return Answered;
    }
    let Some(journal) = f.get(ROD_JOURNAL) else { return CannotSay(reason::NO_JOURNAL) };
    let (low, mut high) = scaled(f, journal, &LIMITS);
    if f.is(ROD, &["aluminium"]) {
        // One school leaves an aluminium rod as a steel one, since its big end opens hot; the other adds a little.
        high += thou(0.3);
    }
    a.window(work(low, high).never_below(hold(journal)).text(text::SHOP));
    Answered
}
