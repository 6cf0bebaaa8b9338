# SPDX-License-Identifier: GPL-3.0-or-later
"""clang-tidy for each file, unless just this was looked at before: the file, all of
ours that it includes, the flags and the checks.

usage: tidy.py STAMPS FILE... -- FLAG...
STAMPS keeps what was found clean here, tests/lint/tidied.txt what was when `make
tidied` wrote it; with EVERY=1 in the environment all are looked at.  Files go to
clang-tidy one at a time: version 14 reports false findings when given several.
"""

import hashlib
import os
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

KEPT = "tests/lint/tidied.txt"
INCLUDE = re.compile(rb'^ *# *include "([^"]+)"', re.MULTILINE)
contents = {}


def read(name):
    if name not in contents:
        with open(name, "rb") as file:
            contents[name] = file.read()
    return contents[name]


def parts(name, folders, seen):
    """The file and all of ours that it includes, by name."""
    seen.add(name)
    for found in INCLUDE.findall(read(name)):
        tried = (os.path.normpath(os.path.join(folder, found.decode()))
                 for folder in [os.path.dirname(name), *folders])
        part = next(filter(os.path.isfile, tried), None)
        if part is not None and part not in seen:
            parts(part, folders, seen)
    return seen


def key(name, version, flags):
    folders = [flag[2:] for flag in flags if flag.startswith("-I")]
    told = hashlib.sha256(f"{version}\n{' '.join(flags)}\n".encode())
    for part in [".clang-tidy", *sorted(parts(name, folders, set()))]:
        told.update(read(part))
    return f"{told.hexdigest()[:16]} {name}"


def lines(name):
    return set(read(name).decode().splitlines()) if os.path.exists(name) else set()


def look(name, flags):
    """What clang-tidy finds: nothing where the file is clean."""
    ran = subprocess.run(["clang-tidy", "--quiet", name, "--", *flags], text=True,
                         stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    return "" if ran.returncode == 0 else ran.stdout or f"{name}: clang-tidy: status {ran.returncode}\n"


def main(stamps, *words):
    files, flags = words[:words.index("--")], words[words.index("--") + 1:]
    said = subprocess.run(["clang-tidy", "--version"], capture_output=True, text=True, check=True).stdout
    version = re.search(r"version [0-9]+", said).group()
    keys = {name: key(name, version, flags) for name in files}
    known = set() if os.environ.get("EVERY") else lines(KEPT) | lines(stamps)
    asked = [name for name in files if keys[name] not in known]
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        found = dict(zip(asked, pool.map(lambda name: look(name, flags), asked)))
    for name in asked:
        sys.stdout.write(found[name])
    os.makedirs(os.path.dirname(stamps), exist_ok=True)
    with open(stamps, "w", encoding="utf-8") as file:
        file.writelines(f"{keys[name]}\n" for name in sorted(files) if not found.get(name))
    return int(any(found.values()))


sys.exit(main(*sys.argv[1:]))
