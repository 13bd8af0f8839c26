//! What the shop keeps in its book over what the sheets say: events, days, costs, the shelf, and the money.

use super::io::{Exit, Io};
use super::log::entry_check::{EntryCheck, Sure};
use super::log::known::{Known, load_known};
use super::log::say::{self, Wrap};
use super::log::words::parse_day;
use super::options::PackFiles;
use super::plan_book;
use super::shelf::{self, Shelf, complain, refuse, tidy};
use crate::packs::clean::clean;
use crate::plan::kept;
use clap::Args;
use jiff::Span;
use jiff::civil::Date;
use std::collections::BTreeMap;
use std::path::Path;
use thou_book::Book;
use thou_contract::Kind;
use thou_life::entry::{Amount, Entry, SHOP, What};

/// Whose it is, and who says so.
#[derive(Debug, Clone, Args)]
pub(super) struct Said {
    /// The day it is said, like 2026-05-02; today if not given
    #[arg(long)]
    day: Option<String>,
    /// Who says it
    #[arg(long)]
    by: Option<String>,
    /// In words
    #[arg(long)]
    note: Option<String>,
    #[command(flatten)]
    packs: PackFiles,
}

#[derive(Debug, Args)]
pub(super) struct EventArgs {
    /// The engine's name in the book, or shop for every engine
    engine: String,
    /// What the shop calls the event
    name: String,
    /// Its first day; one that the calendar has is moved there
    #[arg(long, value_name = "DAY", required_unless_present = "off")]
    on: Option<String>,
    /// How many days it has; as many as before if not given
    #[arg(long)]
    days: Option<u32>,
    /// How its rounds go: race, match or test
    #[arg(long)]
    kind: Option<String>,
    /// Passes before the rounds
    #[arg(long, value_name = "PASSES")]
    time_trials: Option<u32>,
    /// Rounds to the end
    #[arg(long)]
    rounds: Option<u32>,
    /// Where it is
    #[arg(long = "where", value_name = "PLACE")]
    at: Option<String>,
    /// It is called off, or not gone to
    #[arg(long, conflicts_with_all = ["on", "days", "kind", "time_trials", "rounds", "at"])]
    off: bool,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct SpareArgs {
    /// The engine that it fits, or shop for every engine
    engine: String,
    /// The part, as the services name it
    part: String,
    /// Its number
    #[arg(long)]
    serial: Option<String>,
    /// What it has run, like passes=12; may be given more than once
    #[arg(long, value_name = "METER=READING")]
    run: Vec<String>,
    /// It is gone: sold, lent or thrown away
    #[arg(long, conflicts_with = "run")]
    gone: bool,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct LeadTimeArgs {
    /// The engine, or shop for every engine
    engine: String,
    /// The part, as the services name it
    part: String,
    /// From the order to the bench: days, or text like "3 weeks"
    #[arg(value_name = "DAYS", required_unless_present_any = ["away", "unknown"])]
    days: Option<String>,
    /// Days away when it is sent out
    #[arg(long, value_name = "DAYS")]
    away: Option<String>,
    /// Who it comes from or goes to, and said so
    #[arg(long, value_name = "WHO")]
    from: Option<String>,
    /// Nobody knows any more
    #[arg(long, conflicts_with_all = ["days", "away", "from"])]
    unknown: bool,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct CostArgs {
    /// The engine, or shop for every engine
    engine: String,
    /// The part, as the services name it
    #[arg(required_unless_present_any = ["hour", "money"])]
    part: Option<String>,
    /// What a planned change costs, without the hours
    #[arg(value_name = "PLANNED")]
    planned: Option<f64>,
    /// All that it costs when it lets go: the part, the work, and what it takes along
    #[arg(long, value_name = "COST", requires = "part")]
    failure: Option<f64>,
    /// What an hour of work costs, from the day on
    #[arg(long, value_name = "COST")]
    hour: Option<f64>,
    /// What the money is called
    #[arg(long, value_name = "NAME")]
    money: Option<String>,
    /// Nobody knows any more what the part costs
    #[arg(long, conflicts_with_all = ["planned", "failure", "hour", "money"])]
    unknown: bool,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct ChargeArgs {
    /// The engine's name in the book
    engine: String,
    /// What was bought for it, without hours
    #[arg(value_name = "COST", required_unless_present = "hours")]
    cost: Option<f64>,
    /// Hours of work
    #[arg(long)]
    hours: Option<f64>,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct PaidArgs {
    /// The engine's name in the book
    engine: String,
    /// What came in
    amount: f64,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct BudgetArgs {
    /// The engine's name in the book
    engine: String,
    /// What may be spent on it
    amount: f64,
    /// The year; that of the day if not given
    #[arg(long, value_name = "YEAR")]
    season: Option<i16>,
    #[command(flatten)]
    said: Said,
}

#[derive(Debug, Args)]
pub(super) struct CustomerArgs {
    /// The engine's name in the book
    engine: String,
    /// Whose it is from the day on
    name: String,
    #[command(flatten)]
    said: Said,
}

/// An entry that is being made: of which engine, of which event, and what it says.
struct Making<'a> {
    engine: &'a str,
    event: Option<String>,
    said: &'a Said,
}

/// What a command reads before it can say what is meant.
struct Desk {
    book: Book,
    known: Known,
    engine: String,
    day: Date,
}

fn desk(shelf: &Shelf, making: &Making<'_>, io: &mut Io<'_>) -> Result<Desk, Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let engine = shelf::engine(&book, making.engine).map_err(|e| refuse(&e, wrap, io))?;
    let day = shelf::day(making.said.day.as_deref(), wrap, io)?;
    let known = load_known(&making.said.packs, io)?;
    Ok(Desk { book, known, engine, day })
}

/// Writes it, and says what was written, what it stands for now and how it is taken back.
fn keep(shelf: &Shelf, desk: Desk, making: &Making<'_>, what: What, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let Desk { mut book, known, engine, day } = desk;
    let said = making.said;
    let entry = Entry {
        id: String::new(),
        engine: engine.clone(),
        day,
        zone: io.zone().filter(|_| said.day.is_none()),
        event: making.event.clone(),
        by: tidy(said.by.as_deref()),
        note: tidy(said.note.as_deref()),
        what,
    };
    let check =
        EntryCheck { known: &known, sheet: None, built: None, today: io.today, sure: Sure { day: false, part: false } };
    if let Some((_, why)) = check.wrong(&entry) {
        let why = why.replace(" If it is a part of its own, say --new-part", "");
        let stop = if why.ends_with(['.', '?']) { "" } else { "." };
        return Err(complain(&format!("{why}{stop} Nothing was written."), wrap, io));
    }
    let added = book.append(std::slice::from_ref(&entry)).map_err(|e| refuse(&e, wrap, io))?;
    let id = added.first().map(|a| a.id.clone()).unwrap_or_default();
    let words = format!("{} {}: {} [{id}]", say::engine(&engine), say::when(&entry), say::what(&entry));
    io.say(&wrap.fill(&words, "", "  "));
    instead((&book, &shelf.folder()), &engine, &id, wrap, io)?;
    let name = if engine == SHOP { "shop" } else { engine.as_str() };
    io.say(&wrap.fill(&clean(&format!("Taken back with: thou log undo {name} {id}")), "  ", "  "));
    io.say(&wrap.fill(crate::report::DEFERS_SHORT, "  ", "  "));
    Ok(())
}

/// What the sheet says of the same, where that is another thing; and where the engine's own counts over what was said of all.
fn instead(desk: (&Book, &Path), engine: &str, id: &str, wrap: Wrap, io: &mut Io<'_>) -> Result<(), Exit> {
    let (book, folder) = desk;
    let rows = book.engines().map_err(|e| refuse(&e, wrap, io))?;
    // engines of which the same is said are named together
    let mut alike: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for name in rows.iter().map(|row| row.name.as_str()).filter(|name| engine == SHOP || *name == engine) {
        let kept = match of_engine(book, name, folder) {
            Ok(kept) => kept,
            Err(why) => {
                io.complain(&wrap.fill(&clean(&format!("{name}: {why}")), "", "  "));
                continue;
            }
        };
        let words = match kept.items.iter().find(|item| item.entry == id) {
            Some(item) => {
                let before = match &item.sheet {
                    Some(sheet) => format!("over what the sheet says, {sheet}"),
                    None => "of which the sheet says nothing".to_owned(),
                };
                format!("{} now {}, {before}", item.name, item.now)
            }
            // an engine's own word counts over the shop's
            None if engine == SHOP => "nothing changes".to_owned(),
            None => continue,
        };
        alike.entry(words).or_default().push(name);
    }
    for (words, names) in alike {
        let whose = if engine == SHOP { format!("{}: ", names.join(", ")) } else { String::new() };
        io.say(&wrap.fill(&clean(&format!("{whose}{words}.")), "  ", "  "));
    }
    Ok(())
}

/// What the book keeps over the newest sheet of an engine.
fn of_engine(book: &Book, engine: &str, folder: &Path) -> Result<kept::Kept, String> {
    let mut sheet = plan_book::sheet(book, engine, folder, None)?;
    let history = book.history(engine).map_err(|e| e.to_string())?;
    Ok(kept::set(&mut sheet, &history, None))
}

pub(super) fn event(shelf: &Shelf, args: &EventArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let name = tidy(Some(&args.name)).ok_or_else(|| complain("event: write what the shop calls it", wrap, io))?;
    let making = Making { engine: &args.engine, event: Some(name), said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let what = if args.off {
        What::CalledOff
    } else {
        let on = parse_day("--on", args.on.as_deref().unwrap_or("")).map_err(|why| complain(&why, wrap, io))?;
        let last = args.days.map(|days| on.checked_add(Span::new().days(i64::from(days.max(1)) - 1)).unwrap_or(on));
        if args.days.is_some_and(|days| days == 0 || days > 31) {
            return Err(complain("--days: write 1 to 31", wrap, io));
        }
        What::Scheduled {
            on,
            last,
            kind: tidy(args.kind.as_deref()).map(|k| k.to_lowercase()),
            time_trials: args.time_trials,
            rounds: args.rounds,
            at: tidy(args.at.as_deref()),
        }
    };
    keep(shelf, desk, &making, what, io)
}

pub(super) fn spare(shelf: &Shelf, args: &SpareArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let (part, serial) = (desk.known.part(&args.part), tidy(args.serial.as_deref()));
    let what = if args.gone {
        What::OffTheShelf { part, serial }
    } else {
        let brought = run(&args.run).map_err(|why| complain(&why, wrap, io))?;
        if let Some(serial) = &serial
            && let Some(here) = desk.book.part(serial).map_err(|e| refuse(&e, wrap, io))?
            && let Some(engine) = here.still_in()
        {
            let why = format!("{serial} is in {engine} by the log: log first that it came out. Nothing was written.");
            return Err(complain(&why, wrap, io));
        }
        What::Shelved { part, serial, brought }
    };
    keep(shelf, desk, &making, what, io)
}

fn run(pairs: &[String]) -> Result<BTreeMap<String, Amount>, String> {
    let of = |pair: &String| match pair.split_once('=') {
        Some((meter, reading)) => Ok((meter.trim().to_lowercase(), Amount(reading.trim().to_owned()))),
        None => Err(format!("--run {}: write the meter and what it has run, like passes=12", clean(pair))),
    };
    pairs.iter().map(of).collect()
}

/// Days as a thumb writes them, or text with a unit.
fn days(option: &str, text: &str) -> Result<u32, String> {
    let whole = text.trim().parse::<u32>().ok();
    let span = || {
        let si = Kind::by_id("span")?.parse(text.trim()).ok()?;
        let days = (si / 86_400.0 - 1e-9).ceil();
        (0.0..1e6).contains(&days).then_some(days as u32)
    };
    whole.or_else(span).ok_or_else(|| format!("{option} {}: write days, or text like \"3 weeks\"", clean(text)))
}

pub(super) fn lead_time(shelf: &Shelf, args: &LeadTimeArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let of = |name: &str, text: &Option<String>| text.as_deref().map(|text| days(name, text)).transpose();
    let (order, away) = of("lead-time", &args.days)
        .and_then(|order| Ok((order, of("--away", &args.away)?)))
        .map_err(|why| complain(&why, wrap, io))?;
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let part = desk.known.part(&args.part);
    let what = What::LeadTime { part, days: order, away, from: tidy(args.from.as_deref()) };
    keep(shelf, desk, &making, what, io)
}

pub(super) fn cost(shelf: &Shelf, args: &CostArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let part = args.part.as_deref().map(|part| desk.known.part(part));
    if part.is_some() && args.planned.is_none() && args.failure.is_none() && !args.unknown {
        let why =
            "cost: write what a planned change costs behind the part, like 420, or --unknown. Nothing was written.";
        return Err(complain(why, wrap, io));
    }
    let what = What::Priced {
        part,
        planned: args.planned,
        failure: args.failure,
        hour: args.hour,
        money: tidy(args.money.as_deref()),
    };
    keep(shelf, desk, &making, what, io)
}

pub(super) fn charge(shelf: &Shelf, args: &ChargeArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    keep(shelf, desk, &making, What::Charged { cost: args.cost, hours: args.hours }, io)
}

pub(super) fn paid(shelf: &Shelf, args: &PaidArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    keep(shelf, desk, &making, What::Paid { amount: args.amount }, io)
}

pub(super) fn budget(shelf: &Shelf, args: &BudgetArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let season = args.season.unwrap_or_else(|| desk.day.year());
    keep(shelf, desk, &making, What::Budgeted { season, amount: args.amount }, io)
}

pub(super) fn customer(shelf: &Shelf, args: &CustomerArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let making = Making { engine: &args.engine, event: None, said: &args.said };
    let desk = desk(shelf, &making, io)?;
    let name = tidy(Some(&args.name)).ok_or_else(|| complain("customer: write whose engine it is", wrap, io))?;
    keep(shelf, desk, &making, What::Customer { name }, io)
}

/// What the book keeps over the sheets, engine by engine.
pub(super) fn list(shelf: &Shelf, engine: Option<&str>, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let named = engine.map(|e| shelf::engine(&book, e)).transpose().map_err(|e| refuse(&e, wrap, io))?;
    let rows = book.engines().map_err(|e| refuse(&e, wrap, io))?;
    let (mut any, folder) = (false, shelf.folder());
    let wanted = |name: &str| named.as_deref().is_none_or(|n| n == name || n == SHOP);
    for name in rows.iter().map(|row| row.name.as_str()).filter(|name| wanted(name)) {
        let kept = match of_engine(&book, name, &folder) {
            Ok(kept) => kept,
            Err(why) => {
                io.complain(&wrap.fill(&clean(&format!("{name}: {why}")), "", "  "));
                continue;
            }
        };
        let items: Vec<&kept::KeptItem> =
            kept.items.iter().filter(|i| i.of_the_shop || named.as_deref() != Some(SHOP)).collect();
        if items.is_empty() {
            continue;
        }
        any = true;
        io.say(&wrap.fill(&clean(name), "", "  "));
        for item in items {
            io.say(&wrap.fill(&clean(&format!("{} [{}]", crate::report::kept_words(item), item.entry)), "  ", "    "));
        }
    }
    if any {
        io.say(&wrap.fill("All else of dates, days, costs and shelf is as the sheets have it.", "", "  "));
    } else {
        io.say(&wrap.fill("Nothing is kept over the sheets: all of it is as they have it.", "", "  "));
    }
    Ok(())
}
