//! Engine mechanics as pure functions: f64 in SI (m, kg, s, K, N, Pa, W, rad), no input or output, no panic for any
//! finite input. Outside its valid range a function gives NaN, or an error where the caller can do something about it.
//!
//! One file a subject; every function names its source.
#![forbid(unsafe_code)]

pub mod balance;
pub mod big_end;
pub mod bolt;
pub mod charge;
pub mod combustion_air;
pub mod cycle;
pub mod dyno_air;
pub mod dyno_room;
pub mod dyno_statistics;
pub mod expansion;
pub mod fatigue;
pub mod film_heat;
pub mod flow;
pub mod fuel;
pub mod gas;
pub mod geometry;
pub mod honing;
pub mod ideal;
pub mod inertia;
pub mod journal_bearing;
pub mod kinematics;
pub mod knock;
mod lookup;
pub mod main_bearing;
pub mod mobility;
pub mod oil;
pub mod oil_grade;
pub mod orbit;
pub mod performance;
pub mod replacement;
pub mod rings;
pub mod root;
pub mod roughness;
pub mod species;
pub mod standard_atmosphere;
pub mod survival;
pub mod uncertainty;
pub mod valve_motion;
pub mod valve_spring;
pub mod wear;
pub mod weibull;

/// An argument outside the range that a formula holds for.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Outside {
    /// The rod is too short to turn: the crank's radius and the pin's offset together reach past it.
    #[error(
        "a rod of {rod} m cannot follow a crank of {radius} m radius with {offset} m of pin offset: it must be longer than the two together"
    )]
    RodTooShort {
        /** rod length, m */
        rod: f64,
        /** crank radius, m */
        radius: f64,
        /** pin offset, m */
        offset: f64,
    },
    /// Not a size that a part can have.
    #[error("{what} is {value}: it must be greater than zero")]
    NotPositive {
        /** which argument */
        what: &'static str,
        /** what it was, SI */
        value: f64,
    },
    /// Outside the range that the formula is for.
    #[error("{what} is {value}: it must be between {low} and {high}")]
    NotBetween {
        /** which argument */
        what: &'static str,
        /** what it was, SI */
        value: f64,
        /** least, SI */
        low: f64,
        /** greatest, SI */
        high: f64,
    },
}

impl Outside {
    /// Nothing wrong with a value greater than zero.
    pub(crate) fn unless_positive(what: &'static str, value: f64) -> Result<(), Self> {
        if value > 0.0 { Ok(()) } else { Err(Self::NotPositive { what, value }) }
    }
}
