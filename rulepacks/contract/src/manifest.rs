//! The manifest of a rule pack: everything about it that is words, held to `schemas/pack.schema.json`.
//!
//! Texts are templates. `{low} {aim} {high} {miss}` are the window's limits and how far the reading is outside,
//! `{place}` is the place in the shop's own numbering, `{arg:NAME}` an argument of the answer, `{fact:ID}` a fact at
//! that place; in a remedy `{solve}` is the range of sizes that brings the judged fact inside its window.

use crate::logged::{OverRev, Reach, USUAL_SHAPE};
use crate::wear::{CountBy, Wears, wears};
use serde::{Deserialize, Serialize};

/// The contract that a manifest of this shape belongs to.
pub const CONTRACT: &str = "rules-1.0";

/// The pages of a rule, in the order in which the job goes, and the report with it.
pub const OPERATIONS: [&str; 10] = [
    "combination",
    "receiving",
    "block",
    "crank",
    "rods-and-pistons",
    "rings",
    "heads",
    "mock-up",
    "assembly",
    "hand-over",
];

/// What an engine can be for without any pack; packs add to them.
pub const USES: [&str; 3] = ["street", "bracket", "all-out"];

/// What a service can count on.
pub const METERS: [&str; 5] = ["passes", "miles", "hours", "months", "events"];

/// A rule pack's words and needs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Manifest {
    /// The contract it was written against: `rules-1.0`.
    pub contract: String,
    /// The pack's name, kebab-case; its rules are `id/rule`.
    pub id: String,
    /// Its own version.
    pub version: String,
    /// One line.
    pub title: String,
    /// A few sentences for who might load it.
    pub about: String,
    /// The facts it is given, in the order of the contract's `facts`.
    pub facts: Vec<FactUse>,
    /// The meters its services count on, of [`METERS`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub meters: Vec<String>,
    /// Fields of the sheet that this pack adds, under `extra.<pack>`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inputs: Vec<Input>,
    /// Uses it adds to street, bracket and all-out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub uses: Vec<Use>,
    /// Values the host fills in, and reports, where the sheet has none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub defaults: Vec<Fallback>,
    /// Its rules, in the order of the contract's indices.
    pub rules: Vec<Rule>,
}

/// One fact that a pack asks for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct FactUse {
    /// Its name in the catalogue, or `extra.<pack>.<field>`.
    pub id: String,
    /// Its kind of quantity, or `choice`, or `flag`.
    pub kind: String,
    /// What its values run over: one, cylinder, bank, main, rod, crankpin, valve, cam-journal.
    pub axis: String,
    /// For a choice: the words that the pack knows, in the order of its indices.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<String>,
}

/// A field that a pack adds to the sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Input {
    /// `extra.<pack>.<field>`.
    pub id: String,
    /// Its kind of quantity, or `choice`, `flag` or `text`.
    pub kind: String,
    /// What to write there.
    pub about: String,
    /// What its values run over; the engine where nothing stands here. What is not one for the engine is read with a gauge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axis: Option<String>,
    /// For a choice: the words that it can be; those of the fact where nothing stands here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<String>,
    /// From the smallest to the largest that an engine can have at all, each as text with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band: Option<[String; 2]>,
    /// The usual gauge of what is read, and not only stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gauge: Option<String>,
    /// The work that makes a reading stale, as the sheet's `work` has it: `honed`, `new rods`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moved_by: Vec<String>,
    /// The uses in which a sheet without it is open.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub required_for: Vec<String>,
}

impl Input {
    /// What a field's value can be besides a kind of quantity.
    pub const WORDS: [&str; 3] = ["choice", "flag", "text"];

    /// What its values run over.
    #[must_use]
    pub fn axis(&self) -> &str {
        self.axis.as_deref().unwrap_or("one")
    }
}

/// A use that a pack declares.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Use {
    /// Its name in `intent.use`.
    pub id: String,
    /// One line.
    pub title: String,
    /// What it is.
    pub about: String,
    /// The known use whose numbers hold until a rule says otherwise.
    pub like: String,
}

/// A value that the host fills in where the sheet has none, and reports with its source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Fallback {
    /// The fact.
    pub fact: String,
    /// As text with its unit, or the word of a choice.
    pub value: String,
    /// Whose number it is.
    pub source: String,
}

/// What a rule answers with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RuleKind {
    /// A fact must lie between limits.
    Window,
    /// This combination does not suit that intent.
    Finding,
    /// Do this after so much use.
    Service,
    /// Do this, in this order.
    Step,
}

