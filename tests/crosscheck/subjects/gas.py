"""Ideal gases with the heat capacities of NASA TM-4513: Cantera reads the same tables from its own files and does the rest."""

import cantera as ct
import numpy as np
from harness import Case, check

NAMES = ["N2", "O2", "Ar", "CO2", "H2O", "CO", "H2", "C8H18,isooctane", "C7H8", "C2H5OH", "CH3OH"]
FUELS = NAMES[7:]
KNOWN = {s.name: s for s in ct.Species.list_from_file("nasa_gas.yaml")}
# US Standard Atmosphere 1976
AIR = {"N2": 0.78084, "O2": 0.209476, "Ar": 0.00934, "CO2": 0.000314}
PROPERTIES = "both evaluate the same two quartics; 10 terms of up to 30 times their sum, half an eps each"


def phase(names):
    return ct.Solution(thermo="ideal-gas", species=[KNOWN[n] for n in names])


GAS = phase(NAMES)


def state(gas, t):
    """Constant, cp, h, u, gamma per kg, and what differences of them are measured against."""
    gas.TP = t, 1e5
    r = ct.gas_constant / gas.mean_molecular_weight
    cp, h, u = gas.cp_mass, gas.enthalpy_mass, gas.int_energy_mass
    # enthalpies pass through zero: measured against what heat and formation come to
    big = abs(h) + cp * t
    return [r, cp, h, u, cp / (cp - r)], [r, cp, big, big, 1.4]


def mixed(gas, fuel, richness):
    gas.TP = 300.0, 1e5
    gas.set_equivalence_ratio(richness, fuel, AIR)


def random_fuel(rng):
    """Moles of the four fuels: one alone, or any blend."""
    if rng.random() < 0.4:
        moles = np.zeros(4)
        moles[rng.integers(4)] = 1.0
    else:
        moles = rng.dirichlet(np.ones(4))
    return [float(m) for m in moles], dict(zip(FUELS, moles))


def burned(fuel, richness, t):
    """Cantera's equilibrium at 1740 K of what may be left: without monoxide if lean, without oxygen if rich."""
    mixed(GAS, fuel, richness)
    # atoms of one kilogram
    atoms = {e: GAS.elemental_mole_fraction(e) for e in ("C", "H", "O", "N", "Ar")}
    lean = atoms["O"] >= 2 * atoms["C"] + atoms["H"] / 2
    left = LEFT[lean]
    if lean:
        spare = atoms["O"] - 2 * atoms["C"] - atoms["H"] / 2
        left.X = [atoms["N"] / 2, atoms["Ar"], atoms["C"], atoms["H"] / 2, spare / 2]
    else:
        # any composition with these atoms will do for a start
        water = atoms["O"] - atoms["C"]
        carbon_dioxide = max(0.0, water - atoms["H"] / 2)
        water -= carbon_dioxide
        left.X = [
            atoms["N"] / 2, atoms["Ar"], carbon_dioxide, water, atoms["C"] - carbon_dioxide, atoms["H"] / 2 - water,
        ]  # fmt: skip
        left.TP = 1740.0, 1e5
        left.equilibrate("TP", rtol=1e-12, max_steps=5000)
    left.TP = t, 1e5
    return left


LEFT = {
    True: phase(["N2", "Ar", "CO2", "H2O", "O2"]),
    False: phase(["N2", "Ar", "CO2", "H2O", "CO", "H2"]),
}


@check("gas.properties", "Cantera", 2e-14, PROPERTIES)
def properties(rng):
    for _ in range(2_000):
        moles = rng.dirichlet(np.full(len(NAMES), 0.5))
        t = float(rng.uniform(200.0, 6000.0))
        GAS.TPX = 300.0, 1e5, dict(zip(NAMES, moles))
        values, scales = state(GAS, t)
        yield Case([[float(m) for m in moles], t], values, scales)


@check("gas.entropy-change", "Cantera", 2e-14, PROPERTIES)
def entropy(rng):
    for _ in range(1_000):
        moles = rng.dirichlet(np.full(len(NAMES), 0.5))
        a, b = (float(t) for t in rng.uniform(200.0, 6000.0, 2))
        GAS.TPX = a, 1e5, dict(zip(NAMES, moles))
        before = GAS.entropy_mass
        GAS.TP = b, 1e5
        yield Case([[float(m) for m in moles], a, b], GAS.entropy_mass - before, GAS.entropy_mass)


