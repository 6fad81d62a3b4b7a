"""Write, or with --check recompute and compare, toric eyes by 4x4 ray-transfer matrices at 40 digits.

A ray is (x, y, n x', n y'); a thin astigmatic surface subtracts P h from its angles, P the 2x2 matrix of its power;
a gap adds (t/n) times the angles to the heights.  The whole eye from cornea to retina is one product, [[A, B], [C, D]].
Light of vergence Z in front of the cornea has angles -Z h, and meets the retina in a point when A = B Z:

    Z = B^-1 A                 refraction at the cornea
    R = Z (I + 0.012 Z)^-1     spectacles whose light arrives at the cornea as Z

No eigenvalue, no meridian and no vergence step is used, where the program under test splits each vergence into its
principal meridians.  Eyes whose lens is aligned with the cornea are solved a second time, meridian by meridian in closed
form (`closed_forms.refraction_from`); the script fails unless both agree.

A power in a meridian is P(theta) = S + C sin^2(theta - axis), so that the matrix of a lens has S along its axis.

`toric_eyes.csv`   eyes over the physical range, five corneal indices, lens and cornea at any angle
`toric_discs.csv`  normal distributions over a disc, by SciPy's quadrature in polar coordinates
"""

import argparse
import csv
import io
import sys
from pathlib import Path

from mpmath import atan2, cos, degrees, matrix, mp, mpf, radians, sin, sqrt

from closed_forms import refraction_from
from splitmix import SplitMix

mp.dps = 40
SEED, COUNT, DISCS = 81217, 600, 160
N = mpf("1.336")
VERTEX_M = mpf("0.012")
FOLDER = Path(__file__).resolve().parent.parent / "check-values"
# 1000 (n - 1) of each formula, as in the formula sheet.
INDEX = {
    "srk_t": mpf(333),
    "t2": mpf(333),
    "holladay_1": mpf(1000) / 3,
    "hoffer_q": mpf("337.5"),
    "haigis": mpf("331.5"),
}
AGREEMENT = mpf("1e-25")


def power_matrix(sphere, cylinder, axis_degrees):
    s, c = sin(radians(axis_degrees)), cos(radians(axis_degrees))
    return matrix([[sphere + cylinder * s * s, -cylinder * s * c], [-cylinder * s * c, sphere + cylinder * c * c]])


def blocks(a, b, c, d):
    out = matrix(4, 4)
    for block, (row, column) in zip((a, b, c, d), ((0, 0), (0, 2), (2, 0), (2, 2))):
        for i in range(2):
            for j in range(2):
                out[row + i, column + j] = block[i, j]
    return out


I2, O2 = matrix([[1, 0], [0, 1]]), matrix([[0, 0], [0, 0]])


def surface(power):
    return blocks(I2, O2, -power, I2)


def gap(millimeters):
    return blocks(I2, (millimeters / 1000 / N) * I2, O2, I2)


def refraction(length, position, cornea, lens):
    """Refraction at the cornea and at the spectacles as 2x2 matrices."""
    eye = gap(length - position) * surface(lens) * gap(position) * surface(cornea)
    a = matrix([[eye[i, j] for j in (0, 1)] for i in (0, 1)])
    b = matrix([[eye[i, j] for j in (2, 3)] for i in (0, 1)])
    at_cornea = b**-1 * a
    return at_cornea, at_cornea * (I2 + VERTEX_M * at_cornea) ** -1


def written(m):
    """Sphere, minus cylinder and axis of a symmetric power matrix: the axis is the meridian of most power."""
    mean, half, cross = (m[0, 0] + m[1, 1]) / 2, (m[0, 0] - m[1, 1]) / 2, (m[0, 1] + m[1, 0]) / 2
    reach = sqrt(half * half + cross * cross)
    axis = degrees(atan2(cross, half)) / 2
    return mean + reach, -2 * reach, axis if axis > 0 else axis + 180


def cornea_of(formula, flat_mm, steep_mm, steep_degrees):
    """Most power, K, along the steep meridian."""
    flat, steep = INDEX[formula] / flat_mm, INDEX[formula] / steep_mm
    return power_matrix(steep, flat - steep, steep_degrees)


def lens_of(equivalent, cylinder, axis):
    """Least power along the marks."""
    return power_matrix(equivalent - cylinder / 2, cylinder, axis)


# --- Eyes ------------------------------------------------------------------------------------------------------------


def draw(rng, number):
    formula = list(INDEX)[number % len(INDEX)]
    length = mpf(str(round(rng.uniform(19.0, 33.0), 2)))
    k, corneal = rng.uniform(38.0, 50.0), rng.choice([0.0, 0.1, rng.uniform(0, 3), rng.uniform(3, 8)])
    flat = mpf(str(round(337.5 / (k - corneal / 2), 3)))
    steep = flat if corneal == 0.0 else mpf(str(round(337.5 / (k + corneal / 2), 3)))
    position = mpf(str(round(rng.uniform(3.5, 6.5), 2)))
    steep_degrees = mpf(str(round(rng.uniform(0.1, 180.0), 1)))
    cylinder = mpf(str(round(rng.choice([0.0, rng.uniform(0, 4), rng.uniform(4, 12)]), 2)))
    aligned = rng.choice([True, False, False])
    axis = steep_degrees if aligned else mpf(str(round(rng.uniform(0.1, 180.0), 1)))
    # Near emmetropia and up to some 8 D from it, as after a wrong choice.
    mean_k = (INDEX[formula] / flat + INDEX[formula] / steep) / 2
    emmetropic = 1000 * N / (length - position) - mean_k / (1 - position / 1000 * mean_k / N)
    equivalent = mpf(str(round(2 * (float(emmetropic) + rng.uniform(-8.0, 8.0))) / 2))
    return dict(
        formula=formula,
        optical_length_mm=length,
        lens_position_mm=position,
        flat_mm=flat,
        steep_mm=steep,
        steep_degrees=steep_degrees,
        lens_equivalent_d=equivalent,
        lens_cylinder_d=cylinder,
        lens_axis_degrees=axis,
    )


