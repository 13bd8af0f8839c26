//! What every page of the report shares: the reader's units, the places' names, the width of a clipboard.

use crate::facts::{Facts, ValueKind};
use crate::sheet::Sheet;
use crate::sheet::model::Axis;
use crate::verdict::view::View;
use crate::verdict::{Limits, State};
use anstyle::{AnsiColor, Style};
use std::fmt::Write as _;
use thou_contract::{Kind, System};

/// Columns of a page: what fits a clipboard.
pub(super) const WIDTH: usize = 80;

/// Whether words may be coloured; they carry the verdict without it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paint {
    /// Black and white.
    #[default]
    Plain,
    /// On a terminal.
    Colour,
}

/// What a page is written from.
#[derive(Clone, Copy)]
pub struct Bench<'a> {
    /// The sheet.
    pub sheet: &'a Sheet,
    /// Its facts.
    pub facts: &'a Facts<'a>,
    /// The reader's units.
    pub system: System,
    /// Whether words may be coloured.
    pub paint: Paint,
}

impl Bench<'_> {
    /// The kind of a fact.
    pub(super) fn kind(&self, fact: &str) -> Kind {
        match self.facts.info(fact).map(|i| i.value) {
            Some(ValueKind::Quantity(kind)) => kind,
            _ => ratio(),
        }
    }
    /// "cylinder 6", "valve 3E"; nothing for the engine.
    pub(super) fn place(&self, place: Option<(Axis, usize)>) -> String {
        let Some((axis, at)) = place else { return String::new() };
        let label = self.sheet.places.labels(axis).get(at).map_or("?", String::as_str);
        format!("{} {label}", noun(axis))
    }
    /// The label alone.
    pub(super) fn label(&self, place: Option<(Axis, usize)>) -> &str {
        place.and_then(|(axis, at)| self.sheet.places.labels(axis).get(at)).map_or("", String::as_str)
    }
    /// A state's word, padded, coloured where that is wanted.
    pub(super) fn word(&self, state: State) -> String {
        let word = format!("{:<8}", state.word());
        match self.paint {
            Paint::Plain => word,
            Paint::Colour => {
                let style = colour(state);
                format!("{style}{word}{style:#}")
            }
        }
    }
    /// "5.0 to 6.5 thou, aim 5.5 (common practice), never under 3.5 (physics)".
    pub(super) fn limits(&self, fact: &str, limits: &Limits, whose: (&str, &str), more: usize) -> String {
        let kind = self.kind(fact);
        let number = |si: f64| kind.number_with(si, self.system, more);
        let unit = kind.print(self.system).unit;
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let mut work = match (limits.low, limits.high) {
            (Some(low), Some(high)) => format!("{} to {}{unit}", number(low), number(high)),
            (Some(low), None) => format!("{}{unit} or more", number(low)),
            (None, Some(high)) => format!("{}{unit} at most", number(high)),
            (None, None) => String::new(),
        };
        if let (Some(aim), false) = (limits.aim, work.is_empty()) {
            let _ = write!(work, ", aim {}", number(aim));
        }
        let bare = if work.is_empty() { unit } else { String::new() };
        let mut never = Vec::new();
        if let Some(limit) = limits.never_below.filter(|n| limits.low.is_none_or(|l| !same(l, *n))) {
            never.push(format!("never under {}{bare}", number(limit)));
        }
        if let Some(limit) = limits.never_above.filter(|n| limits.high.is_none_or(|h| !same(h, *n))) {
            never.push(format!("never over {}{bare}", number(limit)));
        }
        let never = never.join(", ");
        match (work.is_empty(), never.is_empty(), whose.0 == whose.1) {
            (true, _, _) => format!("{never} ({})", whose.1),
            (false, true, _) => format!("{work} ({})", whose.0),
            (false, false, true) => format!("{work}, {never} ({})", whose.0),
            (false, false, false) => format!("{work} ({}), {never} ({})", whose.0, whose.1),
        }
    }
}

pub(super) fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

pub(super) fn ratio() -> Kind {
    Kind::by_id("ratio").unwrap_or_else(|| unreachable!("ratio is a kind"))
}

/// What a place is called.
pub(crate) fn noun(axis: Axis) -> &'static str {
    match axis {
        Axis::One => "engine",
        Axis::Cylinder => "cylinder",
        Axis::Bank => "bank",
        Axis::Main => "main",
        Axis::Rod => "rod",
        Axis::Crankpin => "crankpin",
        Axis::Valve => "valve",
        Axis::CamJournal => "cam journal",
    }
}

fn colour(state: State) -> Style {
    let colour = match state {
        State::NoGo => AnsiColor::Red,
        State::Unproven | State::Look => AnsiColor::Yellow,
        State::Stale | State::Open | State::CannotSay => AnsiColor::Cyan,
        State::Go => AnsiColor::Green,
        State::Note | State::DoesNotApply => return Style::new(),
    };
    Style::new().fg_color(Some(colour.into())).bold()
}

/// Text wrapped to the page, every line under an indent.
pub(super) fn wrap(text: &str, first: &str, rest: &str) -> String {
    let options = textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent(rest).break_words(false);
    let mut out = textwrap::fill(text, options);
    out.push('\n');
    out
}

/// Places as a hand would list them: "1 to 8", "1, 3, 6".
pub(super) fn list(labels: &[&str], all: usize) -> String {
    if labels.len() == all && all > 2 {
        return format!("all {all}");
    }
    labels.join(" ")
}
