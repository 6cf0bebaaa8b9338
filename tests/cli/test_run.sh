#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# run: results, files, the same bytes twice, exit codes.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_run.sh
set -u
. "$(dirname "$0")/../support/says.sh"

# refused NAME FROM SED TO GREP_ARG...: the scenario FROM, edited into TO, ends
# with 1 and says this on stderr
refused() {
    name=$1
    sed "$3" "$2" >"$4"
    ends "$name" 1 run --quick --full "$4"
    shift 4
    says "is told where it stands" grep "$@" err
}

"$D" start >house.yaml

ends "text" 0 run --quick --full house.yaml
says "nothing on stderr where there is no terminal" test ! -s err
says "no line above 80 columns" test -z "$(grep -E '^.{81}' out)"
says "the verdict is told" grep -q '^What the year says' out
cp out first
ends "the same again" 0 run --quick --full house.yaml
says "the same text twice" cmp -s out first
mkdir kept # what is marched once need not be again: tests/cli/test_kept.sh

ends "json" 0 run --quick --full --kept kept house.yaml --json
says "json has the keys of scripts" grep -q '"outdoor_air_could_dry"' out
says "json is one object" sh -c 'head -c 1 out | grep -q "{"'
ends "json in the other units" 0 run --quick --full --kept kept house.yaml --json --units si
says "json keys do not change" grep -q '"fresh_air_l_s"' out

ends "files" 0 run --quick --full --kept kept house.yaml --out one
ends "files again" 0 run --quick --full house.yaml --out two
says "the same files twice" diff -r one two
says "page" test -s one/report.html
says "summary" test -s one/summary.json
says "hours of the first option" test -s one/hours-1-as-it-stands.csv
says "8760 hours and a heading" \
    test "$(wc -l <one/hours-1-as-it-stands.csv)" -eq 8761
says "no path in any output" sh -c "! grep -rqF '$work' one"
says "nothing half written is left" test -z "$(ls -A one | grep part)"
ends "a file in place of the directory" 3 run --quick --full --kept kept house.yaml --out house.yaml
says "it is named" grep -q 'house.yaml.*Not a directory' err

ends "strict stops" 4 run --quick --full --kept kept house.yaml --strict
says "a stop still tells its result" test -s out
cat >answers.sed <<'END'
s/: unknown$/: no/
s/\(carbon_monoxide_alarm\|radon_tested\|dryer_vented_outdoors\): no/\1: yes/
END
sed -f answers.sed house.yaml >answered.yaml
ends "strict passes when all is answered" 0 run --quick --full --kept kept answered.yaml --strict

# ---- no suction before every fan is told ------------------------------------------
# told WORDS: in the text as one line
told() { tr -s ' \n' ' ' <out | grep -q "$1"; }
sed '/^range_hood:/,/^  flow:/d' house.yaml >hoodless.yaml
ends "a hood that nobody told of" 0 run --quick --full --kept kept hoodless.yaml --option 'as it stands'
says "no suction while a fan is not told" told \
    "Not computed: kitchen hood not given. Give range_hood.flow; 0 cfm"
says "nor any figure" sh -c '! grep -q "at once: -*[0-9]" out'
says "questions in one list" \
    test "$(grep -c '^You have not said whether' out)" = 1
ends "fans told, two as absent" 0 run --quick --full --kept kept house.yaml \
    --set 'range_hood.flow=40 cfm' --set 'bath_fan.flow=0 cfm' \
    --set 'clothes_dryer.flow=0 cfm' --option 'as it stands'
says "the figure, of the fan that is there" told \
    "Computed, kitchen hood at once: -[0-9.]* Pa"
ends "strong fans" 0 run --quick --full --kept kept house.yaml --set 'range_hood.flow=600 cfm' \
    --set 'bath_fan.flow=80 cfm' --set 'clothes_dryer.flow=150 cfm' \
    --option 'as it stands'
says "no figure past 50 Pa" told \
    "more than 50 Pa: these fans would not deliver their rated air"

ends "one option" 0 run --quick --full --kept kept house.yaml --option 'as it stands'
says "only that option" sh -c '! grep -q "^2 " out'
ends "another option" 0 run --quick --full --kept kept house.yaml \
    --option 'exhaust fan and dehumidifier' --out picked
says "is told beside today's house" grep -q '^1 as it stands  ' out
says "and no third" sh -c '! grep -q "^3 " out'
grep '^\* Today' first >today
says "of which today is told as ever" grep -qxFf today out
for sheet in contractor inspector calendar; do
    says "the $sheet's sheet is about it" grep -q \
        'Option: <strong>exhaust fan and dehumidifier</strong>' \
        picked/$sheet.html
done
ends "an option that is not there" 1 run --quick --full --kept kept house.yaml --option nothing
ends "a key that is not there" 1 run --quick --full --kept kept house.yaml --set house.nothing=3
ends "a set that changes the house" 0 run --quick --full --kept kept house.yaml --set 'people.count=1'
says "another result" sh -c '! cmp -s out first'

# ---- the weather a scenario asks for -----------------------------------------
here=$OLDPWD
sed -n "2p;/^726580,/{s/Int'L Arp/Intl Airport/;p}" \
    "$here/weather/climates.csv" >mine.csv
ends "monthly figures of one's own" 0 run --quick --full --kept kept house.yaml \
    --set weather.place=none --set weather.monthly=mine.csv --json
sed '/"files"/,/^ "weather"/d; /"provenance"/d; /"inputs"/,$d' out >mine
ends "the same place from the table" 0 run --quick --full --kept kept house.yaml \
    --set weather.place=726580 --json
