# SPDX-License-Identifier: GPL-3.0-or-later
"""Every figure that stands in more than one output of a scenario is the same.

usage: one_truth.py DEWLEDGER SCENARIO.yaml FOLDER [run's words...]
Reads `run` as text, JSON, page, sheets and hours, and `ducts` as text and
JSON; prints a line "ok ..." or "not ok ..." for each group of figures.
"""
import csv
import glob
import html
import json
import os
import re
import subprocess
import sys

CFM = 0.4719474432  # L/s, exact
SHIPPED = os.path.join(os.path.dirname(os.path.abspath(__file__)), "shipped.sh")
bad = []
checked = 0


def same(where, told, kept, within):
    """A printed figure is what is kept, to half its last digit."""
    global checked
    checked += 1
    if not abs(told - kept) <= within + 1e-9 * abs(kept):
        bad.append(f"{where}: told {told:g}, kept {kept:g}")


def number(text):
    return float(re.sub(r"[,$*%]", "", text))


def told(where, text, kept):
    """The same for a figure as text: half of its last digit printed."""
    plain = re.sub(r"[,$*%]", "", text)
    if plain in ("-", "never", "none"):
        return
    digits = len(plain.split(".")[1]) if "." in plain else 0
    same(where, float(plain), kept, 0.5 * 10 ** -digits)


def run(*words):
    done = subprocess.run(words, check=False, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"not ok {' '.join(words)}: {done.stderr}")
    return done.stdout


# ---- the hours against the summary ------------------------------------------

def months_of(option, path):
    total = sum(m["hours"]["too_humid"] for m in option["months"])
    same(path + ": months too humid", total, option["hours"]["too_humid"], 0)
    for key in ("too_dry", "glass_wet", "fresh_air_below_required"):
        total = sum(m["hours"][key] for m in option["months"])
        same(f"{path}: months {key}", total, option["hours"][key], 1e-6)
    total = sum(m["energy_kwh"]["total"] for m in option["months"])
    same(path + ": months' energy", total, option["energy_kwh"]["total"], 1e-6)


def hours_of(option, path):
    with open(path, encoding="ascii") as file:
        names, *rows = csv.reader(file)
    cells = dict(zip(names, zip(*rows, strict=True), strict=True))
    count, where = len(rows), os.path.basename(path)

    numbers = {}

    def column(name):
        if name not in numbers:
            numbers[name] = [float(x) for x in cells[name] if x != ""]
        return numbers[name]

    def mean(name):
        return sum(column(name)) / count

    hours, air = option["hours"], option["fresh_air_l_s"]
    same(where + ": hours", count, hours["counted"], 0)
    same(where + ": too humid", sum(column("counted_too_humid")),
         hours["too_humid"], 0)
    same(where + ": too dry", sum(column("counted_too_dry")),
         hours["too_dry"], 0)
    # 0.05 point beyond the limit; an hour may lie within the digits of it
    line = option["too_humid_above_pct"] + 0.05
    near = sum(abs(x - line) < 1e-4 for x in column("indoor_rh_pct"))
    above = sum(x > line for x in column("indoor_rh_pct"))
    same(where + ": humid by RH", above, hours["too_humid"], near)
    same(where + ": delivered", mean("fresh_air_l_s"), air["delivered"], 0.005)
    same(where + ": drawn in", mean("drawn_by_exhaust_fan_l_s"),
         air["drawn_by_exhaust_fan"], 0.005)
    same(where + ": leaks", mean("leakage_l_s"), option["leakage_l_s"], 0.005)
    same(where + ": RH", mean("indoor_rh_pct"), option["rh_pct"]["mean"], 1e-3)
    same(where + ": CO2", mean("co2_ppm"), option["co2_ppm"]["mean"], 0.5)
    same(where + ": ventilator h", sum(column("ventilator_duty_pct")) / 100,
         option["running_h"]["ventilator"], 0.005 * count / 100 + 1e-6)
    used = (option["energy_kwh"]["total"]
            - option["energy_kwh"]["heating_fuel"])
    same(where + ": electricity", sum(column("electricity_w")) / 1000, used,
         0.05 * count / 1000)
    brought = [a + b for a, b in zip(column("fresh_air_l_s"),
               column("drawn_by_exhaust_fan_l_s"), strict=True)]
    near = sum(abs(x - air["required"]) < 0.011 for x in brought)
    below = sum(x < air["required"] for x in brought)
    same(where + ": below what is asked", below,
         hours["fresh_air_below_required"], near)
    if air["counted"] > air["delivered"] + air["drawn_by_exhaust_fan"] + 1e-9:
        bad.append(where + ": more counts than is brought")
    met = air["required"] == 0 or air["counted"] >= 0.95 * air["required"]
    if met != option["delivers_required_air"]:
        bad.append(where + ": passes with less air than is asked for")
    for date, month, day in set(zip(cells["date"], cells["month"],
                                    cells["day"], strict=True)):
        if not date.endswith(f"{int(month):02d}-{int(day):02d}"):
            bad.append(where + ": date " + date)
            break


