#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each check of the lint passes a clean tree and catches a planted fault.
set -u
lint=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/clean" "$work/tree"
cd "$work/clean" || exit 1
export STRICT=1
bad=0
spdx='/* SPDX-License-Identifier: GPL-3.0-or-later */'

plant() { # a small tree that breaks no rule
    mkdir -p include/dew engine/core engine/air engine/house engine/plant \
        engine/cli docs tests/air build
    for f in include/dew/air.h include/dew/leak.h include/dew.h engine/air/air.c \
        engine/house/leak.c engine/plant/fan.c engine/cli/main.c engine/core/num.c \
        tests/air/test_air.c; do
        echo "$spdx" >$f
    done
    printf '#include "dew/air.h"\n#include "dew/leak.h"\n' >>include/dew.h
    printf 'double dew_air_x(double t); /* [HW83] */\n' >>include/dew/air.h
    printf '#include "dew/air.h"\n' >>include/dew/leak.h
    printf '#include "dew/air.h"\ndouble dew_air_x(double t)\n{\n    return t;\n}\n' >>engine/air/air.c
    printf '#include "dew/leak.h"\n' >>engine/house/leak.c
    printf '#include "dew/air.h"\n' >>engine/plant/fan.c
    printf '#include <stdio.h>\nint main(void)\n{\n    puts("x");\n    return 0;\n}\n' >>engine/cli/main.c
    printf '#include <gsl/gsl_math.h>\n' >>engine/core/num.c
    printf '* [HW83] A paper.\n' >docs/references.md
    mkdir -p tests/lint
    echo 'dew_air_x  walks nothing' >tests/lint/kept.txt
    ${CC:-gcc} -Iinclude -fPIC -shared engine/air/air.c -o lib.so
    ${CC:-gcc} -Iinclude -c engine/air/air.c -o air.o
    ${CC:-gcc} -c engine/cli/main.c -o cli.o
}
clean() { # the same anew
    rm -rf ./*
    cp -a ../clean/. .
}
passes() {
    if sh "$lint/$1.sh" ${2-} 2>out; then
        echo "ok $1 passes a clean tree"
    else
        echo "not ok $1 fails a clean tree: $(cat out)"
        bad=1
    fi
}
catches() { # script, what must be in the message, [argument]
    if sh "$lint/$1.sh" ${3-} 2>out; then
        echo "not ok $1 misses: $2"
        bad=1
    elif grep -qF -e "$2" out; then
        echo "ok $1 catches: $2"
    else
        echo "not ok $1 does not say: $2; it says: $(cat out)"
        bad=1
    fi
    clean
}

plant
cd ../tree || exit 1
clean
for script in floors refs banned size spdx names umbrella; do passes $script; done
passes exports lib.so
passes statics air.o
passes kept 'cli.o air.o'
frame() { # BYTES: the stack of a function
    mkdir -p build/gcc/engine
    printf 'engine/air/air.c:3:8:dew_air_x\t%s\tstatic\n' "$1" >build/gcc/engine/air.su
}
frame 8192
passes frames build/gcc/engine
frame 8193
catches frames 'engine/air/air.c:3:8:dew_air_x: 8193 bytes of stack' build/gcc/engine
frame 20480
echo 'engine/air/air.c 20' >tests/lint/frames.txt
passes frames build/gcc/engine
frame 20481
catches frames '20481 bytes of stack' build/gcc/engine
frame 300
echo 'engine/air/air.c 20' >tests/lint/frames.txt
catches frames 'engine/air/air.c has no frame above 8 KiB' build/gcc/engine
catches frames 'no .su files' build

echo '#include "dew/leak.h"' >>engine/plant/fan.c
catches floors 'plant may not include dew/leak of house'
echo '#include "dew/leak.h"' >>include/dew/air.h
catches floors 'include/dew/air.h: floor air may not include dew/leak'
echo '#include "house/inside.h"' >>engine/air/air.c
catches floors 'floor air may not include house/inside'
echo '#include <gsl/gsl_math.h>' >>engine/air/air.c
catches floors 'gsl_math'
echo '#include "dew.h"' >>engine/air/air.c
catches floors 'dew.h'
mkdir engine/attic && cp engine/air/air.c engine/attic/x.c
catches floors 'no such floor: attic'

echo '/* [NREL-SWS] */' >>engine/house/leak.c
catches refs 'undefined reference [NREL-SWS]'
echo '/* [ISO13790] */' >>tests/air/test_air.c
catches refs 'undefined reference [ISO13790]'
echo '* [HW83] Again.' >>docs/references.md
catches refs 'defined twice: [HW83]'
echo '* [ZZ99] Unused.' >>docs/references.md
catches refs 'defined, not cited: [ZZ99]'
printf '* [ASH-F1] First.\n' >>docs/references.md
catches refs 'docs/references.md is not sorted'

# all that is planted in one tree is told, each by its text
plants() { # FILE TEXT...
    file=$1
    shift
    for text; do echo "    $text;" >>"$file"; planted=$planted${planted:+$nl}$text; done
}
nl='
'
planted=
plants engine/cli/main.c 'strcpy(a, b)' 'setlocale(LC_ALL, "")' 'sscanf(a, "%d", &x)' \
    'fopen(a, "w")' 'open(a, O_WRONLY | O_CREAT, 0666)' \
    'argp_error(state, "x")' 'json_object_set_new(o, "x", y)' \
    'json_array_append_new(l, y)' 'json_dumps(o, 0)'
plants engine/air/air.c 'printf("x")' 'fprintf(stderr, "x")' 'fputs("x", stdout)' \
    'exit(1)' 'strtod(a, &b)' 'time(NULL)'
plants engine/core/num.c 'static float x'
plants tests/air/test_air.c 'assert_float_equal(a, b, c)'
sh "$lint/banned.sh" 2>out && bad=1 && echo "not ok banned misses all of them"
while IFS= read -r text; do
    if [ "$(grep -cF -e ":    $text;" out)" = 1 ]; then
        echo "ok banned catches: $text"
    else
        echo "not ok banned does not say: $text; it says: $(cat out)"
        bad=1
    fi
done <<END
$planted
END
clean
echo '    exit(1);' >>engine/air/air.c
catches banned 'exit(1)'

echo 'double dew_air_y(double t) { return t; }' >>engine/air/air.c
${CC:-gcc} -Iinclude -fPIC -shared engine/air/air.c -o lib.so
catches exports 'exported, not declared: dew_air_y' lib.so
echo 'double dew_air_z(double t);' >>include/dew/air.h
catches exports 'declared, not exported: dew_air_z' lib.so

echo 'int f(void); int f(void) { static int counter = 7; return counter++; }' >>engine/air/air.c
${CC:-gcc} -Iinclude -c engine/air/air.c -o air.o
catches statics 'counter' air.o
echo 'int f(void); int f(void) { static _Thread_local int turn; return turn++; }' >>engine/air/air.c
${CC:-gcc} -Iinclude -c engine/air/air.c -o air.o
catches statics 'turn' air.o

echo '# none' >tests/lint/kept.txt
catches kept 'no program calls, and kept.txt has no reason for: dew_air_x' 'cli.o air.o'
echo 'dew_air_x' >tests/lint/kept.txt
catches kept 'no program calls, and kept.txt has no reason for: dew_air_x' 'cli.o air.o'
echo 'dew_air_y  a reason' >>tests/lint/kept.txt
catches kept 'in kept.txt, but there is none: dew_air_y' 'cli.o air.o'
catches kept 'in kept.txt, but the command has it: dew_air_x' 'air.o air.o'

seq 700 | sed 's,.*,/* & */,' >>engine/air/air.c
catches size 'engine/air/air.c: 706 lines'
echo 'int x;' >engine/house/leak.c
catches spdx 'engine/house/leak.c: no SPDX line'
echo '/* see /home/someone/notes */' >>engine/air/air.c
catches names 'a path of one machine'
echo '/* TODO: the rest */' >>engine/air/air.c
catches names 'a promise'
echo '/* linear for now */' >>engine/air/air.c
catches names 'a promise'
echo "$spdx" >include/dew/attic.h
catches umbrella 'dew/attic.h is missing'

# What clang-tidy was asked of: one that finds a word, of some version.
mkdir bin
cat >bin/clang-tidy <<'END'
#!/bin/sh
[ "$1" = --version ] && { echo "LLVM version ${VERSION-14}.0"; exit; }
echo "$2" >>asked
! grep -H odd "$2"
END
chmod +x bin/clang-tidy
: >.clang-tidy
looks() { # WHY STATUS "FILES": those that are looked at
    rm -f asked
    PATH=$PWD/bin:$PATH ${PYTHON:-python3} "$lint/tidy.py" build/tidied.txt engine/air/air.c engine/house/leak.c -- \
        -Iinclude $flag >out
    got="$? $(LC_ALL=C sort asked 2>/dev/null | tr '\n' ' ')"
    if [ "$got" = "$2 $3${3:+ }" ]; then
        echo "ok tidy: $1"
    else
        echo "not ok tidy: $1: $got"
        bad=1
    fi
}
both='engine/air/air.c engine/house/leak.c' flag=-DX
looks 'at all that it does not know' 0 "$both"
looks 'at nothing twice' 0 ''
echo "$spdx" >>engine/house/leak.c
looks 'at a file that changed' 0 engine/house/leak.c
echo "$spdx" >>include/dew/leak.h
looks 'at what includes a file that changed' 0 engine/house/leak.c
echo "$spdx" >>include/dew/air.h
looks 'at what includes it through another' 0 "$both"
echo '/* odd */' >>engine/air/air.c
looks 'and finds' 1 engine/air/air.c
if grep -q '^engine/air/air.c:/\* odd' out; then
    echo "ok tidy: told"
else
    echo "not ok tidy: told: $(cat out)"
    bad=1
fi
looks 'and finds it again' 1 engine/air/air.c
flag=-DY
looks 'at all with other flags' 1 "$both"
sed -i '$d' engine/air/air.c
looks 'at what was mended' 0 engine/air/air.c
echo '# more' >.clang-tidy
looks 'at all with other checks' 0 "$both"
VERSION=15 looks 'at all with another version' 0 "$both"
EVERY=1 looks 'at all when told to' 0 "$both"
cp build/tidied.txt tests/lint/tidied.txt && rm build/tidied.txt
looks 'at nothing that was kept before' 0 ''
exit $bad
