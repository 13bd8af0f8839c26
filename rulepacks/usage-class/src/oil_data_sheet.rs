//! The oil's data sheet against the grade on its can.

use crate::facts::{GRADE_BELOW, GRADE_THINNEST};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-data-sheet",
    title: "Oil against its grade",
    operation: "receiving",
    why: "A viscosity outside the grade is another oil, another sheet, or a slip of the pen; every film is worked out from it.",
    basis: Published,
    source: "SAE J300, revisions of 2021 to 2024: kinematic viscosity at 100 °C",
    judges: &["oil.viscosity.hundred"],
    needs: &[GRADE_THINNEST, GRADE_BELOW],
    texts: &[Text {
        low: Remedy::say("Look at the data sheet again, or write the grade that it is: this one is {low} at least."),
        high: Remedy::say("Look at the data sheet again, or write the grade that it is: this one is under {high}."),
        ..Text::new("at 100 °C, by the grade")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(f.of(GRADE_THINNEST), f.of(GRADE_BELOW)));
    Answered
}
