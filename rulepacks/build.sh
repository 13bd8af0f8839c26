#!/bin/sh
# Builds the built-in packs into rulepacks/built with `thou pack build`, or with --check says whether what is there
# is what their sources give. Installs nothing: it takes the rustup target wasm32-unknown-unknown where that is
# installed, and otherwise Debian's own Rust, which builds the library for it from source
# (apt-get install --no-install-recommends rustc-web cargo-web rust-web-src).
set -eu
cd "$(dirname "$0")"

thou="${THOU:-}"
if [ -z "$thou" ]; then
  (cd .. && cargo build --release --quiet -p thou)
  thou="${CARGO_TARGET_DIR:-../target}/release/thou"
fi

target=wasm32-unknown-unknown
sysroot=$(rustc --print sysroot)
if [ ! -d "$sysroot/lib/rustlib/$target" ]; then
  if [ ! -x /usr/bin/cargo ] || [ ! -d "$(/usr/bin/rustc --print sysroot)/lib/rustlib/src/rust/library" ]; then
    echo "no Rust here builds $target: rustup target add $target," >&2
    echo "or apt-get install --no-install-recommends rustc-web cargo-web rust-web-src" >&2
    exit 1
  fi
  host=$(rustc -vV | sed -n 's/^host: //p')
  # Debian's Rust has no linker for WebAssembly; rustup's does it
  export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER="$sysroot/lib/rustlib/$host/bin/rust-lld"
  export CARGO=/usr/bin/cargo RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1
  export CARGO_UNSTABLE_BUILD_STD=std,panic_abort CARGO_UNSTABLE_BUILD_STD_FEATURES=
fi
# what one compiler leaves must not be taken for another's
export CARGO_TARGET_DIR="${PACKS_TARGET_DIR:-target/packs}"

for pack in clearances usage-class freshen; do
  "$thou" pack build "$pack" --out "built/$pack.wasm" "$@"
done
