//! Fetching a pack from a registry.

use super::registry::Registry;
use crate::cli::io::{Exit, Io};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Pull {
    #[command(flatten)]
    registry: Registry,
    /// Where to write it; the name's last part with .wasm if not given
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write over a file that is there and is another one
    #[arg(long)]
    replace: bool,
    /// Take an older version than the one that is there or locked there
    #[arg(long)]
    allow_older: bool,
}

#[cfg(not(feature = "registry"))]
pub(super) fn pull(args: &Pull, io: &mut Io<'_>) -> Exit {
    let _ = (&args.out, args.replace, args.allow_older);
    args.registry.left_out(io)
}

#[cfg(feature = "registry")]
pub(super) fn pull(args: &Pull, io: &mut Io<'_>) -> Exit {
    use super::registry;
    use crate::packs::{self, clean, lock};

    let (place, login) = match args.registry.open() {
        Ok(open) => open,
        Err(words) => return registry::refuse(&words, Exit::INVALID, io),
    };
    let pulled = match thou_registry::pull(&place, login.as_ref()) {
        Ok(pulled) => pulled,
        Err(fault) => return registry::refuse(&format!("{fault}."), Exit::PACK, io),
    };
    // looked at before it is written: what is no pack never gets a pack's name
    let pack =
        match packs::LoadedPack::load(pulled.bytes.clone(), &place.to_string()).and_then(|p| p.prepare().map(|()| p)) {
            Ok(pack) => pack,
            Err(fault) => return registry::refuse(&format!("{fault}\nNothing was written."), Exit::PACK, io),
        };
    let out = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}.wasm", place.name())));
    let shown = clean::clean(&out.display().to_string());
    let there = out.exists();
    let same = there && packs::read_file(&out).is_ok_and(|bytes| bytes == pulled.bytes);
    if there && !same && !args.replace {
        let words =
            format!("{shown} is there already and is another file: give --replace, or another name with --out.");
        return registry::refuse(&words, Exit::INVALID, io);
    }
    let home = out.parent().unwrap_or(std::path::Path::new(""));
    if !same && !args.allow_older {
        // the file that it would replace counts like a locked one: whoever held the pack's name has seen that version
        let mut known = lock::Lock::read(home).ok().flatten().unwrap_or(lock::Lock::empty(home));
        if let Ok(old) = packs::read_file(&out).and_then(|bytes| packs::load_bytes(&out, bytes)) {
            known.entries.push(lock::LockEntry::of("", &old, old.bytes()));
        }
        if let Err(packs::PackFaultKind::Older { locked, found }) =
            known.no_step_back(&pack.manifest.id, &pack.manifest.version)
        {
            let words = format!(
                "{} {found} is older than the {locked} that is there, or cannot be put in order with it. Give \
                 --allow-older if that is meant.",
                pack.manifest.id
            );
            return registry::refuse(&words, Exit::PACK, io);
        }
    }
    if !same && let Err(error) = super::whole_file::replace(&out, &pulled.bytes) {
        return registry::refuse(&format!("{shown} cannot be written: {error}"), Exit::INVALID, io);
    }
    let folder = out.parent().unwrap_or(std::path::Path::new(""));
    let name = out.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let listed = lock::listed(folder).ok().flatten().unwrap_or_default().contains(&name);
    let first = if listed { "" } else { "name it in the file packs there, " };
    let next = format!(
        "To have it count beside a sheet, {first}look at it with `thou pack list --pack {shown}`, and pin it with \
         `thou pack lock`."
    );
    io.say(&format!(
        "{shown}   {} {}   {} bytes{}\n  sha256 {}\n  {}\n{}",
        pack.manifest.id,
        pack.manifest.version,
        pulled.bytes.len(),
        if same { ", there already" } else { "" },
        pack.digest,
        clean::clean(&place.at(&pulled.manifest)),
        crate::cli::paper::folded(&next),
    ));
    Exit::FINE
}
