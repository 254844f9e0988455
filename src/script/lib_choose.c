// What the designer may choose: choose.
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buffer.h"
#include "base/text.h"
#include "script/check.h"
#include "script/inputs.h"
#include "script/library.h"
#include "script/names.h"

#define OPTIONS_MAX 30

static double parse_number(lua_State *L, const char *name, const char *text) {
    char *end;
    const double value = strtod(text, &end);
    if (end == text || *end != '\0' || length_trouble(value))
        fail(L, "%s=%s: this should be a plain number", name, text);
    return value;
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

// A value of a choice that ends at most: one that never reaches 3 mm would all be "0.0 cm".
static const char *push_choice(lua_State *L, Measure measure, double value, double most) {
    char text[80];
    if (measure != MEASURE_LENGTH || most >= UNITS_THIN_MM || fabs(value) >= 10 * UNITS_THIN_MM)
        return push_shown(L, measure, value);
    units_format_thin(value, run_of(L)->job->units, text, sizeof text);
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
    const char *setting = run->place.depth == 0 ? setting_chosen(run, name) : NULL;
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
        const char *value = push_choice(L, measure, input.value, input.most),
                   *least = push_choice(L, measure, input.least, input.most),
                   *most = push_choice(L, measure, input.most, input.most);
        const char *what = input.is_default ? "the default of " : "";
        if (setting)
            run_hint(run, "give one that fits: --set %s=...; or leave it out for the usual %s", name,
                     push_choice(L, measure, usual, input.most));
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
    const char *setting = run->place.depth == 0 ? setting_chosen(run, name) : NULL;
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
    {{"choose", "recipe",
      "choose { name = { default, from =, to =, unit =, \"words\" }, other = { \"a\", \"b\", \"words\" } }",
      "What the designer may choose: a number with its default and limits, or one of some words, the first "
      "unless told. unit is "
      "\"length\" (mm, unless said), \"degrees\" or \"number\".",
      "choose {\n"
      "  height = { 10*cm, from = 4*cm, to = 25*cm, \"finished height\" },\n"
      "  cut = { \"seam\", \"fold\", \"how the centre is cut\" },\n"
      "}\n"
      "bodice.front.funnel = line(bodice.front.neck_point, bodice.front.neck_point:up(height))"},
     word_choose},
    {{NULL}, NULL},
};
