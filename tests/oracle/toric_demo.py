"""Print what the astigmatic demo case (`demo-data/cases/astigmatic-eye.ron`) must show, by the matrices of `toric.py`.

SRK/T with A 118.66, axial length 23.61 mm, +21.00 D; front 42.62 D at 172 and 44.87 D at 82; back 0.32 D, strongest at
86; the surgeon's incision at 180 flattens by 0.22 D. `crates/millrace/tests/suite/toric.rs` holds these numbers.
"""

from fractions import Fraction

from mpmath import cos, mpf, nstr, radians, sin

import toric_plan
from toric import INDEX
from closed_forms import srk_t


def at(size, degrees):
    twice = radians(2 * mpf(degrees))
    return mpf(size) * cos(twice), mpf(size) * sin(twice)


class DemoEye(toric_plan.Eye):
    def __init__(self):
        flat, steep = mpf("42.62"), mpf("44.87")
        self.length, self.position, *_ = srk_t(
            dict(
                axial_length_mm=Fraction("23.61"),
                k1_mm=Fraction("337.5") / Fraction("42.62"),
                k2_mm=Fraction("337.5") / Fraction("44.87"),
                a_constant=Fraction("118.66"),
            )
        )
        scale = INDEX["srk_t"] / mpf("337.5")
        self.mean = scale * (flat + steep) / 2
        terms = [at(scale * (steep - flat), 82), at("-0.32", 86), at("-0.22", 180)]
        self.net = tuple(sum(axis) for axis in zip(*terms))
        self.power, self.weakest = mpf(21), False
        self.best = toric_plan.degrees(toric_plan.atan2(self.net[1], self.net[0])) / 2 % 180


def main():
    eye = DemoEye()
    size = toric_plan.sqrt(eye.net[0] ** 2 + eye.net[1] ** 2)
    exact = eye.exact()
    print(f"net {nstr(size, 8)} D at {nstr(eye.best, 8)}; exact {nstr(exact, 8)} D, ratio {nstr(exact / size, 8)}")
    for cylinder in ("0", "0.80", "1.60", "2.40", "3.20", "4.00", "4.80"):
        print(cylinder, *(nstr(x, 7) for x in toric_plan.written(eye.left(mpf(cylinder), 82))))
    for turn in (1, 2, 3, 5, 10, 15, 20, 30):
        for axis in (82 + turn, 82 - turn):
            print(f"2.40 at {axis}", *(nstr(x, 7) for x in toric_plan.written(eye.left(mpf("2.40"), axis))))


if __name__ == "__main__":
    main()
