//! What a pack answered: as it came over the border, and after every number in it was checked.

pub use thou_contract::answer::{Answer, Finding, Outcome, Raw, Said, Service, State, Step, Window};
