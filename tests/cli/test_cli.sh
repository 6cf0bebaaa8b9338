#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The command line: exit codes, messages, where results and messages go.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_cli.sh; `make check` gives
# the build tree in DEW_BUILD instead.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

# gives CODE STREAM TEXT [ARG...]: exit code, and the whole text of one stream
# while the other is empty.
gives() {
    code=$1 stream=$2 text=$3
    shift 3
    "$D" "$@" >"$work/out" 2>"$work/err" </dev/null
    got=$?
    [ "$stream" = out ] && other=err || other=out
    if [ "$got" != "$code" ] || [ "$(cat "$work/$stream")" != "$text" ] ||
        [ -s "$work/$other" ]; then
        echo "not ok $*"
        echo "  wanted $code: $text"
        echo "  got    $got: $(cat "$work/out" "$work/err")"
        bad=1
    else
        echo "ok $code: $*"
    fi
}

# says CODE TEXT [ARG...]: exit code, and a line among stdout.
says() {
    code=$1 text=$2
    shift 2
    "$D" "$@" >"$work/out" 2>"$work/err" </dev/null
    got=$?
    if [ "$got" != "$code" ] || ! grep -qxF -e "$text" "$work/out"; then
        echo "not ok $*"
        echo "  wanted $code, among it: $text"
        echo "  got    $got: $(cat "$work/out" "$work/err")"
        bad=1
    else
        echo "ok $text: $*"
    fi
}

# ends CODE COMMAND: a shell line that ends so.
ends() {
    sh -c "$2" >"$work/out" 2>"$work/err" </dev/null
    got=$?
    [ "$got" = "$1" ] && echo "ok $1: $2" && return
    echo "not ok $2"
    echo "  wanted $1, got $got: $(cat "$work/out" "$work/err")"
    bad=1
}
export D

# ---- usage: 2, and the nearest word ------------------------------------------
gives 2 err 'dewledger: no command ari; nearest is air' ari
gives 2 err 'dewledger: no command zebra (dewledger --help lists them)' zebra
gives 2 err 'dewledger: --json: options come after the command (dewledger --help lists them)' --json air
ends 2 '"$D"'
ends 2 '"$D" air'
ends 2 '"$D" air --nonsense'
ends 2 '"$D" air 75degF 50% --units uk'
ends 0 '"$D" --help | grep -q "usage: dewledger COMMAND"'
ends 0 '"$D" help air | grep -q "^Usage: dewledger air"'
ends 0 '"$D" --version | grep -q "^dewledger [0-9]"'
ends 0 '"$D" --version | grep -q "GSL .*libyaml .*jansson .*zlib"'

# ---- a result that cannot be written: 3 --------------------------------------
if [ -w /dev/full ]; then
    ends 3 '"$D" air 75degF 50% >/dev/full'
    ends 3 '"$D" air 75degF 50% --json >/dev/full'
    ends 3 '"$D" --help >/dev/full'
    ends 3 '"$D" air --help >/dev/full'
fi
ends 3 '"$D" air 75degF 50% >&-'
# a pipe that nobody reads any more, as after "| head -1": 3, without a word
mkfifo "$work/pipe"
exec 3<>"$work/pipe" 4>"$work/pipe" 3<&-
for line in 'air 75degF 50%' 'air 75degF 50% --json' --help 'explain --json' \
    'explain --markdown' 'run --quick first.yaml' 'run --quick first.yaml --json' \
    'ducts ducts_cold.yaml' 'ducts ducts_cold.yaml --json' start; do
    # shellcheck disable=SC2086 # words are meant to be parted
    (cd "$here/scenarios" && "$D" $line >&4 2>"$work/err" </dev/null)
    got=$?
    if [ $got = 3 ] && [ ! -s "$work/err" ]; then
        echo "ok 3, quiet: $line into a closed pipe"
    else
        echo "not ok $line into a closed pipe: $got, $(cat "$work/err")"
        bad=1
    fi
