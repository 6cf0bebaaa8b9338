#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# spread: what to measure first, indices, files of draws.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_spread_worth.sh
set -u
. "$(dirname "$0")/../support/says.sh"

# held at one temperature, without machines, sun or stores: hundreds of it are marched
cat >house.yaml <<'END'
title: A made-up house
weather: {place: 727930}
run: {steps_per_hour: 1}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 4 ach50}
people: {count: 4 (1 to 8)}
limits: {fresh_air_rule: none, too_humid: 70 %}
temperature: {given: 75 degF}
windows: {north: 0 ft2, east: 0 ft2, south: 0 ft2, west: 0 ft2}
buffering: {class: none}
moisture: {dishes: 0.4 kg/day (0.399 to 0.401)}
options:
  - name: as it stands
  - name: a dehumidifier
    dehumidifier: {rate: 70 pint/day, set: 55 % (54 to 56)}
    costs: {install: 2500 $}
END

# The same houses are marched once: tests/cli/test_kept.sh holds that it changes
# nothing.  A block of houses is named by all of them, and threads part blocks.
mkdir kept
told="spread house.yaml --told --kept kept --threads 1"

# ---- a file of draws -------------------------------------------------------------
ends "draws written" 0 $told --draws 12 --csv draws.csv
cp out told
says "a row for each option of each draw" test "$(wc -l <draws.csv)" = 25
ends "draws taken" 0 $told --from draws.csv --csv again.csv
says "the same bytes of every figure" cmp draws.csv again.csv
says "the same text but for where they are from" sh -c '
    tr -s "\n" " " <told | sed "s/(seed 1)/(draws of draws.csv)/" >one
    tr -s "\n" " " <out >two; cmp one two'
ends "another seed" 0 $told --draws 12 --seed 5 --csv other.csv
says "makes others" sh -c '! cmp -s draws.csv other.csv'
says "shares and figures are as their names say" ${PYTHON:-python3} - <<'END'
import csv
rows = list(csv.DictReader(open("draws.csv")))
assert [r["draw"] for r in rows[:4]] == ["1", "1", "2", "2"]
assert rows[1]["name"] == "a dehumidifier"
for r in rows:
    assert 0 < float(r["share of people.count"]) < 1
    assert 1 < float(r["people.count [-]"]) < 8
    assert abs(float(r["moisture.dishes [kg/s]"]) * 86400 - 0.4) < 0.0011
    assert 0 <= float(r["too_humid_h"]) <= 8760 and r["best"] in "01"
# many people, a high share
a, b = sorted(rows[::2], key=lambda r: float(r["people.count [-]"]))[::11]
assert float(a["share of people.count"]) < float(b["share of people.count"])
keep = [k for k in rows[0] if k == "draw" or k.startswith("share of ")]
with open("bare.csv", "w") as f:
    w = csv.DictWriter(f, keep, extrasaction="ignore", lineterminator="\r\n")
    w.writeheader()
    w.writerows(rows[::2])
END
ends "shares alone" 0 $told --from bare.csv --csv again.csv
says "are all that it takes" cmp draws.csv again.csv

# each fault, all in one pass
fault() { # WHAT LINE
    says "$1" grep -qxF "dewledger: $2" err
}
cat >bad.csv <<'END'
draw,share of people.count,share of moon,share of people.count
1,0.5,0.2,0.5
3,0.5,0.2,0.5
2,half,1,0.5
1,0.5,0.2,0.4
1,0.5
END
ends "a bad file" 1 spread house.yaml --told --from bad.csv --csv none.csv
fault "a name twice" 'bad.csv:1:4: people.count: this column is there twice'
fault "an order that is none" 'bad.csv:3:1: draw: number the draws 1, 2, 3 ... in their order'
fault "a word" 'bad.csv:4:2: people.count: "half" is no share: write a number above 0 and below 1'
fault "an end" 'bad.csv:4:3: moon: "1" is no share: write a number above 0 and below 1'
fault "another share of the same draw" 'bad.csv:5:4: people.count: not the share of the row above, which is the same draw'
fault "a short row" 'bad.csv:6:1: this row has not as many cells as there are names'
says "nothing is written" test ! -e none.csv -a ! -s out
printf 'draw,share of moon\n1,0.5\n' >bad.csv
ends "names of other houses" 1 spread house.yaml --told --from bad.csv
fault "a name too many" 'bad.csv:1:2: moon: nothing is drawn for this column: give it a range, or leave the column out'
fault "one too few" 'bad.csv:1:1: people.count: it is drawn, and the file has no column "share of" it'
printf 'x,y\n1,2\n' >bad.csv
ends "no draws at all" 1 spread house.yaml --told --from bad.csv
fault "no number" 'bad.csv:1:1: draw: this column is absent: it numbers the draws 1, 2, 3 ...'
fault "no share" 'bad.csv:1:1: there is no column "share of KEY" to take draws from'
printf 'draw,share of people.count\n' >bad.csv
ends "names alone" 1 spread house.yaml --told --from bad.csv
fault "no draw" 'bad.csv:1:1: there is no draw in this file'
ends "no file" 1 spread house.yaml --told --from none.csv
ends "draws of both" 2 spread house.yaml --told --from bare.csv --draws 16
ends "nowhere to write" 3 $told --draws 12 --csv none/draws.csv
says "and nothing printed" test ! -s out

