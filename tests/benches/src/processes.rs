//! `thou check` as a whole process: CPU time of the process, user and system, beside one that only reads the file.

use crate::timing::Times;
use crate::{Failed, peers, print};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

const WARM: usize = 40;
const COLD: usize = 5;

pub(crate) fn run(sheet: &Path) -> Result<(), Failed> {
    let me = std::env::current_exe()?.display().to_string();
    let built = [
        std::env::var_os("THOU").map(PathBuf::from),
        Some(concat!(env!("CARGO_MANIFEST_DIR"), "/../../target/release/thou").into()),
    ];
    let thou: Vec<String> = match built.into_iter().flatten().find(|p| p.is_file()) {
        Some(path) => vec![path.display().to_string()],
        None => {
            println!(
                "No built thou at $THOU or ../../target/release/thou: this program runs the same library in its place."
            );
            vec![me, "thou".to_owned()]
        }
    };
    let outside = peers::outside()?;
    let with = |args: &[&str]| thou.iter().cloned().chain(args.iter().map(|a| (*a).to_owned())).collect::<Vec<_>>();
    let file = sheet.display().to_string();
    let read = vec![outside.join("read").display().to_string(), file.clone()];
    let jobs = [
        (format!("read {}", name(sheet)), json!({ "args": read })),
        ("thou --version".to_owned(), json!({ "args": with(&["--version"]) })),
        ("thou check, warm cache".to_owned(), json!({ "args": with(&["check", &file]) })),
        ("thou check --format json".to_owned(), json!({ "args": with(&["check", &file, "--format", "json"]) })),
        ("thou spec".to_owned(), json!({ "args": with(&["spec", &file]) })),
        ("thou plan".to_owned(), json!({ "args": with(&["plan", &file]) })),
    ];
    let cold =
        [("thou check, first run ever".to_owned(), json!({ "args": with(&["check", &file]), "fresh-cache": true }))];
    let mut lines = measure(&outside, &jobs, WARM)?;
    lines.extend(measure(&outside, &cold, COLD)?);
    let base = lines.first().map(|l| l.0.clone()).unwrap_or_default();
    let part = |which: usize| -> Vec<(String, Times)> {
        let of = |runs: &[[f64; 2]]| Times(runs.iter().filter_map(|r| r.get(which)).copied().collect());
        lines.iter().map(|(name, runs)| (name.clone(), of(runs))).collect()
    };
    print::table("Whole processes, CPU time (user and system)", "ms", 1000.0, &base, &part(0));
    print::table("Whole processes, by the clock", "ms", 1000.0, &base, &part(1));
    Ok(())
}

fn name(path: &Path) -> String {
    path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default()
}

type Runs = Vec<[f64; 2]>;

fn measure(outside: &Path, jobs: &[(String, Value)], rounds: usize) -> Result<Vec<(String, Runs)>, Failed> {
    let list: Vec<&Value> = jobs.iter().map(|j| &j.1).collect();
    // one round that does not count fills the cache
    let ask = |rounds: usize| peers::ask(&outside.join("meter"), &[], &json!({ "rounds": rounds, "jobs": list }));
    ask(1)?;
    let times: Vec<Runs> = serde_json::from_value(ask(rounds)?)?;
    Ok(jobs.iter().map(|j| j.0.clone()).zip(times).collect())
}
