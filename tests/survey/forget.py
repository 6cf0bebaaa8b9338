# SPDX-License-Identifier: GPL-3.0-or-later
"""Take away what forgets.c saw was not on the disk: forget.py LOG HOW.

HOW is what a power cut leaves of the bytes not synced: "gone", "zeros" in
their place, or "part" of them."""
import os
import sys

new, dirty = set(), {}
for line in open(sys.argv[1]):
    word, rest = line.rstrip("\n").split(" ", 1)
    if word == "new":
        new.add(rest)
    elif word == "dirty":
        size, path = rest.split(" ", 1)
        dirty.setdefault(path, int(size))
    else:
        dirty.pop(rest, None)
        new = {path for path in new if os.path.dirname(path) != rest}
for path in sorted(new | set(dirty)):
    if not os.path.exists(path):
        continue
    if path in new:
        os.remove(path)
        print("forgotten", os.path.basename(path))
        continue
    whole = os.path.getsize(path)
    keep = dirty[path] + ((whole - dirty[path]) // 2 if sys.argv[2] == "part" else 0)
    os.truncate(path, keep)
    if sys.argv[2] == "zeros":
        os.truncate(path, whole)
    print("forgotten", whole - keep, "bytes of", os.path.basename(path))
