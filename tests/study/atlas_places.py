# SPDX-License-Identifier: GPL-3.0-or-later
"""The places of the atlas: their climate, the houses drawn there, the answer.

A house is a dict from option to Row; a claim is a function of a house that is
true or false in it.  Where a claim needs an option that was not marched, the
place is left out of its count.
"""
import csv
import sqlite3
from collections import namedtuple

OFTEN = 0.8   # "in 80 of 100 houses": what we call an answer; our own choice
RARELY = 1 - OFTEN
KEPT = 175    # h  2 % of the year: what a limit allows, as in a verdict

NOTHING, WINDOWS, DRYER = "nothing", "windows when drier outdoors", "dehumidifier"
EXHAUST, HEAT, ENTHALPY = "exhaust fan", "heat core", "enthalpy core"
FANS = (EXHAUST, HEAT, ENTHALPY)

# What a fan has besides: key in answers.csv, words, letter on the map.
RUNGS = (
    ("ventilation", "", "ventilation alone", "V"),
    ("dehumidifier", ", dehumidifier", "ventilation and a dehumidifier", "D"),
    ("humidifier", ", humidifier", "ventilation and a humidifier", "H"),
    ("both", ", dehumidifier, humidifier", "ventilation and both", "B"),
)
NONE = ("none", None, "none of these", "N")
CLASSES = RUNGS + (NONE,)
ALONE = FANS
WITH_DRYER = tuple(f + RUNGS[1][1] for f in FANS)
WITH_WETTER = tuple(f + RUNGS[2][1] for f in FANS)
WITH_BOTH = tuple(f + RUNGS[3][1] for f in FANS)

Row = namedtuple("Row", "humid dry air glass kwh does best")
# kind: index in CLASSES; nearest: the rung of the option named, which is kind but
# where that is none; share: houses in which that option does; reach: of each
# rung; plain: houses in which an exhaust fan does on that rung, None untried.
Answer = namedtuple("Answer", "kind nearest fan share reach plain core edge")


class Place:
    """station, name, state, lat, lon; figures: degC; houses: list of dicts."""

    def __init__(self, first, months):
        self.station, self.name, self.state = first
        self.lat = float(months[0]["lat_deg"])
        self.lon = float(months[0]["lon_deg"])
        means = [float(m["t_mean_c"]) for m in months]
        points = [float(m["td_mean_c"]) for m in months]
        self.figures = {"winter": min(means), "summer": max(means),
                        "damp": max(points), "dry": min(points)}
        self.houses = []
        self.answer = None

    def label(self):
        """The name without what stands in brackets behind it."""
        short = self.name.split(" [")[0].split(" (")[0].replace("Int'L", "Intl")
        return f"{short} {self.state}"


def read_places(path):
    """Place of each station, in the order of the climate table."""
    months = {}
    with open(path, encoding="utf-8") as text:
        for row in csv.DictReader(line for line in text if line[0] != "#"):
            months.setdefault((row["station"], row["name"], row["state"]),
                              []).append(row)
    return {first[0]: Place(first, rows) for first, rows in months.items()}


def read_houses(path, places):
    """Add the houses drawn (draw 0 is the likely one as told, not drawn).
    Returns the places that have any."""
    base = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    found = {}
    for (station, house, draw, option, *figures, keeps, ventilates,
         best) in base.execute(
             "SELECT station, house, draw, option, too_humid_h, too_dry_h,"
             " short_of_air_h, glass_wet_h, energy_kwh, keeps, ventilates, best"
             " FROM march WHERE draw > 0 ORDER BY station, house, draw"):
        if None in figures:
            raise SystemExit(f"{path}: station {station}, {option}, draw {draw}: "
                             "a figure is missing")
        row = Row(*figures, bool(keeps) and bool(ventilates), bool(best))
        found.setdefault(str(station), {}).setdefault(
            (house, draw), {})[option] = row
    base.close()
    strange = sorted(set(found) - set(places))
    if strange:
        raise SystemExit(f"{path}: no such station in the climate table: "
                         + ", ".join(strange[:5]))
    for station, houses in found.items():
        places[station].houses = list(houses.values())
    for place in places.values():
        place.answer = answer(place) if place.houses else None
    return [p for p in places.values() if p.houses]


