//! The closed part integrated, and the shape of the open one.

use super::law::{Law, Slope, Spot, energy};
use super::{Cycle, Cylinder, DEGREE, Exchange, NoCycle, POINTS, Setup, angle_of, positive};
use crate::Outside;
use crate::geometry::{disc, swept_volume};
use crate::kinematics::mean_speed;
use std::f64::consts::PI;

/// The closed part cannot be longer than from one bottom dead centre to the next.
const STEPS: usize = 362;

/// What one integration gives besides the trace.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sums {
    pub(super) peak: f64,
    pub(super) peak_angle: f64,
    pub(super) work: f64,
    pub(super) heat: f64,
    pub(super) closing: f64,
    pub(super) opening: f64,
    pub(super) energy: (f64, f64),
}

/// Steps that hang on the setup alone: made once, walked for every charge that is tried.
pub(super) struct Walk {
    setup: Setup,
    start: f64,
    end: f64,
    /// first whole degree of the closed part, counted from -360
    first: usize,
    spots: Vec<Spot>,
    widths: Vec<f64>,
    pressures: Vec<f64>,
    temperatures: Vec<f64>,
}

impl Walk {
    pub(super) fn new(setup: Setup) -> Result<Self, NoCycle> {
        let Cylinder { bore, slider, clearance, inlet_closing, exhaust_opening, crevice } = setup.cylinder;
        let slider = slider.checked()?;
        positive("the bore", bore)?;
        positive("the clearance volume", clearance)?;
        positive("the crank's speed", setup.speed)?;
        positive("the charge's temperature", setup.charge.temperature)?;
        positive("the burn's duration", setup.burn.duration)?;
        positive("the walls' temperature", setup.walls.temperature)?;
        if !(crevice.is_finite() && crevice >= 0.0) {
            return Err(Outside::NotPositive { what: "the crevice", value: crevice }.into());
        }
        let bottom = slider.bottom_dead_centre();
        let (start, end) = (bottom - 2.0 * PI + inlet_closing, bottom - exhaust_opening);
        let inside = |x: f64| (0.0..PI).contains(&x);
        if !(inside(inlet_closing) && inside(exhaust_opening))
            || end - start < 4.0 * DEGREE
            || start > -DEGREE
            || end < DEGREE
        {
            return Err(NoCycle::NeverClosed { closing: inlet_closing, opening: exhaust_opening });
        }
        let mut walk = Self {
            setup: Setup { cylinder: Cylinder { slider, ..setup.cylinder }, ..setup },
            start,
            end,
            first: 0,
            spots: Vec::with_capacity(2 * STEPS + 1),
            widths: Vec::with_capacity(STEPS),
            pressures: vec![0.0; POINTS],
            temperatures: vec![f64::NAN; POINTS],
        };
        walk.lay_out();
        Ok(walk)
    }

