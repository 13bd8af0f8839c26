//! Tables: a ratio to a named base, and the raw times beside it.

use crate::timing::Times;
use crate::{Failed, stages};
use std::path::Path;
use std::process::Command;

/// Processes that are timed from their start.
const PROCESSES: usize = 25;
/// Times that everything is done again in one process.
const AGAIN: usize = 60;

impl Times {
    /// The middle one.
    pub(crate) fn median(&self) -> f64 {
        self.at(1, 2)
    }

    /// A tenth of them were faster: nearer than the median to what an idle machine would take.
    fn fast(&self) -> f64 {
        self.at(1, 10)
    }

    fn at(&self, part: usize, of: usize) -> f64 {
        let mut sorted = self.0.clone();
        sorted.sort_by(f64::total_cmp);
        sorted.get(sorted.len() * part / of).copied().unwrap_or(f64::NAN)
    }
}

/// Prints a table whose base is the named line.
pub(crate) fn table(title: &str, unit: &str, per: f64, base: &str, lines: &[(String, Times)]) {
    println!("\n## {title}\n\n| | times {base} | median {unit} | fastest tenth {unit} |\n|---|---|---|---|");
    let of = lines.iter().find(|(name, _)| name == base).map_or(f64::NAN, |(_, t)| t.median());
    for (name, times) in lines {
        println!(
            "| {name} | {} | {} | {} |",
            number(times.median() / of),
            number(times.median() / per),
            number(times.fast() / per)
        );
    }
}

/// Three figures, however large.
fn number(n: f64) -> String {
    let digits = if n.abs() >= 99.5 {
        0
    } else if n.abs() >= 9.95 {
        1
    } else {
        2
    };
    format!("{n:.digits$}")
}

/// Prints where the time of a check goes, the first time and again.
pub(crate) fn stages(sheet: &Path) -> Result<(), Failed> {
    let me = std::env::current_exe()?;
    let mut first: Vec<(String, Times)> = Vec::new();
    for _ in 0..PROCESSES {
        let run = Command::new(&me).arg("stages").env("SHEET", sheet).output()?;
        if !run.status.success() {
            return Err(String::from_utf8_lossy(&run.stderr).into_owned().into());
        }
        let told: Vec<(String, Vec<f64>)> = serde_json::from_slice(&run.stdout)?;
        for (name, times) in told {
            match first.iter_mut().find(|(n, _)| *n == name) {
                Some((_, t)) => t.0.extend(times),
                None => first.push((name, Times(times))),
            }
        }
    }
    let base = "Sheet::parse";
    table("A check by stages, the first time in a process", "ms", 1000.0, base, &first);
    let again: Vec<(String, Times)> = stages::run(sheet, AGAIN)?
        .into_iter()
        .map(|(name, times)| (name.to_owned(), Times(times.into_iter().skip(1).collect())))
        .collect();
    table("The same again in one process", "ms", 1000.0, base, &again);
    Ok(())
}
