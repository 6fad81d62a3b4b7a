"""Print mean and SD of eyes drawn as the program draws them: what `the_first_eyes_of_a_seed` in the evidence compares.

Usage: drawn_eyes.py [--draws N] [--seed S]

Same eye, lens and spreads as monte_carlo_numpy.py. Everything from the description: the words are those of SplitMix64,
started at the first word of the seed; words 2i and 2i+1 are pair i of normal numbers (`normal_pairs.py`); eyes come in
batches of 128, and of every batch the pairs for sources one and two of all its eyes come first, then those for three
and four, then five and six, in the order of the table of sources: length, cornea, depth, position, label, refraction.
"""

import argparse

import numpy as np
from closed_forms import FORMULAS
from monte_carlo_numpy import exact
from monte_carlo_plain import refractions
from splitmix import SplitMix

BATCH, SOURCES = 128, 6


def normal_pairs(words):
    """Two rows: both numbers of every pair."""
    distance, direction = words[0::2], words[1::2]
    radius = np.sqrt(-2 * np.log(1 - (distance >> np.uint64(12)) / 2**52))
    angle = ((direction >> np.uint64(12)) / 2**52 - 0.5) * np.pi / 2
    x, y = radius * np.cos(angle), radius * np.sin(angle)
    exchanged, turned = direction & np.uint64(2) == 0, direction & np.uint64(1) == 1
    first, second = np.where(exchanged, y, x), np.where(exchanged, x, y)
    return np.where(turned, -first, first), np.where(turned, -second, second)


def normals(seed, draws):
    batches = -(-draws // BATCH)
    generator = SplitMix(SplitMix(seed).bits())
    words = np.array([generator.bits() for _ in range(batches * BATCH * SOURCES)], dtype=np.uint64)
    pairs = np.array(normal_pairs(words))
    # Number of the pair, batch, pair of sources, eye in the batch -> source, eye.
    by_source = pairs.reshape(2, batches, SOURCES // 2, BATCH).transpose(2, 0, 1, 3)
    return by_source.reshape(SOURCES, batches * BATCH)[:, :draws]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    # One block of 16,384 eyes, one whole batch more, and a part of the next.
    parser.add_argument("--draws", type=int, default=16_384 + 128 + 5)
    parser.add_argument("--seed", type=int, default=20_261_125)
    arguments = parser.parse_args()
    eye, spreads, _ = exact()
    rows = refractions(normals(arguments.seed, arguments.draws), eye, spreads)
    for formula, row in zip(FORMULAS, rows):
        print(f"{formula}: {row.mean():.13f} {row.std(ddof=1):.13f}")


if __name__ == "__main__":
    main()
