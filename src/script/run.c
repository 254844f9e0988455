// Life of a run: a state is made (state.c); each recipe of the chain runs in it as a chapter, with names of
// its own (names.c), calling the words (lib_*.c), which fill the pattern; in the end the seams are made from
// the final pieces (finish.c). The chunk of a recipe tells by calls where a step begins and when a value of
// its prose is to be filled in (recipe.h).
//
// What never changes: the pattern is only added to; an error leaves through error_handle, which fills the
// fault; memory is the state's, the run's arena or the pattern's, all of it counted, so that leaving at any
// point loses none.
#include "script/run.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "script/check.h"
#include "script/chunk.h"
#include "script/error.h"
#include "script/finish.h"
#include "script/names.h"
#include "script/state.h"

// The most recipes of one run, those used inside others counted each time.
#define CHAPTERS_MAX 200

size_t run_bytes(const Run *run) {
    const Pattern *pattern = run->pattern;
    return run->arena.bytes + pattern->arena.bytes + (size_t)run->marks * sizeof(Mark) +
           (size_t)pattern->notes.count * sizeof(Note) + (size_t)pattern->proofs.count * sizeof(Proof);
}

void run_hint(Run *run, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(run->hint, sizeof run->hint, format, list);
    va_end(list);
}

// A plain number with up to four places after the point.
static void show_number(double value, char *out, size_t size) {
    snprintf(out, size, "%.4f", value);
    char *end = out + strlen(out);
    while (end > out && end[-1] == '0')
        *--end = '\0';
    if (end > out && end[-1] == '.')
        *--end = '\0';
    if (strcmp(out, "-0") == 0)
        snprintf(out, size, "0");
}

void run_show(const Run *run, Measure measure, double value, char *out, size_t size) {
    const bool inches = run->job->units == UNITS_INCH;
    const double area = value / (inches ? MM_PER_INCH * MM_PER_INCH : MM_PER_CM * MM_PER_CM);
    switch (measure) {
    case MEASURE_LENGTH:
        units_format(value, run->job->units, out, size);
        return;
    case MEASURE_AREA:
        snprintf(out, size, "%.*f %s\xC2\xB2", fabs(area) < 10 ? 1 : 0, area, inches ? "in" : "cm");
        return;
    case MEASURE_ANGLE:
        if (fabs(value) < 0.05)
            value = 0;
        snprintf(out, size, "%.1f\xC2\xB0", value);
        return;
    case MEASURE_YEARS:
        units_format_years(value, out, size);
        return;
    case MEASURE_NUMBER:
    case MEASURE_TEXT:
        break;
    }
    show_number(value, out, size);
}

// Fills in a value of the prose, which is on top of the stack.
static void fill_value(lua_State *L, const RecipeValue *value) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    char text[120];
    const char *shown = text;
    const int type = lua_type(L, -1);
    if (type == LUA_TNUMBER) {
        const double number = lua_tonumber(L, -1);
        if (!isfinite(number))
            fail(L, "the value '%s' %s", value->expression, length_trouble(number));
        const Measure measure =
            is_plain_name(value->expression) ? names_measure(L, value->expression) : MEASURE_LENGTH;
        run_show(run, measure, number, text, sizeof text);
    } else if (type == LUA_TSTRING) {
        shown = check_text(L, -1, LIMIT_TEXT_BYTES);
    } else if (type == LUA_TBOOLEAN) {
        shown = lua_toboolean(L, -1) ? "yes" : "no";
    } else {
        if (type == LUA_TUSERDATA)
            run_hint(run, "a number or text can be filled in: path.length, point.x");
        fail(L, "the value '%s' should be a number or text, got %s", value->expression,
             value_describe(L, -1));
    }
    ARRAY_ADD(&pattern->filled, ((Filled){.step = run->place.first_step + value->step,
                                          .line = value->line,
                                          .column = value->column,
                                          .text = arena_text(&pattern->arena, shown)}));
    ledger_settle(L);
}

