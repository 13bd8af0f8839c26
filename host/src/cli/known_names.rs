//! Names in a sheet that only the loaded packs know: its use, and the parts of its services.

use super::io::{Exit, Io};
use crate::packs::{self, LoadedPack};
use crate::sheet::Sheet;
use std::collections::BTreeSet;
use thou_text::nearest;

/// The intent's use is one of ours, or one that a loaded pack declares.
pub(super) fn known_use(sheet: &Sheet, packs: &[LoadedPack], io: &mut Io<'_>) -> Result<(), Exit> {
    let Some((value, pointer)) = sheet.stated("intent.use") else { return Ok(()) };
    let (line, column) = sheet.source.position(sheet.source.span(&pointer).start);
    let at = format!("{}:{line}:{column}: ", sheet.source.name);
    one_of(value.as_str().unwrap_or(""), packs, &at, io)
}

/// The same of a use that somebody asks a starter sheet for.
pub(super) fn known_use_of(wanted: &str, packs: &[LoadedPack], io: &mut Io<'_>) -> Result<(), Exit> {
    one_of(wanted, packs, "", io)
}

fn one_of(wanted: &str, packs: &[LoadedPack], at: &str, io: &mut Io<'_>) -> Result<(), Exit> {
    let mut uses = thou_contract::USES.to_vec();
    uses.extend(packs.iter().flat_map(|p| &p.manifest.uses).map(|u| u.id.as_str()));
    if uses.contains(&wanted) {
        return Ok(());
    }
    let near = nearest(wanted, uses.iter().copied());
    let hint = near.map(|n| format!(" Did you mean \"{n}\"?")).unwrap_or_default();
    let words = format!(
        "{at}no loaded pack knows the use \"{}\".{hint} Known: {}. A pack can declare more: load it with --pack, or name \
         it in the file `packs` beside the sheet.",
        crate::packs::clean::clean(wanted),
        uses.join(", ")
    );
    io.complain(&textwrap::fill(&words, textwrap::Options::new(80).subsequent_indent("  ")));
    Err(Exit::INVALID)
}

/// Lead times, costs and spares go by the parts that the loaded packs' services name.
pub(super) fn known_parts(sheet: &Sheet, packs: &[LoadedPack], io: &mut Io<'_>) -> Result<(), Exit> {
    let rules = packs.iter().flat_map(|p| &p.manifest.rules);
    let known: BTreeSet<&str> = rules.filter_map(|r| r.service.as_ref()).map(|s| s.part.as_str()).collect();
    let lead = sheet.lead_times.iter().map(|(part, l)| ("lead-times", part.as_str(), l.pointer.as_str()));
    let costs = sheet.costs.parts.iter().map(|(part, c)| ("costs.parts", part.as_str(), c.pointer.as_str()));
    let spares = sheet.spares.iter().map(|s| ("spares", s.part.as_str(), s.pointer.as_str()));
    let mut places: Vec<(usize, &str, &str)> = lead
        .chain(costs)
        .chain(spares)
        .filter(|(_, part, _)| !known.contains(part))
        .map(|(section, part, pointer)| (sheet.source.span(pointer).start, section, part))
        .collect();
    places.sort_unstable();
    for (at, section, part) in &places {
        let (line, column) = sheet.source.position(*at);
        let near = nearest(part, known.iter().copied());
        let hint = near.map(|n| format!(" Did you mean \"{n}\"?")).unwrap_or_default();
        let words = format!(
            "{}:{line}:{column}: {section}: no loaded pack has a service for \"{}\".{hint} Known: {}.",
            sheet.source.name,
            packs::clean::clean(part),
            known.iter().copied().collect::<Vec<_>>().join(", ")
        );
        io.complain(&textwrap::fill(&words, textwrap::Options::new(80).subsequent_indent("  ")));
    }
    if places.is_empty() { Ok(()) } else { Err(Exit::INVALID) }
}
