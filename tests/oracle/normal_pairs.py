"""Print the first random words and normal pairs of a sequence, at 40 digits: what `standard_normal.rs` is tested with.

Usage: normal_pairs.py [SEED ...]

From the description alone: of two words, the upper 52 bits of the first give the distance from the origin, those of the
second an angle from -45 to 45 degrees; its last bit turns the point about the origin, the one before exchanges the axes.
"""

import sys

import mpmath
from splitmix import SplitMix


def pair(distance, direction):
    share = 1 - mpmath.mpf(distance >> 12) / 2**52
    radius = mpmath.sqrt(-2 * mpmath.log(share))
    angle = (mpmath.mpf(direction >> 12) / 2**52 - 0.5) * mpmath.pi / 2
    point = [mpmath.cos(angle), mpmath.sin(angle)]
    if direction & 2 == 0:
        point.reverse()
    return [-radius * x if direction & 1 else radius * x for x in point]


def main():
    mpmath.mp.dps = 40
    for seed in map(int, sys.argv[1:] or ["0", "20261125"]):
        generator = SplitMix(seed)
        for _ in range(3):
            words = generator.bits(), generator.bits()
            print(seed, *map(hex, words), *(mpmath.nstr(x, 20) for x in pair(*words)))


if __name__ == "__main__":
    main()
