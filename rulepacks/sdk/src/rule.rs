//! A rule and a pack, as constants.
//!
//! [`Rule`], [`Remedy`], [`ServiceInfo`], [`StepInfo`], [`Input`], [`Use`], [`Fallback`] and [`Wears`] are the manifest's
//! of the same name in `thou_contract`, in a form that can be a constant: a manifest owns its words, a constant cannot.
//! A service's [`LogInfo`] stands in the manifest's service.

use crate::{Answer, Fact, Facts, Outcome, Raw, ReasonNumber};
use thou_contract::logged::OverRev;
use thou_contract::wear::Stress;
use thou_contract::{Basis, RuleKind};

/// The reason that the kit adds to every window rule, after its own.
pub const CROSSED: &str = "the limits that come of these figures cross: look at what the sheet and the card state";

/// One rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Kebab-case, the trade's name.
    pub id: &'static str,
    /// What it answers with.
    pub kind: RuleKind,
    /// As a heading.
    pub title: &'static str,
    /// receiving, block, crank, rods-and-pistons, rings, heads, mock-up, assembly, hand-over or combination.
    pub operation: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What its working limits rest on.
    pub basis: Basis,
    /// Whose number it is.
    pub source: &'static str,
    /// What its never-limits rest on, where that differs.
    pub hold_basis: Option<Basis>,
    /// Whose the never-limits are.
    pub hold_source: Option<&'static str>,
    /// Facts it judges.
    pub judges: &'static [&'static str],
    /// Facts it is not asked without.
    pub needs: &'static [Fact],
    /// Facts it takes if they are there.
    pub takes: &'static [Fact],
    /// Why it does not apply or cannot say.
    pub reasons: &'static [&'static str],
    /// What it says.
    pub texts: &'static [Text],
    /// Rules it stands in for.
    pub supersedes: &'static [&'static str],
    /// For a service.
    pub service: Option<ServiceInfo>,
    /// For a service: what an engine's log says of the part.
    pub log: LogInfo,
    /// For a step.
    pub step: Option<StepInfo>,
    /// The rule itself.
    pub assess: fn(&Facts<'_>, &mut Answer) -> Outcome,
}

impl Rule {
    /// A rule with nothing filled in, to build the rest on: `Rule { id: "...", ..Rule::WINDOW }`.
    pub const WINDOW: Self = Self {
        id: "",
        kind: RuleKind::Window,
        title: "",
        operation: "",
        why: "",
        basis: Basis::Practice,
        source: "common practice, no source",
        hold_basis: None,
        hold_source: None,
        judges: &[],
        needs: &[],
        takes: &[],
        reasons: &[],
        texts: &[],
        supersedes: &[],
        service: None,
        log: LogInfo::NOTHING,
        step: None,
        assess: |_, _| Outcome::Clear,
    };
    /// The same for a finding.
    pub const FINDING: Self = Self { kind: RuleKind::Finding, ..Self::WINDOW };
    /// The same for a service.
    pub const SERVICE: Self = Self { kind: RuleKind::Service, operation: "hand-over", ..Self::WINDOW };
    /// The same for a step.
    pub const STEP: Self = Self { kind: RuleKind::Step, ..Self::WINDOW };
}

/// One thing a rule can say; the fields are those of the manifest.
#[derive(Debug, Clone, Copy)]
pub struct Text {
    /// What is wanted, or what is wrong.
    pub words: &'static str,
    /// Whose limits these are, when not the pack's.
    pub whose: Option<&'static str>,
    /// This answer's basis, when not the rule's.
    pub basis: Option<Basis>,
    /// This answer's basis of the never-limits, when not the rule's.
    pub hold_basis: Option<Basis>,
    /// What to do on the low side, or at all.
    pub low: Option<Remedy>,
    /// What to do on the high side.
    pub high: Option<Remedy>,
    /// The answer's arguments.
    pub args: &'static [Arg],
    /// Facts that a finding points at.
    pub points_at: &'static [&'static str],
    /// For a service with this text: how an outing counts, when not as the service says.
    pub duty: Option<Duty>,
}

