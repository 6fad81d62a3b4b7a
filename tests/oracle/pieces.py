"""Largest dimension of a piece of the nucleus, by brute force.

Takes points all over the surface of a piece and measures every pair. Knows nothing of the search
over two radii that the program does: the result is a lower bound, close for a fine enough grid.

    python3 tests/oracle/pieces.py [--check]

Writes tests/check-values/pieces.csv. Needs numpy.
"""

import argparse
import pathlib
import sys

import numpy as np

TABLE = pathlib.Path(__file__).parents[1] / "check-values" / "pieces.csv"
# pieces: sectors, rings, layers
DIVISIONS = {4: (4, 1, 1), 6: (6, 1, 1), 8: (8, 1, 1), 12: (6, 2, 1), 16: (8, 2, 1), 24: (8, 3, 1), 32: (8, 2, 2)}
NUCLEI = [(8.2, 4.2), (7.13, 3.05), (9.0, 1.5), (9.0, 5.5), (7.0, 7.0), (6.0, 5.0), (3.0, 1.5), (10.0, 7.0), (7.0, 3.5)]
STEPS = 160
ANGLES = 5


def surface_points(a, b, theta, inner, outer, layers):
    """Points on top and bottom of a piece; the farthest two of a body lie on its surface."""
    radius = np.linspace(inner, outer, STEPS + 1)
    height = b * np.sqrt(np.clip(1 - (radius / a) ** 2, 0, None))
    bottoms = -height if layers == 1 else np.zeros_like(height)
    points = []
    for angle in np.linspace(0, theta, ANGLES):
        for z in (height, bottoms):
            points.append(np.stack([radius * np.cos(angle), radius * np.sin(angle), z], axis=1))
    return np.concatenate(points)


def largest(diameter, thickness, sectors, rings, layers):
    a, b = diameter / 2, thickness / 2
    edges = np.linspace(0, a, rings + 1)
    bounds = list(zip(edges, edges[1:]))
    best = 0.0
    for inner, outer in bounds:
        points = surface_points(a, b, 2 * np.pi / sectors, inner, outer, layers)
        for point in points:
            best = max(best, float(np.max(np.linalg.norm(points - point, axis=1))))
    return best


def table():
    lines = [f"# Written by tests/oracle/pieces.py, {STEPS} steps of radius; a lower bound, not by the program under test."]
    lines.append("diameter_mm,thickness_mm,pieces,largest_mm")
    for diameter, thickness in NUCLEI:
        for pieces, division in DIVISIONS.items():
            lines.append(f"{diameter},{thickness},{pieces},{largest(diameter, thickness, *division):.6f}")
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the committed table")
    text = table()
    if parser.parse_args().check:
        if TABLE.read_text() != text:
            sys.exit(f"{TABLE} differs from what this script computes")
        return
    TABLE.write_text(text)


if __name__ == "__main__":
    main()
