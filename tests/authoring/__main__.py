"""python tests/authoring [WALK...]: does what DEVELOPERS.md tells authors of packs, word for word, in a folder of its own.

The walks: target (the message where Rust has no target for packs comes before anything is compiled), rust, table,
javascript, python, c. After its own steps each pack is signed, locked beside a sheet and used from there. THOU names the
program, PACKS_TARGET_DIR where Rust builds, EXAMPLES_TOOLS where rulepacks/examples/build.sh keeps what npm and PyPI gave: what
is there and still what is asked for is not fetched again.
"""

import json
import os
import pathlib
import re
import shutil
import stat
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SHEET = ROOT / "sample-builds" / "bracket.json"
LANGUAGES = {"javascript": "JavaScript", "python": "Python", "c": "C"}


class Fault(Exception):
    """What does not hold, in words."""


def section(heading):
    """What stands under a heading, to the next of its rank or above."""
    rank = heading.split(" ")[0]
    start = TEXT.index("\n" + heading + "\n") + len(heading) + 2
    ends = [m.start() for m in re.finditer(r"^#+ ", TEXT[start:], re.M) if len(TEXT[start + m.start() :].split(" ")[0]) <= len(rank)]
    return TEXT[start : start + ends[0]] if ends else TEXT[start:]


def commands(text, first):
    """The indented lines of the block that begins with these words, without their remarks."""
    lines = text.splitlines()
    at = next((i for i, line in enumerate(lines) if line.startswith("    " + first)), None)
    if at is None:
        raise Fault(f"DEVELOPERS.md has no line that begins with {first!r}")
    block = []
    for line in lines[at:]:
        if not line.startswith("    "):
            break
        block.append(re.sub(r"\s+#.*", "", line).strip())
    return block


def run(command, folder, environment):
    began = time.monotonic()
    done = subprocess.run(command, shell=True, cwd=folder, env=environment, capture_output=True, text=True)
    # a sheet is judged by a pack of one rule: what it comes to is the sheet's affair, a pack that fails is ours
    allowed = (0, 1, 4) if command.startswith("thou check") else (0,)
    if done.returncode not in allowed:
        raise Fault(f"{command}: status {done.returncode}\n{done.stdout[-2000:]}{done.stderr[-4000:]}")
    print(f"{time.monotonic() - began:8.1f} s  {command}", flush=True)
    return done.stdout + done.stderr


def given_out(pack, folder, environment):
    """Signed, locked beside a sheet with the key, and used from there: by who locked it, and by nobody else."""
    shop = folder / "given-out"
    shop.mkdir()
    shutil.copy(folder / "sheet.json", shop)
    for beside in folder.glob("*.csv"):
        shutil.copy(beside, shop)
    shutil.copy(pack, shop)
    (shop / "packs").write_text(pack.name + "\n", encoding="utf-8")
    run("thou pack keys --out shop --no-password", shop, environment)
    run(f"thou pack sign {pack.name} --key shop.key", shop, environment)
    run(f"thou pack lock {pack.name} --key shop.pub", shop, environment)
    run("thou check sheet.json", shop, environment)
    for settings, counts in ((environment["XDG_CONFIG_HOME"], True), (str(folder / "somebody-else"), False)):
        # a pack that does not count is a fault of its own
        listed = run("thou pack list --sheet sheet.json || [ $? = 3 ]", shop, {**environment, "XDG_CONFIG_HOME": settings})
        if (f"({pack.name})" in listed) != counts:
            raise Fault(f"a pack that was locked here counts elsewhere, or not here:\n{listed}")


def kept(language, folder):
    """What was fetched for this language before, if it is what this pack asks for: then it is put in its place."""
    tools = pathlib.Path(os.environ.get("EXAMPLES_TOOLS", "")) / language
    if language == "javascript":
        asked = [json.loads((at / "package.json").read_text(encoding="utf-8"))["dependencies"] for at in (folder, tools) if (at / "package.json").exists()]
        name, same = "node_modules", len(asked) == 2 and asked[0] == asked[1]
    else:
        installed = tools / "installed.txt"
        name, same = "venv", installed.exists() and installed.read_bytes() == (folder / "requirements.txt").read_bytes()
    if "EXAMPLES_TOOLS" in os.environ and same:
        (folder / name).symlink_to(tools / name if language == "javascript" else tools)
        return True
    return False


