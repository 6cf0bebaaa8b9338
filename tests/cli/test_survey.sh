#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# survey: many houses, cut off at any moment, come out the same.  COUNT=200
# kills it so often at moments that SEED draws, in place of 3; in three of four
# what was not synced by then is taken away too, as by a power cut.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_survey.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
doc=$here/docs/survey.md
. "$(dirname "$0")/../support/says.sh"
. "$here/tests/survey/same.sh"
COUNT=${COUNT:-3} SEED=${SEED:-1}

cat >house.yaml <<'END'
run: {steps_per_hour: 1}
weather: {place: 722020}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}
cooling: {capacity: 2.5 ton}
limits: {too_humid: 60 %, too_dry: 30 %}
prices: {electricity: 0.2 $/kWh}
options:
- name: now
- name: more, "and" drier
  ventilator: {core: exhaust_only, power: 12 W}
  dehumidifier: {rate: 70 pint/day, rating: ducted_73F, factor: 2.2 L/kWh}
END
cat >plan.yaml <<'END'
scenario: house.yaml
vary:
- {key: house.airtightness, range: 0.6 to 3 ach50, steps: 2}
- {key: people.schedule, values: [retired, work_and_school]}
- {key: limits.too_humid, values: [60 %, 25 %]}
places: [722020, Fargo ND]
END

# ---- a whole one ---------------------------------------------------------------------
ends "one thread" 0 survey plan.yaml --out one --threads 1
says "how much it is" grep -qx '8 houses in 2 places with 2 options: 32 house-years to march.' out
says "how long it took" grep -qE '^Marched 32 house-years in [0-9]+ seconds?, [0-9.]+ a second.$' out
says "what was written" grep -qx 'Written: one/march.csv and one/march.sqlite.' out
says "what was left out" sh -c 'tr "\n" " " <out | grep -q "8 of 16 could not be marched and are left out: one/faults.csv says why"'
says "and why" grep -q '^2,"722020","limits.too_dry: is not below limits.too_humid: no humidity would be right"$' one/faults.csv
says "nothing on stderr where there is no terminal" test ! -s err
ends "two threads" 0 survey plan.yaml --out two --threads 2
says "the same bytes" same two
ends "so many threads that each house marches by itself" 0 survey plan.yaml --out single --threads 16
says "the same bytes as side by side" same single
says "a row for each house, place and option that there is" test "$(grep -c '^[0-9]' one/march.csv)" = 16
says "a row is" grep -q '^1,1,"Miami Intl Airport","722020","FL",25.817,-80.3,"now",0,0.6,"retired",0.6,' one/march.csv
says "names are quoted" grep -q ',"more, ""and"" drier",0,' one/march.csv
says "rows are in their order" sh -c 'cut -d, -f1 one/march.csv | tail -n +2 | sort -nc'
"$D" run house.yaml --set house.airtightness="0.6 ach50" --set people.schedule=retired --option now --quick --json >run.json
says "SQLite has what the CSV has, and its views; a row is what run comes to" ${PYTHON:-python3} - <<'END'
import csv, json, sqlite3, statistics
db = sqlite3.connect("one/march.sqlite")
db.row_factory = sqlite3.Row
rows = [dict(r) for r in db.execute("SELECT * FROM march")]
told = list(csv.DictReader(open("one/march.csv", newline="")))
assert len(rows) == len(told) == 16
for r, t in zip(rows, told):
    assert list(r) == list(t)
    for k in r:
        assert (t[k] == "" if r[k] is None else type(r[k])(t[k]) == r[k]), (k, r[k], t[k])
def of(option, place, key):
    return [r[key] for r in rows if r["option"] == option and place in r["place"]]
for v in db.execute("SELECT * FROM by_place_option"):
    for key in ("too_humid_h", "too_dry_h", "short_of_air_h"):
        x = of(v["option"], v["place"], key)
        assert v["marches"] == len(x) == 4
        assert abs(v["mean_" + key] - statistics.mean(x)) < 1e-9
        assert v["median_" + key] == statistics.median(x)
    assert abs(v["share_keeps"] - statistics.mean(of(v["option"], v["place"], "keeps"))) < 1e-12
