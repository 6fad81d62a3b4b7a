"""Draw one eye many times with numpy: the yardstick for the speed of the program's Monte Carlo.

Usage: monte_carlo_numpy.py [--draws N] [--seed S] [--runs R]

One thread, float64, no compiler. All formulas are computed from one set of draws per eye: six standard normals (axial
length, corneal power, chamber depth, lens position, label, refraction measured afterwards); the lens position uses the
same normal times each formula's own spread. Draws are taken in blocks that stay in the cache and arrays are reused;
with whole arrays a million long that part takes nearly twice as long. Sums and counts are gathered while a block is in
the cache; quantiles select from whole rows. An eye for which a formula has no answer is left out of that formula and
counted.

Prints JSON: per formula and pooled mean, SD, quantiles and chances, the same from exact derivatives beside them, and
draws per second in the best of the runs after one to warm up. A draw is one eye through all five formulas. The time
holds everything from the generator to the last quantile.
"""

import argparse
import json
import time
from fractions import Fraction

import numpy as np

import error_model
from closed_forms import FORMULAS

BLOCK = 16384
QUANTILES = (0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975)
BANDS = (0.25, 0.5, 1.0)
OVER = 0.5
# An invented eye and lens, away from every branch.
EYE = {"axial_length_mm": "23.50", "k1_mm": "7.75", "k2_mm": "7.63", "acd_mm": "3.20"}
LENS = {"a_constant": "118.7", "pacd_mm": "5.37", "surgeon_factor_mm": "1.62", "a0_mm": "1.3", "a1": "0.4", "a2": "0.1"}
LENS_POWER, TARGET = "21.0", "-0.50"


class Scratch:
    """Arrays of one block, reused by every formula."""

    def __init__(self, size):
        self.normals = np.empty((6, size))
        names = "al k k1 acd power extra h r d x y length cornea".split()
        for name in names:
            setattr(self, name, np.empty(size))


def draw(rng, s, eye, spreads):
    """Fill the measured eye with errors."""
    rng.standard_normal(out=s.normals)
    z_al, z_k, z_acd, _, z_power, z_extra = s.normals
    np.multiply(z_al, spreads["axial_length"], out=s.al)
    s.al += eye["axial_length_mm"]
    z_k *= spreads["corneal_power"]
    np.add(z_k, 337.5 / eye["k1_mm"], out=s.k1)
    np.add(z_k, 337.5 / eye["k2_mm"], out=s.k)
    # The radius of Haigis is the mean of the two radii; the other formulas take the mean power.
    np.divide(168.75, s.k1, out=s.h)
    np.divide(168.75, s.k, out=s.r)
    s.h += s.r
    s.k += s.k1
    s.k *= 0.5
    np.divide(337.5, s.k, out=s.r)
    np.multiply(z_acd, spreads["anterior_chamber_depth"], out=s.acd)
    s.acd += eye["acd_mm"]
    np.multiply(z_power, spreads["labeled_power"], out=s.power)
    s.power += eye["lens_power_d"]
    np.multiply(z_extra, spreads["postoperative_refraction"], out=s.extra)


def refraction(s, length, cornea, spread, out):
    """Section 1 of the formula sheet backwards, for a lens at `s.d` moved by its own error."""
    d, x, y = s.d, s.x, s.y
    np.multiply(s.normals[3], spread, out=x)
    d += x
    np.subtract(length, d, out=x)
    np.divide(1336.0, x, out=x)
    x -= s.power
    np.multiply(d, x, out=y)
    y *= 1 / 1336.0
    y += 1.0
    x /= y
    x -= cornea
    np.multiply(x, 0.012, out=y)
    y += 1.0
    np.divide(x, y, out=out)
    out += s.extra


def corneal_width(s):
    """Cw of SRK/T, into s.y."""
    al, x, y = s.al, s.x, s.y
    np.multiply(al, -0.0237, out=x)
    x += 1.716
    x *= al
    x += -3.446
    np.copyto(x, al, where=al <= 24.2)
    x *= 0.58412
    np.multiply(s.k, 0.098, out=y)
    y += x
    y += -5.41


