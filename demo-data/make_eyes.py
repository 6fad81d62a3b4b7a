"""Write `eyes.csv`, 400 simulated eyes, or with --check recompute and compare it.

Nobody's eyes: every value is drawn from the means, SDs and Spearman correlations printed for 28,709 cataract eyes of
nine Chinese cities (PMC8045194).
Printed and used: axial length, mean keratometry, anterior chamber depth, lens thickness, corneal thickness, cylinder,
and the Spearman correlations of chamber depth with axial length and with lens thickness.
Ours, because the source does not print it: the shapes (axial length and cylinder skewed, the rest normal), all other
correlations (axial length and lens thickness related through chamber depth alone, the rest none), and which cells were
not measured.
The lens is invented and so are its constants; they belong to no product.
"""

import argparse
import csv
import io
import math
import statistics
import sys
from fractions import Fraction
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "tests" / "oracle"))

from closed_forms import FORMULAS, answer  # noqa: E402  (the folder must be on the path first)
from splitmix import SplitMix, lognormal_above  # noqa: E402

SEED = 1946
COUNT = 400
PATH = HERE / "eyes.csv"

# Printed mean and SD.
AL, K, CYLINDER = (24.17, 2.47), (44.26, 1.70), (1.06, 0.96)
ACD, LT, CCT = (3.02, 0.45), (4.52, 0.45), (534.0, 40.0)
SPEARMAN_ACD_AL, SPEARMAN_ACD_LT = 0.544, -0.660
# An assumption: the skew of the draw follows from where its lower end is put.
SHORTEST_AL = 18.0
RANGES = {
    "axial_length_mm": (14, 40),
    "k1_mm": (5, 13),
    "k2_mm": (5, 13),
    "acd_mm": (1, 8),
    "lens_thickness_mm": (2, 8),
    "cct_um": (200, 1000),
}
LENS = {
    "target_d": "-0.25",
    "a_constant": "118.7",
    "pacd_mm": "5.37",
    "surgeon_factor_mm": "1.62",
    "a0_mm": "1.30",
    "a1": "0.4",
    "a2": "0.1",
}
COLUMNS = ["eye_id", *RANGES, *LENS, "lens_power_d"]


# --- Correlation -----------------------------------------------------------------------------------------------------


def copula(spearman):
    """The Pearson correlation of two normals whose ranks correlate by `spearman`."""
    return 2.0 * math.sin(math.pi * spearman / 6.0)


def cholesky(matrix):
    """The lower triangle; a matrix that is not positive definite has a square root of a number not above zero."""
    size = len(matrix)
    lower = [[0.0] * size for _ in range(size)]
    for i in range(size):
        for j in range(i + 1):
            rest = matrix[i][j] - sum(lower[i][k] * lower[j][k] for k in range(j))
            if i == j:
                if rest <= 0.0:
                    raise ValueError("the correlations contradict each other: the matrix is not positive definite")
                lower[i][i] = math.sqrt(rest)
            else:
                lower[i][j] = rest / lower[j][j]
    return lower


def correlations():
    """Order: chamber depth, axial length, lens thickness."""
    al, lt = copula(SPEARMAN_ACD_AL), copula(SPEARMAN_ACD_LT)
    return [[1.0, al, lt], [al, 1.0, al * lt], [lt, al * lt, 1.0]]


# --- Eyes ------------------------------------------------------------------------------------------------------------


def draw(rng, lower):
    """One eye at the digits an instrument shows; each eye uses the same number of draws."""
    z = [rng.normal() for _ in range(3)]
    acd, al, lt = (sum(a * b for a, b in zip(row, z)) for row in lower)
    k = rng.normal(*K)
    half = lognormal_above(0.0, *CYLINDER, rng.normal()) / 2.0
    cct = rng.normal(*CCT)
    return {
        "axial_length_mm": f"{lognormal_above(SHORTEST_AL, *AL, al):.2f}",
        "k1_mm": f"{337.5 / (k - half):.2f}",
        "k2_mm": f"{337.5 / (k + half):.2f}",
        "acd_mm": f"{ACD[0] + ACD[1] * acd:.2f}",
        "lens_thickness_mm": f"{LT[0] + LT[1] * lt:.2f}",
        "cct_um": f"{cct:.0f}",
    }


def usable(eye):
    """Within the ranges, and with two radii that differ."""
    inside = all(low <= float(eye[name]) <= high for name, (low, high) in RANGES.items())
    return inside and eye["k1_mm"] != eye["k2_mm"]


