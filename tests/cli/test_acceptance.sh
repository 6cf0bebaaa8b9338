#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Questions of owners and builders as they would type them, and the answers
# they can work out by hand.  Houses are made up.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_acceptance.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0
mkdir kept # what is marched once need not be again: tests/cli/test_kept.sh

# answer NAME TEXT ARG...: a line of the answer, lines joined
answer() {
    name=$1 text=$2
    shift 2
    [ "$1" != run ] || set -- "$@" --kept kept
    if "$D" "$@" 2>&1 | tr -s '\n ' '  ' | grep -qF -e "$text"; then
        echo "ok $name"
    else
        echo "not ok $name: no \"$text\""
        bad=1
    fi
}

# file NAME <text: a scenario
file() {
    cat >"$1"
}

# ---- 1. will outdoor air dry this house? -------------------------------------
answer "80.5 degF 62.3 %: dew point 66.4" "80.5 degF, 62.3 %: dew point 66.4 degF" \
    air 80.5degF 62.3% outdoors 81degF 63%
answer "81 degF 63 %: dew point 67.2" "81.0 degF, 63.0 %: dew point 67.2 degF" \
    air 80.5degF 62.3% outdoors 81degF 63%
answer "it cannot dry now" "Outdoor air cannot dry this house now" \
    air 80.5degF 62.3% outdoors 81degF 63%
for row in "75degF 50% 60cfm outdoors 75degF dew=75degF|no moisture kept by a core, brings in 7.4 gal/day" \
    "75degF 50% 60cfm moisture=50% outdoors 75degF dew=75degF|50 % of the moisture kept by a core, brings in 3.7 gal/day" \
    "75degF 50% 102cfm outdoors 75degF dew=75degF|no moisture kept by a core, brings in 12.6 gal/day" \
    "70degF 50% 60cfm outdoors 20degF 80%|no moisture kept by a core, takes out 4.7 gal/day" \
    "70degF 50% 60cfm moisture=50% outdoors 20degF 80%|50 % of the moisture kept by a core, takes out 2.4 gal/day"; do
    # shellcheck disable=SC2086 # words are meant to be parted
    answer "${row#*, }" "${row#*|}" air ${row%%|*}
done

# ---- 13. how cold does the air come in? --------------------------------------
for row in 60:41 75:51 95:65; do
    answer "0 degF, core of ${row%:*} %: supply at ${row#*:} degF" \
        "keeps ${row%:*} % of the heat supplies air at ${row#*:} degF" \
        air 68degF 30% "heat=${row%:*}%" outdoors 0degF 80%
done

# ---- 5. how much air, and did I get it? --------------------------------------
file air.yaml <<'END'
weather: {place: 726580}
house: {floor_area: 2400 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 1.1 ach50}
windows: {u: 0.50 Btu/hft2F}
limits: {fresh_air: 60 cfm}
ventilator: {core: heat_plate, flow: 60 cfm, sensible: 70 % at 60 cfm, power: 40 W}
END
answer "2,400 ft2, 3 bedrooms: 102 cfm" "ASHRAE 62.2, 2013 and later 102 " run --quick --full air.yaml
answer "and 54 by the older form" "ASHRAE 62.2 to 2010, IRC 54 " run --quick --full air.yaml
answer "2,150 ft2, 4 bedrooms: 102 cfm" "ASHRAE 62.2, 2013 and later 102 " \
    run --quick --full air.yaml --set 'house.floor_area=2150 ft2' --set house.bedrooms=4
answer "and 59 by the older form" "ASHRAE 62.2 to 2010, IRC 59 " \
    run --quick --full air.yaml --set 'house.floor_area=2150 ft2' --set house.bedrooms=4
answer "25 of 60 cfm measured: judged again" \
    'Today the house has 25 cfm of planned fresh air of the 60 cfm asked for' \
    run --quick --full air.yaml --set 'ventilator.found=41.67 %' \
    --set ventilator.frost=none --set 'ventilator.cross_leakage=0 %'

# ---- 4. what humidity keeps my windows dry? ----------------------------------
answer "U 0.50 at 20 degF: 55 % with the trade's film, 52 % with ISO's" \
    "glass of the first row wets at 55 % instead of 52 %" run --quick --full air.yaml
answer "and the trade's ceiling beside it" "20 to 40 degF 52 % 45 % 40 %" run --quick --full air.yaml
answer "U 0.30 at 20 degF: 70 %" "glass of the first row wets at 70 % instead of 68 %" \
    run --quick --full air.yaml --set 'windows.u=0.30 Btu/hft2F'

# ---- 9. why does it fall so slowly? ------------------------------------------
answer "19,200 ft3 from 60 to 50 % at 75 degF: 2.7 lb" "air gives up 2.7 lb" run --quick --full air.yaml

# ---- 10. new or old moisture? ------------------------------------------------
answer "finished four months ago: a date range" "makes less than 1 point of humidity after about" \
    run --quick --full air.yaml --set 'safety.house_age=4 month'
answer "and the lasting answer apart" "too_humid_once_dry_h" \
    run --quick --full air.yaml --set 'safety.house_age=4 month' --json

# ---- 6. tied in, blower on or off --------------------------------------------
file tie.yaml <<'END'
weather: {place: 726580}
house: {floor_area: 2400 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 1.1 ach50}
limits: {fresh_air: 100 cfm}
cooling: {capacity: 2 ton, blower: auto}
layout: return_tie
ducts: {short_circuit: 80 %}
ventilator: {core: heat_plate, flow: 100 cfm, sensible: 70 % at 100 cfm, power: 40 W, cross_leakage: 0 %, frost: none}
END
answer "return and return, blower off: stop" "STOP option 1: Fresh and stale air are both tied to the return without a blower interlock" \
    run --quick --full tie.yaml
