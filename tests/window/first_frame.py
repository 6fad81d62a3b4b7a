#!/usr/bin/env python3
"""Start to first frame and idle CPU of the desk, beside an empty window of the same library, taking
turns in one run.

A window of this library is mapped once its first frame is painted: what is timed is from the start of the
process to the window being seen by the display. The empty window is
`cargo build --release -p millrace --example empty_window`.
"""

import os
import pathlib
import statistics
import subprocess
import sys
import time

import desk

TURNS = 15
IDLE_SECONDS = 10
EMPTY = desk.ROOT / "target" / "release" / "examples" / "empty_window"


def is_seen(environment, name):
    run = subprocess.run(["xdotool", "search", "--onlyvisible", "--class", name],
                         env=environment, capture_output=True, text=True)
    return bool(run.stdout.strip())


def seconds_to_window(display, command, name):
    environment = {**os.environ, "DISPLAY": display.name}
    environment.pop("WAYLAND_DISPLAY", None)
    start = time.perf_counter()
    process = subprocess.Popen(command, env=environment, stderr=subprocess.DEVNULL)
    try:
        while not is_seen(environment, name):
            if 30 < time.perf_counter() - start:
                sys.exit(f"{command[0]} showed no window")
        return time.perf_counter() - start
    finally:
        process.kill()
        process.wait()


def cpu_seconds(process):
    fields = pathlib.Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def main():
    missing = desk.missing_tools("Xvfb", "xdotool")
    if missing:
        sys.exit(f"not run: {', '.join(missing)} not installed")
    with desk.scratch() as directory, desk.Display() as display:
        register = desk.register_in(directory)
        desk.millrace("register", "import", "--register", register, "--who", "A. Okafor",
                      *sorted(desk.CASES.glob("*.ron")))
        ours, empty = [], []
        for _ in range(TURNS):
            empty.append(seconds_to_window(display, [EMPTY], "empty_window"))
            ours.append(seconds_to_window(display, [desk.program(), "--register", register], "millrace"))
        for name, times in (("empty window", empty), ("desk", ours)):
            print(f"{name}: median {statistics.median(times) * 1000:.0f} ms, "
                  f"{min(times) * 1000:.0f} to {max(times) * 1000:.0f} ms")
        print(f"ratio of medians {statistics.median(ours) / statistics.median(empty):.2f}")

        window = desk.Desk(display, ["--register", register])
        try:
            time.sleep(3)
            before = cpu_seconds(window.process)
            time.sleep(IDLE_SECONDS)
            used = cpu_seconds(window.process) - before
            print(f"idle: {used * 1000:.0f} ms of CPU in {IDLE_SECONDS} s")
            window.quit()
        finally:
            window.kill()
    print(f"load average {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
