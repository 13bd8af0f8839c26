//! `thou pack …`: looking at rule packs, making one, building it and holding it to its cases. A file a subcommand,
//! each with its own arguments.

mod build;
mod docs;
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
mod unsaid;
mod verify;
mod whole_file;

use super::io::{Exit, Io};
use clap::Subcommand;

#[derive(Debug, Subcommand)]
pub(super) enum PackCommand {
    /// List the rule packs that a check would run, and their rules
    List(list::List),
    /// Start a pack of your own: a folder that builds and holds to its cases
    New(new::NewPackArgs),
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
    /// Write a pack's documentation from what it says of itself
    Docs(docs::Docs),
    /// Fetch a pack from a registry
    Pull(pull::Pull),
    /// Give a pack to a registry
    Push(push::Push),
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
        PackCommand::Docs(args) => docs::docs(args, io),
        PackCommand::Pull(args) => pull::pull(args, io),
        PackCommand::Push(args) => push::push(args, io),
    }
}
