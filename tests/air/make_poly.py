#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""
Make the coefficients of engine/air/poly.h again; standard library only.

    python3 tests/air/make_poly.py          prints them and their error
    python3 tests/air/make_poly.py --check  fails unless poly.h holds them

Each row is pws ** (1 / 8) of Hyland and Wexler (the Handbook's coefficients,
as in engine/air/saturation.c), interpolated at the Chebyshev nodes of its
range in x = (t - middle) / half, then written out in powers of x.  Done in
50 digits, so that the last digit printed does not hang on the machine.
"""
import sys
from decimal import Decimal as D, getcontext

getcontext().prec = 50
PI = D("3.14159265358979323846264338327950288419716939937511")
ICE = [D(c) for c in ("-5.6745359e3 6.3925247 -9.6778430e-3 6.2215701e-7 "
                      "2.0747825e-9 -9.4840240e-13 4.1635019").split()]
LIQUID = [D(c) for c in ("-5.8002206e3 1.3914993 -4.8640239e-2 4.1764768e-5 "
                         "-1.4452093e-8 0 6.5459673").split()]

# name, coefficients, low, high (degC), degree
ROWS = [
    ("room", LIQUID, "-5", "50", 7),
    ("ice", ICE, "-60", "0.01", 8),
    ("water", LIQUID, "0.01", "60", 8),
    ("cold", LIQUID, "-60", "0.01", 8),
]


def pws(c, t):
    T = t + D("273.15")
    return (c[0] / T + c[1] + c[2] * T + c[3] * T**2 + c[4] * T**3
            + c[5] * T**4 + c[6] * T.ln()).exp()


def root8(c, t):
    return pws(c, t).sqrt().sqrt().sqrt()


def cosine(x):
    term, total, k = D(1), D(1), 0
    while abs(term) > D("1e-48"):
        k += 2
        term = -term * x * x / (k * (k - 1))
        total += term
    return total


def chebyshev(f, n):
    nodes = [cosine(PI * (D(k) + D("0.5")) / n) for k in range(n)]
    values = [f(x) for x in nodes]
    out = []
    for j in range(n):
        s = sum(v * cosine(PI * j * (D(k) + D("0.5")) / n)
                for k, v in enumerate(values))
        out.append(s * 2 / n)
    out[0] /= 2
    return out


def powers(cheb):
    """From Chebyshev to powers of x: T(j+1) = 2 x T(j) - T(j-1)."""
    n = len(cheb)
    before, now = [D(1)] + [D(0)] * n, [D(0), D(1)] + [D(0)] * (n - 1)
    total = [cheb[0] * b for b in before]
    for c in cheb[1:]:
        total = [s + c * q for s, q in zip(total, now)]
        after = [2 * (now[i - 1] if i else D(0)) - before[i]
                 for i in range(n + 1)]
        before, now = now, after
    return total[:n]


def fit(row):
    name, c, low, high, degree = row
    middle, half = (D(high) + D(low)) / 2, (D(high) - D(low)) / 2
    poly = powers(chebyshev(lambda x: root8(c, middle + half * x), degree + 1))
    poly = [float(a) for a in poly]
    worst = 0.0
    for k in range(401):
        x = -1 + k / 200
        y = 0.0
        for a in reversed(poly):
            y = y * x + a
        exact = float(pws(c, middle + half * D(x)))
        worst = max(worst, abs(y**8 / exact - 1))
    return poly, worst


def main():
    text = open("engine/air/poly.h").read() if "--check" in sys.argv else None
    bad = 0
    for row in ROWS:
        poly, worst = fit(row)
        print("%s: %s .. %s degC, relative error %.1e" %
              (row[0], row[2], row[3], worst))
        for k, a in enumerate(poly):
            print("    x^%d  %r" % (k, a))
            if text is not None and repr(a) not in text:
                print("not in engine/air/poly.h: %r" % a)
                bad = 1
    return bad


sys.exit(main())
