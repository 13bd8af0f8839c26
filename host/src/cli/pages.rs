//! The pages over a sheet: new, spec, check, plan.

use super::{Check, Exit, Format, New, Page, complain, load, say};
use crate::facts::{Catalogue, Facts};
use crate::packs::Pack;
use crate::report::{self, Bench, Paint};
use crate::sheet::{self, Sheet};
use crate::verdict::{self, Verdict};

/// A page's makings.
struct Made {
    sheet: Sheet,
    packs: Vec<Pack>,
    faults: Vec<crate::packs::PackFault>,
}

fn make(page: &Page) -> Result<Made, Exit> {
    let sheet = load::sheet(&page.sheet)?;
    let (packs, faults) = load::packs(&page.with, Some(&page.sheet));
    known_use(&sheet, &packs)?;
    Ok(Made { sheet, packs, faults })
}

/// The intent's use is one of ours, or one that a loaded pack declares.
fn known_use(sheet: &Sheet, packs: &[Pack]) -> Result<(), Exit> {
    let Some((value, pointer)) = sheet.stated("intent.use") else { return Ok(()) };
    let wanted = value.as_str().unwrap_or("");
    let mut uses = vec!["street", "bracket", "all-out"];
    uses.extend(packs.iter().flat_map(|p| &p.manifest.uses).map(|u| u.id.as_str()));
    if uses.contains(&wanted) {
        return Ok(());
    }
    let near = uses.iter().filter(|u| strsim::jaro_winkler(u, wanted) > 0.8).max_by(|a, b| {
        strsim::jaro_winkler(a, wanted).total_cmp(&strsim::jaro_winkler(b, wanted))
    });
    let hint = near.map(|n| format!(" Did you mean \"{n}\"?")).unwrap_or_default();
    let (line, column) = sheet.source.position(sheet.source.span(&pointer).start);
    complain(&format!(
        "{}:{line}:{column}: no loaded pack knows the use \"{}\".{hint} Known: {}. A pack can declare more: load it \
         with --pack, or name it in the file `packs` beside the sheet.",
        sheet.source.name,
        crate::packs::clean::clean(wanted),
        uses.join(", ")
    ));
    Err(Exit::INVALID)
}

fn paint() -> Paint {
    match anstream::AutoStream::choice(&std::io::stdout()) {
        anstream::ColorChoice::Never => Paint::Plain,
        _ => Paint::Colour,
    }
}

fn json(value: &serde_json::Value) {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    say(&format!("{text}\n"));
}

/// Runs a page: reads, judges, hands over to the writer, and says how it stands.
fn page(page: &Page, write: impl FnOnce(&Bench<'_>, &Verdict, &[(String, String)]) -> Exit) -> Exit {
    let made = match make(page) {
        Ok(made) => made,
        Err(exit) => return exit,
    };
    let facts = Facts::new(Catalogue::standard(), &made.sheet);
    let mut verdict = verdict::judge(&made.sheet, &facts, &made.packs, load::today());
    verdict.faults.splice(0..0, made.faults);
    let bench = Bench { sheet: &made.sheet, facts: &facts, system: page.units.system(), paint: paint() };
    write(&bench, &verdict, &load::names(&made.packs))
}

pub(super) fn check(check: &Check) -> Exit {
    page(&check.page, |bench, verdict, packs| {
        let exit = verdict.exit_code(check.strict);
        match check.page.format {
            Format::Text => say(&report::check::text(bench, verdict, packs)),
            Format::Json => json(&report::json::check(bench, verdict, packs, exit)),
        }
        Exit(exit)
    })
}

pub(super) fn spec(args: &Page) -> Exit {
    page(args, |bench, verdict, packs| {
        match args.format {
            Format::Text => say(&report::spec::text(bench, verdict, packs)),
            Format::Json => json(&report::json::spec(bench, verdict, packs)),
        }
        if verdict.faults.is_empty() { Exit::FINE } else { Exit::PACK }
    })
}

pub(super) fn plan(args: &Page) -> Exit {
    page(args, |bench, verdict, packs| {
        let plan = crate::plan::plan(bench.sheet, verdict, load::today());
        match args.format {
            Format::Text => say(&report::plan::text(bench, verdict, &plan, packs)),
            Format::Json => json(&report::json::plan(bench, verdict, &plan, packs)),
        }
        if verdict.faults.is_empty() { Exit::FINE } else { Exit::PACK }
    })
}

pub(super) fn new(new: &New) -> Exit {
    let layouts = ["single", "inline", "v", "flat"];
    if !layouts.contains(&new.layout.as_str()) {
        complain(&format!("--layout {}: write one of {}", new.layout, layouts.join(", ")));
        return Exit::INVALID;
    }
    if !(1..=16).contains(&new.cylinders) || new.layout == "single" && new.cylinders != 1 {
        complain(&format!("--cylinders {}: an engine here has 1 to 16, a single has 1", new.cylinders));
        return Exit::INVALID;
    }
    say(&sheet::starter(&new.usage, new.cylinders, &new.layout));
    Exit::FINE
}
