//! `thou book money`: what was logged of costs and hours, what was paid, and what is still owed.

use super::io::{Exit, Io};
use super::plan_book;
use super::shelf::{self, Shelf, complain, refuse};
use crate::plan::kept;
use crate::plan::money::{Account, Billed, accounts};
use crate::report;
use crate::sheet::Sheet;
use clap::{Args, ValueEnum};
use jiff::civil::Date;
use std::path::Path;
use thou_book::{Book, BookError};

#[derive(Debug, Args)]
pub(super) struct MoneyArgs {
    /// The engine's name in the book; every engine if not given
    engine: Option<String>,
    /// Only this year
    #[arg(long, value_name = "YEAR")]
    season: Option<i16>,
    /// Only this customer
    #[arg(long, value_name = "NAME")]
    of: Option<String>,
    /// As of this day; else all that was written
    #[arg(long, value_name = "DAY")]
    on: Option<Date>,
    /// Text for people, JSON for programs, or rows for a table
    #[arg(long, value_enum, default_value_t = MoneyFormat::Text)]
    format: MoneyFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum MoneyFormat {
    /// For people
    Text,
    /// For programs
    Json,
    /// One row a season, engine and customer, with a header
    Csv,
}

pub(super) fn money(shelf: &Shelf, args: &MoneyArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let named =
        args.engine.as_deref().map(|e| shelf::engine(&book, e)).transpose().map_err(|e| refuse(&e, wrap, io))?;
    let rows = book.engines().map_err(|e| refuse(&e, wrap, io))?;
    let mut all: Vec<Account> = Vec::new();
    for row in rows.iter().filter(|row| named.as_ref().is_none_or(|n| *n == row.name)) {
        let of = of_engine(&book, &row.name, &shelf.folder(), args.on);
        all.extend(of.map_err(|why| complain(&format!("{}: {why}", row.name), wrap, io))?);
    }
    let wanted = |a: &Account| {
        args.season.is_none_or(|season| a.season == season)
            && args.of.as_ref().is_none_or(|of| thou_text::same_name(of) == thou_text::same_name(&a.customer))
    };
    all.retain(wanted);
    all.sort_by(|a, b| (a.season, &a.engine, &a.customer).cmp(&(b.season, &b.engine, &b.customer)));
    match args.format {
        MoneyFormat::Text => io.say(&report::at_width(wrap.0, || report::plan_money::text(&all, args.on))),
        MoneyFormat::Json => super::pages::json(&report::plan_money::json(&all, args.on), io),
        MoneyFormat::Csv => match report::plan_money::rows(&all) {
            Ok(text) => io.say(&text),
            Err(error) => return Err(complain(&format!("the rows cannot be written: {error}"), wrap, io)),
        },
    }
    Ok(())
}

fn of_engine(book: &Book, engine: &str, folder: &Path, on: Option<Date>) -> Result<Vec<Account>, String> {
    let [shop, own] = book.office(engine).map_err(|e| e.to_string())?;
    // an engine that was begun without a sheet has its account all the same
    let mut sheet = match book.sheet(engine) {
        Err(BookError::NoSheet(_)) => Sheet::default(),
        _ => plan_book::sheet(book, engine, folder, None)?,
    };
    let hour = sheet.costs.hour;
    let customer = sheet.stated("engine.customer").and_then(|(v, _)| v.as_str()).unwrap_or("").to_owned();
    kept::over(&mut sheet, [&shop, &own], on);
    let money = sheet.costs.money.clone().unwrap_or_default();
    let of = Billed { engine, customer: &customer, hour, money: &money, entries: [&shop, &own] };
    Ok(accounts(&of, on))
}
