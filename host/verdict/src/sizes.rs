//! The sizes to go to for what missed its window, each found once.

use super::item::Solved;
use super::remedy::{WORKED_OUT, Wish, intersect, solve};
use super::window_item::WindowItem;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use thou_contract::Solve;
use thou_facts::{FactInfo, SheetFacts};
use thou_judge::Limits;
use thou_sheet::Sheet;

/// The windows that count, by the fact they are on, and the sizes found so far.
pub(super) struct Sizes<'w> {
    on: BTreeMap<&'w str, Vec<&'w WindowItem>>,
    known: RefCell<BTreeMap<Key<'w>, Option<Solved>>>,
    left: Cell<usize>,
}

/// What is judged and where, what is changed and which way: all the windows there share one answer.
type Key<'w> = (&'w str, usize, &'w str, &'w str);

impl<'w> Sizes<'w> {
    pub(super) fn of(windows: &[&'w WindowItem]) -> Self {
        let mut on: BTreeMap<&str, Vec<&WindowItem>> = BTreeMap::new();
        for window in windows {
            on.entry(&window.fact).or_default().push(window);
        }
        Self { on, known: RefCell::default(), left: Cell::new(WORKED_OUT) }
    }

    /// The size that brings this window's fact inside all the windows on it at this place.
    pub(super) fn to(
        &self,
        sheet: &Sheet,
        facts: &SheetFacts<'_>,
        info: &FactInfo,
        window: &'w WindowItem,
        place: usize,
        change: &'w Solve,
    ) -> Option<Solved> {
        let key: Key<'w> = (&window.fact, place, &change.fact, &change.may);
        if let Some(known) = self.known.borrow().get(&key) {
            return known.clone();
        }
        let solved = self.room(&window.fact, place).and_then(|limits| {
            let (judged, left) = (&window.fact, &self.left);
            let wish = Wish { judged, axis: info.axis, place, limits, change: &change.fact, may: &change.may, left };
            solve(sheet, facts, &wish)
        });
        self.known.borrow_mut().insert(key, solved.clone());
        solved
    }

    /// What all the windows on this fact and place leave: the size to go to must suit them all.
    fn room(&self, fact: &str, place: usize) -> Option<Limits> {
        let here = self.on.get(fact)?.iter().filter(|w| w.place.is_none_or(|p| p == place));
        let limits: Vec<Limits> = here.map(|w| w.limits).collect();
        intersect(&limits)
    }
}
