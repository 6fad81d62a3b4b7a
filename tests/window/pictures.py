#!/usr/bin/env python3
"""Takes the pictures of docs/pictures from the real window: every page in light and in dark, each also at
twice the size of text. Look at each before you commit it.
"""

import json
import pathlib
import sys

import desk

PICTURES = desk.ROOT / "docs" / "pictures"
SETTINGS = '(author: "A. Okafor", theme: {theme}, text_percent: {percent}, decimals: point)'
# The hard nucleus in a shallow chamber.
NUMBER = "40-2291"
PAGES = {"biometry": "ctrl+1", "lens": "ctrl+2", "approach": "ctrl+3", "sheet": "ctrl+4", "outcome": "ctrl+5",
         "day": "ctrl+d"}
LOOKS = {"light": ("light", 100), "dark": ("dark", 100), "200": ("light", 200), "dark-200": ("dark", 200)}


def look_at(display, name, settings):
    with desk.scratch() as directory:
        register = desk.register_in(directory, settings)
        desk.millrace("register", "import", "--register", register, "--who", "A. Okafor",
                      *sorted(desk.CASES.glob("*.ron")))
        listed = desk.millrace("register", "list", "--register", register, "--format", "json")
        rows = json.loads(listed)["cases"]
        case = next(row["case"] for row in rows if row["number"] == NUMBER)
        # The window comes back to the case that was open when it was last closed.
        last = f'(page: "biometry", case: Some("{case}"), size: None)'
        (pathlib.Path(directory) / "last.ron").write_text(last)
        window = desk.Desk(display, ["--register", register])
        try:
            for page, key in PAGES.items():
                window.key(key)
                window.shot(PICTURES / f"{page}-{name}.png")
            window.key("ctrl+l")
            window.shot(PICTURES / f"second-look-{name}.png")
            window.key("ctrl+l")
            window.key("ctrl+comma")
            window.shot(PICTURES / f"settings-{name}.png")
            window.key("ctrl+comma")
            window.key("F1")
            window.shot(PICTURES / f"keys-{name}.png")
            window.key("Escape")
            window.quit()
        finally:
            window.kill()


def main():
    missing = desk.missing_tools("Xvfb", "xdotool", "import")
    if missing:
        sys.exit(f"not run: {', '.join(missing)} not installed")
    PICTURES.mkdir(exist_ok=True)
    with desk.Display() as display:
        for name, (theme, percent) in LOOKS.items():
            look_at(display, name, SETTINGS.format(theme=theme, percent=percent))
        with desk.scratch() as directory:
            window = desk.Desk(display, ["--register", pathlib.Path(directory) / "register.sqlite3"])
            try:
                window.shot(PICTURES / "first-run.png")
                window.quit()
            finally:
                window.kill()


if __name__ == "__main__":
    main()
