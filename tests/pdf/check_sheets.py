#!/usr/bin/env python3
"""Sheets, drafts and theatre lists of the demo cases, held against PDF/UA-1 by a checker that is not ours.

Usage: check_sheets.py [MILLRACE]

Needs `pip install -r tests/pdf/requirements.txt` and qpdf. No package of the registries checks PDF/A: that claim
rests on the exporter, which refuses what does not meet it. Exit 1 if a file breaks a requirement of ISO 14289-1 or
qpdf finds its structure damaged. What the checker remarks beyond the standard is counted and listed.
"""

import collections
import json
import pathlib
import subprocess
import sys
import tempfile

from outloud import check

ROOT = pathlib.Path(__file__).resolve().parents[2]
CASES = sorted((ROOT / "demo-data" / "cases").glob("*.ron"))
DAY = "2026-12-03"
# The targets of the demo cases: each is signed by the one that is its own.
TARGETS = ["-0.30", "-0.25", "0.00", "-0.50", "-1.00", "-2.00"]


def millrace(*arguments, check=True):
    return subprocess.run([PROGRAM, *map(str, arguments)], check=check, capture_output=True, text=True)


def make(directory):
    register = directory / "register.sqlite3"
    millrace("register", "import", "--register", register, "--who", "A. Okafor", *CASES)
    listed = millrace("register", "list", "--register", register, "--format", "json").stdout
    for row in json.loads(listed)["cases"]:
        for target in TARGETS:
            run = millrace("register", "sign", row["case"], "--register", register, "--as", "A. Okafor",
                           "--role", "surgeon", f"--target={target}", check=False)
            if run.returncode == 0:
                break
    for paper in ("a4", "letter"):
        # Status 1: cases that nobody can sign have no sheet, and the list says so.
        run = millrace("sheet", "--register", register, "--day", DAY, "--paper", paper, "-o", directory / paper,
                       check=False)
        if run.returncode > 1:
            sys.exit(run.stderr)
        for case in CASES:
            millrace("sheet", "--draft", case, "--paper", paper, "-o", directory / paper / f"draft-{case.stem}.pdf")
    return sorted(directory.glob("*/*.pdf"))


def main():
    broken, remarks = [], collections.Counter()
    with tempfile.TemporaryDirectory() as directory:
        files = make(pathlib.Path(directory))
        for file in files:
            held = check(str(file), layers=["conformance"])
            broken += [f"{file.name}: {finding.rule} {finding.message}" for finding in held.findings]
            # One that cannot be read has no findings either.
            if held.verdict != "pass" and not held.findings:
                broken.append(f"{file.name}: {held.verdict}")
            for finding in check(str(file)).findings:
                remarks[f"{finding.rule} {finding.message}"] += 1
            run = subprocess.run(["qpdf", "--check", file], capture_output=True, text=True)
            if run.returncode != 0:
                broken.append(f"{file.name}: {run.stdout}{run.stderr}")
    signed = sum(file.name.startswith("sheet-") for file in files)
    print(f"{len(files)} files, {signed} of them signed sheets; {len(broken)} break a requirement")
    for line in broken:
        print(line)
    for remark, count in remarks.most_common():
        print(f"remarked {count} times: {remark}")
    sys.exit(1 if broken or signed == 0 else 0)


if __name__ == "__main__":
    PROGRAM = sys.argv[1] if len(sys.argv) > 1 else ROOT / "target" / "release" / "millrace"
    main()
