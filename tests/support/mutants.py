# SPDX-License-Identifier: GPL-3.0-or-later
"""make mutants: is the arithmetic held by tests?

One operator of one line is changed at a time, in a copy of the tree, and the
quick tests of the line's own folder, and of the march where the hour calls it,
are built and run until one fails.  A change that none fails for is a line that
no test holds.

    mutants.py [COUNT] [SEED]      500 1 unless given

Named changes come first; the others are drawn.  A change of code that the
compiler turns into the same code is drawn anew.  Survivors are listed; those
in mutants.txt have their reason.  Ends with 1 when a named change lives, or
when fewer than nine in ten of the drawn ones die.
"""
import glob
import hashlib
import os
import random
import re
import shutil
import subprocess
import sys

TREE = "build/mutants"
FILES = ["engine/march/step.h", "engine/march/solve.h", "engine/march/water.h",
         "engine/march/equip.h", "engine/march/mix.h", "engine/march/tell.h",
         "engine/march/blend.h", "engine/march/hour.h",
         *sorted(glob.glob("engine/*/*_step.h"))]
ROOMS = ["air", "house", "plant", "ducts", "study"]
FILES += [f for room in ROOMS for f in sorted(glob.glob(f"engine/{room}/*.[ch]"))
          if f not in FILES]
AFTER = {"study": []}  # whose tests else: the march's
QUICK = 3.0    # s of processor, a test that takes more is left out
HANGS = 30.0   # s of the clock

# file, text, what it becomes
NAMED = [
    ("engine/house/leakage_step.h", "core__sqrt(stack * stack + gust * gust)",
     "(stack + gust)"),
    ("engine/house/leakage_step.h", "k->stack_k *", "1.3 * k->stack_k *"),
    ("engine/house/leakage_step.h", "k->wind_k *", "0.8 * k->wind_k *"),
    ("engine/house/leakage_step.h", "core__pick(supply > exhaust, pressed, root)",
     "root"),
    ("engine/house/leakage_step.h", "core__sqrt(net * net + natural * natural)",
     "(net + natural)"),
    ("engine/house/co2_step.h", "1e6 * r->generation",
     "1.1e6 * r->generation"),
    ("engine/house/surface_step.h", "te + factor *", "te + factor * factor *"),
    ("engine/march/step.h", "f.leakage = ", "f.leakage = 1.02 * "),
    ("engine/march/step.h", "air__cp(n->mid.w)", "CORE__OF(AIR__CP)"),
    ("engine/march/solve.h", "return plant__dry_share(",
     "return 1.2 * plant__dry_share("),
    ("engine/march/step.h", "k.stack_k = l->stack_k",
     "k.stack_k = 1.3 * l->stack_k"),
    ("engine/march/step.h", "k.wind_k = l->wind_k",
     "k.wind_k = 0.8 * l->wind_k"),
]
# clang-format sets a binary operator between spaces, and nothing else
BINARY = re.compile(r"(?<=[\w)\]] )(\+=|-=|\*=|/=|<=|>=|&&|\|\||[-+*/<>])(?= |$)")
OTHER = {"+": "-", "-": "+", "*": "/", "/": "*", "<": ">=", ">": "<=",
         "<=": ">", ">=": "<", "+=": "-=", "-=": "+=", "*=": "/=",
         "/=": "*=", "&&": "||", "||": "&&"}


def blank_comments(text):
    """The text with its comments and strings blanked, offsets kept."""
    found = re.compile(r'/\*.*?\*/|"(?:\\.|[^"\\])*"', re.S)
    return found.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def sites_of(name):
    """Every place an operator can be changed: (file, at, old, new)."""
    at = 0
    for line in blank_comments(open(name).read()).splitlines(keepends=True):
        bare = line.rstrip("\\\n ")
        if not re.match(r"\s*(for|while) \(|\s*#\s*include", bare):
            for m in BINARY.finditer(bare):
                yield name, at + m.start(), m.group(), OTHER[m.group()]
        at += len(line)


def quiet(command, **more):
    return subprocess.run(command, cwd=TREE, stdin=subprocess.DEVNULL,
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                          **more)


def made(*goals):
    return quiet(["make", "-s", "NARROW=1", "CFLAGS=-O1", *goals]).returncode == 0


def dies(test, limit):
    """Whether the program, built, fails or hangs."""
    if not made("build/gcc/" + test):
        return True
    try:
        return quiet(["./build/gcc/" + test], timeout=limit).returncode != 0
    except subprocess.TimeoutExpired:
        return True


