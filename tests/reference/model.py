"""The pail by general-purpose routines of scipy, for the checks and the benchmark.

Written from the equations alone (see the documentation of the calculation crate), along time
instead of conversion, with scipy's integrator, events and root finder.
"""

import math

from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, least_squares

R = 8.31446261815324
T_REF = 298.15
END = 0.20
CUP_KG = 0.15
TIGHT = {"method": "LSODA", "rtol": 1e-10, "atol": 1e-12}


def k(cure, temperature):
    return cure["k_ref"] * math.exp(-cure["ea"] / R * (1 / temperature - 1 / T_REF))


def shape(cure, a):
    return (cure["kappa"] + a) * (1 - a) * (cure["balance"] - a)


def progress(cure, a):
    """The closed form's integral, by quadrature."""
    return quad(lambda x: 1 / shape(cure, x), 0, a, epsabs=0, epsrel=1e-13, limit=500)[0]


def surface(vessel, volume):
    """Bottom and wetted side of a frustum filled with a volume."""
    r0, r1, h = vessel["bottom"] / 2, vessel["top"] / 2, vessel["height"]

    def filled(z):
        r = r0 + (r1 - r0) * z / h
        return math.pi * z / 3 * (r0 * r0 + r0 * r + r * r)

    z = brentq(lambda z: filled(z) - volume, 0, h * (1 + 1e-9), xtol=1e-15)
    r = r0 + (r1 - r0) * z / h
    return math.pi * r0 * r0 + math.pi * (r0 + r) * math.hypot(z, r - r0)


def compact(volume):
    """A cup in which a volume stands as high as it is wide."""
    width = (4 * volume / math.pi) ** (1 / 3)
    return {"bottom": width, "top": width, "height": width}


def rates(thermal, mass, vessel):
    """Cooling and warming rates of a pail, both held to the safe side by the laboratory cup."""

    def own(mass, vessel):
        return thermal["u"] * surface(vessel, mass / thermal["rho"]) / (mass * thermal["cp"])

    cup = own(CUP_KG, compact(CUP_KG / thermal["rho"]))
    return min(own(mass, vessel), cup), cup


def slopes(cure, thermal, mass, vessel, air):
    cooling, warming = rates(thermal, mass, vessel)
    rise = thermal["h"] / thermal["cp"]

    def f(_, y):
        rate = k(cure, y[1]) * shape(cure, y[0])
        over = y[1] - air
        return [rate, rise * rate - (cooling if over > 0 else warming) * over]

    return f


def pot_life(cure, thermal, mass, vessel, material, air, options=TIGHT):
    def used_up(_, y):
        return y[0] - END

    used_up.terminal = True
    f = slopes(cure, thermal, mass, vessel, air)
    # Longer than any pail in range lasts.
    guess = progress_end(cure) / k(cure, min(material, air) - 1)
    run = solve_ivp(f, (0, 2 * guess), [0.0, material], events=used_up, **options)
    return run.t_events[0][0]


def progress_end(cure):
    a, kappa, balance = END, cure["kappa"], cure["balance"]
    if balance == 1:
        return (a * (kappa + 1) / (1 - a) + math.log((kappa + a) / ((1 - a) * kappa))) / (kappa + 1) ** 2
    return progress(cure, a)


def peak(cure, thermal, mass, vessel, material, air):
    """Hottest temperature and its time; the start itself where the pail only cools."""
    f = slopes(cure, thermal, mass, vessel, air)

    def level(t, y):
        return f(t, y)[1]

    level.direction = -1
    level.terminal = True

    def spent(_, y):
        return y[0] - 0.999

    spent.terminal = True
    guess = progress_end(cure) / k(cure, min(material, air) - 1)
    run = solve_ivp(f, (0, 1e5 * guess), [0.0, material], events=[level, spent], **TIGHT)
    if len(run.t_events[0]) and run.y_events[0][0][1] > material:
        return run.y_events[0][0][1], run.t_events[0][0]
    return material, 0.0


def calibrate(points, cure, thermal, options=TIGHT):
    """Rate constant from one point; rate constant and energy from several."""

    def life(cure, point):
        vessel = compact(point["mass"] / thermal["rho"])
        t = point["temperature"]
        return pot_life(cure, thermal, point["mass"], vessel, t, t, options)

    first = points[0]
    guess = math.log(progress_end(cure) / first["time"])
    guess += cure["ea"] / R * (1 / first["temperature"] - 1 / T_REF)
    if len(points) == 1:

        def off(log_k):
            return math.log(life({**cure, "k_ref": math.exp(log_k)}, first) / first["time"])

        return {**cure, "k_ref": math.exp(brentq(off, guess - 3, guess + 0.5, xtol=1e-12))}

    def offs(x):
        trial = {**cure, "k_ref": math.exp(x[0]), "ea": x[1] * 1e4}
        return [math.log(life(trial, p) / p["time"]) for p in points]

    fit = least_squares(offs, [guess, cure["ea"] / 1e4], xtol=1e-14, ftol=1e-14, gtol=1e-14)
    return {**cure, "k_ref": math.exp(fit.x[0]), "ea": fit.x[1] * 1e4}
