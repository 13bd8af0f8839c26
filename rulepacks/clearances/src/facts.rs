//! The facts that this pack asks for, in one table: the order is the contract's.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
    /// The bore as the block's drawing has it.
    BORE: length one "bore.nominal";
    /// What the pistons are made of.
    PISTON_ALLOY: choice one "piston.alloy" ["cast", "hypereutectic", "4032", "2618"];
    /// What the block is made of.
    BLOCK: choice one "block.material" ["grey-iron", "compacted-iron", "aluminium-sleeved", "aluminium-plated"];
    /// What adds to its own breathing.
    ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
    /// The piston card's least fit.
    CARD_FIT_LOW: clearance one "piston.card.fit-low";
    /// The piston card's greatest fit.
    CARD_FIT_HIGH: clearance one "piston.card.fit-high";
}
