#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# check, explain and start: results, messages, exit codes, the manual.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_scenario.sh
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

# tells NAME CODE WANTED_OUT WANTED_ERR ARG...
tells() {
    name=$1 code=$2 out=$3 err=$4
    shift 4
    "$D" "$@" >out 2>err </dev/null
    got=$?
    if [ "$got" = "$code" ] && [ "$(cat out)" = "$out" ] &&
        [ "$(cat err)" = "$err" ]; then
        echo "ok $name"
    else
        echo "not ok $name: exit $got, wanted $code"
        cat out err
        bad=1
    fi
}

# holds NAME FILE LINE
holds() {
    if grep -qxF -e "$3" "$2"; then
        echo "ok $1"
    else
        echo "not ok $1: no line \"$3\" in"
        head -20 "$2"
        bad=1
    fi
}

same() {
    if cmp -s "$2" "$3"; then echo "ok $1"; else
        echo "not ok $1: $2 and $3 differ"
        diff "$2" "$3" | head -5
        bad=1
    fi
}

# ---- start: runs unedited, never over a file -----------------------------------
tells "start writes a file" 0 "" "" start --out s.yaml
"$D" start >t.yaml
same "start prints the same" s.yaml t.yaml
same "scenarios/first.yaml is what start writes" s.yaml \
    "$here/scenarios/first.yaml"
tells "start leaves a file alone" 1 "" \
    "dewledger: s.yaml is there already and is left alone: choose another name" \
    start --out s.yaml
same "and it was left alone" s.yaml t.yaml
holds "start asks for the bath fan" s.yaml "bath_fan:"
holds "and for the kitchen hood" s.yaml "range_hood:"
holds "and for the clothes dryer" s.yaml "clothes_dryer:"
holds "and for the size of the cooling" s.yaml "  capacity: 3 ton"
holds "and for the place of ducts outside" s.yaml "  # place: attic"
holds "and for their leaks, without an answer" s.yaml \
    "  # leak_return: 0 %"
holds "start tells the words of the blower" s.yaml \
    "  # always; minutes, so many of each hour; interlock, the ventilator"
awk 'length > 78 || / # .* # /' s.yaml >long
same "no line of start is long or holds two comments" long /dev/null
# another house, all else as the template has it: its ventilators follow the rule
for area in 1200 2400 3800; do
    sed "s/floor_area: 1900 ft2/floor_area: $area ft2/" s.yaml >big.yaml
    "$D" run --quick --full big.yaml --json >big.json
    got=$(jq -c '[.options[] | .delivers_required_air]' big.json)
    if [ "$got" = "[false,true,true]" ]; then
        echo "ok the template brings the fresh air asked for at $area ft2"
    else
        echo "not ok the template at $area ft2 delivers: $got"
        bad=1
    fi
done
"$D" start --all >all.yaml
"$D" check all.yaml >out 2>err
holds "start --all is a scenario" out "all.yaml: no fault found"

# ---- check --------------------------------------------------------------------------
"$D" check s.yaml >out 2>err || bad=1
holds "check finds no fault in it" out "s.yaml: no fault found"
holds "check echoes what was read" out "  floor_area: 1900 ft2 [line 18]"
holds "check names a default's source" out \
    "  infiltration: enhanced [default: [ASH-F16] eqs 49, 50]"
holds "check tells a usual range" out \
    "  roof_area: 1900 ft2 [worked out: floor area / storeys; usual range 1 to 1.2"
holds "check works out what is not told" out \
    "  volume: 16150 ft3 [worked out: floor area x ceiling height, and a basement's]"
"$D" check --units si s.yaml >out
holds "check --units si" out "  floor_area: 176.52 m2 [line 18]"
"$D" check --set house.floor_area="1650 ft2" s.yaml >out
holds "check --set" out "  floor_area: 1650 ft2 [--set 1]"
"$D" check --option "as it stands" s.yaml >out
holds "check --option" out "  changes nothing"
"$D" check --json s.yaml >out
python_free=$(tr -d ' \n' <out | grep -c '"house.floor_area":{"from":"file"')
[ "$python_free" = 1 ] && echo "ok check --json" || { echo "not ok json"; bad=1; }
gzip -c s.yaml >s.yaml.gz
"$D" check s.yaml.gz >out
holds "check reads gzip" out "s.yaml.gz: no fault found"
"$D" check - <s.yaml >out
holds "check reads stdin" out "-: no fault found"

