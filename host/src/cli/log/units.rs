//! Units that a thumb leaves out, where only one can be meant.

use crate::sheet::impossible;
use thou_contract::Kind;
use thou_life::entry::{Amount, READINGS, What};

/// Writes the unit behind every bare number that only one unit makes a value that an engine can have, and says so. What can
/// be two things is left as it is, to be refused in its own words.
pub(super) fn guess(whats: &mut [What]) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for what in whats {
        for (amount, kind, field) in amounts(what) {
            let Some((unit, text)) = only(kind, field, &amount.0) else { continue };
            let words = format!("{} taken as {text}: no other unit can be meant than {unit}.", amount.0.trim());
            amount.0 = text;
            if !said.contains(&words) {
                said.push(words);
            }
        }
    }
    said
}

/// The quantities of an entry, each with its kind and the field of a sheet whose band it is held to.
fn amounts(what: &mut What) -> Vec<(&mut Amount, &'static str, &'static str)> {
    match what {
        What::Ran { peak_speed, elapsed, .. } => {
            let peak = peak_speed.as_mut().map(|a| (a, "angular-speed", "intent.limiter"));
            let elapsed = elapsed.as_mut().map(|a| (a, "time", "intent.elapsed-time"));
            peak.into_iter().chain(elapsed).collect()
        }
        What::Happened { speed, .. } => {
            speed.as_mut().map(|a| (a, "angular-speed", "intent.limiter")).into_iter().collect()
        }
        What::Read { reading, value, .. } => {
            let known = READINGS.iter().find(|r| r.name == reading).and_then(|r| Some((r.kind, r.band_of?)));
            known.map(|(kind, field)| (value, kind, field)).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

/// The only unit of a kind with which a bare number can be, and the number with it. Spellings of one unit are one.
fn only(kind: &str, field: &str, text: &str) -> Option<(&'static str, String)> {
    let number = text.trim();
    number.parse::<f64>().ok().filter(|n| n.is_finite())?;
    let kind = Kind::by_id(kind)?;
    // a kind that takes a number alone needs no guess
    if kind.parse(number).is_ok() {
        return None;
    }
    let mut found: Option<(&'static str, f64)> = None;
    for unit in kind.spec().units {
        let with = format!("{number} {}", unit.name);
        let Ok(si) = kind.parse(&with) else { continue };
        if impossible(field, "it", &with).is_some() {
            continue;
        }
        match found {
            Some((_, other)) if (other - si).abs() > 1e-9 * other.abs() => return None,
            Some(_) => {}
            None => found = Some((unit.name, si)),
        }
    }
    found.map(|(unit, _)| (unit, format!("{number} {unit}")))
}

#[cfg(test)]
mod tests {
    use super::only;

    /// A limiter is between 1,000 and 25,000 rpm: 7,450 rad/s or 1/min-like spellings of another value are none. 18 can be
    /// 18 thou and, as micrometres, 0.7 thou: two things.
    #[test]
    fn a_unit_is_guessed_only_where_no_other_can_be() {
        let of = |kind, field, text| only(kind, field, text).map(|(_, text)| text);
        assert_eq!(of("angular-speed", "intent.limiter", "7450").as_deref(), Some("7450 rpm"));
        assert_eq!(of("percent", "readings.leak-down", "9").as_deref(), Some("9 %"));
        assert_eq!(of("temperature", "oil.temperature", "100"), None);
        assert_eq!(of("angular-speed", "intent.limiter", "7450 rpm"), None);
        assert_eq!(of("angular-speed", "intent.limiter", "seven"), None);
    }
}
