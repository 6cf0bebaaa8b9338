#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""
Make tests/air/data/psychrometrics_reference.csv again, by other hands.

    apt-get install python3-iapws nodejs npm
    npm install --prefix /tmp/psychrolib psychrolib@1.1.1
    NODE_PATH=/tmp/psychrolib/node_modules \\
        python3 tests/air/make_reference.py --check

prints the table, or with --check compares it with the one that is kept, cell
by cell, and names the worst difference of each column (an hour; with --every 7
every seventh row, 288 of them, in ten minutes).  So compared with iapws 1.5.3
and psychrolib 1.1.1, every cell of those rows is within its last digit or
what ALSO below allows.

The states are those of the kept table: t -40 .. 60 degC, rh 5 .. 100 %, p 60
.. 105 kPa.  The columns:

  pws .. rho, tdp, twb     psychrolib in SI: the Handbook's formulas
  tdp_tight, twb_tight     the same equations, halved to 1e-9 K here, since
                           the library stops its wet bulb at 1e-3 K
  psat_IAPWS               IAPWS-95 over liquid, IAPWS ice Ih below 0.01 degC
  f_enh, Ws_real           humid air of IAPWS G8-10 in equilibrium with water
                           or ice at the same t and p (chemical potentials)
  W_real_at_same_rh        mole fraction rh times that of saturation
  h_real, v_real           of that state, per kg of dry air
  twb_real                 h + (ws - w) h_water(tw) = h_s(tw)
  twb_near_0_ambiguous     |wet bulb| small: wick wet or iced, both may solve
