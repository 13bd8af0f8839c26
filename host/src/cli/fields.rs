//! The fields of a sheet: what one is, what it can be, what makes it stale, and who reads it.

use super::io::{Exit, Io};
use super::load;
use super::options::{Format, PackFiles};
use super::paper::fill;
use crate::facts::{Catalogue, FactInfo};
use crate::packs::LoadedPack;
use serde_json::{Value as Json, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use thou_contract::Rule;
use thou_fields::{Axis, Field, FieldValue, ReadingField, Section, Standing};
use thou_text::nearest;

#[derive(Debug, clap::Args)]
pub(super) struct FieldsArgs {
    /// A section, or one field by its path, such as rods.length or readings.bore
    name: Option<String>,
    #[command(flatten)]
    with: PackFiles,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl FieldsArgs {
    /// Whether it prints text, and not JSON for programs.
    pub(super) fn for_people(&self) -> bool {
        matches!(self.format, Format::Text)
    }
}

pub(super) fn fields(args: &FieldsArgs, io: &mut Io<'_>) -> Exit {
    let (packs, faults) = load::packs(&args.with, None, io);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    let graph = Graph::new(&packs);
    let done = if faults.is_empty() { Exit::FINE } else { Exit::PACK };
    let Some(name) = args.name.as_deref().map(str::trim) else {
        match args.format {
            Format::Text => io.say(&list()),
            Format::Json => {
                let all: Vec<Json> = thou_fields::all().map(|f| entry(f, &graph)).collect();
                io.say(&format!(
                    "{:#}\n",
                    json!({ "format": "thou-fields-1", "defers": crate::report::DEFERS, "fields": all })
                ));
            }
        }
        return done;
    };
    if let Some(section) = thou_fields::section(name) {
        match args.format {
            Format::Text => io.say(&of_section(section)),
            Format::Json => {
                let all: Vec<Json> = below(section.name).map(|f| entry(f, &graph)).collect();
                io.say(&format!(
                    "{:#}\n",
                    json!({ "format": "thou-fields-1", "defers": crate::report::DEFERS, "fields": all })
                ));
            }
        }
        return done;
    }
    let Some(field) = thou_fields::field(name) else {
        io.complain(&unknown(name));
        return Exit::INVALID;
    };
    match args.format {
        Format::Text => io.say(&page(field, &graph)),
        Format::Json => io.say(&format!("{:#}\n", entry(field, &graph))),
    }
    done
}

fn unknown(name: &str) -> String {
    let own: Vec<&str> =
        thou_fields::all().map(|f| f.path).filter(|p| p.rsplit('.').next() == Some(name)).take(3).collect();
    let near =
        if own.is_empty() { nearest(name, thou_fields::all().map(|f| f.path)).into_iter().collect() } else { own };
    let hint = match near.as_slice() {
        [] => "`thou fields` lists them.".to_owned(),
        near => format!("Did you mean {}?", near.join(", or ")),
    };
    format!("No field is called \"{}\". {hint}", crate::packs::clean::clean(name))
}

/// Columns that a name takes.
const NAME: usize = 16;

fn row(name: &str, text: &str) -> String {
    let rest = " ".repeat(NAME);
    if name.chars().count() < NAME {
        return fill(text, &format!("{name:<NAME$}"), &rest);
    }
    format!("{name}\n{}", fill(text, &rest, &rest))
}

/// The fields of a section or of a row, remarks left out.
fn below(name: &str) -> impl Iterator<Item = &'static Field> {
    let name = name.to_owned();
    thou_fields::all()
        .filter(move |f| f.section() == name && !matches!(f.value, FieldValue::Notes | FieldValue::Section))
}

/// What a field is called in its section.
fn short(field: &Field) -> &'static str {
    field.path.split_once('.').map_or(field.path, |(_, rest)| rest)
}

/// Every section with the names of its fields; those that nobody reads in brackets.
fn list() -> String {
    let names = |name: &str| {
        let of = |f: &Field| match f.standing {
            Standing::Recorded(_) => format!("({})", short(f)),
            _ => short(f).to_owned(),
        };
        below(name).map(of).collect::<Vec<_>>().join(", ")
    };
    let mut out = String::new();
    for section in thou_fields::sections() {
        out.push_str(&row(section.name, section.words));
        let own = section.rows.unwrap_or(section.name);
        let names = names(own);
        let each = if section.rows.is_some() { format!("each: {names}") } else { names };
        out.push_str(&row("", &each));
    }
    let count = thou_fields::all().filter(|f| !f.holds_others() && f.value != FieldValue::Notes).count();
    let _ = write!(
        out,
        "\n{}",
        fill(
            &format!(
                "{count} fields, {} of them readings; those in brackets are recorded only. What one is and who reads it: \
                 thou fields SECTION, or thou fields rods.length",
                thou_fields::readings().len()
            ),
            "",
            ""
        )
    );
    out
}

