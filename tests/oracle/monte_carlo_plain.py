"""The model of monte_carlo_numpy.py as one writes it plainly: expressions over whole arrays, a temporary for each.

Usage: monte_carlo_plain.py [--draws N] [--seed S] [--runs R]

Same eye, errors, generator and results; it shows what reusing arrays and staying in the cache gain there. The time from
the generator to the refractions is told apart, since most of the rest goes into quantiles, which the program reads off
its counts.
"""

import argparse
import json
import time

import numpy as np
from closed_forms import FORMULAS
from monte_carlo_numpy import BANDS, OVER, QUANTILES, exact, plain


def refraction(length, position, cornea, power, extra):
    at_lens = 1336 / (length - position) - power
    behind = at_lens / (1 + position * at_lens / 1336) - cornea
    return behind / (1 + 0.012 * behind) + extra


def positions(eye, al, k, acd):
    """Optical length, lens position and corneal power by every formula, before the error of the position."""
    r = 337.5 / k
    shift = 0.62467 * eye["a_constant"] - 68.747 - 3.336
    corrected = np.where(al <= 24.2, al, -3.446 + 1.716 * al - 0.0237 * al**2)
    width = -5.41 + 0.58412 * corrected + 0.098 * k
    length, cornea = 0.65696 - 0.02029 * al + al, 333 / r
    yield length, r - np.sqrt(r**2 - width**2 / 4) + shift, cornea
    yield length, -10.326 + 0.32630 * al + 0.13533 * k + shift, cornea
    high, chamber = np.maximum(r, 7.0), np.minimum(12.5 * al / 23.45, 13.5)
    yield al + 0.2, 0.56 + high - np.sqrt(high**2 - chamber**2 / 4) + eye["surgeon_factor_mm"], 1000 / 3 / r
    a, short = np.clip(al, 18.5, 31.0), al <= 23.0
    m, g = np.where(short, 1.0, -1.0), np.where(short, 28.0, 23.5)
    bent = m * 0.1 * (23.5 - a) ** 2 * np.tan(np.radians(0.1 * (g - a) ** 2))
    depth = eye["pacd_mm"] + 0.3 * (a - 23.5) + np.tan(np.radians(k)) ** 2 + bent - 0.99166
    yield al, np.clip(depth, 2.5, 6.5) + 0.05, k
    yield al, eye["a0_mm"] + eye["a1"] * acd + eye["a2"] * al, None


def refractions(normals, eye, spreads):
    """One row of refractions per formula, from six rows of standard normal numbers."""
    z_al, z_k, z_acd, z_position, z_power, z_extra = normals
    al = eye["axial_length_mm"] + spreads["axial_length"] * z_al
    k1, k2 = (337.5 / eye[name] + spreads["corneal_power"] * z_k for name in ("k1_mm", "k2_mm"))
    acd = eye["acd_mm"] + spreads["anterior_chamber_depth"] * z_acd
    power = eye["lens_power_d"] + spreads["labeled_power"] * z_power
    extra = spreads["postoperative_refraction"] * z_extra
    mean_radius = (337.5 / k1 + 337.5 / k2) / 2
    rows = []
    for formula, (length, position, cornea) in zip(FORMULAS, positions(eye, al, (k1 + k2) / 2, acd)):
        cornea = 331.5 / mean_radius if cornea is None else cornea
        rows.append(refraction(length, position + spreads[formula] * z_position, cornea, power, extra))
    return np.array(rows)


def results(row, target):
    off = row - target
    answer = {"mean": row.mean(), "sd": row.std(ddof=1), "refused": 0, "quantiles": np.quantile(row, QUANTILES)}
    for band in BANDS:
        answer[f"within_{band:.2f}"] = np.mean(np.abs(off) <= band)
    answer["over_0.50"] = np.mean(row > OVER)
    return answer


def everything(rng, eye, spreads, draws):
    """All results, and the seconds up to the refractions."""
    start = time.perf_counter()
    rows = refractions(rng.standard_normal((6, draws)), eye, spreads)
    up_to_refractions = time.perf_counter() - start
    if np.isnan(rows).any():
        raise SystemExit("an eye without an answer: this script has no place for it")
    answers = {formula: results(row, eye["target_d"]) for formula, row in zip(FORMULAS, rows)}
    answers["pooled"] = results(rows.reshape(-1), eye["target_d"])
    return answers, up_to_refractions


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--draws", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--runs", type=int, default=5)
    arguments = parser.parse_args()
    if arguments.draws < 2 or arguments.runs < 1:
        parser.error("an SD needs two draws, and a time one run")
    eye, spreads, _ = exact()
    best, shortest = np.inf, np.inf
    for run in range(arguments.runs + 1):
        rng = np.random.Generator(np.random.SFC64(arguments.seed))
        start = time.perf_counter()
        answers, up_to_refractions = everything(rng, eye, spreads, arguments.draws)
        if run > 0:
            best = min(best, time.perf_counter() - start)
            shortest = min(shortest, up_to_refractions)
    report = {
        "draws": arguments.draws,
        "seed": arguments.seed,
        "seconds": best,
        "draws_per_second": arguments.draws / best,
        "refractions_per_second": arguments.draws / shortest,
        "quantiles_at": QUANTILES,
        "results": {formula: plain(answer) for formula, answer in answers.items()},
    }
    print(json.dumps(report, indent=1))


if __name__ == "__main__":
    main()
