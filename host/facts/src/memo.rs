//! Answers of a model that costs much, kept by the figures that it was asked with.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Answers by the bits of the figures that they follow from, all of them: an answer is the same whether it was kept or
/// is worked out again. Each belongs to the formulas of one model, and so to the catalogue: it outlives a sheet, and
/// sheets that have the same figures have the same answers.
pub(crate) struct Memo<const N: usize, T> {
    most: usize,
    kept: Mutex<BTreeMap<[u64; N], T>>,
}

impl<const N: usize, T: Clone> Memo<N, T> {
    /// One that keeps so many answers at most; when it is full it begins anew.
    pub(crate) fn of(most: usize) -> Self {
        Self { most, kept: Mutex::new(BTreeMap::new()) }
    }

    /// The answer to these figures, worked out unless it is kept.
    pub(crate) fn get(&self, figures: [u64; N], work: impl FnOnce() -> T) -> T {
        let lock = || self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(kept) = lock().get(&figures).cloned() {
            return kept;
        }
        // the lock is free meanwhile: work may ask for other answers of the same model
        let answer = work();
        let mut kept = lock();
        if kept.len() >= self.most {
            kept.clear();
        }
        kept.insert(figures, answer.clone());
        answer
    }
}

#[cfg(test)]
mod tests {
    use super::Memo;

    #[test]
    fn an_answer_is_worked_out_once_until_there_are_too_many() {
        let memo = Memo::of(2);
        let mut worked = 0;
        let mut ask = |figure: u64| {
            memo.get([figure], || {
                worked += 1;
                figure * figure
            })
        };
        assert_eq!([ask(3), ask(3), ask(4), ask(3)], [9, 9, 16, 9]);
        // the third empties it
        assert_eq!([ask(5), ask(5), ask(3)], [25, 25, 9]);
        assert_eq!(worked, 4);
    }

    #[test]
    fn work_may_ask_for_another_answer() {
        let memo = Memo::of(8);
        assert_eq!(memo.get([2], || 1 + memo.get([1], || 10)), 11);
    }
}
