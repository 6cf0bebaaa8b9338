#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The command as WebAssembly says what the command says.  Skipped where its
# compiler, the libraries' sources or Node are not to be had.
# usage: DEW_BUILD=build/gcc tests/page/test_wasm.sh
set -u
cd "$(dirname "$0")/../.." || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p build
export WORK="$work" WASI="$work/wasi.mjs"

flock build/wasm.lock make -s wasm-sources >"$work/log" 2>&1 || {
    echo "skip the command as WebAssembly: no tools or sources for it:" \
        "$(grep -v '^make' "$work/log" | tail -n 1)"
    exit 0
}
command -v node >/dev/null || {
    echo "skip the command as WebAssembly: no node"
    exit 0
}
if flock build/wasm.lock make -s -j2 wasm wasm-lanes >"$work/log" 2>&1; then
    echo "ok it builds"
else
    echo "not ok it builds"
    tail -n 20 "$work/log"
    exit 1
fi
cp engine/page/wasi.js "$WASI" # Node tells a module by its name
node tests/page/wasm.mjs build/wasm "${DEW_BUILD:-build/gcc}/dewledger"
