//! Quantities as text with a unit: reading them and printing them.

use crate::day::{day, day_text};
use crate::kind::{KINDS, Kind, Print, Unit};

/// The reader's system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Inches, thou, pounds.
    #[default]
    Inch,
    /// Millimetres, micrometres, newtons.
    Metric,
}

/// Why a text is not a quantity of the wanted kind. Each message says what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum QuantityError {
    /// Not a number followed by a unit.
    #[error("\"{text}\" does not start with a number: write it like \"{example}\"")]
    NotANumber {
        /** what stood there */
        text: String,
        /** a good one */
        example: String,
    },
    /// A number alone.
    #[error("\"{text}\" has no unit: this is {noun}, write it like \"{example}\"")]
    NoUnit {
        /** what stood there */
        text: String,
        /** the kind */
        noun: &'static str,
        /** a good one */
        example: String,
    },
    /// A unit that nobody knows.
    #[error("'{unit}' is not a unit that thou knows{hint}: this is {noun}, in {units}")]
    UnknownUnit {
        /** the unit */
        unit: String,
        /** did you mean */
        hint: String,
        /** the kind */
        noun: &'static str,
        /** those that fit */
        units: String,
    },
    /// A unit of another kind.
    #[error("this is {noun}; '{unit}' is for {other}: write {units}")]
    WrongKind {
        /** the unit */
        unit: String,
        /** the kind wanted */
        noun: &'static str,
        /** the kind it is */
        other: &'static str,
        /** those that fit */
        units: String,
    },
}

impl Kind {
    /// The SI value of a text such as `"4.155 in"` or `"2.8 thou"`.
    ///
    /// # Errors
    /// [`QuantityError`], with what to write instead.
    pub fn parse(self, text: &str) -> Result<f64, QuantityError> {
        let trimmed = text.trim();
        if self.is_day() {
            let no_day = || QuantityError::NotANumber { text: clip(trimmed), example: self.example() };
            return day(trimmed).ok_or_else(no_day);
        }
        let end = number_end(trimmed);
        let (number, unit) = trimmed.split_at_checked(end).unwrap_or((trimmed, ""));
        let Ok(value) = number.replace('\u{2212}', "-").parse::<f64>() else {
            return Err(QuantityError::NotANumber { text: clip(trimmed), example: self.example() });
        };
        if !value.is_finite() {
            return Err(QuantityError::NotANumber { text: clip(trimmed), example: self.example() });
        }
        self.with_unit(value, unit.trim(), trimmed)
    }

    fn with_unit(self, value: f64, unit: &str, text: &str) -> Result<f64, QuantityError> {
        if let Some(found) = self.spec().units.iter().find(|u| u.name == unit) {
            return Ok((value + found.offset) * found.factor);
        }
        if unit.is_empty() {
            return Err(QuantityError::NoUnit { text: clip(text), noun: self.noun(), example: self.example() });
        }
        let units = self.unit_names();
        match KINDS.iter().find(|k| k.units.iter().any(|u| u.name == unit)) {
            Some(other) => {
                Err(QuantityError::WrongKind { unit: clip(unit), noun: self.noun(), other: other.noun, units })
            }
            None => {
                let hint = nearest_unit(self, unit).map(|u| format!(" (did you mean '{u}'?)")).unwrap_or_default();
                Err(QuantityError::UnknownUnit { unit: clip(unit), hint, noun: self.noun(), units })
            }
        }
    }

    fn example(self) -> String {
        if self.is_day() {
            return "2026-03-14".to_owned();
        }
        let Print { unit, decimals } = self.spec().inch;
        let number = format!("{:.decimals$}", 1.0);
        if unit.is_empty() { number } else { format!("{number} {unit}") }
    }

    fn unit_names(self) -> String {
        let word = |name: &'static str| if name.is_empty() { "no unit" } else { name };
        let names: Vec<&str> = self.spec().units.iter().map(|u| word(u.name)).take(6).collect();
        names.join(", ")
    }

