//! The kinds of quantity that a sheet, a fact and a rule can speak of.
//!
//! Kinds are finer than dimensions: a torque is not an energy, a temperature difference is not a temperature, and a
//! clearance is written in other units than a bore. Factors: NIST SP 811 (2008), appendix B.8.

use crate::factor::{
    DAY, DEGREE, FOOT, GALLON, HORSEPOWER, INCH, INCH_OF_MERCURY, MILE, MONTH, OUNCE, OUNCE_INCH, POUND, POUND_FORCE,
    PSI, RPM, THOU, YEAR,
};

/// One spelling of a unit: SI value = (number + `offset`) * `factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As a machinist writes it.
    pub name: &'static str,
    /// SI units in one of it.
    pub factor: f64,
    /// Added before the factor is applied; zero but for temperatures.
    pub offset: f64,
}

/// How a kind is printed in one system of units: the unit and the decimals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Print {
    /// One of the kind's unit spellings.
    pub unit: &'static str,
    /// Decimals after the point.
    pub decimals: usize,
}

/// What there is to know of one kind of quantity.
#[derive(Debug, PartialEq)]
pub struct KindSpec {
    /// Its name in manifests, in the catalogue of facts and in the schema's `$defs`.
    pub id: &'static str,
    /// "a length": as a sentence names it.
    pub noun: &'static str,
    /// Accepted spellings; the first is the one a message suggests.
    pub units: &'static [Unit],
    /// How it prints in inches.
    pub inch: Print,
    /// How it prints in millimetres.
    pub metric: Print,
}

/// A kind of quantity; cheap to copy, equal by name.
#[derive(Debug, Clone, Copy)]
pub struct Kind(pub(crate) &'static KindSpec);

impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.0.id == other.0.id
    }
}
impl Eq for Kind {}

impl Kind {
    /// The kind of this name, if there is one.
    #[must_use]
    pub fn by_id(id: &str) -> Option<Self> {
        KINDS.iter().find(|k| k.id == id).or_else(|| (id == CALENDAR.id).then_some(&CALENDAR)).map(Kind)
    }
    /// Its name.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.0.id
    }
    /// Whether its values are days of the calendar.
    #[must_use]
    pub fn is_day(self) -> bool {
        self.id() == CALENDAR.id
    }
    /// As a sentence names it: "a length".
    #[must_use]
    pub fn noun(self) -> &'static str {
        self.0.noun
    }
    /// Everything known of it.
    #[must_use]
    pub fn spec(self) -> &'static KindSpec {
        self.0
    }
}

const fn u(name: &'static str, factor: f64) -> Unit {
    Unit { name, factor, offset: 0.0 }
}
const fn p(unit: &'static str, decimals: usize) -> Print {
    Print { unit, decimals }
}

const LENGTHS: &[Unit] = &[
    u("in", INCH),
    u("thou", THOU),
    u("tenths", 2.54e-6),
    u("mm", 1e-3),
    u("µm", 1e-6),
    u("um", 1e-6),
    u("cm", 1e-2),
    u("m", 1.0),
    u("ft", FOOT),
    u("\"", INCH),
];
const PRESSURES: &[Unit] = &[
    u("psi", PSI),
    u("bar", 1e5),
    u("kPa", 1e3),
    u("MPa", 1e6),
    u("Pa", 1.0),
    u("ksi", 1e3 * PSI),
    u("Mpsi", 1e6 * PSI),
    u("GPa", 1e9),
    u("inHg", INCH_OF_MERCURY),
    u("inH2O", 249.088_91),
];

/// A day is a point in time and no length of it, so it stands beside the kinds that have units: no number and unit is one.
static CALENDAR: KindSpec =
    KindSpec { id: "day", noun: "a day", units: &[u("", DAY)], inch: p("", 0), metric: p("", 0) };

