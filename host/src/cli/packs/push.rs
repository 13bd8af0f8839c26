//! Giving a pack to a registry.

use super::registry::Registry;
use crate::cli::io::{Exit, Io};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Push {
    /// The pack, a .wasm file
    file: PathBuf,
    #[command(flatten)]
    registry: Registry,
}

#[cfg(not(feature = "registry"))]
pub(super) fn push(args: &Push, io: &mut Io<'_>) -> Exit {
    let _ = &args.file;
    args.registry.left_out(io)
}

#[cfg(feature = "registry")]
pub(super) fn push(args: &Push, io: &mut Io<'_>) -> Exit {
    use super::registry;
    use crate::packs::{self, clean};

    let (place, login) = match args.registry.open() {
        Ok(open) => open,
        Err(words) => return registry::refuse(&words, Exit::INVALID, io),
    };
    if !place.has_tag() {
        let words = format!("\"{place}\" names no tag to push to: write HOST/NAME:TAG.");
        return registry::refuse(&words, Exit::INVALID, io);
    }
    let shown = clean::clean(&args.file.display().to_string());
    let loaded = packs::read_file(&args.file).and_then(|b| Ok((packs::load_bytes(&args.file, b.clone())?, b)));
    let (pack, bytes) = match loaded {
        Ok(loaded) => loaded,
        Err(fault) => return registry::refuse(&fault.to_string(), Exit::PACK, io),
    };
    if !bytes.starts_with(b"\0asm") {
        let words = format!("{shown} is not built yet: a registry takes the .wasm file that `thou pack build` writes.");
        return registry::refuse(&words, Exit::INVALID, io);
    }
    let about = thou_registry::About {
        id: pack.manifest.id.clone(),
        version: pack.manifest.version.clone(),
        day: io.today.map_or_else(|| "1970-01-01".to_owned(), |d| d.to_string()),
        sha256: pack.digest.clone(),
    };
    match thou_registry::push(&place, &bytes, &about, login.as_ref()) {
        Ok(manifest) => {
            let at = clean::clean(&place.at(&manifest));
            io.say(&format!("{shown}   {} {}   pushed\n  sha256 {}\n  {at}\n", about.id, about.version, about.sha256));
            Exit::FINE
        }
        Err(fault) => registry::refuse(&format!("{fault}."), Exit::PACK, io),
    }
}
