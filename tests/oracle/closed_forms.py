"""The five thin-lens formulas as single rational expressions, at 50 digits.

The program under test walks the vergence chain of the formula sheet, step by step.
These are the closed forms that chain collapses to, so that a slip in one form cannot hide in the other.

How the closed form follows from the chain, with X = z + Kc and the vertex distance V in mm:

    P = 1000n/(L-d) - X/(1 - dX/1000n) = 1000n (1000n - LX) / ((L-d)(1000n - dX))

Put X = R/(1 - 0.001VR) + 1000c/r, where c is the corneal index less one, and multiply the top and the bottom by
0.001 r (1 - 0.001VR); writing N(s) = n r - c s, each bracket becomes

    N(s) - 0.001 R (V N(s) + s r)      at s = L above and s = d below.

The equation is linear in R once P is known, which gives the refraction in the same terms.
`python closed_forms.py` checks both against the chain.
"""

from fractions import Fraction

from mpmath import mp, mpf, radians, sqrt, tan

mp.dps = 50

N = mpf("1.336")
VERTEX = mpf(12)


class NoPosition(Exception):
    """The formula places no lens in this eye; the message says why."""


# --- Optics ----------------------------------------------------------------------------------------------------------


def bracket(s, r, c, refraction):
    """N(s) - 0.001 R (V N(s) + s r): zero where the light is focused at depth `s` already."""
    n_s = N * r - c * s
    return n_s - refraction / 1000 * (VERTEX * n_s + s * r)


def power_for(length, d, r, c, refraction):
    """The lens power that leaves `refraction`, or None where there is no real image."""
    vertex = 1 - VERTEX * refraction / 1000
    if vertex <= 0:
        return None
    below = bracket(d, r, c, refraction)
    # The bracket is n r (1 - 0.001VR) times the chain's denominator, and the factors in front are positive here.
    if below <= 0:
        return None
    return 1000 * N * bracket(length, r, c, refraction) / ((length - d) * below)


def refraction_from(length, d, r, c, power):
    """The refraction that a lens of `power` leaves, or None where there is no real image."""
    gap = length - d
    # Sign of 1 + (d/1000)V'/n, multiplied by 1000 n (L - d).
    if 1000 * N * length - power * d * gap <= 0:
        return None
    n_l, n_d = N * r - c * length, N * r - c * d
    below = N * (VERTEX * n_l + length * r) - power / 1000 * gap * (VERTEX * n_d + d * r)
    # Sign of 1 + 0.012 z, multiplied by the quantity just found positive.
    if below <= 0:
        return None
    return (1000 * N * n_l - power * gap * n_d) / below


def hoffer_power(length, c_depth, k, refraction):
    """The two-term closed form printed for Hoffer Q, with the refraction carried to the cornea."""
    vertex = 1 - VERTEX * refraction / 1000
    if vertex <= 0:
        return None
    at_cornea = k + refraction / vertex
    second = mpf("1.336") / at_cornea - (c_depth + mpf("0.05")) / 1000 if at_cornea != 0 else None
    # Light that is not converging at the cornea reaches the lens without a focus on the way.
    if second is None:
        return 1336 / (length - c_depth - mpf("0.05"))
    if at_cornea > 0 and second <= 0:
        return None
    return 1336 / (length - c_depth - mpf("0.05")) - mpf("1.336") / second


def hoffer_refraction(length, c_depth, k, power):
    """The inverse of `hoffer_power`, in the same two-term style."""
    d = c_depth + mpf("0.05")
    at_lens = 1336 / (length - d) - power
    if 1336 + d * at_lens <= 0:
        return None
    at_cornea = 1336 * at_lens / (1336 + d * at_lens) - k
    below = 1000 + VERTEX * at_cornea
    return None if below <= 0 else 1000 * at_cornea / below


# --- Corneal averages ------------------------------------------------------------------------------------------------


def mean_power(eye):
    """The mean of the two powers at 1.3375, exactly."""
    half = Fraction("337.5") / 2
    return half / eye["k1_mm"] + half / eye["k2_mm"]


def mp_(x):
    """A fraction as a 50-digit number."""
    return mpf(x.numerator) / x.denominator


# --- Formulas: each returns (L, d, r, c, caution), or raises NoPosition ----------------------------------------------
# Branches, limits and signs are decided on exact fractions, so that an eye exactly on a limit is on it.


def srk_t_length(eye):
    return eye["axial_length_mm"] * (1 - Fraction("0.02029")) + Fraction("0.65696")


def acd_from_a(eye):
    return Fraction("0.62467") * eye["a_constant"] - Fraction("68.747")


def srk_t(eye):
    al, k = eye["axial_length_mm"], mean_power(eye)
    r = Fraction("337.5") / k
    corrected = al
    if al > Fraction("24.2"):
        corrected = Fraction("-3.446") + Fraction("1.716") * al - Fraction("0.0237") * al**2
    width = Fraction("-5.41") + Fraction("0.58412") * corrected + Fraction("0.098") * k
    radicand = r**2 - width**2 / 4
    if radicand < 0:
        raise NoPosition("the corneal width exceeds twice the radius")
    d = mp_(r + acd_from_a(eye) - Fraction("3.336")) - sqrt(mp_(radicand))
    return mp_(srk_t_length(eye)), d, mp_(r), mpf("0.333"), False


