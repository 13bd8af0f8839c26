//! A new pack in Rust.

use super::file::NewFile;
use super::kit::{JUDGE, KIT, LICENCES, LOCK, SCHEMAS, STARTER, WORKSPACE};

/// The name that the starter has.
const STARTER_NAME: &str = "our-shop";

/// Every file of it.
pub(super) fn files(name: &str) -> Vec<NewFile> {
    let mut files = vec![
        NewFile::new("Cargo.toml", cargo_toml(name)),
        NewFile::new("Cargo.lock", lock()),
        NewFile::new("README.md", readme(name)),
        NewFile::script("check.sh", check(name)),
        NewFile::new(".gitignore", "/target\n"),
    ];
    let named =
        |text: &str| text.replace(STARTER_NAME, name).replace(&STARTER_NAME.replace('-', "_"), &name.replace('-', "_"));
    files.extend(STARTER.iter().map(|(path, text)| NewFile::new(*path, named(text))));
    files.extend(SCHEMAS.iter().map(|(path, text)| NewFile::new(format!("schemas/{path}"), *text)));
    files.extend(KIT.iter().chain(LICENCES).map(|(path, text)| NewFile::new(format!("kit/{path}"), *text)));
    // its own tests need what a pack's author has not got
    let linked = |text: &'static str| text.split("\n[dev-dependencies]").next().unwrap_or(text);
    files.extend(JUDGE.iter().map(|(path, text)| NewFile::new(format!("kit/{path}"), linked(text))));
    files
}

/// The pack's own crate, which is the workspace of its kit too.
fn cargo_toml(name: &str) -> String {
    let package = format!(
        "[package]\nname = \"{name}\"\ndescription = \"A rule pack of thou\"\nversion = \"0.1.0\"\n\
         edition.workspace = true\nrust-version.workspace = true\npublish = false\n\n[lib]\n\
         crate-type = [\"cdylib\", \"rlib\"]\n\n[dependencies]\nthou-sdk.workspace = true\n\n"
    );
    let workspace = WORKSPACE.lines().filter(|line| !line.starts_with("exclude")).map(|line| {
        if line.starts_with("members") {
            "members = [\"kit/cases\", \"kit/contract\", \"kit/judge\", \"kit/sdk\"]".to_owned()
        } else {
            let line = line.replace("path = \"../host/judge\"", "path = \"kit/judge\"");
            ["cases", "contract", "sdk"]
                .iter()
                .fold(line, |line, name| line.replace(&format!("path = \"{name}\""), &format!("path = \"kit/{name}\"")))
        }
    });
    package + &workspace.collect::<Vec<_>>().join("\n") + "\n"
}

/// The versions that the kit was tried with; the crates of the folder itself cargo adds.
fn lock() -> String {
    let mut blocks = LOCK.split("[[package]]\n");
    let head = blocks.next().unwrap_or_default().to_owned();
    blocks.filter(|b| b.contains("\nsource = ")).fold(head, |out, block| out + "[[package]]\n" + block)
}

fn readme(name: &str) -> String {
    format!(
        "# {name}\n\n\
         A rule pack for `thou`. One rule is in `src/end_play.rs`; what it must come to is in `src/end_play.cases.toml`.\n\n    \
         thou pack build .                            # writes {name}.wasm\n    \
         thou pack test . --pack {name}.wasm          # asks it, in the sandbox, for every case\n    \
         thou check SHEET.json --pack {name}.wasm     # judges a build with it\n\n\
         `cargo test` asks the cases without the sandbox, where a panic has its line. `sh check.sh` does all of it, for a \
         CI.\n\n\
         Building needs Rust and its target: `rustup target add wasm32-unknown-unknown`; without rustup, `thou pack build` \
         says what Debian needs.\n\n\
         - A rule has one file of cases, `src/<rule>.cases.toml`: what it is given, and every limit, aim, argument and word \
         that it must come to, as arithmetic from its source (`low = \"1.1e-3 * {{bore.nominal}}\"`). Beside every limit \
         `thou pack test` puts a reading on each side. `schemas/cases.schema.json` has every column.\n\
         - The `.reads.txt` beside it is what its user reads, letter by letter. `thou pack test . --write-reads` writes it \
         again after a change on purpose: read the difference.\n\
         - `thou facts` lists what a rule can ask for, `thou pack inspect {name}.wasm` shows what this one does.\n\
         - `thou pack new-rule bore-taper --judges bore.taper` starts another rule: its file, its cases and its name in \
         the list of `src/lib.rs`, which stands in the order of the job.\n\
         - `kit/` and `schemas/` are `thou`'s own, as the program had them that made this folder.\n"
    )
}

fn check(name: &str) -> String {
    format!(
        "#!/bin/sh\n# Builds the pack and holds it to its cases, natively and in the sandbox. THOU names the program \
         where it is\n# not on the path.\nset -eu\ncd \"$(dirname \"$0\")\"\nthou=\"${{THOU:-thou}}\"\ncargo test\n\
         \"$thou\" pack build . --out {name}.wasm\n\"$thou\" pack test . --pack {name}.wasm\n"
    )
}
