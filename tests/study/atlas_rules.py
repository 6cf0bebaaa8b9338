# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules that the atlas teaches, and the trade's rules of thumb, counted.

A rule says: where the climate's figures are so, this is true in 80 of 100
houses.  In a place it holds, it is not so (true in 20 of 100 or fewer), or it is
open.  Thresholds are looked for among round figures in the same places
that are counted: a rule tells what was found there, no more.
"""
import itertools
import math
from collections import Counter, namedtuple

from atlas_places import (ALONE, DRYER, ENTHALPY, EXHAUST, HEAT, KEPT, NOTHING,
                          OFTEN, RARELY, WINDOWS, WITH_BOTH, WITH_DRYER,
                          WITH_WETTER, does, group, group_name, outside, share)

SURE = 0.95   # of the places: a threshold reaches as far as this allows
LEAST = 0.8   # below this (lower end of the interval) it is no rule
MOST = 10

FIGURE = {
    "winter": "the coldest month's mean temperature",
    "damp": "the dampest month's mean dew point",
    "dry": "the driest month's mean dew point",
    "summer": "the warmest month's mean temperature",
}

# when: pairs of a figure and its thresholds, degF, "-" for at or below.
Rule = namedtuple("Rule", "when says claim")
Count = namedtuple("Count", "holds open_ not_so places")


def up(figure, *steps):
    return figure, 1, steps


def down(figure, *steps):
    return figure, -1, steps


def wetter(house, a, b):
    """Longer too humid under a than under b, by more than a limit allows."""
    return house[a].humid - house[b].humid > KEPT


DAMP = (56, 58, 60, 62, 64, 66, 68, 70, 72)
DRY = (20, 25, 30, 35, 40, 45, 50)
WINTER = (10, 15, 20, 25, 30, 35, 40, 45, 50)

CANDIDATES = (
    Rule([down("winter", *WINTER, 60, 80)],
         "a tight house that is left unventilated is too humid for longer than "
         "the limit allows",
         lambda h: h[NOTHING].humid > KEPT),
    Rule([up("damp", *DAMP)],
         "ventilation alone, with either core or none, does not keep the limits",
         lambda h: not does(h, *ALONE)),
    Rule([up("damp", *DAMP)],
         "a fan and a dehumidifier keep the limits",
         lambda h: does(h, *WITH_DRYER)),
    Rule([up("damp", *DAMP)],
         "an exhaust fan alone leaves the house too humid for longer than no "
         "ventilation does",
         lambda h: wetter(h, EXHAUST, NOTHING)),
    Rule([up("damp", *DAMP)],
         "the enthalpy core leaves fewer hours too humid than the heat core",
         lambda h: wetter(h, HEAT, ENTHALPY)),
    Rule([up("damp", *DAMP)],
         "windows opened only while it is drier outdoors take away less than a "
         "quarter of the hours too humid",
         lambda h: h[WINDOWS].humid > KEPT
         and h[WINDOWS].humid > 0.75 * h[NOTHING].humid),
    Rule([up("dry", *DRY, 55, 60)],
         "no humidifier is needed: some option without one keeps the limits",
         lambda h: does(h, *ALONE, *WITH_DRYER)),
    Rule([down("winter", *WINTER)],
         "an exhaust fan takes away at least half of the hours too humid of "
         "the unventilated house",
         lambda h: h[EXHAUST].humid <= 0.5 * h[NOTHING].humid),
    Rule([down("dry", *DRY)],
         "an exhaust fan or a heat core alone leaves the house too dry for "
         "longer than the limit allows",
         lambda h: h[EXHAUST].dry > KEPT and h[HEAT].dry > KEPT),
    Rule([down("winter", *WINTER)],
         "the enthalpy core keeps the house longer within the limits than the "
         "heat core",
         lambda h: outside(h[HEAT]) - outside(h[ENTHALPY]) > KEPT),
    Rule([down("dry", *DRY)],
         "the enthalpy core leaves fewer hours too dry than the heat core",
         lambda h: h[HEAT].dry - h[ENTHALPY].dry > KEPT),
    Rule([down("dry", *DRY), down("damp", *DAMP[:5], 54, 52, 50, 48)],
         "a fan and a humidifier keep the limits, without a dehumidifier",
         lambda h: does(h, *WITH_WETTER)),
    Rule([down("dry", *DRY), up("damp", *DAMP)],
         "one machine is not enough: neither a dehumidifier nor a humidifier "
         "alone, beside any of the fans tried, keeps the limits",
         lambda h: not does(h, *ALONE, *WITH_DRYER, *WITH_WETTER)),
    Rule([down("dry", *DRY)],
         "an enthalpy core with a dehumidifier and a humidifier keeps the "
         "limits",
         lambda h: does(h, *WITH_BOTH)),
    Rule([up("winter", 10, 20, 30, 40, 50)],
         "an enthalpy core with a dehumidifier and a humidifier keeps the "
         "limits",
         lambda h: does(h, *WITH_BOTH)),
    Rule([down("winter", *WINTER)],
         "a heat core takes less energy in the year than an exhaust fan",
         lambda h: h[HEAT].kwh < h[EXHAUST].kwh),
    Rule([up("damp", *DAMP)],
         "the enthalpy core takes less energy in the year than the heat core",
         lambda h: h[ENTHALPY].kwh < h[HEAT].kwh),
    Rule([up("winter", 20, 30, 40, 50)],
         "an exhaust fan does, with a machine or none: no core is needed",
         lambda h: does(h, ALONE[0], WITH_DRYER[0], WITH_WETTER[0])),
    Rule([down("winter", *WINTER)],
         "the heat core leaves the house short of fresh air for longer than "
         "the enthalpy core, for it freezes sooner",
         lambda h: h[HEAT].air - h[ENTHALPY].air > KEPT),
)

# The trade's rules of thumb in our own words: common practice, no source.
# Where each applies is our reading of its words.
THUMBS = (
    Rule([up("damp", 61)], "In a humid climate take the enthalpy core: it keeps "
         "the damp out.",
         lambda h: wetter(h, HEAT, ENTHALPY)),
    Rule([down("winter", 32)], "In a cold climate take the heat core: the other "
         "keeps the moisture in.",
         lambda h: outside(h[ENTHALPY]) - outside(h[HEAT]) > KEPT),
    Rule([down("winter", 32)], "Where winters are cold, ventilation dries the "
         "house: half the damp hours go, at least.",
         lambda h: h[EXHAUST].humid <= 0.5 * h[NOTHING].humid),
    Rule([down("winter", 32)], "In the cold, too much fresh air makes a house "
         "too dry (here already the standard's flow).",
         lambda h: h[EXHAUST].dry > KEPT),
    Rule([up("damp", 68)], "Airing dries a house, in a hot, humid summer too: a "
         "quarter of the damp hours go, at least.",
         lambda h: h[WINDOWS].humid <= 0.75 * h[NOTHING].humid),
    Rule([up("damp", 68)], "A hot, humid climate needs a dehumidifier.",
         lambda h: not does(h, *ALONE) and does(h, *WITH_DRYER)),
    Rule([down("winter", 32)], "A cold climate needs no dehumidifier: "
         "ventilation does.",
         lambda h: does(h, *ALONE, *WITH_WETTER)),
    Rule([down("damp", 50)], "In dry air ventilation alone does.",
         lambda h: does(h, *ALONE)),
    Rule([up("winter", 32), down("damp", 61)], "Where it is mild and not humid, "
         "any fan does.",
         lambda h: does(h, EXHAUST)),
    Rule([], "A dehumidifier makes up for fresh air.",
         lambda h: h[DRYER].does),
)


def celsius(f):
    return (f - 32) / 1.8  # exact


def so(place, conditions):
    return all(sign * (place.figures[figure] - celsius(f)) >= 0
               for figure, sign, f in conditions)


def where(conditions):
    parts = [f"{FIGURE[figure]} is {f} °F ({celsius(f):.0f} °C) or "
             f"{'more' if sign > 0 else 'less'}"
             for figure, sign, f in conditions]
    return " and ".join(parts) if parts else "anywhere"


def verdict(s):
    return "holds" if s >= OFTEN else "not so" if s <= RARELY else "open"


def judged(rule, places):
    """(place, verdict) of those where its options were marched."""
    told = ((p, share(p, rule.claim)) for p in places)
    return [(p, verdict(s)) for p, s in told if s is not None]


def count(told):
    n = Counter(v for _, v in told)
    return Count(n["holds"], n["open"], n["not so"], len(told))


def lower(holds, n):
    """Lower end of Wilson's interval of a share, 95 of 100 (E. B. Wilson, 1927,
    from memory)."""
    z = 1.96
    if n == 0:
        return 0.0
    p = holds / n
    return ((p + z * z / (2 * n)
             - z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n)))
            / (1 + z * z / n))


def widest(rule, places):
    """The thresholds of the rule that reach most places while it is sure;
    where none is, the surest.  (conditions, told) or None."""
    told = dict((p.station, (p, v)) for p, v in judged(rule, places))
    least = max(3, len(told) // 50)
    best = None
    for steps in itertools.product(*(w[2] for w in rule.when)):
        conditions = [(w[0], w[1], f) for w, f in zip(rule.when, steps)]
        there = [t for t in told.values() if so(t[0], conditions)]
        if len(there) < least:
            continue
        c = count(there)
        sure = c.holds >= SURE * c.places
        rank = (sure, c.places if sure else lower(c.holds, c.places))
        if best is None or rank > best[0]:
            best = (rank, conditions, there)
    return best and best[1:]


def surest(places):
    """Up to MOST (rule, conditions, told), surest first, each claim once."""
    found = {}
    for rule in CANDIDATES:
        w = widest(rule, places)
        sure = w and lower(count(w[1]).holds, len(w[1]))
        if w and sure >= LEAST and sure > found.get(rule.says, (0,))[0]:
            found[rule.says] = (sure, rule, *w)
    return [f[1:] for f in sorted(found.values(), key=lambda f: -f[0])][:MOST]


# ---- in words --------------------------------------------------------------------

def names(told, kind, most=3):
    list_ = [p.label() for p, v in told if v == kind]
    more = len(list_) - most
    return "; ".join(list_[:most]) + (f"; and {more} more" if more > 0 else "")


def exceptions(told):
    c = count(told)
    parts = []
    if c.open_:
        parts.append(f"open in {c.open_} ({names(told, 'open')})")
    if c.not_so:
        parts.append(f"not so in {c.not_so} ({names(told, 'not so')})")
    return ("; ".join(parts) + ".") if parts else "no exception among them."


def place_of(conditions, told, places):
    """Where a rule is about; a threshold that all places pass is none."""
    if told.places == len(places):
        return "In any of these places"
    return f"Where {where(conditions)}"


def rules_text(places):
    found = surest(places)
    tried = len({rule.says for rule in CANDIDATES})
    yield (f"{len(found)} of {tried} claims that were tried, in {len(places):,} "
           "places.")
    yield ""
    for i, (rule, conditions, told) in enumerate(found, 1):
        c = count(told)
        yield (f"{i}. **{place_of(conditions, c, places)}, {rule.says}.** "
               f"Holds in {c.holds:,} of {c.places:,} such places; "
               f"{exceptions(told)}")


def grade(c):
    """A word for the count: our own grades."""
    if c.places == 0:
        return "no such place"
    if c.holds >= 0.9 * c.places:
        return "right"
    if c.not_so >= 0.9 * c.places:
        return "wrong"
    if c.holds > 0.5 * c.places:
        return "mostly right"
    return "mostly wrong" if c.not_so > 0.5 * c.places else "it depends"


def worst(told):
    """The groups where it is not so in most places, two at most."""
    bad = Counter(group(p) for p, v in told if v == "not so")
    return "; ".join(f"{group_name(g)}: {n}" for g, n in bad.most_common(2))


def thumbs_text(places):
    yield ("| rule of thumb | where | is | holds | open | not so | mostly not "
           "so where |")
    yield "|---|---|---|--:|--:|--:|---|"
    for rule in THUMBS:
        conditions = [(w[0], w[1], w[2][0]) for w in rule.when]
        told = [t for t in judged(rule, places) if so(t[0], conditions)]
        c = count(told)
        yield (f"| {rule.says} | {where(conditions)} | {grade(c)} | {c.holds} "
               f"| {c.open_} | {c.not_so} | {worst(told) or '-'} |")
