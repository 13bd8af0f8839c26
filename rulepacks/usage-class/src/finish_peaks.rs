//! The peaks of the bore's finish against the life wanted.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE];

texts![
    STREET = Text {
        high: Remedy::say("A few more strokes with the plateau brush in {place}."),
        ..Text::new("street, the looser school")
    },
    BRACKET = Text {
        high: Remedy::say("A few more strokes with the plateau brush in {place}. As it is, it suits the street."),
        ..Text::new("bracket, the closer school of long life")
    },
    ALL_OUT = Text {
        low: Remedy::say("Too smooth seals at once and leaks 35 passes on: look at the valleys of {place} too."),
        high: Remedy::say("A few more strokes with the plateau brush in {place}. As it is, it suits a bracket engine."),
        ..Text::new("all-out, short runs")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "finish-peaks",
    title: "Bore finish, peaks",
    operation: "block",
    why: "Peaks are what the rings must wear off before they seal: on the street that is what the first miles are for, \
          an all-out engine has no passes to spend on it.",
    source: "trade figures, weak: 12 to 15 microinches for long life, 4 to 8 for short runs; one ring maker's dyno test ran 10",
    judges: &["bore.rpk"],
    needs: &[USE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let window = usage.pick(
        Window::at_most(microinches(15.0)).text(text::STREET),
        Window::at_most(microinches(12.0)).text(text::BRACKET),
        Window::between(microinches(4.0), microinches(8.0)).levels(Note, Warn).text(text::ALL_OUT),
    );
    a.window(window);
    Answered
}
