# Completion of rebato for bash.
_rebato() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
    local words=""
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "draft weave check new list words help version --help --version" -- "$word")
        return
    fi
    case $before in
    --block) words=$(rebato list --names blocks 2>/dev/null) ;;
    --on) words=$(rebato list --names necklines 2>/dev/null) ;;
    --from) words=$(rebato list --names recipes 2>/dev/null) ;;
    --body) words=$(rebato list --names bodies 2>/dev/null) ;;
    --units) words="cm in" ;;
    --paper) words="a4 a3 a2 a1 a0 letter legal tabloid whole" ;;
    --scale) words="1:1 1:2 1:4 1:5 1:10" ;;
    --show) words="pieces draft both" ;;
    --language) words="en de fr es" ;;
    --set | --accept) return ;;
    -o | --out) ;;
    *)
        case $command in
        draft) words="$(rebato list --names recipes 2>/dev/null) --block --on --body --set --accept --units --paper --scale --show --out -o --json --help" ;;
        weave) words="$(rebato list --names recipes 2>/dev/null) --block --on --body --set --accept --units --paper --language --with-code --out -o --json --help" ;;
        check) words="$(rebato list --names recipes 2>/dev/null) --block --on --body --set --accept --units --json --help" ;;
        new) words="--from --help" ;;
        list) words="$(rebato list --names 2>/dev/null) --units --json --names --help" ;;
        words) words="$(rebato words --names 2>/dev/null) --units --paper --scale --out -o --names --help" ;;
        help) words="draft weave check new list words help version report" ;;
        esac
        ;;
    esac
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
    case $before in
    --block | --on | --units | --paper | --scale | --show | --language) ;;
    *)
        [ "$command" = words ] && [[ $before != @(-o|--out) ]] && return
        case $command in
        draft | weave | check | new | list | words)
            local files
            mapfile -t files < <(compgen -f -- "$word")
            COMPREPLY+=("${files[@]}")
            compopt -o filenames 2>/dev/null
            ;;
        esac
        ;;
    esac
}
complete -F _rebato rebato
