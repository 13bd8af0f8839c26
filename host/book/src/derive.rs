//! What follows from the entries: meters, parts by stretch, tightenings, services done last.

use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension, params};
use std::collections::BTreeMap;
use thou_life::entry::{Entry, What};
use thou_life::history::MeterNow;
use thou_life::meter::{self, Count, Counter};

/// An engine's meters and events as the tables have them.
pub(crate) fn load(db: &Connection, engine: &str) -> rusqlite::Result<Counter> {
    let mut statement = db.prepare_cached("SELECT year, name FROM event WHERE engine = ?")?;
    let events = statement.query_map([engine], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(Counter { meters: counts(db, engine)?, events: events.collect::<rusqlite::Result<_>>()? })
}

fn counts(db: &Connection, engine: &str) -> rusqlite::Result<BTreeMap<String, Count>> {
    let mut statement =
        db.prepare_cached("SELECT meter, total, zero, read_at, freshened FROM meter WHERE engine = ?")?;
    let rows = statement.query_map([engine], |row| {
        let count = Count { total: row.get(1)?, zero: row.get(2)?, read_at: row.get(3)?, freshened: row.get(4)? };
        Ok((row.get(0)?, count))
    })?;
    rows.collect()
}

/// An engine's meters into the tables.
pub(crate) fn store(db: &Connection, engine: &str, counter: &Counter) -> rusqlite::Result<()> {
    let mut statement = db.prepare_cached(
        "INSERT INTO meter (engine, meter, total, zero, read_at, freshened) VALUES (?, ?, ?, ?, ?, ?)
         ON CONFLICT DO UPDATE SET total = excluded.total, zero = excluded.zero, read_at = excluded.read_at,
            freshened = excluded.freshened",
    )?;
    for (name, m) in &counter.meters {
        statement.execute(params![engine, name, m.total, m.zero, m.read_at, m.freshened])?;
    }
    Ok(())
}

/// Counts an entry that comes after all that were counted, and writes what follows from it; the meters themselves are
/// written by [`store`].
pub(crate) fn apply(db: &Connection, counter: &mut Counter, seq: i64, entry: &Entry) -> rusqlite::Result<()> {
    if counter.step(entry).contains_key("events") {
        db.prepare_cached("INSERT INTO event (engine, year, name) VALUES (?, ?, ?)")?.execute(params![
            entry.engine,
            entry.day.year(),
            meter::event_of(entry)
        ])?;
    }
    let on = entry.day.to_string();
    match &entry.what {
        What::Fitted { part, serial, place, brought, made, .. } => {
            let brought: BTreeMap<String, f64> =
                brought.iter().filter_map(|(m, a)| Some((m.clone(), meter::reading(m, a).ok()?))).collect();
            db.prepare_cached(
                "INSERT INTO stretch (fitted_by, serial, part, engine, place, fitted, at_fitted, brought, made)
                 VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            )?
            .execute(params![
                seq,
                serial,
                part,
                entry.engine,
                place,
                on,
                json(&counter.totals()),
                json(&brought),
                made.map(|d| d.to_string())
            ])?;
        }
        What::Removed { serial, failed, disposition, because } => {
            db.prepare_cached(
                "UPDATE stretch SET removed_by = ?, removed = ?, at_removed = ?, failed = ?, disposition = ?, because = ?
                 WHERE serial = ? AND engine = ? AND removed_by IS NULL",
            )?
            .execute(params![
                seq, on, json(&counter.totals()), failed, disposition, because, serial, entry.engine
            ])?;
        }
        What::Tightened { serial } => {
            db.prepare_cached("INSERT INTO tightened (seq, serial, engine, day) VALUES (?, ?, ?, ?)")?
                .execute(params![seq, serial, entry.engine, on])?;
        }
        What::Did { service, .. } => {
            db.prepare_cached(
                "INSERT INTO done (engine, service, seq, day, at) VALUES (?, ?, ?, ?, ?)
                 ON CONFLICT DO UPDATE SET seq = excluded.seq, day = excluded.day, at = excluded.at",
            )?
            .execute(params![entry.engine, service, seq, on, json(&counter.totals())])?;
        }
        _ => {}
    }
    Ok(())
}

/// Makes everything that follows from an engine's entries anew.
pub(crate) fn recompute(db: &Connection, engine: &str) -> rusqlite::Result<Counter> {
    for table in ["stretch", "tightened", "done", "meter", "event", "undone"] {
        db.prepare_cached(&format!("DELETE FROM {table} WHERE engine = ?"))?.execute([engine])?;
    }
    db.prepare_cached(
        "INSERT OR IGNORE INTO undone (seq, engine)
         SELECT wrong.seq, wrong.engine FROM entry AS undoing JOIN entry AS wrong ON wrong.id = undoing.json ->> 'entry'
         WHERE undoing.engine = ?1 AND undoing.what = 'undone' AND wrong.engine = ?1",
    )?
    .execute([engine])?;
    db.prepare_cached("UPDATE engine SET entries = (SELECT count(*) FROM entry WHERE engine = ?1) WHERE name = ?1")?
        .execute([engine])?;
    let mut counter = Counter::new(&start(db, engine)?);
    for (seq, entry) in effective(db, engine, None)? {
        apply(db, &mut counter, seq, &entry)?;
    }
    store(db, engine, &counter)?;
    Ok(counter)
}

/// How the meters stood at the end of a day.
pub(crate) fn state_on(db: &Connection, engine: &str, last: Date) -> rusqlite::Result<Counter> {
    let mut counter = Counter::new(&start(db, engine)?);
    for (_, entry) in effective(db, engine, Some(last))? {
        counter.step(&entry);
    }
    Ok(counter)
}

/// The entries of an engine that count, by day and then in the order of writing, up to a day.
pub(crate) fn effective(db: &Connection, engine: &str, last: Option<Date>) -> rusqlite::Result<Vec<(i64, Entry)>> {
    let mut statement = db.prepare_cached(
        "SELECT seq, json FROM entry WHERE engine = ? AND day <= ? AND what <> 'undone'
            AND NOT EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq)
         ORDER BY day, seq",
    )?;
    let last = last.map_or_else(|| "9999-12-31".to_owned(), |d| d.to_string());
    let rows = statement.query_map([engine, &last], |row| Ok((row.get(0)?, parse(row, 1)?)))?;
    rows.collect()
}

