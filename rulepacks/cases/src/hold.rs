//! Holding an answer to what its case wants.

use crate::arithmetic::{Names, Number, evaluate};
use crate::around::{around, passed};
use crate::case::{Case, Wanted, kind_word};
use crate::file::{CORRECT, CaseValue, Row, Slip};
use crate::given::meter_unit;
use std::collections::BTreeSet;
use thou_contract::answer::{CheckedAnswer, Finding, OutcomeState, Said, Service, Step, Window};
use thou_contract::{Kind, Level, METERS, Manifest, Rule, RuleKind, System};
use thou_judge::{Levels, Limits, basis, judge};

/// Numbers are the same to this share: what arithmetic and units round off, and no more.
const SAME: f64 = 1e-9;
/// And where nothing is wanted, to this, in SI.
const NOTHING: f64 = 1e-12;

/// A case being held.
pub(crate) struct Holder<'a> {
    pub(crate) manifest: &'a Manifest,
    pub(crate) rule: &'a Rule,
    pub(crate) case: &'a Case,
    /// The kind of a fact that is judged, where it is known.
    pub(crate) kind: &'a dyn Fn(&str) -> Option<Kind>,
    /// The texts of the rule that some case has said.
    pub(crate) said: &'a mut BTreeSet<u32>,
    pub(crate) slips: Vec<Slip>,
}

/// What has words, arguments and a place.
struct Item<'i> {
    row: &'i Row,
    text: u32,
    place: Option<u32>,
    args: &'i [f64],
}

