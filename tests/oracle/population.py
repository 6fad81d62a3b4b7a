"""A population of invented eyes: correlations, marginals and the cornea's cylinder. Writes, or with --check compares,
`population.toml`.

Printed (formula sheet, section 10): Spearman correlations of chamber depth with four others in 28,709 Chinese eyes, and
means with SDs of 13,012 Portuguese eyes. Three steps are assumptions: that both hold for one population; that the
dependence is a Gaussian copula, for which Pearson's r = 2 sin(pi rho / 6); and that what is not printed follows from
chamber depth alone, r_ij = r_i r_j, the completion of largest entropy, positive definite by construction.
"""

import argparse
import sys
from fractions import Fraction
from pathlib import Path

import numpy as np
from scipy import stats

from closed_forms import FORMULAS, power_for
from scatter_shares import LENS

FILE = Path(__file__).resolve().parent.parent / "check-values" / "population.toml"
SEED = 20261002
DRAWS = 1_000_000
# Chamber depth stands first: then the factor has one full column and a diagonal.
ORDER = ("chamber_depth", "axial_length", "lens_thickness", "corneal_diameter", "age", "mean_k")
SPEARMAN_WITH_DEPTH = {"axial_length": 0.544, "corneal_diameter": 0.300, "lens_thickness": -0.660, "age": -0.285}
# Mean and SD; no age is printed with this series.
MARGINALS = {
    "chamber_depth": (3.25, 0.44),
    "axial_length": (23.87, 1.55),
    "lens_thickness": (4.32, 0.49),
    "corneal_diameter": (12.02, 0.46),
    "mean_k": (43.91, 1.71),
}
UNITS = dict.fromkeys(MARGINALS, "mm") | {"mean_k": "d"}
CYLINDER = (1.08, 0.84)
# Hoffmann & Huetz, J Cataract Refract Surg 2010;36:1479; the three sum to 100.1.
KINDS = {"with_the_rule": 46.8, "against_the_rule": 34.4, "oblique": 18.9}
PRINTED_OVER = {2.0: 0.08, 3.0: 0.026}


def pearson(spearman):
    return 2 * np.sin(np.pi * spearman / 6)


def matrix():
    with_depth = np.array([1.0] + [pearson(SPEARMAN_WITH_DEPTH.get(name, 0.0)) for name in ORDER[1:]])
    full = np.outer(with_depth, with_depth)
    np.fill_diagonal(full, 1.0)
    # Turns -0 into 0.
    return full + 0.0


def spearman_of(full):
    return 6 / np.pi * np.arcsin(full / 2)


def gamma_of(mean, sd):
    shape = (mean / sd) ** 2
    return shape, mean / shape


def sampled(full):
    """Largest distance of the Spearman correlations of a large sample from those meant."""
    rng = np.random.default_rng(SEED)
    normals = stats.multivariate_normal(cov=full).rvs(DRAWS, random_state=rng)
    found = stats.spearmanr(normals).statistic
    return found, np.abs(found - spearman_of(full)).max()


def report(full, factor):
    np.set_printoptions(precision=6, suppress=True, linewidth=120)
    print("order:", ", ".join(ORDER))
    print("Pearson of the copula:", full, "eigenvalues:", np.linalg.eigvalsh(full), "Cholesky:", factor, sep="\n")
    found, gap = sampled(full)
    print(f"Spearman of {DRAWS} draws:", found, f"largest distance {gap:.5f}", sep="\n")
    for name, printed in SPEARMAN_WITH_DEPTH.items():
        here = found[0, ORDER.index(name)]
        print(f"  chamber_depth - {name}: printed {printed:+.3f}, sample {here:+.4f}")
        assert abs(here - printed) < 0.005, name
    print("Share outside what the formulas or an instrument take (normal marginals):")
    for name, low, high in (("axial_length", 14, 40), ("axial_length", 20, 30), ("mean_k", 30, 60), ("mean_k", 38, 50),
                            ("chamber_depth", 1.5, 6), ("lens_thickness", 2.5, 6.5), ("corneal_diameter", 10, 14)):
        law = stats.norm(*MARGINALS[name])
        print(f"  {name:16} below {low}: {law.cdf(low):.2e}   above {high}: {law.sf(high):.2e}")
    shape, scale = gamma_of(*CYLINDER)
    median = stats.gamma.median(shape, scale=scale)
    print(f"Cylinder: gamma, shape {shape:.6f}, scale {scale:.6f} D, median {median:.3f} D")
    for limit, printed in PRINTED_OVER.items():
        here = stats.gamma.sf(limit, shape, scale=scale)
        print(f"  P(> {limit:.0f} D): {100 * here:.2f} %, printed of another population {100 * printed:.1f} %")
    power_spread()


