//! The path of a journal in its bearing through a cycle, by the mobility method, and what follows from it: the least
//! film and where, the heat, the oil that it pumps.
//!
//! Booker, J. Basic Engineering 87 (1965) 537. Rigid surfaces, one viscosity, fed without fail; against a solution that
//! keeps the balance of the oil the least film comes out high and the flow low (Yu and Sawicki, Int. J. Rotating
//! Machinery 8 (2002) 71), and an engine's housing gives: take ±50 % for the film.

use crate::mobility::Mobility;
use std::f64::consts::{PI, TAU};

/// A bearing with its oil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Diameter of the journal, m.
    pub diameter: f64,
    /// Length that carries, m; of one land where a groove goes all round.
    pub length: f64,
    /// Lands that share the load: 1, or 2 with a groove all round.
    pub lands: f64,
    /// Radial clearance, m: half of the shop's oil clearance.
    pub clearance: f64,
    /// Viscosity of the film, Pa s.
    pub viscosity: f64,
}

/// What the journal bears at one angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Force on the journal along the first axis of the frame that the orbit is told in, N.
    pub x: f64,
    /// And along the second, N.
    pub y: f64,
    /// Mean of the angular velocities of journal and sleeve in that frame, rad/s.
    pub mean: f64,
    /// Journal's angular velocity less the sleeve's, rad/s.
    pub relative: f64,
}

/// Degrees in a cycle of two turns.
pub const DEGREES: usize = 720;

/// A periodic orbit; angles are those of the crank in a cycle from -2 pi to 2 pi.
#[derive(Debug, Clone, PartialEq)]
pub struct Orbit {
    /// Film at each degree from -360 to 359, m.
    pub films: [f64; DEGREES],
    /// Least film of the cycle, m.
    pub least: f64,
    /// Crank angle of it, rad.
    pub least_at: f64,
    /// Greatest load, N, of the degrees from -360 to 359.
    pub peak: f64,
    /// Crank angle of it, rad.
    pub peak_at: f64,
    /// Mean power lost to the oil, W.
    pub power: f64,
    /// Mean flow out of the ends by the journal's motion, m³/s; for a short bearing, so 6 % high at L/D 1/2.
    pub flow: f64,
    /// Mean eccentricity.
    pub mean_eccentricity: f64,
    /// Evaluations of the mobility.
    pub evaluations: usize,
}

/// Why there is no orbit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoOrbit {
    /// A size, speed or viscosity that is not greater than zero, or a load that is not a number.
    #[error("an orbit needs sizes, a speed and a viscosity greater than zero, and a load that is a number")]
    NotFinite,
    /// No periodic path within the steps allowed: the film is all but gone.
    #[error("the journal finds no periodic path: the load is far past what this film can carry")]
    NotPeriodic,
}

/// Local error of a step over the film's share of the clearance.
const FINE: f64 = 4e-4;
/// Longest step, rad.
const LONGEST: f64 = 5.0 * PI / 180.0;
/// Evaluations at the most.
const MOST: usize = 400_000;

/// A load that comes again after two turns of the crank: at every degree, and between them by a cubic.
#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    /// Three more than the cycle's degrees, so that every cubic has its four.
    at: [[f64; 4]; DEGREES + 3],
}

impl Loads {
    /// Of a load by the crank's angle in rad, asked for at the degrees from -360 to 359.
    #[must_use]
    pub fn of(load: impl Fn(f64) -> Load) -> Self {
        Self::from_degrees((0..DEGREES).map(|degree| load((degree as f64 - 360.0).to_radians())))
    }

    /// The same load so much later in the cycle, rad: between degrees by the same cubic as [`Self::at`].
    #[must_use]
    pub fn later(&self, by: f64) -> Self {
        let back = (-by).to_degrees().rem_euclid(DEGREES as f64);
        // a turn of whole degrees, but for the last digits of its radians, moves the rows and leaves them as they are
        let back = if (back - back.round()).abs() < 1e-9 { back.round() } else { back };
        let whole = (back as usize).min(DEGREES);
        let weights = cubic(back - whole as f64);
        let mut at = [[0.0; 4]; DEGREES + 3];
        for (degree, slot) in at.iter_mut().skip(1).take(DEGREES).enumerate() {
            let first = (degree + whole) % DEGREES;
            *slot = blend(self.at.get(first..first + 4).unwrap_or_default(), weights);
        }
        Self::wrapped(at)
    }