/// What a limit rests on; it caps how loudly the rule may speak.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Contact, butting, bind, clamp lost, starvation.
    Physics,
    /// The part maker's own sheet.
    Maker,
    /// A published standard.
    Standard,
    /// Published by somebody who can be named by kind.
    Published,
    /// The shop's own number, from its own engines.
    Shop,
    /// Common practice, no source: working limits and findings are never more than a warning, a never-limit holds.
    Practice,
}

impl Basis {
    /// The loudest level that a working limit or a finding of this basis may use.
    #[must_use]
    pub fn cap(self, level: Level) -> Level {
        if self == Self::Practice && level == Level::Hold { Level::Warn } else { level }
    }
    /// As the report prints it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Physics => "physics",
            Self::Maker => "maker",
            Self::Standard => "standard",
            Self::Published => "published",
            Self::Shop => "this shop",
            Self::Practice => "common practice",
        }
    }
}

/// How much it matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Outside what shops work to.
    Warn,
    /// Do not run it like this.
    Hold,
}

/// One rule: its words, what it needs and what it judges.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Rule {
    /// Its name within the pack, kebab-case.
    pub id: String,
    /// What it answers with.
    pub kind: RuleKind,
    /// The name that the trade gives it.
    pub title: String,
    /// The page it belongs on, one of [`OPERATIONS`].
    pub operation: String,
    /// Why it matters, in a sentence or two.
    pub why: String,
    /// What its working limits rest on.
    pub basis: Basis,
    /// Whose number it is, or "common practice, no source".
    pub source: String,
    /// What its never-limits rest on, where that is something else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold_basis: Option<Basis>,
    /// Whose the never-limits are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold_source: Option<String>,
    /// The facts it judges, which it is never given.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub judges: Vec<String>,
    /// Facts without which it is not asked: the verdict is then open.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// Facts it takes if they are there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub takes: Vec<String>,
    /// Why it does not apply, or cannot say.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reasons: Vec<String>,
    /// What it says.
    pub texts: Vec<RuleText>,
    /// Rules, as `pack/rule`, that it stands in for wherever it answers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub supersedes: Vec<String>,
    /// For a service.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service: Option<ServiceInfo>,
    /// For a step.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<StepInfo>,
}

/// One thing a rule can say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct RuleText {
    /// What is wrong or wanted; for a window, what the limits are ("bracket, 2618").
    pub words: String,
    /// Whose limits these are, when not the pack's: "piston card".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub whose: Option<String>,
    /// The basis of this answer's working limits, when not the rule's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub basis: Option<Basis>,
    /// The basis of this answer's never-limits, when not the rule's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold_basis: Option<Basis>,
    /// What to do on the low side, or at all for a finding.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<Remedy>,
    /// What to do on the high side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<Remedy>,
    /// The arguments that an answer with this text carries, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub args: Vec<Argument>,
    /// Facts that a finding points at.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points_at: Vec<String>,
    /// For a service with this text: what hurts the part, when not the service's own (the same part of another material).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wears: Wears,
    /// For a service with this text: how an outing counts, when not as the service says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub duty: Option<CountBy>,
}

/// One argument of an answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Argument {
    /// Its name in the template.
    pub name: String,
    /// Its kind of quantity, or `choice`.
    pub kind: String,
    /// For a choice: the words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<String>,
}

/// What to do about it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Remedy {
    /// The words; `{solve}` is the size to go to.
    pub words: String,
    /// The size that the host solves for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solve: Option<Solve>,
}

/// A size to solve for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Solve {
    /// The fact that is to be changed.
    pub fact: String,
    /// Which way it can go: `up` (bores only grow), `down` (journals only shrink), `either`.
    pub may: String,
}

