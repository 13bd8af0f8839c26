//! Building a pack.

use super::{Exit, Io};
use crate::packs;
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Build {
    /// The pack's folder
    folder: PathBuf,
    /// Where to write it; the pack's own name with .wasm if not given
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write nothing: say whether the file is what the sources give
    #[arg(long)]
    check: bool,
}

pub(super) fn build(args: &Build, io: &mut Io<'_>) -> Exit {
    let built = match packs::build::build(&args.folder) {
        Ok(built) => built,
        Err(error) => {
            io.complain(&error.to_string());
            return Exit::PACK;
        }
    };
    let name = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}.wasm", built.pack.manifest.id)));
    if args.check {
        return match built.differs(&name) {
            None => {
                io.say(&format!("{}: as its sources have it\n", name.display()));
                Exit::FINE
            }
            Some(difference) => {
                io.complain(&difference);
                Exit::PACK
            }
        };
    }
    if let Err(error) = built.write(&name) {
        io.complain(&error.to_string());
        return Exit::INVALID;
    }
    io.say(&format!("{}   {} bytes   sha256 {}\n", name.display(), built.bytes.len(), built.pack.digest));
    Exit::FINE
}
