//! Ring gaps of an invented shop, in Rust: the same two rules as the examples in JavaScript, Python and C beside it.
//! The figures are invented.

mod facts {
    thou_sdk::facts! {
        /// What the engine is for.
        USE: choice one "use" ["street", "bracket", "all-out"];
        /// What adds to its own breathing.
        ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
        /// The bore as the job names it.
        BORE: length one "bore.nominal";
        /// The bore as it was read.
        BORES: length cylinder "bore.diameter";
        /// What the top ring is made of.
        MATERIAL: choice one "ring.top.material" ["iron", "ductile", "steel"];
        /// Top gap over bore by the card.
        CARD: ratio one "ring.card.top-gap-factor";
        /// What ring and bore close of the gap when they are hot.
        CLOSING: gap one "ring.closing-gap";
        /// Power wanted of one cylinder.
        POWER: power one "power-a-cylinder";
    }
}

thou_sdk::rules![top_gap, plain_iron];

thou_sdk::pack!(thou_sdk::Pack {
    id: "ring-gaps",
    title: "Ring gaps of an invented shop",
    about: "An example of a pack: one window and one finding, the same in four languages. Its figures are invented.",
    facts: facts::FACTS,
    rules: RULES,
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    #[test]
    fn the_manifest_is_the_one_that_the_other_languages_hand_back() {
        let shared: thou_contract::Manifest = serde_json::from_str(include_str!("../../manifest.json")).unwrap();
        assert_eq!(super::PACK.manifest(), shared);
    }
}
