// Compiled chunks are kept as Lua dumps them. Only what this file dumped itself is ever loaded in that form:
// recipes are loaded as text, and a kept chunk serves the very text it was made from.
#include "script/chunk.h"

#include <string.h>

#include <lauxlib.h>

#include "base/buffer.h"
#include "base/memory.h"
#include "script/error.h"

// As many as a shelf holds.
#define KEPT_MAX 64

typedef struct Kept {
    char *file, *text; // the recipe's, by which it is known again
    size_t length;
    Buffer dump;
} Kept;

// The newest is at kept_next - 1; the oldest gives way.
static Kept kept[KEPT_MAX];
static int kept_count, kept_next;

static const Kept *find_kept(const Recipe *recipe) {
    for (int i = 0; i < kept_count; i++)
        if (kept[i].length == recipe->chunk_length && strcmp(kept[i].file, recipe->file) == 0 &&
            memcmp(kept[i].text, recipe->chunk, recipe->chunk_length) == 0)
            return &kept[i];
    return NULL;
}

static int add_bytes(lua_State *L, const void *bytes, size_t length, void *buffer) {
    (void)L;
    buffer_add(buffer, bytes, length);
    return 0;
}

// Keeps the chunk on top of the stack.
static void keep(lua_State *L, const Recipe *recipe) {
    Kept *entry = &kept[kept_next];
    if (kept_count == KEPT_MAX) {
        mem_free(entry->file);
        mem_free(entry->text);
        buffer_finish(&entry->dump);
    } else {
        kept_count++;
    }
    kept_next = (kept_next + 1) % KEPT_MAX;
    *entry = (Kept){.file = mem_text(recipe->file), .length = recipe->chunk_length};
    entry->text = mem_new(recipe->chunk_length + 1);
    memcpy(entry->text, recipe->chunk, recipe->chunk_length);
    buffer_init(&entry->dump);
    lua_dump(L, add_bytes, &entry->dump, 0);
}

// Pushes code as a chunk of its own, its lines those of the file from first_line on.
static int load_alone(lua_State *L, int first_line, const char *before, const char *text_of,
                      const char *after, const char *name) {
    luaL_Buffer code;
    luaL_buffinit(L, &code);
    for (int line = 1; line < first_line; line++)
        luaL_addchar(&code, '\n');
    luaL_addstring(&code, before);
    luaL_addstring(&code, text_of);
    luaL_addstring(&code, after);
    luaL_pushresult(&code);
    size_t length;
    const char *text = lua_tolstring(L, -1, &length);
    const int status = luaL_loadbufferx(L, text, length, name, "t");
    lua_remove(L, -2);
    return status;
}

// Each block must be complete by itself; what is left open in one is told at the block. Those that are surely
// whole are passed over unless all is asked for.
static void check_fences(lua_State *L, const Recipe *recipe, const char *name, bool all) {
    for (int i = 0; i < recipe->fence_count; i++) {
        const RecipeFence *fence = &recipe->fences[i];
        if (!all && recipe_fence_is_whole(fence))
            continue;
        ledger_charge(L, (double)strlen(fence->code));
        const int status = load_alone(L, fence->first_line, "", fence->code, "", name);
        if (status && (status == LUA_ERRMEM || strstr(lua_tostring(L, -1), " near <eof>"))) {
            error_compile(L, recipe, status, lua_tostring(L, -1), "code block", fence->line);
            lua_error(L);
        }
        lua_pop(L, 1);
    }
}

// A value of the prose that is no expression is told where it stands, not where the chunk calls for it.
static void check_values(lua_State *L, const Recipe *recipe, const char *name) {
    for (int i = 0; i < recipe->value_count; i++) {
        const RecipeValue *value = &recipe->values[i];
        ledger_charge(L, (double)(strlen(value->expression) + (size_t)value->line));
        const int status = load_alone(L, value->line, "return (", value->expression, ")", name);
        if (status) {
            error_compile(L, recipe, status, lua_tostring(L, -1), "value", value->line);
            lua_error(L);
        }
        lua_pop(L, 1);
    }
}

// Pushes the chunk compiled from its text.
static void compile(lua_State *L, const Recipe *recipe) {
    const char *name = lua_pushfstring(L, "@%s", recipe->file);
    check_fences(L, recipe, name, false);
    const int status = luaL_loadbufferx(L, recipe->chunk, recipe->chunk_length, name, "t");
    if (status) {
        check_values(L, recipe, name);
        check_fences(L, recipe, name, true); // what is wrong at the end of a block is best told there
        error_compile(L, recipe, status, lua_tostring(L, -1), "code block", 0);
        lua_error(L);
    }
    lua_remove(L, -2);
}

void chunk_push(lua_State *L, const Recipe *recipe) {
    const Kept *entry = find_kept(recipe);
    if (!entry) {
        compile(L, recipe);
        keep(L, recipe);
        return;
    }
    ledger_charge(L, (double)recipe->chunk_length);
    const char *name = lua_pushfstring(L, "@%s", recipe->file);
    const int status = luaL_loadbufferx(L, entry->dump.data, entry->dump.length, name, "b");
    lua_remove(L, -2);
    if (status)
        lua_error(L); // no memory is left for it
}