def srk_t_and_t2(s, eye, spreads, out):
    np.multiply(s.al, 1 - 0.02029, out=s.length)
    s.length += 0.65696
    np.multiply(s.k, 333 / 337.5, out=s.cornea)
    shift = 0.62467 * eye["a_constant"] - 68.747 - 3.336
    corneal_width(s)
    y = s.y
    y *= y
    y *= 0.25
    np.multiply(s.r, s.r, out=s.x)
    s.x -= y
    np.sqrt(s.x, out=s.x)
    np.subtract(s.r, s.x, out=s.d)
    s.d += shift
    refraction(s, s.length, s.cornea, spreads["srk_t"], out[0])
    np.multiply(s.al, 0.32630, out=s.d)
    np.multiply(s.k, 0.13533, out=s.x)
    s.d += s.x
    s.d += shift - 10.326
    refraction(s, s.length, s.cornea, spreads["t2"], out[1])


def holladay_1(s, eye, spreads, out):
    np.multiply(s.al, 12.5 / 23.45, out=s.x)
    np.minimum(s.x, 13.5, out=s.x)
    s.x *= s.x
    s.x *= 0.25
    np.maximum(s.r, 7.0, out=s.d)
    np.multiply(s.d, s.d, out=s.y)
    s.y -= s.x
    np.sqrt(s.y, out=s.y)
    s.d -= s.y
    s.d += 0.56 + eye["surgeon_factor_mm"]
    np.add(s.al, 0.2, out=s.length)
    np.multiply(s.k, 1000 / (3 * 337.5), out=s.cornea)
    refraction(s, s.length, s.cornea, spreads["holladay_1"], out)


def hoffer_q(s, eye, spreads, out):
    a, d, x, y = s.length, s.d, s.x, s.y
    np.clip(s.al, 18.5, 31.0, out=a)
    short = s.al <= 23.0
    x.fill(23.5)
    x[short] = 28.0
    x -= a
    x *= x
    x *= 0.1 * np.pi / 180
    np.tan(x, out=x)
    np.negative(x, out=x, where=~short)
    np.subtract(23.5, a, out=y)
    np.multiply(y, -0.3, out=d)
    y *= y
    y *= 0.1
    x *= y
    d += x
    np.multiply(s.k, np.pi / 180, out=x)
    np.tan(x, out=x)
    x *= x
    d += x
    d += eye["pacd_mm"] - 0.99166
    np.clip(d, 2.5, 6.5, out=d)
    d += 0.05
    refraction(s, s.al, s.k, spreads["hoffer_q"], out)


def haigis(s, eye, spreads, out):
    np.multiply(s.acd, eye["a1"], out=s.d)
    np.multiply(s.al, eye["a2"], out=s.x)
    s.d += s.x
    s.d += eye["a0_mm"]
    np.divide(331.5, s.h, out=s.cornea)
    refraction(s, s.al, s.cornea, spreads["haigis"], out)


class Tally:
    """Sums and counts per formula, gathered while a block is in the cache; all of x less the target."""

    def __init__(self, count):
        self.sums, self.squares = np.zeros(count), np.zeros(count)
        self.hits = np.zeros((len(BANDS) + 1, count), dtype=np.int64)

    def add(self, block, target, off):
        # Row by row: counting along an axis goes through integers and takes several times as long.
        for index, (row, apart) in enumerate(zip(block, off)):
            np.subtract(row, target, out=apart)
            self.sums[index] += apart.sum()
            # Not `@`: that is shared out to threads, which costs more than it saves and is no longer one thread.
            self.squares[index] += np.einsum("i,i", apart, apart)
            self.hits[-1, index] += np.count_nonzero(apart > OVER - target)
            np.abs(apart, out=apart)
            for hits, band in zip(self.hits, BANDS):
                hits[index] += np.count_nonzero(apart <= band)


def simulate(rng, eye, spreads, out):
    """Fill `out`, one row per formula, NaN where a formula has no answer; return its tally."""
    count, draws = out.shape
    s, tally, off = Scratch(min(BLOCK, draws)), Tally(count), np.empty((count, min(BLOCK, draws)))
    for start in range(0, draws, BLOCK):
        block = out[:, start : start + BLOCK]
        if block.shape != off.shape:
            s, off = Scratch(block.shape[1]), np.empty(block.shape)
        draw(rng, s, eye, spreads)
        srk_t_and_t2(s, eye, spreads, block)
        holladay_1(s, eye, spreads, block[2])
        hoffer_q(s, eye, spreads, block[3])
        haigis(s, eye, spreads, block[4])
        tally.add(block, eye["target_d"], off)
    return tally


