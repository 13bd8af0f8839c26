//! The command line: plain verbs, text for people or JSON for programs, and an exit status that says how it stands.

mod book;
mod clock;
mod compare;
mod explain;
mod facts;
mod fields;
mod io;
mod keep;
mod known_names;
mod lives;
mod load;
mod load_like;
mod log;
mod money;
mod options;
mod packs;
mod pages;
mod paper;
mod plan;
mod plan_book;
mod shelf;

use clap::{Parser, Subcommand};
pub use io::{Exit, Io};
use std::ffi::OsString;
use std::io::Write;

/// Checks an engine build against what its owner wants to do with it.
#[derive(Debug, Parser)]
#[command(name = "thou", version, about, after_help = after(), max_term_width = 80)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

/// What stands after the list of commands.
fn after() -> String {
    format!("{STATUS}\n\n{}", paper::fill(crate::report::DEFERS, "", "").trim_end())
}

const STATUS: &str = "\
Exit status: 0 nothing at hold; 1 a no-go (with --strict anything that is not
a go); 2 the sheet or the command is not valid; 3 a rule pack failed; 4 a hold
is open, stale or unproven, or readings contradict one another. The first of 2,
3, 1, 4 that applies.";

#[derive(Debug, Subcommand)]
enum Command {
    /// Print a starter sheet for a use, with everything to fill in
    New(pages::NewArgs),
    /// Print every window and the sizes to machine to
    Spec(pages::PageArgs),
    /// Hold what was measured against what it should be
    Check(pages::CheckArgs),
    /// Print what to freshen when
    Plan(plan::PlanArgs),
    /// Say what moves between two sheets, or in one with fields otherwise
    Compare(compare::CompareArgs),
    /// Say why a rule is there, whose it is, and what to do
    Explain(explain::ExplainArgs),
    /// List the facts, or tell where one comes from
    Facts(facts::FactsArgs),
    /// List the fields of a sheet, or tell what one is and who reads it
    Fields(fields::FieldsArgs),
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
    let now = clock::now();
    let today = Some(now.date());
    let mut io = Io {
        out: &mut out,
        err: &mut err,
        out_colour,
        err_colour,
        today,
        clock: Some(now),
        settings: load::settings(),
    };
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
    let zone = match &cli.command {
        Command::Plan(args) => args.zone(),
        Command::Book(args) => args.zone(),
        Command::Log(args) => args.zone(),
        _ => None,
    };
    if let Err(words) = io.stand_in(zone) {
        io.complain(&paper::fill(&words, "", "  "));
        return Exit::INVALID;
    }
    match cli.command {
        Command::New(args) => pages::new(&args, io),
        Command::Spec(args) => pages::spec(&args, io),
        Command::Check(args) => pages::check(&args, io),
        Command::Plan(args) => plan::plan(&args, io),
        Command::Compare(args) => compare::compare(&args, io),
        Command::Explain(args) => deferring(true, io, |io| explain::explain(&args, io)),
        Command::Facts(args) => deferring(args.for_people(), io, |io| facts::facts(&args, io)),
        Command::Fields(args) => deferring(args.for_people(), io, |io| fields::fields(&args, io)),
        Command::Book(args) => book::run(&args, io),
        Command::Log(args) => log::run(&args, io),
        Command::Pack { command } => packs::run(&command, io),
    }
}

/// Runs a command and says after what it told a person to whom all of it defers.
fn deferring(for_people: bool, io: &mut Io<'_>, command: impl FnOnce(&mut Io<'_>) -> Exit) -> Exit {
    let exit = command(io);
    if for_people && exit.0 == Exit::FINE.0 {
        io.say(&format!("\n{}", paper::fill(crate::report::DEFERS, "", "")));
    }
    exit
}
