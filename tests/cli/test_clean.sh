#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Nothing that a terminal or a page acts on comes out of any command, whatever
# is put into its files and its command line; names in any script stay.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

# Escape, bell, C1's CSI as UTF-8 and alone, an override, an isolate, a mark.
esc=$(printf '\033[2J\033]0;x\a')
csi=$(printf '\302\2332J')
odd=$(printf '\2332J')
rlo=$(printf '\342\200\256')
iso=$(printf '\342\201\246')
all="$esc$csi$odd$rlo$iso"
valid="$esc$csi$rlo$iso" # as UTF-8
name="Zürich Αθήνα 山 שלום"

# Bytes of a stream that something acts on; newlines are ours.
acted_on() {
    LC_ALL=C grep -caP \
        '[\x00-\x09\x0b-\x1f\x7f]|\xc2[\x80-\x9f]|\xd8\x9c|\xe2\x80[\x8e\x8f\xa8-\xae]|\xe2\x81[\xa6-\xa9]|(?<![\xc2-\xf4\x80-\xbf])[\x80-\xbf]' "$1"
}

# clean CODE WHAT [ARG...]: exit code, and both streams are clean.
clean() {
    code=$1 what=$2
    shift 2
    "$D" "$@" >out 2>err </dev/null
    got=$?
    if [ "$got" != "$code" ] || [ "$(acted_on out)" != 0 ] ||
        [ "$(acted_on err)" != 0 ]; then
        echo "not ok $what: wanted $code, got $got"
        cat -v out err | head -20
        bad=1
    else
        echo "ok $what"
    fi
}

# The search itself must find what it is to find.
for one in "$esc" "$csi" "$odd" "$rlo" "$iso"; do
    printf '%s\n' "$one" >probe
    [ "$(acted_on probe)" = 1 ] || { echo "not ok the probe is blind"; bad=1; }
done
printf '%s\n' "$name" >probe
[ "$(acted_on probe)" = 0 ] || { echo "not ok the probe minds names"; bad=1; }

# ---- the command line ----------------------------------------------------------
first=$here/scenarios/first.yaml
clean 2 "a command" "$all"
clean 2 "an option before the command" "--$all"
clean 2 "a long option" run "--$all" "$first"
clean 2 "an abbreviated option" run "--uni=$all" "$first"
clean 2 "a short option" start "-$all"
for command in run ducts check; do
    clean 2 "$command --units" $command "--units=$all" "$first"
    clean 1 "$command of a file that is not there" $command "$all.yaml"
    clean 1 "$command --set of a key" $command --set "$all=1" "$first"
    clean 1 "$command --set of a value" $command --set "house.bedrooms=$all" "$first"
    clean 2 "$command --set without =" $command --set "$all" "$first"
    clean 1 "$command --option" $command --option "$all" "$first"
done
clean 3 "run --out" run --quick --full "$first" --out "no/$all"
clean 1 "run --log" run --full "$first" --log "$all"
clean 3 "start --out" start --out "no/$all"
clean 2 "start with a word" start "$all"
clean 1 "explain" explain "$all"
clean 1 "air point" air point "$all" 50%
clean 1 "air of no kind" air "$all"
clean 1 "weather look" weather look "$all"
clean 2 "weather of no kind" weather "$all"
clean 1 "weather make" weather make "$all"
clean 2 "weather make --seed" weather make 722020 "--seed=$all"
clean 1 "weather make --normals" weather make --normals "$all"
clean 2 "weather near" weather near "$all" "$all"
clean 1 "weather years" weather years "$all.yaml"
made=$here/weather/miami-made.csv
clean 2 "weather look --elevation" weather look "$made" "--elevation=$all"
clean 2 "weather look --column" weather look "$made" --column "$all"
clean 0 "weather look --column, no such" weather look "$made" --column "$all=$all"
clean 1 "weather look --fill" weather look "$made" --fill "$all"
clean 3 "weather convert" weather convert "$made" "no/$all"
clean 3 "weather look --svg" weather look "$made" --svg "no/$all"
clean 0 "weather convert into such a name" weather convert "$made" "$all"
[ -s "$all" ] && echo "ok the file has the name it was given" ||
    { echo "not ok the file has the name it was given"; bad=1; }
