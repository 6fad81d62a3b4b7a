#!/usr/bin/env python3
"""Both roles in the real window, from an empty register, by real key and mouse events: one person measures both
eyes, closes the window, and another one plans and signs at a window of his own settings. Counts what they did.

The events are those of measure.txt and consult.txt, which crates/desk/tests/suite/two_roles.rs does at the desk
without a window and holds against what the case then says.
"""

import json
import pathlib
import sys
import time

import desk

HERE = pathlib.Path(__file__).resolve().parent
MEASURES = '(author: "T. Lindqvist", desk: "measuring room", theme: light, text_percent: 100, decimals: point)'
SIGNS = """(author: "A. Okafor", desk: "consulting room", role: "surgeon", theme: light, text_percent: 100,
    decimals: point, own: (planned_by: Some(srk_t), convention: Some(first_myopic),
    lens: Some((name: "Weir one-piece", model: "Weir Q"))))"""
# What the issue of the desk's flow asks for: keys besides the values, and acts up to the signature.
MOST = {"measure": 45, "consult": 15}


def play(window, name, pace):
    """Does what a script says, a moment after each line; returns how many values were typed, and what else
    was done: each key and each click."""
    values = acts = 0
    for line in (HERE / f"{name}.txt").read_text().splitlines():
        verb, _, rest = line.partition(" ")
        if verb == "value":
            window.type(rest)
            values += 1
        elif verb in ("key", "letter"):
            window.key(rest)
            acts += 1
        elif verb == "click":
            x, y, _ = rest.split(" ", 2)
            window.xdotool("mousemove", x, y, "click", "1")
            acts += 1
        time.sleep(pace * 6 if rest.startswith("ctrl+") or verb == "click" else pace)
    return values, acts


def role(display, register, settings, name, pace):
    (register.parent / "settings.ron").write_text(settings)
    (register.parent / "last.ron").unlink(missing_ok=True)
    window = desk.Desk(display, ["--register", register])
    try:
        begun = time.monotonic()
        counted = play(window, name, pace)
        took = time.monotonic() - begun
        window.quit()
    finally:
        window.kill()
    return *counted, took


def listed(register):
    rows = desk.millrace("register", "list", "--register", register, "--format", "json")
    return json.loads(rows)["cases"]


def both(display, directory, pace):
    register = desk.register_in(directory)
    counted = {"measure": role(display, register, MEASURES, "measure", pace)}
    (case,) = listed(register)
    assert (case["number"], case["eye"]) == ("40-2291", "right"), case
    counted["consult"] = role(display, register, SIGNS, "consult", pace)
    (case,) = listed(register)
    if case["state"] != "signed":
        return counted, f"the case is {case['state']}, not signed"
    history = json.loads(desk.millrace("register", "history", case["case"], "--register", register,
                                       "--format", "json"))
    last = history["revisions"][-1]
    assert (last["saved_by"], last["desk"]) == ("A. Okafor", "consulting room"), last
    desk.millrace("register", "check", "--register", register)
    return counted, None


def main():
    missing = desk.missing_tools("Xvfb", "xdotool")
    if missing:
        sys.exit(f"not run: {', '.join(missing)} not installed")
    # A slow machine needs a slower hand; a window that does not work fails at any pace.
    for pace in (0.1, 0.4, 1.2):
        with desk.scratch() as directory, desk.Display() as display:
            try:
                counted, wrong = both(display, directory, pace)
            except (AssertionError, SystemExit, ValueError, desk.subprocess.SubprocessError) as error:
                counted, wrong = {}, f"{type(error).__name__}: {error}"
        for name, (values, acts, took) in counted.items():
            print(f"{name}: {values} values, {acts} keys and clicks besides (at most {MOST[name]}), {took:.0f} s")
        if wrong is None:
            over = [name for name, (_, acts, _) in counted.items() if MOST[name] < acts]
            if over:
                sys.exit(f"more than they should need: {', '.join(over)}")
            print(f"measured and signed, {pace} s after each key")
            return
        print(f"at {pace} s after each key: {wrong}")
    sys.exit(1)


if __name__ == "__main__":
    main()
