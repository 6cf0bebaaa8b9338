#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Cores, dehumidifier, lockout and blower in three climates: what physics makes
# certain, read from the summaries of the shipped scenarios.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_cores.sh
set -u
S=$(realpath "$(dirname "$0")/../../scenarios")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

say() { # say STATUS WORDS
    if [ "$1" = 0 ]; then echo "ok $2"; else echo "not ok $2"; bad=1; fi
}

for s in cores_humid cores_cold cores_dry blower_modes; do
    shipped=$(sh "$S/../tests/support/shipped.sh" "$S/$s.yaml")
    [ "$(cat "$shipped/status")" = "0 0" ]
    say $? "$s runs"
    ln -s "$shipped/set/summary.json" "$work/$s"
    ln -s "$shipped/full" "$work/$s.full"
    awk '/^   "closure": \{/ { n++; inside = 1 }
        inside && /"(water|heat)":/ { gsub(/[",]/, ""); if ($2 > 1e-9) bad = 1 }
        /^   \}/ { inside = 0 }
        END { exit bad || n < 6 }' "$work/$s"
    say $? "$s closes its books"
done

# get FILE OPTION GROUP KEY: a number of an option's year
get() {
    awk -v want="$2" -v group="$3" -v key="$4" '
        /^   "name": / { option++ }
        option == want && $0 == "   \"" group "\": {" { inside = 1 }
        /^   \}/ { inside = 0 }
        inside && index($0, "    \"" key "\": ") == 1 {
            gsub(/[",]/, ""); print $2; exit }' "$work/$1"
}

# sure WORDS FILE OPTION GROUP KEY OPERATOR OPTION [TIMES]
sure() {
    x=$(get "$2" "$3" "$4" "$5")
    y=$(get "$2" "$7" "$4" "$5")
    awk -v x="$x" -v y="$y" -v op="$6" -v times="${8:-1}" 'BEGIN {
        if (x == "" || y == "") exit 1
        y *= times
        exit !(op == "<" ? x + 0 < y : op == "<=" ? x + 0 <= y : x + 0 > y) }'
    say $? "$1: $x $6 $y"
}

# 1 as it stands, 2 heat core, 3 enthalpy core, 4 and 5 the same with a
# dehumidifier, 6 enthalpy core with lockout, 7 both, 8 its blower with it
sure "cold: an enthalpy core has fewer dry hours" cores_cold 3 hours too_dry "<" 2
sure "dry: an enthalpy core has fewer dry hours" cores_dry 3 hours too_dry "<" 2
sure "cold: a heat core condenses, an enthalpy core does not" \
    cores_cold 2 water_kg core_drained ">" 3
[ "$(get cores_cold 3 water_kg core_drained)" = 0.0 ]
say $? "cold: nothing drains from an enthalpy core"
[ "$(get cores_cold 2 water_kg recovered)" = 0.0 ]
say $? "cold: a heat core carries no water"
awk -v x="$(get cores_humid 3 water_kg fresh)" 'BEGIN { exit !(x > 0) }'
say $? "humid: fresh air adds water over the year"
awk -v x="$(get cores_humid 3 water_kg recovered)" 'BEGIN { exit !(x < 0) }'
say $? "humid: an enthalpy core keeps water out over the year"
awk -v x="$(get cores_cold 3 water_kg recovered)" 'BEGIN { exit !(x > 0) }'
say $? "cold: and in over the year where winters are long"
for c in humid cold dry; do
    sure "$c: a dehumidifier lowers humid hours, heat core" \
        cores_$c 4 hours too_humid "<=" 2
    sure "$c: a dehumidifier lowers humid hours, enthalpy core" \
        cores_$c 5 hours too_humid "<=" 3
    sure "$c: and uses electricity" cores_$c 5 energy_kwh dehumidifier ">" 3
    sure "$c: a lockout lets less water in" cores_$c 6 water_kg fresh "<" 3
    sure "$c: a lockout takes fresh air away" cores_$c 6 running_h ventilator "<" 3
    sure "$c: a blower over the wet coil puts water back" \
        cores_$c 8 water_kg reevaporation ">" 3 2
    sure "$c: and makes more humid hours" cores_$c 8 hours too_humid ">" 3
done
sure "humid: a dehumidifier works less behind an enthalpy core" \
    cores_humid 5 energy_kwh dehumidifier "<" 4
sure "humid: and less with a lockout" cores_humid 7 energy_kwh dehumidifier "<" 5
sure "cold: a core that passes water starts its defrost later" \
    cores_cold 3 hours defrost "<" 2

# what a rating leaves open goes with the results, low below high
grep -q "options* 10: its rating leaves open what the core passes" \
    "$work/cores_humid.full"
say $? "humid: the range of a spec sheet is told"
awk '/"core_range": \{/ { inside = 1 }
    inside && /"moisture_pct"/ { part = 1 }
    part && /"(low|likely|high)"/ { gsub(/[",:]/, ""); v[n++] = $2 }
    /"too_humid_h"/ { part = 0 }
    END { exit !(n >= 3 && v[0] + 2 < v[1] && v[1] + 2 < v[2]) }' \
    "$work/cores_humid"
say $? "humid: and its moisture runs from low to high"

# 1 cooling alone, 2 with the ventilator half the time, 3 a third of each
# hour, 4 always, 5 two stages
sure "blower: interlock puts back more than auto" \
    blower_modes 2 water_kg reevaporation ">" 1 2
sure "blower: always on puts back more than interlock" \
    blower_modes 4 water_kg reevaporation ">" 2
sure "blower: interlock makes humid hours" blower_modes 2 hours too_humid ">" 1 1.2
sure "blower: always on makes more" blower_modes 4 hours too_humid ">" 2
sure "blower: a third of the hour lies between" blower_modes 3 hours too_humid "<" 2
sure "blower: two stages put back less" blower_modes 5 water_kg reevaporation "<" 2
grep -q "option 7: one zone cannot know which of its 2 air handlers runs" \
    "$work/blower_modes.full"
say $? "blower: two handlers are told both ways"
awk '/"handlers": \{/ { inside = 1 }
    inside && /"reevaporated_kg"/ { gsub(/[",:]/, ""); v[n++] = $2 }
    END { exit !(n == 2 && v[1] < v[0]) }' "$work/blower_modes"
say $? "blower: one leading puts back less than an even split"
exit $bad
