"""How far a predicted refraction may be off, at 50 digits, from the model's text and the formula sheet alone.

An error of every source goes through the whole closed form of `closed_forms.py`; derivatives are central differences
with a step of 1e-15, whose error at 50 digits is near 1e-30. Nothing here was read in the program under test.

    variance = sum over sources of (dR/dx * s_x)^2 + unexplained^2 + bias^2

Sources: axial length (mm), corneal power (D at 1.3375, the same in both meridians), chamber depth (mm), lens position
(mm, on the formula's effective lens position), operated cornea (D, on the corneal power of the vergence; zero for an
untouched cornea), labeled lens power (D), refraction measured after surgery (D). The lens position has no spread of its own: what
the published scatter holds beyond the others is one spread in D, the same in every eye, and a published bias of a
formula in steep or flat corneas widens by its square. Where formulas are pooled, the mean squared distance of their
predictions from the mean of all counts once: as they are or each moved by its bias, whichever is more.
"""

from fractions import Fraction
from functools import lru_cache

from mpmath import erfc, findroot, mp, mpf, ncdf, pi, sin, sqrt

from closed_forms import FORMULAS, NoPosition, haigis, mean_power, mp_, power_for, refraction_from, srk_t

STEP = Fraction(1, 10**15)

SOURCES = (
    "axial_length",
    "corneal_power",
    "anterior_chamber_depth",
    "lens_position",
    "operated_cornea",
    "labeled_power",
    "postoperative_refraction",
)
REPEATABLE = SOURCES[:3]
# Added to the refraction itself.
ADDED = ("unexplained", "tendency")
# One standard deviation, from the model's text.
SPREADS = {
    "axial_length": mpf("0.020"),
    "corneal_power": mpf("0.152"),
    "anterior_chamber_depth": mpf("0.047"),
    "postoperative_refraction": mpf("0.237"),
}
# Melles, Holladay, Chang, Ophthalmology 2018;125:169-178 (formula sheet, section 9); T2 is assumed to be as SRK/T.
SCATTER = {
    "srk_t": mpf("0.463"),
    "t2": mpf("0.463"),
    "holladay_1": mpf("0.453"),
    "hoffer_q": mpf("0.473"),
    "haigis": mpf("0.437"),
}
# After corneal surgery, by method and what the surgery was for; model's text.
SCATTER_AFTER_SURGERY = {
    ("haigis_modified_radius", "myopic"): mpf("0.721"),
    ("double_k_no_history", "myopic"): mpf("0.698"),
    ("double_k_no_history", "hyperopic"): mpf("0.72"),
    ("double_k_known_correction", "myopic"): mpf("0.70"),
}
BASE = {"double_k_no_history": "srk_t", "double_k_known_correction": "srk_t", "haigis_modified_radius": "haigis"}
PRIOR_EYES = 100
# Means of 13,012 eyes (formula sheet, section 10).
AVERAGE_K = Fraction("43.91")
AVERAGE = {
    "axial_length_mm": Fraction("23.87"),
    "k1_mm": Fraction("337.5") / AVERAGE_K,
    "k2_mm": Fraction("337.5") / AVERAGE_K,
    "acd_mm": Fraction("3.25"),
}
# SDs of the same eyes, and Spearman's correlation of length and depth in 28,709 eyes (formula sheet, section 10).
LENGTH_SD, K_SD, DEPTH_SD, SPEARMAN = Fraction("1.55"), Fraction("1.71"), Fraction("0.44"), mpf("0.544")
# Achieved less predicted, D, over 46 D and under 42 D (J Cataract Refract Surg 2017;43:1149, printed abstract).
BIASES = {
    "srk_t": (mpf("-0.31"), mpf("0.16")),
    "haigis": (mpf("0.17"), mpf("-0.31")),
    "hoffer_q": (mpf(0), mpf("-0.22")),
}
STEEP, FLAT = Fraction(46), Fraction(42)
LEVELS = (50, 80, 95)
BANDS = (Fraction("0.25"), Fraction("0.5"), Fraction(1))
OVER = mpf("0.5")


class NoDistribution(Exception):
    """The formula has no answer, or its scatter is smaller than the other sources make it."""


