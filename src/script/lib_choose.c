// What goes in: needs and choose.
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/measures.h"
#include "base/memory.h"
#include "base/text.h"
#include "script/check.h"
#include "script/error.h"
#include "script/inputs.h"
#include "script/library.h"
#include "script/names.h"
#include "script/survey.h"

#define INPUT_NAMES_MAX 100
#define OPTIONS_MAX 30

typedef struct Asked {
    const char *name; // held by the table
    long place;
    int line;          // where it is written, or that of the word
    const char *about; // of a measurement that is missing
} Asked;

static int asked_order(const void *a, const void *b) {
    const Asked *x = a, *y = b;
    if (x->place != y->place)
        return x->place < 0 ? 1 : y->place < 0 ? -1 : x->place < y->place ? -1 : 1;
    return strcmp(x->name, y->name);
}

// The names of the table at index 1, in the author's order.
static int check_asked(lua_State *L, Asked *asked) {
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

static double parse_length(lua_State *L, const char *name, const char *text) {
    double mm;
    const UnitsError error = units_parse(text, &mm);
    if (!error)
        return mm;
    run_hint(run_of(L), "write a number with its unit: %s=\"14 cm\", \"41 mm\", \"1 5/8 in\"", name);
    fail(L, "%s=%s: %s", name, text, units_error_text(error));
}

static double parse_number(lua_State *L, const char *name, const char *text) {
    char *end;
    const double value = strtod(text, &end);
    if (end == text || *end != '\0' || length_trouble(value))
        fail(L, "%s=%s: this should be a plain number", name, text);
    return value;
}

// A measurement from the command line or the body.
bool measurement(lua_State *L, const char *name, double *out) {
    Run *run = run_of(L);
    const char *setting = setting_value(run, name);
    if (setting) {
        *out = parse_length(L, name, setting);
        if (*out <= 0)
            fail(L, "%s=%s: a measurement is above zero", name, setting);
        return true;
    }
    const BodyMeasure *measure = run->job->body ? measures_find(run->job->body, name) : NULL;
    if (measure)
        *out = measure->mm;
    return measure != NULL;
}

// Pushes what the recipe that uses this one says for the name, or nil.
static bool push_override(lua_State *L, const char *name) {
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_OVERRIDE);
    lua_rawgeti(L, -1, run_of(L)->place.chapter);
    lua_remove(L, -2);
    if (lua_istable(L, -1)) {
        lua_getfield(L, -1, name);
        lua_remove(L, -2);
    }
    return !lua_isnil(L, -1);
}

