//! Volumes of a cylinder and the compression ratios made of them.

use crate::Outside;
use crate::kinematics::Slider;
use std::f64::consts::FRAC_PI_4;

/// Volume of a disc, m³: `diameter` and `height` in m. A negative height gives a negative volume (a piston that stands
/// proud of its deck). Any finite input.
#[must_use]
pub fn disc(diameter: f64, height: f64) -> f64 {
    FRAC_PI_4 * diameter * diameter * height
}

/// Swept volume of one cylinder, m³: bore and stroke in m. Heywood, Internal Combustion Engine Fundamentals (1988),
/// section 2.2.
#[must_use]
pub fn swept_volume(bore: f64, stroke: f64) -> f64 {
    disc(bore, stroke)
}

/// Volume between top land and bore down to the top ring, m³; lengths in m. Heywood 1988, section 8.6: crevices.
#[must_use]
pub fn crevice_volume(bore: f64, land_diameter: f64, land_height: f64) -> f64 {
    FRAC_PI_4 * (bore * bore - land_diameter * land_diameter) * land_height
}

/// What the clearance volume is made of, each in m³.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ClearanceVolume {
    /// Chamber in the head.
    pub chamber: f64,
    /// Inside the gasket, its own bore.
    pub gasket: f64,
    /// Above the piston at top dead centre; negative where it stands proud.
    pub deck: f64,
    /// Dish and valve pockets.
    pub dish: f64,
    /// Dome, taken off.
    pub dome: f64,
    /// Top land; leave at zero where the convention is without it.
    pub crevice: f64,
}

impl ClearanceVolume {
    /// The sum, m³.
    #[must_use]
    pub fn sum(self) -> f64 {
        self.chamber + self.gasket + self.deck + self.dish - self.dome + self.crevice
    }
}

/// Compression ratio `(swept + clearance) / clearance`, volumes in m³; NaN unless both are greater than zero.
/// Heywood 1988, eq. 2.1.
#[must_use]
pub fn compression(swept: f64, clearance: f64) -> f64 {
    if swept > 0.0 && clearance > 0.0 { (swept + clearance) / clearance } else { f64::NAN }
}

/// Share of the stroke that is left when the inlet valve closes `closing` rad after bottom dead centre (0 to pi), by
/// the exact slider-crank.
///
/// # Errors
/// [`Outside`] for a rod that cannot follow its crank.
pub fn stroke_left(slider: Slider, closing: f64) -> Result<f64, Outside> {
    let slider = slider.checked()?;
    let angle = slider.bottom_dead_centre() + closing;
    Ok(slider.below_top(angle) / slider.stroke())
}

/// Compression ratio from inlet closing to top dead centre: geometry only, no ram and no residuals. The closing angle
/// must be that of the seat (0.004 to 0.020 in of lift), since timing at 0.050 in closes 20 to 30 degrees earlier.
/// Linear in the ratio, so the mean ratio of several cylinders gives their mean. Taylor, The Internal-Combustion
/// Engine in Theory and Practice, vol. 1, on late closing.
///
/// # Errors
/// [`Outside`] for a rod that cannot follow its crank.
pub fn effective_compression(slider: Slider, compression: f64, closing: f64) -> Result<f64, Outside> {
    Ok(1.0 + stroke_left(slider, closing)? * (compression - 1.0))
}