    /// How this kind prints for the reader.
    #[must_use]
    pub fn print(self, system: System) -> Print {
        match system {
            System::Inch => self.spec().inch,
            System::Metric => self.spec().metric,
        }
    }

    fn unit(self, name: &str) -> Option<&'static Unit> {
        self.spec().units.iter().find(|u| u.name == name)
    }

    /// The number in the reader's unit, unrounded.
    #[must_use]
    pub fn in_unit(self, si: f64, system: System) -> f64 {
        let print = self.print(system);
        self.unit(print.unit).map_or(si, |u| si / u.factor - u.offset)
    }

    /// The number alone, rounded as the trade prints it.
    #[must_use]
    pub fn number(self, si: f64, system: System) -> String {
        self.number_with(si, system, 0)
    }

    /// The number alone with `more` decimals than the trade prints.
    #[must_use]
    pub fn number_with(self, si: f64, system: System, more: usize) -> String {
        if self.is_day() {
            return day_text(si);
        }
        let decimals = self.print(system).decimals + more;
        let text = short(self.in_unit(si, system), decimals);
        // "-0.0" says nothing that "0.0" does not
        match text.strip_prefix('-') {
            Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
            _ => text,
        }
    }

    /// The number with its unit.
    #[must_use]
    pub fn text(self, si: f64, system: System) -> String {
        let unit = self.print(system).unit;
        let number = self.number(si, system);
        match unit {
            "" => number,
            "%" => format!("{number} %"),
            _ => format!("{number} {unit}"),
        }
    }
}

/// The spelling of this kind's units nearest to what was written, if any is near.
#[must_use]
pub fn nearest_unit(kind: Kind, written: &str) -> Option<&'static str> {
    let written = written.to_lowercase();
    let aliases = [
        ("inch", "in"),
        ("inches", "in"),
        ("mil", "thou"),
        ("mils", "thou"),
        ("micron", "µm"),
        ("microns", "µm"),
        ("lbs", "lb"),
        ("pounds", "lb"),
        ("ftlb", "lb-ft"),
        ("ft-lbs", "lb-ft"),
        ("ft lbs", "lb-ft"),
        ("nm", "N·m"),
        ("degrees", "deg"),
        ("f", "°F"),
        ("c", "°C"),
        ("grams", "g"),
        ("ml", "mL"),
        ("l", "L"),
        ("mile", "miles"),
        ("runs", "passes"),
        ("r/min", "rpm"),
        ("revs", "rpm"),
        ("horsepower", "hp"),
        ("bhp", "hp"),
        ("kw", "kW"),
    ];
    let known = |name: &str| kind.spec().units.iter().map(|u| u.name).find(|n| *n == name);
    aliases
        .iter()
        .find(|(from, _)| *from == written)
        .and_then(|(_, to)| known(to))
        .or_else(|| kind.spec().units.iter().map(|u| u.name).find(|n| n.to_lowercase() == written))
}

/// From here on a number prints in powers of ten: no size of an engine comes near, and 300 digits are no number to a reader.
const LONG: f64 = 1e12;

/// A number with so many decimals, or in powers of ten where it would have no end.
#[must_use]
pub fn short(number: f64, decimals: usize) -> String {
    if number.abs() < LONG { format!("{number:.decimals$}") } else { format!("{number:.2e}") }
}

fn clip(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(40).collect()
}

