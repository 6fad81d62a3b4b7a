"""Answer a table of eyes with numpy: the yardstick for `millrace tabulate EYES.csv -o OUT.csv`.

Usage: tabulate_numpy.py IN.csv OUT.csv [--io arrow|pandas]

One row per eye and formula; an empty cell is a number that is not known, and the note says why.
An eye without a target or a lens power still gets the rest of its row.
Every limit, branch and refusal is a mask over whole columns; nothing loops over eyes.
"""

import argparse
import csv
import sys

import numpy as np
import pandas as pd

N = 1.336
VERTEX_M = 0.012
FORMULAS = ("srk_t", "t2", "holladay_1", "hoffer_q", "haigis")
NOTES = (
    "",
    "input missing",
    "no corneal height: radius too small for the corneal width",
    "lens in front of the cornea",
    "lens behind the retina",
    "limit of the formula applied",
    "no real image for the target",
    "no real image for the lens power",
    "limit of the formula applied; no real image for the target",
    "limit of the formula applied; no real image for the lens power",
    "no real image for the target; no real image for the lens power",
    "limit of the formula applied; no real image for the target; no real image for the lens power",
)
STATUSES = ("ok", "caution", "no_position", "missing")
NUMBERS = ("lens_position_mm", "power_for_target_d", "predicted_refraction_d")
OPTIONAL = ("acd_mm", "target_d", "a_constant", "pacd_mm", "surgeon_factor_mm", "a0_mm", "a1", "a2", "lens_power_d")
USED = ("eye_id", "axial_length_mm", "k1_mm", "k2_mm", "k1_d", "k2_d", "k_index", *OPTIONAL)


# --- Reading ---------------------------------------------------------------------------------------------------------


def header(path):
    """The names of the columns that are used; the others are not even parsed."""
    with open(path, encoding="utf-8") as lines:
        present = next(csv.reader(lines))
    return [name for name in present if name in USED]


def read_with_arrow(path):
    """Identifiers, and each number column as float64 with NaN for an empty cell."""
    from pyarrow import csv as arrow_csv
    from pyarrow import float64, string

    # Types are given, because a guess would turn the identifier 001 into the number 1.
    types = {name: string() if name == "eye_id" else float64() for name in header(path)}
    options = arrow_csv.ConvertOptions(column_types=types, include_columns=list(types), null_values=[""])
    table = arrow_csv.read_csv(path, convert_options=options)
    numbers = {name: table[name].to_numpy() for name in types if name != "eye_id"}
    return table["eye_id"].combine_chunks(), numbers


def read_with_pandas(path):
    types = {name: str if name == "eye_id" else np.float64 for name in header(path)}
    frame = pd.read_csv(path, usecols=list(types), dtype=types, keep_default_na=False, na_values=[""])
    return frame["eye_id"], {name: frame[name].to_numpy() for name in types if name != "eye_id"}


def completed(column):
    """Absent columns count as not measured, and powers become radii."""
    eyes = len(column["axial_length_mm"])
    for name in OPTIONAL:
        if name not in column:
            column[name] = np.full(eyes, np.nan)
    if "k1_mm" not in column:
        scale = 1000.0 * (column["k_index"] - 1.0)
        column["k1_mm"], column["k2_mm"] = scale / column["k1_d"], scale / column["k2_d"]
    return column


# --- Formulas: each returns length, position, corneal power, caution mask, "no height" mask --------------------------


def srk_t(c, k, r):
    al = c["axial_length_mm"]
    corrected = np.where(al > 24.2, -3.446 + 1.716 * al - 0.0237 * al * al, al)
    half_width = (-5.41 + 0.58412 * corrected + 0.098 * k) / 2.0
    radicand = r * r - half_width * half_width
    height = r - np.sqrt(radicand)
    return srk_t_length(al), height + srk_t_offset(c), 333.0 / r, None, radicand < 0.0


def t2(c, k, r):
    al = c["axial_length_mm"]
    height = -10.326 + 0.32630 * al + 0.13533 * k
    return srk_t_length(al), height + srk_t_offset(c), 333.0 / r, None, None


def srk_t_length(al):
    return al + 0.65696 - 0.02029 * al


def srk_t_offset(c):
    return 0.62467 * c["a_constant"] - 68.747 - 3.336


def holladay_1(c, k, r):
    al = c["axial_length_mm"]
    radius = np.maximum(r, 7.0)
    free_width = 12.5 * al / 23.45
    width = np.minimum(free_width, 13.5)
    position = 0.56 + radius - np.sqrt(radius * radius - width * width / 4.0) + c["surgeon_factor_mm"]
    return al + 0.2, position, 1000.0 / 3.0 / r, (radius != r) | (width != free_width), None


def hoffer_q(c, k, r):
    al = c["axial_length_mm"]
    a = np.clip(al, 18.5, 31.0)
    short = al <= 23.0
    sign, g = np.where(short, 1.0, -1.0), np.where(short, 28.0, 23.5)
    away = a - 23.5
    reach = np.tan(np.radians(0.1 * (g - a) ** 2))
    depth = c["pacd_mm"] + 0.3 * away + np.tan(np.radians(k)) ** 2 + 0.1 * sign * away * away * reach - 0.99166
    limited = np.clip(depth, 2.5, 6.5)
    return al, limited + 0.05, k, (a != al) | (limited != depth), None


