#include "script/survey.h"

#include <string.h>

#include "base/measures.h"
#include "script/check.h"
#include "script/run.h"
#include "script/words.h"

int survey_stop(lua_State *L) {
    run_of(L)->surveyed = true;
    lua_pushliteral(L, "surveyed");
    lua_error(L);
    __builtin_unreachable();
}

void survey_check(lua_State *L, const char *word) {
    static const char *const early[] = {"needs", "choose", "show", "cm", "mm", "inch"};
    for (size_t i = 0; i < sizeof early / sizeof *early; i++)
        if (strcmp(word, early[i]) == 0)
            return;
    const WordRow *row = words_find(word);
    if (!row || strcmp(row->subject, WORDS_PLAIN) != 0)
        survey_stop(L);
}

// Values of the size 88 in a published drafting method for close-fitting blocks, from memory; head girth:
// common practice, no source.
static const struct {
    const char *name;
    double mm;
} examples[] = {
    {"bust_girth", 880},        {"waist_girth", 680},        {"back_neck_point_to_waist", 410},
    {"scye_depth", 210},        {"neck_base_girth", 370},    {"shoulder_length", 122.5},
    {"across_back_width", 344}, {"across_front_width", 324}, {"head_girth", 560},
};

double survey_measure(const char *name) {
    for (size_t i = 0; i < sizeof examples / sizeof *examples; i++)
        if (strcmp(name, examples[i].name) == 0)
            return examples[i].mm;
    const KnownMeasure *known = measure_known(name);
    return known ? (known->least + known->most) / 2 : 100;
}
