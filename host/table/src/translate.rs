//! From a draft to a manifest and to what each rule does: names are looked up, expressions checked.

use crate::beside::{Beside, Collector};
use crate::catalogue::{AskedFacts, KnownFacts};
use crate::check::{Checker, Reasons};
use crate::draft::{self, Draft, DraftBody, DraftDays, DraftRemedy};
use crate::fault::TableFault;
use crate::json::SourceText;
use crate::module::{AnswerCode, AnswerKind, Days, RuleCode};
use crate::scan::{self, ExpressionSlip, Scan, TableNames};
use crate::tree::{NumExpr, Side};
use cel::IdedExpr;
use cel::common::ast::SourceInfo;
use cel::parser::Parser;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use thou_contract::{
    Basis, CONTRACT, Kind, Manifest, Measure, Rule, RuleKind, RuleText as Said, ServiceInfo, StepInfo,
};
use thou_text::clean::clip;
use thou_text::nearest;

/// Most windows, findings and services of a whole table.
const MOST_PARTS: usize = 1_000;
/// Most words, numbers and signs that are translated in all, a rule's condition once for each of its windows: what bounds
/// the time that a table takes to load. The starter has 6,000.
const MOST_WORDS: usize = 40_000;
/// What a rule says where nothing of its own fits.
const NOT_READ: &str = "what it works from is not in the sheet, or not read yet here";
const NO_NUMBER: &str = "its numbers come to nothing here: a division by zero, or beyond all bounds";
const NO_ORDER: &str = "its limits come out of order for this build";
/// The number of what has no number, where a rule has too many reasons to tell which; and of the first reason of its own.
const ANY_NUMBER: u32 = 2;
const FIRST_REASON: u32 = 4;

/// A table made ready to be written down.
pub(crate) struct Translated {
    pub(crate) manifest: Manifest,
    pub(crate) rules: Vec<RuleCode>,
    /// Whether each fact runs over places.
    pub(crate) runs: Vec<bool>,
}

/// Looks everything up. What is wrong is in `faults`.
pub(crate) fn translate(draft: Draft, body: &str, known: &KnownFacts<'_>, faults: &mut Vec<TableFault>) -> Translated {
    let uses = draft.uses.iter().map(|u| u.id.clone()).collect();
    let mut collector = Collector { faults: &mut *faults, names: TableNames::default(), beside: Beside::default() };
    for (name, value) in &draft.settings {
        collector.setting(name, value, known);
    }
    for (name, entries) in draft.lists {
        collector.list(&name, entries);
    }
    for (name, map) in draft.maps {
        collector.map(&name, map);
    }
    let (mut inputs, mut own, mut defaults) = (Vec::new(), Vec::new(), Vec::new());
    for draft_input in &draft.inputs {
        let (input, fact, default) = collector.input(&draft.id, draft_input, known);
        inputs.push(input);
        own.push(fact);
        defaults.extend(default);
    }
    let Collector { names, beside, .. } = collector;
    let mut t = Translator {
        asked: AskedFacts::new(known, uses, &own),
        known,
        faults,
        body,
        names,
        beside,
        days: draft.days,
        reasons: Vec::new(),
        title: draft.title.clone(),
        basis: draft.basis,
        source: draft.source.unwrap_or_else(|| draft.title.clone()),
        meters: Vec::new(),
        parts: 0,
        words: 0,
    };
    let mut seen: BTreeMap<String, Range<usize>> = BTreeMap::new();
    let (mut rules, mut codes) = (Vec::new(), Vec::new());
    for rule in draft.rules {
        if seen.insert(rule.id.value.clone(), rule.id.span.clone()).is_some() {
            t.say(
                rule.id.span.clone(),
                format!("there are two rules called \"{}\"", rule.id.value),
                Some("give one of them another name".to_owned()),
            );
        }
        let (rule, code) = t.rule(&draft.id, rule);
        rules.push(rule);
        codes.push(code);
    }
    // what it asks for it is given, whether a rule of it hangs on that or not
    for fact in &own {
        t.asked.ask(fact);
    }
    let facts = t.asked.take();
    let runs = facts.iter().map(|f| f.axis != "one").collect();
    let manifest = Manifest {
        contract: CONTRACT.to_owned(),
        id: draft.id,
        version: draft.version,
        title: draft.title,
        about: draft.about,
        facts,
        meters: t.meters,
        inputs,
        uses: draft.uses,
        defaults,
        rules,
    };
    for (draft, input) in draft.inputs.iter().zip(&manifest.inputs) {
        for what in thou_fields::input_faults(&manifest, input) {
            let message = format!("input {}: {what}", draft.id.value);
            faults.push(TableFault { message, help: None, span: draft.id.span.clone() });
        }
    }
    Translated { manifest, rules: codes, runs }
}

