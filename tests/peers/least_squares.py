"""Reads problems of least squares with bounds as JSON on stdin and prints SciPy's answers as JSON."""

import json
import sys

import numpy
import scipy
from scipy.optimize import lsq_linear

answers = []
for problem in json.load(sys.stdin):
    rows = numpy.array(problem["rows"], dtype=float)
    bounds = (problem["low"], [numpy.inf if high is None else high for high in problem["high"]])
    found = lsq_linear(rows, problem["b"], bounds=bounds, method="bvls", tol=1e-14, max_iter=1000)
    answers.append({"x": found.x.tolist(), "cost": found.cost, "status": int(found.status)})
json.dump({"version": scipy.__version__, "answers": answers}, sys.stdout)
