//! Where the program writes, and what it exits with.

use super::clock;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::io::Write;
use std::path::PathBuf;

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
    /// What the clock says, and in which zone; none where only the day is known.
    pub clock: Option<ZonedDateTime>,
    /// The folder of the user's own settings.
    pub settings: Option<PathBuf>,
}

impl Io<'_> {
    /// Takes the clock to be in a zone: the one that is named, else the one of THOU_ZONE, else its own.
    pub(in crate::cli) fn stand_in(&mut self, zone: Option<&str>) -> Result<(), String> {
        let Some(now) = &self.clock else { return Ok(()) };
        let named = zone.map(str::to_owned).or_else(|| std::env::var("THOU_ZONE").ok().filter(|z| !z.is_empty()));
        if let Some(name) = named {
            let there = clock::in_zone(now, &name)?;
            self.clock = Some(there);
        }
        self.today = self.clock.as_ref().map(ZonedDateTime::date).or(self.today);
        Ok(())
    }
    /// The zone that the day was read in, where it was read off a clock.
    pub(in crate::cli) fn zone(&self) -> Option<String> {
        self.clock.as_ref().map(clock::name)
    }
    // a closed pipe is not worth a word
    pub(in crate::cli) fn say(&mut self, text: &str) {
        let _ = self.out.write_all(text.as_bytes());
    }
    pub(in crate::cli) fn complain(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
        if !text.ends_with('\n') {
            let _ = self.err.write_all(b"\n");
        }
    }
}
