//! The table to start from.

/// Common practice as a table, to be edited: `rulepacks/tables/common-practice.json`.
pub const COMMON_PRACTICE: &str = include_str!("../../../rulepacks/tables/common-practice.json");

/// A table under this name with the numbers of common practice, each rule superseding the one that it copies.
#[must_use]
pub fn starter(name: &str) -> String {
    // the schema lies beside the file that is embedded, and not beside the shop's
    let lines = COMMON_PRACTICE.split_inclusive('\n').filter(|line| !line.trim_start().starts_with("\"$schema\""));
    lines.collect::<String>().replacen("\"common-practice\"", &format!("\"{name}\""), 1)
}
