//! What every value hangs on in the end: stated fields, defaults, the masters of gauges and single readings.

use super::builder::RouteKind;
use super::catalogue::Catalogue;
use super::gauges::GaugeUse;
use super::lobe;
use super::reduce::Pick;
use super::value::{Grade, Missing, Num, PlaceValue, Root, RootId, Roots};
use super::warmth;
use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};
use thou_mechanics::valve_motion::LiftPoint;
use thou_sheet::Side;
use thou_sheet::model::{Axis, Reading, ReadingSet, Sheet};

/// One set of readings with what its gauge and its temperature do to it.
#[derive(Debug)]
pub(crate) struct SetUse<'a> {
    pub(crate) set: &'a ReadingSet,
    gauge: GaugeUse,
    master: Option<(RootId, f64)>,
    /// Brings a size to 20 °C.
    factor: f64,
    /// The root of the first reading of each row.
    starts: Vec<u32>,
}

/// Every root of a sheet. Ids in their order: stated fields, defaults, masters, readings.
#[derive(Debug)]
pub(crate) struct RootTable<'a> {
    cat: &'a Catalogue,
    sheet: &'a Sheet,
    masters: Vec<String>,
    /// By key of the catalogue; the set that counts stands last.
    keys: Vec<Vec<SetUse<'a>>>,
    /// The root of the first reading of each set, with its key and its place among that key's sets.
    firsts: Vec<(u32, usize, usize)>,
    known: Vec<OnceLock<Box<Root>>>,
    /// Inlet and exhaust.
    lobes: [OnceLock<Result<Arc<[LiftPoint]>, Missing>>; 2],
}

static NOBODY: Root = Root {
    pointer: String::new(),
    what: String::new(),
    gauge: None,
    assumed_gauge: false,
    when: None,
    stage: None,
    plate: None,
    reading: None,
};

