//! What use and readings say of the parts of an engine: what was logged, what it did to each part, how the readings
//! go, and what the shop's own replaced and surviving parts teach.
//!
//! Pure: no file, no clock. Values are SI; counts of passes, pulls and events are plain numbers.
#![forbid(unsafe_code)]

mod amount;
pub mod condition;
pub mod duty;
pub mod entry;
pub mod events;
pub mod failure;
pub mod history;
pub mod item;
pub mod learn;
pub mod lives;
pub mod log;
pub mod meter;
pub mod part;
pub mod services;
pub mod slip;
pub mod trend;
