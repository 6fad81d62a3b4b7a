"""Write, or with --check recompute and compare, the tables of eyes answered by `closed_forms.py`.

`oracle_eyes.csv` covers the physical range; `oracle_poles.csv` leaves it on purpose, because inside it no formula
meets a pole and two formulas refuse nothing.
"""

import argparse
import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

from mpmath import mp

from closed_forms import FORMULAS, answer
from splitmix import SplitMix, lognormal_above

SEED = 20260917
DIGITS = 17
FOLDER = Path(__file__).resolve().parent.parent / "check-values"

INPUTS = (
    "axial_length_mm k1_mm k2_mm acd_mm target_d a_constant pacd_mm surgeon_factor_mm a0_mm a1 a2 lens_power_d"
).split()
OUTPUTS = [f"{f}_{x}" for f in FORMULAS for x in ("status", "lens_position_mm", "power_d", "refraction_d")]
PLAIN = dict(zip(INPUTS, "23.50 7.80 7.70 3.10 -0.25 118.7 5.37 1.62 1.30 0.4 0.1 21.0".split()))


def step(x, size):
    """`x` to the nearest step, written with the decimals of the step."""
    size = Fraction(size)
    decimals = next(i for i in range(9) if size * 10**i == int(size * 10**i))
    return f"{float(round(Fraction(x) / size) * size):.{decimals}f}"


def clip(x, low, high):
    return min(max(x, low), high)


# --- Eyes ------------------------------------------------------------------------------------------------------------


def physiologic(rng):
    """An eye and a lens as a clinic meets them, instrument digits."""
    k = clip(rng.normal(43.9, 1.6), 38, 50)
    half = clip(lognormal_above(0, 1.0, 0.9, rng.normal()), 0, 6) / 2
    fine = rng.choice(("0.01", "0.001"))
    al = clip(lognormal_above(18, 23.9, 1.9, rng.normal()), 19.5, 35)
    a = rng.uniform(117.5, 120)
    return {
        "axial_length_mm": step(al, "0.01"),
        "k1_mm": step(337.5 / (k - half), fine),
        "k2_mm": step(337.5 / (k + half), fine),
        "acd_mm": step(clip(rng.normal(3.15, 0.42), 1.8, 4.6), "0.01"),
        "target_d": step(rng.choice((0, 0, -0.25, -0.25, -0.5, -1.25, -2.5)), "0.01"),
        "a_constant": step(a, "0.01"),
        "pacd_mm": step(0.58357 * a - 63.896 + rng.normal(0, 0.1), "0.01"),
        "surgeon_factor_mm": step(0.5663 * a - 65.6 + rng.normal(0, 0.1), "0.01"),
        "a0_mm": step(0.62467 * a - 72.8 + rng.normal(0, 0.15), "0.001"),
        "a1": "0.4",
        "a2": "0.1",
        "lens_power_d": step(clip(21 - 2.7 * (al - 23.5) - (k - 43.9) + rng.normal(0, 1), -10, 40), "0.5"),
    }


def anywhere(rng, write):
    """An eye drawn evenly over the whole physical range; `write` turns a number into text."""
    k = rng.uniform(30, 60)
    half = rng.uniform(0, min(3, k - 30, 60 - k))
    one, two = (k - half, k + half) if rng.unit() < 0.5 else (k + half, k - half)
    usual = rng.unit() < 0.5
    return {
        "axial_length_mm": write(rng.uniform(14, 40)),
        "k1_mm": write(337.5 / one),
        "k2_mm": write(337.5 / two),
        "acd_mm": write(rng.uniform(1.5, 6)),
        "target_d": step(rng.uniform(-10, 5), "0.01"),
        "a_constant": step(rng.uniform(112, 122), "0.01"),
        "pacd_mm": write(rng.uniform(3, 7)),
        "surgeon_factor_mm": write(rng.uniform(-1, 4)),
        "a0_mm": write(rng.uniform(-2, 4)),
        "a1": "0.4" if usual else step(rng.uniform(-0.3, 0.6), "0.001"),
        "a2": "0.1" if usual else step(rng.uniform(0, 0.3), "0.001"),
        "lens_power_d": step(rng.uniform(-10, 45), "0.5"),
    }


def steep_and_long(rng):
    """An eye near the edge where SRK/T has no corneal height, on either side of it."""
    eye = anywhere(rng, lambda x: step(x, "0.01"))
    k = rng.uniform(46, 60)
    eye |= {"axial_length_mm": step(rng.uniform(24, 34), "0.01"), "k1_mm": step(337.5 / k, "0.01")}
    return eye | {"k2_mm": step(337.5 / min(k + rng.uniform(0, 2), 60), "0.01")}