def haigis(c, k, r):
    al = c["axial_length_mm"]
    position = c["a0_mm"] + c["a1"] * c["acd_mm"] + c["a2"] * al
    return al, position, 331.5 / ((c["k1_mm"] + c["k2_mm"]) / 2.0), None, None


# --- Vergence --------------------------------------------------------------------------------------------------------


def power_for_target(gap, d, kc, z):
    at_cornea = z + kc
    pole = 1.0 - d / 1000.0 * at_cornea / N
    return 1000.0 * N / gap - at_cornea / pole, pole <= 0.0


def refraction_from_power(gap, d, kc, power):
    at_lens = 1000.0 * N / gap - power
    pole = 1.0 + d / 1000.0 * at_lens / N
    z = at_lens / pole - kc
    vertex = 1.0 + VERTEX_M * z
    return z / vertex, (pole <= 0.0) | (vertex <= 0.0)


def answers(c):
    """Per formula: status codes, note codes and the three numbers, each as (eyes, formulas)."""
    eyes = len(c["axial_length_mm"])
    status, note = (np.empty((eyes, len(FORMULAS)), np.int8) for _ in range(2))
    numbers = {name: np.empty((eyes, len(FORMULAS))) for name in NUMBERS}
    k = (337.5 / c["k1_mm"] + 337.5 / c["k2_mm"]) / 2.0
    r = 337.5 / k
    vertex = 1.0 - VERTEX_M * c["target_d"]
    z = c["target_d"] / vertex
    for i, formula in enumerate((srk_t, t2, holladay_1, hoffer_q, haigis)):
        length, d, kc, caution, no_height = formula(c, k, r)
        gap = length - d
        power, no_power = power_for_target(gap, d, kc, z)
        refraction, no_refraction = refraction_from_power(gap, d, kc, c["lens_power_d"])
        no_power |= vertex <= 0.0
        power[no_power], refraction[no_refraction] = np.nan, np.nan
        acted = np.zeros(eyes, bool) if caution is None else caution
        # The bits are: 1 a limit acted, 2 no power, 4 no refraction; the table turns them into a note.
        bits = acted.astype(np.int8) + 2 * no_power.astype(np.int8) + 4 * no_refraction.astype(np.int8)
        code = np.array([0, 5, 6, 8, 7, 9, 10, 11], np.int8)[bits]
        state = acted.astype(np.int8)
        missing = np.isnan(d + k) if no_height is None else np.isnan(d + k) & ~no_height
        for mask, number, word in ((missing, 1, 3), (d <= 0.0, 3, 2), (gap <= 0.0, 4, 2), (no_height, 2, 2)):
            if mask is not None and mask.any():
                code[mask], state[mask] = number, word
                for values in (d, power, refraction):
                    values[mask] = np.nan
        status[:, i], note[:, i] = state, code
        for name, values in zip(NUMBERS, (d, power, refraction)):
            numbers[name][:, i] = values
    return status, note, numbers


# --- Writing ---------------------------------------------------------------------------------------------------------


def has_special(eye_id):
    import pyarrow.compute as pc

    return pc.any(pc.match_substring_regex(eye_id, '[",\r\n]')).as_py()


def write_with_arrow(path, eye_id, status, note, numbers):
    import pyarrow as pa
    from pyarrow import csv as arrow_csv

    eyes, formulas = status.shape
    row = np.repeat(np.arange(eyes, dtype=np.int32), formulas)
    columns = {
        "eye_id": eye_id.take(pa.array(row)),
        "formula": pa.array(np.tile(np.arange(formulas, dtype=np.int8), eyes)),
        "status": pa.array(status.ravel()),
    }
    columns |= {name: pa.array(values.ravel(), from_pandas=True) for name, values in numbers.items()}
    columns["note"] = pa.array(note.ravel())
    for name, words in (("formula", FORMULAS), ("status", STATUSES), ("note", NOTES)):
        columns[name] = pa.array(words, pa.string()).take(columns[name])
    # No cell but an identifier could need quotes, and those are checked instead of quoting every cell.
    style = "needed" if has_special(eye_id) else "none"
    arrow_csv.write_csv(pa.table(columns), path, arrow_csv.WriteOptions(quoting_style=style))


def write_with_pandas(path, eye_id, status, note, numbers):
    eyes, formulas = status.shape
    columns = {
        "eye_id": np.repeat(eye_id.to_numpy(object), formulas),
        "formula": np.tile(np.array(FORMULAS, object), eyes),
        "status": np.array(STATUSES, object)[status.ravel()],
    }
    columns |= {name: values.ravel() for name, values in numbers.items()}
    columns["note"] = np.array(NOTES, object)[note.ravel()]
    pd.DataFrame(columns).to_csv(path, index=False, lineterminator="\n")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("eyes")
    parser.add_argument("out")
    parser.add_argument("--io", choices=("arrow", "pandas"), default="arrow", help="arrow is the faster one")
    args = parser.parse_args()
    read, write = {
        "arrow": (read_with_arrow, write_with_arrow),
        "pandas": (read_with_pandas, write_with_pandas),
    }[args.io]
    eye_id, columns = read(args.eyes)
    # NaN stands for an empty cell here, so comparing with it is meant and not worth a warning.
    with np.errstate(invalid="ignore", divide="ignore"):
        result = answers(completed(columns))
    write(args.out, eye_id, *result)
    return 0


if __name__ == "__main__":
    sys.exit(main())
