//! The steps of a cycle, which hang on cylinder and burn alone, laid out once.

use super::burn::Burn;
use super::law::Spot;
use super::setup::{Cylinder, DEGREE, NoCycle, angle_of, point_of, positive};
use crate::Outside;
use crate::geometry::disc;
use std::f64::consts::PI;

/// So far about top dead centre, and through the burn to where all but 2e-5 of it is burned, a step is a degree long,
/// elsewhere as long as [`COARSE`]: there nothing bends sharply. Degrees.
const FINE: f64 = 30.0;
/// Degrees of a step away from the burn and from top dead centre.
const COARSE: f64 = 3.0;

/// Points of one turn.
pub(super) const TURN: usize = 360;
/// Steps of each of the four pieces of the open part.
pub(super) const OPEN_STEPS: usize = 48;

/// Where a step ends.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Node {
    /// Length of the step to it, rad.
    pub(super) width: f64,
    /// Halfway to it.
    pub(super) middle: Spot,
    pub(super) end: Spot,
    /// Its point of the trace, for a whole degree.
    pub(super) point: Option<usize>,
}

/// Steps that hang on the cylinder and its burn alone: made once, walked for every charge that is tried, and for every
/// cycle that has the same of both.
#[derive(Debug, PartialEq)]
pub(super) struct Layout {
    pub(super) cylinder: Cylinder,
    pub(super) burn: Burn,
    pub(super) start: f64,
    pub(super) end: f64,
    pub(super) first: Spot,
    pub(super) nodes: Vec<Node>,
    /// Volumes at the whole degrees of one turn, from -360.
    pub(super) volumes: Vec<f64>,
    /// Angles and volumes of the open part.
    pub(super) open_part: Vec<[f64; 2]>,
}

impl Layout {
    pub(super) fn new(cylinder: Cylinder, burn: Burn) -> Result<Self, NoCycle> {
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
