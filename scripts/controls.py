#!/usr/bin/env python3
"""Does each control of docs/safety.md have a test that fails without it?

Plants the mutants of tests/data/mutants.toml one by one in a copy of the tree, and runs the one test that docs/safety.md
names for each. A mutant is killed only if that test ran and failed: code that does not build, or a test that did not run,
counts as "not run". Before the mutants of a test binary, its tests are shown to pass on the unchanged copy.

    python3 scripts/controls.py                 every mutant, those that build fastest first
    python3 scripts/controls.py --only NAME     those whose control contains NAME
    python3 scripts/controls.py --list          what would be run

The copy, and what is built from it, lie in the folder `controls` of the target folder. The first run builds everything.
Exit codes: 0 all killed; 1 one survived or was not run; 2 wrong arguments, or the files do not fit together.
"""

import itertools
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
MUTANTS = ROOT / "tests/data/mutants.toml"
PAGE = ROOT / "docs/safety.md"
TARGET = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target")).resolve() / "controls"
TREE, BUILT = TARGET / "tree", TARGET / "target"
# The core is built without optimization: its tests here are few, and building takes longer than they do.
CARGO = ["cargo", "test", "--config", "profile.dev.package.counterpoise-core.opt-level=0"]
PATIENCE = 900  # seconds: a build of everything on a slow machine, or a test that a mutant keeps waiting


class Wrong(Exception):
    """The files do not fit together."""


def places_of_tests():
    """For each hazard of the page, the file of each test that it names."""
    tests = {}
    for line in PAGE.read_text(encoding="utf-8").splitlines():
        if line.startswith("| ") and not line.startswith(("| hazard", "| ---")):
            cells = [cell.strip() for cell in line.strip("|").split(" | ")]
            if len(cells) != 5:
                raise Wrong(f"{PAGE.name}: a row has five cells: {line}")
            named = re.findall(r"`([^`]+)`: (\w+)", cells[3])
            tests[cells[0]] = {name: place for place, name in named}
    return tests


def binary(place):
    """How to build the tests of this file: the arguments for cargo, and how long that takes, in order."""
    match Path(place).parts:
        case ["core", "src", *_]:
            return 0, ["-p", "counterpoise-core", "--lib"]
        case ["src", *_]:
            return 1, ["-p", "counterpoise", "--lib"]
        # tests/NAME.rs is a binary of its own, and so is tests/NAME/main.rs with the other files of its folder.
        case ["core", "tests", name, *_]:
            return 2, ["-p", "counterpoise-core", "--test", name.removesuffix(".rs")]
        case ["tests", name, *_]:
            return 3, ["-p", "counterpoise", "--test", name.removesuffix(".rs")]
        case _:
            raise Wrong(f"no test binary has {place}")


def mutants():
    """Every mutant with its test, those that build fastest first."""
    tests = places_of_tests()
    found = tomllib.loads(MUTANTS.read_text(encoding="utf-8"))["mutant"]
    for mutant in found:
        control, test = mutant["control"], mutant["test"]
        if test not in tests.get(control, {}):
            raise Wrong(f"{PAGE.name} has no row \"{control}\" with the test {test}")
        mutant["order"], mutant["binary"] = binary(tests[control][test])
        text = (ROOT / mutant["file"]).read_text(encoding="utf-8")
        if text.count(mutant["find"]) != 1:
            raise Wrong(f"{mutant['file']} has the text of \"{mutant['says']}\" {text.count(mutant['find'])} times, not once")
    return sorted(found, key=lambda mutant: (mutant["order"], mutant["binary"]))