static void add_input(lua_State *L, Input input) {
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

// Some patterns need the girth at the base of the neck and some that of its column: they differ by
// centimetres, and the one is often taken for the other.
static void hint_other_neck(lua_State *L, const char *name, char *out, size_t size) {
    static const char *const girths[] = {"neck_girth", "neck_base_girth"};
    static const char *const words[] = {
        "; it is not the neck_girth you have: that is taken round the column, higher and smaller",
        "; it is not the neck_base_girth you have: that is taken round the base, lower and larger"};
    Run *run = run_of(L);
    out[0] = '\0';
    for (int i = 0; i < 2; i++)
        if (strcmp(name, girths[1 - i]) == 0 &&
            (setting_value(run, girths[i]) || (run->job->body && measures_find(run->job->body, girths[i]))))
            snprintf(out, size, "%s", words[i]);
}

static void fail_missing_bodice(lua_State *L, const char *about) {
    run_hint(run_of(L), "put a block before it: --block blocks/close-fitting (from body measurements) or "
                        "--block blocks/measured (from a block of your own)");
    fail(L, "%s needs %s", run_of(L)->place.recipe->name, about);
}

static void fail_missing_one(lua_State *L, const Asked *asked) {
    Run *run = run_of(L);
    const char *name = asked->name;
    const KnownMeasure *known = measure_known(name);
    char other[160];
    hint_other_neck(L, name, other, sizeof other);
    run->input_line = asked->line;
    if (known)
        run_hint(run, "%s%s; give it as a line %s = ... in the measurement file, or with --set %s=...",
                 known->taken, other, name, name);
    else
        run_hint(run,
                 "give it as a line %s = ... in the measurement file, or with --set %s=...; or let a recipe "
                 "before this one give it",
                 name, name);
    fail(L, "%s needs %s: %s", run->place.recipe->name, name, asked->about);
}

// Raises: these, more than one, are nowhere to be had. All are told, so that they can be taken in one go.
static void fail_missing_all(lua_State *L, const Asked *const *missing, int count) {
    Run *run = run_of(L);
    Buffer names, ways; // in the run's arena and hint in the end; nothing below raises before that
    buffer_init(&names);
    buffer_init(&ways);
    for (int i = 0; i < count; i++) {
        const char *name = missing[i]->name;
        const KnownMeasure *known = measure_known(name);
        char other[160];
        hint_other_neck(L, name, other, sizeof other);
        buffer_add_format(&names, "%s%s", i == 0 ? "" : i + 1 < count ? ", " : " and ", name);
        buffer_add_format(&ways, "%s: %s%s; ", name, known ? known->taken : missing[i]->about, other);
    }
    const char *all = arena_text(&run->arena, names.data);
    run->input_line = missing[0]->line;
    run_hint(run, "%sgive each as a line NAME = ... in the measurement file, or with --set NAME=...",
             ways.data);
    buffer_finish(&names);
    buffer_finish(&ways);
    fail(L, "%s needs %d measurements more: %s", run->place.recipe->name, count, all);
}

// Binds one need; its entry of the table is on the stack top. False, with nothing bound, where it is not to
// be had.
static bool need(lua_State *L, Asked *asked) {
    Run *run = run_of(L);
    const char *name = asked->name;
    const char *about;
    bool optional = false;
    if (lua_type(L, -1) == LUA_TTABLE) {
        static const char *const fields[] = {"optional", NULL};
        check_fields(L, -1, fields);
        optional = field_flag(L, -1, "optional");
        lua_rawgeti(L, -1, 1);
        lua_replace(L, -2);
    }
    if (lua_type(L, -1) != LUA_TSTRING)
        fail(L, "needs: say in words what '%s' is", name);
    about = check_text(L, -1, LIMIT_TEXT_BYTES);
    if (strcmp(name, "bodice") == 0)
        run->needs_bodice = true;
    Input input = {.name = name, .about = about, .measure = MEASURE_LENGTH, .most = -1, .optional = optional};
    double mm = 0;
    bool found = push_override(L, name);
    if (!found && run->place.depth == 0) {
        lua_pop(L, 1);
        lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_HANDED);
        lua_getfield(L, -1, name);
        lua_remove(L, -2);
        found = !lua_isnil(L, -1);
    }
    if (!found && strcmp(name, "bodice") != 0 && measurement(L, name, &mm)) {
        lua_pop(L, 1);
        lua_pushnumber(L, mm);
        found = true;
    }
    if (!found && run->survey) {
        lua_pop(L, 1);
        input.is_default = true;
        if (strcmp(name, "bodice") == 0)
            value_push_placeholder(L);
        else
            lua_pushnumber(L, optional ? 0 : survey_measure(name));
        if (optional) {
            lua_pop(L, 1);
            lua_pushnil(L);
        }
        found = true;
    }
    if (!found && !optional) {
        if (strcmp(name, "bodice") == 0)
            fail_missing_bodice(L, about);
        asked->about = run_text(L, about);
        lua_pop(L, 2);
        return false;
    }
    input.is_default = input.is_default || !found;
    input.missing = !found;
    if (lua_type(L, -1) == LUA_TNUMBER) {
        input.value = lua_tonumber(L, -1);
    } else if (found && !lua_isnil(L, -1)) {
        input.measure = MEASURE_TEXT;
        input.text = lua_type(L, -1) == LUA_TSTRING ? check_text(L, -1, LIMIT_TEXT_BYTES) : "given";
    }
    add_input(L, input);
    names_guard(L, name, -1);
    names_bind(L, name, -1);
    lua_pop(L, 2); // the value and the words
    return true;
}

