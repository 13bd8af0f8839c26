#!/bin/sh
# Builds the built-in packs into rulepacks/built with `thou pack build`, or with --check says whether what is there
# is what their sources give. Which Rust it takes: wasm-toolchain.sh.
set -eu
cd "$(dirname "$0")"

thou="${THOU:-}"
if [ -z "$thou" ]; then
  (cd .. && cargo build --release --quiet -p thou)
  thou="${CARGO_TARGET_DIR:-../target}/release/thou"
fi

. ./wasm-toolchain.sh
# what one compiler leaves must not be taken for another's
export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-target/packs}"

for pack in clearances usage-class freshen; do
  "$thou" pack build "$pack" --out "built/$pack.wasm" "$@"
done
# a pack that panics, whose words a test holds
"$thou" pack build panics --out ../tests/packs/panics.wasm "$@"
