//! A withdrawn standard.

use crate::facts::{DYNO_PULLS, DYNO_STANDARD};
use thou_sdk::prelude::*;

reasons![NO_PULLS = "no pulls on the sheet"];

texts![
    STD = Text {
        low: Remedy::say(
            "Correct the measured powers by SAE J1349 or ISO 1585; compare with its like alone until then.",
        ),
        points_at: &["dyno.standard"],
        ..Text::new("STD is SAE J607: cancelled in 1988, and about 4 % over SAE J1349 in the same air")
    },
    DIN = Text {
        low: Remedy::say(
            "Correct the measured powers by ISO 1585 or SAE J1349; compare with its like alone until then.",
        ),
        points_at: &["dyno.standard"],
        ..Text::new("DIN 70020 is withdrawn, and counts the moisture as air")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-standard",
    title: "Standard of the dyno's figures",
    operation: "hand-over",
    why: "A power of one standard is no measure for one of another: in the same air the old ones read about 4 % more.",
    basis: Standard,
    source: "SAE J607, a code for small engines, cancelled in 1988; DIN 70020, withdrawn; the 4 % by their formulas",
    takes: &[DYNO_PULLS, DYNO_STANDARD],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(DYNO_PULLS).is_none() {
        return NotApplicable(reason::NO_PULLS);
    }
    let text = match f.choice(DYNO_STANDARD) {
        Some("std-j607") => text::STD,
        Some("din-70020") => text::DIN,
        _ => return Clear,
    };
    a.finding(Note, text, &[]);
    Answered
}
