//! Holding a pack to its signature.

use super::keys;
use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use crate::packs::signature::PublicKey;
use crate::packs::{self, clean};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Verify {
    /// The pack; its signature stands beside it, as FILE.minisig
    file: PathBuf,
    /// The public key of whoever it should be from, or its .pub file
    #[arg(long, value_name = "KEY")]
    key: String,
}

pub(super) fn verify(args: &Verify, io: &mut Io<'_>) -> Exit {
    let key = match PublicKey::given(&args.key) {
        Ok(key) => key,
        Err(fault) => {
            io.complain(&format!("--key: {}", keys::sentence(&fault)));
            return Exit::INVALID;
        }
    };
    let bytes = match packs::read_file(&args.file) {
        Ok(bytes) => bytes,
        Err(fault) => {
            io.complain(&fault.to_string());
            return Exit::PACK;
        }
    };
    match key.holds(&args.file, &bytes) {
        Ok(comment) => {
            let shown = clean::clean(&args.file.display().to_string());
            let key = key.text();
            io.say(&folded(&format!("{shown}: the signature holds\n  key      {key}\n  comment  {comment}")));
            Exit::FINE
        }
        Err(fault) => {
            io.complain(&keys::sentence(&fault));
            Exit::PACK
        }
    }
}
