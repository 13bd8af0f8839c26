//! Reynolds' equation for a full plain bearing, solved: what the tables of the library are made of and held to.
//!
//! Film H = 1 - e cos t, t from the smallest film, journal moving with unit speed at an angle from there:
//! d/dt(H³ dP/dt) + (D/L)² d/dz(H³ dP/dz) = -cos(t - angle), P >= 0 with its slope nought where it ends (Swift and
//! Stieber), P = 0 at both ends of the bearing. Finite volumes on a mesh that is finer where the film is thin; the
//! cavities are found by a primal-dual active set (Hintermüller, Ito and Kunisch, SIAM J. Optim. 13 (2003) 865), each
//! step a banded Cholesky solution, so that what comes out is the discrete solution and not an unfinished relaxation.

/// The mesh: cells around, and from the middle of the bearing to its end (even, for Simpson's rule).
#[derive(Debug, Clone, Copy)]
pub(crate) struct Mesh {
    pub(crate) around: usize,
    pub(crate) along: usize,
}

/// What a film carries.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Film {
    /// Integral of P over the angle and half the length, along the eccentricity.
    pub(crate) along: f64,
    /// And across it, toward the side that the journal moves to.
    pub(crate) across: f64,
    /// Greatest P.
    pub(crate) peak: f64,
    /// Integral round the bearing of (D/L)² H³ dP/dz at its end, positive outward.
    pub(crate) leak: f64,
    /// Mean over the length of H³ dP/dt where the film begins, against the oil that is dragged in.
    pub(crate) inlet: f64,
}

impl Film {
    /// How much the film carries.
    pub(crate) fn load(self) -> f64 {
        self.along.hypot(self.across)
    }
    /// Angle of the load from the eccentricity, rad.
    pub(crate) fn angle(self) -> f64 {
        self.across.atan2(self.along)
    }
}

/// Where the film is thought to begin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Start {
    /// Where it opens fastest: nothing is carried there, so that it is no restriction.
    Opening,
    /// At the widest film, as Raimondi and Boyd had it.
    Widest,
}

/// The film of a journal at an eccentricity, moving at an angle from it, for a length over diameter.
pub(crate) fn solve(eccentricity: f64, moving: f64, ratio: f64, start: Start, mesh: Mesh) -> Film {
    let (n, m) = (mesh.around, mesh.along);
    let tau = std::f64::consts::TAU;
    let squash = ((1.0 - eccentricity) / (1.0 + eccentricity)).powf(0.35);
    let place = |q: f64| {
        // q in turns; whole turns are kept apart, so that the angle goes on growing
        let whole = (q + 0.5).floor();
        let part = (q - whole) * tau;
        whole * tau + 2.0 * (squash * (part / 2.0).sin()).atan2((part / 2.0).cos())
    };
    let first = match start {
        Start::Widest => 0.5,
        Start::Opening => {
            let at = moving + std::f64::consts::PI;
            let whole = (at / tau + 0.5).floor();
            let part = at - whole * tau;
            whole + 2.0 * ((part / 2.0).sin() / squash).atan2((part / 2.0).cos()) / tau
        }
    };
    let node = |i: f64| place(first + i / n as f64);
    let film = |t: f64| 1.0 - eccentricity * t.cos();
    let rows = n - 1;
    let size = rows * m;
    let step = 1.0 / m as f64;
    let cross = 1.0 / (ratio * ratio);
    // symmetric band: diagonal, and the couplings to the next in z (+1) and the next in angle (+m)
    let (mut diag, mut next_z, mut next_t, mut source) =
        (vec![0.0; size], vec![0.0; size], vec![0.0; size], vec![0.0; size]);
    for i in 0..rows {
        let p = (i + 1) as f64;
        let (here, before, after) = (node(p), node(p - 1.0), node(p + 1.0));
        let (low, high) = (node(p - 0.5), node(p + 0.5));
        let width = high - low;
        let (left, right) = (film(low).powi(3) / (here - before), film(high).powi(3) / (after - here));
        // exact mean of -dH/dt over the cell
        let push = (high - moving).sin() - (low - moving).sin();
        let axial = cross * film(here).powi(3) * width / step;
        for j in 0..m {
            let k = i * m + j;
            let depth = if j == 0 { step / 2.0 } else { step };
            diag[k] = (left + right) * depth + if j == 0 { axial } else { 2.0 * axial };
            next_z[k] = if j + 1 < m { -axial } else { 0.0 };
            next_t[k] = if i + 1 < rows { -right * depth } else { 0.0 };
            source[k] = push * depth;
        }
    }
    let pressure = cavitated(&diag, &next_z, &next_t, &source, m);
    let simpson = |j: usize| {
        if j == 0 {
            1.0
        } else if j % 2 == 1 {
            4.0
        } else {
            2.0
        }
    };
    let mut out = Film { along: 0.0, across: 0.0, peak: 0.0, leak: 0.0, inlet: 0.0 };
    for i in 0..rows {
        let p = (i + 1) as f64;
        let (low, high, here) = (node(p - 0.5), node(p + 0.5), node(p));
        let row = &pressure[i * m..(i + 1) * m];
        let mean: f64 = row.iter().enumerate().map(|(j, p)| p * simpson(j) * step / 3.0).sum();
        out.along += mean * (high.sin() - low.sin());
        out.across += mean * (low.cos() - high.cos());
        out.peak = row.iter().copied().fold(out.peak, f64::max);
        // slope at the end by the parabola through the last two and the nought there
        let slope = (4.0 * row[m - 1] - row[m - 2]) / (2.0 * step);
        out.leak += cross * film(here).powi(3) * slope * (high - low);
        if i + 1 == rows {
            // the film begins at the far end of the mesh: a journal that moves to growing t drags oil the other way
            out.inlet = film(node(p + 0.5)).powi(3) * mean / (node(p + 1.0) - here);
        }
    }
    out
}

