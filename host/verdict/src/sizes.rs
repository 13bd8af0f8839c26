//! The sizes to go to for what missed its window, each found once.

use super::item::Solved;
use super::remedy::{WORKED_OUT, Wish, intersect, solve, within};
use super::window_item::WindowItem;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use thou_contract::Solve;
use thou_facts::{FactInfo, SheetFacts};
use thou_judge::{Limits, State};
use thou_sheet::Sheet;

/// The windows that count, by the fact they are on, and the sizes found so far.
pub(super) struct Sizes<'w> {
    on: BTreeMap<&'w str, Vec<&'w WindowItem>>,
    known: RefCell<BTreeMap<Key<'w>, Option<Size>>>,
    left: Cell<usize>,
    copies: Cell<usize>,
}

/// What is known of the size to go to.
#[derive(Clone)]
pub(super) enum Size {
    /// It brings the fact inside, and breaks nothing that holds.
    To(Solved),
    /// With every size of this part something else leaves its limits: its title.
    Breaks(String),
}

/// How many sizes are tried in a copy of the facts: each works out anew what hangs on the part, films and all. Past that
/// no size is printed.
const COPIES: usize = 200;

/// What is judged and where, what is changed and which way: all the windows there share one answer.
type Key<'w> = (&'w str, usize, &'w str, &'w str);

impl<'w> Sizes<'w> {
    pub(super) fn of(windows: &[&'w WindowItem]) -> Self {
        let mut on: BTreeMap<&str, Vec<&WindowItem>> = BTreeMap::new();
        for window in windows {
            on.entry(&window.fact).or_default().push(window);
        }
        Self { on, known: RefCell::default(), left: Cell::new(WORKED_OUT), copies: Cell::new(COPIES) }
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
    ) -> Option<Size> {
        let key: Key<'w> = (&window.fact, place, &change.fact, &change.may);
        if let Some(known) = self.known.borrow().get(&key) {
            return known.clone();
        }
        let solved = self.room(&window.fact, place).and_then(|limits| {
            let (judged, left) = (&window.fact, &self.left);
            let wish = Wish { judged, axis: info.axis, place, limits, change: &change.fact, may: &change.may, left };
            solve(sheet, facts, &wish)
        });
        let size = solved.and_then(|solved| {
            let at = solved.place.map_or(0, |(_, at)| at);
            let own = self.room(&change.fact, at).unwrap_or_default();
            let Some(solved) = within(solved, &own) else {
                let own = self.on.get(change.fact.as_str()).and_then(|windows| windows.first());
                return own.map(|w| Size::Breaks(w.title.to_lowercase()));
            };
            match self.broken(facts, &window.fact, &solved)? {
                Some(title) => Some(Size::Breaks(title)),
                None => Some(Size::To(solved)),
            }
        });
        self.known.borrow_mut().insert(key, size.clone());
        size
    }

    /// What is past a limit that holds, and was not, once the part has the size to go to: tried in a copy. None where it is
    /// not known.
    fn broken(&self, facts: &SheetFacts<'_>, judged: &str, solved: &Solved) -> Option<Option<String>> {
        self.copies.set(self.copies.get().checked_sub(1)?);
        let at = solved.place.map_or(0, |(_, at)| at);
        let copy = facts.values_with(&[(&solved.fact, at, wanted(solved)?)]);
        let others = self.on.iter().filter(|(fact, _)| **fact != judged);
        let breaks = |window: &WindowItem| {
            let (before, after) = (facts.cells(&window.fact), copy.cells(&window.fact));
            let here = |place: &usize| window.place.is_none_or(|p| p == *place);
            (0..before.len()).filter(here).any(|place| match (before.get(place), after.get(place)) {
                (Some(Ok(before)), Some(Ok(after))) if before.value.to_bits() != after.value.to_bits() => {
                    let no_go =
                        |value| thou_judge::judge(value, 0.0, &window.limits, window.levels).state == State::NoGo;
                    no_go(after.value) && !no_go(before.value)
                }
                _ => false,
            })
        };
        Some(others.flat_map(|(_, windows)| windows).find(|w| breaks(w)).map(|w| w.title.to_lowercase()))
    }

    /// What all the windows on this fact and place leave: the size to go to must suit them all.
    fn room(&self, fact: &str, place: usize) -> Option<Limits> {
        let here = self.on.get(fact)?.iter().filter(|w| w.place.is_none_or(|p| p == place));
        let limits: Vec<Limits> = here.map(|w| w.limits).collect();
        intersect(&limits)
    }
}

/// The size that a hand goes to: the aim, else the end that is nearest to what is there.
fn wanted(solved: &Solved) -> Option<f64> {
    let inside = |now: f64| now.max(solved.from.unwrap_or(now)).min(solved.to.unwrap_or(now));
    solved.aim.or(solved.now.map(inside)).or(solved.from).or(solved.to)
}