done
exec 4>&-
ends 0 'r=$( { "$D" air 75degF 50%; echo $? >&3; } 3>&1 >/dev/null | cat); [ "$r" = 0 ]'

# ---- wrong input: 1, what is wrong and what would be right -------------------
gives 1 err 'dewledger: 75: write a value with its unit, as 75degF, 50%, 9.2g/kg, 40kJ/kg or 60cfm, or name=value' air 75 50%
gives 1 err 'dewledger: t=75: "75" needs a unit: degF, degC, K' air t=75 rh=50%
gives 1 err 'dewledger: t=75furlong: "furlong" is no unit of temperature: degF, degC, K' air t=75furlong rh=50%
gives 1 err 'dewledger: rh=50: outside 0 .. 1: write 50% or 0.5 for half' air t=75degC rh=50
gives 1 err 'dewledger: 300degF: outside -148 .. 194 degF' air 300degF 50%
gives 1 err 'dewledger: wet=-100.5degC: outside -100 .. 90 degC' air 20degC wet=-100.5degC
gives 1 err 'dewledger: h=40: an enthalpy needs its unit: kJ/kg, J/kg, Btu/lb' air 75degF h=40
gives 1 err 'dewledger: a state takes two of t, rh, w, dew, wet, h; one is given' air 75degF
gives 1 err 'dewledger: 80degF: t is given twice: name the other, as in dew=... or wet=...' air 75degF 80degF
gives 1 err 'dewledger: dew=50degF: a third value: two say all of a state' air 75degF 50% dew=50degF
gives 1 err 'dewledger: dwe=50degF: no such name; nearest is dew; t, rh, w, dew, wet, h, flow, p, elevation, surface, moisture, heat are known' air 70degF dwe=50degF
gives 1 err 'dewledger: w=9g/kg and dew=50degF: w and dew say the same thing: give another' air w=9g/kg dew=50degF
gives 1 err 'dewledger: h=40kJ/kg and wet=15degC: wet and h say nearly the same thing: give another' air h=40kJ/kg wet=15degC
gives 1 err 'dewledger: w=200grain/lb: no air at 75degF has this: its range goes from dry to full (131.2 grain/lb)' air 75degF w=200grain/lb
gives 1 err 'dewledger: dew=80degF: no air at 75degF has this: its range goes from dry to full (131.2 grain/lb)' air dew=80degF 75degF
gives 1 err 'dewledger: elevation=30000ft: outside -2263.8 .. 18274 ft' air 75degF 50% elevation=30000ft
gives 1 err 'dewledger: with: "with" joins two streams of --mix; "outdoors" stands before the outdoor state of a dew-point test' air 75degF 50% with 20degF 80%
gives 1 err 'dewledger: each stream of --mix takes a flow, as 60cfm' air --mix 75degF 50% with 20degF 80%
gives 1 err 'dewledger: --mix takes two states with "with" between them' air --mix 75degF 50% 60cfm
gives 1 err 'dewledger: --over-liquid takes rh only beside t' air --over-liquid 50% w=1g/kg

