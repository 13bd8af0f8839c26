//! `thou log list`: what was written.

use super::{say, words};
use crate::cli::io::{Exit, Io};
use crate::cli::shelf::{self, Shelf, complain, refuse};
use crate::packs::clean::clean;
use thou_life::entry::{Entry, What};
use thou_text::nearest;

pub(super) fn list(
    shelf: &Shelf,
    engine: &str,
    since: Option<&str>,
    what: Option<&str>,
    undone: bool,
    io: &mut Io<'_>,
) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let since =
        since.map(|text| words::parse_day("--since", text)).transpose().map_err(|why| complain(&why, wrap, io))?;
    let book = shelf.open(io)?;
    let engine = shelf::engine(&book, engine).map_err(|e| refuse(&e, wrap, io))?;
    let what = what.map(str::to_lowercase);
    let what = what.as_deref();
    let mut all = book.written(Some(&engine)).map_err(|e| refuse(&e, wrap, io))?;
    all.sort_by_key(|(entry, _)| entry.day);
    let named = |entry: &Entry| match (&entry.what, what) {
        (_, None) => true,
        (What::Read { reading: name, .. } | What::Happened { happening: name, .. }, Some(what)) if name == what => true,
        (_, Some(what)) => entry.what.name() == what,
    };
    if let Some(word) = what.filter(|w| !all.iter().any(|(e, _)| named(e)) && !names().contains(w)) {
        let hint = nearest(word, names().into_iter()).map_or_else(String::new, |n| format!(" Did you mean {n}?"));
        return Err(complain(&format!("--what {word}: no entry can say that.{hint}"), wrap, io));
    }
    let mut shown = 0;
    for (entry, counts) in all.iter().filter(|(e, _)| since.is_none_or(|day| e.day >= day) && named(e)) {
        if !counts && !undone {
            continue;
        }
        shown += 1;
        let mark = match (&entry.what, counts) {
            (What::Undone { .. }, _) | (_, true) => "",
            (_, false) => "undone: ",
        };
        let by = entry.by.as_ref().map(|by| format!(", {}", clean(by))).unwrap_or_default();
        let words = format!("{}  {mark}{}{by} [{}]", say::when(entry), say::what(entry), entry.id);
        io.say(&wrap.fill(&words, "", "    "));
    }
    let hidden = all.iter().filter(|(e, counts)| !counts && !matches!(e.what, What::Undone { .. })).count();
    if shown == 0 {
        io.say(&wrap.fill("Nothing to show.", "", ""));
    }
    if hidden > 0 && !undone {
        io.say(&wrap.fill(&format!("{hidden} undone, left out here; --undone shows them."), "", "  "));
    }
    Ok(())
}

/// What `--what` takes.
fn names() -> Vec<&'static str> {
    let readings = thou_life::entry::READINGS.iter().map(|r| r.name);
    What::NAMES.into_iter().chain(readings).chain(thou_life::events::known()).collect()
}
