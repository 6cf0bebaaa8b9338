#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# run with a log: the model beside its own hours is no gap, held or not.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_log.sh
set -u
. "$(dirname "$0")/../support/says.sh"

# figure PART NAME: of the log in the JSON in out
figure() {
    sed -n "/\"log\": {/,\$ { /\"$1\"/,/}/p }" out |
        sed -n "s/^ *\"$2\": \(-\{0,1\}[0-9.e-]*\),\{0,1\}\$/\1/p" | head -1
}
within() { # name, value, low, high
    says "$1: $2" awk -v x="$2" -v a="$3" -v b="$4" \
        'BEGIN { exit x != "" && x + 0 >= a && x + 0 <= b ? 0 : 1 }'
}

# two months of made-up weather with dates
awk 'BEGIN {
    print "# dewledger weather: an hour ends at its time; local standard time; solar is the mean of the hour"
    print "# latitude: 47.3\n# longitude: 8.5\n# elevation: 430\n# utc offset: 1"
    print "time,temperature (degC),humidity ratio (g/kg),pressure (Pa),wind speed (m/s),global solar (W/m2),direct solar (W/m2),diffuse solar (W/m2)"
    for (h = 0; h < 24 * 59; h++) {
        d = int(h / 24)
        day = sin(6.2831853 * (h % 24 - 8) / 24)
        printf "2019-%02d-%02d %02d:00,%.2f,%.3f,96300,%.2f,0,0,0\n",
            d < 31 ? 1 : 2, d < 31 ? d + 1 : d - 30, h % 24 + 1,
            2.3 + 3.1 * day + 4.7 * sin(h / 37), 3.4 + 0.9 * sin(h / 53),
            2.1 + day
    }
}' >weather.csv
"$D" start | sed 's/^  place:.*/  file: weather.csv/' >house.yaml
span='The weather has 1416 hours, a year has 8760: hours, water and energy "a year" are sums in the 1416 hours of the file; only costs a year are scaled to 8760.'
ends "without a log" 0 run --quick --full house.yaml --out first
says "short weather is noted" grep -qxF "dewledger: note: $span" err
says "and told beside the verdict" sh -c 'tr -s "\n " "  " <out | grep -qF "What the 1416 hours say ----------------------- $0"' "$span"
says "its hours are not called a year's" grep -q 'hours of the 1416 hours' out
for page in report.html contractor.html inspector.html calendar.html; do
    says "on $page" grep -qF "$(echo "$span" | sed 's/"/\&quot;/g')" "first/$page"
done
says "and in JSON" grep -qF '"is_year": false' first/summary.json
says "in words" grep -qF "\"span\": \"$(echo "$span" | sed 's/"/\\"/g')\"" first/summary.json
awk -F, 'NR == 1 { print "time,temperature (degC),relative humidity (%)"; next }
    { printf "2019-%02d-%02d %02d:00,%s,%s\n", $2, $3, $4, $5, $6 + 2.5 }' \
    first/hours-1-as-it-stands.csv >mine.csv

# the log is what the model said, 2.5 points too high
ends "with a log" 0 run --quick --full house.yaml --set log.file=mine.csv --json
within "hours measured" "$(figure rh_pct hours)" 1416 1416
within "bias of humidity" "$(figure rh_pct bias)" -2.501 -2.499
within "rms of humidity" "$(figure rh_pct rms)" 2.499 2.501
within "rms of temperature" "$(figure temperature_c rms)" 0 0.005
ends "held at the log's temperature" 0 run --quick --full house.yaml \
    --set log.file=mine.csv --set log.held=yes --json
within "temperature is the log's" "$(figure temperature_c rms)" 0 1e-9
within "humidity stays" "$(figure rh_pct bias)" -2.6 -2.4
says "no heating acts" sh -c \
    '! grep -q "\"heating_power\": *[1-9]" out && grep -q "\"heating_power\": 0.0" out'
ends "as text" 0 run --quick --full house.yaml --set log.file=mine.csv
says "it is told" sh -c 'tr -s "\n " "  " <out | grep -q "Model less measured: -2.5 points in the"'
says "months without a measure are left out" sh -c \
    'grep -q "^February   " out && ! grep -q "^March   " out'

# ---- the same by --log, and its dew points ---------------------------------------
mv out long
ends "by --log" 0 run --quick --full house.yaml --log mine.csv
says "the same text" cmp -s out long
cat >summer.csv <<'END'
time,temperature (degC),relative humidity (%),outdoor temperature (degC),outdoor humidity (%)
2024-07-14 01:00,25.0,50,27.0,80
2024-07-14 02:00,25.1,51,26.5,82
2024-07-14 03:00,25.2,49,12.0,40
END
"$D" start >made.yaml
ends "beside a year that mixes years" 0 run --quick --full made.yaml --log summer.csv --out one
tr -s '\n ' '  ' <out >flat
says "the dew-point test, by the log's own columns" grep -q \
    "Of the 3 hours of the log that have a dew point indoors and outdoors, outdoor air would have dried the house in 1 (outdoor dew point below the indoor one; outdoors as the log's own columns have it)" flat
