# SPDX-License-Identifier: GPL-3.0-or-later
# Completion for fish: the program itself says what could stand next.

function __dewledger_next
    set -l words (commandline -opc) (commandline -ct)
    set -l lead (string match -r '^.*=' -- $words[-1])
    for reply in ($words[1] complete -- $words[2..-1] 2>/dev/null)
        switch $reply
            case ':folders*'
                __fish_complete_directories (string replace -r '^.*=' '' -- $words[-1]) | string replace -r '^' -- "$lead"
            case ':files*'
                set -l tail (string replace -r '^:files\t?' '' -- $reply)
                __fish_complete_suffix (string replace -r '^.*=' '' -- $words[-1]) "$tail" | string replace -r '^' -- "$lead"
            case '*'
                echo $reply
        end
    end
end
complete -c dewledger -f -a '(__dewledger_next)'
