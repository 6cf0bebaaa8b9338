# SPDX-License-Identifier: GPL-3.0-or-later
"""make mutants: is the arithmetic held by tests?

One operator of one line is changed at a time, in a copy of the tree, and the
quick tests of the line's own folder, and of the march where the hour calls it,
are run until one fails.  A change that none fails for is a line that no test
holds.

    mutants.py [COUNT] [SEED] [LOG]      500 1 unless given

Named changes come first; the others are drawn.  A change of code that the
compiler turns into the same code, or refuses, is drawn anew.  Survivors are
listed; those in mutants.txt have their reason.  LOG is what an earlier run
with this seed printed: what died there counts as dead, and what lived or was
not reached is tried.  Ends with 1 when a named change lives, or when fewer than
nine in ten of the drawn ones die.
"""
import glob
import os
import random
import re
import resource
import shlex
import shutil
import subprocess
import sys

TREE = "build/mutants"
FILES = ["engine/march/step.h", "engine/march/solve.h", "engine/march/water.h",
         "engine/march/equip.h", "engine/march/mix.h", "engine/march/tell.h",
         "engine/march/blend.h", "engine/march/hour.h", "engine/march/pace.h",
         *sorted(glob.glob("engine/*/*_step.h"))]
ROOMS = ["air", "house", "plant", "ducts", "study"]
FILES += [f for room in ROOMS for f in sorted(glob.glob(f"engine/{room}/*.[ch]"))
          if f not in FILES]
AFTER = {"study": []}  # whose tests else: the march's
QUICK = 3.0    # s of processor, a test that takes more is left out
HANGS = 15     # s of processor
STUCK = 120.0  # s of the clock
FLAGS = ["CFLAGS=-O1"]
NEW = "build/changed"  # objects and programs of the change that is tried

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
    ("engine/march/step.h", "m * house__leak_in(", "1.02 * m * house__leak_in("),
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
# loops, which would hang; sizes of arrays, which other files must agree with
LEFT_OUT = re.compile(r"\s*((for|while) \(|#\s*include|"
                      r"(struct |const |unsigned )?\w+ \*?\w+\[[^=]*\];)")
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
        if not re.match(LEFT_OUT, bare):
            for m in BINARY.finditer(bare):
                yield name, at + m.start(), m.group(), OTHER[m.group()]
        at += len(line)


def quiet(command, **more):
    return subprocess.run(command, cwd=TREE, stdin=subprocess.DEVNULL,
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                          **more)


def limit():
    resource.setrlimit(resource.RLIMIT_CPU, (HANGS, HANGS))


def spent():
    """Processor time of the programs run so far, s."""
    t = os.times()
    return t.children_user + t.children_system


