//! What the grade on the can promises, and which grades a measured oil meets: SAE J300, limits of the revision of January
//! 2015, which those to 2024 keep. Grades 8 to 16 overlap, so that one oil can be more than one of them.
//!
//! Kinematic viscosities at 100 °C in m²/s, dynamic ones in Pa s, temperatures in K.

/// A grade for the cold: the number before the W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WinterGrade {
    /// The number before the W.
    pub number: u8,
    /// Temperature at which it must still crank, K.
    pub cranking_at: f64,
    /// Thickest at which it does, Pa s (ASTM D5293).
    pub cranking: f64,
    /// Temperature at which it must still be pumped, K.
    pub pumping_at: f64,
    /// Thickest at which it is, Pa s, without a yield stress (ASTM D4684).
    pub pumping: f64,
    /// Thinnest at 100 °C, m²/s.
    pub thinnest: f64,
}

const fn winter(number: u8, cranking: f64, cranking_at: f64, pumping_at: f64, thinnest: f64) -> WinterGrade {
    WinterGrade {
        number,
        cranking_at: cranking_at + 273.15,
        cranking,
        pumping_at: pumping_at + 273.15,
        pumping: 60.0,
        thinnest: thinnest * 1e-6,
    }
}

/// The winter grades, thinnest first.
pub const WINTER: [WinterGrade; 6] = [
    winter(0, 6.2, -35.0, -40.0, 3.8),
    winter(5, 6.6, -30.0, -35.0, 3.8),
    winter(10, 7.0, -25.0, -30.0, 4.1),
    winter(15, 7.0, -20.0, -25.0, 5.6),
    winter(20, 9.5, -15.0, -20.0, 5.6),
    winter(25, 13.0, -10.0, -15.0, 9.3),
];

impl WinterGrade {
    /// Whether an oil meets it: its viscosity at 100 °C in m²/s and, in Pa s, what it cranks and pumps at, each at this
    /// grade's own temperature.
    #[must_use]
    pub fn meets(&self, hundred: f64, cranking: f64, pumping: f64) -> bool {
        reaches(hundred, self.thinnest) && reaches(self.cranking, cranking) && reaches(self.pumping, pumping)
    }
}

/// A grade for the heat: the number after the W, or the only one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotGrade {
    /// Its number.
    pub number: u8,
    /// Thinnest at 100 °C, m²/s.
    pub thinnest: f64,
    /// At 100 °C it is thinner than this, m²/s.
    pub below: f64,
    /// Least at 150 °C under high shear, Pa s; of a 40 that is a 0W, 5W or 10W, 0.2 mPa s less.
    pub high_shear: f64,
}

const fn hot(number: u8, thinnest: f64, below: f64, high_shear: f64) -> HotGrade {
    HotGrade { number, thinnest: thinnest * 1e-6, below: below * 1e-6, high_shear: high_shear * 1e-3 }
}

/// The grades for the heat, thinnest first.
pub const HOT: [HotGrade; 8] = [
    hot(8, 4.0, 6.1, 1.7),
    hot(12, 5.0, 7.1, 2.0),
    hot(16, 6.1, 8.2, 2.3),
    hot(20, 6.9, 9.3, 2.6),
    hot(30, 9.3, 12.5, 2.9),
    hot(40, 12.5, 16.3, 3.7),
    hot(50, 16.3, 21.9, 3.7),
    hot(60, 21.9, 26.1, 3.7),
];

impl HotGrade {
    /// Least high-shear viscosity at 150 °C, Pa s, with a winter grade or none.
    #[must_use]
    pub fn least_high_shear(&self, winter: Option<u8>) -> f64 {
        if self.number == 40 && matches!(winter, Some(0 | 5 | 10)) { 3.5e-3 } else { self.high_shear }
    }

    /// Whether an oil meets it: viscosity at 100 °C in m²/s and under high shear at 150 °C in Pa s.
    #[must_use]
    pub fn meets(&self, hundred: f64, high_shear: f64, winter: Option<u8>) -> bool {
        let thin = reaches(hundred, self.thinnest) && !reaches(hundred, self.below);
        thin && reaches(high_shear, self.least_high_shear(winter))
    }
}

/// What a grade promises.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilGrade {
    /// In the cold; none for a grade without a W.
    pub winter: Option<WinterGrade>,
    /// In the heat; none for a grade that is all W.
    pub hot: Option<HotGrade>,
}

