#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What is written is whole: two at once, killed at random, a disk that takes no
# more, devices and pipes.  The steps one by one are in tests/core/test_out.c
# and tests/report/test_set.c; here whole commands run.  KILLS says how often.
set -u
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
here=$(cd "$(dirname "$0")/../.." && pwd)
# In memory where there is room for it: a sync to a slow disk takes long.
work=$(mktemp -d -p /dev/shm 2>/dev/null || mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0
kills=${KILLS:-50}
first=$here/scenarios/first.yaml
made=$here/weather/miami-made.csv

ok() { echo "ok $*"; }
not() {
    echo "not ok $*"
    bad=1
}
# is WHAT COMMAND...: the command succeeds.
is() {
    what=$1
    shift
    if "$@"; then ok "$what"; else not "$what"; fi
}
# ends WHAT CODE TEXT [ARG...]: exit code, and a text in the messages.
ends() {
    what=$1 code=$2 text=$3
    shift 3
    timeout 20 "$D" "$@" >out 2>err </dev/null
    got=$?
    if [ "$got" = "$code" ] && { [ -z "$text" ] || grep -qF -e "$text" err; }; then
        ok "$what"
    else
        not "$what: wanted $code: $text, got $got: $(cat err)"
    fi
}
# whole DIR: its summary stands, every file it names has that sum, and there is
# no other.
whole() {
    [ -f "$1/summary.json" ] || return 1
    sed -n '/"written"/,$p' "$1/summary.json" | tr -d ' ",' |
        awk -F: '$1 == "file" { f = $2 } $1 == "sha256" { print $2 "  " f }' >sums
    [ -s sums ] || return 1
    (cd "$1" && sha256sum --quiet -c "$work/sums" 2>&1) || return 1
    (cd "$1" && find . -type f ! -name summary.json | sed 's,^\./,,' | sort) >there
    sed 's/^[^ ]*  //' sums | LC_ALL=C sort >named
    LC_ALL=C sort there | cmp -s - named
}
# same A B: the same files with the same bytes.
same() { diff -r "$1" "$2" >diff.out; }

# ---- a set ----------------------------------------------------------------------------
# One month of weather and two scenarios whose files differ in name and bytes.
{ grep '^[#t]' "$made" | grep -v '^# year'; sed -n '/^2001-01-01 01/,/^2001-01-31 24/p' "$made"; } >month.csv
# What was marched is kept: the runs below write, and do little else.
of_month="exec '$D' run --quick '$first' --set weather.place=none --set weather.file=month.csv --kept '$work/kept'"
mkdir kept
# Commands of their own, so that a kill meets the program and no shell.
echo "$of_month --set title=ONE \"\$@\" >/dev/null 2>>log" >one
echo "$of_month --set title=TWO --set house.bedrooms=2 --option 'as it stands' \"\$@\" >/dev/null 2>>log" >two
chmod +x one two
is "one" sh one --out A
is "two" sh two --out B
is "one is whole" whole A
is "two is whole" whole B
is "a set over another" sh two --out A
is "is the same as alone" same A B
is "and back" sh one --out A
is "is whole" whole A
cp -r A keep
echo mine >A/notes.txt
echo mine >A/charts/notes.svg
echo edited >>A/hours-2-enthalpy-core-own-ducts.csv
is "a set over an edited one" sh two --out A
is "what is not ours stays" test -s A/notes.txt -a -s A/charts/notes.svg
is "what was edited stays" grep -q edited A/hours-2-enthalpy-core-own-ducts.csv
rm -r A && cp -r keep A

# ---- two at once --------------------------------------------------------------------------
mixed=0 refused=0
for i in 1 2 3 4 5 6 7 8 9 10; do
    sh one --out both &
    a=$!
    sh two --out both &
    b=$!
    wait $a; x=$?
    wait $b; y=$?
    case $x$y in
    00) ;;
    03 | 30) refused=$((refused + 1)) ;;
    *) mixed=$((mixed + 1)) ;;
    esac
    whole both || mixed=$((mixed + 1))
    same both keep || same both B || mixed=$((mixed + 1))
done
[ $mixed = 0 ] && ok "ten pairs at once: one set each, $refused told to wait" ||
    not "ten pairs at once: $mixed mixed: $(tail -3 log)"

# While another holds the folder: who, and exit 3.
mkdir held
cp "$first" slow.yaml
if command -v flock >/dev/null; then
    sh -c 'exec 9<held && flock 9 && echo >locked && exec sleep 100' &
    holder=$!
    while [ ! -e locked ]; do sleep 0.1; done
    ends "a folder that is held" 3 "held: another process is writing a result there" \
        run --quick --full "$first" --out held
    kill $holder 2>/dev/null
    wait $holder 2>/dev/null
else
    echo "skip a folder that is held: no flock"
fi

# ---- killed at random ------------------------------------------------------------------------
# The wait is taken from a sequence that fills the time of a run evenly.
start=$(date +%s%N)
sh one --out A
took=$(( ($(date +%s%N) - start) / 1000 ))
lost=0 cut=0 old=0 new=0
n=0
while [ $n -lt "$kills" ]; do
    n=$((n + 1))
    wait_us=$(( (n * 618034 % 1000000) * took / 1000000 ))
    if [ $((n % 2)) = 1 ]; then next=two alone=B; else next=one alone=keep; fi
    cp -r A before
    sh $next --out A &
    child=$!
    sleep "$(printf '%d.%06d' $((wait_us / 1000000)) $((wait_us % 1000000)))"
    kill -9 $child 2>/dev/null
    wait $child 2>/dev/null
    if [ -f A/summary.json ]; then
        rm -rf shown
        cp -r A shown
        find shown -name '.*' -type f -exec rm {} +
        if same shown before; then old=$((old + 1))
        elif same shown "$alone"; then new=$((new + 1))
        else lost=$((lost + 1)); fi
    else
        cut=$((cut + 1))
    fi
    rm -rf before
    sh $next --out A || lost=$((lost + 1))
    same A "$alone" || lost=$((lost + 1))
