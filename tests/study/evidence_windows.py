#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Put how well `dewledger fit` foretells into docs/evidence.md.

usage: evidence_windows.py DEWLEDGER DATA EVIDENCE.md
`make evidence` runs it on the measured houses named below; where they are
absent the document stays as it is.  Every 30 days a window begins; the house is
learned from its first N days and the rest of the log is foretold.
"""
import csv
import json
import os
import subprocess
import sys
import tempfile
from datetime import date, timedelta
from statistics import mean, median

HOUSES = [("house 2", "finland_house_2_hourly.csv", ["all", "in 1", "in 2"]),
          ("Belgium", "belgium_low_energy_house_2016_jan_mar_hourly.csv",
           ["all"])]
LEARN = [14, 30, 60, 120, 180, 365]  # days
EVERY, LEAST = 30, 14                # days
BAND80 = 1.2816                      # of an sd, to both sides
SCENARIO = "house:\n  floor_area: 1500 ft2\n"
FROM, TO = "<!-- made by `make evidence` -->", "<!-- until here -->"


def fit(program, folder, log, sensor, until):
    hours = os.path.join(folder, "hours.csv")
    done = subprocess.run(
        [program, "fit", os.path.join(folder, "house.yaml"), log, "--set",
         f"log.sensor={sensor}", "--until", until.isoformat(), "--json",
         "--series", hours],
        check=False, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{log} until {until}: {done.stderr}")
    return json.loads(done.stdout) | {"sd": band(hours)}


def band(path):
    """What the band expects of the rmse: the mean square of its sd, rooted."""
    with open(path, encoding="utf-8") as file:
        of = [((float(row["rh_high_pct"]) - float(row["rh_low_pct"])) / 2
               / BAND80) ** 2
              for row in csv.DictReader(file)
              if row["learned_from"] == "0" and row["rh_logged_pct"]
              and row["rh_low_pct"]]
    return mean(of) ** 0.5


def windows(program, folder, path, sensor):
    """Each window: its start, days learned from, and the fit."""
    with open(path, encoding="utf-8") as file:
        head, *rows = file.read().splitlines()
    day = [date.fromisoformat(row[:10]) for row in rows]
    start = day[0]
    if rows[0][11:16] != "00:00":
        start += timedelta(1)  # whole days
    while start <= day[-1]:
        log = os.path.join(folder, "log.csv")
        with open(log, "w", encoding="utf-8") as file:
            file.write("\n".join([head] + [r for r, d in zip(rows, day)
                                           if d >= start]) + "\n")
        for n in LEARN:
            until = start + timedelta(n)
            if (day[-1] - until).days >= LEAST:
                yield start, n, fit(program, folder, log, sensor, until)
        start += timedelta(EVERY)


def ratio(found):
    return [w["holdout"]["rmse_rh_pct"] < w["yardstick"]["rmse_rh_pct"]
            for w in found]


def summary(name, sensor, found):
    for n in LEARN:
        part = [w for _, days, w in found if days == n]
        if not part:
            continue
        rest = [w["holdout"]["rmse_rh_pct"] for w in part]
        line = [w["yardstick"]["rmse_rh_pct"] for w in part]
        band = [100 * w["holdout"]["band80_coverage"] for w in part]
        better = ratio(part)
        yield (f"| {name}, {sensor} | {n} | {len(part)} | {median(rest):.2f} "
               f"| {median(w['sd'] for w in part):.2f} "
               f"| {max(rest):.2f} | {median(line):.2f} "
               f"| {sum(better)} of {len(better)} | {mean(band):.0f} "
               f"| {min(band):.0f} to {max(band):.0f} |")


def every(name, found):
    for start, n, w in found:
        rest = w["holdout"]
        yield (f"| {name} | {start} | {n} | {w['fit']['rmse_rh_pct']:.2f} "
               f"| {rest['days']:.0f} | {rest['rmse_rh_pct']:.2f} "
               f"| {rest['bias_rh_pct']:+.2f} | {rest['rmse_vapour_pa']:.0f} "
               f"| {100 * rest['band80_coverage']:.0f} "
               f"| {w['yardstick']['rmse_rh_pct']:.2f} |")


def tables(program, data):
    all_rows = []
    yield ("| log, sensor | days learned from | windows | median rmse of the "
           "rest, points of RH | median that the band expects | worst | median of the straight line | better "
           "than it | in the band of 80 %, mean % | single windows |")
    yield "|---|" + "--:|" * 9
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "house.yaml"), "w",
                  encoding="utf-8") as file:
            file.write(SCENARIO)
        for name, log, sensors in HOUSES:
            for sensor in sensors:
                found = list(windows(program, folder, os.path.join(data, log),
                                     sensor))
                yield from summary(name, sensor, found)
                if sensor == "all":
                    all_rows += every(name, found)
    yield ""
    yield "Every window of the mean of all sensors:"
    yield ""
    yield ("| log | from | days | rmse of these | days after | rmse | bias "
           "| vapour, Pa | in the band, % | straight line |")
    yield "|---|---|" + "--:|" * 8
    yield from all_rows


def main():
    program, data, path = sys.argv[1:]
    data = os.path.join(data, "houses")
    if not all(os.path.exists(os.path.join(data, log)) for _, log, _ in HOUSES):
        print("skip evidence windows: the measured houses are not here")
        return
    text = open(path, encoding="utf-8").read()
    before, rest = text.split(FROM, 1)
    after = rest.split(TO, 1)[1]
    made = "\n".join(tables(program, data))
    with open(path + ".part", "w", encoding="utf-8") as out:
        out.write(before + FROM + "\n\n" + made + "\n\n" + TO + after)
    os.replace(path + ".part", path)


main()
