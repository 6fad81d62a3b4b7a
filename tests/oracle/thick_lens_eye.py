"""Write, or with --check recompute and compare, thick-lens eyes traced by numpy matrices and by optiland.

Conventions.
Light travels toward +z, the corneal vertex is z = 0, a radius is positive when its center lies behind the surface.
Refraction is at the spectacle plane, 12 mm in front of the corneal vertex; myopia is negative.
The power of the whole eye is 1000 over the equivalent focal length *in air terms*: optiland's `f2()` is -y/u' with the
ray angle scaled by the last index, so 1000/f2 is the power in D and must not be multiplied by 1.336 again.
optiland gives ray angles as plain slopes u, not reduced angles; in front of the cornea the two are the same.
The labeled power is that of the lens alone in aqueous: P = 2F - (t/n)F² with t in meters, F the power of one face.
"""

import argparse
import csv
import io
import math
import sys
import warnings
from importlib.metadata import version
from pathlib import Path

import numpy as np

from paraxial import power, system, travel
from splitmix import SplitMix

SEED = 41031
COUNT = 360
CORNEA, AQUEOUS, VERTEX_MM, CENTER_SHARE = 1.376, 1.336, 12.0, 0.39
PATH = Path(__file__).resolve().parent.parent / "check-values" / "thick_lens_eyes.csv"
# What two double-precision traces can differ by; the committed digits stop short of it.
AGREEMENT_D = 1e-9
INPUTS = {
    "axial_length_mm": (18.0, 34.0, 2),
    "r1_mm": (6.8, 8.8, 2),
    "ratio": (0.75, 0.88, 3),
    "cct_mm": (0.45, 0.65, 3),
    "acd_mm": (2.0, 4.5, 2),
    "lens_thickness_mm": (3.3, 5.8, 2),
    "lens_power_d": (-5.0, 40.0, 1),
    "lens_index": (1.46, 1.55, 3),
    "iol_thickness_mm": (0.5, 1.2, 2),
}


def draw(rng):
    eye = {}
    for name, (low, high, decimals) in INPUTS.items():
        x = round(rng.uniform(low, high), decimals)
        eye[name] = round(2.0 * x) / 2.0 if name == "lens_power_d" else x
    return eye


def face_power(labeled_d, thickness_mm, index):
    """The root of P = 2F - (t/n)F² that goes to P/2 for a thin lens."""
    s = thickness_mm / 1000.0 / index
    # The usual difference over s loses digits near zero power; this is the same root without the cancellation.
    return labeled_d / (1.0 + math.sqrt(1.0 - s * labeled_d))


def surfaces(eye):
    """Radii, gaps behind each surface (the last one reaches the retina) and indices from air to vitreous."""
    face = face_power(eye["lens_power_d"], eye["iol_thickness_mm"], eye["lens_index"])
    lens_radius = 1000.0 * (eye["lens_index"] - AQUEOUS) / face if face != 0.0 else math.inf
    front = eye["acd_mm"] + CENTER_SHARE * eye["lens_thickness_mm"] - eye["iol_thickness_mm"] / 2.0
    back = front + eye["iol_thickness_mm"]
    radii = [eye["r1_mm"], eye["r1_mm"] * eye["ratio"], lens_radius, -lens_radius]
    gaps = [eye["cct_mm"], front - eye["cct_mm"], eye["iol_thickness_mm"], eye["axial_length_mm"] - back]
    return radii, gaps, [1.0, CORNEA, AQUEOUS, eye["lens_index"], AQUEOUS]


def at_spectacles(vergence_at_cornea):
    return vergence_at_cornea / (1.0 + VERTEX_MM / 1000.0 * vergence_at_cornea)


def by_matrices(eye):
    radii, gaps, indices = surfaces(eye)
    to_retina = travel(gaps[-1], indices[-1]) @ system(radii, gaps[:-1], indices)
    # Light of vergence z at the cornea has angle -y z/1000; it meets the axis at the retina when A = B z/1000.
    return at_spectacles(1000.0 * to_retina[0, 0] / to_retina[0, 1]), power(system(radii, gaps[:-1], indices))


