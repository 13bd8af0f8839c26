"""Every spelling of every unit, against pint's registry and scipy's constants (CODATA, NIST SP 811)."""

import numpy as np
import pint
import scipy.constants
from harness import Case, check

PINT = pint.UnitRegistry()

LENGTHS = {
    "in": "inch", "thou": "thou", "tenths": "1e-4 inch", "mm": "mm", "µm": "um", "um": "um", "cm": "cm", "m": "m",
    "ft": "foot", '"': "inch",
}  # fmt: skip
# what each spelling of each kind means, in pint's words; the kind's SI unit first
KINDS = {
    "acceleration": ("m/s^2", {"m/s²": "m/s^2", "m/s2": "m/s^2", "ft/s²": "foot/s^2", "ft/s2": "foot/s^2"}),
    "angle": ("rad", {"deg": "degree", "°": "degree", "rad": "rad"}),
    "angular-speed": ("rad/s", {"rpm": "revolution/minute", "rad/s": "rad/s"}),
    "area": ("m^2", {"in²": "inch^2", "in2": "inch^2", "mm²": "mm^2", "mm2": "mm^2", "cm²": "cm^2", "cm2": "cm^2"}),
    "clearance": ("m", LENGTHS),
    "count": ("", {"": ""}),
    "density": ("kg/m^3", {"kg/m³": "kg/m^3", "kg/m3": "kg/m^3", "g/cc": "g/cm^3", "lb/gal": "pound/US_liquid_gallon"}),
    "dynamic-viscosity": ("Pa*s", {"mPa·s": "mPa*s", "cP": "centipoise", "Pa·s": "Pa*s"}),
    "film": ("m", {"µin": "1e-6 inch", "uin": "1e-6 inch", "µm": "um", "um": "um"}),
    "kinematic-viscosity": ("m^2/s", {"mm²/s": "mm^2/s", "mm2/s": "mm^2/s", "cSt": "centistokes"}),
    "distance": ("m", {"miles": "mile", "mi": "mile", "km": "km", "ft": "foot", "m": "m"}),
    "force": ("N", {"lbf": "force_pound", "lb": "force_pound", "N": "N", "kN": "kN"}),
    "gap": ("m", LENGTHS),
    "length": ("m", LENGTHS),
    "mass": ("kg", {"g": "gram", "kg": "kg", "lb": "pound", "oz": "ounce"}),
    "mass-flow": ("kg/s", {"lb/h": "pound/hour", "kg/h": "kg/hour", "g/s": "g/s", "kg/s": "kg/s"}),
    "octane": ("", {"": "", "(R+M)/2": ""}),
    "passes": ("", {"passes": "", "pass": ""}),
    "percent": ("", {"%": "percent"}),
    "power": ("W", {"hp": "550 force_pound*foot/s", "kW": "kW", "W": "W", "PS": "75 kgf * m / s"}),
    "pressure": (
        "Pa",
        {
            "psi": "force_pound/inch^2", "bar": "bar", "kPa": "kPa", "MPa": "MPa", "Pa": "Pa",
            "ksi": "1000 force_pound/inch^2", "Mpsi": "1000000 force_pound/inch^2", "GPa": "gigapascal",
            "inHg": "13595.1 kg/m^3 * inch * g_0", "inH2O": "1000 kg/m^3 * inch * g_0",
        },  # fmt: skip
    ),
    "ratio": ("", {"": "", ":1": ""}),
    "roughness": ("m", {"µin": "1e-6 inch", "uin": "1e-6 inch", "µm": "um", "um": "um"}),
    "span": (
        "s",
        {
            "months": "julian_year / 12", "month": "julian_year / 12", "years": "julian_year", "year": "julian_year",
            "weeks": "week", "days": "day", "day": "day", "hours": "hour", "h": "hour",
        },  # fmt: skip
    ),
    "specific-consumption": (
        "kg/J",
        {
            "lb/hp-h": "pound / (550 force_pound*foot/s * hour)", "lb/(hp·h)": "pound / (550 force_pound*foot/s * hour)",
            "g/kWh": "g / kWh",
        },  # fmt: skip
    ),
    "specific-power": ("W/m^3", {"hp/L": "550 force_pound*foot/s/L", "kW/L": "kW/L", "hp/in³": "550 force_pound*foot/s/inch^3"}),
    "speed": ("m/s", {"ft/min": "foot/minute", "m/s": "m/s", "ft/s": "foot/s", "mph": "mile/hour", "km/h": "km/hour"}),
    "spring-rate": (
        "N/m",
        {"lbf/in": "force_pound/inch", "lb/in": "force_pound/inch", "N/mm": "N/mm", "N/m": "N/m"},
    ),
    "temperature": ("K", {"°F": "degF", "°C": "degC", "degF": "degF", "degC": "degC", "K": "K"}),
    "temperature-difference": ("K", {"°F": "delta_degF", "°C": "delta_degC", "K": "K"}),
    "time": ("s", {"s": "s", "min": "minute", "h": "hour", "hours": "hour"}),
    "torque": (
        "N*m",
        {
            "lb-ft": "force_pound*foot", "ft-lb": "force_pound*foot", "lbf·ft": "force_pound*foot",
            "lb-in": "force_pound*inch", "N·m": "N*m", "Nm": "N*m", "N-m": "N*m",
        },  # fmt: skip
    ),
    "trace": ("dimensionless", {"ppm": "ppm", "mg/kg": "mg/kg"}),
    "unbalance": ("kg*m", {"oz-in": "ounce*inch", "g-mm": "g*mm", "g·mm": "g*mm", "g-in": "g*inch"}),
    "volume": (
        "m^3",
        {
            "cc": "cm^3", "cm³": "cm^3", "cm3": "cm^3", "mL": "mL", "L": "L", "in³": "inch^3", "in3": "inch^3",
            "ci": "inch^3", "qt": "US_liquid_quart", "gal": "US_liquid_gallon",
        },  # fmt: skip
    ),
    "volume-flow": (
        "m^3/s",
        {
            "gal/h": "US_liquid_gallon/hour", "gph": "US_liquid_gallon/hour", "L/h": "L/hour", "L/min": "L/minute",
            "cfm": "foot^3/minute", "cc/min": "cm^3/minute",
        },  # fmt: skip
    ),
}  # fmt: skip

