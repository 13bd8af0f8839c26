//! Checks an engine build against what its owner wants to do with it.
//!
//! One way through, and no way back: a [`sheet`] gives [`facts`]; rule [`packs`] answer them with windows, findings and
//! services; the [`verdict`] holds the readings against them; the [`plan`] sets services against the meters; the
//! [`report`] writes it down.
#![deny(unsafe_code)]

pub mod cli;
pub mod facts;
pub mod packs;
pub mod plan;
pub mod report;
pub mod sheet;
pub mod verdict;