for v in db.execute("SELECT * FROM by_option"):
    x = of(v["option"], "", "too_humid_h")
    assert v["marches"] == 8 and v["median_too_humid_h"] == statistics.median(x)
best = {v["place"]: v for v in db.execute("SELECT * FROM best_by_place")}
assert len(best) == 2
for place, v in best.items():
    shares = {o: statistics.mean(of(o, place, "best")) for o in ("now", 'more, "and" drier')}
    assert abs(v["share_best"] - max(shares.values())) < 1e-12
    assert abs(v["share_none"] - (1 - sum(shares.values()))) < 1e-12
    assert v["option"] == (max(shares, key=shares.get) if max(shares.values()) > 0 else None)
assert [tuple(r) for r in db.execute("SELECT count(*) FROM fault")] == [(8,)]
assert db.execute("SELECT text FROM about WHERE what = 'plan'").fetchone()[0] == open("plan.yaml").read()
o, t = json.load(open("run.json"))["options"][0], told[0]
assert abs(float(t["too_humid_h"]) - o["hours"]["too_humid"]) < 1e-6, (t, o["hours"])
assert int(t["keeps"]) == o["keeps_limits"] and int(t["ventilates"]) == o["delivers_required_air"]
END
ln -s one thousand
says "the Python of the document runs" sh -c 'sed -n "/^\`\`\`python/,/^\`\`\`\$/{/^\`/d;p}" "$1" >doc.py && ${PYTHON:-python3} doc.py | grep -q "^now .* keeps the limits in [0-9]* % of the houses"' - "$doc"

# ---- how far -------------------------------------------------------------------------
ends "status" 0 survey status two
says "what each thread has done" sh -c 'sed -n "s/^ *0 *[01] *\([0-9]*\) *[0-9.]*$/\1/p" out | awk "{ n += \$1 } END { exit NR != 2 || n != 16 }"'
ends "status" 0 survey status one
says "all is done" grep -qx '16 of 16 items are done (100.0 %), 8 of them could not be marched.' out
says "nobody is there" grep -qx 'Nobody is at work there.' out
ends "only the plan" 0 survey plan.yaml --plan --threads 1
says "its price, and what that rests on" sh -c 'tr "\n" " " <out | grep -Eq "About [0-9]+ seconds? on 1 thread with a processor each, by the processor time of the first 16 houses \([0-9.]+ house-years a second\)\."' 
ends "status of nothing" 1 survey status nowhere
ends "no folder" 2 survey plan.yaml

# ---- what it came to -------------------------------------------------------------------
ends "show" 0 survey show one --by place,option
says "the best first" sh -c 'tr "\n" " " <out | grep -q "^Best most often: Miami Intl Airport, more, \"and\" drier, in [0-9]* % of its house-years. Of 16 house-years"'
says "in 80 columns" sh -c '! grep -Eq "^.{81}" out'
ends "by a key that is varied" 0 survey show one --by option,house.airtightness --json --svg shown.svg
says "is what the rows say" ${PYTHON:-python3} - <<'END'
import csv, json, sqlite3, statistics
rows = list(csv.DictReader(open("one/march.csv", newline="")))
shown = json.load(open("out"))
key = "house_airtightness_1_h_at_50_Pa"
assert shown["by"] == ["option", key] and shown["marches"] == 16
seen = []
for g in shown["groups"]:
    mine = [r for r in rows if r["option"] == g["by"]["option"] and float(r[key]) == float(g["by"][key])]
    seen.append((g["by"]["option"], g["by"][key]))
    assert len(mine) == g["marches"] == 4
    for share, column in ("share_keeps", "keeps"), ("share_ventilates", "ventilates"), ("share_best", "best"):
        assert abs(g[share] - statistics.mean(float(r[column]) for r in mine)) < 1e-12
    for column in "too_humid_h", "too_dry_h", "running":
        x = sorted(float(r[column]) for r in mine)
        ten = statistics.quantiles(x, n=10, method="inclusive")
        for name, want in ("p10", ten[0]), ("p50", statistics.median(x)), ("p90", ten[8]):
            assert abs(g[column][name] - want) < 1e-6, (g, column, name, want)
