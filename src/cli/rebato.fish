# Completion of rebato for fish.
set -l commands draft check list words help version
set -l run "__fish_seen_subcommand_from draft check"
set -l drawn "__fish_seen_subcommand_from draft"

complete -c rebato -n "not __fish_seen_subcommand_from $commands" -f
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a draft -d "draft a recipe, prove it and draw it"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a check -d "draft a recipe and prove it, without drawing"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a list -d "list the recipes and the bodies"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a words -d "print the words of the recipe language"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a help -d "tell how a command is used"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -a version -d "print the version"
complete -c rebato -n "not __fish_seen_subcommand_from $commands" -l version -d "print the version"
complete -c rebato -l help -s h -d "tell how a command is used"

complete -c rebato -n "$run" -a "(rebato list --names recipes 2>/dev/null)"
complete -c rebato -n "$run" -l block -x -a "(rebato list --names blocks 2>/dev/null)" -d "the block under the recipe"
complete -c rebato -n "$run" -l on -x -a "(rebato list --names necklines 2>/dev/null)" -d "a neckline to cut the block to first"
complete -c rebato -n "$run" -l body -r -a "(rebato list --names bodies 2>/dev/null)" -d "a measurement file or the name of a set"
complete -c rebato -n "$run" -l set -x -d "a choice or a measurement, NAME=VALUE"
complete -c rebato -n "$run" -l accept -x -d "take a proof as it is"
complete -c rebato -n "$run" -l units -x -a "cm in" -d "units for everything shown"
complete -c rebato -n "$drawn" -l paper -x -a "a4 a3 a2 a1 a0 letter legal tabloid whole" -d "the paper of the PDF"
complete -c rebato -n "$drawn" -l scale -x -a "1:1 1:2 1:4 1:5 1:10" -d "the scale of the drawing"
complete -c rebato -n "$drawn" -l show -x -a "pieces draft both" -d "what is drawn"
complete -c rebato -n "$drawn" -l out -s o -r -d "where to write"
complete -c rebato -n "__fish_seen_subcommand_from draft check list" -l json -d "print the report as JSON"
complete -c rebato -n "__fish_seen_subcommand_from list" -l names -d "print names only, one a line"
complete -c rebato -n "__fish_seen_subcommand_from help" -f -a "$commands report"
