#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The main job on the shipped scenarios: books closed, the same bytes twice,
# and a cold season like those that were measured.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_run_books.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
export DEWLEDGER="$D" # for shipped.sh, wherever it is called from
S=$(realpath "$(dirname "$0")/../../scenarios")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

say() { # say STATUS WORDS
    if [ "$1" = 0 ]; then echo "ok $2"; else echo "not ok $2"; bad=1; fi
}

for s in "$S"/*.yaml; do
    shipped=$(sh "$S/../tests/support/shipped.sh" "$s")
    [ "$(cat "$shipped/status")" = "0 0" ]
    say $? "runs: $(basename "$s")"
    # "water": 3.9e-17 and "heat": 3.6e-14 under "closure", within 1e-9
    awk '/"closure"/ { inside = 1 }
        inside && /"(water|heat)":/ { gsub(/[",]/, ""); n++
            if ($2 + 0 > 1e-9) bad = 1 }
        /}/ { inside = 0 }
        END { exit bad || n < 2 }' "$shipped/set/summary.json"
    say $? "books closed: $(basename "$s")"
done

demo=$(sh "$S/../tests/support/shipped.sh" "$S/demo.yaml")
"$D" run --draws 3 --full "$S/demo.yaml" --json --out "$work/b" >"$work/json" 2>/dev/null
diff -r "$demo/set" "$work/b" >/dev/null
say $? "the same bytes on a second run"
# the summary tells its files besides
sed -e '/^ "written": \[/,/^ \]/d' -e 's/^ \],$/ ]/' "$work/b/summary.json" >"$work/without"
sed 's/^ \],$/ ]/' "$work/json" | cmp -s - "$work/without"
say $? "--json is the summary"
[ "$(awk 'length > 80' "$demo/full" | wc -l)" = 0 ]
say $? "80 columns"

# Cold-season moisture excess of a lived-in, ventilated house: 220 Finnish
# dwellings had 2.8 +- 1.6 g/m3 below 5 degC outdoors [VINHA18].  Magnus form
# on both sides: good to 0.5 %, far inside the spread.
cold=$(sh "$S/../tests/support/shipped.sh" "$S/cold_winter.yaml")/set
for f in "$cold"/hours-[234]*.csv; do
    x=$(awk -F, '
        function v(td, t) {
            p = 611.2 * exp(17.62 * td / (243.12 + td))
            return 1e3 * p / (461.5 * (t + 273.15))
        }
        NR == 1 { for (i = 1; i <= NF; i++) c[$i] = i; next }
        $(c["outdoor_c"]) < 5 {
            n++
            s += v($(c["indoor_dew_point_c"]), $(c["indoor_c"]))
            s -= v($(c["outdoor_dew_point_c"]), $(c["outdoor_c"]))
        }
        END { printf "%.2f", s / n }' "$f")
    awk -v x="$x" 'BEGIN { exit !(x >= 1.2 && x <= 4.4) }'
    say $? "cold-season excess $x g/m3, $(basename "$f" .csv)"
done
exit $bad