def copy_tree():
    """A copy of what git knows and of what is new, into the scratch folder. What did not change keeps its time."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, check=True, capture_output=True,
    ).stdout.decode().split("\0")
    wanted = {name for name in listed if name and (ROOT / name).is_file()}
    TREE.mkdir(parents=True, exist_ok=True)
    for there in [path for path in TREE.rglob("*") if path.is_file()]:
        if str(there.relative_to(TREE)) not in wanted:
            there.unlink()
    for name in sorted(wanted):
        source, copy = ROOT / name, TREE / name
        if not copy.exists() or copy.read_bytes() != source.read_bytes():
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(source, copy)
            shutil.copymode(source, copy)


def run(arguments, names):
    """Runs these tests; what was printed, and what became of each: True passed, False failed. None: it never came so far."""
    command = [*CARGO, *arguments, "--", *names]
    environment = {**os.environ, "CARGO_TARGET_DIR": str(BUILT), "RUST_BACKTRACE": "0"}
    try:
        done = subprocess.run(
            command, cwd=TREE, env=environment, timeout=PATIENCE,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
        )
    except subprocess.TimeoutExpired:
        return f"nothing after {PATIENCE} s", {}
    became = {}
    # What a test prints may come before its result on the same line.
    for path, how in re.findall(r"test (\S+) \.\.\. .*?\b(ok|FAILED)$", done.stdout, re.MULTILINE):
        became[path] = how == "ok"
    return done.stdout, became


def of(became, name):
    """What became of the test with this name; None if it did not run, or several have the name."""
    found = [passed for path, passed in became.items() if path.split("::")[-1] == name]
    return found[0] if len(found) == 1 else None


def unchanged(together):
    """The tests of these mutants, all of one binary, that do not pass on the unchanged copy."""
    names = sorted({mutant["test"] for mutant in together})
    said, became = run(together[0]["binary"], names)
    bad = [name for name in names if of(became, name) is not True]
    print(f"without a mutant: {len(names) - len(bad)} of {len(names)} tests pass ({' '.join(together[0]['binary'])})", flush=True)
    if bad:
        print(f"these do not: {', '.join(bad)}\n{said[-3000:]}", flush=True)
    return bad


def plant(mutant):
    """Runs the test with the mutant in place: killed, survived or not run, and why."""
    place = TREE / mutant["file"]
    whole = place.read_text(encoding="utf-8")
    place.write_text(whole.replace(mutant["find"], mutant["replace"]), encoding="utf-8")
    try:
        said, became = run(mutant["binary"], [mutant["test"]])
    finally:
        place.write_text(whole, encoding="utf-8")
    match of(became, mutant["test"]):
        case True:
            return "survived", ""
        case False:
            panic = re.search(r"panicked at [^\n]*\n([^\n]*)", said)
            return "killed", panic.group(1)[:100] if panic else ""
        case _:
            error = re.search(r"^error[^\n]*", said, re.MULTILINE)
            return "not run", error.group(0)[:100] if error else said[-200:]


def chosen_by(arguments):
    match arguments:
        case []:
            return False, ""
        case ["--list"]:
            return True, ""
        case ["--only", name]:
            return False, name
        case ["--list", "--only", name] | ["--only", name, "--list"]:
            return True, name
        case _:
            raise Wrong("arguments are --list and --only NAME; see the top of this file")


def main():
    only_list, name = chosen_by(sys.argv[1:])
    chosen = [mutant for mutant in mutants() if name.lower() in mutant["control"].lower()]
    if not chosen:
        raise Wrong(f"no control contains \"{name}\"")
    if only_list:
        for mutant in chosen:
            print(f"{mutant['control']}\n    {mutant['file']}: {mutant['says']}\n    {' '.join(mutant['binary'])} {mutant['test']}")
        return 0
    copy_tree()
    count = {"killed": 0, "survived": 0, "not run": 0}
    for _, group in itertools.groupby(chosen, key=lambda mutant: mutant["binary"]):
        together = list(group)
        bad = unchanged(together)
        for mutant in together:
            # A test that fails anyway says nothing about a mutant.
            how, why = ("not run", "it fails without it") if mutant["test"] in bad else plant(mutant)
            count[how] += 1
            print(f"{how:9} {mutant['file']}: {mutant['says']}\n          {mutant['test']}: {why}", flush=True)
    print(", ".join(f"{number} {how}" for how, number in count.items()))
    return 0 if count["killed"] == len(chosen) else 1


if __name__ == "__main__":
    try:
        sys.exit(main())
    except Wrong as wrong:
        print(f"Error: {wrong}", file=sys.stderr)
        sys.exit(2)
