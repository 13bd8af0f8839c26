//! Why a pack could not be built.

use crate::fault::PackFault;
use std::path::PathBuf;

/// Why a pack could not be built.
#[derive(Debug, thiserror::Error)]
pub enum BuildError {
    /// No crate there.
    #[error(
        "{}: there is no Cargo.toml. `thou pack build` takes the folder of a Rust crate, a table (.json), or the .wasm \
         file that another language's tools made",
        .0.display()
    )]
    NoCrate(PathBuf),
    /// A file that nothing can be made of.
    #[error(
        "{} is {what}. `thou pack build` takes the folder of a Rust crate, a table (.json), or the .wasm file that \
         another language's tools made",
        path.display()
    )]
    NotBuildable {
        /** which */
        path: PathBuf,
        /** what it is */
        what: String,
    },
    /// A pack already.
    #[error("{} is a built pack, with its manifest in it; `thou pack inspect` shows it", .0.display())]
    Already(PathBuf),
    /// A tool could not be started.
    #[error("{tool} cannot be started: {error}; set {variable} to where it is")]
    NoTool {
        /** the program */
        tool: String,
        /** why not */
        error: String,
        /** CARGO or RUSTC */
        variable: &'static str,
    },
    /// No library for the target.
    #[error(
        "the Rust in {} cannot build packs: it has no library for wasm32-unknown-unknown, and nothing was compiled\n  \
         with rustup: rustup target add wasm32-unknown-unknown\n  \
         with Debian's Rust: apt-get install --no-install-recommends rustc-web cargo-web rust-web-src\n  \
         and then: export CARGO=/usr/bin/cargo RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1 \
         CARGO_UNSTABLE_BUILD_STD=std,panic_abort CARGO_UNSTABLE_BUILD_STD_FEATURES=",
        .0.display()
    )]
    NoTarget(PathBuf),
    /// The compiler said no, and has said why.
    #[error("{cargo} could not build {}; its own words stand above", crate_dir.display())]
    Cargo {
        /** the program */
        cargo: String,
        /** the crate */
        crate_dir: PathBuf,
    },
    /// It built something else.
    #[error("{}: the crate gives no WebAssembly module: its Cargo.toml needs [lib] crate-type = [\"cdylib\"]", .0.display())]
    NoModule(PathBuf),
    /// What cargo says of itself cannot be read.
    #[error("what {0} printed cannot be read: {1}")]
    Unreadable(String, String),
    /// The module does not become a component.
    #[error(
        "the module does not become a component: {0}. In Rust: does the crate end with thou_sdk::pack!(...)? In \
         another language: generate the bindings of the world rule-pack from schemas/rules-1.0.wit"
    )]
    NoComponent(String),
    /// The component is no good pack. Who builds it is its author.
    #[error("{}: {}\n  {}", .0.origin, .0.fault, .0.fault.author())]
    Pack(#[from] PackFault),
    /// A house table that is wrong.
    #[error("{0}")]
    Table(PackFault),
    /// A file cannot be read or written.
    #[error("{}: {error}", path.display())]
    File {
        /** which */
        path: PathBuf,
        /** why */
        error: std::io::Error,
    },
}
