#!/usr/bin/env python3
"""Plans the hard, shallow demo eye in the real window, from blank fields, by keyboard alone, and
finds it in the register afterwards.

The keys are those of keys.txt, which crates/desk/tests/keyboard.rs presses at the desk without a
window. What is found is compared entry by entry with the demo case, less what nobody typed.
"""

import json
import pathlib
import sys

import desk

HERE = pathlib.Path(__file__).resolve().parent
# Entries of the demo case that the keys leave out: spreads, repeated readings, the other eye, the
# reason, and the spare lenses.
NOT_TYPED = ("left_eye", "reasons", "lens/spare", "lens/chamber_lens")
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


def play(window, keys):
    for line in keys.read_text().splitlines():
        verb, _, rest = line.partition(" ")
        if verb == "tab":
            count = int(rest.split(" ", 1)[0])
            window.key(*["Tab"] * count)
        elif verb == "type":
            window.type(rest)
        elif verb == "key":
            window.key(rest)


def main():
    missing = desk.missing_tools("Xvfb", "xdotool")
    if missing:
        sys.exit(f"not run: {', '.join(missing)} not installed")
    with desk.scratch() as directory, desk.Display() as display:
        register = desk.register_in(directory)
        window = desk.Desk(display, ["--register", register])
        try:
            play(window, HERE / "keys.txt")
            window.quit()
        finally:
            window.kill()
        rows = json.loads(desk.millrace("--register", register, "register", "list", "--format", "json"))
        rows = rows["cases"] if isinstance(rows, dict) else rows
        assert len(rows) == 1, rows
        case = str(rows[0]["case"])
        exported = pathlib.Path(directory) / "exported.ron"
        desk.millrace("--register", register, "register", "export", case, "-o", exported)
        planned = leaves(exported.read_text())
        demo = leaves((desk.CASES / "hard-and-shallow.ron").read_text())
        expected = {entry: value for entry, value in demo.items() if is_typed(entry)}
        differ = {
            entry: (expected.get(entry), planned.get(entry))
            for entry in expected.keys() | planned.keys()
            if expected.get(entry) != planned.get(entry)
        }
        if differ:
            sys.exit(f"the register holds another plan (expected, found): {differ}")
        desk.millrace("--register", register, "register", "check")
        print(f"planned by keyboard and found in the register: case {case}, {rows[0]}")
        print(f"{len(expected)} entries as typed; the register passes its check")


if __name__ == "__main__":
    main()
