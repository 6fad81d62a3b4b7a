"""Prints the figures that `docs/uncertainty.md` quotes for its assumptions; writes nothing.

1. What correlated errors of measurement would change in the average eye, at most.
2. The deviation stated over an invented population and in its bands of length, beside the published scatter, also with
   labels twice as good; how often the pooled range holds a truth that errs as published, one without biases and one with
   biases of the other sign, beside two other rules for biases in a pool.
3. What a lens position of 35 % of the variance, alike in millimeters, would make of short and long eyes.
4. How far chances of the residual cylinder to first order lie from those of sampled eyes, and what the sources that
   are not counted would do to them.

Parts 1 to 3 carry errors through `error_model.py`; part 4 samples a toric eye in numpy, powers as power vectors.
"""

from fractions import Fraction

import numpy as np
from mpmath import mp, mpf, sqrt
from scipy import optimize, stats

import error_model
from closed_forms import FORMULAS, power_for
from error_model import AVERAGE, REPEATABLE, SOURCES, NoDistribution, average_lens, bias, label_spread, placed, slope
from error_model import spreads_of
from scatter_shares import LENS

SEED = 20261125
INDEX = 1.336
BANDS = (0.25, 0.50, 0.75, 1.00)


def exact_lens(formula, eye):
    """Power for emmetropia and the spread of its label."""
    power = power_for(*placed(formula, eye, {}), mpf(0))
    return power, label_spread(Fraction(int(mp.nint(power * 100)), 100))


def variances(formula, eye, spreads):
    power, label = exact_lens(formula, eye)
    whole = spreads | {"labeled_power": label}
    found = {one: float((slope(formula, eye, power, one) * whole[one]) ** 2) for one in SOURCES}
    return found | {"unexplained": float(spreads["unexplained"]) ** 2, "tendency": float(bias(formula, eye)) ** 2}


def correlations():
    """Change of the SD in D when two errors are wholly correlated, in either sense."""
    length, depth, cornea = "axial_length", "anterior_chamber_depth", "corneal_power"
    measured = {
        "all optical": {},
        "contact length, optical depth": {length: mpf("0.14")},
        "contact length and depth": {length: mpf("0.14"), depth: mpf("0.14")},
    }
    for name, changed in measured.items():
        for formula in FORMULAS:
            eye, power, label = average_lens(formula, LENS)
            spreads = spreads_of(formula, LENS) | {"labeled_power": label} | changed
            part = {one: slope(formula, eye, power, one) * spreads[one] for one in SOURCES}
            variance = sum(value**2 for value in part.values()) + spreads["unexplained"] ** 2
            line = f"{name:30} {formula:11} SD {float(sqrt(variance)):.3f}"
            for one, other in ((length, depth), (length, cornea), (depth, cornea)):
                changes = [abs(sqrt(variance + 2 * r * part[one] * part[other]) - sqrt(variance)) for r in (-1, 1)]
                line += f", {one} with {other} {float(max(changes)):.4f}"
            worst = variance - sum(part[one] ** 2 for one in REPEATABLE) + sum(abs(part[one]) for one in REPEATABLE) ** 2
            print(f"{line}; all three at worst {float(sqrt(worst) - sqrt(variance)):.4f} D")


BAND_EDGES = (22.0, 24.5, 26.0)


def over_population(count=3000):
    """Root of the mean variance over eyes drawn as `millrace simulate` draws them, beside the published scatter; each eye
    with the lens by which that formula makes it emmetropic. Once more with a label of half the spread, which is what a
    share of 1 % of the variance (Norrby 2008) would be in the average eye."""
    stated_over_population(count)
    whole = error_model.label_spread
    halved = lambda power: whole(power) / 2
    error_model.known_over_population.cache_clear()
    error_model.label_spread = globals()["label_spread"] = halved
    print("a tolerance of six standard deviations in place of three:")
    stated_over_population(count)
    error_model.label_spread = globals()["label_spread"] = whole
    error_model.known_over_population.cache_clear()


