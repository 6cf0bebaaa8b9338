#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fetch the library sources of sources.txt, checked by apt's checksums, and lay
# out what the module is compiled from.
# usage: sources.sh FOLDER [LIST]      another list than sources.txt
# A system rarely lists source packages: the lists made here name the Debian
# archives that it already uses, and stand in FOLDER; its own are not touched.
set -eu
list=$(realpath "${2:-$(dirname "$0")/sources.txt}")
mkdir -p "$1/lists/partial" "$1/archives/partial" "$1/src"
cd "$1"
here=$PWD
rows() { sed '/^#/d' "$list"; }

apt-get indextargets 'Created-By: Packages' 'Origin: Debian' --format \
    'deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] $(SITE) $(RELEASE) $(COMPONENT)' |
    sort -u >sources.list
grep -q . sources.list || {
    echo "no Debian archive is known here: run apt-get update first" >&2
    exit 1
}
apt() {
    apt-get -qq -o Dir::Etc::SourceList="$here/sources.list" \
        -o Dir::Etc::SourceParts=/dev/null -o Dir::State::Lists="$here/lists" \
        -o Dir::Cache="$here" -o APT::Sandbox::User=root "$@"
}
apt update >log 2>&1 || { tail -n 3 log >&2; exit 1; }
# the newest; or, of which an archive has no more than the name, the one tried
rows | while read -r name tried; do
    (cd src && { apt source "$name" || apt source "$name=$tried"; }) >>log 2>&1 ||
        { tail -n 3 log >&2; exit 1; }
done

# what came, and under which names it is compiled
rows | while read -r name tried; do
    came=$(sed -n 's/^Version: //p' src/"$name"_*.dsc | tail -n 1)
    [ "$came" = "$tried" ] ||
        echo "$name is now $came; tried with $tried, and built all the same" >&2
    folder=$(find src -maxdepth 1 -type d -name "$name-*" | sort | tail -n 1)
    ln -sfn "$(basename "$folder")" "src/$name"
done

# A module has no long double but in software, ten times as slow: means and
# variances sum in double there.
sed -i 's/long double/double/' src/gsl/statistics/mean_source.c \
    src/gsl/statistics/covariance_source.c src/gsl/statistics/variance_source.c

# headers as an installed library has them
rm -rf include
mkdir -p include/gsl include/gnulib
cp src/gsl/gsl_*.h src/gsl/*/gsl_*.h include/gsl
cp src/jansson/src/jansson.h src/jansson/android/jansson_config.h \
    src/libyaml/include/yaml.h src/libcsv/csv.h src/zlib/zlib.h \
    src/zlib/zconf.h src/libmd/include/sha2.h include
lib=src/gnulib/lib
cp $lib/argp.h $lib/getopt-core.h $lib/getopt-ext.h $lib/getopt-pfx-core.h \
    $lib/getopt-pfx-ext.h $lib/getopt_int.h include/gnulib
sed 's/@HAVE_SYS_CDEFS_H@/0/' $lib/getopt-cdefs.in.h >include/gnulib/getopt-cdefs.h
sed 's/@GUARD_PREFIX@/DEW/; s/@HAVE_GETOPT_H@/0/; /^@PRAGMA/d; /@INCLUDE_NEXT@/d' \
    $lib/getopt.in.h >include/gnulib/getopt.h
awk -F '[][ ,()]+' '
    /^m4_define.*YAML_(MAJOR|MINOR|PATCH)/ {
        sub("YAML_", "YAML_VERSION_", $2); print "#define " $2, $3
        all = all dot $3; dot = "." }
    END { print "#define YAML_VERSION_STRING \"" all "\"" }' \
    src/libyaml/configure.ac >include/versions.h
touch fetched
