#!/bin/sh
# Builds the pack of forty windows into forty.wasm, with the program that THOU names and the Rust that rulepacks/build.sh
# would take. The bench checks its windows against the table before it times it, so a stale one is told.
set -eu
cd "$(dirname "$0")"
target=wasm32-unknown-unknown
sysroot=$(rustc --print sysroot)
if [ ! -d "$sysroot/lib/rustlib/$target" ]; then
  host=$(rustc -vV | sed -n 's/^host: //p')
  export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER="$sysroot/lib/rustlib/$host/bin/rust-lld"
  export CARGO=/usr/bin/cargo RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1
  export CARGO_UNSTABLE_BUILD_STD=std,panic_abort CARGO_UNSTABLE_BUILD_STD_FEATURES=
fi
export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-forty/target}"
"${THOU:-../../target/release/thou}" pack build forty --out forty.wasm