impl Text {
    /// These words and nothing else.
    #[must_use]
    pub const fn new(words: &'static str) -> Self {
        Self {
            words,
            whose: None,
            basis: None,
            hold_basis: None,
            low: None,
            high: None,
            args: &[],
            points_at: &[],
            duty: None,
        }
    }
    /// The same words as the maker's card has the limits.
    #[must_use]
    pub const fn card(words: &'static str, whose: &'static str) -> Self {
        Self { whose: Some(whose), basis: Some(Basis::Maker), ..Self::new(words) }
    }
    /// With what to do on the low side, or at all.
    #[must_use]
    pub const fn low(self, words: &'static str) -> Self {
        Self { low: Remedy::say(words), ..self }
    }
    /// With what to do on the high side.
    #[must_use]
    pub const fn high(self, words: &'static str) -> Self {
        Self { high: Remedy::say(words), ..self }
    }
}

/// What to do.
#[derive(Debug, Clone, Copy)]
pub struct Remedy {
    /// The words; `{solve}` is the size to go to.
    pub words: &'static str,
    /// The fact to change and the way it may go: `up`, `down`, `either`.
    pub solve: Option<(&'static str, &'static str)>,
}

impl Remedy {
    /// Words alone.
    #[must_use]
    pub const fn say(words: &'static str) -> Option<Self> {
        Some(Self { words, solve: None })
    }
    /// Words with a size that the host solves for.
    #[must_use]
    pub const fn solve(words: &'static str, fact: &'static str, may: &'static str) -> Option<Self> {
        Some(Self { words, solve: Some((fact, may)) })
    }
}

/// One argument of an answer.
#[derive(Debug, Clone, Copy)]
pub struct Arg {
    /// Its name in the template.
    pub name: &'static str,
    /// Its kind of quantity, or `choice`.
    pub kind: &'static str,
    /// The words of a choice.
    pub choices: &'static [&'static str],
}

impl Arg {
    /// A quantity.
    #[must_use]
    pub const fn of(name: &'static str, kind: &'static str) -> Self {
        Self { name, kind, choices: &[] }
    }
}

/// What a plan needs to know of a service; see the manifest.
#[derive(Debug, Clone, Copy)]
pub struct ServiceInfo {
    /// The part.
    pub part: &'static str,
    /// inspect, measure, adjust, replace, recondition or replace-by-date.
    pub action: &'static str,
    /// built, made, certified or last-done.
    pub since: &'static str,
    /// nothing, valve-covers, plugs, valvetrain, intake, pan, heads or engine-out.
    pub opens: &'static str,
    /// Services that it also settles.
    pub resets: &'static [&'static str],
    /// Hours, once open.
    pub hours: f64,
    /// engine, money or power.
    pub loses: &'static str,
    /// What beats the calendar.
    pub triggers: &'static [&'static str],
    /// The caution.
    pub caution: Option<&'static str>,
    /// The sections of the sheet that hold the part, whose `used` it brings along: `&["springs"]`; none: `&[]`.
    pub held_in: &'static [&'static str],
    /// How an outing counts for the part.
    pub duty: Duty,
}

/// What an engine's log says of the part that a service is done to; in a manifest these stand with the service.
#[derive(Debug, Clone, Copy)]
pub struct LogInfo {
    /// The readings that begin anew once the part is new.
    pub read_afresh: &'static [&'static str],
    /// The readings that tell the part's end.
    pub told_by: &'static [&'static str],
    /// What an over-rev does to the part.
    pub over_rev: &'static [OverRev],
    /// The readings that are this service done, once they were taken at every place.
    pub done_by: &'static [&'static str],
    /// What a failure of the part reaches.
    pub reaches: &'static [Reach],
    /// How sharply lives of the part end: the shape of a Weibull distribution; none for the usual one.
    pub shape: Option<f64>,
}

impl LogInfo {
    /// Nothing, to build the rest on.
    pub const NOTHING: Self =
        Self { read_afresh: &[], told_by: &[], over_rev: &[], done_by: &[], reaches: &[], shape: None };
}

/// What a failed part reaches: what is looked at before the engine runs again.
#[derive(Debug, Clone, Copy)]
pub struct Reach {
    /// How it failed: the beginnings of words that a shop writes then, the first its name; none: however it failed.
    pub by: &'static [&'static str],
    /// What to look at, a sentence.
    pub look: &'static str,
}

/// What hurts a part: the worst of several places of it counts, and in each place stresses multiply.
pub type Wears = &'static [&'static [Stress]];

/// How an outing counts for a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Duty {
    /// By the outing alone, however hard it was.
    Outing,
    /// By the turns of the engine in it, however hard they were.
    Turns,
    /// By what hurts the part. Scale its lives from the same constant, and the log counts down as the rule counted up.
    Worn(Wears),
}

