//! Events as the sheet's calendar has them: by name without case and blanks, and by day.

use crate::sheet::model::Event;
use jiff::civil::Date;
use thou_text::same_name;

/// The event of this name.
pub(super) fn in_calendar<'a>(calendar: &'a [Event], name: &str) -> Option<&'a Event> {
    calendar.iter().find(|e| same_name(&e.name) == same_name(name))
}

/// The event of a day, where it is the only one.
pub(super) fn on_day(calendar: &[Event], day: Date) -> Option<&Event> {
    let mut all = calendar.iter().filter(|e| e.first <= day && day <= e.last);
    all.next().filter(|_| all.next().is_none())
}

/// That an event is on other days by the calendar.
pub(super) fn elsewhen(calendar: &[Event], name: &str, day: Date) -> Option<String> {
    let event = in_calendar(calendar, name).filter(|e| day < e.first || e.last < day)?;
    let days =
        if event.first == event.last { event.first.to_string() } else { format!("{} to {}", event.first, event.last) };
    Some(format!("{} is on {days} by the sheet's calendar, and this is written for {day}.", event.name))
}
