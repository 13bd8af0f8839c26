//! What a pack answered: as it came over the border, and after every number in it was checked.

pub use thou_contract::answer::{CheckedAnswer, Finding, OutcomeState, Raw, RuleOutcome, Said, Service, Step, Window};
