//! Numbers to call a function with, and what it said.

use fastrand::Rng;
use std::fmt::Display;

/// Where the arguments come from: the range that a function's docs give, or anything finite.
pub struct Draw {
    pub rng: Rng,
    pub wild: bool,
}

/// Numbers at which arithmetic turns.
const ODD: [f64; 28] = [
    0.0,
    -0.0,
    1.0,
    -1.0,
    0.5,
    2.0,
    100.0,
    -100.0,
    1e-9,
    -1e-9,
    1e9,
    -1e9,
    1e15,
    273.15,
    std::f64::consts::PI,
    -std::f64::consts::FRAC_PI_2,
    1.0 + f64::EPSILON,
    1.0 - f64::EPSILON,
    f64::EPSILON,
    f64::MIN_POSITIVE,
    -f64::MIN_POSITIVE,
    5e-324,
    1e-300,
    1e154,
    1e300,
    -1e300,
    f64::MAX,
    f64::MIN,
];

impl Draw {
    fn anything(&mut self) -> f64 {
        if self.rng.bool() {
            return ODD[self.rng.usize(..ODD.len())];
        }
        let size = 10_f64.powf(self.rng.f64() * 630.0 - 322.0).min(f64::MAX);
        if self.rng.bool() { size } else { -size }
    }

    /// An odd number among good ones finds more than odd numbers alone.
    fn spoiled(&mut self) -> bool {
        self.wild && self.rng.u8(..5) < 2
    }

    /// Evenly between two, at an end now and then.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        if self.spoiled() {
            return self.anything();
        }
        match self.rng.u8(..20) {
            0 => low,
            1 => high,
            _ => low + (high - low) * self.rng.f64(),
        }
    }

    /// Between two that are greater than zero, evenly by their logarithm.
    pub fn over(&mut self, low: f64, high: f64) -> f64 {
        if self.spoiled() {
            return self.anything();
        }
        match self.rng.u8(..20) {
            0 => low,
            1 => high,
            _ => low * (high / low).powf(self.rng.f64()),
        }
    }

    /// A whole number.
    pub fn whole(&mut self, low: u32, high: u32) -> u32 {
        self.rng.u32(low..=high)
    }

    /// So many numbers, as [`Self::over`].
    pub fn list(&mut self, count: usize, low: f64, high: f64) -> Vec<f64> {
        (0..count).map(|_| self.over(low, high)).collect()
    }

    /// One of these.
    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.rng.usize(..of.len())]
    }

    /// Crank angle, any turn.
    pub fn angle(&mut self) -> f64 {
        self.between(-20.0, 20.0)
    }
    /// Crank speed, rad/s.
    pub fn omega(&mut self) -> f64 {
        self.over(20.0, 2_000.0)
    }
    /// A part's size, m.
    pub fn size(&mut self) -> f64 {
        self.over(1e-3, 1.0)
    }
    /// A part's mass, kg.
    pub fn mass(&mut self) -> f64 {
        self.over(1e-3, 100.0)
    }
    /// A force, N.
    pub fn force(&mut self) -> f64 {
        self.over(1.0, 1e6)
    }
    /// A pressure or a stress, Pa.
    pub fn pressure(&mut self) -> f64 {
        self.over(1e3, 2e9)
    }
    /// Zero to one.
    pub fn share(&mut self) -> f64 {
        self.between(0.0, 1.0)
    }
}

/// What a function said.
#[derive(Default, Debug)]
pub struct Told {
    pub numbers: Vec<f64>,
    pub refused: Option<String>,
}

/// Anything that a function gives.
pub trait Answer {
    fn tell(self, told: &mut Told);
}

pub fn told(answer: impl Answer) -> Told {
    let mut told = Told::default();
    answer.tell(&mut told);
    told
}

/// A number that may be endless, as the docs say.
pub fn endless(value: f64) -> f64 {
    if value == f64::INFINITY { f64::MAX } else { value }
}

impl Answer for f64 {
    fn tell(self, told: &mut Told) {
        told.numbers.push(self);
    }
}
impl Answer for () {
    fn tell(self, _: &mut Told) {}
}
impl Answer for bool {
    fn tell(self, _: &mut Told) {}
}
impl Answer for u32 {
    fn tell(self, _: &mut Told) {}
}
impl Answer for usize {
    fn tell(self, _: &mut Told) {}
}
impl Answer for &str {
    fn tell(self, _: &mut Told) {}
}
impl<T: Answer, const N: usize> Answer for [T; N] {
    fn tell(self, told: &mut Told) {
        self.into_iter().for_each(|v| v.tell(told));
    }
}
impl<T: Answer> Answer for Vec<T> {
    fn tell(self, told: &mut Told) {
        self.into_iter().for_each(|v| v.tell(told));
    }
}
impl<T: Answer, U: Answer> Answer for (T, U) {
    fn tell(self, told: &mut Told) {
        self.0.tell(told);
        self.1.tell(told);
    }
}
impl<T: Answer, E: Display> Answer for Result<T, E> {
    fn tell(self, told: &mut Told) {
        match self {
            Ok(value) => value.tell(told),
            Err(why) => {
                let words = why.to_string();
                assert!(!words.trim().is_empty(), "a refusal without words");
                told.refused = Some(words);
            }
        }
    }
}
/// What is not there: a refusal without words, unless [`maybe`] says that it may.
impl<T: Answer> Answer for Option<T> {
    fn tell(self, told: &mut Told) {
        match self {
            Some(value) => value.tell(told),
            None => told.refused = Some("nothing".to_owned()),
        }
    }
}

/// A value that the docs let be absent inside the range too.
pub fn maybe<T: Answer>(value: Option<T>) -> Told {
    value.map(told).unwrap_or_default()
}
impl Answer for Told {
    fn tell(self, told: &mut Told) {
        told.numbers.extend(self.numbers);
        told.refused = self.refused.or_else(|| told.refused.take());
    }
}

/// Makes these fields of a struct its answer.
macro_rules! fields {
    ($($t:ty: $($field:ident),+;)*) => { $(
        impl crate::draw::Answer for $t {
            fn tell(self, told: &mut crate::draw::Told) {
                $( crate::draw::Answer::tell(self.$field, told); )+
            }
        }
    )* };
}
pub(crate) use fields;

/// One function, by its file, type and name.
pub type Walk = (&'static str, fn(&mut Draw) -> Told);

/// Each name with the call that is made in it.
macro_rules! walks {
    ($d:ident: $($name:literal => $call:expr;)*) => {
        pub const WALKS: &[crate::draw::Walk] = &[$( ($name, |$d: &mut crate::draw::Draw| {
            let _ = &$d;
            crate::draw::told($call)
        }) ),*];
    };
}
pub(crate) use walks;
