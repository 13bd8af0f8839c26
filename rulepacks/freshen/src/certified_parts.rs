//! Parts with a certificate, by their own printed dates.

use crate::facts::{SANCTIONED, USE};
use crate::lives::{Lives, by_calendar};
use thou_sdk::prelude::*;

service_reasons![NO_BODY = "no body inspects this car"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "certified-parts",
    title: "Read the printed dates",
    why: "A certified part is good to the date on it and not a day longer, however little it has run. Refused at the \
          gate is the kind ending.",
    needs: &[USE],
    takes: takes!(SANCTIONED),
    reasons: REASONS,
    texts: &[scaled!("Read every date before the season: flexplate, clutch housing, damper, belts, bottle")],
    service: Some(ServiceInfo {
        part: "certified parts",
        action: "replace-by-date",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 0.5,
        loses: "money",
        triggers: &["any date that falls before the end of the season", "a part that was opened, cut or welded since"],
        caution: Some("Read the rule book of your own body, of this year; only the dates of the sheet are known here."),
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Whether anybody was beside it. What it held and what it was to hold off: it is replaced with one in date, and its mount is looked at.",
}];

const LIVES: Lives<'static> = Lives {
    bracket: &[by_calendar(6.0, 12.0, 12.0)],
    sportsman: &[by_calendar(6.0, 12.0, 12.0)],
    hardest: &[by_calendar(6.0, 12.0, 12.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(SANCTIONED) == Some(false) {
        return NotApplicable(reason::NO_BODY);
    }
    LIVES.give(f, a)
}
