#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Some scenarios: a figure that stands in more than one output is one figure.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_one_truth.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
export DEWLEDGER="$D" # for shipped.sh
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0
one() { # SCENARIO WORD...
    scenario=$1
    shift
    ${PYTHON:-python3} "$here/tests/support/one_truth.py" "$D" "$scenario" "$work" "$@" ||
        bad=1
}
one "$here/scenarios/demo.yaml"
one "$here/scenarios/tutorial.yaml" --units si
one "$here/scenarios/ducts_humid.yaml"
one "$here/scenarios/cold_winter.yaml"
one "$here/tests/cli/found.yaml"
one "$here/scenarios/demo.yaml" --set 'range_hood.flow=60 cfm' \
    --set 'bath_fan.flow=0 cfm' --set 'clothes_dryer.flow=0 cfm'
one "$here/scenarios/demo.yaml" --set 'range_hood.flow=300 cfm' \
    --set 'bath_fan.flow=50 cfm' --set 'clothes_dryer.flow=150 cfm'
exit $bad
