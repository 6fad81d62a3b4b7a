#!/usr/bin/env python3
"""Makes the typefaces of this directory again, and the table of the letters they have.

    apt-get download fonts-noto-core fonts-noto-cjk
    for package in *.deb; do dpkg-deb -x "$package" noto; done
    pip install fonttools==4.68.0
    assets/fonts/make.py noto/usr/share/fonts

Packages: fonts-noto-core 20201225-1, fonts-noto-cjk 1:20220127+repack1-1.
NotoSans-Variable.ttf and NotoSansMath-Operators.ttf are older and stay as they are (OFL.txt says where
they come from). `--letters` alone writes the table from the files that lie here.

The table is written by this script and read by core; `every_letter_that_is_kept_has_a_typeface` holds it
against the typefaces with another reader.
"""

import subprocess
import sys
import unicodedata
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont, TTCollection

HERE = Path(__file__).resolve().parent
TABLE = HERE / "../../crates/core/src/plain_text/letters.rs"

# Whole, in two weights, without hints: paper has none of these, and the window draws without.
SCRIPTS = [
    "Arabic", "Armenian", "Bengali", "Devanagari", "Ethiopic", "Georgian", "Gujarati", "Gurmukhi",
    "Hebrew", "Kannada", "Khmer", "Lao", "Malayalam", "Myanmar", "Oriya", "Sinhala", "Tamil", "Telugu",
    "Thai",
]


def jis_x_0213():
    """Every ideograph of the Japanese standard, whose rarer ones stand in names."""
    for row in range(0xA1, 0xFF):
        for cell in range(0xA1, 0xFF):
            for lead in (b"", b"\x8f"):
                try:
                    text = (lead + bytes([row, cell])).decode("euc_jis_2004")
                except UnicodeDecodeError:
                    continue
                if len(text) == 1 and unicodedata.name(text, "").startswith("CJK "):
                    yield ord(text)


def east_asian():
    """What names of China, Japan and Korea are written with."""
    wanted = set(jis_x_0213())
    for first, last in [
        (0x3000, 0x30FF),  # punctuation, hiragana, katakana
        (0x31F0, 0x31FF),  # small katakana of Ainu names
        (0x4E00, 0x9FFF),  # ideographs
        (0xAC00, 0xD7A3),  # Hangul syllables
        (0xF900, 0xFAFF),  # ideographs kept apart for old standards, some in Japanese names
        # The parts of today's syllables, as some systems write names.
        (0x1100, 0x1112), (0x1161, 0x1175), (0x11A8, 0x11C2),
        (0x3131, 0x3163),
    ]:
        wanted.update(range(first, last + 1))
    return wanted | {0x00B7, 0xFF08, 0xFF09, 0xFF0C, 0xFF0E}


def options(features):
    made = subset.Options()
    made.hinting = False
    made.layout_features = features
    made.notdef_outline = True
    made.name_IDs = ["*"]
    return made


def write(font, letters, given, name):
    subsetter = subset.Subsetter(given)
    subsetter.populate(unicodes=letters)
    subsetter.subset(font)
    font.recalcTimestamp = False
    font.save(HERE / name)


def make(source):
    for script in SCRIPTS:
        for weight in ("Regular", "Bold"):
            name = f"NotoSans{script}-{weight}.ttf"
            font = TTFont(source / "truetype/noto" / name, recalcTimestamp=False)
            write(font, list(font.getBestCmap()), options(["*"]), name)
    collection = source / "opentype/noto/NotoSansCJK-Regular.ttc"
    names = [font["name"].getDebugName(1) for font in TTCollection(collection).fonts]
    font = TTFont(collection, fontNumber=names.index("Noto Sans CJK SC"), recalcTimestamp=False)
    given = options([])
    given.drop_tables += ["vmtx", "vhea", "VORG", "BASE"]
    letters = east_asian() & set(font.getBestCmap())
    write(font, letters, given, "NotoSansCJKsc-Regular-Names.otf")


def letters():
    """The table of core: where the letters that some typeface has begin and end, by turns."""
    have = set()
    for file in sorted(HERE.glob("*.[ot]tf")):
        have.update(TTFont(file).getBestCmap())
    edges = [code for code in sorted(have) if code - 1 not in have]
    ends = [code + 1 for code in sorted(have) if code + 1 not in have]
    flat = [edge for pair in zip(edges, ends) for edge in pair]
    numbers = "\n".join(f"    0x{edge:X}," for edge in flat)
    TABLE.write_text(
        "//! Which letters the shipped typefaces have; written by `assets/fonts/make.py`.\n\n"
        "/// Where runs of letters that some typeface has begin and end, by turns: the first of each run, the\n"
        "/// one after its last, the first of the next.\n"
        f"pub(super) const EDGES: [u32; {len(flat)}] = [\n{numbers}\n];\n"
    )
    subprocess.run(["rustfmt", "--edition", "2024", TABLE], check=True)


if __name__ == "__main__":
    if sys.argv[1:] != ["--letters"]:
        make(Path(sys.argv[1]))
    letters()
