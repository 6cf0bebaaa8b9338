#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Turn a survey of the atlas's house into answers.

usage: atlas.py SURVEY.sqlite ROOT [STATES.json]
       atlas.py --try

Writes, under ROOT, weather/answers.csv, docs/img/atlas.svg and the marked parts
of docs/atlas.md.  STATES.json holds the state lines (us-atlas, states-10m.json);
without it the map has none and says so.  --try holds it to a small table
counted by hand.
"""
import os
import sys
from collections import Counter

import atlas_map
import atlas_rules
from atlas_places import (ALONE, CLASSES, DRYER, EXHAUST, FANS, HEAT, NOTHING,
                          RUNGS, WINDOWS, WITH_BOTH, WITH_DRYER, WITH_WETTER,
                          group_name, groups, middle, one, read_houses,
                          read_places, share)

UNTIL = "<!-- until here -->"
ANSWERS = (
    "# What kept an invented tight house within the limits in most houses drawn, "
    "by place (docs/atlas.md; `make atlas`)\n"
    "station,answer,besides,fan,does_of_100,ventilation_of_100,"
    "dehumidifier_of_100,humidifier_of_100,both_of_100,core\n")


def percent(s):
    return f"{100 * s:.0f}"


# ---- what is compiled in --------------------------------------------------------

def answers(places):
    yield ANSWERS
    for p in places:
        a = p.answer
        yield ",".join([p.station, CLASSES[a.kind][0], RUNGS[a.nearest][0],
                        a.fan.split()[0] if a.fan else "none",
                        percent(a.share), *map(percent, a.reach),
                        a.core]) + "\n"


# ---- the tables of the document ---------------------------------------------------

def glance(places):
    yield ("![A mark for each place: what keeps a tight house within the "
           "limits](img/atlas.svg)")
    yield ""
    yield ("| what keeps it within the limits | on the map | places | near an "
           "edge | an exhaust fan is enough | mostly where |")
    yield "|---|---|--:|--:|--:|---|"
    for kind, (_, _, words, letter) in enumerate(CLASSES):
        there = [p for p in places if p.answer.kind == kind]
        tried = [p for p in there if p.answer.plain is not None]
        plain = sum(not atlas_map.filled(p.answer) for p in tried)
        yield (f"| {words} | {letter} | {len(there):,} "
               f"| {sum(p.answer.edge for p in there):,} "
               f"| {f'{plain:,}' if tried and kind < len(RUNGS) else '-'} "
               f"| {mostly(there)} |")
    yield ""
    half = sum(p.answer.reach[0] >= 0.5 for p in places)
    both = [p.answer for p in places
            if p.answer.kind == len(RUNGS) - 1]
    one_too = sum(max(a.reach[1:3]) >= 0.5 for a in both)
    yield (f"{len(places):,} places, {houses_each(places)} houses drawn in each. "
           f"Ventilation alone does in half of the houses or more in {half:,} "
           f"places. Of the {len(both):,} that take both machines one does in half "
           f"of the houses or more in {one_too:,}. Near an edge: by 70 or by 90 "
           "of 100 houses in place of 80 it would be another answer.")


def houses_each(places):
    n = sorted({len(p.houses) for p in places})
    return str(n[0]) if len(n) == 1 else f"{n[0]} to {n[-1]}"


def mostly(places, most=2):
    found = Counter(group_name(g) for g, there in groups(places).items()
                    for _ in there)
    return "; ".join(f"{g} ({n})" for g, n in found.most_common(most)) or "-"


def climates(places):
    yield ("| climate | places | " + " | ".join(c[3] for c in CLASSES)
           + " | enthalpy core | heat core | alike | open |")
    yield "|---|" + "--:|" * (len(CLASSES) + 5)
    for key, there in groups(places).items():
        kinds = Counter(p.answer.kind for p in there)
        cores = Counter(p.answer.core for p in there)
        cells = [kinds[k] for k in range(len(CLASSES))]
        cells += [cores[c] for c in ("enthalpy", "heat", "alike", "open")]
        yield (f"| {group_name(key)} | {len(there):,} | "
               + " | ".join(f"{c:,}" if c else "" for c in cells) + " |")


HEADS = (EXHAUST, WITH_DRYER[0], WITH_WETTER[0], HEAT, WITH_WETTER[1], FANS[2],
         WITH_DRYER[2], WITH_WETTER[2], WITH_BOTH[2])


def mean(values):
    """Of those that are there; None of none."""
    known = [v for v in values if v is not None]
    return sum(known) / len(known) if known else None


def cell(value, text="{:,.0f}"):
    return "" if value is None else text.format(value)


def options(places):
    yield "| climate | " + " | ".join(HEADS) + " |"
    yield "|---|" + "--:|" * len(HEADS)
    for key, there in groups(places).items():
        does = [mean(share(p, one(o)) for p in there) for o in HEADS]
        yield (f"| {group_name(key)} | " + " | ".join(
            cell(None if d is None else 100 * d) for d in does) + " |")


HOURS = ((NOTHING, "humid"), (WINDOWS, "humid"), (DRYER, "humid"),
         (EXHAUST, "humid"), (EXHAUST, "dry"), (HEAT, "humid"), (HEAT, "dry"),
         (ALONE[2], "humid"), (ALONE[2], "dry"))


def hours(places):
    yield ("| climate | " + " | ".join(f"{o}: too {what}" for o, what in HOURS)
           + " |")
    yield "|---|" + "--:|" * len(HOURS)
    for key, there in groups(places).items():
        middles = [mean(middle(p, lambda h, o=o, w=w: getattr(h[o], w))
                        for p in there) for o, w in HOURS]
        yield f"| {group_name(key)} | " + " | ".join(map(cell, middles)) + " |"


PARTS = {"glance": glance, "climates": climates, "options": options,
         "hours": hours, "rules": atlas_rules.rules_text,
         "thumbs": atlas_rules.thumbs_text}


def document(text, places):
    """The text with each marked part made anew."""
    for name, part in PARTS.items():
        start = f"<!-- made by `make atlas`: {name} -->"
        before, rest = text.split(start, 1)
        after = rest.split(UNTIL, 1)[1]
        made = ("\n".join(part(places)) if places else
                "No survey has been run: `make atlas`.")
        text = f"{before}{start}\n\n{made}\n\n{UNTIL}{after}"
    return text


def write(path, text):
    """Whole or not at all."""
    with open(path + ".part", "w", encoding="utf-8") as out:
        out.write(text)
    os.replace(path + ".part", path)


def main(survey, root, states=None):
    if not os.path.exists(survey):
        sys.exit(f"atlas.py: {survey}: there is no such file; `make atlas` "
                 "makes it")
    known = read_places(os.path.join(root, "weather", "climates.csv"))
    places = read_houses(survey, known)
    page = os.path.join(root, "docs", "atlas.md")
    with open(page, encoding="utf-8") as text:
        made = document(text.read(), places)
    if places:
        write(os.path.join(root, "docs", "img", "atlas.svg"),
              atlas_map.draw(places, states))
    write(os.path.join(root, "weather", "answers.csv"), "".join(answers(places)))
    write(page, made)


if __name__ == "__main__":
    if sys.argv[1:] == ["--try"]:
        import atlas_try
        sys.exit(atlas_try.run())
    if len(sys.argv) not in (3, 4):
        sys.exit(__doc__)
    main(*sys.argv[1:])
