//! `thou compare`: two sheets, or a sheet and itself with fields written otherwise.

use super::io::{Exit, Io};
use super::load;
use super::options::{Format, PackFiles, Units, WhatIf};
use super::pages::{self, PageArgs};
use crate::facts::{Catalogue, SheetFacts};
use crate::plan;
use crate::report::compare::{Comparison, Side};
use crate::report::{Bench, Paint};
use crate::verdict;
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(super) struct CompareArgs {
    /// The build sheet
    sheet: PathBuf,
    /// Another one; left out, the sheet is set beside itself with --set
    #[arg(conflicts_with = "assignments")]
    other: Option<PathBuf>,
    #[command(flatten)]
    with: PackFiles,
    #[command(flatten)]
    what_if: WhatIf,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    units: Units,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Every field and every figure that differs
    #[arg(long)]
    all: bool,
}

pub(super) fn compare(args: &CompareArgs, io: &mut Io<'_>) -> Exit {
    if args.other.is_none() && args.what_if.assignments.is_empty() {
        io.complain("compare: name another sheet, or what would be otherwise in this one with --set FIELD=VALUE");
        return Exit::INVALID;
    }
    let page = |sheet: &PathBuf, what_if: WhatIf| PageArgs {
        sheet: sheet.clone(),
        with: args.with.clone(),
        what_if,
        units: args.units,
        format: args.format,
        on: None,
    };
    let first = match pages::sources(&page(&args.sheet, WhatIf::default()), io) {
        Ok(sources) => sources,
        Err(exit) => return exit,
    };
    let second = match pages::sources(&page(args.other.as_ref().unwrap_or(&args.sheet), args.what_if.clone()), io) {
        Ok(sources) => sources,
        Err(exit) => return exit,
    };
    let today = io.today;
    let judged = |sources: &pages::Sources, facts: &SheetFacts<'_>| {
        let mut verdict = verdict::judge(&sources.sheet, facts, &sources.packs, today);
        verdict.lost.splice(0..0, sources.faults.iter().cloned().map(Into::into));
        let plan = plan::plan(&sources.sheet, &verdict, today);
        (verdict, plan)
    };
    let facts = [&first, &second].map(|s| SheetFacts::new(Catalogue::of_sheet(&s.sheet), &s.sheet));
    let [first_facts, second_facts] = &facts;
    let (verdict_a, plan_a) = judged(&first, first_facts);
    let (verdict_b, plan_b) = judged(&second, second_facts);
    let name = |sources: &pages::Sources| {
        let changes: Vec<String> = sources.sheet.changes.iter().map(|c| format!("{} = {}", c.path, c.now)).collect();
        let file = &sources.sheet.source.name;
        if changes.is_empty() { file.clone() } else { format!("itself where {}", changes.join(", ")) }
    };
    let (name_a, name_b) = (name(&first), name(&second));
    let (bench_a, bench_b) = (bench(&first, first_facts, args.units), bench(&second, second_facts, args.units));
    let comparison = Comparison::of(
        Side { name: &name_a, bench: &bench_a, verdict: &verdict_a, plan: &plan_a },
        Side { name: &name_b, bench: &bench_b, verdict: &verdict_b, plan: &plan_b },
    );
    let packs = load::named(&second.packs);
    match args.format {
        Format::Text => io.say(&comparison.text(&packs, args.all)),
        Format::Json => pages::json(&comparison.json(&packs), io),
    }
    if verdict_a.lost.is_empty() && verdict_b.lost.is_empty() { Exit::FINE } else { Exit::PACK }
}

fn bench<'a>(sources: &'a pages::Sources, facts: &'a SheetFacts<'a>, units: Units) -> Bench<'a> {
    Bench { sheet: &sources.sheet, facts, system: units.system(), paint: Paint::Plain, like: None }
}