@check("gas.isentropic", "Cantera", 1e-8, "Cantera's state solver stops at 1e-9 of the entropy, ours at 1e-9 of the temperature")
def isentropic(rng):
    for _ in range(1_500):
        moles, fuel = random_fuel(rng)
        mixed(GAS, fuel, float(rng.uniform(0.0, 1.6)))
        t, ratio = float(rng.uniform(280, 700)), float(10 ** rng.uniform(-0.5, 1.8))
        mole = [float(GAS[n].X[0]) for n in NAMES]
        GAS.TP = t, 1e5
        s = GAS.entropy_mass
        GAS.SP = s, 1e5 * ratio
        if 220 < GAS.T < 3000:
            yield Case([mole, t, ratio], GAS.T)


@check("gas.air", "Cantera", 2e-14, PROPERTIES)
def air(rng):
    for _ in range(300):
        t = float(rng.uniform(200.0, 6000.0))
        GAS.TPX = 300.0, 1e5, AIR
        values, scales = state(GAS, t)
        yield Case([t], values, scales)


@check("gas.stoichiometric", "Cantera", 1e-14, "a quotient of sums of a few products")
def stoichiometric(rng):
    for _ in range(1_000):
        moles, fuel = random_fuel(rng)
        yield Case([moles], GAS.stoich_air_fuel_ratio(fuel, AIR))


@check("gas.mixed", "Cantera", 3e-14, PROPERTIES)
def fresh(rng):
    for _ in range(1_000):
        moles, fuel = random_fuel(rng)
        richness, t = float(rng.uniform(0.0, 2.0)), float(rng.uniform(200.0, 3000.0))
        mixed(GAS, fuel, richness)
        values, scales = state(GAS, t)
        yield Case([moles, richness, t], values, scales)


@check("gas.burned", "Cantera", 2e-9, "Cantera's equilibrium is asked for 1e-12 in the potentials and gives the moles to about 1e-9")
def products(rng):
    for _ in range(1_500):
        moles, fuel = random_fuel(rng)
        richness, t = float(rng.uniform(0.5, 1.7)), float(rng.uniform(300.0, 3500.0))
        gas = burned(fuel, richness, t)
        values, scales = state(gas, t)
        yield Case([moles, richness, t], values, scales)


@check("gas.residual", "Cantera", 2e-9, "as the burned gas")
def residual(rng):
    for _ in range(500):
        moles, fuel = random_fuel(rng)
        richness, share, t = float(rng.uniform(0.6, 1.5)), float(rng.uniform(0, 0.3)), float(rng.uniform(300, 2500))
        spent, scale = state(burned(fuel, richness, t), t)
        mixed(GAS, fuel, richness)
        raw, raw_scale = state(GAS, t)
        both = [(1 - share) * a + share * b for a, b in zip(raw, spent)]
        both[4] = both[1] / (both[1] - both[0])
        yield Case([moles, richness, share, t], both, [max(a, b) for a, b in zip(scale, raw_scale)])


@check("gas.heating-value", "Cantera", 1e-13, "a difference of enthalpies of a twentieth of their size")
def heating_value(rng):
    for _ in range(1_000):
        moles, fuel = random_fuel(rng)
        mixed(GAS, fuel, 1.0)
        GAS.TP = 298.15, 1e5
        share = GAS.mass_fraction_dict()
        before = GAS.enthalpy_mass
        atoms = {e: GAS.elemental_mole_fraction(e) for e in ("C", "H", "O", "N", "Ar")}
        left = LEFT[True]
        left.TPX = 298.15, 1e5, [atoms["N"] / 2, atoms["Ar"], atoms["C"], atoms["H"] / 2, 0.0]
        given = before - left.enthalpy_mass
        yield Case([moles], given / sum(share.get(f, 0.0) for f in FUELS))


@check("gas.water-gas", "Cantera", 1e-12, "an exponential of a difference of free energies, 40 times its size at 300 K, in units of RT")
def water_gas(rng):
    species = ["CO2", "H2", "CO", "H2O"]
    phase_of = ct.Solution(
        thermo="ideal-gas", kinetics="gas", species=[KNOWN[n] for n in species],
        reactions=[ct.Reaction(equation="CO2 + H2 <=> CO + H2O", rate=ct.ArrheniusRate(1.0, 0.0, 0.0))],
    )  # fmt: skip
    for _ in range(1_000):
        t = float(rng.uniform(300.0, 4000.0))
        phase_of.TP = t, 1e5
        yield Case([t], phase_of.equilibrium_constants[0])
