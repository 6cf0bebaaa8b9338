# SPDX-License-Identifier: GPL-3.0-or-later
"""The map of the atlas: a mark for each place, told apart by shape and colour.

Equal-area conic projection of the sphere (J. P. Snyder, USGS Professional Paper
1395, 1987, equations 14-1 to 14-6, from memory).  State lines, where the file
is there, are those of us-atlas (ISC licence), from U.S. Census boundaries.
"""
import json
import math
import os
from collections import namedtuple
from html import escape

from atlas_places import CLASSES, OFTEN

WIDTH, HEIGHT = 800, 738
LEAST_STEP = 1.2  # px  of a line: finer is not seen

# box: x, y, width, height; scale: px per earth radius at most.
Region = namedtuple("Region", "title states fips parallels middle box scale")
APART = ("AK", "HI")  # all of the table that is not on the mainland
REGIONS = (
    Region("", None, None, (29.5, 45.5), (37.5, -96), (8, 52, 784, 480), 2000),
    Region("Alaska", ("AK",), ("02",), (55, 65), (60, -154),
           (8, 556, 300, 148), 2000),
    Region("Hawaii", ("HI",), ("15",), (8, 18), (20, -157),
           (324, 556, 180, 148), 1500),
)

# Path of a mark about 0, 0 and its colour: each 4.5 to 1 on white or more.
MARKS = (
    ("M-3.6 0a3.6 3.6 0 1 0 7.2 0a3.6 3.6 0 1 0 -7.2 0z", "#1d7044"),
    ("M-4 -3.2H4L0 4.2z", "#2350a8"),
    ("M-4 3.2H4L0 -4.2z", "#b04a12"),
    ("M-3.3 -3.3H3.3V3.3H-3.3z", "#7b2c83"),
    ("M-3.3 -3.3L3.3 3.3M-3.3 3.3L3.3 -3.3", "#16202b"),
)
STYLE = """
text{font:13px 'Helvetica Neue',Arial,'Liberation Sans',sans-serif;fill:#16202b}
.head{font-size:17px;font-weight:700}
.note{font-size:12px;fill:#3d4954}
.line{fill:none;stroke:#9aa3ab;stroke-width:.8;stroke-linejoin:round}
.box{fill:none;stroke:#dcd8cb}
.mark path{stroke-width:1.3;stroke-linejoin:round}
"""


def conic(region):
    """lat, lon -> x, y in earth radii, y down."""
    one, two = (math.radians(p) for p in region.parallels)
    n = 0.5 * (math.sin(one) + math.sin(two))
    c = math.cos(one) ** 2 + 2 * n * math.sin(one)

    def radius(lat):
        return math.sqrt(c - 2 * n * math.sin(math.radians(lat))) / n

    def project(lat, lon):
        off = (lon - region.middle[1] + 540) % 360 - 180
        a, r = n * math.radians(off), radius(lat)
        return r * math.sin(a), r * math.cos(a) - radius(region.middle[0])
    return project


def belongs(region, place):
    if region.states is None:
        return place.state not in APART
    return place.state in region.states


# ---- state lines ------------------------------------------------------------------

def read_arcs(path):
    """{FIPS number: arcs} and the arcs as lists of (lat, lon); None, None where
    there is no file."""
    if not path or not os.path.exists(path):
        return None, None
    with open(path, encoding="utf-8") as text:
        topo = json.load(text)
    (sx, sy), (tx, ty) = topo["transform"]["scale"], topo["transform"]["translate"]
    arcs = []
    for arc in topo["arcs"]:
        x = y = 0
        line = []
        for dx, dy in arc:
            x, y = x + dx, y + dy
            line.append((y * sy + ty, x * sx + tx))
        arcs.append(line)
    used = {}
    for state in topo["objects"]["states"]["geometries"]:
        used[str(state["id"])] = flat(state.get("arcs", []))
    return used, arcs


def flat(nested):
    """Numbers of arcs, whichever way round: ~i is arc i backwards."""
    if isinstance(nested, int):
        return {nested if nested >= 0 else ~nested}
    return set().union(*(flat(n) for n in nested)) if nested else set()


def region_lines(region, used, arcs):
    """Arcs of its states; of the mainland all below 57 but Alaska and Hawaii."""
    if used is None:
        return []
    apart = [f for r in REGIONS for f in r.fips or ()]
    wanted = set()
    for fips, numbers in used.items():
        if fips in (region.fips or ()) or (
                not region.fips and fips < "57" and fips not in apart):
            wanted |= numbers
    return [arcs[i] for i in sorted(wanted)]