struct Translator<'t> {
    asked: AskedFacts<'t>,
    known: &'t KnownFacts<'t>,
    faults: &'t mut Vec<TableFault>,
    /// The table's text.
    body: &'t str,
    names: TableNames,
    beside: Beside,
    /// Of the table, for every rule.
    days: DraftDays,
    /// The reasons of the rule at hand beside those that every rule has.
    reasons: Vec<String>,
    title: String,
    basis: Basis,
    source: String,
    meters: Vec<String>,
    parts: usize,
    words: usize,
}

/// What a rule's expressions use, all together.
#[derive(Default)]
struct RuleUses {
    /// Each fact: whether `has` asks for it, and where it first stands.
    facts: BTreeMap<u32, (bool, Range<usize>)>,
}

/// What one part's expressions run over.
#[derive(Default)]
struct AnswerPlaces {
    axis: Option<String>,
    place: Range<usize>,
    facts: BTreeSet<u32>,
}

/// What a window's limits measure, once they are checked.
type WindowMeasures = BTreeMap<Side, Measure>;

/// An expression as CEL has it.
struct Parsed<'x> {
    text: &'x SourceText,
    scan: Scan,
    expr: IdedExpr,
    source: SourceInfo,
}

impl<'t> Translator<'t> {
    fn say(&mut self, span: Range<usize>, message: impl Into<String>, help: Option<String>) {
        self.faults.push(TableFault { message: message.into(), help, span });
    }

    fn slip(&mut self, text: &SourceText, slip: ExpressionSlip) {
        let span = text.place(&slip.at);
        self.say(span, slip.message, slip.help);
    }

