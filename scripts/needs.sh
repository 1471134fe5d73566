#!/bin/sh
# Installs what the build needs, where it can. Asks for nothing on a machine that has it already.
set -eu

if [ $# -gt 0 ]; then
    echo "Usage: sh scripts/needs.sh" >&2
    exit 2
fi

if ! command -v cargo >/dev/null 2>&1; then
    echo "Error: Rust is not installed." >&2
    echo "Hint: install it with rustup, as the Rust project's site describes, then run this again." >&2
    exit 1
fi

# macOS and Windows bring their sound libraries with the system; there is nothing to install.
[ "$(uname -s)" = Linux ] || exit 0

missing=""
command -v cc >/dev/null 2>&1 || missing="build-essential"
command -v pkg-config >/dev/null 2>&1 || missing="$missing pkg-config"
{ command -v pkg-config >/dev/null 2>&1 && pkg-config --exists alsa; } || missing="$missing libasound2-dev"
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
    echo "Error: a C compiler, pkg-config and the ALSA development files are needed." >&2
    echo "Hint: install them with your system's package tool, then run this again." >&2
    exit 1
fi
as_root=""
[ "$(id -u)" -eq 0 ] || as_root="sudo"
$as_root apt-get update -qq
# shellcheck disable=SC2086 # the list is meant to split into words
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $missing
