#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# survey on a disk that fails it: each write, sync and rename in turn, midway in
# a record and in the table at the end; and disks that are full.  It ends with
# the reason, and --resume comes to the bytes of a survey that was not disturbed.
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
. "$(dirname "$0")/../support/says.sh"
. "$here/tests/survey/same.sh"

cat >house.yaml <<'END'
run: {steps_per_hour: 1}
weather: {place: 722020}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}
limits: {too_humid: 60 %, too_dry: 30 %}
temperature: {given: 75 degF}
windows: {north: 0 ft2, east: 0 ft2, south: 0 ft2, west: 0 ft2}
buffering: {class: none}
options:
- name: now
END
cat >plan.yaml <<'END'
scenario: house.yaml
vary:
- {key: house.airtightness, range: 0.6 to 3 ach50, steps: 2}
- {key: limits.too_humid, values: [60 %, 25 %]}
END
ends "undisturbed" 0 survey plan.yaml --out whole --threads 1

# ---- one call fails ---------------------------------------------------------------------
fails=$PWD/fails.so
if ! "${CC:-gcc}" -shared -fPIC -O1 -o "$fails" "$here/tests/survey/fails.c" 2>log; then
    echo "skip calls that fail: no preloaded library can be made here"
elif nm "$D" 2>/dev/null | grep -m1 __asan_init >/dev/null; then
    echo "skip calls that fail: not under a sanitizer"
else
    try() { # CALL ERRNO REASON: exit 3 with the reason, and then the same, each time
        call=$1 tried=0 silent=0 other=0
        rm -rf tried log
        FAILS=$call:999999:0 FAILS_LOG=$PWD/log LD_PRELOAD=$fails "$D" survey plan.yaml --out tried --threads 1 >/dev/null 2>&1
        calls=$(grep -c "^$call " log)
        n=1
        while [ $n -le "$calls" ]; do
            rm -rf tried
            FAILS=$call:$n:$2 LD_PRELOAD=$fails "$D" survey plan.yaml --out tried --threads 1 >/dev/null 2>err
            [ $? = 3 ] && grep -q "$3" err || { silent=$((silent + 1)); echo "$call $n: $(cat err)"; }
            "$D" survey plan.yaml --out tried --threads 2 --resume >/dev/null 2>err && same tried whole >log ||
                { other=$((other + 1)); echo "$call $n: $(cat err log)"; }
            tried=$((tried + 1))
            n=$((n + 1))
        done
        says "$tried of $calls calls of $call fail, one in each survey: exit 3 and the reason" test $((silent + (calls < 1))) = 0
        says "and --resume comes to the same bytes after each" test $other = 0
    }
    try pwrite 28 "No space left on device\|disk is full"
    try fsync 5 "Input/output error"
    try rename 13 "Permission denied"
fi

# ---- a disk that is full ------------------------------------------------------------------
mkdir disk
if mount -t tmpfs -o size=1m none disk 2>/dev/null; then
    trap 'umount "$PWD/disk" 2>/dev/null; rm -rf "$work"' EXIT
    full() { # WHAT BYTES FILES: so many are left; of the table there are then
        free=$(($(stat -f -c "%a * %S" disk)))
        head -c $((free - $2)) /dev/zero >disk/ballast
        ends "full: $1" 3 survey plan.yaml --out disk/out --threads 1 --resume
        says "the reason" grep -q 'No space left on device\|disk is full' err
        says "as far as that" test "$3" = "$(ls disk/out | grep -c '^march\|^faults')"
        rm disk/ballast
        ends "room again" 0 survey plan.yaml --out disk/out --threads 1 --resume
        says "the same" same disk/out whole
        rm disk/out/march.* disk/out/faults.csv
    }
    full "from the start" 4096 0
    full "as the table is written" 0 0
    full "as the table is written to SQLite" 8192 2
    umount disk
else
    echo "skip a disk that is full: none can be mounted here"
fi
exit $bad
