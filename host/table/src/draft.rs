//! A table as it is written, field by field, with nothing looked up yet.

use crate::json::{Fields, SourceText, TableReader};
use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged;
use std::ops::Range;
use thou_contract::logged::{LOG_READINGS, OverRev, SHAPES};
use thou_contract::slopes::{NAMED, Slope};
use thou_contract::wear::{Cause, CountBy, STEEPEST, Stress, Wears};
use thou_contract::{Basis, Input, KINDS, Kind, Level, METERS, OPERATIONS, Remedy, ServiceInfo, Solve, Use};
use thou_text::clean::clip;
use thou_text::{list, names, nearest};

/// Most rules in a table.
pub(crate) const MOST_RULES: usize = 500;
/// Most windows of one rule.
const MOST_WINDOWS: usize = 40;
/// Most settings, lists or maps of a table, entries of a list, and points of a map.
const MOST_BESIDE: usize = 200;
/// Most fields that a table asks for.
const MOST_INPUTS: usize = 200;
const MOST_ENTRIES: usize = 500;
const MOST_POINTS: usize = 60;
const LINE: usize = 200;
const WORDS: usize = 4_000;

const LEVELS: [(&str, Level); 3] = [("hold", Level::Hold), ("warn", Level::Warn), ("note", Level::Note)];

pub(crate) struct Draft {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) version: String,
    pub(crate) about: String,
    pub(crate) basis: Basis,
    pub(crate) source: Option<String>,
    pub(crate) uses: Vec<Use>,
    pub(crate) days: DraftDays,
    pub(crate) inputs: Vec<DraftInput>,
    pub(crate) settings: Vec<(SourceText, SourceText)>,
    pub(crate) lists: Vec<(SourceText, Vec<SourceText>)>,
    pub(crate) maps: Vec<(SourceText, DraftMap)>,
    pub(crate) rules: Vec<DraftRule>,
}

/// From when and until when something counts: the first day and the last, s, as they are written.
#[derive(Clone, Default)]
pub(crate) struct DraftDays {
    pub(crate) from: Option<(f64, String)>,
    pub(crate) until: Option<(f64, String)>,
}

/// A field of the sheet that the table asks for.
pub(crate) struct DraftInput {
    pub(crate) id: SourceText,
    /// As the manifest has it, but for its name.
    pub(crate) input: Input,
    /// What is taken where the sheet has none, and whose that is.
    pub(crate) default: Option<(SourceText, String)>,
}

/// A map by a number or by a word.
pub(crate) enum DraftMap {
    Points(Vec<(SourceText, SourceText)>),
    Words(Vec<(SourceText, SourceText)>),
}

pub(crate) struct DraftRule {
    pub(crate) id: SourceText,
    pub(crate) title: Option<String>,
    pub(crate) operation: Option<&'static str>,
    pub(crate) why: Option<String>,
    pub(crate) source: Option<String>,
    pub(crate) basis: Option<Basis>,
    pub(crate) when: Option<SourceText>,
    pub(crate) otherwise: Option<String>,
    pub(crate) supersedes: Vec<SourceText>,
    pub(crate) days: DraftDays,
    pub(crate) body: DraftBody,
}

pub(crate) enum DraftBody {
    Windows(Vec<DraftWindow>),
    Finding(Box<DraftFinding>),
    Service(Box<DraftService>),
    Step(Box<DraftStep>),
}

/// What is done, and what comes before it.
pub(crate) struct DraftStep {
    pub(crate) words: SourceText,
    pub(crate) after: Vec<SourceText>,
    pub(crate) until: Vec<SourceText>,
    pub(crate) caution: Option<String>,
}

pub(crate) struct DraftWindow {
    pub(crate) span: Range<usize>,
    pub(crate) judges: Option<SourceText>,
    pub(crate) when: Option<SourceText>,
    /// never-below, low, aim, high, never-above
    pub(crate) limits: [Option<SourceText>; 5],
    pub(crate) below: Level,
    pub(crate) above: Level,
    pub(crate) reuse: bool,
    pub(crate) basis: Option<Basis>,
    pub(crate) hold_basis: Option<Basis>,
    pub(crate) words: Option<SourceText>,
    pub(crate) whose: Option<String>,
    pub(crate) too_low: Option<DraftRemedy>,
    pub(crate) too_high: Option<DraftRemedy>,
}

