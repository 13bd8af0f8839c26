//! `thou log undo`: striking an entry out.

use super::say;
use crate::cli::io::{Exit, Io};
use crate::cli::shelf::{Shelf, complain, refuse, tidy};
use crate::packs::clean::clean;
use thou_book::Refusal;
use thou_life::entry::{Entry, What};

pub(super) fn undo(
    shelf: &Shelf,
    engine: &str,
    id: Option<&str>,
    by: Option<&str>,
    io: &mut Io<'_>,
) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
    let counting: Vec<&Entry> = all.iter().filter(|(_, counts)| *counts).map(|(entry, _)| entry).collect();
    let wrong = match id {
        None => counting.last().map(|e| (*e).clone()),
        Some(id) => {
            let found: Vec<&&Entry> = counting.iter().filter(|e| e.id == id || e.id.starts_with(id)).collect();
            let exact = counting.iter().find(|e| e.id == id);
            match (exact, found.as_slice()) {
                (Some(one), _) => Some((*one).clone()),
                (None, [one]) => Some((**one).clone()),
                (None, []) if all.iter().any(|(e, counts)| !counts && e.id == id) => {
                    return Err(complain(&Refusal::UndoneBefore { id: id.to_owned() }.to_string(), wrap, io));
                }
                (None, []) => None,
                (None, several) => {
                    let ids: Vec<&str> = several.iter().map(|e| e.id.as_str()).collect();
                    return Err(complain(
                        &format!("\"{id}\" is the beginning of {}: write more of it", ids.join(", ")),
                        wrap,
                        io,
                    ));
                }
            }
        }
    };
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
        engine: engine.to_owned(),
        day,
        event: None,
        by: tidy(by),
        note: None,
        what: What::Undone { entry: wrong.id.clone() },
    };
    book.append(&[undoing]).map_err(|e| refuse(&e, wrap, io))?;
    let words = format!("{} {}: {} [{}] counts no more", clean(engine), say::when(&wrong), say::what(&wrong), wrong.id);
    io.say(&wrap.fill(&words, "", "  "));
    let row = book.engine(engine).map_err(|e| refuse(&e, wrap, io))?;
    let now = if row.meters.is_empty() { "nothing run".to_owned() } else { say::meters(&row.meters) };
    io.say(&wrap.fill(&format!("now {now}"), "  ", "  "));
    io.say(&wrap.fill(crate::report::DEFERS_SHORT, "  ", "  "));
    Ok(())
}
