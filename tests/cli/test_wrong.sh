#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What people get wrong: the message says where, what is wrong and what would
# be right; exit 1 for input, 2 for usage; nothing is written.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_wrong.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

# wrong CODE MESSAGE ARG...: the exit code, the first line of stderr without
# the program's name, nothing on stdout, no files
wrong() {
    code=$1 message=$2
    shift 2
    "$D" "$@" >out 2>err </dev/null
    got=$?
    line=$(head -n 1 err | sed 's/^dewledger[ a-z]*: //')
    if [ "$got" = "$code" ] && [ "$line" = "$message" ] && [ ! -s out ] &&
        [ ! -e result ]; then
        echo "ok $code $message"
    else
        echo "not ok $*: $code $message"
        echo "  got $got: $line"
        bad=1
    fi
}

# edit SED MESSAGE: the scenario of start, edited, is refused by run --out
edit() {
    sed "$1" ok.yaml >b.yaml
    if cmp -s ok.yaml b.yaml; then
        echo "not ok \"$1\" changes nothing"
        bad=1
    fi
    wrong 1 "$2" run --full b.yaml --out result
}
"$D" start >ok.yaml

# ---- values ----------------------------------------------------------------------
edit 's/1900 ft2/1900/' \
    'b.yaml:18:15: house.floor_area: 1900 needs a unit: write one of ft2, in2, m2, cm2'
edit 's/1900 ft2/1900 furlong/' \
    'b.yaml:18:15: house.floor_area: "furlong" is no unit that fits: write one of ft2, in2, m2, cm2'
edit 's/1900 ft2/1900 ft/' \
    'b.yaml:18:15: house.floor_area: "ft" is no unit that fits: write one of ft2, in2, m2, cm2'
edit 's/1900 ft2/-5 ft2/' \
    "b.yaml:18:15: house.floor_area: -5 ft2 is below 107.6 ft2: one household's house"
edit 's/1900 ft2/many/' \
    'b.yaml:18:15: house.floor_area: "many" is no number with one of the units ft2, in2, m2, cm2: write it like 1900 ft2'
edit 's/1900 ft2/[1, 2]/' \
    'b.yaml:18:15: house.floor_area: takes a single value, not a list'
edit 's/(0.7 to 2.0)/(2.0 to 0.7)/' \
    'b.yaml:26:17: house.airtightness: "1.1 ach50 (2.0 to 0.7)": the range must hold the value, the lower end first'
edit 's/bedrooms: 3/bedrooms: 3.5/' \
    'b.yaml:24:13: house.bedrooms: "3.5" is no whole number: write it like 3'
edit 's/74 % at 95 cfm/74 at 95 cfm/' \
    'b.yaml:192:17: options.enthalpy core, own ducts.ventilator.sensible: 74 is above 1: write 74 % or 0.74'
edit 's/52 % at 95 cfm/52 % at 95/' \
    'b.yaml:193:17: options.enthalpy core, own ducts.ventilator.moisture: 95 needs a unit: write one of cfm, L/s, m3/h, m3/s'
edit 's/attached_garage: .*/attached_garage: maybe/' \
    'b.yaml:153:20: safety.attached_garage: "maybe" is no answer: write yes, no or unknown'
edit 's/set: 52 %/set: 5200 %/' \
    'b.yaml:199:66: options.exhaust fan and dehumidifier.dehumidifier.set: 5200 % is above 90 %: a relative humidity'
edit 's/69 degF/79 degF/' \
    'b.yaml:83:9: temperature.heat: heats to above what temperature.cool cools to: the lower one is for heating'

ducts() { # KEYS MESSAGE: of the ducts, on the second line of d.yaml
    printf 'weather: {place: 722020}\nducts: {%s}\n' "$1" >d.yaml
    wrong 1 "$2" run --full d.yaml --out result
}
ducts 'place: basement' \
    'd.yaml:2:16: ducts.place: "basement" is not known: write attic, crawl_space or outdoors'
