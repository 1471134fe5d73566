#!/bin/sh
# Builds the core for WebAssembly, with the draws of the golden files as its only exports, and says where the file is.
# Uses the toolchain's own target where it is installed or can be added; else, on Debian, the compiler that the distribution
# builds its browsers with, beside whatever toolchain is in use, and builds the standard library too.
set -eu
cd "$(dirname "$0")/.."

if [ $# -gt 0 ]; then
    echo "Usage: sh scripts/wasm.sh" >&2
    exit 2
fi

triple=wasm32-unknown-unknown
root=$PWD
target=${CARGO_TARGET_DIR:-$root/target}
case $target in
    /*) ;;
    *) target=$root/$target ;;
esac
place=$target/wasm
mkdir -p "$place"

# A package of its own: the core with its dependencies and features, without those of its tests, which an example would add.
# The versions are those of the project.
cp Cargo.lock "$place/Cargo.lock"
cat > "$place/Cargo.toml" <<TOML
[package]
name = "golden-draws"
edition = "2024"

[workspace]

[lib]
name = "golden_draws"
path = "$root/core/examples/golden_draws.rs"
crate-type = ["cdylib"]

[dependencies]
counterpoise-core = { path = "$root/core" }

[profile.release]
lto = true
codegen-units = 1
panic = "abort"
strip = true
TOML

toolchain_has_target() {
    [ -d "$(rustc --print target-libdir --target $triple 2>/dev/null)" ]
}

# The programs of Debian's package of this name, if it is installed: a program of the same name may come first on the path.
packaged() {
    for file in $(dpkg -L "$1-web" 2>/dev/null | grep "^/usr/bin/$1\$"); do
        [ -x "$file" ] && echo "$file"
    done
}

build() {
    "$@" build --release --manifest-path "$place/Cargo.toml" --target-dir "$place/target" --target $triple $build_std
}

build_std=""
if ! toolchain_has_target && command -v rustup >/dev/null 2>&1; then
    echo "Adding the target $triple to the toolchain."
    rustup target add $triple || echo "It could not be added."
fi
if toolchain_has_target; then
    build cargo
else
    packages="rustc-web cargo-web rust-web-src rust-web-llvm"
    # shellcheck disable=SC2086 # the list is meant to split into words
    if ! dpkg -s $packages >/dev/null 2>&1 && [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null 2>&1; then
        apt-get update -qq
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $packages >/dev/null
    fi
    rustc=$(packaged rustc)
    cargo=$(packaged cargo)
    if [ -z "$rustc" ] || [ -z "$cargo" ]; then
        echo "Error: no compiler here builds for $triple." >&2
        echo "Hint: rustup target add $triple, or as root on Debian apt-get install $packages." >&2
        exit 69 # .ci/wasm knows it
    fi
    # Building the standard library is not stable yet; the variable lets a released compiler do it.
    build_std="-Zbuild-std=std,panic_abort"
    build env RUSTC="$rustc" RUSTC_BOOTSTRAP=1 "$cargo"
fi

cp "$place/target/$triple/release/golden_draws.wasm" "$place/golden_draws.wasm"
echo "$place/golden_draws.wasm"