/// What to do, and the places of its words and facts.
pub(crate) struct DraftRemedy {
    pub(crate) remedy: Remedy,
    pub(crate) words: SourceText,
    pub(crate) solve: Option<SourceText>,
}

pub(crate) struct DraftFinding {
    pub(crate) words: SourceText,
    pub(crate) level: Level,
    pub(crate) remedy: Option<DraftRemedy>,
    pub(crate) points_at: Vec<SourceText>,
}

pub(crate) struct DraftService {
    pub(crate) span: Range<usize>,
    pub(crate) words: Option<SourceText>,
    pub(crate) meter: &'static str,
    /// low, nominal, high
    pub(crate) lives: [Option<SourceText>; 3],
    pub(crate) part: Option<String>,
    pub(crate) action: Option<&'static str>,
    pub(crate) since: Option<&'static str>,
    pub(crate) opens: Option<&'static str>,
    pub(crate) hours: Option<f64>,
    pub(crate) loses: Option<&'static str>,
    pub(crate) triggers: Vec<String>,
    pub(crate) caution: Option<String>,
    pub(crate) held_in: Option<Vec<String>>,
    pub(crate) wears: Wears,
    pub(crate) duty: Option<CountBy>,
    pub(crate) read_afresh: Option<Vec<String>>,
    pub(crate) told_by: Option<Vec<String>>,
    pub(crate) over_rev: Option<Vec<OverRev>>,
    pub(crate) shape: Option<f64>,
}

/// Reads a table; what is wrong with it is in the reader's faults.
pub(crate) fn read<'t>(r: &mut TableReader<'t>, root: &Value<'t>) -> Option<Draft> {
    let known = [
        "$schema", "table", "title", "version", "about", "source", "basis", "from", "until", "uses", "inputs",
        "settings", "lists", "maps", "rules",
    ];
    let fields = r.fields(root, "a table", &known, &["table", "title", "rules"])?;
    let id = name(r, &fields, "table", "\"table\"")?;
    let title = title(r, &fields)?;
    let basis = basis(r, &fields, "basis");
    let uses = fields.get("uses").map(|v| uses(r, v)).unwrap_or_default();
    let days = days(r, &fields);
    let inputs = fields.get("inputs").map(|v| inputs(r, v)).unwrap_or_default();
    let settings = fields.get("settings").map(|v| settings(r, v)).unwrap_or_default();
    let lists = fields.get("lists").map(|v| lists(r, v)).unwrap_or_default();
    let maps = fields.get("maps").map(|v| maps(r, v)).unwrap_or_default();
    let rules = fields.get("rules").map(|v| r.array(v, "\"rules\"", MOST_RULES)).unwrap_or_default();
    if rules.is_empty() && r.faults.is_empty() {
        let at = root.range().start;
        r.say(at..at + 1, "this table has no rule", None);
    }
    Some(Draft {
        about: line(r, &fields, "about", WORDS).unwrap_or_else(|| format!("{title}: a table of a shop's own.")),
        version: line(r, &fields, "version", 40).unwrap_or_else(|| "1".to_owned()),
        source: line(r, &fields, "source", WORDS),
        rules: rules.iter().filter_map(|v| rule(r, v)).collect(),
        id: id.value,
        basis: basis.unwrap_or(Basis::Shop),
        title,
        uses,
        days,
        inputs,
        settings,
        lists,
        maps,
    })
}

/// The days between which it counts.
fn days<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>) -> DraftDays {
    let mut day = |name: &str| {
        let text = fields.get(name).and_then(|v| r.string(v, &format!("\"{name}\""), 40))?;
        let day = thou_contract::day(&text.value);
        if day.is_none() {
            let message = format!("\"{name}\" is a day of the calendar, like \"2027-01-01\"");
            r.say(text.span.clone(), message, None);
        }
        Some((day?, text.value.trim().to_owned(), text.span))
    };
    let (from, until) = (day("from"), day("until"));
    if let (Some(first), Some(last)) = (&from, &until)
        && last.0 < first.0
    {
        r.say(
            last.2.clone(),
            format!("it ends {} and begins {}", last.1, first.1),
            Some("are the two swapped?".to_owned()),
        );
    }
    let plain = |day: Option<(f64, String, Range<usize>)>| day.map(|(si, text, _)| (si, text));
    DraftDays { from: plain(from), until: plain(until) }
}

