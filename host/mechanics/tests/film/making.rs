//! Writes the tables of the library: `cargo test --release -p thou-mechanics --test film -- --ignored --nocapture`.

use super::reynolds::{Film, Mesh, Start, solve};
use std::f64::consts::{FRAC_PI_2, PI};
use std::fmt::Write as _;

pub(crate) const RATIOS: [f64; 6] = [0.125, 0.25, 0.375, 0.5, 0.75, 1.0];
pub(crate) const THIN: usize = 16;
pub(crate) const TURN: usize = 15;
const MESH: Mesh = Mesh { around: 240, along: 12 };

/// Eccentricity of a row: even steps of the root of the film's share of the clearance, from a hair off the middle to
/// where a two-hundredth of the clearance is left.
pub(crate) fn eccentricity(row: usize) -> f64 {
    let root = 1.0 - 0.93 * row as f64 / (THIN - 1) as f64;
    (1.0 - root * root).max(0.01)
}

/// Angle of the eccentricity from the load of a column: even steps of the root of the sine of half of it.
pub(crate) fn turn(column: usize) -> f64 {
    let r = column as f64 / (TURN - 1) as f64;
    2.0 * (r * r).min(1.0).asin()
}

/// Mobility along and across the load, for a load at an angle from the eccentricity.
pub(crate) fn mobility(e: f64, angle: f64, ratio: f64, mesh: Mesh) -> (f64, f64) {
    // the load turns one way as the motion does: it is the gradient of a convex dissipation
    let at = |moving: f64| {
        let film = solve(e, moving, ratio, Start::Opening, mesh);
        (film, film.angle() - angle)
    };
    let (mut low, mut high) = (0.0, PI);
    let (mut below, mut above) = (-angle, PI - angle);
    let mut found: (f64, Film);
    let mut tries = 0;
    loop {
        let share: f64 = (below / (below - above)).clamp(0.02, 0.98);
        let moving = if tries % 3 == 2 { f64::midpoint(low, high) } else { low + (high - low) * share };
        let (film, off) = at(moving);
        found = (moving, film);
        tries += 1;
        if off.abs() < 1e-7 || high - low < 1e-9 || tries > 60 {
            break;
        }
        if off < 0.0 { (low, below) = (moving, off) } else { (high, above) = (moving, off) }
    }
    let m = 1.0 / (6.0 * found.1.load());
    let between = found.0 - angle;
    (m * between.cos(), m * between.sin())
}

/// Both over what the library's closed form says: near one.
pub(crate) fn over_base(e: f64, angle: f64, ratio: f64) -> (f64, f64) {
    // on the line of the load the ratio across it is a limit
    let angle = angle.clamp(0.02, PI - 0.02);
    let (mx, my) = mobility(e, angle, ratio, MESH);
    let (x, y) = (e * angle.cos(), e * angle.sin());
    let gap = 1.0 - x;
    let base_x = gap.powf(1.5) * (0.15 + gap / (PI * ratio * ratio));
    let base_y = y * gap.sqrt() * (0.1125 + 4.0 * gap / (PI * PI * ratio * ratio));
    (mx / base_x, my / base_y)
}

/// Sommerfeld number over the short bearing's with room for length, attitude, inlet, leak, mean over peak.
pub(crate) fn steady(e: f64, ratio: f64) -> [f64; 5] {
    let film = solve(e, FRAC_PI_2, ratio, Start::Widest, MESH);
    let s = 1.0 / (6.0 * PI * e * film.load());
    [s / base_number(e, ratio), film.angle(), film.inlet, film.leak, film.load() / (2.0 * film.peak)]
}

pub(crate) fn base_number(e: f64, ratio: f64) -> f64 {
    let short = (1.0 - e * e).powi(2) / (PI * e * (PI * PI * (1.0 - e * e) + 16.0 * e * e).sqrt()) / (ratio * ratio);
    short * (1.0 + 0.5 * ratio * ratio / (1.0 - e))
}

fn numbers(out: &mut String, values: &[f64]) {
    for line in values.chunks(13) {
        let line: Vec<String> = line.iter().map(|v| format!("{v:.5}")).collect();
        let _ = writeln!(out, "    {},", line.join(", "));
    }
}

pub(crate) fn write() {
    let mut map = Vec::new();
    let mut table = Vec::new();
    for ratio in RATIOS {
        for row in 0..THIN {
            for column in 0..TURN {
                let (a, b) = over_base(eccentricity(row), turn(column), ratio);
                map.extend([a, b]);
            }
            table.extend(steady(eccentricity(row), ratio));
        }
        println!("{ratio} done");
    }
    let mut out = String::from(
        "//! Mobility of a finite bearing over the closed form of `finite`, along and across the load: by length over \
         diameter,\n//! then eccentricity, then the angle of the eccentricity from the load. Made by \
         `host/mechanics/tests/film/making.rs` from a\n//! solution of Reynolds' equation, which \
         `host/mechanics/tests/film.rs` holds it to.\n\n",
    );
    let _ = writeln!(out, "#[rustfmt::skip]\npub(super) static MAP: [f64; {}] = [", map.len());
    numbers(&mut out, &map);
    out += "];\n";
    std::fs::write(std::env::temp_dir().join("map.rs"), out).unwrap();
    let mut out = String::from(
        "//! The steady film of a full bearing, by length over diameter and then eccentricity; five figures each, see \
         `steady`.\n//! Made by `host/mechanics/tests/film/making.rs` from a solution of Reynolds' equation, which \
         `host/mechanics/tests/film.rs`\n//! holds it to.\n\n",
    );
    let _ = writeln!(out, "#[rustfmt::skip]\npub(super) static STEADY: [f64; {}] = [", table.len());
    numbers(&mut out, &table);
    out += "];\n";
    std::fs::write(std::env::temp_dir().join("steady.rs"), out).unwrap();
}