int run_glue(lua_State *L) {
    Run *run = run_of(L);
    const Recipe *recipe = run->place.recipe;
    const lua_Integer number = luaL_checkinteger(L, 1);
    if (number >= 0) {
        if (number <= recipe->step_count)
            run->place.step = run->place.first_step + (int)number;
        return 0;
    }
    if (run->survey || -number > recipe->value_count)
        return 0;
    const Filling filling = {.value = &recipe->values[-number - 1], .outer = run->filling};
    run->filling = &filling;
    lua_settop(L, 2);
    lua_call(L, 0, 1);
    fill_value(L, filling.value);
    run->filling = filling.outer;
    return 0;
}

// The opening before the first heading is a step with the recipe's title.
static void add_chapter(lua_State *L, const Recipe *recipe, int depth) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    Arena *arena = &pattern->arena;
    ledger_count(L, pattern->chapters.count, CHAPTERS_MAX, "uses of recipes");
    ARRAY_ADD(&run->recipes, recipe);
    ARRAY_ADD(&pattern->chapters,
              ((Chapter){.recipe = arena_text(arena, recipe->name),
                         .title = arena_text(arena, recipe->title),
                         .summary = arena_text(arena, recipe->summary),
                         .hash = arena_format(arena, "%016llx", (unsigned long long)recipe->hash),
                         .depth = depth,
                         .used_in = depth > 0 ? run->place.step : -1}));
    const int chapter = pattern->chapters.count - 1, first = pattern->steps.count;
    ARRAY_ADD(&pattern->steps,
              ((Step){.chapter = chapter, .line = 1, .title = arena_text(arena, recipe->title)}));
    for (int i = 0; i < recipe->step_count; i++)
        ARRAY_ADD(&pattern->steps, ((Step){.chapter = chapter,
                                           .line = recipe->steps[i].first_line,
                                           .title = arena_text(arena, recipe->steps[i].title)}));
    run->place =
        (Place){.recipe = recipe, .chapter = chapter, .step = first, .first_step = first, .depth = depth};
    ledger_settle(L);
}

void run_recipe(lua_State *L, const Recipe *recipe, int depth, int overrides) {
    Run *run = run_of(L);
    const Place outer = run->place;
    luaL_checkstack(L, 20, "recipes use each other too deep");
    add_chapter(L, recipe, depth);
    const int chapter = run->place.chapter;
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_GAVE);
    lua_createtable(L, 0, 4);
    lua_rawseti(L, -2, chapter);
    lua_pop(L, 1);
    if (overrides) {
        lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_OVERRIDE);
        lua_pushvalue(L, overrides);
        lua_rawseti(L, -2, chapter);
        lua_pop(L, 1);
    }
    chunk_push(L, recipe);
    names_open(L, chapter);
    lua_setupvalue(L, -2, 1); // _ENV
    lua_pushcfunction(L, run_glue);
    lua_call(L, 1, 0);
    run->place = outer;
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_GAVE);
    lua_rawgeti(L, -1, chapter);
    lua_remove(L, -2);
}

// A recipe before the last is there to give a bodice. The place is its last block of code, where it should.
static void fail_no_bodice(lua_State *L, const Recipe *recipe) {
    Run *run = run_of(L);
    const bool neckline = recipe_needs(recipe, "bodice");
    fault_set(run->fault, recipe->file, recipe->fences[recipe->fence_count - 1].line,
              neckline ? "%s gives no bodice, so it is no neckline to put a collar on" : "%s gives no bodice",
              recipe->name);
    fault_set_hint(run->fault, "end it with give { bodice = { front = ..., back = ... } }");
    const char *step = recipe_step_title(recipe, recipe->fences[recipe->fence_count - 1].step);
    fault_set_step(run->fault, step ? step : recipe->title);
    run->faulted = true;
    lua_pushliteral(L, "no bodice");
    lua_error(L);
}

