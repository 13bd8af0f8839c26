//! The facts of one sheet: lazy, each computed once.

use super::builder::{Fact, Route, RouteKind};
use super::catalogue::Catalogue;
use super::info::ValueKind;
use super::roots::{RootTable, begun};
use super::spread::nearest;
use super::value::{Grade, Missing, Num, PlaceValue, Root, RootId, Roots};
use jiff::civil::Date;
use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};
use thou_sheet::{Axis, Sheet};

mod routes;

/// The facts of one sheet.
#[derive(Debug)]
pub struct SheetFacts<'a> {
    cat: &'a Catalogue,
    sheet: &'a Sheet,
    table: Arc<RootTable<'a>>,
    memo: Vec<OnceLock<Vec<PlaceValue>>>,
    fork: Option<Fork<'a>>,
}

/// What a fork differs in from the facts it was made of.
#[derive(Debug)]
struct Fork<'a> {
    from: &'a SheetFacts<'a>,
    /// Fact, place, value.
    changes: Vec<(usize, usize, f64)>,
    /// Facts that hang on a change; all others are those of `from`.
    moved: Vec<bool>,
    sure: Certainty,
}

/// What a fork says of how sure its values are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Certainty {
    /// A change is as sure as what it replaces.
    AsBefore,
    /// A change counts as read with a gauge that is beyond doubt.
    Exact,
    /// Nothing: what follows from a change is a value alone.
    Unsaid,
}

/// An earlier set of readings of a fact.
#[derive(Debug, Clone, PartialEq)]
pub struct EarlierSet {
    /// The day.
    pub when: Option<Date>,
    /// The stage.
    pub stage: Option<String>,
    /// JSON pointer of the set.
    pub pointer: String,
    /// One value a place.
    pub cells: Vec<PlaceValue>,
}

/// A usual figure that was taken because the sheet has none.
#[derive(Debug, Clone, PartialEq)]
pub struct DefaultTaken {
    /// The fact.
    pub fact: &'static str,
    /// What its values are.
    pub value: ValueKind,
    /// The figure taken, SI: the middle of the range.
    pub taken: f64,
    /// The range that is usual, SI.
    pub low: f64,
    /// The range that is usual, SI.
    pub high: f64,
    /// Whose figure it is.
    pub source: &'static str,
}

type Lack = BTreeSet<Missing>;

impl<'a> SheetFacts<'a> {
    /// The facts of a sheet. Nothing is computed yet.
    #[must_use]
    pub fn new(cat: &'a Catalogue, sheet: &'a Sheet) -> Self {
        let table = Arc::new(RootTable::new(cat, sheet));
        Self { cat, sheet, table, memo: blank(cat), fork: None }
    }