def thinned(points):
    """A line without the points that lie closer than LEAST_STEP; "" of a speck."""
    kept = [points[0]]
    for p in points[1:]:
        if math.dist(p, kept[-1]) >= LEAST_STEP:
            kept.append(p)
    if len(kept) == 1 and math.dist(points[0], points[-1]) < LEAST_STEP:
        return ""
    if kept[-1] != points[-1]:
        kept.append(points[-1])
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in kept)


# ---- the parts of the picture --------------------------------------------------------

def fitted(region, seen):
    """lat, lon -> px, so that all that is seen fills the box."""
    project = conic(region)
    x, y, width, height = region.box
    xs, ys = zip(*(project(*p) for p in seen))
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = min(region.scale, (width - 20) / max(wide, 1e-9),
                (height - 34) / max(high, 1e-9))
    left = x + 0.5 * width - 0.5 * scale * (max(xs) + min(xs))
    top = y + 10 + 0.5 * height - 0.5 * scale * (max(ys) + min(ys))

    def to(lat, lon):
        px, py = project(lat, lon)
        return left + scale * px, top + scale * py
    return to


def mark(kind, filled, x, y, title=""):
    path, colour = MARKS[kind]
    fill = colour if filled else "#ffffff"
    inside = f"<title>{escape(title)}</title>" if title else ""
    return (f'<path transform="translate({x:.1f} {y:.1f})" d="{path}" '
            f'fill="{fill}" stroke="{colour}">{inside}</path>')


def filled(answer):
    """A core is needed: an exhaust fan does not do it on that rung."""
    return answer.kind == len(CLASSES) - 1 or answer.plain is None or \
        answer.plain < OFTEN


def region_svg(region, places, used, arcs):
    there = [p for p in places if belongs(region, p)]
    lines = region_lines(region, used, arcs)
    seen = [q for line in lines for q in line] + [(p.lat, p.lon) for p in there]
    if not there:
        return
    if region.title:
        x, y, width, height = region.box
        yield (f'<rect class="box" x="{x}" y="{y}" width="{width}" '
               f'height="{height}"/>')
        yield f'<text class="note" x="{x + 6}" y="{y + 15}">{region.title}</text>'
    to = fitted(region, seen)
    drawn = "".join(thinned([to(*q) for q in line]) for line in lines)
    if drawn:
        yield f'<path class="line" d="{drawn}"/>'
    yield '<g class="mark">'
    often = [sum(p.answer.kind == k for p in there) for k in range(len(CLASSES))]
    for p in sorted(there, key=lambda p: -often[p.answer.kind]):  # rare on top
        yield mark(p.answer.kind, filled(p.answer), *to(p.lat, p.lon),
                   f"{p.label()}: {CLASSES[p.answer.kind][2]}")
    yield "</g>"


def legend(places):
    x, y = 536, 572
    yield '<g class="mark">'
    for k, (_, _, words, letter) in enumerate(CLASSES):
        n = sum(p.answer.kind == k for p in places)
        yield mark(k, True, x, y + 22 * k)
        yield (f'<text x="{x + 14}" y="{y + 22 * k + 4.5}">{letter} {words}: '
               f'{n:,}</text>')
    y += 22 * len(CLASSES)
    yield mark(1, False, x, y)
    yield (f'<text x="{x + 14}" y="{y + 4.5}">hollow: an exhaust fan is enough'
           '</text></g>')


def draw(places, lines_path):
    """The whole picture as text."""
    used, arcs = read_arcs(lines_path)
    note = "Filled: a heat or enthalpy core does it, or is all that was tried."
    if used is None:
        note += " State lines were not at hand."
    else:
        note += " State lines: us-atlas (U.S. Census)."
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" '
           f'height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
           'aria-labelledby="t d">',
           '<title id="t">What keeps a tight house within the limits</title>',
           '<desc id="d">A mark for each place: the least that brings fresh air '
           'and keeps the limits in 80 of 100 houses drawn.</desc>',
           f"<style>{STYLE}</style>",
           f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>',
           '<text class="head" x="12" y="24">What it takes to keep a tight house '
           'within the limits</text>',
           '<text class="note" x="12" y="42">The least that does in 80 of 100 '
           f'houses drawn around one invented house, in {len(places):,} places'
           '</text>']
    for region in REGIONS:
        out.extend(region_svg(region, places, used, arcs))
    out.extend(legend(places))
    out.append(f'<text class="note" x="12" y="728">{note}</text>')
    out.append("</svg>\n")
    return "\n".join(out)
