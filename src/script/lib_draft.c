// Drafts: paper with marks on it. What a recipe names on a draft is drawn; the draft's table in the state
// keeps the value.
#include "script/lib_draft.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "script/error.h"
#include "script/lib_path.h"
#include "script/library.h"
#include "script/check.h"

// Names looked at when one is nearly right.
#define NEAR_NAMES_MAX 500

static Draft *draft_of(lua_State *L, const DraftBox *box) {
    return &run_of(L)->pattern->drafts.items[box->draft];
}

void draft_read(lua_State *L, int index, const char *name) {
    lua_getiuservalue(L, index, 1);
    lua_getfield(L, -1, name);
    lua_remove(L, -2);
}

DraftBox *draft_open(lua_State *L, const char *name) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    ledger_count(L, pattern->drafts.count, LIMIT_DRAFTS, "drafts");
    for (int i = 0; i < pattern->drafts.count; i++)
        if (strcmp(pattern->drafts.items[i].name, name) == 0)
            fail(L, "there is a draft '%s' already, begun in the step \"%s\"", name,
                 pattern->steps.items[pattern->drafts.items[i].step].title);
    const int draft = pattern_add_draft(pattern, name, run->place.step);
    ledger_settle(L);
    return value_push_draft(L, draft);
}

static int draft_make(lua_State *L) {
    const char *name = check_name(L, 1);
    check_last(L, 1);
    draft_open(L, name);
    return 1;
}

// Puts the piece at value into the pattern as lying on the draft; gives its index there.
static int register_piece(lua_State *L, int draft, int value) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    Piece piece = value_piece(L, value)->piece;
    ledger_count(L, pattern->pieces.count, LIMIT_PIECES, "pieces");
    const int twin = pattern_find_piece(pattern, piece.name);
    if (twin >= 0) {
        run_hint(run, "finish the piece first, then put it on the draft; give another one another name");
        fail(L, "there is a piece '%s' already", piece.name);
    }
    piece.draft = draft;
    piece.step = run->place.step;
    return pattern_add_piece(pattern, &piece);
}

void draft_mark(lua_State *L, int index, const char *name, int value) {
    index = lua_absindex(L, index);
    value = lua_absindex(L, value);
    Run *run = run_of(L);
    const DraftBox *box = value_draft(L, index);
    ledger_count(L, run->marks, LIMIT_MARKS, "marks");
    Mark mark = {.step = run->place.step, .line = author_line(L), .piece = -1};
    switch (value_at(L, value)->kind) {
    case VALUE_POINT:
        mark.kind = MARK_POINT;
        mark.point = value_point(L, value)->point;
        break;
    case VALUE_PATH: {
        const Path view = box_path(value_path(L, value));
        mark.kind = MARK_PATH;
        pattern_own_path(run->pattern, &view, &mark.path);
        break;
    }
    default:
        mark.kind = MARK_PIECE;
        mark.piece = register_piece(L, box->draft, value);
        break;
    }
    mark.name = arena_text(&run->pattern->arena, name);
    Draft *draft = draft_of(L, box);
    ARRAY_ADD(&draft->marks, mark);
    run->marks++;
    value_name(value_at(L, value), mark.name);
    ledger_settle(L);
    lua_getiuservalue(L, index, 1);
    lua_pushvalue(L, value);
    lua_setfield(L, -2, name);
    lua_pop(L, 1);
}

static const char *check_mark_name(lua_State *L, int argument) {
    if (lua_type(L, argument) != LUA_TSTRING)
        fail(L, "a mark's name is text, got %s", value_describe(L, argument));
    const char *name = check_name(L, argument);
    lua_pushvalue(L, argument);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        fail(L, "'%s' is a word of drafts; choose another name for the mark", name);
    lua_pop(L, 1);
    return name;
}

