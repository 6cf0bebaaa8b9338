#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Write docs/dev/first-results.md: one house in six climates, real years and made.

usage: first_results.py DEWLEDGER DATA >docs/dev/first-results.md
DATA is the folder with weather/tmy3/ and houses/; `make first-results` runs it.
"""
import json
import os
import re
import subprocess
import sys
import tempfile

import evidence_house

HERE = os.path.dirname(os.path.abspath(__file__))
SCENARIO = os.path.join(HERE, "first_results.yaml")

PLACES = [
    ("722020", "722020TYA.CSV", "Miami", "hot and humid"),
    ("723170", "723170TYA.CSV", "Greensboro", "warm, four seasons"),
    ("726580", "726580TYA.CSV", "Minneapolis", "cold winter, humid summer"),
    ("727930", "727930TYA.CSV", "Seattle", "mild and marine"),
    ("722780", "722780TYA.CSV", "Phoenix", "hot and dry"),
    ("703165", "703165TY.csv", "Sand Point", "cold, wet and windy"),
]


def run(program, *words):
    done = subprocess.run([program, "run", *words, "--json"], check=False,
                          capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}: {done.stderr}")
    return json.loads(done.stdout)


def real_year(program, data, file):
    path = os.path.join(data, "weather", "tmy3", file)
    return run(program, SCENARIO, "--set", "weather.place=none",
               "--set", "weather.file=" + path)


def made_year(program, place):
    return run(program, SCENARIO, "--set", "weather.place=" + place)


def closure(*results):
    return max(abs(o["closure"][book]) for r in results for o in r["options"]
               for book in ("water", "heat"))


def row(real, made):
    cells = [real["name"]]
    for kind in ("too_humid", "too_dry"):
        a, b = real["hours"][kind], made["hours"][kind]
        cells += [f"{a:,.0f}", f"{b:,.0f}", f"{b - a:+,.0f}" if a != b else "0"]
    air = real["fresh_air_l_s"]
    cells.append(f"{real['rh_pct']['mean']:.0f} / {made['rh_pct']['mean']:.0f}")
    cells.append(f"{air['counted']:.0f} of {air['required']:.0f}")
    cells.append(f"{real['leakage_l_s']:.1f}")
    return "| " + " | ".join(cells) + " |"


def place(program, data, number, file, name, climate):
    real, made = real_year(program, data, file), made_year(program, number)
    print(f"\n### {name}: {climate}\n")
    print("| option | too humid, h: real | made | made - real "
          "| too dry, h: real | made | made - real "
          "| mean RH, %: real / made | fresh air, L/s | leakage, L/s |")
    print("|---|" + "---:|" * 9)
    for r, m in zip(real["options"], made["options"]):
        print(row(r, m))
    print(f"\nBest of these by the real year: {best(real)}; by the made year: "
          f"{best(made)}.")
    return real, made


HOUSES = [
    ("Finland", "house_finland.yaml", "finland_house_2_hourly.csv",
     "Espoo, the year 2011, two loggers, their mean",
     ["--latitude", "60.2", "--longitude", "24.7", "--elevation", "20m",
      "--utc", "2", "--year", "2011"], "2011-07-01"),
    ("Belgium", "house_belgium.yaml",
     "belgium_low_energy_house_2016_jan_mar_hourly.csv",
     "11 January to 31 March 2016, eight rooms, their mean",
     ["--latitude", "50.5", "--longitude", "3.6", "--elevation", "60m",
      "--utc", "1"], "2016-02-20"),
]
SHORT = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()


def convert(program, source, out, words):
    done = subprocess.run([program, "weather", "convert", source, out, *words],
                          check=False, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(done.stderr)


def flow(scenario, option):
    text = open(scenario, encoding="utf-8").read()
    part = text.split(f"- name: {option}\n", 1)[1].split("- name:", 1)[0]
    return re.search(r"flow: ([0-9]+ m3/h)", part).group(1)


def rest_of(log, until, path):
    """The rows of a log from a day on: the first column is the time."""
    with open(log, encoding="utf-8") as source, \
            open(path, "w", encoding="utf-8") as out:
        rows = source.readlines()
        out.write(rows[0])
        out.writelines(r for r in rows[1:] if r[:10] >= until)


def learned(program, log, assumed, site, until, out):
    """The scenario with the ranges that a log leaves, of the days before."""
    weather = out + ".weather.csv"
    convert(program, log, weather, site)
    words = [program, "fit", assumed, log, "--house", "--draws", "8192", "--yaml", out,
             "--set", "weather.file=" + weather]
    done = subprocess.run(words + (["--until", until] if until else []),
                          check=False, capture_output=True, text=True)
    if not os.path.exists(out):
        return None  # nothing is told
    return out if done.returncode == 0 else sys.exit(done.stderr)


def evidence(program, files, common, folder, entry):
    """Beside the whole log and beside the rest of it, without and with."""
    log, _, until = files
    rest = os.path.join(folder, "rest.csv")
    assumed = evidence_house.with_ranges(entry, folder)
    rest_of(log, until, rest)
    print("\nWith the log as evidence: ranges, written once for what was "
          "assumed, and what\n`fit --house --draws 8192` leaves of them, its "
          "likeliest figures run.\n")
    print("| beside | figures | hours | bias, points "
          "| root mean square, points |\n|---|---|---:|---:|---:|")
    for where, against, cut in (("the whole log", log, None),
                                (f"the log from {until} on", rest, until)):
        out = os.path.join(folder, "learned.yaml")
        if os.path.exists(out):
            os.remove(out)
        found = learned(program, log, assumed, entry[3], cut, out)
        for what, path in (("as assumed", assumed),
                           ("learned from the days before" if cut else
                            "learned from the same log", found)):
            if path is None:
                print(f"| {where} | {what}: nothing is told | | | |")
                continue
            g = run(program, path, *common, "--option", "as assumed", "--set",
                    "log.file=" + against)["log"]["rh_pct"]
            print(f"| {where} | {what} | {g['hours']:,.0f} "
                  f"| {g['bias']:+.1f} | {g['rms']:.1f} |")


def house(program, data, entry, folder):
    name, scenario, file, what, words, until = entry
    log = os.path.join(data, "houses", file)
    weather = os.path.join(folder, name.lower() + ".csv")
    scenario = os.path.join(HERE, scenario)
    convert(program, log, weather, words)
    common = ["--set", "weather.file=" + weather, "--set", "log.file=" + log]
    print(f"\n### {name}: {what}\n")
    print("| | hours | measured, % | model, % | bias, points "
          "| root mean square, points |\n|---|---:|---:|---:|---:|---:|")
    # a log lies beside the first option: the others lend it their flow
    runs = [(o, ["--option", "as assumed", "--set",
                 f"options.as assumed.ventilator.flow={flow(scenario, o)}"])
            for o in ("as assumed", "30 % less ventilation",
                      "30 % more ventilation")]
    runs += [("one person less", ["--option", "as assumed", "--set",
                                  "people.count=3"]),
             ("one person more", ["--option", "as assumed", "--set",
                                  "people.count=5"])]
    results = [(what, run(program, scenario, *common, *more)["log"])
               for what, more in runs]
    for what, beside in results:
        g = beside["rh_pct"]
        print(f"| {what} | {g['hours']:,.0f} | {g['measured']:.1f} "
              f"| {g['modelled']:.1f} | {g['bias']:+.1f} | {g['rms']:.1f} |")
    months = [(n, g) for n, g in zip(SHORT, results[0][1]["rh_pct_by_month"])
              if g["hours"] > 0]
    evidence(program, (log, weather, until), common, folder,
             next(h for h in evidence_house.HOUSES if h[2] == file))
    print("\nAs assumed, month by month, mean relative humidity, %:\n")
    print("| | " + " | ".join(n for n, _ in months) + " |")
    print("|---|" + "---:|" * len(months))
    for words, key in (("measured", "measured"), ("model", "modelled")):
        print(f"| {words} | " + " | ".join(f"{g[key]:.0f}" for _, g in months)
              + " |")


SOURCES = """Measured data: Finland, [TRH-1], CC BY 4.0; Belgium,
[CANDANEDO17], CC BY 4.0. Neither is part of this program."""

LIVED = """
## Two houses that were measured

