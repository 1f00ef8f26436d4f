"""Writes the reference data: `cargo xtask reference` runs this with pinned versions."""

import json
import random
import sys
from pathlib import Path

from scipy.integrate import quad
from scipy.optimize import brentq

import model

OUT = Path(sys.argv[1])
PAILS = {
    "five_quart": {"bottom": 6.7, "top": 7.6, "height": 7.6},
    "two_gallon": {"bottom": 8.2, "top": 9.0, "height": 8.4},
    "five_gallon": {"bottom": 10.25, "top": 11.25, "height": 13.5},
}
MOST_KG = {"five_quart": 4.5, "two_gallon": 7.0, "five_gallon": 18.0}
CHEMISTRIES = {
    "amine_epoxy": {"ea": 53e3, "kappa": 0.1, "h": 300e3, "rho": 1260.0},
    "urethane": {"ea": 53e3, "kappa": 1000.0, "h": 180e3, "rho": 1090.0},
    "aspartic": {"ea": 48e3, "kappa": 1000.0, "h": 180e3, "rho": 1090.0},
}


def write(name, made_by, cases):
    text = json.dumps({"made_by": made_by, "cases": cases}, indent=1)
    (OUT / name).write_text(text + "\n")


def progress_cases():
    rng = random.Random(1)
    cases = []
    for _ in range(200):
        cure = {
            "kappa": 10 ** rng.uniform(-2, 3),
            "balance": rng.choice([1.0, 1 + 10 ** rng.uniform(-9, -1), rng.uniform(0.4, 2.5)]),
        }
        a = rng.uniform(0.0, 0.95) * min(1.0, cure["balance"])
        cases.append({**cure, "conversion": a, "progress": model.progress(cure, a)})
    write("progress.json", "scipy.integrate.quad", cases)


def pail_cases():
    rng = random.Random(2)
    cases = []
    for i in range(120):
        chemistry = list(CHEMISTRIES)[i % 3]
        c = CHEMISTRIES[chemistry]
        thermal = {"h": c["h"], "cp": 1900.0, "rho": c["rho"], "u": 10.0}
        cure = {"ea": c["ea"], "kappa": c["kappa"], "balance": 1.0, "k_ref": 1.0}
        mass = rng.choice([0.15, rng.uniform(0.1, 4.0)])
        points = [{
            "time": 60 * rng.uniform(12, 120),
            "temperature": 273.15 + rng.uniform(15, 30),
            "mass": mass,
        }]
        if i % 4 == 3:
            points.append({
                "time": points[0]["time"] * rng.uniform(0.45, 0.62),
                "temperature": points[0]["temperature"] + 10,
                "mass": mass,
            })
        cure = model.calibrate(points, cure, thermal)
        pail = rng.choice(list(PAILS))
        vessel = {name: inches * 0.0254 for name, inches in PAILS[pail].items()}
        kg = rng.uniform(0.2, MOST_KG[pail])
        material = 273.15 + rng.uniform(-5, 50)
        air = material if i % 3 == 0 else 273.15 + rng.uniform(-5, 50)
        life = model.pot_life(cure, thermal, kg, vessel, material, air)
        hottest, after = model.peak(cure, thermal, kg, vessel, material, air)
        cases.append({
            "chemistry": chemistry, "density_kg_per_m3": c["rho"], "sheet": points,
            "k_ref_hz": cure["k_ref"], "activation_energy_j_per_mol": cure["ea"],
            "vessel": pail, "mass_kg": kg, "material_k": material, "air_k": air,
            "pot_life_s": life, "peak_k": hottest, "peak_s": after,
        })
    write("pail.json", "scipy.integrate.solve_ivp LSODA at 1e-10; scipy.optimize", cases)


def film_cases():
    """Open time left on a slab that warms or cools by so much an hour."""
    rng = random.Random(3)
    cases = []
    for _ in range(60):
        cure = {"k_ref": 10 ** rng.uniform(-4, -3), "ea": rng.uniform(44e3, 60e3), "kappa": 0.1, "balance": 1.0}
        open_s, open_k = 60 * rng.uniform(15, 90), 273.15 + rng.uniform(15, 30)
        poured = rng.uniform(0.0, 0.15)
        start, per_hour = 273.15 + rng.uniform(5, 40), rng.uniform(-4, 4)
        left = open_s * model.k(cure, open_k) - model.progress(cure, poured)

        def lived(t):
            rate = lambda s: model.k(cure, start + per_hour * s / 3600)
            return quad(rate, 0, t, epsabs=0, epsrel=1e-12)[0]

        end = 0.0 if left <= 0 else brentq(lambda t: lived(t) - left, 0, 24 * 3600, xtol=1e-9)
        cases.append({
            "k_ref_hz": cure["k_ref"], "activation_energy_j_per_mol": cure["ea"],
            "open_s": open_s, "open_k": open_k, "conversion": poured,
            "slab_k": start, "warms_k_per_h": per_hour, "left_s": end,
        })
    write("film.json", "scipy.integrate.quad, scipy.optimize.brentq", cases)


progress_cases()
pail_cases()
film_cases()
