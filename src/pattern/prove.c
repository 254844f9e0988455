#include "pattern/prove.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/mend.h"
#include "pattern/proving.h"

#define FINE_BELOW_MM 10.0
#define SLIT_STEP_MM 5.0 // slits and zips are named in steps of this

const char *say_length(const Pattern *pattern, double mm, char out[SAID_MAX]) {
    if (fabs(mm) < FINE_BELOW_MM)
        units_format_fine(mm, pattern->units, out, SAID_MAX);
    else
        units_format(mm, pattern->units, out, SAID_MAX);
    return out;
}

static bool name_taken(const Pattern *pattern, const char *name) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (strcmp(pattern->proofs.items[i].what, name) == 0)
            return true;
    return false;
}

void proof_add(Pattern *pattern, Proof proof, const char *format, ...) {
    char name[512];
    va_list args;
    va_start(args, format);
    vsnprintf(name, sizeof name, format, args);
    va_end(args);
    proof.kind = PROOF_OWN;
    proof.what = arena_text(&pattern->arena, name);
    for (int number = 2; name_taken(pattern, proof.what); number++)
        proof.what = arena_format(&pattern->arena, "%s (%d)", name, number);
    if (!proof.relation)
        proof.relation = "";
    ARRAY_ADD(&pattern->proofs, proof);
}

double pull_on_opens(const PullOn *pull) {
    return pull->length * (1 + pull->stretch) + 2 * pull->slit;
}

// A finished opening goes over the head when it opens to the girth of the head and some room at least.
void prove_opening(Pattern *pattern) {
    const PullOn *pull = &pattern->pull_on;
    if (!pull->stated || pull->head_girth <= 0)
        return;
    const double around = pull->length * (1 + pull->stretch);
    Proof proof = {.step = pull->step,
                   .measure = MEASURE_LENGTH,
                   .found = pull_on_opens(pull),
                   .wanted = pull->head_girth + pull->ease,
                   .relation = "at least",
                   .piece = -1,
                   .edge = -1};
    proof.holds = proof.found >= proof.wanted - POINT_ON_MM;
    if (!proof.holds) {
        const double slit = ceil((proof.wanted - around) / 2 / SLIT_STEP_MM - 1e-9) * SLIT_STEP_MM;
        proof_mend(pattern, &proof, "mend.opening", (MendPart[]){{.mm = slit}}, 1);
    }
    proof_add(pattern, proof, "opening over the head");
}

static void drop_own(Pattern *pattern) {
    int kept = 0;
    for (int i = 0; i < pattern->proofs.count; i++) {
        Proof proof = pattern->proofs.items[i];
        if (proof.kind != PROOF_TOLD)
            continue;
        proof.accepted = false;
        pattern->proofs.items[kept++] = proof;
    }
    pattern->proofs.count = kept;
}

static bool accept(Pattern *pattern, const char *name) {
    bool known = false;
    for (int i = 0; i < pattern->proofs.count; i++) {
        if (strcmp(pattern->proofs.items[i].what, name) != 0)
            continue;
        pattern->proofs.items[i].accepted = true;
        known = true;
    }
    return known;
}

void pattern_prove(Pattern *pattern, const char *const *accepted, int count, const char **unknown) {
    drop_own(pattern);
    for (int i = 0; i < pattern->seams.count; i++)
        prove_seam(pattern, i);
    for (int i = 0; i < pattern->pieces.count; i++) {
        prove_piece(pattern, i);
        prove_marks(pattern, i);
        prove_folds(pattern, i);
    }
    prove_opening(pattern);
    const char *none = NULL;
    for (int i = 0; i < count; i++)
        if (!accept(pattern, accepted[i]) && !none)
            none = accepted[i];
    if (unknown)
        *unknown = none;
}

