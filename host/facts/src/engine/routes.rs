//! One way to come by a fact at one place.

use super::{Certainty, Lack, SheetFacts};
use crate::builder::{Fact, Need, Route, RouteKind};
use crate::info::ValueKind;
use crate::spread::{bounded, propagate, refusal};
use crate::typed::{Erased, InputValue, Unavailable};
use crate::value::{Grade, Missing, Num, PlaceValue, Roots};
use thou_sheet::{Axis, Side};

impl SheetFacts<'_> {
    pub(super) fn inputs(&self, route: &Route) -> Vec<[&[PlaceValue]; 2]> {
        let of = |need: &Need| match need {
            Need::Fact(f) => [self.cells_at(*f), &[]],
            Need::Side(inlet, exhaust) => [self.cells_at(*inlet), self.cells_at(*exhaust)],
        };
        if matches!(
            route.kind,
            RouteKind::Derived(_) | RouteKind::FromLobe(_) | RouteKind::FromLayout(_) | RouteKind::Reduced(_)
        ) {
            route.needs.iter().map(of).collect()
        } else {
            Vec::new()
        }
    }

    pub(super) fn by_route(
        &self,
        at: usize,
        fact: &Fact,
        route: &Route,
        series: &[[&[PlaceValue]; 2]],
        place: usize,
    ) -> PlaceValue {
        match &route.kind {
            RouteKind::Stated(path) => self.stated(at, fact, path),
            RouteKind::Word(path, default) => self.word(at, fact, path, *default),
            RouteKind::Read(key, pick) => self.table.read(*key, *pick, place, self.label(fact.info.axis, place)),
            RouteKind::Derived(formula) => {
                self.derive(fact, route, formula, &self.belonging(fact, route, series, place))
            }
            RouteKind::FromLobe(on) => {
                let cells = self.belonging(fact, route, series, place);
                match self.table.lobe(self.sheet.places.side(place)) {
                    Ok(points) => self.derive(fact, route, &on(points), &cells),
                    Err(mut lack) => {
                        lack.extend(cells.iter().flatten().filter_map(|c| c.as_ref().err()).flatten().cloned());
                        Err(lack)
                    }
                }
            }
            RouteKind::FromLayout(of) => {
                let cells = self.belonging(fact, route, series, place);
                match of(self.sheet) {
                    Ok(formula) => self.derive(fact, route, &formula, &cells),
                    Err(why) => Err(Lack::from([refusal(fact, why)])),
                }
            }
            RouteKind::Reduced(how) => {
                let cells = series.first().map_or(&[][..], |s| s[0]);
                let missing: Lack = cells.iter().filter_map(|c| c.as_ref().err()).flatten().cloned().collect();
                if !missing.is_empty() {
                    return Err(missing);
                }
                let numbers: Vec<&Num> = cells.iter().flatten().collect();
                how.apply(&numbers)
                    .ok_or_else(|| Lack::from([Missing::Outside(format!("{}: no places", fact.info.id))]))
            }
            RouteKind::DefaultEstimate(usual) => {
                let Some((low, high)) = (usual.of)(&self.words(route)?) else {
                    return Err(Lack::from([Missing::Field(fact.info.path.unwrap_or(fact.info.id).to_owned())]));
                };
                // anywhere in the range is as likely: JCGM 100:2008, 4.3.7
                let u = (high - low).abs() / 12_f64.sqrt();
                Ok(Num::of(f64::midpoint(low, high), Roots::one(self.table.default(at), u, Grade::Default)))
            }
            RouteKind::FromList(of, _, grade) => match of(self.sheet) {
                Ok((value, u)) if value.is_finite() => Ok(Num::of(value, Roots::one(self.table.stated(at), u, *grade))),
                Ok(_) => Err(Lack::from([refusal(fact, Unavailable::Outside("its formula has no value there"))])),
                Err(why) => Err(Lack::from([refusal(fact, why)])),
            },
            RouteKind::Dated(of, field) => match of(self.sheet) {
                Some(value) => Ok(Num::of(value, Roots::one(self.table.stated(at), 0.0, Grade::Stated))),
                None => Err(Lack::from([Missing::Field((*field).to_owned())])),
            },
            RouteKind::Inlet => {
                let inlet = self.sheet.places.side(place).map(|s| f64::from(u8::from(s == Side::Inlet)));
                inlet.map(|value| Num::of(value, Roots::default())).ok_or_else(Lack::new)
            }
        }
    }

    /// What each need has at this place.
    fn belonging<'s>(
        &self,
        fact: &Fact,
        route: &Route,
        series: &[[&'s [PlaceValue]; 2]],
        place: usize,
    ) -> Vec<Option<&'s PlaceValue>> {
        let pairs = route.needs.iter().zip(series);
        pairs.map(|(need, s)| self.at_place(fact.info.axis, *need, s, place)).collect()
    }

    fn stated(&self, at: usize, fact: &Fact, path: &'static str) -> PlaceValue {
        let value = self.sheet.stated(path).and_then(|(v, _)| match (fact.info.value, v) {
            (ValueKind::Flag, serde_json::Value::Bool(yes)) => Some(f64::from(u8::from(*yes))),
            // a size where there may be none says that there is one
            (
                ValueKind::Flag,
                serde_json::Value::String(_) | serde_json::Value::Object(_) | serde_json::Value::Array(_),
            ) => Some(1.0),
            (ValueKind::Quantity(_), serde_json::Value::Number(n)) => n.as_f64(),
            (ValueKind::Quantity(kind), serde_json::Value::String(text)) => kind.parse(text).ok(),
            _ => None,
        });
        match value {
            Some(value) => Ok(Num::of(value, Roots::one(self.table.stated(at), 0.0, Grade::Stated))),
            None => Err(Lack::from([Missing::Field(path.to_owned())])),
        }
    }

    fn word(&self, at: usize, fact: &Fact, path: &'static str, default: Option<&'static str>) -> PlaceValue {
        let ValueKind::Choice(words) = fact.info.value else { return Err(Lack::new()) };
        let index = |word: &str| words.iter().position(|w| *w == word).map_or(-1.0, |i| i as f64);
        match (self.sheet.stated(path).and_then(|(v, _)| v.as_str()), default) {
            (Some(word), _) => Ok(Num::of(index(word), Roots::one(self.table.stated(at), 0.0, Grade::Stated))),
            (None, Some(word)) => Ok(Num::of(index(word), Roots::default())),
            (None, None) => Err(Lack::from([Missing::Field(path.to_owned())])),
        }
    }

    pub(super) fn words(&self, route: &Route) -> Result<Vec<&'static str>, Lack> {
        let mut words = Vec::new();
        for need in &route.needs {
            let Need::Fact(at) = need else { continue };
            match self.cells_at(*at).first() {
                Some(Ok(n)) => words.push(self.word_of(*at, n.value)),
                Some(Err(missing)) => return Err(missing.clone()),
                None => return Err(Lack::new()),
            }
        }
        Ok(words)
    }

    fn word_of(&self, at: usize, index: f64) -> &'static str {
        match self.cat.fact(at).map(|f| f.info.value) {
            Some(ValueKind::Choice(words)) if index >= 0.0 => words.get(index as usize).copied().unwrap_or(""),
            _ => "",
        }
    }

    /// The value of a need that belongs to this place.
    fn at_place<'s>(
        &self,
        to: Axis,
        need: Need,
        series: &[&'s [PlaceValue]; 2],
        place: usize,
    ) -> Option<&'s PlaceValue> {
        let (fact, cells) = match need {
            Need::Fact(f) => (f, series[0]),
            Need::Side(inlet, exhaust) => match self.sheet.places.side(place)? {
                Side::Inlet => (inlet, series[0]),
                Side::Exhaust => (exhaust, series[1]),
            },
        };
        let from = self.cat.fact(fact)?.info.axis;
        self.sheet.places.project(from, to, place).and_then(|p| cells.get(p))
    }

    fn derive(&self, fact: &Fact, route: &Route, formula: &Erased, cells: &[Option<&PlaceValue>]) -> PlaceValue {
        let mut missing = Lack::new();
        let mut inputs: Vec<InputValue> = Vec::with_capacity(cells.len());
        let mut numbers: Vec<Option<&Num>> = Vec::with_capacity(cells.len());
        for (n, cell) in cells.iter().enumerate() {
            let optional = route.wants.get(n).is_some_and(|w| w.optional);
            let number = match cell {
                Some(Ok(number)) => Some(number),
                Some(Err(why)) if !optional => {
                    missing.extend(why.iter().cloned());
                    None
                }
                None if !optional => {
                    let name = route.names.get(n).copied().unwrap_or("");
                    missing.insert(Missing::Outside(format!("{}: no place of {name} belongs here", fact.info.id)));
                    None
                }
                _ => None,
            };
            let word = match (route.needs.get(n), number) {
                (Some(Need::Fact(f)), Some(number)) => self.word_of(*f, number.value),
                _ => "",
            };
            let si = number.map_or(f64::NAN, |n| n.value);
            inputs.push(InputValue { si, centre: si, word, there: number.is_some() });
            numbers.push(number);
        }
        if !missing.is_empty() {
            return Err(missing);
        }
        let value = formula(&inputs).map_err(|why| Lack::from([refusal(fact, why)]))?;
        if !value.is_finite() {
            return Err(Lack::from([refusal(fact, Unavailable::Outside("its formula has no value there"))]));
        }
        let bound = bounded(formula, fact.ends, value, &mut inputs, &numbers)
            .map_err(|why| Lack::from([refusal(fact, why)]))?;
        if self.fork.as_ref().is_some_and(|fork| fork.sure == Certainty::Unsaid) {
            return Ok(Num { value, roots: Roots::default(), bound });
        }
        let number = Num { value, roots: propagate(formula, value, &mut inputs, &numbers, &route.wants), bound };
        if !number.uncertainty().is_finite() {
            return Err(Lack::from([refusal(fact, Unavailable::Outside("how sure it is has no value there"))]));
        }
        Ok(number)
    }
}
