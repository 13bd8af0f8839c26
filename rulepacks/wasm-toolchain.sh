# Sourced by what builds packs in Rust: names in the environment a Rust that builds wasm32-unknown-unknown. Installs
# nothing: it takes the rustup target where that is installed, and otherwise Debian's own Rust, which builds the
# library for it from source (apt-get install --no-install-recommends rustc-web cargo-web rust-web-src). That one has to be
# the packs' rust-version at the least, as bookworm-security's is; cargo refuses an older one by name.
target=wasm32-unknown-unknown
sysroot=$(rustc --print sysroot)
if [ ! -d "$sysroot/lib/rustlib/$target" ]; then
  if [ ! -x /usr/bin/cargo ] || [ ! -d "$(/usr/bin/rustc --print sysroot)/lib/rustlib/src/rust/library" ]; then
    echo "no Rust here builds $target: rustup target add $target," >&2
    echo "or apt-get install --no-install-recommends rustc-web cargo-web rust-web-src" >&2
    exit 1
  fi
  # cargo before 1.85 knows no edition 2024 and says so in words of its own; from there on it names the rust-version itself
  minor=$(/usr/bin/rustc --version | sed 's/^rustc 1\.\([0-9]*\).*/\1/')
  if [ "$minor" -lt 85 ]; then
    echo "Debian's Rust here is 1.$minor, too old for a pack: rustup target add $target," >&2
    echo "or take rustc-web, cargo-web and rust-web-src from a newer suite" >&2
    exit 1
  fi
  host=$(rustc -vV | sed -n 's/^host: //p')
  # Debian's Rust has no linker for WebAssembly; rustup's does it
  export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER="$sysroot/lib/rustlib/$host/bin/rust-lld"
  export CARGO=/usr/bin/cargo RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1
  export CARGO_UNSTABLE_BUILD_STD=std,panic_abort CARGO_UNSTABLE_BUILD_STD_FEATURES=
fi
