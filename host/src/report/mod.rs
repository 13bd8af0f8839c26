//! From a verdict to something to read: text for the bench, JSON for programs.

mod bench;
pub mod check;
pub mod json;
pub mod plan;
pub mod spec;
mod template;
mod words;

/// What a place of an axis is called.
pub(crate) use bench::noun as axis_noun;

pub use bench::{Bench, Paint};
