#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Monthly means of the weather files, straight from their own rows.

Independent of the reader: it knows each layout by name and place, parses with
Python's csv module, and takes plain means of the rows.  usage:
monthly_means.py DATA_FOLDER   prints rows for tests/weather/test_files.c
"""
import csv
import gzip
import math
import sys
from datetime import datetime, timedelta


def lines_mean(samples, year):
    """Mean per month of the line through samples, read at each hour's end.

    A line bridges at most 3 h more than the usual step; the hours that the
    first and last sample lie in hold them."""
    hour = timedelta(hours=1)
    samples = sorted(samples)
    steps = sorted((b[0] - a[0]).total_seconds()
                   for a, b in zip(samples, samples[1:]))
    most = steps[len(steps) // 2] + 3 * 3600
    out, i = {}, 0
    first, last = samples[0], samples[-1]
    t = first[0].replace(minute=0, second=0)
    if t < first[0] or t.hour == 0:
        t += hour
    end = last[0].replace(minute=0, second=0)
    if (last[0] - end).total_seconds() >= 1800:
        end += hour
    if last[0] == end and end.hour == 23 and first[0].hour == 0:
        end += hour
    while t <= end:
        while i + 1 < len(samples) and samples[i + 1][0] <= t:
            i += 1
        a, b = samples[i], samples[min(i + 1, len(samples) - 1)]
        gap = (b[0] - a[0]).total_seconds()
        start = t - hour
        if (a[0] == t or gap <= most) and year in (None, start.year):
            share = (t - a[0]).total_seconds() / gap if gap else 0
            share = max(share, 0)
            out.setdefault(start.month, []).append(
                a[1] + (b[1] - a[1]) * share)
        t += hour
    return {m: sum(v) / len(v) for m, v in out.items()}


def plain_mean(rows):
    out = {}
    for month, x in rows:
        out.setdefault(month, []).append(x)
    return {m: sum(v) / len(v) for m, v in out.items()}


def celsius(f):
    return (f - 32) / 1.8


def hourly(rows):
    """(end of hour, value) rows to means by the month the hour lies in."""
    return plain_mean(((t - timedelta(seconds=1)).month, x) for t, x in rows)


def tmy3(path):
    rows = list(csv.reader(open(path, newline='')))
    head = [h.strip() for h in rows[1]]
    at = {n: head.index(n) for n in
          ('Dry-bulb (C)', 'Dew-point (C)', 'GHI (W/m^2)')}
    out = {}
    for name, i in at.items():
        out[name] = plain_mean(
            (int(r[0].split('/')[0]), float(r[i])) for r in rows[2:])
    return out['Dry-bulb (C)'], out['Dew-point (C)'], out['GHI (W/m^2)']


def lcd(path, factor):
    rows = [r for r in csv.DictReader(open(path, newline=''))
            if r['REPORT_TYPE'].strip() in ('FM-15', 'FM-16')]
    got = []
    for name in ('HourlyDryBulbTemperature', 'HourlyDewPointTemperature'):
        seen = {}
        for r in rows:
            t = datetime.fromisoformat(r['DATE'])
            if r[name] and t not in seen:
                seen[t] = factor(float(r[name]))
        got.append(lines_mean(seen.items(), None))
    return got[0], got[1], {}


def asos(path, station):
    rows = [r for r in csv.DictReader(open(path)) if r['origin'] == station]
    got = []
    for name in ('temp', 'dewp'):
        got.append(lines_mean(
            [(datetime.strptime(r['time_hour'], '%Y-%m-%dT%H:%M:%SZ')
              - timedelta(hours=5), celsius(float(r[name])))
             for r in rows if r[name] != 'NA'], 2013))
    return got[0], got[1], {}


def simple(path, when, t, td, solar=None, skip=0):
    f = open(path, newline='')
    for _ in range(skip):
        f.readline()
    rows = list(csv.DictReader(f))

    def col(name):
        return lines_mean([(when(r), float(r[name])) for r in rows
                           if r[name] != ''], None)
    return col(t), col(td) if td else {}, \
        hourly([(when(r), float(r[solar])) for r in rows]) if solar else {}


def isd(path):
    t, td = [], []
    for line in gzip.open(path, 'rt'):
        if line[41:44] in ('SOD', 'SOM'):
            continue
        when = datetime.strptime(line[15:27], '%Y%m%d%H%M') - timedelta(hours=7)
        if line[87:92] != '+9999' and line[92] not in '2367':
            t.append((when, int(line[87:92]) / 10))
        if line[93:98] != '+9999' and line[98] not in '2367':
            td.append((when, int(line[93:98]) / 10))
    return lines_mean(t, 2020), lines_mean(td, 2020), {}


def met(path):
    rows = [r for r in csv.DictReader(open(path, newline=''))
            if r['temp'] != '']
    when = [datetime.fromisoformat(r['date']) for r in rows]
    return (lines_mean([(w, float(r['temp'])) for w, r in zip(when, rows)],
                       None),
            lines_mean([(w, dew_point(float(r['temp']), float(r['rhum'])))
                        for w, r in zip(when, rows) if r['rhum'] != ''], None),
            {})


def jrc(path):
    """UTC stamps in local terms at UTC + 0; an hour ends at its stamp."""
    t, td, g = [], [], []
    for r in csv.DictReader(open(path)):
        w = datetime.strptime(r['time(UTC)'], '%Y%m%d:%H%M')
        w = w.replace(year=2001)
        t.append((w, float(r['T2m'])))
        td.append((w, dew_point(float(r['T2m']), float(r['RH']))))
        g.append((w, float(r['G(h)'])))
    return hourly(t), hourly(td), hourly(g)


def dew_point(t, rh):
    """Dew point over liquid of degC and %, by the saturation formula of Sonntag
    (1990), not the one in the program: within 0.01 K of it."""
    def lne(x):
        k = x + 273.15
        return (-6096.9385 / k + 16.635794 - 2.711193e-2 * k
                + 1.673952e-5 * k * k + 2.433502 * math.log(k))
    want, low, high = lne(t) + math.log(rh / 100), -90.0, t
    for _ in range(60):
        mid = (low + high) / 2
        low, high = (mid, high) if lne(mid) < want else (low, mid)
    return low


def show(name, means):
    for what, m in zip(('t', 'td', 'solar'), means):
        if m:
            print('%s %s: ' % (name, what) + ', '.join(
                '%.3f' % m[k] if k in m else 'NAN' for k in range(1, 13)))


def main():
    d = sys.argv[1] + '/weather/'
    for f in ('703165TY.csv', '722020TYA.CSV', '722780TYA.CSV',
              '723170TYA.CSV', '726580TYA.CSV', '727930TYA.CSV'):
        show(f, tmy3(d + 'tmy3/' + f))
    o = d + 'observed/'
    show('lcd_v1', lcd(o + 'lcd_v1_atlanta_2020.csv', celsius))
    show('lcd_v2', lcd(o + 'lcd_v2_lincoln_2023.csv', float))
    for s in ('EWR', 'JFK', 'LGA'):
        show('asos ' + s, asos(o + 'asos_new_york_2013.csv', s))
    show('eccc', simple(o + 'eccc_kamloops_2016.csv',
                        lambda r: datetime.fromisoformat(r['time']),
                        'temp', 'temp_dew'))
    show('met', met(o + 'met_eireann_valentia_2017.csv'))
    show('nsrdb', simple(
        o + 'nsrdb_psm3_40.5N_2017.csv',
        lambda r: datetime(int(r['Year']), int(r['Month']), int(r['Day']),
                           int(r['Hour']), int(r['Minute'])),
        'Temperature', 'Dew Point', 'GHI', skip=2))
    show('isd', isd(o + 'isd_longmont_2020.gz'))
    show('jrc', jrc(o + 'jrc_typical_45N_8E.csv'))


if __name__ == '__main__':
    main()
