"""The real window on a virtual display: started, driven by keys, looked at, and closed.

Needs Xvfb and xdotool, and ImageMagick's `import` for pictures.
"""

import os
import pathlib
import shutil
import subprocess
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
CASES = ROOT / "demo-data" / "cases"


def program():
    """The program under test: MILLRACE, or the release build."""
    path = pathlib.Path(os.environ.get("MILLRACE", ROOT / "target" / "release" / "millrace"))
    if not path.exists():
        raise SystemExit(f"{path} is not there: cargo build --release, or set MILLRACE")
    return path


def missing_tools(*tools):
    return [tool for tool in tools if shutil.which(tool) is None]


class Display:
    """A virtual display of its own."""

    def __init__(self, width=1280, height=820):
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{width}x{height}x24",
             "-nolisten", "tcp", "-noreset"],
            pass_fds=[write], stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as number:
            self.name = f":{number.readline().strip()}"

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.server.terminate()
        self.server.wait()


class Desk:
    """The window over a register in a directory of its own."""

    def __init__(self, display, arguments, environment=None):
        self.environment = {**os.environ, "DISPLAY": display.name, **(environment or {})}
        self.environment.pop("WAYLAND_DISPLAY", None)
        self.process = subprocess.Popen([program(), *arguments], env=self.environment)
        found = self.xdotool("search", "--sync", "--onlyvisible", "--class", "millrace", timeout=60)
        self.window = found.split()[0]
        # Without a window manager nobody else gives the window the keyboard.
        self.xdotool("windowfocus", "--sync", self.window)
        time.sleep(0.5)

    def xdotool(self, *arguments, timeout=30):
        run = subprocess.run(["xdotool", *arguments], env=self.environment, timeout=timeout,
                             check=True, capture_output=True, text=True)
        return run.stdout

    def key(self, *keys):
        self.xdotool("key", "--delay", "40", *keys)

    def type(self, text):
        self.xdotool("type", "--delay", "25", "--", text)

    def shot(self, path):
        time.sleep(0.6)
        subprocess.run(["import", "-window", "root", str(path)], env=self.environment, check=True)

    def quit(self):
        self.key("ctrl+q")
        code = self.process.wait(timeout=20)
        if code != 0:
            raise SystemExit(f"the window ended with {code}")

    def kill(self):
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()


def register_in(directory, settings=None):
    """A place for a register, with the invented lenses and these settings beside it."""
    directory = pathlib.Path(directory)
    shutil.copy(ROOT / "demo-data" / "lenses.ron", directory / "lenses.ron")
    if settings:
        (directory / "settings.ron").write_text(settings)
    return directory / "register.sqlite3"


def millrace(*arguments):
    run = subprocess.run([program(), *map(str, arguments)], check=True, capture_output=True, text=True)
    return run.stdout


def scratch():
    return tempfile.TemporaryDirectory(prefix="millrace-window-")
