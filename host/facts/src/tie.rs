//! From entries to a catalogue: the reductions that come by themselves, names tied to facts, and a look for mistakes.

use super::builder::{Builder, Fact, Need};
use super::info::FactInfo;
use super::reduce::Reduce;
use super::typed::dimension;
use std::collections::{BTreeMap, HashSet};
use thou_contract::Kind;
use thou_sheet::Axis;

impl Builder {
    /// Adds the smallest, largest, spread and mean of every series, ties names to facts and looks for mistakes.
    pub(crate) fn finish(mut self) -> (Vec<Fact>, BTreeMap<&'static str, usize>, Vec<&'static str>, Vec<String>) {
        self.reductions();
        self.facts.sort_by_key(|f| f.info.id);
        let index: BTreeMap<&'static str, usize> = self.facts.iter().enumerate().map(|(i, f)| (f.info.id, i)).collect();
        if index.len() != self.facts.len() {
            let mut ids: Vec<&str> = self.facts.iter().map(|f| f.info.id).collect();
            ids.dedup();
            self.faults.push(format!("a name is used twice: {} names for {} facts", ids.len(), self.facts.len()));
        }
        let mut feeds: Vec<Vec<usize>> = vec![Vec::new(); self.facts.len()];
        for at in 0..self.facts.len() {
            self.tie(at, &index, &mut feeds);
        }
        for (fact, mut feeds) in self.facts.iter_mut().zip(feeds) {
            feeds.dedup();
            fact.feeds = feeds;
        }
        (self.facts, index, self.keys, self.faults)
    }

    fn reductions(&mut self) {
        let names: HashSet<&'static str> = self.facts.iter().map(|f| f.info.id).collect();
        let series: Vec<(FactInfo, Kind)> = self
            .facts
            .iter()
            .filter(|f| f.info.axis != Axis::One)
            .filter_map(|f| f.info.value.kind().map(|kind| (f.info.clone(), kind)))
            .collect();
        for (info, kind) in series {
            for (how, suffix, words) in Reduce::ALL {
                let id = forever(format!("{}{suffix}", info.id));
                if names.contains(id) {
                    continue;
                }
                // the spread of sizes reads in thou, like a clearance
                let kind = if how == Reduce::Spread && kind.id() == "length" { "clearance" } else { kind.id() };
                let about = forever(format!("{} Here {words}.", info.about));
                self.reduce(id, kind, how, info.id, about).edit(|fact| {
                    let new = &mut fact.info;
                    new.part = info.part;
                    new.measured = info.measured;
                    new.path = info.path;
                    new.fallback = info.fallback;
                    new.series = Some(info.id);
                });
            }
        }
    }

    fn tie(&mut self, at: usize, index: &BTreeMap<&'static str, usize>, feeds: &mut [Vec<usize>]) {
        let Some(fact) = self.facts.get(at) else { return };
        let (id, value) = (fact.info.id, fact.info.value);
        let mut tied: Vec<Vec<Need>> = Vec::new();
        let mut flat: Vec<&'static str> = Vec::new();
        for route in &fact.routes {
            let own = value.kind().map_or("choice", |k| dimension(k.id()));
            if !route.gives.is_empty() && route.gives != own {
                self.faults.push(format!("{id}: a formula for a {} gives a {}", value.id(), route.gives));
            }
            let mut needs = Vec::new();
            for (n, name) in route.names.iter().enumerate() {
                let both: Vec<String> = match name.strip_suffix("*") {
                    Some(stem) => vec![format!("{stem}inlet"), format!("{stem}exhaust")],
                    None => vec![(*name).to_owned()],
                };
                let found: Vec<usize> = both.iter().filter_map(|b| index.get(b.as_str()).copied()).collect();
                if found.len() != both.len() {
                    self.faults.push(format!("{id}: there is no fact '{name}'"));
                }
                for f in &found {
                    if let Some(need) = self.facts.get(*f) {
                        flat.push(need.info.id);
                        let is = need.info.value.kind().map_or("choice", |k| dimension(k.id()));
                        if let Some(wanted) = route.wants.get(n).filter(|w| w.dimension != is) {
                            self.faults
                                .push(format!("{id}: '{name}' is a {is}, the formula takes a {}", wanted.dimension));
                        }
                    }
                    if let Some(list) = feeds.get_mut(*f) {
                        list.push(at);
                    }
                }
                match (found.first(), found.get(1)) {
                    (Some(inlet), Some(exhaust)) => needs.push(Need::Side(*inlet, *exhaust)),
                    (Some(one), None) => needs.push(Need::Fact(*one)),
                    _ => {}
                }
            }
            tied.push(needs);
        }
        flat.sort_unstable();
        flat.dedup();
        if let Some(fact) = self.facts.get_mut(at) {
            fact.info.needs = flat;
            for (route, needs) in fact.routes.iter_mut().zip(tied) {
                route.needs = needs;
            }
        }
    }
}

/// The names of reductions are made once, with the catalogue, and live as long as it: the program's life.
fn forever(text: String) -> &'static str {
    Box::leak(text.into_boxed_str())
}
