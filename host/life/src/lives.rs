//! The shop's own lives of a part, group beside group: what share is still good at which age, and whether the groups
//! differ.

use crate::history::PartRun;
use std::collections::BTreeMap;
pub use thou_mechanics::survival::{ENOUGH, LogRank, Step};
use thou_mechanics::survival::{Group, kaplan_meier, log_rank, median};

/// Parts of one maker, or of one engine: their lives on one meter, SI or a count.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LifeGroup {
    /// Whose they are.
    pub name: String,
    /// At failure.
    pub failed: Vec<f64>,
    /// So far, or when they were taken out sound.
    pub sound: Vec<f64>,
}

impl LifeGroup {
    fn lives(&self) -> Group<'_> {
        Group { failed: &self.failed, sound: &self.sound }
    }

    /// The share that is good past each age at which one failed.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        kaplan_meier(self.lives())
    }

    /// The age that half of them do not reach, where so many failed.
    #[must_use]
    pub fn half(&self) -> Option<f64> {
        median(&self.steps())
    }
}

/// Lives by group.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lives {
    /// By name.
    pub groups: Vec<LifeGroup>,
    /// Numbers of parts that belong to no one group.
    pub nobodys: Vec<String>,
    /// Numbers of parts that ran nothing on this meter.
    pub not_run: Vec<String>,
}

impl Lives {
    /// Sorts parts into groups by their name for it; those without one are told apart.
    #[must_use]
    pub fn of(parts: &[PartRun], meter: &str, group: impl Fn(&PartRun) -> Option<String>) -> Self {
        let mut groups: BTreeMap<String, LifeGroup> = BTreeMap::new();
        let mut out = Self::default();
        for part in parts {
            let run = part.run().get(meter).copied().filter(|run| *run > 0.0);
            let (Some(run), Some(name)) = (run, group(part)) else {
                let list = if run.is_none() { &mut out.not_run } else { &mut out.nobodys };
                list.push(part.serial.clone());
                continue;
            };
            let own = groups.entry(name.clone()).or_insert_with(|| LifeGroup { name, ..LifeGroup::default() });
            if part.failed() { own.failed.push(run) } else { own.sound.push(run) }
        }
        out.groups = groups.into_values().collect();
        out
    }

    /// Whether the groups differ; none where nothing can be compared.
    #[must_use]
    pub fn test(&self) -> Option<LogRank> {
        log_rank(&self.groups.iter().map(LifeGroup::lives).collect::<Vec<_>>())
    }
}