ducts 'place_air: 6.5' \
    'd.yaml:2:20: ducts.place_air: 6.5 needs a unit: write one of per day, per week, per hour'
ducts 'deck_insulation: 38 ft' \
    'd.yaml:2:26: ducts.deck_insulation: "ft" is no unit that fits: write one of hft2F/Btu, R, m2K/W, RSI'

# ---- keys and options ---------------------------------------------------------------
edit 's/^  floor_area/  flor_area/' \
    'b.yaml:18:3: house.flor_area: no such key; the nearest is "house.floor_area"'
edit 's/^house:/houze:/' \
    'b.yaml:16:1: houze: no such key; the nearest is "house"'
edit 's/name: as it stands/nam: as it stands/' \
    'b.yaml:187:5: options: an option needs its name: write - name: ...'
edit 's/name: enthalpy core, own ducts/name: as it stands/' \
    'b.yaml:189:11: options: two options are named "as it stands": name each its own way'
wrong 1 '--option zzz: the scenario has no option of that name; it has "as it stands", "enthalpy core, own ducts", "exhaust fan and dehumidifier"' \
    run --full ok.yaml --option zzz --out result

# ---- text that is no scenario ---------------------------------------------------------
edit 's/^  floor_area/	floor_area/' \
    'b.yaml:18:1: a tab: lines are set in by spaces alone'
edit 's/^house:/house: {/' \
    "b.yaml:20:3: not readable as YAML: did not find expected ',' or '}'"
: >empty.yaml
wrong 1 'empty.yaml: no scenario: it begins with keys such as title: and house:' \
    run --full empty.yaml
printf 'title: a\nhouse: {bedrooms: 3} # \200\n' >latin.yaml
wrong 1 'latin.yaml:2:24: not UTF-8 text, or a character that has no place in it' \
    run --full latin.yaml
head -c 1100000 /dev/zero | tr '\0' '#' >big.yaml
wrong 1 'big.yaml: longer than 1 MiB' run --full big.yaml
wrong 1 '.: cannot be read: Is a directory' run .

# ---- the command line ------------------------------------------------------------------
wrong 2 '--set foo: write key=value' run --full ok.yaml --set foo
wrong 2 '--units metric: write us or si' run --full ok.yaml --units metric
wrong 2 "unrecognized option '--jsn'" run --full ok.yaml --jsn
wrong 1 '--set: options.zzz.people.count: no option of that name' \
    run --full ok.yaml --set options.zzz.people.count=3
wrong 1 '--set:1:13: people.count: has no value: write one, or none' \
    run --full ok.yaml --set people.count=
wrong 2 'weather: no word loook; nearest is look' weather loook x

# ---- weather -----------------------------------------------------------------------------
year=$here/weather/seattle-made.csv
weather() { # what makes w.csv, message
    sh -c "$1" >w.csv
    wrong 1 "$2" run --full w.yaml --out result
}
sed 's/place: 722020/file: w.csv/' ok.yaml >w.yaml
weather "sed 's/temperature (degC)/temperature/' '$year'" \
    'w.csv:10:2: temperature: its unit is not said; say one of degF, degC, K'
weather "sed '120s/,[0-9.-]*,/,abc,/' '$year'" \
    'w.csv:120:2: temperature (degC): "abc" is not a number; a number in degC would be, or -9900 where there is none'
weather "sed '120s/,[0-9.-]*,/,99,/' '$year'" \
    'w.csv:120:2: temperature (degC): 99 is outside -70 .. 60 degC'
weather "echo a,b" \
    'w.csv:1:1: header: no line of the first 60 names a time and a temperature or humidity: put a header such as "time,temperature (degC),relative humidity (%)" on top'
weather "gzip -c '$year' | head -c 3000" \
    'w.csv:1:1: the compressed data are damaged or end early'
rm w.csv
mkdir w.csv
wrong 1 'w.csv:1:1: cannot be read: Is a directory' run --full w.yaml
wrong 1 'nothere.csv: cannot be opened: No such file or directory' \
    weather look nothere.csv

exit $bad
