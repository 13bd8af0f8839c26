//! A lobe as it was read, degree by degree, with slope and curvature that the reading's rounding does not drown.

use super::LiftPoint;
use nalgebra::{SMatrix, SVector};

/// Half the width of the smoothing window, cam rad: eight degrees.
pub const WINDOW: f64 = 8.0 * std::f64::consts::PI / 180.0;
/// Fewest rows that make a lobe.
pub const FEWEST: usize = 12;
/// Coefficients of the fourth-order polynomial that is laid through a window.
const TERMS: usize = 5;

/// What is wrong with a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum LobeTableFault {
    /// Angles and lifts are not pairs, or too few.
    #[error("a lobe's table wants a lift for every angle, twelve of them or more")]
    Rows,
    /// Angles do not rise, or something is not a number.
    #[error("a lobe's angles must rise from row to row, and every lift must be a number")]
    Order,
    /// Too far apart for a curvature.
    #[error("a lobe's rows must stand close enough that seven fall within 16 cam degrees")]
    Apart,
}

/// The curve of a table: cam angles in rad, rising, and lifts in m. Angles come out counted from the highest lift.
///
/// A differenced table shows its last digit: rounding to a tenth of a thou, read each degree, leaves 0.07 thou per degree
/// squared of noise beside a nose of 0.25. So a polynomial of fourth order is laid through the rows within 8 degrees of
/// each row by least squares, at least seven of them, and its slope and curvature are taken (Savitzky and Golay,
/// Analytical Chemistry 36, 1964, 1627), which leaves a twentieth of that noise and rounds off a smooth lobe's greatest
/// curvature by under 2 %. Within eight degrees of the table's ends the last whole window serves.
///
/// # Errors
/// [`LobeTableFault`] for a table that is none.
pub fn table(angles: &[f64], lifts: &[f64]) -> Result<Vec<LiftPoint>, LobeTableFault> {
    if angles.len() != lifts.len() || angles.len() < FEWEST {
        return Err(LobeTableFault::Rows);
    }
    let rising = angles.iter().zip(angles.iter().skip(1)).all(|(a, b)| a < b);
    if !rising || !angles.iter().chain(lifts).all(|v| v.is_finite()) {
        return Err(LobeTableFault::Order);
    }
    let rows: Vec<(f64, f64)> = angles.iter().copied().zip(lifts.iter().copied()).collect();
    let nose = rows.iter().fold((0.0, f64::NEG_INFINITY), |top, row| if row.1 > top.1 { *row } else { top }).0;
    let mut points = Vec::with_capacity(rows.len());
    let (Some(first), Some(last)) = (angles.first(), angles.last()) else { return Err(LobeTableFault::Rows) };
    for (angle, _) in &rows {
        let middle = angle.max(first + WINDOW).min(last - WINDOW);
        let near = rows.iter().filter(|(a, _)| (a - middle).abs() <= WINDOW * (1.0 + 1e-9));
        let [lift, slope, curvature] = fit(near, middle, *angle).ok_or(LobeTableFault::Apart)?;
        points.push(LiftPoint { angle: angle - nose, lift, slope, curvature });
    }
    Ok(points)
}

/// Value, slope and curvature at `here` of the fourth-order polynomial that fits these rows round `middle` best. Normal
/// equations over the window's own unit, where they are well-conditioned (a few thousand), by Cholesky's method.
fn fit<'a>(rows: impl Iterator<Item = &'a (f64, f64)>, middle: f64, here: f64) -> Option<[f64; 3]> {
    let mut gram = SMatrix::<f64, TERMS, TERMS>::zeros();
    let mut right = SVector::<f64, TERMS>::zeros();
    let mut count = 0;
    for (angle, lift) in rows {
        let x = (angle - middle) / WINDOW;
        let powers = SVector::from([1.0, x, x * x, x * x * x, x * x * x * x]);
        gram += powers * powers.transpose();
        right += powers * *lift;
        count += 1;
    }
    let solved = if count < 7 { None } else { gram.cholesky() }?.solve(&right);
    let [[a, b, c, d, e]] = solved.data.0;
    let x = (here - middle) / WINDOW;
    let value = a + x * (b + x * (c + x * (d + x * e)));
    let slope = b + x * (2.0 * c + x * (3.0 * d + x * 4.0 * e));
    let curvature = 2.0 * c + x * (6.0 * d + x * 12.0 * e);
    Some([value, slope / WINDOW, curvature / (WINDOW * WINDOW)])
}
