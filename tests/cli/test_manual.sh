#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Manual pages and completions hold every command, option and key there is.
# usage: DEWLEDGER=path/to/dewledger tests/cli/test_manual.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
. "$(dirname "$0")/../support/says.sh"
pages=$(dirname "$D")

# words ARG...: the candidates for the last ARG, without what they are
words() {
    "$D" complete -- "$@" 2>/dev/null | cut -f1
}

# lacks FILE: of the lines on stdin, those that FILE does not have
lacks() {
    sort -u | comm -23 - "$1"
}

# ---- every command and option of --help ----------------------------------------
commands=$("$D" --help | sed -n 's/^  \([a-z]*\)  .*/\1/p')
inner=$("$D" weather --help | sed -n 's/^  \([a-z]*\)  .*/\1/p')
says "--help lists commands" test "$(echo "$commands" | wc -l)" -ge 7
words '' | sort -u >told
echo "$commands" | lacks told >lost
says "completion knows every command" test ! -s lost
words weather '' | sort -u >told
echo "$inner" | lacks told >lost
says "completion knows every word of weather" test ! -s lost

# the options that --help prints: "  -m, --markdown", "      --units=us|si"
options() {
    "$D" "$@" --help |
        sed -n 's/^  *\(-., \)\{0,1\}--\([a-z-]*\)\([=[].*\| .*\|\)$/--\2/p' |
        grep -v -e '^--usage$' -e '^--help$'
}
tr -d '\\' <"$pages/dewledger.1" |
    sed 's/fB\(--[a-z-]*\)fP/ \1 /g; s/^\.SS /.SS/' >page

# section COMMAND...: the options that its section of the manual names
section() {
    sed -n "/^.SSdewledger $*\$/,/^.S[SH]/p" page | grep -o -e '--[a-z][a-z-]*' |
        sort -u
}
number=0
for command in $commands; do
    for word in $([ "$command" = weather ] && echo "$inner" || echo .); do
        [ "$word" = . ] && word=
        # $word is left out where there is none
        options "$command" ${word:+"$word"} | sort -u >wanted
        words "$command" ${word:+"$word"} -- | sed 's/=$//' | sort -u >told
        section "$command${word:+ $word}" >written
        lacks told <wanted >lost
        says "completion knows the options of $command $word" test ! -s lost
        lacks written <wanted >lost
        says "the manual has the options of $command $word" test ! -s lost
        number=$((number + $(wc -l <wanted)))
    done
done
says "options were compared" test "$number" -gt 30

# ---- every key ---------------------------------------------------------------
"$D" explain --json | sed -n 's/^ *"key": "\(.*\)",$/\1/p' | sort -u >keys
says "there are keys" test "$(wc -l <keys)" -gt 100
words explain '' | sort -u >told
lacks told <keys >lost
says "completion knows every key" test ! -s lost
words run --set '' | sed 's/=$//' | sort -u >told
lacks told <keys >lost
says "completion of --set knows every key" test ! -s lost
tr -d '\\' <"$pages/dewledger-scenario.5" | sed -n 's/^\.B //p' | sort -u >told
lacks told <keys >lost
says "the manual has every key" test ! -s lost

# ---- what stands next ----------------------------------------------------------
"$D" start --out house.yaml
gives() { # name, wanted lines joined by a blank, word...
    name=$1 wanted=$2
    shift 2
    got=$(words "$@" | tr '\n' ' ')
    if [ "$got" = "$wanted" ]; then echo "ok $name"; else
        echo "not ok $name: $got"
        bad=1
    fi
}
gives "a command" "weather " wea
gives "choices of a value" "us si " run house.yaml --units ''
gives "choices behind =" "--units=us --units=si " run --units=
gives "a key's words" "safety.attached_garage=unknown " \
    run --set safety.attached_garage=u
gives "the options of the scenario named" \
    "enthalpy core, own ducts exhaust fan and dehumidifier " \
    run house.yaml --option e
