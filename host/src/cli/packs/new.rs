//! Starting a pack: a folder that builds and passes its fixtures before a line is written in it.

mod kit;
mod rust;

use super::{Exit, Io, folded};
use std::path::{Path, PathBuf};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct New {
    /// The pack's name, in lower-case letters, figures and dashes: our-shop
    name: String,
    /// Where to make its folder; the pack's own name if not given
    #[arg(long, value_name = "FOLDER")]
    dir: Option<PathBuf>,
    /// A house table and no code: common practice, to be edited
    #[arg(long)]
    table: bool,
}

/// A file of a new pack: where in its folder, what is in it, whether it is run.
struct File {
    path: String,
    text: String,
    runs: bool,
}

impl File {
    fn new(path: impl Into<String>, text: impl Into<String>) -> Self {
        Self { path: path.into(), text: text.into(), runs: false }
    }
}

pub(super) fn new(args: &New, io: &mut Io<'_>) -> Exit {
    let name = args.name.as_str();
    if let Err(why) = good_name(name) {
        io.complain(&folded(&format!("\"{}\": {why}", crate::packs::clean::clean(name))));
        return Exit::INVALID;
    }
    let folder = args.dir.clone().unwrap_or_else(|| PathBuf::from(name));
    let file = folder.join(format!("{name}.json"));
    let files = match args.table {
        true => vec![File::new(format!("{name}.json"), thou_table::starter(name))],
        false => rust::files(name),
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
        if let Err(error) = write(&folder, file) {
            io.complain(&folded(&format!("{} cannot be written: {error}", folder.join(&file.path).display())));
            return Exit::INVALID;
        }
    }
    if args.table {
        io.say(&format!(
            "{0}: a house table with the numbers of common practice, to be edited\n  thou check SHEET.json --pack {0}\n  \
             thou pack build {0}\n",
            file.display()
        ));
        return Exit::FINE;
    }
    io.say(&format!(
        "{0}: a rule pack in Rust with one rule, in {0}/src/lib.rs\n  thou pack build {0}\n  thou pack test {0}\n  \
         thou check SHEET.json --pack {name}.wasm\n",
        folder.display()
    ));
    Exit::FINE
}

/// Names that a pack cannot have: those of the house's own packs, and of the crates that it is built beside.
const TAKEN: [&str; 10] =
    ["clearances", "usage-class", "freshen", "host", "thou", "thou-contract", "thou-sdk", "core", "std", "test"];

fn good_name(name: &str) -> Result<(), String> {
    let lower = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
    let part = |part: &str| !part.is_empty() && part.chars().all(lower);
    if !name.split('-').all(part) || !name.starts_with(|c: char| c.is_ascii_lowercase()) || name.len() > 60 {
        return Err(
            "a pack's name is lower-case letters, figures and dashes, and starts with a letter: our-shop".to_owned()
        );
    }
    if TAKEN.contains(&name) {
        return Err("that name is taken: choose another, such as our-shop".to_owned());
    }
    Ok(())
}

fn write(folder: &Path, file: &File) -> std::io::Result<()> {
    let path = folder.join(&file.path);
    if let Some(parent) = path.parent() {
        std::fs::create_dir_all(parent)?;
    }
    std::fs::write(&path, &file.text)?;
    if file.runs { make_runnable(&path) } else { Ok(()) }
}

#[cfg(unix)]
fn make_runnable(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755))
}

#[cfg(not(unix))]
fn make_runnable(_path: &Path) -> std::io::Result<()> {
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