def closed_form_agrees(eye, answer):
    """Meridian by meridian, for a lens on the steep meridian: P(steep) is the lens's least power."""
    c = INDEX[eye["formula"]] / 1000
    half = eye["lens_cylinder_d"] / 2
    pairs = ((eye["steep_mm"], -half), (eye["flat_mm"], half))
    along = [
        refraction_from(
            eye["optical_length_mm"], eye["lens_position_mm"], r, c, eye["lens_equivalent_d"] + off
        )
        for r, off in pairs
    ]
    sphere, cylinder, _ = answer
    return abs(max(along) - sphere) < AGREEMENT and abs(min(along) - max(along) - cylinder) < AGREEMENT


def eyes():
    rng = SplitMix(SEED)
    out = io.StringIO()
    out.write(f"# Written by tests/oracle/toric.py, seed {SEED}: 4x4 ray-transfer matrices at 40 digits\n")
    writer = csv.writer(out, lineterminator="\n")
    aligned = 0
    for number in range(COUNT):
        eye = draw(rng, number)
        cornea = cornea_of(eye["formula"], eye["flat_mm"], eye["steep_mm"], eye["steep_degrees"])
        lens = lens_of(eye["lens_equivalent_d"], eye["lens_cylinder_d"], eye["lens_axis_degrees"])
        at_cornea, at_spectacles = refraction(eye["optical_length_mm"], eye["lens_position_mm"], cornea, lens)
        answers = [written(m) for m in (at_cornea, at_spectacles)]
        if eye["lens_axis_degrees"] == eye["steep_degrees"]:
            aligned += 1
            if not closed_form_agrees(eye, answers[1]):
                raise SystemExit(f"toric-{number:03}: the two ways do not agree")
        if number == 0:
            names = [f"{plane}_{x}" for plane in ("cornea", "spectacles") for x in ("sphere_d", "cylinder_d", "axis")]
            writer.writerow(["eye_id", *eye, *names])
        numbers = [v if isinstance(v, str) else mp.nstr(v, 12) for v in eye.values()]
        writer.writerow([f"toric-{number:03}", *numbers, *[mp.nstr(x, 17) for a in answers for x in a]])
    print(f"{COUNT} eyes, {aligned} of them aligned and solved a second time in closed form")
    return out.getvalue()


# --- Discs -----------------------------------------------------------------------------------------------------------


def disc_chance(mean, covariance, radius):
    """The density in polar coordinates, by SciPy."""
    import numpy as np
    from scipy.integrate import dblquad

    inverse = np.linalg.inv(covariance)
    norm = 1.0 / (2.0 * np.pi * np.sqrt(np.linalg.det(covariance)))

    def density(angle, r):
        off = np.array([r * np.cos(angle) - mean[0], r * np.sin(angle) - mean[1]])
        return r * norm * np.exp(-0.5 * off @ inverse @ off)

    return dblquad(density, 0.0, radius, 0.0, 2.0 * np.pi, epsabs=1e-12, epsrel=1e-12)[0]


def discs():
    rng = SplitMix(SEED + 1)
    out = io.StringIO()
    out.write(f"# Written by tests/oracle/toric.py, seed {SEED + 1}: SciPy's dblquad in polar coordinates\n")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow("mean_x,mean_y,xx,xy,yy,radius,chance".split(","))
    for _ in range(DISCS):
        mean = [round(rng.uniform(-2.0, 2.0), 3) for _ in range(2)]
        sx, sy = (rng.uniform(0.15, 1.2) for _ in range(2))
        correlation = rng.uniform(-0.9, 0.9)
        xx, xy, yy = (round(v, 6) for v in (sx * sx, correlation * sx * sy, sy * sy))
        radius = rng.choice([0.25, 0.5, 0.75, 1.0, 2.5])
        chance = disc_chance(mean, [[xx, xy], [xy, yy]], radius)
        writer.writerow([*mean, xx, xy, yy, radius, f"{chance:.13f}"])
    return out.getvalue()


def same(path, text):
    """Digits may move by rounding from one processor to another, so numbers are compared as numbers."""
    if not path.exists():
        return False
    old, new = (list(csv.reader(io.StringIO(t))) for t in (path.read_text(encoding="utf-8"), text))
    return len(old) == len(new) and all(len(a) == len(b) and all(map(equal, a, b)) for a, b in zip(old, new))


def equal(a, b):
    try:
        return abs(float(a) - float(b)) < 1e-10
    except ValueError:
        return a == b


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the committed tables and write nothing")
    check = parser.parse_args().check
    good = True
    for name, text in (("toric_eyes.csv", eyes()), ("toric_discs.csv", discs())):
        path = FOLDER / name
        if not check:
            path.write_text(text, encoding="utf-8", newline="\n")
        elif not same(path, text):
            print(f"{name} differs from what this script computes", file=sys.stderr)
            good = False
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
