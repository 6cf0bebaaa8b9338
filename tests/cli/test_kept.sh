#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A folder of what options came to, between runs: after each of many changes,
# one at a time, every word and every file has the bytes of a run that keeps
# nothing; and no more is marched than what changed.
set -u
# In memory where there is room for it: each set is synced.
[ ! -w /dev/shm ] || export TMPDIR=/dev/shm
. "$(dirname "$0")/../support/says.sh"
top=$OLDPWD
# Three weeks of weather, but where a place makes a year.
{
    sed '/name: enthalpy core and dehumidifier/,$d' "$top"/scenarios/tutorial.yaml
    echo "run: {steps_per_hour: 1}"
} >year.yaml
sed 's/^weather: .*/weather: {file: weather.csv}/' year.yaml >house.yaml
head -505 "$top"/scenarios/tutorial_log.csv | sed 's/^2025/2001/' >log.csv
{ grep '^[#t]' "$top"/weather/miami-made.csv | grep -v '^# year'
    sed -n '/^2001-01-01 01/,/^2001-01-21 24/p' "$top"/weather/miami-made.csv; } >weather.csv
mkdir kept held

kept_files() { # how many
    set -- kept/*
    files=$#
    [ -e "$1" ] || files=0
}

# same NAME NEW WORD...: what both runs write; NEW: files that are kept anew, or
# "some" (houses drawn are kept in blocks, whose size goes by the processors)
same() {
    what=$1 new=$2
    shift 2
    kept_files
    before=$files
    # a fresh run of the same words is the same: once is enough
    fresh=fresh-$(cat house.yaml weather.csv log.csv | sha256sum | cut -c1-16)$(echo " $*" | tr -c 'A-Za-z0-9=.\n' _)
    (cd held && "$D" run ../house.yaml --out set --kept ../kept "$@" >out 2>err)
    one=$?
    if [ -e "$fresh" ]; then
        two=0
    else
        mkdir "$fresh"
        (cd "$fresh" && "$D" run ../house.yaml --out set "$@" >out 2>err)
        two=$?
    fi
    says "$what: the bytes of a fresh run" sh -c \
        "[ $one = 0 ] && [ $two = 0 ] && diff -r held '$fresh'"
    kept_files
    more=$((files - before))
    [ "$new" = some ] && [ $more -gt 0 ] && new=$more
    says "$what: $new marched" test $more = "$new"
}

# each option is marched three times: with its coil as dry and as wet as its
# figures' ranges allow too; beside one that is picked stands the house as it is
ERV="options.enthalpy core"
D1="--quick"
same "first" 9 $D1
same "again" 0 $D1
same "a price" 0 $D1 --set "$ERV.costs.install=5000 $"
same "an airflow" 3 $D1 --set "$ERV.ventilator.flow=70 cfm"
same "another airflow" 3 $D1 --set "$ERV.ventilator.flow=71 cfm"
same "the first airflow again" 0 $D1 --set "$ERV.ventilator.flow=70 cfm"
same "two options" 6 $D1 --set "$ERV.ventilator.flow=72 cfm" \
    --set "options.heat core.ventilator.power=61 W"
same "all but one option" 0 $D1 --option "as it stands" --option "enthalpy core"
same "other units" 0 $D1 --units si
same "the house" 9 $D1 --set "people.count=3"
same "a bedroom more, so more air asked for" 9 $D1 --set house.bedrooms=4
same "a limit" 9 $D1 --set "limits.too_humid=59 %"
cp house.yaml file.yaml
cp year.yaml house.yaml
same "a place" 6 $D1 --option "enthalpy core"
same "another place" 6 $D1 --option "enthalpy core" --set "weather.place=722020"
same "another year of the place" 6 $D1 --option "enthalpy core" --set "weather.seed=9"
same "its year again" 0 $D1 --option "enthalpy core"
cp file.yaml house.yaml
same "back again" 0 $D1
sed '400s/,[0-9.]*/,21/' weather.csv >other.csv
cmp -s weather.csv other.csv && bad=1
mv other.csv weather.csv
same "one hour of it" 9 $D1
same "a log" 0 $D1 --set log.file=log.csv --set log.sensor=hall
same "the house held at a log" 9 $D1 --set log.file=log.csv --set log.held=yes

# houses are drawn of a whole year
cp "$top"/weather/miami-made.csv weather.csv
drawn() {
    what=$1 new=$2
    shift 2
    same "$what" "$new" --draws 3 --option "as it stands" --option "enthalpy core" "$@"
}
drawn "houses drawn" some
drawn "the same houses" 0
drawn "a price, houses drawn" 0 --set "$ERV.costs.install=5000 $"
drawn "a figure of one option, houses drawn" some --set "$ERV.ventilator.power=61 W"

# what lies there and is none of it, cut or too long, is not taken
for f in kept/*; do head -c 5000 "$f" >cut && mv cut "$f"; done
drawn "files that were cut" 0
for f in kept/*; do echo >>"$f"; done
drawn "files that are too long" 0

# drawn houses go through other made years of a place, made anew for the march
cp year.yaml house.yaml
drawn "houses through other years" some
drawn "the same houses through other years" 0
exit $bad