# ---- answers -----------------------------------------------------------------
# indoors 66.4 degF, outdoors 67.2: by hand from [ASH-F1] eq. 6
says 0 'Indoors   80.5 degF, 62.3 %: dew point 66.4 degF, 97.3 grain/lb' air 80.5degF 62.3% outdoors 81degF 63%
says 0 'Outdoors  81.0 degF, 63.0 %: dew point 67.2 degF, 100.1 grain/lb' air 80.5degF 62.3% outdoors 81degF 63%
says 0 'Outdoor air cannot dry this house now: it holds 2.8 grain/lb more.' air 80.5degF 62.3% outdoors 81degF 63%
says 0 'Outdoor air can dry this house now: it holds 42.5 grain/lb less.' air 70degF 50% outdoors 20degF 80%
# 60 cfm, no moisture kept: 7.4 gal/day in, 4.7 out; by hand, 0.075 lb/ft3
says 0 'That flow, with no moisture kept by a core, brings in 7.4 gal/day.' air 75degF 50% 60cfm outdoors 75degF dew=75degF
says 0 'That flow, with no moisture kept by a core, takes out 4.7 gal/day.' air 70degF 50% 60 cfm outdoors 20degF 80%
# [ASH-F1] example 1: 40 degC, wet bulb 20 degC
says 0 '  relative humidity      14.0 %' air 40degC wet=20degC
says 0 '  enthalpy               56.72 kJ/kg' air 40degC wet=20degC
says 0 '  dew point              7.43 degC' air 40degC wet=20degC
says 0 '  total pressure         84556 Pa' air 20degC 50% elevation=1500m
says 0 '  humidity ratio         9.24 g/kg' air 75degF 50% --units si
says 0 '  enthalpy               28.00 Btu/lb' air 70degF h=28Btu/lb
says 0 '    over liquid water    80.0 %' air -5degC 80% --over-liquid
says 0 'A surface at 52.0 degF sweats: in this air it would do so from 44.6 % relative' air 75degF 50% surface=52degF
says 0 'A surface at 80.0 degF stays dry: it is not colder than the air.' air 75degF 50% surface=80degF
ends 0 '"$D" air -5degC 100% --over-liquid 2>&1 >/dev/null | grep -q "full over ice"'

# a whole state, every row of its table: regression
gives 0 out 'Air
  dry bulb               22.5 degF
  relative humidity      71.0 %
    over liquid water    67.4 %
  frost point            15.4 degF
    over liquid water    13.3 degF
  wet bulb               20.1 degF
  humidity ratio         12.3 grain/lb
  enthalpy               7.28 Btu/lb
  volume per dry air     12.55 ft3/lb
  density                0.0798 lb/ft3
  vapour pressure        278.0 Pa
  degree of saturation   70.9 %
  total pressure         98400 Pa' air --units us -5.3degC 71% p=98.4kPa
says 0 '  volume per dry air     0.7836 m3/kg' air -5.3degC 71% p=98.4kPa
gives 0 out '{
  "state": {
    "t_degc": -5.3,
    "rh_pct": 71.0,
    "rh_over_liquid_pct": 67.42439641,
    "dew_point_degc": -9.238646691,
    "dew_point_over_liquid_degc": -10.38250129,
    "wet_bulb_degc": -6.591364308,
    "humidity_ratio_g_kg": 1.762244854,
    "enthalpy_kj_kg": -0.9417978297,
    "volume_m3_kg": 0.7835573824,
    "density_kg_m3": 1.278479748,
    "vapour_pressure_pa": 278.0228947,
    "saturation_pct": 70.91783019,
    "pressure_pa": 98400.0
  }
}' air --json -5.3degC 71% p=98.4kPa

# ---- JSON: valid, the same whatever the units --------------------------------
ends 0 '[ "$("$D" air 75degF 50% --json --units us)" = "$("$D" air 75degF 50% --json --units si)" ]'
ends 1 '"$D" air 75degF --json | grep -q .'
if command -v "${PYTHON:-python3}" >/dev/null; then
    for words in '75degF 50%' '20degC rh=0 surface=5degC' '75degF 50% outdoors 20degF 80%' \
        '--mix 30degC 100% 100L/s with 0degC 100% 100L/s'; do
        ends 0 "\"\$D\" air --json $words | ${PYTHON:-python3} -c 'import json,sys; json.load(sys.stdin)'"
    done
fi
# a decimal comma in the locale changes nothing
ends 0 '[ "$(LC_ALL=de_DE.UTF-8 "$D" air 75.5degF 50%)" = "$(LC_ALL=C "$D" air 75.5degF 50%)" ]'

exit "$bad"