answer "100 cfm of which 80 % short-circuits: 20" "has 20 cfm of planned fresh air of the 100 cfm asked for" run --quick --full tie.yaml

file blower.yaml <<'END'
weather: {place: 726580}
house: {floor_area: 2400 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 1.1 ach50}
temperature: {given: 70 degF}
air_handlers: 1
cooling: {capacity: 2 ton, blower: on, blower_power: 400 W, low_flow: 100 %, low_power: 400 W}
ventilator: {core: heat_plate, flow: 60 cfm, sensible: 70 % at 60 cfm, power: 40 W, frost: none}
END
answer "a blower of 400 W, always: 3,504 kWh a year" "air handler blowers 3,504 " run --quick --full blower.yaml
answer "20 minutes each hour: 1,168" "air handler blowers 1,168 " run --quick --full blower.yaml --set cooling.blower=minutes
answer "a ventilator of 40 W: 350" "ventilator fans 350 " run --quick --full blower.yaml

# ---- 2. a dehumidifier too, instead, or first? -------------------------------
answer "ventilation alone will do: not needed, in as many words" "A dehumidifier is not needed" \
    run --quick --full air.yaml --set weather.place=722780
answer "three gallons a day seen are a measured load" "seen to take out 3 gal/day) could take out" \
    run --quick --full air.yaml --set 'dehumidifier.observed=3 gal/day' --set 'dehumidifier.set=45 %'

# ---- 8. does it pay back? ----------------------------------------------------
file pay.yaml <<'END'
weather: {place: 726580}
house: {floor_area: 2400 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 1.1 ach50}
options:
  - name: as it stands
  - name: heat core
    ventilator: {core: heat_plate, flow: 102 cfm, sensible: 70 % at 102 cfm, power: 60 W}
    costs: {install: 6500 $ (5000 to 8500), date: May 2026}
END
answer "low, likely and high with their date" '2 heat core $6,500 ($5,000 to $8,500) ' run --quick --full pay.yaml
answer "and the date" 'May 2026' run --quick --full pay.yaml
answer "dollars a year by end use" "end use option 1 option 2 ventilator fans \$0 \$95" run --quick --full pay.yaml
answer "it does not, and says what is bought" 'a year more to run than today. What you get is fresh air' run --quick --full pay.yaml

# Two of three have no price to install: no best is told by money.
file open.yaml <<'END'
weather: {place: 722430}
house: {floor_area: 2400 ft2, bedrooms: 3, airtightness: 1.1 ach50}
cooling: {capacity: 3 ton}
options:
  - name: as it stands
  - name: core
    ventilator: {core: enthalpy_plate, typical: yes}
    dehumidifier: {rate: 70 pint/day, set: 50 %}
  - name: fan
    ventilator: {core: exhaust_only}
    dehumidifier: {rate: 70 pint/day, set: 50 %}
    costs: {install: 900 $}
END
answer "no best by money while a price is wanting" "2 options will do: they bring" run --quick --full open.yaml
answer "and the price is asked for" \
    'no price to install is given for "core". Give what they cost (costs.install;' run --quick --full open.yaml
answer "nor in JSON" '"best": null, "will_do": [ "core", "fan" ]' run --quick --full open.yaml --json
answer "told, there is one" '"best": "fan"' run --quick --full open.yaml --json \
    --set 'options.core.costs.install=9000 $'
answer "is 70 pints a day an old label?" \
    'Is the label of the dehumidifier of "core" older than June 2019?' run --quick --full open.yaml
answer "above 50 pints a day at least 2.80 L/kWh" '"label_kg_per_kwh": 2.8,' run --quick --full open.yaml --json
answer "an old one of 70 pints 1.70" '"label_kg_per_kwh": 1.7,' run --quick --full open.yaml --json \
    --set options.core.dehumidifier.rating=old_80F
answer "3 tons where half would do" "Cooling looks at least twice too large" run --quick --full open.yaml

# ---- what was not told ---------------------------------------------------------
file bare.yaml <<'END'
weather: {place: 722430}
house: {floor_area: 2400 ft2, bedrooms: 3, airtightness: 1.1 ach50}
END
answer "no fan, no cooling, windows shut" \
    "a clothes dryer that blows outdoors, cooling or open windows, as none is given. If that is not so, the hours change" \
    run --quick --full bare.yaml
answer "what is told is not asked for" \
    "worked out without a kitchen hood, as none is given. If" run --quick --full bare.yaml \
    --set 'bath_fan.flow=80 cfm' --set 'clothes_dryer.flow=150 cfm' \
    --set 'cooling.capacity=2 ton' --set 'airing.flow=300 cfm'
answer "a house without a bedroom counts as of one: 87 cfm" \
    "ASHRAE 62.2, 2013 and later 87 " run --quick --full bare.yaml --set house.bedrooms=0
answer "the model code asks 60" "IRC model code, 2018 and later 60 " run --quick --full bare.yaml
answer "Washington 55" "IRC 2021 as amended by Washington State 55 " run --quick --full bare.yaml
answer "1000 ppm is our own mark" "so is the mark of 1,000 ppm for carbon dioxide" run --quick --full bare.yaml

# ---- 12. out of danger -------------------------------------------------------
answer "what was not asked stops, in JSON too" '"key": "combustion"' run --quick --full air.yaml --json
"$D" run --quick --full air.yaml --strict >/dev/null 2>&1
if [ $? -eq 4 ]; then echo "ok strict: exit 4"; else
    echo "not ok strict: exit 4"
    bad=1
fi

exit $bad
