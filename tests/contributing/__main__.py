"""python tests/contributing [WALK...]: does what CONTRIBUTING.md tells, in a clone of its own, word for word.

A walk is a section after `<!-- walk: NAME -->`, to the next heading of its rank. What is done with a fenced block stands
in a comment on the line before it:

    <!-- new: PATH -->             the block is that file, which is not there yet
    <!-- in: PATH, after: LINE --> the block goes in after that line, which is there once
    <!-- in: PATH, at its end -->
    <!-- run -->                   the block is commands, run from the project's folder; each must succeed
    <!-- prints -->                each line of the block is in what the last commands printed

A block without one is a fault: nobody would notice when it stopped being true. CARGO_TARGET_DIR and PACKS_TARGET_DIR
name where the two workspaces are built; WALKS_FOLDER is where the clone goes.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
# Every walk that CONTRIBUTING.md has to have: one that is lost from it is told.
WALKS = ("fact", "field", "rule", "service")


class Fault(Exception):
    """What does not hold, in words."""


def walks(text):
    """Name of each walk, and its blocks: what to do, and the lines."""
    found, name, blocks, todo = {}, None, [], None
    lines = iter(enumerate(text.splitlines(), 1))
    for number, whole in lines:
        line = whole.strip()
        if mark := re.fullmatch(r"<!-- walk: ([a-z-]+) -->", line):
            name, blocks = mark[1], []
            if name in found:
                raise Fault(f"CONTRIBUTING.md:{number}: there are two walks '{name}'")
            found[name] = blocks
        elif re.match(r"##? ", line) and blocks:
            name = None
        elif mark := re.fullmatch(r"<!-- (.+) -->", line):
            todo = mark[1]
        elif line.startswith("```"):
            # in a list the block stands in by as much as its fence
            indent, body = len(whole) - len(whole.lstrip()), []
            for _, inner in lines:
                if inner.strip() == "```":
                    break
                body.append(inner[indent:] if not inner[:indent].strip() else inner)
            if name:
                if not todo:
                    raise Fault(f"CONTRIBUTING.md:{number}: nothing says what is done with this block")
                blocks.append((number, todo, body))
            todo = None
        elif line.strip():
            todo = None
    return found


def edit(clone, todo, body):
    """Writes a block to its file."""
    if new := re.fullmatch(r"new: (\S+)", todo):
        path = clone / new[1]
        if path.exists():
            raise Fault(f"{new[1]} is there already")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("\n".join(body) + "\n", encoding="utf-8")
        return
    if end := re.fullmatch(r"in: (\S+), at its end", todo):
        with (clone / end[1]).open("a", encoding="utf-8") as file:
            file.write("\n" + "\n".join(body) + "\n")
        return
    after = re.fullmatch(r"in: (\S+), after: (.+)", todo)
    if not after:
        raise Fault(f"'{todo}' is nothing that can be done")
    path = clone / after[1]
    lines = path.read_text(encoding="utf-8").split("\n")
    at = [i for i, line in enumerate(lines) if line.strip() == after[2].strip()]
    if len(at) != 1:
        raise Fault(f"{after[1]} has the line '{after[2]}' {len(at)} times")
    lines[at[0] + 1 : at[0] + 1] = body
    path.write_text("\n".join(lines), encoding="utf-8")


def run(clone, body, environment):
    """Runs commands and gives what they printed."""
    script = "set -euo pipefail\n" + "\n".join(body)
    done = subprocess.run(
        ["bash", "-c", script], cwd=clone, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    if done.returncode:
        raise Fault(f"status {done.returncode} of\n" + "\n".join(body) + "\n\n" + done.stdout[-6000:])
    return done.stdout


def cloned(folder):
    """A clone of what is committed, and what its commands are run with."""
    clone = pathlib.Path(folder) / "thou"
    shutil.rmtree(clone, ignore_errors=True)
    subprocess.run(["git", "clone", "--quiet", "--no-hardlinks", str(ROOT), str(clone)], check=True)
    environment = dict(os.environ)
    # a person has no such variables: each workspace is built in its own `target`
    for variable, workspace in (("CARGO_TARGET_DIR", "."), ("PACKS_TARGET_DIR", "rulepacks")):
        if target := environment.pop(variable, None):
            pathlib.Path(target).mkdir(parents=True, exist_ok=True)
            (clone / workspace / "target").symlink_to(pathlib.Path(target).resolve())
    return clone, environment


def walk(name, blocks, clone, environment):
    """One walk, from what is committed on."""
    # what the last walk left alone keeps its times, and is not compiled again
    subprocess.run(["git", "checkout", "--quiet", "."], cwd=clone, check=True)
    subprocess.run(["git", "clean", "--quiet", "-fd", "-e", "target"], cwd=clone, check=True)
    printed, ran = None, 0
    for number, todo, body in blocks:
        try:
            if todo == "run":
                printed = run(clone, body, environment)
                ran += 1
            elif todo == "prints":
                if printed is None:
                    raise Fault("nothing has printed yet")
                for line in filter(str.strip, body):
                    if line.strip() not in printed:
                        raise Fault(f"not printed: {line.strip()}\nprinted was\n{printed[-4000:]}")
            else:
                edit(clone, todo, body)
        except Fault as fault:
            raise Fault(f"CONTRIBUTING.md:{number}: {name}: {fault}") from None
    if not ran:
        raise Fault(f"{name}: nothing is run")


def main():
    try:
        found = walks((ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8"))
        if sorted(found) != sorted(WALKS):
            raise Fault(f"CONTRIBUTING.md has the walks {sorted(found)}, and not {sorted(WALKS)}")
        wanted = sys.argv[1:] or list(found)
        if unknown := [name for name in wanted if name not in found]:
            raise Fault(f"there is no walk {unknown}")
        clone, environment = cloned(os.environ.get("WALKS_FOLDER") or tempfile.mkdtemp())
        for name in wanted:
            began = time.monotonic()
            walk(name, found[name], clone, environment)
            print(f"  {name:<10} {time.monotonic() - began:5.0f} s", flush=True)
    except Fault as fault:
        print(fault, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