done 2>/dev/null
[ $lost = 0 ] &&
    ok "$kills killed: $old old sets, $new new, $cut without a summary, none mixed" ||
    not "$kills killed: $lost lost or mixed: $(head -5 diff.out)"

# ---- single files ---------------------------------------------------------------------------------
"$D" weather convert "$made" whole.csv >/dev/null
"$D" weather make 722020 --out made.csv >/dev/null
"$D" weather look "$made" --svg whole.svg >/dev/null
"$D" start --out whole.yaml
lost=0
n=0
while [ $n -lt "$kills" ]; do
    n=$((n + 1))
    case $((n % 4)) in
    0) set -- whole.csv weather convert "$made" part/x ;;
    1) set -- made.csv weather make 722020 --out part/x ;;
    2) set -- whole.svg weather look "$made" --svg part/x ;;
    3) set -- whole.yaml start --out part/x ;;
    esac
    want=$1
    shift
    rm -rf part
    mkdir part
    "$D" "$@" >/dev/null 2>&1 &
    child=$!
    sleep "$(printf '0.%06d' $((n * 618034 % 1000000 / 50)))"
    kill -9 $child 2>/dev/null
    wait $child 2>/dev/null
    [ ! -e part/x ] || cmp -s part/x $want || lost=$((lost + 1))
    rm -f part/x
    "$D" "$@" >/dev/null 2>&1 && cmp -s part/x $want || lost=$((lost + 1))
    [ "$(ls -A part)" = x ] || lost=$((lost + 1))
done 2>/dev/null
[ $lost = 0 ] && ok "$kills single files killed: whole or absent, and the next is written" ||
    not "$kills single files killed: $lost wrong"
ends "start leaves a file alone" 1 "whole.yaml is there already and is left alone" \
    start --out whole.yaml

# ---- a disk or a limit that takes no more -------------------------------------------------------------
limited() { (ulimit -f 4; timeout 20 "$D" "$@" >out 2>err </dev/null); }
mkdir small
for what in "run --quick $first --out small/set" "weather convert $made small/x" \
    "weather make 722020 --out small/x" "weather look $made --svg small/x" \
    "start --all --out small/x"; do
    limited $what
    got=$?
    [ $got = 3 ] && grep -qF "File too large" err && [ -z "$(ls -A small)" ] &&
        ok "files limited to 2 KiB: ${what%% *}" ||
        not "files limited: $what: $got: $(cat err) $(ls -A small)"
done
cp -r keep limit
limited run --quick --full "$first" --out limit
[ $? = 3 ] && same keep limit && ok "the old set stands" || not "the old set stands"
(ulimit -f 4; "$D" run --quick --full "$first" --json >out.json 2>err)
[ $? = 3 ] && grep -qF "could not be written" err && ok "a result on stdout says so" ||
    not "a result on stdout says so: $(cat err)"

# ---- no files ---------------------------------------------------------------------------------------------
mkfifo pipe
ends "convert into a pipe that nobody reads" 3 "a pipe that nobody reads" \
    weather convert "$made" pipe
ends "make, the same" 3 "a pipe that nobody reads" weather make 722020 --out pipe
ends "a picture, the same" 3 "a pipe that nobody reads" weather look "$made" --svg pipe
ends "a scenario, the same" 3 "a pipe that nobody reads" start --out pipe
cat pipe >read.csv &
timeout 20 "$D" weather convert "$made" pipe >/dev/null
wait $!
is "a pipe with a reader gets it all" cmp -s read.csv whole.csv
is "and stays a pipe" test -p pipe
ends "weather from a pipe" 1 "write it to a file first" weather look pipe
ends "weather of a scenario" 1 "write it to a file first" run --quick --full "$first" \
    --set weather.place=none --set weather.file=pipe
ends "a log" 1 "write it to a file first" run --quick --full "$first" --log pipe
ends "a scenario from a pipe that nobody writes into" 1 \
    "nothing came out of it in 5 s" check pipe
cat "$first" >pipe &
ends "a scenario from a pipe" 0 "" check pipe
# Devices of our own: a program that is wrong here, and root, would put a file
# in place of the machine's.
nodes=$(mktemp -d)
trap 'rm -rf "$work" "$nodes"' EXIT
if mknod "$nodes/null" c 1 3 2>/dev/null && mknod "$nodes/full" c 1 7 &&
    { true >"$nodes/null"; } 2>/dev/null; then
    for words in "weather convert $made" "weather make 722020 --out" \
        "weather look $made --svg" "start --out"; do
        ends "into a device: ${words%% *}" 0 "" $words "$nodes/null"
        is "it is a device still" test -c "$nodes/null"
        ends "into one that is full: ${words%% *}" 3 "No space left" $words "$nodes/full"
        is "it is one still" test -c "$nodes/full"
    done
    ends "a device as weather" 1 "write it to a file first" weather look "$nodes/null"
else
    echo "skip devices of our own: needs root"
fi
ln -s whole.csv link
ends "a link" 3 "a link; name the file itself" weather convert "$made" link
is "stays a link" test -L link
ends "no name" 3 "an empty name cannot be written to" weather convert "$made" ''
ends "no folder" 3 '"": could not be written: No such file or directory' run --quick --full "$first" --out ''

exit $bad
