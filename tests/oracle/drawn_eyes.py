"""Write, or with --check recompute and compare, `drawn_eyes.csv`: eyes with errors drawn, through the whole formulas.

Errors of all sources at once, from usual to eight times as large, in eyes next to the joins of the formulas too: what
exact derivatives cannot show. Errors are decimal texts, so that an eye with them is exactly the same in the program.
"""

import argparse
import sys
from fractions import Fraction
from pathlib import Path

from mpmath import mp

from closed_forms import FORMULAS, mp_
from error_model import SCATTER, SOURCES, SPREADS, NoDistribution, label_spread, position_alone, refraction
from splitmix import SplitMix

SEED = 20261126
TABLE = Path(__file__).resolve().parent.parent / "check-values" / "drawn_eyes.csv"
CONSTANTS = dict(zip("a_constant pacd_mm surgeon_factor_mm a0_mm a1 a2".split(), "118.7 5.37 1.62 1.3 0.4 0.1".split()))
EYE = ("axial_length_mm", "k1_mm", "k2_mm", "acd_mm", "lens_power_d")
EYES = {
    "short": ("20.50", "7.40", "7.29", "2.70", "32.0"),
    "join-23.0": ("23.00", "7.75", "7.63", "3.10", "22.5"),
    "ordinary": ("23.50", "7.75", "7.63", "3.20", "21.0"),
    "join-24.2": ("24.20", "7.95", "7.80", "3.30", "20.0"),
    # Radius 7.0 mm and a chamber diameter of 13.5 mm, where limits of Holladay 1 begin.
    "join-25.33": ("25.33", "7.00", "7.00", "3.40", "8.5"),
    "long": ("30.00", "8.10", "7.95", "3.60", "4.0"),
    # Where SRK/T has no corneal height for half of the eyes.
    "edge": ("31.00", "7.41", "7.41", "3.30", "-4.0"),
}
TIMES = (1, 1, 3, 8)
ROUNDS = 4
ERRORS = tuple(source for source in SOURCES if source != "operated_cornea")


def answer(formula, eye, power, errors):
    try:
        return mp.nstr(refraction(formula, eye, mp_(power), errors), 17, strip_zeros=False, min_fixed=-3, max_fixed=12)
    except NoDistribution:
        return ""


def table():
    rng = SplitMix(SEED)
    constants = {key: Fraction(value) for key, value in CONSTANTS.items()}
    # One error of the position for all, which alone would explain the rest of SRK/T's scatter: the table is on the way
    # of errors, not on spreads.
    spreads = SPREADS | {"lens_position": position_alone("srk_t", constants, SCATTER["srk_t"])}
    columns = ["eye_id", *EYE, *CONSTANTS, *(f"{source}_error" for source in ERRORS), *(f"{f}_d" for f in FORMULAS)]
    lines = [
        f"# Written by tests/oracle/drawn_eyes.py, seed {SEED}, mpmath at {mp.dps} digits; not by the program under test.",
        ",".join(columns),
    ]
    for name, texts in EYES.items():
        eye = {key: Fraction(text) for key, text in zip(EYE, texts)} | constants
        power = eye["lens_power_d"]
        known = spreads | {"labeled_power": label_spread(power)}
        for index in range(len(TIMES) * ROUNDS):
            times = TIMES[index % len(TIMES)]
            errors = [f"{rng.normal() * times * float(known[source]):.6f}" for source in ERRORS]
            exact = {source: Fraction(error) for source, error in zip(ERRORS, errors)}
            answers = [answer(formula, eye, power, exact) for formula in FORMULAS]
            lines.append(",".join([f"{name}-{index + 1:02}", *texts, *CONSTANTS.values(), *errors, *answers]))
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    made = table()
    if parser.parse_args().check:
        sys.exit(0 if TABLE.read_text() == made else f"{TABLE.name} differs")
    TABLE.write_text(made)


if __name__ == "__main__":
    main()