says "the years are told apart" grep -q 'compare levels, not days' flat
says "charts" test -s one/charts/log-dew-points.svg -a -s one/charts/log-rh.svg
says "no path is in it" sh -c "! grep -rqF '$work' one"
ends "the same again" 0 run --quick --full made.yaml --log summer.csv --out two
says "the same files twice" diff -r one two
mkdir kept # marched once: tests/cli/test_kept.sh
sed 's/,outdoor.*//; s/\(,[0-9.]*,[0-9.]*\),.*/\1/' summer.csv >indoors.csv
ends "without outdoor columns" 0 run --quick --full --kept kept made.yaml --log indoors.csv
tr -s '\n ' '  ' <out >flat
says "no test can be made" grep -q 'the log has no outdoor columns' flat

# ---- a log longer than a year --------------------------------------------------
# another room that is not asked for is no outdoors
sed 's/outdoor/den/g' summer.csv >rooms.csv
ends "with another room" 0 run --quick --full --kept kept made.yaml --log rooms.csv \
    --set log.sensor=logger
tr -s '\n ' '  ' <out >flat
says "which is no outdoors" grep -q 'the log has no outdoor columns' flat

# 400 days of weather, and a log of them all with outdoor columns: every hour
# has its own, though a day and hour of the calendar comes twice
awk 'BEGIN {
    split("31 28 31 30 31 30 31 31 30 31 30 31", of, " ")
    head = "time,temperature (degC),"
    print "# latitude: 47.3\n# longitude: 8.5\n# elevation: 430\n# utc offset: 1" >"long.csv"
    print head "humidity ratio (g/kg),pressure (Pa),wind speed (m/s),global solar (W/m2),direct solar (W/m2),diffuse solar (W/m2)" >"long.csv"
    print head "relative humidity (%),outdoor temperature (degC),outdoor humidity (%)" >"lived.csv"
    year = 2018; m = 1; d = 1
    for (h = 0; h < 24 * 400; h++) {
        at = sprintf("%d-%02d-%02d %02d:00", year, m, d, h % 24 + 1)
        out = 6 + 7 * sin(h / 1393) + 3 * sin(6.2831853 * (h % 24 - 8) / 24)
        printf "%s,%.2f,4.1,96300,2.4,0,0,0\n", at, out >"long.csv"
        printf "%s,21.0,47,%.2f,70\n", at, out >"lived.csv"
        if (h % 24 == 23 && ++d > of[m]) { d = 1; if (++m > 12) { m = 1; year++ } }
    }
}'
sed 's/file: weather.csv/file: long.csv/' house.yaml >long.yaml
ends "a log longer than a year" 0 run --quick --full long.yaml --log lived.csv
tr -s '\n ' '  ' <out >flat
says "tests every hour of it" grep -q 'Of the 9,600 hours of the log that have' flat
says "and compares as many" grep -q 'over the 9,600 hours that have it measured' flat

# ---- what it tells by itself, in report.html ------------------------------------
figures() { # DIR: of the three that are learned
    grep -c "<h3>\(Your log and what was learned of it\|What the house adds to the air outdoors\|What your log has above and below what was learned\)</h3>" \
        "$1/report.html"
}
awk 'BEGIN {
    print "time,temperature (degC),relative humidity (%),outdoor temperature (degC),outdoor humidity (%)"
    for (h = 0; h < 240; h++)
        printf "2024-07-%02d %02d:00,24.%d,%.1f,%.1f,70\n", 10 + h / 24, h % 24,
               h % 7, 52 + 3 * sin(h / 30), 20 + 4 * sin(h / 3.8)
}' >days.csv
ends "a report with a log" 0 run --quick --full --kept kept made.yaml --log days.csv --out fitted
says "has what it tells by itself" test "$(figures fitted)" = 3
says "nothing is noted" sh -c '! grep -q "by itself" err'
cut -d, -f1-3 days.csv >indoors.csv
ends "without outdoor columns" 0 run --quick --full --kept kept made.yaml --log indoors.csv --out bare
says "it has not" test "$(figures bare)" = 0
says "and a note says why" grep -q \
    'note: report.html does not have what the log tells by itself: no outdoor' err

# ---- faults ---------------------------------------------------------------------
sed 's/^2019/2018/' mine.csv >late.csv
ends "days that the weather has not" 1 run --quick --full house.yaml --set log.file=late.csv
says "are told" grep -qF 'log.file: no hour of the log is among the hours of the weather: a log wants the weather of its own days, in weather.file' err
ends "a setting without a log" 1 run --quick --full house.yaml --set log.held=yes
says "is told" grep -qxF 'dewledger: house.yaml: log.held: has no log to speak of: give log.file' err
ends "a log that is not there" 1 run --quick --full house.yaml --set log.file=absent.csv
says "is told where" grep -qF 'log.file: absent.csv: No such file' err
echo 'time,wheel
2019-01-01 01:00,3' >wheel.csv
ends "a file without temperature or humidity" 1 run --quick --full house.yaml \
    --set log.file=wheel.csv
says "is told" grep -q 'wheel.csv' err

exit $bad
