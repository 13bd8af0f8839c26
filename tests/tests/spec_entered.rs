//! What the spec prints, entered in the sheet, is a go: both ends of every window and of every size to machine to, as
//! they print, in inches and in metric, on every sample. And so is the size that the check says to go to.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thou::facts::{Catalogue, Figure, SheetFacts};
use thou::verdict::{State, Worn, remedy};
use thou_contract::{Kind, System};
use thou_tests::{judge, samples, sheet, thou, value};

/// A figure as a page prints it and a hand writes it down, rounded towards the inside of its window.
fn written(figure: Figure, low: Option<f64>, high: Option<f64>) -> (Option<String>, Option<String>) {
    let inward = |end: Option<f64>, is_low, more| end.map(|si| figure.inward(si, is_low, more));
    // a window narrower than the last digit takes more of them
    let fits = |more: &usize| inward(low, true, *more).zip(inward(high, false, *more)).is_none_or(|(l, h)| l <= h);
    let more = (0..3).find(fits).unwrap_or(3);
    (inward(low, true, more).map(|n| figure.show(n, more)), inward(high, false, more).map(|n| figure.show(n, more)))
}

/// The page as one line of words.
fn page(name: &str, units: &str) -> String {
    let run = thou(&["spec", name, "--units", units]);
    assert!(run.err.is_empty(), "{name}: {}", run.err);
    run.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Writes a figure where the sheet has the fact: over all its points at this place, or over what is stated. None where
/// the sheet has no such place.
fn enter(sheet: &mut Value, path: &str, label: Option<&str>, text: &str) -> Option<()> {
    let mut at = sheet.pointer_mut(&format!("/{}", path.replace('.', "/")))?;
    if path.starts_with("readings.") {
        if let Value::Array(sets) = at {
            at = sets.last_mut()?;
        }
        // what the gauge was set to goes with the old figures
        at = match label {
            Some(label) => at.get_mut("at")?.get_mut(label)?,
            None => at.get_mut("value")?,
        };
    }
    let points = match &*at {
        Value::Array(points) => Some(points.len()),
        Value::Object(tenths) => Some(tenths.get("tenths")?.as_array()?.len()),
        _ => None,
    };
    *at = points.map_or_else(|| json!(text), |n| json!(vec![text; n]));
    Some(())
}

/// Whether a value is inside its working limits, and these are not the never-limits themselves.
fn inside(item: &thou::verdict::Item) -> bool {
    let (value, limits) = (item.value.unwrap().value, item.limits.unwrap());
    let least = [limits.low, limits.never_below].into_iter().flatten().fold(f64::NEG_INFINITY, f64::max);
    let most = [limits.high, limits.never_above].into_iter().flatten().fold(f64::INFINITY, f64::min);
    let slack = 1e-9 * value.abs();
    value >= least - slack && value <= most + slack
}

/// What was tried on one sheet.
struct Tried {
    name: String,
    good: Value,
    entered: usize,
    wrong: BTreeSet<String>,
}

impl Tried {
    /// Enters these figures (place, text) of one fact and looks at what is said of `judged` there.
    fn enter(&mut self, changed: &str, judged: &str, figures: &[(Option<String>, usize, String)], end: &str) {
        let catalogue = Catalogue::standard();
        let info = catalogue.info(changed).unwrap();
        // of what is made of a reading's points, such as a taper, and of a list no one figure can be entered
        let own = |path: &&str| thou_fields::field(path).is_some_and(|f| f.kind() == info.value.kind());
        let Some(path) = info.path.filter(own) else { return };
        let mut value = self.good.clone();
        for (label, _, text) in figures {
            if enter(&mut value, path, label.as_deref(), text).is_none() {
                return;
            }
        }
        let text = serde_json::to_string_pretty(&value).unwrap();
        let sheet = match thou::sheet::Sheet::parse("sheet.json", &text, &thou_tests::file("sample-builds")) {
            Ok(sheet) => sheet,
            Err(faults) => {
                self.wrong.insert(format!("{} {changed} {end}: {}", self.name, faults.render(false)));
                return;
            }
        };
        let facts = SheetFacts::new(catalogue, &sheet);
        let kind = catalogue.info(changed).unwrap().value.kind().unwrap();
        let is_it = |(_, place, text): &(Option<String>, usize, String)| {
            let read = facts.cells(changed).get(*place).and_then(|c| c.as_ref().ok()).map(|n| n.value);
            read.zip(kind.parse(text).ok()).is_some_and(|(a, b)| (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1e-6))
        };
        if !figures.iter().all(is_it) {
            return;
        }
        self.entered += 1;
        let at = |item: &thou::verdict::Item| item.place.map_or(0, |(_, at)| at);
        let verdict = judge(&sheet);
        let of_it = verdict.items.iter().filter(|i| i.fact.as_deref() == Some(judged) && i.limits.is_some());
        for item in of_it.filter(|i| figures.iter().any(|f| f.1 == at(i))) {
            // a gauge too coarse for the limit beyond it proves nothing, and says so
            let coarse = item.state == State::Unproven && inside(item);
            if !matches!(item.state, State::Go | State::Note) && !coarse {
                let figure = figures.iter().find(|f| f.1 == at(item)).map_or("", |f| &f.2);
                let (rule, state) = (&item.rule, item.state.word());
                self.wrong.insert(format!("{}: {judged} {end}, {figure} in {changed}: {rule} {state}", self.name));
            }
        }
    }
}

fn tried(name: &str, system: System, units: &str) -> Tried {
    let good = value(name);
    let page = page(name, units);
    let mut tried = Tried { name: format!("{name} ({units})"), good: good.clone(), entered: 0, wrong: BTreeSet::new() };
    let parsed = sheet(&good);
    let facts = SheetFacts::new(Catalogue::standard(), &parsed);
    let verdict = judge(&parsed);
    let worn = Worn::of(&verdict.windows);
    let mut by_fact: BTreeMap<&str, Vec<_>> = BTreeMap::new();
    for window in verdict.windows.iter().filter(|w| worn.counts(&parsed, &facts, w)) {
        by_fact.entry(&window.fact).or_default().push(window);
    }
    for (fact, windows) in by_fact {
        let Some(info) = facts.info(fact) else { continue };
        let Some(kind) = info.value.kind() else { continue };
        let figure = Figure::of(fact, kind, system);
        let labels = parsed.places.labels(info.axis);
        let (mut low, mut high) = (Vec::new(), Vec::new());
        for place in 0..parsed.places.count(info.axis) {
            let here: Vec<_> =
                windows.iter().filter(|w| w.place.is_none_or(|p| p == place)).map(|w| w.limits).collect();
            // what is never passed is no size to work to
            let working = here.iter().any(|l| l.low.is_some() || l.high.is_some());
            let Some(room) = remedy::intersect(&here).filter(|_| working) else { continue };
            let (least, most) = written(figure, room.low, room.high);
            let label = labels.get(place).filter(|_| info.axis != thou::sheet::model::Axis::One).cloned();
            let text = |number: String| format!("{number} {}", figure.unit_of(&number)).trim_end().to_owned();
            low.extend(least.filter(|_| room.low.is_some()).map(|n| (label.clone(), place, text(n))));
            high.extend(most.filter(|_| room.high.is_some()).map(|n| (label, place, text(n))));
        }
        for (figures, end) in [(low, "low"), (high, "high")] {
            if !figures.is_empty() {
                tried.enter(fact, fact, &figures, end);
            }
        }
    }
    sizes(name, system, &page, &mut tried);
    tried
}

/// The sizes that the spec solves for, which stand on the page as they are entered here.
fn sizes(name: &str, system: System, page: &str, tried: &mut Tried) {
    let catalogue = Catalogue::standard();
    let spec: Value = serde_json::from_str(&thou(&["spec", name, "--format", "json"]).out).unwrap();
    let places = sheet(&value(name)).places;
    let sets = spec["operations"].as_array().unwrap().iter().flat_map(|o| o["facts"].as_array().unwrap());
    for set in sets {
        let solved = set["sizes"].as_array().unwrap();
        let Some(changed) = solved.first().and_then(|s| s["fact"].as_str()) else { continue };
        let kind: Kind = catalogue.info(changed).and_then(|i| i.value.kind()).unwrap();
        let figure = Figure::of(changed, kind, system);
        let (mut low, mut high) = (Vec::new(), Vec::new());
        for size in solved {
            let (from, to) = written(figure, size["from"].as_f64(), size["to"].as_f64());
            // one end alone is a bound, and no size to work to
            let (Some(from), Some(to)) = (from, to) else { continue };
            let range = if from == to { from.clone() } else { format!("{from} .. {to}") };
            assert!(page.contains(&range), "{name}: {range} for {changed} is not on the page");
            let label = size["place"]["label"].as_str().map(str::to_owned);
            let axis = catalogue.info(changed).unwrap().axis;
            let at = label.as_ref().and_then(|l| places.labels(axis).iter().position(|p| p == l)).unwrap_or(0);
            let text = |number: String| format!("{number} {}", figure.unit_of(&number)).trim_end().to_owned();
            low.push((label.clone(), at, text(from)));
            high.push((label, at, text(to)));
        }
        let same_axis =
            |judged: &str| catalogue.info(judged).map(|i| i.axis) == catalogue.info(changed).map(|i| i.axis);
        let judged = set["fact"].as_str().unwrap();
        for (figures, end) in [(low, "size from"), (high, "size to")] {
            if !figures.is_empty() && same_axis(judged) {
                tried.enter(changed, judged, &figures, end);
            }
        }
    }
}

fn all_ends_are_gos(system: System, units: &str) {
    let (mut entered, mut wrong) = (0, Vec::new());
    for name in samples("sample-builds") {
        let tried = tried(&name, system, units);
        assert!(tried.entered > 0, "{name}: nothing could be entered");
        entered += tried.entered;
        wrong.extend(tried.wrong);
    }
    assert!(entered > 500, "{entered} ends were entered");
    assert!(wrong.is_empty(), "{} of {entered}: {wrong:#?}", wrong.len());
}

#[test]
fn what_the_spec_prints_in_inches_is_a_go() {
    all_ends_are_gos(System::Inch, "in");
}

#[test]
fn what_the_spec_prints_in_metric_is_a_go() {
    all_ends_are_gos(System::Metric, "mm");
}

/// The readings of a part that is a few thou or a good share off at every place.
fn spoiled(good: &Value, path: &str, by: impl Fn(f64) -> f64) -> Option<Value> {
    let parsed = sheet(good);
    let key = path.strip_prefix("readings.")?;
    let axis = thou_fields::reading(key)?.axis;
    let mut sheet = good.clone();
    for (label, row) in parsed.places.labels(axis).iter().zip(&parsed.readings.get(key)?.last()?.rows) {
        let si = row.iter().find_map(|r| r.value)?;
        enter(&mut sheet, path, Some(label), &format!("{:.6} mm", by(si) * 1e3))?;
    }
    Some(sheet)
}

#[test]
fn the_size_that_the_check_says_to_go_to_is_a_go_and_breaks_nothing() {
    let catalogue = Catalogue::standard();
    let (mut followed, mut wrong) = (0, BTreeSet::new());
    for name in samples("sample-builds") {
        let good = value(&name);
        let windows = judge(&sheet(&good)).windows;
        let solves =
            windows.iter().flat_map(|w| [&w.text.low, &w.text.high]).flatten().filter_map(|r| r.solve.as_ref());
        let changes: BTreeSet<&str> = solves.map(|s| s.fact.as_str()).collect();
        for path in changes.iter().filter_map(|change| catalogue.info(change)?.path) {
            // a size is a few thou off, a clearance or a gap half of it or half as much again
            let slips: [fn(f64) -> f64; 2] =
                [|si| if si > 6e-3 { si + 1e-4 } else { si * 1.6 }, |si| if si > 6e-3 { si - 1e-4 } else { si * 0.5 }];
            for slip in slips {
                let Some(spoiled) = spoiled(&good, path, slip) else { continue };
                let text = serde_json::to_string_pretty(&spoiled).unwrap();
                let Ok(parsed) = thou::sheet::Sheet::parse("sheet.json", &text, &thou_tests::file("sample-builds"))
                else {
                    continue;
                };
                let before = judge(&parsed);
                let solved = before.items.iter().filter_map(|i| Some((i, i.advice.as_ref()?.solved.clone()?)));
                let mut by_rule: BTreeMap<(&str, &str), Vec<_>> = BTreeMap::new();
                for (item, size) in solved {
                    by_rule
                        .entry((&item.rule, item.fact.as_deref().unwrap_or_default()))
                        .or_default()
                        .push((item, size));
                }
                for ((rule, fact), sizes) in by_rule {
                    let mut mended = spoiled.clone();
                    let entered = sizes.iter().all(|(_, size)| {
                        let to = size.aim.or(size.from.zip(size.to).map(|(a, b)| f64::midpoint(a, b)));
                        let to = to.or(size.from).or(size.to).unwrap();
                        let label = size.place.map(|(axis, at)| parsed.places.labels(axis)[at].clone());
                        let path = catalogue.info(&size.fact).and_then(|i| i.path);
                        path.and_then(|p| enter(&mut mended, p, label.as_deref(), &format!("{:.9} mm", to * 1e3)))
                            .is_some()
                    });
                    if !entered {
                        continue;
                    }
                    followed += 1;
                    let after = judge(&sheet(&mended));
                    let no_goes = |v: &thou::verdict::Verdict| -> BTreeSet<String> {
                        let held = v.items.iter().filter(|i| i.state == State::NoGo);
                        held.map(|i| format!("{} {:?} {:?}", i.rule, i.fact, i.place)).collect()
                    };
                    let new: Vec<_> = no_goes(&after).difference(&no_goes(&before)).cloned().collect();
                    if !new.is_empty() {
                        wrong.insert(format!("{name}, {path} spoiled: the size for {rule} breaks {}", new[0]));
                    }
                    let is_it = |i: &&thou::verdict::Item| i.rule == rule && i.fact.as_deref() == Some(fact);
                    let places: Vec<_> = sizes.iter().map(|(item, _)| item.place).collect();
                    for item in after.items.iter().filter(is_it).filter(|i| places.contains(&i.place)) {
                        let coarse = item.state == State::Unproven && inside(item);
                        if !matches!(item.state, State::Go | State::Note) && !coarse {
                            let state = item.state.word();
                            wrong.insert(format!("{name}, {path} spoiled: {rule} {fact} is {state} after its size"));
                        }
                    }
                }
            }
        }
    }
    assert!(followed > 60, "{followed} sizes were gone to");
    assert!(wrong.is_empty(), "{} of {followed}: {wrong:#?}", wrong.len());
}
