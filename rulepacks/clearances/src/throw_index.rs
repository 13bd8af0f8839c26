//! Throws at their angles.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

const INDEX: Option<Remedy> =
    Remedy::say("Read {place} again from top dead center; have the throw indexed as it is ground.");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "throw-index",
    title: "Throw index",
    operation: "crank",
    why: "A throw off its angle fires, and opens its valves, early or late: that hole wants a timing of its own.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: 2° off, a crank that was ground wrong"),
    judges: &["crank.throw-index"],
    needs: &[USE],
    texts: &[Text { low: INDEX, high: INDEX, ..Text::new("off its own angle") }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let off = degrees(by_use(f, 0.5, 0.25, 0.25));
    a.window(Window::between(-off, off).never_below(degrees(-2.0)).never_above(degrees(2.0)));
    Answered
}