# spellings whose factor the trade has by convention with so many digits (NIST SP 811, B.8)
ROUNDED = {"inHg": 5e-4 / 3386.389, "inH2O": 5e-6 / 249.08891}
# named by scipy, which has its constants from CODATA and SP 811
SCIPY = {
    "length": {"in": "inch", "thou": "mil", "ft": "foot"}, "distance": {"mi": "mile", "miles": "mile"},
    "mass": {"lb": "pound", "oz": "ounce", "g": "gram"}, "force": {"lbf": "pound_force"},
    "pressure": {"psi": "psi", "bar": "bar"}, "power": {"hp": "horsepower"}, "volume": {"gal": "gallon", "L": "liter"},
    "angle": {"deg": "degree"}, "time": {"min": "minute", "h": "hour"}, "span": {"weeks": "week", "years": "Julian_year"},
    "speed": {"mph": "mph", "km/h": "kmh"},
}  # fmt: skip


def _written(rng):
    """A number as people write them, and what it is; some with the typographic minus."""
    value = float(np.round(rng.normal(0, 1) * 10 ** rng.uniform(-4, 4), int(rng.integers(0, 8))))
    text = repr(value) if rng.random() < 0.5 else f"{value:.9e}"
    value = float(text)
    if text.startswith("-") and rng.random() < 0.4:
        text = "\u2212" + text[1:]
    return text, value


def _si(value, spelling, base):
    if spelling in ("degF", "degC"):
        return PINT.Quantity(value, spelling).to("K").magnitude
    # pint parses the factor that stands in a unit's text
    unit = PINT.parse_expression(spelling) if spelling else 1
    return value * (unit.to(base).magnitude if hasattr(unit, "to") else unit)


def _cases(rng, exact):
    for kind, (base, spellings) in KINDS.items():
        for name, spelling in spellings.items():
            if (name in ROUNDED) == exact:
                continue
            for _ in range(15 if exact else 500):
                text, value = _written(rng)
                expected = _si(value, spelling, base)
                # a temperature near its zero is small beside the offset that is added
                scale = max(abs(expected), 459.67 if kind == "temperature" else 0.0) * ROUNDED.get(name, 1.0) or 1.0
                yield Case([kind, f"{text} {name}".rstrip()], expected, scale)


@check("units.parse", "pint", 3e-15, "up to eight roundings in pint's chain of factors and four in ours")
def every_spelling(rng):
    # kinds without a unit must still be given a number alone
    yield from _cases(rng, True)


@check("units.parse", "pint, columns", 1.0, "in halves of the last digit: conventional columns have seven or eight in SP 811")
def columns(rng):
    yield from _cases(rng, False)


@check("units.parse", "scipy.constants", 2e-15, "both factors from the same definitions, a product each")
def scipy_constants(rng):
    for kind, names in SCIPY.items():
        for name, constant in names.items():
            for _ in range(20):
                text, value = _written(rng)
                yield Case([kind, f"{text} {name}"], value * getattr(scipy.constants, constant))


@check("units.spellings", "the list here", 0.0, "every kind has the spellings that are checked, and no other")
def spellings(rng):
    for kind, (_, names) in KINDS.items():
        yield Case([kind, list(names)], len(names))


@check("units.kinds", "the list here", 0.0, "every kind is checked")
def kinds(rng):
    yield Case([], len(KINDS))
