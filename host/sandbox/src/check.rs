//! Holds a pack's answer to its manifest: every index points at something, every number is one.

use super::answer::{CheckedAnswer, OutcomeState, Raw, RuleOutcome, Said, Service, Window};
use super::engine::RunLimits;
use super::fault::PackFaultKind;
use super::pack::Given;
use thou_contract::{Manifest, Rule, RuleText};

/// Limits that are the same but for rounding stand in order, as a share.
const SAME: f64 = 1e-9;

/// The answer, or the first thing in it that makes no sense.
pub(crate) fn checked(
    raw: Raw,
    manifest: &Manifest,
    ask: &[u32],
    given: &Given<'_>,
    limits: &RunLimits,
) -> Result<CheckedAnswer, PackFaultKind> {
    let items = raw.findings.len() + raw.services.len() + raw.steps.len();
    // a window without a place is judged at every place of its fact
    let judged = raw.windows.iter().map(|w| match w.what.place {
        Some(_) => 1,
        None => {
            let fact = manifest.rules.get(index(w.rule)).and_then(|r| r.judges.get(index(w.what.fact)));
            fact.and_then(|f| (given.places)(f)).map_or(1, |places| index(places).max(1))
        }
    });
    if judged.fold(items, usize::saturating_add) > limits.items {
        return Err(PackFaultKind::TooMuchReturned(format!(
            "{} windows, findings, services and steps, counted at every place",
            limits.items
        )));
    }
    Checker { manifest, given, numbers: &raw.numbers }.answer(&raw, ask).map_err(PackFaultKind::Nonsense)
}

struct Checker<'a> {
    manifest: &'a Manifest,
    given: &'a Given<'a>,
    numbers: &'a [f64],
}