class Build:
    """What make does, asked once: a change then costs its own files alone."""

    def __init__(self, tests):
        goals = ["build/gcc/libdew.a", *("build/gcc/" + t for t in tests)]
        if quiet(["make", "-s", *FLAGS, *goals]).returncode:
            sys.exit("mutants: library and tests do not build")
        told = subprocess.run(["make", "-n", "-W", "Makefile", *FLAGS, *goals],
                              cwd=TREE, check=True, text=True,
                              capture_output=True).stdout
        self.compile, self.links, self.needs = {}, {}, {}
        for words in map(shlex.split, told.splitlines()):
            self.learn(words)
        self.library({})
        for test in tests:
            self.link(test, f"build/gcc/{test}.o", test)

    def learn(self, words):
        if words[0] == "ar":
            self.objects = words[3:]
        elif "-lcmocka" in words:
            self.links[words[words.index("-o") + 1]] = words
        elif words[-1].endswith(".o") and "-MMD" in words:
            kept = [w for w in words if w not in ("-MMD", "-MP",
                                                  "-fstack-usage")]
            self.compile[words[-1]] = kept[:-1]
            with open(f"{TREE}/{words[-1][:-2]}.d") as file:
                rule = re.sub(r"\\\n", " ", file.read()).split("\n")[0]
            self.needs[words[-1]] = set(rule.split()[1:])

    def changed(self, obj):
        """The object made anew; None: it is refused, "": as it was."""
        new = obj.replace("build/gcc", NEW)
        os.makedirs(os.path.dirname(f"{TREE}/{new}"), exist_ok=True)
        if quiet([*self.compile[obj], new]).returncode:
            return None
        with open(f"{TREE}/{obj}", "rb") as a, open(f"{TREE}/{new}", "rb") as b:
            return "" if a.read() == b.read() else new

    def library(self, changed):
        """Shared, so that the tests need not be linked again."""
        os.makedirs(f"{TREE}/{NEW}", exist_ok=True)
        if quiet(["cc", "-shared", "-o", f"{NEW}/libdew.so",
                  *(changed.get(o, o) for o in self.objects)]).returncode:
            sys.exit("mutants: the library cannot be linked")

    def link(self, test, obj, name):
        words = ["build/gcc/" + test, f"build/gcc/{test}.o",
                 "build/gcc/libdew.a"]
        to = [f"{NEW}/{name}", obj, f"{NEW}/libdew.so"]
        os.makedirs(os.path.dirname(f"{TREE}/{to[0]}"), exist_ok=True)
        swap = dict(zip(words, to))
        if quiet([swap.get(w, w) for w in self.links[words[0]]]).returncode:
            sys.exit(f"mutants: {test} cannot be linked")

    def includes(self, test, source):
        return source in self.needs[f"build/gcc/{test}.o"]

    def dies(self, test, source=None):
        """Whether the program fails or hangs; source: what was changed."""
        name = test
        if self.includes(test, source):
            new = self.changed(f"build/gcc/{test}.o")
            if new:
                name += "_anew"
                self.link(test, new, name)
        try:
            return quiet([f"{NEW}/{name}"], timeout=STUCK,
                         preexec_fn=limit).returncode != 0
        except subprocess.TimeoutExpired:
            return True


def programs(folder):
    return [f"tests/{folder}/{name[:-2]}"
            for name in sorted(os.listdir(f"tests/{folder}"))
            if re.fullmatch(r"test_\w+\.c", name)]


def quick_tests(build, tests):
    """Seconds of those that pass, and are quick."""
    for test in tests:
        begun = spent()
        if build.dies(test):
            sys.exit(f"mutants: {test} fails as it is")
        if spent() - begun <= QUICK:
            yield test, spent() - begun


def in_lanes(test):
    """Whether it holds houses side by side to houses alone."""
    return "dew_bundle" in open(test + ".c").read()


def copy_tree():
    files = subprocess.run(["git", "ls-files"], check=True, text=True,
                           capture_output=True).stdout.split("\n")
    for name in filter(None, files):
        new = os.path.join(TREE, name)
        os.makedirs(os.path.dirname(new) or ".", exist_ok=True)
        if (not os.path.exists(new) or
                open(name, "rb").read() != open(new, "rb").read()):
            shutil.copy(name, new)


def folder_of(name):
    return name.split("/")[1]