/// A x = b where x > 0, and x = 0 with A x >= b elsewhere.
fn cavitated(diag: &[f64], next_z: &[f64], next_t: &[f64], source: &[f64], m: usize) -> Vec<f64> {
    let size = diag.len();
    let mut full = vec![true; size];
    let mut x = vec![0.0; size];
    for _ in 0..200 {
        x = banded(diag, next_z, next_t, source, m, &full);
        let mut changed = false;
        for k in 0..size {
            let was = full[k];
            full[k] = if was {
                x[k] > 0.0
            } else {
                let mut flow = source[k];
                if k + 1 < size {
                    flow -= next_z[k] * x[k + 1]
                }
                if k > 0 {
                    flow -= next_z[k - 1] * x[k - 1]
                }
                if k + m < size {
                    flow -= next_t[k] * x[k + m]
                }
                if k >= m {
                    flow -= next_t[k - m] * x[k - m]
                }
                flow > 0.0
            };
            changed |= was != full[k];
        }
        if !changed {
            break;
        }
    }
    x.iter().map(|p| p.max(0.0)).collect()
}

fn banded(diag: &[f64], next_z: &[f64], next_t: &[f64], source: &[f64], m: usize, full: &[bool]) -> Vec<f64> {
    let size = diag.len();
    let wide = m + 1;
    let mut l = vec![0.0; size * wide]; // l[k*wide + d] = L(k, k-d)
    for k in 0..size {
        let entry = |d: usize| {
            if d == 0 {
                return if full[k] { diag[k] } else { 1.0 };
            }
            if k < d || !full[k] || !full[k - d] {
                return 0.0;
            }
            if d == 1 && m > 1 {
                next_z[k - 1]
            } else if d == m {
                next_t[k - m]
            } else {
                0.0
            }
        };
        let most = m.min(k);
        for d in (0..=most).rev() {
            let col = k - d;
            let mut sum = entry(d);
            let reach = m.min(col + m - k).min(col);
            for back in 1..=reach {
                if d + back <= m {
                    sum -= l[k * wide + d + back] * l[col * wide + back];
                }
            }
            l[k * wide + d] = if d == 0 { sum.sqrt() } else { sum / l[col * wide] };
        }
    }
    let mut y = vec![0.0; size];
    for k in 0..size {
        let mut sum = if full[k] { source[k] } else { 0.0 };
        for d in 1..=m.min(k) {
            sum -= l[k * wide + d] * y[k - d];
        }
        y[k] = sum / l[k * wide];
    }
    for k in (0..size).rev() {
        let mut sum = y[k];
        for d in 1..=m {
            if k + d < size {
                sum -= l[(k + d) * wide + d] * y[k + d];
            }
        }
        y[k] = sum / l[k * wide];
    }
    y
}