def label_spread(power):
    """A third of the tolerance of a lens labeled `power` (a fraction, D)."""
    size = abs(power)
    tolerance = "0.30" if size <= 15 else "0.40" if size <= 25 else "0.50" if size <= 30 else "1.00"
    return mpf(tolerance) / 3


# --- An eye with errors ----------------------------------------------------------------------------------------------


def operated_cornea(method, eye):
    """Corneal radius and index less one after laser surgery (formula sheet, section 11)."""
    if method == "haigis_modified_radius":
        measured = (eye["k1_mm"] + eye["k2_mm"]) / 2
        return Fraction("331.5") / (Fraction("-5.1625") * measured + Fraction("82.2603") - Fraction("0.35")), "0.3315"
    measured = mean_power(eye)
    if method == "double_k_known_correction":
        after = measured - Fraction("0.23") * eye["correction_d"]
    elif eye["history"] == "myopic":
        after = Fraction("1.14") * measured - Fraction("6.8")
    else:
        after = Fraction("1.0457") * measured - Fraction("1.9538")
    return Fraction("337.5") / after, "0.333"


def built(method, eye):
    """(L, d, r, c) of a method, for an eye as exact fractions."""
    if method not in BASE:
        return FORMULAS[method](eye)[:4]
    r, c = operated_cornea(method, eye)
    if BASE[method] == "srk_t":
        before = Fraction("337.5") / eye["k_before_d"]
        length, d, _, _, _ = srk_t(eye | {"k1_mm": before, "k2_mm": before})
    else:
        length, d, _, _, _ = haigis(eye)
    return length, d, mp_(r), mpf(c)


def off(eye, errors):
    """The eye as measured with these errors."""
    def radius(r):
        return Fraction("337.5") / (Fraction("337.5") / r + errors.get("corneal_power", 0))

    changed = {
        "axial_length_mm": eye["axial_length_mm"] + errors.get("axial_length", 0),
        "k1_mm": radius(eye["k1_mm"]),
        "k2_mm": radius(eye["k2_mm"]),
    }
    if eye.get("acd_mm") is not None:
        changed["acd_mm"] = eye["acd_mm"] + errors.get("anterior_chamber_depth", 0)
    return eye | changed


def placed(method, eye, errors):
    """(L, d, r, c) with the errors of measurement, lens position and operated cornea."""
    if method.startswith("haigis") and eye.get("acd_mm") is None:
        raise NoDistribution("no chamber depth")
    try:
        length, d, r, c = built(method, off(eye, errors))
    except NoPosition as refusal:
        raise NoDistribution(str(refusal)) from refusal
    d += mp_(Fraction(errors.get("lens_position", 0)))
    r = 1000 * c / (1000 * c / r + mp_(Fraction(errors.get("operated_cornea", 0))))
    if d <= 0 or length <= d:
        raise NoDistribution("the lens would sit outside the eye")
    return length, d, r, c


def refraction(method, eye, power, errors):
    """The refraction measured after a lens of `power` (mpf), or NoDistribution."""
    length, d, r, c = placed(method, eye, errors)
    true_power = power + mp_(Fraction(errors.get("labeled_power", 0)))
    found = refraction_from(length, d, r, c, true_power)
    if found is None:
        raise NoDistribution("no real image")
    return found + mp_(Fraction(errors.get("postoperative_refraction", 0)))


def slope(method, eye, power, source, step=STEP):
    above = refraction(method, eye, power, {source: step})
    below = refraction(method, eye, power, {source: -step})
    return (above - below) / mp_(2 * step)


# --- What the scatter leaves for the lens position -------------------------------------------------------------------


def used_scatter(formula, own=None, history=None):
    """The published scatter, the clinic's own (eyes, SD) drawn toward it."""
    published = SCATTER_AFTER_SURGERY[formula, history] if formula in BASE else SCATTER[formula]
    if own is None:
        return published
    eyes, deviation = own
    return sqrt((PRIOR_EYES * published**2 + (eyes - 1) * deviation**2) / (PRIOR_EYES + eyes - 1))


def average_lens(formula, constants):
    """The average eye with this lens, its exact power for emmetropia, and that label's spread."""
    eye = AVERAGE | constants
    power = power_for(*built(formula, eye), mpf(0))
    return eye, power, label_spread(Fraction(int(mp.nint(power * 100)), 100))