impl Holder<'_> {
    /// Everything that is wrong with this answer, each with the line of the case that wants otherwise.
    pub(crate) fn hold(mut self, answer: &CheckedAnswer) -> Vec<Slip> {
        let wanted = self.case.wanted.clone();
        let Some(state) = answer.outcomes.first().map(|o| o.state) else {
            self.slip(self.case.line, "the rule was asked and gave no outcome");
            return self.slips;
        };
        match (&wanted, state) {
            (Wanted::Go, OutcomeState::Clear) => {}
            (Wanted::DoesNotApply(words), OutcomeState::NotApplicable(reason))
            | (Wanted::CannotSay(words), OutcomeState::CannotSay(reason)) => self.reason(words, reason),
            (Wanted::Rows(rows), OutcomeState::Answered) => self.rows(rows, answer),
            _ => {
                let got = self.came(state, answer);
                let wanted = match wanted {
                    Wanted::Go => "to have nothing to say (go = true)".to_owned(),
                    Wanted::DoesNotApply(words) => format!("\"{words}\", which does not apply"),
                    Wanted::CannotSay(words) => format!("\"{words}\", of which it cannot say"),
                    Wanted::Rows(_) => format!("a {}", kind_word(self.rule.kind)),
                };
                self.slip(self.case.line, format!("it comes to {got}; wanted {wanted}: {CORRECT}"));
            }
        }
        self.slips
    }

    fn slip(&mut self, line: usize, words: impl Into<String>) {
        self.slips.push(Slip::new(line, words));
    }

    /// What became of the rule, in words.
    fn came(&self, state: OutcomeState, answer: &CheckedAnswer) -> String {
        let reason =
            |at: u32| self.rule.reasons.get(at as usize).map_or("a reason that it has not got", String::as_str);
        match state {
            OutcomeState::Clear => "nothing to say (go = true)".to_owned(),
            OutcomeState::NotApplicable(at) => format!("does-not-apply, \"{}\"", reason(at)),
            OutcomeState::CannotSay(at) => format!("cannot-say, \"{}\"", reason(at)),
            OutcomeState::Answered => {
                let windows = answer.windows.iter().map(|w| w.what.text);
                let findings = answer.findings.iter().map(|f| f.what.text);
                let services = answer.services.iter().map(|s| s.what.text);
                let steps = answer.steps.iter().map(|s| s.what.text);
                let texts = windows.chain(findings).chain(services).chain(steps);
                let words: Vec<String> = texts.map(|t| format!("\"{}\"", self.words(t))).collect();
                format!("{} {}", many(words.len(), kind_word(self.rule.kind)), words.join(", "))
            }
        }
    }

    fn words(&self, text: u32) -> &str {
        self.rule.texts.get(text as usize).map_or("a text that it has not got", |t| t.words.as_str())
    }

    fn reason(&mut self, words: &str, reason: u32) {
        let got = self.rule.reasons.get(reason as usize).map(String::as_str);
        if !got.is_some_and(|got| got.contains(words)) {
            let got = got.unwrap_or("a reason that it has not got");
            self.slip(self.case.line, format!("its reason is \"{got}\"; wanted \"{words}\" in it: {CORRECT}"));
        }
    }

    fn rows(&mut self, rows: &[Row], answer: &CheckedAnswer) {
        let gave = [answer.windows.len(), answer.findings.len(), answer.services.len(), answer.steps.len()];
        let (kind, gave) = (kind_word(self.rule.kind), gave.iter().sum::<usize>());
        let of_kind = match self.rule.kind {
            RuleKind::Window => answer.windows.len(),
            RuleKind::Finding => answer.findings.len(),
            RuleKind::Service => answer.services.len(),
            RuleKind::Step => answer.steps.len(),
        };
        if gave == 0 {
            return self.slip(self.case.line, format!("it says that it answered, and gave nothing; wanted a {kind}"));
        }
        if gave != of_kind || gave != rows.len() {
            let got = self.came(OutcomeState::Answered, answer);
            let wanted = many(rows.len(), kind);
            return self.slip(
                self.case.line,
                format!("it gives {got}; wanted {wanted}, in the order in which it gives them: {CORRECT}"),
            );
        }
        for (row, said) in rows.iter().zip(&answer.windows) {
            self.window(row, said);
        }
        for (row, said) in rows.iter().zip(&answer.findings) {
            self.finding(row, said);
        }
        for (row, said) in rows.iter().zip(&answer.services) {
            self.service(row, said);
        }
        for (row, Said { what: Step { place, text }, args, .. }) in rows.iter().zip(&answer.steps) {
            self.item(&Item { row, text: *text, place: *place, args });
        }
    }

    fn window(&mut self, row: &Row, said: &Said<Window>) {
        let window = &said.what;
        let Some(fact) = self.rule.judges.get(window.fact as usize).cloned() else {
            return self.slip(row.line, "the fact of its window is not one that the rule judges");
        };
        match row.text("judges") {
            Ok(Some(judges)) if judges == fact => {}
            Ok(None) if self.rule.judges.len() == 1 => {}
            Ok(wanted) => {
                let wanted =
                    wanted.map_or_else(|| format!("judges = one of {}", self.rule.judges.join(", ")), str::to_owned);
                self.slip(row.line_of("judges"), format!("its window is on {fact}; wanted {wanted}: {CORRECT}"));
            }
            Err(slip) => self.slips.push(slip),
        }
        match row.flag("reuse") {
            Ok(wanted) if wanted != window.reuse => {
                let word = |reuse| if reuse { "a wear limit (reuse = true)" } else { "no wear limit" };
                let (got, wanted) = (word(window.reuse), word(wanted));
                self.slip(row.line_of("reuse"), format!("its window is {got}; wanted {wanted}: {CORRECT}"));
            }
            Ok(_) => {}
            Err(slip) => self.slips.push(slip),
        }
        self.item(&Item { row, text: window.text, place: window.place, args: &said.args });
        let kind = (self.kind)(&fact);
        let before = self.slips.len();
        let mut limit = |name: &'static str, got: Option<f64>| self.limit(row, name, got, kind, &said.args, window);
        let wanted = Limits {
            never_below: limit("never-below", window.never_below),
            low: limit("low", window.low),
            aim: limit("aim", window.aim),
            high: limit("high", window.high),
            never_above: limit("never-above", window.never_above),
        };
        if self.slips.len() == before {
            self.readings(row, window, &wanted, &fact, kind);
        }
    }

    /// A limit as the case wants it, held to the one that the window has.
    fn limit(
        &mut self,
        row: &Row,
        name: &'static str,
        got: Option<f64>,
        kind: Option<Kind>,
        args: &[f64],
        window: &Window,
    ) -> Option<f64> {
        let siblings = ["never-below", "low", "aim", "high", "never-above"];
        let item = Item { row, text: window.text, place: window.place, args };
        match (row.get(name), got) {
            (None, None) => None,
            (None, Some(got)) => {
                let got = tell(got, kind, 0);
                self.slip(
                    row.line,
                    format!(
                        "it gives {name} {got}, and the case does not say so: work it out from its source and write {name} = \
                         \"..\", or take it out of the rule"
                    ),
                );
                None
            }
            (Some(wanted), got) => {
                let value = match self.number(&item, name, wanted, kind, &siblings) {
                    Ok(value) => value,
                    Err(words) => {
                        self.slip(row.line_of(name), format!("{name} = {wanted}: {words}"));
                        return None;
                    }
                };
                match got {
                    Some(got) if same(got, value) => return Some(value),
                    Some(got) => {
                        let (got, value) = tell_apart(got, value, kind);
                        self.slip(row.line_of(name), format!("{name} is {got}; wanted {value} ({wanted}): {CORRECT}"));
                    }
                    None => {
                        let value = tell(value, kind, 0);
                        self.slip(
                            row.line_of(name),
                            format!("it gives no {name}; wanted {value} ({wanted}): {CORRECT}"),
                        );
                    }
                }
                None
            }
        }
    }

    /// Every reading beside a limit comes to what the case says of that side.
    fn readings(&mut self, row: &Row, window: &Window, wanted: &Limits, fact: &str, kind: Option<Kind>) {
        let before = self.slips.len();
        let [below, above] = ["below", "above"].map(|side| self.verdict(row, side));
        if self.slips.len() > before {
            return;
        }
        let text = self.rule.texts.get(window.text as usize);
        let levels = Levels::of(window, self.rule, text);
        let limits = Limits::of(window);
        let mut told = BTreeSet::new();
        for reading in around(wanted) {
            let passed = passed(reading.value, wanted);
            let level = passed.iter().map(|limit| match *limit {
                "low" => below.unwrap_or(Level::Warn),
                "high" => above.unwrap_or(Level::Warn),
                _ => Level::Hold,
            });
            let want = level.max().map_or(thou_judge::State::Go, thou_judge::State::from_level);
            let came = judge(reading.value, 0.0, &limits, levels).state;
            if came != want && told.insert((came.word(), passed.clone())) {
                let column = match passed.as_slice() {
                    ["never-below", ..] | ["low"] => "below",
                    _ => "above",
                };
                let value = tell(reading.value, kind, 2);
                let side = if reading.outside { "outside" } else { "inside" };
                self.slip(
                    row.line_of(column),
                    format!(
                        "{fact} at {value}, just {side} its {}, is {}; wanted {} ({column} = \"{}\"): {CORRECT}",
                        reading.limit,
                        came.word(),
                        want.word(),
                        want.word()
                    ),
                );
            }
        }
        // a side that has no limit says nothing
        for (side, there) in [("below", limits.low.is_some()), ("above", limits.high.is_some())] {
            if !there && row.get(side).is_some() {
                self.slip(row.line_of(side), format!("{side} is said, and the window has no limit there: take it out"));
            }
        }
    }

    /// The level that a side's word stands for.
    fn verdict(&mut self, row: &Row, side: &str) -> Option<Level> {
        match row.text(side) {
            Ok(None) => None,
            Ok(Some(word)) => {
                let found = level(word);
                if found.is_none() {
                    self.slip(row.line_of(side), format!("{side} = \"{word}\": it is one of no-go, look, note"));
                }
                found
            }
            Err(slip) => {
                self.slips.push(slip);
                None
            }
        }
    }

    fn finding(&mut self, row: &Row, said: &Said<Finding>) {
        let Finding { level: raw, place, text } = said.what;
        let came = basis(self.rule, self.rule.texts.get(text as usize)).cap(raw);
        match self.verdict(row, "level") {
            Some(wanted) if wanted == came => {}
            Some(wanted) => {
                let word = |level| thou_judge::State::from_level(level).word();
                let (got, wanted) = (word(came), word(wanted));
                self.slip(
                    row.line_of("level"),
                    format!("\"{}\" is {got}; wanted {wanted}: {CORRECT}", self.words(text).to_owned()),
                );
            }
            None if row.get("level").is_none() => {
                self.slip(row.line, "a finding has a level: level = \"no-go\", \"look\" or \"note\"");
            }
            None => {}
        }
        self.item(&Item { row, text, place, args: &said.args });
    }

    fn service(&mut self, row: &Row, said: &Said<Service>) {
        let service = &said.what;
        let item = Item { row, text: service.text, place: service.place, args: &said.args };
        self.item(&item);
        let got = self.manifest.meters.get(service.meter as usize).map_or("?", String::as_str).to_owned();
        let meters: Vec<&str> = METERS.into_iter().filter(|meter| row.get(meter).is_some()).collect();
        let unit = meter_unit(&got);
        let lives = [service.low, service.nominal, service.high].map(|si| si / unit);
        let lives_text = || lives.map(|l| format!("{}", (l * 1e6).round() / 1e6)).join(", ");
        let [meter] = meters.as_slice() else {
            let words = format!(
                "a service has one meter with its lives, low, nominal and high: {got} = [..]; it gives {got} {}",
                lives_text()
            );
            return self.slip(row.line, words);
        };
        if *meter != got {
            return self.slip(row.line_of(meter), format!("its life is in {got}; wanted it in {meter}: {CORRECT}"));
        }
        let three = match row.get(meter) {
            Some(CaseValue::List(list)) if list.len() == 3 => list.clone(),
            other => {
                let other = other.map(ToString::to_string).unwrap_or_default();
                return self.slip(
                    row.line_of(meter),
                    format!("{meter} = {other}: three lives are wanted, low, nominal and high: [200, 300, 400]"),
                );
            }
        };
        for ((name, wanted), got) in ["low", "nominal", "high"].into_iter().zip(&three).zip(lives) {
            match self.number(&item, meter, wanted, Kind::by_id("count"), &[]) {
                Ok(value) if same(got, value) => {}
                Ok(value) => {
                    let value = (value * 1e6).round() / 1e6;
                    let words =
                        format!("its lives are {}; wanted {name} {value} {meter} ({wanted}): {CORRECT}", lives_text());
                    self.slip(row.line_of(meter), words);
                }
                Err(words) => self.slip(row.line_of(meter), format!("{meter}, {wanted}: {words}")),
            }
        }
    }

    /// The place, the words and the arguments.
    fn item(&mut self, item: &Item<'_>) {
        self.said.insert(item.text);
        let row = item.row;
        let place = match row.get("place") {
            None => Ok(None),
            Some(CaseValue::Number(n)) => match n.parse::<u32>() {
                Ok(n) if n > 0 => Ok(Some(n - 1)),
                _ => Err(format!("place = {n}: places are counted from 1")),
            },
            Some(other) => Err(format!("place = {other}: it is a number, counted from 1")),
        };
        match place {
            Ok(place) if place == item.place => {}
            Ok(place) => {
                let word =
                    |p: Option<u32>| p.map_or("every place, or the engine".to_owned(), |p| format!("place {}", p + 1));
                let (got, wanted) = (word(item.place), word(place));
                self.slip(row.line_of("place"), format!("it is at {got}; wanted {wanted}: {CORRECT}"));
            }
            Err(words) => self.slip(row.line_of("place"), words),
        }
        match row.text("says") {
            Ok(says) => self.says(item, says),
            Err(slip) => self.slips.push(slip),
        }
        self.args(item);
    }

    fn says(&mut self, item: &Item<'_>, says: Option<&str>) {
        let row = item.row;
        let got = self.words(item.text).to_owned();
        let different: BTreeSet<&str> = self.rule.texts.iter().map(|t| t.words.as_str()).collect();
        let Some(says) = says else {
            if different.len() > 1 {
                let words = format!(
                    "the rule has {} texts: name the one that it says, with words of it: says = \"..\" (it says \"{got}\")",
                    different.len()
                );
                self.slip(row.line, words);
            }
            return;
        };
        if !got.contains(says) {
            return self.slip(row.line_of("says"), format!("it says \"{got}\"; wanted \"{says}\" in it: {CORRECT}"));
        }
        // the whole of a text is that text, though another has its words in it
        let could: Vec<String> =
            different.iter().filter(|t| t.contains(says) && got != says).map(|t| format!("\"{t}\"")).collect();
        if could.len() > 1 {
            let words = format!("says = \"{says}\" could be any of {}: take more of its words", could.join(", "));
            self.slip(row.line_of("says"), words);
        }
    }

    fn args(&mut self, item: &Item<'_>) {
        let row = item.row;
        let text = self.rule.texts.get(item.text as usize);
        let announced = text.map(|t| t.args.clone()).unwrap_or_default();
        let line = row.line_of("args");
        let wanted = match row.get("args") {
            None => None,
            Some(CaseValue::Row(args)) => Some(args),
            Some(other) => return self.slip(line, format!("args = {other}: names with values in {{ }} are wanted")),
        };
        if let Some(stray) = wanted.and_then(|w| w.cells.keys().find(|n| !announced.iter().any(|a| a.name == **n))) {
            self.slip(line, format!("args has {stray}, and its text announces no such argument: take it out"));
        }
        for (argument, got) in announced.iter().zip(item.args) {
            let name = argument.name.as_str();
            let kind = Kind::by_id(&argument.kind);
            let word = (argument.kind == "choice")
                .then(|| argument.choices.get(*got as usize).map_or("a word that it has not got", String::as_str));
            let value = match wanted.and_then(|w| w.get(name)) {
                None => {
                    let got = word.map_or_else(|| tell(*got, kind, 2), |w| format!("\"{w}\""));
                    self.slip(
                        line,
                        format!(
                            "its text has the argument {name}, {got}, and the case does not say so: work it out from its source \
                             and write args = {{ {name} = \"..\" }}"
                        ),
                    );
                    continue;
                }
                Some(value) => value.clone(),
            };
            if let Some(word) = word {
                if value != CaseValue::Text(word.to_owned()) {
                    self.slip(line, format!("the argument {name} is \"{word}\"; wanted {value}: {CORRECT}"));
                }
                continue;
            }
            match self.number(item, name, &value, kind, &[]) {
                Ok(number) if same(*got, number) => {}
                Ok(number) => {
                    let (got, number) = tell_apart(*got, number, kind);
                    self.slip(line, format!("the argument {name} is {got}; wanted {number} ({value}): {CORRECT}"));
                }
                Err(words) => self.slip(line, format!("the argument {name} = {value}: {words}")),
            }
        }
    }

    /// A number as a case states it: by itself, or as arithmetic over what is given and what stands beside it.
    fn number(
        &self,
        item: &Item<'_>,
        name: &str,
        value: &CaseValue,
        kind: Option<Kind>,
        siblings: &[&'static str],
    ) -> Result<f64, String> {
        let names = Beside { holder: self, item, kind, siblings, within: vec![name.to_owned()] };
        Ok(names.number(value, kind)?.value)
    }
}

