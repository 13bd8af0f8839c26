//! How the catalogue is written down: one entry a fact, with every way there is to come by it, best first.

use super::info::{FactInfo, ValueKind};
use super::reduce::{Pick, Reduce};
use super::typed::{Erased, Formula, InputSpec, Unavailable, dimension};
use super::value::Grade;
use std::sync::Arc;
use thou_contract::Kind;
use thou_fields::{FieldValue, PackField};
use thou_mechanics::valve_motion::LiftPoint;
use thou_sheet::{Axis, Sheet};

/// Where the sheet has its lobes.
const LOBES: [&str; 2] = ["cam.inlet.lift-table", "cam.exhaust.lift-table"];

/// What a derivation is fed with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    /// This fact.
    Fact(usize),
    /// At an inlet valve the first, at an exhaust valve the second: written `cam.lobe-lift.*`.
    Side(usize, usize),
}

/// A usual figure that is taken where nobody says.
pub(crate) struct DefaultEstimate {
    /// Low and high, SI, by the words of the choices it hangs on; none where there is no usual figure.
    pub(crate) of: fn(&[&str]) -> Option<(f64, f64)>,
    /// Whose figure it is.
    pub(crate) source: &'static str,
}

/// One way to come by a fact.
pub(crate) enum RouteKind {
    /// The sheet says so, at this dotted path.
    Stated(&'static str),
    /// A word of the sheet, at this dotted path, and the word where it has none.
    Word(&'static str, Option<&'static str>),
    /// The key's readings.
    Read(usize, Pick),
    /// From other facts.
    Derived(Erased),
    /// From other facts and the table of the valve's lobe, given its points.
    FromLobe(OnLobe),
    /// From other facts and how the sheet lays the engine out.
    FromLayout(OnSheet),
    /// From the places of a series.
    Reduced(Reduce),
    /// A usual figure.
    DefaultEstimate(DefaultEstimate),
    /// Whether a valve lets the charge in: the sheet's places say so.
    Inlet,
    /// What a list of the sheet comes to with its standard uncertainty, or why not; at this dotted path.
    FromList(fn(&Sheet) -> Result<(f64, f64), Unavailable>, &'static str, Grade),
    /// What the sheet's dates or words say; else the field that would bring it.
    Dated(fn(&Sheet) -> Option<f64>, &'static str),
}

/// A formula once the lobe's points are there.
pub(crate) type OnLobe = Box<dyn Fn(Arc<[LiftPoint]>) -> Erased + Send + Sync>;

/// A formula once the engine's layout is there, or why it is not.
pub(crate) type OnSheet = Box<dyn Fn(&Sheet) -> Result<Erased, Unavailable> + Send + Sync>;

/// A kind of route with what it is fed with.
pub(crate) struct Route {
    pub(crate) kind: RouteKind,
    pub(crate) names: Vec<&'static str>,
    pub(crate) needs: Vec<Need>,
    pub(crate) wants: Vec<InputSpec>,
    pub(crate) gives: &'static str,
}

/// One fact.
pub(crate) struct Fact {
    pub(crate) info: FactInfo,
    pub(crate) routes: Vec<Route>,
    /// The least and the most that its formula can say: a value there is a bound.
    pub(crate) ends: Option<[f64; 2]>,
    /// Facts that hang on this one, directly.
    pub(crate) feeds: Vec<usize>,
}

impl Fact {
    /// Its readings: the key's index and the figure of them.
    pub(crate) fn reading(&self) -> Option<(usize, Pick)> {
        self.routes.iter().find_map(|r| match r.kind {
            RouteKind::Read(key, pick) => Some((key, pick)),
            _ => None,
        })
    }
}

/// The facts while they are written down.
#[derive(Default)]
pub(crate) struct Builder {
    pub(crate) facts: Vec<Fact>,
    pub(crate) keys: Vec<&'static str>,
    pub(crate) faults: Vec<String>,
}

/// The fact that was written down last.
pub(crate) struct NewFact<'a>(&'a mut Builder);

impl Builder {
    fn add(&mut self, id: &'static str, value: ValueKind, axis: Axis, about: &'static str) -> NewFact<'_> {
        self.facts.push(Fact {
            info: FactInfo {
                id,
                value,
                axis,
                about,
                source: "",
                needs: Vec::new(),
                part: None,
                measured: false,
                path: None,
                fallback: None,
                fields: Vec::new(),
                series: None,
            },
            routes: Vec::new(),
            ends: None,
            feeds: Vec::new(),
        });
        NewFact(self)
    }

    fn quantity(&mut self, id: &'static str, kind: &'static str, axis: Axis, about: &'static str) -> NewFact<'_> {
        let found = Kind::by_id(kind);
        if found.is_none() {
            self.faults.push(format!("{id}: there is no kind '{kind}'"));
        }
        let value = found.map_or(ValueKind::Flag, ValueKind::Quantity);
        self.add(id, value, axis, about)
    }

    /// A figure that the sheet states at a path.
    pub(crate) fn stated(
        &mut self,
        id: &'static str,
        kind: &'static str,
        path: &'static str,
        about: &'static str,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).or_stated(path)
    }

    /// A word of the sheet.
    pub(crate) fn choice(
        &mut self,
        id: &'static str,
        path: &'static str,
        words: &'static [&'static str],
        about: &'static str,
    ) -> NewFact<'_> {
        let default = path.ends_with(".state").then_some("new");
        self.add(id, ValueKind::Choice(words), Axis::One, about)
            .route(RouteKind::Word(path, default), "the sheet")
            .at(path)
    }

