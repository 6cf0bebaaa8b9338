#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The same program on other machines: 32 bit (i386, the mathematics of SSE2),
# big-endian (s390x), and another C library (musl).  Each has a root of its own
# under build/machines, of Debian's packages for it or, for musl, of libraries
# built from source; a compiler of this machine for it; and, for a processor
# that this one is not, qemu's user emulation.  Everything is compiled, the unit
# tests run, and the demo's hours are held to this machine's within one.
# usage: machines.sh BUILD [i386|s390x|musl]...      all three unless told
# Tests that tests/once.txt leaves to the first compiler are left to it here
# too; one that takes longer than LIMIT is named, and counts as failed.
set -eu
here=$(cd "$(dirname "$0")/../.." && pwd)
build=$(realpath "$1")
shift
work=$here/build/machines
jobs=${JOBS:-2}
limit=${LIMIT:-900} # s, a test program
packages="libc6-dev libgsl-dev libcsv-dev libyaml-dev libjansson-dev zlib1g-dev
 libmd-dev libsqlite3-dev libcmocka-dev liberfa-dev"
mkdir -p "$work"

# Debian's packages for another processor, laid out and not set up: no program
# of theirs is run.  The archives are those that this system uses.
debian_root() { # ARCH ROOT
    [ -f "$2/whole" ] && return
    mkdir -p "$2/var/lib/dpkg" "$2/var/lib/apt/lists/partial" \
        "$2/var/cache/apt/archives/partial" "$2/none"
    : >"$2/var/lib/dpkg/status"
    cat >"$2/apt.conf" <<END
APT::Architecture "$1";
APT::Architectures { "$1"; };
APT::Sandbox::User "root";
Dir::State "$2/var/lib/apt";
Dir::State::status "$2/var/lib/dpkg/status";
Dir::Cache "$2/var/cache/apt";
Dir::Etc::preferencesparts "$2/none";
END
    apt="env APT_CONFIG=$2/apt.conf apt-get -qq"
    $apt update || true # old lists may still do
    # shellcheck disable=SC2086
    $apt install -y --no-install-recommends --download-only $packages
    for deb in "$2"/var/cache/apt/archives/*.deb; do
        dpkg-deb -x "$deb" "$2"
    done
    touch "$2/whole"
}

# Libraries for musl: the sources of the page and cmocka's.
from_source() { # NAME OPTION: by its own configure
    (cd "$work/musl/src/$1" &&
        CC=musl-gcc CFLAGS='-O1 -w' ./configure --prefix="$root" "$2" &&
        sed -i '/^SUBDIRS = /s/ doc\>//' Makefile && # not in what was fetched
        make -s -j"$jobs" && make -s install) >>"$work/musl.log" 2>&1
}
by_list() { # LIBRARY FLAGS FILE...: the files alone
    name=$1 flags=$2
    shift 2
    rm -rf "$root/$name"
    mkdir -p "$root/$name"
    for file; do
        # shellcheck disable=SC2086
        musl-gcc -O1 -w -D_GNU_SOURCE -DHAVE_CONFIG_H -I"$here/engine/page/port" \
            -I"$work/musl/include" $flags -c "$work/musl/src/$file.c" \
            -o "$root/$name/$(basename "$file").o"
    done
    rm -f "$root/lib/$name.a"
    ar rcs "$root/lib/$name.a" "$root/$name"/*.o
}
musl_root() {
    root=$work/musl/sys
    [ -f "$root/whole" ] && return
    mkdir -p "$root/lib" "$root/include"
    { cat "$here/engine/page/sources.txt"; echo "cmocka 1.1.5-2.1"; } >"$work/sources.txt"
    sh "$here/engine/page/sources.sh" "$work/musl" "$work/sources.txt"
    from_source zlib --static
    from_source libmd --disable-shared
    from_source libcsv --disable-shared
    from_source gsl --disable-shared
    by_list libyaml -I"$work/musl/src/libyaml/src" \
        libyaml/src/api libyaml/src/parser libyaml/src/reader libyaml/src/scanner
    by_list libjansson -I"$work/musl/src/jansson/src" $(cd "$work/musl/src" &&
        ls jansson/src/*.c | sed 's/\.c$//')
    by_list libcmocka "-I$work/musl/src/cmocka/include -DHAVE_SIGNAL_H -DHAVE_MALLOC_H" \
        cmocka/src/cmocka
    cp "$work"/musl/src/cmocka/include/*.h "$work"/musl/include/yaml.h \
        "$work"/musl/include/jansson*.h "$root/include"
    touch "$root/whole"
}

fresh_tree() { # NAME FLAGS LIBS: the tree, and what pkg-config would say of it
    tree=$work/$1/tree
    rm -rf "$tree"
    mkdir -p "$tree/build"
    (cd "$here" && git ls-files -z | tar c --null -T -) | tar x -C "$tree"
    cat >"$tree/build/deps.mk" <<END
PKG_CFLAGS := $2
PKG_LIBS := $3
PKG_FOR := gsl yaml-0.1 jansson zlib libmd sqlite3
HAVE := $(sed -n 's/^HAVE := //p' "$here/build/deps.mk")
END
}
tests_of() { # those that are run beside the first compiler's
    (cd "$tree" && for t in tests/*/test_*.c; do
        awk -v t="$t" '$1 == t && $2 == "gcc" { left = 1 } END { exit left }' \
            tests/once.txt && echo "build/gcc/${t%.c}"
    done)
}
run_tests() { # RUN: the words before a program
    for t in $tests; do
        [ -x "$tree/$t" ] || { echo "status 127" >"$tree/$t.log"; continue; }
        r=0
        (cd "$tree" && timeout "$limit" $1 "$t") >"$tree/$t.log" 2>&1 </dev/null || r=$?
        [ "$r" != 124 ] || echo "not ok $t is not done in $limit s" >>"$tree/$t.log"
        echo "status $r" >>"$tree/$t.log"
    done
    (cd "$tree" && sh tests/support/tally.sh $(printf '%s.log ' $tests)) || bad=1
}
hours() { # COMMAND...: of the demo, without its doubt
    "$@" run "$here/scenarios/demo.yaml" --quick --json 2>/dev/null | python3 -c '
import json, sys
def walk(x, at):
    for k, v in x.items() if isinstance(x, dict) else enumerate(x):
        here = f"{at}.{k}"
        if isinstance(v, (dict, list)):
            walk(v, here)
        elif isinstance(k, str) and k.endswith("_h") and isinstance(v, (int, float)):
            print(here, v)
walk(json.load(sys.stdin), "")'
}
same_hours() { # RUN
    hours "$build/dewledger" >"$work/here.hours"
    hours $1 "$tree/build/gcc/dewledger" >"$tree/hours"
    if python3 - "$work/here.hours" "$tree/hours" <<'END'
import sys
a, b = (dict(l.split() for l in open(f)) for f in sys.argv[1:])
far = {k: (a[k], b.get(k)) for k in a if k not in b or abs(float(a[k]) - float(b[k])) > 1}
print(f"{len(a)} figures in hours, {sum(a[k] != b[k] for k in a if k in b)} others, {len(far)} by more than one")
sys.exit(not a or a.keys() != b.keys() or bool(far))
END
    then echo "ok $name: the demo's hours within one"
    else echo "not ok $name: the demo's hours"; bad=1; fi
}
compile() { # CC CFLAGS [NAME=VALUE]...
    cc=$1 flags=$2
    shift 2
    (cd "$tree" && make -s -k -j"$jobs" CC="$cc" CFLAGS="$flags" "$@" \
        $goals $tests) >"$work/$name.log" 2>&1 || {
        grep -E 'error|\*\*\*' "$work/$name.log" | head -20
        echo "not ok $name is compiled"
        bad=1
    }
}