/// The names that arithmetic can use: facts that are given, the limits beside it and the arguments.
struct Beside<'a> {
    holder: &'a Holder<'a>,
    item: &'a Item<'a>,
    kind: Option<Kind>,
    siblings: &'a [&'static str],
    /// What is being worked out: a limit cannot be made of itself.
    within: Vec<String>,
}

impl Beside<'_> {
    fn number(&self, value: &CaseValue, kind: Option<Kind>) -> Result<Number, String> {
        match value {
            CaseValue::Text(text) | CaseValue::Number(text) => evaluate(text, kind, self),
            _ => Err("a number or arithmetic in quotes is wanted".to_owned()),
        }
    }

    fn beside(&self, name: &str, value: &CaseValue, kind: Option<Kind>) -> Result<Vec<Number>, String> {
        if self.within.iter().any(|n| n == name) {
            return Err(format!("{{{name}}} is made of itself"));
        }
        let within = self.within.iter().cloned().chain([name.to_owned()]).collect();
        let inner = Beside { holder: self.holder, item: self.item, kind: self.kind, siblings: self.siblings, within };
        Ok(vec![inner.number(value, kind)?])
    }
}

impl Names for Beside<'_> {
    fn get(&self, name: &str) -> Result<Vec<Number>, String> {
        let (holder, item) = (self.holder, self.item);
        if self.siblings.contains(&name) {
            let Some(value) = item.row.get(name) else { return Err(format!("{name} is not said in this row")) };
            return self.beside(name, value, self.kind);
        }
        let text = holder.rule.texts.get(item.text as usize);
        let argument = text.and_then(|t| t.args.iter().find(|a| a.name == name && a.kind != "choice"));
        if let Some(argument) = argument {
            let value = match item.row.get("args") {
                Some(CaseValue::Row(args)) => args.get(name),
                _ => None,
            };
            let value = value.ok_or_else(|| format!("args has no {name}"))?;
            return self.beside(name, value, Kind::by_id(&argument.kind));
        }
        let facts = &holder.manifest.facts;
        let Some((at, fact)) = facts.iter().enumerate().find(|(_, f)| f.id == name) else {
            return Err(format!(
                "there is no {{{name}}}: the pack does not ask for that fact, and nothing beside it is called so"
            ));
        };
        let Some(kind) = Kind::by_id(&fact.kind) else {
            return Err(format!("{{{name}}} is a {}, no number", fact.kind));
        };
        let values = holder.case.facts.of(at);
        if values.is_empty() {
            return Err(format!("{{{name}}} is not given in this case"));
        }
        // at one place, that place's
        let own = item.place.filter(|_| values.len() > 1).and_then(|p| values.get(p as usize));
        let all = own.map_or(values, std::slice::from_ref);
        let read = all.iter().filter(|v| !v.is_nan());
        Ok(read.map(|v| Number::of(*v, Some(kind))).collect())
    }
}

fn level(word: &str) -> Option<Level> {
    match word {
        "no-go" => Some(Level::Hold),
        "look" => Some(Level::Warn),
        "note" => Some(Level::Note),
        _ => None,
    }
}

fn same(got: f64, wanted: f64) -> bool {
    (got - wanted).abs() <= SAME * wanted.abs() + NOTHING
}

fn many(count: usize, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// A number with its unit, and with `more` decimals than the trade prints.
fn tell(si: f64, kind: Option<Kind>, more: usize) -> String {
    let Some(kind) = kind else { return format!("{si:e} (SI)") };
    let number = kind.number_with(si, System::Inch, more);
    match kind.print(System::Inch).unit {
        "" => number,
        unit => format!("{number} {unit}"),
    }
}

/// Two numbers with as many decimals as it takes to see that they differ.
fn tell_apart(a: f64, b: f64, kind: Option<Kind>) -> (String, String) {
    let both = |more| (tell(a, kind, more), tell(b, kind, more));
    (0..9).map(both).find(|(a, b)| a != b).unwrap_or_else(|| both(9))
}
