//! How near a pack comes to the limits of the sandbox.

use crate::facts::{Catalogue, SheetFacts};
use crate::packs::{Given, LoadedPack, PackFault, RunLimits, cases};
use crate::sheet::Sheet;
use crate::verdict;
use std::fmt::Write as _;
use std::path::Path;
use thou_cases::{check, has_cases};
use thou_text::thousands;

/// What an answer took of one limit.
pub(super) struct CostRow {
    /// instructions, memory or items.
    pub(super) what: &'static str,
    /// What it is counted in.
    pub(super) unit: &'static str,
    /// What was taken.
    pub(super) used: u64,
    /// The most that an answer may take.
    pub(super) limit: u64,
    /// The sheet, or the cases.
    pub(super) over: String,
}

/// Over a sheet, all rules at once; without one over the cases beside the pack, the most that any took; without
/// these, nothing is run.
pub(super) fn cost_rows(pack: &LoadedPack, file: &Path, sheet: Option<&Sheet>) -> Result<Vec<CostRow>, PackFault> {
    let folder = cases::folder(file);
    let (cost, over) = if let Some(sheet) = sheet {
        let facts = SheetFacts::new(Catalogue::of_sheet(sheet), sheet);
        let asked = verdict::question(sheet, &facts, &pack.manifest);
        let places = |fact: &str| verdict::places(sheet, &facts, fact);
        let given = Given { starts: &asked.starts, values: &asked.values, places: &places };
        let (_, cost) = pack.assess_counted(&asked.rules, &given, &RunLimits::default())?;
        (cost, sheet.source.name.clone())
    } else if has_cases(&folder) {
        let mut boxed = cases::Boxed::new(pack);
        // whether they hold is the business of `pack test`
        let _ = check(&pack.manifest, &folder, &mut boxed);
        (boxed.cost, format!("the cases in {}, the most of any", folder.display()))
    } else {
        return Ok(Vec::new());
    };
    let limits = RunLimits::default();
    let whole = |n: usize| u64::try_from(n).unwrap_or(u64::MAX);
    let of = |what, unit, used, limit| CostRow { what, unit, used, limit, over: over.clone() };
    Ok(vec![
        of("instructions", "", cost.fuel, limits.fuel),
        of("memory", "bytes", cost.memory, limits.memory),
        of("items", "", whole(cost.items), whole(limits.items)),
    ])
}

pub(super) fn text(costs: &[CostRow], out: &mut String) {
    let Some(first) = costs.first() else {
        out.push_str("\nNot run. With --sheet FILE it is, and this says how near it comes to its limits.\n");
        return;
    };
    let _ = writeln!(out, "\nWHAT AN ANSWER TAKES, over {}", first.over);
    for cost in costs {
        let share = 100.0 * cost.used as f64 / cost.limit as f64;
        // nothing that is used prints as nothing
        let share = if cost.used > 0 && share < 0.01 { "under 0.01".to_owned() } else { format!("{share:.2}") };
        let unit = if cost.unit.is_empty() { String::new() } else { format!(" {}", cost.unit) };
        let _ = writeln!(
            out,
            "  {:<13} {:>12}{unit}, {share} % of {}",
            cost.what,
            thousands(&cost.used.to_string()),
            thousands(&cost.limit.to_string())
        );
    }
}