def optic_of(eye, spectacle_d=None):
    from optiland.materials import IdealMaterial
    from optiland.optic import Optic

    radii, gaps, indices = surfaces(eye)
    optic = Optic()
    optic.add_surface(index=0, radius=np.inf, thickness=np.inf)
    first = 1
    if spectacle_d is not None:
        optic.add_surface(index=1, surface_type="paraxial", f=1000.0 / spectacle_d, thickness=VERTEX_MM)
        first = 2
    for i, radius in enumerate(radii):
        # The stop has no bearing on a paraxial focus; optiland only insists that there be one.
        optic.add_surface(
            index=first + i, radius=radius, thickness=gaps[i], material=IdealMaterial(n=indices[i + 1]), is_stop=i == 2
        )
    optic.add_surface(index=first + len(radii))
    optic.set_aperture(aperture_type="EPD", value=3.0)
    optic.set_field_type("angle")
    optic.add_field(y=0)
    optic.add_wavelength(value=0.55, is_primary=True)
    return optic


def height_at_retina(optic, y, u):
    heights, _ = optic.paraxial.trace_generic(y, u, 0.0, 0.55)
    return float(np.ravel(heights)[-1])


def by_optiland(eye):
    """Refraction from two traced rays, power from optiland's own focal length."""
    optic = optic_of(eye)
    parallel, tilted = height_at_retina(optic, 1.0, 0.0), height_at_retina(optic, 0.0, 1.0)
    return at_spectacles(1000.0 * parallel / tilted), 1000.0 / float(np.ravel(optic.paraxial.f2())[0])


def height_through_spectacles(eye, refraction):
    """Where a ray from infinity at height 1 mm lands once a thin lens of that refraction stands 12 mm in front."""
    return height_at_retina(optic_of(eye, refraction), 1.0, 0.0)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the committed table and write nothing")
    check = parser.parse_args().check
    warnings.filterwarnings("ignore")

    rng = SplitMix(SEED)
    out = io.StringIO()
    out.write(
        f"# Written by tests/oracle/thick_lens_eye.py, seed {SEED}, optiland {version('optiland')}; "
        f"lens center at ACD + {CENTER_SHARE} LT, cornea {CORNEA}, "
        f"aqueous and vitreous {AQUEOUS}, spectacle plane {VERTEX_MM:g} mm\n"
    )
    writer = csv.writer(out, lineterminator="\n")
    outputs = ["refraction_optiland_d", "equivalent_power_optiland_d", "refraction_abcd_d"]
    writer.writerow(["eye_id", *INPUTS, *outputs])
    worst = {"refraction": 0.0, "equivalent power": 0.0, "labeled power": 0.0, "height through spectacles": 0.0}
    for i in range(1, COUNT + 1):
        eye = draw(rng)
        refraction, equivalent = by_matrices(eye)
        refraction_o, equivalent_o = by_optiland(eye)
        radii, gaps, indices = surfaces(eye)
        lens = power(system(radii[2:], gaps[2:3], indices[2:]))
        gaps_now = {
            "refraction": refraction_o - refraction,
            "equivalent power": equivalent_o - equivalent,
            "labeled power": lens - eye["lens_power_d"],
            "height through spectacles": height_through_spectacles(eye, refraction_o),
        }
        worst = {key: max(worst[key], abs(gap)) for key, gap in gaps_now.items()}
        answers = [f"{x:.12f}" for x in (refraction_o, equivalent_o, refraction)]
        writer.writerow([f"thick-{i:03}", *eye.values(), *answers])
    for key, gap in worst.items():
        print(f"largest difference, {key}: {gap:.2e}")
    if max(worst.values()) > AGREEMENT_D:
        print("the traces do not agree", file=sys.stderr)
        return 1
    if not check:
        PATH.write_text(out.getvalue(), encoding="utf-8", newline="\n")
        return 0
    return compare(PATH, out.getvalue())


def compare(path, text):
    """Twelve decimals may move by rounding from one processor to another, so numbers are compared as numbers."""
    if not path.exists():
        print(f"{path.name} is missing", file=sys.stderr)
        return 1
    old, new = (list(csv.reader(io.StringIO(t))) for t in (path.read_text(encoding="utf-8"), text))
    fixed = 1 + len(INPUTS)
    same = len(old) == len(new) and old[:2] == new[:2]
    same = same and all(
        a[:fixed] == b[:fixed]
        and len(a) == len(b)
        and all(abs(float(x) - float(y)) < AGREEMENT_D for x, y in zip(a[fixed:], b[fixed:]))
        for a, b in zip(old[2:], new[2:])
    )
    if not same:
        print(f"{path.name} differs from what this script computes", file=sys.stderr)
    return 0 if same else 1


if __name__ == "__main__":
    sys.exit(main())
