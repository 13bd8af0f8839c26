//! The faults of a manifest, as far as they are listed.

use crate::clean::clip;
use crate::fault::PackFaultKind;

/// More faults than this are not listed.
const MOST: usize = 8;
/// A fault's words are cut after this many characters.
pub(crate) const LONGEST: usize = 300;
/// What is wrong, as far as it is listed: a manifest of megabytes can be wrong a million times.
#[derive(Default)]
pub(super) struct ManifestFaults {
    listed: Vec<String>,
    count: usize,
}

impl ManifestFaults {
    /// Adds one; its words are made only where they are listed.
    pub(super) fn add(&mut self, words: impl FnOnce() -> String) {
        self.count += 1;
        if self.listed.len() < MOST {
            self.listed.push(clip(&words(), LONGEST));
        }
    }

    pub(super) fn none_or(mut self) -> Result<(), PackFaultKind> {
        if self.count == 0 {
            return Ok(());
        }
        if self.count > self.listed.len() {
            self.listed.push(format!("and {} more", self.count - self.listed.len()));
        }
        Err(PackFaultKind::BadManifest(self.listed))
    }
}
