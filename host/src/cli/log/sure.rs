//! What somebody said is right although it looks wrong.

use super::entry_check::Sure;
use crate::cli::options::PackFiles;
use clap::Args;
use thou_life::entry::{Entry, What};

/// More passes in a day than an engine runs: a test day with a crew comes to some twenty. Common practice, no source.
const MOST_PASSES: f64 = 29.0;

/// What is right although it looks wrong, and packs with more services.
#[derive(Debug, Args)]
pub(super) struct SureArgs {
    /// The day is right, although it is in the future or before the build
    #[arg(long)]
    day_is_right: bool,
    /// The part is right, although no service names it
    #[arg(long)]
    new_part: bool,
    /// So many passes in one day are right
    #[arg(long)]
    pub(super) sure: bool,
    /// It is another one, although it looks like one that is there
    #[arg(long)]
    pub(super) again: bool,
    #[command(flatten)]
    pub(super) packs: PackFiles,
}

impl SureArgs {
    /// The passes of a day with what is there, where nobody runs so many and nobody said that they are right.
    pub(super) fn too_many(&self, new: &[Entry], there: &[Entry]) -> Option<String> {
        let count = |list: &[Entry]| -> f64 {
            let of = |e: &Entry| match &e.what {
                What::Ran { passes, .. } => passes.unwrap_or(0.0),
                _ => 0.0,
            };
            list.iter().map(of).sum()
        };
        let (more, before) = (count(new), count(there));
        let day = new.first()?.day;
        (!self.sure && more > 0.0 && more + before > MOST_PASSES).then(|| {
            let with = if before > 0.0 { format!(" with the {before} that are there") } else { String::new() };
            format!(
                "{} passes on {day}{with}, sure? If it is so, say --sure; if they ran on several days, write each with \
                 its --day; a meter's own reading is passes-on-meter",
                more + before
            )
        })
    }

    pub(super) fn sure(&self) -> Sure {
        Sure { day: self.day_is_right, part: self.new_part }
    }
}
