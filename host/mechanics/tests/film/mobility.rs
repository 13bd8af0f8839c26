//! The mobility of a film from the solution of Reynolds' equation.

use super::reynolds::{Film, Mesh, Start, solve};
use std::f64::consts::PI;

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