impl Checker<'_> {
    fn answer(&self, raw: &Raw, ask: &[u32]) -> Result<CheckedAnswer, String> {
        self.outcomes(&raw.outcomes, ask)?;
        let mut gave = vec![false; self.manifest.rules.len()];
        let mut note = |outcomes: &[RuleOutcome], rule: u32, what: &str| self.answered(outcomes, rule, what, &mut gave);
        let mut answer = CheckedAnswer { outcomes: raw.outcomes.clone(), ..CheckedAnswer::default() };
        for window in &raw.windows {
            note(&raw.outcomes, window.rule, "a window")?;
            answer.windows.push(window.with(self.window(window)?));
        }
        for finding in &raw.findings {
            note(&raw.outcomes, finding.rule, "a finding")?;
            let (rule, text) = self.text(finding.rule, finding.what.text, "a finding")?;
            self.place(rule, finding.what.place, text.points_at.iter().chain(&rule.judges), "a finding")?;
            answer.findings.push(finding.with(self.args(rule, text, finding.args)?));
        }
        for service in &raw.services {
            note(&raw.outcomes, service.rule, "a service")?;
            answer.services.push(service.with(self.service(service)?));
        }
        for step in &raw.steps {
            note(&raw.outcomes, step.rule, "a step")?;
            let (rule, text) = self.text(step.rule, step.what.text, "a step")?;
            if rule.step.is_none() {
                return Err(format!("rule {} gives a step and its manifest has none", rule.id));
            }
            self.place(rule, step.what.place, text.points_at.iter(), "a step")?;
            answer.steps.push(step.with(self.args(rule, text, step.args)?));
        }
        self.all_gave(&raw.outcomes, &gave)?;
        Ok(answer)
    }

    fn outcomes(&self, outcomes: &[RuleOutcome], ask: &[u32]) -> Result<(), String> {
        for (at, &asked) in ask.iter().enumerate() {
            let rule = self.rule(asked)?;
            let Some(outcome) = outcomes.get(at) else {
                return Err(format!("rule {} was asked and has no outcome", rule.id));
            };
            if outcome.rule != asked {
                return Err(match self.manifest.rules.get(index(outcome.rule)) {
                    Some(other) => {
                        format!("where the outcome of rule {} should stand is that of {}", rule.id, other.id)
                    }
                    None => format!("it gives an outcome for a rule {}, and there is none", outcome.rule),
                });
            }
            if let OutcomeState::NotApplicable(reason) | OutcomeState::CannotSay(reason) = outcome.state
                && rule.reasons.get(index(reason)).is_none()
            {
                return Err(format!("rule {} gives reason {reason} of {}", rule.id, rule.reasons.len()));
            }
        }
        if outcomes.len() > ask.len() {
            return Err(format!("{} rules were asked and {} outcomes came", ask.len(), outcomes.len()));
        }
        Ok(())
    }

    /// Notes that a rule gave something, which only one that says so may.
    fn answered(&self, outcomes: &[RuleOutcome], rule: u32, what: &str, gave: &mut [bool]) -> Result<(), String> {
        let id = &self.rule(rule)?.id;
        // outcomes stand in the order asked, which is rising
        let state = outcomes.binary_search_by_key(&rule, |o| o.rule).ok().and_then(|at| outcomes.get(at));
        match state.map(|o| o.state) {
            None => Err(format!("rule {id} was not asked and gives {what}")),
            Some(OutcomeState::Answered) => {
                if let Some(gave) = gave.get_mut(index(rule)) {
                    *gave = true;
                }
                Ok(())
            }
            Some(_) => Err(format!("rule {id} says that it has nothing to say, and gives {what}")),
        }
    }

    fn all_gave(&self, outcomes: &[RuleOutcome], gave: &[bool]) -> Result<(), String> {
        let silent =
            outcomes.iter().find(|o| o.state == OutcomeState::Answered && gave.get(index(o.rule)) != Some(&true));
        match silent {
            Some(outcome) => Err(format!(
                "rule {} says that it answered, and gives nothing (if it looked and has nothing to say, that is clear)",
                self.rule(outcome.rule)?.id
            )),
            None => Ok(()),
        }
    }

    fn window(&self, said: &Said<Window, u32>) -> Result<Vec<f64>, String> {
        let w = &said.what;
        let (rule, text) = self.text(said.rule, w.text, "a window")?;
        let Some(fact) = rule.judges.get(index(w.fact)) else {
            return Err(format!("rule {} judges fact {} of {}", rule.id, w.fact, rule.judges.len()));
        };
        if let Some(place) = w.place {
            let places = (self.given.places)(fact).unwrap_or(0);
            if place >= places {
                return Err(format!("rule {} judges {fact} at place {place}, and there are {places}", rule.id));
            }
        }
        let limits = ["never-below", "low", "aim", "high", "never-above"].into_iter().zip(w.limits());
        let mut below: Option<(&str, f64)> = None;
        for (name, limit) in limits.filter_map(|(name, limit)| Some((name, limit?))) {
            number(rule, name, limit)?;
            if let Some((under, floor)) = below
                && floor - limit > SAME * floor.abs().max(limit.abs())
            {
                return Err(format!(
                    "rule {} gives {fact} a window whose {under} ({floor}) is above its {name} ({limit})",
                    rule.id
                ));
            }
            below = Some((name, limit));
        }
        if [w.never_below, w.low, w.high, w.never_above].iter().all(Option::is_none) {
            return Err(format!("rule {} gives {fact} a window without a limit", rule.id));
        }
        self.args(rule, text, said.args)
    }

    fn service(&self, said: &Said<Service, u32>) -> Result<Vec<f64>, String> {
        let s = &said.what;
        let (rule, text) = self.text(said.rule, s.text, "a service")?;
        if rule.service.is_none() {
            return Err(format!("rule {} gives a service and its manifest has none", rule.id));
        }
        let Some(meter) = self.manifest.meters.get(index(s.meter)) else {
            return Err(format!("rule {} counts on meter {} of {}", rule.id, s.meter, self.manifest.meters.len()));
        };
        for (name, life) in [("low", s.low), ("nominal", s.nominal), ("high", s.high)] {
            number(rule, name, life)?;
        }
        let rising = 0.0 <= s.low && s.low <= s.nominal && s.nominal <= s.high && s.high > 0.0;
        if !rising {
            return Err(format!(
                "rule {} gives lives in {meter} that do not rise from zero: {}, {}, {}",
                rule.id, s.low, s.nominal, s.high
            ));
        }
        self.place(rule, s.place, text.points_at.iter(), "a service")?;
        self.args(rule, text, said.args)
    }

    /// What is said of no fact in particular can be at any place of what the rule works with.
    fn place<'r>(
        &self,
        rule: &'r Rule,
        place: Option<u32>,
        facts: impl Iterator<Item = &'r String>,
        what: &str,
    ) -> Result<(), String> {
        let Some(place) = place else { return Ok(()) };
        let works_with = facts.chain(&rule.needs).chain(&rule.takes);
        let places = works_with.filter_map(|fact| (self.given.places)(fact)).max().unwrap_or(0);
        if place < places {
            return Ok(());
        }
        Err(format!("rule {} gives {what} at place {place}, and what it works with has {places}", rule.id))
    }

    fn rule(&self, rule: u32) -> Result<&Rule, String> {
        let rules = &self.manifest.rules;
        rules.get(index(rule)).ok_or_else(|| format!("it speaks of rule {rule}, and there are {}", rules.len()))
    }

    fn text(&self, rule: u32, text: u32, what: &str) -> Result<(&Rule, &RuleText), String> {
        let rule = self.rule(rule)?;
        match rule.texts.get(index(text)) {
            Some(text) => Ok((rule, text)),
            None => Err(format!("rule {} gives {what} with text {text} of {}", rule.id, rule.texts.len())),
        }
    }

    fn args(&self, rule: &Rule, text: &RuleText, start: u32) -> Result<Vec<f64>, String> {
        let wanted = text.args.len();
        if wanted == 0 {
            return Ok(Vec::new());
        }
        let from = index(start);
        let Some(args) = from.checked_add(wanted).and_then(|to| self.numbers.get(from..to)) else {
            return Err(format!(
                "rule {} wants its {wanted} from number {start} on as arguments, and there are {} numbers",
                rule.id,
                self.numbers.len()
            ));
        };
        for (arg, &value) in text.args.iter().zip(args) {
            number(rule, &format!("argument {}", arg.name), value)?;
            let most = match arg.kind.as_str() {
                "choice" => arg.choices.len() as f64,
                "flag" => 2.0,
                "place" => f64::from(u32::MAX),
                _ => continue,
            };
            if value.fract() != 0.0 || value < 0.0 || value >= most {
                return Err(format!("rule {} gives argument {} as {value}, which is none", rule.id, arg.name));
            }
        }
        Ok(args.to_vec())
    }
}

fn number(rule: &Rule, what: &str, value: f64) -> Result<(), String> {
    if value.is_finite() {
        return Ok(());
    }
    let kind = if value.is_nan() { "not a number" } else { "infinite" };
    Err(format!("rule {} gives a {what} that is {kind}", rule.id))
}

fn index(of: u32) -> usize {
    usize::try_from(of).unwrap_or(usize::MAX)
}
