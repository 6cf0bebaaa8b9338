#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Hold the figures and words in a Markdown file's sentences to outputs.
# usage: tests/support/told.sh BUILD FILE.md
# KEPT: as in real.sh
# A line <!-- told: COMMAND => WORDS --> runs COMMAND; WORDS with what it
# prints (one line) in place of % must stand in the file's sentences.  All run
# in one empty directory, dewledger in the PATH, the source tree in $SRC.
# Prints each that does not stand; exit 1 where there is one, or none is held.
set -u
SRC=$(cd "$(dirname "$0")/../.." && pwd)
PATH=$(realpath "$1"):$PATH
file=$(realpath "$2")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
export SRC PATH
unset COLUMNS
. "$SRC/tests/support/kept_real.sh"

# sentences alone, in one line: no comment, no block of code
sed -e '/^```/,/^```$/d' -e '/^<!--.*-->$/d' "$file" | tr -s '\n ' '  ' >text
sed -n 's/^<!-- told: \(.*\) -->$/\1/p' "$file" >held
[ -s held ] || { echo "nothing is held"; exit 1; }
bad=0
while IFS= read -r line; do
    command=${line%% => *} words=${line#* => }
    figure=$(sh -c "$command" 2>&1 </dev/null | tr -s '\n ' '  ')
    figure=${figure% }
    says=${words%%%*}$figure${words#*%}
    if [ -z "$figure" ] || ! grep -qF -- "$says" text; then
        echo "should say \"$says\": $command"
        bad=1
    fi
done <held
exit $bad
