//! The facts that this pack asks for.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
}
