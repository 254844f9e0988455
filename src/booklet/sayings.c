#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/units.h"
#include "booklet/composing.h"
#include "pattern/mend.h"
#include "sheet/number_text.h"
#include "sheet/plain_name.h"

#define MEASURE_MOST 64 // a longer text is no measure
#define NOTHING_MM 0.005
#define FINE_BELOW_MM 20.0 // above it a tenth of a millimetre is lost on no one
#define COARSE_INCH_MM 3.0 // a 16th of an inch is near enough from here on
#define WHOLE_MM 0.05
#define SQUARE_METRE_FROM_MM2 1e6

const char *keep(Composing *c, Buffer *text) {
    const char *kept = arena_text_n(c->arena, text->data, text->length);
    buffer_finish(text);
    return kept;
}

const char *say(Composing *c, const char *key, ...) {
    const char *filled[6] = {"", "", "", "", "", ""};
    va_list args;
    va_start(args, key);
    for (int i = 0; i < 6; i++) {
        const char *text = va_arg(args, const char *);
        if (!text)
            break;
        filled[i] = text;
    }
    va_end(args);
    Buffer out;
    buffer_init(&out);
    language_say(c->language, &out, key, filled[0], filled[1], filled[2], filled[3], filled[4], filled[5],
                 NULL);
    return keep(c, &out);
}

const char *say_count(Composing *c, const char *key, int count) {
    Buffer out;
    buffer_init(&out);
    language_count(c->language, &out, key, count);
    return keep(c, &out);
}

const char *say_numbers(Composing *c, const char *text) {
    const NumberMarks marks = language_marks(c->language);
    char marked[MEASURE_MOST] = "";
    if (strlen(text) < MEASURE_MOST / 2)
        number_text_mark(text, marks, marked, sizeof marked);
    if (*marked && strcmp(marked, text) != 0)
        return arena_text(c->arena, marked);
    Buffer within;
    buffer_init(&within);
    number_text_mark_within(text, marks, &within);
    return keep(c, &within);
}

// As the prose writes it, "0.3 cm", unless that would hide part of a small length: "1.6 mm".
static bool prose_hides(double mm, Units units) {
    return fabs(mm) < FINE_BELOW_MM &&
           (units == UNITS_INCH ? fabs(mm) < COARSE_INCH_MM : fabs(mm - round(mm)) > WHOLE_MM);
}

const char *say_mm_beside(Composing *c, double mm, double other) {
    if (fabs(mm) < NOTHING_MM)
        return "0";
    const Units units = c->pattern->units;
    char said[MEASURE_MOST];
    if (prose_hides(mm, units) || (fabs(mm) < FINE_BELOW_MM && prose_hides(other, units)))
        units_format_fine(mm, units, said, sizeof said);
    else
        units_format(mm, units, said, sizeof said);
    return say_numbers(c, arena_text(c->arena, said));
}

const char *say_mm(Composing *c, double mm) {
    return say_mm_beside(c, mm, mm);
}

const char *say_thin(Composing *c, double mm) {
    if (fabs(mm) < NOTHING_MM)
        return "0";
    char said[MEASURE_MOST];
    units_format_thin(mm, c->pattern->units, said, sizeof said);
    return say_numbers(c, arena_text(c->arena, said));
}

const char *say_area(Composing *c, double mm2) {
    const char *text = c->pattern->units == UNITS_INCH
                           ? arena_format(c->arena, "%.0f in\u00B2", mm2 / (MM_PER_INCH * MM_PER_INCH))
                       : mm2 >= SQUARE_METRE_FROM_MM2 / 10
                           ? arena_format(c->arena, "%.2f m\u00B2", mm2 / 1e6)
                           : arena_format(c->arena, "%.0f cm\u00B2", mm2 / (MM_PER_CM * MM_PER_CM));
    return say_numbers(c, text);
}

