//! What there is to know of a field.

use thou_contract::{Kind, System};

/// One field of the sheet.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Where it stands, dotted: `rods.length`; in a list's row the row's name first: `pull.power`.
    pub path: &'static str,
    /// What it is, in one line.
    pub words: &'static str,
    /// What is written there.
    pub value: FieldValue,
    /// What it can be at all.
    pub band: Option<Band>,
    /// How it prints, where that is not how its kind does.
    pub prints: Option<Prints>,
    /// What it usually is; outside is looked at, and can be right.
    pub usual: &'static [Usual],
    /// The high of which this is the low.
    pub below: Option<&'static str>,
    /// Whether a sheet to start from has it.
    pub starter: bool,
    /// When it is filled in.
    pub step: JobStep,
    /// Where it matters; everywhere, if nothing stands here.
    pub only: Option<Only>,
    /// What else moves when this is brought to size: `{by}` is the change, `{pi-by}` pi times it.
    pub disturbs: Option<&'static str>,
    /// Whether bringing it to size takes metal off, so that it cannot be undone.
    pub cuts_metal: bool,
    /// Who reads it.
    pub standing: Standing,
}

/// What is written in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldValue {
    /// A quantity of this kind, as text with its unit.
    Quantity(&'static str),
    /// One of these words.
    Choice(&'static [Choice]),
    /// Yes or no.
    Flag,
    /// Words.
    Text,
    /// A day.
    Day,
    /// A whole number.
    Whole,
    /// A number.
    Number,
    /// A list of numbers.
    Numbers,
    /// A list of names.
    Names,
    /// Lists of names, one a group.
    Groups,
    /// Remarks.
    Notes,
    /// This text and no other.
    Constant(&'static str),
    /// A lobe, degree by degree.
    LiftTable,
    /// A section with fields of its own.
    Section,
    /// A list of such rows.
    List(&'static str),
    /// Such rows by their names.
    ByName(&'static str),
    /// What packs ask for.
    Extra,
    /// What is read at one place, or once: of the reading's own kind.
    Read,
}

/// A word of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// As the sheet has it.
    pub word: &'static str,
    /// What it means; empty where the word says it.
    pub words: &'static str,
}

/// From the smallest to the largest that an engine can have at all, as text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// The smallest.
    pub low: &'static str,
    /// The largest; empty where there is no end.
    pub high: &'static str,
}

impl Band {
    /// The two in SI.
    #[must_use]
    pub fn si(&self, kind: Kind) -> Option<(f64, f64)> {
        Some((kind.parse(self.low).ok()?, kind.parse(self.high).ok()?))
    }
}

/// How a field prints in one system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PrintUnit {
    /// One of its kind's units.
    pub unit: &'static str,
    /// Decimals after the point.
    pub decimals: usize,
}

/// How a field prints, where that is not how its kind does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Prints {
    /// In inches.
    pub inch: PrintUnit,
    /// In millimetres.
    pub metric: PrintUnit,
    /// Whether it is read to the half of its unit and no finer.
    pub halves: bool,
}

impl Prints {
    /// How it prints for this reader.
    #[must_use]
    pub fn unit(&self, system: System) -> PrintUnit {
        match system {
            System::Inch => self.inch,
            System::Metric => self.metric,
        }
    }
}

/// Where a field matters: where another has one of these words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Only {
    /// The other field.
    pub path: &'static str,
    /// Its words.
    pub words: &'static [&'static str],
}

/// What a figure usually is, beside another one of the engine or by itself: common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Usual {
    /// The fact, or the field where there is none, that it is in proportion to; empty where it stands by itself.
    pub of: &'static str,
    /// The power of that other: a mass goes with the cube of a length.
    pub power: i32,
    /// Where this holds; everywhere, if nothing stands here.
    pub only: Option<Only>,
    /// The sizes that it is made in, where it is made in few.
    pub sizes: &'static [&'static str],
    from: &'static str,
    until: &'static str,
}

