#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# run: the verdict is about all houses like the one told.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_houses.sh
set -u
top=$(cd "$(dirname "$0")" && pwd)
. "$(dirname "$0")/../support/says.sh"

cp "$top/ranges.yaml" house.yaml

# what was marched is shared between runs: tests/cli/test_kept.sh holds that it
# changes nothing
mkdir kept
kept="--kept kept"

flat() { tr -s '\n ' '  ' <"$1"; }

ends "a screen" 0 run house.yaml --draws 16 $kept
says "at most 80 columns" test -z "$(grep -E '^.{81}' out)"
flat out >words
says "the hours have their range" grep -qE 'in [0-9,]+ hours of the year \([0-9,]+ to [0-9,]+ in 8 of 10 houses like yours\)' words
says "the choice its share" grep -qE 'in (under |over )?[0-9]+ of 100 houses like yours|the first is the best in' words
says "what was drawn is told" grep -qE 'How sure: of 16 houses like yours; two measured ones lay 3 and 9 points off' words
says "the table has keeps and best" grep -q '^option .* limits best ' out

ends "JSON" 0 run house.yaml --draws 16 --json $kept
cp out run.json
ends "the same of a spread" 0 spread house.yaml --draws 16 --json $kept
says "shares and ranges are those of a spread" ${PYTHON:-python3} - <<'END'
import json
r, s = json.load(open("run.json"))["houses"], json.load(open("out"))
def alike(a, b):
    if isinstance(b, dict):
        return a.keys() == b.keys() and all(alike(a[k], b[k]) for k in b)
    return a == b if isinstance(b, str) else abs(a - b) <= 1e-8 * abs(b)
assert r["drawn"] == s["draws"] == 16 and r["seed"] == s["seed"] == 1
assert alike(r["none_will_do"], s["none_will_do"])
for a, b in zip(r["options"], s["options"]):
    for k, v in b.items():
        assert alike(a[k], v), k
    assert len(a["too_humid_by_month_h"]) == 12
f = {x["kind"]: x for x in json.load(open("run.json"))["verdict"]["findings"]}
best = next(f[k] for k in ("best", "best_close", "best_none") if k in f)
if best["kind"] == "best_none":
    assert best["houses_so"] == r["none_will_do"]["houses"]
else:
    assert best["houses_so"] == next(
        o["best"]["houses"] for o in r["options"] if o["name"] == best["option"])
END

ends "files" 0 run house.yaml --draws 16 --out one $kept
says "charts of the houses" test -s one/charts/houses-like-yours.svg -a -s one/charts/houses-by-month.svg
says "and their part of the page" grep -q '<section id="houses">' one/report.html
cp out told
ends "on one processor" 0 run house.yaml --draws 16 --out two --set run.draws=16 $kept
says "the same summary but for how it was asked" ${PYTHON:-python3} - <<'END'
import json
a, b = (json.load(open(d + "/summary.json")) for d in ("one", "two"))
assert a["houses"] == b["houses"] and a["verdict"] == b["verdict"]
END

ends "quick" 0 run house.yaml --quick --json
says "draws none and says so" ${PYTHON:-python3} - <<'END'
import json
r = json.load(open("out"))
assert r["houses"] is None
assert all(f["houses_so"] is None for f in r["verdict"]["findings"])
assert not any(f["kind"] == "best_close" for f in r["verdict"]["findings"])
END
ends "none by the scenario" 0 run house.yaml --set run.draws=0 --json
says "draws none either" grep -q '"houses": null' out

# not told, so many that there are at most 1,024 years (tests/run/test_spread.c);
# the options are alike, so that one is marched and the others are kept
{
    sed '/^options/,$d; /^cooling/d' house.yaml
    echo 'temperature: {given: 75 degF}' # a still house takes less to march
    echo options:
    for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17; do echo "  - name: option $i"; done
} >many.yaml
ends "seventeen options" 0 run many.yaml --json --set run.steps_per_hour=1 $kept
says "of a third as many houses" grep -q '"drawn": 32' out

ends "too many" 2 run house.yaml --draws 70000
says "the most is told" grep -q 'draws' err
ends "too many by the key" 1 run house.yaml --set run.draws=70000
says "the most is told too" grep -q 'run.draws: 70000 is above' err
exit $bad
