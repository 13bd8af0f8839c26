//! What the host has to say of one thing: plain data, still in SI and without a word rendered.

use std::collections::BTreeMap;
use thou_contract::wear::Wears;
use thou_contract::{Basis, Level};
use thou_judge::{Limits, Miss, State};
use thou_sheet::model::{Accepted, Axis};

/// A value with its expanded uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ItemValue {
    /// SI.
    pub value: f64,
    /// Standard uncertainty (k = 1).
    pub u: f64,
    /// Whether every reading behind it was read, and no figure of it is a card's or a default.
    pub measured: bool,
}

/// The sizes that would bring a fact inside its window.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The fact to change.
    pub fact: String,
    /// Where, on the axis of that fact.
    pub place: Option<(Axis, usize)>,
    /// What it is now, if it was read.
    pub now: Option<f64>,
    /// From, inclusive; none where there is no lower end.
    pub from: Option<f64>,
    /// To, inclusive; none where there is no upper end.
    pub to: Option<f64>,
    /// Best, where the window has an aim.
    pub aim: Option<f64>,
    /// Whether it takes metal off.
    pub cuts_metal: bool,
    /// Whether what it is now was read more than once.
    pub read_twice: bool,
}

/// Why a reading no longer counts.
#[derive(Debug, Clone, PartialEq)]
pub struct Stale {
    /// What was done to the metal.
    pub did: String,
    /// The day of it.
    pub when: jiff::civil::Date,
    /// The day of the reading.
    pub read: jiff::civil::Date,
    /// What the reading should be now, where that is plain geometry; SI.
    pub now_about: Option<f64>,
}

/// What to do about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// The template.
    pub words: String,
    /// The size to go to.
    pub solved: Option<Solved>,
}

/// An argument of an answer.
#[derive(Debug, Clone, PartialEq)]
pub enum ArgValue {
    /// A number of a kind.
    Quantity(String, f64),
    /// A word.
    Word(String),
}

/// Something to say.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// `pack/rule`.
    pub rule: String,
    /// As a heading.
    pub title: String,
    /// The page it belongs on.
    pub operation: String,
    /// What became of it.
    pub state: State,
    /// The loudest that it could have been: what an open reading leaves undecided.
    pub at_stake: Level,
    /// The fact that was judged.
    pub fact: Option<String>,
    /// Where.
    pub place: Option<(Axis, usize)>,
    /// What it is.
    pub value: Option<ItemValue>,
    /// What it should be.
    pub limits: Option<Limits>,
    /// Whose working limits these are.
    pub whose: String,
    /// Whose the never-limits are.
    pub hold_whose: String,
    /// What they rest on.
    pub basis: Option<Basis>,
    /// How far outside, SI, and on which side.
    pub miss: Option<(Miss, f64)>,
    /// Whether it is nearer to an edge of the working window than the gauge can tell.
    pub near_edge: bool,
    /// The window's or the finding's words, a template.
    pub words: String,
    /// The arguments of the templates.
    pub args: BTreeMap<String, ArgValue>,
    /// What to do.
    pub advice: Option<Advice>,
    /// Why it matters.
    pub why: String,
    /// What the sheet has not got: paths, each once.
    pub wants: Vec<String>,
    /// What made the reading stale.
    pub stale: Option<Stale>,
    /// Where the sheet has it.
    pub pointer: Option<String>,
    /// Where the sheet has the card's figures whose limits crossed.
    pub crossed: Vec<String>,
    /// Who answers for it.
    pub accepted: Option<Accepted>,
    /// Whether it can be accepted at all: a limit of physics cannot.
    pub can_be_accepted: bool,
    /// Whether what was read may not be what it says: nothing that hangs on it is proven until that is settled.
    pub unsettled: bool,
    /// Whether it waits until a reading that it or its limits are made of is settled.
    pub waits: bool,
}

impl Item {
    pub(crate) fn new(rule: &str, title: &str, operation: &str, state: State) -> Self {
        Self {
            rule: rule.to_owned(),
            title: title.to_owned(),
            operation: operation.to_owned(),
            state,
            at_stake: Level::Warn,
            fact: None,
            place: None,
            value: None,
            limits: None,
            whose: String::new(),
            hold_whose: String::new(),
            basis: None,
            miss: None,
            near_edge: false,
            words: String::new(),
            args: BTreeMap::new(),
            advice: None,
            why: String::new(),
            wants: Vec::new(),
            stale: None,
            pointer: None,
            crossed: Vec::new(),
            accepted: None,
            can_be_accepted: true,
            unsettled: false,
            waits: false,
        }
    }
    /// Whether it says stop: a no-go that nobody answers for.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.state == State::NoGo && self.accepted.is_none()
    }
}

/// Do this after so much use.
#[derive(Debug, Clone, PartialEq)]
pub struct ServiceItem {
    /// `pack/rule`.
    pub rule: String,
    /// As a heading.
    pub title: String,
    /// Where.
    pub place: Option<(Axis, usize)>,
    /// passes, miles, months, hours or events.
    pub meter: String,
    /// SI or a count.
    pub low: f64,
    /// SI or a count.
    pub nominal: f64,
    /// SI or a count.
    pub high: f64,
    /// What drives it, a template.
    pub words: String,
    /// Its arguments.
    pub args: BTreeMap<String, ArgValue>,
    /// Why it matters.
    pub why: String,
    /// What is done, and what comes apart.
    pub service: thou_contract::ServiceInfo,
    /// What hurts the part, as the text that the rule answered with has it; nothing where an outing counts as one.
    pub wears: Option<Wears>,
    /// What it rests on.
    pub basis: Basis,
    /// Whose number.
    pub source: String,
}

/// Do this, in this order.
#[derive(Debug, Clone, PartialEq)]
pub struct StepItem {
    /// `pack/rule`.
    pub rule: String,
    /// As a heading.
    pub title: String,
    /// The page it belongs on.
    pub operation: String,
    /// Where.
    pub place: Option<(Axis, usize)>,
    /// A template.
    pub words: String,
    /// Its arguments.
    pub args: BTreeMap<String, ArgValue>,
    /// Steps before it.
    pub after: Vec<String>,
    /// Its caution.
    pub caution: Option<String>,
}
