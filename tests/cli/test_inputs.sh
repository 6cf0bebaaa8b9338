#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What a scenario leaves open or gets wrong: asked for or pointed at before a
# march begins, and by `check` as by `run`.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_inputs.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
data=${DEW_DATA:-$here/../shared/data}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

verdict() { # 0 or 1, name, file to show
    if [ "$1" = 0 ]; then
        echo "ok $2"
    else
        echo "not ok $2"
        sed 's/^/  /' "$3" | head -12
        bad=1
    fi
}
# told NAME WANT ARG...: exit 1, nothing on stdout, and stderr is the file WANT
# without the program's name and the hint
told() {
    name=$1 want=$2
    shift 2
    "$D" "$@" >out 2>err </dev/null
    code=$?
    sed 's/^dewledger[ a-z]*: //' err | grep -v '^the answer belongs in' >lines
    printf '%s\n' "$want" >want
    { cmp -s want lines && [ "$code" = 1 ] && [ ! -s out ]; }
    verdict $? "$name" lines
}
# fine NAME ARG...: exit 0 and nothing on stderr
fine() {
    name=$1
    shift
    "$D" "$@" >out 2>err </dev/null && [ ! -s err ]
    verdict $? "$name" err
}
holds() { # name, words that stand in out, on any lines
    tr -s '\n ' ' ' <out | grep -qF -- "$2"
    verdict $? "$1" out
}
house='house: {floor_area: 1900 ft2, bedrooms: 3}'
sun='2021-01-04 12:00,1,71,101300,2,300,400,90'
head='time,t (degC),rh (%),p (Pa),wind (m/s),ghi (W/m2),dni (W/m2),dhi (W/m2)'
printf '%s\n' "$head" "$sun" '2021-01-04 13:00,2,70,101300,2,310,400,95' >sunny.csv
printf 'weather: {file: sunny.csv}\n%s\n' "$house" >sunny.yaml

# ---- a site that is not known -----------------------------------------------
# (all three lights are there, so nothing else would ask)
what=': the sun cannot be followed without'
told "no site" \
    "sunny.csv: site: the file does not say latitude and longitude and the offset of standard time from UTC$what" \
    run --quick --full sunny.yaml
told "the latitude alone" \
    "sunny.csv: site: the file does not say longitude and the offset of standard time from UTC$what" \
    run --quick --full sunny.yaml --set 'weather.latitude=45'
told "no offset" \
    "sunny.csv: site: the file does not say the offset of standard time from UTC$what" \
    run --quick --full sunny.yaml --set 'weather.latitude=45' --set 'weather.longitude=8'
told "no offset, and a place to fill from" \
    "sunny.csv: site: the file does not say the offset of standard time from UTC$what" \
    run --quick --full sunny.yaml --set 'weather.latitude=45' --set 'weather.longitude=8' \
    --set weather.fill=722020
"$D" run --quick --full sunny.yaml 2>&1 | grep -q 'weather.latitude, weather.longitude, weather.utc'
verdict $? "the keys that answer are named" err
"$D" run --quick --full sunny.yaml --set weather.latitude=45 --set weather.longitude=8 \
    --set weather.utc=1 >out 2>err
verdict $? "all of it, and it runs" err
! grep -qi nan out
verdict $? "without a NaN" out

observed=$data/weather/observed
for file in jrc_typical_45N_8E.csv eccc_kamloops_2016.csv lcd_v2_lincoln_2023.csv; do
    if [ ! -e "$observed/$file" ]; then
        echo "skip $file: not here"
        continue
    fi
    fill=none
    [ $file = jrc_typical_45N_8E.csv ] || fill=726580
    "$D" run --quick --full sunny.yaml --set weather.file="$observed/$file" \
        --set weather.fill=$fill >out 2>err
    [ $? = 1 ] && grep -q "site: the file does not say .*$what" err
    verdict $? "$file is asked for its site" err
    "$D" run --quick --full sunny.yaml --set weather.file="$observed/$file" \
        --set weather.fill=$fill --set weather.latitude=45 \
        --set weather.longitude=8 --set weather.utc=1 >out 2>err
    verdict $? "$file runs where it is known" err
done