# ---- claims ------------------------------------------------------------------

def share(place, claim):
    """Share of the place's houses in which the claim is true; None where an
    option that it speaks of was not marched."""
    try:
        told = [claim(house) for house in place.houses]
    except KeyError:
        return None
    return sum(told) / len(told)


def does(house, *options):
    """One of them brings the air and keeps the limits; those that were not
    marched count for nothing, unless none was."""
    rows = [house[o] for o in options if o in house]
    if not rows:
        raise KeyError(options)
    return any(row.does for row in rows)


def outside(row):
    return row.humid + row.dry + row.glass


def middle(place, figure):
    """Median over the houses of figure(house); None as above."""
    try:
        values = sorted(figure(house) for house in place.houses)
    except KeyError:
        return None
    n = len(values)
    return 0.5 * (values[(n - 1) // 2] + values[n // 2])


# ---- the answer of a place -----------------------------------------------------

def one(option):
    return lambda house: does(house, option)


def fan_of(place, besides):
    """(reach, share, fan) of the rung: the most houses in which one of its
    options does; and, of the fans that do often enough, the one that is best in
    most houses, else the one that does in most, with its own share."""
    tried = []
    for fan in FANS:
        s = share(place, one(fan + besides))
        if s is not None:
            best = share(place, lambda h, o=fan + besides: h[o].best)
            tried.append((s >= OFTEN, best if s >= OFTEN else s, s, fan))
    if not tried:
        return 0.0, 0.0, ""
    most = max(tried, key=lambda t: t[:2])  # the first of equals
    return max(t[2] for t in tried), most[2], most[3]


def kind_at(reach, often):
    """The rung by the rule: ventilation alone where that does often enough,
    else the one machine that does in more houses, else both, else none."""
    alone, dryer, wetter, both = reach
    if alone >= often:
        return 0
    if max(dryer, wetter) >= often:
        return 1 if dryer >= wetter else 2
    return 3 if both >= often else 4


def core_of(place):
    """Which core keeps the house longer within the limits, the rest the same:
    by more hours than a limit allows, in 80 of 100 houses."""
    less = share(place, lambda h: outside(h[HEAT]) - outside(h[ENTHALPY]) > KEPT)
    more = share(place, lambda h: outside(h[ENTHALPY]) - outside(h[HEAT]) > KEPT)
    if less is None:
        return "open"
    return ("enthalpy" if less >= OFTEN else "heat" if more >= OFTEN else
            "alike" if less + more <= RARELY else "open")


def answer(place):
    rungs = [fan_of(place, r[1]) for r in RUNGS]
    reach = [r[0] for r in rungs]
    kind = kind_at(reach, OFTEN)
    nearest = kind if kind < len(RUNGS) else reach.index(max(reach))
    edge = len({kind_at(reach, often) for often in (0.7, OFTEN, 0.9)}) > 1
    return Answer(kind, nearest, rungs[nearest][2], rungs[nearest][1], reach,
                  share(place, one(EXHAUST + RUNGS[nearest][1])),
                  core_of(place), edge)


# ---- climates: our own grouping --------------------------------------------------

WINTERS = ((-10, "bitter winter"), (0, "cold winter"), (10, "cool winter"),
           (99, "mild winter"))
SUMMERS = ((10, "dry air"), (16, "middling air"), (20, "damp air"),
           (99, "very damp air"))


def step(table, x):
    return next(i for i, (below, _) in enumerate(table) if x < below)


def group(place):
    """(winter, summer): rows of WINTERS and SUMMERS."""
    return step(WINTERS, place.figures["winter"]), step(SUMMERS,
                                                        place.figures["damp"])


def group_name(key):
    return f"{WINTERS[key[0]][1]}, {SUMMERS[key[1]][1]}"


def groups(places):
    """Places by group, coldest winter first, then driest."""
    found = {}
    for place in places:
        found.setdefault(group(place), []).append(place)
    return dict(sorted(found.items()))