impl Usual {
    /// The least and the most as the entry has them.
    #[must_use]
    pub const fn written(&self) -> (&'static str, &'static str) {
        (self.from, self.until)
    }
    /// The two in SI, for this much of what it is in proportion to; of sizes, those about the one that is nearest.
    #[must_use]
    pub fn si(&self, kind: Kind, figure: f64, other: Option<f64>) -> Option<(f64, f64)> {
        if !self.sizes.is_empty() {
            let (nearest, within) = (self.nearest(kind, figure)?.1, kind.parse(self.until).ok()?);
            return Some((nearest - within, nearest + within));
        }
        if self.of.is_empty() {
            return Some((kind.parse(self.from).ok()?, kind.parse(self.until).ok()?));
        }
        let of = other?.powi(self.power);
        Some((self.from.parse::<f64>().ok()? * of, self.until.parse::<f64>().ok()? * of))
    }
    /// The size it is made in that is nearest to this figure, as the entry has it and in SI.
    #[must_use]
    pub fn nearest(&self, kind: Kind, figure: f64) -> Option<(&'static str, f64)> {
        let sizes = self.sizes.iter().filter_map(|text| Some((*text, kind.parse(text).ok()?)));
        sizes.min_by(|a, b| (a.1 - figure).abs().total_cmp(&(b.1 - figure).abs()))
    }
    pub(crate) const fn only(self, path: &'static str, words: &'static [&'static str]) -> Self {
        Self { only: Some(Only { path, words }), ..self }
    }
}

pub(crate) const fn beside(of: &'static str, power: i32, from: &'static str, until: &'static str) -> Usual {
    Usual { of, power, only: None, sizes: &[], from, until }
}

pub(crate) const fn alone(from: &'static str, until: &'static str) -> Usual {
    beside("", 0, from, until)
}

pub(crate) const fn made_in(sizes: &'static [&'static str], within: &'static str) -> Usual {
    Usual { of: "", power: 0, only: None, sizes, from: "", until: within }
}

/// When a field is filled in, in the order of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JobStep {
    /// When the engine is ordered.
    Order,
    /// When its parts are chosen.
    Parts,
    /// From the sheet in the part's box.
    Card,
    /// As the metal is cut and measured.
    Machine,
    /// At the trial assembly.
    MockUp,
    /// At the final assembly.
    Assemble,
    /// When it runs.
    Run,
    /// Over the season.
    Season,
}

impl JobStep {
    /// Every step.
    pub const ALL: [Self; 8] =
        [Self::Order, Self::Parts, Self::Card, Self::Machine, Self::MockUp, Self::Assemble, Self::Run, Self::Season];
    /// Its name in the entries.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Order => "order",
            Self::Parts => "parts",
            Self::Card => "card",
            Self::Machine => "machine",
            Self::MockUp => "mock-up",
            Self::Assemble => "assemble",
            Self::Run => "run",
            Self::Season => "season",
        }
    }
    /// As a sentence ends with it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Order => "when the engine is ordered",
            Self::Parts => "when its parts are chosen",
            Self::Card => "from the sheet in the part's box",
            Self::Machine => "as the metal is cut and measured",
            Self::MockUp => "at the trial assembly",
            Self::Assemble => "at the final assembly",
            Self::Run => "when it runs",
            Self::Season => "over the season",
        }
    }
}

