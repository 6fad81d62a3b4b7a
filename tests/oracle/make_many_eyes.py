"""Write a large table of simulated eyes for timing: make_many_eyes.py OUT.csv EYES [SEED].

The draws are plain and independent, because only the work they cause matters here.
They are wide enough that every limit acts and some eyes have no answer, and some cells are not measured.
"""

import sys

import numpy as np
import pandas as pd
import pyarrow as pa
from pyarrow import csv


def eyes(count, seed):
    rng = np.random.default_rng(seed)
    al = np.clip(18.0 + rng.lognormal(1.70, 0.40, count), 14.0, 40.0)
    k = np.clip(rng.normal(43.9, 1.8, count), 32.0, 55.0)
    half = np.minimum(rng.lognormal(-0.24, 0.77, count), 6.0) / 2.0
    a = rng.uniform(117.5, 120.0, count)
    columns = {
        "eye_id": np.char.add("e", np.arange(1, count + 1).astype("U8")),
        "axial_length_mm": al.round(2),
        "k1_mm": (337.5 / (k - half)).round(2),
        "k2_mm": (337.5 / (k + half)).round(2),
        "acd_mm": np.where(rng.random(count) < 0.02, np.nan, np.clip(rng.normal(3.1, 0.4, count), 1.5, 5.0).round(2)),
        "lens_thickness_mm": np.where(
            rng.random(count) < 0.08, np.nan, np.clip(rng.normal(4.5, 0.4, count), 2.5, 7.0).round(2)
        ),
        "cct_um": np.clip(rng.normal(540.0, 38.0, count), 350.0, 750.0).round().astype(np.int64),
        "target_d": rng.choice([0.0, -0.25, -0.5, -1.25, -2.5], count),
        "a_constant": a.round(2),
        "pacd_mm": (0.58357 * a - 63.896).round(2),
        "surgeon_factor_mm": (0.5663 * a - 65.6).round(2),
        "a0_mm": (0.62467 * a - 72.8).round(3),
        "a1": np.full(count, 0.4),
        "a2": np.full(count, 0.1),
        "lens_power_d": (np.clip(21.0 - 2.7 * (al - 23.5) - (k - 43.9), -10.0, 40.0) * 2.0).round() / 2.0,
    }
    return pd.DataFrame(columns)


def main():
    out, count = sys.argv[1], int(sys.argv[2])
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 7
    table = pa.Table.from_pandas(eyes(count, seed), preserve_index=False)
    csv.write_csv(table, out, csv.WriteOptions(quoting_style="none"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