static int word_needs(lua_State *L) {
    Asked asked[INPUT_NAMES_MAX];
    Run *run = run_of(L);
    run->in_inputs = true;
    const int count = check_asked(L, asked);
    const Asked *missing[INPUT_NAMES_MAX];
    int missing_count = 0;
    for (int i = 0; i < count; i++) {
        lua_getfield(L, 1, asked[i].name);
        run->input_line = asked[i].line;
        if (!need(L, &asked[i]))
            missing[missing_count++] = &asked[i];
    }
    if (missing_count == 1)
        fail_missing_one(L, missing[0]);
    if (missing_count > 1)
        fail_missing_all(L, missing, missing_count);
    run->in_inputs = false;
    run->input_line = 0;
    return 0;
}

static Measure check_unit(lua_State *L, int index, const char *name) {
    const char *unit = field_text(L, index, "unit", "length");
    if (strcmp(unit, "length") == 0)
        return MEASURE_LENGTH;
    if (strcmp(unit, "degrees") == 0)
        return MEASURE_ANGLE;
    if (strcmp(unit, "number") == 0)
        return MEASURE_NUMBER;
    run_hint(run_of(L), "unit is \"length\", \"degrees\" or \"number\"");
    fail(L, "choose: '%s' has the unknown unit \"%s\"", name, unit);
}

static const char *push_shown(lua_State *L, Measure measure, double value) {
    char text[80];
    run_show(run_of(L), measure, value, text, sizeof text);
    return lua_pushstring(L, text);
}

// A number the designer chooses; its table is at index.
static void choose_number(lua_State *L, const char *name, int index) {
    static const char *const fields[] = {"from", "to", "unit", NULL};
    Run *run = run_of(L);
    check_fields(L, index, fields);
    const Measure measure = check_unit(L, index, name);
    Input input = {.name = name,
                   .choice = true,
                   .measure = measure,
                   .least = -COORDINATE_LIMIT_MM,
                   .most = COORDINATE_LIMIT_MM};
    const bool from = field_number(L, index, "from", &input.least);
    const bool to = field_number(L, index, "to", &input.most);
    if (input.least > input.most)
        fail(L, "choose: '%s' goes from %s to %s, which is backward", name,
             push_shown(L, measure, input.least), push_shown(L, measure, input.most));
    lua_rawgeti(L, index, 2);
    if (lua_type(L, -1) != LUA_TSTRING)
        fail(L, "choose: say in words what '%s' is, after its default", name);
    input.about = check_text(L, -1, LIMIT_TEXT_BYTES);
    lua_rawgeti(L, index, 1);
    input.value = lua_tonumber(L, -1);
    const double usual = input.value;
    const char *trouble = length_trouble(usual);
    if (trouble)
        fail(L, "choose: the default of '%s' %s", name, trouble);
    input.is_default = true;
    const char *setting = run->place.depth == 0 ? setting_value(run, name) : NULL;
    if (push_override(L, name)) {
        if (lua_type(L, -1) != LUA_TNUMBER || length_trouble(lua_tonumber(L, -1)))
            fail(L, "'%s' should be a number, got %s", name, value_describe(L, -1));
        input.value = lua_tonumber(L, -1);
        input.is_default = false;
    } else if (setting) {
        input.value =
            measure == MEASURE_LENGTH ? parse_length(L, name, setting) : parse_number(L, name, setting);
        input.is_default = false;
    }
    if ((from && input.value < input.least - POINT_SAME_MM) ||
        (to && input.value > input.most + POINT_SAME_MM)) {
        const char *value = push_shown(L, measure, input.value);
        const char *least = push_shown(L, measure, input.least), *most = push_shown(L, measure, input.most);
        const char *what = input.is_default ? "the default of " : "";
        if (setting)
            run_hint(run, "give one that fits: --set %s=...; or leave it out for the usual %s", name,
                     push_shown(L, measure, usual));
        if (from && to)
            fail(L, "%s'%s' is %s; it should be from %s to %s", what, name, value, least, most);
        if (from)
            fail(L, "%s'%s' is %s; it should be at least %s", what, name, value, least);
        fail(L, "%s'%s' is %s; it should be at most %s", what, name, value, most);
    }
    if (!from && !to) {
        input.least = 0;
        input.most = -1;
    }
    add_input(L, input);
    lua_pushnumber(L, input.value);
    names_bind(L, name, -1);
}

