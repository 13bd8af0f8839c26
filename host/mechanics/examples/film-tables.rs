//! Writes the tables of films that the library has, `mobility/map.rs` and `journal_bearing/steady.rs`, from a solution of
//! Reynolds' equation; with `--check` says whether they are what it gives.
//!
//!     cargo run --release -p thou-mechanics --example film-tables [-- --check]
//!
//! The solution is held to published figures, and the tables to the solution between their places, by `tests/film.rs`.
// the solution is a test's, which indexes its mesh
#![allow(clippy::indexing_slicing, clippy::print_stdout, clippy::print_stderr, clippy::cast_precision_loss)]

#[path = "../tests/film/mobility.rs"]
mod mobility;
#[path = "../tests/film/reynolds.rs"]
mod reynolds;

use mobility::mobility;
use reynolds::{Mesh, Start, solve};
use std::f64::consts::{FRAC_PI_2, PI};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const RATIOS: [f64; 6] = [0.125, 0.25, 0.375, 0.5, 0.75, 1.0];
const THIN: usize = 16;
const TURN: usize = 15;
const MESH: Mesh = Mesh { around: 240, along: 12 };

/// Eccentricity of a row: even steps of the root of the film's share of the clearance, from a hair off the middle to
/// where a two-hundredth of the clearance is left.
fn eccentricity(row: usize) -> f64 {
    let root = 1.0 - 0.93 * row as f64 / (THIN - 1) as f64;
    (1.0 - root * root).max(0.01)
}

/// Angle of the eccentricity from the load of a column: even steps of the root of the sine of half of it.
fn turn(column: usize) -> f64 {
    let r = column as f64 / (TURN - 1) as f64;
    2.0 * (r * r).min(1.0).asin()
}

/// A file of the library: its head, its values' name, and the values.
struct Table {
    file: &'static str,
    head: &'static str,
    name: &'static str,
    values: Vec<f64>,
}

fn main() -> ExitCode {
    let check = match std::env::args().skip(1).collect::<Vec<_>>().as_slice() {
        [] => false,
        [only] if only == "--check" => true,
        _ => {
            eprintln!("usage: film-tables [--check]");
            return ExitCode::from(2);
        }
    };
    let mut status = ExitCode::SUCCESS;
    for table in tables() {
        let file = table.place();
        let done =
            if check { table.is_in(&file) } else { std::fs::write(&file, table.text()).map_err(|e| e.to_string()) };
        if let Err(why) = done {
            eprintln!("{}: {why}", table.file);
            status = ExitCode::FAILURE;
        } else {
            println!("{}: {} figures", table.file, table.values.len());
        }
    }
    status
}

/// Both tables; the lengths over diameter side by side.
fn tables() -> [Table; 2] {
    let by_ratio: Vec<_> = std::thread::scope(|scope| {
        let running: Vec<_> = RATIOS.map(|ratio| scope.spawn(move || of_ratio(ratio))).into_iter().collect();
        // a thread that panicked has said why
        running.into_iter().filter_map(|t| t.join().ok()).collect()
    });
    let (map, steady): (Vec<_>, Vec<_>) = by_ratio.into_iter().unzip();
    [
        Table {
            file: "mobility/map.rs",
            head: "//! Mobility of a finite bearing over the closed form of `finite`, along and across the load: by length over diameter,\n\
                   //! then eccentricity, then the angle of the eccentricity from the load. Written by the example `film-tables` from a\n\
                   //! solution of Reynolds' equation, which `host/mechanics/tests/film.rs` holds it to.\n",
            name: "MAP",
            values: map.concat(),
        },
        Table {
            file: "journal_bearing/steady.rs",
            head: "//! The steady film of a full bearing, by length over diameter and then eccentricity; five figures each, see `steady`.\n\
                   //! Written by the example `film-tables` from a solution of Reynolds' equation, which `host/mechanics/tests/film.rs`\n\
                   //! holds it to.\n",
            name: "STEADY",
            values: steady.concat(),
        },
    ]
}

/// The figures of the map and of the steady film for one length over diameter.
fn of_ratio(ratio: f64) -> (Vec<f64>, Vec<f64>) {
    let rows = || (0..THIN).map(eccentricity);
    let map = rows().flat_map(|e| (0..TURN).map(turn).flat_map(move |angle| over_base(e, angle, ratio)));
    (map.collect(), rows().flat_map(|e| steady(e, ratio)).collect())
}

impl Table {
    fn place(&self) -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(self.file)
    }

    fn text(&self) -> String {
        let mut out = self.head.to_owned();
        let (name, count) = (self.name, self.values.len());
        let _ = writeln!(out, "\n#[rustfmt::skip]\npub(super) static {name}: [f64; {count}] = [");
        for line in self.values.chunks(13) {
            let line: Vec<String> = line.iter().map(|v| format!("{v:.5}")).collect();
            let _ = writeln!(out, "    {},", line.join(", "));
        }
        out + "];\n"
    }

    /// Whether the file is this table: its words to the letter, its figures to one of the last place, which another
    /// computer's sine may round the other way.
    fn is_in(&self, file: &Path) -> Result<(), String> {
        let kept = std::fs::read_to_string(file).map_err(|e| e.to_string())?;
        let (kept_words, kept_figures) = parted(&kept);
        let (words, figures) = parted(&self.text());
        if kept_words != words || kept_figures.len() != figures.len() {
            return Err("not as it is written: run the example and commit what it wrote".to_owned());
        }
        let off = figures.iter().zip(&kept_figures).position(|(new, old)| (new - old).abs() > 1.01e-5);
        off.map_or(Ok(()), |at| {
            let [new, old] = [&figures, &kept_figures].map(|all| all.get(at).copied().unwrap_or(f64::NAN));
            Err(format!("figure {} is {old} and was worked out as {new}", at + 1))
        })
    }
}

/// A file's words and its figures.
fn parted(text: &str) -> (String, Vec<f64>) {
    let figures = text.lines().filter(|l| l.starts_with("    ")).flat_map(|l| l.split(','));
    let words: Vec<_> = text.lines().filter(|l| !l.starts_with("    ")).collect();
    (words.join("\n"), figures.filter_map(|n| n.trim().parse().ok()).collect())
}

/// Both over what the library's closed form says: near one.
fn over_base(e: f64, angle: f64, ratio: f64) -> [f64; 2] {
    // on the line of the load the ratio across it is a limit
    let angle = angle.clamp(0.02, PI - 0.02);
    let (mx, my) = mobility(e, angle, ratio, MESH);
    let (x, y) = (e * angle.cos(), e * angle.sin());
    let gap = 1.0 - x;
    let base_x = gap.powf(1.5) * (0.15 + gap / (PI * ratio * ratio));
    let base_y = y * gap.sqrt() * (0.1125 + 4.0 * gap / (PI * PI * ratio * ratio));
    [mx / base_x, my / base_y]
}

/// Sommerfeld number over the short bearing's with room for length, attitude, inlet, leak, mean over peak.
fn steady(e: f64, ratio: f64) -> [f64; 5] {
    let film = solve(e, FRAC_PI_2, ratio, Start::Widest, MESH);
    let s = 1.0 / (6.0 * PI * e * film.load());
    [s / base_number(e, ratio), film.angle(), film.inlet, film.leak, film.load() / (2.0 * film.peak)]
}

fn base_number(e: f64, ratio: f64) -> f64 {
    let short = (1.0 - e * e).powi(2) / (PI * e * (PI * PI * (1.0 - e * e) + 16.0 * e * e).sqrt()) / (ratio * ratio);
    short * (1.0 + 0.5 * ratio * ratio / (1.0 - e))
}