    fn rule(&mut self, table: &str, rule: draft::DraftRule) -> (Rule, RuleCode) {
        let stood_in = self.superseded(table, &rule.supersedes);
        let judges = self.judges(&rule, stood_in);
        let mut uses = RuleUses::default();
        let (mut texts, mut parts, mut service, mut step) = (Vec::new(), Vec::new(), None, None);
        self.reasons.clear();
        let when = rule.when.as_ref().and_then(|w| self.parse(w));
        let kind = match &rule.body {
            DraftBody::Windows(windows) => {
                for window in windows {
                    if let Some(part) = self.window(window, when.as_ref(), &judges, &mut uses, texts.len()) {
                        parts.push(part);
                    }
                    texts.push(self.window_text(window, stood_in, !judges.is_empty()));
                }
                RuleKind::Window
            }
            DraftBody::Finding(finding) => {
                if rule.when.is_none() {
                    let help = "say in \"when\" for which builds it is meant";
                    self.say(
                        rule.id.span.clone(),
                        format!("the finding {} has no \"when\"", rule.id.value),
                        Some(help.to_owned()),
                    );
                }
                let mut over = AnswerPlaces::default();
                let when = when.as_ref().and_then(|w| self.condition(w, &mut uses, &mut over));
                let gives = AnswerKind::Finding(finding.level);
                parts.push(AnswerCode {
                    when: when.into_iter().collect(),
                    over: over.facts.into_iter().collect(),
                    text: 0,
                    gives,
                });
                let runs = over.axis.as_ref().and_then(|axis| {
                    let on = |id: &str| self.asked.fact(id).is_some_and(|f| f.axis == *axis);
                    let told = finding.points_at.first().is_some_and(|f| on(&f.value));
                    let first = uses.facts.keys().map(|f| self.asked.id(*f).to_owned()).find(|id| on(id));
                    first.filter(|_| !told)
                });
                let mut text = self.finding_text(finding);
                // a place is one of the first fact that it points at
                text.points_at.splice(0..0, runs);
                texts.push(text);
                RuleKind::Finding
            }
            DraftBody::Step(draft) => {
                let mut over = AnswerPlaces::default();
                let when = when.as_ref().and_then(|w| self.condition(w, &mut uses, &mut over));
                if let Some(axis) = &over.axis {
                    let help = "a step is done once an engine: ask any(..) or all(..) of its places";
                    self.say(over.place.clone(), format!("this has a value a {axis}"), Some(help.to_owned()));
                }
                let gives = AnswerKind::Step;
                parts.push(AnswerCode { when: when.into_iter().collect(), over: Vec::new(), text: 0, gives });
                self.template(&draft.words, false, false);
                texts.push(said(draft.words.value.clone(), Some(self.title.clone())));
                let list = |names: &[SourceText]| names.iter().map(|t| t.value.clone()).collect();
                step = Some(StepInfo {
                    after: list(&draft.after),
                    until: list(&draft.until),
                    caution: draft.caution.clone(),
                });
                RuleKind::Step
            }
            DraftBody::Service(draft) => {
                let mut over = AnswerPlaces::default();
                let when = when.as_ref().and_then(|w| self.condition(w, &mut uses, &mut over));
                service = Some(self.service(draft, stood_in, &rule.id));
                if let Some(gives) = self.lives(draft, &mut uses, &mut over) {
                    parts.push(AnswerCode {
                        when: when.into_iter().collect(),
                        over: over.facts.into_iter().collect(),
                        text: 0,
                        gives,
                    });
                }
                if let Some(words) = &draft.words {
                    self.template(words, false, false);
                }
                let words =
                    draft.words.as_ref().map_or_else(|| "by this shop's own count".to_owned(), |w| w.value.clone());
                texts.push(said(words, Some(self.title.clone())));
                RuleKind::Service
            }
        };
        self.parts += parts.len();
        if self.parts > MOST_PARTS && self.parts - parts.len() <= MOST_PARTS {
            let message = format!("a table has at most {MOST_PARTS} windows, findings and services");
            self.say(rule.id.span.clone(), message, Some("make two tables of it".to_owned()));
        }
        let days = self.days_of(&rule.days, &mut uses);
        let (needs, takes) = self.needs(&uses, &judges);
        let why = rule.why.or_else(|| stood_in.map(|r| r.why.clone()));
        if why.is_none() {
            let help = "say in a sentence why it matters; a rule that supersedes another takes that one's";
            self.say(rule.id.span.clone(), format!("the rule {} has no \"why\"", rule.id.value), Some(help.to_owned()));
        }
        let operation = rule.operation.map(str::to_owned).or_else(|| stood_in.map(|r| r.operation.clone()));
        let operation = operation.or_else(|| self.page(kind, &judges));
        if operation.is_none() {
            let help =
                "it names the page: block, crank, rods-and-pistons, rings, heads, mock-up, assembly, hand-over, ...";
            self.say(
                rule.id.span.clone(),
                format!("the rule {} has no \"operation\"", rule.id.value),
                Some(help.to_owned()),
            );
        }
        let otherwise = rule.otherwise.unwrap_or_else(|| match &rule.when {
            Some(when) => format!("not for this build: {}", clip(&when.value, 300)).replace(['{', '}'], ""),
            None => "not for this build".to_owned(),
        });
        let title = rule.title.or_else(|| stood_in.map(|r| r.title.clone())).unwrap_or_else(|| spoken(&rule.id.value));
        let clear = kind == RuleKind::Finding;
        let mut reasons = vec![otherwise, NOT_READ.to_owned(), NO_NUMBER.to_owned(), NO_ORDER.to_owned()];
        reasons.append(&mut self.reasons);
        let made = Rule {
            id: rule.id.value,
            kind,
            title,
            operation: operation.unwrap_or_default(),
            why: why.unwrap_or_default(),
            basis: rule.basis.unwrap_or(self.basis),
            source: rule.source.unwrap_or_else(|| self.source.clone()),
            hold_basis: None,
            hold_source: None,
            judges,
            needs,
            takes,
            reasons,
            texts,
            supersedes: rule.supersedes.into_iter().map(|s| s.value).collect(),
            service,
            step,
        };
        (made, RuleCode { parts, clear, days })
    }

    /// Between which days a rule counts: within the table's, if that has any.
    fn days_of(&mut self, own: &DraftDays, uses: &mut RuleUses) -> Option<Days> {
        let later = |a: &(f64, String), b: &(f64, String)| a.0.total_cmp(&b.0);
        let from = [&own.from, &self.days.from].into_iter().flatten().max_by(|a, b| later(a, b)).cloned();
        let until = [&own.until, &self.days.until].into_iter().flatten().min_by(|a, b| later(a, b)).cloned();
        if from.is_none() && until.is_none() {
            return None;
        }
        let fact = self.asked.fact("date")?;
        let fact = self.asked.ask(fact);
        uses.facts.entry(fact).or_insert((false, 0..1)).0 = false;
        let mut reason = |words: String| {
            self.reasons.push(words);
            u32::try_from(self.reasons.len() - 1).unwrap_or(0) + FIRST_REASON
        };
        let until = until.map(|(day, text)| {
            let words = format!("this counted until {text}: see whether there is a newer one, and take it");
            (day + thou_contract::factor::DAY, reason(words))
        });
        let from = from.map(|(day, text)| (day, reason(format!("this counts from {text} on"))));
        Some(Days { fact, from, until })
    }