assert seen == [("now", "0.6"), ("more, \"and\" drier", "0.6"), ("now", "3.0"), ("more, \"and\" drier", "3.0")], seen
END
says "the chart has a bar for each" sh -c 'xmllint --noout shown.svg && grep -q ">4 more, &quot;and&quot; drier, 3.0<" shown.svg'
ends "a column that is none" 1 survey show one --by place,too_humid_h
says "is told, with those there are" grep -q '^dewledger: --by: "too_humid_h" is no column .*: house, place, station, state, option, house_airtightness_1_h_at_50_Pa, people_schedule, limits_too_humid$' err
ends "a column twice" 1 survey show one --by place,option,place
ends "show of no survey" 1 survey show nowhere
ends "--by without show" 2 survey plan.yaml --out new --by place
says "nothing is begun" test ! -e new

# Washington is in Iowa and in Pennsylvania.
printf 'scenario: house.yaml\noptions: [now]\nplaces: [725117, 725454, 722020]\n' >alike.yaml
ends "places of one name" 0 survey alike.yaml --out alike --threads 1
ends "are shown" 0 survey show alike --by place
says "apart" sh -c 'grep -q "^Washington IA, 725454  *1 " out && grep -q "^Washington PA, 725117  *1 " out && grep -q "^Miami Intl Airport  *1 " out'
ends "as JSON" 0 survey show alike --by station,place --json
says "too" grep -q '"place": "Washington PA, 725117"' out

# ---- a house that does not fit ---------------------------------------------------------
printf 'scenario: house.yaml\noptions: [now]\nvary:\n- {key: limits.too_humid, values: [25 %%, 60 %%]}\n' >first.yaml
ends "one whose first house breaks a rule" 0 survey first.yaml --out first --threads 1
says "leaves it out, and tells it" sh -c 'grep -q "^1,,\"limits.too_dry: is not below" first/faults.csv && test "$(grep -c "^[0-9]" first/march.csv)" = 1 && grep -q "^1 of 2 could not be marched" out'
sed 's/60 %/26 %/' first.yaml >neither.yaml
ends "one of which no house fits" 1 survey neither.yaml --out neither
says "is refused, with the reason" sh -c 'tr "\n" " " <err | grep -q "limits.too_dry: is not below limits.too_humid: no *humidity would be right (and none of the 2 houses looked *at fits)" && test ! -e neither'

# ---- many ---------------------------------------------------------------------------------
mkdir many && ${PYTHON:-python3} - <<'END'
import sqlite3
db = sqlite3.connect("one/march.sqlite")
new = sqlite3.connect("many/march.sqlite")
db.backup(new)
new.execute("DELETE FROM march WHERE row > 1")
new.execute("WITH RECURSIVE n(i) AS (SELECT 2 UNION ALL SELECT i + 1 FROM n WHERE i < 1234) "
            "INSERT INTO march SELECT i, " + ", ".join(r[1] for r in new.execute("PRAGMA table_info(march)") if r[1] != "row")
            + " FROM march, n WHERE row = 1")
new.commit()
END
cp one/survey.txt one/rows-0000-000 many/
ends "many" 0 survey show many --svg many.svg
says "are counted with commas" sh -c 'grep -q "^Of 1,234 house-years marched" out && grep -Eq " 1,234 +[0-9]" out && grep -q "Of 1,234 house-years" many.svg'