def named(mean, sd, refused, chances, quantiles):
    names = [f"within_{band:.2f}" for band in BANDS] + ["over_0.50"]
    answer = {"mean": mean, "sd": sd, "refused": refused, "quantiles": quantiles}
    return answer | dict(zip(names, chances))


def everything(rng, eye, spreads, out):
    """All results; formulas without any answer, or with too few for an SD, come out as NaN."""
    with np.errstate(invalid="ignore"):
        tally = simulate(rng, eye, spreads, out)
    target, draws = eye["target_d"], out.shape[1]
    answers, rows = {}, list(out)
    for index in np.flatnonzero(np.isnan(tally.sums)):
        # Rare: some drawn eyes have no answer, so the row is counted again without them.
        rows[index] = kept = out[index][~np.isnan(out[index])]
        tally.sums[index] = (kept - target).sum()
        tally.squares[index] = ((kept - target) ** 2).sum()
    counts = np.array([row.size for row in rows])
    means = tally.sums / counts
    variances = (tally.squares - tally.sums * means) / (counts - 1)
    chances = tally.hits / counts
    for index, formula in enumerate(FORMULAS):
        quantiles = np.quantile(rows[index], QUANTILES, overwrite_input=True)
        refused = draws - counts[index]
        answers[formula] = named(target + means[index], variances[index] ** 0.5, refused, chances[:, index], quantiles)
    # An equal mixture, as every formula has the same number of draws but for refusals.
    whole = out.reshape(-1) if counts.min() == draws else np.concatenate(rows)
    mean, variance = means.mean(), variances.mean() + means.var()
    quantiles = np.quantile(whole, QUANTILES, overwrite_input=True)
    answers["pooled"] = named(target + mean, variance**0.5, out.size - whole.size, chances.mean(axis=1), quantiles)
    return answers


def exact():
    """Eye, spreads as floats, and mean and SD by exact derivatives."""
    eye = {key: Fraction(value) for key, value in EYE.items()}
    constants = {key: Fraction(value) for key, value in LENS.items()}
    power = Fraction(LENS_POWER)
    spreads = {key: float(value) for key, value in error_model.SPREADS.items()}
    spreads["labeled_power"] = float(error_model.label_spread(power))
    predictions = {formula: error_model.prediction(formula, eye, constants, power) for formula in FORMULAS}
    for formula, one in predictions.items():
        spreads[formula] = float(one["spreads"]["lens_position"])
    quick = {formula: [float(one["mean"]), float(one["deviation"])] for formula, one in predictions.items()}
    whole = error_model.pooled(list(predictions.values()), error_model.mp_(Fraction(TARGET)))
    quick["pooled"] = [float(whole["mean"]), float(whole["deviation"])]
    numbers = {key: float(Fraction(value)) for key, value in (EYE | LENS).items()}
    return numbers | {"lens_power_d": float(power), "target_d": float(Fraction(TARGET))}, spreads, quick


def plain(answer):
    return {key: value.tolist() if isinstance(value, np.ndarray) else float(value) for key, value in answer.items()}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--draws", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--runs", type=int, default=5)
    arguments = parser.parse_args()
    if arguments.draws < 2 or arguments.runs < 1:
        parser.error("an SD needs two draws, and a time one run")
    eye, spreads, quick = exact()
    out = np.empty((len(FORMULAS), arguments.draws))
    best = np.inf
    for run in range(arguments.runs + 1):
        rng = np.random.Generator(np.random.SFC64(arguments.seed))
        start = time.perf_counter()
        answers = everything(rng, eye, spreads, out)
        if run > 0:
            best = min(best, time.perf_counter() - start)
    report = {
        "draws": arguments.draws,
        "seed": arguments.seed,
        "seconds": best,
        "draws_per_second": arguments.draws / best,
        "eye": eye,
        "spreads": spreads,
        "quantiles_at": QUANTILES,
        "results": {formula: plain(answer) for formula, answer in answers.items()},
        "mean_and_sd_by_exact_derivatives": quick,
    }
    print(json.dumps(report, indent=1))


if __name__ == "__main__":
    main()
