#include "cli/commands.h"

#include "cli/report.h"
#include "cli/run.h"
#include "cli/tell.h"

static int tell_check(const Run *run, bool json) {
    Buffer text;
    buffer_init(&text);
    if (json)
        report_json(run, &text);
    else
        report_write(run, true, &text);
    int code = tell_text(&text, pattern_holds(&run->pattern) ? EXIT_HOLDS : EXIT_FAILED);
    buffer_finish(&text);
    return code;
}

int command_check(const Options *options) {
    Run run;
    Fault fault;
    run_init(&run);
    fault_init(&fault);
    int code = run_make(&run, options, &fault)
                   ? tell_check(&run, options->json)
                   : tell_fault(&fault, run_source(&run, &fault), &run.notes, options->json);
    fault_finish(&fault);
    run_finish(&run);
    return code;
}
