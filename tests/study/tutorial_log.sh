#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Make scenarios/tutorial_log.csv: what a logger would have written in the house
# of scenarios/tutorial.yaml, were it leakier than thought.  Made up: the
# program's own hours of January and February, and habits as dew/evidence.h has
# them.  It need not be made anew when the program changes.
# usage: tests/study/tutorial_log.sh DEWLEDGER >scenarios/tutorial_log.csv
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$1" run --quick "$(dirname "$0")/../../scenarios/tutorial.yaml" \
    --option 'as it stands' --set 'house.airtightness=850 cfm50' \
    --out "$work/run" >"$work/out" || test $? = 1
awk -F, 'function uniform() { # of Park and Miller
    seed = (16807 * seed) % 2147483647
    return seed / 2147483647
}
function gaussian() {
    return sqrt(-2 * log(uniform())) * cos(6.283185307 * uniform())
}
function degF(c) { return 1.8 * c + 32 }
BEGIN {
    seed = 20250301
    slow = 2.2 * gaussian()
    d = exp(-1 / 480); g = exp(-1 / 8)
    print "time,hall temperature (degF),hall humidity (%)," \
          "outdoor temperature (degF),outdoor dew point (degF)"
}
NR > 1 && $2 <= 2 {
    slow = d * slow + 2.2 * sqrt(1 - d * d) * gaussian()
    quick = g * quick + 1.8 * sqrt(1 - g * g) * gaussian()
    printf "2025-%02d-%02d %02d:00,%.1f,%.1f,%.1f,%.1f\n", $2, $3, $4,
           degF($5), $6 + slow + quick + 0.3 * gaussian(), degF($8), degF($9)
}' "$work"/run/hours-1-*.csv
