//! Oil clearance of the mains.

use crate::bearings::{CARD, CONTACT, HOLDS, JournalLimits, card, meets};
use crate::common::{ROLLER, roller, work};
use crate::facts::{BEARING, BLOCK, CARD_MAIN_HIGH, CARD_MAIN_LOW, MAIN_JOURNAL, OIL, USE};
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
    CONTACT = Text { low: POLISH, ..CONTACT },
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
    hold_basis: Some(Practice),
    hold_source: Some(HOLDS),
    judges: &["main-bearing.clearance"],
    needs: &[USE],
    takes: &[MAIN_JOURNAL, BEARING, BLOCK, OIL, CARD_MAIN_LOW, CARD_MAIN_HIGH],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Common practice, no source; service manuals go down to 0.23 thou an inch.
const LIMITS: JournalLimits =
    JournalLimits { thin: (0.75, 1.1), middle: (0.9, 1.3), thick: (1.0, 1.55), never: (0.2, 0.6) };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let journal = f.get(MAIN_JOURNAL);
    if let (Some(low), Some(high)) = (f.get(CARD_MAIN_LOW), f.get(CARD_MAIN_HIGH)) {
        a.window(card(&LIMITS, f, journal, low, high).text(text::MAKER));
    } else if let Some(journal) = journal {
        let (mut low, mut high) = LIMITS.work(f, journal);
        let (mut never, loose) = LIMITS.never(f, journal);
        if f.choice(BLOCK).is_some_and(|b| b.starts_with("aluminium")) {
            // Aluminium housings open as they warm: 0.5 to 1.0 thou less cold.
            low -= thou(1.0);
            high -= thou(0.5);
            never -= thou(1.0);
        }
        let least = meets(Some(journal)).never_below.unwrap_or(0.0);
        let (low, never) = (low.max(least), never.max(0.0));
        a.window(work(low, high).never_below(never.min(low)).never_above(loose).text(text::SHOP));
    } else {
        return CannotSay(reason::NO_JOURNAL);
    }
    a.window(meets(journal).text(text::CONTACT));
    Answered
}