def spent():
    """Processor time of the programs run so far, s."""
    t = os.times()
    return t.children_user + t.children_system


def quick_tests(folder):
    """Programs of a folder that pass, and are quick."""
    for name in sorted(os.listdir(f"tests/{folder}")):
        test = f"tests/{folder}/{name[:-2]}"
        if not re.fullmatch(r"test_\w+\.c", name):
            continue
        if not made("build/gcc/" + test):
            sys.exit(f"mutants: {test} does not build")
        begun = spent()
        if dies(test, 120.0):
            sys.exit(f"mutants: {test} fails as it is")
        if spent() - begun <= QUICK:
            yield test


def copy_tree():
    files = subprocess.run(["git", "ls-files"], check=True, text=True,
                           capture_output=True).stdout.split("\n")
    for name in filter(None, files):
        new = os.path.join(TREE, name)
        os.makedirs(os.path.dirname(new) or ".", exist_ok=True)
        if (not os.path.exists(new) or
                open(name, "rb").read() != open(new, "rb").read()):
            shutil.copy(name, new)


def library():
    return hashlib.sha256(
        open(f"{TREE}/build/gcc/libdew.a", "rb").read()).hexdigest()


def folder_of(name):
    return name.split("/")[1]


class Run:
    def __init__(self):
        quick = {f: list(quick_tests(f))
                 for f in sorted({"march", *map(folder_of, FILES)})}
        # of each file its own order, for what kills is likely to kill again
        self.tests = {name: list(dict.fromkeys(
            quick[folder_of(name)] +
            [t for f in AFTER.get(folder_of(name), ["march"]) for t in quick[f]]))
                      for name in FILES}
        self.plain = library()
        print("quick tests:", " ".join(t for f in quick.values() for t in f),
              flush=True)

    def killer(self, name):
        """The test that fails, None, or "" where nothing was changed."""
        if not made("build/gcc/libdew.a"):
            return ""
        if library() == self.plain:
            return ""
        tests = self.tests[name]
        for test in list(tests):
            if dies(test, HANGS):
                tests.remove(test)
                tests.insert(0, test)
                return test
        return None

    def trial(self, name, text):
        plain = open(name).read()
        copy = os.path.join(TREE, name)
        try:
            open(copy, "w").write(text)
            return self.killer(name)
        finally:
            open(copy, "w").write(plain)


def reasons():
    with open("tests/support/mutants.txt") as file:
        rows = [r.split(" | ") for r in file if r.strip() and r[0] != "#"]
    return {(f.strip(), l.strip(), c.strip()): w.strip()
            for f, l, c, w in rows}


def named(run):
    alive = 0
    for name, old, new in NAMED:
        text = open(name).read()
        if text.count(old) != 1:
            sys.exit(f"mutants: {name} has not one {old!r}")
        by = run.trial(name, text.replace(old, new))
        alive += not by
        print(f"{by or 'LIVES'}: {name}: {old} -> {new}", flush=True)
    return alive


def drawn(run, count, seed):
    sites = [s for f in FILES for s in sites_of(f)]
    random.Random(seed).shuffle(sites)
    known, dead, tried, same = reasons(), 0, 0, 0
    for name, at, old, new in sites:
        if tried == count:
            break
        text = open(name).read()
        by = run.trial(name, text[:at] + new + text[at + len(old):])
        if by == "":
            same += 1
            continue
        tried += 1
        dead += by is not None
        begin, number = text.rfind("\n", 0, at) + 1, text.count("\n", 0, at) + 1
        line = text[begin:text.find("\n", at)].strip(" \\")
        column = at - begin + 1
        change = f"{old} -> {new}"
        why = known.get((name, line, change), "no reason given")
        print(f"{by or 'LIVES, ' + why}: {name}:{number}:{column}: {change}: "
              f"{line}", flush=True)
    print(f"{dead} of {tried} drawn from {len(sites)} died; {same} more were "
          "no change of code")
    return dead, tried


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    os.makedirs(TREE, exist_ok=True)
    copy_tree()
    if not made("build/gcc/libdew.a"):
        sys.exit("mutants: the library does not build")
    run = Run()
    alive = named(run)
    dead, tried = drawn(run, count, seed)
    sys.exit(alive > 0 or dead < 0.9 * tried)


main()
