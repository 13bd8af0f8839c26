//! What a shop leaves between the parts: windows for every reading from the bore to the oil pump.

pub mod facts;
mod piston_to_wall;

thou_sdk::pack!(thou_sdk::Pack {
    id: "clearances",
    title: "Clearances to build to",
    about: "What a shop leaves between the parts, by use: bores, pistons, rings, bearings, rods, heads and valvetrain.",
    facts: facts::FACTS,
    rules: &[&piston_to_wall::RULE],
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests {
    #[test]
    fn every_fixture_holds() {
        thou_sdk::fixtures::check(super::PACK, concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures"));
    }
}
