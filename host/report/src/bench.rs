//! What every page of the report shares: the reader's units, the places' names, the width of a clipboard.

use anstyle::{AnsiColor, Style};
use std::cell::Cell;
use std::fmt::Write as _;
use thou_contract::{Kind, System};
use thou_facts::{Figure, SheetFacts, ValueKind};
use thou_sheet::Sheet;
use thou_sheet::model::{Axis, Side};
use thou_verdict::{Limits, State};

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
    pub facts: &'a SheetFacts<'a>,
    /// The reader's units.
    pub system: System,
    /// Whether words may be coloured.
    pub paint: Paint,
    /// A known good engine of the shop, to be compared with.
    pub like: Option<Like<'a>>,
}

/// A known good engine.
#[derive(Clone, Copy)]
pub struct Like<'a> {
    /// Its sheet.
    pub sheet: &'a Sheet,
    /// Its facts.
    pub facts: &'a SheetFacts<'a>,
}

impl Bench<'_> {
    /// The kind of a fact.
    pub(super) fn kind(&self, fact: &str) -> Kind {
        match self.facts.info(fact).map(|i| i.value) {
            Some(ValueKind::Quantity(kind)) => kind,
            _ => ratio(),
        }
    }
    /// How a fact prints for the reader.
    pub(super) fn figure(&self, fact: &str) -> Figure {
        Figure::of(fact, self.kind(fact), self.system)
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
    /// "5.0..6.5 thou": the window as a cell of a table, the working limits where there are any.
    pub(super) fn window(&self, fact: &str, limits: &Limits, with_unit: bool) -> String {
        let figure = self.figure(fact);
        let (low, high) = (limits.low.or(limits.never_below), limits.high.or(limits.never_above));
        let unit = |number: &str| match figure.unit_of(number) {
            unit if with_unit && !unit.is_empty() => format!(" {unit}"),
            _ => String::new(),
        };
        match ends(figure, low, high, 0) {
            (Some(low), Some(high)) => format!("{low}..{high}{}", unit("")),
            (Some(low), None) => format!("{low}{} min", unit(&low)),
            (None, Some(high)) => format!("{high}{} max", unit(&high)),
            (None, None) => String::new(),
        }
    }
    /// The places of a set, as a hand lists them: "all 8", "inlets", "1 3 5".
    pub(super) fn places(&self, places: &[Option<(Axis, usize)>]) -> String {
        let Some((axis, _)) = places.iter().flatten().next().copied() else { return String::new() };
        let labels: Vec<&str> = places.iter().map(|p| self.label(*p)).collect();
        let all = self.sheet.places.count(axis);
        if labels.len() == all {
            return match all {
                1 => String::new(),
                2 => "both".to_owned(),
                _ => format!("all {all}"),
            };
        }
        let side = |want: Side| (0..all).filter(|v| self.sheet.places.side(*v) == Some(want)).count();
        let is = |want: Side| {
            axis == Axis::Valve
                && labels.len() == side(want)
                && places.iter().flatten().all(|p| self.sheet.places.side(p.1) == Some(want))
        };
        if is(Side::Inlet) {
            "inlets".to_owned()
        } else if is(Side::Exhaust) {
            "exhausts".to_owned()
        } else if all > 4 && labels.len() + 2 >= all {
            let own = self.sheet.places.labels(axis).iter().map(String::as_str);
            let others: Vec<&str> = own.filter(|l| !labels.contains(l)).collect();
            format!("all but {}", others.join(" "))
        } else {
            labels.join(" ")
        }
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
        let figure = self.figure(fact);
        let number = |si: f64| figure.number_with(si, more);
        let unit = figure.unit();
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let one = |number: String| match figure.unit_of(&number) {
            "" => number,
            unit => format!("{number} {unit}"),
        };
        let (low, high) = ends(figure, limits.low, limits.high, more);
        let mut work = match (&low, &high) {
            (Some(low), Some(high)) => format!("{low} to {high}{unit}"),
            (Some(low), None) => format!("{} or more", one(low.clone())),
            (None, Some(high)) => format!("{} at most", one(high.clone())),
            (None, None) => String::new(),
        };
        if let (Some(aim), false) = (limits.aim, work.is_empty()) {
            let _ = write!(work, ", aim {}", number(aim));
        }
        let bare = if work.is_empty() { unit } else { String::new() };
        let mut never = Vec::new();
        if let Some(limit) = limits.never_below.filter(|n| limits.low.is_none_or(|l| !same(l, *n))) {
            never.push(format!("never under {}{bare}", apart_from(figure, limit, true, low.as_deref(), more)));
        }
        if let Some(limit) = limits.never_above.filter(|n| limits.high.is_none_or(|h| !same(h, *n))) {
            never.push(format!("never over {}{bare}", apart_from(figure, limit, false, high.as_deref(), more)));
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

/// Decimals that a limit may take beyond those that the trade prints.
const MOST_MORE: usize = 3;

/// Both ends of a window, rounded towards its inside so that what is printed is a go; with more decimals where the window
/// is narrower than the last one.
fn ends(figure: Figure, low: Option<f64>, high: Option<f64>, more: usize) -> (Option<String>, Option<String>) {
    let inward = |end: Option<f64>, is_low, more| end.map(|si| figure.inward(si, is_low, more));
    let fits = |more: &usize| {
        let ends = inward(low, true, *more).zip(inward(high, false, *more));
        ends.is_none_or(|(low, high)| low <= high)
    };
    let more = (more..=more + MOST_MORE).find(fits).unwrap_or(more + MOST_MORE);
    let text = |end, is_low| inward(end, is_low, more).map(|number| figure.show(number, more));
    (text(low, true), text(high, false))
}

/// A never-limit, rounded towards the inside, with as many decimals as tell it from the working limit beside it.
fn apart_from(figure: Figure, limit: f64, is_low: bool, working: Option<&str>, more: usize) -> String {
    let text = |more| figure.show(figure.inward(limit, is_low, more), more);
    let own = (more..=more + MOST_MORE).map(text).find(|t| working != Some(t.as_str()));
    own.unwrap_or_else(|| text(more))
}

pub(super) fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

pub(super) fn ratio() -> Kind {
    Kind::by_id("ratio").unwrap_or_else(|| unreachable!("ratio is a kind"))
}

/// What a place is called.
pub fn noun(axis: Axis) -> &'static str {
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

thread_local! {
    static COLUMNS: Cell<usize> = const { Cell::new(WIDTH) };
}

/// Writes a page for so many columns: a phone has 40. What has no room as a table is told line by line, and any other
/// line that is longer goes on below.
pub fn at_width(columns: usize, page: impl FnOnce() -> String) -> String {
    COLUMNS.set(columns);
    let text = page();
    COLUMNS.set(WIDTH);
    let mut out = String::new();
    for line in text.lines() {
        if line.chars().count() <= columns {
            out.push_str(line);
        } else {
            let words = line.trim_start();
            let indent = " ".repeat((line.len() - words.len()).min(columns / 4));
            let words: Vec<&str> = words.split_whitespace().collect();
            let rest = format!("{indent}  ");
            let options = textwrap::Options::new(columns).initial_indent(&indent).subsequent_indent(&rest);
            out.push_str(&textwrap::fill(&words.join(" "), options));
        }
        out.push('\n');
    }
    out
}

/// Whether a table of the page's full width has room.
pub(super) fn has_tables() -> bool {
    COLUMNS.get() >= WIDTH
}

/// Text wrapped to the page, every line under an indent.
pub(super) fn wrap(text: &str, first: &str, rest: &str) -> String {
    let columns = COLUMNS.get();
    let most = columns / 4;
    let (first, rest) = (first.get(..most).unwrap_or(first), rest.get(..most).unwrap_or(rest));
    let options = textwrap::Options::new(columns).initial_indent(first).subsequent_indent(rest).break_words(false);
    let mut out = textwrap::fill(&days_whole(text), options).replace(HELD, "-");
    out.push('\n');
    out
}

/// A hyphen at which no line is broken.
const HELD: char = '\u{2011}';

/// The text with the hyphens inside its days, as in 2026-09-26, held.
fn days_whole(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| at.and_then(|at| chars.get(at)).is_some_and(char::is_ascii_digit);
    let hold = |(at, c): (usize, &char)| {
        let inside = *c == '-' && digit(at.checked_sub(1)) && digit(at.checked_sub(2)) && digit(Some(at + 1));
        if inside && digit(Some(at + 2)) { HELD } else { *c }
    };
    chars.iter().enumerate().map(hold).collect()
}

/// What a reading is called in a list: of a rule that judges several facts, the fact alone.
pub(super) fn short_title(title: &str, fact: Option<&str>) -> String {
    let own = fact.map(|f| f.replace(['.', '-'], " ")).unwrap_or_default();
    let of_several = !own.is_empty() && title.strip_suffix(&own).is_some_and(|rest| rest.ends_with(": "));
    if of_several { own } else { title.to_lowercase() }
}

/// Whose number, as a column has room for it; whose card it is, the row says.
pub(super) fn short_whose(whose: &str) -> String {
    match whose {
        "common practice" => "practice".to_owned(),
        card if card.ends_with(" card") => "card".to_owned(),
        other => other.to_owned(),
    }
}

/// With a capital at its start.
pub(super) fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}
