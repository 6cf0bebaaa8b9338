#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What one screen tells: how long it is, and the questions that people come
# with, each answered within its first lines.  Houses are made up.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_screen.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
export DEWLEDGER="$D" # for shipped.sh, wherever it is called from
S=$(cd "$(dirname "$0")/../.." && pwd)/scenarios
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0
FIRST=24

verdict() { # STATUS NAME
    if [ "$1" -eq 0 ]; then echo "ok $2"; else echo "not ok $2"; bad=1; fi
}

# job QUESTION TEXT ARG...: TEXT stands in the first lines, joined
job() {
    name=$1 text=$2
    shift 2
    "$D" "$@" 2>/dev/null | head -$FIRST | tr -s '\n ' '  ' |
        grep -qE -e "$text"
    verdict $? "$name"
}

# told QUESTION TEXT NAME: the same, of a scenario that comes along
told() {
    head -$FIRST "$3.out" | tr -s '\n ' '  ' | grep -qE -e "$2"
    verdict $? "$1"
}

# ---- how long, how wide ------------------------------------------------------
for file in "$S"/*.yaml; do
    name=$(basename "$file" .yaml)
    shipped=$(sh "$S/../tests/support/shipped.sh" "$file")
    cp "$shipped/brief" out
    cp "$shipped/full" "$name.full"
    options=$(sed -n '/^Hours too humid, by month/,/^$/p' out | grep -c '^[0-9]')
    lines=$(wc -l <out)
    [ "$lines" -le $((60 + (options > 5 ? 3 * (options - 5) : 0))) ]
    verdict $? "$name: $lines lines for $options options"
    [ "$(awk 'length > 80' out | wc -l)" -eq 0 ]
    verdict $? "$name: 80 columns"
    [ "$(tail -1 out | cut -c1-8)" = "Next:   " ]
    verdict $? "$name: the last line says what comes next"
    cp out "$name.out"
done

for name in ducts_humid ducts_cold ducts_written demo; do
    "$D" ducts "$S/$name.yaml" --out drawn >out 2>/dev/null
    [ "$(wc -l <out)" -le 60 ] && [ "$(awk 'length > 80' out | wc -l)" -eq 0 ]
    verdict $? "$name: the ducts in a screen"
done

# ---- nothing lost -------------------------------------------------------------
for name in demo ducts_humid; do
    shipped=$(sh "$S/../tests/support/shipped.sh" "$S/$name.yaml")
    "$D" run "$S/$name.yaml" --draws 3 --kept "$shipped/kept" --json --full --out whole \
        >b.json 2>/dev/null
    cmp -s whole/summary.json "$shipped/set/summary.json"
    verdict $? "$name: JSON is the same"
    # every STOP of the whole report, in a line of its own or as a question
    ${PYTHON:-python3} - "$name" $name.out b.json <<'PY'
import json, sys
text = open(sys.argv[2]).read()
stops = [c for c in json.load(open(sys.argv[3]))["cautions"] if c["level"] == "STOP"]
told = [c for c in stops if c["answer"] == "yes"]
asked = {c["question_key"] for c in stops if c["answer"] != "yes"}
head = text.split("\n\n")[0].count("\nSTOP  ")
wrong = head != len(told) + (len(asked) > 0)
wrong |= any(key + ": " not in text for key in sorted(asked)[:5])
sys.exit(wrong)
PY
    verdict $? "$name: no STOP is left out"
done

# ---- words --------------------------------------------------------------------
for file in "$S"/*.yaml; do
    name=$(basename "$file" .yaml)
    sed -n '/^What the year says/,/^The options/p' $name.full |
        tr -s '\n ' '  ' >says
    ! grep -qE '[0-9] h[ ,.;]|[(]RH|preset|none told|not told|They (part|agree)' says
    verdict $? "$name: no short form and one word for a thing"
    [ "$(grep -oE 'None of these saves money|save[s]? no money' says | wc -l)" -le 1 ]
    verdict $? "$name: what does not pay is told once"
    [ "$(grep -oE 'Too little fresh air' says | wc -l)" -le 1 ]
    verdict $? "$name: too little air is told once"
    grep -q 'of 3 houses like yours; two measured ones lay 3 and 9 points off' says
    verdict $? "$name: how sure"
done
sed -n '/^Rules of thumb/,/^$/p' tutorial.full | tr -s '\n ' '  ' >says
grep -qF '(EPA-COURSE): rule 0 hours, here' says &&
    grep -qF "(a contractors' association): here " says &&
    grep -qF 'rule 1.2 L/kWh to 3.75 L/kWh, here' says &&
    ! grep -q 'They \|within 0' says
verdict $? "rules of thumb quote their source alone"
sed -n '/^What the year says/,/^\* Today the house is too humid/p' demo.full | tr -s '\n ' '  ' |
    grep -qF '* Today the house has no planned fresh air: about 7 cfm comes in by leaks, 87 cfm is asked for, and carbon dioxide (CO2) averages 4,941 ppm (outdoors 424). * Today the house is too humid'
verdict $? "missing fresh air stands first"

# ranks are explained, and practice without a source named, once each
for name in demo ducts_humid; do
    tr -s '\n ' '  ' <$name.full >says
    [ "$(grep -o 'STOP: someone could be hurt, settle it first. CHECK: look or measure before you buy. NOTE: good to know. Without a source in brackets it is common practice.' says | wc -l)" -eq 1 ] &&
        ! grep -q 'common practice, no source' says
    verdict $? "$name: what STOP, CHECK and NOTE mean, once"
    grep -q 'keys that answer (CHECK: before you buy)' $name.out
    verdict $? "$name: and on the screen"
done

# ---- how far years differ -------------------------------------------------------
# run tells what weather years finds, of today and the best
"$D" run "$S/demo.yaml" --quick --years 3 2>/dev/null | tr -s '\n ' '  ' >says
"$D" weather years "$S/demo.yaml" --years 3 2>/dev/null >years
words=$(awk '/^as it stands/ { t = $5 " to " $7 } /^enthalpy core and/ { b = $6 " to " $8 }
    END { print "today is too humid in " t " hours, \"enthalpy core and dehumidifier\" in " b }' years)
grep -qF "How sure: in 3 other made years of this place $words, and real years differ more;" says
verdict $? "the spread of made years stands beside the hours: $words"
"$D" run "$S/demo.yaml" --quick --years 3 --json 2>/dev/null | ${PYTHON:-python3} -c '
import json, sys
y = json.load(sys.stdin)["years"]
sys.exit(not (y["count"] == 3 and y["option"] == 4 and
              y["today_too_humid_h"]["high"] > y["today_too_humid_h"]["low"]))'
verdict $? "and in JSON"
"$D" run --quick "$S/demo.yaml" --full 2>/dev/null | tr -s '\n ' '  ' |
    grep -qF "one year of weather (run --years 8: how years differ)"
verdict $? "without it the way to it is told"
"$D" weather make 722020 --out made.csv >/dev/null 2>&1
sed "s|^weather:.*|weather: {file: made.csv}|" "$S/demo.yaml" >file.yaml
"$D" run file.yaml --quick --years 3 >out 2>err
[ $? -eq 1 ] && grep -q 'a file has its own years: name weather.place or weather.monthly' err
verdict $? "a file has no other made years"

# ---- fourteen questions -------------------------------------------------------
told "1 what is wrong" "Damp: above 60 % humidity in [0-9,]+ hours of the year" demo
told "1 will ventilation fix it" "Ventilation alone does not cure the damp: .* leaves [0-9,]+ hours, in every month but April" demo
told "2 a dehumidifier too" "A dehumidifier is needed to stay below 60 %" demo
told "2 or not" "A dehumidifier is not needed" marine_mild
told "3 which core" "Core: the one that passes moisture. Heat only is too humid in [0-9,]+ hours and too dry in [0-9,]+, the other" demo
told "3 or heat only" "Core: heat only" marine_mild
told "4 what keeps my windows dry" "At -[0-9]+ degF outdoors, the coldest hour, glass wets from [0-9]+ %" cold_winter
told "5 how much air" "Fresh air: 87 cfm by ASHRAE 62.2 since 2013, 49 before" demo
told "5 did I get it" "0 of the 87 cfm of fresh air asked for comes in" demo
job "6 which ducts" 'Fails: "supply tie", "return to supply"' ducts "$S/ducts_humid.yaml"
job "6 blower along or not" "return tie, blower a~ along 113 134 100" ducts "$S/ducts_humid.yaml"
job "6 and what they cost" 'own ducts 105 105 105 100 0 0 420 .3,400' ducts "$S/ducts_humid.yaml"
job "7 two air handlers" "two, supply tie 105 [0-9]+ [0-9]+ 100" ducts "$S/ducts_humid.yaml"
told "8 what does it cost" '\$9,200 to install \(\$7,000 to \$12,000\), \$[0-9,]+ a year more than today: it saves no money' demo
# what it costs more a year is the difference of the table's last column
awk '/^Cost:/ { at = 1 } /^$/ { at = 0 } at { text = text " " $0 }
    /^1 as it stands / && /[$]/ { today = $NF }
    /^5 enthalpy core and d~ / && /[$]/ { best = $NF }
    END { gsub(/[$,]/, "", today); gsub(/[$,]/, "", best)
        match(text, /[$][0-9,]* a year more/); told = substr(text, RSTART + 1)
        sub(/ .*/, "", told); gsub(/,/, "", told)
        d = best - today - told; exit !(best > 0 && d * d <= 1) }' demo.out
