//! Leak-down, hole by hole and among the holes.

use thou_sdk::prelude::*;

judges![LEVEL = "leak-down", SPREAD = "leak-down.spread"];

const LISTEN: Option<Remedy> = Remedy::say(
    "Listen where it goes: intake, exhaust, breather, the next hole or the radiator; then turn the engine and read it again.",
);

texts![
    LEVEL = Text { high: LISTEN, ..Text::new("each hole, warm, by this tester") },
    SPREAD = Text { high: LISTEN, ..Text::new("from the tightest hole to the leakiest, by this tester") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "leak-down",
    title: "Leak-down",
    operation: "hand-over",
    why: "What leaks at rest is burned past the rings and the seats at speed: it is the cheapest look into a closed engine.",
    source: "common practice, no source: fresh engines read 2 to 5 %, and 10 % asks where it goes; testers differ, so like with like",
    hold_source: Some("common practice, no source: nobody runs a hole that leaks a third of its air"),
    judges: JUDGES,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(percent(10.0)).never_above(percent(33.0)).judging(judged::LEVEL).text(text::LEVEL));
    a.window(Window::at_most(percent(6.0)).never_above(percent(30.0)).judging(judged::SPREAD).text(text::SPREAD));
    Answered
}