/// What the host needs to know of a service to put it in a plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ServiceInfo {
    /// The part it is done to.
    pub part: String,
    /// What is done, one of [`Self::ACTIONS`].
    pub action: String,
    /// What its life counts from, one of [`Self::SINCE`].
    pub since: String,
    /// What has to come apart, one of [`Self::OPENS`].
    pub opens: String,
    /// Other services that doing it also settles.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub resets: Vec<String>,
    /// Hours of work, once it is open.
    pub hours: f64,
    /// What is lost if it lets go, one of [`Self::LOSES`].
    pub loses: String,
    /// What beats the calendar.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub triggers: Vec<String>,
    /// The caution that goes with doing it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// The sections of the sheet that hold the part, of [`Self::SECTIONS`], whose `used` it brings along; an empty list
    /// says that none does. Left out, nothing is carried, and `thou pack build` asks for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held_in: Option<Vec<String>>,
    /// What hurts the part; it is this that an outing is weighed by.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wears: Wears,
    /// How an outing counts where nothing is said of what hurts. Both left out, by the outing alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub duty: Option<CountBy>,
    /// The log's readings that begin anew once the part is new, of [`crate::logged::LOG_READINGS`]: what was read before is
    /// of another part.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub read_afresh: Vec<String>,
    /// The log's readings that tell the part's end: a line of theirs that runs to its limit ends the life.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub told_by: Vec<String>,
    /// What an over-rev does to the part.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub over_rev: Vec<OverRev>,
    /// The log's readings that are this service done, once they were taken at every place.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub done_by: Vec<String>,
    /// What a failure of the part reaches.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reaches: Vec<Reach>,
    /// How sharply lives of the part end, believed before any was seen: the shape of a Weibull distribution.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shape: Option<f64>,
}

impl Rule {
    /// What hurts the part that a service of this text is done to: the text's own, else the service's. Nothing where an
    /// outing counts as one, whatever it was.
    #[must_use]
    pub fn wears(&self, text: usize) -> Option<Wears> {
        let own = self.texts.get(text).filter(|t| t.duty.is_some() || !t.wears.is_empty());
        match (own, &self.service) {
            (Some(text), _) => wears(&text.wears, text.duty),
            (None, Some(service)) => wears(&service.wears, service.duty),
            (None, None) => None,
        }
    }
}

impl ServiceInfo {
    /// Whether doing it ends the part's life, and does not only look at it.
    #[must_use]
    pub fn renews(&self) -> bool {
        !matches!(self.action.as_str(), "inspect" | "measure" | "adjust")
    }
    /// What a log says of the part, a sentence each: readings that tell its end, readings that begin anew, over-revs.
    #[must_use]
    pub fn log_words(&self) -> Vec<String> {
        let over_rev: Vec<&str> = self.over_rev.iter().map(|o| o.words()).collect();
        let all = [
            ("its end is told by", self.told_by.join(", ")),
            ("a new one begins anew", self.read_afresh.join(", ")),
            ("of an over-rev,", over_rev.join("; ")),
            ("it is done by reading every", self.done_by.join(", ")),
        ];
        let reach = |r: &Reach| match r.by.first() {
            Some(how) => format!("failed, {how}: {}", r.look),
            None => format!("failed: {}", r.look),
        };
        let listed = all.iter().filter(|(_, list)| !list.is_empty()).map(|(what, list)| format!("{what} {list}"));
        listed.chain(self.reaches.iter().map(reach)).collect()
    }
    /// [`Self::shape`], or the usual one.
    #[must_use]
    pub fn shape_of_lives(&self) -> f64 {
        self.shape.unwrap_or(USUAL_SHAPE)
    }
    /// What can hold a part: the sections of the sheet that have a `used`. The fields' entries have them too; a pack knows
    /// nothing of these, so a test holds the two together.
    pub const SECTIONS: [&str; 27] = [
        "block",
        "crank",
        "rods",
        "pistons",
        "pins",
        "rings",
        "gasket",
        "heads",
        "valves",
        "springs",
        "valvetrain",
        "cam",
        "bearings",
        "fasteners.mains",
        "fasteners.heads",
        "fasteners.rod-bolts",
        "fasteners.cam",
        "fasteners.damper",
        "fasteners.flexplate",
        "fasteners.rockers",
        "fasteners.intake",
        "oil",
        "fuel",
        "induction",
        "ignition",
        "exhaust",
        "cooling",
    ];
    /// What can be done.
    pub const ACTIONS: [&str; 6] = ["inspect", "measure", "adjust", "replace", "recondition", "replace-by-date"];
    /// What a life can count from.
    pub const SINCE: [&str; 4] = ["built", "made", "certified", "last-done"];
    /// What can have to come apart, from least to most.
    pub const OPENS: [&str; 8] =
        ["nothing", "plugs", "valve-covers", "valvetrain", "intake", "pan", "heads", "engine-out"];
    /// What can be lost.
    pub const LOSES: [&str; 3] = ["engine", "money", "power"];
}

/// What the host needs to know of a step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct StepInfo {
    /// Steps that come before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<String>,
    /// Rules that must be go before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub until: Vec<String>,
    /// The caution that goes with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
}