def power_spread():
    """What leaving K and axial length independent does to the spread of emmetropic power: the 888-eye series prints
    20.62 +- 3.73 D, so the correlation that would give its SD can be asked for."""
    radius_sd, al_sd, acd_sd, power_sd = 0.27, 1.41, 0.41, 3.73
    print("888-eye series, SD of emmetropic power to first order:")

    def power(formula, al=24.10, radius=7.77, acd=3.19):
        eye = {"axial_length_mm": al, "k1_mm": radius, "k2_mm": radius, "acd_mm": acd}
        eye = {key: Fraction(str(value)) for key, value in eye.items()} | LENS
        return float(power_for(*FORMULAS[formula](eye)[:4], 0))

    def slope(formula, **at):
        ((name, value),) = at.items()
        return (power(formula, **{name: value + 0.001}) - power(formula, **{name: value - 0.001})) / 0.002

    rho = pearson(SPEARMAN_WITH_DEPTH["axial_length"])
    for formula in FORMULAS:
        by_al, by_r = slope(formula, al=24.10) * al_sd, slope(formula, radius=7.77) * radius_sd
        by_acd = slope(formula, acd=3.19) * acd_sd
        alone = by_al**2 + by_r**2 + by_acd**2 + 2 * rho * by_al * by_acd
        needed = (power_sd**2 - alone) / (2 * by_al * by_r)
        print(
            f"  {formula:11} K independent {alone**0.5:.2f} D, printed {power_sd} D; "
            f"a correlation of axial length and radius of {needed:+.2f} would give it"
        )


def text(full, factor):
    def rows(array):
        return "[\n" + "".join("  [" + ", ".join(f"{x:.15f}" for x in row) + "],\n" for row in array) + "]\n"

    shape, scale = gamma_of(*CYLINDER)
    gamma = stats.gamma(shape, scale=scale)
    kinds = {kind: share / sum(KINDS.values()) for kind, share in KINDS.items()}
    lines = [
        "# Written by tests/oracle/population.py with numpy and scipy; not by the program under test.",
        "# The script says which numbers are printed and which steps are assumptions.",
        f"order = [{', '.join(f'{chr(34)}{name}{chr(34)}' for name in ORDER)}]",
        "# Gaussian copula, Pearson: 2 sin(pi rho / 6) of the printed Spearman; unprinted pairs are r_i r_j.",
        "pearson = " + rows(full).rstrip(),
        "# Lower triangle times its transpose gives the matrix.",
        "cholesky = " + rows(factor).rstrip(),
        "eigenvalues = [" + ", ".join(f"{x:.15f}" for x in np.linalg.eigvalsh(full)) + "]",
        "# 6/pi arcsin(r/2): where printed, the printed number.",
        "spearman = " + rows(spearman_of(full)).rstrip(),
        "",
        "# 13,012 eyes, PLOS ONE 2017;12:e0184837: mean and SD as printed. No age is printed with them.",
        "[marginals]",
        *(
            f"{name} = {{ mean_{UNITS[name]} = {mean}, sd_{UNITS[name]} = {sd} }}"
            for name, (mean, sd) in MARGINALS.items()
        ),
        "",
        "# Mean and SD as printed (same series); that the magnitude follows a gamma distribution is an assumption.",
        "[cylinder]",
        f"mean_d = {CYLINDER[0]}",
        f"sd_d = {CYLINDER[1]}",
        f"shape = {shape:.15f}",
        f"scale_d = {scale:.15f}",
        "# Of this gamma distribution, scipy.stats.gamma.",
        "chance_over = [",
        *(f"  {{ limit_d = {x}, chance = {gamma.sf(x):.15f} }}," for x in (0.5, 1.0, 2.0, 3.0)),
        "]",
        "quantiles = [",
        *(f"  {{ share = {x}, cylinder_d = {gamma.ppf(x):.12f} }}," for x in (0.05, 0.25, 0.5, 0.75, 0.95)),
        "]",
        "",
        "# Hoffmann & Huetz: 46.8, 34.4 and 18.9 % as printed, divided by their sum of 100.1 %.",
        "[axis_kinds]",
        *(f"{kind} = {share:.15f}" for kind, share in kinds.items()),
    ]
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the committed file and write nothing")
    check = parser.parse_args().check
    full = matrix()
    factor = np.linalg.cholesky(full) + 0.0
    report(full, factor)
    wanted = text(full, factor)
    if not check:
        FILE.write_text(wanted, encoding="utf-8", newline="\n")
    elif not FILE.exists() or FILE.read_text(encoding="utf-8") != wanted:
        print(f"{FILE.name} differs from what this script computes", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
