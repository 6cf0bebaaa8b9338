#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What a package says that the library exports, as dpkg-gensymbols wants it.
# Of a library that has not been released each name is as old as its version.
# usage: .packaging/symbols.sh LIBRARY SOVERSION
set -eu
version=$(sed -n 's/^VERSION *:= *//p' Makefile)
echo "libdew.so.$2 libdew$2 #MINVER#"
nm -D --defined-only "$1" | awk -v v="$version" '$2 ~ /[TDRB]/ {
    sub(/@.*/, "", $3); print " " $3 "@Base " v }' | LC_ALL=C sort
