#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# `page`: a scenario and the files that it names, put into the page; faults, and
# nothing written then.  What a browser makes of it: tests/page/test_page.sh.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_page.sh
set -u
root=$(realpath "$(dirname "$0")/../..")
. "$(dirname "$0")/../support/says.sh"

# of the page alone what counts: the place of the house
printf '<a id="ui-worker"></script><b id="ui-house"></script><c>' >empty.html
mkdir -p houses weather
cp "$root/weather/seattle-made.csv" weather
{
    echo '# </script><script>alert(1)</script> <!-- comments stay: ü'
    cat "$root/scenarios/marine_mild.yaml"
} >houses/a.yaml
ends "a house goes in" 0 page houses/a.yaml --from empty.html --out house.html
says "between what was there" sh -c 'head -c 44 house.html | cmp -n 44 - empty.html &&
    tail -c 12 house.html | grep -q "^</script><c>$"'
says "nothing in it ends the element" test "$(grep -o '</script' house.html | wc -l)" = 2
cat >look.py <<'E2'
import base64, json, re
page = open("house.html", encoding="utf-8").read()
house = json.loads(re.search('id="ui-house">(.*?)</script>', page, re.S).group(1))
assert house["text"] == open("houses/a.yaml", encoding="utf-8").read()
assert list(house["files"]) == ["../weather/seattle-made.csv"]
assert base64.b64decode(house["files"]["../weather/seattle-made.csv"]) == open("weather/seattle-made.csv", "rb").read()
E2
says "the scenario and its weather, byte for byte" ${PYTHON:-python3} look.py
cp house.html before.html
ends "once more" 0 page houses/a.yaml --from empty.html --out house.html
says "the same bytes" cmp house.html before.html

for n in 1 2 3; do
    head -c $n weather/seattle-made.csv >tail.csv
    printf 'time,rh (%%)\n2023-01-01 00:00,50\n2023-01-01 01:00,50\n%s' "$(printf '#%.0s' $(seq $n))" >log.csv
    printf 'weather: {place: 722020}\nlog: {file: log.csv}\nhouse: {floor_area: 90 m2, bedrooms: 2}\n' >b.yaml
    "$D" page b.yaml --from empty.html --out b.html 2>err || continue
    says "a log of $(wc -c <log.csv) bytes goes in" sh -c "grep -q \"\$(base64 -w0 log.csv)\" b.html"
done

sed 's/bedrooms: .*/bedrooms: many/; s/floor_area: .*/floor_area: 3/' houses/a.yaml >houses/bad.yaml
ends "faults" 1 page houses/bad.yaml --from empty.html --out bad.html
says "each of them" test "$(grep -c '^dewledger: houses/bad.yaml:[0-9]*:[0-9]*: house\.' err)" = 2
rm weather/seattle-made.csv
ends "a file that is not there" 1 page houses/a.yaml --from empty.html --out bad.html
says "named" grep -q 'seattle-made.csv: No such file' err
ends "no scenario" 1 page nothere.yaml --from empty.html --out bad.html
says "which one" grep -q '^dewledger: nothere.yaml: No such file' err
ends "no page" 1 page b.yaml --from b.yaml --out bad.html
says "named too" grep -q 'b.yaml: is no page of dewledger' err
ends "a page that has a house already" 1 page b.yaml --from house.html --out bad.html
ends "without --out" 2 page b.yaml --from empty.html
ends "without a scenario" 2 page --out bad.html
mkdir bin
cp "$D" bin/dewledger
D=$work/bin/dewledger
ends "where no page was built" 3 page b.yaml --out bad.html
says "it says how" grep -q 'make page' err
mkdir -p share/dewledger
cp empty.html share/dewledger/dewledger.html
ends "an installed page is found" 0 page b.yaml --out good.html
says "nothing was written beside a fault" test ! -e bad.html
exit $bad
