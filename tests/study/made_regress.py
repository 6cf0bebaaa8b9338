#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a month's figures tell of its days: the regressions of the made year.

usage: made_regress.py DEWLEDGER DATA
DATA is the folder with weather/ and houses/; needs numpy (python3-numpy).  Each
line gives a quantity, its coefficients in the order of its terms, and the share
of the variance that they explain at places that they were not fitted on, every
place left out in turn and all weighing the same.  The constants of
engine/made/aim.c, shape.c and within_day.c are these, rounded.
"""
import csv
import os
import subprocess
import sys
import tempfile

import numpy as np

TMY3 = ["722020TYA.CSV", "726580TYA.CSV", "722780TYA.CSV", "727930TYA.CSV",
        "723170TYA.CSV", "703165TY.csv"]
NEW_YORK = ["--unit=wind_speed=mph", "--unit=temp=degF", "--unit=dewp=degF",
            "--unit=pressure=hPa", "--latitude=40.7", "--longitude=-74",
            "--elevation=15ft", "--gap=24"]
RECORDS = [
    ("Valentia", "met_eireann_valentia_2017.csv",
     ["--gap=24", "--latitude=51.94", "--longitude=-10.24",
      "--elevation=30ft"]),
    ("Kamloops", "eccc_kamloops_2016.csv", []),
    ("Atlanta", "lcd_v1_atlanta_2020.csv", []),
    ("Lincoln", "lcd_v2_lincoln_2023.csv", []),
    ("Po plain", "jrc_typical_45N_8E.csv",
     ["--latitude=45", "--longitude=8", "--elevation=650ft"]),
    ("Rockies", "nsrdb_psm3_40.5N_2017.csv", []),
] + [("New York", "asos_new_york_2013.csv", ["--station=" + s] + NEW_YORK)
     for s in ("EWR", "JFK", "LGA")]
LEAST_DAYS = 24


def dew_point(w, p):
    """degC of g/kg and Pa: Magnus' formula, from memory; within 0.1 K"""
    e = w / 1000.0 * p / (0.622 + w / 1000.0)
    x = np.log(e / 611.2)
    return 243.12 * x / (17.62 - x)


def converted(program, path, words):
    """[(date, [t, w, p, wind])] of the hours of a file"""
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "year.csv")
        subprocess.run([program, "weather", "convert", *words, path, out],
                       check=True, stdout=subprocess.DEVNULL)
        with open(out, encoding="utf-8") as file:
            rows = list(csv.reader(x for x in file if not x.startswith("#")))
    hours = []
    for row in rows[1:]:
        try:
            hours.append((row[0][:10], [float(x) for x in row[1:5]]))
        except ValueError:
            continue  # an hour without a value
    return hours


def espoo(path):
    hours = []
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file):
            try:
                t, rh = float(row["t_out_c"]), float(row["rh_out_pct"])
                wind = float(row["wind_ms"])
            except ValueError:
                continue
            e = rh / 100.0 * 611.2 * np.exp(17.62 * t / (243.12 + t))
            hours.append((row["time_utc+2"][:10],
                          [t, 622.0 * e / (101325.0 - e), 101325.0, wind]))
    return hours


def records(program, data):
    """(place, hours) of every year at hand"""
    weather = os.path.join(data, "weather")
    for file in TMY3:
        yield file[:6], converted(program, os.path.join(weather, "tmy3", file),
                                  [])
    for place, file, words in RECORDS:
        yield place, converted(
            program, os.path.join(weather, "observed", file), words)
    yield "Espoo", espoo(os.path.join(data, "houses",
                                      "finland_house_2_hourly.csv"))


def days_by_month(hours):
    days, months = {}, {}
    for date, values in hours:
        days.setdefault(date, []).append(values)
    for date in sorted(days):
        if len(days[date]) >= 22:
            months.setdefault(date[:7], []).append(np.array(days[date]))
    return [m for m in months.values() if len(m) >= LEAST_DAYS]


def score(x):
    return (x - x.mean()) / x.std()


def skew(x):
    return (score(x)**3).mean()


def lag(x, k):
    return np.corrcoef(x[k:], x[:-k])[0, 1]


class Month:
    """Moments of one month's days, and what each day's wind goes with."""

    def __init__(self, place, days):
        t = np.array([d[:, 0].mean() for d in days])
        td = np.array([dew_point(d[:, 1], d[:, 2]).mean() for d in days])
        wind = np.array([d[:, 3].mean() for d in days])
        swing = np.array([np.ptp(d[:, 0]) for d in days])
        self.place = place
        self.t, self.td, self.wind = t.mean(), td.mean(), wind.mean()
        self.t_sd, self.td_sd, self.range = t.std(), td.std(), swing.mean()
        self.r, self.td_r = lag(t, 1), lag(td, 1)
        self.t_lags = [lag(t, k) for k in (1, 2, 3)]
        self.td_lags = [lag(td, k) for k in (1, 2, 3)]
        self.with_t = np.corrcoef(t, td)[0, 1]
        self.t_lean, self.td_lean, self.wind_lean = skew(t), skew(td), skew(wind)
        self.flat = [(score(x)**4).mean() - 3.0 for x in (t, td)]
        self.range_lean, self.range_sd = skew(swing), swing.std()
        self.wind_spread = wind.std() / wind.mean()
        self.cold = 1.0 / (1.0 + np.exp(self.t - 4.0))
        self.humid = 1.0 / (1.0 + np.exp((11.0 - self.td) / 2.5))
        self.days_of_wind(t, td, wind, swing)
        self.within(np.array([d for d in days if len(d) == 24]))

    def within(self, days):
        """How hours stray within their day."""
        wind = days[:, :, 3]
        mean = np.maximum(wind.mean(axis=1), 0.5)
        self.wind_stray = (wind.std(axis=1) / np.sqrt(mean)).mean()
        td = dew_point(days[:, :, 1], days[:, :, 2])
        td = td - td.mean(axis=1, keepdims=True)
        self.td_fall = td[:, 3:8].mean() - td[:, 13:18].mean()
        hour = np.arange(24) - 11.5
        td -= np.outer((td * hour).sum(axis=1) / (hour**2).sum(), hour)
        td -= td.mean(axis=0)
        self.td_stray = td.std()
        stray = td.std(axis=1)
        moist = dew_point(days[:, :, 1], days[:, :, 2]).mean(axis=1)
        moist = np.maximum(score(moist), 0.0)
        self.td_slope = np.polyfit(moist, stray / stray.mean(), 1)[0]

    def days_of_wind(self, t, td, wind, swing):
        change = np.diff(t)
        inner = slice(1, -1)
        self.wind_score = score(np.log(np.maximum(wind, 0.2)))[inner]
        self.goes_with = np.column_stack([
            change[1:], abs(change[:-1]),
            score(swing)[inner] * self.range, score(swing)[inner] * self.t,
            score(t - td)[inner] / self.range,
            score(t)[inner] * (self.wind - 3.6), score(td)[inner] * self.td_sd])


