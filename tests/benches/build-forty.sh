#!/bin/sh
# Builds the pack of forty windows into forty.wasm, with the program that THOU names and the Rust that rulepacks/build.sh
# would take. The bench checks its windows against the table before it times it, so a stale one is told.
set -eu
cd "$(dirname "$0")"
. ../../rulepacks/wasm-toolchain.sh
export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-forty/target}"
"${THOU:-../../target/release/thou}" pack build forty --out forty.wasm
