//! A rule pack as the judge sees it: words, and answers. Where its code runs is somebody else's business.

use thou_contract::Manifest;
use thou_contract::answer::CheckedAnswer;

/// What a pack is given of one build.
#[derive(Clone, Copy)]
pub struct Given<'a> {
    /// Fact i of the manifest is `values[starts[i]..starts[i + 1]]`, so one more entry than there are facts.
    pub starts: &'a [u32],
    /// SI, one value a place; NaN where it is not read yet.
    pub values: &'a [f64],
    /// How many places a fact has, by its name: the length of its axis, read or not. None for a name not known.
    pub places: &'a dyn Fn(&str) -> Option<u32>,
}

/// A pack that could not be loaded, or whose answer was lost. Every other pack's answer stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LostAnswer {
    /// The pack's name, or its file's while the name is not known.
    pub pack: String,
    /// Where it was loaded from.
    pub origin: String,
    /// What happened, what its user can do and what its author can do, as lines of a page.
    pub words: String,
}

impl std::fmt::Display for LostAnswer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.words)
    }
}

/// What gives windows, findings, services and steps.
pub trait RulePack {
    /// Its words and needs, checked.
    fn manifest(&self) -> &Manifest;

    /// Whether it comes with this program; what came from elsewhere bears its pack's title on every line.
    fn built_in(&self) -> bool;

    /// Asks these rules (indices of the manifest's `rules`, rising).
    ///
    /// # Errors
    /// When its answer is lost, all of it.
    fn answer(&self, ask: &[u32], given: &Given<'_>) -> Result<CheckedAnswer, LostAnswer>;
}