def position_alone(formula, constants, scatter):
    """Spread of the lens position that alone would explain the rest of the scatter in the average eye, mm."""
    eye, power, label = average_lens(formula, constants)
    known = SPREADS | {"labeled_power": label}
    rest = scatter**2 - sum((slope(formula, eye, power, source) * known[source]) ** 2 for source in known)
    return sqrt(rest) / abs(slope(formula, eye, power, "lens_position"))


def population():
    """Weights and eyes: five lengths by three powers of Gauss-Hermite, the depth that goes with the length."""
    outer, inner = sqrt(5 + sqrt(mpf(10))), sqrt(5 - sqrt(mpf(10)))
    lengths = [(mpf(0), mpf(8) / 15)]
    lengths += [(s * inner, (7 + 2 * sqrt(mpf(10))) / 60) for s in (-1, 1)]
    lengths += [(s * outer, (7 - 2 * sqrt(mpf(10))) / 60) for s in (-1, 1)]
    powers = [(mpf(0), mpf(2) / 3), (-sqrt(mpf(3)), mpf(1) / 6), (sqrt(mpf(3)), mpf(1) / 6)]
    together = 2 * sin(pi * SPEARMAN / 6)
    exact = lambda x: Fraction(mp.nstr(x, 40))
    for z, by_length in lengths:
        for k, by_power in powers:
            radius = Fraction("337.5") / (AVERAGE_K + K_SD * exact(k))
            yield by_length * by_power, {
                "axial_length_mm": AVERAGE["axial_length_mm"] + LENGTH_SD * exact(z),
                "k1_mm": radius,
                "k2_mm": radius,
                "acd_mm": AVERAGE["acd_mm"] + DEPTH_SD * exact(together * z),
            }


def bias_over_population(formula):
    """Mean of the squared bias, D^2."""
    steep, flat = BIASES.get(formula, (mpf(0), mpf(0)))
    over = 1 - ncdf(mp_((STEEP - AVERAGE_K) / K_SD))
    under = ncdf(mp_((FLAT - AVERAGE_K) / K_SD))
    return over * steep**2 + under * flat**2


def bias(formula, eye):
    """The published bias of a formula for untouched corneas in such an eye, D."""
    if eye.get("history"):
        return mpf(0)
    steep, flat = BIASES.get(formula, (mpf(0), mpf(0)))
    k = mean_power(eye)
    return steep if k > STEEP else flat if k < FLAT else mpf(0)


@lru_cache(maxsize=None)
def known_over_population(formula, constants):
    """Mean over the population of the variance by measurement, label and refraction, D^2; each eye has the power that
    makes it emmetropic, and one that the formula has no answer for counts for none."""
    total = weights = mpf(0)
    for weight, eye in population():
        whole = eye | dict(constants)
        try:
            power = power_for(*placed(formula, whole, {}), mpf(0))
        except NoDistribution:
            continue
        known = SPREADS | {"labeled_power": label_spread(Fraction(int(mp.nint(power * 100)), 100))}
        total += weight * sum((slope(formula, whole, power, source) * known[source]) ** 2 for source in known)
        weights += weight
    return total / weights


def unexplained(formula, constants, scatter):
    """What nothing else explains, D in every eye."""
    rest = scatter**2 - known_over_population(formula, tuple(sorted(constants.items()))) - bias_over_population(formula)
    if rest <= 0:
        raise NoDistribution("the scatter is smaller than the other sources make it")
    return sqrt(rest)


def spreads_of(method, constants, own=None, history=None):
    """Spread of every source but label and bias."""
    base = BASE.get(method, method)
    scatter = used_scatter(method, own, history)
    cornea = mpf(0)
    if method in BASE:
        # In an operated cornea nothing is known of a bias, so that what was left to it is the method's.
        cornea = sqrt(scatter**2 - SCATTER[base] ** 2 + bias_over_population(base))
        scatter = SCATTER[base]
    return SPREADS | {
        "lens_position": mpf(0), "operated_cornea": cornea, "unexplained": unexplained(base, constants, scatter)
    }