/// The entry in a column.
pub(crate) fn parse(row: &rusqlite::Row<'_>, column: usize) -> rusqlite::Result<Entry> {
    let text = row.get_ref(column)?.as_str()?;
    serde_json::from_str(text).map_err(|_| {
        let unread = Box::new(crate::error::Unread(text.to_owned()));
        rusqlite::Error::FromSqlConversionFailure(column, rusqlite::types::Type::Text, unread)
    })
}

/// A day as the tables have it.
pub(crate) fn day(text: Option<String>) -> Option<Date> {
    text.and_then(|t| t.parse().ok())
}

/// What an engine had run when its log began.
pub(crate) fn start(db: &Connection, engine: &str) -> rusqlite::Result<BTreeMap<String, f64>> {
    let text: String =
        db.prepare_cached("SELECT start FROM engine WHERE name = ?")?.query_row([engine], |row| row.get(0))?;
    Ok(map(&text))
}

/// An engine's meters, for its readers.
pub(crate) fn meters(db: &Connection, engine: &str) -> rusqlite::Result<BTreeMap<String, MeterNow>> {
    let counts = counts(db, engine)?;
    let now = |m: &Count| MeterNow { total: m.total, since_freshened: m.total - m.freshened };
    Ok(counts.iter().map(|(name, meter)| (name.clone(), now(meter))).collect())
}

/// The same in the evening of a day.
pub(crate) fn meters_on(
    db: &Connection,
    engine: &str,
    on: Option<Date>,
) -> rusqlite::Result<BTreeMap<String, MeterNow>> {
    // the table has them where nothing is later
    let last = last_day(db, engine)?;
    let Some(on) = on.filter(|on| last.is_some_and(|last| last > *on)) else { return meters(db, engine) };
    let now = |m: &Count| MeterNow { total: m.total, since_freshened: m.total - m.freshened };
    Ok(state_on(db, engine, on)?.meters.iter().map(|(name, meter)| (name.clone(), now(meter))).collect())
}

/// Meters by name, as the tables have them.
pub(crate) fn json(meters: &BTreeMap<String, f64>) -> String {
    serde_json::to_string(meters).unwrap_or_default()
}

/// Meters by name, from the tables.
pub(crate) fn map(text: &str) -> BTreeMap<String, f64> {
    serde_json::from_str(text).unwrap_or_default()
}

/// The last day that an engine's log has; the day of an undoing moves nothing.
pub(crate) fn last_day(db: &Connection, engine: &str) -> rusqlite::Result<Option<Date>> {
    let sql = "SELECT day FROM entry WHERE engine = ? AND what <> 'undone' ORDER BY day DESC, seq DESC LIMIT 1";
    let text = db.prepare_cached(sql)?.query_row([engine], |row| row.get(0)).optional()?;
    Ok(day(text))
}