verdict $? "8 and that is the difference of the years"
told "12 what could hurt" "STOP A garage adjoins" demo
told "13 how cold is its air" "Its air comes in at -?[0-9]+ degF in the coldest hour" cold_winter
told "14 what can I hand over" "contractor.html, inspector.html, calendar.html" demo

cat >log.yaml <<'END'
weather: {place: 722020}
house: {floor_area: 2400 ft2, bedrooms: 3, airtightness: 1.1 ach50}
END
{
    echo "time,temperature (degF),humidity (%)"
    for day in 01 02 03 04 05 06 07; do
        for hour in 00 06 12 18; do echo "2025-07-$day $hour:00,76,58"; done
    done
} >log.csv
job "9 my own log" "Your log averages 58 % humidity over [0-9]+ hours, the model [0-9]+ %" run --quick log.yaml --log log.csv
job "10 will it go away by itself" "That part goes away by itself" \
    run --quick log.yaml --set 'safety.house_age=4 month'

cat >lockout.yaml <<'END'
weather: {place: 722020}
house: {floor_area: 2400 ft2, bedrooms: 3, airtightness: 1.1 ach50}
cooling: {capacity: 2 ton}
ventilator: {core: enthalpy_plate, typical: yes}
options:
  - name: always on
  - name: off while it is humid outdoors
    control: {lockout_dew_point: 60 degF}
END
job "11 when should it run" "Hours too humid [0-9,]+ [0-9,]+ .*Fresh air brought 102 cfm [0-9]+ cfm" run --quick lockout.yaml
exit $bad