int draft_newindex(lua_State *L) {
    const DraftBox *box = check_draft(L, 1);
    const char *name = check_mark_name(L, 2);
    const Draft *draft = draft_of(L, box);
    draft_read(L, 1, name);
    if (!lua_isnil(L, -1)) {
        const Mark *mark = draft_find_mark(draft, name);
        run_hint(run_of(L), "a name on a draft is used once, as a letter on paper");
        fail(L, "'%s' was marked on '%s' at line %d already", name, draft->name, mark ? mark->line : 0);
    }
    lua_pop(L, 1);
    const Value *value = value_at(L, 3);
    if (!value || value->kind == VALUE_DRAFT || value->kind == VALUE_PLACEHOLDER) {
        if (lua_isnil(L, 3))
            fail(L, "'%s' got nothing (nil) to mark", name);
        run_hint(run_of(L), "a number is noted under a plain name: %s = ...", name);
        fail(L, "a draft holds points, paths and pieces; '%s' got %s", name, value_describe(L, 3));
    }
    draft_mark(L, 1, name, 3);
    return 0;
}

int draft_index(lua_State *L) {
    const DraftBox *box = check_draft(L, 1);
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    lua_getiuservalue(L, 1, 1);
    lua_pushvalue(L, 2);
    if (lua_rawget(L, -2) != LUA_TNIL)
        return 1;
    const Draft *draft = draft_of(L, box);
    if (lua_type(L, 2) != LUA_TSTRING)
        fail(L, "'%s' has nothing under %s", draft->name, value_describe(L, 2));
    const char *names[NEAR_NAMES_MAX];
    int count = 0;
    for (int i = 0; i < draft->marks.count && count < NEAR_NAMES_MAX; i++)
        names[count++] = draft->marks.items[i].name;
    static const char *const words[] = {"has", "name", "measure", "recut"};
    for (size_t i = 0; i < sizeof words / sizeof *words && count < NEAR_NAMES_MAX; i++)
        names[count++] = words[i];
    ledger_charge(L, 100.0 * count);
    const char *name = lua_tostring(L, 2);
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, names, count) : NULL;
    if (near)
        run_hint(run_of(L), "did you mean '%s'?", near);
    fail(L, "nothing is marked '%s' on '%s'", name, draft->name);
}

static int draft_has(lua_State *L) {
    check_draft(L, 1);
    const char *name = check_name(L, 2);
    check_last(L, 2);
    draft_read(L, 1, name);
    lua_pushboolean(L, !lua_isnil(L, -1));
    return 1;
}

static int draft_name(lua_State *L) {
    const DraftBox *box = check_draft(L, 1);
    check_last(L, 1);
    lua_pushstring(L, draft_of(L, box)->name);
    return 1;
}

static int draft_measure(lua_State *L) {
    const DraftBox *box = check_draft(L, 1);
    const Point from = check_point(L, 2)->point, to = check_point(L, 3)->point;
    const char *text = lua_isnoneornil(L, 4) ? NULL : check_text(L, 4, LIMIT_NAME_BYTES);
    check_last(L, 4);
    Run *run = run_of(L);
    ledger_count(L, run->marks++, LIMIT_MARKS, "marks");
    Draft *draft = draft_of(L, box);
    ARRAY_ADD(&draft->dimensions, ((Dimension){.from = from,
                                               .to = to,
                                               .step = run->place.step,
                                               .text = arena_text(&run->pattern->arena, text)}));
    ledger_settle(L);
    return 0;
}

const Binding lib_draft_rows[] = {
    {{"draft", "drafts", "draft \"Name\"  ->  draft",
      "Fresh paper with its own origin. What is named on it is drawn: d.name = point, path or piece marks "
      "it, once. Reading a "
      "name that is not there is an error.",
      "local d = draft \"Stand\"\n"
      "d.A = point(0, 0)\n"
      "d.base = line(d.A, d.A:right(20*cm))"},
     draft_make},
    {{"draft:has", "drafts", "draft:has \"name\"  ->  true or false",
      "Whether something is marked under the name.",
      "local f = bodice.front\n"
      "if f:has \"armhole\" then f.pitch = f.armhole:at(10*cm) end\n"
      "f.P = f.shoulder:at(5*cm)"},
     draft_has},
    {{"draft:name", "drafts", "draft:name()  ->  text", "The draft's name.",
      "local d = draft(bodice.front:name() .. \" neckline\")\n"
      "d.neckline = bodice.front.neckline"},
     draft_name},
    {{"draft:measure", "drafts", "draft:measure(p, q [, \"text\"])",
      "Writes the distance between two points on the figure, behind the text where there is one.",
      "bodice.front:measure(bodice.front.neck_point, bodice.front.shoulder_point)"},
     draft_measure},
    {{NULL}, NULL},
};
