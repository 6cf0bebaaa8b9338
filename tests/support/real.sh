#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Print a Markdown file with the outputs it shows made anew.
# usage: tests/support/real.sh BUILD FILE.md
# In a block that begins with ```console each line "$ COMMAND" is run and its
# output follows it.  The block after a line <!-- real: COMMAND --> is the
# output of COMMAND.  All run in one empty directory, dewledger in the PATH,
# the source tree in $SRC.  KEPT: a folder where runs find what was marched
# before (tests/cli/test_kept.sh holds that it changes nothing).
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

state=text
while IFS= read -r line; do
    case $state in
    text)
        printf '%s\n' "$line"
        case $line in
        '```console') state=console ;;
        '<!-- real: '*)
            command=${line#<!-- real: }
            command=${command% -->}
            state=wait ;;
        esac ;;
    wait)
        printf '%s\n' "$line"
        case $line in
        '```'*)
            sh -c "$command" 2>&1 </dev/null
            state=skip ;;
        esac ;;
    skip)
        [ "$line" = '```' ] && echo '```' && state=text ;;
    console)
        case $line in
        '```')
            echo '```'
            state=text ;;
        '$ '*)
            printf '%s\n' "$line"
            sh -c "${line#??}" 2>&1 </dev/null ;;
        esac ;;
    esac
done <"$file"
