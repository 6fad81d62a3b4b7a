#!/usr/bin/env python3
"""Makes the Debian package of a program that is built already:

    cargo build --profile dist -p millrace --locked
    assets/packaging/make_deb.py target/dist/millrace target/package

Needs dpkg-deb, dpkg-shlibdeps (dpkg-dev) and cargo with the sources of the dependencies. Why not cargo-deb
stands in docs/decisions/0018-the-package-is-made-by-dpkg.md. The same program and commit give the same
package.
"""

import email.utils
import gzip
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import licenses

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
MAINTAINER = "Millrace maintainers <maintainers@millrace.example>"
# Opened when the window is, never linked: without them the commands work. Several names are of the two
# ways to a display, of which one is enough.
OPENED = ["libegl1", "libgl1", "libwayland-client0", "libx11-6", "libx11-xcb1", "libxcursor1", "libxi6",
          "libxkbcommon0", "libxkbcommon-x11-0", "libxrandr2"]
SHELLS = {
    "bash": "usr/share/bash-completion/completions/millrace",
    "zsh": "usr/share/zsh/vendor-completions/_millrace",
    "fish": "usr/share/fish/vendor_completions.d/millrace.fish",
}
DATA = {
    "millrace.desktop": "usr/share/applications/millrace.desktop",
    "millrace.svg": "usr/share/icons/hicolor/scalable/apps/millrace.svg",
    "millrace.mime.xml": "usr/share/mime/packages/millrace.xml",
    "example.millrace.Millrace.metainfo.xml":
        "usr/share/metainfo/example.millrace.Millrace.metainfo.xml",
}


def said(command, **more):
    return subprocess.run(command, check=True, capture_output=True, text=True, **more).stdout


def moment():
    """When the commit was made, in seconds: nothing in the package is younger."""
    try:
        return int(said(["git", "log", "-1", "--format=%ct"], cwd=ROOT))
    except (OSError, subprocess.CalledProcessError):
        return 0


def place(tree, path, data):
    target = tree / path
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(data)


def packed(data):
    return gzip.compress(data, compresslevel=9, mtime=0)


def fill(tree, program, version, made):
    place(tree, "usr/bin/millrace", program.read_bytes())
    for name, path in DATA.items():
        place(tree, path, (HERE / name).read_bytes())
    for shell, path in SHELLS.items():
        place(tree, path, said([program, "completions", shell]).encode())
    with tempfile.TemporaryDirectory() as pages:
        subprocess.run([program, "manual", pages], check=True)
        for page in sorted(pathlib.Path(pages).iterdir()):
            place(tree, f"usr/share/man/man1/{page.name}.gz", packed(page.read_bytes()))
    documents = "usr/share/doc/millrace"
    place(tree, f"{documents}/copyright", copyright_text().encode())
    place(tree, f"{documents}/licenses-of-libraries.gz", packed(licenses.text(ROOT).encode()))
    when = email.utils.formatdate(made)
    changes = (f"millrace ({version}) unstable; urgency=medium\n\n"
               f"  * Built from the source as it is; its history tells the changes.\n\n"
               f" -- {MAINTAINER}  {when}\n")
    place(tree, f"{documents}/changelog.gz", packed(changes.encode()))
    for case in sorted((ROOT / "demo-data" / "cases").glob("*.ron")):
        place(tree, f"{documents}/examples/{case.name}", case.read_bytes())


def copyright_text():
    """Who may do what with the program and with the typefaces inside it."""
    def text(name):
        lines = (ROOT / name).read_text().rstrip().splitlines()
        return "\n".join(f" {line.rstrip()}" if line.strip() else " ." for line in lines)
    return ("Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/\n"
            "Upstream-Name: Millrace\n"
            "Comment: The licenses of the libraries inside the program are in\n"
            " licenses-of-libraries.gz beside this file.\n\n"
            "Files: *\n"
            "Copyright: The Millrace contributors\n"
            "License: Expat or Apache-2.0\n\n"
            "Files: assets/fonts/*\n"
            "Copyright: The Noto project authors, Google, Adobe\n"
            "License: OFL-1.1\n\n"
            f"License: Expat\n{text('LICENSE-MIT')}\n\n"
            "License: Apache-2.0\n The full text is in /usr/share/common-licenses/Apache-2.0.\n\n"
            f"License: OFL-1.1\n{text('assets/fonts/OFL.txt')}\n")


def depends(program):
    """The libraries that are linked, with the versions that they need."""
    with tempfile.TemporaryDirectory() as directory:
        (pathlib.Path(directory) / "debian").mkdir()
        (pathlib.Path(directory) / "debian" / "control").write_text(
            "Source: millrace\n\nPackage: millrace\nArchitecture: any\n")
        found = said(["dpkg-shlibdeps", "-O", program.resolve()], cwd=directory)
    return found.strip().removeprefix("shlibs:Depends=")


def control(tree, program, version):
    bytes_inside = sum(path.stat().st_size for path in tree.rglob("*") if path.is_file())
    architecture = said(["dpkg", "--print-architecture"]).strip()
    text = (f"Package: millrace\nVersion: {version}\nArchitecture: {architecture}\n"
            f"Maintainer: {MAINTAINER}\nInstalled-Size: {bytes_inside // 1024}\n"
            f"Depends: {depends(program)}\nRecommends: {', '.join(OPENED)}, xdg-utils\n"
            "Suggests: cups-client\nSection: science\nPriority: optional\n"
            "Description: plan the lens and the operation for one eye of one patient\n"
            " Millrace works out, from the biometry and the state of lens, chamber and\n"
            " cornea, what each published formula predicts and how sure that is, and hands\n"
            " the plan to theatre on a sheet. What cannot be answered is refused, with the\n"
            " reason.\n"
            " .\n"
            " For use by licensed clinicians. It is not a certified medical device.\n")
    place(tree, "DEBIAN/control", text.encode())


def settle(tree, made):
    """One mode and one moment for everything, whoever builds it and when."""
    for path in [tree, *tree.rglob("*")]:
        runs = path.is_dir() or path == tree / "usr/bin/millrace"
        path.chmod(0o755 if runs else 0o644)
        os.utime(path, (made, made))


def main():
    program, output = map(pathlib.Path, sys.argv[1:])
    for tool in ["dpkg-deb", "dpkg-shlibdeps"]:
        if shutil.which(tool) is None:
            sys.exit(f"{tool} is not installed")
    program = program.resolve()
    version = said([program, "-V"]).split()[1]
    made = moment()
    output.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as directory:
        tree = pathlib.Path(directory) / "tree"
        fill(tree, program, version, made)
        control(tree, program, version)
        settle(tree, made)
        environment = {**os.environ, "SOURCE_DATE_EPOCH": str(made)}
        subprocess.run(["dpkg-deb", "--root-owner-group", "-Zxz", "--build", tree, output],
                       check=True, env=environment)


if __name__ == "__main__":
    main()
