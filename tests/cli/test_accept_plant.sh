#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Two questions with real runs: a dehumidifier too, instead, or first, and how
# large; and two air handlers with one ventilator.  Houses are made up.  The
# figures are held to their sign and order, which hold for such houses anywhere.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_accept_plant.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

say() { # NAME COMMAND...
    name=$1
    shift
    if "$@"; then echo "ok $name"; else
        echo "not ok $name: $*"
        bad=1
    fi
}
holds() { # NAME FILE TEXT: lines joined
    if tr -s '\n ' '  ' <"$2" | grep -qF -e "$3"; then echo "ok $1"; else
        echo "not ok $1: no \"$3\""
        bad=1
    fi
}
lacks() { # NAME FILE TEXT
    if tr -s '\n ' '  ' <"$2" | grep -qF -e "$3"; then
        echo "not ok $1: \"$3\""
        bad=1
    else echo "ok $1"; fi
}

# ---- a dehumidifier too, instead, or first? ------------------------------------
# Tight, well insulated, shaded, a hot and humid coast: little for cooling to do.
cat >humid.yaml <<'END'
weather: {place: 722020}
house: {floor_area: 2000 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 0.8 ach50}
insulation: {walls: 30 R, roof: 60 R}
windows: {u: 0.25 Btu/hft2F, unshaded: 50 %}
people: {count: 4}
moisture: {showers: 4 per day}
temperature: {heat: 69 degF, cool: 76 degF}
cooling: {capacity: 2.5 ton, shr: 76 %, seer: 15, blower: auto, blower_power: 380 W}
limits: {too_humid: 60 %, fresh_air: 60 cfm}
END
core='ventilator: {core: enthalpy_plate, flow: 60 cfm, sensible: 72 % at 60 cfm, moisture: 50 % at 60 cfm, power: 40 W}'
dryer='dehumidifier: {rate: 70 pint/day, rating: ducted_73F, factor: 2.2 L/kWh, set: 55 %}'
cat >>humid.yaml <<END
options:
  - name: cooling only
  - name: enthalpy
    $core
  - name: dehumidifier
    $dryer
  - name: both
    $core
    $dryer
  - name: lockout
    $core
    control: {lockout_dew_point: 60 degF}
END
"$D" run --quick --full humid.yaml >humid.txt 2>err || { cat err; exit 1; }
# hours too humid of option N, in the year
hours() {
    sed -n '/^Hours too humid, by month/,/^$/p' humid.txt |
        awk -v n="$1" '$1 == n { print $NF }'
}
only=$(hours 1) enthalpy=$(hours 2) dryer=$(hours 3) both=$(hours 4) lockout=$(hours 5)
echo "too humid: cooling $only, enthalpy $enthalpy, dehumidifier $dryer, both $both, lockout $lockout h"
say "five options are told" test "$(sed -n '/^Hours too humid, by month/,/^$/p' humid.txt | grep -c "^[1-5] ")" = 5
say "cooling alone leaves humid hours" [ "$only" -gt 50 ]
say "an enthalpy core adds to them" [ "$enthalpy" -gt $((only + 50)) ]
say "a dehumidifier ends them" [ "$dryer" -lt $((only / 5)) ]
say "beside the core too" [ "$both" -lt $((enthalpy / 5)) ]
say "the lockout helps the core" [ "$lockout" -lt $((enthalpy / 2)) ]
holds "the price of the lockout is air" humid.txt 'Too little fresh air: '
holds "cooling idle is the reason" humid.txt "of the $only hours too humid cooling is off"
holds "needed, by how much" humid.txt \
    "A dehumidifier is needed to stay below 60 %: \"both\" is too humid in $both hours; the best that brings enough air without one, in $enthalpy."
holds "instead is no fresh air" humid.txt 'A dehumidifier does not replace fresh air: "dehumidifier"'
size=$(tr -s '\n ' '  ' <humid.txt | sed -n 's/.*n this house.s air that of "both" (\(70 pints\/day on its label) could take out [0-9]* pints\/day, and the wettest day needs [0-9]* pints\/day\).*It runs \([0-9,]* hours and uses [0-9,]* kWh\) a year.*/\1; \2/p')
say "size in this house's own air, and kWh a year ($size)" [ -n "$size" ]
holds "at the temperature that it stands in" humid.txt "in the air it runs in here, 76 degF"