    /// The catalogue these facts are of.
    #[must_use]
    pub fn catalogue(&self) -> &'a Catalogue {
        self.cat
    }

    /// A fact, one value a place in the order of its axis; none for a name that is not in the catalogue.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<&[PlaceValue]> {
        self.cat.at(id).map(|i| self.cells_at(i))
    }

    /// A fact on the axis of one, or the first place of a series.
    #[must_use]
    pub fn one(&self, id: &str) -> Option<&Num> {
        self.get(id).and_then(|cells| cells.first()).and_then(|c| c.as_ref().ok())
    }

    /// The word of a choice as the sheet has it, also where it is not one of the catalogue's.
    #[must_use]
    pub fn choice(&self, id: &str) -> Option<&'a str> {
        let fact = self.cat.at(id).and_then(|i| self.cat.fact(i))?;
        fact.routes.iter().find_map(|r| match r.kind {
            RouteKind::Word(path, default) => self.sheet.stated(path).and_then(|(v, _)| v.as_str()).or(default),
            _ => None,
        })
    }

    /// A flag: none where the sheet does not say.
    #[must_use]
    pub fn flag(&self, id: &str) -> Option<bool> {
        self.one(id).map(|n| n.value > 0.5)
    }

    /// What follows for a fact from other facts, whatever was read directly: the other side of a contradiction. Empty
    /// where the fact is only read or stated.
    #[must_use]
    pub fn derived(&self, id: &str) -> Vec<PlaceValue> {
        self.derivations(
            id,
            |at, fact, routes| if routes.is_empty() { Vec::new() } else { self.along(at, fact, routes) },
        )
    }

    /// The same along each way there is, the best first.
    #[must_use]
    pub fn ways(&self, id: &str) -> Vec<Vec<PlaceValue>> {
        self.derivations(id, |at, fact, routes| routes.iter().map(|route| self.along(at, fact, &[*route])).collect())
    }

    fn derivations<T>(&self, id: &str, of: impl FnOnce(usize, &Fact, &[&Route]) -> Vec<T>) -> Vec<T> {
        let Some((at, fact)) = self.cat.at(id).and_then(|i| self.cat.fact(i).map(|f| (i, f))) else {
            return Vec::new();
        };
        let follows =
            |r: &&Route| matches!(r.kind, RouteKind::Derived(_) | RouteKind::FromLobe(_) | RouteKind::FromLayout(_));
        let routes: Vec<&Route> = fact.routes.iter().filter(follows).collect();
        of(at, fact, &routes)
    }

    /// Earlier sets of readings of a fact, oldest first, without the one that counts.
    #[must_use]
    pub fn earlier(&self, id: &str) -> Vec<EarlierSet> {
        let Some(fact) = self.cat.at(id).and_then(|i| self.cat.fact(i)) else { return Vec::new() };
        let Some((key, pick)) = fact.reading() else { return Vec::new() };
        let sets = self.table.sets(key);
        let earlier = sets.split_last().map_or(&[][..], |(_, earlier)| earlier);
        let axis = fact.info.axis;
        let of = |used: &super::roots::SetUse<'_>| EarlierSet {
            when: used.set.when,
            stage: used.set.stage.clone(),
            pointer: used.set.pointer.clone(),
            cells: (0..self.sheet.places.count(axis))
                .map(|p| self.table.read_in(used, pick, p, self.label(axis, p)))
                .collect(),
        };
        earlier.iter().map(of).collect()
    }

    /// These facts with some values replaced (fact, place, SI value); what hangs on them is computed anew, everything
    /// else is shared. A replaced value keeps the uncertainty of the one it replaces: it will be read with the same
    /// gauge. Names that are not in the catalogue are passed over.
    #[must_use]
    pub fn fork(&'a self, changes: &[(&str, usize, f64)]) -> SheetFacts<'a> {
        self.forked(changes, Certainty::AsBefore)
    }

    /// The same where only values are asked for: what follows from the changes says nothing of how sure it is, which
    /// costs a tenth. For roots.
    #[must_use]
    pub fn values_with(&'a self, changes: &[(&str, usize, f64)]) -> SheetFacts<'a> {
        self.forked(changes, Certainty::Unsaid)
    }

    /// The same, as if each value had been read with a gauge that is beyond doubt: for a pack's cases.
    #[must_use]
    pub fn read_as(&'a self, changes: &[(&str, usize, f64)]) -> SheetFacts<'a> {
        self.forked(changes, Certainty::Exact)
    }

    fn forked(&'a self, changes: &[(&str, usize, f64)], sure: Certainty) -> SheetFacts<'a> {
        let changes: Vec<(usize, usize, f64)> =
            changes.iter().filter_map(|(id, place, value)| self.cat.at(id).map(|i| (i, *place, *value))).collect();
        let mut moved = vec![false; self.cat.len()];
        let mut open: Vec<usize> = changes.iter().map(|c| c.0).collect();
        while let Some(at) = open.pop() {
            match moved.get_mut(at) {
                Some(seen) if !*seen => *seen = true,
                _ => continue,
            }
            if let Some(fact) = self.cat.fact(at) {
                open.extend(&fact.feeds);
            }
        }
        SheetFacts {
            cat: self.cat,
            sheet: self.sheet,
            table: Arc::clone(&self.table),
            memo: blank(self.cat),
            fork: Some(Fork { from: self, changes, moved, sure }),
        }
    }

    /// What is known of a root.
    #[must_use]
    pub fn root(&self, root: RootId) -> &Root {
        self.table.root(root)
    }

    /// Usual figures that something computed so far was made with, by fact.
    #[must_use]
    pub fn defaults_taken(&self) -> Vec<DefaultTaken> {
        (0..self.cat.len()).filter_map(|i| self.taken(i)).collect()
    }

    fn taken(&self, at: usize) -> Option<DefaultTaken> {
        let fact = self.cat.fact(at)?;
        let route = fact.routes.iter().find(|r| matches!(r.kind, RouteKind::DefaultEstimate(_)))?;
        let RouteKind::DefaultEstimate(usual) = &route.kind else { return None };
        let cells = self.memo.get(at).and_then(OnceLock::get);
        let from = || self.fork.as_ref().and_then(|f| f.from.memo.get(at)).and_then(OnceLock::get);
        let root = self.table.default(at);
        let number = cells.or_else(from)?.iter().flatten().find(|n| n.roots.get(root).is_some())?;
        let (low, high) = (usual.of)(&self.words(route).ok()?)?;
        Some(DefaultTaken {
            fact: fact.info.id,
            value: fact.info.value,
            taken: number.value,
            low,
            high,
            source: usual.source,
        })
    }

    fn label(&self, axis: Axis, place: usize) -> &str {
        self.sheet.places.labels(axis).get(place).map_or("", String::as_str)
    }

    fn cells_at(&self, at: usize) -> &[PlaceValue] {
        if let Some(fork) = &self.fork
            && !fork.moved.get(at).copied().unwrap_or(false)
        {
            return fork.from.cells_at(at);
        }
        self.memo.get(at).map_or(&[], |cell| cell.get_or_init(|| self.compute(at)))
    }

    fn compute(&self, at: usize) -> Vec<PlaceValue> {
        let Some(fact) = self.cat.fact(at) else { return Vec::new() };
        let Some(fork) = self.fork.as_ref().filter(|f| f.changes.iter().any(|c| c.0 == at)) else {
            return self.along(at, fact, &fact.routes.iter().collect::<Vec<_>>());
        };
        let mut cells = fork.from.cells_at(at).to_vec();
        for (_, place, value) in fork.changes.iter().filter(|c| c.0 == at) {
            if let Some(cell) = cells.get_mut(*place) {
                let roots = match (fork.sure, cell.as_ref()) {
                    (Certainty::Exact, _) => Roots::one(self.table.stated(at), 0.0, Grade::Measured),
                    (_, Ok(number)) => number.roots.clone(),
                    (_, Err(_)) => Roots::default(),
                };
                *cell = Ok(Num { value: *value, roots });
            }
        }
        cells
    }

    /// Every place by the first of these routes that brings it.
    fn along(&self, at: usize, fact: &Fact, routes: &[&Route]) -> Vec<PlaceValue> {
        let count = self.sheet.places.count(fact.info.axis);
        let mut found: Vec<Option<Num>> = vec![None; count];
        let mut lacks: Vec<Vec<Lack>> = vec![Vec::new(); count];
        let read = fact.reading().is_some_and(|(key, _)| self.table.sets(key).iter().any(|used| begun(used.set)));
        for route in routes {
            // once a shop has begun to read it, a nominal figure does not stand in for a hole
            if found.iter().all(Option::is_some)
                || (read && matches!(route.kind, RouteKind::Stated(_) | RouteKind::DefaultEstimate(_)))
            {
                continue;
            }
            let series = self.inputs(route);
            for (place, (slot, lack)) in found.iter_mut().zip(&mut lacks).enumerate() {
                if slot.is_none() {
                    match self.by_route(at, fact, route, &series, place) {
                        Ok(number) => *slot = Some(number),
                        Err(missing) => lack.push(missing),
                    }
                }
            }
        }
        found.into_iter().zip(lacks).map(|(slot, lack)| slot.ok_or_else(|| nearest(lack))).collect()
    }
}

fn blank(cat: &Catalogue) -> Vec<OnceLock<Vec<PlaceValue>>> {
    std::iter::repeat_with(OnceLock::new).take(cat.len()).collect()
}