/// A name that an expression calls: parts in kebab-case, joined by dots.
fn called(r: &mut TableReader<'_>, name: &SourceText, what: &str) -> bool {
    let part = |p: &str| !p.is_empty() && p.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
    let fine = name.value.starts_with(|c: char| c.is_ascii_lowercase())
        && name.value.len() <= 60
        && name.value.split(['.', '-']).all(part);
    if !fine {
        let message = format!("{what} has a name in small letters, digits, single hyphens and dots: allowed.cams");
        r.say(name.span.clone(), message, None);
    }
    fine
}

fn settings<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Vec<(SourceText, SourceText)> {
    let mut all = Vec::new();
    for (name, value) in r.named(value, "\"settings\"", MOST_BESIDE) {
        let figure = r.expression(value, "a setting");
        if called(r, &name, "a setting") {
            all.extend(figure.map(|figure| (name, figure)));
        }
    }
    all
}

fn lists<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Vec<(SourceText, Vec<SourceText>)> {
    let mut all = Vec::new();
    for (name, value) in r.named(value, "\"lists\"", MOST_BESIDE) {
        let entries = r.strings(value, &format!("the list {}", name.value), MOST_ENTRIES, LINE);
        if called(r, &name, "a list") {
            all.push((name, entries));
        }
    }
    all
}

fn maps<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Vec<(SourceText, DraftMap)> {
    let mut all = Vec::new();
    for (name, value) in r.named(value, "\"maps\"", MOST_BESIDE) {
        let what = format!("the map {}", name.value);
        let Some(fields) = r.fields(value, &what, &["points", "words"], &[]) else { continue };
        let map = match (fields.get("points"), fields.get("words")) {
            (Some(points), None) => DraftMap::Points(map_points(r, points, &what)),
            (None, Some(words)) => {
                let entries = r.named(words, &what, MOST_POINTS);
                let figure = |(word, v): (SourceText, &Value<'t>), r: &mut TableReader<'t>| {
                    Some((word, r.expression(v, &what)?))
                };
                DraftMap::Words(entries.into_iter().filter_map(|e| figure(e, r)).collect())
            }
            _ => {
                let help = "\"points\": [[\"300 ci\", \"2400 lb\"], ..] or \"words\": { \"street\": \"12 µin\", .. }";
                let at = value.range().start;
                r.say(at..at + 1, format!("{what} has either points or words"), Some(help.to_owned()));
                continue;
            }
        };
        if called(r, &name, "a map") {
            all.push((name, map));
        }
    }
    all
}

fn map_points<'t>(r: &mut TableReader<'t>, value: &Value<'t>, what: &str) -> Vec<(SourceText, SourceText)> {
    let mut all = Vec::new();
    for point in r.array(value, what, MOST_POINTS) {
        let [x, y] = r.array(point, "a point", 2) else {
            let at = point.range().start;
            r.say(
                at..at + 1,
                "a point is two numbers, each with its unit",
                Some("[\"300 ci\", \"2400 lb\"]".to_owned()),
            );
            continue;
        };
        all.extend(r.expression(x, "a point").zip(r.expression(y, "a point")));
    }
    all
}

