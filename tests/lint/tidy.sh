#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# clang-tidy for one file, unless just this was looked at before: the file, all
# of ours that it includes, the flags and the checks.
# usage: tests/lint/tidy.sh FILE STAMP FLAGS...
# STAMP keeps what was found clean here, tests/lint/tidied.txt what was when it
# was written by `make tidied`; EVERY=1 looks at all.
set -u
file=$1 stamp=$2
shift 2
parts=$(${CC:-cc} -MM "$@" "$file" | tr -d '\\' | tr -s ' \n' '\n\n' |
    grep -v ':$' | LC_ALL=C sort -u)
key=$({
    clang-tidy --version | grep -o 'version [0-9]*'
    echo "$@"
    for part in .clang-tidy $parts; do cat "$part"; done
} | sha256sum | cut -c1-16)
if [ -z "${EVERY:-}" ] &&
    grep -qxF "$key $file" tests/lint/tidied.txt "$stamp" 2>/dev/null; then
    echo "$key $file" >"$stamp"
    exit 0
fi
rm -f "$stamp"
if ! clang-tidy --quiet "$file" -- "$@" >"$stamp.log" 2>/dev/null; then
    cat "$stamp.log"
    exit 1
fi
echo "$key $file" >"$stamp"
