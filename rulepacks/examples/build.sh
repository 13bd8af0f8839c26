#!/usr/bin/env bash
# Builds the example pack in its four languages into OUT as ring-gaps-<language>.wasm, each by the commands of its
# README, in a copy of its folder as a stranger would have it.
#   bash rulepacks/examples/build.sh OUT [rust] [javascript] [python] [c]
# THOU names the program; EXAMPLES_TOOLS the folder where npm's and PyPI's packages are kept, fetched once
# (thou/languages in the user's cache). Needs node with npm, and python3 with venv.
set -euo pipefail
out="${1:?the folder to build into}"
mkdir -p "$out"
out=$(cd "$out" && pwd)
shift
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
thou="${THOU:-$here/../../${CARGO_TARGET_DIR:-target}/release/thou}"
tools="${EXAMPLES_TOOLS:-${XDG_CACHE_HOME:-$HOME/.cache}/thou/languages}"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# A copy of the folder, with what all languages share.
copy() {
  mkdir -p "$work/$1"
  cp "$here/$1"/* "$here/manifest.json" "$here/../../schemas/rules-1.0.wit" "$work/$1/"
  cp -r "$here/cases" "$work/$1/"
  cd "$work/$1"
}

# From what the language's tools made to a pack that holds to its cases.
finish() {
  "$thou" pack build "$1" --out "$out/ring-gaps-$2.wasm"
  "$thou" pack test "${3:-.}" --pack "$out/ring-gaps-$2.wasm"
}

# A virtual environment with the packages of requirements.txt, made again where they changed.
venv() {
  if ! cmp -s requirements.txt "$tools/$1/installed.txt"; then
    rm -rf "$tools/$1"
    python3 -m venv "$tools/$1"
    "$tools/$1/bin/python" -m pip install --quiet --disable-pip-version-check --only-binary=:all: -r requirements.txt
    cp requirements.txt "$tools/$1/installed.txt"
  fi
  PATH="$tools/$1/bin:$PATH"
}

rust() {
  (
    cd "$here/.."
    . ./wasm-toolchain.sh
    export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-$here/../target/packs}"
    finish examples/rust rust examples
  )
}

javascript() {
  copy javascript
  if ! cmp -s package-lock.json "$tools/javascript/package-lock.json"; then
    rm -rf "$tools/javascript"
    mkdir -p "$tools/javascript"
    cp package.json package-lock.json "$tools/javascript/"
    # one that was cut short is fetched again
    npm ci --prefix "$tools/javascript" --silent --no-audit --no-fund || { rm -rf "$tools/javascript"; return 1; }
  fi
  ln -s "$tools/javascript/node_modules" node_modules
  node build.mjs
  finish ring-gaps.component.wasm javascript
}

python() {
  copy python
  venv python
  componentize-py --quiet -d rules-1.0.wit -w rule-pack componentize --stub-wasi ring_gaps -o ring-gaps.component.wasm
  finish ring-gaps.component.wasm python
}

c() {
  copy c
  venv c
  command python -m ziglang cc -target wasm32-wasi -mexec-model=reactor -std=c23 -Os -s \
    ring_gaps.c rule_pack.c rule_pack_component_type.o -o ring-gaps.core.wasm
  finish ring-gaps.core.wasm c
}

for language in "${@:-rust javascript python c}"; do
  for each in $language; do
    ("$each")
  done
done
