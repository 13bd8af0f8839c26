//! What people write, as it is read: JSON with the place of every value and its faults in the trade's words, text that
//! hides nothing, and the word that was meant. For sheets and for house tables; no file, no clock.
#![forbid(unsafe_code)]

pub mod clean;
mod csv;
mod digits;
mod hex;
pub mod json;
mod name;
pub mod names;
mod near;

pub use csv::{StrayQuote, cell_column, cell_text, safe_cell, stray_quote};
pub use digits::thousands;
pub use hex::hex;
pub use name::same_name;
pub use near::{list, nearest, nearest_few};