class Run:
    def __init__(self):
        folders = sorted({"march", *map(folder_of, FILES)})
        self.build = Build([t for f in folders for t in programs(f)])
        self.quick = {f: dict(quick_tests(self.build, programs(f)))
                      for f in folders}
        self.stages = {name: list(self.stages_of(name)) for name in FILES}
        for f, tests in self.quick.items():
            print(f"{len(tests)} of {len(programs(f))} tests of {f} are quick, "
                  f"{sum(tests.values()):.1f} s:", *tests, flush=True)

    def stages_of(self, name):
        """Objects to make anew, and tests that need no more than these and
        those before; each file has its own order of tests, for what kills is
        likely to kill again."""
        room = folder_of(name)
        named = "test_" + re.sub(r"(_step)?\.[ch]$", "", os.path.basename(name))
        after = [f for f in AFTER.get(room, ["march"]) if f != room]
        objects = [o for o in self.build.objects
                   if name in self.build.needs.get(o, ())]
        wide = [o for o in objects if "/lanes_" in o]
        own = [o for o in objects if folder_of(o[10:]) == room and o not in wide]
        rest = [o for o in objects if o not in own + wide]
        first = self.quick[room]
        yield own if after or room == "march" else own + rest, sorted(
            (t for t in first if not in_lanes(t)),
            key=lambda t: (not t.endswith(named), first[t]))
        far = [t for f in after for t in self.quick[f]]
        yield rest, sorted((t for t in far if not in_lanes(t)),
                           key=lambda t: self.quick["march"][t])
        yield wide, [t for t in [*first, *far] if in_lanes(t)]

    def killer(self, name):
        """The test that fails, None, or "" where nothing was changed."""
        new, linked = {}, None
        for objects, tests in self.stages[name]:
            more = {o: self.build.changed(o) for o in objects} if tests else {}
            if None in more.values():
                return ""
            more = {o: n for o, n in more.items() if n}
            new.update(more)
            for test in list(tests):
                # without a change it is run where the header is its own
                if not new and not self.build.includes(test, name):
                    continue
                if linked != new:
                    self.build.library(new)
                    linked = dict(new)
                if self.build.dies(test, name):
                    tests.remove(test)
                    tests.insert(0, test)
                    return test
        return None if new else ""

    def trial(self, name, text):
        copy = os.path.join(TREE, name)
        plain, at = open(copy).read(), os.stat(copy)
        try:
            open(copy, "w").write(text)
            return self.killer(name)
        finally:
            open(copy, "w").write(plain)
            os.utime(copy, ns=(at.st_atime_ns, at.st_mtime_ns))


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


def told_before(log):
    """What a log says of each change: its test, None for one that lived, ""
    for one of no code."""
    told = {}
    for line in open(log) if log else ():
        m = re.match(r"(LIVES|same|tests/\w+/\w+)(?:, .*)?: "
                     r"(engine/\S+:\d+:\d+: \S+ -> \S+): ", line)
        if m:
            told[m[2]] = {"LIVES": None, "same": ""}.get(m[1], m[1])
    return told


def place(text, at):
    """Line, column and the line's text."""
    begin = text.rfind("\n", 0, at) + 1
    line = text[begin:text.find("\n", at)].strip(" \\")
    return text.count("\n", 0, at) + 1, at - begin + 1, line


def drawn(run, count, seed, told):
    sites = [s for f in FILES for s in sites_of(f)]
    random.Random(seed).shuffle(sites)
    known, dead, lives, same = reasons(), 0, [], 0
    for name, at, old, new in sites:
        if dead + len(lives) == count:
            break
        text = open(name).read()
        number, column, line = place(text, at)
        where, change = f"{name}:{number}:{column}", f"{old} -> {new}"
        by = told.get(f"{where}: {change}")
        if by is None:
            by = run.trial(name, text[:at] + new + text[at + len(old):])
        dead += bool(by)
        same += by == ""
        why = known.get((name, line, change), "no reason given")
        if by is None:
            lives.append(why)
        print(f"{'same' if by == '' else by or 'LIVES, ' + why}: "
              f"{where}: {change}: {line}", flush=True)
    tried = dead + len(lives)
    print(f"{dead} of {tried} drawn from {len(sites)} died, "
          f"{sum(w != 'no reason given' for w in lives)} of the other "
          f"{len(lives)} have a reason; {same} more were no change of code")
    return dead, tried


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    told = told_before(sys.argv[3] if len(sys.argv) > 3 else None)
    os.makedirs(TREE, exist_ok=True)
    copy_tree()
    run = Run()
    alive = named(run)
    dead, tried = drawn(run, count, seed, told)
    print(f"{spent():.0f} s of processor")
    sys.exit(alive > 0 or dead < 0.9 * tried)


main()