/// Who reads a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// A fact is made of it.
    Fact,
    /// The program itself, for this.
    Program(&'static str),
    /// Nobody, for this reason: it is kept beside the engine.
    Recorded(&'static str),
}

/// A section of the sheet.
#[derive(Debug, Clone, Copy)]
pub struct Section {
    /// Its name.
    pub name: &'static str,
    /// What it holds.
    pub words: &'static str,
    /// Whether it is a part of the engine, whose state says which limits it is held to.
    pub part: bool,
    /// Whether work can be done to it.
    pub work: bool,
    /// The rows that it is a list of, or that it has by name.
    pub rows: Option<&'static str>,
    /// Whether those rows stand by their names.
    pub by_name: bool,
    /// Whether a sheet to start from has such a list.
    pub starter: bool,
}

/// What stands in each row of a list.
#[derive(Debug, Clone, Copy)]
pub struct Rows {
    /// Their name.
    pub name: &'static str,
    /// What one is.
    pub words: &'static str,
    /// Its fields.
    pub fields: &'static [Field],
}

impl Field {
    /// The kind of quantity, if it is one.
    #[must_use]
    pub fn kind(&self) -> Option<Kind> {
        match self.value {
            FieldValue::Quantity(id) => Kind::by_id(id),
            _ => None,
        }
    }
    /// The words that it can be, if it is a choice.
    #[must_use]
    pub fn choices(&self) -> &'static [Choice] {
        match self.value {
            FieldValue::Choice(choices) => choices,
            _ => &[],
        }
    }
    /// The section, or the name of the row, that it stands in.
    #[must_use]
    pub fn section(&self) -> &'static str {
        self.path.split('.').next().unwrap_or("")
    }
    /// Whether it only holds other fields.
    #[must_use]
    pub fn holds_others(&self) -> bool {
        matches!(self.value, FieldValue::Section | FieldValue::List(_) | FieldValue::ByName(_))
    }
}

// What the generated tables are written with: an entry a line, and on it only what is not as usual.
impl Field {
    pub(crate) const fn new(path: &'static str, words: &'static str, value: FieldValue, step: JobStep) -> Self {
        Self {
            path,
            words,
            value,
            band: None,
            prints: None,
            usual: &[],
            below: None,
            starter: false,
            step,
            only: None,
            disturbs: None,
            cuts_metal: false,
            standing: Standing::Fact,
        }
    }
    pub(crate) const fn band(self, low: &'static str, high: &'static str) -> Self {
        Self { band: Some(Band { low, high }), ..self }
    }
    pub(crate) const fn prints(self, inch: PrintUnit, metric: PrintUnit, halves: bool) -> Self {
        Self { prints: Some(Prints { inch, metric, halves }), ..self }
    }
    pub(crate) const fn usual(self, usual: &'static [Usual]) -> Self {
        Self { usual, ..self }
    }
    pub(crate) const fn below(self, high: &'static str) -> Self {
        Self { below: Some(high), ..self }
    }
    pub(crate) const fn starter(self) -> Self {
        Self { starter: true, ..self }
    }
    pub(crate) const fn only(self, path: &'static str, words: &'static [&'static str]) -> Self {
        Self { only: Some(Only { path, words }), ..self }
    }
    pub(crate) const fn disturbs(self, words: &'static str) -> Self {
        Self { disturbs: Some(words), ..self }
    }
    pub(crate) const fn cuts_metal(self) -> Self {
        Self { cuts_metal: true, ..self }
    }
    pub(crate) const fn program(self, what: &'static str) -> Self {
        Self { standing: Standing::Program(what), ..self }
    }
    pub(crate) const fn recorded(self, why: &'static str) -> Self {
        Self { standing: Standing::Recorded(why), ..self }
    }
}

impl Section {
    pub(crate) const fn new(name: &'static str, words: &'static str) -> Self {
        Self { name, words, part: false, work: false, rows: None, by_name: false, starter: false }
    }
    pub(crate) const fn part(self) -> Self {
        Self { part: true, ..self }
    }
    pub(crate) const fn work(self) -> Self {
        Self { work: true, ..self }
    }
    pub(crate) const fn starter(self) -> Self {
        Self { starter: true, ..self }
    }
    pub(crate) const fn list_of(self, rows: &'static str) -> Self {
        Self { rows: Some(rows), ..self }
    }
    pub(crate) const fn by_name(self, rows: &'static str) -> Self {
        Self { rows: Some(rows), by_name: true, ..self }
    }
}

pub(crate) const fn unit(unit: &'static str, decimals: usize) -> PrintUnit {
    PrintUnit { unit, decimals }
}

pub(crate) const fn word(word: &'static str, words: &'static str) -> Choice {
    Choice { word, words }
}
