// What was proven, with its numbers; and what was not, where it belongs, loudly.
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "booklet/composing.h"
#include "pattern/seam.h"

#define SEAM_PROOF "seam: "
#define NO_EASE_MM 0.05

// The program's own proofs: how their names begin, and the words for one of them.
static const struct {
    const char *begins, *name, *counted; // counted: many of these in one line while they hold, or NULL
} own[] = {
    {SEAM_PROOF, "proof.seam", NULL},
    {"opening over the head", "proof.opening", NULL},
    {"smooth: ", "proof.smooth", "proofs.smooth"},
    {"corner on the fold: ", "proof.corner", "proofs.corner"},
    {"piece: ", "proof.piece", "proofs.piece"},
    {"outline: ", "proof.outline", "proofs.outline"},
    {"cut line: ", "proof.cut_line", "proofs.cut_line"},
    {"label: ", "proof.label", "proofs.label"},
    {"marks: ", "proof.marks", "proofs.marks"},
    {"fold: ", "proof.fold", "proofs.fold"},
    {"allowance: ", "proof.allowance", "proofs.allowance"},
    {"notches: ", "proof.notches", "proofs.notches"},
};
enum { OWN_COUNT = sizeof own / sizeof *own };

static int own_of(const Proof *proof) {
    for (int i = 0; proof->kind == PROOF_OWN && i < OWN_COUNT; i++)
        if (text_starts(proof->what, own[i].begins))
            return i;
    return -1;
}

int proofs_failing(const Pattern *pattern) {
    int count = 0;
    for (int i = 0; i < pattern->proofs.count; i++)
        count += !pattern->proofs.items[i].holds && !pattern->proofs.items[i].accepted;
    return count;
}

const char *proof_name(Composing *c, const Proof *proof) {
    const int at = own_of(proof);
    if (at < 0)
        return say_numbers(c, proof->what);
    const char *name = proof->what + strlen(own[at].begins);
    const char *end = strcmp(own[at].name, "proof.smooth") == 0 ? strstr(name, ", first end") : NULL;
    if (!end && strcmp(own[at].name, "proof.smooth") == 0)
        end = strstr(name, ", last end");
    if (!end)
        return say(c, own[at].name, say_whole_name(c, name), NULL);
    const char *seam = arena_format(c->arena, "%.*s", (int)(end - name), name);
    return say(c, end[2] == 'f' ? "proof.smooth_first" : "proof.smooth_last", say_whole_name(c, seam), NULL);
}

// The seam whose length a proof of the program's own walks, or NULL.
static const Seam *seam_of(const Pattern *pattern, const Proof *proof) {
    if (proof->kind != PROOF_OWN || !text_starts(proof->what, SEAM_PROOF))
        return NULL;
    for (int i = 0; i < pattern->seams.count; i++)
        if (pattern->seams.items[i].step == proof->step &&
            strcmp(pattern->seams.items[i].name, proof->what + strlen(SEAM_PROOF)) == 0)
            return &pattern->seams.items[i];
    return NULL;
}

// "20.8 cm on 20.5 cm", and what was meant: "0.3 cm of ease".
static const char *sides_words(Composing *c, const Seam *seam) {
    return say(c, "proof.sides", say_mm(c, seam_side_length(c->pattern, &seam->a)),
               say_mm(c, seam_side_length(c->pattern, &seam->b)), NULL);
}

static const char *meant_words(Composing *c, const Seam *seam) {
    const char *ease = fabs(seam->ease) < NO_EASE_MM
                           ? say(c, "proof.no_ease", NULL)
                           : say(c, "proof.ease", say_mm(c, fabs(seam->ease)), NULL);
    return say(c, "proof.equal_within", ease, say_mm(c, seam->tolerance), NULL);
}

static const char *wanted_words(Composing *c, const Proof *proof) {
    const Seam *seam = seam_of(c->pattern, proof);
    if (seam)
        return meant_words(c, seam);
    const char *wanted = proof->measure == MEASURE_LENGTH ? say_mm_beside(c, proof->wanted, proof->found)
                                                          : say_value(c, proof->measure, proof->wanted, NULL);
    const char *relation = proof->relation ? proof->relation : "";
    if (strcmp(relation, "at least") == 0)
        return say(c, "proof.at_least", wanted, NULL);
    if (strcmp(relation, "at most") == 0)
        return say(c, "proof.at_most", wanted, NULL);
    if (strcmp(relation, "equal") == 0 && proof->tolerance > 0)
        return say(c, "proof.equal_within", wanted,
                   proof->measure == MEASURE_LENGTH ? say_mm_beside(c, proof->tolerance, proof->found)
                                                    : say_value(c, proof->measure, proof->tolerance, NULL),
                   NULL);
    if (strcmp(relation, "equal") == 0)
        return say(c, "proof.equal", wanted, NULL);
    return say(c, "proof.yes", NULL);
}

static const char *found_words(Composing *c, const Proof *proof) {
    const Seam *seam = seam_of(c->pattern, proof);
    if (seam)
        return sides_words(c, seam);
    if (!proof->relation || !*proof->relation)
        return say(c, proof->holds ? "proof.yes" : "proof.no", NULL);
    return proof->measure == MEASURE_LENGTH ? say_mm_beside(c, proof->found, proof->wanted)
                                            : say_value(c, proof->measure, proof->found, NULL);
}

