"""Trace the two schematic eyes of the formula sheet, and say of each printed number whether its last digit is met.

Writes `schematic_eyes.csv`, or with --check recomputes it and compares.
A number that is not met is written down as not met: the table records the comparison, it does not enforce it.
"""

import argparse
import csv
import io
import sys
from decimal import Decimal
from pathlib import Path

import numpy as np

from paraxial import cardinal_points, image_of, power, refract, surface_power, system, travel

PATH = Path(__file__).resolve().parent.parent / "check-values" / "schematic_eyes.csv"

LE_GRAND = {
    "radii": [7.8, 6.5, 10.2, -6.0],
    "gaps": [0.55, 3.05, 4.0],
    "indices": [1.0, 1.3771, 1.3374, 1.42, 1.336],
}
TO_RETINA = 16.59655
GULLSTRAND = {
    "radii": [7.7, 6.8, 10.0, 7.911, -5.76, -6.0],
    "gaps": [0.5, 3.1, 0.546, 2.419, 0.635],
    "indices": [1.0, 1.376, 1.336, 1.386, 1.406, 1.386, 1.336],
}

# The digits as printed, kept as text so that their number of decimals is known.
PRINTED = {
    "le_grand": {
        "power_d": "59.94",
        "P_mm": "1.595",
        "P'_mm": "1.908",
        "N_mm": "7.200",
        "N'_mm": "7.513",
        "F_mm": "-15.089",
        "F'_mm": "",
        "entrance_pupil_mm": "3.038",
        "exit_pupil_mm": "3.682",
        "y_cornea_back": "0.980691",
        "y_lens_front": "0.884095",
        "y_lens_back": "0.744614",
        # Printed as a bare 0 in a column of six decimals; a half-unit of the bare 0 would accept anything.
        "y_retina": "0.000000",
    },
    "gullstrand_1": {
        "power_d": "58.64",
        "cornea_power_d": "43.05",
        "lens_power_d": "19.11",
        "P_mm": "",
        "P'_mm": "",
        "N_mm": "",
        "N'_mm": "",
        "F_mm": "",
        "F'_mm": "24.387",
    },
}


def points(eye):
    m = system(**eye)
    found = cardinal_points(m, eye["indices"][0], eye["indices"][-1], sum(eye["gaps"]))
    return {"power_d": power(m)} | {f"{key}_mm": x for key, x in found.items()}


def part(eye, first, last):
    """The surfaces first..last of an eye, as an eye of their own."""
    return {
        "radii": eye["radii"][first : last + 1],
        "gaps": eye["gaps"][first:last],
        "indices": eye["indices"][first : last + 2],
    }


def marginal_heights(eye, to_retina):
    """Heights of a ray that enters parallel to the axis at height 1."""
    ray = np.array([1.0, 0.0])
    heights = []
    for i, gap in enumerate([*eye["gaps"], to_retina]):
        ray = refract(surface_power(eye["radii"][i], eye["indices"][i], eye["indices"][i + 1])) @ ray
        ray = travel(gap, eye["indices"][i + 1]) @ ray
        heights.append(ray[0])
    return heights


def pupils(eye, stop):
    """Positions from the vertex of the images of the lens-front plane through what lies before and behind it."""
    before, behind = part(eye, 0, stop - 1), part(eye, stop, len(eye["radii"]) - 1)
    # The entrance pupil is seen from in front, so the cornea is turned round: order reversed, radii negated.
    turned = {
        "radii": [-r for r in reversed(before["radii"])],
        "gaps": before["gaps"][::-1],
        "indices": before["indices"][::-1],
    }
    seen, _ = image_of(system(**turned), turned["indices"][0], turned["indices"][-1], eye["gaps"][stop - 1])
    left, _ = image_of(system(**behind), behind["indices"][0], behind["indices"][-1], 0.0)
    return {"entrance_pupil_mm": -seen, "exit_pupil_mm": sum(eye["gaps"]) + left}


def le_grand():
    names = ["y_cornea_back", "y_lens_front", "y_lens_back", "y_retina"]
    return points(LE_GRAND) | pupils(LE_GRAND, 2) | dict(zip(names, marginal_heights(LE_GRAND, TO_RETINA)))


def gullstrand():
    return points(GULLSTRAND) | {
        "cornea_power_d": power(system(**part(GULLSTRAND, 0, 1))),
        "lens_power_d": power(system(**part(GULLSTRAND, 2, 5))),
    }


def meets(printed, traced):
    """Half a unit in the last printed decimal."""
    half = 0.5 * 10.0 ** Decimal(printed).as_tuple().exponent
    return abs(float(printed) - traced) <= half


def table():
    out = io.StringIO()
    out.write("# Written by tests/oracle/schematic_eyes.py (numpy matrices); positions from the corneal vertex\n")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["eye", "quantity", "printed", "traced", "meets_last_printed_digit"])
    for name, traced in (("le_grand", le_grand()), ("gullstrand_1", gullstrand())):
        for quantity, printed in PRINTED[name].items():
            verdict = "" if printed == "" else "yes" if meets(printed, traced[quantity]) else "no"
            writer.writerow([name, quantity, printed, f"{traced[quantity]:.9f}", verdict])
    return out.getvalue()


# --- How Gullstrand's last focus may have come about -----------------------------------------------------------------


def combined(cornea_d, cornea_p_dash, lens_d, lens_p, lens_p_dash):
    """Power, P' and F' from two parts known by their powers and principal points."""
    n = GULLSTRAND["indices"][-1]
    reduced = (lens_p - cornea_p_dash) / n / 1000.0
    total = cornea_d + lens_d - reduced * cornea_d * lens_d
    p_dash = lens_p_dash - 1000.0 * n * reduced * cornea_d / total
    return total, p_dash, p_dash + 1000.0 * n / total


def gullstrand_chains():
    cornea, lens = points(part(GULLSTRAND, 0, 1)), points(part(GULLSTRAND, 2, 5))
    front = sum(GULLSTRAND["gaps"][:2])
    # The points of a part are measured from its own first vertex; only the lens needs shifting.
    lens_p, lens_p_dash = lens["P_mm"] + front, lens["P'_mm"] + front
    exact = (cornea["power_d"], cornea["P'_mm"], lens["power_d"], lens_p, lens_p_dash)
    yield "no rounding", combined(*exact)
    for decimals in (2, 3):
        for places in (3, 4):
            rounded = (
                round(exact[0], decimals), round(exact[1], places), round(exact[2], decimals),
                round(exact[3], places), round(exact[4], places),
            )  # fmt: skip
            yield f"powers to {decimals} decimals, principal points to {places}", combined(*rounded)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the committed table and write nothing")
    check = parser.parse_args().check
    text = table()
    print(text)
    print("Gullstrand No. 1 from its two parts: power D, P' mm, F' mm")
    for label, numbers in gullstrand_chains():
        print("  " + "  ".join(f"{x:.5f}" for x in numbers), label)
    if not check:
        PATH.write_text(text, encoding="utf-8", newline="\n")
    elif not PATH.exists() or PATH.read_text(encoding="utf-8") != text:
        print(f"{PATH.name} differs from what this script computes", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
