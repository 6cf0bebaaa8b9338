#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# dewledger fit: a made-up log whose excess is known, and what is refused.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_fit.sh
set -u
. "$(dirname "$0")/../support/says.sh"

within() { # name, value, low, high
    says "$1" awk -v x="$2" -v a="$3" -v b="$4" \
        'BEGIN { exit x != "" && x + 0 >= a && x + 0 <= b ? 0 : 1 }'
}
# figure PART NAME: a number of a part of the JSON in out
figure() {
    sed -n "/^  \"$1\": {/,/^  }/p" out |
        sed -n "s/^ *\"$2\": \(-\{0,1\}[0-9.e-]*\),\{0,1\}\$/\1/p" | head -1
}
# parameter NAME: its value
parameter() {
    tr -d '\n' <out | tr '{' '\n' | grep "\"$1\"" |
        sed 's/.*"value": \([-0-9.e]*\).*/\1/'
}

# Hours from 1 October on: vapour outdoors at 81 %, indoors 480 Pa less 19 Pa a
# K above it, through memories of 12 h (60 %) and 240 h (40 %), and a slow and
# a quick wave of habits.  OUT=1 with the outdoors beside.
log() {
    awk -v days="$1" -v out="$2" 'function pws(t) {
        return 611.2 * exp(17.62 * t / (243.12 + t))
    }
    BEGIN {
        print "time,hall temperature (degC),hall humidity (%)," \
              "den temperature (degC),den humidity (%)" \
              (out ? ",outdoor temperature (degC),outdoor humidity (%)" : "")
        split("31 30 31 31 29 31 30 31 30 31 31 30", len)
        y = 2023; m = 10; d = 1; a = b = 50; k = 1
        for (h = 0; h < 24 * days; h++) {
            c = h % 24
            t = 6 - 9 * sin(6.2831853 * h / 24 / 365) + 4 * sin(h / 41) \
                + 3 * sin(h / 97) - 3 * cos(6.2831853 * (c - 3) / 24)
            x = 100 * (0.81 * pws(t) + 480 - 19 * t) / pws(21)
            if (h == 0) a = b = x
            a += (x - a) * (1 - exp(-1 / 12)); b += (x - b) * (1 - exp(-1 / 240))
            rh = 0.6 * a + 0.4 * b + 1.6 * sin(h / 77) + 0.9 * sin(h * h)
            printf "%d-%02d-%02d %02d:00,21.00,%.2f,21.40,%.2f", y, m, d, c,
                rh + 1, rh - 1
            if (out) printf ",%.2f,81", t
            printf "\n"
            if (c == 23 && ++d > len[k]) {
                d = 1; k++; if (++m > 12) { m = 1; y++ }
            }
        }
    }'
}
printf 'house:\n  floor_area: 1500 ft2\n' >house.yaml
log 120 1 >log.csv

ends "which sensor is asked" 1 fit house.yaml log.csv
says "and how to answer" grep -q 'answer with --set log.sensor=' err
ends "a floor area and a log" 0 fit house.yaml log.csv --set log.sensor=all
says "is told what the house adds" grep -q 'outdoors your house holds its air' out
says "and how long it remembers" grep -q 'It remembers: half of a change' out
says "and what it cannot tell" grep -q 'Water and air apart' out
says "and what was assumed" grep -q 'The mean of these sensors: hall, den' out
says "in 80 columns" sh -c '! grep -q "^.\{81\}" out'
says "in degrees as the scenario" grep -q '32 degF' out
ends "in others" 0 fit house.yaml log.csv --set log.sensor=all --units si
says "when asked" grep -q ' 0 degC' out

ends "kept back" 0 fit house.yaml log.csv --set log.sensor=all \
    --until 2023-12-10 --json --series hours.csv