# ---- not twice, not another --------------------------------------------------------------
ends "a folder that has one" 1 survey plan.yaml --out one
says "is told how to go on" grep -qx 'dewledger: one: a survey was begun there: --resume goes on with it, or name another folder' err
sed 's/steps: 2/steps: 4/' plan.yaml >other.yaml
ends "another plan" 1 survey other.yaml --out one --resume
says "is told" grep -qx 'dewledger: one: was begun with another plan: go on with the one it was begun with, or name another folder' err
cp house.yaml kept.yaml && sed -i 's/2.5 ton/2 ton/' house.yaml
ends "another scenario" 1 survey plan.yaml --out one --resume
says "is told too" grep -q 'was begun with another scenario' err
mv kept.yaml house.yaml
mkdir mine && echo >mine/march.csv
ends "files that are none" 1 survey plan.yaml --out mine
says "are left alone" grep -q '^dewledger: mine: holds files that are of no survey (march.csv): ' err
rm one/march.csv one/march.sqlite
cp -r one begun
ends "all is there" 0 survey plan.yaml --out one --resume
says "nothing is marched twice" cmp one/rows-0000-000 begun/rows-0000-000
says "it was said" grep -qx '16 of 16 items are there already.' out
says "and it is written again, the same" cmp one/march.csv two/march.csv

# ---- cut off ------------------------------------------------------------------------------
truncate -s -7 begun/rows-0000-000
ends "a torn record" 0 survey plan.yaml --out begun --resume --threads 1
says "is marched again, all four of it" grep -qx '12 of 16 items are there already.' out
says "and nothing else is" test "$(stat -c %s begun/rows-0000-000)" = "$(stat -c %s one/rows-0000-000)"
says "the same after a torn record" same begun

"$D" survey plan.yaml --out asked --threads 1 >out 2>err &
pid=$!
while [ ! -s asked/rows-0000-000 ] && kill -0 $pid 2>/dev/null; do sleep 0.02; done
"$D" survey plan.yaml --out asked --resume >held 2>&1
"$D" survey status asked >status
"$D" survey show asked >shown 2>&1
showed=$?
kill -TERM $pid
wait $pid
says "ended as asked: exit 3" test $? = 3
says "and how to go on" grep -qx '  dewledger survey plan.yaml --out asked --resume' err
says "show of what is not whole: exit 1" test $showed = 1
says "is told how far it is" grep -Eq '^dewledger: asked: [0-9]+ of 16 items are done: there is nothing to show' shown
says "a second one is told who is there" grep -q "^dewledger: asked: process $pid is at work there: " held
says "and so is who looks" grep -qx "Process $pid is at work there." status
ends "after that" 0 survey plan.yaml --out asked --resume --threads 2
says "the same after a request" same asked

# A disk that is full, where one can be mounted; else a limit on files.
mkdir small
if mount -t tmpfs -o size=16k none small 2>/dev/null; then
    ends "a full disk" 3 survey plan.yaml --out small --threads 1
    says "the reason" grep -q '^dewledger: .*small.*: No space left on device' err
    mount -o remount,size=1m small
else
    echo "skip a full disk: none can be mounted here; a limit on files stands in"
    (ulimit -f 1 && exec "$D" survey plan.yaml --out small --threads 1) >out 2>err
    says "a full disk: exit 3" test $? = 3
    says "the reason" grep -q '^dewledger: small: could not be written: File too large' err
fi
ends "with room again" 0 survey plan.yaml --out small --resume --threads 2
says "some of it had been kept" grep -q 'items are there already' out
says "the same after a full disk" same small
umount small 2>/dev/null

# Of 24 houses a thread has three in hand, side by side; two threads lose six at
# most.
printf 'scenario: house.yaml\noptions: [now]\nvary:\n- {key: house.airtightness, range: 0.6 to 3 ach50, steps: 12}\n- {key: limits.too_humid, values: [60 %%, 25 %%]}\n' >short.yaml
ends "one to be killed" 0 survey short.yaml --out uncut --threads 1
at() { "$D" survey status cut 2>/dev/null | sed -n 's/^\([0-9]*\) of .*/\1/p'; }
forgets=
"${CC:-gcc}" -shared -fPIC -O1 -o forgets.so "$here/tests/survey/forgets.c" 2>log && forgets=$PWD/forgets.so
[ -n "$forgets" ] && [ -z "$(nm "$D" 2>/dev/null | grep -m1 __asan_init)" ] ||
    { forgets=; echo "skip writes that were not synced: they cannot be watched here"; }