debian() { # ARCH TRIPLET EMULATOR CFLAGS
    root=$work/$1/root
    debian_root "$1" "$root"
    fresh_tree "$1" "-I$root/usr/include" "-lgsl -lgslcblas -lyaml -ljansson -lz -lmd -lsqlite3"
    tests=$(tests_of)
    goals=build/gcc/dewledger
    compile "$2-gcc --sysroot=$root" "$4"
    run_tests "$3 -L $root"
    same_hours "$3 -L $root"
}
musl() {
    musl_root
    fresh_tree musl "-I$work/musl/sys/include" \
        "-L$work/musl/sys/lib -static -lgsl -lgslcblas -lyaml -ljansson -lz -lmd"
    # no SQLite in the page's sources, so no surveys; no argp in musl, so no command
    rm -rf "$tree"/tests/survey "$tree"/engine/survey "$tree"/engine/core/journal.c \
        "$tree"/tests/core/test_journal.c "$tree"/tests/weather/test_sun.c
    tests=$(tests_of)
    goals=build/gcc/libdew.a
    compile musl-gcc -O1
    run_tests ""
}

bad=0
for name in ${*:-i386 s390x musl}; do
    echo "==== $name"
    case $name in
    i386) debian i386 i686-linux-gnu qemu-i386-static '-O1 -msse2 -mfpmath=sse' ;;
    s390x) debian s390x s390x-linux-gnu qemu-s390x-static -O1 ;;
    musl) musl ;;
    *) echo "machines.sh: no machine $name here" >&2; exit 2 ;;
    esac
done
exit $bad
