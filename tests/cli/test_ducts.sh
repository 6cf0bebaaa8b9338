#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# ducts: tables, JSON, files, faults, exit codes.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_ducts.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

good() { # NAME COMMAND...
    name=$1
    shift
    if "$@"; then echo "ok $name"; else
        echo "not ok $name"
        bad=1
    fi
}
says() { # NAME FILE PATTERN
    if grep -q -e "$3" "$2"; then echo "ok $1"; else
        echo "not ok $1: no \"$3\" in"
        head -30 "$2"
        bad=1
    fi
}
ends() { # NAME CODE ARG...
    name=$1 code=$2
    shift 2
    "$D" "$@" >out 2>err </dev/null
    got=$?
    if [ "$got" = "$code" ]; then echo "ok $name"; else
        echo "not ok $name: exit $got, wanted $code"
        cat err
        bad=1
    fi
}

cat >house.yaml <<'END'
title: House that is made up
weather: {place: 722020}
house: {floor_area: 2100 ft2, bedrooms: 3}
cooling: {capacity: 3 ton, blower_power: 400 W}
safety: {hood_into_ventilator: no}
options:
  - name: as it stands
  - name: own
    ventilator: {core: heat_plate, flow: 90 cfm, sensible: 74 % at 95 cfm, power: 55 W}
    layout: own_ducts
  - name: tied
    ventilator: {core: heat_plate, flow: 90 cfm, sensible: 74 % at 95 cfm, power: 55 W}
    layout: return_tie
  - name: interlocked
    ventilator: {core: heat_plate, flow: 90 cfm, sensible: 74 % at 95 cfm, power: 55 W, damper: yes}
    cooling: {blower: interlock}
    layout: return_tie
END
sed -e '/name: tied/,$d' -e 's/flow: 90 cfm/flow: 60 cfm/' \
    -e 's/layout: own_ducts/layout: own_ducts\n    limits: {fresh_air: 55 cfm}/' \
    house.yaml >unlike.yaml
cat >>unlike.yaml <<'END'
  - name: own, more
    ventilator: {core: heat_plate, flow: 95 cfm, sensible: 74 % at 95 cfm, power: 55 W}
    limits: {fresh_air: 90 cfm}
    layout: own_ducts
END
# own ducts carry what stands at the hood: 106 there, not 105 beside it
ends "ducts of own" 0 ducts "$here/scenarios/ducts_humid.yaml" --out own
good "a flow is told once" test "$(grep -c '>106<' own/sketches/ducts-1-own-ducts.svg)" = 4 -a \
    "$(grep -c '>105<' own/sketches/ducts-1-own-ducts.svg)" = 0
ends "ducts of two flows" 0 ducts unlike.yaml
says "each is asked for its own" out 'fresh air asked for (55 to 90$'
ends "ducts of one flow" 0 ducts house.yaml
says "it is told once" out 'fresh air asked for (93 cfm)'
ends "ducts tells every layout" 0 ducts --full house.yaml
says "of the tie" out "^full     on "
says "and what has none" out "as it stands: no ventilator with two fans"
says "a return tie is stopped" out "^STOP   Fresh and stale air are both tied"
ends "--strict ends with 4 at a STOP" 4 ducts --strict house.yaml
ends "--strict passes an interlock" 0 ducts --strict --option interlocked house.yaml
ends "--option picks" 0 ducts --full --option own house.yaml
good "one layout alone" [ "$(grep -c 'handlers ilator' out)" = 1 ]
ends "--units si" 0 ducts --full --units si --option own house.yaml
says "in litres a second" out "^Air in L/s"
ends "--json" 0 ducts --json house.yaml
says "JSON keys" out '"fresh_delivered_l_s"'
ends "--set" 0 ducts --json --option own --set layout=mix house.yaml
says "--set changes the layout" out '"layout": "mix"'
"$D" ducts --json house.yaml >a.json
"$D" ducts --json house.yaml >b.json
good "same in, same out" cmp -s a.json b.json

ends "--out writes the page and sketches" 0 ducts --full house.yaml --out told
good "three sketches" [ "$(ls told/sketches | wc -l)" = 3 ]
good "named by option" [ -s told/sketches/ducts-2-tied.svg ]
says "the page asks for nothing else" told/ducts.html '^<!DOCTYPE html>'
good "no address in it" [ "$(grep -c 'https*://' told/ducts.html)" = 0 ]
"$D" ducts --full house.yaml --out again >out
good "the same files again" diff -r told again

"$D" run --quick --full house.yaml --out report >out
good "run draws the layouts that are written" \
    [ "$(grep -c 'id="airpaths"' report/report.html)" = 1 ]
"$D" run --quick --full house.yaml --option 'as it stands' --out plain >out
good "and none where none is" \
    [ "$(grep -c 'airpaths' plain/report.html)" = 0 ]

