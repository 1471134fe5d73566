"""Would the tests of the core notice a fault? Plants faults with cargo-mutants, one at a time, and runs the core's library tests.

    python3 .ci/mutants.py change           the list in .ci/mutants.txt, then what changed in core/src, 15 minutes at most
    python3 .ci/mutants.py SHARD/OF [PATH]  every fault of one shard, in these files or in the whole core; hours

A fault that no test notices is an error. What was not run is counted and said.
"""

import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VERSION = "27.1.0"
MINUTES = 15
LONGEST_LIST = 10
# About as many as the minutes are enough for. Of a larger change, every n-th fault is taken.
FITTING = 20
# A build and the tests after a fault; only where no run without a fault came before to say how long they take.
SECONDS_OF_ONE = 300
# A room of the core names only rooms before it (tests/laws.rs), so the tests of these cannot notice a fault in a later room. They
# are the slowest, and are left out when every fault is above them.
UP_TO_DRAW = ("words", "units", "blocks", "plan", "draw")
USAGE = "Usage: python3 .ci/mutants.py change | SHARD/OF [PATH]..."


def not_run(why):
    """On a desk that is for the person to know; in CI it is a failure."""
    print(f"Mutation tests were not run: {why}", file=sys.stderr)
    sys.exit(1 if os.environ.get("CI") == "true" else 0)


