//! `thou pack …`: looking at rule packs, making one, building it and holding it to its fixtures. A file a subcommand,
//! each with its own arguments.

mod build;
mod keys;
mod list;
mod lock;
mod sign;
mod verify;

use super::{Exit, Io};
use clap::Subcommand;

#[derive(Debug, Subcommand)]
pub(super) enum PackCommand {
    /// List the rule packs that a check would run, and their rules
    List(list::List),
    /// Build a pack from its folder into a component
    Build(build::Build),
    /// Pin the packs beside a sheet to the files that they are now
    Lock(lock::Lock),
    /// Make a pair of keys to sign packs with
    Keys(keys::Keys),
    /// Sign a pack
    Sign(sign::Sign),
    /// Hold a pack to the signature beside it
    Verify(verify::Verify),
}

pub(super) fn run(command: &PackCommand, io: &mut Io<'_>) -> Exit {
    match command {
        PackCommand::List(args) => list::list(args, io),
        PackCommand::Build(args) => build::build(args, io),
        PackCommand::Lock(args) => lock::lock(args, io),
        PackCommand::Keys(args) => keys::keys(args, io),
        PackCommand::Sign(args) => sign::sign(args, io),
        PackCommand::Verify(args) => verify::verify(args, io),
    }
}

const WIDTH: usize = 80;

pub(super) fn fill(text: &str, first: &str, rest: &str) -> String {
    let mut out = textwrap::fill(text, textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent(rest));
    out.push('\n');
    out
}
