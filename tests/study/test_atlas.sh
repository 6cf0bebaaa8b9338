#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What makes docs/atlas.md and weather/answers.csv, held to a small table that
# was counted by hand; and the names of the options, which it goes by.
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
. "$here/tests/support/says.sh"
${PYTHON:-python3} -B "$here/tests/study/atlas.py" --try || bad=1
names=$(cd "$here/tests/study" && ${PYTHON:-python3} -B -c 'from atlas_places import *
print("\n".join(sorted({NOTHING, WINDOWS, DRYER, *FANS, *WITH_DRYER, *WITH_WETTER,
                        WITH_BOTH[2]} - {WITH_DRYER[1]})))')
sed -n 's/^  - name: //p' "$here/scenarios/atlas.yaml" | LC_ALL=C sort >told
echo "$names" >wanted
says "the options by their names" cmp told wanted
(cd "$here/tests/study" && ${PYTHON:-python3} -B -c 'import atlas
print(atlas.ANSWERS, end="")') >wanted
head -2 "$here/weather/answers.csv" >told
says "weather/answers.csv has the head that is written" cmp told wanted
exit $bad
