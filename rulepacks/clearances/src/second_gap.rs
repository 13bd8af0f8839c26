//! End gap of the second ring.

use crate::common::{TOUCH, contact, touches};
use crate::facts::{BORE, CARD_SECOND_GAP, SECOND_STYLE};
use thou_sdk::prelude::*;

const FILE: Option<Remedy> = Remedy::solve(
    "File the second ring of {place} to {solve}, square and deburred; read it at the same depth.",
    "ring.second.gap",
    "up",
);
const RENEW: Option<Remedy> = Remedy::say("Swap in an oversize ring at {place} if leak-down asks for it.");

reasons![GAPLESS = "a gapless second ring has no gap of this kind: its rail goes by its maker"];

judges![GAP = "ring.second.gap", OVER_TOP = "ring.gap.second-over-top"];

texts![
    SCHOOLS = Text {
        low: FILE,
        high: RENEW,
        ..Text::new("what either school runs: 1.0 to 1.25 times the top gap, or by the bore")
    },
    CONTACT = Text { low: FILE, ..contact("contact: the ends meet") },
    OVER_TOP =
        Text { low: FILE, ..Text::new("second over top: smaller than either school has it, and no maker is named") },
    MAKER = Text {
        low: FILE,
        high: RENEW,
        hold_basis: Some(Maker),
        ..Text::card("the card's gap for this bore", "ring card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "second-gap",
    title: "Second ring gap",
    operation: "rings",
    why: "The second ring has to let out what passes the first before it lifts it, and must not butt either. Two \
          schools gap it, and good engines run both ways.",
    source: "two trade sources: one files it to 1.0 to 1.25 times the top gap, the other to 5.0 thou per inch on the \
             street up to 6.3 blown, so less than the top gap beyond the street",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 1.4 thou an inch of bore, under the lowest of service manuals; a ring's card where there is \
         one; contact: the ends meet",
    ),
    judges: JUDGES,
    needs: &[BORE],
    takes: &[CARD_SECOND_GAP, SECOND_STYLE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(SECOND_STYLE, &["gapless"]) {
        return NotApplicable(reason::GAPLESS);
    }
    let bore = f.of(BORE);
    if let Some(factor) = f.get(CARD_SECOND_GAP) {
        let low = factor * bore;
        let window = Window::between(low, 1.5 * low).aim(low).never_below(low).levels(Warn, Note);
        a.window(window.judging(judged::GAP).text(text::MAKER));
    } else {
        let per_inch = 1e-3 * bore;
        // Half as much again as the most that either school files, and still nothing breaks.
        let gap = Window::between(3.5 * per_inch, 1.5 * 6.3 * per_inch).never_below(1.4 * per_inch);
        a.window(gap.levels(Warn, Note).judging(judged::GAP).text(text::SCHOOLS));
        a.window(Window::at_least(0.85).levels(Note, Note).judging(judged::OVER_TOP).text(text::OVER_TOP));
    }
    a.window(touches(TOUCH).judging(judged::GAP).text(text::CONTACT));
    Answered
}
