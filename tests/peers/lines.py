"""Bakes a section by the simulator's own scheme, compiled by Numba: along the rows, then along the columns, implicitly.

Reads one problem as JSON on stdin, as bake.py does, with a step in seconds, and prints what happens and how long a bake
takes once it is compiled. Heat is kept in J/kg as the wet dough would hold it; what has dried is kept beside it.
"""

import json
import sys
import time

import numba
import numpy as np

STEFAN = 5.670374e-8
NEAR, STANDS, LEAST = 500.0, 1e7, 0.02


@numba.njit(cache=False)
def conducts(celsius):
    return 0.2 + 0.9 / (1.0 + np.exp(-0.1 * (min(celsius, 100.0) - 80.0)))


@numba.njit
def table():
    """The fit at even steps, as the simulator has it: read by straight lines."""
    out = np.empty(261)
    for at in range(261):
        out[at] = conducts(-20.0 + 0.5 * at)
    return out


@numba.njit
def read(values, celsius):
    along = min(max((celsius + 20.0) * 2.0, 0.0), 260.0)
    step = min(int(along), 259)
    return values[step] + (values[step + 1] - values[step]) * (along - step)


@numba.njit
def line(celsius, capacity, before, after, halves, area, first, first_at, last, last_at, step, factor, right, face, gain):
    """One line of cells, by elimination; fills the heat that each cell takes in, J."""
    n = celsius.shape[0]
    for cell in range(n):
        conduct = 0.0
        if cell + 1 < n:
            conduct = step * area / (halves[cell, 0] * after[cell] + halves[cell, 1] * before[cell + 1])
        face[cell] = conduct
        own = capacity[cell] + conduct
        known = capacity[cell] * celsius[cell]
        if cell > 0:
            own += face[cell - 1] - face[cell - 1] * factor[cell - 1]
            known += face[cell - 1] * right[cell - 1]
        if cell == 0:
            own += first * step
            known += first * step * first_at
        if cell + 1 == n:
            own += last * step
            known += last * step * last_at
        factor[cell] = conduct / own
        right[cell] = known / own
    celsius[n - 1] = right[n - 1]
    gain[n - 1] = 0.0
    for cell in range(n - 2, -1, -1):
        celsius[cell] = right[cell] + factor[cell] * celsius[cell + 1]
        flow = face[cell] * (celsius[cell + 1] - celsius[cell])
        gain[cell] = flow
        gain[cell + 1] -= flow
    gain[0] += first * step * (first_at - celsius[0])
    gain[n - 1] += last * step * (last_at - celsius[n - 1])


@numba.njit
def see(heat, dried, capacity, latent, water, full):
    whole = 1.0 - dried * water / capacity
    stands = STANDS if heat >= full - NEAR and dried < latent * (1.0 - 1e-6) else 0.0
    return heat / capacity, capacity * whole + stands, whole, 1.0 / whole