clean 0 "complete" complete -- run "$first" "--$all"

# ---- a scenario -------------------------------------------------------------------
yaml='\e[2J\e]0;x\a\x9b2J\u202e\u2066'
cat >keys.yaml <<X
"$yaml": 3
house: {storeys: "$yaml", "$yaml": 1}
X
clean 1 "keys and values" check keys.yaml
clean 1 "the same as JSON" check keys.yaml --json
# Controls of 7 and 8 bits are refused; what turns the direction is shown.
yaml='\u202e\u2066'
in_sed=$(printf '%s' "$yaml" | sed 's/\\/\\\\/g')
sed -e "s/^title: .*/title: \"$in_sed $name\"/" \
    -e "0,/- name: .*/s//- name: \"$in_sed $name\"/" "$first" >names.yaml
grep -q "^title" names.yaml || printf 'title: "%s %s"\n' "$yaml" "$name" >>names.yaml
clean 0 "names" check names.yaml
clean 0 "names as JSON" check names.yaml --json
mkdir held # marched once: tests/cli/test_kept.sh
clean 0 "names in the run" run --draws 3 --full --kept held names.yaml
grep -qF "U+202EU+2066" out && grep -qF "$name" out &&
    echo "ok they are shown, and the name is as it was" ||
    { echo "not ok they are shown, and the name is as it was"; bad=1; }
clean 0 "names in JSON" run --draws 3 --full --kept held names.yaml --json
clean 0 "names in years" weather years names.yaml --years 2
clean 0 "names in the ducts" ducts --full names.yaml
"$D" complete -- run names.yaml --option '' >out
tr -d '\t' <out >probe # the tab before what a word is, ours
[ "$(acted_on probe)" = 0 ] && grep -q "exhaust fan" out &&
    echo "ok names in completions" ||
    { echo "not ok names in completions"; bad=1; }
clean 0 "names in files" run --draws 3 --full --kept held names.yaml --out result
for file in result/* result/charts/*; do
    [ -f "$file" ] || continue
    if [ "$(acted_on "$file")" != 0 ]; then
        echo "not ok $file"
        bad=1
    else
        echo "ok $(basename "$file")"
    fi
done

# ---- weather ------------------------------------------------------------------------
{
    sed -n 1p "$made"
    printf '# name: %s\033[2J%s\n# id: %s\n' "$name" "$rlo" "$esc$csi"
    sed 1d "$made" | grep -v '^# name:\|^# id:' |
        sed "/^time,/s/\$/,$valid (degC)/; /^[0-9]/s/\$/,1/"
} >odd.csv
clean 0 "a weather file" weather look odd.csv
grep -qF "$name" out && echo "ok the station's name is as it was" ||
    { echo "not ok the station's name is as it was"; bad=1; }
clean 0 "a weather file as JSON" weather look odd.csv --json
grep -qF "\"$name\\\\x1b[2JU+202E\"" out && echo "ok JSON shows it so too" ||
    { echo "not ok JSON shows it so too"; grep '"name"' out; bad=1; }
clean 0 "its picture" weather look odd.csv --svg odd.svg
clean 0 "its copy" weather convert odd.csv copy.csv
for file in odd.svg copy.csv; do
    [ "$(acted_on $file)" = 0 ] && grep -qF "$name" $file &&
        echo "ok $file" || { echo "not ok $file"; bad=1; }
done
clean 0 "a run with it" run --quick --full "$first" --set weather.place=none \
    --set weather.file=odd.csv --out result
[ "$(acted_on result/report.html)" = 0 ] && echo "ok its page" ||
    { echo "not ok its page"; bad=1; }
printf '%s\n%s,%s\n' "$all" "$all" "$all" >broken.csv
clean 1 "a file that is no weather" weather look broken.csv
clean 1 "the same as a log" run --full "$first" --log broken.csv
clean 1 "the same as normals" weather make --normals broken.csv

exit $bad
