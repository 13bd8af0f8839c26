"""`thou pack push` and `pull` against a real registry on this computer, and against one that lies.

    python3 tests/registry THOU

THOU is built with the feature `registry`. The real registry is Debian's docker-registry (the reference implementation of
the OCI distribution specification); the one that lies is in liar.py. Nothing leaves the loopback interface.
"""

import hashlib
import json
import os
import pathlib
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request

import liar

ROOT = pathlib.Path(__file__).resolve().parents[2]
# the packs that the program carries are packs like any other
OURS = ROOT / "rulepacks/built/freshen.wasm"
OTHER = ROOT / "rulepacks/built/usage-class.wasm"

thou = str(pathlib.Path(sys.argv[1]).resolve())
passed = failed = 0


def check(name, good, told=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"FAILED {name}\n{told}", file=sys.stderr)


def run(folder, *args):
    """Exit status, and both streams as one text."""
    # a proxy of the environment is not asked about this computer
    env = {k: v for k, v in os.environ.items() if not k.lower().endswith("_proxy")}
    done = subprocess.run([thou, "pack", *args], cwd=folder, env=env, text=True, timeout=120,
                          stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return done.returncode, done.stdout


def says(name, folder, args, status, words):
    """The exact words; nothing is written to the folder by what fails."""
    before = sorted(os.listdir(folder))
    got, told = run(folder, *args)
    # lines fold at 80 columns, and the ports are not always as long
    check(name, (got, told.split()) == (status, words.split()), f"status {got}, wanted {status}\n--- got\n{told}--- wanted\n{words}")
    # a digest with the place before it is longer, and is not folded
    check(f"{name}: 80 columns", all(len(l) <= 80 or "sha256:" in l for l in told.splitlines()), told)
    check(f"{name}: no control characters", not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", told), repr(told))
    if status:
        check(f"{name}: nothing written", sorted(os.listdir(folder)) == before, str(os.listdir(folder)))


def sha256(data):
    return hashlib.sha256(data).hexdigest()


def real(folder, store):
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    config = pathlib.Path(store, "config.yml")
    config.write_text(f"version: 0.1\nstorage: {{filesystem: {{rootdirectory: {store}/data}}}}\n"
                      f"http: {{addr: '127.0.0.1:{port}'}}\nlog: {{level: error}}\n")
    server = subprocess.Popen(["docker-registry", "serve", str(config)], stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL)
    try:
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        for _ in range(100):
            try:
                opener.open(f"http://127.0.0.1:{port}/v2/", timeout=5).read()
                break
            except OSError:
                time.sleep(0.1)
        against_real(folder, store, f"127.0.0.1:{port}", opener)
    finally:
        server.terminate()
        server.wait()


def against_real(folder, store, host, opener):
    ours = OURS.read_bytes()
    shutil.copy(OURS, pathlib.Path(folder, "freshen.wasm"))
    status, told = run(folder, "push", "freshen.wasm", f"{host}/shop/freshen:1.0")
    check("push", status == 0, told)
    manifest = re.search(r"@(sha256:[0-9a-f]{64})\n$", told)
    check("push tells the manifest's digest", manifest, told)
    manifest = manifest.group(1)

    # what lies in the registry is the layout's, read without this project's code
    accept = {"Accept": "application/vnd.oci.image.manifest.v1+json"}
    request = urllib.request.Request(f"http://{host}/v2/shop/freshen/manifests/1.0", headers=accept)
    raw = opener.open(request, timeout=10).read()
    check("the manifest's digest", "sha256:" + sha256(raw) == manifest)
    stored = json.loads(raw)
    check("the manifest", [stored["schemaVersion"], stored["mediaType"], stored["config"]["mediaType"],
                           [(x["mediaType"], x["digest"], x["size"]) for x in stored["layers"]]] ==
          [2, accept["Accept"], "application/vnd.wasm.config.v0+json",
           [("application/wasm", "sha256:" + sha256(ours), len(ours))]], raw.decode())
    blob = f"http://{host}/v2/shop/freshen/blobs/"
    config = json.loads(opener.open(blob + stored["config"]["digest"], timeout=10).read())
    created = config.pop("created")
    check("the config's day", re.fullmatch(r"\d{4}-\d\d-\d\dT00:00:00Z", created), created)
    check("the config", config == {
        "architecture": "wasm", "os": "wasip2", "layerDigests": ["sha256:" + sha256(ours)],
        "component": {"exports": ["thou:rules/pack@1.0.0"], "imports": [], "target": "thou:rules/rule-pack@1.0.0"},
    }, json.dumps(config))
    check("the layer's bytes", opener.open(blob + stored["layers"][0]["digest"], timeout=10).read() == ours)

    # and back, by tag and by digest
    version = re.search(r"freshen (\S+) ", told).group(1)
    for place in (f"{host}/shop/freshen:1.0", f"{host}/shop/freshen@{manifest}"):
        with tempfile.TemporaryDirectory() as empty:
            says(f"pull {place}", empty, ["pull", place], 0,
                 f"freshen.wasm   freshen {version}   {len(ours)} bytes\n  sha256 {sha256(ours)}\n"
                 f"  {host}/shop/freshen@{manifest}\nTo have it count beside a sheet, name it in the file packs there, "
                 "look at it with\n`thou pack list --pack freshen.wasm`, and pin it with `thou pack lock`.\n")
            check("the same bytes", pathlib.Path(empty, "freshen.wasm").read_bytes() == ours)
            # once it is listed and locked, a later pull of the same changes nothing
            pathlib.Path(empty, "packs").write_text("freshen.wasm\n")
            check("lock", run(empty, "lock")[0] == 0)
            status, told = run(empty, "pull", place)
            check("pull again", status == 0 and "bytes, there already\n" in told and "name it" not in told, told)
            pathlib.Path(empty, "freshen.wasm").write_bytes(OTHER.read_bytes())
            says("another file is there", empty, ["pull", place], 2,
                 "freshen.wasm is there already and is another file: give --replace, or another name with --out.\n")
            check("replace", run(empty, "pull", place, "--replace")[0] == 0)
            check("lock holds", run(empty, "lock", "--check")[0] == 0)

    for place in (f"{host}/shop/freshen:2.0", f"{host}/shop/none:1.0", f"{host}/shop/freshen@sha256:{'0' * 64}"):
        says(f"missing {place}", folder, ["pull", place], 3,
             f"the registry has no {place}: check the name and the tag.\n")

    # somebody changes the layer in the registry's own store
    layer = pathlib.Path(store, "data/docker/registry/v2/blobs/sha256", sha256(ours)[:2], sha256(ours), "data")
    bent = bytearray(ours)
    bent[1000] ^= 1
    layer.write_bytes(bent)
    says("tampered layer", folder, ["pull", f"{host}/shop/freshen:1.0", "--out", "bent.wasm"], 3,
         f"{host}/shop/freshen:1.0 is not what its digest says; nothing was written\n"
         f"  wanted  sha256:{sha256(ours)}\n  got     sha256:{sha256(bytes(bent))}.\n")
    # the tag may be moved to another pack, the digest cannot
    shutil.copy(OTHER, pathlib.Path(folder, "other.wasm"))
    run(folder, "push", "other.wasm", f"{host}/shop/freshen:1.0")
    status, told = run(folder, "pull", f"{host}/shop/freshen:1.0", "--out", "moved.wasm")
    check("a tag that was moved", status == 0 and told.startswith("moved.wasm   usage-class "), told)


def against_liar(folder):
    ours = OURS.read_bytes()
    with liar.serve(ours) as host:
        place = f"{host}/shop/x:1"

        def lie(name, status, words):
            at = f"{host}/{name}/x:1"
            says(f"a registry with {name}", folder, ["pull", at], status, words.replace(place, at))

        is_not = f"{place} is not a rule pack: it is "
        layer = "; a pack is one layer of the type application/wasm.\n"
        lie("honest", 0, run_honest(ours, f"{host}/honest/x"))
        os.remove(pathlib.Path(folder, "x.wasm"))
        lie("other-config", 3, f"{is_not}of the type application/vnd.oci.image.config.v1+json{layer}")
        lie("other-layer", 3, f"{is_not}with a layer of the type application/octet-stream{layer}")
        lie("two-layers", 3, f"{is_not}made of 2 layers{layer}")
        lie("index", 3, f"{is_not}a list of several{layer}")
        lie("large", 3, f"{place} is 65 MB, and a pack has at most 64 MB; nothing was written.\n")
        lie("endless", 3, f"{place} is more than it says, and a pack has at most 64 MB; nothing was written.\n")
        lie("other-size", 3, f"{place} is {len(ours)} bytes, and its manifest says 7; nothing was written.\n")
        lie("other-bytes", 3, f"{place} is not what its digest says; nothing was written\n  wanted  sha256:{sha256(ours)}\n"
                              f"  got     sha256:{sha256(liar.OTHER)}.\n")
        lie("no-layer", 3, f"the registry has {place}, and not the layer that it is made of: have it pushed again.\n")
        lie("no-entry", 3, f"the registry does not let you at {place}: give the user it knows with --user, or ask its keeper.\n")
        lie("trouble", 3, f"the registry said no to {place}: status 500, [2Jout of order.\n")
        digest = f"{host}/other-manifest/x@sha256:{'1' * 64}"
        got, told = run(folder, "pull", digest)
        check("another manifest than the digest's", got == 3 and " ".join(told.split()).startswith(
            f"{digest} is not what its digest says; nothing was written wanted sha256:{'1' * 64} got sha256:"), told)
        status, told = run(folder, "pull", f"{host}/not-a-pack/x:1")
        flat = " ".join(told.split())
        no_pack = f"pack {host}/not-a-pack/x:1: it is not a WebAssembly component but a text file"
        check("what is no pack", status == 3 and flat.startswith(no_pack) and flat.endswith("Nothing was written."), told)
        check("no pack, no file", not pathlib.Path(folder, "x.wasm").exists())
    says("a registry that is gone", folder, ["pull", place], 3,
         f"the registry {host} cannot be reached: Connection refused (os error 111); check the name and the network, and "
         "try again.\n")


def run_honest(ours, at):
    manifest = sha256(liar.honest(ours))
    version = re.search(rb'"version":"([^"]+)"', ours).group(1).decode()
    return (f"x.wasm   freshen {version}   {len(ours)} bytes\n  sha256 {sha256(ours)}\n  {at}@sha256:{manifest}\n"
            "To have it count beside a sheet, name it in the file packs there, look at it with\n"
            "`thou pack list --pack x.wasm`, and pin it with `thou pack lock`.\n")


def words_for_places(folder):
    form = "write HOST/NAME:TAG or HOST/NAME@sha256:DIGEST.\n"
    for place, words in (("ours:1", "it names no registry"), ("shop/ours:1", "it names no registry"),
                         ("localhost:9/ours", "it names no tag")):
        says(f"place {place}", folder, ["pull", place], 2,
             f"\"{place}\" is not a place in a registry: {words}; {form}")
    shutil.copy(OURS, pathlib.Path(folder, "a.wasm"))
    at = f"localhost:9/ours@sha256:{'0' * 64}"
    says("push to a digest", folder, ["push", "a.wasm", at], 2, f"\"{at}\" names no tag to push to: write HOST/NAME:TAG.\n")


def network(tree):
    """The crates that the plain program must not have are there with the feature, so that their test can fail."""
    cargo = os.environ.get("CARGO", "cargo")
    out = subprocess.run([cargo, "tree", "-p", "thou", "--locked", "--features", "registry", "-e", "normal", "--prefix",
                          "none", "-f", "{p}"], cwd=ROOT, text=True, check=True, stdout=subprocess.PIPE).stdout
    names = {line.split(" ")[0] for line in out.splitlines() if line}
    for name in tree.read_text().split():
        check(f"{name} comes with the feature", name in names)
    check("no crypto library that takes minutes of C", "aws-lc-sys" not in names and "openssl-sys" not in names)


with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryDirectory() as store:
    words_for_places(folder)
    real(folder, store)
with tempfile.TemporaryDirectory() as folder:
    against_liar(folder)
network(pathlib.Path(__file__).with_name("network.txt"))
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed or not passed else 0)
