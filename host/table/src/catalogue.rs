//! What a table can speak of: the host's facts, the rules of other packs, and which facts a table has asked for.

use std::collections::BTreeMap;
use thou_contract::{FactUse, Kind, Manifest};
use thou_text::nearest;

/// One fact of the host's catalogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableFact {
    /// Its name.
    pub id: String,
    /// Its kind of quantity, or `choice`, or `flag`.
    pub kind: String,
    /// What its values run over: one, cylinder, bank, main, rod, crankpin, valve, cam-journal.
    pub axis: String,
    /// For a choice: its words.
    pub choices: Vec<String>,
}

impl TableFact {
    /// Whether anybody may write what he likes there, as a part's number: the table's own words are its choices.
    pub(crate) fn is_open(&self) -> bool {
        self.kind == "choice" && self.choices.is_empty()
    }
}

/// What is known beside the table.
#[derive(Debug, Clone, Copy)]
pub struct KnownFacts<'a> {
    /// Every fact that there is.
    pub facts: &'a [TableFact],
    /// The packs that are loaded before the table: what it can stand in for.
    pub packs: &'a [&'a Manifest],
}

/// What the value of a fact is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum FactValue {
    Quantity(Kind),
    Choice,
    Flag,
}

/// The facts that a table asks for, in the order in which it does.
#[derive(Debug)]
pub(crate) struct AskedFacts<'a> {
    known: BTreeMap<&'a str, &'a TableFact>,
    uses: Vec<String>,
    index: BTreeMap<String, u32>,
    pub(crate) list: Vec<FactUse>,
}

impl<'a> AskedFacts<'a> {
    /// `uses` are those that the table adds, `own` the fields that it asks for.
    pub(crate) fn new(known: &KnownFacts<'a>, uses: Vec<String>, own: &'a [TableFact]) -> Self {
        let known = known.facts.iter().chain(own).map(|f| (f.id.as_str(), f)).collect();
        Self { known, uses, index: BTreeMap::new(), list: Vec::new() }
    }

    pub(crate) fn fact(&self, id: &str) -> Option<&'a TableFact> {
        self.known.get(id).copied()
    }

    pub(crate) fn near(&self, id: &str) -> Option<&'a str> {
        nearest(id, self.known.keys().copied())
    }

    pub(crate) fn value(fact: &TableFact) -> Option<FactValue> {
        match fact.kind.as_str() {
            "choice" => Some(FactValue::Choice),
            "flag" => Some(FactValue::Flag),
            kind => Kind::by_id(kind).map(FactValue::Quantity),
        }
    }

    /// The number of a fact in the manifest's list, which it joins.
    pub(crate) fn ask(&mut self, fact: &TableFact) -> u32 {
        if let Some(index) = self.index.get(&fact.id) {
            return *index;
        }
        let index = u32::try_from(self.list.len()).unwrap_or(u32::MAX);
        self.index.insert(fact.id.clone(), index);
        self.list.push(FactUse {
            id: fact.id.clone(),
            kind: fact.kind.clone(),
            axis: fact.axis.clone(),
            choices: self.words(fact),
        });
        index
    }

    /// The words of a choice; of the use, those that the table adds too.
    pub(crate) fn words(&self, fact: &TableFact) -> Vec<String> {
        let added = self.uses.iter().filter(|_| fact.id == "use");
        fact.choices.iter().chain(added).cloned().collect()
    }

    /// The number of a word of what anybody may write, which joins those that the pack knows.
    pub(crate) fn word(&mut self, fact: &TableFact, word: &str) -> u32 {
        let index = self.ask(fact) as usize;
        let Some(asked) = self.list.get_mut(index) else { return u32::MAX };
        let at = asked.choices.iter().position(|c| c == word).unwrap_or_else(|| {
            asked.choices.push(word.to_owned());
            asked.choices.len() - 1
        });
        u32::try_from(at).unwrap_or(u32::MAX)
    }

    /// Closes the list: a choice that no word is asked of has one all the same.
    pub(crate) fn take(&mut self) -> Vec<FactUse> {
        let mut list = std::mem::take(&mut self.list);
        for fact in list.iter_mut().filter(|f| f.kind == "choice" && f.choices.is_empty()) {
            fact.choices.push("any".to_owned());
        }
        list
    }

    pub(crate) fn axis(&self, fact: u32) -> &str {
        self.list.get(fact as usize).map_or("one", |f| f.axis.as_str())
    }

    pub(crate) fn id(&self, fact: u32) -> &str {
        self.list.get(fact as usize).map_or("", |f| f.id.as_str())
    }
}
