#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every command does with 128 KiB of stack, what a thread has where the C
# library is a small one.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0
small() { # ARG...
    if (ulimit -s 128 && exec "$D" "$@" >out 2>err </dev/null); then
        echo "ok 128 KiB of stack: $(echo "$*" | sed "s,$here/,,g")"
    else
        echo "not ok 128 KiB of stack: $*: $(tail -1 err)"
        bad=1
    fi
}
first=$here/scenarios/first.yaml
made=$here/weather/miami-made.csv
{ grep '^[#t]' "$made" | grep -v '^# year'; sed -n '/^2001-07-01 01/,/^2001-07-31 24/p' "$made"; } >month.csv
{
    echo 'time,temperature (degF),humidity (%),outdoor temperature (degF),outdoor humidity (%)'
    for day in 01 02 03 04; do
        for hour in 00 06 12 18; do echo "2001-07-$day $hour:00,76,58,85,70"; done
    done
} >log.csv
awk 'BEGIN {
    print "time,temperature (degC),humidity (%),outdoor temperature (degC),outdoor humidity (%)"
    for (h = 0; h < 24 * 24; h++)
        printf "2001-07-%02d %02d:00,21.3,%.1f,%.1f,%d\n", 1 + int(h / 24), h % 24,
            47 + 5 * sin(h / 31), 9 + 6 * sin(h / 17), 71 + 9 * sin(h / 13)
}' >hourly.csv
for scenario in demo ducts_written ducts_humid; do
    for words in "check" "check --json" "run --out set" "run --full" "ducts --full --out set"; do
        set -- $words
        command=$1
        shift
        small $command "$here/scenarios/$scenario.yaml" --set weather.place=none \
            --set weather.file=month.csv "$@"
    done
done
small run "$first" --set weather.place=none --set weather.file=month.csv \
    --log log.csv --out set
small weather look "$made" --svg look.svg
small weather convert "$made" out.csv
small weather make 722020 --out made.csv
small spread "$here/scenarios/demo.yaml" --draws 8 --threads 1 --option "enthalpy core"
small spread "$here/scenarios/demo.yaml" --draws 8 --threads 2 --json
small fit "$first" hourly.csv --series hours.csv --svg log.svg --curve curve.svg
small fit "$first" hourly.csv --changed 2001-07-08 --json
small weather make 722020 --years 2
small weather list miami
small weather near 25 -80 --json
small explain --markdown
small explain house.airtightness
small start --all
small air 80degF 60% outdoors 75degF 50%
small complete --manual
exit $bad
