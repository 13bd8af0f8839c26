//! House tables: translated on the way in, and from then on packs like any other.

use super::fault::PackFaultKind;
use super::pack::LoadedPack;
use thou_contract::Manifest;
use thou_facts::{Catalogue, ValueKind};
use thou_sheet::{Fault as Shown, SheetFaults, Source};
use thou_table::{KnownFacts, Table, TableFact, TableFaults};

/// Columns of a page.
const WIDTH: usize = 80;

/// The pack that a table's text makes; `name` is its file's, `others` are the packs that it can stand in for.
///
/// # Errors
/// Everything that is wrong with it, as a page.
pub fn table(name: &str, text: &[u8], others: &[LoadedPack]) -> Result<Table, PackFaultKind> {
    let text =
        std::str::from_utf8(text).map_err(|e| PackFaultKind::BadTable(format!("{name}: it is not UTF-8: {e}\n")))?;
    let packs: Vec<&Manifest> = others.iter().map(|p| &p.manifest).collect();
    let facts = facts_for_tables();
    thou_table::translate(name, text, &KnownFacts { facts: &facts, packs: &packs })
        .map_err(|faults| PackFaultKind::BadTable(page(&faults)))
}

/// The catalogue as a table's translator takes it.
#[must_use]
pub fn facts_for_tables() -> Vec<TableFact> {
    let all = Catalogue::standard().all();
    all.map(|info| TableFact {
        id: info.id.to_owned(),
        kind: info.value.id().to_owned(),
        axis: info.axis.id().to_owned(),
        choices: match info.value {
            ValueKind::Choice(words) => words.iter().map(|w| (*w).to_owned()).collect(),
            ValueKind::Quantity(_) | ValueKind::Flag => Vec::new(),
        },
    })
    .collect()
}

/// The faults as those of a sheet are shown: the line, a caret, what to write.
fn page(faults: &TableFaults) -> String {
    let source = Source::of_text(&faults.name, &faults.text);
    let shown = faults.faults.iter().map(|f| Shown {
        // beside "error: ", and indented under the caret
        message: fill(&f.message, WIDTH - 7),
        help: f.help.as_ref().map(|h| fill(h, WIDTH - 4)),
        pointer: String::new(),
        span: f.span.clone(),
        second: None,
    });
    let mut page = SheetFaults::new(source, shown.collect()).within(WIDTH);
    if faults.left_off > 0 {
        page.push_str(&format!("and {} more\n", faults.left_off));
    }
    page
}

/// Wrapped, but not within a field's name.
fn fill(text: &str, width: usize) -> String {
    textwrap::fill(text, textwrap::Options::new(width).word_splitter(textwrap::WordSplitter::NoHyphenation))
}
