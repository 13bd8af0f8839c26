//! What a component wants from outside, and how to build one that wants nothing with each toolchain that likes to add
//! imports unasked.

/// More imports or exports than this are not listed.
pub(crate) const MAX_LISTED: usize = 20;

/// Something that a component wants from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Import {
    /// Its name, such as `wasi:cli/environment@0.2.3`.
    pub name: String,
}

/// What a component wants from outside: the first of them by name, and how many there are.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Imports {
    /// The first of them, in the component's own order.
    pub listed: Vec<Import>,
    /// All of them.
    pub count: usize,
}

impl From<Vec<Import>> for Imports {
    fn from(mut all: Vec<Import>) -> Self {
        let count = all.len();
        all.truncate(MAX_LISTED);
        Self { listed: all, count }
    }
}

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