"""
import csv
import json
import os
import subprocess
import sys
import warnings

from iapws import IAPWS95
from iapws._iapws import _Ice, _Sublimation_Pressure, M as MW
from iapws.humidAir import HumidAir, Ma as MA
from scipy.optimize import brentq

warnings.filterwarnings("ignore")
HERE = os.path.dirname(os.path.abspath(__file__))
TABLE = os.path.join(HERE, "data", "psychrometrics_reference.csv")
RATIO = MW / MA

NODE = """
const p = require('psychrolib');
p.SetUnitSystem(p.SI);
const q = JSON.parse(require('fs').readFileSync(0));
console.log(JSON.stringify(q.map(([t, rh, pr]) => {
  const f = rh / 100, w = p.GetHumRatioFromRelHum(t, f, pr);
  return [p.GetSatVapPres(t), p.GetVapPresFromRelHum(t, f), w,
    p.GetSatHumRatio(t, pr), p.GetMoistAirEnthalpy(t, w),
    p.GetMoistAirVolume(t, w, pr), p.GetTDewPointFromRelHum(t, f),
    p.GetTWetBulbFromRelHum(t, f, pr), p.GetDegreeOfSaturation(t, w, pr),
    p.GetMoistAirDensity(t, w, pr)];
})));
"""
TIGHT = """
const p = require('psychrolib');
p.SetUnitSystem(p.SI);
const q = JSON.parse(require('fs').readFileSync(0));
function halve(f, lo, hi) {
  for (let i = 0; i < 80; i++) {
    const m = (lo + hi) / 2;
    if (f(m) < 0) lo = m; else hi = m;
  }
  return (lo + hi) / 2;
}
console.log(JSON.stringify(q.map(([t, rh, pr]) => {
  const w = p.GetHumRatioFromRelHum(t, rh / 100, pr);
  const pw = p.GetVapPresFromRelHum(t, rh / 100);
  return [halve(x => p.GetSatVapPres(x) - pw, -100, t),
    rh == 100 ? t : halve(x => {
      const ws = p.GetSatHumRatio(x, pr);
      return (x >= 0
        ? ((2501 - 2.326 * x) * ws - 1.006 * (t - x)) /
          (2501 + 1.86 * t - 4.186 * x)
        : ((2830 - 0.24 * x) * ws - 1.006 * (t - x)) /
          (2830 + 1.86 * t - 2.1 * x)) - w;
    }, -90, t)];
})));
"""


def node(script, states):
    out = subprocess.run(["node", "-e", script], input=json.dumps(states),
                         capture_output=True, text=True, check=True)
    return json.loads(out.stdout)


AIR = HumidAir()
MEMO = {}


def memo(key, make):
    if key not in MEMO:
        MEMO[key] = make()
    return MEMO[key]


def mixture(t, p, w):
    """Density and the Helmholtz terms of humid air: T in degC, p in Pa."""
    T, A = t + 273.15, 1 / (1 + w)
    x = w / (RATIO + w)
    rho = p / (8.314472 * T) * ((1 - x) * MA + x * MW) / 1000
    for _ in range(30):
        f = AIR._fav(T, rho, A)
        step = (rho**2 * f["fird"] - p / 1000) / (
            2 * rho * f["fird"] + rho**2 * f["firdd"])
        rho -= step
        if abs(step) < 1e-13 * rho:
            break
    return rho, AIR._fav(T, rho, A), A, T


def water(t, p):
    """Gibbs energy and enthalpy of the condensed water, kJ/kg."""
    def make():
        if t < 0.01:
            ice = _Ice(t + 273.15, p / 1e6)
            return ice["g"], ice["h"]
        liquid = IAPWS95(T=t + 273.15, P=p / 1e6)
        return liquid.g, liquid.h
    return memo(("water", t, p), make)


def p_sat(t):
    def make():
        if t < 0.01:
            return _Sublimation_Pressure(t + 273.15) * 1e6
        return IAPWS95(T=t + 273.15, x=0).P * 1e6
    return memo(("psat", t), make)


def w_sat(t, p):
    def make():
        g = water(t, p)[0]

        def gap(w):
            rho, f, A, _ = mixture(t, p, w)
            return f["fir"] + rho * f["fird"] - A * f["fira"] - g
        ideal = RATIO * p_sat(t) / (p - p_sat(t))
        return brentq(gap, 0.99 * ideal, 1.03 * ideal, xtol=1e-14, rtol=1e-12)
    return memo(("ws", t, p), make)


def enthalpy(t, p, w):
    """kJ per kg of dry air."""
    rho, f, _, T = mixture(t, p, w)
    return (f["fir"] - T * f["firt"] + rho * f["fird"]) * (1 + w)


def wet_bulb(t, p, w):
    h = enthalpy(t, p, w)

    def gap(tw):
        ws = w_sat(tw, p)
        return enthalpy(tw, p, ws) - h - (ws - w) * water(tw, p)[1]
    low = t - 1.0
    while gap(low) > 0:
        low -= 8.0
    return brentq(gap, low, t + 1e-9, xtol=1e-6)


def real(t, rh, p):
    ws = w_sat(t, p)
    xs = ws / (RATIO + ws)
    x = rh / 100 * xs
    w = RATIO * x / (1 - x)
    rho = mixture(t, p, w)[0]
    tw = t if rh == 100 else wet_bulb(t, p, w)
    return [p_sat(t), xs * p / p_sat(t), ws, w, 1000 * enthalpy(t, p, w),
            (1 + w) / rho, tw]


def made(states):
    ideal, tight = node(NODE, states), node(TIGHT, states)
    for s, i, k in zip(states, ideal, tight):
        yield list(s) + i + k + real(*s)


def last_digit(cell):
    """Half of what the last printed digit can say."""
    mantissa, _, power = cell.lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 0.51 * 10.0 ** (int(power or 0) - decimals)


# what two hands may differ by beyond the last digit: a wet bulb that stops
# at 1e-3 K, and solvers of real air that stop where theirs do
ALSO = {"twb_C": 1e-3, "tdp_C": 1e-3, "twb_real_C": 1e-3, "h_real_Jkg": 0.02,
        "Ws_real": 1e-8, "W_real_at_same_rh": 1e-8}


def main():
    rows = list(csv.reader(open(TABLE)))
    head, kept = rows[0], rows[1:]
    if "--every" in sys.argv:  # a part, for a quick look
        kept = kept[::int(sys.argv[sys.argv.index("--every") + 1])]
    states = [[float(c) for c in r[:3]] for r in kept]
    worst = {}
    for row, new in zip(kept, made(states)):
        if "--check" not in sys.argv:
            print(",".join("%.10g" % x for x in new))
            continue
        for name, cell, x in zip(head, row, new):
            if cell == "" or ("twb" in name and row[-1] == "1"):
                continue
            over = abs(float(cell) - x) / (last_digit(cell) +
                                           ALSO.get(name, 0))
            if over > worst.get(name, (0,))[0]:
                worst[name] = (over, row[:3], cell, x)
    for name, w in worst.items():
        print("%-18s worst %.2f of what is allowed: %s" % (name, w[0], w[1:]))
    return any(w[0] > 1 for w in worst.values())


if __name__ == "__main__":
    sys.exit(main())