def prediction(method, eye, constants, power, own=None):
    """Mean, spreads and variance by source for a lens labeled `power` (a fraction)."""
    whole = eye | constants
    labeled = mp_(power)
    mean = refraction(method, whole, labeled, {})
    spreads = spreads_of(method, constants, own, eye.get("history"))
    spreads |= {"labeled_power": label_spread(power), "tendency": abs(bias(method, eye))}
    variances = {source: (slope(method, whole, labeled, source) * spreads[source]) ** 2 for source in SOURCES}
    variances |= {source: spreads[source] ** 2 for source in ADDED}
    found = {"mean": mean, "deviation": sqrt(sum(variances.values())), "spreads": spreads, "variances": variances}
    return found | {"bias": bias(method, eye)}


# --- Equal mixture of normal distributions ---------------------------------------------------------------------------


def below(normals, x):
    """Chance of at most `x`."""
    return sum(erfc((mean - x) / (sd * sqrt(mpf(2)))) for mean, sd in normals) / (2 * len(normals))


def over(normals, x):
    return sum(erfc((x - mean) / (sd * sqrt(mpf(2)))) for mean, sd in normals) / (2 * len(normals))


def quantile(normals, share):
    low = min(mean - 40 * sd for mean, sd in normals)
    high = max(mean + 40 * sd for mean, sd in normals)
    # The bracket is narrowed by halving first: the secant methods crawl along the flat tails.
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if below(normals, middle) < share else (low, middle)
    found = findroot(lambda x: below(normals, x) - share, (low, high), solver="anderson", tol=mpf(10) ** -60)
    assert abs(below(normals, found) - share) < mpf(10) ** -30
    return found


def tendency_when_pooled(means, biases):
    """By how much biases raise the mean squared distance from the mean of the predictions, D^2; zero if they lower it."""
    mean = sum(means) / len(means)
    now = sum((m - mean) ** 2 for m in means)
    then = sum((m + b - mean) ** 2 for m, b in zip(means, biases))
    return max(then - now, 0) / len(means)


def pooled(predictions, target):
    """Everything that is said of all formulas together."""
    count = len(predictions)
    tendency = tendency_when_pooled([p["mean"] for p in predictions], [p["bias"] for p in predictions])
    parts = [p["variances"] | {"tendency": tendency} for p in predictions]
    normals = [(p["mean"], sqrt(sum(part.values()))) for p, part in zip(predictions, parts)]
    mean = sum(m for m, _ in normals) / count
    disagreement = sum((m - mean) ** 2 for m, _ in normals) / count
    variance = sum(sd**2 for _, sd in normals) / count + disagreement
    answer = {"mean": mean, "deviation": sqrt(variance), "disagreement_share": disagreement / variance}
    for source in SOURCES + ADDED:
        by_source = sum(part[source] for part in parts) / count
        answer[f"{source}_share"] = by_source / variance
        if source in REPEATABLE:
            answer[f"{source}_repeated"] = sqrt(variance - by_source / 2)
    for level in LEVELS:
        tail = (1 - mpf(level) / 100) / 2
        answer[f"low_{level}"] = quantile(normals, tail)
        answer[f"high_{level}"] = quantile(normals, 1 - tail)
    for band in BANDS:
        answer[f"within_{float(band):.2f}"] = below(normals, target + mp_(band)) - below(normals, target - mp_(band))
    answer["over_0.50"] = over(normals, OVER)
    return answer


if __name__ == "__main__":
    # A step a thousand times as long changes a derivative by a million times the error of the short one.
    names = "a_constant pacd_mm surgeon_factor_mm a0_mm a1 a2".split()
    plain = AVERAGE | dict(zip(names, map(Fraction, "118.7 5.37 1.62 1.3 0.4 0.1".split())))
    worst = mpf(0)
    for formula in FORMULAS:
        for one in SOURCES:
            gap = slope(formula, plain, mpf(21), one) - slope(formula, plain, mpf(21), one, STEP * 1000)
            worst = max(worst, abs(gap))
    print(f"largest difference between derivatives with steps of 1e-15 and 1e-12: {mp.nstr(worst, 3)}")
    raise SystemExit(0 if worst < mpf(10) ** -20 else 1)
