#include "cli/commands.h"

#include "cli/report.h"
#include "cli/run.h"
#include "cli/target.h"
#include "cli/tell.h"

int command_draft(const Options *options) {
    Run run;
    TargetList targets;
    Fault fault;
    run_init(&run);
    fault_init(&fault);
    bool fine = targets_plan(options, &targets, &fault) && run_make(&run, options, &fault) &&
                targets_draw(&targets, &run, &fault) && targets_write(&targets, &fault);
    int code = fine ? targets_report(&targets, &run, options->json)
                    : tell_fault(&fault, run_source(&run, &fault), &run.notes, options->json);
    fault_finish(&fault);
    targets_finish(&targets);
    run_finish(&run);
    return code;
}
