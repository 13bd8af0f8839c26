//! The build sheet: one JSON file with the parts, the intent and what was measured.

pub mod model;

pub use model::{Axis, Places, ReadingSet, Sheet, Side, Source};
