//! `thou pack …`: looking at rule packs, making one, building it and holding it to its cases. A file a subcommand,
//! each with its own arguments.

mod build;
mod inspect;
mod keys;
mod list;
mod lock;
mod new;
mod new_rule;
mod pull;
mod push;
mod registry;
mod sign;
mod test;
mod verify;

use super::{Exit, Io};
use clap::Subcommand;
use thou_contract::Manifest;

#[derive(Debug, Subcommand)]
pub(super) enum PackCommand {
    /// List the rule packs that a check would run, and their rules
    List(list::List),
    /// Start a pack of your own: a folder that builds and holds to its cases
    New(new::New),
    /// Start one rule in a pack of your own: its file, its cases and its place in the list
    NewRule(new_rule::NewRule),
    /// Build a pack into a component: from its folder, or from what other tools made
    Build(build::Build),
    /// Pin the packs beside a sheet to the files that they are now
    Lock(lock::Lock),
    /// Make a pair of keys to sign packs with
    Keys(keys::Keys),
    /// Sign a pack
    Sign(sign::Sign),
    /// Hold a pack to the signature beside it
    Verify(verify::Verify),
    /// Hold a pack to its cases, in the sandbox
    Test(test::Test),
    /// Show what a pack declares, without running it
    Inspect(inspect::Inspect),
    /// Fetch a pack from a registry
    Pull(pull::Pull),
    /// Give a pack to a registry
    Push(push::Push),
}

/// Says what the services of a pack leave unsaid, which is no fault.
fn unsaid(manifest: &Manifest, io: &mut Io<'_>) {
    for words in crate::packs::unsaid(manifest) {
        io.complain(&folded(&format!("{}: {words}", manifest.id)));
    }
}

pub(super) fn run(command: &PackCommand, io: &mut Io<'_>) -> Exit {
    match command {
        PackCommand::List(args) => list::list(args, io),
        PackCommand::New(args) => new::new(args, io),
        PackCommand::NewRule(args) => new_rule::new_rule(args, io),
        PackCommand::Build(args) => build::build(args, io),
        PackCommand::Lock(args) => lock::lock(args, io),
        PackCommand::Keys(args) => keys::keys(args, io),
        PackCommand::Sign(args) => sign::sign(args, io),
        PackCommand::Verify(args) => verify::verify(args, io),
        PackCommand::Test(args) => test::test(args, io),
        PackCommand::Inspect(args) => inspect::inspect(args, io),
        PackCommand::Pull(args) => pull::pull(args, io),
        PackCommand::Push(args) => push::push(args, io),
    }
}

/// What a limit rests on, and its source where that says more.
pub(super) fn whose(basis: thou_contract::Basis, source: &str) -> String {
    if source.starts_with(basis.word()) { source.to_owned() } else { format!("{}: {source}", basis.word()) }
}

const WIDTH: usize = 80;

/// A message at the width of a page, each line under its own indent.
fn folded(text: &str) -> String {
    let mut out = String::new();
    for line in text.lines() {
        let words = line.trim_start();
        let indent = line.get(..line.len() - words.len()).unwrap_or("");
        let rest = format!("{indent}  ");
        // a path or a command that is broken at a dash cannot be copied
        let options = textwrap::Options::new(WIDTH)
            .initial_indent(indent)
            .subsequent_indent(&rest)
            .break_words(false)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        out.push_str(&textwrap::fill(words, options));
        out.push('\n');
    }
    out
}

pub(super) fn fill(text: &str, first: &str, rest: &str) -> String {
    let mut out = textwrap::fill(text, textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent(rest));
    out.push('\n');
    out
}
