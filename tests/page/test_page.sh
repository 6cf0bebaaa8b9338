#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The page in a browser: each shipped scenario in the command's words, the whole
# way of someone new, wrong inputs, hostile ones, files, no request.  Skipped
# where chromium, Node, what drives the one from the other, or what compiles the
# page is not to be had.
# usage: DEW_BUILD=build/gcc tests/page/test_page.sh
set -u
cd "$(dirname "$0")/../.." || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export WORK="$work"
DRIVER=playwright-core@1.49.1 # runs on Node 18 and later

skipped() {
    echo "skip the page in a browser: $1"
    exit 0
}

browser=
for b in chromium chromium-browser google-chrome; do
    [ -n "$browser" ] || browser=$(command -v $b)
done
[ -n "$browser" ] || skipped "no chromium"
command -v node >/dev/null || skipped "no node"
mkdir -p build
flock build/wasm.lock make -s wasm-sources >"$work/log" 2>&1 ||
    skipped "no tools or sources for it: $(grep -v '^make' "$work/log" | tail -n 1)"
if flock build/wasm.lock make -s -j2 page >"$work/log" 2>&1; then
    echo "ok it is made"
else
    echo "not ok it is made"
    tail -n 20 "$work/log"
    exit 1
fi

# the same bytes each time, whoever makes them
status=0
for i in 1 2; do
    TZ=UTC-$i node engine/page/assemble.mjs build/wasm "$work/$i.html" || status=1
    sleep 1
done
if [ $status = 0 ] && cmp "$work/1.html" "$work/2.html" && cmp "$work/1.html" build/page/dewledger.html; then
    echo "ok made twice it has the same $(wc -c <"$work/1.html") bytes"
else
    echo "not ok made twice it has the same bytes"
    status=1
fi
cp engine/page/yaml.js "$work/yaml.mjs"
cp engine/page/questions.js "$work/questions.mjs"
QUESTIONS="$work/questions.mjs" node tests/page/yaml.mjs "$work/yaml.mjs" "${DEW_BUILD:-build/gcc}/dewledger" || status=1

[ -d build/page/node_modules/playwright-core ] ||
    npm install --silent --no-audit --no-fund --prefix build/page $DRIVER >"$work/log" 2>&1 ||
    skipped "npm cannot fetch $DRIVER"
BROWSER=$browser node tests/page/page.mjs build/page/dewledger.html \
    "${DEW_BUILD:-build/gcc}/dewledger" || status=1
exit $status
