#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The report in a browser: no error, no request, no sideways scrolling on a
# phone, a script that is alive, one sheet of paper for each hand-over sheet.
# Well formed, every chart too.  Parts without their program are skipped.
# usage: DEWLEDGER=path/to/dewledger tests/sheets/test_browser.sh
set -u
here=$(realpath "$(dirname "$0")")
root=$(realpath "$here/../..")
. "$(dirname "$0")/../support/says.sh"

skipped() {
    echo "skip $1"
}

browser=
for b in chromium chromium-browser google-chrome; do
    [ -n "$browser" ] || browser=$(command -v $b)
done

# look ARG...: the browser without window, network or profile of the user
look() {
    "$browser" --headless=new --no-sandbox --disable-gpu --no-first-run \
        --disable-dev-shm-usage --disable-background-networking \
        --disable-extensions --user-data-dir="$work/profile" \
        --proxy-server=127.0.0.1:1 --allow-file-access-from-files "$@"
}

# a year logged hour by hour, 3 points of RH above the model
export DEWLEDGER="$D" # for shipped.sh
set_of() { # a year of a scenario that comes along, run once for all tests
    cp -r "$(sh "$root/tests/support/shipped.sh" "$root/scenarios/$1.yaml")/set" "$2"
}
says "run" set_of demo first
awk -F, 'NR == 1 { print "time,temperature (degC),relative humidity (%)"; next }
    { printf "2023-%02d-%02d %02d:00,%s,%s\n", $2, $3, $4, $5, $6 + 3 }' \
    first/hours-1-as-it-stands.csv >mine.csv
says "run with a log" "$D" run --draws 16 "$root/scenarios/demo.yaml" --log mine.csv \
    --out page
says "five options and a year of log within 1.5 MiB" \
    test "$(wc -c <page/report.html)" -le 1572864

if command -v xmllint >/dev/null; then
    says "the page is well formed" xmllint --nonet --noout page/*.html
    says "each chart is well formed" xmllint --nonet --noout page/charts/*.svg
else
    skipped "well formed pages: no xmllint (libxml2-utils)"
fi

if [ -z "$browser" ]; then
    skipped "the page in a browser: no chromium"
    exit $bad
fi
# widths and sheets are those of the letters that most systems bring
if command -v fc-list >/dev/null && ! fc-list | grep -q Liberation; then
    skipped "the page in a browser: no fonts-liberation"
    exit $bad
fi
says "a house damp all year" set_of dry_mountain damp
cp damp/report.html page/damp.html
cp "$here/browser.html" page
look --virtual-time-budget=20000 --enable-logging=stderr --dump-dom \
    "file://$work/page/browser.html" >dom 2>err
sed -n '/<pre id="log">/,/<\/pre>/p' dom |
    sed 's/.*<pre id="log">//; s/<\/pre>.*//' >tried
grep . tried
says "the trial came to its end" grep -q '^ok end' tried
says "no part of it failed" sh -c '! grep -q "^not ok" tried'
says "no message of the console" sh -c '! grep CONSOLE err'

# three_pages PAPER: the three sheets, each begun on a new page, take no more
three_pages() {
    cat page/contractor.html page/inspector.html page/calendar.html |
        sed "s/@page{/header{break-before:page}@page{size:$1;/" >"page/$1.html"
    look --no-pdf-header-footer --print-to-pdf="$work/$1.pdf" \
        "file://$work/page/$1.html" 2>/dev/null
    test "$(grep -ac '/Type */Page\b' "$1.pdf")" = 3
}
# nine_pages PAPER: the report of five options takes no more
nine_pages() {
    sed "s/@page{/@page{size:$1;/" first/report.html >"first/$1.html"
    look --no-pdf-header-footer --print-to-pdf="$work/all-$1.pdf" \
        "file://$work/first/$1.html" 2>/dev/null
    pages=$(grep -ac '/Type */Page\b' "all-$1.pdf")
    echo "$pages pages"
    test "$pages" -ge 4 && test "$pages" -le 9
}
says "each sheet is one page of letter" three_pages letter
says "the page takes nine sheets of letter" nine_pages letter
says "the page takes nine sheets of A4" nine_pages A4
says "each sheet is one page of A4" three_pages A4

# thirteen options, twelve with a layout: one layout is printed, the rest shown
if [ "${DEW_KIND-gcc}" != gcc ]; then
    skipped "many options on paper: once, in the gcc build"
    exit $bad
fi
says "thirteen options" set_of ducts_humid many
look --no-pdf-header-footer --print-to-pdf="$work/many.pdf" \
    "file://$work/many/report.html" 2>/dev/null
pages=$(grep -ac '/Type */Page\b' many.pdf)
says "thirteen options take fifteen sheets, not $pages" \
    test "$pages" -ge 8 -a "$pages" -le 15
exit $bad
