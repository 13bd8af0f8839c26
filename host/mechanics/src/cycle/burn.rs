//! How a charge burns: Wiebe's curve.

/// How it burns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burn {
    /// Half of the charge is burned here, rad after top dead centre.
    pub half: f64,
    /// From the start to 99.3 %, rad.
    pub duration: f64,
    /// Wiebe's form factor m; 2 fits petrol engines. Heywood 1988, ch. 9.
    pub form: f64,
    /// Share that burns at all: about 0.95 to 0.98. Heywood 1988, section 3.5.4.
    pub efficiency: f64,
}

/// Wiebe's a: 5 burns 99.3 % within the duration. Heywood 1988, ch. 9.
pub const WIEBE: f64 = 5.0;

impl Burn {
    /// Share burned at `progress`, the share of the duration that has passed; Heywood 1988, ch. 9, from memory. `form` m > -1.
    #[must_use]
    pub fn wiebe(progress: f64, form: f64) -> f64 {
        if progress > 0.0 { 1.0 - (-WIEBE * progress.powf(form + 1.0)).exp() } else { 0.0 }
    }

    /// Share of the duration after which a share of the charge is burned; the share 0 to 1.
    #[must_use]
    pub fn progress(burned: f64, form: f64) -> f64 {
        (-(1.0 - burned).ln() / WIEBE).powf(1.0 / (form + 1.0))
    }

    /// Start of the burn, rad after top dead centre; negative before it.
    #[must_use]
    pub fn start(&self) -> f64 {
        self.half - self.duration * Self::progress(0.5, self.form)
    }

    /// Duration of the whole from that between 10 and 90 % burned, rad, for a form.
    #[must_use]
    pub fn whole(tenth_to_nine: f64, form: f64) -> f64 {
        tenth_to_nine / (Self::progress(0.9, form) - Self::progress(0.1, form))
    }

    /// Share burned and its slope by angle, 1/rad, at an angle in rad.
    pub(super) fn at(&self, angle: f64) -> (f64, f64) {
        let progress = (angle - self.start()) / self.duration;
        if progress <= 0.0 {
            return (0.0, 0.0);
        }
        // the form that nearly every cycle has costs no power
        let square = (self.form - 2.0).abs() < f64::EPSILON;
        let power = if square { progress * progress } else { progress.powf(self.form) };
        let left = (-WIEBE * power * progress).exp();
        (self.efficiency * (1.0 - left), self.efficiency * WIEBE * (self.form + 1.0) * power * left / self.duration)
    }
}
