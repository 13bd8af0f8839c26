//! What the host and a rule pack both know: kinds of quantity with their units, and the manifest.
//!
//! Pure data and parsing, no I/O. Values are SI throughout: m, kg, s, K, N, Pa, W, rad, rad/s.
#![forbid(unsafe_code)]

mod kind;
mod manifest;
mod quantity;

pub use kind::{KINDS, Kind, KindSpec, Print, Unit};
pub use manifest::{
    Argument, Basis, CONTRACT, Choice, Default, FactUse, Input, Level, Manifest, Remedy, Rule, RuleKind, Service,
    Solve, Step, Text, Use,
};
pub use quantity::{QuantityError, System, nearest_unit};
