"""May the program be given away with everything that is built into it? Reads the license of every package that cargo resolves,
for all systems and for the tests too, and compares it with the list in deny.toml.

    python3 .ci/licenses.py

Before that it must refuse planted faults. Every license on the list must be needed: without it some package is refused.
"""

import json
import re
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
# How cargo spells where a package of a registry comes from; a repository begins with "git+".
REGISTRY = "registry+"


def allows(expression, allowed):
    """Whether an SPDX expression can be met with these licenses only. `/` is how old packages write OR."""
    tokens = re.findall(r"[()/]|[^\s()/]+", expression)
    position = 0

    def next_is(*words):
        return position < len(tokens) and tokens[position].upper() in words

    def take():
        nonlocal position
        if position >= len(tokens):
            raise ValueError(f"{expression!r} ends too early")
        position += 1
        return tokens[position - 1]

    def either():
        met = both()
        while next_is("OR", "/"):
            take()
            met = both() or met
        return met

    def both():
        met = one()
        while next_is("AND"):
            take()
            met = one() and met
        return met

    def one():
        token = take()
        if token == "(":
            met = either()
            if take() != ")":
                raise ValueError(f"{expression!r} has an open parenthesis")
            return met
        if token.upper() in (")", "/", "OR", "AND", "WITH"):
            raise ValueError(f"{expression!r} has {token!r} where a license belongs")
        # An exception makes another license of it, with an entry of its own.
        if next_is("WITH"):
            take()
            token = f"{token} WITH {take()}"
        return token in allowed

    met = either()
    if position < len(tokens):
        raise ValueError(f"{expression!r} goes on with {tokens[position]!r}")
    return met


def refusals(packages, allowed):
    """One line for each package that the list does not allow."""
    found = []
    for package in packages:
        name = f"{package['name']} {package['version']}"
        if not (package["source"] or REGISTRY).startswith(REGISTRY):
            found.append(f"{name} comes from {package['source']}; only a registry of packages is allowed")
        if not package["license"]:
            found.append(f"{name} names no license")
            continue
        try:
            if not allows(package["license"], allowed):
                found.append(f"{name} has the license {package['license']}")
        except ValueError as error:
            found.append(f"{name} has a license that cannot be read: {error}")
    return found


def must_notice(packages, allowed):
    """The check itself: what must pass passes, what must be refused is refused."""
    plain = {"name": "planted", "version": "1.0.0", "source": REGISTRY, "license": "MIT"}
    good = ["MIT", "GPL-3.0-only OR MIT", "MIT/GPL-3.0-only", "(MIT OR GPL-3.0-only) AND Apache-2.0"]
    bad = [
        None, "", "GPL-3.0-only", "MIT AND GPL-3.0-only", "MIT WITH Some-exception", "(MIT", "MIT OR", "MIT MIT", "mit-like",
        "GPL-3.0-only AND MIT OR GPL-3.0-only",
    ]
    for expression in good:
        if refusals([plain | {"license": expression}], {"MIT", "Apache-2.0"}):
            sys.exit(f"Error: {expression!r} was refused.")
    for expression in bad:
        if not refusals([plain | {"license": expression}], {"MIT", "Apache-2.0"}):
            sys.exit(f"Error: {expression!r} was not refused.")
    if not refusals([plain | {"source": "git+https://example.org/planted"}], {"MIT"}):
        sys.exit("Error: a package from elsewhere was not refused.")
    for license in sorted(allowed):
        if not refusals(packages, allowed - {license}):
            sys.exit(f"Error: no package needs {license}.\nHint: take it off the list in deny.toml.")


def main():
    if len(sys.argv) != 1:
        print("Usage: python3 .ci/licenses.py", file=sys.stderr)
        sys.exit(2)
    allowed = set(tomllib.loads((ROOT / "deny.toml").read_text())["licenses"]["allow"])
    command = ["cargo", "metadata", "--format-version", "1", "--locked"]
    packages = json.loads(subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.PIPE).stdout)["packages"]
    found = refusals(packages, allowed)
    if found:
        for line in found:
            print(f"Error: {line}.", file=sys.stderr)
        sys.exit("Hint: choose another package, or add the license to deny.toml with the reason why it may be there.")
    must_notice(packages, allowed)
    print(f"{len(packages)} packages, {len(allowed)} licenses, 0 refused; planted faults and a list without any one license were refused.")


main()
