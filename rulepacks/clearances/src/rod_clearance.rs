//! Oil clearance of the rods.

use crate::bearings::{CARD, CONTACT, HOLDS, JournalLimits, card, meets};
use crate::common::{ROLLER, blown_alcohol, roller, work};
use crate::facts::{ADDER, BEARING, CARD_ROD_HIGH, CARD_ROD_LOW, FUEL, OIL, ROD, ROD_JOURNAL, USE};
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
    CONTACT = Text { low: POLISH, ..CONTACT },
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
    hold_basis: Some(Practice),
    hold_source: Some(HOLDS),
    judges: &["rod-bearing.clearance"],
    needs: &[USE],
    takes: &[ROD_JOURNAL, BEARING, ROD, OIL, ADDER, FUEL, CARD_ROD_LOW, CARD_ROD_HIGH],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Common practice, no source; service manuals go down to 0.31 thou an inch.
const LIMITS: JournalLimits =
    JournalLimits { thin: (0.8, 1.1), middle: (0.9, 1.4), thick: (1.1, 1.6), never: (0.25, 0.7) };
/// Aluminium rods, whatever the use: one school leaves them as steel ones on thin oil, since the big end opens hot.
const ALUMINIUM: JournalLimits =
    JournalLimits { thin: (0.95, 1.8), middle: (1.1, 1.8), thick: (1.1, 1.8), never: (0.9, 0.9) };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let journal = f.get(ROD_JOURNAL);
    let aluminium = f.is(ROD, &["aluminium"]);
    let limits = if aluminium { &ALUMINIUM } else { &LIMITS };
    if let (Some(low), Some(high)) = (f.get(CARD_ROD_LOW), f.get(CARD_ROD_HIGH)) {
        a.window(card(limits, f, journal, low, high).text(text::MAKER));
    } else if let Some(journal) = journal {
        let (low, mut high) = if aluminium { limits.by_oil(f, journal) } else { limits.work(f, journal) };
        if aluminium && blown_alcohol(f) {
            // big engines blown on alcohol run them looser still
            high = 2.0e-3 * journal;
        }
        let (never, loose) = limits.never(f, journal);
        a.window(work(low, high).never_below(never).never_above(loose).text(text::SHOP));
    } else {
        return CannotSay(reason::NO_JOURNAL);
    }
    a.window(meets(journal).text(text::CONTACT));
    Answered
}
