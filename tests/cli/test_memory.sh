#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# One allocation is refused, each in turn or every so many: a command then says
# that memory is short and ends with 3, or its result is the whole one.  It
# never blames a file, leaves out a part or waits for ever.  TRIES says how many for each
# command.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0
tries=${TRIES:-24}
if ! "${CC:-gcc}" -shared -fPIC -O1 -o short.so "$here/tests/cli/short_memory.c" 2>log; then
    echo "skip short memory: $(tail -1 log)"
    exit 77
fi

speaks_of_memory() {
    while IFS= read -r line; do
        case $line in *[Mm]emory*) return 0 ;; esac
    done <err
    return 1
}

# short NAME COMMAND...
short() {
    name=$1
    shift
    "$D" "$@" >whole 2>err </dev/null
    code=$?
    SHORT_TOLD=count LD_PRELOAD=./short.so "$D" "$@" >out 2>err </dev/null
    count=$(cat count)
    step=$(((count + tries - 1) / tries)) at=1 tried=0 wrong=0
    : >wrong
    while [ $at -le "$count" ]; do
        SHORT_AT=$at LD_PRELOAD=./short.so "$D" "$@" >out 2>err </dev/null
        got=$?
        tried=$((tried + 1))
        if [ $got = $code ] && cmp -s out whole; then
            :
        elif [ $got != 3 ] || ! speaks_of_memory; then
            wrong=$((wrong + 1))
            echo "    allocation $at: exit $got: $(head -c 200 err)" >>wrong
        fi
        at=$((at + step))
    done
    if [ $code = 0 ] && [ "$tried" -gt 0 ] && [ $wrong = 0 ]; then
        echo "ok $name: $tried of $count refused"
    else
        echo "not ok $name: exit $code; $wrong of $tried wrong"
        head -8 wrong
        bad=1
    fi
}

first=$here/scenarios/first.yaml
made=$here/weather/miami-made.csv
{ grep '^[#t]' "$made" | grep -v '^# year'; sed -n '/^2001-07-01 01/,/^2001-07-31 24/p' "$made"; } >month.csv
of_month="--set weather.place=none --set weather.file=month.csv"
printf 'time,temperature (degF),humidity (%%)\n' >log.csv
for day in 01 02 03 04; do
    for hour in 00 06 12 18; do echo "2001-07-$day $hour:00,76,58"; done
done >>log.csv

awk 'BEGIN {
    print "time,temperature (degC),humidity (%),outdoor temperature (degC),outdoor humidity (%)"
    for (h = 0; h < 24 * 24; h++)
        printf "2001-07-%02d %02d:00,21.3,%.1f,%.1f,%d\n", 1 + int(h / 24), h % 24,
            47 + 5 * sin(h / 31), 9 + 6 * sin(h / 17), 71 + 9 * sin(h / 13)
}' >hourly.csv

short "check --json" check "$first" --json
short "check" check "$first"
printf '<a id="ui-house"></script>' >empty.html
printf 'weather: {place: 722020}\nlog: {file: log.csv}\nhouse: {floor_area: 90 m2, bedrooms: 2}\n' >page.yaml
short "page" page page.yaml --from empty.html --out page.html
short "explain --json" explain --json
short "air --json" air 80degF 60% outdoors 75degF 50% --json
short "air of a mix, --json" air --mix 75degF 50% 300cfm with 20degF 80% 90cfm --json
short "weather list --json" weather list miami --json
short "weather near --json" weather near 25 -80 --json
short "weather look --json" weather look month.csv --json
short "weather look" weather look "$made"
short "weather make --json" weather make 722020 --json
short "start" start
short "ducts --json" ducts "$here/scenarios/ducts_written.yaml" --json
# A command that marches takes nearly all the time: fewer of its allocations.
some() { # OF NAME COMMAND...: one in OF of the tries
    many=$tries
    tries=$(((tries + $1 - 1) / $1))
    shift
    short "$@"
    tries=$many
}
some 4 "run --json" run "$first" $of_month --json
spread() { # OF NAME WORD...
    of=$1 what=$2
    shift 2
    some "$of" "$what" spread "$first" --draws 8 --threads 2 --option "as it stands" \
        --set run.steps_per_hour=1 --set "people.count=3 (2 to 4)" --json "$@"
}
spread 5 "spread --json" --set weather.place=none --set "weather.file=$made"
spread 10 "spread of a place --json"
short "fit --json" fit "$first" hourly.csv --until 2001-07-12 --json
short "fit --changed" fit "$first" hourly.csv --changed 2001-07-08 --curve curve.svg
some 4 "run with a log" run "$first" $of_month --log log.csv --full
exit $bad
