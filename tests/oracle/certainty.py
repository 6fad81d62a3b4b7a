"""Write, or with --check recompute and compare, the tables of predictions with their spread.

`certainty.csv`: eyes with untouched corneas, all five formulas and all of them pooled.
`certainty_operated.csv`: eyes after laser surgery of the cornea, three methods.
`normal_mixtures.csv`: normal distributions and mixtures as scipy.stats gives them, the tails included.
"""

import argparse
import sys
from fractions import Fraction
from pathlib import Path

import numpy as np
from mpmath import mp, mpf
from scipy import optimize, stats

import error_model
from closed_forms import FORMULAS, mp_, power_for
from error_model import ADDED, BASE, SOURCES, NoDistribution, built, pooled, prediction
from make_table import step
from splitmix import SplitMix

SEED = 20260929
DIGITS = 17
FOLDER = Path(__file__).resolve().parent.parent / "check-values"
CONSTANTS = ("a_constant", "pacd_mm", "surgeon_factor_mm", "a0_mm", "a1", "a2")
LENSES = (
    ("118.7", "5.37", "1.62", "1.3", "0.4", "0.1"),
    ("118.2", "5.08", "1.34", "0.95", "0.4", "0.1"),
    ("119.3", "5.75", "1.98", "1.62", "0.4", "0.1"),
    # Three constants fitted at once, an unlike split between depth and length.
    ("118.9", "5.49", "1.73", "-0.74", "0.234", "0.217"),
)
TARGETS = ("0.00", "-0.50", "-2.50")
# Each number of eyes and SD stands for one formula; the last leaves nothing unexplained.
OWN = (
    ("srk_t", "40", "0.38"),
    ("t2", "2", "1.20"),
    ("holladay_1", "101", "0.50"),
    ("hoffer_q", "350", "0.41"),
    ("haigis", "1200", "0.36"),
    ("haigis", "5000", "0.22"),
)
# Within this of a join the two sides have different derivatives, and a draw cannot tell which is meant.
JOINS = (Fraction("18.5"), Fraction(23), Fraction("24.2"), Fraction("25.326"), Fraction(31))
INPUTS = ("axial_length_mm", "k1_mm", "k2_mm", "acd_mm", "target_d", "lens_power_d", *CONSTANTS)
OWN_COLUMNS = ("own_formula", "own_eyes", "own_deviation_d")
BY_SOURCE = tuple(source for source in SOURCES if source not in ("operated_cornea", "lens_position")) + ADDED
OF_OPERATED = BY_SOURCE + ("operated_cornea",)
POOLED = (
    "mean deviation low_50 high_50 low_80 high_80 low_95 high_95 within_0.25 within_0.50 within_1.00 over_0.50".split()
    + [f"{source}_share" for source in BY_SOURCE]
    + ["disagreement_share"]
    + [f"{source}_repeated" for source in error_model.REPEATABLE]
)


def text_of(x):
    return mp.nstr(x, DIGITS, strip_zeros=False, min_fixed=-3, max_fixed=12)


def heading(name, columns):
    return [
        f"# Written by tests/oracle/certainty.py ({name}), seed {SEED}, mpmath at {mp.dps} digits; not by the program "
        "under test.",
        ",".join(columns),
    ]


def split(texts):
    """Eye and constants as exact fractions; an empty cell stays None."""
    exact = {key: Fraction(value) if value else None for key, value in texts.items() if key in INPUTS}
    return exact, {key: exact[key] for key in CONSTANTS}


# --- Untouched corneas -----------------------------------------------------------------------------------------------


def nearest_lens(eye, constants, target):
    """The half diopter nearest the mean power of the formulas, with one decimal."""
    powers = []
    for formula in FORMULAS:
        try:
            powers.append(power_for(*error_model.placed(formula, eye | constants, {}), mp_(target)))
        except NoDistribution:
            continue
    return step(Fraction(str(float(sum(powers) / len(powers)))), "0.5")


