#include <string.h>

#include "base/text.h"
#include "booklet/compose.h"
#include "booklet/html.h"
#include "booklet/pages.h"
#include "cli/commands.h"
#include "cli/report.h"
#include "cli/run.h"
#include "cli/target.h"
#include "cli/tell.h"

#define PAPER_MOST_MM 1200.0

static bool find_language(const char *tag, const Language **out, Fault *fault) {
    *out = NULL;
    if (!tag || (*out = language_find(tag)) != NULL)
        return true;
    fault_set(fault, NULL, 0, "there are no words in the language %s", tag);
    Buffer tags;
    buffer_init(&tags);
    for (int i = 0; language_at(i); i++)
        buffer_add_format(&tags, "%s%s", i ? ", " : "", language_tag(language_at(i)));
    fault_set_hint(fault, "there are those of: %s; the prose stays as it was written", tags.data);
    buffer_finish(&tags);
    return false;
}

static bool plan(const Options *options, TargetList *targets, ComposeOptions *composing, Fault *fault) {
    if (text_ends_any_case(options->argument, ".pattern")) {
        fault_set(fault, options->argument, 0, "a pattern has no prose, so no lesson can be woven from it");
        fault_set_hint(fault, "weave its recipe, with the same body and choices");
        return false;
    }
    if (!find_language(options->language, &composing->language, fault) ||
        !targets_plan(options, targets, fault))
        return false;
    const SheetOptions *sheet = &targets->sheet;
    if (sheet->whole || sheet->width > PAPER_MOST_MM || sheet->height > PAPER_MOST_MM) {
        fault_set(fault, NULL, 0, "a lesson cannot be printed on --paper %s", options->paper);
        fault_set_hint(fault, "give it pages of up to 120 cm on a side: a4, letter");
        return false;
    }
    composing->paper_width = sheet->width;
    composing->paper_height = sheet->height;
    composing->with_code = options->with_code;
    composing->version = REBATO_VERSION;
    return true;
}

static bool write_book(const Book *book, TargetList *targets, Fault *fault) {
    for (int i = 0; i < targets->count; i++) {
        Target *target = &targets->items[i];
        if (target->kind != TARGET_PDF)
            html_write(book, &target->bytes);
        else if (!pages_write(book, &target->bytes, &target->pages, fault))
            return false;
    }
    return targets_write(targets, fault);
}

int command_weave(const Options *options) {
    Run run;
    TargetList targets = {0};
    ComposeOptions composing = {0};
    Book book = {0};
    Fault fault;
    run_init(&run);
    fault_init(&fault);
    bool fine = plan(options, &targets, &composing, &fault) && run_make(&run, options, &fault);
    if (fine) {
        book_compose(&run.pattern, &run.shelf, &composing, &book, &run.notes);
        fine = write_book(&book, &targets, &fault);
    }
    int code = fine ? targets_report(&targets, &run, options->json)
                    : tell_fault(&fault, run_source(&run, &fault), &run.notes, options->json);
    book_finish(&book);
    fault_finish(&fault);
    targets_finish(&targets);
    run_finish(&run);
    return code;
}
