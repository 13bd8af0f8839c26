//! Short ways to ask the facts.

use super::{FactInfo, Num, PlaceValue, Root, SheetFacts};

impl SheetFacts<'_> {
    /// What the catalogue says of a fact.
    #[must_use]
    pub fn info(&self, id: &str) -> Option<&FactInfo> {
        self.catalogue().info(id)
    }

    /// Every place of a fact; nothing for a name that is not in the catalogue.
    pub fn cells(&self, id: &str) -> &[PlaceValue] {
        self.get(id).unwrap_or_default()
    }

    /// What a value hangs on.
    pub fn roots(&self, num: &Num) -> impl Iterator<Item = &Root> {
        num.roots.keys().map(|id| self.root(id))
    }

    /// Where the sheet holds a fact, as a JSON pointer.
    #[must_use]
    pub fn where_stated(&self, id: &str) -> Option<String> {
        let path = self.info(id)?.path?;
        Some(format!("/{}", path.replace('.', "/")))
    }
}
