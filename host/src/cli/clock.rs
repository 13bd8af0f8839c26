//! Which day and which time it is where the reader stands: by the computer's own zone, or by one that is named.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use jiff::tz::{Offset, TimeZone};

/// From this hour of the night on a day has begun that nobody at the strip has slept before.
const MORNING: i8 = 5;

/// The computer's clock in its own zone; UTC where it knows none.
pub(super) fn now() -> ZonedDateTime {
    ZonedDateTime::now()
}

/// The same moment in a zone that somebody named.
pub(super) fn in_zone(now: &ZonedDateTime, name: &str) -> Result<ZonedDateTime, String> {
    let zone = match offset(name) {
        Some(offset) => TimeZone::fixed(offset),
        None => TimeZone::get(name).map_err(|_| {
            format!(
                "the zone \"{}\" is none that this computer knows: write it like America/New_York, or as its hours from \
                 UTC, like -05:00",
                crate::packs::clean::clip(name, 40)
            )
        })?,
    };
    Ok(now.with_time_zone(zone))
}

/// `-05:00`, `+0930`, `+13`.
fn offset(text: &str) -> Option<Offset> {
    let (sign, digits) = match text.split_at_checked(1)? {
        ("+", digits) => (1, digits),
        ("-", digits) => (-1, digits),
        _ => return None,
    };
    let digits = digits.replace(':', "");
    let (hours, minutes) = digits.split_at_checked(2)?;
    let whole =
        |text: &str| text.parse::<i32>().ok().filter(|_| text.len() == 2 && text.bytes().all(|b| b.is_ascii_digit()));
    let minutes = if minutes.is_empty() { 0 } else { whole(minutes)? };
    let seconds = sign * (whole(hours)? * 3_600 + minutes * 60);
    Offset::from_seconds(seconds).ok().filter(|_| minutes < 60)
}

/// A zone as it is written down.
pub(super) fn name(now: &ZonedDateTime) -> String {
    let known = now.time_zone().iana_name().filter(|name| *name != "Etc/Unknown");
    known.map_or_else(
        || {
            let minutes = now.offset().seconds() / 60;
            let sign = if minutes < 0 { '-' } else { '+' };
            format!("{sign}{:02}:{:02}", minutes.abs() / 60, minutes.abs() % 60)
        },
        str::to_owned,
    )
}

/// What is told of a line that was written near midnight: for which day, and which other one it may belong to.
pub(super) fn near_midnight(now: &ZonedDateTime, engine: &str) -> Option<String> {
    let (day, time) = (now.date(), now.time());
    let other: Option<Date> = match (time.hour(), time.minute()) {
        (hour, _) if hour < MORNING => day.yesterday().ok(),
        (23, 30..) => day.tomorrow().ok(),
        _ => None,
    };
    let other = other?;
    Some(format!(
        "It is {:02}:{:02} in {}: written for {day}. If it belongs to {other}: thou log undo {engine}, and once more with \
         --day {other}",
        time.hour(),
        time.minute(),
        name(now)
    ))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use jiff::Timestamp;

    // 2026-05-03 04:40 UTC is 00:40 of that day in New York in summer time, and 16:40 in Auckland
    fn moment() -> ZonedDateTime {
        Timestamp::from_second(1_777_783_200).unwrap().to_zoned_datetime(TimeZone::UTC)
    }

    #[test]
    fn the_day_is_that_of_the_zone() {
        assert_eq!(moment().date().to_string(), "2026-05-03");
        let day = |zone: &str| in_zone(&moment(), zone).map(|z| (z.date().to_string(), name(&z)));
        assert_eq!(day("-05:00"), Ok(("2026-05-02".to_owned(), "-05:00".to_owned())));
        assert_eq!(day("+1300"), Ok(("2026-05-03".to_owned(), "+13:00".to_owned())));
        assert!(day("Atlantis").unwrap_err().contains("write it like America/New_York"));
        assert!(day("-5").is_err() && day("+05:75").is_err());
    }

    #[test]
    fn a_line_near_midnight_is_told() {
        let told = |zone: &str| near_midnight(&in_zone(&moment(), zone).unwrap(), "0417");
        assert_eq!(told("+08:00"), None);
        let late = told("-05:00").unwrap();
        assert!(
            late.starts_with("It is 23:40 in -05:00: written for 2026-05-02. If it belongs to 2026-05-03:"),
            "{late}"
        );
        let early = told("-04:00").unwrap();
        assert!(early.ends_with("thou log undo 0417, and once more with --day 2026-05-02"), "{early}");
    }
}