# ---- text and page against the summary ----------------------------------------

def flow(l_s, si):
    return l_s if si else l_s / CFM


def tables(options, si):
    """Of each option, what the rows of a table tell, by words of the table."""
    mould = [max(s["mould_index"] for s in o["surfaces"].values())
             for o in options]
    return {
        "Humidity and fresh air": lambda i, o: [
            o["hours"]["too_humid"],
            max(m["hours"]["too_humid"] for m in o["months"]),
            o["hours"]["longest_too_humid"], o["hours"]["too_dry"],
            o["hours"]["outdoor_air_could_dry"],
            flow(o["fresh_air_l_s"]["counted"], si),
            flow(o["fresh_air_l_s"]["required"], si),
            o["energy_kwh"]["total"]],
        "Air quality, surfaces and frost": lambda i, o: [
            o["rh_pct"]["mean"], o["rh_pct"]["p95"], o["hours"]["glass_wet"],
            o["hours"]["corner_above_80_pct"], mould[i], o["co2_ppm"]["mean"],
            o["hours"]["co2_above_1000_ppm"]],
        "Hours too humid, by month": lambda i, o: [
            m["hours"]["too_humid"] for m in o["months"]
        ] + [o["hours"]["too_humid"]],
        "Money": lambda i, o: [
            o["money"]["install"]["likely"], o["money"]["yearly"]["likely"],
            o["money"]["present_value"]["likely"]],
        "Where outdoor air comes in, and what of it counts": lambda i, o: [
            flow(o["fresh_air_l_s"]["delivered"], si),
            flow(o["fresh_air_l_s"]["drawn_by_exhaust_fan"], si),
            flow(o["leakage_l_s"], si),
            flow(o["fresh_air_l_s"]["counted"], si),
            flow(o["fresh_air_l_s"]["required"], si)],
    }


def compare(where, cells, kept):
    for k, (cell, value) in enumerate(zip(cells, kept)):
        told(f"{where}, figure {k + 1}", cell, value)


def text_of(text, options, si):
    """Rows "3 name   1 2 3" of the tables of run's text, in their order."""
    want = tables(options, si)
    blocks = [("^option +hours +hours +hours +hours +hours ", "Humidity and fresh air"),
              ("^option +% +% +hours ", "Air quality, surfaces and frost"),
              ("^option +Jan Feb", "Hours too humid, by month"),
              ("^option +once +a year +money", "Money"),
              ("^option +to rooms",
               "Where outdoor air comes in, and what of it counts")]
    for head, name in blocks:
        part = re.split(head, text, maxsplit=1, flags=re.M)[1].split("\n")[1:]
        for i, option in enumerate(options):
            kept = want[name](i, option)
            cells = part[i].split()
            if not part[i].startswith(f"{i + 1} "):
                bad.append(f"text, {name}: no row {i + 1}")
                continue
            # how many columns stand behind those that are compared
            more = {"Air quality, surfaces and frost": 2, "Money": 1}
            cells = cells[-len(kept) - more.get(name, 0):]
            compare(f"text, {name}, option {i + 1}", cells, kept)


def page_of(page, options, si):
    want = tables(options, si)
    for name in ("Humidity and fresh air", "Air quality, surfaces and frost"):
        part = page.split(f"<caption>{name}</caption>", 1)[1]
        part = part.split("</table>", 1)[0]
        rows = re.findall(r"<tr[^>]*><th scope=\"row\">(.*?)</tr>", part, re.S)
        for i, option in enumerate(options):
            cells = [html.unescape(re.sub("<.*?>", "", c))
                     for c in re.findall(r"<td.*?>(.*?)</td>", rows[i])]
            compare(f"page, {name}, option {i + 1}", cells,
                    want[name](i, option))


N = "([0-9,]+)"
HOURS = N + " hours?"


