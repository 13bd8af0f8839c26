//! Signing a pack.

use super::{keys, whole_file};
use crate::cli::io::{Exit, Io};
use crate::packs::lock::LockEntry;
use crate::packs::{self, clean, signature};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Sign {
    /// The pack; its signature is written beside it, as FILE.minisig
    file: PathBuf,
    /// The secret key's file
    #[arg(long, value_name = "KEYFILE")]
    key: PathBuf,
}

pub(super) fn sign(args: &Sign, io: &mut Io<'_>) -> Exit {
    let loaded =
        packs::read_file(&args.file).and_then(|bytes| Ok((packs::load_bytes(&args.file, bytes.clone())?, bytes)));
    let (pack, bytes) = match loaded {
        Ok(loaded) => loaded,
        Err(fault) => {
            io.complain(&fault.to_string());
            return Exit::PACK;
        }
    };
    let entry = LockEntry::of("", &pack, &bytes);
    let comment = clean::clean(&format!("pack:{} version:{} sha256:{}", entry.pack, entry.version, entry.sha256));
    let (text, key) = match signature::sign(&bytes, &comment, &args.key, &mut keys::password) {
        Ok(signed) => signed,
        Err(fault) => {
            io.complain(&keys::sentence(&fault));
            return Exit::INVALID;
        }
    };
    let file = signature::beside(&args.file);
    let shown = clean::clean(&file.display().to_string());
    if let Err(error) = whole_file::replace(&file, text.as_bytes()) {
        io.complain(&format!("{shown} cannot be written: {error}"));
        return Exit::INVALID;
    }
    io.say(&format!("{shown}   {} {}\n  signed with {}\n", entry.pack, entry.version, key.text()));
    Exit::FINE
}