def fit(x, y, weight):
    root = np.sqrt(weight)
    return np.linalg.lstsq(x * root[:, None], y * root, rcond=None)[0]


def tell(what, places, x, y):
    """Fit on all; judge each place by a fit on the others."""
    x, y, places = np.asarray(x, float), np.asarray(y, float), np.array(places)
    good = np.isfinite(y) & np.isfinite(x).all(axis=1)
    x, y, places = x[good], y[good], places[good]
    weight = np.array([1.0 / np.sum(places == p) for p in places])
    foretold = np.empty_like(y)
    for p in sorted(set(places)):
        out = places == p
        foretold[out] = x[out] @ fit(x[~out], y[~out], weight[~out])
    mean = np.average(y, weights=weight)
    share = 1.0 - (np.average((y - foretold)**2, weights=weight)
                   / np.average((y - mean)**2, weights=weight))
    left = np.sqrt(np.average((y - x @ fit(x, y, weight))**2, weights=weight))
    terms = " ".join(f"{c:.3f}" for c in fit(x, y, weight))
    print(f"{what:34} {terms:48} explains {share:5.2f}, leaves {left:.2f}")


def tell_months(months):
    def by(what, y, *terms):
        tell(what, [m.place for m in months],
             [[1.0, *(f(m) for f in terms)] for m in months],
             [y(m) for m in months])

    by("skewness of t: 1 t cold", lambda m: m.t_lean, lambda m: m.t,
       lambda m: m.cold)
    by("of td: 1 cold humid", lambda m: m.td_lean, lambda m: m.cold,
       lambda m: m.humid)
    for i, name in enumerate(("t", "td")):
        by(f"kurtosis of {name}: 1 skew2 lag", lambda m, i=i: m.flat[i],
           lambda m, i=i: (m.t_lean, m.td_lean)[i]**2,
           lambda m, i=i: (m.r, m.td_r)[i])
    by("t, two days: 1 r2 range", lambda m: m.t_lags[1], lambda m: m.r**2,
       lambda m: m.range)
    by("t, three: 1 r r2", lambda m: m.t_lags[2], lambda m: m.r,
       lambda m: m.r**2)
    for k, name in enumerate(("one day", "two")):
        by(f"td, {name}: 1 with with*r ratio", lambda m, k=k: m.td_lags[k],
           lambda m: m.with_t, lambda m: m.with_t * m.r,
           lambda m: m.td_sd / m.t_sd)
    by("td, three: 1 with with*r range", lambda m: m.td_lags[2],
       lambda m: m.with_t, lambda m: m.with_t * m.r, lambda m: m.range)
    by("range sd/root: 1 t_sd t", lambda m: m.range_sd / np.sqrt(m.range),
       lambda m: m.t_sd, lambda m: m.t)
    by("skewness of range: 1 range t", lambda m: m.range_lean,
       lambda m: m.range, lambda m: m.t)
    by("wind sd/mean: 1 t_sd t", lambda m: m.wind_spread,
       lambda m: m.t_sd, lambda m: m.t)
    by("skewness of wind: 1 log(wind) humid", lambda m: m.wind_lean,
       lambda m: np.log(m.wind), lambda m: m.humid)

    tell("fall of td by afternoon: (dry-6)+", [m.place for m in months],
         [[max(m.t - m.td - 6.0, 0.0)] for m in months],
         [m.td_fall for m in months])
    by("td around its day's line: 1 range td_sd", lambda m: m.td_stray,
       lambda m: m.range, lambda m: m.td_sd)
    by("its change on moist days: 1 humid", lambda m: m.td_slope,
       lambda m: m.humid)
    by("wind in a day, sd/root: 1", lambda m: m.wind_stray)


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    program, data = sys.argv[1:]
    months = [Month(place, m) for place, hours in records(program, data)
              for m in days_by_month(hours)]
    print(f"{len(months)} months of {len(set(m.place for m in months))} places")
    tell_months(months)
    tell("day's wind: next |last| range*range\n  range*t dry/range "
         "t*(wind-3.6) td*td_sd", sum(([m.place] * len(m.wind_score)
                                      for m in months), []),
         np.vstack([m.goes_with for m in months]),
         np.concatenate([m.wind_score for m in months]))


if __name__ == "__main__":
    main()
