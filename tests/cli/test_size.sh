#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# size: how much is enough, in words, JSON and as a drawing.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_size.sh
set -u
. "$(dirname "$0")/../support/says.sh"

# Each figure tried is a year of each house, so houses are few (three and the one as
# told fill a bundle), figures too (in this place the typical heat core needs no
# dehumidifier, and the core as told does), and the house has no machines, stores
# or sun where nothing hangs on them.
cat >house.yaml <<'END'
title: A made-up house
weather: {place: 727930}
limits: {too_humid: 71 %, too_dry: 5 %}
run: {steps_per_hour: 1}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50 (0.5 to 4)}
temperature: {given: 75 degF}
windows: {north: 0 ft2, east: 0 ft2, south: 0 ft2, west: 0 ft2}
buffering: {class: none}
people: {count: 4 (2 to 6)}
options:
  - name: as it stands
  - name: enthalpy core
    ventilator: {core: enthalpy_plate, sensible: 71 % at 95 cfm, moisture: 53 % at 95 cfm, power: 61 W}
END
sed '/^temp/d; /^windows/d; /^limits/d
    s/^buffering.*/cooling: {capacity: 2.5 ton, shr: 74 %}/; s/727930/722020/' house.yaml >cooled.yaml

ends "text" 0 size house.yaml --draws 3 --better better.svg
says "nothing on stderr where there is no terminal" test ! -s err
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "no blank at the end of a line" test -z "$(grep -E ' $' out)"
tr -s '\n ' '  ' <out >flat
says "made years and the model's own error are in the band" grep -q '(seed 1), through one of 16 made years of the place each, with the model.s own error, up to 10 points of humidity' flat
says "the option with a core is sized" grep -q 'How much is enough for "enthalpy core"' flat
says "its own core is told" grep -q 'With the enthalpy core as told: airflow of 1[0-9]* cfm alone is enough, and more' flat
says "and a core of the other kind" grep -q 'With a typical heat core: ' flat
says "not another of its own kind" sh -c '! grep -q "typical enthalpy core" flat'
says "a dehumidifier in pints a day on its label" grep -q 'a dehumidifier of [0-9]* pint/day by its label (test at 65 degF) keeps it below 71 %' flat
says "its set point" grep -q 'One of [0-9]* pint/day may be set to [67][0-9] % at most' flat
says "both at once" grep -q 'Together that is enough in 3 of the 3 houses drawn' flat
says "which core is the better one at the air asked for" grep -q 'At 85 cfm, of the 3 houses drawn, the enthalpy core as told is outside the limits for the fewest hours in [01], a typical heat core in [23][.;]' flat
says "a curve for each core" test "$(grep -c '^Airflow, ' out)" = 2
says "the rules stand beside it" grep -q '^ *85 cfm  ASHRAE 62.2, 2013 and later' out
says "and why they differ" grep -q 'They differ because each counts its own way' flat
says "no other curve unless asked" sh -c '! grep -q "^Set point" out'
says "the better core is drawn as bands over airflow, with the cores named" sh -c 'grep -q "the better core by airflow" better.svg && grep -q "a typical heat core" better.svg && grep -q "less than a day apart" better.svg'
says "the drawing is whole" ${PYTHON:-python3} -c 'import xml.dom.minidom as x; x.parse("better.svg")'

cp out text

# two blocks of houses, one for each thread; tests/run/test_size.c holds that any
# number of threads says the same
ends "air alone is enough" 0 size house.yaml --draws 4 --threads 2 --full --hours 8760 --svg one.svg
cp out one
says "the least airflow" grep -qE 'airflow of 8[0-9] cfm alone is enough, and more' one
says "the drawing is well formed" xmllint --nonet --noout one.svg
says "with a band and a line for each core" sh -c 'test "$(grep -c "class=\"b[01]\"" one.svg)" = 2 && test "$(grep -c "class=\"l[01]\"" one.svg)" -ge 2'