// Runs a recipe of the chain, given its number, and hands on what it gives.
static int run_link(lua_State *L) {
    Run *run = run_of(L);
    const int link = (int)lua_tointeger(L, 1);
    run->followed = link + 1 < run->job->chain_count;
    const Recipe *recipe = shelf_held(run->job->shelf, run->job->chain[link]);
    run_recipe(L, recipe, 0, 0);
    const int gave = lua_gettop(L);
    if (run->followed && !run->survey &&
        (!lua_istable(L, gave) || lua_getfield(L, gave, "bodice") == LUA_TNIL))
        fail_no_bodice(L, recipe);
    lua_settop(L, gave);
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_HANDED);
    for (lua_pushnil(L); lua_next(L, gave); lua_pop(L, 1)) {
        lua_pushvalue(L, -2);
        lua_pushvalue(L, -2);
        lua_rawset(L, gave + 1);
    }
    return 0;
}

// A survey goes on with the next recipe where one asked for more than its inputs, or could not go on with
// example values.
static bool survey_link(Run *run, int link) {
    if (state_call(run, run_link, link))
        return true;
    const bool asked =
        run->surveyed || (!run->in_inputs && !run->unreadable && run->ledger.hit == LIMIT_NONE);
    run->surveyed = run->faulted = run->in_inputs = false;
    run->input_line = 0;
    run->hint[0] = '\0';
    if (asked) {
        fault_finish(run->fault);
        fault_init(run->fault);
    }
    return asked;
}

static bool run_chain(Run *run) {
    if (!state_open(run))
        return false;
    for (int i = 0; i < run->job->chain_count; i++)
        if (run->survey ? !survey_link(run, i) : !state_call(run, run_link, i))
            return false;
    return finish_settings(run) && (run->survey || finish_run(run));
}

static bool find_main(const ScriptJob *job, Run *run) {
    for (int i = 0; i < job->chain_count; i++)
        if (!shelf_held(job->shelf, job->chain[i])) {
            fault_set(run->fault, NULL, 0, "the recipe '%s' was not loaded", job->chain[i]);
            return false;
        }
    if (job->chain_count < 1) {
        fault_set(run->fault, NULL, 0, "there is no recipe to run");
        return false;
    }
    run->main_recipe = shelf_held(job->shelf, job->chain[job->chain_count - 1]);
    return true;
}

static void run_finish(Run *run) {
    if (run->state)
        lua_close(run->state);
    for (size_t i = 0; i < sizeof run->scratch / sizeof *run->scratch; i++)
        path_finish(&run->scratch[i]);
    crossings_finish(&run->crossings);
    mem_free(run->sewn.items);
    mem_free(run->recipes.items);
    mem_free(run->used_settings);
    mem_free(run->chosen_settings);
    arena_finish(&run->arena);
}

// Runs the chain and gives its pattern; for a survey only the chapters and inputs.
bool run_job(const ScriptJob *job, bool survey, Pattern *out, Fault *fault) {
    Pattern pattern;
    pattern_init(&pattern);
    Run run = {.job = job, .pattern = &pattern, .fault = fault, .survey = survey, .place.chapter = -1};
    arena_init(&run.arena);
    ledger_init(&run.ledger, job->limits.memory, job->limits.instructions);
    run.used_settings = mem_new(sizeof *run.used_settings * (size_t)(job->setting_count + 1));
    run.chosen_settings = mem_new(sizeof *run.chosen_settings * (size_t)(job->setting_count + 1));
    bool fine = find_main(job, &run);
    if (fine) {
        pattern.units = job->units;
        pattern.recipe = arena_text(&pattern.arena, run.main_recipe->name);
        pattern.title = arena_text(&pattern.arena, run.main_recipe->title);
        pattern.body = arena_text(&pattern.arena, job->body_name);
        fine = run_chain(&run);
    }
    run_finish(&run);
    if (fine)
        *out = pattern;
    else
        pattern_finish(&pattern);
    return fine;
}

bool script_run(const ScriptJob *job, Pattern *out, Fault *fault) {
    return run_job(job, false, out, fault);
}
