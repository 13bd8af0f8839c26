//! The packs that every thou has.

use super::pack::{BUILT_IN, LoadedPack};

/// The packs' components as rulepacks/built has them.
pub(crate) const BUILT: &[(&str, &[u8])] = &[
    ("clearances", include_bytes!("../../../rulepacks/built/clearances.wasm")),
    ("usage-class", include_bytes!("../../../rulepacks/built/usage-class.wasm")),
    ("freshen", include_bytes!("../../../rulepacks/built/freshen.wasm")),
];

/// The built-in packs, uncompiled, in the order of a report.
#[must_use]
pub fn builtin() -> Vec<LoadedPack> {
    BUILT.iter().filter_map(|(_, bytes)| LoadedPack::trusted(bytes, BUILT_IN)).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used)]
    use super::super::{build, pack::LoadedPack};
    use super::*;
    use std::path::Path;

    #[test]
    fn each_is_what_a_pack_from_outside_must_be() {
        for (name, bytes) in BUILT {
            let pack = LoadedPack::load(*bytes, BUILT_IN).unwrap();
            assert_eq!(pack.manifest.id, *name);
            pack.prepare().unwrap();
        }
        assert_eq!(builtin().len(), BUILT.len());
    }

    #[test]
    fn each_is_built_from_the_sources_beside_it() {
        let root = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
        let recorded = build::Digests::read(&root.join("rulepacks/built")).unwrap();
        assert_eq!(recorded.0.len(), BUILT.len(), "digests.json and the program list the same packs");
        for pack in builtin() {
            let id = &pack.manifest.id;
            let digest = recorded.0.get(id).expect("in digests.json");
            assert_eq!(pack.digest, digest.sha256, "{id}.wasm is not the file whose digest is recorded");
            let crates = [
                (id.as_str(), root.join("rulepacks").join(id)),
                ("thou-contract", root.join("rulepacks/contract")),
                ("thou-sdk", root.join("rulepacks/sdk")),
            ];
            let sources = build::sources_digest(&crates).unwrap();
            assert_eq!(sources, digest.sources_sha256, "{id}.wasm is stale: run rulepacks/build.sh");
        }
    }
}
