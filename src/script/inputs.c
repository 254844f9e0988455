#include "script/inputs.h"

#include <stdlib.h>
#include <string.h>

#include "base/measures.h"
#include "base/memory.h"
#include "script/check.h"
#include "script/error.h"

static int asked_order(const void *a, const void *b) {
    const Asked *x = a, *y = b;
    if (x->place != y->place)
        return x->place < 0 ? 1 : y->place < 0 ? -1 : x->place < y->place ? -1 : 1;
    return strcmp(x->name, y->name);
}

int check_asked(lua_State *L, Asked *asked) {
    if (lua_type(L, 1) != LUA_TTABLE)
        fail_argument(L, 1, "a table { name = ..., ... }");
    check_last(L, 1);
    const int line = author_line(L);
    int count = 0;
    for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            fail(L, "%s: write { name = ..., ... }", word_name(L));
        const char *name = check_name(L, -2);
        if (!is_plain_name(name))
            fail(L, "%s: '%s' is not a plain name: letters, digits and _", word_name(L), name);
        if (count == INPUT_NAMES_MAX)
            fail(L, "%s takes at most %d names", word_name(L), INPUT_NAMES_MAX);
        const Recipe *recipe = run_of(L)->place.recipe;
        const int own_line = recipe_name_line(recipe, line, name);
        asked[count++] = (Asked){
            .name = name, .place = recipe_name_order(recipe, line, name), .line = own_line ? own_line : line};
    }
    qsort(asked, (size_t)count, sizeof *asked, asked_order);
    return count;
}

const char *setting_value(Run *run, const char *name) {
    for (int i = run->job->setting_count - 1; i >= 0; i--)
        if (strcmp(run->job->settings[i].name, name) == 0) {
            for (int j = 0; j <= i; j++) // an earlier one of the name is overruled, not unknown
                if (strcmp(run->job->settings[j].name, name) == 0)
                    run->used_settings[j] = true;
            return run->job->settings[i].value;
        }
    return NULL;
}

const char *setting_chosen(Run *run, const char *name) {
    const char *value = setting_value(run, name);
    for (int i = 0; value && i < run->job->setting_count; i++)
        if (strcmp(run->job->settings[i].name, name) == 0)
            run->chosen_settings[i] = true;
    return value;
}

// Also where the recipe that chooses comes later in the chain.
static bool is_chosen(const Run *run, const char *name) {
    for (int i = 0; i < run->job->chain_count; i++)
        if (recipe_chooses(shelf_held(run->job->shelf, run->job->chain[i]), name))
            return true;
    for (int i = 0; i < run->job->setting_count; i++)
        if (run->chosen_settings[i] && strcmp(run->job->settings[i].name, name) == 0)
            return true;
    return false;
}

double parse_length(lua_State *L, const char *name, const char *text) {
    double mm;
    const UnitsError error = units_parse(text, &mm);
    if (!error)
        return mm;
    run_hint(run_of(L), "write a number with its unit: %s=\"14 cm\", \"41 mm\", \"1 5/8 in\"", name);
    fail(L, "%s=%s: %s", name, text, units_error_text(error));
}

static double parse_measurement(lua_State *L, const char *name, const char *text) {
    double value = 0;
    if (!measure_in_years(name)) {
        value = parse_length(L, name, text);
        if (value <= 0)
            fail(L, "%s=%s: a measurement is above zero", name, text);
        return value;
    }
    if (units_parse_years(text, &value)) {
        run_hint(run_of(L), "write %s=\"6 years\" or %s=\"18 months\"", name, name);
        fail(L, "%s=%s: %s", name, text, units_error_text(UNITS_NOT_AN_AGE));
    }
    return value;
}

bool measurement(lua_State *L, const char *name, double *out) {
    Run *run = run_of(L);
    const char *setting = is_chosen(run, name) ? NULL : setting_value(run, name);
    if (setting) {
        *out = parse_measurement(L, name, setting);
        return true;
    }
    const BodyMeasure *measure = run->job->body ? measures_find(run->job->body, name) : NULL;
    if (measure)
        *out = measure->value;
    return measure != NULL;
}

bool push_override(lua_State *L, const char *name) {
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_OVERRIDE);
    lua_rawgeti(L, -1, run_of(L)->place.chapter);
    lua_remove(L, -2);
    if (lua_istable(L, -1)) {
        lua_getfield(L, -1, name);
        lua_remove(L, -2);
    }
    return !lua_isnil(L, -1);
}

void add_input(lua_State *L, Input input) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    ledger_count(L, pattern->inputs.count, LIMIT_INPUTS, "inputs");
    input.name = arena_text(&pattern->arena, input.name);
    input.about = arena_text(&pattern->arena, input.about);
    input.text = arena_text(&pattern->arena, input.text);
    input.options = arena_text(&pattern->arena, input.options);
    input.chapter = run->place.chapter;
    ARRAY_ADD(&pattern->inputs, input);
    ledger_settle(L);
}
