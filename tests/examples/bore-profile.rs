//! Writes the invented profile of a bore, the same bytes each time: `cargo run --release -p thou-tests --example
//! bore-profile -- brushed > sample-builds/flat-tappet-bore.csv`, and `-- unbrushed` for
//! `sample-builds/planted/flat-tappet-bore-unbrushed.csv`.
//!
//! No stylus went over any bore. Two textures lie over one another and the lower one shows, as after a coarse stone and a
//! fine one: a fine plateau of normal heights, and deep strokes of normal heights under it. A slope and a wave are added,
//! for the filter to take out, as a traverse has them.

use std::f64::consts::TAU;
use std::io::Write as _;

/// Heights of a traverse of 5.6 mm, a step of 2 µm: a cut-off of 0.8 mm, five sections and a run at each end.
const POINTS: usize = 2_800;
const STEP: f64 = 2e-3;
/// Standard deviation of the strokes and how far their middle lies above that of the plateau, µm.
const STROKES: [f64; 2] = [1.8, 1.5];

/// A linear congruence, so that the file is the same on every machine.
struct Dice(u64);

impl Dice {
    /// From 0 to 1.
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / 2_f64.powi(31)
    }

    /// Normal but for its tails: twelve shares less six have a variance of one.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }

    /// Normal heights with so many points to a grain, variance one.
    fn texture(&mut self, grain: usize) -> Vec<f64> {
        let raw: Vec<f64> = (0..POINTS + grain - 1).map(|_| self.normal()).collect();
        raw.windows(grain).map(|w| w.iter().sum::<f64>() / (grain as f64).sqrt()).collect()
    }
}

/// Heights as worn: the lower of both textures, µm. `plateau` is its standard deviation.
fn worn(plateau: f64) -> Vec<f64> {
    let mut dice = Dice(318);
    let (fine, deep) = (dice.texture(3), dice.texture(12));
    let [sigma, above] = STROKES;
    fine.iter().zip(&deep).map(|(f, d)| (plateau * f).min(above + sigma * d)).collect()
}

/// Third moment over that of the deviation; minus where valleys lie under a plateau.
fn skew(heights: &[f64]) -> f64 {
    let count = heights.len() as f64;
    let mean = heights.iter().sum::<f64>() / count;
    let moment = |n: i32| heights.iter().map(|z| (z - mean).powi(n)).sum::<f64>() / count;
    moment(3) / moment(2).powf(1.5)
}

fn main() -> std::io::Result<()> {
    let (plateau, state) = match std::env::args().nth(1).as_deref() {
        Some("brushed") => (0.27, "after the plateau brush"),
        Some("unbrushed") => (0.55, "before the plateau brush"),
        _ => return Err(std::io::Error::other("say brushed or unbrushed")),
    };
    let heights = worn(plateau);
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    writeln!(out, "# Invented: no stylus went over any bore. Written by tests/examples/bore-profile.rs.")?;
    writeln!(
        out,
        "# A plateau of {plateau:.2} µm over strokes of {:.1} µm, {state}; skew {:.1}.",
        STROKES[0],
        skew(&heights)
    )?;
    writeln!(out, "position [mm],height [µm]")?;
    for (n, height) in heights.iter().enumerate() {
        let at = n as f64 * STEP;
        writeln!(out, "{at:.3},{:.4}", height + 0.3 * at + 0.5 * (TAU * at / 4.0).sin())?;
    }
    out.flush()
}
