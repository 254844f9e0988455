// The files a draft goes to: drawn into memory first, and written only when all of them are ready.
#ifndef REBATO_CLI_TARGET_H
#define REBATO_CLI_TARGET_H

#include "base/buffer.h"
#include "cli/options.h"
#include "cli/run.h"
#include "sheet/sheet.h"

typedef enum TargetKind {
    TARGET_PDF,
    TARGET_SVG,
    TARGET_PNG,
    TARGET_PATTERN,
    TARGET_JSON,
    TARGET_HTML
} TargetKind;

typedef struct Target {
    char *file; // as given
    char *real; // what it leads to through links
    TargetKind kind;
    int pages; // of a PDF
    Buffer bytes;
} Target;

typedef struct TargetList {
    Target *items;
    int count, capacity;
    SheetOptions sheet; // format and show apart, which go by the target
    bool show_given;
} TargetList;

// Reads -o, --paper, --scale and --show, with the endings that the command can write. Fills fault where one
// is not understood or a file could not be written there. targets_finish either way.
bool targets_plan(const Options *options, TargetList *out, Fault *fault);

bool targets_draw(TargetList *targets, const Run *run, Fault *fault);
bool targets_write(const TargetList *targets, Fault *fault);
void targets_tell(const TargetList *targets, Buffer *out); // "wrote collar.pdf (14 pages)"

// Tells the report and what was written, or the report as JSON, and gives the exit code.
int targets_report(const TargetList *targets, const Run *run, bool json);
void targets_finish(TargetList *targets);

// What would only be found out once files are being replaced: that it is a folder, or in one that is not
// there or not open. real is what file leads to through links.
bool target_is_writable(const char *file, const char *real, Fault *fault);

#endif
