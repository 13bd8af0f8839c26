//! What a rule gives back.

use thou_contract::Level;

/// The answer of a pack as it grows, rule by rule.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answer {
    rule: u32,
    /// Windows with the rule they came from and where their arguments start.
    pub windows: Vec<(u32, Window, u32)>,
    /// Findings, likewise.
    pub findings: Vec<(u32, Finding, u32)>,
    /// Services, likewise.
    pub services: Vec<(u32, Service, u32)>,
    /// Steps: rule, place, text, arguments.
    pub steps: Vec<(u32, Option<u32>, u32, u32)>,
    /// The arguments of all.
    pub numbers: Vec<f64>,
}

/// A fact must lie between these limits, in SI and inclusive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Which of the rule's `judges`.
    pub fact: u32,
    /// One place, or every place.
    pub place: Option<u32>,
    /// Below this it must not run.
    pub never_below: Option<f64>,
    /// Work to this or more.
    pub low: Option<f64>,
    /// Aim at this.
    pub aim: Option<f64>,
    /// Work to this or less.
    pub high: Option<f64>,
    /// Above this it must not run.
    pub never_above: Option<f64>,
    /// How much it matters to be under `low`.
    pub below: Level,
    /// How much it matters to be over `high`.
    pub above: Level,
    /// A wear limit, for a used part alone.
    pub reuse: bool,
    /// Which of the rule's `texts`.
    pub text: u32,
}

impl Window {
    /// A window on the rule's first judged fact, warn on both sides, with the rule's first text.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            fact: 0,
            place: None,
            never_below: None,
            low: None,
            aim: None,
            high: None,
            never_above: None,
            below: Level::Warn,
            above: Level::Warn,
            reuse: false,
            text: 0,
        }
    }
    /// From low to high.
    #[must_use]
    pub const fn between(low: f64, high: f64) -> Self {
        Self { low: Some(low), high: Some(high), ..Self::new() }
    }
    /// This or more.
    #[must_use]
    pub const fn at_least(low: f64) -> Self {
        Self { low: Some(low), ..Self::new() }
    }
    /// This or less.
    #[must_use]
    pub const fn at_most(high: f64) -> Self {
        Self { high: Some(high), ..Self::new() }
    }
    /// Aim at this.
    #[must_use]
    pub const fn aim(self, aim: f64) -> Self {
        Self { aim: Some(aim), ..self }
    }
    /// Never below this.
    #[must_use]
    pub const fn never_below(self, limit: f64) -> Self {
        Self { never_below: Some(limit), ..self }
    }
    /// Never above this.
    #[must_use]
    pub const fn never_above(self, limit: f64) -> Self {
        Self { never_above: Some(limit), ..self }
    }
    /// How much each side matters.
    #[must_use]
    pub const fn levels(self, below: Level, above: Level) -> Self {
        Self { below, above, ..self }
    }
    /// At this place only.
    #[must_use]
    pub const fn at(self, place: u32) -> Self {
        Self { place: Some(place), ..self }
    }
    /// On another of the rule's judged facts.
    #[must_use]
    pub const fn judging(self, fact: u32) -> Self {
        Self { fact, ..self }
    }
    /// A wear limit.
    #[must_use]
    pub const fn reuse(self) -> Self {
        Self { reuse: true, ..self }
    }
    /// Whether its limits are numbers, in rising order, at least one of them.
    pub(crate) fn holds_together(&self) -> bool {
        let limits = [self.never_below, self.low, self.aim, self.high, self.never_above];
        let (mut count, mut last) = (0_u32, f64::NEG_INFINITY);
        for limit in limits.into_iter().flatten() {
            if !limit.is_finite() || limit < last {
                return false;
            }
            (count, last) = (count + 1, limit);
        }
        // an aim alone limits nothing
        count > u32::from(self.aim.is_some())
    }
    /// With another of the rule's texts.
    #[must_use]
    pub const fn text(self, text: u32) -> Self {
        Self { text, ..self }
    }
}

impl Default for Window {
    fn default() -> Self {
        Self::new()
    }
}

/// This combination does not suit that intent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub level: Level,
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Which of the rule's `texts`.
    pub text: u32,
}

/// Do this after so much use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Which of the pack's `meters`.
    pub meter: u32,
    /// A careful shop has it apart by then.
    pub low: f64,
    /// Plan for it.
    pub nominal: f64,
    /// Not past it unmeasured.
    pub high: f64,
    /// Which of the rule's `texts`.
    pub text: u32,
}

impl Answer {
    pub(crate) fn begin(&mut self, rule: u32) {
        self.rule = rule;
    }
    fn arguments(&mut self, args: &[f64]) -> u32 {
        let start = self.numbers.len();
        self.numbers.extend_from_slice(args);
        u32::try_from(start).unwrap_or(u32::MAX)
    }
    /// Gives a window.
    pub fn window(&mut self, window: Window) {
        self.window_with(window, &[]);
    }
    /// Gives a window whose text has arguments.
    pub fn window_with(&mut self, window: Window, args: &[f64]) {
        let numbers = self.arguments(args);
        self.windows.push((self.rule, window, numbers));
    }
    /// Gives a finding about the engine.
    pub fn finding(&mut self, level: Level, text: u32, args: &[f64]) {
        self.finding_at(level, None, text, args);
    }
    /// Gives a finding about a place.
    pub fn finding_at(&mut self, level: Level, place: Option<u32>, text: u32, args: &[f64]) {
        let numbers = self.arguments(args);
        self.findings.push((self.rule, Finding { level, place, text }, numbers));
    }
    /// Gives a service.
    pub fn service(&mut self, service: Service, args: &[f64]) {
        let numbers = self.arguments(args);
        self.services.push((self.rule, service, numbers));
    }
    /// Gives a step.
    pub fn step(&mut self, place: Option<u32>, text: u32, args: &[f64]) {
        let numbers = self.arguments(args);
        self.steps.push((self.rule, place, text, numbers));
    }
}