within "fit.days: rows before the day" "$(figure fit days)" 70 70
within "holdout.days: the rest" "$(figure holdout days)" 50 50
within "fit.rmse_rh_pct" "$(figure fit rmse_rh_pct)" 0.5 2
within "holdout.rmse_rh_pct" "$(figure holdout rmse_rh_pct)" 0.5 2.5
within "holdout.bias_rh_pct" "$(figure holdout bias_rh_pct)" -1.5 1.5
within "holdout.rmse_vapour_pa: of 21 degC" "$(figure holdout rmse_vapour_pa)" 12 62
within "holdout.band80_coverage" "$(figure holdout band80_coverage)" 0.7 1
within "yardstick.rmse_rh_pct" "$(figure yardstick rmse_rh_pct)" 2.5 12
within "the excess at 0 degC" "$(parameter excess_at_0_degc)" 440 520
within "the excess at 10 degC" "$(parameter excess_at_10_degc)" 240 340
says "the hours" sh -c 'test "$(wc -l <hours.csv)" = 2881'
says "of them learned from" \
    sh -c 'test "$(cut -d, -f3 hours.csv | grep -c 1)" = 1680'
says "the first hour" grep -q '^2023-09-30,24,1,' hours.csv

ends "drawn" 0 fit house.yaml log.csv --set log.sensor=all \
    --until 2023-12-10 --svg log.svg --curve curve.svg \
    --rest rest.svg
says "as SVG" xmllint --noout log.svg curve.svg rest.svg
says "what is left, about a line at 0, in its band" sh -c \
    'grep -c "class=\"\(b0\|zero\|logged\|edge\)\" d=\"M" rest.svg | grep -qx 6'
says "with what was kept back" grep -q 'Right of the upright line' log.svg
says "a band, two lines, the day" sh -c \
    'test "$(grep -c "class=\"\(b0\|thick\|logged\|edge\)\" d=\"M" log.svg)" -ge 4'
says "a dot for each day learned from" sh -c \
    'test "$(grep "class=\"dots\" d=\"M" curve.svg | head -1 | grep -o M | wc -l)" = 70'
ends "not drawn nowhere" 3 fit house.yaml log.csv --set log.sensor=all \
    --svg none/log.svg
# CO2 that falls from 9 to 15 o'clock by 30 % an hour, by 55 % from December on
awk -F, -v OFS=, 'NR == 1 { print $0, "CO2 (ppm)"; next } {
    c = substr($1, 12, 2) + 0
    n = $1 < "2023-12-10" ? 0.3 : 0.55
    print $0, 424 + 700 * (c >= 9 && c <= 15 ? exp(-n * (c - 9)) : 1) }' \
    log.csv >co2.csv
ends "with CO2" 0 fit house.yaml co2.csv --set log.sensor=all \
    --changed 2023-12-10
says "the air is told before" sh -c \
    'tr "\n" " " <out | grep -q "The air before: in 70 falls of CO2 30 % of it"'
says "and after" sh -c \
    'tr "\n" " " <out | grep -q "The air after the change: in 50 falls of CO2 55 % of it"'

# a change on 10 December, in two files: 9 points drier from then on
awk -F, -v OFS=, 'NR == 1 || $1 < "2023-12-10"' log.csv >before.csv
awk -F, -v OFS=, 'NR == 1 { print; next } $1 >= "2023-12-10" {
    $3 -= 9; $5 -= 9; print }' log.csv >after.csv
ends "before and after" 0 fit house.yaml before.csv after.csv \
    --set log.sensor=all --changed 2023-12-10
says "says what changed" grep -q 'Since the change the house is drier by' out
says "in 80 columns too" sh -c '! grep -q "^.\{81\}" out'
ends "before and after" 0 fit house.yaml before.csv after.csv \
    --set log.sensor=all --changed 2023-12-10 --set limits.too_humid=40% --json
within "change.days" "$(figure change days)" 39.9 40
within "change.drier_chance" "$(figure change drier_chance)" 0.95 1
within "change.rh_change_pct.p50" "$(sed -n '/"rh_change_pct"/,/}/p' out |
    sed -n 's/.*"p50": \([-0-9.]*\),/\1/p')" -11 -7
says "counted above the limit" \
    test "$(awk -F, 'NR > 1 && $1 > "2023-12-20 00:00" && ($3 + $5) / 2 > 40' after.csv |
        wc -l)" = "$(figure change humid_logged_h | sed 's/\.0$//')"
ends "nothing changed" 0 fit house.yaml log.csv --set log.sensor=all \
    --changed 2023-12-10
says "is not told as a change" grep -q 'The log cannot tell yet' out
ends "changed too late" 1 fit house.yaml log.csv --set log.sensor=all \
    --changed 2024-01-14
