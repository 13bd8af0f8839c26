//! The catalogue: every fact of an engine build, by subject.

mod as_read;
mod balance;
mod bearings_warm;
mod block;
mod bore_finish;
mod charge;
mod crank;
mod cylinder;
mod dates;
mod dyno;
mod film_warmth;
mod films;
mod fuel_and_air;
mod heads;
mod intent;
mod joints;
mod life;
mod loads;
mod main_films;
mod octane;
mod oil;
mod performance;
mod pistons;
mod port_flow;
mod rods;
mod service;
mod springs;
mod tightening;
mod valve_loads;
mod valve_motion;
mod valvetrain;
mod volumes;

use super::builder::{Builder, Fact};
use super::info::FactInfo;
use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock, PoisonError};
use thou_fields::PackField;
use thou_sheet::Sheet;

/// Every fact there is.
pub struct Catalogue {
    facts: Vec<Fact>,
    index: BTreeMap<&'static str, usize>,
    keys: Vec<&'static str>,
    faults: Vec<String>,
}

impl std::fmt::Debug for Catalogue {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Catalogue").field("facts", &self.facts.len()).finish_non_exhaustive()
    }
}

impl Catalogue {
    /// The one catalogue.
    #[must_use]
    pub fn standard() -> &'static Self {
        static STANDARD: OnceLock<Catalogue> = OnceLock::new();
        STANDARD.get_or_init(|| Self::of(every_fact()))
    }

    /// The one for a sheet: with the fields that its packs ask for as facts of their own. Kept as long as the program runs,
    /// once for the same fields.
    #[must_use]
    pub fn of_sheet(sheet: &Sheet) -> &'static Self {
        static KEPT: OnceLock<Mutex<BTreeMap<Vec<usize>, &'static Catalogue>>> = OnceLock::new();
        if sheet.pack_fields.is_empty() {
            return Self::standard();
        }
        // an entry is kept where it is as long as the program runs
        let key: Vec<usize> = sheet.pack_fields.values().map(|f| std::ptr::from_ref::<PackField>(f).addr()).collect();
        let mut kept = KEPT.get_or_init(Mutex::default).lock().unwrap_or_else(PoisonError::into_inner);
        kept.entry(key).or_insert_with(|| {
            let mut b = every_fact();
            sheet.pack_fields.values().for_each(|field| b.of_pack(field));
            Box::leak(Box::new(Self::of(b)))
        })
    }

    fn of(builder: Builder) -> Self {
        let (facts, index, keys, faults) = builder.finish();
        Self { facts, index, keys, faults }
    }

    /// What there is to know of a fact.
    #[must_use]
    pub fn info(&self, id: &str) -> Option<&FactInfo> {
        self.at(id).and_then(|i| self.fact(i)).map(|f| &f.info)
    }

    /// Every fact, by name.
    pub fn all(&self) -> impl Iterator<Item = &FactInfo> {
        self.facts.iter().map(|f| &f.info)
    }

    /// Mistakes of whoever wrote the catalogue; empty, as a test sees to.
    #[must_use]
    pub fn faults(&self) -> &[String] {
        &self.faults
    }

    pub(crate) fn at(&self, id: &str) -> Option<usize> {
        self.index.get(id).copied()
    }
    pub(crate) fn fact(&self, at: usize) -> Option<&Fact> {
        self.facts.get(at)
    }
    pub(crate) fn len(&self) -> usize {
        self.facts.len()
    }
    pub(crate) fn keys(&self) -> &[&'static str] {
        &self.keys
    }
}

/// Every fact that is no pack's.
fn every_fact() -> Builder {
    let mut b = Builder::default();
    intent::facts(&mut b);
    as_read::facts(&mut b);
    block::facts(&mut b);
    crank::facts(&mut b);
    rods::facts(&mut b);
    pistons::facts(&mut b);
    heads::facts(&mut b);
    valvetrain::facts(&mut b);
    springs::facts(&mut b);
    valve_motion::facts(&mut b);
    valve_loads::facts(&mut b);
    volumes::facts(&mut b);
    loads::facts(&mut b);
    joints::facts(&mut b);
    tightening::facts(&mut b);
    performance::facts(&mut b);
    charge::facts(&mut b);
    let cycles = cylinder::Cycles::new();
    cylinder::facts(&mut b, &cycles);
    octane::facts(&mut b, &cycles);
    fuel_and_air::facts(&mut b);
    port_flow::facts(&mut b);
    dyno::facts(&mut b);
    oil::facts(&mut b);
    bearings_warm::facts(&mut b);
    let orbits = films::Orbits::new(&cycles);
    films::facts(&mut b, &orbits);
    film_warmth::facts(&mut b, &orbits);
    main_films::facts(&mut b, &orbits);
    service::facts(&mut b);
    dates::facts(&mut b);
    balance::facts(&mut b);
    bore_finish::facts(&mut b);
    life::facts(&mut b);
    b
}
