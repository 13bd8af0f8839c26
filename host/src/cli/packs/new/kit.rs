//! What a new pack takes along, so that it builds on a machine that has Rust and nothing of ours: the kit's sources, the
//! contract and the schemas for the editor, as this program was built with them.

/// Files with their text, each as its path in its folder.
pub(super) type Texts = &'static [(&'static str, &'static str)];

macro_rules! texts {
    ($folder:literal: $($path:literal),* $(,)?) => {
        &[$(($path, include_str!(concat!("../../../../../", $folder, "/", $path)))),*]
    };
}

/// The kit: the crates thou-contract, thou-cases and thou-sdk.
pub(super) const KIT: Texts = texts!["rulepacks":
    "cases/Cargo.toml",
    "cases/src/arithmetic.rs",
    "cases/src/around.rs",
    "cases/src/case.rs",
    "cases/src/file.rs",
    "cases/src/given.rs",
    "cases/src/hold.rs",
    "cases/src/lib.rs",
    "cases/src/tests.rs",
    "contract/Cargo.toml",
    "contract/src/answer.rs",
    "contract/src/answer/border.rs",
    "contract/src/answer/window.rs",
    "contract/src/day.rs",
    "contract/src/factor.rs",
    "contract/src/kind.rs",
    "contract/src/lib.rs",
    "contract/src/logged.rs",
    "contract/src/manifest.rs",
    "contract/src/measure.rs",
    "contract/src/quantity.rs",
    "contract/src/slopes.rs",
    "contract/src/wear.rs",
    "sdk/Cargo.toml",
    "sdk/native/cases.rs",
    "sdk/src/answer.rs",
    "sdk/src/facts.rs",
    "sdk/src/guest.rs",
    "sdk/src/lib.rs",
    "sdk/src/manifest.rs",
    "sdk/src/names.rs",
    "sdk/src/rule.rs",
    "sdk/src/units.rs",
];

/// The judge, by which the kit holds a pack to its cases.
pub(super) const JUDGE: Texts = texts!["host":
    "judge/Cargo.toml",
    "judge/src/lib.rs",
    "judge/src/limits.rs",
    "judge/src/state.rs",
];

/// The contract, and the schemas of what is in a pack's folder.
pub(super) const SCHEMAS: Texts = texts!["schemas":
    "cases.schema.json",
    "pack.schema.json",
    "rules-1.0.wit",
];

/// The schemas of what is in a table's folder.
pub(super) const TABLE_SCHEMAS: Texts = texts!["schemas": "cases.schema.json", "table.schema.json"];

/// The licences that the kit is under.
pub(super) const LICENCES: Texts = texts!["": "LICENSE-APACHE", "LICENSE-MIT"];

/// The workspace that the kit is a part of: the versions of what it uses.
pub(super) const WORKSPACE: &str = include_str!("../../../../../rulepacks/Cargo.toml");
/// The very versions.
pub(super) const LOCK: &str = include_str!("../../../../../rulepacks/Cargo.lock");

/// The starter, which is called our-shop.
pub(super) const STARTER: Texts = texts!["rulepacks/starter":
    "src/end_play.rs",
    "src/end_play.cases.toml",
    "src/end_play.reads.txt",
    "src/lib.rs",
    "tests/cases.rs",
];

/// The examples in other languages, which are called ring-gaps: what all share, and then each.
pub(super) const SHARED: Texts = texts!["rulepacks/examples":
    "manifest.json",
    "cases/plain-iron.cases.toml",
    "cases/plain-iron.reads.txt",
    "cases/top-gap.cases.toml",
    "cases/top-gap.reads.txt",
];
pub(super) const JAVASCRIPT: Texts =
    texts!["rulepacks/examples/javascript": "build.mjs", "package-lock.json", "package.json", "ring-gaps.js"];
pub(super) const PYTHON: Texts = texts!["rulepacks/examples/python": "requirements.txt", "ring_gaps.py"];
pub(super) const C: Texts =
    texts!["rulepacks/examples/c": "requirements.txt", "ring_gaps.c", "rule_pack.c", "rule_pack.h"];
/// What tells the linker of the contract's types.
pub(super) const C_TYPES: &[u8] = include_bytes!("../../../../../rulepacks/examples/c/rule_pack_component_type.o");

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::collections::BTreeSet;
    use std::path::Path;

    fn list(root: &Path, under: &str, files: &mut BTreeSet<String>) {
        for entry in std::fs::read_dir(root.join(under)).unwrap().flatten() {
            let path = format!("{under}/{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                list(root, &path, files);
            } else {
                files.insert(path);
            }
        }
    }

    fn there(folder: &str, under: &[&str]) -> BTreeSet<String> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(folder);
        let mut files = BTreeSet::new();
        for folder in under {
            list(&root, folder, &mut files);
        }
        files
    }

    #[test]
    fn a_file_that_is_added_is_taken_along() {
        let named = |texts: Texts| texts.iter().map(|(path, _)| (*path).to_owned()).collect::<BTreeSet<String>>();
        let mut kit = there("rulepacks", &["cases/src", "contract/src", "sdk/native", "sdk/src"]);
        kit.extend(["cases", "contract", "sdk"].map(|name| format!("{name}/Cargo.toml")));
        assert_eq!(named(KIT), kit);
        let mut judge = there("host", &["judge/src"]);
        judge.insert("judge/Cargo.toml".to_owned());
        assert_eq!(named(JUDGE), judge);
        assert_eq!(named(STARTER), there("rulepacks/starter", &["src", "tests"]));
        let mut shared = there("rulepacks/examples", &["cases"]);
        shared.insert("manifest.json".to_owned());
        assert_eq!(named(SHARED), shared);
        let examples = there("rulepacks", &["examples/javascript", "examples/python", "examples/c"]);
        let all = [("javascript", JAVASCRIPT), ("python", PYTHON), ("c", C)];
        let mut taken: BTreeSet<String> = all
            .iter()
            .flat_map(|(language, texts)| named(texts).into_iter().map(move |p| format!("examples/{language}/{p}")))
            .collect();
        taken.insert("examples/c/rule_pack_component_type.o".to_owned());
        // a new pack has a README of its own
        taken.extend(all.iter().map(|(language, _)| format!("examples/{language}/README.md")));
        assert_eq!(taken, examples);
    }
}