gives "no scenario, no options" "" run --option e
gives "scenarios are files" ":files " run ''
gives "folders" ":folders " run house.yaml --out ''
gives "words of a place" "minneapolis minneapolis-st " weather make minneap
gives "and of places that answer to it" "crystal " \
    weather make minneapolis cr
gives "a place's number" "727930 " weather make 727930
gives "nothing after the last word" "" explain house.volume ''
gives "nothing for an unknown command" "" zebra ''

# ---- the shells ----------------------------------------------------------------
cat >try.bash <<'END'
source "$1"
compopt() { :; }
COMP_WORDBREAKS=$' \t\n"\'><=;|&(:'
shift
COMP_WORDS=("$@")
COMP_CWORD=$(($# - 1))
_dewledger
printf '%s ' "${COMPREPLY[@]}"
END
in_bash() { # name, wanted, word...
    name=$1 wanted=$2
    shift 2
    got=$(bash try.bash "$here/docs/shells/dewledger.bash" "$D" "$@")
    if [ "$got" = "$wanted" ]; then echo "ok bash: $name"; else
        echo "not ok bash: $name: $got"
        bad=1
    fi
}
if command -v bash >/dev/null; then
    in_bash "command" "explain " ex
    in_bash "words cut at =" "us si " run --units =
    in_bash "a key's words, cut at =" "unknown " \
        run --set safety.attached_garage = u
    in_bash "an option's name is quoted" 'exhaust\ fan\ and\ dehumidifier ' \
        run house.yaml --option ex
    in_bash "files" "house.yaml " check ho
else
    echo "skip bash: not here"
fi
if command -v zsh >/dev/null; then
    cat >try.zsh <<'END'
compadd() { print -r -- "add ${(q)@}" }
compset() { :; }
_files() { print -r -- "files $@" }
file=$1
shift
words=("$@")
CURRENT=$#
source $file
END
    in_zsh() { # name, wanted, word...
        name=$1 wanted=$2
        shift 2
        got=$(zsh -f try.zsh "$here/docs/shells/_dewledger" "$D" "$@" |
            tr '\n' ' ')
        if [ "$got" = "$wanted" ]; then echo "ok zsh: $name"; else
            echo "not ok zsh: $name: $got"
            bad=1
        fi
    }
    in_zsh "command" "add -l -d shown_plain -- explain " ex
    in_zsh "values" "add -l -d shown_plain -- --units=us --units=si " \
        run --units=
    in_zsh "an option's name" \
        'add -l -d shown_plain -- exhaust\ fan\ and\ dehumidifier ' \
        run house.yaml --option ex
    in_zsh "files" "files -g *.yaml " check ho
    in_zsh "folders" "files -/ " run house.yaml --out ''
else
    echo "skip zsh: not here"
fi
if command -v fish >/dev/null; then
    cat >try.fish <<END
source $here/docs/shells/dewledger.fish
set PATH $(dirname "$D") \$PATH
complete -C 'dewledger weather make minneap'
complete -C 'dewledger run house.yaml --units='
complete -C 'dewledger check ho'
END
    HOME=$work fish try.fish 2>&1 | cut -f1 | tr '\n' ' ' >out
    says "fish" grep -q '^minneapolis minneapolis-st --units=si --units=us house.yaml ' out
else
    echo "skip fish: not here"
fi

# ---- the pages as roff -----------------------------------------------------------
for page in dewledger.1 dewledger-scenario.5; do
    if command -v mandoc >/dev/null; then
        # a date would differ from build to build
        mandoc -Tlint -Wwarning "$pages/$page" | grep -v 'missing date' >log
        says "mandoc: $page" test ! -s log
    else
        echo "skip mandoc: not here"
    fi
    if command -v groff >/dev/null; then
        groff -man -ww -z -Tutf8 "$pages/$page" >log 2>&1
        says "groff: $page" test ! -s log
    else
        echo "skip groff: not here"
    fi
done

# ---- 80 columns --------------------------------------------------------------------
for command in $commands; do
    "$D" "$command" --help
done >help
for word in $inner; do
    "$D" weather "$word" --help
done >>help
"$D" --help >>help
says "help fits 80 columns" test -z "$(grep -E '^.{81}' help)"

exit $bad
