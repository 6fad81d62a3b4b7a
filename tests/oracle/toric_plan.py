"""Print the numbers that tests of the toric rules and plans compare with, by the matrices of `toric.py`.

The eye of those tests: axial length 23.50 mm, A 119, SRK/T; back of the cornea 0.30 D, strongest at 90; an incision at
180 that flattens by 0.20 D; spreads of 0.30 D for keratometry and back. The incision's observed scatter of 0.30 D leaves it none of its own:
0.30² − 2 · 0.30² is less than nothing, so that keratometry explains all of it.
Keratometry and labeled power are arguments: toric_plan.py FLAT_D STEEP_D STEEP_DEGREES POWER_D [weakest]
"""

import sys
from fractions import Fraction

from mpmath import atan2, cos, degrees, findroot, matrix, mpf, ncdf, nstr, radians, sin, sqrt

from closed_forms import srk_t
from toric import INDEX, lens_of, refraction, written

BACK, FLATTENING, SPREADS = mpf("0.30"), mpf("0.20"), (mpf("0.30"), mpf("0.30"))
CYLINDERS = [mpf(x) for x in ("0", "1.50", "2.25", "3.00", "3.75")]


def vector(m):
    """The cylinder at twice its angle: (2 J0, 2 J45)."""
    return m[0, 0] - m[1, 1], m[0, 1] + m[1, 0]


class Eye:
    def __init__(self, flat_d, steep_d, steep_degrees, power, weakest):
        k1, k2 = (Fraction("337.5") / Fraction(x) for x in (flat_d, steep_d))
        self.length, self.position, *_ = srk_t(
            dict(axial_length_mm=Fraction("23.5"), k1_mm=k1, k2_mm=k2, a_constant=Fraction(119))
        )
        scale = INDEX["srk_t"] / mpf("337.5")
        front, twice = scale * (mpf(steep_d) - mpf(flat_d)), radians(2 * mpf(steep_degrees))
        self.mean = scale * (mpf(flat_d) + mpf(steep_d)) / 2
        # Less power at 90 and at 180 are +0.30 and -0.20 along x, where +x is steep at 180.
        self.net = front * cos(twice) + BACK - FLATTENING, front * sin(twice)
        self.power, self.weakest = mpf(power), weakest
        self.best = degrees(atan2(self.net[1], self.net[0])) / 2 % 180

    def left(self, cylinder, axis, dx=0, dy=0):
        x, y = self.net[0] + dx, self.net[1] + dy
        cornea = matrix([[self.mean + x / 2, y / 2], [y / 2, self.mean - x / 2]])
        equivalent = self.power + (cylinder / 2 if self.weakest else 0)
        return refraction(self.length, self.position, cornea, lens_of(equivalent, cylinder, axis))[1]

    def chance_of_less(self, cylinder, axis):
        """The first-order chance that the cylinder leaves less than none."""
        without, with_ = vector(self.left(mpf(0), 180)), vector(self.left(cylinder, axis))
        t = [a - b for a, b in zip(without, with_)]
        size = sqrt(t[0] ** 2 + t[1] ** 2)
        u, h, variance = [x / size for x in t], mpf("1e-12"), mpf(0)
        for dx, dy in ((h, 0), (0, h)):
            ends = [vector(self.left(mpf(0), 180, s * dx, s * dy)) for s in (1, -1)]
            along = sum(d * (a - b) / (2 * h) for d, a, b in zip(u, *ends))
            variance += along**2 * sum(s * s for s in SPREADS)
        return ncdf((sum(a * b for a, b in zip(without, u)) - size / 2) / sqrt(variance))

    def exact(self):
        def along_net(cylinder):
            x, y = vector(self.left(cylinder, self.best))
            return x * self.net[0] + y * self.net[1]

        return findroot(along_net, 1.5 * sqrt(self.net[0] ** 2 + self.net[1] ** 2))


def main():
    flat_d, steep_d, steep_degrees, power, *rest = sys.argv[1:]
    eye = Eye(flat_d, steep_d, steep_degrees, power, rest == ["weakest"])
    size = sqrt(eye.net[0] ** 2 + eye.net[1] ** 2)
    print(f"net {nstr(size, 8)} D at {nstr(eye.best, 8)}; exact cylinder {nstr(eye.exact(), 10)} D, ", end="")
    print(f"ratio {nstr(eye.exact() / size, 8)}")
    axis = round(eye.best) or 180
    for cylinder in CYLINDERS:
        for off in (0, 5, 6) if cylinder else (0,):
            sphere, minus, at = written(eye.left(cylinder, axis + off))
            text = f"{nstr(cylinder, 3)} D at {axis + off}: {nstr(sphere, 8)} {nstr(minus, 8)} x {nstr(at, 7)}"
            text += f", equivalent {nstr(sphere + minus / 2, 8)}"
            if cylinder:
                text += f", chance of less {nstr(eye.chance_of_less(cylinder, axis + off), 7)}"
            print(text)


if __name__ == "__main__":
    main()
