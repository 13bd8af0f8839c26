//! `thou book lives`: how long parts lived in this shop, maker beside maker or engine beside engine.

use super::io::{Exit, Io};
use super::log::say::{Wrap, count};
use super::options::Format;
use super::pages;
use super::shelf::{Shelf, complain, refuse};
use crate::packs::clean::clean;
use clap::{Args, ValueEnum};
use jiff::civil::Date;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thou_book::Book;
use thou_life::entry::What;
use thou_life::history::PartRun;
use thou_life::lives::{ENOUGH, LifeGroup, Lives, LogRank};
use thou_text::nearest;

#[derive(Debug, Args)]
pub(super) struct LivesArgs {
    /// The part, as it was logged: "valve springs"
    part: String,
    /// Whose lives are set side by side
    #[arg(long, value_enum, default_value_t = By::Maker)]
    by: By,
    /// What they are counted in: passes, pulls, miles or hours
    #[arg(long, default_value = "passes")]
    meter: String,
    /// As it was known on this day; else today
    #[arg(long, value_name = "DAY")]
    on: Option<Date>,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// Who made them, as `thou log add ENGINE fitted PART --maker` says
    Maker,
    /// The engine that they ran in
    Engine,
    /// What the engine is for
    Use,
    /// All of the shop's together
    Shop,
}

impl By {
    fn word(self) -> &'static str {
        match self {
            Self::Maker => "maker",
            Self::Engine => "engine",
            Self::Use => "use",
            Self::Shop => "shop",
        }
    }
}

const METERS: [&str; 4] = ["passes", "pulls", "miles", "hours"];

pub(super) fn lives(shelf: &Shelf, args: &LivesArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    if !METERS.contains(&args.meter.as_str()) {
        return Err(complain(&format!("--meter {}: write one of {}", args.meter, METERS.join(", ")), wrap, io));
    }
    let book = shelf.open(io)?;
    let day = args.on.or(io.today);
    let of = Sorted::of(&book, args, day).map_err(|e| refuse(&e, wrap, io))?;
    if of.parts.is_empty() {
        let hint = nearest(&args.part, of.known.iter().map(String::as_str));
        let hint = hint.map_or_else(
            || if of.known.is_empty() { String::new() } else { format!("; it knows {}", list(&of.known)) },
            |n| format!("; did you mean {n}?"),
        );
        return Err(complain(&format!("the book knows no {} by number{hint}", args.part), wrap, io));
    }
    match args.format {
        Format::Json => pages::json(&of.json(args, day), io),
        Format::Text => io.say(&of.text(args, day, wrap)),
    }
    Ok(())
}

fn list(names: &BTreeSet<String>) -> String {
    names.iter().map(String::as_str).collect::<Vec<_>>().join(", ")
}

struct Sorted {
    parts: Vec<PartRun>,
    lives: Lives,
    test: Option<LogRank>,
    /// Every part that was ever fitted by number.
    known: BTreeSet<String>,
}

impl Sorted {
    fn of(book: &Book, args: &LivesArgs, day: Option<Date>) -> Result<Self, thou_book::BookError> {
        let uses: BTreeMap<String, String> = book.engines()?.into_iter().map(|row| (row.name, row.usage)).collect();
        let (mut makers, mut known) = (BTreeMap::new(), BTreeSet::new());
        for (entry, counts) in book.written(None)? {
            let (What::Fitted { part, serial, maker, .. }, true) = (entry.what, counts) else { continue };
            if day.is_some_and(|day| entry.day > day) {
                continue;
            }
            known.insert(part);
            if let Some(maker) = maker {
                makers.insert(serial, maker);
            }
        }
        let same = known.iter().find(|part| part.to_lowercase() == args.part.trim().to_lowercase());
        let parts = match same {
            Some(part) => book.lives_on(part, day)?,
            None => Vec::new(),
        };
        // a life that was run in two of them is a life of neither
        let only = |all: BTreeSet<String>| if all.len() == 1 { all.into_iter().next() } else { None };
        let group = |part: &PartRun| match args.by {
            By::Maker => makers.get(&part.serial).cloned(),
            By::Engine => only(part.stretches.iter().map(|s| s.engine.clone()).collect()),
            By::Use => only(part.stretches.iter().filter_map(|s| uses.get(&s.engine).cloned()).collect()),
            By::Shop => Some("the shop".to_owned()),
        };
        let lives = Lives::of(&parts, &args.meter, group);
        let test = lives.test();
        Ok(Self { parts, lives, test, known })
    }

