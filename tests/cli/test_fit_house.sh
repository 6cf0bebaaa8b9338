#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# dewledger fit --house: what is told, written and refused.  Whether it is right
# is tests/run/test_learning.c's to say.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_fit_house.sh
set -u
docs=$(cd "$(dirname "$0")/../.." && pwd)/docs/evidence.md
. "$(dirname "$0")/../support/says.sh"

# Seventy days from 1 January on, an excess of 480 Pa less 15 Pa a K, through
# memories of 12 h and 240 h, and a wave of habits.  OUT=1: with the outdoors.
log() {
    awk -v out="$1" -v more="$2" 'function pws(t) {
        return 611.2 * exp(17.62 * t / (243.12 + t))
    }
    BEGIN {
        print "time,hall temperature (degC),hall humidity (%)" \
              (out ? ",outdoor temperature (degC),outdoor humidity (%)" : "")
        split("31 28 31", len); m = d = 1
        for (h = 0; h < 24 * 70; h++) {
            c = h % 24
            t = -3 + 4 * sin(h / 41) + 3 * sin(h / 97) - 2 * cos(c / 3.8)
            x = 100 * (0.8 * pws(t) + more + 380 - 15 * t) / pws(21)
            if (h == 0) a = b = x
            a += (x - a) / 12; b += (x - b) / 240
            rh = 0.5 * a + 0.5 * b + 1.5 * sin(h / 177) + sin(h / 7.7)
            printf "2023-%02d-%02d %02d:00,21.00,%.2f", m, d, c, rh
            if (out) printf ",%.2f,80", t
            printf "\n"
            if (c == 23 && ++d > len[m]) { d = 1; m++ }
        }
    }'
}
cat >house.yaml <<'Y'
title: made up
weather: {place: 726580}
house:
  floor_area: 1500 ft2
  bedrooms: 3
  airtightness: 4 ach50 (2 to 8) # from a neighbour
people: {count: "3 (1 to 6)"}
options:
  - name: as it stands
Y
log 1 0 >log.csv
log 1 1500 >damp.csv
log 0 0 >bare.csv
few="--house --told --draws 176"

ends "the house is learned" 0 fit house.yaml log.csv $few --yaml new.yaml \
    --inputs inputs.svg
says "what moved is drawn" sh -c \
    'xmllint --noout inputs.svg && grep -q ">house.airtightness<" inputs.svg &&
    test "$(grep -c "class=\"m5\"" inputs.svg)" = 3' # two, and the legend
says "what moved comes first" sh -c \
    'head -3 out | grep -q "^Of 2 figures in doubt the log tells something of"'
says "a figure before and after" sh -c \
    'grep -A2 "^house.airtightness$" out | grep -q "^  now      .* ach50 (.* to .*)"'
flat() { tr "\n" " " <out | grep -q "$1"; }
says "how near" flat 'the house as you told it is [0-9.]* points off'
says "it went on for no more" sh -c '! grep -q "went on" out'
says "how many effective draws" flat 'weighed by it they are worth [0-9]*[.] '
says "the log by itself follows" grep -q '^What the log says by itself$' out
says "in 80 columns" sh -c '! grep -q "^.\{81\}" out'
says "the rest of the file stays" sh -c \
    'grep -q "# from a neighbour" new.yaml && grep -q "floor_area: 1500 ft2" new.yaml'
says "a range is narrower" sh -c '! cmp -s house.yaml new.yaml'
ends "what is written is a scenario" 0 check new.yaml

says "the houses stand beside" grep -q 'houses: "*new-houses.csv' new.yaml
# Where a year is marched it is without a thermostat, which takes less.
cat >two.yaml <<'Y'
title: made up
weather: {place: 726580}
run: {steps_per_hour: 1, houses: gone.csv} # to be learned anew
house:
  floor_area: 1500 ft2
  bedrooms: 3
  airtightness: 4 ach50 (2 to 8)
people: {count: "3 (1 to 6)"}
temperature: {given: 21 degC}
options:
  - name: as it stands
  - name: with a core
    ventilator: {core: heat_plate, sensible: 70 % at 90 cfm, power: 60 W}
Y
ends "what is to be asked of them" 0 fit two.yaml log.csv $few --options \
    --yaml learned.yaml --json