def git(*arguments):
    done = subprocess.run(["git", *arguments], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    return done.stdout if done.returncode == 0 else None


def install():
    have = shutil.which("cargo-mutants")
    if have and VERSION in subprocess.run([have, "mutants", "--version"], stdout=subprocess.PIPE, text=True).stdout:
        return
    print(f"Installing cargo-mutants {VERSION}.", flush=True)
    if subprocess.run(["cargo", "install", "--quiet", "--locked", "cargo-mutants", "--version", VERSION], cwd=ROOT).returncode:
        not_run("cargo-mutants could not be installed.")


class Tree:
    """A copy of the working tree, always in the same place: faults never touch the source, and builds stay incremental. What
    the project is built on is taken from its own target folder."""

    def __init__(self):
        target = Path(os.environ.get("CARGO_TARGET_DIR") or ROOT / "target").resolve()
        place = target / "mutants"
        self.tree, self.out = place / "tree", place / "out"
        shutil.rmtree(self.tree, ignore_errors=True)
        listed = git("ls-files", "-z", "--cached", "--others", "--exclude-standard")
        if listed is None:
            not_run("git does not know this folder.")
        for name in filter(None, listed.decode().split("\0")):
            if (ROOT / name).is_file():
                (self.tree / name).parent.mkdir(parents=True, exist_ok=True)
                shutil.copy2(ROOT / name, self.tree / name)
        self.environment = os.environ | {"CARGO_TARGET_DIR": str(target), "CARGO_INCREMENTAL": "1"}

    def command(self, *arguments):
        return ["cargo", "mutants", "--package", "counterpoise-core", "--config", ".ci/mutants.toml", *arguments]

    def list(self, *selection):
        done = subprocess.run(
            self.command("--list", *selection), cwd=self.tree, env=self.environment, stdout=subprocess.PIPE, text=True, check=True
        )
        return done.stdout.splitlines()

    def test(self, *selection, seconds=None):
        """Runs these faults. Returns how many were noticed, the ones that were not, and how many were not run."""
        shutil.rmtree(self.out, ignore_errors=True)
        self.out.mkdir(parents=True)
        faults = self.list(*selection)
        planned = len(faults)
        room = re.compile(r"core/src/(\w+)")
        above = all(room.match(fault)[1] not in UP_TO_DRAW for fault in faults)
        tests = ["--", "--", "--skip", "plan::", "--skip", "draw::"] if above else []
        child = subprocess.Popen(
            self.command("--in-place", "--output", str(self.out), *selection, *tests), cwd=self.tree, env=self.environment
        )
        try:
            code = child.wait(seconds)
        except subprocess.TimeoutExpired:
            code = None
            child.send_signal(signal.SIGINT)
            child.wait()
        counts = {kind: self.outcome(kind) for kind in ("caught", "timeout", "unviable", "missed")}
        # 0: all noticed; 2: some survived; 3: some ran into the time limit, which counts as noticed.
        if code not in (None, 0, 2, 3):
            sys.exit(f"Error: cargo-mutants ended with code {code}: see its lines above.")
        noticed = len(counts["caught"]) + len(counts["timeout"])
        left = planned - sum(map(len, counts.values()))
        if code is not None and left:
            sys.exit(f"Error: {left} of {planned} faults have no result, though cargo-mutants ended by itself.")
        return noticed, counts["missed"], len(counts["unviable"]), left

    def outcome(self, kind):
        file = self.out / "mutants.out" / f"{kind}.txt"
        return file.read_text().splitlines() if file.exists() else []


def tell(what, result):
    noticed, survived, unviable, left = result
    for name in survived:
        print(f"Error: no test notices: {name}", file=sys.stderr)
    print(f"{what}: {noticed} noticed, {len(survived)} survived, {unviable} did not compile, {left} not run.", flush=True)


def escaped(text):
    """For patterns of Python and of Rust alike, which `re.escape` is not."""
    return re.sub(r"([\\.+*?()|\[\]{}^$])", r"\\\1", text)


def guarded(tree):
    """The faults of .ci/mutants.txt as exact patterns of cargo-mutants, whose names have a line and a column too."""
    lines = (ROOT / ".ci/mutants.txt").read_text().splitlines()
    names = [line for line in lines if line and not line.startswith("#")]
    if not 0 < len(names) <= LONGEST_LIST:
        sys.exit(f"Error: .ci/mutants.txt has {len(names)} faults; there must be 1 to {LONGEST_LIST}.")
    known = tree.list()
    selection = []
    for name in names:
        file, _, fault = name.partition(": ")
        pattern = f"^{escaped(file)}:[0-9]+:[0-9]+: {escaped(fault)}$"
        if not any(re.search(pattern, line) for line in known):
            sys.exit(f"Error: no such fault can be planted: {name}\nHint: find its new name with cargo mutants --list.")
        # The file too: cargo-mutants 27.1.0 adds every "delete field" of the files it looks at, whatever the patterns say.
        selection += ["--re", pattern, "--file", file]
    return selection


def changed():
    """What changed in core/src since origin/main; on origin/main itself, since its first parent: before the newest merge."""
    head, main = git("rev-parse", "HEAD"), git("merge-base", "HEAD", "origin/main")
    base = main if main and main != head else git("rev-parse", "HEAD^1")
    if not base:
        not_run("neither origin/main nor an earlier commit is here to compare with.")
    base = base.decode().strip()
    return base, git("diff", "--find-renames", base, "--", "*.rs")


def change():
    tree = Tree()
    until = time.monotonic() + MINUTES * 60
    base, diff = changed()
    selection = guarded(tree)
    count = len(tree.list(*selection))
    fixed = tree.test(*selection, seconds=until - time.monotonic())
    tell(f"{count} faults that safety rules must not survive", fixed)
    since = f"core/src since {base[:9]}"
    if not diff:
        print(f"{since}: nothing changed.")
        later = (0, [], 0, 0)
    else:
        with tempfile.NamedTemporaryFile(suffix=".diff") as file:
            file.write(diff)
            file.flush()
            selection = ["--in-diff", file.name]
            total = len(tree.list(*selection))
            if total > FITTING:
                shards = -(-total // FITTING)
                selection += ["--shard", f"0/{shards}", "--sharding", "round-robin"]
            taken = len(tree.list(*selection)) if total else 0
            left = until - time.monotonic()
            later = (0, [], 0, taken)
            if taken and left > 0:
                later = tree.test(*selection, "--baseline=skip", f"--timeout={SECONDS_OF_ONE}", seconds=left)
        later = (*later[:3], later[3] + total - taken)
        tell(f"{total} faults in {since}", later)
    if fixed[1] or later[1]:
        sys.exit(1)
    if fixed[3]:
        not_run(f"{fixed[3]} faults of .ci/mutants.txt were not reached in {MINUTES} minutes.")


def shard(part, paths):
    tree = Tree()
    for path in paths:
        if not (tree.tree / path).exists():
            sys.exit(f"Error: {path} is not in the project.")
    files = [argument for path in paths for argument in ("--file", f"{path}/**" if (tree.tree / path).is_dir() else path)]
    # Shards count from 1 here, and from 0 there.
    number, of = map(int, part.split("/"))
    selection = [*files, "--shard", f"{number - 1}/{of}", "--sharding", "round-robin"]
    total, planned = len(tree.list(*files)), len(tree.list(*selection))
    print(f"Shard {part}: {planned} of {total} faults.", flush=True)
    if not planned:
        sys.exit("Error: there is no fault to plant.")
    begun = time.monotonic()
    result = tree.test(*selection)
    tell(f"{planned} faults", result)
    commit = (git("describe", "--always", "--dirty") or b"?").decode().strip()
    noticed, survived, unviable, left = result
    print(f"{(time.monotonic() - begun) / 60:.1f} minutes. The row for docs/testing.md:")
    where = " ".join(paths) or "core/src"
    print(
        f"| {time.strftime('%Y-%m-%d')} | {commit} | {where}, shard {part} | {planned} | {noticed} | {len(survived)} "
        f"| {unviable} | {total - planned + left} |"
    )
    sys.exit(1 if survived else 0)


def main():
    first, *rest = sys.argv[1:] or [""]
    part = re.fullmatch(r"([1-9][0-9]*)/([1-9][0-9]*)", first)
    if first == "change" and not rest:
        run = change
    elif part and int(part[1]) <= int(part[2]) and not any(path.startswith("-") for path in rest):
        run = lambda: shard(first, rest)
    else:
        print(USAGE, file=sys.stderr)
        sys.exit(2)
    install()
    run()


main()
