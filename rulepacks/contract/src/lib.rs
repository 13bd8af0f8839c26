//! What the host and a rule pack both know: kinds of quantity with their units, the manifest, an answer, and how life
//! answers stress.
//!
//! Pure data and parsing. Values are SI throughout: m, kg, s, K, N, Pa, W, rad, rad/s.
#![forbid(unsafe_code)]

pub mod answer;
mod day;
pub mod factor;
mod kind;
pub mod logged;
mod manifest;
mod measure;
mod quantity;
pub mod slopes;
pub mod wear;

pub use day::{day, day_text};
pub use kind::{KINDS, Kind, KindSpec, Print, Unit};
pub use manifest::{
    Argument, Basis, CONTRACT, FactUse, Fallback, Input, Level, METERS, Manifest, OPERATIONS, Remedy, Rule, RuleKind,
    RuleText, ServiceInfo, Solve, StepInfo, USES, Use,
};
pub use measure::{Dim, Measure};
pub use quantity::{QuantityError, System, nearest_unit, short};
