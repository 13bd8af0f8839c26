//! Writing entries: one turn at the file for all that come together.

use crate::error::{BookError, Refusal, Refused};
use crate::{Book, derive, engines, id, proof, serials};
use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use std::collections::BTreeMap;
use thou_life::entry::{Entry, SHOP, What};
use thou_life::meter;

/// What became of an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Added {
    /// Its id, given where it had none.
    pub id: String,
    /// Whether it is new; an entry that the book has adds nothing.
    pub new: bool,
    /// The last day that the engine's log had before, where this entry is of an earlier one.
    pub before: Option<Date>,
}

/// What became of entries of which the good ones were kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct KeptGood {
    /// The good ones, each with its place among those that came, from nought.
    pub added: Vec<(usize, Added)>,
    /// The others.
    pub refused: Vec<Refused>,
}

impl Book {
    /// Writes entries: all of them, or none. When this returns they are on the disk.
    ///
    /// # Errors
    /// [`BookError::Refused`] with the first that does not fit, or what the disk says; the book is then as it was.
    pub fn append(&mut self, entries: &[Entry]) -> Result<Vec<Added>, BookError> {
        let kept = self.write(entries, true, None)?;
        match kept.refused.into_iter().next() {
            Some(refused) => Err(BookError::Refused(refused)),
            None => Ok(kept.added.into_iter().map(|(_, added)| added).collect()),
        }
    }

    /// Writes those entries that fit, and tells the others.
    ///
    /// # Errors
    /// What the disk says; the book is then as it was.
    pub fn append_good(&mut self, entries: &[Entry]) -> Result<KeptGood, BookError> {
        self.write(entries, false, None)
    }

    /// Those of some entries that would be refused, each in its turn; writes nothing.
    ///
    /// # Errors
    /// What the disk says.
    pub fn rehearse(&mut self, entries: &[Entry]) -> Result<Vec<Refused>, BookError> {
        self.give_way();
        let path = self.path.clone();
        let of = |error: rusqlite::Error| BookError::of(&path, &error);
        let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(of)?;
        let mut writer = Writer { db: &turn, engines: BTreeMap::new() };
        let mut refused = Vec::new();
        for (at, entry) in entries.iter().enumerate() {
            refused.extend(writer.one(entry).map_err(of)?.err().map(|why| Refused { at, why }));
        }
        turn.rollback().map_err(of)?;
        Ok(refused)
    }

    /// Writes entries in one turn, and strikes out the line that says that this work was begun.
    pub(crate) fn write(
        &mut self,
        entries: &[Entry],
        all_or_none: bool,
        begun: Option<&str>,
    ) -> Result<KeptGood, BookError> {
        self.give_way();
        let path = self.path.clone();
        let of = |error: rusqlite::Error| BookError::of(&path, &error);
        let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(of)?;
        let mut writer = Writer { db: &turn, engines: BTreeMap::new() };
        let mut kept = KeptGood::default();
        for (at, entry) in entries.iter().enumerate() {
            match writer.one(entry).map_err(of)? {
                Ok(added) => kept.added.push((at, added)),
                Err(why) => {
                    kept.refused.push(Refused { at, why });
                    if all_or_none {
                        return Ok(kept);
                    }
                }
            }
        }
        writer.finish().map_err(of)?;
        if let Some(begun) = begun {
            turn.execute("DELETE FROM unfinished WHERE digest = ?", [begun]).map_err(of)?;
        }
        turn.commit().map_err(of)?;
        self.wrote = Some(std::time::Instant::now());
        Ok(kept)
    }
}

/// One engine while entries are written.
struct Open {
    counter: meter::Counter,
    last: Option<Date>,
    /// Whether what follows from the entries must be made anew.
    stale: bool,
    more: i64,
}

struct Writer<'a> {
    db: &'a Connection,
    engines: BTreeMap<String, Open>,
}

