#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Write what `fit --house` tells of the two measured houses into docs/evidence.md.

usage: evidence_house.py DEWLEDGER DATA docs/evidence.md
DATA is the folder with houses/; `make evidence` runs it.  The scenarios are
those of first-results, with ranges, written once, for what was assumed there.
"""
import json
import os
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
FROM = "<!-- houses: made by `make evidence` -->"
TO = "<!-- houses: until here -->"

HOUSES = [
    ("house 2, Finland", "house_finland.yaml", "finland_house_2_hourly.csv",
     ["--latitude", "60.2", "--longitude", "24.7", "--elevation", "20m",
      "--utc", "2"],
     [("airtightness: 3 ach50", "airtightness: 3 ach50 (1 to 6)"),
      ("{count: 4}", '{count: "4 (2 to 6)"}'),
      ("flow: 180 m3/h, sens", 'flow: "180 m3/h (40 to 250)", sens')]),
    ("Belgium", "house_belgium.yaml",
     "belgium_low_energy_house_2016_jan_mar_hourly.csv",
     ["--latitude", "50.5", "--longitude", "3.6", "--elevation", "60m",
      "--utc", "1"],
     [("airtightness: 0.6 ach50", "airtightness: 0.6 ach50 (0.3 to 1.5)"),
      ("{count: 4,", '{count: "4 (2 to 5)",'),
      ("flow: 150 m3/h, sens", 'flow: "150 m3/h (80 to 250)", sens')]),
]


def call(*words):
    done = subprocess.run(words, check=False, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}: {done.stderr}")
    return done.stdout


def with_ranges(house, folder):
    """The scenario of a house with ranges for what was assumed: its path."""
    _, scenario, _, _, ranges = house
    text = open(os.path.join(HERE, scenario), encoding="utf-8").read()
    for old, new in ranges:
        if old not in text:
            sys.exit(f"{scenario}: no {old}")
        text = text.replace(old, new, 1)
    path = os.path.join(folder, "h.yaml")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def learned(program, data, folder, house):
    _, _, log, site, _ = house
    path = with_ranges(house, folder)
    weather = os.path.join(folder, "w.csv")
    log = os.path.join(data, log)
    call(program, "weather", "convert", log, weather, *site)
    return json.loads(call(program, "fit", path, log, "--house", "--json",
                           "--draws", "8192",
                           "--set", "weather.file=" + weather))["house"]


def near(x):
    return f"{x['rmse_rh_pct']:.1f} ({x['bias_rh_pct']:+.1f})" if x else "-"


def tables(program, data):
    found = []
    with tempfile.TemporaryDirectory() as folder:
        for house in HOUSES:
            found.append((house[0], learned(program, data, folder, house)))
    yield ("| log | days | effective draws | as told: off by, points of RH "
           "(mean) | after | likeliest |")
    yield "|---|" + "--:|" * 5
    for name, h in found:
        yield (f"| {name} | {h['days']:.0f} | {h['effective_draws']:.0f} | "
               f"{near(h['as_told'])} | {near(h['after'])} | "
               f"{near(h['likeliest'])} |")
    yield ""
    yield "| log | figure | before | after |"
    yield "|---|---|---|---|"
    for name, h in found:
        if not h["told"]:
            yield f"| {name} | nothing is told | | |"
        for x in h["inputs"] or []:
            if x["moved"]:
                star = " \\*" if x["usual"] else ""
                yield (f"| {name} | `{x['key']}`{star} | {x['before_words']} | "
                       f"{x['after_words']} |")
        for p in h["together"] or []:
            yield (f"| {name} | `{p['a']}` with `{p['b']}` | | correlation "
                   f"{p['r']:.2f} |")
    yield ""
    yield ("\\* nobody told it: what is usual. Half are below the figure, one "
           "in ten beyond either end in brackets.")


def main():
    program, data, path = sys.argv[1:]
    data = os.path.join(data, "houses")
    if not all(os.path.exists(os.path.join(data, h[2])) for h in HOUSES):
        print("skip evidence house: the measured houses are not here")
        return
    text = open(path, encoding="utf-8").read()
    before, rest = text.split(FROM, 1)
    after = rest.split(TO, 1)[1]
    made = "\n".join(tables(program, data))
    with open(path + ".part", "w", encoding="utf-8") as out:
        out.write(before + FROM + "\n\n" + made + "\n\n" + TO + after)
    os.replace(path + ".part", path)


if __name__ == "__main__":
    main()