cp out learned.json
says "in the place of others" grep -q \
    '^run: {steps_per_hour: 1, houses: "learned-houses.csv"} # to be' learned.yaml
says "each is a row" test "$(wc -l <learned-houses.csv)" = 129
ends "a spread of what is written" 0 spread learned.yaml --told --json \
    --option "as it stands"
says "has the houses learned, what goes together in them too" ${PYTHON:-python3} - <<'END'
import csv, json
one, two = (json.load(open(f)) for f in ("learned.json", "out"))
assert two["draws"] == 128
for a, b in zip(one["house"]["options"], two["options"]):
    assert a["name"] == b["name"]
    for of in ("too_humid_h", "too_dry_h"):
        for p in ("p10", "p50", "p90"):
            assert abs(a[of][p] - b[of][p]) <= 0.002 * max(b[of][p], 500)
rows = list(csv.DictReader(open("learned-houses.csv")))
xs = [[float(r["share of " + k]) for r in rows]
      for k in ("house.airtightness", "people.count")]
xs = [[v - sum(x) / 128 for v in x] for x in xs]
xy, xx, yy = (sum(a * b for a, b in zip(p, q)) for p, q in
              ((xs[0], xs[1]), (xs[0], xs[0]), (xs[1], xs[1])))
r = xy / (xx * yy) ** 0.5
told = one["house"]["together"]
assert all(abs(r - t["r"]) < 0.25 for t in told), (r, told)
END
ends "drawn apart" 0 spread learned.yaml --told --draws 8 --csv apart.csv \
    --option "as it stands"
says "it has others" ${PYTHON:-python3} - <<'END'
import csv
a, b = ([r["share of people.count"] for r in csv.DictReader(open(f))]
        for f in ("apart.csv", "learned-houses.csv"))
assert len(a) == 8 and not set(a) & set(b)
END
# of fewer of them where all that is held is that they are taken
head -5 learned-houses.csv >few.csv
sed 's/learned-houses/few/' learned.yaml >few.yaml
ends "a run of what is written" 0 run few.yaml --json --option "as it stands"
says "takes them" grep -q '"drawn": 4' out
says "and says so" sh -c 'tr "\n" " " <err |
    grep -q "note: the 4 houses are those of few.csv; [0-9]* figures that it lacks are drawn beside: "'
says "as they are, without the error of the model" grep -q '"model_error_pct": 0' out
ends "a run that draws anew" 0 run few.yaml --draws 6 --json --option "as it stands"
says "has others" grep -q '"drawn": 6' out
# Its fan brings less than it takes by far, so that most airflows that are tried
# are too much for it.  sized NAME CODE FILE ARG...
sized() {
    what=$1 code=$2 of=$3
    shift 3
    ends "$what" "$code" size "$of" --option "with a core" --hours 8760 --json \
        --set "options.with a core.ventilator.flow=10 cfm" "$@"
}
few_airflows() {
    sized "$1" 0 "$2" --set "limits.fresh_air=2070 cfm" \
        --set "options.with a core.ventilator.exhaust_flow=40 cfm"
}
sized "a size of what is written, with no airflow that can be" 1 learned.yaml \
    --set "limits.fresh_air=1000 cfm" \
    --set "options.with a core.ventilator.exhaust_flow=300 cfm"
says "takes of them and says so" sh -c 'tr "\n" " " <err |
    grep -q "note: the houses are 32 of the 128 of learned-houses.csv; "'
few_airflows "a size of a few" few.yaml
says "takes all" grep -q '"draws": 4' out
cp out sized
awk -F, -v OFS=, 'NR == 1 { for (i = 1; i <= NF; i++)
    if ($i == "share of house.airtightness") c = i }
    NR > 1 { $c = 1 - $c } 1' few.csv >other.csv
sed 's/few.csv/other.csv/' few.yaml >other.yaml
few_airflows "a size of others" other.yaml
says "is another" sh -c '! cmp -s out sized'
rm learned-houses.csv
ends "a size without the file" 1 size learned.yaml
says "says which" grep -q 'learned.yaml: run.houses: learned-houses.csv: No such file' err
ends "a run without the file" 1 run learned.yaml
says "says which" grep -q 'learned.yaml: run.houses: learned-houses.csv: No such file' err
printf 'draw,share of house.airtightness\n1,1.5\n' >learned-houses.csv
ends "a file that is none" 1 spread learned.yaml
says "says where" grep -q 'learned-houses.csv:2:2: house.airtightness: "1.5" is no share' err
printf 'draw,share of cooling.shr\n1,0.5\n' >learned-houses.csv
ends "a figure that nothing is drawn for" 1 run learned.yaml
says "is refused" grep -q 'cooling.shr: nothing is drawn for this column' err

