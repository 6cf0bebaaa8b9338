#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# size: how much is enough, in words, JSON and as a drawing.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_size.sh
set -u
. "$(dirname "$0")/../support/says.sh"

cat >house.yaml <<'END'
title: A made-up house
weather: {place: 722020}
run: {steps_per_hour: 1}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50 (0.5 to 4)}
people: {count: 4 (2 to 6)}
cooling: {capacity: 2.5 ton, shr: 74 %}
options:
  - name: as it stands
  - name: enthalpy core
    ventilator: {core: enthalpy_plate, sensible: 71 % at 95 cfm, moisture: 53 % at 95 cfm, power: 61 W}
END
# Air alone is called for within these limits.
wide="--set limits.too_humid=95% --set limits.too_dry=5%"

ends "text" 0 size house.yaml --draws 8
says "nothing on stderr where there is no terminal" test ! -s err
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "no blank at the end of a line" test -z "$(grep -E ' $' out)"
tr -s '\n ' '  ' <out >flat
says "made years and the model's own error are in the band" grep -q 'through one of 16 made years of the place each, with the model.s own error, up to 10 points of humidity' flat
says "the option with a core is sized" grep -q 'How much is enough for "enthalpy core"' flat
says "its own core is told" grep -q 'With the enthalpy core as told: no airflow alone is enough: at 8[0-9] cfm it is above 60 % in' flat
says "and a core of the other kind" grep -q 'With a typical heat core: ' flat
says "not another of its own kind" sh -c '! grep -q "typical enthalpy core" flat'
says "a dehumidifier in pints a day on its label" grep -q 'a dehumidifier of [0-9]* pint/day by its label (test at 65 degF) keeps it below 60 %' flat
says "its set point" grep -q 'One of [0-9]* pint/day may be set to 5[0-9] % at most' flat
says "both at once" grep -q 'Together that is enough in [78] of the 8 houses drawn' flat
says "which core is the better one at the air asked for" grep -q 'At 85 cfm, of the 8 houses drawn, the enthalpy core as told is outside the limits for the fewest hours in [78], a typical heat core in [01][.;]' flat
says "what outdoor air is itself" grep -q 'Outdoor air, once at room temperature, is itself above 60 % in 7,[0-9]* hours' flat
says "where more air makes it damper" grep -q 'More air makes it damper above 2[0-9] cfm' flat
says "a curve for each core" test "$(grep -c '^Airflow, ' out)" = 2
says "the rules stand beside it" grep -q '^ *85 cfm  ASHRAE 62.2, 2013 and later' out
says "and why they differ" grep -q 'They differ because each counts its own way' flat
says "no other curve unless asked" sh -c '! grep -q "^Set point" out'

ends "air alone is enough" 0 size house.yaml --draws 4 --threads 1 --full $wide --svg one.svg
cp out one
says "the least airflow" grep -qE 'airflow of 8[0-9] cfm alone is enough, and more' one
says "the drawing is well formed" xmllint --nonet --noout one.svg
says "with a band and a line for each core" sh -c 'test "$(grep -c "class=\"b[01]\"" one.svg)" = 2 && test "$(grep -c "class=\"l[01]\"" one.svg)" -ge 2'
ends "on two threads" 0 size house.yaml --draws 4 --threads 2 --full $wide --svg two.svg
says "the same bytes on two threads" sh -c 'cmp one out && cmp one.svg two.svg'
ends "another seed" 0 size house.yaml --draws 4 --seed 7 --full $wide
says "other draws" sh -c '! cmp -s one out'
ends "in metric units" 0 size house.yaml --draws 0 $wide --units si --hours 0
says "litres a second" grep -qE 'airflow of [34][0-9] L/s alone is enough' out
says "the hours asked are told" grep -q 'but for 0 hours of the year' out