    /// Loads at the degrees from -360 to 359.
    pub(crate) fn degrees(&self) -> impl Iterator<Item = Load> {
        self.at.iter().skip(1).take(DEGREES).map(|[x, y, mean, relative]| Load {
            x: *x,
            y: *y,
            mean: *mean,
            relative: *relative,
        })
    }

    /// Of the degrees from -360 to 359.
    pub(crate) fn from_degrees(loads: impl Iterator<Item = Load>) -> Self {
        let mut at = [[0.0; 4]; DEGREES + 3];
        for (slot, Load { x, y, mean, relative }) in at.iter_mut().skip(1).take(DEGREES).zip(loads) {
            *slot = [x, y, mean, relative];
        }
        Self::wrapped(at)
    }

    fn wrapped(mut at: [[f64; 4]; DEGREES + 3]) -> Self {
        at[0] = at[DEGREES];
        at[DEGREES + 1] = at[1];
        at[DEGREES + 2] = at[2];
        Self { at }
    }

    /// Greatest force of the degrees from -360 to 359, N.
    #[must_use]
    pub fn peak(&self) -> f64 {
        self.degrees().map(|load| load.x.hypot(load.y)).fold(0.0, f64::max)
    }

    /// At an angle in rad.
    #[must_use]
    pub fn at(&self, angle: f64) -> Load {
        let turns = angle * (1.0 / (2.0 * TAU)) + 0.5;
        let place = (turns - turns.floor()) * DEGREES as f64;
        // never above 720, which rounding can reach
        let first = (place as usize).min(DEGREES - 1);
        let u = place - first as f64;
        let [x, y, mean, relative] = blend(self.at.get(first..first + 4).unwrap_or_default(), cubic(u));
        Load { x, y, mean, relative }
    }
}

/// Weights of four neighbours for a place between the middle two: Lagrange's cubic.
fn cubic(u: f64) -> [f64; 4] {
    let (a, b, c) = (u + 1.0, u - 1.0, u - 2.0);
    [-u * b * c / 6.0, a * b * c / 2.0, -a * u * c / 2.0, a * u * b / 6.0]
}

fn blend(rows: &[[f64; 4]], weights: [f64; 4]) -> [f64; 4] {
    let mut sum = [0.0; 4];
    for (row, weight) in rows.iter().zip(weights) {
        for (s, v) in sum.iter_mut().zip(row) {
            *s += v * weight;
        }
    }
    sum
}

/// The orbit of a bearing at a crank speed in rad/s under a load that comes again after two turns of the crank.
///
/// Steps by Bogacki and Shampine's pair of orders 2 and 3 (Appl. Math. Letters 2 (1989) 321) with the error held to the
/// film, a turn from firing top dead centre to forget the start (a big end then ends its cycle within 1e-5 of the film of
/// where it began; after a third of a turn within 1e-2), and cycles until one ends where it began.
///
/// # Errors
/// [`NoOrbit`], see there.
pub fn orbit<M: Mobility>(bearing: Bearing, mobility: &M, speed: f64, loads: &Loads) -> Result<Orbit, NoOrbit> {
    let load = |angle: f64| loads.at(angle);
    let path = Path { mobility, load: &load, scale: scale(bearing, speed)?, speed };
    let mut walk = Progress::start(&path, 0.0, [0.0; 2]);
    while walk.angle < TAU {
        path.step(&mut walk, TAU)?;
    }
    let mut out = Orbit {
        films: [0.0; DEGREES],
        least: 0.0,
        least_at: 0.0,
        peak: 0.0,
        peak_at: 0.0,
        power: 0.0,
        flow: 0.0,
        mean_eccentricity: 0.0,
        evaluations: 0,
    };
    for _ in 0..8 {
        walk.angle = -TAU;
        let start = walk.at;
        let mut tally = Tally { degree: 0, ..Tally::default() };
        while walk.angle < TAU {
            let from = walk;
            path.step(&mut walk, TAU)?;
            tally.passed(&from, &walk, speed, &mut out.films);
        }
        let film = 1.0 - walk.at[0].hypot(walk.at[1]);
        if (walk.at[0] - start[0]).hypot(walk.at[1] - start[1]) < 2e-3 * film {
            return Ok(finish(out, &tally, bearing, loads, walk.evaluations));
        }
    }
    Err(NoOrbit::NotPeriodic)
}

