//! The sections of a sheet that hold parts.

/// Sections that are parts of the engine, whose state (new, reused, reconditioned) says which limits they are held to.
pub const PARTS: [&str; 13] = [
    "block",
    "crank",
    "rods",
    "pistons",
    "pins",
    "rings",
    "gasket",
    "heads",
    "valves",
    "springs",
    "valvetrain",
    "cam",
    "bearings",
];

/// Sections of what is around them, which work can be done to all the same.
const AROUND: [&str; 8] = ["fasteners", "oil", "fuel", "induction", "ignition", "exhaust", "cooling", "balance"];

/// Every section that work can be done to.
pub(super) fn sections() -> impl Iterator<Item = &'static str> {
    PARTS.into_iter().chain(AROUND)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use serde_json::Value;

    /// The schema has more sections than these: what is written of the shop, the readings and the job.
    #[test]
    fn every_section_with_a_state_in_the_schema_is_one_of_these() {
        let schema: Value = serde_json::from_str(crate::SCHEMA).unwrap();
        let all = schema["properties"].as_object().unwrap();
        let stated = all.iter().filter(|(_, section)| section.pointer("/properties/state").is_some());
        let stated: Vec<&str> = stated.map(|(name, _)| name.as_str()).collect();
        assert!(stated.len() > PARTS.len(), "{stated:?}");
        assert!(stated.iter().all(|name| sections().any(|s| s == *name)), "{stated:?}");
        assert!(sections().all(|name| all.contains_key(name)));
        assert!(PARTS.iter().all(|name| stated.contains(name)));
    }
}