ends "as JSON" 0 fit house.yaml log.csv $few --json
for key in effective_draws told reach_sd innovation_rms after_words together; do
    says "JSON has $key" grep -q "\"$key\":" out
done
sed '/with a core/,$d' two.yaml >one.yaml
ends "the options on what is left" 0 fit one.yaml log.csv $few --options
says "which is best comes first" sh -c \
    'head -1 out | grep -q "^On the houses that are left"'
says "hours from low to high" \
    grep -Eq '^1 as it stands +([0-9,]+ +){6}(none|all|[a-z]+ [0-9]+|[0-9]+)$' out
says "in 80 columns" sh -c '! grep -q "^.\{81\}" out'
for key in options best_share too_dry_h; do
    says "JSON has $key" grep -q "\"$key\":" learned.json
done
ends "both --why and --options" 2 fit house.yaml log.csv --why --options
says "are refused" grep -q 'ask --why and --options apart' err
ends "without" 0 fit house.yaml log.csv --json
says "there is no house" grep -q '"house": null' out

ends "a log that no house reaches" 1 fit house.yaml damp.csv $few --yaml no.yaml \
    --inputs x.svg
says "is told so" grep -q '^No house of your description is as damp as this log' out
says "and where to look" \
    flat "Look at these first, and at what you gave without a range"
says "it went on as far as it may" flat \
    'went on for 176 more houses, as too few of the first 176 agreed with the log[.]'
says "and nothing of its figures" sh -c '! grep -q "thought  " out'
says "nor is a scenario written" test ! -e no.yaml
says "and nothing is drawn" grep -q 'nothing was learned: nothing to draw' err

# a log that brings its own weather, of some weeks
sed -n '1s/$/,wind speed (m\/s),global solar (W\/m2)/p; 2,1200s/$/,3,60/p' log.csv >weeks.csv
"$D" weather convert weeks.csv weeks-weather.csv --latitude 45 --longitude -93.2 \
    --elevation 250m --utc -6 >convert.log 2>&1
ends "some weeks of weather" 0 fit house.yaml weeks.csv $few --yaml weeks.yaml \
    --set weather.place=none --set weather.file=weeks-weather.csv
says "the ranges are written" grep -q "airtightness: [0-9.]* ach50 (.* to .*) # from a neighbour" weeks.yaml
says "houses are not" sh -c '! grep -q "houses:" weeks.yaml && test ! -e weeks-houses.csv'
says "and why" sh -c 'tr "\n" " " <err | grep -q "has the ranges alone, each by itself: its weather is less than a year"'

ends "no weather of these days" 1 fit house.yaml bare.csv --house --told
says "is refused" grep -q 'give the weather of the log.s own days' err
ends "too few draws" 1 fit house.yaml log.csv --house --draws 100
says "are refused with how many" grep -q 'are too few to learn .* figures from' err
ends "nothing in doubt" 1 fit house.yaml log.csv --house --told \
    --set people.count=3 --set 'house.airtightness=4 ach50'
says "is refused with how to doubt" grep -q 'Write a range behind a figure' err
printf 'house: {floor_area: 1500 ft2}\n' >part.yaml
ends "a scenario that is not whole" 1 fit part.yaml log.csv --house
says "says what is wanting" grep -q 'house.bedrooms' err
cat >seen.yaml <<'Y'
title: made up
weather: {place: 726580}
run: {steps_per_hour: 1}
house:
  floor_area: 1500 ft2
  bedrooms: 3
  airtightness: 4 ach50 (2 to 8)
people: {count: "3 (1 to 6)"}
readings:
  - {when: january, rh: 48 to 54 %}
  - {when: february mornings, glass: wet}
options:
  - name: as it stands