/// A section, a line a field.
fn of_section(section: &Section) -> String {
    let mut out = fill(&format!("{}   {}", section.name, section.words), "", "  ");
    out.push('\n');
    let own = section.rows.unwrap_or(section.name);
    for field in below(own) {
        let only = if matches!(field.standing, Standing::Recorded(_)) { " Recorded only." } else { "" };
        let text = format!("{} ({}){only}", field.words.trim_end_matches('.'), written(field));
        out.push_str(&row(short(field), &text));
    }
    out
}

/// What is written there, in a few words.
fn written(field: &Field) -> String {
    match field.value {
        FieldValue::Quantity(_) => field.kind().map_or("", |k| k.noun()).to_owned(),
        FieldValue::Choice(words) => words.iter().map(|w| w.word).collect::<Vec<_>>().join(", "),
        FieldValue::Flag => "true or false".to_owned(),
        FieldValue::Text => "text".to_owned(),
        FieldValue::Day => "a day".to_owned(),
        FieldValue::Whole => "a whole number".to_owned(),
        FieldValue::Number => "a number".to_owned(),
        FieldValue::Numbers => "numbers".to_owned(),
        FieldValue::Names => "names".to_owned(),
        FieldValue::Groups => "lists of names".to_owned(),
        FieldValue::Notes => "remarks".to_owned(),
        FieldValue::Constant(text) => format!("\"{text}\""),
        FieldValue::LiftTable => "lifts, degree by degree".to_owned(),
        FieldValue::Section => "a section".to_owned(),
        FieldValue::List(rows) => format!("a list, each row with the fields of {rows}"),
        FieldValue::ByName(rows) => format!("by name, each with the fields of {rows}"),
        FieldValue::Extra => "what packs ask for".to_owned(),
        FieldValue::Read => "as the reading is".to_owned(),
    }
}

/// What hangs on what: facts on fields and on one another, rules on facts.
struct Graph<'a> {
    packs: &'a [LoadedPack],
    /// By fact: the facts that are made of it directly, its smallest, largest and so on among them.
    feeds: BTreeMap<&'static str, Vec<&'static str>>,
}

/// Who reads a field.
struct Readers {
    /// Facts that are made of it directly.
    facts: Vec<&'static str>,
    /// Rules that judge, need or take one of these.
    rules: Vec<String>,
    /// How many more hang on what is derived from them.
    further: usize,
}

impl<'a> Graph<'a> {
    fn new(packs: &'a [LoadedPack]) -> Self {
        let mut feeds: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for info in Catalogue::standard().all() {
            for need in info.needs.iter().copied().chain(info.series) {
                feeds.entry(need).or_default().push(info.id);
            }
        }
        Self { packs, feeds }
    }

    fn readers(&self, field: &Field) -> Readers {
        let lists = at_lists(field);
        let read = |info: &&FactInfo| {
            info.series.is_none() && info.fields.iter().any(|f| *f == field.path || lists.contains(f))
        };
        let facts: Vec<&'static str> = Catalogue::standard().all().filter(read).map(|i| i.id).collect();
        let series = |id: &str| Catalogue::standard().info(id).is_some_and(|i| i.series.is_some());
        let of = |id: &&str| self.feeds.get(*id).into_iter().flatten().copied().collect::<Vec<_>>();
        let direct: BTreeSet<&str> =
            facts.iter().copied().chain(facts.iter().flat_map(of).filter(|id| series(id))).collect();
        let mut all = direct.clone();
        let mut next: Vec<&str> = direct.iter().copied().collect();
        while let Some(id) = next.pop() {
            next.extend(of(&id).into_iter().filter(|id| all.insert(*id)));
        }
        let rules = self.rules(&direct);
        let further = self.rules(&all).len() - rules.len();
        Readers { facts, rules, further }
    }