sed '/"files"/,/^ "weather"/d; /"provenance"/d; /"inputs"/,$d' out >table
says "are the same year" cmp mine table
ends "another seed" 0 run --quick --full --kept kept house.yaml --set weather.place=726580 \
    --set weather.seed=2 --json
sed '/"files"/,/^ "weather"/d; /"provenance"/d; /"inputs"/,$d' out >seed
says "is another year" sh -c '! cmp -s table seed'
refused "a place that is not there" house.yaml \
    's/place: 722020/place: atlantis/' nowhere.yaml \
    -qxF 'dewledger: nowhere.yaml:13:10: weather.place: no place in the table answers to "atlantis"; spelt most like it: 724070 Atlantic City Intl Ap NJ, 725453 Atlantic IA'
refused "a file that is not there" house.yaml \
    's/place: 722020/file: absent.csv/' nofile.yaml \
    -qF 'dewledger: nofile.yaml:13:9: weather.file: absent.csv: No such file'
ends "a young house" 0 run --quick --full --kept kept house.yaml --set 'safety.house_age=4 month' --json
says "once dry is told beside the year" grep -q '"too_humid_once_dry_h"' out
says "as many options as ever" \
    test "$(grep -c '"delivers_required_air"' out)" = \
    "$(grep -c '^ *- name:' house.yaml)"
says "and what lasts is told apart" grep -q '"settled"' out
# a file with a gap of two days, global light and no wind
{
    echo '# latitude: 25.8'
    echo '# longitude: -80.3'
    echo '# utc offset: -5'
    "$D" weather make 722020 --out whole.csv >whole.txt
    grep '^time\|^2001-0[12]' whole.csv | grep -v '^2001-02-0[34]' |
        cut -d, -f1-4,6
} >gap.csv
sed 's/place: 722020/file: gap.csv/' house.yaml >gap.yaml
ends "a file with a gap" 1 run --quick --full --kept kept gap.yaml
says "is refused where it begins" grep -q 'gap.csv:796:2: temperature: no value for 49.0 h from 2001-02-03 01:00 on' err
sed 's/place: 722020/file: gap.csv\n  fill: 722020/' house.yaml >filled.yaml
ends "a file filled from a place" 0 run --quick --full --kept kept filled.yaml
says "is told" grep -q '48 hours of temperature' out
says "so are the rows read" grep -q '1368 rows read, 1368 kept' out
ends "a file filled from a place, as files" 0 run --quick --full --kept kept filled.yaml --out filled
says "the page tells what was filled" grep -q '48 hours of temperature' filled/report.html
says "and the rows read" grep -q '1368 rows read, 1368 kept' filled/report.html
ends "a file filled from a place, as JSON" 0 run --quick --full --kept kept filled.yaml --json
says "has the notes" grep -q '"1368 rows read, 1368 kept, 60 min apart"' out
sed 's/place: 722020/file: whole.csv/' house.yaml >again.yaml
ends "a made year read back" 0 run --quick --full --kept kept again.yaml
says "is still called made" sh -c 'tr -s "\n " " " <out | grep -q "made from monthly figures of 722020 Miami Intl Airport, seed 129"'
printf 'time,temp (C),rh (%%)\n3/4/2020 05:00,7.3,81\n' >asks.csv
sed 's/place: 722020/file: asks.csv/' house.yaml >asks.yaml
ends "a file with a question" 1 run --quick --full --kept kept asks.yaml
says "says where it is answered" grep -q 'weather.order' err
# a file of two stations, without units, without a place: the scenario answers
{
    echo 'station,time,temp,humidity ratio (g/kg),pressure (Pa),wind speed,global solar (W/m2)'
    grep '^2001-0[12]' whole.csv | cut -d, -f1-6 | sed 's/^/up,/'
    grep '^2001-01-0' whole.csv | cut -d, -f1-6 | sed 's/^/down,/'
} >two.csv
sed 's/place: 722020/file: two.csv/' house.yaml >two.yaml
ends "a file of two stations" 1 run --quick --full --kept kept two.yaml
says "asks which" grep -q 'two.csv: station: the file holds several stations (up, down): say which' err
says "and says where to answer" grep -q 'weather.station' err
cat >answers.sed <<'END'
s/place: 722020/file: two.csv\
  station: up\
  latitude: 25.8\
  longitude: -80.3\
  elevation: 10 ft\
  utc: -5\
  units: temp=degC, wind speed=m\/s/
END
sed -f answers.sed house.yaml >answered.yaml
ends "and is read once answered" 0 run --quick --full --kept kept answered.yaml --json
says "as the one asked for" grep -q '"1632 rows read, 1416 kept, 60 min apart"' out
says "without the other" grep -q '"216 rows of other stations left out, first on line 1418"' out
refused "half an answer" answered.yaml 's/units: temp=degC/units: temp/' \
    half.yaml -q '^dewledger: half.yaml:19:10: weather.units: temp: write HEADER=UNIT, several with commas between'
refused "a column named without its unit" answered.yaml \
    's/units: .*/columns: temp=temperature/' nounit.yaml \
    -q 'two.csv:1:3: temp: its unit is not said'
ends "no scenario" 2 run
ends "two scenarios" 2 run --quick --full --kept kept house.yaml house.yaml
ends "a file that is not there" 1 run --quick --full --kept kept absent.yaml
if [ -w /dev/full ]; then
    "$D" run --quick --full --kept kept house.yaml >/dev/full 2>err
    says "a full disk: exit 3" test $? = 3
fi

exit $bad
