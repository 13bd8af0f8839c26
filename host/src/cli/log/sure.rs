//! What somebody said is right although it looks wrong.

use super::entry_check::Sure;
use crate::cli::options::PackFiles;
use clap::Args;

/// What is right although it looks wrong, and packs with more services.
#[derive(Debug, Args)]
pub(super) struct SureArgs {
    /// The day is right, although it is in the future or before the build
    #[arg(long)]
    day_is_right: bool,
    /// The part is right, although no service names it
    #[arg(long)]
    new_part: bool,
    /// It is another one, although it looks like one that is there
    #[arg(long)]
    pub(super) again: bool,
    #[command(flatten)]
    pub(super) packs: PackFiles,
}

impl SureArgs {
    pub(super) fn sure(&self) -> Sure {
        Sure { day: self.day_is_right, part: self.new_part }
    }
}
