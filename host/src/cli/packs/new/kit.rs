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
    "contract/src/fixtures.rs",
    "contract/src/fixtures/given.rs",
    "contract/src/fixtures/judged.rs",
    "contract/src/fixtures/tests.rs",
    "contract/src/kind.rs",
    "contract/src/lib.rs",
    "contract/src/manifest.rs",
    "contract/src/quantity.rs",
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
    }
}
