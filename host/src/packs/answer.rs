//! What a pack answered: as it came over the border, and after every number in it was checked.

pub use thou_contract::answer::{Answer, Finding, Outcome, Service, State, Step, Window};

/// An answer as it came over the border, of whatever version of the contract, with nothing checked: each item beside
/// the place in `numbers` where its arguments start.
#[derive(Debug, Default)]
pub(crate) struct Raw {
    pub(crate) outcomes: Vec<Outcome>,
    pub(crate) windows: Vec<(Window, u32)>,
    pub(crate) findings: Vec<(Finding, u32)>,
    pub(crate) services: Vec<(Service, u32)>,
    pub(crate) steps: Vec<(Step, u32)>,
    pub(crate) numbers: Vec<f64>,
}
