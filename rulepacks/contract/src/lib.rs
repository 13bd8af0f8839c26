//! What the host and a rule pack both know: kinds of quantity with their units, the manifest, an answer, and how a pack
//! is held to its fixtures.
//!
//! Pure data and parsing; only [`fixtures`] reads files. Values are SI throughout: m, kg, s, K, N, Pa, W, rad, rad/s.
#![forbid(unsafe_code)]

pub mod answer;
#[cfg(not(target_family = "wasm"))]
pub mod fixtures;
mod kind;
mod manifest;
mod quantity;

pub use kind::{KINDS, Kind, KindSpec, Print, Unit};
pub use manifest::{
    Argument, Basis, CONTRACT, Choice, Default, FactUse, Input, Level, Manifest, Remedy, Rule, RuleKind, Service,
    Solve, Step, Text, Use,
};
pub use quantity::{QuantityError, System, nearest_unit};