def t2(eye):
    k = mean_power(eye)
    height = Fraction("-10.326") + Fraction("0.32630") * eye["axial_length_mm"] + Fraction("0.13533") * k
    d = height + acd_from_a(eye) - Fraction("3.336")
    return mp_(srk_t_length(eye)), mp_(d), mp_(Fraction("337.5") / k), mpf("0.333"), False


def holladay_1(eye):
    r = Fraction("337.5") / mean_power(eye)
    capped_r = max(r, Fraction(7))
    width = Fraction("12.5") * eye["axial_length_mm"] / Fraction("23.45")
    capped_width = min(width, Fraction("13.5"))
    depth = mp_(Fraction("0.56") + capped_r + eye["surgeon_factor_mm"])
    d = depth - sqrt(mp_(capped_r**2 - capped_width**2 / 4))
    caution = capped_r != r or capped_width != width
    return mp_(eye["axial_length_mm"] + Fraction("0.2")), d, mp_(r), mpf(1) / 3, caution


def hoffer_depth(eye):
    """The depth C and whether a limit acted."""
    al, k = eye["axial_length_mm"], mp_(mean_power(eye))
    a = min(max(al, Fraction("18.5")), Fraction(31))
    sign, g = (1, Fraction(28)) if al <= 23 else (-1, Fraction("23.5"))
    arc = tan(radians(mp_(Fraction("0.1") * (g - a) ** 2)))
    c = mp_(eye["pacd_mm"] + Fraction("0.3") * (a - Fraction("23.5")) - Fraction("0.99166"))
    c += tan(radians(k)) ** 2 + mp_(Fraction("0.1") * sign * (Fraction("23.5") - a) ** 2) * arc
    limited = min(max(c, mpf("2.5")), mpf("6.5"))
    return limited, a != al or limited != c


def hoffer_q(eye):
    c, caution = hoffer_depth(eye)
    r = mp_(Fraction("337.5") / mean_power(eye))
    return mp_(eye["axial_length_mm"]), c + mpf("0.05"), r, mpf("0.3375"), caution


def haigis(eye):
    d = eye["a0_mm"] + eye["a1"] * eye["acd_mm"] + eye["a2"] * eye["axial_length_mm"]
    r = (eye["k1_mm"] + eye["k2_mm"]) / 2
    return mp_(eye["axial_length_mm"]), mp_(d), mp_(r), mpf("0.3315"), False


FORMULAS = {"srk_t": srk_t, "t2": t2, "holladay_1": holladay_1, "hoffer_q": hoffer_q, "haigis": haigis}


def answer(formula, eye):
    """(status, d, power, refraction) for an eye given as exact fractions; a refused number is None."""
    try:
        length, d, r, c, caution = FORMULAS[formula](eye)
        if d <= 0:
            raise NoPosition("the lens would sit in front of the cornea")
        if length <= d:
            raise NoPosition("the lens would sit behind the retina")
    except NoPosition:
        return "no_position", None, None, None
    target, labeled = mp_(eye["target_d"]), mp_(eye["lens_power_d"])
    if formula == "hoffer_q":
        k = mp_(mean_power(eye))
        power = hoffer_power(length, d - mpf("0.05"), k, target)
        refraction = hoffer_refraction(length, d - mpf("0.05"), k, labeled)
    else:
        power = power_for(length, d, r, c, target)
        refraction = refraction_from(length, d, r, c, labeled)
    return ("caution" if caution else "ok"), d, power, refraction


# --- Check of the algebra --------------------------------------------------------------------------------------------


def chain_power(length, d, kc, refraction):
    z = refraction / (1 - mpf("0.012") * refraction)
    v = (z + kc) / (1 - d / 1000 * (z + kc) / N)
    return 1000 * N / (length - d) - v


def chain_refraction(length, d, kc, power):
    v = 1000 * N / (length - d) - power
    z = v / (1 + d / 1000 * v / N) - kc
    return z / (1 + mpf("0.012") * z)


def largest_gap():
    """The largest difference between closed form and chain over a grid, and of each formula's round trip."""
    worst = mpf(0)
    count = 0
    for length in (15, 21, mpf("23.5"), 28, 38):
        for d in (2, mpf("4.7"), 7):
            for r in (6, mpf("7.77"), 11):
                for c in (mpf("0.333"), mpf(1) / 3, mpf("0.3375"), mpf("0.3315")):
                    for refraction in (-10, mpf("-0.25"), 0, 5):
                        length, d, r, refraction = map(mpf, (length, d, r, refraction))
                        kc = 1000 * c / r
                        power = power_for(length, d, r, c, refraction)
                        depth = d - mpf("0.05")
                        gaps = [
                            power - chain_power(length, d, kc, refraction),
                            refraction_from(length, d, r, c, power) - refraction,
                            refraction_from(length, d, r, c, power + 3) - chain_refraction(length, d, kc, power + 3),
                            hoffer_power(length, depth, kc, refraction) - power,
                            hoffer_refraction(length, depth, kc, power) - refraction,
                        ]
                        worst = max([worst] + [abs(g) for g in gaps])
                        count += 1
    return worst, count


if __name__ == "__main__":
    gap, count = largest_gap()
    print(f"{count} cases; largest difference between closed form and chain: {mp.nstr(gap, 3)} D")
    raise SystemExit(0 if gap < mpf(10) ** -40 else 1)
