#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The outputs shown in README.md and docs/ are those of the program.
# usage: DEW_BUILD=build/gcc tests/cli/test_real.sh
set -u
build=$(realpath "${DEW_BUILD:-build/gcc}")
here=$(cd "$(dirname "$0")/../.." && pwd)
bad=0
real=$(mktemp)
trap 'rm -rf "$real" "$real.d"' EXIT
mkdir "$real.d"
export KEPT="$real.d/kept" # what one document has marched another need not
mkdir "$KEPT"
for file in README.md docs/tutorial.md docs/results.md docs/ducts.md \
    docs/spread.md docs/size.md; do
    sh "$here/tests/support/real.sh" "$build" "$here/$file" >"$real"
    if cmp -s "$real" "$here/$file"; then
        echo "ok $file shows what the program prints"
    else
        echo "not ok $file shows another output: make real"
        diff "$here/$file" "$real" | head -10
        bad=1
    fi
done

# figures and words in sentences, where a line <!-- told: ... --> holds them
for file in README.md docs/tutorial.md docs/ducts.md; do
    if sh "$here/tests/support/told.sh" "$build" "$here/$file" >"$real"; then
        echo "ok $file says in sentences what the program prints"
    else
        echo "not ok $file in its sentences"
        cat "$real"
        bad=1
    fi
done

# the picture of the README
"$build/dewledger" run "$here/scenarios/demo.yaml" --kept "$KEPT" --out "$real.d/set" >/dev/null 2>&1
if cmp -s "$real.d/set/charts/answer.svg" "$here/docs/img/answer.svg"; then
    echo "ok the README's picture is drawn by the program"
else
    echo "not ok docs/img/answer.svg is another picture: make pictures"
    bad=1
fi

# the figures that README.md takes over from docs/dev/first-results.md
figures=$(sed -n -e 's/^\* Hours too humid, .*root mean square \([0-9]*\) h.*/differ by \1 h/p' \
    -e 's/^| as assumed | [0-9,]* | [0-9.]* | [0-9.]* | [-+]\([0-9.]*\) | .*/\1/p' \
    "$here/docs/dev/first-results.md")
echo "$figures" >"$real"
if [ "$(wc -l <"$real")" = 3 ] && while read -r figure; do
    grep -qF "$figure" "$here/README.md" || exit 1
done <"$real"; then
    echo "ok README.md has the figures of docs/dev/first-results.md"
else
    echo "not ok README.md wants $figures, of docs/dev/first-results.md"
    bad=1
fi
# how far off the model was in the measured houses: the sentence's own figures
off=$(sed -n 's/^| as assumed | .* | \([0-9.]*\) |$/\1/p' \
    "$here/docs/dev/first-results.md" | sort -n | awk '{ printf "%s%.0f", (NR > 1 ? " and " : ""), $1 }')
if "$build/dewledger" run --quick --full --kept "$KEPT" "$here/scenarios/demo.yaml" 2>/dev/null |
    tr -s '\n ' '  ' | grep -qF "the model was $off points of humidity off"; then
    echo "ok a run says how far off the measured houses were"
else
    echo "not ok a run should say $off points of humidity"
    bad=1
fi
exit $bad