ends "JSON" 0 size house.yaml --draws 8 --json --option 'enthalpy core' --better better.svg
says "it is JSON, sizes at the edge of what is enough" python3 - <<'END'
import json
r = json.load(open("out"))
assert r["draws"] == 8 and r["seed"] == 1 and r["share_pct"] == 80
assert r["option"] == "enthalpy core" and abs(r["limit_h"] - 175.2) < 1e-9
assert 40 < r["fresh_air_l_s"] < 41 and r["outdoors_too_humid_h"] > 7000
assert r["rules_l_s"]["62.2-2013"] == r["fresh_air_l_s"]
seen = set()
for c in r["curves"]:
    seen.add((c["core"], c["varied"]))
    v = [p["value"] for p in c["points"]]
    assert v == sorted(v) and c["houses"] == 8 and c["houses_needed"] == 7
    for p in c["points"]:
        assert p["enough"] == (p["houses_that_do"] >= 7)
        h = p["too_humid_h"]
        assert 0 <= h["p10"] <= h["p50"] <= h["p90"] <= 8760
    if c["varied"] == "dehumidifier":
        good = [p["value"] for p in c["points"] if p["enough"]]
        assert c["size"] == c["from"] == good[0] and c["to"] == good[-1]
    if c["varied"] == "set_point":
        assert c["size"] == c["to"] and 50 < c["size"] < 60
    if c["varied"] == "flow":
        assert c["size"] is None and c["breaks_there"] == "too_humid"
assert {("own", "flow"), ("heat", "flow"), ("own", "dehumidifier"),
        ("own", "together")} <= seen and not [s for s in seen if s[0] == "enthalpy"]
END

says "the better core is drawn as bands over airflow, with the cores named" sh -c 'grep -q "the better core by airflow" better.svg && grep -q "a typical heat core" better.svg && grep -q "less than a day apart" better.svg'
says "the drawing is whole" python3 -c 'import xml.dom.minidom as x; x.parse("better.svg")'
says "each house is counted once at each airflow" python3 - <<'END'
import json
r = json.load(open("out"))
assert len(r["better_core"]) == 8
for b in r["better_core"]:
    assert b["own"] + b["heat"] + b["enthalpy"] + b["alike"] == b["houses"] == 8
assert r["better_core"][3]["own"] >= 6 and r["years"] == 16
END
ends "no houses, no better core" 1 size house.yaml --draws 0 $wide --better none.svg
says "and why" grep -q 'it takes two cores and houses drawn' err

# ---- other houses ----------------------------------------------------------------
sed 's/ ([^)]*)//g' house.yaml >sure.yaml
ends "as told" 0 size sure.yaml --draws 0 $wide
says "it is told as the one house, without a band" grep -q 'in the one house as told, without a band' out
sed '/^options/,$d' house.yaml >bare.yaml
"$D" size - --draws 0 $wide <bare.yaml >out 2>err
says "no ventilator, from standard input: both kinds are tried" sh -c 'grep -q "^With a typical heat core" out && grep -q "^With a typical enthalpy core" out'
ends "the house as it stands" 0 size house.yaml --draws 0 --option 'as it stands' $wide
says "both kinds are tried for it" test "$(grep -c '^Airflow, a typical' out)" = 2
ends "a cold place" 0 size bare.yaml --draws 0 --set weather.place=726580 --set moisture.drying=0kg
says "a humidifier is sized" grep -q 'a humidifier set to [0-9]* %' out
ends "a dehumidifier that is seen at work" 0 size bare.yaml --draws 0 --set dehumidifier.observed=20pint/day
says "is left as told" grep -q '^Its dehumidifier, told by what it is seen to take out' out

# ---- what is refused -------------------------------------------------------------
ends "no scenario" 2 size
ends "a share past all" 2 size house.yaml --share 101
ends "an option that is not there" 1 size house.yaml --option 'two fans'
says "it names those that are" grep -q 'it has "as it stands", "enthalpy core"' err
ends "two options" 1 size house.yaml --option 'as it stands' --option 'enthalpy core'
ends "a house with a fault" 1 size house.yaml --set house.airtightness=-1ach50
says "which is told" grep -q 'house.airtightness' err
ends "a drawing that cannot be written" 3 size sure.yaml --draws 0 $wide --svg no/such/folder.svg
says "and nothing is printed" test ! -s out
exit $bad
