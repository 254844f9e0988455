#include "script/run.h"

bool script_survey(const ScriptJob *job, Pattern *out, Fault *fault) {
    return run_job(job, true, out, fault);
}
bool script_run_apart(const ScriptJob *job, Pattern *out, Fault *fault) {
    return run_job(job, false, out, fault);
}
