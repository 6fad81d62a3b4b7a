"""Time the program's Monte Carlo against numpy, whole arrays and blocks in the cache, in the same run.

Usage: time_monte_carlo.py BENCH [--rounds N] [--seed S]

BENCH is the program `cargo bench -p millrace-tests --bench monte_carlo --no-run` names. All draw for the same eye and
lens, by the same model, and end with the same numbers: mean, SD, quantiles and chances per formula and pooled. They
take turns, the best of all rounds counts, and start-up does not. Numpy has one thread; the program is timed with one
and with all cores. The load of the machine is printed, since another's work slows whoever is timed meanwhile.
Exit 1 if the results disagree by more than chance allows.
"""

import argparse
import json
import math
import os
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
NUMPY_DRAWS, OUR_DRAWS = 1_000_000, 10_000_000
# Five standard errors: once in two million comparisons by chance.
ERRORS = 5.0
# Pooled quantiles are told to a bin of the tally.
BIN = 0.005


def ask(command, threads):
    environment = os.environ | {"RAYON_NUM_THREADS": str(threads), "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
    return json.loads(subprocess.run(command, env=environment, check=True, capture_output=True, text=True).stdout)


def disagreements(ours, numpy):
    """Every number of ours that is farther from the script's than chance allows."""
    scale = math.sqrt(1 / ours["draws"] + 1 / numpy["draws"])
    for name, theirs in numpy["results"].items():
        one = ours["results"][name]
        sd = theirs["sd"]
        # All formulas see the same errors, so a pooled number is no surer than one formula's.
        yield f"{name} mean", one["mean"] - theirs["mean"], sd * scale
        yield f"{name} sd", one["sd"] - theirs["sd"], sd * scale
        for share, mine, other in zip(numpy["quantiles_at"], one["quantiles"], theirs["quantiles"]):
            # The standard error of a quantile is sqrt(p(1-p)/n) over the density there, here the normal one.
            z = (other - theirs["mean"]) / sd
            density = math.exp(-z * z / 2) / math.sqrt(2 * math.pi) / sd
            error = math.sqrt(share * (1 - share)) / density * scale
            yield f"{name} quantile {share}", max(0.0, abs(mine - other) - BIN), error
        chances = [theirs[key] for key in ("within_0.25", "within_0.50", "within_1.00", "over_0.50")]
        for mine, other in zip(one["chances"], chances):
            yield f"{name} chance", mine - other, max(math.sqrt(other * (1 - other)), 1e-3) * scale


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("bench")
    parser.add_argument("--rounds", type=int, default=4)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    if arguments.rounds < 2:
        parser.error("one round cannot tell a slow program from a busy machine")

    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    plain, tuned = (
        [sys.executable, str(HERE / name), "--runs", "2", "--draws", str(NUMPY_DRAWS)]
        for name in ("monte_carlo_plain.py", "monte_carlo_numpy.py")
    )
    program = [arguments.bench, "--runs", "2", "--draws", str(OUR_DRAWS)]
    commands = {
        "numpy, whole arrays": (plain, 1),
        "numpy, blocks in the cache": (tuned, 1),
        "program, 1 thread": (program, 1),
        f"program, {cores} threads": (program, cores),
    }
    whole, blocks, alone, ours = commands
    rates, answers, refractions = {name: [] for name in commands}, {}, []
    load = os.getloadavg()[0]
    for _ in range(arguments.rounds):
        for name, (command, threads) in commands.items():
            answers[name] = ask(command + ["--seed", str(arguments.seed)], threads)
            rates[name].append(answers[name]["draws_per_second"])
        refractions.append(answers[whole]["refractions_per_second"])

    print(f"seed {arguments.seed}, {arguments.rounds} rounds, {cores} cores; millions of draws per second")
    print(f"load average before {load:.2f}, after {os.getloadavg()[0]:.2f} (ours included)")
    for name, list_ in rates.items():
        print(f"{name}: best {max(list_) / 1e6:.2f} (rounds {' '.join(f'{rate / 1e6:.2f}' for rate in list_)})")
    # Unlike with unlike, against ourselves: the program's time holds all results, this one stops before them.
    bare = f"{whole}, refractions only"
    print(f"{bare}: best {max(refractions) / 1e6:.2f}")
    theirs = {whole: rates[whole], blocks: rates[blocks], bare: refractions}
    for mine in (ours, alone):
        for name, other_rates in theirs.items():
            each = [one / other for one, other in zip(rates[mine], other_rates)]
            best = max(rates[mine]) / max(other_rates)
            print(f"{mine} over {name}: {best:.1f} times (rounds {min(each):.1f} to {max(each):.1f})")
    wrong = [
        f"{what}: {off:+.6f}, standard error {error:.6f}"
        for what, off, error in disagreements(answers[ours], answers[blocks])
        if not abs(off) <= ERRORS * error
    ]
    print("\n".join(wrong) if wrong else "results agree")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
