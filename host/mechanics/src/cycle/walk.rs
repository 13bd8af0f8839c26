//! The closed part integrated, and the shape of the open one.

use super::law::{Law, Slope, Spot, energy};
use super::{Burn, Cycle, Cylinder, DEGREE, Exchange, NoCycle, POINTS, Setup, angle_of, point_of, positive};
use crate::Outside;
use crate::geometry::{disc, swept_volume};
use crate::kinematics::mean_speed;
use std::f64::consts::PI;
use std::sync::Arc;

/// So far about top dead centre, and through the burn to where all but 2e-5 of it is burned, a step is a degree long,
/// elsewhere as long as [`COARSE`]: there nothing bends sharply. Degrees.
const FINE: f64 = 30.0;
/// Degrees of a step away from the burn and from top dead centre.
const COARSE: f64 = 3.0;

/// Points of one turn.
const TURN: usize = 360;
/// Steps of each of the four pieces of the open part.
const OPEN_STEPS: usize = 48;

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

/// Where a step ends.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Node {
    /// Length of the step to it, rad.
    width: f64,
    /// Halfway to it.
    middle: Spot,
    end: Spot,
    /// Its point of the trace, for a whole degree.
    point: Option<usize>,
}

/// Steps that hang on the cylinder and its burn alone: made once, walked for every charge that is tried, and for every
/// cycle that has the same of both.
#[derive(Debug, PartialEq)]
pub(super) struct Layout {
    cylinder: Cylinder,
    burn: Burn,
    start: f64,
    end: f64,
    first: Spot,
    nodes: Vec<Node>,
    /// Volumes at the whole degrees of one turn, from -360.
    volumes: Vec<f64>,
    /// Angles and volumes of the open part.
    open_part: Vec<[f64; 2]>,
}

impl Layout {
    fn new(cylinder: Cylinder, burn: Burn) -> Result<Self, NoCycle> {
        let Cylinder { bore, slider, clearance, inlet_closing, exhaust_opening, crevice } = cylinder;
        slider.checked()?;
        positive("the bore", bore)?;
        positive("the clearance volume", clearance)?;
        positive("the burn's duration", burn.duration)?;
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
        let mut layout = Self {
            cylinder,
            burn,
            start,
            end,
            first: Spot::default(),
            nodes: Vec::with_capacity(200),
            volumes: Vec::new(),
            open_part: Vec::with_capacity(4 * (OPEN_STEPS + 1)),
        };
        layout.lay_out();
        Ok(layout)
    }

    /// A point at inlet closing, at whole degrees and at exhaust opening, and one halfway between two.
    fn lay_out(&mut self) {
        self.volumes = (0..TURN).map(|n| self.volume(angle_of(n) * DEGREE)).collect();
        self.lay_out_open();
        let (first, last) = ((self.start / DEGREE).floor() + 1.0, (self.end / DEGREE).ceil() - 1.0);
        let Burn { duration, .. } = self.burn;
        let lit = self.burn.start();
        let (from_fine, to_fine) =
            ((lit / DEGREE - 1.0).floor().min(-FINE), ((lit + 1.3 * duration) / DEGREE).ceil().max(FINE));
        let volume = self.volume(self.start);
        self.first = self.spot(self.start, volume);
        let (mut from, mut degree) = (self.start, first);
        while from < self.end {
            let to = if degree <= last { degree * DEGREE } else { self.end };
            self.nodes.push(Node {
                width: to - from,
                middle: self.spot(f64::midpoint(from, to), volume),
                end: self.spot(to, volume),
                point: (degree <= last).then(|| point_of(degree)),
            });
            from = to;
            degree = if degree < from_fine {
                (degree + COARSE).min(from_fine)
            } else if degree < to_fine {
                degree + 1.0
            } else {
                degree + COARSE
            };
            if from < last * DEGREE {
                degree = degree.min(last)
            }
        }
    }

    /// The middle ones of its five ends are the places where the shape has its corners.
    fn lay_out_open(&mut self) {
        let bottom = self.cylinder.slider.bottom_dead_centre();
        let before = (bottom - 2.0 * PI).min(self.start);
        for (from, to) in [
            (self.end, bottom.max(self.end)),
            (bottom.max(self.end), 2.0 * PI),
            (-2.0 * PI, before),
            (before, self.start),
        ] {
            let width = (to - from) / OPEN_STEPS as f64;
            for n in 0..=OPEN_STEPS {
                let angle = if n == OPEN_STEPS { to } else { from + n as f64 * width };
                self.open_part.push([angle, self.volume(angle)]);
            }
        }
    }

    fn volume(&self, angle: f64) -> f64 {
        let Cylinder { bore, slider, clearance, .. } = self.cylinder;
        clearance + disc(bore, slider.below_top(angle))
    }

    fn spot(&self, angle: f64, closing: f64) -> Spot {
        let Cylinder { bore, slider, clearance, .. } = self.cylinder;
        let (below, speed) = slider.place(angle);
        let volume = clearance + disc(bore, below);
        let (burned, burning) = self.burn.at(angle);
        // head and crown as flat discs, and the bore between them
        let height = below + clearance / disc(bore, 1.0);
        Spot {
            volume,
            slope: disc(bore, speed),
            burned,
            burning,
            wall: 2.0 * disc(bore, 1.0) + PI * bore * height,
            // asked for only once something has burned
            motored: if burned > 0.0 { (closing / volume).powf(1.3) } else { 0.0 },
        }
    }
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
