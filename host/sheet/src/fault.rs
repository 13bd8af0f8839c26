//! What is wrong with a sheet, and how that is told: the place, what stands there, what was expected, what to do.

use super::model::Source;
use annotate_snippets::{AnnotationKind, Element, Group, Level, Renderer, Snippet};
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;
use textwrap::core::display_width;
use thou_text::clean::{clip, visible};

/// How many faults are told at once; the rest are only counted.
pub const MOST_FAULTS: usize = 20;

/// Longest piece of a sheet that is shown, bytes: a sheet on one endless line helps nobody.
const MOST_SHOWN: usize = 4_000;

/// One thing that is wrong with a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// What is wrong, with the field as the sheet writes it.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
    /// JSON pointer of the field.
    pub pointer: String,
    /// Bytes of the sheet's text.
    pub span: Range<usize>,
    /// A second place that belongs to it, with a word on it.
    pub second: Option<(Range<usize>, String)>,
}

/// Everything that is wrong with a sheet, in the order of the file.
#[derive(Debug, Clone)]
pub struct SheetFaults {
    source: Box<Source>,
    faults: Vec<Fault>,
    left_off: usize,
}

impl SheetFaults {
    /// These faults of a sheet, in the order of its text.
    #[must_use]
    pub fn new(source: Source, mut faults: Vec<Fault>) -> Self {
        faults.sort_by(|a, b| (a.span.start, a.span.end, &a.message).cmp(&(b.span.start, b.span.end, &b.message)));
        faults.dedup_by(|a, b| a.message == b.message && a.span == b.span);
        let left_off = faults.len().saturating_sub(MOST_FAULTS);
        faults.truncate(MOST_FAULTS);
        Self { source: Box::new(source), faults, left_off }
    }

    /// A fault of the file as a whole: there is no text to point at.
    pub(super) fn whole(name: &str, message: impl Into<String>, help: Option<&str>) -> Self {
        let source = Source { name: name.to_owned(), ..Source::default() };
        let fault = Fault {
            message: message.into(),
            help: help.map(str::to_owned),
            pointer: String::new(),
            span: 0..0,
            second: None,
        };
        Self::new(source, vec![fault])
    }

    /// The faults, at most [`MOST_FAULTS`].
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }
    /// How many more there are.
    #[must_use]
    pub fn left_off(&self) -> usize {
        self.left_off
    }
    /// The text they are in.
    #[must_use]
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// For a terminal: each fault with its line of the sheet and a caret. Plain text unless `color`.
    #[must_use]
    pub fn render(&self, color: bool) -> String {
        let renderer = if color { Renderer::styled() } else { Renderer::plain() };
        self.each(&renderer, usize::MAX) + &self.tail()
    }

    /// Plain, without the line that counts them, and no line of the file wider than this.
    #[must_use]
    pub fn within(&self, width: usize) -> String {
        // what is pointed at is never cut off, so that no more of it than this is
        self.each(&Renderer::plain().term_width(width), width * 3 / 4)
    }

    /// `most` is how many columns are pointed at.
    fn each(&self, renderer: &Renderer, most: usize) -> String {
        let name = clean(&self.source.name, 200);
        let mut out = String::new();
        for fault in &self.faults {
            out.push_str(&renderer.render(&[self.group(fault, &name, most)]));
            for line in fault.help.iter().flat_map(|help| help.lines()) {
                out.push_str("\n    ");
                out.push_str(&visible(line));
            }
            out.push_str("\n\n");
        }
        out
    }

    fn group<'a>(&'a self, fault: &'a Fault, name: &'a str, most: usize) -> Group<'a> {
        let mut elements: Vec<Element<'a>> = Vec::new();
        // names that the sheet gives stand in messages too
        let mut message = visible(&fault.message).into_owned();
        let window = self.window(fault);
        if self.source.text.is_empty() {
            message = format!("{name}: {message}");
        } else if window.len() > MOST_SHOWN {
            let (line, column) = self.source.position(fault.span.start);
            // a message that is folded to a page has no room for this before it
            let gap = if most < usize::MAX { '\n' } else { ' ' };
            message = format!("{name}:{line}:{column}:{gap}{message}");
        } else {
            let shift = |span: &Range<usize>| {
                let length = window.end - window.start;
                span.start.saturating_sub(window.start).min(length)..span.end.saturating_sub(window.start).min(length)
            };
            let (line, _) = self.source.position(window.start);
            let text = self.source.text.get(window.clone()).unwrap_or("");
            let mut snippet = Snippet::source(visible(text))
                .path(name)
                .line_start(line)
                .annotation(AnnotationKind::Primary.span(shift(&pointed_at(&self.source.text, &fault.span, most))));
            if let Some((span, label)) = &fault.second {
                snippet = snippet.annotation(AnnotationKind::Context.span(shift(span)).label(visible(label)));
            }
            elements.push(snippet.into());
        }
        Level::ERROR.primary_title(message).elements(elements)
    }

    /// The lines around a fault, so that a long sheet is not looked through for each.
    fn window(&self, fault: &Fault) -> Range<usize> {
        let text = &self.source.text;
        let second = fault.second.as_ref().map(|(span, _)| span.clone()).unwrap_or_else(|| fault.span.clone());
        let from = fault.span.start.min(second.start);
        let to = first_line(text, &fault.span).end.max(second.end);
        let start = text.get(..from).and_then(|t| t.rfind('\n')).map_or(0, |at| at + 1);
        let end = text.get(to..).and_then(|t| t.find('\n')).map_or(text.len(), |at| to + at);
        start..end
    }

    fn tail(&self) -> String {
        match (self.left_off, self.faults.len()) {
            (0, 1) => "1 fault: nothing was checked\n".to_owned(),
            (0, n) => format!("{n} faults: nothing was checked\n"),
            (more, n) => format!("{} faults, the first {n} are shown: nothing was checked\n", n + more),
        }
    }
}

