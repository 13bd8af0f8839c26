//! What an outing does to a part, as its service says it.

use crate::slopes::{NAMED, Slope};
use serde::{Deserialize, Serialize};

/// What hurts a part. Each is a ratio: what it is in a segment of an outing over what it is at full load and the highest
/// speed of the outing that the sheet's intent describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Inertia, as the square of the speed.
    Inertia,
    /// Valves that land, as the speed.
    Landing,
    /// Pressure in the cylinder.
    Pressure,
    /// Spring and follower: the open load at any speed, and a tenth more of it by surge and shock at the peak speed.
    Spring,
    /// Sliding under gas pressure and ring tension.
    Sliding,
}

impl Cause {
    /// All of them, by the words of a manifest.
    pub const NAMED: [(&str, Self); 5] = [
        ("inertia", Self::Inertia),
        ("landing", Self::Landing),
        ("pressure", Self::Pressure),
        ("spring", Self::Spring),
        ("sliding", Self::Sliding),
    ];

    /// As a person reads it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Inertia => "inertia",
            Self::Landing => "how hard valves land",
            Self::Pressure => "cylinder pressure",
            Self::Spring => "spring load",
            Self::Sliding => "sliding under pressure",
        }
    }
}

/// A stress, and how the part answers it. Written as its cause with a slope's name, or with two numbers:
/// `{ "cause": "inertia", "slope": "steel" }`, `{ "cause": "inertia", "harder": 8.5, "softer": 4 }`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct Stress {
    /// What hurts.
    pub cause: Cause,
    /// How the part answers: the steep slope where an outing is harder than the one described, the shallow one where it
    /// is softer.
    pub slope: Slope,
}

/// The steepest slope that a manifest may have: a wire by Goodman's line through peened data has 26; from memory.
pub const STEEPEST: f64 = 40.0;

impl Stress {
    /// A part hurt by this, that answers so.
    #[must_use]
    pub const fn of(cause: Cause, slope: Slope) -> Self {
        Self { cause, slope }
    }

    /// What is wrong with its slope, and what to do: damage grows with stress, and nobody knows the slope to better than
    /// half, so the steep one is for what is harder.
    #[must_use]
    pub fn fault(&self) -> Option<String> {
        let Slope { harder, softer } = self.slope;
        let cause = self.cause.words();
        if !(softer > 0.0 && harder > 0.0 && softer <= STEEPEST && harder <= STEEPEST) {
            return Some(format!(
                "it wears by {cause} with slopes of {harder} and {softer}: both are over 0 and {STEEPEST} at most; what \
                 no stress shortens has no `wears`, and a `duty`"
            ));
        }
        (harder < softer).then(|| {
            format!(
                "it wears by {cause} with a slope of {harder} where an outing is harder and {softer} where it is softer: \
                 the steeper one is for the harder outing, so change them about"
            )
        })
    }
}

/// A stress as it is written.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    cause: Cause,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    slope: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    harder: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    softer: Option<f64>,
}

impl From<Stress> for Written {
    fn from(Stress { cause, slope: Slope { harder, softer } }: Stress) -> Self {
        Self { cause, slope: None, harder: Some(harder), softer: Some(softer) }
    }
}

impl TryFrom<Written> for Stress {
    type Error = String;

    fn try_from(Written { cause, slope, harder, softer }: Written) -> Result<Self, String> {
        let slope = match (slope, harder, softer) {
            (Some(name), None, None) => {
                let known = || NAMED.map(|(name, _)| name).join(", ");
                Slope::named(&name).ok_or_else(|| format!("there is no slope called {name}: there are {}", known()))?
            }
            (None, Some(harder), Some(softer)) => Slope { harder, softer },
            _ => {
                let what = "what wears a part has its cause, and either the name of a `slope` or `harder` and `softer`";
                return Err(what.to_owned());
            }
        };
        Ok(Self { cause, slope })
    }
}

/// What hurts a part: the worst of several places of it counts, and in each place stresses multiply. Turns of the engine
/// are counted in every place, so that one without a stress counts by turns alone.
pub type Wears = Vec<Vec<Stress>>;

/// How an outing counts where no stress is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CountBy {
    /// An outing is an outing, however hard it was; what is on another meter does not count.
    Outing,
    /// By the turns of the engine in it, however hard they were.
    Turns,
}

impl CountBy {
    /// All of them, by the words of a manifest.
    pub const NAMED: [(&str, Self); 2] = [("outing", Self::Outing), ("turns", Self::Turns)];
}

