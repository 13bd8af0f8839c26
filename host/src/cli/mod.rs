//! The command line: plain verbs, text for people or JSON for programs, and an exit status that says how it stands.

mod book;
mod explain;
mod facts;
mod fields;
mod load;
mod load_like;
mod log;
mod packs;
mod pages;
mod plan;
mod plan_book;

use clap::{Args, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;
use std::ffi::OsString;
use std::io::Write;
use std::path::PathBuf;
use thou_contract::System;

/// What the program exits with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Exit(pub u8);

impl Exit {
    /// Nothing is at hold.
    pub const FINE: Self = Self(0);
    /// The sheet, or what was asked for, is not valid.
    pub const INVALID: Self = Self(2);
    /// A pack failed.
    pub const PACK: Self = Self(3);
    /// The program itself is broken.
    pub const BROKEN: Self = Self(101);
}

/// Checks an engine build against what its owner wants to do with it.
#[derive(Debug, Parser)]
#[command(name = "thou", version, about, after_help = AFTER, max_term_width = 80)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

const AFTER: &str = "\
Exit status: 0 nothing at hold; 1 a no-go (with --strict anything that is not
a go); 2 the sheet or the command is not valid; 3 a rule pack failed; 4 a hold
is open, stale or unproven. The first of 2, 3, 1, 4 that applies.

Planning and checking figures. The parts' makers, the sanctioning body's rules,
local codes and licensed practice come first. The builder signs.";

#[derive(Debug, Subcommand)]
enum Command {
    /// Print a starter sheet for a use, with everything to fill in
    New(New),
    /// Print every window and the sizes to machine to
    Spec(Page),
    /// Hold what was measured against what it should be
    Check(Check),
    /// Print what to freshen when
    Plan(plan::Plan),
    /// Say why a rule is there, whose it is, and what to do
    Explain(explain::Explain),
    /// List the facts, or tell where one comes from
    Facts(Facts),
    /// List the fields of a sheet, or tell what one is and who reads it
    Fields(Fields),
    /// Keep the shop's book: engines with their sheets and logs, in one file
    Book(book::BookArgs),
    /// Write down what an engine ran, what was read and what was done
    Log(log::LogArgs),
    /// Look at rule packs, or make one
    Pack {
        #[command(subcommand)]
        command: packs::PackCommand,
    },
}

#[derive(Debug, Args)]
struct New {
    /// What the engine is for: street, bracket, all-out, or a use that a pack declares
    #[arg(value_name = "USE")]
    usage: String,
    /// How many cylinders
    #[arg(long, default_value_t = 8)]
    cylinders: usize,
    /// single, inline, v or flat
    #[arg(long, default_value = "v")]
    layout: String,
}

/// What every page over a sheet takes.
#[derive(Debug, Args)]
struct Page {
    /// The build sheet
    sheet: PathBuf,
    #[command(flatten)]
    with: With,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    units: Units,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Args)]
struct Check {
    #[command(flatten)]
    page: Page,
    /// Exit with 1 for look, unproven, stale and open too
    #[arg(long)]
    strict: bool,
}

#[derive(Debug, Clone, Args)]
struct With {
    /// Another rule pack to load, a .wasm file; may be given more than once
    #[arg(long = "pack", value_name = "FILE")]
    packs: Vec<PathBuf>,
}

#[derive(Debug, Args)]
struct Facts {
    /// One fact, to be told where it comes from
    name: Option<String>,
    /// Show the values that this sheet gives
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    units: Units,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Args)]
struct Fields {
    /// A section, or one field by its path, such as rods.length or readings.bore
    name: Option<String>,
    #[command(flatten)]
    with: With,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Units {
    /// Inches, thou, pounds
    In,
    /// Millimetres, micrometres, newtons
    Mm,
}

impl Units {
    fn system(self) -> System {
        match self {
            Self::In => System::Inch,
            Self::Mm => System::Metric,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people
    Text,
    /// For programs, as schemas/report.schema.json has it
    Json,
}

/// Where the program writes, and the day it takes it to be.
pub struct Io<'a> {
    /// What was asked for.
    pub out: &'a mut dyn Write,
    /// What stopped it.
    pub err: &'a mut dyn Write,
    /// Whether what was asked for goes to a terminal that shows colour.
    pub out_colour: bool,
    /// Whether the rest does.
    pub err_colour: bool,
    /// Today; the library itself has no clock.
    pub today: Option<Date>,
}

impl Io<'_> {
    // a closed pipe is not worth a word
    fn say(&mut self, text: &str) {
        let _ = self.out.write_all(text.as_bytes());
    }
    fn complain(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
        if !text.ends_with('\n') {
            let _ = self.err.write_all(b"\n");
        }
    }
}

/// Runs the program on the process's own arguments and streams; colour only on a terminal that wants it. All of it runs
/// on one thread with a stack that is deep enough for packs and for their compiler.
#[must_use]
pub fn run() -> Exit {
    crate::packs::on_deep_stack(on_this_stack).unwrap_or_else(|words| {
        let mut err = anstream::AutoStream::auto(std::io::stderr().lock());
        let _ =
            writeln!(err, "thou itself went wrong, and nothing was judged: {words}. Send the sheet with this text.");
        Exit::BROKEN
    })
}

fn on_this_stack() -> Exit {
    let colour = |choice| choice != anstream::ColorChoice::Never;
    let out_colour = colour(anstream::AutoStream::choice(&std::io::stdout()));
    let err_colour = colour(anstream::AutoStream::choice(&std::io::stderr()));
    let mut out = anstream::AutoStream::auto(std::io::stdout().lock());
    let mut err = anstream::AutoStream::auto(std::io::stderr().lock());
    let mut io = Io { out: &mut out, err: &mut err, out_colour, err_colour, today: load::today() };
    run_with(std::env::args_os(), &mut io)
}

/// Runs the program: the first argument is its own name.
#[must_use]
pub fn run_with(args: impl IntoIterator<Item = OsString>, io: &mut Io<'_>) -> Exit {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(error) => {
            let text = error.render();
            if error.use_stderr() {
                let text = if io.err_colour { text.ansi().to_string() } else { text.to_string() };
                io.complain(&text);
                return Exit::INVALID;
            }
            let text = if io.out_colour { text.ansi().to_string() } else { text.to_string() };
            io.say(&text);
            return Exit::FINE;
        }
    };
    match cli.command {
        Command::New(new) => pages::new(&new, io),
        Command::Spec(page) => pages::spec(&page, io),
        Command::Check(check) => pages::check(&check, io),
        Command::Plan(args) => plan::plan(&args, io),
        Command::Explain(explain) => explain::explain(&explain, io),
        Command::Facts(facts) => facts::facts(&facts, io),
        Command::Fields(fields) => fields::fields(&fields, io),
        Command::Book(args) => book::run(&args, io),
        Command::Log(args) => log::run(&args, io),
        Command::Pack { command } => packs::run(&command, io),
    }
}
