"""Prints SALib's indices of outcomes that come as JSON on stdin: totals of pairs, first orders of given data."""

import importlib.metadata
import json
import sys

import numpy
from SALib.analyze import delta, sobol

asked = json.load(sys.stdin)
answers = []
for one in asked:
    names = one["names"]
    problem = {"num_vars": len(names), "names": names, "bounds": [[0, 1]] * len(names)}
    y = numpy.array(one["pairs"], dtype=float)
    found = sobol.analyze(problem, y, calc_second_order=False, seed=1)
    x, given = numpy.array(one["x"]), numpy.array(one["y"])
    parts = delta.analyze(problem, x, given, num_resamples=2, seed=1)
    answers.append({"total": found["ST"].tolist(), "first": parts["S1"].tolist()})
json.dump({"version": importlib.metadata.version("salib"), "answers": answers}, sys.stdout)
