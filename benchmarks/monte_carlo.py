"""The yield model of monte-carlo.ts, drawn with numpy: a description as JSON in, times and results out."""
import json
import sys
from time import perf_counter

import numpy as np


def drawn(random, given, n):
    value, u = given["value"], given["u"]
    if given["shape"] == "normal":
        return random.normal(value, u, n)
    if given["shape"] == "rectangular":
        half = u * 3**0.5
        return random.uniform(value - half, value + half, n)
    half = u * 6**0.5
    return random.triangular(value - half, value, value + half, n)


def linear(form, columns):
    return form["constant"] + sum(slope * columns[i] for i, slope in form["slopes"])


def yields(model, random):
    columns = [drawn(random, given, model["draws"]) for given in model["inputs"]]
    theory = 0.0
    for term in model["terms"]:
        extent = np.inf
        for supply in term["supplies"]:
            own = 1.0 if supply["molarMass"] is None else linear(supply["molarMass"], columns)
            extent = np.minimum(extent, linear(supply["moles"], columns) * supply["factor"] / own)
        theory = theory + term["coefficient"] * extent
    percent = 1e5 * linear(model["net"], columns) / (theory * linear(model["molarMass"], columns))
    return percent.mean(), percent.std(ddof=1), np.percentile(percent, [2.5, 97.5])


model = json.load(sys.stdin)
times_ms = []
for seed in range(model["rounds"]):
    begun = perf_counter()
    mean, u, _ = yields(model, np.random.default_rng(seed))
    times_ms.append(1000 * (perf_counter() - begun))
json.dump({"times_ms": times_ms, "mean": mean, "u": u, "version": np.__version__}, sys.stdout)
