//! What a pack answered: as it came over the border, and after every number in it was checked.

pub use thou_contract::answer::{Answer, Finding, Outcome, Service, State, Step, Window};

/// An answer as it came over the border, of whatever version of the contract, with nothing checked: each item beside
/// the place in `numbers` where its arguments start.
#[derive(Debug, Default)]
pub struct Raw {
    /// One for each rule asked, if all is well.
    pub outcomes: Vec<Outcome>,
    /// Windows.
    pub windows: Vec<(Window, u32)>,
    /// Findings.
    pub findings: Vec<(Finding, u32)>,
    /// Services.
    pub services: Vec<(Service, u32)>,
    /// Steps.
    pub steps: Vec<(Step, u32)>,
    /// The arguments of all of them.
    pub numbers: Vec<f64>,
}