fn inputs<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Vec<DraftInput> {
    let known =
        ["id", "kind", "about", "axis", "choices", "band", "gauge", "moved-by", "required-for", "default", "source"];
    let mut all = Vec::new();
    for value in r.array(value, "\"inputs\"", MOST_INPUTS) {
        let Some(fields) = r.fields(value, "an input", &known, &["id", "kind", "about"]) else { continue };
        let id = name(r, &fields, "id", "\"id\"");
        let kind = kind(r, &fields);
        let mut texts = |name: &str| -> Vec<SourceText> {
            fields.get(name).map(|v| r.strings(v, &format!("\"{name}\""), 100, 60)).unwrap_or_default()
        };
        let (choices, band, moved, required) =
            (texts("choices"), texts("band"), texts("moved-by"), texts("required-for"));
        let values = |list: Vec<SourceText>| list.into_iter().map(|t| t.value).collect::<Vec<_>>();
        let band = match <[String; 2]>::try_from(values(band)) {
            Ok(band) => Some(band),
            Err(list) if list.is_empty() => None,
            Err(_) => {
                let at = value.range().start;
                r.say(at..at + 1, "a band is two numbers with their unit: from, to", None);
                None
            }
        };
        let default = match fields.get("default") {
            Some(value) => r.expression(value, "\"default\"").map(|text| {
                let source = line(r, &fields, "source", WORDS);
                if source.is_none() {
                    let message = "this default does not say whose it is".to_owned();
                    r.say(text.span.clone(), message, Some("add \"source\", such as \"our own number\"".to_owned()));
                }
                (text, source.unwrap_or_default())
            }),
            None => None,
        };
        let axes: Vec<&'static str> =
            vec!["one", "cylinder", "bank", "main", "rod", "crankpin", "valve", "cam-journal"];
        let input = Input {
            id: String::new(),
            kind: kind.unwrap_or_default(),
            about: line(r, &fields, "about", WORDS).unwrap_or_default(),
            axis: plain(r, &fields, "axis", &axes).filter(|axis| *axis != "one").map(str::to_owned),
            choices: values(choices),
            band,
            gauge: line(r, &fields, "gauge", 60),
            moved_by: values(moved),
            required_for: values(required),
        };
        all.extend(id.filter(|_| !input.kind.is_empty()).map(|id| DraftInput { id, input, default }));
    }
    all
}

/// A kind of quantity, or what words are.
fn kind<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>) -> Option<String> {
    let text = fields.get("kind").and_then(|v| r.string(v, "\"kind\"", 60))?;
    let fine = Input::WORDS.contains(&text.value.as_str()) || Kind::by_id(&text.value).is_some();
    if !fine {
        let all = || KINDS.iter().map(|k| k.id).chain(["day"]).chain(Input::WORDS);
        let help = nearest(&text.value, all()).map_or_else(
            || format!("it is one of {}", list(&all().collect::<Vec<_>>())),
            |near| format!("did you mean \"{near}\"?"),
        );
        r.say(text.span.clone(), format!("there is no kind \"{}\"", clip(&text.value, 40)), Some(help));
    }
    fine.then_some(text.value)
}

fn line<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, name: &str, most: usize) -> Option<String> {
    fields.get(name).and_then(|v| r.string(v, &format!("\"{name}\""), most)).map(|t| t.value)
}

/// Whose numbers these are: nobody else's name.
fn title<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>) -> Option<String> {
    let title = fields.get("title").and_then(|v| r.string(v, "\"title\"", LINE))?;
    if let Some(what) = names::title_fault(&title.value) {
        let help = "it stands behind each of the table's numbers: the shop's own name, \"Nine Mile's numbers\"";
        r.say(title.span, format!("the title {what}"), Some(help.to_owned()));
    }
    Some(title.value)
}

fn text<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, name: &str) -> Option<SourceText> {
    fields.get(name).and_then(|v| r.string(v, &format!("\"{name}\""), WORDS))
}

fn expression<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, name: &str) -> Option<SourceText> {
    fields.get(name).and_then(|v| r.expression(v, &format!("\"{name}\"")))
}

fn one_of<'t, T: Copy>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, name: &str, words: &[(&str, T)]) -> Option<T> {
    fields.get(name).and_then(|v| r.word(v, &format!("\"{name}\""), words))
}

fn plain<'t>(
    r: &mut TableReader<'t>,
    fields: &Fields<'_, 't>,
    name: &str,
    words: &[&'static str],
) -> Option<&'static str> {
    let pairs: Vec<(&str, &'static str)> = words.iter().map(|w| (*w, *w)).collect();
    one_of(r, fields, name, &pairs)
}

/// A name in kebab-case.
fn name<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, field: &str, what: &str) -> Option<SourceText> {
    let text = fields.get(field).and_then(|v| r.string(v, what, 60))?;
    let kebab = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
    if text.value.split('-').all(kebab) {
        return Some(text);
    }
    let message = format!("{what} is a name in small letters, digits and single hyphens: rod-clearance");
    r.say(text.span, message, None);
    None
}