fn id(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

impl<'a> RootTable<'a> {
    pub(crate) fn new(cat: &'a Catalogue, sheet: &'a Sheet) -> Self {
        let gauges: Vec<Vec<(&ReadingSet, GaugeUse)>> = cat.keys().iter().map(|key| in_order(sheet, key)).collect();
        let masters: BTreeSet<&String> =
            gauges.iter().flatten().filter_map(|(_, g)| g.master.as_ref().map(|m| &m.0)).collect();
        let masters: Vec<String> = masters.into_iter().cloned().collect();
        let mut next = id(2 * cat.len() + masters.len());
        let mut keys = Vec::with_capacity(gauges.len());
        let mut firsts = Vec::new();
        for (key, sets) in cat.keys().iter().zip(gauges) {
            let mut uses = Vec::with_capacity(sets.len());
            for (set, gauge) in sets {
                firsts.push((next, keys.len(), uses.len()));
                let mut starts = Vec::with_capacity(set.rows.len());
                for row in &set.rows {
                    starts.push(next);
                    next = next.saturating_add(id(row.len()));
                }
                let master = gauge.master.as_ref().and_then(|(name, bias)| {
                    masters.binary_search(name).ok().map(|at| (RootId(id(2 * cat.len() + at)), *bias))
                });
                uses.push(SetUse {
                    set,
                    gauge,
                    master,
                    factor: warmth::to_standard(sheet, key, set.temperature),
                    starts,
                });
            }
            keys.push(uses);
        }
        let known = std::iter::repeat_with(OnceLock::new).take(next as usize).collect();
        Self { cat, sheet, masters, keys, firsts, known, lobes: Default::default() }
    }

    pub(crate) fn stated(&self, fact: usize) -> RootId {
        RootId(id(fact))
    }
    pub(crate) fn default(&self, fact: usize) -> RootId {
        RootId(id(self.cat.len() + fact))
    }
    pub(crate) fn sets(&self, key: usize) -> &[SetUse<'a>] {
        self.keys.get(key).map_or(&[], Vec::as_slice)
    }

    /// The lobe of a side as the sheet's table has it, smoothed once.
    pub(crate) fn lobe(&self, side: Option<Side>) -> Result<Arc<[LiftPoint]>, BTreeSet<Missing>> {
        let [inlet, exhaust] = &self.lobes;
        let (once, path) = match side {
            Some(Side::Inlet) => (inlet, "cam.inlet.lift-table"),
            Some(Side::Exhaust) => (exhaust, "cam.exhaust.lift-table"),
            None => return Err(BTreeSet::new()),
        };
        once.get_or_init(|| lobe::read(self.sheet, path)).clone().map_err(|m| BTreeSet::from([m]))
    }

    /// What the set that counts has at one place.
    pub(crate) fn read(&self, key: usize, pick: Pick, place: usize, label: &str) -> PlaceValue {
        match self.sets(key).last() {
            Some(used) => self.read_in(used, pick, place, label),
            None => {
                let name = self.cat.keys().get(key).copied().unwrap_or("");
                let asked = self.sheet.pack_fields.contains_key(name);
                let path = if asked { name.to_owned() } else { format!("readings.{name}") };
                Err(BTreeSet::from([Missing::Field(path)]))
            }
        }
    }

    /// What one set has at one place. A hole in any point that the figure hangs on leaves it open: the smallest of five
    /// points says nothing of the sixth.
    pub(crate) fn read_in(&self, used: &SetUse<'_>, pick: Pick, place: usize, label: &str) -> PlaceValue {
        let set = used.set;
        let here = || {
            let at = if label.is_empty() {
                "value".to_owned()
            } else {
                format!("at/{}", label.replace('~', "~0").replace('/', "~1"))
            };
            BTreeSet::from([Missing::NotRead(format!("{}/{at}", set.pointer))])
        };
        let (Some(row), Some(start)) = (set.rows.get(place), used.starts.get(place)) else { return Err(here()) };
        if row.is_empty() {
            return Err(here());
        }
        let wanted = wanted(pick, &set.points, row);
        let mut holes = BTreeSet::new();
        let (mut points, mut read) = (Vec::with_capacity(row.len()), Vec::with_capacity(row.len()));
        for (n, reading) in row.iter().enumerate() {
            let name = set.points.get(n).map_or("", String::as_str);
            if !wanted(name) {
                continue;
            }
            match reading.value.filter(|v| v.is_finite()) {
                Some(value) => {
                    points.push(name.to_owned());
                    read.push(used.num(RootId(start.saturating_add(id(n))), value * used.factor));
                }
                None => {
                    holes.insert(Missing::NotRead(reading.pointer.clone()));
                }
            }
        }
        if !holes.is_empty() {
            return Err(holes);
        }
        pick.apply(&points, &read).ok_or_else(here)
    }

    /// What is known of a root.
    pub(crate) fn root(&self, root: RootId) -> &Root {
        self.known.get(root.0 as usize).map_or(&NOBODY, |cell| cell.get_or_init(|| Box::new(self.describe(root))))
    }

    fn describe(&self, root: RootId) -> Root {
        let facts = id(self.cat.len());
        if root.0 < facts {
            return self.describe_stated(root.0 as usize);
        }
        if root.0 < 2 * facts {
            let what = self.cat.fact((root.0 - facts) as usize).map_or("", |f| f.info.id);
            return Root { what: format!("{what}, a usual figure"), ..NOBODY.clone() };
        }
        if let Some(name) = self.masters.get((root.0 - 2 * facts) as usize) {
            let pointer = self.sheet.gauges.get(name).map(|g| g.pointer.clone()).unwrap_or_default();
            return Root { pointer, what: format!("set on {name}"), ..NOBODY.clone() };
        }
        self.describe_reading(root.0)
    }

    fn describe_stated(&self, at: usize) -> Root {
        let Some(fact) = self.cat.fact(at) else { return NOBODY.clone() };
        let pointer = fact.routes.iter().find_map(|r| match &r.kind {
            RouteKind::Stated(path)
            | RouteKind::Word(path, _)
            | RouteKind::Dated(_, path)
            | RouteKind::FromList(_, path, _) => self.sheet.stated(path).map(|(_, pointer)| pointer),
            _ => None,
        });
        Root { pointer: pointer.unwrap_or_default(), what: fact.info.id.to_owned(), ..NOBODY.clone() }
    }

    fn describe_reading(&self, root: u32) -> Root {
        self.reading_of(root).unwrap_or_else(|| NOBODY.clone())
    }

    fn reading_of(&self, root: u32) -> Option<Root> {
        // sets without a reading share the root that comes next: the last of those that begin here has it
        let nth = self.firsts.partition_point(|(first, ..)| *first <= root).checked_sub(1)?;
        let (_, at, nth) = self.firsts.get(nth)?;
        let (key, used) = (self.cat.keys().get(*at)?, self.keys.get(*at)?.get(*nth)?);
        let row = used.starts.partition_point(|start| *start <= root).checked_sub(1)?;
        let point = root.checked_sub(*used.starts.get(row)?)? as usize;
        let reading = used.set.rows.get(row)?.get(point)?;
        let axis = self.sheet.reading_field(key).map_or(Axis::One, |field| field.axis);
        let label = self.sheet.places.labels(axis).get(row).map_or("", String::as_str);
        let name = used.set.points.get(point).map_or("", String::as_str);
        let what: Vec<&str> = [*key, label, name].into_iter().filter(|t| !t.is_empty()).collect();
        Some(Root {
            pointer: reading.pointer.clone(),
            what: what.join(", "),
            gauge: Some(used.gauge.name.clone()),
            assumed_gauge: used.gauge.assumed,
            when: used.set.when,
            stage: used.set.stage.clone(),
            plate: used.set.plate,
            reading: Some((*key).to_owned()),
        })
    }
}

impl SetUse<'_> {
    fn num(&self, root: RootId, value: f64) -> Num {
        let mut roots = Roots::default();
        if let Some((master, bias)) = self.master {
            roots = Roots::one(master, bias, Grade::Measured);
        }
        roots.add(&Roots::one(root, self.gauge.own(value), Grade::Measured), 1.0);
        Num::of(value, roots)
    }
}

/// Whether anything was read in this set: one that is still to fill in hides neither an earlier one nor what is stated.
pub(crate) fn begun(set: &ReadingSet) -> bool {
    set.rows.iter().flatten().any(|reading| reading.value.is_some())
}

/// The sets of a key, oldest first; one without a day stands before those with one, then the order of the sheet.
fn in_order<'a>(sheet: &'a Sheet, key: &str) -> Vec<(&'a ReadingSet, GaugeUse)> {
    let mut sets: Vec<&ReadingSet> = sheet.readings.get(key).into_iter().flatten().collect();
    if sets.iter().any(|set| begun(set)) {
        sets.retain(|set| begun(set));
    }
    sets.sort_by_key(|s| s.when);
    sets.into_iter().map(|set| (set, GaugeUse::of(sheet, key, set))).collect()
}

/// Which of the points of a row a figure hangs on.
fn wanted(pick: Pick, points: &[String], row: &[Reading]) -> impl Fn(&str) -> bool {
    let word = match pick {
        Pick::SmallestOf(word) => Some(word),
        Pick::MeanOf(word) if points.iter().take(row.len()).any(|p| p.contains(word)) => Some(word),
        _ => None,
    };
    move |name: &str| word.is_none_or(|w| name.contains(w))
}
