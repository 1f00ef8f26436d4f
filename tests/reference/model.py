"""The pail by general-purpose routines of scipy, for the checks and the benchmark.

Written from the equations alone (see the documentation of the calculation crate), along time
instead of conversion, with scipy's integrator, events and root finder.
"""

import math

from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, least_squares

R = 8.31446261815324
T_REF = 298.15
CUP_KG = 0.10
TIGHT = {"method": "LSODA", "rtol": 1e-10, "atol": 1e-12}


def law(known, cold, warm):
    """Rate constants at known temperatures, coldest first, and the energies beyond them."""
    return {"known": known, "cold": cold, "warm": warm}


def single(k_ref, ea):
    return law([(T_REF, k_ref)], ea, ea)


def pair_energy(left, right):
    return R * math.log(right[1] / left[1]) / (1 / left[0] - 1 / right[0])


def k(cure, temperature):
    """Straight pieces of ln k over 1/T; beyond the known ones the safer of pair and limit."""
    known, cold, warm = cure["law"]["known"], cure["law"]["cold"], cure["law"]["warm"]
    if len(known) > 1:
        cold = min(cold, pair_energy(known[0], known[1]))
        warm = max(warm, pair_energy(known[-2], known[-1]))
    base, energy = known[0], cold
    for left, right in zip(known, known[1:] + [None]):
        if temperature > left[0]:
            base, energy = left, warm if right is None else pair_energy(left, right)
    return base[1] * math.exp(-energy / R * (1 / temperature - 1 / base[0]))


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


def sample_rate(thermal, point, cup_loss):
    """What a data sheet's sample loses: a cup from all of its surface, else as a pail does."""
    volume = point["mass"] / thermal["rho"]
    vessel = compact(volume)
    outside = surface(vessel, volume)
    if point["sample"] in ("cup", "gel"):
        loss, outside = cup_loss, outside + math.pi / 4 * vessel["top"] ** 2
    else:
        loss = thermal["u"]
    rate = loss * outside / (point["mass"] * thermal["cp"])
    return rate, rate


def slopes(cure, thermal, loses, air):
    cooling, warming = loses
    rise = thermal["h"] / thermal["cp"]

    def f(_, y):
        rate = k(cure, y[1]) * shape(cure, y[0])
        over = y[1] - air
        return [rate, rise * rate - (cooling if over > 0 else warming) * over]

    return f


def lasts(cure, thermal, loses, material, air, end, options=TIGHT):
    def used_up(_, y):
        return y[0] - end

    used_up.terminal = True
    f = slopes(cure, thermal, loses, air)
    # Longer than any pail in range lasts, and than one of a trial law that slows with the heat.
    guess = progress(cure, end) / k(cure, min(material, air) - 1)
    run = solve_ivp(f, (0, 1e4 * guess), [0.0, material], events=used_up, **options)
    return run.t_events[0][0]


def pot_life(cure, thermal, mass, vessel, material, air, options=TIGHT):
    loses = rates(thermal, mass, vessel)
    return lasts(cure, thermal, loses, material, air, cure["end"], options)


def peak(cure, thermal, mass, vessel, material, air):
    """Hottest temperature and its time; the start itself where the pail only cools."""
    f = slopes(cure, thermal, rates(thermal, mass, vessel), air)

    def level(t, y):
        return f(t, y)[1]

    level.direction = -1
    level.terminal = True

    def spent(_, y):
        return y[0] - 0.999

    spent.terminal = True
    guess = progress(cure, cure["end"]) / k(cure, min(material, air) - 1)
    run = solve_ivp(f, (0, 1e5 * guess), [0.0, material], events=[level, spent], **TIGHT)
    if len(run.t_events[0]) and run.y_events[0][0][1] > material:
        return run.y_events[0][0][1], run.t_events[0][0]
    return material, 0.0


def off(cure, thermal, point, cup_loss, options):
    """Log of a sample's time over what is printed."""
    end = cure["gel"] if point["sample"] == "gel" else cure["end"]
    t = point["temperature"]
    life = lasts(cure, thermal, sample_rate(thermal, point, cup_loss), t, t, end, options)
    return math.log(life / point["time"])


def calibrate(points, cure, thermal, beyond, cup_loss, options=TIGHT):
    """The rate constant at each temperature; of a cup and a kit at one, the cup's loss too.

    All unknowns are solved for at once, where the crate goes from one to the next.
    """
    temperatures = sorted({point["temperature"] for point in points})
    two_masses = len(temperatures) < len(points)

    def at(x):
        # What is warmer is never slower.
        known = [(t, math.exp(max(x[: i + 1]))) for i, t in enumerate(temperatures)]
        loss = math.exp(x[-1]) if two_masses else cup_loss
        return {**cure, "law": law(known, *beyond)}, loss

    def offs(x):
        trial, loss = at(x)
        return [off(trial, thermal, point, loss, options) for point in points]

    guess = []
    for t in temperatures:
        first = next(point for point in points if point["temperature"] == t)
        end = cure["gel"] if first["sample"] == "gel" else cure["end"]
        steady = progress({**cure, "law": single(1.0, 0.0)}, end)
        guess.append(math.log(steady / first["time"]) - 0.2)
    if two_masses:
        guess.append(math.log(20.0))
    if len(guess) == 1:
        found = [brentq(lambda x: offs([x])[0], guess[0] - 3, guess[0] + 0.5, xtol=1e-12)]
    else:
        # Differences wide enough for the integrator's own noise.
        step = 1e-5 if options is TIGHT else 1e-4
        bounds = ([x - 3 for x in guess], [x + 0.7 for x in guess])
        if two_masses:
            bounds[0][-1], bounds[1][-1] = math.log(4.0), math.log(70.0)
        tight = {"xtol": 1e-13, "ftol": 1e-13, "gtol": 1e-13}
        fit = least_squares(offs, guess, bounds=bounds, diff_step=step, **tight)
        found = list(fit.x)
    return (*at(found), max(abs(r) for r in offs(found)))
