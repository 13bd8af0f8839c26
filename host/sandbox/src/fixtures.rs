//! A pack's fixtures, asked in the sandbox: in whatever language it was written, and as its users will run it.

use super::{Answer, Cost, Given, Limits, Pack};
use std::path::{Path, PathBuf};
use thou_contract::Kind;
use thou_contract::fixtures::{Asked, Fixture};
use thou_facts::Catalogue;

/// A fact that a fixture gives or reads once may stand for any place.
const ANY_PLACE: u32 = 32;

/// Asks a pack in the sandbox, and counts what its dearest answer costs.
pub struct Boxed<'a> {
    /// The pack.
    pub pack: &'a Pack,
    /// The most of each that any answer took.
    pub cost: Cost,
}

impl<'a> Boxed<'a> {
    /// Nothing asked yet.
    #[must_use]
    pub fn new(pack: &'a Pack) -> Self {
        Self { pack, cost: Cost::default() }
    }
}

impl Asked for Boxed<'_> {
    fn ask(&mut self, fixture: &Fixture) -> Result<Answer, String> {
        let places = |fact: &str| Some(places(self.pack, fixture, fact));
        let given = Given { starts: &fixture.facts.starts, values: &fixture.facts.values, places: &places };
        let (answer, cost) =
            self.pack.assess_counted(&[fixture.rule], &given, &Limits::default()).map_err(|fault| {
                // its user is its author here
                format!("{}; {}", fault.fault, fault.fault.author())
            })?;
        self.cost = Cost {
            fuel: self.cost.fuel.max(cost.fuel),
            memory: self.cost.memory.max(cost.memory),
            items: self.cost.items.max(cost.items),
        };
        Ok(answer)
    }

    fn kind(&self, fact: &str) -> Option<Kind> {
        Catalogue::standard().info(fact)?.value.kind()
    }
}

/// As many places as the fixture gives or reads of a fact.
fn places(pack: &Pack, fixture: &Fixture, fact: &str) -> u32 {
    let given = pack.manifest.facts.iter().position(|f| f.id == fact).map_or(0, |at| fixture.facts.of(at).len());
    let read = fixture.value.get("reading").and_then(|r| r.get(fact)).and_then(|r| r.as_array()).map_or(0, Vec::len);
    match u32::try_from(given.max(read)).unwrap_or(u32::MAX) {
        0 | 1 => ANY_PLACE,
        many => many,
    }
}

/// The folder of fixtures that belongs to a pack: the one in its folder, or beside its file.
#[must_use]
pub fn folder(pack: &Path) -> PathBuf {
    if pack.is_dir() {
        return pack.join("fixtures");
    }
    pack.parent().unwrap_or(Path::new("")).join("fixtures")
}