static void add_measure(const Pattern *pattern, Measure measure, double value, Buffer *out) {
    char said[SAID_MAX];
    switch (measure) {
    case MEASURE_LENGTH:
        buffer_add_text(out, say_length(pattern, value, said));
        return;
    case MEASURE_AREA:
        if (pattern->units == UNITS_INCH)
            buffer_add_format(out, "%.1f sq in", value / (MM_PER_INCH * MM_PER_INCH));
        else
            buffer_add_format(out, "%.1f cm2", value / (MM_PER_CM * MM_PER_CM));
        return;
    case MEASURE_ANGLE:
        buffer_add_format(out, "%.1f degrees", value);
        return;
    case MEASURE_NUMBER:
    case MEASURE_YEARS:
    case MEASURE_TEXT:
        break;
    }
    buffer_add_format(out, "%.4g", value);
}

static void add_difference(const Pattern *pattern, const Proof *proof, Buffer *out) {
    const double by = proof->found - proof->wanted;
    const bool length = proof->measure == MEASURE_LENGTH;
    Buffer amount; // less than can be shown reads 0.0
    buffer_init(&amount);
    add_measure(pattern, proof->measure, fabs(by), &amount);
    buffer_add_format(out, ", %s", strpbrk(amount.data, "123456789") ? amount.data : "a trace");
    buffer_finish(&amount);
    buffer_add_text(out, by > 0   ? (length ? " too long" : " too much")
                         : length ? " too short"
                                  : " too little");
}

// The seam whose length a proof of the program is about, or NULL. A number may follow the name.
static const Seam *proof_seam(const Pattern *pattern, const Proof *proof) {
    static const char start[] = "seam: ";
    if (proof->kind != PROOF_OWN || strncmp(proof->what, start, sizeof start - 1) != 0)
        return NULL;
    const char *name = proof->what + sizeof start - 1;
    for (int i = 0; i < pattern->seams.count; i++) {
        const Seam *seam = &pattern->seams.items[i];
        const size_t length = strlen(seam->name);
        if (strncmp(name, seam->name, length) != 0 || (name[length] && strncmp(name + length, " (", 2) != 0))
            continue;
        if (seam->a.items[0].piece == proof->piece && seam->a.items[0].edge == proof->edge)
            return seam;
    }
    return NULL;
}

// Both lengths as they are sewn, and the ease between them that was meant.
static void add_seam(const Pattern *pattern, const Proof *proof, const Seam *seam, Buffer *out) {
    char a[SAID_MAX], b[SAID_MAX], ease[SAID_MAX + 4] = "no", by[SAID_MAX], allowed[SAID_MAX];
    if (fabs(seam->ease) > POINT_ON_MM) {
        say_length(pattern, seam->ease, ease);
        strcat(ease, " of");
    }
    if (pattern->units == UNITS_INCH)
        say_length(pattern, proof->tolerance, allowed);
    else
        snprintf(allowed, sizeof allowed, "%.3g mm", proof->tolerance);
    buffer_add_format(out, "%s on %s, %s ease meant, off by %s (%s allowed)",
                      say_length(pattern, proof->found, a),
                      say_length(pattern, proof->wanted - seam->ease, b), ease,
                      say_length(pattern, fabs(proof->found - proof->wanted), by), allowed);
}

void proof_sentence(const Pattern *pattern, const Proof *proof, Buffer *out) {
    buffer_add_format(out, "%s: ", proof->what);
    const char *relation = proof->relation ? proof->relation : "";
    const Seam *seam = proof_seam(pattern, proof);
    if (seam) {
        add_seam(pattern, proof, seam, out);
    } else if (!*relation) {
        buffer_add_text(out, proof->holds ? "yes" : "no");
        if (proof->measure != MEASURE_NUMBER && proof->measure != MEASURE_TEXT) {
            buffer_add_text(out, ", found ");
            add_measure(pattern, proof->measure, proof->found, out);
            buffer_add_text(out, ", wanted ");
            add_measure(pattern, proof->measure, proof->wanted, out);
        }
    } else {
        add_measure(pattern, proof->measure, proof->found, out);
        buffer_add_format(out, strcmp(relation, "equal") == 0 ? " against " : ", %s ", relation);
        add_measure(pattern, proof->measure, proof->wanted, out);
        if (!proof->holds)
            add_difference(pattern, proof, out);
    }
    if (!proof->holds && proof->way_out)
        buffer_add_format(out, ": %s", proof->way_out);
    if (!proof->holds && proof->accepted)
        buffer_add_text(out, " (accepted)");
}
