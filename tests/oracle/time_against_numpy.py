"""Time `millrace tabulate` against tabulate_numpy.py on the same eyes, in the same run.

Usage: time_against_numpy.py MILLRACE [EYES] [--runs N] [--seed N]

The programs take turns, the best wall time of each counts, and start-up is part of it.
This process imports nothing large: a child's peak memory starts from that of the process it was started by.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
# ru_maxrss counts units of 1024 bytes on Linux and single bytes on macOS.
RSS_UNITS_PER_MB = 1e6 if sys.platform == "darwin" else 1e6 / 1024


def run(command):
    """Wall seconds and peak resident megabytes of one child."""
    start = time.perf_counter()
    child = subprocess.Popen(command)
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - start
    # The child is already reaped, so Popen must be told and not look for it again.
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        raise SystemExit(f"exit {child.returncode}: {command[0]}")
    return seconds, usage.ru_maxrss / RSS_UNITS_PER_MB


def script(name, *arguments):
    return [sys.executable, str(HERE / name), *map(str, arguments)]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("millrace")
    parser.add_argument("eyes", nargs="?", type=int, default=1_000_000)
    parser.add_argument("--runs", type=int, default=2)
    parser.add_argument("--seed", type=int, default=7)
    args = parser.parse_args()
    if args.runs < 2:
        parser.error("one run cannot tell a slow program from a busy machine")

    with tempfile.TemporaryDirectory() as folder:
        eyes, ours = (str(Path(folder) / name) for name in ("eyes.csv", "millrace.csv"))
        subprocess.run(script("make_many_eyes.py", eyes, args.eyes, args.seed), check=True)
        outputs = {io: str(Path(folder) / f"{io}.csv") for io in ("arrow", "pandas")}
        commands = {"millrace": [args.millrace, "tabulate", eyes, "-o", ours]}
        for io, out in outputs.items():
            commands[f"numpy, {io} input and output"] = script("tabulate_numpy.py", eyes, out, "--io", io)
        runs = {name: [] for name in commands}
        for _ in range(args.runs):
            for name, command in commands.items():
                runs[name].append(run(command))

        best = {name: min(seconds for seconds, _ in list_) for name, list_ in runs.items()}
        print(f"{args.eyes} eyes, seed {args.seed}, {args.runs} runs each, {os.cpu_count()} cores")
        print(f"input {os.path.getsize(eyes) / 1e6:.0f} MB, output {os.path.getsize(ours) / 1e6:.0f} MB")
        for name, list_ in runs.items():
            all_seconds = " ".join(f"{seconds:.2f}" for seconds, _ in list_)
            peak = max(rss for _, rss in list_)
            ratio = best[name] / best["millrace"]
            print(f"{name}: best {best[name]:.2f} s (runs {all_seconds}), {ratio:.2f} x millrace, peak {peak:.0f} MB")
        return subprocess.run(script("compare_tables.py", ours, outputs["arrow"])).returncode


if __name__ == "__main__":
    sys.exit(main())
