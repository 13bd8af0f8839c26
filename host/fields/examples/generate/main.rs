//! Writes what is made of the entries in `data/`: the tables of this crate, the schema of a sheet and the reference of
//! all fields. `--check` writes nothing and fails where what is written differs.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    unreachable_pub,
    reason = "a tool for whoever works on this crate"
)]

mod make;

use std::process::ExitCode;

fn main() -> ExitCode {
    let check = std::env::args().skip(1).any(|a| a == "--check");
    let made = match make::all() {
        Ok(made) => made,
        Err(faults) => {
            for fault in &faults {
                eprintln!("{fault}");
            }
            return ExitCode::FAILURE;
        }
    };
    let mut differs = false;
    for file in &made {
        let there = std::fs::read_to_string(&file.path).unwrap_or_default();
        if there == file.text {
            continue;
        }
        if check {
            eprintln!("{} is not what the entries say: run cargo run -p thou-fields --example generate", file.path);
            differs = true;
        } else if let Err(error) = std::fs::write(&file.path, &file.text) {
            eprintln!("{}: {error}", file.path);
            differs = true;
        } else {
            println!("wrote {}", file.path);
        }
    }
    if differs { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
