//! `thou log undo`: striking an entry out.

use super::by_id::by_id;
use super::say;
use crate::cli::io::{Exit, Io};
use crate::cli::shelf::{self, Shelf, complain, refuse, tidy};
use thou_life::entry::{Entry, SHOP, What};

pub(super) fn undo(
    shelf: &Shelf,
    engine: &str,
    id: Option<&str>,
    by: Option<&str>,
    io: &mut Io<'_>,
) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let engine = &shelf::engine(&book, engine).map_err(|e| refuse(&e, wrap, io))?;
    let all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
    let wrong = match id {
        None => all.iter().rev().find(|(_, counts)| *counts).map(|(entry, _)| entry),
        Some(id) => by_id(&all, id).map_err(|why| complain(&why, wrap, io))?,
    };
    let wrong = wrong.cloned();
    let Some(wrong) = wrong else {
        let why = match id {
            Some(id) => {
                format!("{engine} has no entry {id} that counts: `thou log list {engine}` shows them with their ids")
            }
            None => format!("{engine} has no entry that counts: there is nothing to undo"),
        };
        return Err(complain(&why, wrap, io));
    };
    let day = io.today.map_or(wrong.day, |today| today.max(wrong.day));
    let undoing = Entry {
        id: String::new(),
        engine: engine.clone(),
        day,
        zone: io.zone(),
        event: None,
        by: tidy(by),
        note: None,
        what: What::Undone { entry: wrong.id.clone() },
    };
    book.append(&[undoing]).map_err(|e| refuse(&e, wrap, io))?;
    let words =
        format!("{} {}: {} [{}] counts no more", say::engine(engine), say::when(&wrong), say::what(&wrong), wrong.id);
    io.say(&wrap.fill(&words, "", "  "));
    if *engine != SHOP && !wrong.what.of_the_office() {
        let row = book.engine(engine).map_err(|e| refuse(&e, wrap, io))?;
        let now = if row.meters.is_empty() { "nothing run".to_owned() } else { say::meters(&row.meters) };
        io.say(&wrap.fill(&format!("now {now}"), "  ", "  "));
    }
    io.say(&wrap.fill(crate::report::DEFERS_SHORT, "  ", "  "));
    Ok(())
}