def stated_over_population(count):
    random = np.random.default_rng(SEED)
    pearson = 2 * np.sin(np.pi * 0.544 / 6)
    fitted = {formula: spreads_of(formula, LENS) for formula in FORMULAS}
    found = {formula: [] for formula in FORMULAS}
    refused = 0
    for _ in range(count):
        z, own, k = random.standard_normal(3)
        length = 23.87 + 1.55 * (pearson * z + np.sqrt(1 - pearson**2) * own)
        radius = Fraction("337.5") / Fraction(f"{43.91 + 1.71 * k:.5f}")
        eye = LENS | {
            "axial_length_mm": Fraction(f"{length:.5f}"),
            "acd_mm": Fraction(f"{3.25 + 0.44 * z:.5f}"),
            "k1_mm": radius,
            "k2_mm": radius,
        }
        try:
            row = {formula: sum(variances(formula, eye, fitted[formula]).values()) for formula in FORMULAS}
        except NoDistribution:
            refused += 1
            continue
        for formula, variance in row.items():
            found[formula].append((np.searchsorted(BAND_EDGES, length, side="right"), variance))
    for formula, values in found.items():
        bands, values = map(np.array, zip(*values))
        parts = [np.sqrt(values[bands == band].mean()) for band in range(len(BAND_EDGES) + 1)]
        print(
            f"{formula:11} stated over the population {np.sqrt(values.mean()):.4f} D, published "
            f"{float(error_model.SCATTER[formula]):.3f} D; median eye {np.sqrt(np.median(values)):.4f} D; by length "
            + ", ".join(f"{part:.4f}" for part in parts)
        )
    print(f"{refused} of {count} eyes refused by some formula; bands end at {BAND_EDGES} mm")


# What each component of a pool is widened by: squared biases as of a formula alone (rule before); nothing, their
# disagreement holding all; what the biases add to the disagreement.
POOLING = {
    "each square": lambda means, biases: np.array(biases) ** 2,
    "left out": lambda means, biases: 0.0,
    "what is added": error_model.tendency_when_pooled,
}


def pool_holds(parts, rule, sign):
    """Chances in percent that the ranges of a pool hold the truth: one formula, its bias (as published, none, or of the
    other sign), its scatter about it."""
    means, variances, biases, scatters = map(np.array, zip(*parts))
    sds = np.sqrt(variances + POOLING[rule](means, biases))
    centers = means + biases * sign
    row = []
    for level in (0.50, 0.80, 0.95):
        ends = [
            optimize.brentq(lambda x: stats.norm.cdf(x, means, sds).mean() - share, -30, 30)
            for share in ((1 - level) / 2, (1 + level) / 2)
        ]
        row.append(100 * np.subtract(*stats.norm.cdf(ends[::-1], centers[:, None], scatters[:, None]).T).mean())
    return row


def drawn_pools(count):
    """Length, corneal power and per formula (mean, variance but for the bias, bias, scatter about it) of drawn eyes."""
    random = np.random.default_rng(SEED + 1)
    pearson = 2 * np.sin(np.pi * 0.544 / 6)
    fitted = {formula: spreads_of(formula, LENS) for formula in FORMULAS}
    about = {f: float(error_model.SCATTER[f] ** 2 - error_model.bias_over_population(f)) ** 0.5 for f in FORMULAS}
    while count:
        z, own, k = random.standard_normal(3)
        length = 23.87 + 1.55 * (pearson * z + np.sqrt(1 - pearson**2) * own)
        radius = Fraction("337.5") / Fraction(f"{43.91 + 1.71 * k:.5f}")
        eye = LENS | {
            "axial_length_mm": Fraction(f"{length:.5f}"),
            "acd_mm": Fraction(f"{3.25 + 0.44 * z:.5f}"),
            "k1_mm": radius,
            "k2_mm": radius,
        }
        try:
            power = mp.nint(2 * power_for(*placed("srk_t", eye, {}), mpf(0))) / 2
            label = label_spread(Fraction(int(mp.nint(power * 100)), 100))
            parts = []
            for formula in FORMULAS:
                mean = float(error_model.refraction(formula, eye, power, {}))
                spreads = fitted[formula] | {"labeled_power": label}
                variance = sum(float((slope(formula, eye, power, one) * spreads[one]) ** 2) for one in SOURCES)
                variance += float(spreads["unexplained"]) ** 2
                parts.append((mean, variance, float(bias(formula, eye)), about[formula]))
        except NoDistribution:
            continue
        count -= 1
        yield length, 43.91 + 1.71 * k, parts