    /// Each rule that is superseded exists; the first is what the table's leaves unsaid.
    fn superseded(&mut self, table: &str, names: &[SourceText]) -> Option<&'t Rule> {
        let mut first = None;
        for name in names {
            let all =
                self.known.packs.iter().flat_map(|m| m.rules.iter().map(move |r| (format!("{}/{}", m.id, r.id), r)));
            let all: Vec<(String, &Rule)> = all.collect();
            if let Some((_, rule)) = all.iter().find(|(id, _)| *id == name.value) {
                first = first.or(Some(*rule));
                continue;
            }
            let shown = clip(&name.value, 60);
            let tail = |id: &str| id.rsplit('/').next().map(str::to_owned).unwrap_or_default();
            let near = nearest(&name.value, all.iter().map(|(id, _)| id.as_str())).map(str::to_owned);
            let near =
                near.or_else(|| all.iter().find(|(id, _)| tail(id) == tail(&name.value)).map(|(id, _)| id.clone()));
            let help = match near {
                Some(near) => format!("did you mean \"{near}\"?"),
                None if name.value.split('/').next() == Some(table) => "a table cannot supersede itself".to_owned(),
                None => {
                    "write it as pack/rule; `thou pack list` names them all, and a pack that it is in must be loaded \
                         before the table"
                        .to_owned()
                }
            };
            self.say(name.span.clone(), format!("no rule is called \"{shown}\""), Some(help));
        }
        first
    }

    /// The facts that a rule judges, each once, in the order of its windows.
    fn judges(&mut self, rule: &draft::DraftRule, stood_in: Option<&Rule>) -> Vec<String> {
        let DraftBody::Windows(windows) = &rule.body else { return Vec::new() };
        let mut judges: Vec<String> = Vec::new();
        for window in windows {
            let id = match &window.judges {
                Some(text) => {
                    let id = text.value.trim().trim_matches(['{', '}']).to_owned();
                    self.quantity(text, &id);
                    id
                }
                None => match stood_in.map(|r| r.judges.as_slice()) {
                    Some([one]) => one.clone(),
                    Some([_, _, ..]) => {
                        let help = "the rule that it supersedes judges several";
                        self.say(
                            first_byte(&window.span),
                            "this window does not say which fact it \"judges\"",
                            Some(help.to_owned()),
                        );
                        continue;
                    }
                    _ => {
                        self.say(first_byte(&window.span), "this window does not say which fact it \"judges\"", None);
                        continue;
                    }
                },
            };
            if !judges.contains(&id) {
                judges.push(id);
            }
        }
        judges
    }

    /// A fact that is a number.
    fn quantity(&mut self, text: &SourceText, id: &str) {
        let Some(fact) = self.asked.fact(id) else {
            let help = match self.asked.near(id) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => "`thou facts` lists them".to_owned(),
            };
            self.say(text.span.clone(), format!("there is no fact \"{}\"", clip(id, 60)), Some(help));
            return;
        };
        if Kind::by_id(&fact.kind).is_none() {
            let what = if fact.kind == "choice" { "a word" } else { "yes or no" };
            self.say(
                text.span.clone(),
                format!("{id} is {what}: only a number has a window"),
                Some("make it a \"finding\"".to_owned()),
            );
        }
    }

    fn window(
        &mut self,
        window: &draft::DraftWindow,
        when: Option<&Parsed<'_>>,
        judges: &[String],
        uses: &mut RuleUses,
        text: usize,
    ) -> Option<AnswerCode> {
        let id = match &window.judges {
            Some(text) => text.value.trim().trim_matches(['{', '}']).to_owned(),
            None => judges.first()?.clone(),
        };
        let fact = self.asked.fact(&id)?;
        let kind = Kind::by_id(&fact.kind)?;
        let mut over = AnswerPlaces::default();
        let before = uses.facts.clone();
        let mut conditions = Vec::new();
        conditions.extend(when.and_then(|w| self.condition(w, uses, &mut over)));
        if let Some(own) = &window.when
            && let Some(parsed) = self.parse(own)
        {
            conditions.extend(self.condition(&parsed, uses, &mut over));
        }
        let mut own = WindowMeasures::new();
        let [never_below, low, aim, high, never_above] = window.limits.each_ref();
        let mut limit = |text: &Option<SourceText>, own: &WindowMeasures| {
            self.limit(text.as_ref()?, &id, kind, own, uses, &mut over)
        };
        let low_limit = limit(low, &own);
        own.extend(low.as_ref().map(|_| (Side::Low, Measure::of(kind))));
        let high_limit = limit(high, &own);
        own.extend(high.as_ref().map(|_| (Side::High, Measure::of(kind))));
        let limits = [limit(never_below, &own), low_limit, limit(aim, &own), high_limit, limit(never_above, &own)];
        self.in_order(&window.limits, &limits);
        self.judged_by_itself(judges, uses, &before);
        if let Some(axis) = over.axis.as_ref().filter(|axis| **axis != fact.axis) {
            let used = over.facts.iter().next().map(|f| self.asked.id(*f).to_owned()).unwrap_or_default();
            let (message, help) = if fact.axis == "one" {
                (
                    format!("{used} has a value a {axis}, and {id} is one for the engine"),
                    Some(format!("take one figure of it, {{{used}.min}} or {{{used}.max}}")),
                )
            } else {
                (
                    format!("{used} has a value a {axis}, and {id} one a {}", fact.axis),
                    Some(format!("take one figure of it, {{{used}.min}} or {{{used}.max}}")),
                )
            };
            self.say(over.place.clone(), message, help);
        }
        let fact = judges.iter().position(|j| *j == id).and_then(|i| u32::try_from(i).ok())?;
        let gives = AnswerKind::Window { fact, limits, below: window.below, above: window.above, reuse: window.reuse };
        let text = u32::try_from(text).ok()?;
        Some(AnswerCode { when: conditions, over: over.facts.into_iter().collect(), text, gives })
    }

    /// What is judged is never given to the rule.
    fn judged_by_itself(&mut self, judges: &[String], uses: &RuleUses, before: &BTreeMap<u32, (bool, Range<usize>)>) {
        let new: Vec<(u32, Range<usize>)> =
            uses.facts.iter().filter(|(f, _)| !before.contains_key(f)).map(|(f, (_, at))| (*f, at.clone())).collect();
        for (fact, at) in new {
            let id = self.asked.id(fact).to_owned();
            if judges.contains(&id) {
                let message = format!("{id} is what this rule judges: its window must not move with the reading");
                self.say(
                    at,
                    message,
                    Some("make it of other facts: the drawing's size, the use, the material".to_owned()),
                );
            }
        }
    }

    /// Limits that are the same in every build rise from never-below to never-above.
    fn in_order(&mut self, texts: &[Option<SourceText>; 5], limits: &[Option<NumExpr>; 5]) {
        const NAMES: [&str; 5] = ["never-below", "low", "aim", "high", "never-above"];
        let mut under: Option<(&str, f64, String)> = None;
        let all = NAMES.into_iter().zip(texts).zip(limits);
        for ((name, text), limit) in all {
            let (Some(text), Some(value)) = (text, limit.as_ref().and_then(NumExpr::constant)) else { continue };
            if let Some((lower, floor, words)) = &under
                && floor - value > 1e-9 * floor.abs().max(value.abs())
            {
                let message = format!("\"{name}\" is {}, under \"{lower}\", which is {words}", clip(&text.value, 40));
                self.say(
                    text.span.clone(),
                    message,
                    Some("they rise: never-below, low, aim, high, never-above".to_owned()),
                );
                return;
            }
            under = Some((name, value, clip(&text.value, 40)));
        }
    }

    fn limit(
        &mut self,
        text: &SourceText,
        fact: &str,
        kind: Kind,
        own: &WindowMeasures,
        uses: &mut RuleUses,
        over: &mut AnswerPlaces,
    ) -> Option<NumExpr> {
        let parsed = self.parse(text)?;
        self.checked(&parsed, uses, over, |checker, expr| {
            checker.own.clone_from(own);
            checker.limit(expr, fact, kind)
        })
    }

    fn condition(
        &mut self,
        parsed: &Parsed<'_>,
        uses: &mut RuleUses,
        over: &mut AnswerPlaces,
    ) -> Option<crate::tree::BoolExpr> {
        self.checked(parsed, uses, over, |checker, expr| checker.bool(expr))
    }

    fn checked<T>(
        &mut self,
        parsed: &Parsed<'_>,
        uses: &mut RuleUses,
        over: &mut AnswerPlaces,
        check: impl FnOnce(&mut Checker<'_, 't>, &IdedExpr) -> Result<T, ExpressionSlip>,
    ) -> Option<T> {
        let before = self.words;
        self.words += parsed.scan.len();
        if self.words > MOST_WORDS {
            if before <= MOST_WORDS {
                let message = format!("this table has more than {MOST_WORDS} words, numbers and signs to translate");
                let help = "make two tables of it; a rule's condition counts once for each of its windows";
                self.say(parsed.text.span.clone(), message, Some(help.to_owned()));
            }
            return None;
        }
        let before = parsed.text.span.start.min(self.body.len());
        let reasons = Reasons {
            words: &mut self.reasons,
            first: FIRST_REASON,
            else_: ANY_NUMBER,
            text: &parsed.text.value,
            line: self.body.get(..before).unwrap_or("").matches('\n').count() + 1,
        };
        let mut checker = Checker::new(&mut self.asked, &parsed.scan, &parsed.source, &self.beside, reasons);
        checker.found.axis = over.axis.clone().map(|axis| (axis, 0..0));
        let result = check(&mut checker, &parsed.expr);
        let found = std::mem::take(&mut checker.found);
        match result {
            Ok(checked) => {
                for (fact, (by_has, at)) in found.facts {
                    let entry = uses.facts.entry(fact).or_insert_with(|| (by_has, parsed.text.place(&at)));
                    entry.0 |= by_has;
                    if found.runs.contains(&fact) {
                        if over.axis.is_none() {
                            over.axis = Some(self.asked.axis(fact).to_owned());
                            over.place = parsed.text.place(&at);
                        }
                        over.facts.insert(fact);
                    }
                }
                Some(checked)
            }
            Err(slip) => {
                self.slip(parsed.text, slip);
                None
            }
        }
    }

    fn parse<'x>(&mut self, text: &'x SourceText) -> Option<Parsed<'x>> {
        if self.words > MOST_WORDS {
            return None;
        }
        let scan = match scan::scan(&text.value, &self.names) {
            Ok(scan) => scan,
            Err(slip) => {
                self.slip(text, slip);
                return None;
            }
        };
        match Parser::new().error_recovery_limit(1).parse_with_source_info(&scan.cel) {
            Ok((expr, source)) => Some(Parsed { text, scan, expr, source }),
            Err(errors) => {
                let column = errors.errors.iter().map(|e| e.pos.1).filter(|c| *c > 0).min().unwrap_or(1);
                let at = usize::try_from(column - 1).unwrap_or(0);
                self.slip(text, no_cel(text, &scan, at));
                None
            }
        }
    }

    fn needs(&self, uses: &RuleUses, judges: &[String]) -> (Vec<String>, Vec<String>) {
        let ids = |by_has: bool| {
            let facts = uses.facts.iter().filter(|(_, (has, _))| *has == by_has);
            facts.map(|(f, _)| self.asked.id(*f).to_owned()).filter(|id| !judges.contains(id)).collect()
        };
        (ids(false), ids(true))
    }

    /// The page where other rules on the same fact are.
    fn page(&self, kind: RuleKind, judges: &[String]) -> Option<String> {
        match kind {
            RuleKind::Finding => Some("combination".to_owned()),
            RuleKind::Service | RuleKind::Step => Some("hand-over".to_owned()),
            RuleKind::Window => {
                let rules = self.known.packs.iter().flat_map(|m| &m.rules);
                let same = rules.filter(|r| r.judges.iter().any(|j| judges.contains(j)));
                same.map(|r| r.operation.clone()).next()
            }
        }
    }

    fn window_text(&mut self, window: &draft::DraftWindow, stood_in: Option<&Rule>, judges: bool) -> Said {
        if let Some(words) = &window.words {
            self.template(words, judges, false);
        }
        for remedy in [&window.too_low, &window.too_high].into_iter().flatten() {
            self.remedy(remedy, judges);
        }
        // the other's remedies where there is no doubt what they are for, but none that print an argument of its answers
        let other = stood_in.filter(|r| r.judges.len() == 1).and_then(|r| r.texts.first());
        let own = |remedy: &&thou_contract::Remedy| !remedy.words.contains("{arg:");
        let low = window.too_low.as_ref().map(|d| d.remedy.clone());
        let high = window.too_high.as_ref().map(|d| d.remedy.clone());
        let words = window.words.as_ref().map_or_else(|| "this shop's window".to_owned(), |w| w.value.clone());
        Said {
            low: low.or_else(|| other.and_then(|t| t.low.as_ref()).filter(own).cloned()),
            high: high.or_else(|| other.and_then(|t| t.high.as_ref()).filter(own).cloned()),
            basis: window.basis,
            hold_basis: window.hold_basis,
            ..said(words, Some(window.whose.clone().unwrap_or_else(|| self.title.clone())))
        }
    }

    fn finding_text(&mut self, finding: &draft::DraftFinding) -> Said {
        self.template(&finding.words, false, false);
        if let Some(remedy) = &finding.remedy {
            self.remedy(remedy, false);
        }
        for fact in &finding.points_at {
            if self.asked.fact(&fact.value).is_none() {
                let near = self.asked.near(&fact.value).map(|n| format!("did you mean \"{n}\"?"));
                self.say(fact.span.clone(), format!("there is no fact \"{}\"", clip(&fact.value, 60)), near);
            }
        }
        Said {
            low: finding.remedy.as_ref().map(|d| d.remedy.clone()),
            points_at: finding.points_at.iter().map(|t| t.value.clone()).collect(),
            ..said(finding.words.value.clone(), Some(self.title.clone()))
        }
    }

    fn remedy(&mut self, remedy: &DraftRemedy, judges: bool) {
        self.template(&remedy.words, judges, remedy.solve.is_some());
        if let Some(solve) = &remedy.solve {
            self.quantity(solve, &solve.value.clone());
        }
    }

    /// Every `{...}` of a text is something that is filled in.
    fn template(&mut self, text: &SourceText, judges: bool, solves: bool) {
        let mut from = 0;
        while let Some(open) = text.value.get(from..).and_then(|rest| rest.find('{')).map(|at| from + at) {
            let rest = text.value.get(open..).unwrap_or("");
            let Some(length) = rest.find('}') else {
                self.say(text.place(&(open..open + 1)), "this { is never closed", None);
                return;
            };
            let inside = rest.get(1..length).unwrap_or("");
            let place = text.place(&(open..open + length + 1));
            match inside.strip_prefix("fact:") {
                Some(id) if self.asked.fact(id).is_some() => {}
                Some(id) => {
                    let near = self.asked.near(id).map(|n| format!("did you mean {{fact:{n}}}?"));
                    self.say(place, format!("there is no fact \"{}\"", clip(id, 60)), near);
                }
                None if inside == "place" || judges && ["low", "aim", "high", "miss"].contains(&inside) => {}
                None if inside == "solve" && solves => {}
                None => {
                    let mut help = "there are {place} and {fact:bore.nominal}".to_owned();
                    if judges {
                        help.push_str(", of a window {low}, {aim}, {high} and {miss}");
                    }
                    if self.asked.fact(inside).is_some() {
                        help = format!("did you mean {{fact:{inside}}}?");
                    }
                    self.say(place, format!("nothing fills in {{{}}}", clip(inside, 40)), Some(help));
                }
            }
            from = open + length + 1;
        }
    }

    fn lives(
        &mut self,
        draft: &draft::DraftService,
        uses: &mut RuleUses,
        over: &mut AnswerPlaces,
    ) -> Option<AnswerKind> {
        let kind = match draft.meter {
            "passes" => "passes",
            "miles" => "distance",
            "hours" => "time",
            "months" => "span",
            _ => "count",
        };
        let kind = Kind::by_id(kind)?;
        let what = format!("a life in {}", draft.meter);
        let [low, nominal, high] = draft
            .lives
            .each_ref()
            .map(|l| l.as_ref().and_then(|l| self.limit(l, &what, kind, &WindowMeasures::new(), uses, over)));
        let lives = [low?, nominal?, high?];
        let constants: Vec<f64> = lives.iter().filter_map(NumExpr::constant).collect();
        if constants.len() == 3 && !constants.is_sorted() {
            let span = first_byte(&draft.span);
            self.say(span, "these lives do not rise: low, nominal, high", None);
        }
        let meter = match self.meters.iter().position(|m| m == draft.meter) {
            Some(at) => at,
            None => {
                self.meters.push(draft.meter.to_owned());
                self.meters.len() - 1
            }
        };
        Some(AnswerKind::Service { meter: u32::try_from(meter).ok()?, lives })
    }

    /// What is done; what the table leaves out is that of the service that it stands in for.
    fn service(&mut self, draft: &draft::DraftService, stood_in: Option<&Rule>, id: &SourceText) -> ServiceInfo {
        let other = stood_in.and_then(|r| r.service.as_ref());
        let fields =
            [("part", draft.part.is_some()), ("action", draft.action.is_some()), ("opens", draft.opens.is_some())];
        if other.is_none() {
            for (name, _) in fields.into_iter().filter(|(_, there)| !there) {
                let message = format!("the service {} has no \"{name}\"", id.value);
                self.say(first_byte(&draft.span), message, None);
            }
        }
        let word = |own: Option<&str>, of: fn(&ServiceInfo) -> &String, plain: &str| {
            own.map(str::to_owned).or_else(|| other.map(|o| of(o).clone())).unwrap_or_else(|| plain.to_owned())
        };
        // how an outing counts is one thing, however it is said
        let (wears, duty) = match (draft.wears.is_empty() && draft.duty.is_none(), other) {
            (true, Some(other)) => (other.wears.clone(), other.duty),
            _ => (draft.wears.clone(), draft.duty),
        };
        let of = |list: fn(&ServiceInfo) -> &Vec<String>| other.map(|o| list(o).clone()).unwrap_or_default();
        ServiceInfo {
            part: word(draft.part.as_deref(), |s| &s.part, "?"),
            action: word(draft.action, |s| &s.action, "inspect"),
            since: word(draft.since, |s| &s.since, "last-done"),
            opens: word(draft.opens, |s| &s.opens, "nothing"),
            resets: Vec::new(),
            hours: draft.hours.or(other.map(|o| o.hours)).unwrap_or(0.0),
            loses: word(draft.loses, |s| &s.loses, "money"),
            triggers: if draft.triggers.is_empty() {
                other.map(|o| o.triggers.clone()).unwrap_or_default()
            } else {
                draft.triggers.clone()
            },
            caution: draft.caution.clone().or_else(|| other.and_then(|o| o.caution.clone())),
            held_in: draft.held_in.clone().or_else(|| other.and_then(|o| o.held_in.clone())),
            wears,
            duty,
            read_afresh: draft.read_afresh.clone().unwrap_or_else(|| of(|o| &o.read_afresh)),
            told_by: draft.told_by.clone().unwrap_or_else(|| of(|o| &o.told_by)),
            over_rev: draft.over_rev.clone().or(other.map(|o| o.over_rev.clone())).unwrap_or_default(),
            done_by: of(|o| &o.done_by),
            reaches: other.map(|o| o.reaches.clone()).unwrap_or_default(),
            shape: draft.shape.or(other.and_then(|o| o.shape)),
        }
    }
}