Two lived-in houses with loggers, in the weather measured beside them. Nobody
told us their size, airtightness, ventilation or habits: what a scenario needs
beyond the weather is assumed, once, before the first run
(`tests/study/house_finland.yaml`, `house_belgium.yaml`), and was not changed
after. The indoor temperature is given (`log.held`), so that what is compared
is the water: relative humidity of the mixed air beside the mean of the
loggers, hour by hour. Cheap loggers are good to 3 to 5 points themselves.

The rows below "as assumed" change one assumption each, to show what not
knowing it is worth. They are no search for the best row.

In Belgium the error is smaller than what any one unknown would move it by:
luck has a share in that. In Finland the model is 13 to 17 points too dry from
January to March and 4 to 5 in November and December of the same year; something in
that house changed between, or ran only in the first winter (a fan turned down,
a humidifier, more people), and the file does not say what.

The second table of each house uses its log as evidence. "Learned from the same
log" is no forecast: those hours were used. "Learned from the days before" is
one; in Finland a bad one, for its first winter shows another house than the
months after.
"""


HEAD = """# First results

Written by `make first-results` (`tests/study/first_results.py`); not by hand.
Houses are invented, figures are the program's own, and real weather is the only
measured thing in the first part; no house was fitted to anything. How the made
year is made, and its seed, were set with these six places among others in view
([weather-made.md](../weather-made.md)).