def coverage(count=1500):
    """Coverage by length and by cornea, of all five formulas and of the two with most bias in flat corneas."""
    lengths, powers, eyes = zip(*drawn_pools(count))
    band = np.searchsorted(BAND_EDGES, lengths, side="right")
    cornea = (np.array(powers) >= 42).astype(int) + (np.array(powers) > 46)
    places = [("all", band >= 0)] + [(f"band {at}", band == at) for at in range(4)]
    places += [(name, cornea == at) for at, name in enumerate(("flat", "between", "steep"))]
    places.append(("short and steep", (band == 0) & (cornea == 2)))
    names = list(FORMULAS)
    means, biases = np.array(eyes)[:, :, 0], np.array(eyes)[:, :, 2]
    for name, part in places[5:8]:
        apart = [(means + sign * biases)[part].var(axis=1).mean() ** 0.5 for sign in (0, 1, -1)]
        print(f"{name}: formulas apart by {apart[0]:.3f} D, by biases {apart[1]:.3f} D, of the other sign {apart[2]:.3f} D")
    pools = {"all formulas": names, "hoffer_q and haigis": ["hoffer_q", "haigis"]}
    for pool, members in pools.items():
        for rule in POOLING:
            for sign, truth in ((1, "with biases"), (0, "without biases"), (-1, "with biases of the other sign")):
                held = [pool_holds([eye[names.index(one)] for one in members], rule, sign) for eye in eyes]
                print(f"{pool}, biases in the pool: {rule}; truth {truth}")
                for name, part in places:
                    shares = np.array(held)[part]
                    errors = shares.std(axis=0) / len(shares) ** 0.5
                    text = ", ".join(f"{x:.2f} ± {e:.2f} %" for x, e in zip(shares.mean(axis=0), errors))
                    print(f"  {name:16} {len(shares):5} eyes: {text}")


def position_in_millimeters():
    """35 % of the variance in the average eye (Norrby 2008) put down to the lens position, alike in millimeters."""
    for formula in FORMULAS:
        spreads = spreads_of(formula, LENS)
        eye, power, _ = average_lens(formula, LENS)
        stated = float(sum(variances(formula, eye, spreads).values()))
        average = float(slope(formula, eye, power, "lens_position"))
        line = f"{formula:11} average eye {stated**0.5:.3f} D"
        for length in ("21.00", "28.00"):
            other = AVERAGE | LENS | {"axial_length_mm": Fraction(length)}
            now = float(sum(variances(formula, other, spreads).values()))
            by_position = float(slope(formula, other, exact_lens(formula, other)[0], "lens_position"))
            then = now + 0.35 * stated * ((by_position / average) ** 2 - 1)
            line += f"; {length} mm {now**0.5:.3f} D, then {then**0.5:.3f} D ({100 * ((then / now) ** 0.5 - 1):+.0f} %)"
        print(line)


# --- A toric eye ------------------------------------------------------------------------------------------------------


def by_meridians(mean, j0, j45, change):
    """Applies a scalar function to both principal powers."""
    half = np.hypot(j0, j45)
    strong, weak = change(mean + half), change(mean - half)
    stretch = np.where(half > 0, (strong - weak) / 2 / np.where(half > 0, half, 1), 0)
    return (strong + weak) / 2, j0 * stretch, j45 * stretch