def rust(folder, environment):
    text = section("## Writing a rule pack")
    run("thou pack new our-shop", folder, environment)
    blocks = re.findall(r"^```rust\n(.*?)^```", text, re.M | re.S)
    for block, file in zip(blocks, ("lib.rs", "end_play.rs"), strict=True):
        written = (folder / "our-shop" / "src" / file).read_text(encoding="utf-8")
        if written.strip() != block.strip():
            raise Fault(f"DEVELOPERS.md shows another src/{file} than `thou pack new` writes")
    for command in commands(text, "thou pack build our-shop"):
        run(command, folder, environment)
    new_rule = re.search(r"`(thou pack new-rule [^`]*)`", text)[1]
    run(new_rule, folder / "our-shop", environment)
    run("thou pack test .", folder / "our-shop", environment)
    given_out(folder / "our-shop.wasm", folder, environment)


def table(folder, environment):
    text = section("## A shop's own table")
    told = re.findall(r"`(thou pack [^`]* our-shop[^`]*)`", text.replace("\n", " "))
    if len(told) < 3:
        raise Fault(f"of a table DEVELOPERS.md tells only {told}")
    for command in told:
        run(command, folder, environment)
    example = re.search(r"^```jsonc\n(.*?)^```", text, re.M | re.S)[1]
    (folder / "example.json").write_text(example, encoding="utf-8")
    run("thou check sheet.json --pack example.json", folder, environment)
    given_out(folder / "our-shop.wasm", folder, environment)


def other(language):
    def walk(folder, environment):
        text = section("### In JavaScript, Python or C")
        row = next(l for l in text.splitlines() if l.startswith(f"| {LANGUAGES[language]} |"))
        once, each = [re.findall(r"`([^`]*)`", cell) for cell in row.split("|")[2:4]]
        after = commands(text, "thou pack build ring-gaps.component.wasm")
        if language == "c":
            after[0] = after[0].replace("component", "core")
        run(f"thou pack new our-shop --in {language}", folder, environment)
        if kept(language, folder / "our-shop"):
            once = []
        for command in [*once, *each, *after]:
            command = command.replace("ring-gaps", "our-shop").replace("ring_gaps", "our_shop")
            run(command.replace("sheet.json", "../sheet.json"), folder / "our-shop", environment)
        given_out(folder / "our-shop" / "our-shop.wasm", folder, environment)

    return walk


def target(folder, environment):
    """A Rust whose library has no target: told with both ways, and nothing is compiled."""
    bare = folder / "bare"
    (bare / "lib" / "rustlib").mkdir(parents=True)
    tool = folder / "rustc-bare"
    tool.write_text(f'#!/bin/sh\ncase "$*" in *sysroot*) echo {bare};; *) echo rustc 1.95.0;; esac\n')
    tool.chmod(tool.stat().st_mode | stat.S_IXUSR)
    run("thou pack new our-shop", folder, environment)
    built = folder / "target"
    inside = {**environment, "RUSTC": str(tool), "CARGO_TARGET_DIR": str(built), "CARGO_UNSTABLE_BUILD_STD": ""}
    began = time.monotonic()
    done = subprocess.run("thou pack build our-shop", shell=True, cwd=folder, env=inside, capture_output=True, text=True)
    for words in ("nothing was compiled", "rustup target add wasm32-unknown-unknown", "apt-get install", "RUSTC_BOOTSTRAP=1"):
        if words not in done.stderr:
            raise Fault(f"without the target, {words!r} is not told:\n{done.stderr}")
    if done.returncode == 0 or built.exists() or time.monotonic() - began > 10:
        raise Fault("without the target something was compiled")


WALKS = {"target": target, "rust": rust, "table": table, **{name: other(name) for name in LANGUAGES}}


def main(names):
    if unknown := [n for n in names if n not in WALKS]:
        raise Fault(f"no walk {unknown[0]}: there are {', '.join(WALKS)}")
    thou = pathlib.Path(os.environ.get("THOU") or ROOT / "target" / "release" / "thou").resolve()
    for name in names or WALKS:
        began = time.monotonic()
        print(f"== {name}", flush=True)
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            (folder / "bin").mkdir()
            (folder / "bin" / "thou").symlink_to(thou)
            shutil.copy(SHEET, folder / "sheet.json")
            for beside in SHEET.parent.glob("*.csv"):
                shutil.copy(beside, folder)
            environment = {**os.environ, "PATH": f"{folder / 'bin'}:{os.environ['PATH']}", "XDG_CONFIG_HOME": str(folder / "settings")}
            if packs := os.environ.get("PACKS_TARGET_DIR"):
                environment["CARGO_TARGET_DIR"] = packs
            WALKS[name](folder, environment)
        print(f"   {name}: {time.monotonic() - began:.0f} s", flush=True)


try:
    main(sys.argv[1:])
except Fault as fault:
    sys.exit(f"tests/authoring: {fault}")
