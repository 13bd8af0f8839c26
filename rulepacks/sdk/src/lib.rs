//! Write a rule pack for `thou` in Rust.
//!
//! A pack is a table of [`facts!`], a file a rule, listed by [`rules!`], and one [`pack!`]. A rule is a constant [`Rule`]
//! with its words, which [`texts!`], [`reasons!`] and [`judges!`] name, and one function from [`Facts`] to an [`Answer`];
//! values are SI, and [`units`] turns the trade's numbers into them.
//! The same rule runs natively in a test ([`cases`]) and as a component in the host's sandbox.
#![deny(unsafe_code)]

mod answer;
// beside the sources of a component, since no component has it
#[cfg(not(target_family = "wasm"))]
#[path = "../native/cases.rs"]
pub mod cases;
mod facts;
mod manifest;
mod names;
mod rule;
pub mod units;

#[cfg(target_family = "wasm")]
#[allow(unsafe_code, missing_docs, clippy::all, clippy::restriction)]
pub mod guest;

pub use answer::{Answer, Outcome};
pub use facts::{Fact, Facts};
pub use rule::{
    Arg, CROSSED, Duty, Fallback, Input, LogInfo, Pack, Reach, Remedy, Rule, ServiceInfo, StepInfo, Text, Use, Wears,
};
pub use thou_contract::answer::{Finding, JudgedNumber, Raw, ReasonNumber, Service, TextNumber, Window};
pub use thou_contract::logged::{OVER_REV_RUNGS, OverRev};
pub use thou_contract::slopes::{self, Slope};
pub use thou_contract::wear::{Cause, Stress};
pub use thou_contract::{Basis, Level, RuleKind};

/// Everything that a rule's file needs.
pub mod prelude {
    pub use crate::units::*;
    pub use crate::{
        Answer, Arg, Basis, Basis::*, Cause, Duty, Fact, Facts, Finding, JudgedNumber, Level, Level::*, LogInfo,
        Outcome, Outcome::*, OverRev, Pack, Reach, ReasonNumber, Remedy, Rule, RuleKind, Service, ServiceInfo, Slope,
        StepInfo, Stress, Text, TextNumber, Wears, Window, judges, reasons, slopes, texts,
    };
}

/// Declares the facts that a pack asks for: one constant each, and the table `FACTS` of all.
///
/// ```
/// thou_sdk::facts! {
///     /// What the engine is for.
///     USE: choice one "use" ["street", "bracket", "all-out"];
///     /// The bore's size before the last cut.
///     BORE: length one "bore.nominal";
/// }
/// assert_eq!(FACTS.len(), 2);
/// ```
#[macro_export]
macro_rules! facts {
    ($($(#[$doc:meta])* $name:ident : $kind:tt $axis:tt $id:literal $([$($choice:literal),* $(,)?])? ;)*) => {
        #[allow(non_camel_case_types, clippy::upper_case_acronyms)]
        #[repr(usize)]
        enum FactIndex { $($name),* }
        $($(#[$doc])* pub const $name: $crate::Fact = $crate::Fact {
            index: FactIndex::$name as usize,
            id: $id,
            kind: $crate::facts!(@word $kind),
            axis: $crate::facts!(@word $axis),
            choices: &[$($($choice),*)?],
        };)*
        /// Every fact of this pack, in the order of the contract.
        pub static FACTS: &[$crate::Fact] = &[$($name),*];
    };
    (@word $word:literal) => { $word };
    (@word $word:ident) => { stringify!($word) };
}

/// Makes a crate a rule pack: exports the contract when it is built for WebAssembly.
#[macro_export]
macro_rules! pack {
    ($pack:expr) => {
        /// This pack.
        pub static PACK: &$crate::Pack = &$pack;

        #[cfg(target_family = "wasm")]
        #[allow(unsafe_code, clippy::all, clippy::restriction)]
        const _: () = {
            struct Guest;
            impl $crate::guest::exports::thou::rules::pack::Guest for Guest {
                fn describe() -> String {
                    PACK.manifest_json()
                }
                fn assess(
                    ask: Vec<u32>,
                    facts: $crate::guest::exports::thou::rules::pack::Facts,
                ) -> Result<$crate::guest::exports::thou::rules::pack::Answer, String> {
                    $crate::guest::assess(PACK, &ask, &facts)
                }
            }
    $crate::guest::export_pack!(Guest with_types_in $crate::guest);
        };
    };
}
