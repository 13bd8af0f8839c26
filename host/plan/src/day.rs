//! Days and years, as a plan counts them.

use jiff::civil::Date;
use jiff::{Span, Unit};

/// Seconds of a day.
pub(super) const DAY: f64 = 86_400.0;

/// Days of the mean year.
pub(super) const YEAR: f64 = 365.25;

/// A day so many years later, a whole day too early rather than too late.
pub(super) fn after(from: Date, years: f64) -> Option<Date> {
    let days = (years.max(0.0) * YEAR + 1e-6).min(36_500.0).floor();
    from.checked_add(Span::new().days(days as i64)).ok()
}

/// Days from one to the other; negative where it is earlier.
pub(super) fn days(from: Date, to: Date) -> i32 {
    from.until((Unit::Day, to)).map_or(0, |s| s.get_days())
}

/// A day so many days earlier.
pub(super) fn earlier(day: Date, days: i64) -> Date {
    day.checked_sub(Span::new().days(days)).unwrap_or(day)
}

/// The same day so many years later.
pub(super) fn later(day: Date, years: i64) -> Date {
    day.checked_add(Span::new().years(years)).unwrap_or(day)
}

/// A year's share in so many days.
pub(super) fn by_the_mean(a_year: f64, days: i32) -> f64 {
    f64::from(days.max(0)) / YEAR * a_year
}
