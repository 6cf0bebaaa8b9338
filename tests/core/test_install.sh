#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Install into an empty root, build users of the library there through
# pkg-config, run them, uninstall, and find nothing left.
set -u
unset MAKEFLAGS MAKELEVEL MFLAGS DEW_BUILD
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
bad=0
check() { # name, command...
    name=$1
    shift
    if "$@" >"$root/out" 2>&1; then
        echo "ok $name"
    else
        echo "not ok $name"
        cat "$root/out"
        bad=1
    fi
}
prefix=/opt/dew
installed() {
    make -s install DESTDIR="$root/tree" PREFIX=$prefix WERROR="${WERROR-}"
}
flags() {
    PKG_CONFIG_SYSROOT_DIR="$root/tree" \
        PKG_CONFIG_PATH="$root/tree$prefix/lib/pkgconfig" \
        pkg-config "$@" dew
}
cat >"$root/user.cc" <<'END'
#include <dew.h>
#include <stdio.h>
#include <string.h>

int main(void)
{
    const struct dew_unit *cfm = dew_unit_find("cfm", 3, DEW_FLOW);
    char line[40];

    puts(dew_number_fixed(60.0 * cfm->factor * 1000.0, 3, line, sizeof line));
    return strcmp(line, "28.317") != 0;
}
END
# the two programs of docs/library.md, and the files that the second has in it
sed -n '/^```c$/,/^```$/p' docs/library.md | awk -v at="$root/user" '
    /^```c$/ { n++; next } !/^```/ { print > (at n ".c") }'
file_in() { # variable
    sed -n "/ $1\\[\\] =/,/;\$/s/^ *\"\\(.*\\)\\\\n\".*/\\1/p" "$root/user2.c"
}
file_in house >"$root/house.yaml"
file_in morning >"$root/morning.csv"

builds() { # compiler, source, flags
    "$1" -Wall -Wextra -Wpedantic -Werror "$root/$2" $(flags --cflags) \
        $3 -o "$root/${2%.*}"
}
runs() { # program, arguments...
    program=$1
    shift
    LD_LIBRARY_PATH="$root/tree$prefix/lib" "$root/$program" "$@"
}
tells() { # what the command tells first of a verdict, without its lines' ends
    awk '/^\* / { if (n++) exit } n && !/^[* ] / { exit } n' |
        tr -s '\n ' ' ' | sed 's/^\* //; s/ $/\n/'
}
as_the_command() { # scenario
    runs user1 "$1" 2>/dev/null >"$root/told"
    "$root/tree$prefix/bin/dewledger" run --quick --full --units us "$1" 2>/dev/null | tells |
        diff - "$root/told" && test -s "$root/told"
}
from_memory() {
    runs user2 >"$root/told"
    runs user1 "$root/house.yaml" 2>/dev/null | diff - "$root/told" &&
        grep -q '^Today the house ' "$root/told"
}
none_left() {
    test -z "$(find "$root/tree" ! -type d | tee /dev/stderr)"
}
version_agrees() {
    test "dewledger $(flags --modversion)" = \
        "$("$root/tree$prefix/bin/dewledger" --version | head -n 1)"
}

in_place() {
    share=$root/tree$prefix/share
    grep -q '^\.SS dewledger run' "$share/man/man1/dewledger.1" &&
        grep -q '^\.B house.volume' "$share/man/man5/dewledger-scenario.5" &&
        test -s "$share/bash-completion/completions/dewledger" &&
        test -s "$share/zsh/site-functions/_dewledger" &&
        test -s "$share/fish/vendor_completions.d/dewledger.fish"
}

check "install" installed
check "manual pages and completions are in their places" in_place
check "the command runs and its version is pkg-config's" version_agrees
check "a C++ user compiles, shared" builds c++ user.cc "$(flags --libs)"
check "a C++ user runs, shared" runs user
check "the first program of docs/library.md compiles" builds cc user1.c "$(flags --libs)"
check "the shared library is the one used" sh -c \
    "LD_LIBRARY_PATH='$root/tree$prefix/lib' ldd '$root/user1' | grep -q '$prefix/lib/libdew.so'"
check "it tells what the command tells first" as_the_command scenarios/tutorial.yaml
check "the second compiles" builds cc user2.c "$(flags --libs)"
check "it tells the same from memory as from files" from_memory
check "a C user compiles, static" builds cc user1.c "$(flags --static --libs) -static"
check "a C user runs, static" "$root/user1" scenarios/tutorial.yaml
check "uninstall" make -s uninstall DESTDIR="$root/tree" PREFIX=$prefix
check "nothing is left" none_left
exit $bad
