"""A bake day put to OR-tools CP-SAT: the same tasks, places and order of what is weighed.

Reads {"problem": ..., "seconds": s, "workers": n} and gives {"levels": [...], "bounds": [...], "seconds": [...], "starts": [...]}.
"""

import json
import sys
import time

from ortools.sat.python import cp_model

asked = json.load(sys.stdin)
problem = asked["problem"]
horizon = problem["horizon"]
tasks = problem["tasks"]
model = cp_model.CpModel()
starts = [
    model.new_int_var(t["earliest"], min(t["latest"], horizon - t["lasts"]), f"s{i}")
    for i, t in enumerate(tasks)
]


def over(terms, most=horizon * 50):
    """The least variable from nothing up that is at least a sum."""
    variable = model.new_int_var(0, most, "")
    model.add(variable >= terms)
    return variable


late, past, last, moved, span, early, waits = [], [], [], [], [], [], []
for gap in problem["gaps"]:
    between = starts[gap["to"]] - starts[gap["from"]]
    model.add(between >= gap["least"])
    model.add(between <= gap["most"])
    past.append(over(between - gap["best"]))
    waits.append(between - gap["least"])
for pool in problem["pools"]:
    intervals, counts = [], []
    for use in pool["uses"]:
        if use["lasts"] > 0:
            at = starts[use["task"]] + use["after"]
            intervals.append(model.new_fixed_size_interval_var(at, use["lasts"], ""))
            counts.append(use["count"])
    if not intervals:
        continue
    for begins, ends in pool["closed"]:
        intervals.append(model.new_fixed_size_interval_var(begins, ends - begins, ""))
        counts.append(pool["capacity"])
    model.add_cumulative(intervals, counts, pool["capacity"])
for shelf in problem["shelves"]:
    intervals, counts = [], []
    for stay in shelf["stays"]:
        ends = model.new_int_var(0, horizon * 2, "")
        model.add(ends == starts[stay["to"]] + stay["beyond"])
        size = model.new_int_var(0, horizon * 2, "")
        intervals.append(model.new_interval_var(starts[stay["from"]], size, ends, ""))
        counts.append(stay["count"])
    model.add_cumulative(intervals, counts, shelf["capacity"])
oven = problem["oven"]
for i, one in enumerate(oven["bakes"]):
    for j, other in enumerate(oven["bakes"][:i]):
        there, back = oven["apart"][i][j], oven["apart"][j][i]
        if there is None or back is None:
            continue
        first = model.new_bool_var("")
        model.add(starts[one] + tasks[one]["lasts"] + there <= starts[other]).only_enforce_if(first)
        model.add(starts[other] + tasks[other]["lasts"] + back <= starts[one]).only_enforce_if(~first)
    for rise in oven["rises"]:
        first = model.new_bool_var("")
        model.add(starts[rise["to"]] + rise["beyond"] + oven["heats"][i] <= starts[one]).only_enforce_if(first)
        model.add(starts[one] + tasks[one]["lasts"] + oven["cools"] <= starts[rise["from"]]).only_enforce_if(~first)
soonest = [w for w in problem["wishes"] if w["by"] is None]
if soonest:
    end = model.new_int_var(0, horizon, "")
    for wish in soonest:
        model.add(end >= starts[wish["task"]] + tasks[wish["task"]]["lasts"])
    last.append(end)
for wish in problem["wishes"]:
    if wish["by"] is not None:
        ready = starts[wish["task"]] + tasks[wish["task"]]["lasts"]
        late.append(over(ready - wish["by"]))
        waits.append(over(wish["by"] - ready))
        past.append(over(wish["by"] - problem["fresh"] - ready))
for task, known in problem["known"]:
    far = over(starts[task] - known)
    model.add(far >= known - starts[task])
    moved.append(far)
for stretch in problem["stretches"]:
    if not stretch:
        continue
    begins, ends = model.new_int_var(0, horizon, ""), model.new_int_var(0, horizon, "")
    model.add_min_equality(begins, [starts[t] for t in stretch])
    model.add_max_equality(ends, [starts[t] + tasks[t]["lasts"] for t in stretch])
    span.append(ends - begins)
    for midnight, morning in problem["mornings"]:
        before, after = model.new_bool_var(""), model.new_bool_var("")
        much = model.new_int_var(0, morning - midnight, "")
        model.add(begins < midnight).only_enforce_if(before)
        model.add(begins >= morning).only_enforce_if(after)
        inside = model.new_bool_var("")
        model.add(much >= morning - begins).only_enforce_if(inside)
        model.add_bool_or([before, after, inside])
        early.append(much)

levels, bounds, took, hint = [], [], [], None
began = time.monotonic()
for terms in (late, past, moved, last, span, early, waits):
    if not terms:
        levels.append(0)
        bounds.append(0)
        took.append(0)
        continue
    solver = cp_model.CpSolver()
    left = asked["seconds"] - (time.monotonic() - began)
    # Something is left for what weighs less, as ours does.
    solver.parameters.max_time_in_seconds = max(left * 0.5, 0.05)
    solver.parameters.num_workers = asked["workers"]
    total = sum(terms)
    model.minimize(total)
    if hint:
        model.clear_hints()
        for variable, value in zip(starts, hint):
            model.add_hint(variable, value)
    at = time.monotonic()
    status = solver.solve(model)
    took.append(time.monotonic() - at)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        break
    hint = [solver.value(s) for s in starts]
    levels.append(round(solver.objective_value))
    bounds.append(round(solver.best_objective_bound))
    model.add(total <= levels[-1])
json.dump({"levels": levels, "bounds": bounds, "seconds": took, "starts": hint}, sys.stdout)