/// How an outing counts, as a person reads it: "by inertia, to the power 8.5 where harder and 4 where softer".
#[must_use]
pub fn words(wears: Option<&[Vec<Stress>]>) -> String {
    let Some(wears) = wears else { return "by the outing alone".to_owned() };
    if wears.iter().all(Vec::is_empty) {
        return "by the engine's turns".to_owned();
    }
    let power = |power: f64| format!("{}", (power * 100.0).round() / 100.0);
    let stress = |Stress { cause, slope }: &Stress| {
        let (harder, softer) = (power(slope.harder), power(slope.softer));
        let powers = if harder == softer { harder } else { format!("{harder} where harder and {softer} where softer") };
        format!("{}, to the power {powers}", cause.words())
    };
    let place = |stresses: &Vec<Stress>| stresses.iter().map(stress).collect::<Vec<_>>().join(", times ");
    format!("by {}", wears.iter().map(place).collect::<Vec<_>>().join("; or, if that is worse, by "))
}

/// What hurts a part by what its manifest writes of it: nothing where an outing counts as one, whatever it was.
#[must_use]
pub fn wears(wears: &[Vec<Stress>], duty: Option<CountBy>) -> Option<Wears> {
    match duty {
        Some(CountBy::Outing) => None,
        Some(CountBy::Turns) => Some(vec![Vec::new()]),
        None => (!wears.is_empty()).then(|| wears.to_vec()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::slopes::{NEEDLES, STEEL};

    fn read(text: &str) -> Result<Stress, String> {
        serde_json::from_str(text).map_err(|e| e.to_string())
    }

    #[test]
    fn a_slope_is_a_name_or_two_numbers() {
        let steel = Stress::of(Cause::Inertia, STEEL);
        assert_eq!(read(r#"{ "cause": "inertia", "slope": "steel" }"#), Ok(steel));
        assert_eq!(read(r#"{ "cause": "inertia", "harder": 8.5, "softer": 4 }"#), Ok(steel));
        // what a manifest says is what was scaled by, to the last digits
        let written = serde_json::to_string(&Stress::of(Cause::Spring, NEEDLES)).unwrap();
        let back = read(&written).unwrap().slope;
        assert!((back.harder - 10.0 / 3.0).abs() < 1e-15 && (back.softer - 10.0 / 3.0).abs() < 1e-15, "{written}");
        let wrong = read(r#"{ "cause": "inertia", "slope": "iron" }"#).unwrap_err();
        assert!(wrong.starts_with("there is no slope called iron: there are steel, aluminium,"), "{wrong}");
        for text in [
            r#"{ "cause": "inertia" }"#,
            r#"{ "cause": "inertia", "harder": 8.5 }"#,
            r#"{ "cause": "inertia", "slope": "steel", "harder": 8.5, "softer": 4 }"#,
        ] {
            assert!(
                read(text).unwrap_err().contains("either the name of a `slope` or `harder` and `softer`"),
                "{text}"
            );
        }
    }

    #[test]
    fn every_cause_and_duty_is_written_by_its_name() {
        for (name, cause) in Cause::NAMED {
            assert_eq!(serde_json::to_value(cause).unwrap(), name);
        }
        for (name, duty) in CountBy::NAMED {
            assert_eq!(serde_json::to_value(duty).unwrap(), name);
        }
    }

    #[test]
    fn a_slope_that_damage_cannot_have_is_told_with_what_to_do() {
        let fault = |harder, softer| Stress::of(Cause::Landing, Slope { harder, softer }).fault();
        assert_eq!(fault(4.0, 2.0), None);
        assert_eq!(fault(3.0, 3.0), None);
        assert!(fault(2.0, 4.0).unwrap().ends_with("the steeper one is for the harder outing, so change them about"));
        for (harder, softer) in [(0.0, 0.0), (4.0, -1.0), (STEEPEST + 1.0, 2.0), (f64::NAN, 2.0)] {
            let told = fault(harder, softer).unwrap();
            assert!(told.contains("both are over 0 and 40 at most"), "{told}");
        }
    }

    #[test]
    fn how_an_outing_counts_is_told_in_words() {
        assert_eq!(words(wears(&[], None).as_deref()), "by the outing alone");
        assert_eq!(words(wears(&[], Some(CountBy::Turns)).as_deref()), "by the engine's turns");
        let places = [
            vec![Stress::of(Cause::Spring, NEEDLES), Stress::of(Cause::Inertia, STEEL)],
            vec![Stress::of(Cause::Sliding, Slope { harder: 1.0, softer: 1.0 })],
        ];
        assert_eq!(
            words(wears(&places, None).as_deref()),
            "by spring load, to the power 3.33, times inertia, to the power 8.5 where harder and 4 where softer; or, if that \
             is worse, by sliding under pressure, to the power 1"
        );
    }
}
