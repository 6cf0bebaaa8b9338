#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# How fast the page is in a browser: first screen, first verdict, one change,
# memory; medians, and the command on the same scenario beside them.
# usage: speed.sh PAGE PROGRAM, at the root of the tree.  ROUNDS=9 for more than 5;
# SURE=1 waits for houses like it too
set -eu
for b in chromium chromium-browser google-chrome; do
    BROWSER=${BROWSER:-$(command -v $b || true)}
done
[ -n "$BROWSER" ] || { echo "skip the page's speed: no chromium"; exit 0; }
[ -d build/page/node_modules/playwright-core ] ||
    npm install --silent --no-audit --no-fund --prefix build/page playwright-core@1.49.1 ||
    { echo "skip the page's speed: npm cannot fetch what drives the browser"; exit 0; }
export BROWSER
node tests/page/speed.mjs "$1" "$2"