@numba.njit
def bake(across, up, start, wet, latent, water, density, crust, air, film, emits, step, steps, middles, losses):
    columns, rows = across.shape[0] - 1, up.shape[0] - 1
    curve = table()
    capacity, full = wet / density, wet / density * 100.0
    mass = np.empty((rows, columns))
    base = np.empty(columns)
    for column in range(columns):
        base[column] = np.pi * (across[column + 1] ** 2 - across[column] ** 2)
        for row in range(rows):
            mass[row, column] = density * base[column] * (up[row + 1] - up[row])
    outward, upward = np.empty((columns, 2)), np.empty((rows, 2))
    for cell in range(columns - 1):
        turn = 2.0 * np.pi * across[cell + 1]
        outward[cell, 0] = 0.5 * (across[cell + 1] - across[cell]) / turn
        outward[cell, 1] = 0.5 * (across[cell + 2] - across[cell + 1]) / turn
    for cell in range(rows - 1):
        upward[cell, 0] = 0.5 * (up[cell + 1] - up[cell])
        upward[cell, 1] = 0.5 * (up[cell + 2] - up[cell + 1])
    heat = np.full((rows, columns), capacity * start)
    dried, whole, lifts = np.zeros((rows, columns)), np.ones((rows, columns)), np.ones((rows, columns))
    celsius, holds = np.empty((rows, columns)), np.empty((rows, columns))
    outer, inner = np.empty((rows, columns)), np.empty((rows, columns))
    most = max(rows, columns)
    factor, right, face, gain = np.empty(most), np.empty(most), np.empty(most), np.empty(most)
    one, own, ahead, behind = np.empty(most), np.empty(most), np.empty(most), np.empty(most)
    skins = [np.full(rows, start), np.full(columns, start), np.full(columns, start)]
    gone = 0.0
    total = mass.sum()
    for at in range(steps):
        for row in range(rows):
            for column in range(columns):
                t, c, w, lift = see(heat[row, column], dried[row, column], capacity, latent, water, full)
                celsius[row, column], holds[row, column] = t, c * mass[row, column]
                whole[row, column], lifts[row, column] = w, lift
                wetter = 1.0 / read(curve, t)
                share = min(max(dried[row, column] / latent, 0.0), 1.0)
                mixed = wetter + (1.0 / crust - wetter) * share
                outer[row, column] = inner[row, column] = mixed
                if heat[row, column] >= full - NEAR and share < 1.0:
                    outer[row, column] = 2.0 * max(share, LEAST) / crust
                    inner[row, column] = 2.0 * max(1.0 - share, LEAST) * wetter
        for sweep in range(2):
            lines, cells = (rows, columns) if sweep == 0 else (columns, rows)
            for place in range(lines):
                for cell in range(cells):
                    row, column = (place, cell) if sweep == 0 else (cell, place)
                    one[cell], own[cell] = celsius[row, column], holds[row, column]
                    swap = sweep == 1 and row < rows // 2
                    ahead[cell] = outer[row, column] if swap else inner[row, column]
                    behind[cell] = inner[row, column] if swap else outer[row, column]
                ends = np.zeros((2, 3))
                for end in range(2):
                    if sweep == 0 and end == 0:
                        continue
                    which = 0 if sweep == 0 else 1 + end
                    cell = cells - 1 if end == 1 else 0
                    if sweep == 0:
                        size, half = 2.0 * np.pi * across[-1] * (up[place + 1] - up[place]), 0.5 * (across[-1] - across[-2])
                    else:
                        size, half = base[place], 0.5 * (up[cell + 1] - up[cell])
                    resists = half * (behind[cell] if end == 1 else ahead[cell])
                    kelvin, oven = skins[which][place] + 273.15, air + 273.15
                    films = film + emits * STEFAN * (kelvin * kelvin + oven * oven) * (kelvin + oven)
                    ends[end, 0] = size * films / (1.0 + films * resists)
                    ends[end, 1], ends[end, 2] = resists, size
                area = up[place + 1] - up[place] if sweep == 0 else base[place]
                line(one[:cells], own[:cells], ahead[:cells], behind[:cells], outward if sweep == 0 else upward, area,
                     ends[0, 0], air, ends[1, 0], air, step, factor, right, face, gain)
                for end in range(2):
                    if ends[end, 2] > 0.0:
                        which = 0 if sweep == 0 else 1 + end
                        cell = cells - 1 if end == 1 else 0
                        flow = ends[end, 0] * (air - one[cell]) / ends[end, 2]
                        skins[which][place] = one[cell] + flow * ends[end, 1]
                for cell in range(cells):
                    row, column = (place, cell) if sweep == 0 else (cell, place)
                    lift = lifts[row, column]
                    now = heat[row, column] + gain[cell] / mass[row, column] * lift
                    over = max(now - full, 0.0) * whole[row, column]
                    goes = min(over, max(latent - dried[row, column], 0.0))
                    heat[row, column] = now - goes * lift
                    dried[row, column] += goes
                    gone += goes * mass[row, column]
            if sweep == 0:
                for row in range(rows):
                    for column in range(columns):
                        t, c, w, lift = see(heat[row, column], dried[row, column], capacity, latent, water, full)
                        celsius[row, column], holds[row, column] = t, c * mass[row, column]
                        whole[row, column], lifts[row, column] = w, lift
        below = rows // 2
        middles[at] = 0.5 * (heat[below - 1, 0] + heat[below, 0]) / capacity
        losses[at] = gone / latent / total


problem = json.load(sys.stdin)
side = problem["side"]
latent = problem["latent"] / problem["density"]
steps = int(round(problem["last"] / problem["step"]))
middles, losses = np.empty(steps), np.empty(steps)
asked = (
    np.array(problem["across_m"]), np.array(problem["up_m"]), problem["start"], problem["wet"], latent,
    (problem["wet"] - problem["dry"]) / problem["latent"], problem["density"], problem["crust"],
    side["air"], side["film"], side["emissivity"], problem["step"], steps, middles, losses,
)
bake(*asked)
least = float("inf")
for _ in range(problem.get("runs", 1)):
    began = time.perf_counter()
    bake(*asked)
    least = min(least, time.perf_counter() - began)
json.dump({"version": numba.__version__, "took_s": least, "middle": list(middles), "dry": list(losses)}, sys.stdout)
