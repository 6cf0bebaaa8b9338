#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A year of a scenario that comes along, run once for all tests that read it:
# a folder with set/ (what `run --out set` writes), brief (what it prints), full
# (what `run --full` prints), status (their exit codes, messages in errors) and
# kept/ (what was marched, for `--kept`: tests/cli/test_kept.sh holds that a run
# which takes it says the same).
# usage: DEWLEDGER=path/to/dewledger tests/support/shipped.sh SCENARIO...
# Prints the folder of each.  Made anew when the program, the scenario or a
# weather file was written since.
set -u
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$top/${DEW_BUILD:-build/gcc}
program=$(realpath "${DEWLEDGER:-$build/dewledger}")
for scenario in "$@"; do
    scenario=$(realpath "$scenario")
    name=$(basename "$scenario" .yaml)
    folder=$build/shipped/$name
    key=$(stat -L -c '%s %.9Y' "$0" "$program" "$scenario" "$top"/weather/*.csv)
    echo "$folder"
    [ "$(cat "$folder/key" 2>/dev/null)" = "$key" ] && continue
    rm -rf "$folder"
    mkdir -p "$folder/kept"
    (
        cd "$folder" || exit 1
        "$program" run "$scenario" --draws 3 --kept kept --out set >brief 2>errors
        one=$?
        "$program" run --draws 3 --kept kept --full "$scenario" >full 2>>errors
        echo "$one $?" >status
    )
    echo "$key" >"$folder/key"
done
