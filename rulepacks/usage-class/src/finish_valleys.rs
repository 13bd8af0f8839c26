//! The valleys of the bore's finish against the life wanted.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE];

texts![
    LONG_LIFE = Text {
        low: Remedy::say("A coarser stone before the plateau in {place}. As it is, it suits an all-out engine."),
        high: Remedy::say("A finer stone in {place}, if there is metal for it; or live with some oil."),
        ..Text::new("street and bracket, long life")
    },
    SHORT_RUNS = Text {
        low: Remedy::say("A coarser stone before the plateau in {place}."),
        high: Remedy::say("A finer stone in {place}, if there is metal for it. As it is, it suits a bracket engine."),
        ..Text::new("all-out, short runs")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "finish-valleys",
    title: "Bore finish, valleys",
    operation: "block",
    why: "Valleys carry the oil that the rings live on; deeper than needed, they carry it past them.",
    source: "trade figures, weak: 40 to 80 microinches for long life, 25 to 45 for short runs",
    judges: &["bore.rvk"],
    needs: &[USE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let long = Window::between(microinches(40.0), microinches(80.0)).text(text::LONG_LIFE);
    let window = usage.pick(long, long, Window::between(microinches(25.0), microinches(45.0)).text(text::SHORT_RUNS));
    a.window(window.levels(Warn, Note));
    Answered
}
