#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The same program on other machines: 32 bit (i386, the mathematics of SSE2),
# big-endian (s390x), another C library (musl), and this processor with the
# newest compilers and libraries that Debian packages (gcc-new, clang-new).
# Each has a root of its own under build/machines: of Debian's packages or, for
# musl, of libraries built from source.  A processor that this one is not is
# qemu's user emulation; i386 runs by itself where the system lets it.  Everything
# is compiled, the unit tests run, and the demo's hours are held to this machine's
# within one.
# usage: machines.sh BUILD [NAME]...      all unless told
# Tests that tests/once.txt leaves to the first compiler are left to it here
# too; one that takes longer than LIMIT is named, and counts as failed.  KEEP=1
# goes on from what an earlier run compiled and passed, as make would.  A root that
# is whole is kept: remove build/machines to have what is newest now.
set -eu
here=$(cd "$(dirname "$0")/../.." && pwd)
build=$(realpath "$1")
shift
work=$here/build/machines
jobs=${JOBS:-2}
limit=${LIMIT:-900}       # s of processor, a test program; ten times that in all
suite=${SUITE:-unstable}  # where Debian's newest are
mkdir -p "$work"
DEW_DATA=$(realpath -m "${DEW_DATA:-$here/../shared/data}") # where it is not, tests say so
export DEW_DATA

# NAME     ROOT    COMPILER             RUN                CFLAGS
machines="
i386       other   i686-linux-gnu-gcc   qemu-i386-static   -O1 -msse2 -mfpmath=sse
s390x      other   s390x-linux-gnu-gcc  qemu-s390x-static  -O1
musl       musl    musl-gcc             -                  -O1
gcc-new    newest  gcc                  -                  -O2
clang-new  newest  clang                -                  -O2
"
libraries="libc6-dev libgsl-dev libcsv-dev libyaml-dev libjansson-dev zlib1g-dev
 libmd-dev libsqlite3-dev libcmocka-dev liberfa-dev"
commands="base-files coreutils dash diffutils sed grep mawk make units locales"
links="-lgsl -lgslcblas -lyaml -ljansson -lz -lmd"

