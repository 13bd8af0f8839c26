//! From a verdict to something to read: text for the bench, JSON for programs.

mod bench;
mod blanks;
mod cautions;
pub mod check;
mod go;
pub mod json;
mod like;
mod open;
pub mod plan;
mod plan_detail;
mod sizes;
pub mod spec;
mod table;
mod template;
mod words;

/// What a place of an axis is called.
pub(crate) use bench::noun as axis_noun;

pub use bench::{Bench, Paint};
pub use like::Like;
