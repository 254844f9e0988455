#include <criterion/criterion.h>

#include <stdlib.h>
#include <string.h>

#include "said.h"

Test(main, the_version_and_the_help_are_told) {
    Said s = said("rebato --version && rebato version");
    said_code(&s, 0);
    cr_expect(strncmp(s.out.data, "rebato 0.", 9) == 0, "%s", s.out.data);
    said_finish(&s);
    s = said("rebato && rebato --help && rebato help && rebato help draft && rebato draft --help");
    said_code(&s, 0);
    said_out(&s, "rebato draft ");
    said_out(&s, "--paper PAPER");
    said_out(&s, "--show pieces|draft|both");
    said_out(&s, "-h, --help");
    said_out(&s, "rebato help report");
    said_finish(&s);
}

Test(main, installed_it_runs_from_anywhere_with_its_manual_and_completions) {
    Said s = said(
        "meson install -C \"$BUILD\" --no-rebuild --destdir \"$PWD/to\" >log 2>&1 || { cat log; exit 3; }; "
        "find to -type f | sed 's|^to||; s|/usr/local||; s|/usr||' | sort && "
        "cd / && $OLDPWD/to/usr/local/bin/rebato list --names bands && "
        "bash -n $OLDPWD/to/usr/local/share/bash-completion/completions/rebato");
    said_code(&s, 0);
    said_out(&s, "/bin/rebato\n");
    said_out(&s, "/share/bash-completion/completions/rebato\n");
    said_out(&s, "/share/fish/vendor_completions.d/rebato.fish\n");
    said_out(&s, "/share/man/man1/rebato.1\n");
    said_out(&s, "/share/zsh/site-functions/_rebato\n");
    said_out(&s, "bands/square-funnel\n");
    said_finish(&s);
}

Test(main, completion_in_bash_offers_recipes_options_and_values) {
    Said s =
        said(". \"$TESTS/../src/cli/rebato.bash\"; "
             "offer() { COMP_WORDS=(rebato \"$@\"); COMP_CWORD=$#; _rebato; echo \"${COMPREPLY[*]}\"; }; "
             "offer dr; offer draft bands/sq; offer draft --block blocks/cl; offer draft --pa; offer new x "
             "--from flat/peter; offer words mee");
    cr_expect_str_eq(
        s.out.data, "draft\nbands/square-funnel\nblocks/close-fitting\n--paper\nflat/peter-pan\nmeet meets\n",
        "%s%s", s.out.data, s.err.data);
    said_finish(&s);
}

// Two rooms with a function of the same name would link, and one would call the other's.
Test(main, no_two_rooms_share_the_name_of_a_function) {
    Said s = said("for room in \"$BUILD\"/src/*/*.a; do nm \"$room\" 2>/dev/null | awk '$2 ~ /^[TDBR]$/ { "
                  "print $3 }' | "
                  "grep -v '^__' | sort -u; done | sort | tee all | uniq -d; wc -l <all");
    cr_expect(atoi(s.out.data) > 300, "%s", s.out.data);
    said_finish(&s);
}
