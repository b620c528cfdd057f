"""Prints SciPy's quantiles of distributions that are asked for as JSON on stdin."""

import json
import sys

import scipy
from scipy import stats


def made(one):
    kind = one["kind"]
    if kind == "normal":
        return stats.norm()
    if kind == "cut":
        low, high = one["low"], one["high"]
        middle, deviation = one["middle"], one["deviation"]
        return stats.truncnorm(
            (low - middle) / deviation, (high - middle) / deviation, loc=middle, scale=deviation
        )
    if kind == "beta":
        return stats.beta(one["alpha"], one["beta"])
    if kind == "exponential":
        return stats.expon(scale=one["mean"])
    raise ValueError(kind)


answers = [made(one).ppf(one["shares"]).tolist() for one in json.load(sys.stdin)]
json.dump({"version": scipy.__version__, "answers": answers}, sys.stdout)