# three gallons a day seen are a measured load of 24 pints
sed '/^options:/,$d' humid.yaml >seen.yaml
for seen in 3:24 2:16; do
    "$D" run --quick --full seen.yaml --set 'dehumidifier.power=500 W' \
        --set "dehumidifier.observed=${seen%:*} gal/day" \
        --set 'dehumidifier.observed_humidity=55 %' --set 'dehumidifier.set=50 %' \
        --set ventilator.core=balanced --set 'ventilator.flow=60 cfm' >seen.txt 2>err
    holds "my unit fills ${seen%:*} gallons a day" seen.txt \
        "seen to take out ${seen%:*} gal/day) could take out"
    # with raw outdoor air brought in it is ever on, in a room much as it was
    # seen in, and so its busiest day is much what was seen
    day=$(tr -s '\n ' '  ' <seen.txt | sed -n 's/.*wettest day needs \([0-9]*\) pints.*/\1/p')
    say "no day takes out much more than was seen ($day pints)" \
        [ "$day" -le $((${seen#*:} + 2)) ]
    say "nor less" [ "$day" -ge $((${seen#*:} - 6)) ]
done
holds "and is told as measured" seen.txt \
    "Its owner saw it take out 2 gal/day, and its size follows from that measured load"
lacks "it has no label" seen.txt "on its label) could take out"

# a dry, cold place: ventilation alone
cat >dry.yaml <<'END'
weather: {place: 724660}
house: {floor_area: 2000 ft2, ceiling_height: 8 ft, bedrooms: 3, airtightness: 0.8 ach50}
people: {count: 4}
moisture: {showers: 4 per day}
limits: {too_humid: 60 %, fresh_air: 60 cfm}
options:
  - name: as it stands
  - name: heat core
    ventilator: {core: heat_plate, flow: 65 cfm, sensible: 75 % at 60 cfm, power: 40 W}
  - name: core and dehumidifier
    ventilator: {core: heat_plate, flow: 65 cfm, sensible: 75 % at 60 cfm, power: 40 W}
    dehumidifier: {rate: 50 pint/day}
END
"$D" run --quick --full dry.yaml >dry.txt 2>err
holds "today too humid" dry.txt "Today the house is too humid (above 60 % relative humidity) in 8"
holds "ventilation alone cures the damp, and too far" dry.txt 'Ventilation alone cures the damp but dries too far: with "heat core"'
holds "a dehumidifier is not needed, in as many words" dry.txt \
    'A dehumidifier is not needed to stay below 60 %: "heat core" has none and is too humid in'
lacks "and nothing says needed" dry.txt "A dehumidifier is needed"

# ---- two air handlers, one ventilator -------------------------------------------
cat >two.yaml <<'END'
weather: {place: 722020}
house: {floor_area: 2350 ft2, ceiling_height: 8.5 ft, storeys: 2, bedrooms: 3, airtightness: 1.2 ach50}
air_handlers: 2
cooling: {capacity: 1.5 ton, blower_power: 210 W}
limits: {fresh_air: 100 cfm}
ventilator: {core: enthalpy_plate, flow: 100 cfm, sensible: 72 % at 100 cfm, moisture: 50 % at 100 cfm, power: 62 W}
options:
  - name: one
    layout: mix
    ducts: {tied_to: first}
  - name: split
    layout: mix
  - name: own
    layout: own_ducts
  - name: hybrid
    layout: mix
    ducts: {tied_to: first, own_branches: yes}
  - name: both returns
    layout: return_tie
END
"$D" run --quick --full two.yaml --json >/dev/null 2>&1
say "the hours march with them" [ $? = 0 ]
# told OPTION [ARG...]: into told.txt
told() {
    name=$1
    shift
    "$D" ducts --full two.yaml --option "$name" "$@" >told.txt 2>err
}
# floor N COLUMN: cfm of fresh air to the rooms of air handler N with the
# blowers 1 off off, 2 low low, 3 full off, 4 off full, 5 full full
floor() {
    awk -v n="$1" -v c="$2" '/^all rooms of air handler/ && $6 - 0 == n { print $(6 + c) }' told.txt
}
for name in one split own hybrid 'both returns'; do
    told "$name"
    row="$(floor 1 1)+$(floor 2 1) $(floor 1 3)+$(floor 2 3) $(floor 1 4)+$(floor 2 4) $(floor 1 5)+$(floor 2 5)"
    say "$name: both floors in four blower states: $row" \
        [ "$(echo "$row" | grep -cE '^([0-9]+\+[0-9]+ ?){4}$')" = 1 ]
done
told one
say "one return: the other floor gets nothing, whoever runs" \
    [ "$(floor 2 1)$(floor 2 3)$(floor 2 4)$(floor 2 5)" = 0000 ]
holds "in words" told.txt "the rooms of the other 0 cfm"
told split
say "split: even with both off" [ "$(floor 1 1)" = "$(floor 2 1)" ]
say "and both on" [ "$(floor 1 5)" = "$(floor 2 5)" ]
say "one running takes it all" [ "$(floor 2 3)$(floor 1 4)" = 00 ]
holds "it robs" told.txt "It robs the other:"
holds "which damper stops it" told.txt "A backdraft damper on each fresh tie stops that."
holds "no motorised damper" told.txt "CHECK a motorised damper is on the tied-in duct. Without one"
told split --set ducts.backdraft=yes --set ventilator.damper=yes
lacks "with dampers it robs no more" told.txt "It robs"
lacks "nor is one missing" told.txt "motorised damper is on the tied-in duct"
say "both are among the parts" [ "$(grep -cE '^(motorised damper, wired|backdraft damper) .* 2 ' told.txt)" = 2 ]
say "but what runs takes its air along still" [ "$(floor 1 3)" -gt $((4 * $(floor 2 3))) ]
told own
say "own ducts: the same whoever runs" \
    [ "$(floor 1 1) $(floor 2 1)" = "$(floor 1 3) $(floor 2 3)" ]
say "to both floors" [ "$(floor 2 4)" -gt 20 ]
holds "no robbing" told.txt "The blower's pressure does not reach the ventilator"
told hybrid
say "a mix: the other floor has its own branches" [ "$(floor 2 1)" -gt 10 ]
say "and loses them to the blower of the tie" [ "$(floor 2 3)" -lt "$(floor 2 1)" ]
told 'both returns' --set ducts.backdraft=yes
holds "stale ties rob as well" told.txt "A backdraft damper on each stale tie stops that."
holds "and stop without an interlock" told.txt "STOP Fresh and stale air are both tied to the return"

exit $bad
