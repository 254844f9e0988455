#include "script/library.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/units.h"
#include "script/check.h"
#include "script/lib_draft.h"
#include "script/lib_piece.h"
#include "script/sandbox.h"
#include "script/survey.h"

const Binding *const library_all[] = {
    lib_recipe_rows,     lib_needs_rows, lib_choose_rows, lib_point_rows,  lib_make_rows,
    lib_path_rows,       lib_cut_rows,   lib_draft_rows,  lib_bodice_rows, lib_piece_rows,
    lib_piece_mark_rows, lib_seam_rows,  lib_prove_rows,  lib_plain_rows,  NULL,
};

// The tables of one kind of thing, made side by side on the stack.
typedef struct Kind {
    const char *name; // as rows and messages call it
    Slot slot;
    lua_CFunction index, newindex;
    int methods; // stack index; its fields stand at methods + 1
} Kind;

static int by_text(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static int thing_missing(lua_State *L, int names) {
    const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?";
    const char *all[100];
    int count = 0;
    for (int table = names; table <= names + 1; table++)
        for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1))
            if (count < 100)
                all[count++] = lua_tostring(L, -2);
    qsort(all, (size_t)count, sizeof *all, by_text);
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, all, count) : NULL;
    if (near)
        run_hint(run_of(L), "did you mean '%s'?", near);
    else
        hint_names(L, "", all, count, value_point(L, 1) ? "the words of a point" : "the words of a path");
    const char *what = value_describe(L, 1);
    fail(L, "%s has no '%s'", what, name);
}

// Points and paths: methods (upvalue 1), then fields (upvalue 2).
static int thing_index(lua_State *L) {
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(2)) != LUA_TNIL) {
        const lua_CFunction field = lua_tocfunction(L, -1);
        lua_settop(L, 1);
        return field(L);
    }
    lua_settop(L, 2);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_pushvalue(L, lua_upvalueindex(2));
    return thing_missing(L, 3);
}

static int thing_newindex(lua_State *L) {
    value_sort(L, 1);
    fail(L, "a %s is never changed: make a new one and name it on a draft", lua_tostring(L, -1));
}

static int thing_tostring(lua_State *L) {
    value_text(L, 1);
    return 1;
}

static int point_equal(lua_State *L) {
    const PointBox *a = value_point(L, 1), *b = value_point(L, 2);
    lua_pushboolean(L, a && b && point_same(a->point, b->point));
    return 1;
}

static int placeholder_index(lua_State *L) {
    survey_stop(L);
}

static void put(lua_State *L, int table, const char *name, lua_CFunction call) {
    lua_pushcfunction(L, call);
    lua_setfield(L, table, name);
}

static const char *after(const char *name, const char *start) {
    return text_starts(name, start) ? name + strlen(start) : NULL;
}

// Puts a row's function where its name tells.
static void bind_row(lua_State *L, const Binding *binding, const Kind *kinds, int kind_count, int library) {
    const char *name = binding->row.name, *rest = after(name, "thing:");
    if (rest) { // methods of points and of paths
        put(L, kinds[0].methods, rest, binding->call);
        put(L, kinds[1].methods, rest, binding->call);
        return;
    }
    const char *mark = strpbrk(name, ".:");
    if (!mark) {
        put(L, library, name, binding->call);
        return;
    }
    for (int i = 0; i < kind_count; i++)
        if (strncmp(name, kinds[i].name, (size_t)(mark - name)) == 0)
            put(L, kinds[i].methods + (*mark == '.'), mark + 1, binding->call);
}

static void make_metatable(lua_State *L, const Kind *kind) {
    lua_createtable(L, 0, 8);
    lua_pushvalue(L, kind->methods);
    lua_pushvalue(L, kind->methods + 1);
    lua_pushcclosure(L, kind->index, 2);
    lua_setfield(L, -2, "__index");
    lua_pushvalue(L, kind->methods);
    lua_pushvalue(L, kind->methods + 1);
    lua_pushcclosure(L, kind->newindex, 2);
    lua_setfield(L, -2, "__newindex");
    lua_pushcfunction(L, thing_tostring);
    lua_setfield(L, -2, "__tostring");
    lua_pushstring(L, kind->name);
    lua_setfield(L, -2, "__name");
    lua_pushboolean(L, false);
    lua_setfield(L, -2, "__metatable");
    if (kind->slot == SLOT_POINT) {
        lua_pushcfunction(L, point_equal);
        lua_setfield(L, -2, "__eq");
    }
    lua_rawseti(L, LUA_REGISTRYINDEX, kind->slot);
}

void library_open(lua_State *L) {
    Kind kinds[] = {
        {"point", SLOT_POINT, thing_index, thing_newindex, 0},
        {"path", SLOT_PATH, thing_index, thing_newindex, 0},
        {"draft", SLOT_DRAFT, draft_index, draft_newindex, 0},
        {"piece", SLOT_PIECE, piece_index, thing_newindex, 0},
        {"bodice", SLOT_PLACEHOLDER, placeholder_index, placeholder_index, 0},
    };
    const int kind_count = (int)(sizeof kinds / sizeof *kinds), library = lua_gettop(L);
    lua_pushnumber(L, MM_PER_CM);
    lua_setfield(L, library, "cm");
    lua_pushnumber(L, 1);
    lua_setfield(L, library, "mm");
    lua_pushnumber(L, MM_PER_INCH);
    lua_setfield(L, library, "inch");
    for (int i = 0; i < kind_count; i++) {
        lua_createtable(L, 0, 32);
        kinds[i].methods = lua_gettop(L);
        lua_createtable(L, 0, 8);
    }
    for (const Binding *const *rows = library_all; *rows; rows++)
        for (const Binding *binding = *rows; binding->row.name; binding++)
            if (binding->call)
                bind_row(L, binding, kinds, kind_count, library);
    for (int i = 0; i < kind_count; i++)
        make_metatable(L, &kinds[i]);
    lua_createtable(L, 0, 32); // every name a piece keeps for itself
    for (int table = kinds[3].methods; table <= kinds[3].methods + 1; table++)
        for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1)) {
            lua_pushvalue(L, -2);
            lua_pushboolean(L, true);
            lua_rawset(L, -5);
        }
    lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_PIECE_WORDS);
    lua_settop(L, library);
}
