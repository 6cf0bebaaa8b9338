#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Show what failed in the logs of test programs, and count over all of them.
# A program counts the tests that its runner reports; a script, its lines
# "ok ...", "not ok ...", "skip ..."; one that reports nothing, as one test:
# status 0 passed, 77 skipped, all else failed.
awk '
function close_file() {
    if (name == "")
        return
    if (p + f + s == 0) {
        if (status == 0) p = 1
        else if (status == 77) s = 1
        else f = 1
    } else if (status != 0 && status != 77 && f == 0)
        f = 1
    if (f > 0) {
        printf "---- %s: status %d\n", name, status
        for (i = 1; i <= n; i++)
            if (text[i] !~ /^\[ RUN|^\[       OK|^ok /)
                print text[i]
    }
    for (i = 1; i <= n; i++)
        if (text[i] ~ /^\[  SKIPPED \] [^0-9]/ && text[i] !~ /listed below/)
            skipped_names[text[i]] = 1
    passed += p; failed += f; skipped += s
}
function listed() { # the group stands before it since cmocka 2
    match($0, /[0-9]+ test.s., listed/)
    return substr($0, RSTART) + 0
}
FNR == 1 { close_file(); name = FILENAME; p = f = s = n = status = 0 }
{ text[++n] = $0 }
/^\[  PASSED  \] [0-9]+ test/ { p += $4 }
/^\[  FAILED  \] (.*: )?[0-9]+ test.s., listed/ { f += listed() }
/^\[  SKIPPED \] (.*: )?[0-9]+ test.s., listed/ { s += listed() }
/^ok /     { p++ }
/^not ok / { f++ }
/^skip /   { s++; skipped_names[$0] = 1 }
/^status [0-9]+$/ { status = $2 }
END {
    close_file()
    for (i in skipped_names)
        print i
    printf "%d passed, %d failed, %d skipped\n", passed, failed, skipped
    exit failed > 0 || passed == 0
}' "$@"