    fn rules(&self, facts: &BTreeSet<&str>) -> Vec<String> {
        let hangs =
            |r: &Rule| r.judges.iter().chain(&r.needs).chain(&r.takes).any(|fact| facts.contains(fact.as_str()));
        let named = self.packs.iter().flat_map(|p| p.manifest.rules.iter().map(move |r| (&p.manifest.id, r)));
        named.filter(|(_, r)| hangs(r)).map(|(pack, r)| format!("{pack}/{}", r.id)).collect()
    }
}

/// Where a row's field stands in the sheet: the lists, or what is by name, that have such rows.
fn at_lists(field: &Field) -> Vec<&'static str> {
    let of_rows = |rows: &str| rows == field.section() && field.path.contains('.');
    let sections = thou_fields::sections().iter().filter(|s| s.rows.is_some_and(of_rows)).map(|s| s.name);
    let lists = thou_fields::fields().iter().filter(|f| match f.value {
        FieldValue::List(rows) | FieldValue::ByName(rows) => of_rows(rows),
        _ => false,
    });
    sections.chain(lists.map(|f| f.path)).collect()
}

fn reading(field: &Field) -> Option<&'static ReadingField> {
    thou_fields::reading(field.path.strip_prefix("readings.")?)
}

fn page(field: &Field, graph: &Graph<'_>) -> String {
    let mut out = fill(&format!("{}   {}", field.path, kind(field)), "", "  ");
    let mut say = |word: &str, text: &str| out.push_str(&fill(text, &format!("{word:<9}"), "         "));
    say("What", field.words);
    let lists = at_lists(field);
    if !lists.is_empty()
        && thou_fields::rows_of(field.section()).is_some_and(|r| r.fields.iter().any(|f| f.path == field.path))
    {
        say("In", &format!("each row of {}", lists.join(", ")));
    }
    if let FieldValue::Choice(choices) = field.value {
        for (at, choice) in choices.iter().enumerate() {
            let words = if choice.words.is_empty() {
                choice.word.to_owned()
            } else {
                format!("{}: {}", choice.word, choice.words)
            };
            say(if at == 0 { "One of" } else { "" }, &words);
        }
    }
    if let Some(kind) = field.kind() {
        let units: Vec<&str> = kind.spec().units.iter().map(|u| u.name).filter(|n| !n.is_empty()).collect();
        if units.is_empty() {
            say("Written", "a number without a unit");
        } else {
            say("Written", &format!("with its unit: {}", units.join(", ")));
        }
    }
    if let Some(band) = field.band {
        let words = if band.high.is_empty() {
            format!("{} or more", band.low)
        } else {
            format!("{} to {}", band.low, band.high)
        };
        say("Can be", &format!("{words}; outside is a slip of the pen"));
    }
    for usual in field.usual {
        say("Usual", &format!("{}; outside is looked at (common practice, no source)", usually(usual)));
    }
    if let Some(reading) = reading(field) {
        of_reading(reading, &mut say);
    }
    if let Some(high) = field.below {
        say("", &format!("and not more than {high}"));
    }
    say("When", &format!("{}{}", field.step.words(), if field.starter { "; a starter sheet has it" } else { "" }));
    if let Some(only) = field.only {
        say("Matters", &format!("where {} is {}", only.path, thou_text::list(only.words)));
    }
    if let Some(words) = field.disturbs {
        say("Moves", &words.replace("{pi-by}", "pi times as much").replace("{by}", "as much"));
    }
    if field.cuts_metal {
        say("", "Bringing it to size takes metal off, which cannot be put back.");
    }
    let readers = graph.readers(field);
    if !readers.facts.is_empty() {
        say("Facts", &readers.facts.join(", "));
    }
    if !readers.rules.is_empty() || readers.further > 0 {
        let own = if readers.rules.is_empty() { "none directly".to_owned() } else { readers.rules.join(", ") };
        let further = match readers.further {
            0 => String::new(),
            1 => "; 1 more through what is derived from it".to_owned(),
            n => format!("; {n} more through what is derived from it"),
        };
        say("Rules", &format!("{own}{further}"));
    } else if !readers.facts.is_empty() {
        say("Rules", "none of the packs here; thou facts shows what is made of it");
    }
    match field.standing {
        Standing::Fact => {}
        Standing::Program(what) => say("Program", what),
        Standing::Recorded(why) => say("Recorded", &format!("only: no page judges it. {why}")),
    }
    out
}