moments=$(awk -v n="$COUNT" -v seed="$SEED" 'BEGIN { srand(seed); for (i = 0; i < n; i++) print 0.3 * rand() }')
killed=0 bad_kills=0 lost=0 n=0
for moment in $moments; do
    rm -rf cut unsynced
    n=$((n + 1))
    how=$(echo part none gone zeros | cut -d' ' -f$((n % 4 + 1)))
    [ -n "$forgets" ] || how=none
    if [ $how = none ]; then
        "$D" survey short.yaml --out cut --threads 2 >/dev/null 2>&1 &
    else
        # behind a write, so that there is something to lose; a record has two
        write=$(awk -v x="$moment" 'BEGIN { print 1 + int(18 * x / 0.3) }')
        FORGETS_AT=$write FORGETS_LOG=$PWD/unsynced LD_PRELOAD=$forgets "$D" survey short.yaml --out cut --threads 2 >/dev/null 2>&1 &
    fi
    pid=$!
    [ $how != none ] || { sleep "$moment"; kill -KILL $pid 2>/dev/null; }
    wait $pid 2>/dev/null
    [ $? != 137 ] || killed=$((killed + 1))
    if [ $how != none ] && [ -e unsynced ]; then
        before=$(at)
        ${PYTHON:-python3} "$here/tests/survey/forget.py" unsynced $how >>forgotten
        after=$(at)
        [ $((${before:-0} - ${after:-0})) -le 6 ] || { lost=$((lost + 1)); echo "$before houses, then $after"; }
    fi
    "$D" survey short.yaml --out cut --threads 2 --resume >out 2>err && same cut uncut >log ||
        { bad_kills=$((bad_kills + 1)); cat err log; }
done 2>/dev/null
says "$killed of $COUNT kills, seed $SEED: the same after each" test "$bad_kills" = 0
if [ -n "$forgets" ]; then
    says "$(grep -c . forgotten) files lost what was not synced, never more than was in hand" test "$lost" = 0
fi

# ---- weather that is varied is not shared -------------------------------------------------
printf 'scenario: house.yaml\noptions: [now]\nvary:\n- {key: weather.seed, values: [1, 2, 1]}\n' >seeds.yaml
ends "seeds of the weather" 0 survey seeds.yaml --out seeds --threads 1
cut -d, -f11- seeds/march.csv >hours
says "another seed, another year" sh -c '! test "$(sed -n 2p hours)" = "$(sed -n 3p hours)"'
says "the same seed, the same" test "$(sed -n 2p hours)" = "$(sed -n 4p hours)"

# ---- draws ---------------------------------------------------------------------------------
printf 'scenario: house.yaml\ndraws: 8\nseed: 3\noptions: [now]\n' >drawn.yaml
ends "draws" 0 survey drawn.yaml --out drawn --threads 1
says "the likely house is draw 0, then the draws" test "$(cut -d, -f9 drawn/march.csv | tr '\n' ' ')" = "draw 0 1 2 3 4 5 6 7 8 "
"$D" spread house.yaml --option now --draws 8 --seed 3 --csv spread.csv >/dev/null
says "they are those of spread" ${PYTHON:-python3} - <<'END'
import csv
mine = list(csv.DictReader(open("drawn/march.csv", newline="")))[1:]
theirs = list(csv.DictReader(open("spread.csv", newline="")))
theirs = [t for t in theirs if t["name"] == "now"]
assert len(mine) == len(theirs) == 8
for m, t in zip(mine, theirs):
    assert abs(float(m["too_humid_h"]) - float(t["too_humid_h"])) < 1e-9
    assert abs(float(m["energy_kwh"]) * 3.6e6 / float(t["energy_J"]) - 1) < 1e-12
END
exit $bad
