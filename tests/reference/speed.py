"""Times scipy on the reference cases at 1e-6, and writes those cases down for CVODE.

Prints `name=value` lines: microseconds a pot life and a calibration, and the largest error.
"""

import json
import sys
import time
from pathlib import Path

import model

cases = json.loads(Path(sys.argv[1]).read_text())["cases"]
QUICK = {"method": "LSODA", "rtol": 1e-6, "atol": 1e-8}
HEAT = {"amine_epoxy": (300e3, 0.1), "urethane": (180e3, 1000.0), "aspartic": (180e3, 1000.0)}
INCHES = {"five_quart": (6.7, 7.6, 7.6), "two_gallon": (8.2, 9.0, 8.4), "five_gallon": (10.25, 11.25, 13.5)}


def parts(case):
    heat, kappa = HEAT[case["chemistry"]]
    thermal = {"h": heat, "cp": 1900.0, "rho": case["density_kg_per_m3"], "u": 10.0}
    cure = {"k_ref": case["k_ref_hz"], "ea": case["activation_energy_j_per_mol"], "kappa": kappa, "balance": 1.0}
    bottom, top, height = (inches * 0.0254 for inches in INCHES[case["vessel"]])
    return cure, thermal, {"bottom": bottom, "top": top, "height": height}


def best_of(run, times=5):
    """The least of several runs: what the machine can do when nothing disturbs it."""
    least = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        run()
        least = min(least, time.perf_counter() - start)
    return least


def all_pot_lives():
    lives = []
    for case in cases:
        cure, thermal, vessel = parts(case)
        lives.append(model.pot_life(
            cure, thermal, case["mass_kg"], vessel, case["material_k"], case["air_k"], QUICK))
    return lives


single = [case for case in cases if len(case["sheet"]) == 1]


def all_calibrations():
    for case in single:
        cure, thermal, _ = parts(case)
        model.calibrate(case["sheet"], {**cure, "k_ref": 1.0}, thermal, QUICK)


errors = [abs(life / case["pot_life_s"] - 1) for life, case in zip(all_pot_lives(), cases)]
print(f"pot_life_us={best_of(all_pot_lives) / len(cases) * 1e6:.3f}")
print(f"pot_life_error={max(errors):.1e}")
print(f"calibration_us={best_of(all_calibrations, 3) / len(single) * 1e6:.3f}")

with open(sys.argv[2], "w") as out:
    for case in cases:
        cure, thermal, vessel = parts(case)
        cooling, warming = model.rates(thermal, case["mass_kg"], vessel)
        numbers = [
            cure["k_ref"], cure["ea"], cure["kappa"], cure["balance"], thermal["h"] / thermal["cp"],
            cooling, warming, case["material_k"], case["air_k"], case["pot_life_s"],
        ]
        print(*(repr(n) for n in numbers), file=out)
