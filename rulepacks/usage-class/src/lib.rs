//! .

pub mod facts;

thou_sdk::pack!(thou_sdk::Pack {
    id: "usage-class",
    title: "",
    about: "",
    facts: facts::FACTS,
    rules: &[],
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests {
    #[test]
    fn every_fixture_holds() {
        thou_sdk::fixtures::check(super::PACK, concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures"));
    }
}
