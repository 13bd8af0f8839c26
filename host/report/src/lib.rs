//! From a verdict to something to read: text for the bench, JSON for programs.

mod bench;
mod blanks;
pub mod card;
pub mod case;
mod cautions;
pub mod check;
mod fact_windows;
mod go;
pub mod ics;
pub mod ics_said;
mod ics_text;
pub mod json;
mod like;
mod open;
pub mod plan;
pub mod plan_all;
pub mod plan_csv;
mod plan_detail;
mod plan_json;
mod plan_log;
pub mod plan_money;
pub mod plan_next;
mod plan_orders;
mod plan_say;
mod plan_stops;
mod plan_words;
pub mod replaced;
mod sets;
mod sizes;
pub mod spec;
mod table;
mod template;
mod words;

/// What a place of an axis is called.
pub use bench::noun as axis_noun;

pub use bench::{Bench, Like, Paint, at_width};
pub use plan_log::kept_words;
pub use words::{DEFERS, DEFERS_SHORT, NamedPack, what_if};