## One house in six climates

An invented house of 177 m2 for four people, 1.0 ach50, with a heat pump and
2.5 tons of cooling (`tests/study/first_results.yaml`), the same everywhere, in
the six typical years [TMY3] that are at hand, beside the year that the program
makes of the same place's monthly figures (typical year). Too humid is
above 60 %, too dry below 30 %, out of 8,760 hours. Fresh air is what is
delivered of what is asked for (exhaust only draws it through the envelope, so
that it stands under leakage too); leakage is the real year's mean. The first
option delivers no fresh air: it is there to be compared with, not to be built.

"made - real" is what it costs to have a place name and no hourly file."""


def main():
    program, data = sys.argv[1], sys.argv[2]
    results, humid, dry = [], [], []

    print(HEAD)
    for entry in PLACES:
        real, made = place(program, data, *entry)
        results += [real, made]
        for r, m in zip(real["options"], made["options"]):
            humid.append(m["hours"]["too_humid"] - r["hours"]["too_humid"])
            dry.append(m["hours"]["too_dry"] - r["hours"]["too_dry"])
    print("\n### What the made year costs\n")
    for name, d in (("humid", humid), ("dry", dry)):
        mean = sum(d) / len(d)
        rms = (sum(x * x for x in d) / len(d)) ** 0.5
        print(f"* Hours too {name}, made less real, over {len(d)} pairs: mean "
              f"{mean:+.0f} h, root mean square {rms:.0f} h, from "
              f"{min(d):+,.0f} to {max(d):+,.0f} h.")
    print(f"* Books of all {len(results) * len(results[0]['options'])} years "
          f"close to {closure(*results):.1e} of what went through them, or "
          "better.")
    same = sum(1 for r, m in zip(results[::2], results[1::2])
               if best(r) == best(m))
    print(f"* The best option by the real year is the best by the made year in "
          f"{same} of {len(PLACES)} places.")
    print(LIVED.rstrip())
    with tempfile.TemporaryDirectory() as folder:
        for entry in HOUSES:
            house(program, data, entry, folder)
    print("\n" + SOURCES)


def best(result):
    return result["verdict"]["best"] or "none"


if __name__ == "__main__":
    main()
