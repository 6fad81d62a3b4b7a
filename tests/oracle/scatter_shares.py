"""Shares of the variance in the average eye beside Norrby's, and what half-diopter steps alone do.

Prints three tables; `README.md` in this folder says why the first two columns differ.
"""

from fractions import Fraction

from mpmath import mp, mpf, sqrt

from closed_forms import FORMULAS, power_for, refraction_from
from error_model import (
    AVERAGE,
    SCATTER,
    SOURCES,
    SPREADS,
    NoDistribution,
    average_lens,
    placed,
    slope,
    spreads_of,
    used_scatter,
)
from splitmix import SplitMix

LENS = {
    key: Fraction(value)
    for key, value in {
        "a_constant": "118.7", "pacd_mm": "5.37", "surgeon_factor_mm": "1.62", "a0_mm": "1.3", "a1": "0.4", "a2": "0.1"
    }.items()
}
# Norrby, J Cataract Refract Surg 2008;34:368-376 (formula sheet, section 9), percent of the variance.
PRINTED = {"lens_position": 35, "postoperative_refraction": 27, "axial_length": 17, "pupil": 8, "labeled_power": 1}
# 888 pseudophakic eyes, PLOS ONE 2022;17:e0267352 (formula sheet, section 10).
SERIES = {"axial_length_mm": (24.10, 1.41), "radius_mm": (7.77, 0.27), "acd_mm": (3.19, 0.41), "power_d": (20.62, 3.73)}
HALF_STEP = mpf("0.5")


def shares():
    """Percent of the variance by source, mean over the formulas."""
    total = dict.fromkeys(SOURCES + ("unexplained",), 0.0)
    for formula in FORMULAS:
        eye, power, label = average_lens(formula, LENS)
        spreads = spreads_of(formula, LENS) | {"labeled_power": label}
        variances = {one: (slope(formula, eye, power, one) * spreads[one]) ** 2 for one in SOURCES}
        variances["unexplained"] = spreads["unexplained"] ** 2
        slopes = {one: slope(formula, eye, power, one) for one in SOURCES[:4] + SOURCES[5:6]}
        percent = {one: float(100 * value / SCATTER[formula] ** 2) for one, value in variances.items()}
        print(
            f"{formula:11} power {float(power):.3f} D, SD {float(used_scatter(formula)):.3f} D, unexplained "
            f"{float(spreads['unexplained']):.4f} D; slopes "
            + ", ".join(f"{one} {float(value):.4f}" for one, value in slopes.items())
        )
        print(f"{'':12}shares " + ", ".join(f"{one} {value:.2f} %" for one, value in percent.items()))
        for one, value in percent.items():
            total[one] += value / len(FORMULAS)
    return total


def spread_for_share(share, source):
    """The spread that would make this share of Norrby's of the mean variance, mean over formulas."""
    found = []
    for formula in FORMULAS:
        eye, power, _ = average_lens(formula, LENS)
        found.append(sqrt(mpf(share) / 100) * SCATTER[formula] / abs(slope(formula, eye, power, source)))
    return sum(found) / len(found)


def nearest_half(power):
    return mp.nint(power * 2) / 2


def series_eye(radius_mm, al_mm, acd_mm):
    radius = Fraction(str(radius_mm))
    return LENS | {
        "axial_length_mm": Fraction(str(al_mm)), "k1_mm": radius, "k2_mm": radius, "acd_mm": Fraction(str(acd_mm))
    }


def discrete():
    print(f"\nHalf-diopter steps: SD of power {float(HALF_STEP / sqrt(mpf(12))):.4f} D")
    for name, at in (
        ("average eye", AVERAGE | LENS),
        ("888-eye means", series_eye(7.77, 24.10, 3.19)),
    ):
        for formula in FORMULAS:
            power = power_for(*placed(formula, at, {}), mpf(0))
            by_power = abs(slope(formula, at, power, "labeled_power"))
            print(
                f"  {name:14} {formula:11} emmetropia {float(power):6.3f} D, |dR/dP| {float(by_power):.4f}, "
                f"SD of refraction {float(by_power * HALF_STEP / sqrt(mpf(12))):.4f} D, half of its middle 68.27 % "
                f"{float(by_power * HALF_STEP / 2 * mpf('0.6827')):.4f} D"
            )


def discrete_over_series(count=4000, seed=20261001):
    """Draw the series (independently: no correlation of it is printed) and give each eye the nearest half diopter."""
    rng = SplitMix(seed)
    print(f"\n{count} eyes drawn from the series, lens to the nearest half diopter for emmetropia")
    errors = {formula: [] for formula in FORMULAS}
    slopes = {formula: [] for formula in FORMULAS}
    refused = 0
    mp.dps = 20
    for _ in range(count):
        drawn = {key: f"{rng.normal(*SERIES[key]):.6f}" for key in ("radius_mm", "axial_length_mm", "acd_mm")}
        eye = series_eye(drawn["radius_mm"], drawn["axial_length_mm"], drawn["acd_mm"])
        for formula in FORMULAS:
            try:
                model = placed(formula, eye, {})
            except NoDistribution:
                refused += 1
                continue
            power = power_for(*model, mpf(0))
            left = refraction_from(*model, nearest_half(power))
            errors[formula].append(float(left))
            slopes[formula].append(float(left) / float(nearest_half(power) - power))
    for formula, values in errors.items():
        mean = sum(values) / len(values)
        sd = (sum((x - mean) ** 2 for x in values) / (len(values) - 1)) ** 0.5
        by_power = [abs(x) for x in slopes[formula]]
        print(
            f"  {formula:11} SD {sd:.4f} D, |dR/dP| mean {sum(by_power) / len(by_power):.4f} "
            f"({min(by_power):.3f} to {max(by_power):.3f})"
        )
    print(f"  {refused} answers refused")


def main():
    total = shares()
    print("\nshare of the variance, %      Norrby   here (mean of five formulas, average eye)")
    for one in ("lens_position", "postoperative_refraction", "axial_length", "pupil", "corneal_power",
                "anterior_chamber_depth", "labeled_power", "unexplained"):
        printed = f"{PRINTED[one]:6}" if one in PRINTED else "     -"
        here = f"{float(total[one]):6.2f}" if one in total else "     -"
        print(f"  {one:26} {printed}   {here}")
    print(f"  sum {sum(PRINTED.values())} of Norrby's printed shares, {float(sum(total.values())):.2f} of ours")
    print("\nSpread that would make Norrby's share of the published scatter in the average eye:")
    for one, unit in (("axial_length", "mm"), ("lens_position", "mm"), ("labeled_power", "D")):
        here = SPREADS.get(one)
        note = "" if here is None else f" (model: {float(here):.3f} {unit})"
        print(f"  {one:15} {PRINTED[one]:3} % -> {float(spread_for_share(PRINTED[one], one)):.4f} {unit}{note}")
    discrete()
    discrete_over_series()


if __name__ == "__main__":
    main()
