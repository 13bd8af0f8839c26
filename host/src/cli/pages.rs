//! The pages over a sheet: new, spec, check, and what every page is made from.

use super::{Check, Exit, Format, Io, New, Page, load};
use crate::facts::{Catalogue, Facts};
use crate::packs::Pack;
use crate::report::{self, Bench, Like, Paint};
use crate::sheet::{self, Sheet};
use crate::verdict::{self, Verdict};

/// A page's makings.
struct Made {
    sheet: Sheet,
    like: Option<Sheet>,
    packs: Vec<Pack>,
    faults: Vec<crate::packs::PackFault>,
}

/// What else a page asks of a sheet, once the packs are known.
type Asks = fn(&Sheet, &[Pack], &mut Io<'_>) -> Result<(), Exit>;

fn make(page: &Page, io: &mut Io<'_>, asks: Asks) -> Result<Made, Exit> {
    let sheet = load::sheet(&page.sheet, io)?;
    let (packs, faults) = load::packs(&page.with, Some(&page.sheet));
    known_use(&sheet, &packs, io)?;
    asks(&sheet, &packs, io)?;
    let like = load::like(&sheet, io)?;
    Ok(Made { sheet, like, packs, faults })
}

/// The intent's use is one of ours, or one that a loaded pack declares.
pub(super) fn known_use(sheet: &Sheet, packs: &[Pack], io: &mut Io<'_>) -> Result<(), Exit> {
    let Some((value, pointer)) = sheet.stated("intent.use") else { return Ok(()) };
    let wanted = value.as_str().unwrap_or("");
    let mut uses = vec!["street", "bracket", "all-out"];
    uses.extend(packs.iter().flat_map(|p| &p.manifest.uses).map(|u| u.id.as_str()));
    if uses.contains(&wanted) {
        return Ok(());
    }
    let near = uses
        .iter()
        .filter(|u| strsim::jaro_winkler(u, wanted) > 0.8)
        .max_by(|a, b| strsim::jaro_winkler(a, wanted).total_cmp(&strsim::jaro_winkler(b, wanted)));
    let hint = near.map(|n| format!(" Did you mean \"{n}\"?")).unwrap_or_default();
    let (line, column) = sheet.source.position(sheet.source.span(&pointer).start);
    let words = format!(
        "{}:{line}:{column}: no loaded pack knows the use \"{}\".{hint} Known: {}. A pack can declare more: load it \
         with --pack, or name it in the file `packs` beside the sheet.",
        sheet.source.name,
        crate::packs::clean::clean(wanted),
        uses.join(", ")
    );
    io.complain(&textwrap::fill(&words, textwrap::Options::new(80).subsequent_indent("  ")));
    Err(Exit::INVALID)
}

pub(super) fn json(value: &serde_json::Value, io: &mut Io<'_>) {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    io.say(&format!("{text}\n"));
}

/// Runs a page: reads, judges, hands over to the writer, and says how it stands.
fn page(
    page: &Page,
    io: &mut Io<'_>,
    write: impl FnOnce(&Bench<'_>, &Verdict, &[(String, String)], &mut Io<'_>) -> Exit,
) -> Exit {
    page_with(page, io, |_, _, _| Ok(()), write)
}

/// The same for a page that asks more of its sheet.
pub(super) fn page_with(
    page: &Page,
    io: &mut Io<'_>,
    asks: Asks,
    write: impl FnOnce(&Bench<'_>, &Verdict, &[(String, String)], &mut Io<'_>) -> Exit,
) -> Exit {
    let made = match make(page, io, asks) {
        Ok(made) => made,
        Err(exit) => return exit,
    };
    let facts = Facts::new(Catalogue::standard(), &made.sheet);
    let mut verdict = verdict::judge(&made.sheet, &facts, &made.packs, io.today);
    verdict.lost.splice(0..0, made.faults.into_iter().map(Into::into));
    let paint = if io.out_colour { Paint::Colour } else { Paint::Plain };
    let like_facts = made.like.as_ref().map(|sheet| Facts::new(Catalogue::standard(), sheet));
    let like = made.like.as_ref().zip(like_facts.as_ref()).map(|(sheet, facts)| Like { sheet, facts });
    let bench = Bench { sheet: &made.sheet, facts: &facts, system: page.units.system(), paint, like };
    write(&bench, &verdict, &load::names(&made.packs), io)
}

pub(super) fn check(check: &Check, io: &mut Io<'_>) -> Exit {
    page(&check.page, io, |bench, verdict, packs, io| {
        let exit = verdict.exit_code(check.strict);
        match check.page.format {
            Format::Text => io.say(&report::check::text(bench, verdict, packs)),
            Format::Json => json(&report::json::check(bench, verdict, packs, exit), io),
        }
        Exit(exit)
    })
}

pub(super) fn spec(args: &Page, io: &mut Io<'_>) -> Exit {
    page(args, io, |bench, verdict, packs, io| {
        match args.format {
            Format::Text => io.say(&report::spec::text(bench, verdict, packs)),
            Format::Json => json(&report::json::spec(bench, verdict, packs), io),
        }
        if verdict.lost.is_empty() { Exit::FINE } else { Exit::PACK }
    })
}

pub(super) fn new(new: &New, io: &mut Io<'_>) -> Exit {
    let layouts = ["single", "inline", "v", "flat"];
    if !layouts.contains(&new.layout.as_str()) {
        io.complain(&format!("--layout {}: write one of {}", new.layout, layouts.join(", ")));
        return Exit::INVALID;
    }
    if !(1..=16).contains(&new.cylinders) || new.layout == "single" && new.cylinders != 1 {
        io.complain(&format!("--cylinders {}: an engine here has 1 to 16, a single has 1", new.cylinders));
        return Exit::INVALID;
    }
    io.say(&sheet::starter(&new.usage, new.cylinders, &new.layout));
    Exit::FINE
}