    fn text(&self, args: &LivesArgs, day: Option<Date>, wrap: Wrap) -> String {
        let day = day.map(|d| format!(", as of {d}")).unwrap_or_default();
        let by = if args.by == By::Shop { String::new() } else { format!(", by {}", args.by.word()) };
        let mut out = wrap.fill(&clean(&format!("How long {} lived in this shop{by}{day}", args.part)), "", "  ");
        for group in &self.lives.groups {
            out.push('\n');
            out += &one(group, &args.meter, wrap);
        }
        out.push('\n');
        if args.by != By::Shop {
            out += &wrap.fill(&self.verdict(args), "", "  ");
        }
        let mut left = Vec::new();
        let why = match args.by {
            By::Maker => "no maker was written down when they went in",
            _ => "they ran in more than one",
        };
        if !self.lives.nobodys.is_empty() {
            left.push(format!("{why}: {}", self.lives.nobodys.join(", ")));
        }
        if !self.lives.not_run.is_empty() {
            left.push(format!("nothing run on this meter: {}", self.lives.not_run.join(", ")));
        }
        if !left.is_empty() {
            out += &wrap.fill(&clean(&format!("Left out: {}.", left.join("; "))), "", "  ");
        }
        out += &wrap.fill(
            "Good: the share that had not failed by then, of those that had come so far (Kaplan and Meier, 1958); behind it \
             from where to where it may be, 19 times in 20. What came out sound, or is in still, counts as far as it ran. \
             Nobody drew lots over what went into which engine: a harder engine makes a maker look bad, and parts taken out \
             just before they would have failed make him look good.",
            "",
            "  ",
        );
        out + &wrap.fill(crate::report::DEFERS_SHORT, "", "  ")
    }

    /// What can be told of the difference.
    fn verdict(&self, args: &LivesArgs) -> String {
        let groups = self.lives.groups.len();
        if groups < 2 {
            return format!("Only one {} to look at: nothing to set it beside.", args.by.word());
        }
        let Some(test) = &self.test else {
            return "Too few to tell: none failed while parts of two of them were running.".to_owned();
        };
        if !test.enough() {
            let least = test.expected.iter().copied().fold(f64::INFINITY, f64::min);
            return format!(
                "Too few to tell: were they alike, {least:.1} failures would fall to the smallest of them, and it takes \
                 {ENOUGH} of each. Go by what you find when they are apart.",
            );
        }
        let expected: Vec<String> = self
            .lives
            .groups
            .iter()
            .zip(&test.expected)
            .map(|(g, e)| format!("{}: {} failed, {e:.1} if they were alike", g.name, g.failed.len()))
            .collect();
        let chance = match test.chance * 100.0 {
            c if c < 0.1 => "fewer than 1 in 1,000".to_owned(),
            c if c < 1.0 => "fewer than 1 in 100".to_owned(),
            c => format!("{c:.0} in 100"),
        };
        let so = if test.chance < 0.05 { "They differ" } else { "Nothing says that they differ" };
        clean(&format!(
            "{so}: were they alike, {chance} shops would see as much between them by luck (log-rank). {}.",
            expected.join("; ")
        ))
    }

    fn json(&self, args: &LivesArgs, day: Option<Date>) -> Value {
        let meter = |si: f64| shown(&args.meter, si);
        let groups: Vec<Value> = self
            .lives
            .groups
            .iter()
            .map(|g| {
                let steps: Vec<Value> = g
                    .steps()
                    .iter()
                    .map(|s| {
                        json!({ "at": meter(s.age), "running": s.at_risk, "failed": s.failed, "good": s.good,
                                "limits": s.limits })
                    })
                    .collect();
                json!({ "name": g.name, "failed": g.failed.len(), "sound": g.sound.len(), "half-by": g.half().map(meter),
                        "steps": steps })
            })
            .collect();
        let test = self.test.as_ref().map(
            |t| json!({ "enough": t.enough(), "expected": t.expected, "chi-square": t.chi_square, "chance": t.chance }),
        );
        json!({ "page": "lives", "part": args.part, "by": args.by.word(), "meter": args.meter,
                "as-of": day.map(|d| d.to_string()), "groups": groups, "test": test,
                "no-group": self.lives.nobodys, "not-run": self.lives.not_run })
    }
}

/// A reading of a meter in its own unit.
fn shown(meter: &str, si: f64) -> f64 {
    let unit = match meter {
        "miles" => thou_contract::factor::MILE,
        "hours" => 3_600.0,
        _ => 1.0,
    };
    (si / unit * 10.0).round() / 10.0
}

fn one(group: &LifeGroup, meter: &str, wrap: Wrap) -> String {
    let (failed, sound) = (group.failed.len(), group.sound.len());
    let of = count((failed + sound) as f64, "part", "parts");
    let mut out = wrap.fill(&clean(&format!("{}: {of}, {failed} failed, {sound} did not", group.name)), "", "  ");
    let steps = group.steps();
    for step in &steps {
        let limits =
            step.limits.map_or_else(String::new, |[low, high]| format!(" ({:.0} to {:.0})", low * 100.0, high * 100.0));
        let words = format!(
            "at {} {meter}: {} of the {} that had come so far failed; {:.0} % good{limits}",
            shown(meter, step.age),
            step.failed,
            step.at_risk,
            step.good * 100.0
        );
        out += &wrap.fill(&words, "  ", "    ");
    }
    let words = match (group.half(), steps.is_empty()) {
        (Some(half), _) => format!("half of them are gone by {} {meter}", shown(meter, half)),
        (None, true) => {
            let most = group.sound.iter().copied().fold(0.0, f64::max);
            format!("none failed; the longest has run {} {meter}", shown(meter, most))
        }
        (None, false) => "more than half were good to the last".to_owned(),
    };
    out + &wrap.fill(&words, "  ", "    ")
}