fn first_byte(span: &Range<usize>) -> Range<usize> {
    span.start..span.start + 1
}

fn said(words: String, whose: Option<String>) -> Said {
    Said {
        words,
        whose,
        basis: None,
        hold_basis: None,
        low: None,
        high: None,
        args: Vec::new(),
        points_at: Vec::new(),
        wears: Vec::new(),
        duty: None,
    }
}

/// "Rod clearance" of `rod-clearance`.
fn spoken(id: &str) -> String {
    let words = id.replace('-', " ");
    let mut chars = words.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// What to say where the grammar gave up.
fn no_cel(text: &SourceText, scan: &Scan, at: usize) -> ExpressionSlip {
    let end = text.value.trim_end().len();
    let word = scan.word(at.min(end.saturating_sub(1))).unwrap_or(at..at + 1);
    let shown = clip(text.value.get(word.clone()).unwrap_or(""), 40);
    if at >= end {
        let message = format!("this ends too soon: something should follow {shown}");
        return ExpressionSlip { message, help: None, at: word };
    }
    let value = |c: char| c.is_alphanumeric() || "{\"'".contains(c);
    let help = if shown.starts_with(value) {
        "between two values stands a sign: + - * / < > == && ||"
    } else {
        "beside a sign stands a value: a {fact} or a number with its unit"
    };
    ExpressionSlip { message: format!("{shown} cannot stand here"), help: Some(help.to_owned()), at: word }
}