/// Where a journal is at an angle `to`, from a place at an angle `from`, both in rad of the crank's turning, eccentricity
/// over clearance in the load's own frame of reference. For loads that do not come again.
///
/// # Errors
/// [`NoOrbit`], see there.
pub fn follow<M: Mobility>(
    bearing: Bearing,
    mobility: &M,
    speed: f64,
    load: impl Fn(f64) -> Load,
    (from, start): (f64, [f64; 2]),
    to: f64,
) -> Result<[f64; 2], NoOrbit> {
    let path = Path { mobility, load: &load, scale: scale(bearing, speed)?, speed };
    let mut walk = Progress::start(&path, from, start);
    while walk.angle < to {
        path.step(&mut walk, to)?;
    }
    Ok(walk.at)
}

/// Velocity of the eccentricity for a force and a mobility of one, 1/(N s).
fn scale(bearing: Bearing, speed: f64) -> Result<f64, NoOrbit> {
    let Bearing { diameter, length, lands, clearance, viscosity } = bearing;
    if ![diameter, length, lands, clearance, viscosity, speed].into_iter().all(|v| v > 0.0 && v.is_finite()) {
        return Err(NoOrbit::NotFinite);
    }
    Ok((2.0 * clearance / diameter).powi(2) / (viscosity * length * diameter * lands))
}

struct Path<'a, M, L> {
    mobility: &'a M,
    load: &'a L,
    scale: f64,
    speed: f64,
}

#[derive(Clone, Copy)]
struct Progress {
    angle: f64,
    at: [f64; 2],
    slope: [f64; 2],
    load: Load,
    step: f64,
    evaluations: usize,
}

impl Progress {
    fn start<M: Mobility, L: Fn(f64) -> Load>(path: &Path<'_, M, L>, angle: f64, at: [f64; 2]) -> Self {
        let (slope, load) = path.slope(angle, at);
        Self { angle, at, slope, load, step: 0.01, evaluations: 1 }
    }
}

fn length(v: [f64; 2]) -> f64 {
    (v[0] * v[0] + v[1] * v[1]).sqrt()
}

impl<M: Mobility, L: Fn(f64) -> Load> Path<'_, M, L> {
    /// Change of the eccentricity with the crank's angle: what the load squeezes, and what turns with the surfaces.
    fn slope(&self, angle: f64, at: [f64; 2]) -> ([f64; 2], Load) {
        let load = (self.load)(angle);
        let force = (load.x * load.x + load.y * load.y).sqrt();
        let turned = [-load.mean * at[1] / self.speed, load.mean * at[0] / self.speed];
        if force <= 0.0 {
            return (turned, load);
        }
        let (c, s) = (load.x / force, load.y / force);
        let (mx, my) = self.mobility.in_frame(at, [c, s]);
        let k = force * self.scale / self.speed;
        ([turned[0] + k * (mx * c - my * s), turned[1] + k * (mx * s + my * c)], load)
    }

    fn step(&self, walk: &mut Progress, end: f64) -> Result<(), NoOrbit> {
        let k1 = walk.slope;
        let (angle, at) = (walk.angle, walk.at);
        let film = 1.0 - length(at);
        loop {
            if walk.evaluations > MOST {
                return Err(NoOrbit::NotPeriodic);
            }
            let left = end - angle;
            let (h, last) = if walk.step >= left { (left, true) } else { (walk.step, false) };
            let moved = |by: [f64; 2], h: f64| [at[0] + h * by[0], at[1] + h * by[1]];
            let (k2, _) = self.slope(angle + h / 2.0, moved(k1, h / 2.0));
            let (k3, _) = self.slope(angle + 0.75 * h, moved(k2, 0.75 * h));
            let sum = |i: fn(&[f64; 2]) -> f64| (2.0 * i(&k1) + 3.0 * i(&k2) + 4.0 * i(&k3)) / 9.0;
            let next = moved([sum(|k| k[0]), sum(|k| k[1])], h);
            let (k4, load) = self.slope(angle + h, next);
            walk.evaluations += 3;
            let off =
                |i: fn(&[f64; 2]) -> f64| h * (-5.0 / 72.0 * i(&k1) + i(&k2) / 12.0 + i(&k3) / 9.0 - i(&k4) / 8.0);
            let error = length([off(|k| k[0]), off(|k| k[1])]);
            let left_over = 1.0 - length(next);
            let allowed = FINE * left_over.min(film);
            // a step too long can come out as anything; a short one that does is fed with something that is no number
            if !error.is_finite() && h <= 1e-7 {
                return Err(NoOrbit::NotFinite);
            }
            let good = left_over > 0.0 && error <= allowed;
            // the error goes with the third power of the step
            let factor = if error > 0.0 { 0.9 * (allowed / error).max(1e-9).cbrt() } else { 4.0 };
            let factor = if factor.is_finite() { factor.clamp(0.2, 4.0) } else { 0.2 };
            if good {
                walk.angle = if last { end } else { angle + h };
                walk.at = next;
                walk.slope = k4;
                walk.load = load;
                // a last step that was cut short says nothing of the next
                walk.step = (h * factor).max(if last { walk.step } else { 0.0 }).min(LONGEST);
                return Ok(());
            }
            walk.step = h * factor.min(0.5);
            if walk.step < 1e-10 {
                return Err(NoOrbit::NotPeriodic);
            }
        }
    }
}

