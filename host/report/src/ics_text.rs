//! Days and content lines as RFC 5545 writes them.

use icalendar::Property;
use jiff::Span;
use jiff::civil::Date;

/// Content lines with their folding undone, and without what the crate gives a reminder by itself: an instant of the
/// clock and a number of chance, neither of which it has to have (RFC 5545, section 3.6.6).
pub(super) fn lines(text: &str) -> Vec<String> {
    let mut within = false;
    let unfolded = text.replace("\r\n ", "");
    let kept = unfolded.split_terminator("\r\n").filter(|line| {
        within = *line == "BEGIN:VALARM" || within && *line != "END:VALARM";
        !(within && (line.starts_with("DTSTAMP:") || line.starts_with("UID:")))
    });
    kept.map(str::to_owned).collect()
}

/// Octets of a content line without its end (RFC 5545, section 3.1).
const OCTETS: usize = 75;

/// A content line folded: the crate's own folding leaves lines of 76 octets where a character of several comes at the end.
pub(super) fn folded(line: &str) -> String {
    let (mut out, mut octets) = (String::new(), 0);
    for c in line.chars() {
        if octets + c.len_utf8() > OCTETS {
            out.push_str("\r\n ");
            octets = 1;
        }
        out.push(c);
        octets += c.len_utf8();
    }
    out + "\r\n"
}

/// A whole day (RFC 5545, section 3.3.4).
pub(super) fn day(key: &str, day: Date) -> Property {
    let mut property = Property::new(key, compact(day));
    property.add_parameter("VALUE", "DATE");
    property
}

pub(super) fn compact(day: Date) -> String {
    format!("{:04}{:02}{:02}", day.year(), day.month(), day.day())
}

pub(super) fn shifted(day: Date, days: i64) -> Date {
    day.checked_add(Span::new().days(days)).unwrap_or(day)
}

/// The day after.
pub(super) fn following(day: Date) -> Date {
    shifted(day, 1)
}

#[cfg(test)]
mod tests {
    use super::folded;

    #[test]
    fn a_line_holds_75_octets_and_no_character_is_cut() {
        for (text, n) in [("a".repeat(75), 1), ("a".repeat(76), 2), ("ü".repeat(80), 3), ("aü".repeat(100), 5)] {
            let folded = folded(&text);
            let lines: Vec<&str> = folded.split_terminator("\r\n").collect();
            assert!(lines.iter().all(|l| l.len() <= 75), "{lines:?}");
            assert_eq!((lines.len(), folded.replace("\r\n ", "").trim_end()), (n, text.as_str()));
        }
    }
}
