#!/usr/bin/env python3
"""Installs a package into a clean root, uses what is in it there, and takes it away again.

    tests/package/check_deb.py target/package/millrace_0.1.0_amd64.deb

Each missing or broken part is named, and the end is 1. A part that cannot be looked at because a tool is
not here is told as NOT RUN: the tools are dpkg (needed), Xvfb and xdotool, man, gio and
update-mime-database, desktop-file-validate, appstreamcli, lintian, bash, zsh, fish.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "window"))
LARGEST = 60_000_000
COMMANDS = ["completions", "formulas", "lens", "lens-export", "lens-import", "manual", "plan", "register",
            "register-check", "register-export",
            "register-import", "register-list", "rules", "sheet", "simulate", "tabulate", "verify"]

wrong = []


def check(what, holds, found=""):
    print(f"{'ok' if holds else 'WRONG'}: {what}{f': {found}' if found and not holds else ''}")
    if not holds:
        wrong.append(what)


def has(*tools):
    missing = [tool for tool in tools if shutil.which(tool) is None]
    if missing:
        print(f"NOT RUN: {', '.join(missing)} not installed")
    return not missing


def run(*command, **more):
    return subprocess.run([str(it) for it in command], capture_output=True, text=True, **more)


def dpkg(root, *arguments):
    # The libraries it depends on are those of this machine: the root holds this package alone.
    return run("dpkg", f"--root={root}", "--force-depends", "--force-not-root", *arguments)


def files_in(root):
    return {str(path.relative_to(root)) for path in root.rglob("*")
            if not path.is_dir() and not path.is_relative_to(root / "var/lib/dpkg")}


def install(deb, root):
    for name in ["info", "updates", "triggers"]:
        (root / "var/lib/dpkg" / name).mkdir(parents=True)
    (root / "var/lib/dpkg/status").touch()
    made = dpkg(root, "--install", deb)
    check("it installs", made.returncode == 0, made.stderr)
    status = dpkg(root, "--status", "millrace").stdout
    check("dpkg counts it as installed", "install ok installed" in status, status)


def commands(root, home):
    program = root / "usr/bin/millrace"
    environment = {"PATH": "/usr/bin:/bin", "HOME": str(home), "USER": "okafor"}

    def millrace(*arguments):
        return run(program, *arguments, env=environment, cwd=home)

    told = millrace("--version").stdout
    head = run("git", "rev-parse", "HEAD", cwd=HERE).stdout.strip()
    wanted = f"commit: {head}" if head else "commit: unknown"
    check("--version tells the commit", wanted in told, told)
    check("--version tells no change outside it", "changes that are in no commit" not in told, told)
    for format_of in ["case file: version", "plan document: version", "register: schema"]:
        check(f"--version tells the {format_of.split(':')[0]}", format_of in told, told)
    case = root / "usr/share/doc/millrace/examples/hard-and-shallow.ron"
    plan = millrace("plan", case)
    check("a plan is printed", plan.returncode in (0, 1) and "OKONJO" in plan.stdout, plan.stderr)
    draft = millrace("sheet", "--draft", case, "-o", home / "draft.pdf")
    is_pdf = (home / "draft.pdf").exists() and (home / "draft.pdf").read_bytes()[:5] == b"%PDF-"
    check("a draft becomes a PDF", draft.returncode == 0 and is_pdf, draft.stderr)
    kept = millrace("register", "import", case)
    listed = millrace("register", "list")
    check("a register is made", kept.returncode == 0 and "Okonjo" in listed.stdout, kept.stderr)


def window(root):
    if not has("Xvfb", "xdotool"):
        return
    os.environ["MILLRACE"] = str(root / "usr/bin/millrace")
    import desk
    with desk.scratch() as directory, desk.Display() as display:
        register = pathlib.Path(directory) / "register.sqlite3"
        opened = desk.Desk(display, ["--register", register])
        title = opened.xdotool("getwindowname", opened.window).strip()
        check("the window opens", "Millrace" in title, title)
        try:
            opened.quit()
            check("the window closes", True)
        except (SystemExit, subprocess.SubprocessError) as problem:
            opened.kill()
            check("the window closes", False, problem)


def desktop(root, share):
    entry = share / "applications/millrace.desktop"
    text = entry.read_text() if entry.exists() else ""
    starts = re.search(r"^Exec=(\S+)", text, re.M)
    is_there = starts is not None and (root / "usr/bin" / starts[1]).exists()
    check("the desktop entry starts the program", is_there, text)
    icon = re.search(r"^Icon=(\S+)", text, re.M)
    icons = list((share / "icons").rglob(f"{icon[1]}.*")) if icon else []
    check("its icon is there", len(icons) == 1 and icons[0].read_text().startswith("<svg"), icons)
    if has("desktop-file-validate"):
        found = run("desktop-file-validate", entry)
        check("the desktop entry is valid", found.returncode == 0 and not found.stdout, found.stdout)
    if has("appstreamcli"):
        found = run("appstreamcli", "validate", "--no-net", *sorted((share / "metainfo").glob("*.xml")))
        check("the metadata are valid", found.returncode == 0, found.stdout)


def kinds_of_file(share, home):
    """A case is known by what is in it, another file of the same ending is not."""
    if not has("update-mime-database", "gio"):
        return
    made = run("update-mime-database", share / "mime")
    check("the kinds of file are read", made.returncode == 0, made.stderr)
    other = home / "other.ron"
    other.write_text("(format: \"something else\", version: 2)\n")
    lenses = home / "lenses.ron"
    shutil.copy(HERE.parents[1] / "demo-data" / "lenses.ron", lenses)
    case = share / "doc/millrace/examples/hard-and-shallow.ron"
    environment = {**os.environ, "XDG_DATA_DIRS": f"{share}:/usr/share", "XDG_DATA_HOME": str(home)}
    for path, kind in [(case, "application/x-millrace-case"),
                       (lenses, "application/x-millrace-lenses"), (other, "text/plain")]:
        found = run("gio", "info", "-a", "standard::content-type", path, env=environment).stdout
        check(f"{path.name} is {kind}", f"content-type: {kind}\n" in f"{found}\n", found)


def pages(share):
    directory = share / "man/man1"
    names = ["millrace", *(f"millrace-{command}" for command in COMMANDS)]
    missing = [name for name in names if not (directory / f"{name}.1.gz").exists()]
    check("every command has its page of the manual", not missing, missing)
    if has("man"):
        for page in sorted(directory.glob("*.gz")):
            environment = {**os.environ, "MANROFFSEQ": "", "LC_ALL": "C.UTF-8", "MANWIDTH": "100"}
            found = run("man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", page, env=environment)
            # Bold is a letter over itself.
            text = re.sub(".\b", "", found.stdout)
            holds = found.returncode == 0 and not found.stderr and "SYNOPSIS" in text
            check(f"{page.name} is read", holds, found.stderr)


def completions(share):
    bash = share / "bash-completion/completions/millrace"
    script = (f"source {bash}; COMP_WORDS=(millrace pl); COMP_CWORD=1; "
              "_millrace millrace pl millrace; printf '%s\\n' \"${COMPREPLY[@]}\"")
    found = run("bash", "-c", script)
    check("bash completes a command", found.stdout.split() == ["plan"], found.stderr or found.stdout)
    for shell, path in [("zsh", "zsh/vendor-completions/_millrace"),
                        ("fish", "fish/vendor_completions.d/millrace.fish")]:
        file = share / path
        check(f"{shell} has a script", file.exists() and "plan" in file.read_text())
        if has(shell):
            found = run(shell, "-n", file)
            check(f"{shell} reads it", found.returncode == 0, found.stderr)


def documents(share):
    directory = share / "doc/millrace"
    for name, word in [("copyright", "OFL-1.1"), ("licenses-of-libraries.gz", ""), ("changelog.gz", "")]:
        file = directory / name
        check(f"{name} is there", file.exists() and word in file.read_text(errors="ignore"))


def lint(deb):
    if has("lintian"):
        # What is told of a program that Debian itself did not build is no fault of the package.
        waived = "bad-distribution-in-changes-file,initial-upload-closes-no-bugs,embedded-library"
        found = run("lintian", "--fail-on", "error,warning", "--suppress-tags", waived,
                    "--allow-root", deb)
        check("lintian finds nothing", found.returncode == 0, found.stdout + found.stderr)


def main():
    (deb,) = map(pathlib.Path, sys.argv[1:])
    with tempfile.TemporaryDirectory() as directory:
        root, home = pathlib.Path(directory, "root"), pathlib.Path(directory, "home")
        root.mkdir(), home.mkdir()
        install(deb, root)
        share = root / "usr/share"
        program = root / "usr/bin/millrace"
        size = deb.stat().st_size
        print(f"package: {size / 1e6:.1f} MB, program in it: {program.stat().st_size / 1e6:.1f} MB")
        check("the package has at most 60 MB", size <= LARGEST, size)
        commands(root, home)
        window(root)
        desktop(root, share)
        pages(share)
        completions(share)
        documents(share)
        lint(deb)
        kinds_of_file(share, home)
        for made in [path for path in (share / "mime").rglob("*")
                     if path.is_file() and path.parent.name != "packages"]:
            made.unlink()
        left = dpkg(root, "--purge", "millrace")
        check("it goes without a trace", left.returncode == 0 and not files_in(root), files_in(root))
    if wrong:
        sys.exit(f"{len(wrong)} wrong: {'; '.join(wrong)}")


if __name__ == "__main__":
    main()
