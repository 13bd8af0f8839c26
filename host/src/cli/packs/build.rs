//! Building a pack, of a crate, of other tools' work or of a house table.

use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use crate::packs;
use std::path::{Path, PathBuf};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Build {
    /// The folder of a Rust crate, a house table, or a .wasm file that other tools made
    pack: PathBuf,
    /// Where to write it; the pack's own name with .wasm if not given
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write nothing: say whether the file is what the sources give
    #[arg(long)]
    check: bool,
}

pub(super) fn build(args: &Build, io: &mut Io<'_>) -> Exit {
    let built = match packs::build::build(&args.pack) {
        Ok(built) => built,
        // a page with carets is folded already
        Err(error @ packs::build::BuildError::Table(_)) => {
            io.complain(&error.to_string());
            return Exit::PACK;
        }
        Err(error) => {
            io.complain(&folded(&error.to_string()));
            return Exit::PACK;
        }
    };
    super::unsaid::unsaid(&built.pack.manifest, io);
    let name = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}.wasm", built.pack.manifest.id)));
    if args.check {
        return match built.differs(&name) {
            None => {
                io.say(&format!("{}: as its sources have it\n", name.display()));
                Exit::FINE
            }
            Some(difference) => {
                io.complain(&folded(&difference));
                Exit::PACK
            }
        };
    }
    if same_file(&args.pack, &name) {
        io.complain(&folded(&format!(
            "{} would be written over what it is made from: name another with --out",
            name.display()
        )));
        return Exit::INVALID;
    }
    if let Err(error) = built.write(&name) {
        io.complain(&folded(&error.to_string()));
        return Exit::INVALID;
    }
    io.say(&format!("{}   {} bytes   sha256 {}\n", name.display(), built.bytes.len(), built.pack.digest));
    Exit::FINE
}

fn same_file(a: &Path, b: &Path) -> bool {
    matches!((a.canonicalize(), b.canonicalize()), (Ok(a), Ok(b)) if a == b)
}
