"""A small seeded generator of our own, so that no table depends on a library's choice of generator."""

import math
from statistics import NormalDist

MASK = (1 << 64) - 1


class SplitMix:
    """SplitMix64: one 64-bit counter, one mixing function."""

    def __init__(self, seed):
        self.state = seed & MASK

    def bits(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        return z ^ (z >> 31)

    def unit(self):
        """A number strictly between 0 and 1: the half keeps both ends out, so its normal quantile is finite."""
        return ((self.bits() >> 12) + 0.5) / (1 << 52)

    def uniform(self, low, high):
        return low + (high - low) * self.unit()

    def choice(self, items):
        return items[self.bits() % len(items)]

    def normal(self, mean=0.0, sd=1.0):
        return NormalDist(mean, sd).inv_cdf(self.unit())


def lognormal_above(floor, mean, sd, z):
    """The value at standard normal `z` of a log-normal above `floor` with the given mean and SD."""
    variance = math.log(1.0 + (sd / (mean - floor)) ** 2)
    center = math.log(mean - floor) - variance / 2.0
    return floor + math.exp(center + math.sqrt(variance) * z)