#[derive(Default)]
struct Tally {
    degree: usize,
    /// Integrals over the crank's angle.
    squeeze_power: f64,
    shear: f64,
    motion: f64,
    eccentricity: f64,
}

impl Tally {
    /// Films at the whole degrees of a step, by Hermite's cubic, and the integrals over it by the trapezium.
    fn passed(&mut self, from: &Progress, to: &Progress, speed: f64, films: &mut [f64; DEGREES]) {
        let h = to.angle - from.angle;
        loop {
            let angle = (self.degree as f64 - 360.0).to_radians();
            if angle > to.angle {
                break;
            }
            let Some(slot) = films.get_mut(self.degree) else { break };
            let t = ((angle - from.angle) / h).clamp(0.0, 1.0);
            let (u, v) = (t * t * (3.0 - 2.0 * t), t * (1.0 - t));
            let between = |a: f64, b: f64, da: f64, db: f64| a + (b - a) * u + h * v * (da * (1.0 - t) - db * t);
            let x = between(from.at[0], to.at[0], from.slope[0], to.slope[0]);
            let y = between(from.at[1], to.at[1], from.slope[1], to.slope[1]);
            *slot = 1.0 - length([x, y]);
            self.degree += 1;
        }
        // both ends' figures from their slopes, which are known: no further mobility is asked for
        let ends = [from, to].map(|w| {
            let load = w.load;
            let squeeze = [w.slope[0] * speed + load.mean * w.at[1], w.slope[1] * speed - load.mean * w.at[0]];
            let e = length(w.at);
            [
                load.x * squeeze[0] + load.y * squeeze[1],
                load.relative * load.relative / (1.0 - e * e).max(1e-6).sqrt(),
                length(squeeze),
                e,
            ]
        });
        let mean = |i: usize| -> f64 {
            let sum: f64 = ends.iter().filter_map(|e| e.get(i)).sum();
            sum / 2.0 * h
        };
        self.squeeze_power += mean(0);
        self.shear += mean(1);
        self.motion += mean(2);
        self.eccentricity += mean(3);
    }
}

fn finish(mut out: Orbit, tally: &Tally, b: Bearing, loads: &Loads, evaluations: usize) -> Orbit {
    let cycle = 2.0 * TAU;
    let radius = b.diameter / 2.0;
    let mut least = (f64::INFINITY, 0);
    for ((degree, film), [x, y, ..]) in out.films.iter_mut().enumerate().zip(loads.at.iter().skip(1)) {
        *film *= b.clearance;
        if *film < least.0 {
            least = (*film, degree);
        }
        let force = x.hypot(*y);
        if force > out.peak {
            (out.peak, out.peak_at) = (force, (degree as f64 - 360.0).to_radians());
        }
    }
    let film = |degree: usize| out.films.get(degree % DEGREES).copied().unwrap_or(least.0);
    let (before, after) = (film(least.1 + DEGREES - 1), film(least.1 + 1));
    // vertex of the parabola through the least degree and its neighbours
    let bend = before - 2.0 * least.0 + after;
    let shift = if bend > 0.0 { (0.5 * (before - after) / bend).clamp(-1.0, 1.0) } else { 0.0 };
    out.least = least.0 - 0.25 * (before - after) * shift;
    out.least_at = (least.1 as f64 + shift - 360.0).to_radians();
    let shear = b.viscosity * radius.powi(3) * b.length * b.lands * TAU / b.clearance;
    out.power = (shear * tally.shear + b.clearance * tally.squeeze_power) / cycle;
    out.flow = 2.0 * radius * b.length * b.lands * b.clearance * tally.motion / cycle;
    out.mean_eccentricity = tally.eccentricity / cycle;
    out.evaluations = evaluations;
    out
}

#[cfg(test)]
#[path = "orbit_tests.rs"]
mod tests;