# ---- `check` finds what `run` would refuse ------------------------------------
printf 'weather: {place: Houton}\n%s\n' "$house" >place.yaml
like='722429 Houston/D.W. Hooks TX, 722430 Houston Bush Intercontinental TX, 722435 Houston William P Hobby Ap TX'
for verb in check run; do
    told "$verb: a place spelt wrong" \
        "place.yaml:1:18: weather.place: no place in the table answers to \"Houton\"; spelt most like it: $like" \
        $verb place.yaml
    told "$verb: a postal code" \
        '--set:1:1: weather.place: "77002" looks like a postal code, which the table does not have: write a town, or latitude and longitude as in 29.76 -95.37' \
        $verb place.yaml --set weather.place=77002
    told "$verb: no file" \
        '--set:1:1: weather.file: nosuch.csv: No such file or directory (looked for beside the scenario, then where the command was given)' \
        $verb place.yaml --set weather.file=nosuch.csv
    told "$verb: a file's site" \
        "sunny.csv: site: the file does not say latitude and longitude and the offset of standard time from UTC$what" \
        $verb sunny.yaml
done
fine "a point is a place" check place.yaml --set 'weather.place=29.76 -95.37'
"$D" run --quick --full place.yaml --set 'weather.place=29.76 -95.37' >out 2>err
holds "and the run says which" 'monthly figures of 722435 Houston William P Hobby Airport'

cat >all.yaml <<'END'
title: everything at once
weather:
  file: nosuch.csv
  fill: Houton
house:
  floor_area: 1900
  bedrooms: 3
log:
  file: warm.csv
END
printf 'time,Temp (degC),Fukt (%%)\n' >warm.csv
for h in 01 02 03; do
    echo "2021-01-05 $h:00,20.5,41" >>warm.csv
done
told "every fault in one pass" \
    "all.yaml:3:9: weather.file: nosuch.csv: No such file or directory (looked for beside the scenario, then where the command was given)