def step_power(eye):
    """The half-diopter step nearest the median of the powers that the formulas give for the target."""
    exact = {name: Fraction(text) for name, text in eye.items()} | {"lens_power_d": Fraction(0)}
    powers = [answer(formula, exact)[2] for formula in FORMULAS]
    median = statistics.median(float(p) for p in powers if p is not None)
    return f"{round(median * 2.0) / 2.0:.1f}"


def hide(rng, eye):
    """Blank what was not measured: a dense lens hides its back surface, and sometimes its front with it."""
    hidden = rng.unit()
    if hidden < 0.07:
        eye["lens_thickness_mm"] = ""
    if hidden < 0.02:
        eye["acd_mm"] = ""


def eyes():
    rng, lower = SplitMix(SEED), cholesky(correlations())
    made, dropped = [], 0
    while len(made) < COUNT:
        eye = draw(rng, lower)
        if not usable(eye):
            dropped += 1
            continue
        eye |= LENS
        eye["lens_power_d"] = step_power(eye)
        hide(rng, eye)
        made.append({"eye_id": f"sim-{len(made) + 1:03}"} | eye)
    return made, dropped


# --- Comparison with the source --------------------------------------------------------------------------------------


def column(made, name):
    return [float(eye[name]) for eye in made if eye[name]]


def lognormal_kurtosis(floor, mean, sd):
    w = 1.0 + (sd / (mean - floor)) ** 2
    return w**4 + 2.0 * w**3 + 3.0 * w**2 - 3.0


def agreement(name, values, printed, kurtosis=3.0):
    """Whether mean and SD lie within three standard errors of the printed ones.

    The kurtosis is that of the shape drawn from: a sample that missed the tail cannot tell how uncertain its SD is.
    """
    n, mean, sd = len(values), statistics.fmean(values), statistics.stdev(values)
    mean_error = printed[1] / math.sqrt(n)
    sd_error = printed[1] * math.sqrt((kurtosis - 1.0) / (4.0 * n))
    off = (mean - printed[0]) / mean_error, (sd - printed[1]) / sd_error
    print(
        f"{name}: n {n}, {mean:.3f} ± {sd:.3f}, printed {printed[0]} ± {printed[1]}, off by {off[0]:+.2f} and "
        f"{off[1]:+.2f} standard errors"
    )
    return all(abs(x) < 3.0 for x in off)


def spearman(made, one, two):
    pairs = [(float(e[one]), float(e[two])) for e in made if e[one] and e[two]]

    def ranks(values):
        order = sorted(values)
        first = {x: order.index(x) for x in set(order)}
        return [first[x] + (order.count(x) - 1) / 2.0 for x in values]

    return statistics.correlation(*(ranks(list(side)) for side in zip(*pairs))), len(pairs)


def rank_agreement(made, one, two, printed):
    found, n = spearman(made, one, two)
    off = (math.atanh(found) - math.atanh(printed)) / math.sqrt(1.06 / (n - 3))
    print(f"Spearman {one} and {two}: n {n}, {found:.3f}, printed {printed}, off by {off:+.2f} standard errors")
    return abs(off) < 3.0


def agrees(made):
    k = [(337.5 / float(e["k1_mm"]) + 337.5 / float(e["k2_mm"])) / 2.0 for e in made]
    cylinder = [337.5 / float(e["k2_mm"]) - 337.5 / float(e["k1_mm"]) for e in made]
    results = [
        agreement("AL mm", column(made, "axial_length_mm"), AL, lognormal_kurtosis(SHORTEST_AL, *AL)),
        agreement("K D", k, K),
        agreement("cylinder D", cylinder, CYLINDER, lognormal_kurtosis(0.0, *CYLINDER)),
        agreement("ACD mm", column(made, "acd_mm"), ACD),
        agreement("LT mm", column(made, "lens_thickness_mm"), LT),
        agreement("CCT µm", column(made, "cct_um"), CCT),
        rank_agreement(made, "acd_mm", "axial_length_mm", SPEARMAN_ACD_AL),
        rank_agreement(made, "acd_mm", "lens_thickness_mm", SPEARMAN_ACD_LT),
    ]
    return all(results)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the committed table and write nothing")
    check = parser.parse_args().check
    made, dropped = eyes()
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(made)
    good = agrees(made)
    print(f"{len(made)} eyes, {dropped} draws dropped, {len(made) - len(column(made, 'acd_mm'))} without ACD, ", end="")
    print(f"{len(made) - len(column(made, 'lens_thickness_mm'))} without LT")
    if not check:
        PATH.write_text(out.getvalue(), encoding="utf-8", newline="\n")
    elif not PATH.exists() or PATH.read_bytes() != out.getvalue().encode():
        print(f"{PATH.name} differs from what this script computes", file=sys.stderr)
        good = False
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
