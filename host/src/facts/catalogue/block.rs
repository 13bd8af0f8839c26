//! The block, its bores and its deck.

use crate::facts::builder::Builder;
use crate::facts::reduce::Pick::{OutOfRound, Smallest, SmallestOf, Taper};
use crate::sheet::Axis::{Bank, Cylinder};

pub(super) fn facts(b: &mut Builder) {
    b.stated("deck-height", "length", "block.deck-height", "From the crank's centre line to the deck.");
    b.read("bore.diameter", "length", Cylinder, "readings.bore", Smallest, "The bore at its smallest, at 20 °C.")
        .part("block");
    let _ = (OutOfRound, SmallestOf(""), Taper, Bank);
}
