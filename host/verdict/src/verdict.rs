//! All that came of one build.

use super::item::{Item, ServiceItem, StepItem};
use super::replaced::Replaced;
use super::rule_pack::LostAnswer;
use super::unjudged::Unjudged;
use super::window_item::WindowItem;
use std::collections::BTreeMap;
use thou_judge::State;

/// Everything that is to be said of one build.
#[derive(Debug, Default)]
pub struct Verdict {
    /// What was judged, sorted by operation, then by weight, then by place.
    pub items: Vec<Item>,
    /// The windows, as every pack gave them, after supersession.
    pub windows: Vec<WindowItem>,
    /// Services of the packs.
    pub services: Vec<ServiceItem>,
    /// Steps of the packs.
    pub steps: Vec<StepItem>,
    /// Packs whose answer was lost.
    pub lost: Vec<LostAnswer>,
    /// What the sheet has and nothing judges.
    pub unjudged: Unjudged,
    /// Rules that another pack's stand in for.
    pub replaced: Vec<Replaced>,
    /// Values that were taken as defaults.
    pub taken: Vec<TakenValue>,
}

/// A value that the sheet did not have and that was taken all the same.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct TakenValue {
    /// What was taken.
    pub what: String,
    /// The value, with its unit.
    pub value: String,
    /// Whose number it is.
    pub source: String,
}

/// How many items are in each state.
#[derive(Debug, Clone, Default)]
pub struct Counts(BTreeMap<State, usize>);

impl Counts {
    /// How many are in this one.
    #[must_use]
    pub fn of(&self, state: State) -> usize {
        self.0.get(&state).copied().unwrap_or(0)
    }
}

impl Verdict {
    /// How many are in each state, accepted ones apart. A reading that several windows of one rule are on counts once, as
    /// the worst that they say of it.
    #[must_use]
    pub fn counts(&self) -> Counts {
        let live = self.items.iter().filter(|i| i.accepted.is_none());
        let (on_windows, others): (Vec<&Item>, Vec<&Item>) = live.partition(|i| i.limits.is_some());
        let mut worst: BTreeMap<_, State> = BTreeMap::new();
        for item in on_windows {
            let state = worst.entry((&item.rule, &item.fact, item.place)).or_insert(item.state);
            *state = item.state.min(*state);
        }
        let mut counts = Counts::default();
        for state in worst.into_values().chain(others.into_iter().map(|i| i.state)) {
            *counts.0.entry(state).or_insert(0) += 1;
        }
        counts
    }

    /// How many are in one state, counted in the same way.
    #[must_use]
    pub fn count(&self, state: State) -> usize {
        self.counts().of(state)
    }

    /// What the program exits with: 3 a pack failed; 1 a no-go; 4 a hold is open or unproven, or readings
    /// contradict one another; else 0. `strict` makes 1
    /// of everything that is not a go, also by a rule that another pack's stands in for where nobody signed for that.
    #[must_use]
    pub fn exit_code(&self, strict: bool) -> u8 {
        let live = || self.items.iter().filter(|i| i.accepted.is_none());
        let open = |i: &Item| matches!(i.state, State::Open | State::Unproven | State::Stale | State::CannotSay);
        let leaves_open = |i: &Item| open(i) && i.at_stake == thou_contract::Level::Hold || i.unsettled;
        if !self.lost.is_empty() {
            3
        } else if live().any(|i| i.state == State::NoGo)
            || strict && live().any(|i| open(i) || i.state == State::Look)
            || strict && self.replaced.iter().any(Replaced::would_not_be_a_go)
        {
            1
        } else if live().any(leaves_open) {
            4
        } else {
            0
        }
    }
}
