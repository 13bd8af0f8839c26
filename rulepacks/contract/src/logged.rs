//! What an engine's log says of a part, as the part's service says it.

use serde::{Deserialize, Serialize};

/// The rungs of the ladder after an over-rev: up to these shares over the highest speed that the engine is meant to see.
/// Common practice, no source.
pub const OVER_REV_RUNGS: [f64; 3] = [0.03, 0.05, 0.08];

/// Water that has been over this has overheated the engine, K: 240 °F. Common practice, no source.
pub const OVERHEATED_WATER: f64 = (240.0 + 459.67) / 1.8;

/// A pass that was leaner than its mixture by more than this share was a lean pass. Common practice, no source.
pub const LEAN_BY: f64 = 0.05;

/// What an over-rev does to a part. A missed gear and the like count as the over-rev that they come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum OverRev {
    /// 5 to 8 % over the limiter: it counts to half of its life.
    Halves,
    /// More than 8 % over: it does not run again.
    Ends,
    /// Past the speed at which the rods' joints open: it does not run again.
    OpenedJointEnds,
}

impl OverRev {
    /// All of them, by the words of a manifest.
    pub const NAMED: [(&str, Self); 3] =
        [("halves", Self::Halves), ("ends", Self::Ends), ("opened-joint-ends", Self::OpenedJointEnds)];

    /// As a person reads it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Halves => "5 to 8 % over leaves half of its life",
            Self::Ends => "more than 8 % over ends it",
            Self::OpenedJointEnds => "a rod's joint that has opened ends it",
        }
    }
}

/// What a part that failed reaches: what is looked at before the engine runs again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Reach {
    /// How it failed, as a shop writes it: the beginnings of words that are looked for in what was written down, the first
    /// of them its name. None: however it failed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub by: Vec<String>,
    /// What to look at, a sentence.
    pub look: String,
}

impl Reach {
    /// Whether words that somebody wrote tell of this failure: one of theirs begins as one of ours.
    #[must_use]
    pub fn told(&self, words: &str) -> bool {
        let words = words.to_lowercase();
        let mut written = words.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
        written.any(|w| self.by.iter().any(|by| w.starts_with(by.as_str())))
    }
}

/// Every reading that a log keeps and a service can name, in the order of the alphabet. `thou-life` says what each is; a
/// pack knows nothing of that, so a test holds the two together.
pub const LOG_READINGS: [&str; 20] = [
    "blow-by",
    "cranking-pressure",
    "lambda",
    "lash",
    "leak-down",
    "main-clearance",
    "oil-aluminium",
    "oil-copper",
    "oil-fuel",
    "oil-iron",
    "oil-lead",
    "oil-pressure-hot",
    "oil-silicon",
    "oil-temperature",
    "peak-speed",
    "power",
    "rod-bolt-growth",
    "rod-clearance",
    "seat-load",
    "water-temperature",
];

/// The shape of a part's lives, where its service does not say it. Common practice, no source.
pub const USUAL_SHAPE: f64 = 3.0;

/// The least and the most that a service can say: 1 is chance at any age; past 20 all end at one age, which no part does;
/// from memory.
pub const SHAPES: [f64; 2] = [0.5, 20.0];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_failure_is_told_by_the_beginning_of_a_word() {
        let broke = Reach { by: vec!["broke".into(), "piece".into()], look: "The piston.".into() };
        assert!(broke.told("Inner BROKEN, 5E") && broke.told("6E in two pieces"));
        assert!(!broke.told("not outbroke by heat") && !broke.told("soft") && !broke.told(""));
    }

    #[test]
    fn every_word_of_an_over_rev_is_written_by_its_name() {
        for (name, asks) in OverRev::NAMED {
            assert_eq!(serde_json::to_value(asks).unwrap(), name);
        }
    }
}
