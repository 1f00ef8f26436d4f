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
CHEMISTRIES = {
    "amine_epoxy": {"cold": 27e3, "kappa": 0.1, "end": 0.55, "gel": 3**-0.5, "h": 300e3},
    "urethane": {"cold": 27e3, "kappa": 1000.0, "end": 0.3, "gel": 0.5, "h": 180e3},
    "aspartic": {"cold": 15e3, "kappa": 1000.0, "end": 0.3, "gel": 2**-0.5, "h": 180e3},
}
CUP_LOSS = 25.0
INCHES = {"five_quart": (6.7, 7.6, 7.6), "two_gallon": (8.2, 9.0, 8.4), "five_gallon": (10.25, 11.25, 13.5)}


def parts(case):
    c = CHEMISTRIES[case["chemistry"]]
    thermal = {"h": c["h"], "cp": 1900.0, "rho": case["density_kg_per_m3"], "u": 10.0}
    cure = {"law": case["law"], "kappa": c["kappa"], "balance": 1.0, "end": c["end"], "gel": c["gel"]}
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


def temperatures(case):
    return {point["temperature"] for point in case["sheet"]}


single = [case for case in cases if len(case["sheet"]) == 1]
two_masses = [case for case in cases if len(temperatures(case)) < len(case["sheet"])]


def all_calibrations(of):
    for case in of:
        cure, thermal, _ = parts(case)
        beyond = (CHEMISTRIES[case["chemistry"]]["cold"], 60e3)
        model.calibrate(case["sheet"], cure, thermal, beyond, CUP_LOSS, QUICK)


errors = [abs(life / case["pot_life_s"] - 1) for life, case in zip(all_pot_lives(), cases)]
print(f"pot_life_us={best_of(all_pot_lives) / len(cases) * 1e6:.3f}")
print(f"pot_life_error={max(errors):.1e}")
for name, of in [("calibration", single), ("loss", two_masses)]:
    print(f"{name}_us={best_of(lambda: all_calibrations(of), 3) / len(of) * 1e6:.3f}")

with open(sys.argv[2], "w") as out:
    for case in cases:
        cure, thermal, vessel = parts(case)
        cooling, warming = model.rates(thermal, case["mass_kg"], vessel)
        known = cure["law"]["known"]
        (coldest, k_coldest), (warmest, k_warmest) = known[0], known[-1]
        # CVODE is given a law of at most two known temperatures, as the cases have.
        cold, between, warm = cure["law"]["cold"], 0.0, cure["law"]["warm"]
        if len(known) > 1:
            between = model.pair_energy(known[0], known[1])
            cold, warm = min(cold, between), max(warm, between)
        numbers = [
            coldest, k_coldest, warmest, k_warmest, cold, between, warm,
            cure["kappa"], cure["balance"], cure["end"], thermal["h"] / thermal["cp"],
            cooling, warming, case["material_k"], case["air_k"], case["pot_life_s"],
        ]
        print(*(repr(n) for n in numbers), file=out)
