//! Where thou's time goes, and how its sandbox compares with other ways to run rules, as ratios within one run.
//!
//! Nothing here asserts a time: machines differ and are busy. What is asserted is that everything that is compared
//! gives the same windows.

mod catalogue;
mod given;
mod languages;
mod models;
mod pack;
mod peers;
mod print;
mod processes;
mod stages;
mod timing;

use std::path::PathBuf;

/// Whatever stops a run, in words.
pub(crate) type Failed = Box<dyn std::error::Error>;

fn main() -> Result<(), Failed> {
    let mut args = std::env::args().skip(1);
    let sheet = std::env::var_os("SHEET").map_or_else(
        || PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-builds/bracket.json")),
        PathBuf::from,
    );
    match args.next().as_deref() {
        // a process of its own, started by the run below
        Some("stages") => {
            println!("{}", serde_json::to_string(&stages::run(&sheet, 0)?)?);
            Ok(())
        }
        Some("thou") => {
            let code = thou::cli::run_with(
                std::env::args_os().skip(1),
                &mut thou::cli::Io {
                    out: &mut std::io::stdout().lock(),
                    err: &mut std::io::stderr().lock(),
                    out_colour: false,
                    err_colour: false,
                    today: None,
                    clock: None,
                    settings: None,
                },
            );
            std::process::exit(i32::from(code.0))
        }
        Some("processes") => processes::run(&sheet),
        Some("packs") => pack::run(&sheet),
        Some("languages") => languages::run(&sheet),
        // a process of its own, started by the run of the languages
        Some("load") => languages::load(),
        Some("spin") => pack::spin(&sheet),
        Some("models") => models::run(),
        Some("facts") => catalogue::run(&sheet),
        Some("times") => print::stages(&sheet),
        Some(other) => Err(format!(
            "{other}: processes, packs, languages, models, facts, times, or nothing for all; spin for a profiler"
        )
        .into()),
        None => {
            processes::run(&sheet)?;
            pack::run(&sheet)?;
            languages::run(&sheet)?;
            models::run()?;
            catalogue::run(&sheet)?;
            print::stages(&sheet)
        }
    }
}