# rooms are those of the bedrooms told, and air is split alike everywhere
sed 's/bedrooms: 3/bedrooms: 4/' house.yaml >four.yaml
ends "four bedrooms" 0 ducts --full four.yaml --option own
says "have a fourth" out '^bedroom 4 .* fresh '
sed 's/bedrooms: 3/bedrooms: 1/' house.yaml >one.yaml
ends "one bedroom" 0 ducts --full one.yaml --option own
good "has no second, and one bath" \
    [ "$(grep -c 'bedroom 2\|second bath' out)" = 0 ]
says "and two parts for each" out '^main bedroom  *fresh  *45 '

cat >found.yaml <<'END'
weather: {place: 722020}
house: {floor_area: 2100 ft2, bedrooms: 3}
ventilator: {core: balanced, flow: 100 cfm, found: 70 %}
layout: own_ducts
ducts:
  grilles:
    - {room: den, fresh: 40 %, fresh_found: 38 cfm}
    - {room: bedroom, fresh: 60 %, fresh_found: 31 cfm}
    - {room: bath, stale: 100 %, stale_found: 91 cfm}
END
ends "measured grilles" 0 ducts --full found.yaml
says "are judged by what each was made for" out " 31 *48 % low !$"
good "each by itself" [ "$(grep -c ' good$' out)" = 2 ]
says "and used" out "^off      on           69     91"

sed 's/layout: own_ducts/layout: own_ducts\n    ducts: {lines: [{line: intake, length: 9 ft}], grilles: [{room: den}]}/' \
    house.yaml >bad.yaml
ends "faults are refused" 1 ducts --full bad.yaml
says "each with its place" err \
    '^dewledger: bad.yaml:11:28: options.own.ducts.lines.line: needs its diameter'
says "and all at once" err \
    '^dewledger: bad.yaml:11:69: options.own.ducts.grilles.room: lets in or'
good "nothing is printed then" [ ! -s out ]

written=$here/scenarios/ducts_written.yaml
ends "a network written out run by run" 0 ducts --full "$written" --out drawn
says "is told as one" out '^A network written out run by run; one ventilator'
says "with its states" out '^full     on           70     71      0 %'
says "and what leaks across it" out '^full     on           59     71     16 %'
says "room by room" out '^second bedroom                    28        28'
says "without sketch or parts" out 'no sketch, parts or sizes are told of it'
says "on the page too" drawn/ducts.html 'no sketch, parts or sizes are told'
good "no sketch is written" [ -z "$(ls drawn/sketches 2>/dev/null)" ]
sed 's/to: stale in,/to: stable in,/' "$written" >typo.yaml
ends "a point that is not there" 1 ducts --full typo.yaml
says "is told with its place" err \
    '^dewledger: typo.yaml:50:44: ducts.runs.to: no row of ducts.points is called'
ends "run marches with it" 0 run --quick --full "$written"
ends "no such option" 1 ducts --option none house.yaml
ends "no file named" 2 ducts

# leaks and trunks outside count in every option, as what they are
year() { # NAME SET...: the demo's year
    name=$1
    shift
    "$D" run --quick --full "$here/scenarios/demo.yaml" --json "$@" >"$name.json" 2>err
}
figure() { # NAME KEY OPTION: of its books or hours, of option 1, 2 ..
    grep "^    \"$2\": " "$1.json" | sed -n "${3}s/.*: \(.*[0-9]\).*/\1/p"
}
year plain
year tight --set ducts.place=outdoors --set 'ducts.leak_return=0 %'
year drawn --set 'ducts.leak_return=10 %'
year lost --set 'ducts.leak_supply=10 %'
year open --set 'ducts.leak_return=10 %' --set ducts.place=outdoors
for other in drawn lost; do
    good "the house as it stands is another with $other air" \
        [ "$(figure plain too_humid 1)" != "$(figure $other too_humid 1)" ]
done
good "a supply leak is another thing than a return leak" \
    [ "$(figure lost too_humid 1)" != "$(figure drawn too_humid 1)" ]
good "an attic is not the open air" \
    [ "$(figure open too_humid 1)" != "$(figure drawn too_humid 1)" ]
good "where ducts lie means nothing without leaks" \
    [ "$(figure tight too_humid 1)" = "$(figure plain too_humid 1)" ]
for option in 1 2 3 4 5; do
    good "leaks are a row of option $option" \
        [ "$(figure drawn ductleak $option)" != 0.0 ]
    good "and what they lose" [ "$(figure lost ductlost $option)" != 0.0 ]
    good "and catch no shower" [ "$(figure plain showers $option)" = \
        "$(figure drawn showers $option)" ]
done
"$D" ducts --full house.yaml --set 'ducts.leak_return=10 %' >out 2>err
says "ducts tells of handlers without a layout" out \
    '^as it stands: no ventilator with two fans, so no layout. Its air'
"$D" check house.yaml --set 'ducts.leak_return=10 %' >out 2>err
says "and check of what counts" out '^Ducts outside the envelope count in every'

exit $bad
