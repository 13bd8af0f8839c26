//! Checks an engine build against what its owner wants to do with it.
#![forbid(unsafe_code)]

pub mod sheet;
