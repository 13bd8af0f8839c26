//! What a new pack takes along, so that it builds on a machine that has Rust and nothing of ours: the kit's sources, the
//! contract and the schemas for the editor, as this program was built with them.

/// Files with their text, each as its path in its folder.
pub(super) type Texts = &'static [(&'static str, &'static str)];

macro_rules! texts {
    ($folder:literal: $($path:literal),* $(,)?) => {
        &[$(($path, include_str!(concat!("../../../../../", $folder, "/", $path)))),*]
    };
}

/// The kit: the crates thou-contract and thou-sdk.
pub(super) const KIT: Texts = texts!["rulepacks":
    "contract/Cargo.toml",
    "contract/src/answer.rs",
    "contract/src/answer/window.rs",
    "contract/src/fixtures.rs",
    "contract/src/fixtures/given.rs",
    "contract/src/fixtures/judged.rs",
    "contract/src/fixtures/tests.rs",
    "contract/src/kind.rs",
    "contract/src/lib.rs",
    "contract/src/manifest.rs",
    "contract/src/quantity.rs",
    "contract/src/slopes.rs",
    "contract/src/wear.rs",
    "sdk/Cargo.toml",
    "sdk/src/answer.rs",
    "sdk/src/facts.rs",
    "sdk/src/fixtures.rs",
    "sdk/src/guest.rs",
    "sdk/src/lib.rs",
    "sdk/src/manifest.rs",
    "sdk/src/rule.rs",
    "sdk/src/units.rs",
];

/// The contract, and the schemas of what is in a pack's folder.
pub(super) const SCHEMAS: Texts = texts!["schemas":
    "fixture.schema.json",
    "pack.schema.json",
    "rules-1.0.wit",
];

/// The schemas of what is in a table's folder.
pub(super) const TABLE_SCHEMAS: Texts = texts!["schemas": "fixture.schema.json", "table.schema.json"];

/// The licences that the kit is under.
pub(super) const LICENCES: Texts = texts!["": "LICENSE-APACHE", "LICENSE-MIT"];

/// The workspace that the kit is a part of: the versions of what it uses.
pub(super) const WORKSPACE: &str = include_str!("../../../../../rulepacks/Cargo.toml");
/// The very versions.
pub(super) const LOCK: &str = include_str!("../../../../../rulepacks/Cargo.lock");

/// The starter, which is called our-shop.
pub(super) const STARTER: Texts = texts!["rulepacks/starter":
    "src/lib.rs",
    "tests/fixtures.rs",
    "fixtures/end-play/go-bracket.json",
    "fixtures/end-play/go-bracket.txt",
    "fixtures/end-play/go-street.json",
    "fixtures/end-play/go-street.txt",
    "fixtures/end-play/go-wide.json",
    "fixtures/end-play/go-wide.txt",
    "fixtures/end-play/look-bracket-tight.json",
    "fixtures/end-play/look-bracket-tight.txt",
    "fixtures/end-play/look-street-tight.json",
    "fixtures/end-play/look-street-tight.txt",
    "fixtures/end-play/look-wide.json",
    "fixtures/end-play/look-wide.txt",
];

/// The examples in other languages, which are called ring-gaps: what all share, and then each.
pub(super) const SHARED: Texts = texts!["rulepacks/examples":
    "manifest.json",
    "fixtures/plain-iron/does-not-apply-street.json",
    "fixtures/plain-iron/does-not-apply-street.txt",
    "fixtures/plain-iron/go-steel.json",
    "fixtures/plain-iron/go-steel.txt",
    "fixtures/plain-iron/look-blower.json",
    "fixtures/plain-iron/look-blower.txt",
    "fixtures/plain-iron/look-nitrous.json",
    "fixtures/plain-iron/look-nitrous.txt",
    "fixtures/plain-iron/note-all-out.json",
    "fixtures/plain-iron/note-all-out.txt",
    "fixtures/top-gap/cannot-say-small-bore.json",
    "fixtures/top-gap/cannot-say-small-bore.txt",
    "fixtures/top-gap/go-bracket-closing.json",
    "fixtures/top-gap/go-bracket-closing.txt",
    "fixtures/top-gap/go-card.json",
    "fixtures/top-gap/go-card.txt",
    "fixtures/top-gap/go-street-steel.json",
    "fixtures/top-gap/go-street-steel.txt",
    "fixtures/top-gap/look-bracket-closing-under.json",
    "fixtures/top-gap/look-bracket-closing-under.txt",
    "fixtures/top-gap/look-street-steel-under.json",
    "fixtures/top-gap/look-street-steel-under.txt",
    "fixtures/top-gap/no-go-bracket-closing-under-never.json",
    "fixtures/top-gap/no-go-bracket-closing-under-never.txt",
    "fixtures/top-gap/no-go-card-under-never.json",
    "fixtures/top-gap/no-go-card-under-never.txt",
    "fixtures/top-gap/note-bracket-closing-over.json",
    "fixtures/top-gap/note-bracket-closing-over.txt",
    "fixtures/top-gap/note-card-over.json",
    "fixtures/top-gap/note-card-over.txt",
    "fixtures/top-gap/note-street-steel-over.json",
    "fixtures/top-gap/note-street-steel-over.txt",
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
        let mut kit = there("rulepacks", &["contract/src", "sdk/src"]);
        kit.extend(["contract/Cargo.toml".to_owned(), "sdk/Cargo.toml".to_owned()]);
        assert_eq!(named(KIT), kit);
        assert_eq!(named(STARTER), there("rulepacks/starter", &["src", "tests", "fixtures"]));
        let mut shared = there("rulepacks/examples", &["fixtures"]);
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