    /// Yes or no on the sheet.
    pub(crate) fn flag(&mut self, id: &'static str, path: &'static str, about: &'static str) -> NewFact<'_> {
        self.add(id, ValueKind::Flag, Axis::One, about).route(RouteKind::Stated(path), "the sheet").at(path)
    }

    /// Whether a valve is an inlet.
    pub(crate) fn inlet(&mut self, id: &'static str, about: &'static str) -> NewFact<'_> {
        self.add(id, ValueKind::Flag, Axis::Valve, about).route(RouteKind::Inlet, "the valves' names on the sheet")
    }

    /// A span of time between dates of the sheet, s; else the field that would bring it.
    pub(crate) fn dated(
        &mut self,
        id: &'static str,
        field: &'static str,
        about: &'static str,
        of: fn(&Sheet) -> Option<f64>,
    ) -> NewFact<'_> {
        self.quantity(id, "span", Axis::One, about).route(RouteKind::Dated(of, field), "dates on the sheet").at(field)
    }

    /// A size that a word of the sheet at this dotted path says.
    pub(crate) fn worked(
        &mut self,
        id: &'static str,
        kind: &'static str,
        field: &'static str,
        about: &'static str,
        of: fn(&Sheet) -> Option<f64>,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).or_worked(field, of).at(field)
    }

    /// What a list of the sheet comes to, with its standard uncertainty, SI; else why not.
    pub(crate) fn listed(
        &mut self,
        id: &'static str,
        kind: &'static str,
        path: &'static str,
        about: &'static str,
        source: &'static str,
        of: fn(&Sheet) -> Result<(f64, f64), Unavailable>,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).route(RouteKind::FromList(of, path, Grade::Stated), source).at(path)
    }

    /// As [`Self::listed`], of a file that a gauge wrote: as good as a reading.
    pub(crate) fn recorded(
        &mut self,
        id: &'static str,
        kind: &'static str,
        path: &'static str,
        about: &'static str,
        source: &'static str,
        of: fn(&Sheet) -> Result<(f64, f64), Unavailable>,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).route(RouteKind::FromList(of, path, Grade::Measured), source).at(path)
    }

    /// What a gauge brings: the readings of this key.
    pub(crate) fn read(
        &mut self,
        id: &'static str,
        kind: &'static str,
        axis: Axis,
        path: &'static str,
        pick: Pick,
        about: &'static str,
    ) -> NewFact<'_> {
        self.quantity(id, kind, axis, about).readings(path, pick)
    }

    /// A field that a pack asks for.
    pub(crate) fn of_pack(&mut self, field: &'static PackField) {
        let (path, entry) = (field.path(), &field.entry.field);
        let (axis, about) = (field.entry.axis, entry.words);
        match entry.value {
            FieldValue::Quantity(kind) if field.is_read() => {
                self.quantity(path, kind, axis, about).read_under(path, path, Pick::Mean);
            }
            FieldValue::Quantity(kind) => {
                self.stated(path, kind, path, about);
            }
            FieldValue::Day => {
                self.stated(path, "day", path, about);
            }
            FieldValue::Flag => {
                self.flag(path, path, about);
            }
            FieldValue::Choice(choices) => {
                let words: Vec<&'static str> = choices.iter().map(|c| c.word).collect();
                self.choice(path, path, Box::leak(words.into_boxed_slice()), about);
            }
            _ => {
                self.choice(path, path, &[], about);
            }
        }
    }

    /// What follows from other facts.
    #[expect(clippy::too_many_arguments, reason = "one entry a fact, read from top to bottom")]
    pub(crate) fn derive<A, F: Formula<A>, const N: usize>(
        &mut self,
        id: &'static str,
        kind: &'static str,
        axis: Axis,
        about: &'static str,
        source: &'static str,
        needs: [&'static str; N],
        formula: F,
    ) -> NewFact<'_> {
        self.quantity(id, kind, axis, about).or(source, needs, formula)
    }

    /// What follows at a valve from its lobe's table, where the sheet has one, and other facts.
    pub(crate) fn on_lobe<A: 'static, F: Formula<A>, const N: usize>(
        &mut self,
        id: &'static str,
        kind: &'static str,
        about: &'static str,
        source: &'static str,
        needs: [&'static str; N],
        formula: impl Fn(Arc<[LiftPoint]>) -> F + Send + Sync + 'static,
    ) -> NewFact<'_> {
        let entry = self.quantity(id, kind, Axis::Valve, about);
        let wants = F::wants();
        let fits = wants.len() == N;
        let route = RouteKind::FromLobe(Box::new(move |points| formula(points).erase()));
        let entry = entry.fed(route, source, needs.to_vec(), wants, F::gives());
        if fits { entry } else { entry.fault("not as many needs as the formula has arguments") }
    }

    /// What follows from how the engine is laid out and other facts.
    pub(crate) fn by_layout(
        &mut self,
        id: &'static str,
        kind: &'static str,
        about: &'static str,
        source: &'static str,
        needs: &[(&'static str, InputSpec)],
        of: impl Fn(&Sheet) -> Result<Erased, Unavailable> + Send + Sync + 'static,
    ) -> NewFact<'_> {
        let (names, wants) = needs.iter().copied().unzip();
        self.quantity(id, kind, Axis::One, about).fed(
            RouteKind::FromLayout(Box::new(of)),
            source,
            names,
            wants,
            dimension(kind),
        )
    }

    /// What follows from many other facts.
    pub(crate) fn out_of_many(
        &mut self,
        id: &'static str,
        kind: &'static str,
        about: &'static str,
        source: &'static str,
        needs: &[(&'static str, InputSpec)],
        formula: Erased,
    ) -> NewFact<'_> {
        let (names, wants) = needs.iter().copied().unzip();
        self.quantity(id, kind, Axis::One, about).fed(
            RouteKind::Derived(formula),
            source,
            names,
            wants,
            dimension(kind),
        )
    }

    /// A reduction of a series, where another kind than the series' own is wanted.
    pub(crate) fn reduce(
        &mut self,
        id: &'static str,
        kind: &'static str,
        how: Reduce,
        series: &'static str,
        about: &'static str,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).fed(
            RouteKind::Reduced(how),
            "of the places of the engine",
            vec![series],
            Vec::new(),
            "",
        )
    }

    /// A usual figure that no field of the sheet holds.
    pub(crate) fn usual<const N: usize>(
        &mut self,
        id: &'static str,
        kind: &'static str,
        about: &'static str,
        source: &'static str,
        needs: [&'static str; N],
        of: fn(&[&str]) -> Option<(f64, f64)>,
    ) -> NewFact<'_> {
        self.quantity(id, kind, Axis::One, about).or_usual(source, needs, of)
    }
}

