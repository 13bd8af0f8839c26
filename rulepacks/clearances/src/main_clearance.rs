//! Oil clearance of the mains.

use crate::bearings::{CARD, QuotedLimits, hold, scaled};
use crate::common::{ROLLER, roller, work};
use crate::facts::{BEARING, BLOCK, CARD_MAIN_HIGH, CARD_MAIN_LOW, MAIN_JOURNAL, USE};
use thou_sdk::prelude::*;

const POLISH: Option<Remedy> = Remedy::solve(
    "Swap in the next looser shell or a half of it, or polish journal {place} to {solve}.",
    "main-journal.diameter",
    "down",
);
const SWAP: Option<Remedy> =
    Remedy::say("Swap in the next tighter shell or a half of it at {place}; say which oil it gets.");

reasons![ROLLER, NO_JOURNAL = "the sheet does not give the journal (crank.main-journal)"];

texts![
    SHOP = Text { low: POLISH, high: SWAP, ..Text::new("on diameter, up and down, for this journal and use") },
    MAKER = Text { low: POLISH, high: SWAP, ..CARD },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-clearance",
    title: "Main bearing clearance",
    operation: "crank",
    why: "The oil that carries the crank needs room: too little and it boils out, too much and it runs out before the \
          last main has had any.",
    source: "journal-bearing bulletin, two reprints: one source, 0.75 to 1.0 thou per inch of journal and half a thou \
             more for performance; common practice for racing use",
    hold_basis: Some(Physics),
    hold_source: Some(crate::bearings::CLOSES),
    judges: &["main-bearing.clearance"],
    needs: &[USE],
    takes: &[MAIN_JOURNAL, BEARING, BLOCK, CARD_MAIN_LOW, CARD_MAIN_HIGH],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Thou on a journal of 2.45 in.
const LIMITS: QuotedLimits = QuotedLimits { journal: 2.45, bracket: (2.4, 3.1), all_out: (2.5, 3.8) };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    if let (Some(low), Some(high)) = (f.get(CARD_MAIN_LOW), f.get(CARD_MAIN_HIGH)) {
        a.window(work(low, high).never_below(low).text(text::MAKER));
        return Answered;
    }
    let Some(journal) = f.get(MAIN_JOURNAL) else { return CannotSay(reason::NO_JOURNAL) };
    let (mut low, mut high) = scaled(f, journal, &LIMITS);
    if f.choice(BLOCK).is_some_and(|b| b.starts_with("aluminium")) {
        // Aluminium housings open as they warm: 0.5 to 1.0 thou less cold.
        low -= thou(1.0);
        high -= thou(0.5);
    }
    let never = hold(journal);
    a.window(work(low.max(never), high).never_below(never).text(text::SHOP));
    Answered
}
