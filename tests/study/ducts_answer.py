#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Put the answer to "own ducts or a tie?" into docs/ducts.md, from real runs.

usage: ducts_answer.py DEWLEDGER DUCTS.md
`make ducts-answer` runs it on the two scenarios named below.
"""
import json
import os
import re
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
SCENARIOS = [os.path.join(HERE, "..", "..", "scenarios", name)
             for name in ("ducts_humid.yaml", "ducts_cold.yaml")]
FROM, TO = "<!-- made by `make ducts-answer` -->", "<!-- until here -->"
CFM = 0.4719474432  # L/s, exact


def run(program, scenario):
    done = subprocess.run([program, "run", scenario, "--json"], check=False,
                          capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{scenario}: {done.stderr}")
    return json.loads(done.stdout)["options"]


def climate(option):
    hours, air = option["hours"], option["fresh_air_l_s"]["delivered"] / CFM
    return [f"{hours['too_humid']:,.0f}", f"{air:.0f}",
            f"{option['energy_kwh']['blower']:,.0f}",
            f"{option['water_kg']['reevaporation']:,.0f}"]


def cost(name):
    text = open(SCENARIOS[0], encoding="utf-8").read()
    part = text.split(f"- name: {name}\n", 1)[1].split("- name:", 1)[0]
    found = re.search(r"install: (\d+) \$", part)
    return f"{int(found.group(1)):,}" if found else "0"


def table(program):
    humid, cold = (run(program, s) for s in SCENARIOS)
    yield ("| | humid coast: too humid, h | fresh air, cfm | blower, kWh "
           "| put back by the coil, kg | cold plain: too humid, h "
           "| fresh air, cfm | blower, kWh | put back, kg | ducts, $ |")
    yield "|---|" + "--:|" * 9
    for a, b in zip(humid, cold):
        yield ("| " + " | ".join([a["name"]] + climate(a) + climate(b)
                                 + [cost(a["name"])]) + " |")


def main():
    program, readme = sys.argv[1:]
    text = open(readme, encoding="utf-8").read()
    before, rest = text.split(FROM, 1)
    after = rest.split(TO, 1)[1]
    with open(readme, "w", encoding="utf-8") as out:
        out.write(before + FROM + "\n\n" + "\n".join(table(program)) + "\n\n"
                  + TO + after)


main()