/// What the numbers rest on; of physics there are none in a table.
fn basis<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>, field: &str) -> Option<Basis> {
    let words = [
        ("shop", Basis::Shop),
        ("maker", Basis::Maker),
        ("standard", Basis::Standard),
        ("published", Basis::Published),
        ("practice", Basis::Practice),
        ("physics", Basis::Physics),
    ];
    let value = fields.get(field)?;
    let basis = one_of(r, fields, field, &words)?;
    if basis == Basis::Physics {
        let range = value.range();
        let message = "a table's numbers do not rest on physics: contact, bind and clamp lost are worked out, and are the \
                       same in every shop";
        let help = "leave \"basis\" out for the shop's own numbers; a hold of physics stays whatever a table says";
        r.say(range.start..range.end, message, Some(help.to_owned()));
        return None;
    }
    Some(basis)
}

fn uses<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Vec<Use> {
    let mut all: Vec<Use> = Vec::new();
    for value in r.array(value, "\"uses\"", 50) {
        let Some(fields) = r.fields(value, "a use", &["id", "title", "about", "like"], &["id", "like"]) else {
            continue;
        };
        let (Some(id), Some(like)) =
            (name(r, &fields, "id", "\"id\""), plain(r, &fields, "like", &thou_contract::USES))
        else {
            continue;
        };
        if thou_contract::USES.contains(&id.value.as_str()) || all.iter().any(|u| u.id == id.value) {
            r.say(id.span, format!("the use {} is there already", id.value), None);
            continue;
        }
        let title = line(r, &fields, "title", LINE).unwrap_or_else(|| id.value.replace('-', " "));
        let about = line(r, &fields, "about", WORDS).unwrap_or_else(|| title.clone());
        all.push(Use { id: id.value, title, about, like: like.to_owned() });
    }
    all
}

fn rule<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<DraftRule> {
    let known = [
        "id",
        "title",
        "operation",
        "why",
        "source",
        "basis",
        "when",
        "otherwise",
        "supersedes",
        "window",
        "windows",
        "finding",
        "service",
        "step",
        "from",
        "until",
    ];
    let fields = r.fields(value, "a rule", &known, &["id"])?;
    let id = name(r, &fields, "id", "\"id\"");
    let bodies: Vec<&str> =
        ["window", "windows", "finding", "service", "step"].into_iter().filter(|f| fields.contains_key(f)).collect();
    let start = value.range().start;
    let body = match bodies.as_slice() {
        ["window"] => fields.get("window").and_then(|v| window(r, v)).map(|w| DraftBody::Windows(vec![w])),
        ["windows"] => {
            let before = r.faults.len();
            let list = fields.get("windows").map(|v| r.array(v, "\"windows\"", MOST_WINDOWS)).unwrap_or_default();
            if list.is_empty() && r.faults.len() == before {
                r.say(start..start + 1, "this rule has no window", Some("give it one, or take it out".to_owned()));
            }
            let all: Vec<DraftWindow> = list.iter().filter_map(|v| window(r, v)).collect();
            (!all.is_empty()).then_some(DraftBody::Windows(all))
        }
        ["finding"] => fields.get("finding").and_then(|v| finding(r, v)).map(|f| DraftBody::Finding(Box::new(f))),
        ["service"] => fields.get("service").and_then(|v| service(r, v)).map(|s| DraftBody::Service(Box::new(s))),
        ["step"] => fields.get("step").and_then(|v| step(r, v)).map(|s| DraftBody::Step(Box::new(s))),
        _ => {
            let message = "a rule has one of \"window\", \"windows\", \"finding\", \"service\" and \"step\"";
            r.say(start..start + 1, message, None);
            None
        }
    };
    Some(DraftRule {
        title: line(r, &fields, "title", LINE),
        operation: plain(r, &fields, "operation", &OPERATIONS),
        why: line(r, &fields, "why", WORDS),
        source: line(r, &fields, "source", WORDS),
        basis: basis(r, &fields, "basis"),
        when: expression(r, &fields, "when"),
        otherwise: line(r, &fields, "otherwise", WORDS),
        supersedes: fields.get("supersedes").map(|v| r.strings(v, "\"supersedes\"", 200, 125)).unwrap_or_default(),
        days: days(r, &fields),
        id: id?,
        body: body?,
    })
}

