//! The constant-volume cycle of an ideal gas: the bound that no engine reaches.

/// Efficiency of the cycle at a compression ratio for a ratio of heat capacities `gamma`, both > 1; NaN otherwise.
/// Heywood 1988, eq. 5.31.
#[must_use]
pub fn efficiency(compression: f64, gamma: f64) -> f64 {
    if compression > 1.0 && gamma > 1.0 { 1.0 - compression.powf(1.0 - gamma) } else { f64::NAN }
}

/// A cycle that burns all at once at top dead centre and loses nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConstantVolume {
    /// Before compression, Pa.
    pub pressure: f64,
    /// Before compression, m³.
    pub volume: f64,
    /// Compression ratio, > 1.
    pub compression: f64,
    /// Ratio of heat capacities, > 1.
    pub gamma: f64,
    /// Heat given off by the fuel, J.
    pub heat: f64,
}

impl ConstantVolume {
    /// Pressure at the end of compression, Pa.
    #[must_use]
    pub fn compressed(&self) -> f64 {
        self.pressure * self.compression.powf(self.gamma)
    }

    /// Greatest pressure, Pa: p1 r^gamma + (gamma - 1) Q/Vc. Heywood 1988, section 5.4.1.
    #[must_use]
    pub fn peak(&self) -> f64 {
        self.compressed() + (self.gamma - 1.0) * self.heat * self.compression / self.volume
    }

    /// Indicated mean effective pressure, Pa.
    #[must_use]
    pub fn indicated(&self) -> f64 {
        let swept = self.volume * (1.0 - 1.0 / self.compression);
        self.heat * efficiency(self.compression, self.gamma) / swept
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn compression_helps_less_and_less() {
        let at = |r: f64| efficiency(r, 1.3);
        assert!(at(9.0) > at(8.0) && at(14.0) - at(13.0) < at(9.0) - at(8.0));
        assert!(efficiency(1.0, 1.3).is_nan() && efficiency(f64::NAN, 1.3).is_nan());
    }

    #[test]
    fn a_first_law_walk_round_it_gives_the_same_work() {
        let c = ConstantVolume { pressure: 9.5e4, volume: 8e-4, compression: 10.5, gamma: 1.35, heat: 2e3 };
        // polytropic work of expansion less that of compression
        let small = c.volume / c.compression;
        let end = c.peak() * c.compression.powf(-c.gamma);
        let out = (c.peak() * small - end * c.volume) / (c.gamma - 1.0);
        let back = (c.compressed() * small - c.pressure * c.volume) / (c.gamma - 1.0);
        let work = out - back;
        assert!((work / (c.indicated() * (c.volume - small)) - 1.0).abs() < 1e-12);
    }
}