# ---- roots ------------------------------------------------------------------
# Debian's packages, laid out and not set up: no program of theirs is run.  The
# archives are those that this system uses, or the one that is told.
apt_for() { # ROOT ARCH [LINE]: an apt of its own
    mkdir -p "$1/var/lib/dpkg" "$1/var/lib/apt/lists/partial" \
        "$1/var/cache/apt/archives/partial" "$1/none"
    : >"$1/var/lib/dpkg/status"
    cat >"$1/apt.conf" <<CONF
APT::Architecture "$2";
APT::Architectures { "$2"; };
APT::Sandbox::User "root";
Dir::State "$1/var/lib/apt";
Dir::State::status "$1/var/lib/dpkg/status";
Dir::Cache "$1/var/cache/apt";
Dir::Etc::preferencesparts "$1/none";
CONF
    [ -z "${3:-}" ] || {
        echo "$3" >"$1/sources.list"
        echo "Dir::Etc::SourceList \"$1/sources.list\";" >>"$1/apt.conf"
        echo "Dir::Etc::SourceParts \"$1/none\";" >>"$1/apt.conf"
    }
    export APT_CONFIG="$1/apt.conf"
    apt-get -qq update || true # old lists may still do
}
lay_out() { # ROOT PACKAGE...
    into=$1
    shift
    rm -f "$into"/var/cache/apt/archives/*.deb
    apt-get -qq install -y --no-install-recommends --download-only "$@"
    for deb in "$into"/var/cache/apt/archives/*.deb; do
        dpkg-deb -x "$deb" "$into"
    done
}
is_whole() { [ "$(cat "$root/whole" 2>/dev/null)" = "$*" ]; } # for what was asked

other_root() {
    root=$work/$name/root
    # shellcheck disable=SC2086
    is_whole $libraries || (
        apt_for "$root" "$name"
        lay_out "$root" $libraries
        echo $libraries >"$root/whole"
    )
}

# The highest number of a compiler that the archive has.
highest() { apt-cache search --names-only "^$1-[0-9]+\$" | awk '{ print $1 }' | sort -V | tail -n 1; }
newest_root() { # one for both compilers
    root=$work/newest/root
    # shellcheck disable=SC2086
    is_whole $suite $libraries $commands || (
        site=$(apt-get indextargets 'Created-By: Packages' 'Origin: Debian' \
            --format '$(SITE)' | grep -v security | head -n 1)
        apt_for "$root" "$(dpkg --print-architecture)" \
            "deb [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] $site $suite main"
        new="$(highest gcc) $(highest clang)"
        lay_out "$root" $libraries $commands $new
        ln -sf mawk "$root/usr/bin/awk"
        echo $new >"$root/compilers"
        echo $suite $libraries $commands >"$root/whole"
    )
    cc=$(tr ' ' '\n' <"$root/compilers" | grep "^$cc-")
}

# Libraries for musl: the page's, of the files that it takes of each, and those of
# the tests and the surveys.
musl_sources="cmocka 1.1.5-2.1
sqlite3 3.40.1-2+deb12u2
erfa 2.0.0-1"
musl_gsl="ode-initval2/control ode-initval2/cstd ode-initval2/driver
 ode-initval2/evolve ode-initval2/msbdf ode-initval2/rk2 ode-initval2/rk8pd
 ode-initval2/rkck ode-initval2/step linalg/lu cblas/dgemm cblas/drot
 cblas/dswap roots/brent roots/convergence roots/fsolver min/brent
 min/convergence min/fsolver"
by_list() { # LIBRARY FLAGS FILE...
    lib=$1 flags=$2
    shift 2
    for file; do
        object=$root/$lib/$(echo "$file" | tr / _).o # there are several init.c
        mkdir -p "$root/$lib"
        # shellcheck disable=SC2086
        [ -f "$object" ] || musl-gcc -O1 -w -ffp-contract=off \
            -ffunction-sections -D_GNU_SOURCE \
            -DHAVE_CONFIG_H -I"$root/port" -I"$work/musl/include" \
            -I"$work/musl/include/gnulib" $flags -c "$src/$file.c" -o "$object"
    done
    rm -f "$root/lib/lib$lib.a"
    ar rcs "$root/lib/lib$lib.a" "$root/$lib"/*.o
}
all_of() { (cd "$src" && ls "$1"/*.c | sed 's/\.c$//'); }
musl_root() {
    root=$work/musl/sys
    src=$work/musl/src
    asked=$(cat "$here/engine/page/sources.txt" && echo "$musl_sources")
    is_whole "$asked $musl_gsl" && return
    [ "$(cat "$src/asked" 2>/dev/null)" = "$asked" ] || {
        rm -rf "$work/musl"
        echo "$asked" >"$work/sources.txt"
        sh "$here/engine/page/sources.sh" "$work/musl" "$work/sources.txt"
        echo "$asked" >"$src/asked"
    }
    mkdir -p "$root/lib" "$root/include" "$root/port"
    # of what the page adds to a C library, argp alone is missing here
    cp "$here/engine/page/port/argp.h" "$here"/engine/page/port/*config.h "$root/port"
    page=$(cd "$here" && make -s --eval 'page-lib: ; @echo $(WASM_LIB)' page-lib | tr ' ' '\n'
        echo "$musl_gsl" | tr ' ' '\n' | sed '/./s,^,gsl/,')
    for lib in gsl libyaml jansson libcsv libmd gnulib; do
        # shellcheck disable=SC2046
        by_list "${lib#lib}" "-I$src/gsl" $(echo "$page" | grep "^$lib/")
    done
    (cd "$src/sqlite3" && ./configure --disable-tcl && make -s sqlite3.c) \
        >"$work/musl.log" 2>&1 # put together of its parts by a script in Tcl
    by_list sqlite3 -DSQLITE_OMIT_LOAD_EXTENSION sqlite3/sqlite3
    # shellcheck disable=SC2046
    by_list z -DHAVE_UNISTD_H $(all_of zlib)
    by_list cmocka "-I$src/cmocka/include -DHAVE_SIGNAL_H -DHAVE_MALLOC_H" cmocka/src/cmocka
    # shellcheck disable=SC2046
    by_list erfa "-I$src/erfa/src" $(all_of erfa/src | grep -v -e t_erfa -e version)
    cp "$src"/cmocka/include/*.h "$src"/sqlite3/sqlite3.h "$src"/erfa/src/erfa*.h \
        "$root/include"
    echo "$asked $musl_gsl" >"$root/whole"
}

# ---- the tree, its tests and its hours --------------------------------------
lay_tree() { # FLAGS LIBS: the tree, and what pkg-config would say of it
    [ -n "${KEEP:-}" ] || rm -rf "$tree"
    mkdir -p "$tree/build"
    (cd "$here" && git ls-files -z | tar c --null -T -) | tar x -C "$tree"
    cat >"$tree/build/deps.mk" <<DEPS
PKG_CFLAGS := $1
PKG_LIBS := $2
PKG_FOR := gsl yaml-0.1 jansson zlib libmd sqlite3
HAVE := $(sed -n 's/^HAVE := //p' "$here/build/deps.mk") clang libclang-rt-14-dev lld
DEPS
}
programs() { # of all tests, or of those that are run beside the first compiler's
    (cd "$tree" && for t in tests/*/test_*.c; do
        awk -v t="$t" -v all="$1" '$1 == t && $2 == "gcc" && !all { left = 1 }
            END { exit left }' tests/once.txt && echo "$made/${t%.c}"
    done)
}
compile() { # NAME=VALUE...: with them
    # shellcheck disable=SC2086
    (cd "$tree" && $inside make -s -k -j"$jobs" CC="$cc" CFLAGS="$flags" "$@" \
        $goals $(programs all)) >"$work/$name.log" 2>&1 || {
        grep -E 'error|\*\*\*' "$work/$name.log" | head -n 20
        echo "not ok $name is compiled"
        bad=1
    }
}
run_one() { # TEST
    r=0
    # shellcheck disable=SC2086
    (cd "$tree" && ulimit -S -t "$limit" && exec timeout $((10 * limit)) \
        $run "$1") >"$tree/$1.log" 2>&1 </dev/null || r=$?
    case $r in # timeout's, or that of the signal that a processor's limit sends
    124 | 152) echo "not ok $1 is not done in $limit s" >>"$tree/$1.log" ;;
    esac
    echo "status $r" >>"$tree/$1.log"
}
run_next() { # TEST...: those that no other has begun
    for t; do
        mkdir "$tree/begun/$(echo "$t" | tr / _)" 2>/dev/null || continue
        [ -x "$tree/$t" ] || { echo "status 127" >"$tree/$t.log"; continue; }
        [ -z "${KEEP:-}" ] || [ ! "$tree/$t.log" -nt "$tree/$t" ] ||
            ! tail -n 1 "$tree/$t.log" | grep -q '^status 0$' || continue
        run_one "$t"
    done
}
run_tests() { # as many at once as jobs
    tests=$(programs "") at=0
    rm -rf "$tree/begun"
    mkdir "$tree/begun"
    while [ $at -lt "$jobs" ]; do
        # shellcheck disable=SC2086
        run_next $tests &
        at=$((at + 1))
    done
    wait
    # shellcheck disable=SC2046
    (cd "$tree" && sh tests/support/tally.sh $(printf '%s.log ' $tests)) || bad=1
}
hours() { # FOLDER COMMAND...: of the demo, without its doubt
    (cd "$1" && shift && "$@" run scenarios/demo.yaml --quick --json 2>/dev/null) | ${PYTHON:-python3} -c '
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
same_hours() {
    hours "$here" "$build/dewledger" >"$tree/here.hours"
    # shellcheck disable=SC2086
    hours "$tree" $run "$made/dewledger" >"$tree/hours"
    if ${PYTHON:-python3} - "$tree/here.hours" "$tree/hours" <<'PYTHON'
import sys
a, b = (dict(l.split() for l in open(f)) for f in sys.argv[1:])
far = {k: (a[k], b.get(k)) for k in a if k not in b or abs(float(a[k]) - float(b[k])) > 1}
print(f"{len(a)} figures in hours, {sum(a[k] != b[k] for k in a if k in b)} others, {len(far)} by more than one")
sys.exit(not a or a.keys() != b.keys() or bool(far))
PYTHON
    then echo "ok $name: the demo's hours within one"
    else echo "not ok $name: the demo's hours"; bad=1; fi
}

# ---- one machine ------------------------------------------------------------
# Sets: cc and run, its compiler and the words before its programs; inside, those
# before a command of its root; made and goals, where and what it builds.
bad=0
one() { # NAME ROOT COMPILER RUN CFLAGS...
    name=$1 kind=$2 cc=$3 run=$4
    shift 4
    flags=$* tree=$work/$name/tree
    made=build/gcc inside='' goals=build/gcc/dewledger
    [ "$run" != - ] || run=
    "${kind}_root"
    case $kind in
    other)
        lay_tree "-I$root/usr/include" "$links -lsqlite3"
        cc="$cc --sysroot=$root" run="$run -L $root" native=''
        loader=$root/lib/ld-linux.so.2
        ! "$loader" --version >/dev/null 2>&1 || {
            run='' native="-Wl,--disable-new-dtags,--dynamic-linker=$loader"
            native="$native,-rpath,$root/lib/$name-linux-gnu:$root/usr/lib/$name-linux-gnu"
        }
        compile LDFLAGS="$native" LINK_QUICK= ;;
    musl)
        lay_tree "$(printf -- '-isystem %s ' "$root/include" "$root/port" \
            "$work/musl/include" "$work/musl/include/gnulib")" \
            "-L$root/lib -static -lgsl -lyaml -ljansson -lz -lmd -lsqlite3 -lgnulib"
        compile LDFLAGS=-Wl,--gc-sections LINK_QUICK= ;;
    newest)
        lay_tree "" "$links -lsqlite3"
        made=build/${cc%-*} inside="sh $here/tests/support/within.sh $root $tree"
        run=$inside goals=all
        compile WERROR=1 ;;
    esac
    run_tests
    same_hours
    times >"$tree/times"
    # shellcheck disable=SC2086
    awk -v of="$name: $($inside $cc --version | head -n 1), $(programs "" | wc -l) of $(
        programs all | wc -l) test programs," '
        NR == 2 { gsub("[ms]", " "); min = $1 + $3 + ($2 + $4) / 60
            printf "%s %.0f minutes of processor\n", of, min }' "$tree/times"
    return $bad
}

known=$(echo "$machines" | awk 'NF { print $1 }')
for name in ${*:-$known}; do
    row=$(echo "$machines" | awk -v name="$name" '$1 == name')
    [ -n "$row" ] || {
        echo "machines.sh: no machine $name here: it would be one of" $known >&2
        exit 2
    }
    if [ $# = 1 ]; then
        echo "==== $name"
        one $row
    else # apart, so that its time and its faults are its own
        sh "$0" "$build" "$name" || bad=1
    fi
done
exit $bad
