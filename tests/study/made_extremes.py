#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How far the extremes of a made year's months are from those of real months.

usage: made_extremes.py DEWLEDGER DATA [SEED ...]
DATA is the folder with weather/ and houses/; needs numpy (python3-numpy).  The
months' figures of each record are made into a file of normals, years are made
of it, and the highest and lowest hour of t and of the dew point in each month
are set beside the record's: made less real, K.  A record's months count once
each; three airports of New York are three records of one place.
"""
import csv
import os
import subprocess
import sys
import tempfile

import numpy as np

from made_regress import days_by_month, dew_point, lag, records

WHERE = {"722020": 25.8, "726580": 44.9, "722780": 33.4, "727930": 47.5,
         "723170": 36.1, "703165": 55.3, "Valentia": 51.9, "Kamloops": 50.7,
         "Atlanta": 33.6, "Lincoln": 40.8, "Po plain": 45.0, "Rockies": 40.5,
         "New York": 40.7, "Espoo": 60.2}
NAMES = ["number of the month", "t highest", "t lowest", "dew point highest",
         "dew point lowest"]


def parts(days):
    t = [d[:, 0] for d in days]
    return t, [dew_point(d[:, 1], d[:, 2]) for d in days]


def figures(days):
    t, td = parts(days)
    t_day = np.array([x.mean() for x in t])
    td_day = np.array([x.mean() for x in td])
    return {"t_mean_c": t_day.mean(), "t_max_c": np.mean([x.max() for x in t]),
            "t_min_c": np.mean([x.min() for x in t]),
            "t_day_sd_k": t_day.std(ddof=1), "t_day_lag1": lag(t_day, 1),
            "td_mean_c": td_day.mean(), "td_day_sd_k": td_day.std(ddof=1),
            "t_td_corr": np.corrcoef(t_day, td_day)[0, 1],
            "wind_mean_m_s": np.mean([d[:, 3].mean() for d in days]),
            "pressure_hpa": np.mean([d[:, 2].mean() for d in days]) / 100.0}


def extremes(days):
    t, td = (np.concatenate(x) for x in parts(days))
    return np.array([t.max(), t.min(), td.max(), td.min()])


def by_number(hours):
    """{month from 1: days}; dates tell which month"""
    months = {}
    for number in range(1, 13):
        own = [h for h in hours if int(h[0][5:7]) == number]
        found = days_by_month(own)
        if found:
            months[number] = found[0]
    return months


def normals(path, place, months):
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = None
        for number in range(1, 13):
            near = min(months, key=lambda m: min(abs(m - number),
                                                 12 - abs(m - number)))
            row = {"month": number, "lat_deg": WHERE[place], "lon_deg": 0.0,
                   "elevation_m": 0.0, "utc_offset_h": 0.0}
            row.update(figures(months[near]))
            if out is None:
                out = csv.DictWriter(file, list(row))
                out.writeheader()
            out.writerow(row)


def made(program, path, seed, folder):
    out = os.path.join(folder, "made.csv")
    subprocess.run([program, "weather", "make", "--normals", path, "--seed",
                    str(seed), "--out", out], check=True,
                   stdout=subprocess.DEVNULL)
    with open(out, encoding="utf-8") as file:
        rows = list(csv.reader(x for x in file if not x.startswith("#")))
    return by_number([(r[0][:10], [float(x) for x in r[1:5]])
                      for r in rows[1:]])


def tell(words, off):
    q = np.quantile(off, [0.0, 0.25, 0.5, 0.75, 1.0])
    print(f"| {words:18} | " + " | ".join(f"{x:6.1f}" for x in q)
          + f" | {np.mean(abs(off) > 4.0) * 100:3.0f} |")


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    program, data = sys.argv[1:3]
    seeds = [int(x) for x in sys.argv[3:]] or [129]
    off, places = [], []
    with tempfile.TemporaryDirectory() as folder:
        for place, hours in records(program, data):
            months = by_number(hours)
            path = os.path.join(folder, "normals.csv")
            normals(path, place, months)
            for seed in seeds:
                years = made(program, path, seed, folder)
                for number, days in months.items():
                    places.append(place)
                    off.append([number, *(extremes(years[number])
                                          - extremes(days))])
    off, places = np.array(off), np.array(places)
    print(f"{len(off)} months of {len(set(places))} places, seeds {seeds}\n")
    print("| made less real, K  |  least |  first quartile | median | third | "
          "most | above 4 K, % |")
    for i in range(1, 5):
        tell(NAMES[i], off[:, i])
    print()
    for place in sorted(set(places)):
        own = off[places == place]
        print(f"{place:10}" + "".join(
            f"  {NAMES[i]} {np.median(own[:, i]):5.1f} "
            f"({own[:, i].min():5.1f} to {own[:, i].max():4.1f})"
            for i in range(1, 5)))


main()
