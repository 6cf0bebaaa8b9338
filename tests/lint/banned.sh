#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Calls that engine/ does not make.  The command line and the page may print
# and exit; nobody else may.  num_process.c holds the one call that concerns
# the whole process, for main.
set -eu
words='strcpy|strcat|strncpy|strncat|sprintf|vsprintf|strtok|strtok_r|gets|atoi|atof|atol|sscanf|gmtime|localtime|ctime|asctime|alloca|setlocale'
loud='exit|_exit|quick_exit|abort|printf|vprintf|puts|putchar|perror|gsl_set_error_handler|gsl_set_error_handler_off|time|clock|clock_gettime|gettimeofday|getenv'
mkdir -p build
found=build/banned.found
: >$found
find_in() { # pattern, message; files on stdin
    # comments that start their line speak of calls without making them
    xargs -r grep -HnE "$1" | grep -vE '^[^:]*:[0-9]+: *(/\*|\*|//)' |
        sed "s/^/$2: /" >>$found || true
}
every=$(find engine -name '*.[ch]' | sort)
quiet=$(echo "$every" | grep -vE '^engine/(cli|page)/|/num_process\.c$' || true)
above=$(echo "$every" | grep -vE '^engine/core/' || true)
call='(^|[^a-zA-Z0-9_>.])'
echo "$every" | find_in "$call($words) *\(" banned
echo "$quiet" | find_in "$call($loud) *\(" "not in a library"
echo "$quiet" | find_in "$call(fprintf|vfprintf) *\( *std(err|out)|$call(fputs|fputc|putc|fwrite) *\(.*, *std(err|out) *\)" "not in a library"
echo "$above" | find_in "$call(strtod|strtof|strtold) *\(" "use dew_number_read"
echo "$every" | find_in '(^|[(,;] *|^ *|static |const |\()float +[*a-z(]|\(float\)' "double only"
# files are opened, and usage is told, in one place; what only grows in another
echo "$every" | grep -vE '^engine/core/(part|journal)\.c$' |
    find_in "$call(fopen|freopen|creat|mkstemp) *\(|O_CREAT" "use core__out_open, report__set_write or core__in_open"
# a part that is short of memory is not dropped
echo "$every" | grep '^engine/cli/' | grep -v '^engine/cli/cli\.c$' |
    find_in "$call(json_(object_set|object_update|array_append|array_extend)[a-z_]*|json_dump[a-z]*) *\(" "use cli__set, cli__add, cli__json"
echo "$every" | grep -v '^engine/cli/cli\.c$' |
    find_in "$call(argp_error|argp_failure) *\(" "use cli__usage"
find tests -name '*.[ch]' | grep -v tests/support/rows.h |
    find_in 'assert_float_equal|assert_float_not_equal' "use assert_near"
cat $found >&2
test ! -s $found
