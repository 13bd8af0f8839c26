//! Giving a book of before the digests its own.

use crate::engines::attached;
use crate::proof::{self, EntryRow, SheetRowText};
use rusqlite::{Connection, params};

/// Gives every row of a book that has none its digest and its link.
pub(crate) fn seal(db: &Connection) -> rusqlite::Result<()> {
    db.execute("DELETE FROM chain", [])?;
    let sql = format!("SELECT {}  FROM entry ORDER BY seq", proof::ENTRY_COLUMNS);
    let rows: Vec<EntryRow> = db.prepare(&sql)?.query_map([], proof::entry_row)?.collect::<rusqlite::Result<_>>()?;
    for row in rows {
        let digest = row.text.digest();
        let link = proof::next(db, proof::ENTRIES, &digest)?;
        db.prepare_cached("UPDATE entry SET digest = ?, link = ? WHERE seq = ?")?
            .execute(params![digest, link, row.seq])?;
    }
    let sql = format!("SELECT {} FROM sheet ORDER BY rowid", proof::SHEET_COLUMNS);
    let rows: Vec<SheetRowText> =
        db.prepare(&sql)?.query_map([], proof::sheet_row)?.collect::<rusqlite::Result<_>>()?;
    for mut row in rows {
        row.text.files = attached(db, &row.text.engine, row.text.revision)?;
        let proof = row.text.digest();
        let link = proof::next(db, proof::SHEETS, &proof)?;
        db.prepare_cached("UPDATE sheet SET proof = ?, link = ? WHERE rowid = ?")?
            .execute(params![proof, link, row.seq])?;
    }
    proof::seal_engines(db)
}
