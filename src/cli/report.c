#include "cli/report.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "cli/tell.h"
#include "pattern/prove.h"
#include "pattern/report.h"

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

// The program's own proofs that a cutter takes for granted while they hold, by how their names begin.
static const struct {
    const char *begins, *one, *many;
} groups[] = {
    {"piece: ", "piece with name and grain", "pieces with name and grain"},
    {"outline: ", "outline", "outlines"},
    {"cut line: ", "cut line", "cut lines"},
    {"label: ", "label", "labels"},
    {"marks: ", "piece with its marks in place", "pieces with their marks in place"},
    {"fold: ", "square fold", "square folds"},
    {"allowance: ", "equal allowance", "equal allowances"},
    {"notches: ", "pair of notches that meet", "pairs of notches that meet"},
};
enum { GROUP_COUNT = sizeof groups / sizeof *groups, NO_GROUP = -1 };

static int group_of(const Proof *proof) {
    for (int i = 0; proof->kind == PROOF_OWN && i < GROUP_COUNT; i++)
        if (text_starts(proof->what, groups[i].begins))
            return i;
    return NO_GROUP;
}

static void add_grouped(const int grouped[GROUP_COUNT], Buffer *out) {
    Buffer line;
    buffer_init(&line);
    for (int i = 0; i < GROUP_COUNT; i++)
        if (grouped[i] > 0)
            buffer_add_format(&line, "%s%d %s", line.length == 0 ? "also hold: " : ", ", grouped[i],
                              grouped[i] == 1 ? groups[i].one : groups[i].many);
    if (line.length > 0)
        buffer_add_format(out, "%s\n", line.data);
    buffer_finish(&line);
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
    int grouped[GROUP_COUNT] = {0};
    for (int i = 0; i < count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        if (proof->holds ? !every : !proof->accepted)
            continue;
        int group = proof->holds ? group_of(proof) : NO_GROUP;
        if (group != NO_GROUP) {
            grouped[group]++;
            continue;
        }
        buffer_add_text(out, proof->holds ? "holds: " : "does not hold: ");
        proof_sentence(pattern, proof, out);
        buffer_add_char(out, '\n');
    }
    add_grouped(grouped, out);
}

static void add_remarks(const Run *run, Buffer *out) {
    static const char *const kinds[] = {
        [REMARK_WARNING] = "warning", [REMARK_CAUTION] = "caution", [REMARK_NOTE] = "note"};
    for (int i = 0; i < run->pattern.remarks.count; i++) {
        const Remark *remark = &run->pattern.remarks.items[i];
        buffer_add_format(out, "%s: %s\n", kinds[remark->kind], remark->text);
    }
    tell_notes(&run->notes, out);
}

void report_write(const Run *run, bool every, Buffer *out) {
    buffer_add_text(out, run->pattern.title);
    add_pieces(&run->pattern, out);
    buffer_add_char(out, '\n');
    add_ground(run, out);
    add_proofs(&run->pattern, every, out);
    add_remarks(run, out);
}

// The report of the pattern, and the notes of this run, which are not the pattern's, as its last name.
void report_json(const Run *run, Buffer *out) {
    static const char end[] = "}\n";
    Buffer report;
    buffer_init(&report);
    pattern_report_json(&run->pattern, &report);
    assert(text_ends(report.data, end));
    buffer_add(out, report.data, report.length - strlen(end));
    buffer_add_text(out, ",\"notes\":");
    tell_notes_json(&run->notes, out);
    buffer_add_text(out, end);
    buffer_finish(&report);
}
