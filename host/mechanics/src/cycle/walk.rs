//! The closed part integrated, and the shape of the open one.

use super::law::{Law, Slope, Spot, energy};
use super::layout::{Layout, Node, OPEN_STEPS, TURN};
use super::setup::{DEGREE, Exchange, NoCycle, POINTS, Setup, angle_of, point_of, positive};
use super::trace::Cycle;
use crate::geometry::swept_volume;
use crate::kinematics::mean_speed;
use std::f64::consts::PI;
use std::sync::Arc;

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

/// A layout with a charge in it.
pub(super) struct Walk {
    setup: Setup,
    layout: Arc<Layout>,
    /// Temperature at every node and its change to come, K and K/rad, of the last charge.
    path: Vec<[f64; 2]>,
    pressures: Vec<f64>,
    temperatures: Vec<f64>,
}

impl Walk {
    /// On a layout that was made before, if it is of the same cylinder and burn.
    pub(super) fn new(setup: Setup, known: Option<&Arc<Layout>>) -> Result<Self, NoCycle> {
        let fits = |layout: &&Arc<Layout>| layout.cylinder == setup.cylinder && layout.burn == setup.burn;
        let layout = match known.filter(fits) {
            Some(layout) => Arc::clone(layout),
            None => Arc::new(Layout::new(setup.cylinder, setup.burn)?),
        };
        positive("the crank's speed", setup.speed)?;
        positive("the charge's temperature", setup.charge.temperature)?;
        positive("the walls' temperature", setup.walls.temperature)?;
        Ok(Self {
            setup,
            path: Vec::with_capacity(layout.nodes.len() + 1),
            layout,
            pressures: vec![0.0; POINTS],
            temperatures: vec![f64::NAN; POINTS],
        })
    }

    /// Integrates with so much trapped; keeps the trace.
    pub(super) fn run(&mut self, mass: f64) -> Result<Sums, NoCycle> {
        let Setup { cylinder, charge, walls, speed, .. } = self.setup;
        let piston = mean_speed(cylinder.slider.stroke(), speed);
        let at = self.layout.first;
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
            Sums { peak: start_pressure, peak_angle: self.layout.start, closing: start_pressure, ..Sums::default() };
        let mut t = charge.temperature;
        sums.energy.0 = energy(&law, &at, t);
        let mut degree = self.layout.start / DEGREE;
        let mut greatest = (start_pressure, 0);
        let mut last = at;
        self.path.clear();
        for Node { width: h, middle, end, point } in &self.layout.nodes {
            let one = law.slope(&last, t);
            self.path.push([t, one.warming]);
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
            let pressure = law.pressure(end, t);
            let Some((n, slot)) = point.and_then(|n| Some((n, self.pressures.get_mut(n)?))) else {
                sums.opening = pressure;
                continue;
            };
            *slot = pressure;
            if pressure > greatest.0 {
                greatest = (pressure, n);
            }
        }
        self.path.push([t, law.slope(&last, t).warming]);
        sums.energy.1 = energy(&law, &last, t);
        (sums.peak, sums.peak_angle) = self.crest(greatest.1).unwrap_or((greatest.0, self.layout.start));
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
        if angle >= self.layout.end {
            // blow-down: 95 % of it is over at bottom dead centre, or 40 degrees after an opening that is later
            let span = (bottom - self.layout.end).max(40.0 * DEGREE);
            let left = |angle: f64| (-3.0 * (angle - self.layout.end) / span).exp();
            let last = left(2.0 * PI - change);
            let blown = exhaust + (sums.opening - exhaust) * ((left(angle) - last) / (1.0 - last)).max(0.0);
            let over = ((angle - (2.0 * PI - change)) / (2.0 * change)).clamp(0.0, 1.0);
            blown + over * (inlet - blown)
        } else if angle <= self.layout.start {
            let over = ((angle + 2.0 * PI + change) / (2.0 * change)).clamp(0.0, 1.0);
            let drawn = exhaust + over * (inlet - exhaust);
            let from = bottom - 2.0 * PI;
            let shutting = if self.layout.start > from {
                ((angle - from) / (self.layout.start - from)).clamp(0.0, 1.0)
            } else {
                0.0
            };
            drawn + shutting * (sums.closing - drawn)
        } else {
            f64::NAN
        }
    }

    /// Work of the whole cycle, J: the closed part as integrated and the open part by trapezoids.
    pub(super) fn open_work(&self, sums: &Sums) -> f64 {
        let mut work = sums.work;
        let mut before: Option<(f64, f64)> = None;
        for (n, [angle, volume]) in self.layout.open_part.iter().enumerate() {
            let pressure = self.open(*angle, sums);
            if n % (OPEN_STEPS + 1) > 0
                && let Some((p, v)) = before
            {
                work += 0.5 * (p + pressure) * (volume - v);
            }
            before = Some((pressure, *volume));
        }
        work
    }

    /// Work over some whole degrees of the trace, J.
    fn stroke_work(&self, points: std::ops::Range<usize>) -> f64 {
        let volume = |n: usize| self.layout.volumes.get(n % TURN);
        points
            .filter_map(|n| {
                let [p, q] = self.pressures.get(n..n + 2)? else { return None };
                Some(0.5 * (p + q) * (volume(n + 1)? - volume(n)?))
            })
            .sum()
    }

    /// The whole degrees of the closed part: temperatures by Hermite's cubic between two nodes.
    fn fill_in(&mut self, mass: f64) {
        let Setup { cylinder, charge, walls, .. } = &self.setup;
        let held = cylinder.crevice / walls.temperature;
        let (raw, burnt) = (charge.unburned.constant, charge.burned.constant);
        let mut from = self.layout.start;
        for (node, ends) in self.layout.nodes.iter().zip(self.path.windows(2)) {
            let [[t, rise], [u, falls]] = ends else { break };
            let (h, to) = (node.width, from + node.width);
            // nothing burns in a step that is longer than a degree
            let constant = raw + node.end.burned * (burnt - raw);
            let mut point = point_of((from / DEGREE + 1e-9).floor() + 1.0);
            while let Some(at) = Some(angle_of(point) * DEGREE).filter(|at| *at <= to + 1e-9)
                && let (Some(p), Some(kelvin)) = (self.pressures.get_mut(point), self.temperatures.get_mut(point))
            {
                let s = ((at - from) / h).clamp(0.0, 1.0);
                let bend = s * (1.0 - s) * h;
                *kelvin = t + (u - t) * s * s * (3.0 - 2.0 * s) + bend * (rise * (1.0 - s) - falls * s);
                let volume = self.layout.volumes.get(point % TURN).copied().unwrap_or(f64::NAN);
                *p = mass * constant * *kelvin / (volume + held * *kelvin);
                point += 1;
            }
            from = to;
        }
    }

    pub(super) fn finish(mut self, mass: f64, sums: Sums) -> Cycle {
        let swept = swept_volume(self.setup.cylinder.bore, self.setup.cylinder.slider.stroke());
        let indicated = self.open_work(&sums) / swept;
        self.fill_in(mass);
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
            closing: self.layout.start,
            opening: self.layout.end,
            energy: sums.energy,
            piston_speed: mean_speed(self.setup.cylinder.slider.stroke(), self.setup.speed),
            pressures: self.pressures,
            layout: self.layout,
            temperatures: self.temperatures,
        }
    }
}
