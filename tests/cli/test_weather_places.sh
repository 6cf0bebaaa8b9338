#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# dewledger weather list, near and make.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0
export D work

# ends CODE COMMAND [MESSAGE]: exit code, and the whole of stderr where given.
ends() {
    sh -c "$2" >"$work/out" 2>"$work/err" </dev/null
    got=$?
    if [ "$got" = "$1" ] && { [ $# -lt 3 ] || [ "$(cat "$work/err")" = "$3" ]; }; then
        echo "ok $1: $2"
        return
    fi
    echo "not ok $2"
    echo "  wanted $1: ${3-}"
    echo "  got    $got: $(cat "$work/out" "$work/err")"
    bad=1
}

ends 0 '"$D" weather list minneapolis crystal | grep -q "^726575 Minneapolis/Crystal  *MN  45.07  -93.35  12.3"'
ends 0 '"$D" weather list minneapolis crystal --units si | grep -q "^726575 Minneapolis/Crystal  *MN  45.07  -93.35 -10.9"'
ends 0 '[ "$("$D" weather list | wc -l)" = 1009 ]'
ends 0 '"$D" weather list homestead afb | grep -q "^722026 Homestead AFB  *FL"'
ends 1 '"$D" weather list --units us | grep -E "^.{81}"'
ends 1 '"$D" weather near 21 -170 | grep -E "^.{81}"'
ends 0 '"$D" weather list alaska --json | ${PYTHON:-python3} -c "import json,sys; d=json.load(sys.stdin); assert all(p[\"state\"]==\"AK\" for p in d) and len(d)>30" 2>/dev/null || ! command -v ${PYTHON:-python3} >/dev/null'
ends 1 '"$D" weather list atlantis' 'dewledger: no place in the table answers to "atlantis"; spelt most like it: 724070 Atlantic City Intl Ap NJ, 725453 Atlantic IA'
ends 0 '"$D" weather near 44.98 -93.27 --units si | sed -n 3p | grep -q "^726580 .* 11.2$"'
ends 0 '"$D" weather near 44.98 -93.27 | sed -n 3p | grep -q "^726580 .* 6.9$"'
ends 1 '"$D" weather near 144.98 -93.27' 'dewledger: latitude 144.98 is outside -90 .. 90'
ends 2 '"$D" weather near 44.98'
ends 2 '"$D" weather near forty 3'

# what the atlas has of the nearest place, or nothing (docs/atlas.md)
has=$(grep -c "^722020," "$(dirname "$0")/../../weather/answers.csv")
export has
ends 0 '[ "$("$D" weather near 25.8 -80.3 | grep -c "^In places like yours (Miami Intl Airport): ")" = "$has" ]'
ends 1 '"$D" weather near 25.8 -80.3 | grep -E "^.{81}"'
ends 0 '[ "$("$D" weather near 25.8 -80.3 | grep -c "^Your house differs: ")" = "$has" ]'
ends 0 '[ "$("$D" weather list 722020 --json | grep -c like_yours)" = "$has" ]'

ends 0 '"$D" weather make 727930 --units si | grep -q "^Jan            4.5            1.2"'
# one system in all of weather, said or not
ends 0 '"$D" weather make 727930 | grep -q "^Jan           40.1           34.2"'
ends 0 '"$D" weather make 727930 --out "$work/u.csv" >"$work/none" && for o in "" "--units us"; do "$D" weather look $o "$work/u.csv" --svg "$work/u.svg" | grep -q "temperature, degF" && grep -q "daily mean, degF" "$work/u.svg" || exit 1; done'
ends 0 '"$D" weather look --units si "$work/u.csv" --svg "$work/u.svg" | grep -q "temperature, degC" && grep -q "daily mean, degC" "$work/u.svg"'
ends 0 '"$D" weather make 727930 --seed 3 --out "$work/a.csv" && "$D" weather make 727930 --seed 3 --out "$work/b.csv" && cmp "$work/a.csv" "$work/b.csv"'
ends 0 '"$D" weather make 727930 --years 3 --out "$work/y.csv" && [ "$(ls "$work" | grep -c "^y-[123].csv$")" = 3 ] && ! cmp -s "$work/y-1.csv" "$work/y-2.csv"'
ends 0 '"$D" weather look "$work/a.csv" | grep -q "a typical year"'
ends 1 '"$D" weather make springfield'
ends 2 '"$D" weather make'
ends 2 '"$D" weather make 727930 --years 0'
ends 2 '"$D" weather make 727930 --seed -1'
ends 3 '"$D" weather make 727930 --out "$work/none/a.csv"'

# a scenario through many years
"$D" start >"$work/house.yaml"
ends 0 '"$D" weather years "$work/house.yaml" --years 3 --option "as it stands" >"$work/y1" && "$D" weather years "$work/house.yaml" --years 3 --option "as it stands" | cmp - "$work/y1" && grep -q "^as it stands  *[0-9]" "$work/y1" && ! grep -q "^.\{81\}" "$work/y1"'
ends 0 '"$D" weather years "$work/house.yaml" --years 2 --option "as it stands" --json | grep -c "typical" | grep -qx 2'
ends 2 '"$D" weather years "$work/house.yaml" --years 1'
ends 2 '"$D" weather years'
sed "s/place: 722020/file: whole.csv/" "$work/house.yaml" >"$work/file.yaml"
ends 1 '"$D" weather years "$work/file.yaml"' "dewledger: $work/file.yaml:13:9: weather.file: a file has its own years: name weather.place or weather.monthly, as with --set weather.place=726580"

# a file with a gap is filled when a place is named for it
grep -v "^2001-02-0[34]" "$work/a.csv" | cut -d, -f1-4,6 | sed "/dewledger weather/d" >"$work/gap.csv"
ends 1 '"$D" weather convert "$work/gap.csv" "$work/whole.csv"'
ends 0 '"$D" weather convert "$work/gap.csv" "$work/whole.csv" --fill 727930 && [ "$(grep -c "^2001" "$work/whole.csv")" = 8760 ]'
ends 0 '"$D" weather look "$work/gap.csv" --fill 727930 | tr -s " \n" " " | grep -q "filled file gap.csv.* 48 hours of temperature or humidity"'
ends 1 '"$D" weather look "$work/gap.csv" --fill atlantis' 'dewledger: no place in the table answers to "atlantis"; spelt most like it: 724070 Atlantic City Intl Ap NJ, 725453 Atlantic IA'

# a place of one's own: the table's rows of one place are a file of figures
sed -n '2p;/^726580,/p' weather/climates.csv >"$work/mine.csv"
ends 0 '"$D" weather make --normals "$work/mine.csv" --out "$work/m.csv" && "$D" weather make 726580 --out "$work/t.csv" && sed -i "/^# [np][ar][mo]/d" "$work/m.csv" "$work/t.csv" && cmp "$work/m.csv" "$work/t.csv"'
sed -i '5s/,MN,/,MN,1/; 6d' "$work/mine.csv"
ends 1 '"$D" weather make --normals "$work/mine.csv"' "dewledger: $work/mine.csv:5:4: lat_deg: 144.883 is outside -90 .. 90
dewledger: $work/mine.csv: month: no row for month 5"
ends 1 '"$D" weather make --normals "$work/absent.csv"' "dewledger: $work/absent.csv: No such file or directory"

exit $bad
