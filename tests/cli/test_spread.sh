#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# spread: houses drawn from ranges, told in words and JSON.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_spread.sh
set -u
top=$(cd "$(dirname "$0")" && pwd)
. "$(dirname "$0")/../support/says.sh"

cp "$top/ranges.yaml" house.yaml

# told twice, marched once: tests/cli/test_kept.sh holds that it changes nothing; a
# block of houses is named by all of them, and threads part blocks
mkdir kept
kept="--threads 1 --kept kept"
ends "text" 0 spread house.yaml --draws 16 $kept
says "nothing on stderr where there is no terminal" test ! -s err
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "a drawn range is told" grep -q '^  people.count: 4 (2 to 6)$' out
says "one by option is" grep -q '^  dehumidifier.set: 60 % (56 to 66), by option$' out
says "money is set apart" grep -q '^Of money, .*: prices.electricity.$' out
says "what nobody told is drawn" sh -c 'tr -s "\n" " " <out | grep -q "^.*Not told, so drawn from what is usual .* surfaces.corner_factor,"'
says "and nothing of a machine that is not there" sh -c '! tr -s "\n" " " <out | grep -q "Not told.*humidifier.set.*Not drawn"'
says "what is not there is told by the reason why" sh -c 'tr -s "\n" " " <out | grep -q "^.*Not drawn, for it changes nothing here: there is no basement (house.basement_depth, house.basement_height, insulation.basement_walls); no baths are told (moisture.bath_water);.* no layout is written (.* [0-9]* of ducts);.* there is no humidifier (humidifier.set, humidifier.band);"'
says "what has no range is named" grep -q '^Not doubted.* house.floor_area' out
says "each option has its share and its hours" test "$(grep -c '^2 enthalpy core' out)" = 2
cp out one
says "an answer in words" grep -q '^"enthalpy core" is the best of the 2 options in .* of 100 houses' out
says "and that of the likely house" sh -c 'tr -s "\n" " " <out | grep -q "As told, it is .enthalpy core.\."'
says "what keeps a limit is told" grep -q 'A limit is kept in 175 hours' out
says "glass that stays dry is not spoken of" sh -c '! grep -q "^Wet glass" out'
ends "on two threads" 0 spread house.yaml --draws 16 --threads 2
says "the same bytes on two threads" cmp one out
# another seed makes others: tests/cli/test_spread_worth.sh

ends "JSON" 0 spread house.yaml --draws 16 --json $kept
says "it is JSON with the shares and the hours" ${PYTHON:-python3} - <<'END'
import json
r = json.load(open("out"))
assert r["draws"] == 16 and r["seed"] == 1 and len(r["options"]) == 2
told = {i["key"]: i["taken"] for i in r["inputs"]}
assert told["people.count"] == "drawn" and told["cooling.shr"] == "as_told"
assert told["prices.electricity"] == "money"
why = {i["key"]: i.get("because") for i in r["inputs"]}
assert why["humidifier.set"] == "there is no humidifier"
assert why["people.count"] is None and why["prices.electricity"] is None
assert all((t == "without_effect") == (why[k] is not None) for k, t in told.items())
for o in r["options"]:
    h = o["too_humid_h"]
    assert 0 <= h["p10"] <= h["p50"] <= h["p90"] <= 8760
    for s in ("keeps_limits", "brings_air", "best"):
        assert o[s]["low_pct"] <= 100 * o[s]["houses"] / 16 <= o[s]["high_pct"]
best = sum(o["best"]["houses"] for o in r["options"])
assert best + r["none_will_do"]["houses"] == 16
assert r["options"][0]["too_humid_h"]["p10"] < r["options"][0]["too_humid_h"]["p90"]
END
"$D" run --quick house.yaml --json >run.json 2>err
says "as told, it is what run says" ${PYTHON:-python3} - <<'END'
import json
r, s = json.load(open("run.json")), json.load(open("out"))
for a, b in zip(r["options"], s["options"]):
    assert a["name"] == b["name"]
    assert abs(a["hours"]["too_humid"] - b["too_humid_h"]["as_told"]) < 1e-6
END

ends "a cold place" 0 spread house.yaml --draws 8 --set weather.place=726580
says "wet glass is told" grep -q '^Wet glass, hours (low to high): "as it stands"' out
ends "a damp limit" 0 spread house.yaml --draws 8 --set 'limits.too_humid=35 %' --set 'limits.too_dry=33 %'
says "where none will do, that comes first" grep -q '^No option will do in all 8 houses drawn. As told, none does.$' out

# ---- what is refused -------------------------------------------------------------
sed 's/ ([^)]*)//g' house.yaml >sure.yaml
ends "no range" 0 spread sure.yaml --draws 8
says "the year is doubted" grep -q '^Drawn besides: the weather, one of 16 made years of the place;' out
says "and the model" sh -c 'tr -s "\n" " " <out | grep -q "the model.s own error, up to 10 points"' 
says "what is usual is drawn" grep -q '^Not told, so drawn from what is usual' out
ends "ranges that cross" 0 spread house.yaml --draws 16 --set 'temperature.heat=70 degF (66 to 80)' --set 'temperature.cool=75 degF (71 to 80)' --told
says "others are drawn in their place" sh -c 'tr -s "\n" " " <out | grep -q "[1-9] of the 16 houses drawn could not be, and others were drawn in their place: temperature.heat heats to above what temperature.cool cools to"'
says "what is not told stays" grep -q '^What you did not tell stands at its usual value, without doubt' out
ends "a range of what is not there" 0 spread house.yaml --draws 8 --told --set 'bath_fan.power=10 W (5 to 30)' --set 'bath_fan.run=1 h/day (0.5 to 2)'
says "is told by name, with the reason" grep -q '^Not drawn, for it changes nothing here: no bath fan is told (bath_fan.power,$' out
ends "a range by --set" 0 spread sure.yaml --draws 8 --set 'people.count=4 (3 to 5)'
says "its place is told" grep -q '^  people.count: 4 (3 to 5)$' out
ends "one option" 0 spread house.yaml --draws 8 --option 'as it stands'
says "is told alone" test "$(grep -c '^1 as it stands' out)" = 2
says "without the others" sh -c '! grep -q "enthalpy core" out'
ends "too few draws" 2 spread house.yaml --draws 2
ends "no scenario" 2 spread
exit $bad
