//! Facts: named, typed quantities in SI, read from the sheet or derived from it by published mechanics, each with the
//! uncertainty that its gauges give it and with everything it hangs on.

mod builder;
mod catalogue;
mod engine;
#[cfg(test)]
mod fields_tests;
mod figure;
mod gauges;
mod info;
mod inputs;
mod lobe;
mod lookup;
mod memo;
mod reduce;
mod roots;
mod spread;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
mod tie;
mod typed;
mod value;
pub mod warmth;

pub use catalogue::Catalogue;
pub use engine::{DefaultTaken, EarlierSet, SheetFacts};
pub use figure::Figure;
pub use info::{FactInfo, ValueKind};
pub use value::{Bound, Grade, Missing, Num, PlaceValue, Root, RootId, Roots, Share};
