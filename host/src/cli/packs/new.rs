//! Starting a pack: a folder that builds and holds to its cases before a line is written in it.

mod file;
mod kit;
mod other;
mod rust;

use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use file::NewFile;
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct NewPackArgs {
    /// The pack's name, in lower-case letters, figures and dashes: our-shop
    name: String,
    /// The language to write it in
    #[arg(long = "in", value_name = "LANGUAGE", value_enum, default_value_t = Language::Rust)]
    language: Language,
    /// Where to make its folder; the pack's own name if not given
    #[arg(long, value_name = "FOLDER")]
    dir: Option<PathBuf>,
    /// A house table and no code: common practice, to be edited
    #[arg(long, conflicts_with = "language")]
    table: bool,
}

/// What a pack can be started in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Language {
    /// With the kit: the smallest, and tested without the sandbox too
    Rust,
    /// With componentize-js from npm
    Javascript,
    /// With componentize-py from PyPI
    Python,
    /// With Zig's compiler from PyPI
    C,
}

pub(super) fn new(args: &NewPackArgs, io: &mut Io<'_>) -> Exit {
    let name = args.name.as_str();
    if let Err(why) = good_name(name) {
        io.complain(&folded(&format!("\"{}\": {why}", crate::packs::clean::clean(name))));
        return Exit::INVALID;
    }
    let folder = args.dir.clone().unwrap_or_else(|| PathBuf::from(name));
    let table = folder.join(format!("{name}.json"));
    let files = match args.language {
        _ if args.table => table_files(name),
        Language::Rust => rust::files(name),
        Language::Javascript => other::files(&other::JAVASCRIPT, name),
        Language::Python => other::files(&other::PYTHON, name),
        Language::C => other::files(&other::C, name),
    };
    // nothing is written before it is known that nothing is written over
    if let Some(there) = files.iter().map(|f| folder.join(&f.path)).find(|p| p.exists()) {
        io.complain(&folded(&format!(
            "{} is there already, and nothing is written over it: choose another name or another --dir",
            there.display()
        )));
        return Exit::INVALID;
    }
    for file in &files {
        if let Err(error) = file.write(&folder) {
            io.complain(&folded(&format!("{} cannot be written: {error}", folder.join(&file.path).display())));
            return Exit::INVALID;
        }
    }
    let folder = folder.display();
    io.say(&match args.language {
        _ if args.table => format!(
            "{0}: common practice as a house table, to be edited\n  thou check SHEET.json --pack {0}\n  \
             thou pack test {0}\n  thou pack build {0}\n",
            table.display()
        ),
        Language::Rust => format!(
            "{folder}: a rule pack in Rust with one rule, in {folder}/src/end_play.rs\n  thou pack build {folder}\n  \
             thou pack test {folder}\n  thou check SHEET.json --pack {name}.wasm\n"
        ),
        Language::Javascript | Language::Python | Language::C => format!(
            "{folder}: a rule pack with two rules; {folder}/README.md has its commands\n  sh {folder}/check.sh\n  \
             thou check SHEET.json --pack {folder}/{name}.wasm\n"
        ),
    });
    Exit::FINE
}

/// A house table with the cases that hold it, and their schemas for the editor.
fn table_files(name: &str) -> Vec<NewFile> {
    let schema = "{\n  \"$schema\": \"schemas/table.schema.json\",\n";
    let schemas = kit::TABLE_SCHEMAS.iter().map(|(path, text)| NewFile::new(format!("schemas/{path}"), *text));
    let cases = thou_table::STARTER_CASES.iter().map(|(path, text)| NewFile::new(format!("cases/{path}"), *text));
    let table = thou_table::starter(name).replacen("{\n", schema, 1);
    let own = [NewFile::new(format!("{name}.json"), table), NewFile::new("README.md", table_readme(name))];
    own.into_iter().chain(cases).chain(schemas).collect()
}

fn table_readme(name: &str) -> String {
    format!(
        "# {name}

A house table for `thou`: the numbers of common practice, to be edited into the shop's own. `thou facts` lists what a
limit can be made of.

    thou pack build {name}.json                    # says what is wrong, or writes {name}.wasm to share
    thou pack test {name}.json                     # holds it to its cases
    thou check SHEET.json --pack {name}.json       # judges a build with it
    thou pack inspect {name}.json                  # shows whose every number is

## Cases

What a rule must come to stands in `cases/<rule>.cases.toml`: what it is given, and every limit, aim and word, each written
as arithmetic from where the shop has it. `schemas/cases.schema.json` has every column.

Change a number and `thou pack test` names the cases that no longer hold, with what they came to: a number stands in two
places, so that a slip of a digit shows. `cases/bore-taper.cases.toml` has `high = \"0.5 thou\"` for the street. A rule
that you take out takes its file with it; a rule that you add wants one.
"
    )
}

/// Names that a pack cannot have: those of the house's own packs, and of the crates that it is built beside.
const TAKEN: [&str; 12] = [
    "clearances",
    "usage-class",
    "freshen",
    "host",
    "thou",
    "thou-cases",
    "thou-contract",
    "thou-judge",
    "thou-sdk",
    "core",
    "std",
    "test",
];

/// Lower-case letters, figures and dashes, a letter first: what a manifest, a crate and a module can be called.
pub(super) fn is_kebab(name: &str) -> bool {
    let lower = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
    let part = |part: &str| !part.is_empty() && part.chars().all(lower);
    name.split('-').all(part) && name.starts_with(|c: char| c.is_ascii_lowercase()) && name.len() <= 60
}

fn good_name(name: &str) -> Result<(), String> {
    if !is_kebab(name) {
        return Err(
            "a pack's name is lower-case letters, figures and dashes, and starts with a letter: our-shop".to_owned()
        );
    }
    if TAKEN.contains(&name) {
        return Err("that name is taken: choose another, such as our-shop".to_owned());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::good_name;

    #[test]
    fn a_name_is_one_that_a_manifest_and_a_crate_can_have() {
        for good in ["our-shop", "a", "nine-mile-2"] {
            assert_eq!(good_name(good), Ok(()), "{good}");
        }
        for bad in ["", "Our-Shop", "our shop", "-a", "a-", "a--b", "2-thou", "../x", "our_shop", "clearances", "std"] {
            assert!(good_name(bad).is_err(), "{bad}");
        }
    }
}
