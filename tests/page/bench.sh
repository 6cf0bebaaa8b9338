#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# How fast the module is, as ratios of one run: a house in lanes against alone,
# and the demo against the command that gcc made.
# usage: bench.sh FOLDER PROGRAM, at the root of the tree
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp engine/page/wasi.js "$work/wasi.mjs"
WASI="$work/wasi.mjs" node tests/page/bench.mjs "$1" "$2"
