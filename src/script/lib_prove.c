// Proofs: what the recipe tells about its own drawing, and how the garment goes on.
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "script/check.h"
#include "script/inputs.h"
#include "script/library.h"

static Measure check_unit(lua_State *L, int index) {
    static const char *const names[] = {"length", "area", "degrees", "number"};
    static const Measure measures[] = {MEASURE_LENGTH, MEASURE_AREA, MEASURE_ANGLE, MEASURE_NUMBER};
    const char *unit = field_text(L, index, "unit", "length");
    for (int i = 0; i < 4; i++)
        if (strcmp(unit, names[i]) == 0)
            return measures[i];
    run_hint(run_of(L), "unit is \"length\", \"area\", \"degrees\" or \"number\"");
    fail(L, "prove: the unit \"%s\" is unknown", unit);
}

static double check_finite(lua_State *L, int index, const char *what) {
    if (lua_type(L, index) != LUA_TNUMBER)
        fail(L, "prove: %s should be a number, got %s", what, value_describe(L, index));
    const double value = lua_tonumber(L, index);
    if (!isfinite(value))
        fail(L, "prove: %s %s", what, length_trouble(value));
    return value;
}

// { found, at_least = n } and its like, at index 1.
static Proof proof_of_table(lua_State *L) {
    static const char *const fields[] = {"at_least", "at_most", "equals", "within", "unit", "way_out", NULL};
    static const char *const relations[] = {"at least", "at most", "equal"};
    check_fields(L, 1, fields);
    lua_rawgeti(L, 1, 1);
    Proof proof = {.measure = check_unit(L, 1), .found = check_finite(L, -1, "what was found")};
    lua_pop(L, 1);
    int told = -1;
    for (int i = 0; i < 3; i++) {
        if (lua_getfield(L, 1, fields[i]) != LUA_TNIL) {
            if (told >= 0)
                fail(L, "prove: say one of at_least, at_most and equals");
            told = i;
            proof.wanted = check_finite(L, -1, fields[i]);
        }
        lua_pop(L, 1);
    }
    if (told < 0)
        fail(L, "prove: say at_least, at_most or equals");
    proof.relation = relations[told];
    proof.tolerance = told == 2 ? 0.1 : POINT_ON_MM;
    if (lua_getfield(L, 1, "within") != LUA_TNIL)
        proof.tolerance = fabs(check_finite(L, -1, "within"));
    lua_pop(L, 1);
    const double above = proof.found - proof.wanted;
    proof.holds = told == 0   ? above >= -proof.tolerance
                  : told == 1 ? above <= proof.tolerance
                              : fabs(above) <= proof.tolerance;
    proof.way_out = field_text(L, 1, "way_out", NULL);
    return proof;
}

// What prove "text" gives. Upvalue: the text.
static int prove_told(lua_State *L) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    Proof proof;
    run->nameless = "prove";
    if (lua_type(L, 1) == LUA_TTABLE) {
        if (lua_gettop(L) > 1)
            fail(L, "prove: one table, and nothing after it");
        proof = proof_of_table(L);
    } else {
        if (lua_isnone(L, 1))
            fail(L, "prove: say what is to hold: prove \"...\" { found, at_least = wanted }");
        if (lua_gettop(L) > 3)
            fail(L, "prove: at most a condition, what was found and what was wanted");
        proof = (Proof){.relation = "", .holds = lua_toboolean(L, 1), .measure = MEASURE_NUMBER};
        if (!lua_isnoneornil(L, 2)) {
            proof.found = check_finite(L, 2, "what was found");
            proof.wanted = lua_isnoneornil(L, 3) ? 0 : check_finite(L, 3, "what was wanted");
            proof.measure = MEASURE_LENGTH;
        }
    }
    ledger_count(L, pattern->proofs.count, LIMIT_PROOFS, "proofs");
    proof.kind = PROOF_TOLD;
    proof.step = run->place.step;
    proof.piece = proof.edge = -1;
    proof.what = arena_text(&pattern->arena, lua_tostring(L, lua_upvalueindex(1)));
    proof.way_out = arena_text(&pattern->arena, proof.way_out);
    ARRAY_ADD(&pattern->proofs, proof);
    ledger_settle(L);
    return 0;
}

static int word_prove(lua_State *L) {
    check_text(L, 1, 300);
    check_last(L, 1);
    lua_pushvalue(L, 1);
    lua_pushcclosure(L, prove_told, 1);
    return 1;
}

// pull_on { round = mm, slit = 0, stretch = 0, ease = 20*mm }
static int word_pull_on(lua_State *L) {
    static const char *const fields[] = {"round", "slit", "stretch", "ease", NULL};
    Run *run = run_of(L);
    PullOn *pull_on = &run->pattern->pull_on;
    if (lua_type(L, 1) != LUA_TTABLE)
        fail_argument(L, 1, "a table { round = length, slit = length }");
    check_last(L, 1);
    check_fields(L, 1, fields);
    PullOn told = {.stated = true, .step = run->place.step, .ease = 20};
    if (!field_mm(L, 1, "round", &told.length)) {
        run_hint(run, "round is the length round the finished opening");
        fail(L, "pull_on: round is missing");
    }
    field_mm(L, 1, "slit", &told.slit);
    field_number(L, 1, "stretch", &told.stretch);
    field_mm(L, 1, "ease", &told.ease);
    if (told.length <= 0)
        fail(L, "pull_on: round should be above zero, got %s", push_mm(L, told.length));
    if (told.slit < 0)
        fail(L, "pull_on: slit should not be negative, got %s", push_mm(L, told.slit));
    if (told.stretch < 0 || told.stretch > 3) {
        run_hint(run, "stretch is a part: 0.03 is 3 per cent");
        fail(L, "pull_on: stretch should be from 0 to 3, got %s", push_number(L, told.stretch));
    }
    if (pull_on->stated)
        fail(L, "pull_on was said already, in the step \"%s\"",
             run->pattern->steps.items[pull_on->step].title);
    measurement(L, "head_girth", &told.head_girth);
    *pull_on = told;
    return 0;
}

const Binding lib_prove_rows[] = {
    {{"prove", "seams and proofs",
      "prove \"text\" { found, at_least = | at_most = | equals =, within =, unit =, way_out = }  or  prove "
      "\"text\" (condition [, found, wanted])",
      "Tells what must hold. A proof that fails does not stop the drawing; it is reported, and a cutter may "
      "accept it by its "
      "text. Lengths in mm unless unit is \"degrees\", \"area\" or \"number\"; within is 0.1 mm for equals.",
      "prove \"the front neckline is longer\" { bodice.front.neckline.length, at_least = "
      "bodice.back.neckline.length }"},
     word_prove},
    {{"pull_on", "seams and proofs", "pull_on { round = mm, slit = 0, stretch = 0, ease = 20*mm }",
      "How the garment goes over the head: round the finished opening, the length of slits or zips, the "
      "usable stretch as a part, "
      "the room wanted. Proven against the head girth where that is known.",
      "pull_on { round = 2 * (bodice.front.neckline.length + bodice.back.neckline.length), slit = 15*cm }"},
     word_pull_on},
    {{NULL}, NULL},
};
