# SPDX-License-Identifier: GPL-3.0-or-later
# To be read by a test of commands, with `.`: the program in $D, an empty folder
# of its own to work in, and what says "ok" or "not ok".  The test ends with
# `exit $bad`.
D=$(realpath "${DEWLEDGER:-${DEW_BUILD:-build/gcc}/dewledger}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

# says NAME COMMAND...: the command must succeed
says() {
    name=$1
    shift
    if "$@" >log 2>&1; then
        echo "ok $name"
    else
        echo "not ok $name"
        head -20 log
        bad=1
    fi
}

# ends NAME CODE ARG...: the exit code, stdout in out, stderr in err
ends() {
    name=$1 code=$2
    shift 2
    "$D" "$@" >out 2>err </dev/null
    got=$?
    says "$name: exit $code" test "$got" = "$code"
}
