//! What is known of a rule that another pack's rule stands in for.

use super::item::{Item, ServiceItem};
use super::window_item::WindowItem;
use std::collections::BTreeMap;
use thou_judge::State;
use thou_sheet::model::{Axis, Looser};

/// A rule that others stand in for, on one fact: what it was, what it is now, and what it would have said.
#[derive(Debug, Clone)]
pub struct Replaced {
    /// `pack/rule`.
    pub rule: String,
    /// As a heading.
    pub title: String,
    /// The fact; none where a finding, a service, or a rule that could not say anything is replaced.
    pub fact: Option<String>,
    /// The rules that stand in for it, each with its pack's title.
    pub by: BTreeMap<String, String>,
    /// The windows that it gave, as they count for this sheet.
    pub was: Vec<WindowItem>,
    /// Those that stand in their place.
    pub now: Vec<WindowItem>,
    /// The lives that it gave, and those that stand in their place.
    pub lives: (Vec<ServiceItem>, Vec<ServiceItem>),
    /// What it would have said.
    pub said: Vec<Item>,
    /// Of a finding, the worst that is said in its stead.
    pub says: Option<State>,
    /// What becomes of what it holds.
    pub hold: Hold,
    /// Who in the shop answers for that.
    pub signed: Option<Looser>,
}

/// What becomes of a hold where another rule stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hold {
    /// Nothing that holds is looser.
    Kept,
    /// It holds later.
    Loosened,
    /// It holds no more.
    Dropped,
}

impl Hold {
    /// As the page and a program read it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Kept => "kept",
            Self::Loosened => "loosened",
            Self::Dropped => "dropped",
        }
    }
}

impl Replaced {
    /// Whether the old rule counts beside the new one, since nobody has signed for its hold.
    #[must_use]
    pub fn counts_beside(&self) -> bool {
        self.hold != Hold::Kept && self.signed.is_none()
    }

    /// The worst that it would have said at each place, in the order of the places.
    #[must_use]
    pub fn would_say(&self) -> Vec<(Option<(Axis, usize)>, State)> {
        let mut places: Vec<(Option<(Axis, usize)>, State)> = Vec::new();
        for item in &self.said {
            match places.iter_mut().find(|(place, _)| *place == item.place) {
                Some((_, state)) => *state = item.state.min(*state),
                None => places.push((item.place, item.state)),
            }
        }
        places
    }

    /// Whether it would have said anything but a go, and nobody answers for that.
    #[must_use]
    pub fn would_not_be_a_go(&self) -> bool {
        let quiet = |s| matches!(s, State::Go | State::Note | State::DoesNotApply);
        self.signed.is_none() && self.said.iter().any(|i| i.accepted.is_none() && !quiet(i.state))
    }
}