says "says how long it takes" grep -q 'less than 7 tell nothing' err
ends "both" 2 fit house.yaml log.csv --until 2023-12-10 --changed 2023-12-10
log 120 0 >alone.csv
ends "without outdoors" 1 fit house.yaml alone.csv --set log.sensor=hall
says "says what would do" grep -q 'give the weather of the log.s own days as weather.file' err
cut -d, -f1,6,7 log.csv | sed '1s/outdoor //g' >weather.csv
ends "with a weather file" 0 fit house.yaml alone.csv --set log.sensor=hall \
    --set weather.file=weather.csv --set weather.utc=0 --json
within "learns the same" "$(parameter excess_at_0_degc)" 440 540
sed 's/^2023/2021/; s/^2024/2022/' weather.csv >other.csv
ends "of other days" 1 fit house.yaml alone.csv --set log.sensor=hall \
    --set weather.file=other.csv --set weather.utc=0
says "says which days" grep -q 'the log runs from 2023-' err
# two files without a header, in Unix time, each called what it holds
stamp=1696118400 # 2023-10-01 00:00 UTC
for column in 2 3; do
    awk -F, -v c=$column -v s=$stamp 'NR > 1 { print s "," $c; s += 3600 }' log.csv \
        >"$(echo "Hall_Temperature Hall_Humidity" | cut -d' ' -f$((column - 1))).csv"
done
ends "files joined" 0 fit house.yaml Hall_Humidity.csv Hall_Temperature.csv \
    --set log.units=Hall_Temperature=degC --set weather.file=weather.csv \
    --set weather.utc=0 --set log.utc=0 --json
within "learn the same" "$(parameter excess_at_0_degc)" 440 540
ends "one of them alone" 1 fit house.yaml Hall_Temperature.csv \
    --set log.units=Hall_Temperature=degC
ends "put right" 0 fit house.yaml log.csv --set log.sensor=hall --json \
    --set 'log.reads=79 % at 73 %'
within "an offset of 6 points is 149 Pa at 21 degC" \
    "$(parameter excess_at_0_degc)" 310 390
ends "as a page" 0 fit house.yaml log.csv --set log.sensor=all \
    --until 2023-12-10 --report page.html
cp out told
says "that reads as XML" xmllint --noout page.html
says "with the three charts, each with its table" sh -c \
    'test "$(grep -c "^<figure" page.html)" = 3 &&
    test "$(grep -c "The same as a table" page.html)" = 3'
says "and every word of the text" ${PYTHON:-python3} - <<'END'
import re, xml.dom.minidom
def words(node):
    if node.nodeName in ("svg", "figure", "style", "script", "head"):
        return ""
    if node.nodeType == node.TEXT_NODE:
        return node.data + " "
    return " ".join(words(c) for c in node.childNodes)
page = words(xml.dom.minidom.parse("page.html")).split()
text = [w for w in open("told").read().split() if w != "-"]
lost = [w for w in text if w not in page]
assert len(text) > 200 and not lost, lost
END
ends "a page nowhere" 3 fit house.yaml log.csv --set log.sensor=all \
    --report none/page.html
head -140 log.csv >short.csv
ends "too short" 1 fit house.yaml short.csv --set log.sensor=all
says "says how short" grep -q 'less than 7 days' err
awk -F, -v OFS=, 'NR > 1 {$3 = 51.2} 1' log.csv >stuck.csv
ends "stuck" 1 fit house.yaml stuck.csv --set log.sensor=hall
says "says so" grep -q 'the humidity stays the same throughout' err
ends "a day after the log" 1 fit house.yaml log.csv --set log.sensor=all \
    --until 2026-01-01
says "says which days it has" grep -q 'within the log, 2023-09-30 to 2024-01-28' err
for word in 2023-02-30 soon 2023-1-1 20231210; do
    ends "--until $word" 2 fit house.yaml log.csv --until $word
done
ends "no log" 1 fit house.yaml
printf 'house:\n  floor_area: 1500 acres\n' >wrong.yaml
ends "a wrong scenario" 1 fit wrong.yaml log.csv --set log.sensor=all
says "is told" grep -q 'wrong.yaml:2:' err
ends "a series nowhere" 3 fit house.yaml log.csv --set log.sensor=all \
    --series none/hours.csv
ends "a report nowhere" 3 fit house.yaml log.csv --set log.sensor=all \
    --report none/log.html
says "is told before anything else" test ! -s out
exit $bad
