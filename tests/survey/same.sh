# SPDX-License-Identifier: GPL-3.0-or-later
# same FOLDER [OTHER]: a survey's tables have the bytes of OTHER's, else of one's.
same() {
    for f in march.csv march.sqlite faults.csv; do
        cmp "${2:-one}/$f" "$1/$f" || return 1
    done
}
