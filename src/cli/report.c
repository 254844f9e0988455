#include "cli/report.h"

#include <string.h>

#include "cli/tell.h"
#include "pattern/prove.h"

#define NAMES_SHOWN 6

static void add_pieces(const Pattern *pattern, Buffer *out) {
    int count = pattern->pieces.count;
    if (count == 0) {
        buffer_add_format(out, ": %d %s, no piece to cut", pattern->drafts.count,
                          pattern->drafts.count == 1 ? "draft" : "drafts");
        return;
    }
    buffer_add_format(out, ": %d %s", count, count == 1 ? "piece" : "pieces");
    int shown = count <= NAMES_SHOWN ? count : NAMES_SHOWN - 1;
    for (int i = 0; i < shown; i++)
        buffer_add_format(out, "%s%s", i == 0 ? " (" : ", ", pattern->pieces.items[i].name);
    if (shown < count)
        buffer_add_format(out, " and %d more", count - shown);
    buffer_add_char(out, ')');
}

// The recipes before the last of the command line, and the body.
static void add_ground(const Run *run, Buffer *out) {
    const Pattern *pattern = &run->pattern;
    int last = -1, before = 0;
    for (int i = 0; i < pattern->chapters.count; i++)
        if (pattern->chapters.items[i].depth == 0)
            last = i;
    for (int i = 0; i < last; i++)
        if (pattern->chapters.items[i].depth == 0)
            buffer_add_format(out, "%s%s", before++ == 0 ? "on " : ", ", pattern->chapters.items[i].recipe);
    if (pattern->body)
        buffer_add_format(out, "%s the body %s", before > 0 ? " for" : "for", pattern->body);
    if (before == 0 && !pattern->body)
        return;
    if (run->block_taken && run->body_taken)
        buffer_add_text(out, ", both taken since none was given");
    else if (run->block_taken)
        buffer_add_text(out, "; the block was taken since none was given");
    else if (run->body_taken)
        buffer_add_text(out, ", taken since none was given");
    buffer_add_char(out, '\n');
}

static void add_failed(const Pattern *pattern, const Proof *proof, int number, Buffer *out) {
    buffer_add_format(out, "%d. ", number);
    proof_sentence(pattern, proof, out);
    buffer_add_format(out, "\n   to take it as it is: --accept \"%s\"\n", proof->what);
}

static void add_proofs(const Pattern *pattern, bool every, Buffer *out) {
    int count = pattern->proofs.count, failed = 0, accepted = 0;
    for (int i = 0; i < count; i++) {
        failed += !pattern->proofs.items[i].holds && !pattern->proofs.items[i].accepted;
        accepted += !pattern->proofs.items[i].holds && pattern->proofs.items[i].accepted;
    }
    int hold = count - failed - accepted;
    if (count == 0)
        buffer_add_text(out, "nothing was there to prove\n");
    else if (failed == 0 && accepted == 0)
        buffer_add_format(out, count == 1 ? "the one proof holds\n" : "all %d proofs hold\n", count);
    else
        buffer_add_format(out, "%d of %d proofs hold%s\n", hold, count, failed > 0 ? "; not proven:" : "");
    int number = 0;
    for (int i = 0; i < count; i++)
        if (!pattern->proofs.items[i].holds && !pattern->proofs.items[i].accepted)
            add_failed(pattern, &pattern->proofs.items[i], ++number, out);
    for (int i = 0; i < count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        if (proof->holds ? !every : !proof->accepted)
            continue;
        buffer_add_text(out, proof->holds ? "holds: " : "does not hold: ");
        proof_sentence(pattern, proof, out);
        buffer_add_char(out, '\n');
    }
}

static void add_remarks(const Run *run, Buffer *out) {
    static const char *const kinds[] = {
        [REMARK_WARNING] = "warning", [REMARK_CAUTION] = "caution", [REMARK_NOTE] = "note"};
    for (int i = 0; i < run->pattern.remarks.count; i++) {
        const Remark *remark = &run->pattern.remarks.items[i];
        buffer_add_format(out, "%s: %s\n", kinds[remark->kind], remark->text);
    }
    for (const char *line = run->notes.data; *line;) {
        size_t length = strcspn(line, "\n");
        buffer_add_text(out, "note: ");
        buffer_add(out, line, length);
        buffer_add_char(out, '\n');
        line += length + (line[length] == '\n');
    }
}

void report_write(const Run *run, bool every, Buffer *out) {
    buffer_add_text(out, run->pattern.title);
    add_pieces(&run->pattern, out);
    buffer_add_char(out, '\n');
    add_ground(run, out);
    add_proofs(&run->pattern, every, out);
    add_remarks(run, out);
}
