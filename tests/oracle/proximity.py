"""How near a freely turning piece of nucleus comes to the endothelium, by brute force.

Covers the surface of a piece with points, finds its volume and middle by filling it with small
boxes, turns it into many directions spread over the whole sphere, and takes the farthest point from
the middle of the corneal sphere in each. Knows nothing of outlines, half angles or the symmetry the
program uses; good to about 0.005 mm.

    python3 tests/oracle/proximity.py [--check]

Writes tests/check-values/proximity_cloud.csv. Needs numpy.
"""

import argparse
import pathlib
import sys

import numpy as np

TABLE = pathlib.Path(__file__).parents[1] / "check-values" / "proximity_cloud.csv"
DIVISIONS = {4: (4, 1, 1), 6: (6, 1, 1), 8: (8, 1, 1), 12: (6, 2, 1), 16: (8, 2, 1), 24: (8, 3, 1), 32: (8, 2, 2)}
# diameter, thickness, back radius, distance of the middle from the endothelium
EYES = [(8.5, 4.0, 6.4, 2.26), (7.13, 3.05, 6.4, 2.66), (9.0, 5.0, 6.2, 3.5), (7.0, 6.4, 6.8, 1.8)]
DIRECTIONS = 4001
GRID = 49
BOXES = 90


def surface(a, b, half_angle, inner, outer, layers):
    """Points on the whole surface: curved caps, cut faces, the flat underside of a half."""
    radius = np.linspace(inner, outer, GRID)
    angle = np.linspace(-half_angle, half_angle, 15)
    height = b * np.sqrt(np.clip(1 - (radius / a) ** 2, 0, None))
    bottom = -height if layers == 1 else np.zeros_like(height)
    r, phi = np.meshgrid(radius, angle, indexing="ij")
    points = []
    for z in (height, bottom):
        points.append(np.stack([r * np.cos(phi), r * np.sin(phi), np.broadcast_to(z[:, None], r.shape)], -1).reshape(-1, 3))
    return np.concatenate(points)


def boxes(a, b, half_angle, inner, outer, layers):
    """Volume and middle of a piece from small boxes whose middle lies in it."""
    axis = (np.arange(-BOXES, BOXES) + 0.5) / BOXES
    x, y, z = np.meshgrid(axis * a, axis * a, axis * b, indexing="ij")
    rho = np.hypot(x, y)
    inside = (rho / a) ** 2 + (z / b) ** 2 <= 1
    # Open at one cut face: boxes that lie on a face must count for one of its two pieces only.
    angle = np.arctan2(y, x)
    inside &= (inner <= rho) & (rho <= outer) & (-half_angle < angle) & (angle <= half_angle)
    if layers == 2:
        inside &= 0 <= z
    volume = inside.sum() * (a / BOXES) ** 2 * (b / BOXES)
    return volume, np.array([axis_[inside].mean() for axis_ in (x, y, z)])


def directions():
    """A spiral that covers the sphere evenly."""
    index = np.arange(DIRECTIONS) + 0.5
    up = 1 - 2 * index / DIRECTIONS
    turn = np.pi * (1 + 5**0.5) * index
    out = np.sqrt(1 - up * up)
    return np.stack([out * np.cos(turn), out * np.sin(turn), up], -1)


def clearances(points, middle, back_radius, distance):
    """Clearance in every direction: the cornea stays, the piece turns about its middle."""
    from_middle = points - middle
    squared = (from_middle**2).sum(1)
    reach = back_radius - distance
    found = []
    for some in np.array_split(directions(), 40):
        farthest = (squared[None, :] + 2 * reach * (some @ from_middle.T)).max(1) + reach * reach
        found.append(back_radius - np.sqrt(farthest))
    return np.concatenate(found)


def nearness(eye, division):
    diameter, thickness, back_radius, distance = eye
    a, b = diameter / 2, thickness / 2
    sectors, rings, layers = division
    edges = np.linspace(0, a, rings + 1)
    margin, worst, touching, total = np.inf, np.inf, 0.0, 0.0
    for inner, outer in zip(edges, edges[1:]):
        shape = (a, b, np.pi / sectors, inner, outer, layers)
        volume, middle = boxes(*shape)
        middle[1] = 0.0
        points = surface(*shape)
        found = clearances(points, middle, back_radius, distance)
        margin = min(margin, found.mean())
        worst = min(worst, distance - np.sqrt(((points - middle) ** 2).sum(1).max()))
        touching += volume * (found <= 0).mean()
        total += volume
    return margin, worst, touching / total


def table():
    lines = [f"# Written by tests/oracle/proximity.py, {DIRECTIONS} directions and a cloud of points; not by the program under test."]
    lines.append("diameter_mm,thickness_mm,back_radius_mm,distance_mm,pieces,margin_mm,worst_mm,touch_share")
    for eye in EYES:
        for pieces, division in DIVISIONS.items():
            numbers = ",".join(f"{number:.4f}" for number in nearness(eye, division))
            lines.append(",".join(str(number) for number in eye) + f",{pieces},{numbers}")
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the committed table")
    arguments = parser.parse_args()
    text = table()
    if not arguments.check:
        TABLE.write_text(text, encoding="utf-8")
        return
    if TABLE.read_text(encoding="utf-8") != text:
        sys.exit(f"{TABLE} is not what this script writes")


if __name__ == "__main__":
    main()