/// One line a fault, as `file:line:column: message`, its help indented below.
impl fmt::Display for SheetFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = clean(&self.source.name, 200);
        for fault in &self.faults {
            if self.source.text.is_empty() {
                writeln!(f, "{name}: {}", visible(&fault.message))?;
            } else {
                let (line, column) = self.source.position(fault.span.start);
                writeln!(f, "{name}:{line}:{column}: {}", visible(&fault.message))?;
            }
            if let Some(help) = &fault.help {
                writeln!(f, "    {}", visible(help))?;
            }
        }
        if self.left_off > 0 {
            writeln!(f, "and {} more", self.left_off)?;
        }
        Ok(())
    }
}

impl std::error::Error for SheetFaults {}

/// The part of a span that is on its first line, and so many columns of it.
fn pointed_at(text: &str, span: &Range<usize>, most: usize) -> Range<usize> {
    let line = first_line(text, span);
    let shown = text.get(line.clone()).unwrap_or("");
    let mut columns = 0;
    let over = shown.char_indices().find(|(at, c)| {
        columns += display_width(shown.get(*at..at + c.len_utf8()).unwrap_or(""));
        columns > most
    });
    line.start..over.map_or(line.end, |(at, _)| line.start + at)
}

/// The part of a span that is on its first line: a caret under a whole section helps nobody.
fn first_line(text: &str, span: &Range<usize>) -> Range<usize> {
    let end = text.get(span.clone()).and_then(|t| t.find('\n')).map_or(span.end, |at| span.start + at);
    span.start..end
}

/// Text of a sheet made fit for a terminal: no control or bidirectional characters, and not too long.
#[must_use]
pub fn clean(text: &str, most: usize) -> String {
    clip(text, most)
}

/// The field at a JSON pointer as a sentence names it: `readings.bore.at.6 #3`.
#[must_use]
pub fn field(pointer: &str) -> String {
    let mut out = String::new();
    for segment in pointer.split('/').skip(1) {
        // a place is called by its name, of a pack's readings too
        let sets = out.starts_with("readings.") || out.starts_with("extra.");
        let index = segment.parse::<usize>().ok().filter(|_| !(sets && out.ends_with(".at")));
        match index {
            Some(index) => out.push_str(&format!(" #{}", index + 1)),
            None => {
                if !out.is_empty() {
                    out.push('.');
                }
                out.push_str(&clean(&unescape(segment), 40));
            }
        }
    }
    if out.is_empty() { "the sheet".to_owned() } else { out }
}

/// One segment of a JSON pointer, escaped (RFC 6901, section 3).
#[must_use]
pub fn escape(segment: &str) -> String {
    segment.replace('~', "~0").replace('/', "~1")
}

fn unescape(segment: &str) -> String {
    segment.replace("~1", "/").replace("~0", "~")
}

/// Faults as they are found, with the places they stand at.
pub(super) struct Finder<'a> {
    source: &'a Source,
    keys: &'a BTreeMap<String, Range<usize>>,
    pub(super) faults: Vec<Fault>,
}

impl<'a> Finder<'a> {
    pub(super) fn new(source: &'a Source, keys: &'a BTreeMap<String, Range<usize>>) -> Self {
        Self { source, keys, faults: Vec::new() }
    }

    /// At a value.
    pub(super) fn at(&mut self, pointer: &str, message: impl Into<String>, help: Option<String>) {
        self.push(pointer, self.source.span(pointer), message.into(), help);
    }

    /// At the name of a field.
    pub(super) fn at_key(&mut self, pointer: &str, message: impl Into<String>, help: Option<String>) {
        let span = self.keys.get(pointer).cloned().unwrap_or_else(|| self.source.span(pointer));
        self.push(pointer, span, message.into(), help);
    }

    /// At the opening brace of a section.
    #[cfg(feature = "schema")]
    pub(super) fn at_start(&mut self, pointer: &str, message: impl Into<String>, help: Option<String>) {
        let span = self.source.span(pointer);
        self.push(pointer, span.start..span.end.min(span.start + 1), message.into(), help);
    }

    /// Adds a second place to the last fault.
    pub(super) fn second(&mut self, pointer: &str, label: &str) {
        let span = self.source.span(pointer);
        if let Some(last) = self.faults.last_mut() {
            last.second = Some((first_line(&self.source.text, &span), label.to_owned()));
        }
    }

    fn push(&mut self, pointer: &str, span: Range<usize>, message: String, help: Option<String>) {
        self.faults.push(Fault { message, help, pointer: pointer.to_owned(), span, second: None });
    }
}