temperature: {given: 21 degC}
windows: {north: 0 m2, east: 0 m2, south: 0 m2, west: 0 m2}
buffering: {class: none}
Y
ends "readings without a log" 0 fit seen.yaml --told --draws 160 --yaml new.yaml \
    --json
says "as JSON" grep -q '"readings": 2' out
ends "what is written is a scenario" 0 check new.yaml
says "with its readings" grep -q 'january, rh: 48 to 54 %' new.yaml
# seven causes told: fewer are to be asked for
SHUT="--set moisture.shower_water=0.3kg --set moisture.plants=2 --set moisture.aquarium=0m2
    --set moisture.burning=0kg/day --set moisture.drying=0kg --set airing.flow=0cfm --set ducts.leak_return=0%"
ends "why it is as damp as it is" 0 fit seen.yaml --why --told --draws 176 $SHUT \
    --set people.count=3
says "readings move the house" flat 'figures* in doubt your readings tell something of'
says "and say how sure they are" flat 'weighed by 2 readings they are worth'
says "the answer comes first" sh -c \
    'head -2 out | grep -Eq "^(Why it is as damp|Of [0-9]+ things that may)"'
says "a chance before and after, and the hours" sh -c \
    'grep -Eq "^  wet ground under the house +20 +[0-9]+  ([-0-9,]+ \(|too few)" out'
says "in 80 columns" sh -c '! grep -q "^.\{81\}" out'
ends "as JSON, by a log" 0 fit two.yaml log.csv --why --told --draws 304 --json \
    --set people.count=2 --set 'house.airtightness=3 ach50 (1 to 8)'
for key in causes any_after too_humid_h_gone together; do
    says "JSON has $key" grep -q "\"$key\":" out
done
says "hours of some are counted" grep -q '"too_humid_h_gone": {' out
says "each cause is in the docs" sh -c '
    sed -n "s/^ \{8\}\"name\": \"\(.*\)\",*$/\1/p" out >names
    test -s names && while read -r n; do
        grep -q "^| $n |" '"$docs"' || exit 1; done <names'
ends "nothing left open" 0 fit two.yaml log.csv --why --told --draws 176 $SHUT \
    --set 'moisture.ground=0 kg/day' --set 'moisture.laundry_dried_indoors=0 per day'
says "is told so" grep -q '^Nothing that may make the house damp is left open' out
ends "a scenario of causes" 2 fit seen.yaml --why --yaml no.yaml
says "is not written" grep -q 'ask --why and --yaml apart' err
mkdir nowhere-houses.csv
ends "houses beside that cannot be written" 3 fit house.yaml log.csv --house \
    --yaml nowhere.yaml
says "are told before anything else" test ! -s out
says "and by their name" grep -q 'nowhere-houses.csv' err

sed 's/{when: january, rh: 48 to 54 %}/{when: 2026-02-03 07:00, rh: 41 %, t: 69 degF}/' \
    seen.yaml >dated.yaml
ends "a dated one without that day's weather" 1 fit dated.yaml --told --draws 176
says "is refused with its place" \
    grep -q 'dated.yaml:10:12: readings.when: the weather is not of that day' err
sed 's/january, rh: 48 to 54 %/foo, rh: 148 %/; s/glass: wet/glass: damp/' \
    seen.yaml >wrong.yaml
ends "wrong readings" 1 check wrong.yaml
says "are told by place" grep -q 'wrong.yaml:10:21: readings.rh: 148 % is above' err
says "all of them" grep -q 'wrong.yaml:11:38: readings.glass: "damp" is not known' err
sed 's/january, rh: 48 to 54 %/foo, rh: 48 %/; s/, glass: wet//' \
    seen.yaml >wrong.yaml
ends "no time, and nothing seen" 1 check wrong.yaml
says "is told by place" grep -q 'wrong.yaml:10:12: readings.when: "foo" is no time' err
says "both of them" grep -q 'wrong.yaml:11:12: readings.when: says nothing' err
ends "neither log nor readings" 1 fit house.yaml
says "is refused with how" grep -q 'no log and no readings' err
ends "a chart of no log" 2 fit seen.yaml --curve x.svg
ends "--inputs alone" 2 fit house.yaml log.csv --inputs x.svg
ends "--yaml alone" 2 fit house.yaml log.csv --yaml new.yaml
says "is refused" grep -q -- '--yaml goes with --house' err
exit $bad