impl OilGrade {
    /// Of a grade as it is written: "10W-40", "10W40", "30", "5W". None for what J300 does not have, such as 70.
    #[must_use]
    pub fn of(grade: &str) -> Option<Self> {
        let grade = grade.trim();
        let (cold, heat) = match grade.split_once(['W', 'w']) {
            Some((cold, heat)) => (Some(cold), heat.trim_start_matches('-')),
            None => (None, grade),
        };
        let winter = match cold {
            Some(number) => Some(find(&WINTER, number, |w| w.number)?),
            None => None,
        };
        let hot = if heat.is_empty() && winter.is_some() { None } else { Some(find(&HOT, heat, |h| h.number)?) };
        Some(Self { winter, hot })
    }

    /// Thinnest at 100 °C, m²/s.
    #[must_use]
    pub fn thinnest(&self) -> f64 {
        let (w, h) = (self.winter.map_or(0.0, |w| w.thinnest), self.hot.map_or(0.0, |h| h.thinnest));
        w.max(h)
    }

    /// At 100 °C it is thinner than this, m²/s; infinite for a winter grade alone.
    #[must_use]
    pub fn below(&self) -> f64 {
        self.hot.map_or(f64::INFINITY, |h| h.below)
    }

    /// Least high-shear viscosity at 150 °C, Pa s; none for a winter grade alone.
    #[must_use]
    pub fn high_shear(&self) -> Option<f64> {
        self.hot.map(|h| h.least_high_shear(self.winter.map(|w| w.number)))
    }
}

/// At least as much, to one part in 10⁹: 2.6 mPa s is not less for being written in Pa s.
fn reaches(value: f64, least: f64) -> bool {
    value >= least * (1.0 - 1e-9)
}

fn find<T: Copy>(table: &[T], number: &str, of: fn(&T) -> u8) -> Option<T> {
    let number: u8 = number.trim().parse().ok()?;
    table.iter().find(|g| of(g) == number).copied()
}

/// The grades for the heat that a measured oil meets, thinnest first: viscosity at 100 °C in m²/s, under high shear at
/// 150 °C in Pa s, and the winter grade it is sold with, if any.
pub fn met(hundred: f64, high_shear: f64, winter: Option<u8>) -> impl Iterator<Item = u8> {
    HOT.iter().filter(move |h| h.meets(hundred, high_shear, winter)).map(|h| h.number)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn thin_oils_can_be_two_grades_and_thick_ones_one() {
        assert_eq!(met(7.0e-6, 2.6e-3, Some(0)).collect::<Vec<_>>(), [12, 16, 20]);
        assert_eq!(met(5.5e-6, 2.1e-3, Some(0)).collect::<Vec<_>>(), [8, 12]);
        assert_eq!(met(18.0e-6, 4.8e-3, Some(20)).collect::<Vec<_>>(), [50]);
        assert_eq!(met(9.3e-6, 2.9e-3, None).collect::<Vec<_>>(), [30]);
        assert_eq!(met(9.3e-6, 2.89e-3, None).collect::<Vec<_>>(), [] as [u8; 0]);
        assert_eq!(met(f64::NAN, 2.9e-3, None).count(), 0);
    }

    #[test]
    fn a_forty_must_stand_more_shear_without_a_light_winter_grade() {
        assert_eq!(OilGrade::of("10W-40").unwrap().high_shear(), Some(3.5e-3));
        assert_eq!(OilGrade::of("15W-40").unwrap().high_shear(), Some(3.7e-3));
        assert_eq!(OilGrade::of("40").unwrap().high_shear(), Some(3.7e-3));
        assert_eq!(OilGrade::of("20w50").unwrap().winter.unwrap().number, 20);
        assert_eq!(OilGrade::of("5W").unwrap().high_shear(), None);
        for none in ["70", "7W-30", "W", "", "10W-", "x"] {
            assert!(OilGrade::of(none).is_none() == (none != "10W-"), "{none}");
        }
    }

    #[test]
    fn each_grade_follows_the_last_and_a_winter_grade_needs_all_three() {
        for pair in HOT.windows(2) {
            let (thin, thick) = (pair.first().unwrap(), pair.last().unwrap());
            assert!(thin.thinnest < thick.thinnest && thin.below <= thick.below && thick.thinnest <= thin.below);
        }
        let five = WINTER.get(1).unwrap();
        assert!(five.meets(10e-6, 6.6, 60.0));
        assert!(!five.meets(10e-6, 6.601, 60.0) && !five.meets(10e-6, 6.6, 60.1) && !five.meets(3.79e-6, 6.6, 60.0));
    }
}
