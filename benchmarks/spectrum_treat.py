"""Baseline of spectrum-treat.ts: the usual steps with scipy, on the same curve. JSON in, times and counts out."""
import json
import sys
from time import perf_counter

import numpy as np
import scipy
from scipy.signal import find_peaks, peak_widths, savgol_filter

given = json.load(sys.stdin)
x = np.array(given["x"])
transmittance = np.array(given["y"])


def treated():
    a = -np.log10(np.maximum(1e-3, transmittance))
    bend = savgol_filter(a, 13, 2, deriv=2, delta=x[1] - x[0])
    peaks, _ = find_peaks(a, prominence=0.01 * np.ptp(a))
    widths = peak_widths(a, peaks, rel_height=0.5)
    return len(peaks), len(bend), len(widths[0])


times_ms = []
for n in range(given["rounds"] + 20):
    begun = perf_counter()
    peaks, _, _ = treated()
    if n >= 20:
        times_ms.append(1000 * (perf_counter() - begun))
json.dump({"times_ms": times_ms, "peaks": peaks, "version": scipy.__version__}, sys.stdout)
