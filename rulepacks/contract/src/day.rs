//! Days of the calendar, written `2026-03-14`: the kind that has no unit.

use crate::factor::DAY;

/// Days of 400 years in the Gregorian calendar.
const ERA: i64 = 146_097;
/// From the first of March of the year 0 to the first of January 2000.
const TO_2000: i64 = 730_425;

/// Seconds from the first of January 2000 to the beginning of a day; none where the calendar has no such day.
#[must_use]
pub fn day(text: &str) -> Option<f64> {
    let text = text.trim();
    let shape = text.len() == 10
        && text.bytes().enumerate().all(|(at, b)| if matches!(at, 4 | 7) { b == b'-' } else { b.is_ascii_digit() });
    let part = |from: usize, to: usize| text.get(from..to)?.parse::<i64>().ok();
    let (year, month, of_month) = (part(0, 4)?, part(5, 7)?, part(8, 10)?);
    let number = number(year, month, of_month);
    // what the calendar has comes back as it was
    (shape && (1..=12).contains(&month) && civil(number) == (year, month, of_month)).then_some(number as f64 * DAY)
}

/// The day that this many seconds after the first of January 2000 are in.
#[must_use]
pub fn day_text(si: f64) -> String {
    let (year, month, of_month) = civil((si / DAY).floor() as i64);
    format!("{year:04}-{month:02}-{of_month:02}")
}

/// Days from the first of January 2000. A year counts from March, so that its leap day comes last.
fn number(year: i64, month: i64, of_month: i64) -> i64 {
    let year = if month > 2 { year } else { year - 1 };
    let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
    let since_march = (month + 9) % 12;
    era * ERA + of_era * 365 + of_era / 4 - of_era / 100 + (153 * since_march + 2) / 5 + of_month - 1 - TO_2000
}

fn civil(number: i64) -> (i64, i64, i64) {
    let days = number.saturating_add(TO_2000);
    let (era, of_era) = (days.div_euclid(ERA), days.rem_euclid(ERA));
    let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / (ERA - 1)) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let since_march = (5 * of_year + 2) / 153;
    let month = if since_march < 10 { since_march + 3 } else { since_march - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    (year, month, of_year - (153 * since_march + 2) / 5 + 1)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn days_are_counted_from_the_first_of_january_2000() {
        // 366 days of the leap year 2000; 2024-02-29 by hand: 24 years with 6 leap days before it, 31 + 28 of its own
        for (text, days) in [
            ("2000-01-01", 0.0),
            ("2001-01-01", 366.0),
            ("1999-12-31", -1.0),
            ("2024-02-29", 24.0 * 365.0 + 6.0 + 59.0),
        ] {
            assert_eq!(day(text).map(|s| s / DAY), Some(days), "{text}");
            assert_eq!(day_text(days * DAY), text);
        }
        let mut from = day("1996-01-01").unwrap();
        while from < day("2104-01-01").unwrap() {
            assert_eq!(day(&day_text(from)), Some(from));
            from += DAY;
        }
    }

    #[test]
    fn what_the_calendar_has_not_is_no_day() {
        for text in ["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-4-1", "26-04-01", "2026/04/01", ""] {
            assert_eq!(day(text), None, "{text}");
        }
    }
}
