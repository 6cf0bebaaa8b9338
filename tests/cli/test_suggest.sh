#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# run --suggest: options made for a house, marched, and written out.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_suggest.sh
set -u
. "$(dirname "$0")/../support/says.sh"

# what was marched is shared between runs: tests/cli/test_kept.sh holds that it
# changes nothing
mkdir kept
kept="--kept kept"

# Held at one temperature, without sun, stores or ducts: some fifty years of it are
# marched each time that options are made.  What else is tried, ties to ducts and
# humidifiers among it: tests/run/test_suggest.c.
cat >house.yaml <<'END'
title: A made-up house
weather: {place: 727930}
run: {steps_per_hour: 1}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}
heating: {by_air: no}
temperature: {given: 75 degF}
windows: {north: 0 ft2, east: 0 ft2, south: 0 ft2, west: 0 ft2}
buffering: {class: none}
limits: {too_dry: 15 %, too_humid: 65 %}
people: {count: 6}
END

ends "one option" 0 run house.yaml $kept --quick
says "says what to try" grep -q '^One option is no comparison: `dewledger run --suggest` with' out
ends "written out" 0 run house.yaml $kept --quick --suggest --yaml
says "only the text" sh -c 'head -1 out | grep -q "^title: A made-up house" && grep -q "^  - name: as it stands$" out'
says "prices are called a guess" sh -c 'test "$(grep -c "date: our guess 2025" out)" = "$(($(grep -c "^  - name" out) - 1))"'
cp out made.yaml
says "it is a sound scenario" "$D" check made.yaml
# made anew from its own
ends "options made" 0 run made.yaml $kept --quick --suggest --full
says "nothing on stderr where there is no terminal" test ! -s err
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "they are compared as others are" grep -q '^1 as it stands ' out
tr -s '\n ' '  ' <out >flat
says "it tells how many were tried and left" grep -q 'house: 15 were tried, .* 4 are left\. Prices to install are our guess' flat
says "what was left out is named, with what left it out" grep -q '"heat core" (for "' flat
says "has cores tried at the airflow that keeps the limits" grep -qE '(heat|enthalpy) core(, dehumidifier)? at [0-9]+ cfm' flat
says "it says no more that one is no comparison" sh -c '! grep -q "no comparison" out'
grep '^[0-9] ' out >suggested
ends "and runs" 0 run made.yaml $kept --quick --full
says "to the same table" sh -c 'grep "^[0-9] " out >a; test -s a && cmp a suggested'

# ---- where the file has no options, nobody need ask ------------------------------
ends "no options" 0 run house.yaml $kept --draws 2 --json
tr -s '\n ' '  ' <err >flat
says "JSON alone on stdout" ${PYTHON:-python3} -c 'import json; r = json.load(open("out")); assert len(r["options"]) == 4 and r["houses"]["drawn"] == 2'
says "that they are made is told, and how long it takes" grep -q "the file has no options, so those usually tried are marched: half a minute or so on two processors; --quick marches the house alone" flat
says "and it tells what was tried" grep -q 'These options were made for this house: 15 were tried' flat
says "and how many were left out, and why" grep -q '11 were left out, for another is no worse in hours outside the limits, in fresh air and in cost (--full names them)\.' flat
cp out unasked
ends "those that were written out" 0 run made.yaml $kept --draws 2 --json
says "are the same" cmp unasked out
ends "no houses drawn, no options" 0 run house.yaml $kept --draws 0
says "it is the house alone" sh -c 'test ! -s err && grep -q "^One option is no comparison" out'
echo '{weather: {place: 722020}, house: {floor_area: 170 m2, bedrooms: 3}}' >braces.yaml
ends "a file that takes none" 0 run braces.yaml $kept --draws 2 --set run.steps_per_hour=1
says "is run as it is" sh -c 'test ! -s err && grep -q "^One option is no comparison" out'
sed '$a options: [{name: as it stands}]' house.yaml >one.yaml
ends "one option that was told" 0 run one.yaml $kept --draws 2
says "is told alone" grep -q '^One option is no comparison' out

# ---- what is refused -------------------------------------------------------------
ends "--yaml alone" 2 run house.yaml --yaml
ends "a house with a fault" 1 run house.yaml --quick --suggest --set house.airtightness=-1ach50
says "which is told" grep -q 'house.airtightness' err
ends "all within braces" 1 run braces.yaml --quick --suggest
says "how to write it" grep -q '^dewledger: braces.yaml: the file is written within { }' err
says "and nothing is printed" test ! -s out
exit $bad