fn window<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<DraftWindow> {
    const LIMITS: [&str; 5] = ["never-below", "low", "aim", "high", "never-above"];
    let known = [
        "judges",
        "when",
        "never-below",
        "low",
        "aim",
        "high",
        "never-above",
        "below",
        "above",
        "basis",
        "hold-basis",
        "reuse",
        "words",
        "whose",
        "too-low",
        "too-high",
    ];
    let fields = r.fields(value, "a window", &known, &[])?;
    let range = value.range();
    let limits = LIMITS.map(|limit| expression(r, &fields, limit));
    if !LIMITS.iter().any(|l| *l != "aim" && fields.contains_key(l)) {
        let message = "this window has no limit";
        let help = "it has one or more of never-below, low, high, never-above; aim is where between them";
        r.say(range.start..range.start + 1, message, Some(help.to_owned()));
    }
    Some(DraftWindow {
        span: range.start..range.end,
        judges: text(r, &fields, "judges"),
        when: expression(r, &fields, "when"),
        limits,
        below: one_of(r, &fields, "below", &LEVELS).unwrap_or(Level::Warn),
        above: one_of(r, &fields, "above", &LEVELS).unwrap_or(Level::Warn),
        basis: basis(r, &fields, "basis"),
        hold_basis: basis(r, &fields, "hold-basis"),
        reuse: fields.get("reuse").is_some_and(|v| r.yes(v, "\"reuse\"")),
        words: text(r, &fields, "words"),
        whose: line(r, &fields, "whose", LINE),
        too_low: fields.get("too-low").and_then(|v| remedy(r, v, "\"too-low\"")),
        too_high: fields.get("too-high").and_then(|v| remedy(r, v, "\"too-high\"")),
    })
}

/// What to do: words, or words with a size to solve for.
fn remedy<'t>(r: &mut TableReader<'t>, value: &Value<'t>, what: &str) -> Option<DraftRemedy> {
    if let Value::StringLit(_) = value {
        let words = r.string(value, what, WORDS)?;
        return Some(DraftRemedy { remedy: Remedy { words: words.value.clone(), solve: None }, words, solve: None });
    }
    let fields = r.fields(value, what, &["words", "solve", "may"], &["words", "solve", "may"])?;
    let words = text(r, &fields, "words")?;
    let solve = text(r, &fields, "solve")?;
    let may = plain(r, &fields, "may", &["up", "down", "either"])?;
    let remedy =
        Remedy { words: words.value.clone(), solve: Some(Solve { fact: solve.value.clone(), may: may.to_owned() }) };
    Some(DraftRemedy { remedy, words, solve: Some(solve) })
}

fn finding<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<DraftFinding> {
    let fields = r.fields(value, "a finding", &["words", "level", "do", "points-at"], &["words"])?;
    Some(DraftFinding {
        level: one_of(r, &fields, "level", &LEVELS).unwrap_or(Level::Warn),
        remedy: fields.get("do").and_then(|v| remedy(r, v, "\"do\"")),
        points_at: fields.get("points-at").map(|v| r.strings(v, "\"points-at\"", 20, 100)).unwrap_or_default(),
        words: text(r, &fields, "words")?,
    })
}

fn step<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<DraftStep> {
    let fields = r.fields(value, "a step", &["words", "after", "until", "caution"], &["words"])?;
    Some(DraftStep {
        after: fields.get("after").map(|v| r.strings(v, "\"after\"", 100, 125)).unwrap_or_default(),
        until: fields.get("until").map(|v| r.strings(v, "\"until\"", 100, 125)).unwrap_or_default(),
        caution: line(r, &fields, "caution", WORDS),
        words: text(r, &fields, "words")?,
    })
}

