#!/usr/bin/env python3
"""Plans the hard, shallow demo eye in the real window, from blank fields, by keyboard alone, and
finds it in the register afterwards.

The keys are those of keys.txt, which crates/desk/tests/suite/keyboard.rs presses at the desk without a
window. What is found is compared entry by entry with the demo case, less what nobody typed.
"""

import json
import pathlib
import subprocess
import sys
import time

import desk

HERE = pathlib.Path(__file__).resolve().parent
# Entries of the demo case that the keys leave out: spreads, repeated readings, the other eye, the
# reason, the backup lenses, and what theatre needs beside.
NOT_TYPED = ("left_eye", "reasons", "lens/lenses/1", "lens/lenses/2", "lens/lenses/3",
             "theatre")
NOT_TYPED_ENDS = ("spread", "readings", "repeat_difference")


def leaves(text):
    """Every entry of a case file, by its path. Knows just enough RON for files that we write."""
    text = "\n".join(line.split("//")[0] for line in text.splitlines())
    path, found, name, counts = [], {}, "", []
    token = ""
    quoted = False
    for letter in text:
        if letter == '"':
            quoted = not quoted
            token += letter
        elif quoted:
            token += letter
        elif letter == ":":
            name, token = token.strip(), ""
        elif letter in "([":
            path.append(name or str(counts[-1] if counts else 0))
            if token.strip():
                found["/".join(path[1:]) + "/is"] = token.strip()
            name, token = "", ""
            counts.append(0)
        elif letter in ",)]":
            if token.strip():
                found["/".join([*path[1:], name])] = token.strip()
            token = ""
            if letter == ",":
                name = ""
                if counts:
                    counts[-1] += 1
            else:
                path.pop()
                counts.pop()
                name = ""
        else:
            token += letter
    return found


def is_typed(entry):
    is_left_out = any(entry == part or entry.startswith(part + "/") for part in NOT_TYPED)
    return not is_left_out and entry.rsplit("/", 1)[-1] not in NOT_TYPED_ENDS


def play(window, keys, pace):
    """Presses the keys, `pace` seconds after each line: a window is as quick as the machine it runs on."""
    for line in keys.read_text().splitlines():
        verb, _, rest = line.partition(" ")
        if verb == "tab":
            count = int(rest.split(" ", 1)[0])
            # None where the page takes the focus there by itself.
            if count:
                window.key(*["Tab"] * count)
        elif verb == "type":
            window.type(rest)
        elif verb == "key":
            window.key(rest)
        opens_something = rest == "Return" or rest.startswith("ctrl+")
        time.sleep(pace * 6 if opens_something else pace)


def plan(display, directory, pace):
    """Plans in the window and tells how what the register holds differs from the demo case."""
    register = desk.register_in(directory)
    window = desk.Desk(display, ["--register", register])
    try:
        play(window, HERE / "keys.txt", pace)
        window.quit()
    finally:
        window.kill()
    listed = desk.millrace("register", "list", "--register", register, "--format", "json")
    rows = json.loads(listed)["cases"]
    assert len(rows) == 1, rows
    exported = pathlib.Path(directory) / "exported.ron"
    desk.millrace("register", "export", rows[0]["case"], "--register", register, "-o", exported)
    desk.millrace("register", "check", "--register", register)
    planned = leaves(exported.read_text())
    demo = leaves((desk.CASES / "hard-and-shallow.ron").read_text())
    expected = {entry: value for entry, value in demo.items() if is_typed(entry)}
    differ = {
        entry: (expected.get(entry), planned.get(entry))
        for entry in expected.keys() | planned.keys()
        if expected.get(entry) != planned.get(entry)
    }
    print(f"found in the register, which passes its check: {rows[0]}")
    print(f"{len(expected)} entries expected, {len(differ)} differ")
    return differ


def main():
    missing = desk.missing_tools("Xvfb", "xdotool")
    if missing:
        sys.exit(f"not run: {', '.join(missing)} not installed")
    # A slow machine needs a slower hand; a window that does not work fails at any pace.
    for pace in (0.15, 0.5, 1.5):
        with desk.scratch() as directory, desk.Display() as display:
            try:
                differ = plan(display, directory, pace)
            except subprocess.TimeoutExpired:
                # Keys that came too fast stand in a wrong field, and the window asks before it closes.
                differ = "the window did not close"
        if not differ:
            print(f"planned by keyboard, {pace} s after each line")
            return
        print(f"at {pace} s after each line the register holds another plan (expected, found): {differ}")
    sys.exit(1)


if __name__ == "__main__":
    main()