def sentences_of(text, options, si):
    """The figures of the verdict's sentences, and of a rule of thumb."""
    line = re.sub(r"\s+", " ", text)
    today = options[0]["hours"]
    by_name = {o["name"]: o for o in options}
    for pattern, kept in (
            (r"Today the house is too humid \(above [0-9.]+ % relative "
             r"humidity\) in " + HOURS, "too_humid"),
            (r"glass is wet in " + HOURS, "glass_wet"),
            (r"In " + N + r" of the " + N + r" hours? too humid cooling is off",
             "too_humid_with_cooling_idle")):
        for found in re.findall(pattern, line):
            if isinstance(found, tuple):
                told("sentence, too humid", found[1], today["too_humid"])
                found = found[0]
            told("sentence, " + kept, found, today[kept])
    for name, option in by_name.items():
        quoted = re.escape(f'"{name}"')
        hours = option["hours"]
        for pattern in (quoted + " is too humid in " + HOURS,
                        "with " + quoted + " the house is (?:still )?too humid "
                        "in " + HOURS):
            for found in re.findall(pattern, line):
                told(f"sentence, {name} too humid", found, hours["too_humid"])
        for many in re.findall(r"gets damper: too humid in ([^.]*)\.", line):
            for found in re.findall(N + "(?: hours a year)? with " + quoted,
                                    many):
                told(f"damper, {name}", found, hours["too_humid"])
        for a, b, c in re.findall(quoted + ": " + HOURS + " too humid, " + N +
                                  " too dry, " + N + " of wet glass", line):
            told(f"nearest, {name} humid", a, hours["too_humid"])
            told(f"nearest, {name} dry", b, hours["too_dry"])
            told(f"nearest, {name} glass", c, hours["glass_wet"])
        unit = r"L/s" if si else "cfm"
        air = option["fresh_air_l_s"]
        for a in re.findall(quoted + r" brings ([0-9.]+) " + unit, line):
            told(f"sentence, {name} brings", a, flow(air["counted"], si))
        for b in re.findall(quoted + r" brings [0-9.]+ " + unit
                            + r" of the ([0-9.]+) " + unit, line):
            told(f"sentence, {name} asked", b, flow(air["required"], si))
    for found in re.findall("today in " + N, line):
        told("sentence, today in", found, today["too_humid"])
    for found, i in re.findall(r"Keep relative humidity below 60 %: hours above "
                               r"it [^:]*: rule 0 hours, here " + N +
                               r" hours \(option ([0-9]+)\)", line):
        if options[int(i) - 1]["too_humid_above_pct"] == 60:
            told("rule of thumb, hours above 60 %", found,
                 options[int(i) - 1]["hours"]["too_humid"])
    for i, found in re.findall(COMPUTED, line):
        told("caution, pressure", found,
             options[int(i or 1) - 1]["pressure_all_exhausts_min_pa"])


# ---- ducts against the run -----------------------------------------------------

def ducts_of(layout, option):
    """Of a year between the states; where all are alike, their flow while it
    runs and does not defrost."""
    name = option["name"]
    on = [s for s in layout["states"] if s["ventilator"] == "on"]
    flows = [s["fresh_delivered_l_s"] for s in on]
    hours = option["running_h"]["ventilator"] - option["hours"]["defrost"]
    share = hours / option["hours"]["counted"]
    least, most = min(flows) * share, max(flows) * share
    delivered = option["fresh_air_l_s"]["delivered"]
    slack = 0.01 * most
    same(f"ducts, {name}: fresh air of the year",
         min(max(delivered, least), most), delivered, slack)
    same(f"ducts, {name}: asked for", layout["fresh_required_l_s"],
         option["fresh_air_l_s"]["required"], 1e-6)


# "Computed for option 2, kitchen hood and ventilator at once: -12.4 Pa"
COMPUTED = r"Computed(?: for option ([0-9]+))?, [^:.<]*: (-?[0-9.]+) Pa"


def pressure_row(where, rows, option):
    """Of all fans: the figure, that it is past 50 Pa, or that a fan of the list
    is not told."""
    cell = rows.get("with every fan at once", ["no row"])[0]
    pressure = option["pressure_all_exhausts_min_pa"]
    if pressure is None and option["pressure_not_told"]:
        ok = cell == "not computed"
    elif pressure is not None and pressure < -50:
        ok = cell == "more than 50 Pa"
    elif pressure is not None:
        return told(where + ": with every fan at once", cell.split(" ")[0],
                    pressure)
    else:
        ok = False
    if not ok:
        bad.append(f"{where}: with every fan at once: {cell}, {pressure}")
    return None


# ---- the sheets ----------------------------------------------------------------

def rows_of(page):
    rows = {}
    for name, rest in re.findall(r"<tr><th scope=\"row\">(.*?)</th>(.*?)</tr>",
                                 page, re.S):
        rows.setdefault(html.unescape(name), []).append(
            [html.unescape(re.sub("<.*?>", "", c))
             for c in re.findall(r"<td.*?>(.*?)</td>", rest, re.S)])
    return rows


