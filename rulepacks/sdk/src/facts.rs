//! What a rule is given.

/// A fact that the pack asks for; made by [`crate::facts!`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fact {
    /// Its place in the pack's table.
    pub index: usize,
    /// Its name in the host's catalogue.
    pub id: &'static str,
    /// Its kind of quantity, or `choice`, or `flag`.
    pub kind: &'static str,
    /// What its values run over.
    pub axis: &'static str,
    /// The words of a choice.
    pub choices: &'static [&'static str],
}

/// The facts of one build, in SI.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    starts: &'a [u32],
    values: &'a [f64],
}

impl<'a> Facts<'a> {
    /// Facts as the contract hands them over.
    #[must_use]
    pub fn new(starts: &'a [u32], values: &'a [f64]) -> Self {
        Self { starts, values }
    }

    /// Every place of a fact, NaN where it is not read yet; nothing where the sheet has no such fact.
    #[must_use]
    pub fn all(&self, fact: Fact) -> &'a [f64] {
        let at = |i: usize| self.starts.get(i).map(|s| *s as usize);
        match (at(fact.index), at(fact.index + 1)) {
            (Some(from), Some(to)) => self.values.get(from..to).unwrap_or_default(),
            _ => &[],
        }
    }

    /// The value of a fact that has one place, or the first that is there.
    #[must_use]
    pub fn get(&self, fact: Fact) -> Option<f64> {
        self.all(fact).iter().copied().find(|v| !v.is_nan())
    }

    /// The value of a fact that the rule has among its `needs`, which the host does not ask without.
    /// NaN if it is missing all the same, so that every limit made of it is refused by the host.
    #[must_use]
    pub fn of(&self, fact: Fact) -> f64 {
        self.get(fact).unwrap_or(f64::NAN)
    }

    /// The places of a fact that have a value.
    pub fn each(&self, fact: Fact) -> impl Iterator<Item = (u32, f64)> + use<'a> {
        (0u32..).zip(self.all(fact).iter().copied()).filter(|(_, v)| !v.is_nan())
    }

    /// The word of a choice, if the sheet has one that this pack knows.
    #[must_use]
    pub fn choice(&self, fact: Fact) -> Option<&'static str> {
        let value = self.get(fact)?;
        fact.choices.iter().enumerate().find(|(i, _)| (*i as f64 - value).abs() < 0.5).map(|(_, word)| *word)
    }

    /// Whether a choice is one of these words.
    #[must_use]
    pub fn is(&self, fact: Fact, words: &[&str]) -> bool {
        self.choice(fact).is_some_and(|word| words.contains(&word))
    }

    /// A flag: none where the sheet does not say.
    #[must_use]
    pub fn flag(&self, fact: Fact) -> Option<bool> {
        self.get(fact).map(|v| v > 0.5)
    }
}
