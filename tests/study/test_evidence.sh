#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The windows of docs/evidence.md that begin with the log, run anew: the
# document says what the program does.  Figures are our own regression.
# usage: DEWLEDGER=path DEW_DATA=path tests/study/test_evidence.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
data=$(realpath "${DEW_DATA:-../shared/data}" 2>/dev/null)/houses
. "$(dirname "$0")/../support/says.sh"
log=$data/finland_house_2_hourly.csv
printf 'house:\n  floor_area: 1500 ft2\n' >house.yaml

# window DAYS UNTIL
window() {
    if [ ! -f "$log" ]; then
        echo "skip house 2, $1 days: no $(basename "$log")"
        return
    fi
    "$D" fit house.yaml "$log" --set log.sensor=all --until "$2" --json >out
    row=$(grep "^| house 2 | 2010-11-23 | $1 |" "$here/docs/evidence.md")
    says "house 2, $1 days: $row" awk -v row="$row" 'BEGIN {
        n = split(row, want, "|")
        while ((getline <"out") > 0) {
            part = /"holdout": / ? 1 : /"yardstick"/ ? 2 : /"parameters"/ ? 3 : part
            split($0, x, ": "); gsub(/[ ",]/, "", x[1])
            if (!((part, x[1]) in got)) got[part, x[1]] = x[2] + 0
        }
        exit n == 12 &&
            (got[1, "rmse_rh_pct"] - want[7]) ^ 2 < 0.02 ^ 2 &&
            (got[1, "rmse_vapour_pa"] - want[9]) ^ 2 < 1 &&
            (100 * got[1, "band80_coverage"] - want[10]) ^ 2 < 1 &&
            (got[2, "rmse_rh_pct"] - want[11]) ^ 2 < 0.02 ^ 2 ? 0 : 1
    }'
}
window 14 2010-12-07
window 60 2011-01-22
window 180 2011-05-22
exit $bad