all.yaml:4:9: weather.fill: no place in the table answers to \"Houton\"; spelt most like it: $like
all.yaml:6:15: house.floor_area: 1900 needs a unit: write one of ft2, in2, m2, cm2
warm.csv:1:1: humidity: no column is known as a humidity (not understood: \"Fukt (%)\"): name one \"relative humidity (%)\" or \"dew point (degC)\"" \
    check all.yaml
printf 'wether: {place: 722020}\n%s\n' "$house" >typo.yaml
told "no place is looked for where none is asked for" \
    'typo.yaml:1:1: wether: no such key; the nearest is "weather"' \
    check typo.yaml
printf 'time,temp,rh (%%)\n2021-01-04 12:00,1,71\n' >units.csv
told "a file's unit and a log that is not there" \
    "--set:2:1: log.file: nolog.csv: No such file or directory (looked for beside the scenario, then where the command was given)
units.csv:1:2: temp: its unit is not said; say one of degF, degC, K" \
    check sunny.yaml --set weather.file=units.csv --set log.file=nolog.csv
sed 's/^/AAA,/; 1s/AAA/station/' sunny.csv >two.csv
sed '1d; s/^/BBB,/' sunny.csv >>two.csv
told "which station" \
    'two.csv: station: the file holds several stations (AAA, BBB): say which' \
    check sunny.yaml --set weather.file=two.csv
told "which year" 'sunny.csv: year: the file has no hour of 1999' \
    check sunny.yaml --set weather.year=1999
sed 's/Fukt/RH/' warm.csv >rh.csv
told "a log of other days" \
    '--set:4:1: log.file: no hour of the log is among the hours of the weather: a log wants the weather of its own days, in weather.file' \
    check sunny.yaml --set weather.latitude=45 --set weather.longitude=8 \
    --set weather.utc=1 --set log.file=rh.csv
printf 'time,T1 (degC),RH1 (%%),T2 (degC),RH2 (%%)\n2021-01-04 12:00,20,40,21,41\n' >rooms.csv
told "which sensor" \
    'rooms.csv:1:1: sensor: several sensors (1, 2): say which, or all' \
    check place.yaml --set weather.place=722020 --set log.file=rooms.csv
for kind in 'weather.place=nowhere at all' 'weather.file=units.csv' \
    'weather.monthly=units.csv' 'log.file=rooms.csv'; do
    "$D" run --quick --full place.yaml --set weather.place=722020 --set "$kind" >out 2>run.err
    "$D" check place.yaml --set weather.place=722020 --set "$kind" >out 2>err
    grep -v '^dewledger: the answer' run.err >a
    grep -v '^dewledger: the answer' err >b
    [ -s a ] && cmp -s a b
    verdict $? "check says as run: $kind" b
done

# ---- --set of another kind of weather --------------------------------------------
printf 'weather: {place: 722020, seed: 3}\n%s\n' "$house" >kind.yaml
fine "a file in the place of a place" check kind.yaml \
    --set weather.file="$here/weather/seattle-made.csv"
holds "the file is there" 'seattle-made.csv'
cat >file.yaml <<END
weather: {file: sunny.csv, latitude: 45, longitude: 8, utc: 1, fill: 722020,
  order: mdy, gap: 2 h, frost_point: yes, elevation: 3 m}
$house
END
fine "a place in the place of a file and its answers" check file.yaml \
    --set weather.place=726580
holds "the place is there" 'place: 726580 [--set 1]'
holds "the file is gone" 'file: none [not given]'
{
    printf 'month,lat_deg,lon_deg,elevation_m,utc_offset_h,t_max_c,t_min_c,rh_mean_pct\n'
    for m in 1 2 3 4 5 6 7 8 9 10 11 12; do
        echo "$m,45,8,100,1,20,10,70"
    done
} >months.csv
fine "monthly figures in the place of either" check file.yaml \
    --set weather.monthly=months.csv
fine "and a file again, its new answers kept" check kind.yaml \
    --set weather.latitude=45 --set weather.longitude=8 --set weather.utc=1 \
    --set weather.file=sunny.csv
sed 's/sunny.csv/moved.csv/' file.yaml >moved.yaml
fine "a file in the place of a file, its answers kept" check moved.yaml \
    --set weather.file=sunny.csv
holds "the fill is there" 'fill: 722020 [line 1]'
told "two by --set are two" \
    'kind.yaml: weather.place: place, file and monthly exclude each other: keep one' \
    check kind.yaml --set weather.place=726580 --set weather.file=sunny.csv

# ---- YAML that people write ----------------------------------------------------------
yaml() { # name, message, text
    printf '%b' "$3" >y.yaml
    "$D" check y.yaml >out 2>err
    sed -n '1s/^dewledger[ a-z]*: //p' err >lines
    printf '%s\n' "$2" >want
    cmp -s want lines
    verdict $? "$1" lines
}
colon='a colon and a blank part a key from its value, not =: write it like bedrooms: 3'
yaml "a quote open to another line" \
    'y.yaml:1:8: a quote is opened here and not closed on its line' \
    'title: "abc\nweather: {place: 722020}\nlayout: "own"\n'
yaml "a quote open to the end" \
    'y.yaml:2:10: a quote is opened here and not closed' \
    "title: abc\nweather: 'x\nlayout: own\n"
yaml "a quote of two lines that closes, and something else" \
    'y.yaml:3:2: not readable as YAML: did not find expected key' \
    'title: "a\n  b"\n ]\n'
yaml "= before the next key" "y.yaml:3:13: $colon" \
    'title: a\nhouse:\n  floor_area= 1900 ft2\n  bedrooms: 3\n'
yaml "= as the first of a group" "y.yaml:3:3: weather: $colon" \
    'title: a\nweather:\n  place = 722020\nhouse: {}\n'
yaml "the first of several =" "y.yaml:4:11: $colon" \
    'house:\n  floor_area: 1900 ft2\n\n  bedrooms=3\n  storeys=1\nlayout: x\n'
yaml "= inside braces" "y.yaml:1:9: house.bedrooms=3: $colon" \
    'house: {bedrooms=3, floor_area: 1900 ft2}\n'

# ---- words that lead on ------------------------------------------------------------------
leads() { # key, words...
    key=$1
    shift
    for word in "$@"; do
        "$D" explain "$word" >out 2>err && grep -qxF "$key" out
        verdict $? "explain $word leads to $key" err
    done
}
leads ventilator.core erv ERV HRV mvhr 'energy recovery ventilator' \
    heat-recovery-ventilator
leads cooling.capacity AC a/c 'air conditioner' Air-Conditioning
leads dehumidifier dehumidifier dehu
leads house.airtightness ach50 'blower door'
leads house.airtightness leak leaks
leads house.foundation crawl crawlspace
leads limits.too_humid humidity RH
leads safety.attached_garage garage
leads insulation.roof attic
leads weather.place zip
fine "words need no quotes" explain air conditioner
holds "and say why" 'air conditioner: see cooling.capacity (an air conditioner'
for word in $(sed -n 's/^    {"\([^"]*\)".*/\1/p' "$here/engine/cli/explain_words.c" | tr ' ' _); do
    "$D" explain "$word" >out 2>err
    verdict $? "explain $word" err
done
fine "JSON is the key alone" explain erv --json
grep -q '"key": "ventilator.core"' out && ! grep -q see out
verdict $? "JSON of a word" out
"$D" start --all | tr -d "#" >out
holds "start names the blower's words" \
    'auto, nothing; on, always; minutes, so many'
grep -q '^\*\*ERV\.\*\*' "$here/docs/words.md" && grep -q '^\*\*HRV\.\*\*' "$here/docs/words.md"
verdict $? "words.md knows both" out

exit $bad
