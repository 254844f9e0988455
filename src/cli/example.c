#include "cli/example.h"

#include <string.h>

#include "base/text.h"
#include "cli/tell.h"
#include "pattern/prove.h"

void example_finish(Example *example) {
    run_finish(&example->run);
    buffer_finish(&example->told);
}

// The first chapter of the example itself; the block comes before it.
static int own_chapter(const Pattern *pattern) {
    int own = 0;
    for (int i = 0; i < pattern->chapters.count; i++)
        if (pattern->chapters.items[i].depth == 0)
            own = i;
    return own;
}

static bool own_step(const Pattern *pattern, int step) {
    return step >= 0 && step < pattern->steps.count &&
           pattern->steps.items[step].chapter >= own_chapter(pattern);
}

static bool draws(const Pattern *pattern) {
    for (int i = 0; i < pattern->drafts.count; i++) {
        const Draft *draft = &pattern->drafts.items[i];
        for (int k = 0; k < draft->marks.count; k++)
            if (own_step(pattern, draft->marks.items[k].step))
                return true;
        for (int k = 0; k < draft->dimensions.count; k++)
            if (own_step(pattern, draft->dimensions.items[k].step))
                return true;
    }
    return false;
}

static void add_value(const char *name, Measure measure, double value, const char *text, Units units,
                      Buffer *out) {
    buffer_add_format(out, "%s = ", name);
    tell_value(measure, value, text, units, out);
    buffer_add_char(out, '\n');
}

static void add_values(const Pattern *pattern, Buffer *out) {
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        if (input->chapter < own_chapter(pattern) || strcmp(input->name, WORDS_GIVEN) == 0)
            continue;
        if (input->missing)
            buffer_add_format(out, "%s = nil\n", input->name);
        else
            add_value(input->name, input->measure, input->value, input->text, pattern->units, out);
    }
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        if (own_step(pattern, note->step))
            add_value(note->name, note->measure, note->value, note->text, pattern->units, out);
    }
}

// Of the program's own proofs those that the words speak of: of a seam and of the opening.
static void add_proofs(const Pattern *pattern, Buffer *out) {
    for (int i = 0; i < pattern->proofs.count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        const bool own = proof->kind == PROOF_OWN;
        if (own ? !text_starts(proof->what, "seam: ") && !text_starts(proof->what, "opening")
                : !own_step(pattern, proof->step))
            continue;
        buffer_add_text(out, proof->holds ? "holds: " : "does not hold: ");
        proof_sentence(pattern, proof, out);
        buffer_add_char(out, '\n');
    }
}

static void add_remarks(const Pattern *pattern, Buffer *out) {
    static const char *const kinds[] = {
        [REMARK_WARNING] = "warning", [REMARK_CAUTION] = "caution", [REMARK_NOTE] = "note"};
    for (int i = 0; i < pattern->remarks.count; i++)
        if (own_step(pattern, pattern->remarks.items[i].step))
            buffer_add_format(out, "%s: %s\n", kinds[pattern->remarks.items[i].kind],
                              pattern->remarks.items[i].text);
}

bool example_run(const WordRow *row, Units units, Example *out, Fault *fault) {
    run_init(&out->run);
    buffer_init(&out->told);
    out->draws = false;
    Buffer recipe;
    buffer_init(&recipe);
    words_recipe(row, &recipe);
    bool fine = run_written(&out->run, row->name, recipe.data, units, fault);
    buffer_finish(&recipe);
    if (!fine)
        return false;
    const Pattern *pattern = &out->run.pattern;
    out->draws = draws(pattern);
    add_values(pattern, &out->told);
    add_proofs(pattern, &out->told);
    add_remarks(pattern, &out->told);
    return true;
}