    /// A point at inlet closing, at every whole degree and at exhaust opening, and one halfway between two.
    fn lay_out(&mut self) {
        let (first, last) = ((self.start / DEGREE).floor() + 1.0, (self.end / DEGREE).ceil() - 1.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "-180 to 360, above -360")]
        {
            self.first = (first + 360.0) as usize;
        }
        let whole = |n: f64| n * DEGREE;
        let volume = self.volume(self.start);
        let mut from = self.start;
        self.spots.push(self.spot(from, volume));
        let mut degree = first;
        while from < self.end {
            let to = if degree <= last { whole(degree) } else { self.end };
            self.spots.push(self.spot(f64::midpoint(from, to), volume));
            self.spots.push(self.spot(to, volume));
            self.widths.push(to - from);
            (from, degree) = (to, degree + 1.0);
        }
    }

    fn volume(&self, angle: f64) -> f64 {
        let Cylinder { bore, slider, clearance, .. } = self.setup.cylinder;
        clearance + disc(bore, slider.below_top(angle))
    }

    fn spot(&self, angle: f64, closing: f64) -> Spot {
        let Cylinder { bore, slider, clearance, .. } = self.setup.cylinder;
        let volume = self.volume(angle);
        let (burned, burning) = self.setup.burn.at(angle);
        // head and crown as flat discs, and the bore between them
        let height = slider.below_top(angle) + clearance / disc(bore, 1.0);
        Spot {
            volume,
            slope: disc(bore, slider.speed(angle, 1.0)),
            burned,
            burning,
            wall: 2.0 * disc(bore, 1.0) + PI * bore * height,
            motored: (closing / volume).powf(1.3),
        }
    }

    /// Integrates with so much trapped; keeps the trace.
    pub(super) fn run(&mut self, mass: f64) -> Result<Sums, NoCycle> {
        let Setup { cylinder, charge, walls, speed, .. } = self.setup;
        let piston = mean_speed(cylinder.slider.stroke(), speed);
        let at = self.spots.first().copied().unwrap_or_default();
        let held = cylinder.crevice / walls.temperature;
        let gas = |t: f64, spot: &Spot| mass / (1.0 + held * t / spot.volume);
        let start_pressure = gas(charge.temperature, &at) * charge.unburned.constant * charge.temperature / at.volume;
        let law = Law {
            setup: &self.setup,
            mass,
            held,
            piston: 2.28 * piston,
            start: start_pressure,
            // C2 of eq. 12.19 by displaced volume, temperature, pressure and volume at inlet closing
            burn: 3.24e-3 * swept_volume(cylinder.bore, cylinder.slider.stroke()) * charge.temperature
                / (start_pressure * at.volume),
            woschni: walls.scale * 3.26 * cylinder.bore.powf(-0.2),
        };
        let mut sums =
            Sums { peak: start_pressure, peak_angle: self.start, closing: start_pressure, ..Sums::default() };
        let mut t = charge.temperature;
        sums.energy.0 = energy(&law, &at, t);
        let mut degree = self.start / DEGREE;
        let mut greatest = (start_pressure, 0);
        let slots = self.pressures.iter_mut().zip(self.temperatures.iter_mut()).skip(self.first);
        let mut slots = slots.enumerate();
        let mut last = at;
        for (pair, width) in self.spots.get(1..).unwrap_or_default().chunks_exact(2).zip(&self.widths) {
            let [middle, end] = pair else { break };
            let h = *width;
            let one = law.slope(&last, t);
            let two = law.slope(middle, t + 0.5 * h * one.warming);
            let three = law.slope(middle, t + 0.5 * h * two.warming);
            let four = law.slope(end, t + h * three.warming);
            let mean = |f: fn(&Slope) -> f64| h / 6.0 * (f(&one) + 2.0 * (f(&two) + f(&three)) + f(&four));
            t += mean(|s| s.warming);
            sums.work += mean(|s| s.work);
            sums.heat += mean(|s| s.heat);
            degree += h / DEGREE;
            if !(200.0..=6000.0).contains(&t) {
                return Err(NoCycle::TooHot { degree });
            }
            last = *end;
            if degree >= self.end / DEGREE - 1e-9 {
                sums.opening = law.pressure(end, t);
                break;
            }
            if let Some((n, (p, kelvin))) = slots.next() {
                (*p, *kelvin) = (law.pressure(end, t), t);
                if *p > greatest.0 {
                    greatest = (*p, n + self.first);
                }
            }
        }
        sums.energy.1 = energy(&law, &last, t);
        (sums.peak, sums.peak_angle) = self.crest(greatest.1).unwrap_or((greatest.0, self.start));
        Ok(sums)
    }

    /// Top of the parabola through the greatest pressure and its neighbours.
    fn crest(&self, at: usize) -> Option<(f64, f64)> {
        let [before, top, after] = self.pressures.get(at.checked_sub(1)?..at + 2)? else { return None };
        let curve = before - 2.0 * top + after;
        let shift = if curve < 0.0 { (0.5 * (before - after) / curve).clamp(-0.5, 0.5) } else { 0.0 };
        Some((top - 0.25 * (before - after) * shift, (angle_of(at) + shift) * DEGREE))
    }

    /// Pressure while a valve is open, Pa.
    fn open(&self, angle: f64, sums: &Sums) -> f64 {
        let Exchange { inlet, exhaust } = self.setup.exchange;
        let bottom = self.setup.cylinder.slider.bottom_dead_centre();
        let change = 20.0 * DEGREE;
        if angle >= self.end {
            // blow-down: 95 % of it is over at bottom dead centre, or 40 degrees after an opening that is later
            let span = (bottom - self.end).max(40.0 * DEGREE);
            let left = |angle: f64| (-3.0 * (angle - self.end) / span).exp();
            let last = left(2.0 * PI - change);
            let blown = exhaust + (sums.opening - exhaust) * ((left(angle) - last) / (1.0 - last)).max(0.0);
            let over = ((angle - (2.0 * PI - change)) / (2.0 * change)).clamp(0.0, 1.0);
            blown + over * (inlet - blown)
        } else if angle <= self.start {
            let over = ((angle + 2.0 * PI + change) / (2.0 * change)).clamp(0.0, 1.0);
            let drawn = exhaust + over * (inlet - exhaust);
            let from = bottom - 2.0 * PI;
            let shutting = if self.start > from { ((angle - from) / (self.start - from)).clamp(0.0, 1.0) } else { 0.0 };
            drawn + shutting * (sums.closing - drawn)
        } else {
            f64::NAN
        }
    }

    /// Work of the whole cycle, J: the closed part as integrated and the open part by trapezoids.
    pub(super) fn open_work(&self, sums: &Sums) -> f64 {
        let mut work = sums.work;
        let mut part = |from: f64, to: f64| {
            let steps = 48_u32;
            let width = (to - from) / f64::from(steps);
            let (mut p, mut v) = (self.open(from, sums), self.volume(from));
            for n in 1..=steps {
                let angle = if n == steps { to } else { from + f64::from(n) * width };
                let (q, w) = (self.open(angle, sums), self.volume(angle));
                work += 0.5 * (p + q) * (w - v);
                (p, v) = (q, w);
            }
        };
        let bottom = self.setup.cylinder.slider.bottom_dead_centre();
        // the middle ones are the places where the shape has its corners
        part(self.end, bottom.max(self.end));
        part(bottom.max(self.end), 2.0 * PI);
        part(-2.0 * PI, (bottom - 2.0 * PI).min(self.start));
        part((bottom - 2.0 * PI).min(self.start), self.start);
        work
    }

    /// Work over some whole degrees of the trace, J.
    fn stroke_work(&self, points: std::ops::Range<usize>) -> f64 {
        let volume = |n: usize| self.volume(angle_of(n) * DEGREE);
        points
            .filter_map(|n| {
                let [p, q] = self.pressures.get(n..n + 2)? else { return None };
                Some(0.5 * (p + q) * (volume(n + 1) - volume(n)))
            })
            .sum()
    }

    pub(super) fn finish(mut self, mass: f64, sums: Sums) -> Cycle {
        let swept = swept_volume(self.setup.cylinder.bore, self.setup.cylinder.slider.stroke());
        let indicated = self.open_work(&sums) / swept;
        for n in 0..POINTS {
            let angle = angle_of(n) * DEGREE;
            let open = self.open(angle, &sums);
            if let Some(p) = self.pressures.get_mut(n).filter(|_| !open.is_nan()) {
                *p = open;
            }
        }
        let pumping = self.stroke_work(540..POINTS - 1) + self.stroke_work(0..180);
        Cycle {
            mass,
            peak: sums.peak,
            peak_angle: sums.peak_angle,
            indicated,
            pumping: pumping / swept,
            heat: sums.heat,
            closed_work: sums.work,
            closing_pressure: sums.closing,
            opening_pressure: sums.opening,
            closing: self.start,
            opening: self.end,
            energy: sums.energy,
            piston_speed: mean_speed(self.setup.cylinder.slider.stroke(), self.setup.speed),
            pressures: self.pressures,
            temperatures: self.temperatures,
        }
    }
}
