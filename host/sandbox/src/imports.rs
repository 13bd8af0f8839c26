//! How to build a component that imports nothing, for each toolchain that likes to add imports unasked.

use super::component::Imports;

/// What the author of a pack with these imports can do about them.
pub(crate) fn hints(imports: &Imports) -> String {
    let has = |prefix: &str| imports.listed.iter().any(|i| i.name.starts_with(prefix));
    let mut hints = Vec::new();
    if has("wasi:") || has("wasi_snapshot") {
        hints.push(WASI);
    }
    if has("thou:") {
        hints.push(
            "a type of the contract that is `use`d into the world makes the component import the interface: export \
             the interface and use its types there.",
        );
    }
    if hints.is_empty() {
        hints.push("an import that nobody gave at linking stays in the component: define it, or leave it out.");
    }
    hints.join(" ")
}

const WASI: &str = "every WASI import has to go. Rust: build for wasm32-unknown-unknown (`thou pack build` does). \
                    JavaScript: `componentize-js --disable stdio random clocks http fetch-event`, or the same five as \
                    disableFeatures. Python: `componentize-py componentize --stub-wasi`. C and Zig: target wasm32-wasi \
                    with -mexec-model=reactor, and nothing that prints, opens files, asks the time or exits; malloc \
                    and mathematics want no import. TinyGo: -target=wasm-unknown.";