impl NewFact<'_> {
    pub(crate) fn edit(self, change: impl FnOnce(&mut Fact)) -> Self {
        if let Some(fact) = self.0.facts.last_mut() {
            change(fact);
        }
        self
    }
    fn fault(self, what: &str) -> Self {
        let id = self.0.facts.last().map_or("", |f| f.info.id);
        self.0.faults.push(format!("{id}: {what}"));
        self
    }
    fn route(self, kind: RouteKind, source: &'static str) -> Self {
        self.fed(kind, source, Vec::new(), Vec::new(), "")
    }
    fn fed(
        self,
        kind: RouteKind,
        source: &'static str,
        names: Vec<&'static str>,
        wants: Vec<InputSpec>,
        gives: &'static str,
    ) -> Self {
        self.edit(|fact| {
            // the source of a formula says more than that the sheet may have the figure, and more than a usual figure's
            let formula = |kind: &RouteKind| {
                matches!(kind, RouteKind::Derived(_) | RouteKind::FromLobe(_) | RouteKind::FromLayout(_))
            };
            let usual =
                matches!(kind, RouteKind::DefaultEstimate(_)) && !fact.routes.iter().any(|route| formula(&route.kind));
            if fact.info.source.is_empty() || formula(&kind) || usual {
                fact.info.source = source;
            }
            match kind {
                RouteKind::Stated(path)
                | RouteKind::Word(path, _)
                | RouteKind::FromList(_, path, _)
                | RouteKind::Dated(_, path) => {
                    fact.info.fields.push(path);
                }
                RouteKind::FromLobe(_) => fact.info.fields.extend(LOBES),
                _ => {}
            }
            fact.routes.push(Route { kind, names, needs: Vec::new(), wants, gives });
        })
    }
    fn at(self, path: &'static str) -> Self {
        self.edit(|fact| {
            let info = &mut fact.info;
            if info.part.is_none() {
                info.part = path.split('.').next().filter(|p| thou_fields::section(p).is_some_and(|s| s.part));
            }
            match info.path {
                None => info.path = Some(path),
                Some(_) => info.fallback = Some(path),
            }
        })
    }
    /// The section of the sheet whose state counts.
    pub(crate) fn part(self, part: &'static str) -> Self {
        self.edit(|fact| fact.info.part = Some(part))
    }
    /// The readings at this path.
    fn readings(self, path: &'static str, pick: Pick) -> Self {
        match path.strip_prefix("readings.") {
            Some(key) => self.read_under(key, path, pick),
            None => self.fault("not a path of readings"),
        }
    }
    fn read_under(self, key: &'static str, path: &'static str, pick: Pick) -> Self {
        let keys = &mut self.0.keys;
        let index = keys.iter().position(|k| *k == key).unwrap_or_else(|| {
            keys.push(key);
            keys.len() - 1
        });
        self.edit(|fact| {
            fact.info.measured = true;
            fact.info.fields.push(path);
        })
        .route(RouteKind::Read(index, pick), "read in the shop")
        .at(path)
    }
    /// Other fields that its closure reads on the sheet.
    pub(crate) fn with(self, fields: &[&'static str]) -> Self {
        self.edit(|fact| fact.info.fields.extend(fields))
    }
    /// Else what the sheet states, one figure for every place.
    pub(crate) fn or_stated(self, path: &'static str) -> Self {
        self.route(RouteKind::Stated(path), "the sheet").at(path)
    }
    /// Else what a word or a table of the sheet says, which is at this dotted path.
    pub(crate) fn or_worked(self, field: &'static str, of: fn(&Sheet) -> Option<f64>) -> Self {
        self.route(RouteKind::Dated(of, field), "the sheet")
    }
    /// What follows from other facts says no less and no more than this, SI: there it is a bound.
    pub(crate) fn clipped(self, low: f64, high: f64) -> Self {
        self.edit(|fact| fact.ends = Some([low, high]))
    }
    /// Else what follows from other facts.
    pub(crate) fn or<A, F: Formula<A>, const N: usize>(
        self,
        source: &'static str,
        needs: [&'static str; N],
        formula: F,
    ) -> Self {
        let wants = F::wants();
        let fits = wants.len() == N;
        let entry = self.fed(RouteKind::Derived(formula.erase()), source, needs.to_vec(), wants, F::gives());
        if fits { entry } else { entry.fault("not as many needs as the formula has arguments") }
    }
    /// Else a usual figure, which the report lists with its source.
    pub(crate) fn or_usual<const N: usize>(
        self,
        source: &'static str,
        needs: [&'static str; N],
        of: fn(&[&str]) -> Option<(f64, f64)>,
    ) -> Self {
        let wants = vec![InputSpec::new("choice", false); N];
        self.fed(RouteKind::DefaultEstimate(DefaultEstimate { of, source }), source, needs.to_vec(), wants, "")
    }
}