/// Every kind that has units, in the order of the alphabet; the day, `day`, has none.
pub const KINDS: &[KindSpec] = &[
    KindSpec {
        id: "acceleration",
        noun: "an acceleration",
        units: &[u("m/s²", 1.0), u("m/s2", 1.0), u("ft/s²", FOOT), u("ft/s2", FOOT)],
        inch: p("ft/s²", 0),
        metric: p("m/s²", 0),
    },
    KindSpec {
        id: "angle",
        noun: "an angle",
        units: &[u("deg", DEGREE), u("°", DEGREE), u("rad", 1.0)],
        inch: p("deg", 1),
        metric: p("deg", 1),
    },
    KindSpec {
        id: "angular-speed",
        noun: "a speed of rotation",
        units: &[u("rpm", RPM), u("rad/s", 1.0)],
        inch: p("rpm", 0),
        metric: p("rpm", 0),
    },
    KindSpec {
        id: "area",
        noun: "an area",
        units: &[
            u("in²", INCH * INCH),
            u("in2", INCH * INCH),
            u("mm²", 1e-6),
            u("mm2", 1e-6),
            u("cm²", 1e-4),
            u("cm2", 1e-4),
        ],
        inch: p("in²", 3),
        metric: p("mm²", 1),
    },
    KindSpec { id: "clearance", noun: "a length", units: LENGTHS, inch: p("thou", 1), metric: p("µm", 0) },
    KindSpec { id: "count", noun: "a count", units: &[u("", 1.0)], inch: p("", 0), metric: p("", 0) },
    KindSpec {
        id: "density",
        noun: "a density",
        units: &[u("kg/m³", 1.0), u("kg/m3", 1.0), u("g/cc", 1e3), u("lb/gal", POUND / GALLON)],
        inch: p("lb/gal", 2),
        metric: p("kg/m³", 0),
    },
    KindSpec {
        id: "distance",
        noun: "a distance",
        units: &[u("miles", MILE), u("mi", MILE), u("km", 1e3), u("ft", FOOT), u("m", 1.0)],
        inch: p("miles", 0),
        metric: p("km", 0),
    },
    KindSpec {
        id: "dynamic-viscosity",
        noun: "a dynamic viscosity",
        units: &[u("mPa·s", 1e-3), u("cP", 1e-3), u("Pa·s", 1.0)],
        inch: p("cP", 2),
        metric: p("mPa·s", 2),
    },
    KindSpec {
        id: "film",
        noun: "a thickness of film",
        units: &[u("µin", 2.54e-8), u("uin", 2.54e-8), u("µm", 1e-6), u("um", 1e-6)],
        inch: p("µin", 0),
        metric: p("µm", 2),
    },
    KindSpec {
        id: "force",
        noun: "a force",
        units: &[u("lbf", POUND_FORCE), u("lb", POUND_FORCE), u("N", 1.0), u("kN", 1e3)],
        inch: p("lbf", 0),
        metric: p("N", 0),
    },
    KindSpec { id: "gap", noun: "a length", units: LENGTHS, inch: p("thou", 0), metric: p("mm", 2) },
    KindSpec {
        id: "kinematic-viscosity",
        noun: "a kinematic viscosity",
        units: &[u("mm²/s", 1e-6), u("mm2/s", 1e-6), u("cSt", 1e-6)],
        inch: p("cSt", 1),
        metric: p("mm²/s", 1),
    },
    KindSpec { id: "length", noun: "a length", units: LENGTHS, inch: p("in", 4), metric: p("mm", 3) },
    KindSpec {
        id: "mass",
        noun: "a mass",
        units: &[u("g", 1e-3), u("kg", 1.0), u("lb", POUND), u("oz", OUNCE)],
        inch: p("g", 1),
        metric: p("g", 1),
    },
    KindSpec {
        id: "mass-flow",
        noun: "a mass flow",
        units: &[u("lb/h", POUND / 3_600.0), u("kg/h", 1.0 / 3_600.0), u("g/s", 1e-3), u("kg/s", 1.0)],
        inch: p("lb/h", 0),
        metric: p("kg/h", 0),
    },
    KindSpec {
        id: "octane",
        noun: "an octane number",
        units: &[u("", 1.0), u("(R+M)/2", 1.0)],
        inch: p("", 0),
        metric: p("", 0),
    },
    KindSpec {
        id: "passes",
        noun: "a number of passes",
        units: &[u("passes", 1.0), u("pass", 1.0)],
        inch: p("passes", 0),
        metric: p("passes", 0),
    },
    KindSpec { id: "percent", noun: "a share", units: &[u("%", 0.01)], inch: p("%", 1), metric: p("%", 1) },
    KindSpec {
        id: "power",
        noun: "a power",
        units: &[u("hp", HORSEPOWER), u("kW", 1e3), u("W", 1.0), u("PS", 735.498_75)],
        inch: p("hp", 0),
        metric: p("kW", 0),
    },
    KindSpec { id: "pressure", noun: "a pressure", units: PRESSURES, inch: p("psi", 1), metric: p("bar", 2) },
    KindSpec { id: "ratio", noun: "a ratio", units: &[u("", 1.0), u(":1", 1.0)], inch: p("", 2), metric: p("", 2) },
    KindSpec {
        id: "roughness",
        noun: "a roughness",
        units: &[u("µin", 2.54e-8), u("uin", 2.54e-8), u("µm", 1e-6), u("um", 1e-6)],
        inch: p("µin", 0),
        metric: p("µm", 2),
    },
    KindSpec {
        id: "span",
        noun: "a span of time",
        units: &[
            u("months", MONTH),
            u("month", MONTH),
            u("years", YEAR),
            u("year", YEAR),
            u("weeks", 7.0 * DAY),
            u("days", DAY),
            u("day", DAY),
            u("hours", 3_600.0),
            u("h", 3_600.0),
        ],
        inch: p("months", 0),
        metric: p("months", 0),
    },
    KindSpec {
        id: "specific-consumption",
        noun: "a specific fuel consumption",
        units: &[
            u("lb/hp-h", POUND / (HORSEPOWER * 3_600.0)),
            u("lb/(hp·h)", POUND / (HORSEPOWER * 3_600.0)),
            u("g/kWh", 1e-3 / 3.6e6),
        ],
        inch: p("lb/hp-h", 2),
        metric: p("g/kWh", 0),
    },
    KindSpec {
        id: "specific-power",
        noun: "a power for the displacement",
        units: &[u("hp/L", 1e3 * HORSEPOWER), u("kW/L", 1e6), u("hp/in³", HORSEPOWER / (INCH * INCH * INCH))],
        inch: p("hp/in³", 2),
        metric: p("kW/L", 1),
    },
    KindSpec {
        id: "speed",
        noun: "a speed",
        units: &[u("ft/min", FOOT / 60.0), u("m/s", 1.0), u("ft/s", FOOT), u("mph", 0.447_04), u("km/h", 1.0 / 3.6)],
        inch: p("ft/min", 0),
        metric: p("m/s", 1),
    },
    KindSpec {
        id: "spring-rate",
        noun: "a spring rate",
        units: &[u("lbf/in", POUND_FORCE / INCH), u("lb/in", POUND_FORCE / INCH), u("N/mm", 1e3), u("N/m", 1.0)],
        inch: p("lbf/in", 0),
        metric: p("N/mm", 1),
    },
    KindSpec {
        id: "temperature",
        noun: "a temperature",
        units: &[
            Unit { name: "°F", factor: 5.0 / 9.0, offset: 459.67 },
            Unit { name: "°C", factor: 1.0, offset: 273.15 },
            Unit { name: "degF", factor: 5.0 / 9.0, offset: 459.67 },
            Unit { name: "degC", factor: 1.0, offset: 273.15 },
            u("K", 1.0),
        ],
        inch: p("°F", 0),
        metric: p("°C", 0),
    },
    KindSpec {
        id: "temperature-difference",
        noun: "a temperature difference",
        units: &[u("°F", 5.0 / 9.0), u("°C", 1.0), u("K", 1.0)],
        inch: p("°F", 0),
        metric: p("°C", 0),
    },
    KindSpec {
        id: "time",
        noun: "a time",
        units: &[u("s", 1.0), u("min", 60.0), u("h", 3_600.0), u("hours", 3_600.0)],
        inch: p("s", 1),
        metric: p("s", 1),
    },
    KindSpec {
        id: "torque",
        noun: "a torque",
        units: &[
            u("lb-ft", POUND_FORCE * FOOT),
            u("ft-lb", POUND_FORCE * FOOT),
            u("lbf·ft", POUND_FORCE * FOOT),
            u("lb-in", POUND_FORCE * INCH),
            u("N·m", 1.0),
            u("Nm", 1.0),
            u("N-m", 1.0),
        ],
        inch: p("lb-ft", 0),
        metric: p("N·m", 0),
    },
    KindSpec {
        id: "trace",
        noun: "a share by mass",
        units: &[u("ppm", 1e-6), u("mg/kg", 1e-6)],
        inch: p("ppm", 0),
        metric: p("ppm", 0),
    },
    KindSpec {
        id: "unbalance",
        noun: "an unbalance",
        units: &[u("oz-in", OUNCE_INCH), u("g-mm", 1e-6), u("g·mm", 1e-6), u("g-in", 1e-3 * INCH)],
        inch: p("oz-in", 2),
        metric: p("g·mm", 0),
    },
    KindSpec {
        id: "volume",
        noun: "a volume",
        units: &[
            u("cc", 1e-6),
            u("cm³", 1e-6),
            u("cm3", 1e-6),
            u("mL", 1e-6),
            u("L", 1e-3),
            u("in³", INCH * INCH * INCH),
            u("in3", INCH * INCH * INCH),
            u("ci", INCH * INCH * INCH),
            u("qt", GALLON / 4.0),
            u("gal", GALLON),
        ],
        inch: p("cc", 1),
        metric: p("cc", 1),
    },
    KindSpec {
        id: "volume-flow",
        noun: "a volume flow",
        units: &[
            u("gal/h", GALLON / 3_600.0),
            u("gph", GALLON / 3_600.0),
            u("L/h", 1e-3 / 3_600.0),
            u("L/min", 1e-3 / 60.0),
            u("cc/min", 1e-6 / 60.0),
            u("cfm", FOOT * FOOT * FOOT / 60.0),
        ],
        inch: p("gal/h", 0),
        metric: p("L/h", 0),
    },
];