def corners():
    """Eyes exactly on, just under and just over each branch and limit, one change at a time from a plain eye."""
    edges = {
        "axial_length_mm": "18.5 23.0 24.2 25.326 31.0",
        "radius": "6.75 7.00 7.50 7.70",
    }
    for text in edges["axial_length_mm"].split():
        for shift in ("-0.01", "-0.001", "0", "0.001", "0.01"):
            al = f"{float(Fraction(text) + Fraction(shift)):.3f}"
            for radius in ("7.77", "7.03", "8.40"):
                yield PLAIN | {"axial_length_mm": al, "k1_mm": radius, "k2_mm": radius}
    for text in edges["radius"].split():
        for shift in ("-0.01", "-0.001", "0", "0.001", "0.01"):
            radius = f"{float(Fraction(text) + Fraction(shift)):.3f}"
            for al in ("21.00", "23.50", "26.00"):
                yield PLAIN | {"axial_length_mm": al, "k1_mm": radius, "k2_mm": radius}
    # Two radii whose mean is 7.0 mm while their mean power is not that of 7.0 mm, and one pair the other way round.
    for one, two in (("6.90", "7.10"), ("6.80", "7.20"), ("6.89", "7.12"), ("7.12", "6.89"), ("6.00", "8.40")):
        yield PLAIN | {"k1_mm": one, "k2_mm": two}
    for al in ("14.00", "40.00"):
        for radius in ("5.625", "7.70", "11.25"):
            for target in ("-10.00", "0.00", "5.00"):
                for power in ("-10.0", "0.0", "45.0"):
                    eye = {"axial_length_mm": al, "k1_mm": radius, "k2_mm": radius}
                    yield PLAIN | eye | {"target_d": target, "lens_power_d": power}
    for name, values in {
        "acd_mm": ("1.50", "6.00"),
        "a_constant": ("112.0", "122.0"),
        "pacd_mm": ("3.00", "4.00", "5.00", "6.00", "7.00"),
        "surgeon_factor_mm": ("-1.00", "4.00"),
        "a0_mm": ("-2.000", "4.000"),
        "a2": ("0", "0.2"),
        "target_d": ("0", "0.00", "-10.00", "5.00"),
        "lens_power_d": ("0", "-10.0", "45.0"),
    }.items():
        for value in values:
            for al in ("20.00", "23.50", "30.00"):
                yield PLAIN | {"axial_length_mm": al, name: value}


def eyes_in_range():
    rng = SplitMix(SEED)
    groups = {
        "phys": [physiologic(rng) for _ in range(1300)],
        "wide": [anywhere(rng, lambda x: step(x, "0.01")) for _ in range(600)],
        # Seventeen digits name one float64 each, so these check that no digit of an input is lost on the way in.
        "full": [anywhere(rng, lambda x: f"{x:.17g}") for _ in range(300)],
        "steep": [steep_and_long(rng) for _ in range(200)],
        "corner": list(corners()),
    }
    return [(f"{name}-{i:04}", eye) for name, eyes in groups.items() for i, eye in enumerate(eyes, 1)]


def eyes_at_poles():
    """Eyes no clinic meets, where the light has no real image or the lens no place."""
    changes = [
        {"target_d": t} for t in ("80.00", "83.00", "83.30", "83.33", "83.34", "84.00", "90.00")
    ] + [
        {"lens_power_d": p} for p in ("100.0", "130.0", "150.0", "250.0", "300.0", "330.0", "350.0", "400.0", "700.0")
    ] + [
        {"target_d": t, "pacd_mm": "6.00", "a0_mm": "9.00"} for t in ("50.00", "60.00", "65.00", "70.00", "75.00")
    ] + [
        {"surgeon_factor_mm": s} for s in ("-1.00", "-2.00", "-3.00", "-5.00")
    ] + [
        {"a0_mm": a0} for a0 in ("-3.500", "-3.589", "-3.591", "-4.000", "18.00", "19.90", "19.92", "25.00")
    ] + [{"a_constant": a} for a in ("100.0", "140.0", "150.0")]
    return [(f"pole-{i:04}", PLAIN | change) for i, change in enumerate(changes, 1)]


# --- Table -----------------------------------------------------------------------------------------------------------


def text_of(x):
    return "" if x is None else mp.nstr(x, DIGITS, strip_zeros=False, min_fixed=-6, max_fixed=12)


def table(name, eyes):
    """The text of a table, and how often each formula gave each kind of answer."""
    counts = Counter()
    lines = [
        f"# Written by tests/oracle/make_table.py ({name}), seed {SEED}, mpmath at {mp.dps} digits; not by the program "
        "under test.",
        ",".join(["eye_id", *INPUTS, *OUTPUTS]),
    ]
    for eye_id, eye in eyes:
        exact = {key: Fraction(value) for key, value in eye.items()}
        cells = [eye_id, *(eye[key] for key in INPUTS)]
        for formula in FORMULAS:
            status, d, power, refraction = answer(formula, exact)
            cells += [status, text_of(d), text_of(power), text_of(refraction)]
            counts[formula, status] += 1
            if status != "no_position":
                counts[formula, "power refused"] += power is None
                counts[formula, "refraction refused"] += refraction is None
        lines.append(",".join(cells))
    return "\n".join(lines) + "\n", counts


def report(name, eyes, counts):
    kinds = ("ok", "caution", "no_position", "power refused", "refraction refused")
    print(f"{name}: {len(eyes)} eyes")
    for formula in FORMULAS:
        print(f"  {formula:11}" + "  ".join(f"{kind} {counts[formula, kind]}" for kind in kinds))


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the committed tables and write nothing")
    check = parser.parse_args().check
    differs = False
    for name, eyes in (("oracle_eyes.csv", eyes_in_range()), ("oracle_poles.csv", eyes_at_poles())):
        text, counts = table(name, eyes)
        report(name, eyes, counts)
        path = FOLDER / name
        if not check:
            path.write_text(text, encoding="utf-8", newline="\n")
        elif not path.exists() or path.read_bytes() != text.encode():
            print(f"{name} differs from what this script computes", file=sys.stderr)
            differs = True
    return 1 if differs else 0


if __name__ == "__main__":
    sys.exit(main())