// One of some words; their table is at index: the options, then what it is.
static void choose_word(lua_State *L, const char *name, int index) {
    static const char *const fields[] = {NULL};
    Run *run = run_of(L);
    check_fields(L, index, fields);
    const lua_Integer entries = (lua_Integer)lua_rawlen(L, index);
    const int count = (int)entries - 1;
    if (entries > OPTIONS_MAX + 1)
        fail(L, "choose: '%s' has more than %d options", name, OPTIONS_MAX);
    if (count < 2)
        fail(L, "choose: '%s' needs at least two options and then, in words, what it is", name);
    luaL_checkstack(L, OPTIONS_MAX + 20, "too many options");
    const char *options[OPTIONS_MAX + 1];
    Buffer list; // in the run's arena in the end; nothing below raises before that
    for (int i = 0; i <= count; i++) {
        lua_rawgeti(L, index, i + 1);
        if (lua_type(L, -1) != LUA_TSTRING)
            fail(L, "choose: option %d of '%s' should be text, got %s", i + 1, name, value_describe(L, -1));
        options[i] = check_text(L, -1, i == count ? LIMIT_TEXT_BYTES : LIMIT_NAME_BYTES);
    }
    buffer_init(&list);
    for (int i = 0; i < count; i++)
        buffer_add_format(&list, "%s%s", i ? ", " : "", options[i]);
    const char *all = arena_text(&run->arena, list.data);
    buffer_finish(&list);
    Input input = {.name = name,
                   .about = options[count],
                   .choice = true,
                   .is_default = true,
                   .measure = MEASURE_TEXT,
                   .text = options[0],
                   .most = -1,
                   .options = all};
    const char *setting = run->place.depth == 0 ? setting_value(run, name) : NULL;
    if (push_override(L, name)) {
        if (lua_type(L, -1) != LUA_TSTRING)
            fail(L, "'%s' should be one of %s; got %s", name, all, value_describe(L, -1));
        setting = lua_tostring(L, -1);
    }
    if (setting) {
        int chosen = 0;
        while (chosen < count && strcmp(options[chosen], setting) != 0)
            chosen++;
        if (chosen == count) {
            const char *near = text_nearest(setting, options, count);
            if (near)
                run_hint(run, "did you mean \"%s\"?", near);
            fail(L, "'%s' should be one of %s; got \"%s\"", name, all, setting);
        }
        input.text = options[chosen];
        input.is_default = false;
    }
    add_input(L, input);
    lua_pushstring(L, input.text);
    names_bind(L, name, -1);
}

static int word_choose(lua_State *L) {
    Asked asked[INPUT_NAMES_MAX];
    Run *run = run_of(L);
    run->in_inputs = true;
    const int count = check_asked(L, asked);
    for (int i = 0; i < count; i++) {
        const char *name = asked[i].name;
        lua_settop(L, 1);
        run->input_line = asked[i].line;
        if (lua_getfield(L, 1, name) != LUA_TTABLE)
            fail(L, "choose: '%s' should be { default, ..., \"words\" }, got %s", name,
                 value_describe(L, -1));
        const int type = lua_rawgeti(L, 2, 1);
        lua_pop(L, 1);
        if (type == LUA_TNUMBER)
            choose_number(L, name, 2);
        else if (type == LUA_TSTRING)
            choose_word(L, name, 2);
        else
            fail(L, "choose: the default of '%s' should be a number or text", name);
    }
    run->in_inputs = false;
    run->input_line = 0;
    return 0;
}

const Binding lib_choose_rows[] = {
    {{"needs", "recipe", "needs { name = \"what it is\", ... }",
      "What must be there: a measurement of the body, in mm, or what an earlier recipe gives, such as a "
      "bodice. Each name gets "
      "its value. { \"what it is\", optional = true } gives nil where it is missing.",
      "needs { head_girth = \"round the widest part of the head\" }"},
     word_needs},
    {{"choose", "recipe",
      "choose { name = { default, from =, to =, unit =, \"words\" }, other = { \"a\", \"b\", \"words\" } }",
      "What the designer may choose: a number with its default and limits, or one of some words, the first "
      "unless told. unit is "
      "\"length\" (mm, unless said), \"degrees\" or \"number\".",
      "choose { height = { 10*cm, from = 4*cm, to = 25*cm, \"finished height\" },\n"
      "         cut = { \"seam\", \"fold\", \"how the centre is cut\" } }"},
     word_choose},
    {{NULL}, NULL},
};
