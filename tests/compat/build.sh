#!/usr/bin/env bash
# Builds the packs that tests/compat/rules-1.0 keeps into OUT, from their sources as they are now:
#   bash tests/compat/build.sh OUT
# every-field from the crate of that name, house-table from rulepacks/examples/table, ring-gaps from the examples in Rust
# and C. THOU_COMPAT=OUT lets tests/tests/compat.rs hold them to the kept answers, as CI does.
# Until the contract is released the kept files themselves may be built anew, and the change log says so; after that never:
#   bash tests/compat/build.sh tests/compat/rules-1.0
# THOU names the program; the rest is as in rulepacks/examples/build.sh, which builds the two ring-gaps.
set -euo pipefail
out="${1:?the folder to build into}"
mkdir -p "$out"
out=$(cd "$out" && pwd)
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
export THOU="${THOU:-$PWD/${CARGO_TARGET_DIR:-target}/release/thou}"

(
  . rulepacks/wasm-toolchain.sh
  export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-$PWD/rulepacks/target/packs}"
  "$THOU" pack build tests/compat/rules-1.0/every-field --out "$out/every-field.wasm"
)
"$THOU" pack build rulepacks/examples/table/ring-gaps.json --out "$out/house-table.wasm"
bash rulepacks/examples/build.sh "$out" rust c

if [ "$out" = "$PWD/tests/compat/rules-1.0" ]; then
  (cd "$out" && sha256sum -- *.wasm > sha256)
fi
