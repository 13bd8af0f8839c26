//! The table to start from, and the cases that hold it.

/// Common practice as a table, to be edited: `rulepacks/tables/common-practice.json`.
pub const COMMON_PRACTICE: &str = include_str!("../../../rulepacks/tables/common-practice.json");

macro_rules! cases {
    ($($rule:literal),* $(,)?) => {
        &[$((
            concat!($rule, ".cases.toml"),
            include_str!(concat!("../../../rulepacks/tables/cases/", $rule, ".cases.toml")),
        )),*]
    };
}

/// The cases of [`starter`], a file a rule, each with its text: `rulepacks/tables/cases`.
pub const STARTER_CASES: &[(&str, &str)] = cases![
    "bore-out-of-round",
    "bore-taper",
    "cam-bearing",
    "cam-end-play",
    "clearance-spread",
    "coil-bind",
    "deck-clearance-spread",
    "end-play",
    "journal-roundness",
    "lash",
    "lifter-to-bore",
    "main-clearance",
    "oil-pump",
    "oil-rail-gap",
    "pickup-to-pan",
    "pin-end-play",
    "pin-to-bush",
    "pin-to-piston",
    "piston-to-head",
    "piston-to-head-spread",
    "piston-to-valve",
    "piston-to-wall",
    "piston-to-wall-spread",
    "preload",
    "pushrod-to-head",
    "retainer-to-seal",
    "ring-axial-clearance",
    "rod-clearance",
    "rod-side-clearance",
    "seat-contact-width",
    "seat-runout",
    "second-gap",
    "stem-to-guide",
    "top-gap",
    "valve-radial",
    "valve-to-valve",
];

/// A table under this name with the numbers of common practice, each rule superseding the one that it copies.
#[must_use]
pub fn starter(name: &str) -> String {
    // the schema lies beside the file that is embedded, and not beside the shop's
    let lines = COMMON_PRACTICE.split_inclusive('\n').filter(|line| !line.trim_start().starts_with("\"$schema\""));
    lines.collect::<String>().replacen("\"common-practice\"", &format!("\"{name}\""), 1)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::STARTER_CASES;
    use std::collections::BTreeSet;

    #[test]
    fn a_file_of_cases_that_is_added_is_taken_along() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../rulepacks/tables/cases");
        let entries = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned());
        let there: BTreeSet<String> = entries.collect();
        assert_eq!(STARTER_CASES.iter().map(|(name, _)| (*name).to_owned()).collect::<BTreeSet<String>>(), there);
    }
}
