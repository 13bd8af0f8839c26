//! Free thermal expansion, and what the usual materials of an engine are.

/// 20 °C in K: the temperature that sizes are stated at (ISO 1:2022).
pub const STANDARD_TEMPERATURE: f64 = 293.15;

/// A material of engine parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Grey cast iron.
    GreyIron,
    /// Compacted-graphite iron.
    CompactedIron,
    /// Nodular (ductile) iron.
    NodularIron,
    /// Low-alloy steel, 4340 and its like.
    Steel,
    /// Titanium, 6Al-4V.
    Titanium,
    /// 2618 piston alloy, forged.
    Alloy2618,
    /// 4032 piston alloy, forged.
    Alloy4032,
    /// Hypereutectic cast piston alloy, 18 % silicon.
    Hypereutectic,
    /// Eutectic cast piston alloy, 12 % silicon.
    EutecticCast,
    /// 319 and 356 castings: heads and blocks.
    CastAluminium,
    /// 7075 and 2024: forged and billet rods.
    WroughtAluminium,
    /// Valve-guide bronze.
    Bronze,
}

/// Figures of a material near room temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Mean coefficient of linear expansion, 20 to 100 °C, 1/K.
    pub expansion: f64,
    /// The range that handbooks give for it, 1/K.
    pub range: (f64, f64),
    /// Young's modulus, Pa; NaN where nothing here needs it.
    pub modulus: f64,
    /// Density, kg/m³; NaN where nothing here needs it.
    pub density: f64,
    /// Where the figures come from.
    pub source: &'static str,
}

impl Material {
    /// Every material.
    pub const ALL: [Self; 12] = [
        Self::GreyIron,
        Self::CompactedIron,
        Self::NodularIron,
        Self::Steel,
        Self::Titanium,
        Self::Alloy2618,
        Self::Alloy4032,
        Self::Hypereutectic,
        Self::EutecticCast,
        Self::CastAluminium,
        Self::WroughtAluminium,
        Self::Bronze,
    ];

    /// Its figures.
    #[must_use]
    pub fn properties(self) -> Properties {
        const NO: f64 = f64::NAN;
        let (expansion, range, modulus, density, source) = match self {
            Self::GreyIron => (10.8, (10.5, 11.5), NO, NO, "ASM Handbook vol. 1, grey iron; from memory"),
            Self::CompactedIron => (11.5, (11.0, 12.0), NO, NO, "compacted-graphite iron; from memory"),
            Self::NodularIron => (11.2, (10.6, 12.0), NO, NO, "ASM Handbook vol. 1, ductile iron; from memory"),
            Self::Steel => (12.3, (12.0, 12.7), 205e9, 7_850.0, "ASM Handbook vol. 1, 4340; from memory"),
            Self::Titanium => (8.6, (8.6, 9.2), 113.8e9, 4_430.0, "ASM Handbook vol. 2, Ti-6Al-4V; from memory"),
            Self::Alloy2618 => (22.3, (22.0, 22.6), NO, NO, "ASM Handbook vol. 2, 2618; from memory"),
            Self::Alloy4032 => (19.4, (19.0, 20.2), NO, NO, "ASM Handbook vol. 2, 4032; from memory"),
            Self::Hypereutectic => (18.5, (18.0, 19.0), NO, NO, "AlSi18 piston alloy; from memory"),
            Self::EutecticCast => (20.0, (19.5, 20.5), NO, NO, "AlSi12CuMgNi, a piston maker's data sheet"),
            Self::CastAluminium => (21.5, (21.0, 22.0), NO, NO, "319 and 356 castings, a materials library"),
            Self::WroughtAluminium => (23.6, (23.2, 23.6), 71.7e9, 2_810.0, "ASM Handbook vol. 2, 7075; from memory"),
            Self::Bronze => (18.0, (16.0, 19.0), NO, NO, "aluminium and manganese bronzes; from memory"),
        };
        Properties { expansion: expansion * 1e-6, range: (range.0 * 1e-6, range.1 * 1e-6), modulus, density, source }
    }
}

/// Growth of a length in m over a rise in K, m: coefficient in 1/K.
#[must_use]
pub fn growth(coefficient: f64, length: f64, rise: f64) -> f64 {
    coefficient * length * rise
}

/// How much less clearance a piston has hot than cold, m: growth of the skirt less growth of the bore around it, free
/// of one another, both of about `diameter` m. A comparison of alloys and temperatures only: a real skirt is oval,
/// elastic and cooler at its gauge point, and free growth by itself would eat usual fits.
#[must_use]
pub fn closing(diameter: f64, piston: f64, piston_rise: f64, bore: f64, bore_rise: f64) -> f64 {
    growth(piston, diameter, piston_rise) - growth(bore, diameter, bore_rise)
}