def left(length, position, x, y, power, cylinder, radians, mean_k=43.5):
    """Astigmatism of the refraction at the spectacle plane, at twice the angle."""
    mean = 1000 * INDEX / (length - position) - power
    j0, j45 = cylinder / 2 * np.cos(2 * radians), cylinder / 2 * np.sin(2 * radians)
    mean, j0, j45 = by_meridians(mean, j0, j45, lambda v: v / (1 + position / 1000 * v / INDEX))
    mean, j0, j45 = by_meridians(mean - mean_k, j0 - x / 2, j45 - y / 2, lambda z: z / (1 + 0.012 * z))
    return np.array([2 * j0, 2 * j45])


def chances(eye, cornea_d, lens_d, corneal_spread, turn, draws=1_000_000, **uncounted):
    """Chances in percent to first order and sampled, with the same random numbers. The lens stands on its axis."""
    length, position, power = eye
    random = np.random.default_rng(SEED)
    steep = np.radians(82)
    x, y = cornea_d * np.cos(2 * steep), cornea_d * np.sin(2 * steep)
    z = random.standard_normal((3, draws)) * np.array([[corneal_spread], [corneal_spread], [np.radians(turn)]])

    def at(dx, dy, turned):
        return left(length, position, x + dx, y + dy, power, lens_d, steep + turned)

    h = 1e-4
    slopes = [(at(*(h * e)) - at(*(-h * e))) / (2 * h) for e in np.eye(3)]
    first = at(0, 0, 0)[:, None] + sum(np.outer(g, drawn) for g, drawn in zip(slopes, z))
    moved = position + uncounted.get("position", 0) * random.standard_normal(draws)
    true_cylinder = lens_d + uncounted.get("cylinder", 0) * random.standard_normal(draws)
    sampled = left(length, moved, x + z[0], y + z[1], power, true_cylinder, steep + z[2])
    sampled = sampled + uncounted.get("refraction", 0) * random.standard_normal((2, draws))
    return [[100 * np.mean(np.hypot(*r) <= band) for band in BANDS] for r in (first, sampled)]


EYES = ((22.0, 4.9, 26.0), (23.5, 5.0, 20.2), (26.5, 5.6, 11.5))
# Cylinder of cornea and of lens, D: nearly matched, and overcorrecting by much.
MATCHED = ((1.0, 1.5), (2.0, 3.0), (3.0, 4.5), (4.5, 6.0))
OVER = ((1.0, 2.25), (2.0, 3.75), (3.0, 5.25), (3.0, 6.0))


def toric():
    # √(0.30² + 0.30²): shipped spreads and the published incision, whose own scatter is nothing beyond keratometry; 0.32 with a back measured to 0.12 D.
    for corneal_spread, turn in ((0.424, 3), (0.32, 3), (0.424, 5)):
        for name, pairs in (("nearly matched", MATCHED), ("overcorrecting", OVER)):
            worst = (0,)
            for eye in EYES:
                for cornea_d, lens_d in pairs:
                    first, sampled = chances(eye, cornea_d, lens_d, corneal_spread, turn)
                    gaps = [(abs(a - b), a, b, band, eye[0], cornea_d, lens_d) for a, b, band in zip(first, sampled, BANDS)]
                    worst = max(worst, *gaps)
            gap, a, b, band, length, cornea_d, lens_d = worst
            print(
                f"cornea {corneal_spread} D, turn {turn}°, {name}: at most {gap:.2f} points ({a:.1f} % first order, {b:.1f} % "
                f"sampled, within {band} D, {length} mm, cornea {cornea_d} D, lens {lens_d} D)"
            )
    for cornea_d, lens_d in ((2.0, 3.0), (4.0, 6.0)):
        for uncounted in ({}, {"position": 0.30}, {"cylinder": 0.133}, {"refraction": 0.237}):
            _, sampled = chances(EYES[1], cornea_d, lens_d, 0.424, 3, 4_000_000, **uncounted)
            print(f"cornea {cornea_d} D, lens {lens_d} D, {uncounted or 'as counted'}: {[f'{c:.1f} %' for c in sampled]}")


if __name__ == "__main__":
    for part in (correlations, over_population, coverage, position_in_millimeters, toric):
        print(f"\n{part.__name__}")
        part()
