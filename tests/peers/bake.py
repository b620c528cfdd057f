"""Bakes a section by SciPy: the simulator's mesh and equations, method of lines, BDF with a sparse Jacobian.

Reads one problem as JSON on stdin and prints what happens to it as JSON. Heat is kept as J/m3 from 0 °C; water
boils off on the plateau between two heats; a surface is where what comes from the oven goes on inward.
"""

import json
import sys
import time

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.sparse import coo_matrix

STEFAN = 5.670374e-8

problem = json.load(sys.stdin)
round_body = problem["round"]
across = np.array(problem["across_m"])
up = np.array(problem["up_m"])
wet, dry, latent, crust = (problem[name] for name in ("wet", "dry", "latent", "crust"))
boils = problem["boils"]
full = wet * boils
columns, rows = len(across) - 1, len(up) - 1
widths, heights = np.diff(across), np.diff(up)
if round_body:
    base = np.pi * np.diff(across**2)
    turn = 2.0 * np.pi * across
else:
    base, turn = widths.copy(), np.ones_like(across)
volume = heights[:, None] * base[None, :]


def temperature(heat):
    return np.where(heat < full, heat / wet, np.where(heat < full + latent, boils, boils + (heat - full - latent) / dry))


def resistivities(heat, celsius):
    """Of the outer and of the inner half of each cell; a cell that boils is dry outward of its middle, wet inward."""
    share = np.clip((heat - full) / latent, 0.0, 1.0)
    conducts = 0.2 + 0.9 / (1.0 + np.exp(-0.1 * (np.minimum(celsius, 100.0) - 80.0)))
    mixed = 1.0 / conducts + (1.0 / crust - 1.0 / conducts) * share
    boiling = (heat >= full) & (share < 1.0)
    outer = np.where(boiling, 2.0 * np.maximum(share, 0.02) / crust, mixed)
    inner = np.where(boiling, 2.0 * np.maximum(1.0 - share, 0.02) / conducts, mixed)
    return outer, inner


def into(celsius, resistance, side, guess):
    """Heat through a bare surface, W/m2: found by Newton, for radiation goes with the fourth power."""
    surface = np.array(guess)
    oven, film, emits = side["air"], side["film"], side["emissivity"]
    for _ in range(12):
        kelvin = surface + 273.15
        gives = film * (oven - surface) + emits * STEFAN * ((oven + 273.15) ** 4 - kelvin**4)
        off = gives - (surface - celsius) / resistance
        slope = -film - 4.0 * emits * STEFAN * kelvin**3 - 1.0 / resistance
        step = off / slope
        surface = surface - step
        if np.max(np.abs(step)) < 1e-9:
            break
    return (surface - celsius) / resistance


def change(_, flat):
    heat = flat.reshape(rows, columns)
    celsius = temperature(heat)
    outside, inside = resistivities(heat, celsius)
    gain = np.zeros_like(heat)
    before, after = 0.5 * widths[None, :] * inside, 0.5 * widths[None, :] * outside
    flow = heights[:, None] * turn[None, 1:-1] * (celsius[:, 1:] - celsius[:, :-1]) / (after[:, :-1] + before[:, 1:])
    gain[:, :-1] += flow
    gain[:, 1:] -= flow
    outer = into(celsius[:, -1], after[:, -1], problem["side"], celsius[:, -1])
    gain[:, -1] += heights * turn[-1] * outer
    low = (np.arange(rows) < rows // 2)[:, None]
    before = 0.5 * heights[:, None] * np.where(low, outside, inside)
    after = 0.5 * heights[:, None] * np.where(low, inside, outside)
    flow = base[None, :] * (celsius[1:, :] - celsius[:-1, :]) / (after[:-1, :] + before[1:, :])
    gain[:-1, :] += flow
    gain[1:, :] -= flow
    for row, half, side in ((0, before, problem["bottom"]), (-1, after, problem["top"])):
        gain[row, :] += base * into(celsius[row, :], half[row, :], side, celsius[row, :])
    return (gain / volume).ravel()


def pattern():
    """Each cell depends on itself and its four neighbours."""
    place = np.arange(rows * columns).reshape(rows, columns)
    pairs = [(place, place), (place[:, :-1], place[:, 1:]), (place[:, 1:], place[:, :-1]), (place[:-1], place[1:]), (place[1:], place[:-1])]
    one = np.concatenate([pair[0].ravel() for pair in pairs])
    other = np.concatenate([pair[1].ravel() for pair in pairs])
    return coo_matrix((np.ones_like(one), (one, other)), shape=(place.size, place.size)).tocsr()


began = time.perf_counter()
start = np.full(rows * columns, wet * problem["start"])
seconds = np.array(problem["seconds"], dtype=float)
found = solve_ivp(
    change,
    (0.0, seconds[-1]),
    start,
    method="BDF",
    t_eval=seconds,
    jac_sparsity=pattern(),
    rtol=problem["rtol"],
    atol=problem["rtol"] * full,
)
took = time.perf_counter() - began
middle, lost, mean = [], [], []
for flat in found.y.T:
    heat = flat.reshape(rows, columns)
    celsius = temperature(heat)
    below = rows // 2
    middle.append(0.5 * (celsius[below - 1, 0] + celsius[below, 0]) if rows > 1 else celsius[0, 0])
    share = np.clip((heat - full) / latent, 0.0, 1.0)
    lost.append(float((share * volume).sum() / volume.sum()))
    mean.append(float((heat * volume).sum() / volume.sum()))
json.dump(
    {
        "version": scipy.__version__,
        "success": bool(found.success),
        "evaluations": int(found.nfev),
        "took_s": took,
        "middle": middle,
        "dry": lost,
        "mean_heat": mean,
    },
    sys.stdout,
)