fn service<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<DraftService> {
    let known = [
        "words",
        "meter",
        "low",
        "nominal",
        "high",
        "part",
        "action",
        "since",
        "opens",
        "hours",
        "loses",
        "triggers",
        "caution",
        "held-in",
        "wears",
        "duty",
        "read-afresh",
        "told-by",
        "over-rev",
        "shape",
    ];
    let fields = r.fields(value, "a service", &known, &["meter", "low", "nominal", "high"])?;
    let meter = plain(r, &fields, "meter", &METERS)?;
    let range = value.range();
    let [blunt, sharp] = SHAPES;
    Some(DraftService {
        span: range.start..range.end,
        words: text(r, &fields, "words"),
        meter,
        lives: ["low", "nominal", "high"].map(|life| expression(r, &fields, life)),
        part: line(r, &fields, "part", LINE),
        action: plain(r, &fields, "action", &ServiceInfo::ACTIONS),
        since: plain(r, &fields, "since", &ServiceInfo::SINCE),
        opens: plain(r, &fields, "opens", &ServiceInfo::OPENS),
        hours: fields.get("hours").and_then(|v| r.number(v, "\"hours\"", 0.0, 1_000.0)),
        loses: plain(r, &fields, "loses", &ServiceInfo::LOSES),
        triggers: fields
            .get("triggers")
            .map(|v| r.strings(v, "\"triggers\"", 50, WORDS).into_iter().map(|t| t.value).collect())
            .unwrap_or_default(),
        caution: line(r, &fields, "caution", WORDS),
        held_in: plain_words(r, &fields, "held-in", &ServiceInfo::SECTIONS),
        duty: both(r, &fields).then(|| one_of(r, &fields, "duty", &CountBy::NAMED)).flatten(),
        wears: fields.get("wears").map(|v| wears(r, v)).unwrap_or_default(),
        read_afresh: plain_words(r, &fields, "read-afresh", &LOG_READINGS),
        told_by: plain_words(r, &fields, "told-by", &LOG_READINGS),
        over_rev: words(r, &fields, "over-rev", &OverRev::NAMED),
        shape: fields.get("shape").and_then(|v| r.number(v, "\"shape\"", blunt, sharp)),
    })
}

/// A list of words of these; none where the field is left out.
fn plain_words<'t>(
    r: &mut TableReader<'t>,
    fields: &Fields<'_, 't>,
    name: &str,
    known: &[&str],
) -> Option<Vec<String>> {
    let known: Vec<(&str, &str)> = known.iter().map(|word| (*word, *word)).collect();
    Some(words(r, fields, name, &known)?.into_iter().map(str::to_owned).collect())
}

/// The same, by what each word stands for.
fn words<'t, T: Copy>(
    r: &mut TableReader<'t>,
    fields: &Fields<'_, 't>,
    name: &str,
    known: &[(&str, T)],
) -> Option<Vec<T>> {
    let quoted = format!("\"{name}\"");
    let list = r.array(fields.get(name)?, &quoted, 10);
    Some(list.iter().filter_map(|v| r.word(v, &quoted, known)).collect())
}

/// Whether the duty stands alone.
fn both<'t>(r: &mut TableReader<'t>, fields: &Fields<'_, 't>) -> bool {
    let (Some(_), Some(duty)) = (fields.get("wears"), fields.get("duty")) else { return true };
    let help = "say what hurts the part, or how an outing counts without";
    let range = duty.range();
    r.say(range.start..range.end, "this service has both \"wears\" and \"duty\"", Some(help.to_owned()));
    false
}

/// What hurts a part, place by place.
fn wears<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Wears {
    let places = r.array(value, "\"wears\"", 10);
    let mut out = Wears::new();
    for place in places {
        let before = r.faults.len();
        let stresses = r.array(place, "one place of \"wears\"", 5);
        if stresses.is_empty() && r.faults.len() == before {
            let range = place.range();
            let help = "write [{ \"cause\": \"inertia\", \"slope\": \"steel\" }]";
            r.say(range.start..range.end, "nothing hurts this place", Some(help.to_owned()));
        }
        out.push(stresses.iter().filter_map(|v| stress(r, v)).collect());
    }
    out
}

fn stress<'t>(r: &mut TableReader<'t>, value: &Value<'t>) -> Option<Stress> {
    let fields = r.fields(value, "what wears a part", &["cause", "slope", "harder", "softer"], &["cause"])?;
    let cause = one_of(r, &fields, "cause", &Cause::NAMED);
    let range = value.range();
    let slope = match (fields.get("slope"), fields.get("harder"), fields.get("softer")) {
        (Some(name), None, None) => r.word(name, "\"slope\"", &NAMED),
        (None, Some(harder), Some(softer)) => {
            let mut number = |v, what| r.number(v, what, 0.0, STEEPEST);
            let (harder, softer) = (number(harder, "\"harder\""), number(softer, "\"softer\""));
            harder.zip(softer).map(|(harder, softer)| Slope { harder, softer })
        }
        _ => {
            let help = "give it the name of a \"slope\", or both \"harder\" and \"softer\"";
            r.say(range.start..range.end, "this has no slope, or two", Some(help.to_owned()));
            None
        }
    };
    let stress = Stress::of(cause?, slope?);
    if let Some(fault) = stress.fault() {
        r.say(range.start..range.end, fault, None);
    }
    Some(stress)
}
