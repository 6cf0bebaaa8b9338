# SPDX-License-Identifier: GPL-3.0-or-later
# Completion for bash: the program itself says what could stand next.
# To try it: source docs/shells/dewledger.bash

_dewledger() {
    local words=() i word lead reply IFS=$'\n'
    # bash cuts words at "=": join them again
    for ((i = 1; i <= COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        if [ "${#words[@]}" -gt 0 ] &&
            { [ "$word" = = ] || [[ ${words[-1]} == *= ]]; }; then
            words[-1]+=$word
        else
            words+=("$word")
        fi
    done
    word=${words[-1]}
    lead=${word%"${word##*=}"}
    COMPREPLY=()
    for reply in $("${COMP_WORDS[0]}" complete -- "${words[@]}" 2>/dev/null); do
        case $reply in
        :folders*)
            compopt -o filenames
            COMPREPLY=($(compgen -d -- "${word#"$lead"}"))
            return ;;
        :files*)
            i=${reply#:files}
            compopt -o filenames
            COMPREPLY=($(compgen -d -- "${word#"$lead"}")
                $(compgen -f -X "!*${i#$'\t'}" -- "${word#"$lead"}"))
            return ;;
        esac
        reply=${reply%%$'\t'*}
        [[ $reply == *= ]] && compopt -o nospace
        [[ $COMP_WORDBREAKS == *=* ]] && reply=${reply#"$lead"}
        COMPREPLY+=("$(printf %q "$reply")")
    done
}
complete -F _dewledger dewledger