impl Writer<'_> {
    fn one(&mut self, entry: &Entry) -> rusqlite::Result<Result<Added, Refusal>> {
        if entry.engine == SHOP && !(entry.what.for_all_engines() || matches!(entry.what, What::Undone { .. })) {
            return Ok(Err(Refusal::OfOneEngine { what: entry.what.name() }));
        }
        if !self.engines.contains_key(&entry.engine) {
            if entry.engine == SHOP && entry.what.for_all_engines() {
                engines::begin_alone(self.db, SHOP)?;
            }
            if !engines::exists(self.db, &entry.engine)? {
                let hint = engines::hint(self.db, &entry.engine)?;
                return Ok(Err(Refusal::UnknownEngine { name: entry.engine.clone(), hint }));
            }
            let open = Open {
                counter: derive::load(self.db, &entry.engine)?,
                last: derive::last_day(self.db, &entry.engine)?,
                stale: false,
                more: 0,
            };
            self.engines.insert(entry.engine.clone(), open);
        }
        if let Some(known) = self.known(entry)? {
            return Ok(known);
        }
        if let Some(refusal) = self.refusal(entry)? {
            return Ok(Err(refusal));
        }
        self.insert(entry).map(Ok)
    }

    /// What becomes of an entry whose id the book has.
    fn known(&self, entry: &Entry) -> rusqlite::Result<Option<Result<Added, Refusal>>> {
        if entry.id.is_empty() {
            return Ok(None);
        }
        let mut statement = self.db.prepare_cached("SELECT json FROM entry WHERE id = ?")?;
        let known = statement.query_row([&entry.id], |row| derive::parse(row, 0)).optional()?;
        Ok(known.map(|known| {
            if known == *entry {
                Ok(Added { id: entry.id.clone(), new: false, before: None })
            } else {
                Err(Refusal::IdTaken(entry.id.clone()))
            }
        }))
    }

    fn refusal(&mut self, entry: &Entry) -> rusqlite::Result<Option<Refusal>> {
        match &entry.what {
            What::Ran { meter, meter_was_reset, .. } => {
                if let Err(error) = meter::counted(&entry.what) {
                    return Ok(Some(error.into()));
                }
                for (name, amount) in meter {
                    let shown = match meter::reading(name, amount) {
                        Ok(shown) => shown,
                        Err(error) => return Ok(Some(error.into())),
                    };
                    let run = meter::counted(&entry.what).ok().and_then(|c| c.get(name.as_str()).copied());
                    let state = self.state_before(entry)?;
                    if !meter_was_reset && let Some(before) = self.before_freshening(entry, name, &state, shown)? {
                        let (meter, reading) = (name.clone(), amount.0.clone());
                        return Ok(Some(Refusal::MeterOfBefore { meter, reading, before }));
                    }
                    let have = state.shows(name) + run.unwrap_or(0.0);
                    // half a millionth for what a unit's factor rounds
                    if !meter_was_reset && shown < have * (1.0 - 5e-7) {
                        let have = crate::append::shown(name, have);
                        return Ok(Some(Refusal::MeterDown { meter: name.clone(), reading: amount.0.clone(), have }));
                    }
                }
                Ok(None)
            }
            What::Fitted { brought, .. } => {
                if let Some(error) = brought.iter().find_map(|(name, amount)| meter::reading(name, amount).err()) {
                    return Ok(Some(error.into()));
                }
                serials::check(self.db, entry)
            }
            What::Shelved { brought, .. } => {
                Ok(brought.iter().find_map(|(name, amount)| meter::reading(name, amount).err()).map(Refusal::from))
            }
            What::Removed { .. } | What::Tightened { .. } => serials::check(self.db, entry),
            What::Settled { entry: id, .. } => Ok(self.find(entry, id)?.err()),
            What::Undone { entry: id } => match self.find(entry, id)? {
                Ok((seq, wrong)) => serials::check_without(self.db, seq, &wrong),
                Err(refusal) => Ok(Some(refusal)),
            },
            _ => Ok(None),
        }
    }

    /// What a meter read before the engine was freshened, where this is its first reading since and no less: it may have
    /// run on, and would then be counted twice.
    fn before_freshening(
        &self,
        entry: &Entry,
        name: &str,
        state: &meter::Counter,
        shown: f64,
    ) -> rusqlite::Result<Option<String>> {
        let first = state.meters.get(name).is_some_and(|m| m.freshened > 0.0 && m.read_at <= m.freshened);
        if !first {
            return Ok(None);
        }
        let entries = derive::effective(self.db, &entry.engine, Some(entry.day))?;
        let freshened = entries.iter().rposition(|(_, e)| matches!(e.what, What::Freshened)).unwrap_or(0);
        let before = entries.iter().take(freshened).rev().find_map(|(_, e)| match &e.what {
            What::Ran { meter, .. } => meter.get(name).cloned(),
            _ => None,
        });
        Ok(before.filter(|before| meter::reading(name, before).is_ok_and(|si| shown >= si)).map(|before| before.0))
    }

    /// How the meters stand before this entry.
    fn state_before(&mut self, entry: &Entry) -> rusqlite::Result<meter::Counter> {
        let Some(open) = self.engines.get_mut(&entry.engine) else { return Ok(meter::Counter::default()) };
        if open.last.is_some_and(|last| entry.day < last) {
            return derive::state_on(self.db, &entry.engine, entry.day);
        }
        if open.stale {
            open.counter = derive::recompute(self.db, &entry.engine)?;
            (open.stale, open.more) = (false, 0);
        }
        Ok(open.counter.clone())
    }

    /// The entry of the same engine that another one is about.
    fn find(&self, entry: &Entry, id: &str) -> rusqlite::Result<Result<(i64, Entry), Refusal>> {
        let mut statement = self.db.prepare_cached(
            "SELECT seq, json, EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq)
             FROM entry WHERE id = ? AND engine = ? AND what <> 'undone'",
        )?;
        let found = statement
            .query_row([id, &entry.engine], |row| Ok((row.get(0)?, derive::parse(row, 1)?, row.get::<_, bool>(2)?)))
            .optional()?;
        Ok(match found {
            Some((_, _, true)) => Err(Refusal::UndoneBefore { id: id.to_owned() }),
            Some((seq, found, false)) => Ok((seq, found)),
            None => Err(Refusal::NoSuchEntry { id: id.to_owned(), engine: entry.engine.clone() }),
        })
    }

    fn insert(&mut self, entry: &Entry) -> rusqlite::Result<Added> {
        let mut entry = entry.clone();
        if entry.id.is_empty() {
            entry.id = self.new_id(&entry)?;
        }
        write(self.db, None, &entry)?;
        let seq = self.db.last_insert_rowid();
        if let What::Undone { entry: wrong } = &entry.what {
            self.db
                .prepare_cached("INSERT INTO undone (seq, engine) SELECT seq, engine FROM entry WHERE id = ?")?
                .execute([wrong])?;
        }
        let mut before = None;
        if let Some(open) = self.engines.get_mut(&entry.engine) {
            let undoing = matches!(entry.what, What::Undone { .. });
            before = open.last.filter(|last| entry.day < *last && !undoing);
            if before.is_some() || undoing {
                open.stale = true;
            } else if !open.stale {
                derive::apply(self.db, &mut open.counter, seq, &entry)?;
            }
            open.more += 1;
            if !undoing {
                open.last = open.last.max(Some(entry.day));
            }
        }
        Ok(Added { id: entry.id, new: true, before })
    }

    /// An id that no entry has: it hangs on the book and the place in it, so that the same words twice are two entries.
    fn new_id(&self, entry: &Entry) -> rusqlite::Result<String> {
        let origin: String =
            self.db.prepare_cached("SELECT value FROM about WHERE key = 'origin'")?.query_row([], |row| row.get(0))?;
        let seq: i64 =
            self.db.prepare_cached("SELECT coalesce(max(seq), 0) FROM entry")?.query_row([], |row| row.get(0))?;
        let json = serde_json::to_string(entry).unwrap_or_default();
        let mut taken = self.db.prepare_cached("SELECT 1 FROM entry WHERE id = ?")?;
        let mut again = 0;
        loop {
            let id = id::id(&[&origin, &seq.to_string(), &json], again);
            if !taken.exists([&id])? {
                return Ok(id);
            }
            again += 1;
        }
    }

    fn finish(self) -> rusqlite::Result<()> {
        for (engine, open) in &self.engines {
            if open.stale {
                derive::recompute(self.db, engine)?;
            } else if open.more > 0 {
                derive::store(self.db, engine, &open.counter)?;
                self.db
                    .prepare_cached("UPDATE engine SET entries = entries + ? WHERE name = ?")?
                    .execute(params![open.more, engine])?;
            }
        }
        Ok(())
    }
}

/// Writes an entry into its table, at this number or at the next; it fails where one has its number or its id already.
pub(crate) fn write(db: &Connection, seq: Option<i64>, entry: &Entry) -> rusqlite::Result<()> {
    let text = proof::EntryText::of(entry);
    let digest = text.digest();
    // the place in the chain is taken with the row: who fails to insert one rolls both back
    let taken = db.prepare_cached("SELECT 1 FROM entry WHERE id = ?1 OR seq = ?2")?.exists(params![text.id, seq])?;
    let link = if taken { String::new() } else { proof::next(db, proof::ENTRIES, &digest)? };
    db.prepare_cached(
        "INSERT INTO entry (seq, id, engine, day, what, serial, json, digest, link) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
    )?
    .execute(params![seq, text.id, text.engine, text.day, text.what, text.serial, text.json, digest, link])
    .map(|_| ())
}

/// A meter's total for a reader.
#[must_use]
pub fn shown(name: &str, si: f64) -> String {
    match name {
        "hours" => format!("{} h", (si / 360.0).round() / 10.0),
        "miles" => format!("{} miles", (si / 160.934_4).round() / 10.0),
        _ => format!("{si}"),
    }
}
