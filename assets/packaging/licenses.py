"""The licenses of every library inside the program, as their authors wrote them."""

import json
import pathlib
import subprocess

NAMES = ("license", "licence", "copying", "notice", "copyright", "unlicense")


def packages(root):
    """Each library that is linked into the program, with the directory of its source."""
    def said(*command):
        return subprocess.run(command, cwd=root, check=True, capture_output=True, text=True).stdout

    # What other systems would link is not here and need not be fetched.
    host = said("rustc", "-vV").split("host: ")[1].split()[0]
    tree = said("cargo", "tree", "--locked", "-p", "millrace", "-e", "normal", "--target", host,
                "--prefix", "none", "--format", "{p}")
    # "name v1.2.3", and where it lies unless it comes from the registry.
    linked = {tuple(line.split()[:2]) for line in tree.splitlines() if line.strip()}
    metadata = said("cargo", "metadata", "--locked", "--format-version", "1",
                    "--filter-platform", host)
    for package in json.loads(metadata)["packages"]:
        is_ours = package["source"] is None
        if (package["name"], f"v{package['version']}") in linked and not is_ours:
            yield package


def text(root):
    """Each text once, under the libraries that carry it; a library without one is named by what it says."""
    carriers, without = {}, []
    for package in sorted(packages(root), key=lambda it: (it["name"], it["version"])):
        name = f"{package['name']} {package['version']}"
        directory = pathlib.Path(package["manifest_path"]).parent
        files = [path for path in sorted(directory.iterdir())
                 if path.is_file() and path.name.lower().startswith(NAMES)]
        for path in files:
            carriers.setdefault(path.read_text(errors="replace").strip(), []).append(name)
        if not files:
            without.append(f"{name}: {package['license']}")
    parts = [f"{', '.join(names)}\n\n{license}" for license, names in carriers.items()]
    parts.append("Without a text of their own in their source:\n" + "\n".join(without))
    return ("\n\n" + "=" * 78 + "\n\n").join(parts) + "\n"
