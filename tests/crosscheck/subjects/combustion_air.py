"""What a fuel needs to burn: Cantera counts the atoms, fluids and scipy do the flows."""

import cantera as ct
import numpy as np
from fluids import flow_meter
from scipy import integrate
from harness import Case, check

KNOWN = {s.name: s for s in ct.Species.list_from_file("nasa_gas.yaml")}
FUELS = [n for n in ("C8H18,isooctane", "C7H8", "C2H5OH", "CH3OH", "CH3NO2", "CH4", "C3H8", "C6H6", "C7H16,n-heptane") if n in KNOWN]
GAS = ct.Solution(thermo="ideal-gas", species=[KNOWN[n] for n in [*FUELS, "O2", "N2"]])


@check("combustion_air.stoichiometric-ratio", "Cantera", 1e-14, "sums of four products and two quotients")
def stoichiometric_ratio(rng):
    for _ in range(1_000):
        moles = rng.dirichlet(np.full(len(FUELS), 0.6))
        fuel = dict(zip(FUELS, moles))
        GAS.TPX = 300, 1e5, fuel
        atoms = [
            float(sum(m * KNOWN[f].composition.get(e, 0.0) for f, m in fuel.items())) for e in ("C", "H", "O", "N")
        ]
        # oxygen alone, then air as the mechanics have it: 20.95 % oxygen, 28.965 g/mol
        oxygen = GAS.stoich_air_fuel_ratio(fuel, "O2:1")
        air = oxygen / KNOWN["O2"].molecular_weight / 0.2095 * 28.965
        yield Case(atoms, air)


@check("combustion_air.molar-mass", "Cantera", 2e-15, "the same atomic weights (IUPAC), four products")
def molar_mass(rng):
    for _ in range(500):
        moles = rng.dirichlet(np.full(len(FUELS), 0.6))
        GAS.TPX = 300, 1e5, dict(zip(FUELS, moles))
        atoms = [float(sum(m * KNOWN[f].composition.get(e, 0.0) for f, m in zip(FUELS, moles))) for e in ("C", "H", "O", "N")]
        yield Case(atoms, GAS.mean_molecular_weight * 1e-3)


@check("combustion_air.blend-ratio", "numpy.average", 2e-15, "weighted means of up to five")
def blend_ratio(rng):
    for _ in range(1_000):
        n = int(rng.integers(1, 6))
        volume, density, ratio = rng.uniform(0.01, 1, n), rng.uniform(600, 1200, n), rng.uniform(1.5, 15.2, n)
        parts = [float(v) for row in zip(volume, density, ratio) for v in row]
        mass = volume * density
        yield Case([parts], [np.average(ratio, weights=mass), mass[0] / mass.sum()])


@check("combustion_air.jet-flow", "fluids.flow_meter", 1e-12, "an orifice in a pipe a thousand times as wide, so that its speed of approach is 1e-12 of the flow's square")
def jet_flow(rng):
    for _ in range(1_000):
        bore, discharge = float(rng.uniform(2e-4, 4e-3)), float(rng.uniform(0.55, 0.95))
        drop, density = float(rng.uniform(1e3, 1.5e6)), float(rng.uniform(600, 1000))
        mass = flow_meter.flow_meter_discharge(1000 * bore, bore, drop + 1e5, 1e5, density, discharge, 1.0)
        yield Case([bore, discharge, drop, density], mass / density)


@check("combustion_air.injector-flow", "scipy.integrate.quad", 1e-12, "the flow grown along the pressure by dQ/dp = Q/2p, in its logarithm, by quad to 1e-13")
def injector_flow(rng):
    for _ in range(1_000):
        rated, at, other = float(rng.uniform(1e-4, 1e-1)), float(rng.uniform(1e5, 6e5)), float(rng.uniform(5e4, 2e6))
        grown, _ = integrate.quad(lambda p: 0.5 / p, at, other, epsabs=0, epsrel=1e-13)
        yield Case([rated, at, other], rated * np.exp(grown))


@check("combustion_air.charge-cooling", "(plain balance)", 2e-15, "one product and two quotients")
def charge_cooling(rng):
    for _ in range(500):
        latent, ratio, boiled = float(rng.uniform(2e5, 1.3e6)), float(rng.uniform(1.5, 18)), float(rng.uniform(0, 1))
        # heat of the fuel boiled for a kilogram of air, out of 1005 J/(kg K)
        yield Case([latent, ratio, boiled], latent * boiled / (ratio * 1005.0))