// An answer of the recipe, or an age, as run.c writes them.
const char *say_filled(Composing *c, const char *tag, const char *text) {
    const Language *language = language_find(tag ? tag : c->book->prose_language);
    language = language ? language : c->language;
    if (strcmp(text, "yes") == 0 || strcmp(text, "no") == 0)
        return language_word(language, *text == 'y' ? "proof.yes" : "proof.no");
    int count, end = 0;
    char unit[8];
    if (strlen(text) >= MEASURE_MOST || sscanf(text, "%5d %7[a-z]%n", &count, unit, &end) != 2 || text[end])
        return say_numbers(c, text);
    const bool years = strcmp(unit, "year") == 0 || strcmp(unit, "years") == 0;
    if (!years && strcmp(unit, "month") != 0 && strcmp(unit, "months") != 0)
        return say_numbers(c, text);
    Buffer out;
    buffer_init(&out);
    language_count(language, &out, years ? "years" : "months", count);
    return keep(c, &out);
}

static const char *say_years(Composing *c, double years) {
    const int months = (int)floor(years * 12 + 1e-6); // as one says it: 1 year until the second is over
    return months % 12 == 0 || months > 36 ? say_count(c, "years", months / 12)
                                           : say_count(c, "months", months);
}

const char *say_value(Composing *c, Measure measure, double value, const char *text) {
    switch (measure) {
    case MEASURE_LENGTH:
        return say_mm(c, value);
    case MEASURE_AREA:
        return say_area(c, value);
    case MEASURE_ANGLE:
        return say_numbers(c, arena_format(c->arena, "%.1f\u00B0", value));
    case MEASURE_YEARS:
        return say_years(c, value);
    case MEASURE_TEXT:
        return text ? text : ""; // as it is written to choose it
    case MEASURE_NUMBER:
        break;
    }
    return say_numbers(c, arena_format(c->arena, "%.4g", value));
}

const char *say_whole_name(Composing *c, const char *name) {
    char *plain = (char *)arena_text(c->arena, name);
    for (char *at = plain; *at; at++)
        if (*at == '_')
            *at = ' ';
    return plain;
}

const char *say_name(Composing *c, const char *name) {
    char plain[PLAIN_NAME_MAX];
    plain_name(name, plain);
    return arena_text(c->arena, plain);
}

// A name of the recipe with what the program calls it, where that is one of its own words, and nothing is to
// be filled into them.
static const char *known_word(Composing *c, const char *group, const char *name) {
    char key[128];
    const int length = snprintf(key, sizeof key, "%s.%s", group, name);
    if (length < 0 || length >= (int)sizeof key || !language_has(language_english(), key))
        return NULL;
    const char *word = language_word(c->language, key);
    return strchr(word, '{') ? NULL : word;
}

const char *say_cloth(Composing *c, const char *cloth) {
    char key[64] = "";
    if (cloth && strlen(cloth) < sizeof key) {
        snprintf(key, sizeof key, "%s", cloth);
        for (char *at = key; *at; at++)
            if (*at == ' ')
                *at = '_';
    }
    const char *known = *key ? known_word(c, "cloth_kind", key) : NULL;
    return known ? known : cloth ? arena_text(c->arena, cloth) : say(c, "cloth_kind.self", NULL);
}

const char *say_taken(Composing *c, const char *name) {
    return known_word(c, "taken", name);
}

const char *say_edge(Composing *c, const char *name) {
    static const char again[] = " again";
    const char *plain = say_name(c, name), *known = known_word(c, "edge", plain);
    if (known)
        return known;
    const size_t length = strlen(plain);
    if (length < sizeof again || strcmp(plain + length + 1 - sizeof again, again) != 0)
        return plain;
    const char *first = arena_format(c->arena, "%.*s", (int)(length + 1 - sizeof again), plain);
    return say(c, "edge.again", say_edge(c, first), NULL);
}

// The recipe's own words where the proof is its own.
const char *say_way_out(Composing *c, const Proof *proof) {
    const Mend *mend = proof->mend;
    if (!mend)
        return say_numbers(c, proof->way_out);
    const char *filled[MEND_PARTS_MAX];
    for (int i = 0; i < mend->count; i++)
        filled[i] = !mend->parts[i].name                            ? say_mm(c, mend->parts[i].mm)
                    : strstr(mend->parts[i].name, " over ") != NULL ? say_whole_name(c, mend->parts[i].name)
                                                                    : say_edge(c, mend->parts[i].name);
    Buffer out;
    buffer_init(&out);
    language_fill(c->language, &out, mend->key, filled, mend->count);
    return keep(c, &out);
}

const char *say_input(Composing *c, const Input *input) {
    const char *known = input->choice ? NULL : known_word(c, "measure", input->name);
    return known ? known : say_name(c, input->name);
}
