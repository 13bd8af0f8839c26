//! What the host and a rule pack both know: kinds of quantity with their units, the manifest, an answer, how a pack is
//! held to its fixtures, and how life answers stress.
//!
//! Pure data and parsing; only [`fixtures`] reads files. Values are SI throughout: m, kg, s, K, N, Pa, W, rad, rad/s.
#![forbid(unsafe_code)]

pub mod answer;
#[cfg(not(target_family = "wasm"))]
pub mod fixtures;
mod kind;
mod manifest;
mod quantity;
pub mod slopes;
pub mod wear;

pub use kind::{KINDS, Kind, KindSpec, Print, Unit};
pub use manifest::{
    Argument, Basis, CONTRACT, Choice, Default, FactUse, Input, Level, METERS, Manifest, OPERATIONS, Remedy, Rule,
    RuleKind, Service, Solve, Step, Text, Use,
};
pub use quantity::{QuantityError, System, nearest_unit};