/// What the host needs to know of a step.
#[derive(Debug, Clone, Copy)]
pub struct StepInfo {
    /// Steps before it.
    pub after: &'static [&'static str],
    /// Rules that must be go before it.
    pub until: &'static [&'static str],
    /// The caution.
    pub caution: Option<&'static str>,
}

/// A field that the pack adds to the sheet.
#[derive(Debug, Clone, Copy)]
pub struct Input {
    /// `extra.<pack>.<field>`.
    pub id: &'static str,
    /// Its kind of quantity, or `choice`, `flag` or `text`.
    pub kind: &'static str,
    /// What to write.
    pub about: &'static str,
    /// What its values run over.
    pub axis: &'static str,
    /// For a choice: its words, where they are not those of the fact.
    pub choices: &'static [&'static str],
    /// From the smallest to the largest that there can be at all.
    pub band: Option<[&'static str; 2]>,
    /// The usual gauge of what is read.
    pub gauge: Option<&'static str>,
    /// The work that makes a reading stale.
    pub moved_by: &'static [&'static str],
    /// The uses in which a sheet without it is open.
    pub required_for: &'static [&'static str],
}

impl Input {
    /// One for the engine, stated, to build the rest on.
    pub const STATED: Self = Self {
        id: "",
        kind: "",
        about: "",
        axis: "one",
        choices: &[],
        band: None,
        gauge: None,
        moved_by: &[],
        required_for: &[],
    };
}

/// A use that the pack declares.
#[derive(Debug, Clone, Copy)]
pub struct Use {
    /// Its name in `intent.use`.
    pub id: &'static str,
    /// One line.
    pub title: &'static str,
    /// What it is.
    pub about: &'static str,
    /// The use whose numbers hold meanwhile.
    pub like: &'static str,
}

/// A value that the host fills in and reports.
#[derive(Debug, Clone, Copy)]
pub struct Fallback {
    /// The fact.
    pub fact: &'static str,
    /// As text with its unit.
    pub value: &'static str,
    /// Whose number it is.
    pub source: &'static str,
}

/// A pack.
#[derive(Debug, Clone, Copy)]
pub struct Pack {
    /// Kebab-case.
    pub id: &'static str,
    /// Its version.
    pub version: &'static str,
    /// One line.
    pub title: &'static str,
    /// A few sentences.
    pub about: &'static str,
    /// The table of [`crate::facts!`].
    pub facts: &'static [Fact],
    /// What its services count on.
    pub meters: &'static [&'static str],
    /// Fields it adds.
    pub inputs: &'static [Input],
    /// Uses it adds.
    pub uses: &'static [Use],
    /// Values it wants filled in.
    pub defaults: &'static [Fallback],
    /// Its rules.
    pub rules: &'static [&'static Rule],
}

impl Pack {
    /// A pack with nothing in it, to build the rest on.
    pub const EMPTY: Self = Self {
        id: "",
        version: "0.1.0",
        title: "",
        about: "",
        facts: &[],
        meters: &[],
        inputs: &[],
        uses: &[],
        defaults: &[],
        rules: &[],
    };

    /// A pack of these rules on these facts, version 0.1.0: `Pack { version: "1.2.0", ..Pack::new(...) }` for the rest.
    #[must_use]
    pub const fn new(
        id: &'static str,
        title: &'static str,
        about: &'static str,
        facts: &'static [Fact],
        rules: &'static [&'static Rule],
    ) -> Self {
        Self { id, title, about, facts, rules, ..Self::EMPTY }
    }

    /// Asks these rules, and hands back all that they said. A rule whose limits cross or are no numbers cannot say, with
    /// [`CROSSED`] as its reason, which every rule's manifest has after its own.
    #[must_use]
    pub fn assess(&self, ask: &[u32], facts: &Facts<'_>) -> Raw {
        let mut answer = Answer::default();
        for &index in ask {
            let Some(rule) = self.rules.get(index as usize) else { continue };
            let before = answer.windows();
            answer.begin(index);
            let outcome = (rule.assess)(facts, &mut answer);
            let crossed = ReasonNumber(u32::try_from(rule.reasons.len()).unwrap_or(u32::MAX));
            answer.end(outcome, before, crossed);
        }
        answer.into_raw()
    }
}
