#include "cli/commands.h"

#include "cli/report.h"
#include "cli/run.h"
#include "cli/target.h"
#include "cli/tell.h"

static int tell_draft(const Run *run, const TargetList *targets, bool json) {
    Buffer text;
    buffer_init(&text);
    if (json) {
        report_json(run, &text);
    } else {
        report_write(run, false, &text);
        targets_tell(targets, &text);
    }
    int code = tell_text(&text, pattern_holds(&run->pattern) ? EXIT_HOLDS : EXIT_FAILED);
    buffer_finish(&text);
    return code;
}

int command_draft(const Options *options) {
    Run run;
    TargetList targets;
    Fault fault;
    run_init(&run);
    fault_init(&fault);
    bool fine = targets_plan(options, &targets, &fault) && run_make(&run, options, &fault) &&
                targets_draw(&targets, &run, &fault) && targets_write(&targets, &fault);
    int code = fine ? tell_draft(&run, &targets, options->json)
                    : tell_fault(&fault, run_source(&run, &fault), &run.notes, options->json);
    fault_finish(&fault);
    targets_finish(&targets);
    run_finish(&run);
    return code;
}