def drawn(rng, index):
    while True:
        al = step(rng.uniform(19.5, 31), "0.01") if index % 2 else step(min(max(rng.normal(23.6, 1.3), 20), 29), "0.01")
        k = rng.uniform(39, 48.5) if index % 2 else min(max(rng.normal(43.9, 1.6), 39), 48.5)
        half = rng.uniform(0, min(1.2, k - 39, 48.5 - k))
        one, two = (step(337.5 / (k + side), "0.01") for side in (-half, half))
        mean_k = Fraction("168.75") / Fraction(one) + Fraction("168.75") / Fraction(two)
        far = all(abs(Fraction(al) - join) >= Fraction("0.01") for join in JOINS)
        if far and abs(337.5 / mean_k - 7) > 0.001:
            break
    texts = {
        "axial_length_mm": al,
        "k1_mm": one,
        "k2_mm": two,
        # Every fifteenth eye has no depth: Haigis has no answer, and the pool is made of four.
        "acd_mm": "" if index % 15 == 7 else step(rng.uniform(2.2, 4), "0.01"),
        "target_d": TARGETS[index % 3],
    }
    texts |= dict(zip(CONSTANTS, LENSES[0] if index % 2 else rng.choice(LENSES)))
    exact, constants = split(texts)
    texts["lens_power_d"] = nearest_lens(exact, constants, exact["target_d"])
    own = OWN[index // 5 % len(OWN)] if index % 5 == 3 else ("", "", "")
    return texts, own


def untouched():
    rng = SplitMix(SEED)
    columns = ["eye_id", *INPUTS, *OWN_COLUMNS]
    columns += [
        f"{formula}_{x}"
        for formula in FORMULAS
        for x in ("mean_d", "deviation_d", "unexplained_spread_d", *(f"{source}_variance" for source in BY_SOURCE))
    ]
    columns += [f"pooled_{x}" for x in POOLED]
    lines = heading("certainty.csv", columns)
    refused = 0
    for index in range(64):
        texts, own = drawn(rng, index)
        eye, constants = split(texts)
        cells = [f"eye-{index + 1:02}", *(texts[key] for key in INPUTS), *own]
        answers = []
        for formula in FORMULAS:
            result = (int(own[1]), mpf(own[2])) if own[0] == formula else None
            try:
                one = prediction(formula, eye, constants, eye["lens_power_d"], result)
            except NoDistribution:
                refused += 1
                cells += [""] * (3 + len(BY_SOURCE))
                continue
            answers.append(one)
            cells += map(text_of, (one["mean"], one["deviation"], one["spreads"]["unexplained"]))
            cells += (text_of(one["variances"][source]) for source in BY_SOURCE)
        whole = pooled(answers, mp_(eye["target_d"]))
        cells += (text_of(whole[x]) for x in POOLED)
        lines.append(",".join(cells))
    print(f"certainty.csv: {len(lines) - 2} eyes, {refused} formulas without an answer")
    return "\n".join(lines) + "\n"


# --- After corneal surgery -------------------------------------------------------------------------------------------


def operated():
    rng = SplitMix(SEED + 1)
    inputs = [*INPUTS, "history", "k_before_d", "correction_d"]
    columns = ["eye_id", *inputs]
    columns += [
        f"{method}_{x}"
        for method in BASE
        for x in (
            ["mean_d", "deviation_d", "unexplained_spread_d", "cornea_spread_d"]
            + [f"{source}_variance" for source in OF_OPERATED]
        )
    ]
    lines = heading("certainty_operated.csv", columns)
    for index in range(16):
        history = "hyperopic" if index % 4 == 3 else "myopic"
        before = rng.uniform(41, 46)
        correction = rng.uniform(1, 6)
        after = before - 0.85 * correction if history == "myopic" else before + 0.8 * correction / 2
        al = rng.uniform(24.3, 29) if history == "myopic" else rng.uniform(20.5, 22.9)
        radius = step(337.5 / after, "0.01")
        texts = {
            "axial_length_mm": step(al, "0.01"),
            "k1_mm": radius,
            "k2_mm": step(float(radius) - rng.uniform(0, 0.15), "0.01"),
            "acd_mm": step(rng.uniform(2.8, 3.8), "0.01"),
            "target_d": "-0.50",
            "lens_power_d": "",
        } | dict(zip(CONSTANTS, LENSES[index % len(LENSES)]))
        eye, constants = split(texts)
        surgery = {"history": history, "k_before_d": step(before, "0.01"), "correction_d": step(correction, "0.01")}
        eye |= {"history": history} | {key: Fraction(surgery[key]) for key in ("k_before_d", "correction_d")}
        power = power_for(*built("double_k_no_history", eye), mpf("-0.5"))
        texts["lens_power_d"] = step(Fraction(str(float(power))), "0.5")
        eye, texts = eye | {"lens_power_d": Fraction(texts["lens_power_d"])}, texts | surgery
        cells = [f"operated-{index + 1:02}", *(texts[key] for key in inputs)]
        for method in BASE:
            if history == "hyperopic" and method != "double_k_no_history":
                cells += [""] * (4 + len(OF_OPERATED))
                continue
            one = prediction(method, eye, constants, eye["lens_power_d"])
            spreads = one["spreads"]
            cells += map(
                text_of, (one["mean"], one["deviation"], spreads["unexplained"], spreads["operated_cornea"])
            )
            cells += (text_of(one["variances"][source]) for source in OF_OPERATED)
        lines.append(",".join(cells))
    print(f"certainty_operated.csv: {len(lines) - 2} eyes")
    return "\n".join(lines) + "\n"


# --- The functions behind them ---------------------------------------------------------------------------------------

# Means and SDs of the parts of each mixture, D; alone, tight, far apart, one narrow inside one wide.
MIXTURES = {
    "standard": ((0, 1),),
    "single": ((-0.31, 0.47),),
    "tight": ((-0.52, 0.44), (-0.48, 0.46), (-0.5, 0.45), (-0.47, 0.47), (-0.55, 0.43)),
    "spread": ((-1.9, 0.5), (-0.4, 0.44), (0.1, 0.46), (0.9, 0.61), (1.7, 1.3)),
    "apart": ((-3, 0.2), (0, 0.3), (4, 0.25)),
    "nested": ((0, 0.05), (0, 2)),
    # A search by safeguarded Newton steps that need not shrink does not end here.
    "leaping": ((-6, 1.5), (-5, 0.3), (-4, 0.8), (7, 0.5)),
    "skewed": ((0, 0.1), (0.5, 0.9), (6, 0.4), (0.1, 0.3)),
}
AT = (-37, -30, -20, -12, -8, -5, -3, -1, -0.5, -0.1, 0, 0.2, 0.5, 1, 2, 4, 6.5, 8, 12, 37)
# Target and band, D.
AROUND = ((0.0, 0.25), (0.0, 0.5), (-0.5, 1.0), (3.0, 0.25), (8.0, 0.5), (-12.0, 1.0), (20.0, 0.25))


def mixtures():
    """Rows of (mixture, function, arguments, value): cdf, sf, between, ppf."""
    lines = [
        "# Written by tests/oracle/certainty.py (normal_mixtures.csv) with scipy.stats.norm and scipy.optimize.brentq;",
        "# not by the program under test.",
        "mixture,means_d,deviations_d,function,at,band,value",
    ]
    for name, parts in MIXTURES.items():
        means, sds = (np.array(column, dtype=float) for column in zip(*parts))
        lists = ["|".join(str(float(x)) for x in column) for column in (means, sds)]

        def row(function, at, band, value):
            lines.append(",".join([name, *lists, function, f"{at}", f"{band}", f"{value:.17g}"]))

        for x in AT:
            row("cdf", x, "", stats.norm.cdf(x, means, sds).mean())
            row("sf", x, "", stats.norm.sf(x, means, sds).mean())
        for target, band in AROUND:
            # The difference of the smaller tails keeps the digits far out.
            ends = (target - band, target + band)
            above = np.subtract(*(stats.norm.sf(end, means, sds) for end in ends))
            below = np.subtract(*(stats.norm.cdf(end, means, sds) for end in ends[::-1]))
            chance = np.where(means < target, above, below).mean()
            row("between", target, band, chance)
        for share in (0.025, 0.1, 0.25, 0.75, 0.9, 0.975):
            ends = (means - 50 * sds).min(), (means + 50 * sds).max()
            root = optimize.brentq(
                lambda x: stats.norm.cdf(x, means, sds).mean() - share, *ends, xtol=1e-14, rtol=1e-15, maxiter=500
            )
            # Where next to nothing lies, a chance cannot tell one place from another.
            if stats.norm.pdf(root, means, sds).mean() > 1e-3:
                row("ppf", share, "", root)
    print(f"normal_mixtures.csv: {len(lines) - 3} values")
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the committed tables and write nothing")
    check = parser.parse_args().check
    differs = False
    tables = {"certainty.csv": untouched, "certainty_operated.csv": operated, "normal_mixtures.csv": mixtures}
    for name, make in tables.items():
        text = make()
        path = FOLDER / name
        if not check:
            path.write_text(text, encoding="utf-8", newline="\n")
        elif not path.exists() or path.read_bytes() != text.encode():
            print(f"{name} differs from what this script computes", file=sys.stderr)
            differs = True
    return 1 if differs else 0


if __name__ == "__main__":
    sys.exit(main())
