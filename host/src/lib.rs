//! Checks an engine build against what its owner wants to do with it.
//!
//! One way through, and no way back: a [`sheet`] gives [`facts`]; rule [`packs`] answer them with windows, findings and
//! services; the [`verdict`] holds the readings against them; the [`plan`] sets services against the meters; the
//! [`report`] writes it down. Each stage is a crate that knows only those before it; the sandbox is behind [`packs`]
//! alone.
#![deny(unsafe_code)]

pub mod cli;

pub use thou_facts as facts;
pub use thou_plan as plan;
pub use thou_report as report;
pub use thou_sandbox as packs;
pub use thou_sheet as sheet;
pub use thou_verdict as verdict;
