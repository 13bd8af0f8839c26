//! The film of the rods' bearings against the roughness of what it parts.

use crate::facts::BEARING;
use thou_sdk::prelude::*;

reasons![ROLLING = "rolling bearings have no film of this kind"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "film-over-roughness",
    title: "Rod bearing film over roughness",
    operation: "combination",
    why: "Where the film is thinner than the surfaces are rough they touch, and the overlay wears instead of floating.",
    basis: Published,
    source: "Hamrock, Fundamentals of Fluid Film Lubrication, 1994: under 1 the surfaces carry, over 3 the film does; the \
             film by the mobility method is right to half of itself either way",
    judges: &["rod-bearing.film.over-roughness"],
    takes: &[BEARING],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Film {fact:rod-bearing.film.minimum} by the model, ±50 %: hold it against a good engine of this shop before \
             changing anything. A thicker or cooler oil, a tighter shell, less speed or a better polish all raise it.",
        ),
        ..Text::new("least film of a rod bearing over the roughness of journal and shell, by the model, ±50 %")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    a.window(Window::at_least(1.0).aim(3.0).levels(Warn, Note));
    Answered
}
