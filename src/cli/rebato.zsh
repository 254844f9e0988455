#compdef rebato
# Completion of rebato for zsh.

_rebato_named() {
    local -a names
    names=(${(f)"$(rebato list --names $1 2>/dev/null)"})
    compadd -a names
}

_rebato_recipe() {
    _rebato_named recipes
    _files -g '*.(md|pattern)'
}

_rebato_word() {
    local -a names
    names=(${(f)"$(rebato words --names 2>/dev/null)"})
    compadd -a names
}

_rebato_listed() {
    local -a names
    names=(${(f)"$(rebato list --names 2>/dev/null)"})
    compadd -a names
    _files -g '*.md'
}

_rebato_body() {
    _rebato_named bodies
    _files
}

_rebato() {
    local -a run drawn woven shown
    run=(
        '--block[the block under the recipe]:block:_rebato_named blocks'
        '*--on[a neckline to cut the block to first]:neckline:_rebato_named necklines'
        '--body[a measurement file or the name of a set]:body:_rebato_body'
        '*--set[a choice or a measurement]:NAME=VALUE:'
        '*--accept[take a proof as it is]:proof:'
        '--units[units for everything shown]:units:(cm in)'
        '--json[print the report as JSON]'
        '--help[tell how the command is used]'
        '1:recipe:_rebato_recipe'
    )
    drawn=(
        '--paper[the paper of the PDF]:paper:(a4 a3 a2 a1 a0 letter legal tabloid whole)'
        '*'{-o,--out}'[where to write]:file:_files'
        '--scale[the scale of the drawing]:scale:(1\:1 1\:2 1\:4 1\:5 1\:10)'
    )
    woven=(
        '--paper[the paper of the PDF]:paper:(a4 a3 letter legal)'
        '*'{-o,--out}'[where to write]:file:_files'
        '--language[of the words that are not those of the recipe]:language:(en de fr es)'
        '--with-code[show the code of each step too]'
    )
    shown=('--show[what is drawn]:what:(pieces draft both)')
    if (( CURRENT == 2 )); then
        compadd draft weave check new list words help version --help --version
        return
    fi
    local command=$words[2]
    shift words
    (( CURRENT-- ))
    case $command in
    draft) _arguments $run $drawn $shown ;;
    weave) _arguments $run $woven ;;
    check) _arguments $run ;;
    new) _arguments '--from[the recipe to begin from]:recipe:_rebato_recipe' '--help[tell how the command is used]' '1:name:_files' ;;
    list) _arguments '--units[units for everything shown]:units:(cm in)' '--json[print the list as JSON]' '--names[print names only, one a line]' '--help[tell how the command is used]' '1:name or word:_rebato_listed' ;;
    words) _arguments $drawn '--units[units for everything shown]:units:(cm in)' '--names[print names only, one a line]' '--help[tell how the command is used]' '1:word:_rebato_word' ;;
    help) compadd draft weave check new list words help version report ;;
    esac
}

_rebato "$@"
