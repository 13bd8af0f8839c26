//! The pages over a sheet: new, spec, check, and what every page is made from.

use super::io::{Exit, Io};
use super::known_names::{known_use, known_use_of};
use super::load;
use super::load_like::like;
use super::options::{Format, PackFiles, Units, WhatIf};
use super::paper;
use crate::facts::{Catalogue, SheetFacts};
use crate::packs::LoadedPack;
use crate::report::{self, Bench, Like, NamedPack, Paint};
use crate::sheet::{self, Sheet};
use crate::verdict::{self, Verdict};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct NewArgs {
    /// What the engine is for: street, bracket, all-out, or a use that a pack declares
    #[arg(value_name = "USE")]
    usage: String,
    /// How many cylinders
    #[arg(long, default_value_t = 8)]
    cylinders: usize,
    /// single, inline, v or flat; left out, one cylinder is a single, up to six stand in line, and more are a v
    #[arg(long)]
    layout: Option<String>,
    #[command(flatten)]
    with: PackFiles,
}

/// What every page over a sheet takes.
#[derive(Debug, Args)]
pub(super) struct PageArgs {
    /// The build sheet
    pub(super) sheet: PathBuf,
    #[command(flatten)]
    pub(super) with: PackFiles,
    #[command(flatten)]
    pub(super) what_if: WhatIf,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    pub(super) units: Units,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    /// As of this day, whatever day the sheet's meters were read on.
    #[arg(skip)]
    pub(super) on: Option<jiff::civil::Date>,
}

#[derive(Debug, Args)]
pub(super) struct CheckArgs {
    #[command(flatten)]
    page: PageArgs,
    /// Exit with 1 for look, unproven, stale and open too
    #[arg(long)]
    strict: bool,
    /// Name what the sheet has and nothing judges
    #[arg(long)]
    all: bool,
}

/// What a page is made from.
struct Sources {
    sheet: Sheet,
    like: Option<Sheet>,
    packs: Vec<LoadedPack>,
    faults: Vec<crate::packs::PackFault>,
}

/// A check of the sheet that only one page makes, once the packs are known.
type SheetCheck = fn(&Sheet, &[LoadedPack], &mut Io<'_>) -> Result<(), Exit>;

fn read(page: &PageArgs, io: &mut Io<'_>, check: SheetCheck) -> Result<Sources, Exit> {
    let mut sheet = load::what_if(load::sheet(&page.sheet, io)?, &page.what_if, io)?;
    if let Some(on) = page.on {
        if let Some(read) = sheet.as_of.filter(|read| on < *read) {
            io.complain(&paper::fill(
                &format!(
                    "--on {on}: the sheet is of {read}, and says nothing of a day before; name {read} or a later one"
                ),
                "",
                "  ",
            ));
            return Err(Exit::INVALID);
        }
        sheet.as_of = Some(on);
    }
    // a sheet without a day is of today: the age of a damper or a belt counts on it
    sheet.as_of = sheet.as_of.or(io.today);
    let (packs, faults) = load::packs(&page.with, Some(&page.sheet), io);
    sheet.looked_at = page.on.or(io.today);
    known_use(&sheet, &packs, io)?;
    load::pack_fields(&mut sheet, &packs, io)?;
    check(&sheet, &packs, io)?;
    let mut like = like(&sheet, io)?;
    if let Some(like) = &mut like {
        load::pack_fields(like, &packs, io)?;
    }
    Ok(Sources { sheet, like, packs, faults })
}

pub(super) fn json(value: &serde_json::Value, io: &mut Io<'_>) {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    io.say(&format!("{text}\n"));
}

/// Runs a page: reads, judges, hands over to the writer, and says how it stands.
fn page(
    page: &PageArgs,
    io: &mut Io<'_>,
    write: impl FnOnce(&Bench<'_>, &Verdict, &[NamedPack], &mut Io<'_>) -> Exit,
) -> Exit {
    page_with(page, io, |_, _, _| Ok(()), write)
}

/// The same for a page that asks more of its sheet.
pub(super) fn page_with(
    page: &PageArgs,
    io: &mut Io<'_>,
    check: SheetCheck,
    write: impl FnOnce(&Bench<'_>, &Verdict, &[NamedPack], &mut Io<'_>) -> Exit,
) -> Exit {
    let sources = match read(page, io, check) {
        Ok(sources) => sources,
        Err(exit) => return exit,
    };
    let facts = SheetFacts::new(Catalogue::of_sheet(&sources.sheet), &sources.sheet);
    let mut verdict = verdict::judge(&sources.sheet, &facts, &sources.packs, io.today);
    verdict.lost.splice(0..0, sources.faults.into_iter().map(Into::into));
    let paint = if io.out_colour { Paint::Colour } else { Paint::Plain };
    let like_facts = sources.like.as_ref().map(|sheet| SheetFacts::new(Catalogue::of_sheet(sheet), sheet));
    let like = sources.like.as_ref().zip(like_facts.as_ref()).map(|(sheet, facts)| Like { sheet, facts });
    let bench = Bench { sheet: &sources.sheet, facts: &facts, system: page.units.system(), paint, like };
    write(&bench, &verdict, &load::named(&sources.packs), io)
}

pub(super) fn check(args: &CheckArgs, io: &mut Io<'_>) -> Exit {
    page(&args.page, io, |bench, verdict, packs, io| {
        let exit = verdict.exit_code(args.strict);
        match args.page.format {
            Format::Text => io.say(&report::check::text(bench, verdict, packs, args.all)),
            Format::Json => json(&report::json::check(bench, verdict, packs, exit), io),
        }
        Exit(exit)
    })
}

pub(super) fn spec(args: &PageArgs, io: &mut Io<'_>) -> Exit {
    page(args, io, |bench, verdict, packs, io| {
        match args.format {
            Format::Text => io.say(&report::spec::text(bench, verdict, packs)),
            Format::Json => json(&report::json::spec(bench, verdict, packs), io),
        }
        if verdict.lost.is_empty() { Exit::FINE } else { Exit::PACK }
    })
}

pub(super) fn new(args: &NewArgs, io: &mut Io<'_>) -> Exit {
    let (packs, faults) = load::packs(&args.with, None, io);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    if let Err(exit) = known_use_of(&args.usage, &packs, io) {
        return exit;
    }
    let layouts = ["single", "inline", "v", "flat"];
    let usual = match args.cylinders {
        0 | 1 => "single",
        2..=6 => "inline",
        _ => "v",
    };
    let layout = args.layout.as_deref().unwrap_or(usual);
    if !layouts.contains(&layout) {
        io.complain(&format!("--layout {layout}: write one of {}", layouts.join(", ")));
        return Exit::INVALID;
    }
    if !(1..=16).contains(&args.cylinders) || layout == "single" && args.cylinders != 1 {
        io.complain(&format!("--cylinders {}: an engine here has 1 to 16, a single has 1", args.cylinders));
        return Exit::INVALID;
    }
    io.say(&sheet::starter(&args.usage, args.cylinders, layout));
    Exit::FINE
}