fn usually(usual: &thou_fields::Usual) -> String {
    let (from, until) = usual.written();
    if !usual.sizes.is_empty() {
        return format!("made in {}, within {until}", thou_text::list(usual.sizes));
    }
    let of = match (usual.of, usual.power) {
        ("", _) => String::new(),
        (of, 1) => format!(" of {of}"),
        (of, power) => format!(" of {of} to the power of {power}, in SI"),
    };
    let only = usual.only.map(|o| format!(" where {} is {}", o.path, thou_text::list(o.words)));
    format!("{from} to {until}{of}{}", only.unwrap_or_default())
}

fn of_reading(reading: &ReadingField, say: &mut impl FnMut(&str, &str)) {
    let points = match reading.points.names() {
        [_] => String::new(),
        several => format!(", at {}", several.join(", ")),
    };
    let each = match reading.axis {
        Axis::One => "once an engine".to_owned(),
        axis => format!("at each {}", crate::report::axis_noun(axis)),
    };
    say("Read", &format!("{each}{points}"));
    if let Some(gauge) = thou_fields::gauge(reading.gauge) {
        let words = format!(
            "{}. {}; one reading is good for {} (k = 1), in steps of {}: common practice, no source.",
            reading.gauge.replace('-', " "),
            gauge.words.trim_end_matches('.'),
            gauge.good_for,
            gauge.step
        );
        say("Gauge", &words);
    }
    match reading.grows_with {
        Some(path) => say("Warm", &format!("read warm or cold, it is brought to 20 °C as {path} grows")),
        None => say("Warm", "taken as read, whatever the temperature"),
    }
    for agreement in reading.agrees_with {
        let less = if agreement.less.is_empty() { String::new() } else { format!(" less {}", agreement.less) };
        say("Agrees", &format!("with {}{less}, within {}", agreement.field, agreement.allowed()));
    }
    let after = |m: &thou_fields::Moved| match m.by {
        Some(by) if (by - std::f64::consts::PI).abs() < 1e-9 => format!("{} (by pi times what came off)", m.work),
        Some(by) => format!("{} (by {by} of what came off)", m.work),
        None => m.work.to_owned(),
    };
    let works: Vec<String> = reading.moved_by.iter().map(after).collect();
    say("Stale", &format!("after {}", works.join(", ")));
}

fn kind(field: &Field) -> String {
    match field.value {
        FieldValue::Quantity(id) => id.replace('-', " "),
        FieldValue::Choice(_) => "a choice".to_owned(),
        _ => written(field),
    }
}

fn entry(field: &Field, graph: &Graph<'_>) -> Json {
    let readers = graph.readers(field);
    let (standing, why) = match field.standing {
        Standing::Fact => ("fact", None),
        Standing::Program(what) => ("program", Some(what)),
        Standing::Recorded(why) => ("recorded", Some(why)),
    };
    let choices: Vec<Json> = field.choices().iter().map(|c| json!({ "word": c.word, "words": c.words })).collect();
    let mut out = json!({
        "path": field.path, "words": field.words, "kind": kind(field), "choices": choices,
        "low": field.band.map(|b| b.low), "high": field.band.map(|b| b.high).filter(|h| !h.is_empty()),
        "starter": field.starter, "step": field.step.id(),
        "only": field.only.map(|o| json!({ "field": o.path, "words": o.words })),
        "disturbs": field.disturbs, "cuts-metal": field.cuts_metal,
        "facts": readers.facts,
        "rules": readers.rules, "rules-further": readers.further,
        "standing": standing, "why": why,
    });
    if let (Some(reading), Some(object)) = (reading(field), out.as_object_mut()) {
        let gauge = thou_fields::gauge(reading.gauge);
        let after: Vec<Json> = reading.moved_by.iter().map(|m| json!({ "work": m.work, "factor": m.by })).collect();
        object.insert("axis".to_owned(), json!(reading.axis.id()));
        object.insert("points".to_owned(), json!(reading.points.names()));
        object.insert(
            "gauge".to_owned(),
            json!({ "name": reading.gauge, "step": gauge.map(|g| g.step), "good-for": gauge.map(|g| g.good_for) }),
        );
        object.insert("grows-with".to_owned(), json!(reading.grows_with));
        object.insert("stale-after".to_owned(), json!(after));
    }
    out
}