static void say_proof(Composing *c, const Proof *proof, Buffer *out) {
    language_say(c->language, out, "proof.says", proof_name(c, proof), found_words(c, proof),
                 wanted_words(c, proof), NULL);
    if (!proof->holds && proof->way_out)
        buffer_add_format(out, " %s", say(c, "proof.way_out", say_way_out(c, proof), NULL));
}

static void add_failed(Composing *c, const Proof *proof, BlockList *out) {
    if (proof->holds)
        return;
    Buffer text;
    buffer_init(&text);
    say_proof(c, proof, &text);
    if (proof->accepted)
        buffer_add_format(&text, " %s", say(c, "proof.accepted", NULL));
    add_notice(c, out, proof->accepted ? TONE_WARNING : TONE_FAILED, keep(c, &text), -1);
}

void add_failed_of_step(Composing *c, int step, BlockList *out) {
    for (int i = 0; i < c->pattern->proofs.count; i++)
        if (c->pattern->proofs.items[i].step == step)
            add_failed(c, &c->pattern->proofs.items[i], out);
}

void add_remarks(Composing *c, int step, BlockList *out) {
    for (int i = 0; i < c->pattern->remarks.count; i++) {
        const Remark *remark = &c->pattern->remarks.items[i];
        if (c->told[i] || (step >= 0 && remark->step != step))
            continue;
        c->told[i] = true;
        const BookTone tone = remark->kind == REMARK_WARNING   ? TONE_WARNING
                              : remark->kind == REMARK_CAUTION ? TONE_CAUTION
                                                               : TONE_NOTE;
        if (strcmp(remark->text, REMARK_NO_OPENING) == 0)
            add_notice(c, out, tone, say(c, "remark.no_opening", NULL), -1);
        else
            add_notice(c, out, tone, say_numbers(c, remark->text), remark->step);
    }
}

static void add_row(Composing *c, const Proof *proof, TableMaking *table) {
    if (own_of(proof) < 0)
        table_authored(c, table, proof_name(c, proof), proof->step);
    else
        table_text(c, table, proof_name(c, proof));
    const bool measured = proof->relation && *proof->relation; // else holds or not is all there is to say
    table_text(c, table, measured ? found_words(c, proof) : "");
    table_text(c, table, measured ? wanted_words(c, proof) : "");
    table_text(c, table,
               say(c,
                   proof->holds      ? "proof.holds"
                   : proof->accepted ? "proof.taken"
                                     : "proof.fails",
                   NULL));
}

static void add_counted(Composing *c, const int counted[OWN_COUNT], BlockList *out) {
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i < OWN_COUNT; i++) {
        if (counted[i] == 0)
            continue;
        if (text.length > 0)
            buffer_add_text(&text, ", ");
        language_count(c->language, &text, own[i].counted, counted[i]);
    }
    if (text.length > 0)
        add_paragraph(c, out, say(c, "proofs.also", text.data, NULL));
    buffer_finish(&text);
}

void add_proofs(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {
        {.weight = 6}, {.number = true, .weight = 2}, {.weight = 3}, {.weight = 2}};
    const Pattern *pattern = c->pattern;
    BlockList inner = {0};
    const int failing = proofs_failing(pattern), count = pattern->proofs.count;
    int taken = -failing;
    for (int i = 0; i < count; i++)
        taken += !pattern->proofs.items[i].holds;
    if (failing > 0)
        add_paragraph(c, &inner, say_count(c, "proofs.failing", failing));
    else if (count > 0)
        add_paragraph(c, &inner,
                      taken ? say_count(c, "proofs.taken", taken) : say_count(c, "proofs.hold", count));
    else
        add_paragraph(c, &inner, say(c, "proofs.none", NULL));
    TableMaking table = table_begin(columns, 4, true, true);
    table_text(c, &table, say(c, "proofs.what", NULL));
    table_text(c, &table, say(c, "proofs.found", NULL));
    table_text(c, &table, say(c, "proofs.wanted", NULL));
    table_text(c, &table, say(c, "proofs.result", NULL));
    int counted[OWN_COUNT] = {0};
    for (int i = 0; i < count; i++) // what fails first, loudly and with a way out
        add_failed(c, &pattern->proofs.items[i], &inner);
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < count; i++) {
            const Proof *proof = &pattern->proofs.items[i];
            if (proof->holds != (pass == 1))
                continue;
            const int at = own_of(proof);
            if (proof->holds && at >= 0 && own[at].counted)
                counted[at]++;
            else
                add_row(c, proof, &table);
        }
    table_end(c, &table, say(c, "part.proofs", NULL), &inner);
    add_counted(c, counted, &inner);
    if (count > 0)
        add_paragraph(
            c, &inner,
            arena_format(c->arena, "%s %s", say(c, "proofs.rounded", NULL), say(c, "proofs.toile", NULL)));
    add_section(c, out, ROLE_PROOFS, 2, "proofs", say(c, "part.proofs", NULL), &inner);
}
