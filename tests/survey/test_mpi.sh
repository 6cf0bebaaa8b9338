#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A survey on several ranks under mpirun comes to the bytes of one process, also
# after a rank was killed.  For a command built with MPI=1:
#   make MPI=1 && DEW_BUILD=build/gcc-mpi sh tests/survey/test_mpi.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
. "$(dirname "$0")/../support/says.sh"
. "$here/tests/survey/same.sh"
if ! command -v mpirun >/dev/null; then
    echo "skip ranks: there is no mpirun (openmpi-bin)"
    exit 77
fi
if ! ldd "$D" | grep -q libmpi; then
    echo "skip ranks: this command is not built with MPI=1"
    exit 77
fi
root=
[ "$(id -u)" = 0 ] && root=--allow-run-as-root
ranks() { # COUNT ARG...: as ends has it, stdout in out, stderr in err
    n=$1
    shift
    mpirun $root --oversubscribe -n "$n" "$D" "$@" >out 2>err </dev/null
}

cat >house.yaml <<'END_HOUSE'
run: {steps_per_hour: 1}
weather: {place: 722020}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}
cooling: {capacity: 2.5 ton}
limits: {too_humid: 60 %, too_dry: 30 %}
prices: {electricity: 0.2 $/kWh}
options:
- name: now
- name: air
  ventilator: {core: exhaust_only, power: 12 W}
END_HOUSE
cat >plan.yaml <<'END_PLAN'
scenario: house.yaml
vary:
- {key: house.airtightness, range: 0.6 to 3 ach50, steps: 5}
- {key: people.schedule, values: [retired, work_and_school]}
- {key: limits.too_humid, values: [60 %, 25 %]}
places: [722020, Fargo ND]
END_PLAN
sed 's/steps: 5/steps: 4/' plan.yaml >other.yaml

ends "without mpirun it is alone" 0 survey plan.yaml --out one --threads 1
says "three ranks: exit 0" ranks 3 survey plan.yaml --out three
says "the same bytes" same three
says "the two that march have files of their own" sh -c 'test -s three/rows-0001-000 && test -s three/rows-0002-000 && ! test -e three/rows-0000-000'
says "rank 0 alone speaks" test "$(grep -c '^Written: ' out)" = 1
ends "status" 0 survey status three
says "tells each" sh -c 'grep -Eq "^ +1 +0 +[0-9]+ +[0-9.]+$" out && grep -Eq "^ +2 +0 +[0-9]+ +[0-9.]+$" out'
says "two threads of a rank: exit 0" ranks 2 survey plan.yaml --out threads --threads 2
says "are the same" same threads
says "and have a file each" test -e threads/rows-0001-001
says "one rank is alone: exit 0" ranks 1 survey plan.yaml --out alone
says "and the same" same alone

mpirun $root --oversubscribe -n 2 "$D" survey plan.yaml --out else : -n 1 "$D" survey other.yaml --out else >out 2>err </dev/null
says "a rank that has another plan: exit 1" test $? = 1
says "is told by its number" grep -q '^dewledger: rank 2 on .*: else: was begun with another plan' err
says "and the others have ended in order" test ! -e else/march.csv
ranks 3 survey nowhere.yaml --out none
says "a plan that is not there: exit 1" test $? = 1
says "is told once" test "$(grep -c '^dewledger: nowhere.yaml' err)" = 1

# ---- the disk of a rank fails it -------------------------------------------------------
fails=$PWD/fails.so
if "${CC:-gcc}" -shared -fPIC -O1 -o "$fails" "$here/tests/survey/fails.c" 2>log; then
    broken() { # FAILS RANK FOLDER
        (export FAILS="$1" FAILS_RANK="$2" LD_PRELOAD="$fails"; ranks 3 survey plan.yaml --out "$3")
    }
    broken pwrite:2:28 2 full
    says "a rank whose disk is full midway in a record: exit 3" test $? = 3
    says "is named, with the reason" grep -q '^dewledger: rank 2 on .*: full: could not be written: No space left on device' err
    ends "with room again" 0 survey plan.yaml --out full --resume
    says "the same after a full disk" same full
    broken fsync:2:5 1 broken
    says "one whose disk is broken: exit 3" test $? = 3
    says "is named too" grep -q '^dewledger: rank 1 on .*: broken: could not be written: Input/output error' err
    says "resume on two ranks" ranks 2 survey plan.yaml --out broken --resume
    says "the same after a broken disk" same broken
    broken rename:2:13 0 named
    says "rank 0 that cannot name the table: exit 3" test $? = 3
    ends "resume writes it" 0 survey plan.yaml --out named --resume
    says "the same" same named
else
    echo "skip a disk that fails: no preloaded library can be made here"
fi

# ---- in order --------------------------------------------------------------------------
mpirun $root --oversubscribe -n 3 "$D" survey plan.yaml --out asked >out 2>err </dev/null &
pid=$!
while [ ! -s asked/rows-0001-000 ] && kill -0 $pid 2>/dev/null; do sleep 0.02; done
first=$("$D" survey status asked | sed -n 's/^Process \([0-9]*\) is.*/\1/p')
[ -n "$first" ] && kill -TERM "$first"
wait $pid
says "rank 0 that is asked to end: exit 3" test $? = 3
says "says how to go on" grep -qx '  dewledger survey plan.yaml --out asked --resume' err
ends "after that, without mpirun" 0 survey plan.yaml --out asked --resume
says "the same" same asked

# ---- a rank is lost ------------------------------------------------------------------
mpirun $root --oversubscribe -n 3 "$D" survey plan.yaml --out lost >out 2>err </dev/null &
pid=$!
while [ ! -s lost/rows-0001-000 ] && kill -0 $pid 2>/dev/null; do sleep 0.02; done
victim=
for rank in $(cat /proc/$pid/task/*/children 2>/dev/null); do
    tr '\0' '\n' <"/proc/$rank/environ" | grep -qx OMPI_COMM_WORLD_RANK=2 && victim=$rank
done
[ -n "$victim" ] && kill -KILL "$victim"
wait $pid
says "a rank that is killed ends all: exit other than 0" test $? != 0
says "one was killed, midway" sh -c 'test -n "$0" && ! test -e lost/march.csv' "$victim"
ends "what is kept is seen" 0 survey status lost
says "some of it is" sh -c '! grep -q "^0 of 40" out && ! grep -q "^40 of 40" out'
says "resume on two ranks: exit 0" ranks 2 survey plan.yaml --out lost --resume
says "went on" grep -q ' of 40 items are there already' out
says "the same after a lost rank" same lost
exit $bad
