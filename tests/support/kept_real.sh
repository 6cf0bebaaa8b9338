# SPDX-License-Identifier: GPL-3.0-or-later
# To be read by real.sh and told.sh: where KEPT names a folder, a dewledger stands
# first in the PATH whose `run` and `spread` take what was marched from there.
if [ -n "${KEPT-}" ]; then
    first=$(mktemp -d)
    trap 'rm -rf "$work" "$first"' EXIT
    cat >"$first/dewledger" <<END
#!/bin/sh
case \${1-} in
run | spread) exec "$(command -v dewledger)" "\$@" --kept "$KEPT" ;;
*) exec "$(command -v dewledger)" "\$@" ;;
esac
END
    chmod +x "$first/dewledger"
    PATH=$first:$PATH
fi