def contractor_of(page, where, layout, option, ducts_text):
    """Its targets are those of `ducts`, its pressure that of the option."""
    for _, found in re.findall(COMPUTED, page):
        told(where + ": pressure", found,
             option["pressure_all_exhausts_min_pa"])
    if layout is None:
        return
    rows = rows_of(page)
    targets = re.findall(r"^(.+?) +(fresh|stale) +([0-9.]+) +([0-9.]+ to "
                         r"[0-9.]+) ", ducts_text, re.M)
    for room, _, design, right in targets:
        cells = [c[:2] for c in rows.get(room.strip(), [])]
        if [design, right] not in cells:
            bad.append(f"{where}: {room.strip()} is {design}, {right} by "
                       f"`ducts`, on the sheet {cells}")
    for what, design, right in re.findall(
            r"^ventilator +(fresh in|stale out) +([0-9.]+) +([0-9.]+ to "
            r"[0-9.]+) ", ducts_text, re.M):
        cells = [c[:2] for c in rows.get("together, at the hood", [])]
        if [design, right] not in cells:
            bad.append(f"{where}: {what} is {design} by `ducts`, on the sheet "
                       f"{cells}")


def inspector_of(page, where, option, si):
    rows = {k: v[0] for k, v in rows_of(page).items()}
    hours, air = option["hours"], option["fresh_air_l_s"]

    def row(name, kept):
        if name not in rows:
            bad.append(f"{where}: no row {name}")
        else:
            told(f"{where}: {name}", rows[name][0].split(" ")[0], kept)

    row("fresh air that counts, mean", flow(air["counted"], si))
    row("hours too humid", hours["too_humid"])
    row("hours too dry", hours["too_dry"])
    row("hours of wet glass", hours["glass_wet"])
    row("hours below that", hours["fresh_air_below_required"])
    row("CO2, mean, ppm", option["co2_ppm"]["mean"])
    row("hours above 1000 ppm", hours["co2_above_1000_ppm"])
    pressure_row(where, rows, option)
    worst = [k for k in rows if k.startswith("mould index, worst surface")]
    if len(worst) == 1:
        row(worst[0], max(s["mould_index"] for s in option["surfaces"].values()))
    else:
        bad.append(where + ": no mould index")


# ---- the whole -----------------------------------------------------------------

def say(what):
    global bad, checked
    if checked == 0:
        bad.append("nothing was compared")
    print(f"{'not ok' if bad else 'ok'} {what} ({checked} figures)")
    for line in bad[:20]:
        print("    " + line)
    failed, bad, checked = len(bad), [], 0
    return failed


def main():
    program, scenario, folder, *words = sys.argv[1:]
    name = os.path.basename(scenario)
    si = "si" in words
    if words:
        out = os.path.join(folder, name + ".out")
        kept = os.path.join(folder, name + ".kept")
        os.makedirs(kept, exist_ok=True)
        text = run(program, "run", scenario, "--full", "--draws", "3", "--out", out,
                   "--kept", kept, *words)
    else:
        known = run("sh", SHIPPED, scenario).strip()
        out, kept = os.path.join(known, "set"), os.path.join(known, "kept")
        text = open(os.path.join(known, "full"), encoding="utf-8").read()
    summary = json.load(open(os.path.join(out, "summary.json"),
                             encoding="utf-8"))
    options = summary["options"]
    failed = 0

    files = sorted(glob.glob(os.path.join(out, "hours-*.csv")),
                   key=lambda p: int(re.search(r"hours-(\d+)", p).group(1)))
    for option, path in zip(options, files):
        months_of(option, option["name"])
        hours_of(option, path)
    failed += say(f"{name}: hours recount to the summary")
    text_of(text, options, si)
    failed += say(f"{name}: the text's tables are the summary's")
    page_of(open(os.path.join(out, "report.html"), encoding="utf-8").read(),
            options, si)
    failed += say(f"{name}: the page's tables are the summary's")
    sentences_of(text, options, si)
    failed += say(f"{name}: sentences say what the tables say")

    layouts = {l["option"]: l for l in json.loads(
        run(program, "ducts", scenario, "--json", *words))["layouts"]}
    for option in options:
        if option["name"] in layouts:
            ducts_of(layouts[option["name"]], option)
    if layouts:
        failed += say(f"{name}: ducts and run have one fresh air")

    # one option in three, and the last; EVERY=1: each
    step = 1 if os.environ.get("EVERY") else 3
    for option in options[-1:0:-step]:
        picked = os.path.join(folder, "picked")
        # the last is marched anew: by itself, as it was not in the set
        anew = [] if option is options[-1] else ["--kept", kept]
        run(program, "run", scenario, "--full", "--quick", "--option", option["name"], "--out",
            picked, *anew, *words)
        layout = layouts.get(option["name"])
        ducts_text = run(program, "ducts", scenario, "--full", "--option",
                         option["name"], *words)
        contractor_of(open(os.path.join(picked, "contractor.html"),
                           encoding="utf-8").read(),
                      f"contractor, {option['name']}", layout, option,
                      ducts_text)
        inspector_of(open(os.path.join(picked, "inspector.html"),
                          encoding="utf-8").read(),
                     f"inspector, {option['name']}", option, si)
    failed += say(f"{name}: sheets have the figures of their option")
    sys.exit(failed > 0)


main()
