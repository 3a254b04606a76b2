"""Baseline of spectrum-library.ts: the same three products with numpy. JSON in, times and the best out."""
import base64
import json
import sys
from time import perf_counter

import numpy as np

given = json.load(sys.stdin)
places = given["places"]
slopes = np.frombuffer(base64.b64decode(given["slopes"]), dtype=np.int8).reshape(-1, places)
library = slopes.astype(np.float32)
library /= np.linalg.norm(library, axis=1, keepdims=True)
asked = np.array(given["asked"], dtype=np.float32)
asked /= np.linalg.norm(asked)
shifted = np.stack([np.append(asked[1:], 0), asked, np.append(0, asked[:-1])], axis=1)


def search():
    alike = (library @ shifted).max(axis=1)
    ten = np.argpartition(alike, -10)[-10:]
    return ten[np.argsort(-alike[ten])]


times_ms = []
best = -1
for n in range(given["rounds"] + 10):
    begun = perf_counter()
    best = int(search()[0])
    if n >= 10:
        times_ms.append(1000 * (perf_counter() - begun))
json.dump({"times_ms": times_ms, "best": best, "version": np.__version__}, sys.stdout)
