"""Compare two outputs of the same table of eyes: compare_tables.py OURS.csv YARDSTICK.csv

Fails when the rows differ, when a number is empty in one table only, or when two numbers differ by more than 1e-9.
Status words are counted side by side but not judged: the two programs may name the same thing differently.
"""

import sys

import numpy as np
import pandas as pd

NUMBERS = ("lens_position_mm", "power_for_target_d", "predicted_refraction_d")
LIMIT = 1e-9


def main():
    ours, yardstick = (pd.read_csv(path, engine="pyarrow") for path in sys.argv[1:3])
    print(f"rows: {len(ours)} and {len(yardstick)}")
    if len(ours) != len(yardstick) or any((ours[c] != yardstick[c]).any() for c in ("eye_id", "formula")):
        print("the rows are not the same eyes and formulas in the same order")
        return 1
    good = True
    for name in NUMBERS:
        a, b = ours[name].to_numpy(np.float64), yardstick[name].to_numpy(np.float64)
        lone = int((np.isnan(a) != np.isnan(b)).sum())
        both = ~np.isnan(a) & ~np.isnan(b)
        gap = float(np.abs(a[both] - b[both]).max()) if both.any() else float("nan")
        print(f"{name}: {int(both.sum())} compared, largest difference {gap:.3g}, empty in one table only: {lone}")
        # A comparison of nothing is no agreement, and NaN fails this test on purpose.
        good &= lone == 0 and gap <= LIMIT
    pairs = pd.DataFrame({"ours": ours["status"], "yardstick": yardstick["status"], "formula": ours["formula"]})
    print(pairs.value_counts().sort_index().to_string())
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