# ---- indices -----------------------------------------------------------------------
says "few houses say how to tell what to measure" grep -q 'What to measure first takes more houses to tell' told
ends "indices" 0 $told --draws 51 --indices=16
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "a row for each doubted figure" test "$(grep -cE '^(people.count|moisture.dishes|dehumidifier.set|the weather|the model itself) +[0-9]+ \(' out)" = 5
# on several threads they are the same: tests/run/test_effects.c
ends "as JSON" 0 $told --draws 51 --indices=16 --json
says "shares with their intervals" ${PYTHON:-python3} - <<'END'
import json
x = json.load(open("out"))["indices"]
assert x["of"] == "too_humid_h" and x["points"] == 16
rows = {}
for r in x["shares_of_variance"]:
    rows.setdefault(r["option"], []).append(r)
assert list(rows) == ["as it stands", "a dehumidifier"]
now = rows["as it stands"]
keys = [r["key"] for r in now]
assert keys == [r["key"] for r in rows["a dehumidifier"]]
assert sorted(keys) == ["dehumidifier.set", "moisture.dishes", "people.count", "the model itself", "the weather"]
assert keys[0] == "people.count", keys
most = sorted(now, key=lambda r: -r["total"]["share"])
assert [r["key"] for r in most[:2]] == ["people.count", "the model itself"]
# there is none in the house as it stands
assert next(r for r in now if r["key"] == "dehumidifier.set")["total"]["share"] == 0
for r in now:
    for s in (r["first"], r["total"]):
        assert s["low"] <= s["share"] <= s["high"]
END
ends "too few points" 2 spread house.yaml --told --indices=3
ends "too few draws to rank by" 1 $told --draws 12 --indices=16

# ---- what to measure first -----------------------------------------------------------
# 1,024 are asked for; 128 are marched, 64 of them in each of two years, and stand
# in the file eight times: so laid out, the blocks of a year are the same block.
# EVERY=1: 1,024 of its own.
${PYTHON:-python3} - <<'END'
def halton(i, base):
    x, part = 0, 1
    while i:
        part /= base
        x += part * (i % base)
        i //= base
    return x
primes = {"people.count": 2, "the model itself": 3, "moisture.dishes": 5, "dehumidifier.set": 7}
with open("laid.csv", "w") as f:
    print("draw", "share of the weather", *("share of " + k for k in primes), sep=",", file=f)
    for row in range(1024):
        year = row // 512
        point = 64 * year + row % 64 + 1
        print(row + 1, 0.25 + year / 2, *(halton(point, p) for p in primes.values()), sep=",", file=f)
END
laid="--from laid.csv"
[ -z "${EVERY-}" ] || laid="--draws 1024"
ends "1,024 houses" 0 $told $laid
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
tr -s '\n ' ' ' <out >line
says "what is chosen as things stand" grep -q 'What to measure first As things stand, "[a-z ]*" is the choice that loses least over all these houses: what it costs over 15 years' line
says "at which prices" grep -q '$0.50 too humid, $0.25 too dry, $0.50 short of fresh air' line
says "what to do, and how often it turns the choice" grep -qE 'A month of logging indoors \((people.count|moisture.dishes|the model itself)(, (people.count|moisture.dishes|the model itself)){2}\) would turn this choice in [0-9]+ of 100 houses' line
says "what does not matter" grep -q 'no one of these would turn it by itself:.* dehumidifier.set' line
says "and what all of it is worth" grep -qE 'To know everything, the weather too, would be worth \$[0-9,]+\.' line
ends "as JSON, unpriced" 0 $told $laid --json --set costs.install=none
says "it is the same told" ${PYTHON:-python3} - <<'END'
import json
x = json.load(open("out"))["what_to_measure"]
assert x["loss_of"] == "hours_of_a_year" and x["per_hour_too_dry"] == 0.25
by = {r["known"][0]: r for r in x["by_key"]}
assert len(by) == 5 and "measure" not in by["people.count"]
for r in x["by_key"] + x["measurements"]:
    assert r["told"] == (r["worth"] > r["worth_by_chance"]), r
    assert r["worth"] <= x["worth_of_all"] + 1e-9 and r["saves_cost"] is None
assert not by["moisture.dishes"]["told"]
# a machine that only dries, of hours alone: it is always chosen
assert x["loses_least"] == "a dehumidifier"
END
exit $bad