/// Where the number at the start of the text ends.
fn number_end(text: &str) -> usize {
    let mut end = 0;
    let mut previous = ' ';
    for (at, c) in text.char_indices() {
        let exponent = matches!(c, 'e' | 'E')
            && previous.is_ascii_digit()
            && text.get(at + 1..).is_some_and(|rest| {
                let rest = rest.strip_prefix(['-', '+']).unwrap_or(rest);
                rest.starts_with(|d: char| d.is_ascii_digit())
            });
        let sign = matches!(c, '-' | '+' | '\u{2212}') && (at == 0 || matches!(previous, 'e' | 'E'));
        if !(c.is_ascii_digit() || c == '.' || exponent || sign) {
            break;
        }
        previous = c;
        end = at + c.len_utf8();
    }
    end
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn kind(id: &str) -> Kind {
        Kind::by_id(id).unwrap()
    }

    #[test]
    fn inches_thou_and_millimetres_are_one_length() {
        // NIST SP 811 (2008), B.8: 1 in = 25.4 mm exactly
        for text in ["4.155 in", "4155 thou", "105.537 mm"] {
            assert!((kind("length").parse(text).unwrap() - 0.105_537).abs() < 1e-15, "{text}");
        }
        assert!(
            (kind("pressure").parse("14.695 948 775 5 psi".replace(' ', "").replace("psi", " psi").as_str()).unwrap()
                - 101_325.0)
                .abs()
                < 1e-4
        );
        assert!((kind("temperature").parse("68 °F").unwrap() - 293.15).abs() < 1e-9);
        assert!((kind("angular-speed").parse("60 rpm").unwrap() - std::f64::consts::TAU).abs() < 1e-12);
    }

    #[test]
    fn a_wrong_unit_is_named_with_what_fits() {
        assert_eq!(
            kind("length").parse("4.155 psi").unwrap_err().to_string(),
            "this is a length; 'psi' is for a pressure: write in, thou, tenths, mm, µm, um"
        );
        assert_eq!(
            kind("length").parse("4.155").unwrap_err().to_string(),
            "\"4.155\" has no unit: this is a length, write it like \"1.0000 in\""
        );
        assert!(kind("torque").parse("70 ft-lbs").unwrap_err().to_string().contains("did you mean 'lb-ft'?"));
        assert!(
            kind("length").parse("about 4 in").unwrap_err().to_string().starts_with("\"about 4 in\" does not start")
        );
    }

    #[test]
    fn where_no_unit_belongs_that_is_what_fits() {
        assert_eq!(
            kind("count").parse("8 psi").unwrap_err().to_string(),
            "this is a count; 'psi' is for a pressure: write no unit"
        );
        assert_eq!(
            kind("ratio").parse("12 parts").unwrap_err().to_string(),
            "'parts' is not a unit that thou knows: this is a ratio, in no unit, :1"
        );
    }

    #[test]
    fn prints_as_the_trade_rounds() {
        assert_eq!(kind("clearance").text(2.7 * 2.54e-5, System::Inch), "2.7 thou");
        assert_eq!(kind("length").text(0.105_537, System::Inch), "4.1550 in");
        assert_eq!(kind("length").text(0.105_537, System::Metric), "105.537 mm");
        assert_eq!(kind("clearance").number(-1e-12, System::Inch), "0.0");
    }

    #[test]
    fn a_number_without_end_prints_in_powers_of_ten() {
        assert_eq!(kind("clearance").text(1e300 * 2.54e-5, System::Inch), "1.00e300 thou");
        assert_eq!(kind("count").text(-2e15, System::Inch), "-2.00e15");
        assert_eq!(kind("count").text(999_999_999.0, System::Inch), "999999999");
    }

    #[test]
    fn a_day_reads_and_prints_as_one() {
        let kind = Kind::by_id("day").unwrap();
        assert!(kind.is_day());
        let si = kind.parse("2027-01-01").unwrap();
        assert_eq!(kind.text(si, System::Inch), "2027-01-01");
        assert_eq!(
            kind.parse("12 months").unwrap_err().to_string(),
            "\"12 months\" does not start with a number: write it like \"2026-03-14\""
        );
    }

    #[test]
    fn every_kind_prints_in_a_unit_it_can_read() {
        for spec in KINDS {
            for print in [spec.inch, spec.metric] {
                assert!(spec.units.iter().any(|u| u.name == print.unit), "{}: {}", spec.id, print.unit);
            }
        }
    }
}