ends "JSON" 0 size house.yaml --draws 3 --seed 3 --json --option 'enthalpy core'
says "it is JSON, sizes at the edge of what is enough" ${PYTHON:-python3} - <<'END'
import json
r = json.load(open("out"))
assert r["draws"] == 3 and r["seed"] == 3 and r["share_pct"] == 80
assert r["years"] == 16
assert r["option"] == "enthalpy core" and abs(r["limit_h"] - 175.2) < 1e-9
assert 40 < r["fresh_air_l_s"] < 41
assert r["rules_l_s"]["62.2-2013"] == r["fresh_air_l_s"]
seen = set()
for c in r["curves"]:
    seen.add((c["core"], c["varied"]))
    v = [p["value"] for p in c["points"]]
    # 80 of 100 of three are all three
    assert v == sorted(v) and c["houses"] == 3 and c["houses_needed"] == 3
    for p in c["points"]:
        assert p["enough"] == (p["houses_that_do"] >= 3)
        h = p["too_humid_h"]
        assert 0 <= h["p10"] <= h["p50"] <= h["p90"] <= 8760
    good = [p["value"] for p in c["points"] if p["enough"]]
    if c["varied"] in ("dehumidifier", "flow"): # tried from below its edge on
        assert c["size"] == c["from"] == good[0] and c["to"] == good[-1]
        assert v[0] < good[0]
    if c["varied"] == "set_point":
        assert c["size"] == c["to"] and 50 < c["size"] < 71
assert {("own", "flow"), ("own", "dehumidifier"), ("own", "set_point"),
        ("own", "together"), ("heat", "flow")} <= seen
assert not [s for s in seen if s[0] == "enthalpy"]
END
says "each house is counted once at each airflow" ${PYTHON:-python3} - <<'END'
import json
r = json.load(open("out"))
assert len(r["better_core"]) == 8
for b in r["better_core"]:
    assert b["own"] + b["heat"] + b["enthalpy"] + b["alike"] == b["houses"] == 3
assert r["better_core"][0]["heat"] == 3
END
says "another seed, other draws" ${PYTHON:-python3} - <<'END'
import json
own = json.load(open("out"))["curves"][0]["points"][0]["too_humid_h"]
row = [l.split()[2:5] for l in open("text") if l.startswith("      21 cfm")][0]
assert row != ["%s" % format(own[p], ",.0f") for p in ("p10", "p50", "p90")], row
END
ends "no houses, no better core" 1 size house.yaml --draws 0 --svg marched.svg --better none.svg
says "and why" grep -q 'it takes two cores and houses drawn' err
says "before anything is marched and drawn" test ! -e marched.svg

# ---- other houses ----------------------------------------------------------------
sed 's/ ([^)]*)//g' house.yaml >sure.yaml
ends "as told, in metric units" 0 size sure.yaml --draws 0 --units si --hours 0 --set 'limits.too_humid=95 %'
tr -s '\n ' '  ' <out >flat
says "it is told as the one house, without a band" grep -q 'in the one house as told, without a band' flat
says "litres a second" grep -qE 'airflow of [34][0-9] L/s alone is enough' flat
says "the hours asked are told" grep -q 'but for 0 hours of the year' flat
ends "the house as it stands, a dehumidifier that is seen at work" 0 size cooled.yaml --draws 0 \
    --option 'as it stands' --hours 0 --set dehumidifier.observed=20pint/day
tr -s '\n ' '  ' <out >flat
says "both kinds are tried for it" test "$(grep -c '^Airflow, a typical' out)" = 2
says "its dehumidifier is left as told" grep -q '^Its dehumidifier, told by what it is seen to take out' out
says "where more air makes it damper" grep -q 'More air makes it damper above 2[0-9] cfm' flat
says "what outdoor air is itself" grep -q 'Outdoor air, once at room temperature, is itself above 60 % in 7,[0-9]* hours' flat
sed '/^options/,$d; s/727930/726580/; s/too_humid: 71/too_humid: 80/; s/too_dry: 5/too_dry: 30/' house.yaml >cold.yaml
"$D" size - --draws 0 --set moisture.drying=0kg <cold.yaml >out 2>err
tr -s '\n ' '  ' <out >flat
says "no ventilator, from standard input: both kinds are tried" sh -c 'grep -q "^With a typical heat core" out && grep -q "^With a typical enthalpy core" out'
says "no airflow is enough" grep -q ': no airflow alone is enough: at [0-9]* cfm it is above 80 % in' flat
says "a cold place: a humidifier is sized" grep -q 'a humidifier set to [0-9]* %' flat

# ---- what is refused -------------------------------------------------------------
ends "no scenario" 2 size
ends "a share past all" 2 size house.yaml --share 101
ends "an option that is not there" 1 size house.yaml --option 'two fans'
says "it names those that are" grep -q 'it has "as it stands", "enthalpy core"' err
ends "two options" 1 size house.yaml --option 'as it stands' --option 'enthalpy core'
ends "a house with a fault" 1 size house.yaml --set house.airtightness=-1ach50
says "which is told" grep -q 'house.airtightness' err
ends "a drawing that cannot be written" 3 size sure.yaml --draws 0 --hours 8760 --svg no/such/folder.svg
says "and nothing is printed" test ! -s out
exit $bad