printf 'house: {floor_area: 5 ft2, bedroms: 3}\nweather: {place: 1}\n' >bad.yaml
tells "check says every fault" 1 "" \
    'dewledger: bad.yaml:1:21: house.floor_area: 5 ft2 is below 107.6 ft2: one household'"'"'s house
dewledger: bad.yaml:1:28: house.bedroms: no such key; the nearest is "house.bedrooms"
dewledger: bad.yaml:2:18: weather.place: no place in the table answers to "1": `dewledger weather list STATE` names those of a state
dewledger: bad.yaml: house.bedrooms: is required and missing: write it like 3' \
    check bad.yaml
tells "check --json prints nothing when there are faults" 1 "" \
    'dewledger: bad.yaml:1:21: house.floor_area: 5 ft2 is below 107.6 ft2: one household'"'"'s house
dewledger: bad.yaml:1:28: house.bedroms: no such key; the nearest is "house.bedrooms"
dewledger: bad.yaml:2:18: weather.place: no place in the table answers to "1": `dewledger weather list STATE` names those of a state
dewledger: bad.yaml: house.bedrooms: is required and missing: write it like 3' \
    check --json bad.yaml
printf 'weather: {file: no.csv}\nhouse: {floor_area: 5 ft2, bedrooms: 3}\nlog: {file: nolog.csv}\n' >bad.yaml
for word in check run ducts; do
    tells "$word says those of weather and log with those of the scenario" 1 "" \
        'dewledger: bad.yaml:1:17: weather.file: no.csv: No such file or directory (looked for beside the scenario, then where the command was given)
dewledger: bad.yaml:2:21: house.floor_area: 5 ft2 is below 107.6 ft2: one household'"'"'s house
dewledger: bad.yaml:3:13: log.file: nolog.csv: No such file or directory (looked for beside the scenario, then where the command was given)' \
        $word bad.yaml
done
tells "no such file" 1 "" "dewledger: none.yaml: No such file or directory" \
    check none.yaml
tells "no such option" 1 "" \
    'dewledger: --option wheel: the scenario has no option of that name; it has "as it stands", "enthalpy core, own ducts", "exhaust fan and dehumidifier"' \
    check --option wheel s.yaml

# ---- explain -------------------------------------------------------------------------
tells "explain a key" 0 "limits.too_humid
  relative humidity above which the house is too humid

  a number without unit, a share or a percentage: no unit, %
  range: 20 % to 100 %
    a relative humidity
  default: 60 %
    [EPA-COURSE]
  usual range:
    none: it says what is asked, not how the house is" "" explain limits.too_humid
tells "explain a key with a range" 0 "surfaces.edge_share
  part of the window area that is edge and frame

  a number without unit, a share or a percentage: no unit, %
  range: 0 % to 100 %
    a part of the windows
  default: 15 %
    from memory
  usual range:
    10 to 20 (our guess)" "" explain surfaces.edge_share
tells "explain an unknown key" 1 "" \
    'dewledger: no key is called "limits.to_humid"; the nearest is "limits.too_humid"' \
    explain limits.to_humid
tells "explain nonsense offers nothing far off" 1 "" \
    'dewledger: no key is called "NONSENSEXYZ" (dewledger explain lists them)' \
    explain NONSENSEXYZ
printf 'house: {nonsensexyz: 3}\n' >bad.yaml
"$D" check bad.yaml 2>out
holds "nor does check" out 'dewledger: bad.yaml:1:9: house.nonsensexyz: no such key'
"$D" explain typical >out
holds "explain typical lists the library" out \
    "  psc: fixed-speed (PSC) motor"
holds "and what codes ask of fans" out \
    "      2.8 cfm/W at least"
holds "with its sources" out \
    "      [LBNL-06]: about 2 cfm/W, 500 to 700 W; low speed from memory"
"$D" explain ventilator >out
holds "explain a group" out "  ventilator.flow"
"$D" explain >out
holds "explain alone lists the groups" out "  moisture"
"$D" explain --json limits.too_dry >out
holds "explain --json" out '    "key": "limits.too_dry",'
"$D" explain --markdown >manual.md
same "docs/scenario.md is the manual of keys" manual.md "$here/docs/scenario.md"

exit $bad
