#include "script/value.h"

#include <assert.h>
#include <string.h>

#include "script/check.h"
#include "script/run.h"

// What making a value and taking it away again costs, about.
#define VALUE_WORK 20

Value *value_at(lua_State *L, int index) {
    return lua_type(L, index) == LUA_TUSERDATA ? lua_touserdata(L, index) : NULL;
}

static void *value_of_kind(lua_State *L, int index, ValueKind kind) {
    Value *value = value_at(L, index);
    return value && value->kind == kind ? value : NULL;
}

PointBox *value_point(lua_State *L, int index) {
    return value_of_kind(L, index, VALUE_POINT);
}
PathBox *value_path(lua_State *L, int index) {
    return value_of_kind(L, index, VALUE_PATH);
}
DraftBox *value_draft(lua_State *L, int index) {
    return value_of_kind(L, index, VALUE_DRAFT);
}
PieceBox *value_piece(lua_State *L, int index) {
    return value_of_kind(L, index, VALUE_PIECE);
}

Path box_path(const PathBox *box) {
    return (Path){.items = (Segment *)box->items, .count = box->count};
}

static void *value_new(lua_State *L, size_t size, int parts, ValueKind kind, Slot metatable) {
    Value *value = lua_newuserdatauv(L, size, parts);
    memset(value, 0, size);
    value->kind = kind;
    lua_rawgeti(L, LUA_REGISTRYINDEX, metatable);
    lua_setmetatable(L, -2);
    return value;
}

PointBox *value_push_point(lua_State *L, Point p) {
    if (!point_finite(p)) {
        run_hint(run_of(L), "no drawing leaves a square of 100 m");
        fail(L, "the point comes to lie beyond all measure");
    }
    ledger_charge(L, VALUE_WORK);
    PointBox *box = value_new(L, sizeof *box, 0, VALUE_POINT, SLOT_POINT);
    box->point = p;
    return box;
}

PathBox *value_push_path(lua_State *L, const Path *path, const char *sort) {
    assert(path->count > 0);
    if (path->count > PATH_SEGMENTS_MAX)
        fail_geometry(L, GEOM_TOO_MANY);
    if (!path_finite(path))
        fail_geometry(L, GEOM_NOT_FINITE);
    ledger_charge(L, VALUE_WORK + path->count);
    const size_t bytes = sizeof(Segment) * (size_t)path->count;
    PathBox *box = lua_newuserdatauv(L, sizeof *box + bytes, 0);
    memset(box, 0, sizeof *box);
    box->value.kind = VALUE_PATH;
    box->sort = sort;
    box->count = path->count;
    memcpy(box->items, path->items, bytes);
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_PATH);
    lua_setmetatable(L, -2);
    return box;
}

PieceBox *value_push_piece(lua_State *L, Piece piece) {
    ledger_settle(L);
    PieceBox *box = value_new(L, sizeof *box, 0, VALUE_PIECE, SLOT_PIECE);
    box->piece = piece;
    box->value.label.name = piece.name;
    return box;
}

DraftBox *value_push_draft(lua_State *L, int draft) {
    DraftBox *box = value_new(L, sizeof *box, 1, VALUE_DRAFT, SLOT_DRAFT);
    box->draft = draft;
    box->value.label.name = run_of(L)->pattern->drafts.items[draft].name;
    lua_createtable(L, 0, 16);
    lua_setiuservalue(L, -2, 1);
    return box;
}

void value_push_placeholder(lua_State *L) {
    value_new(L, sizeof(Value), 0, VALUE_PLACEHOLDER, SLOT_PLACEHOLDER);
}

void value_derive(Value *value, const Value *from, const char *made) {
    value->label = (Label){.name = from->label.name, .made = {made, from->label.made[0]}};
    if (from->label.made[1]) // further back than a message should go
        value->label.name = NULL;
}

void value_name(Value *value, const char *name) {
    if (value->label.name && !value->label.made[0])
        return;
    value->label = (Label){.name = name};
}

// The name of the local of the calling recipe that holds the userdata, or NULL; pushes nothing.
static const char *local_holding(lua_State *L, const void *thing) {
    lua_Debug ar;
    if (!lua_getstack(L, 1, &ar))
        return NULL;
    const char *found = NULL;
    for (int i = 1; i <= 200 && !found; i++) {
        const char *name = lua_getlocal(L, &ar, i);
        if (!name)
            break;
        if (lua_touserdata(L, -1) == thing && name[0] != '(')
            found = name; // held by the function itself, which is running
        lua_pop(L, 1);
    }
    return found;
}

static const char *value_sort_plain(const Value *value) {
    switch (value->kind) {
    case VALUE_POINT:
        return "point";
    case VALUE_PATH: {
        const PathBox *box = (const PathBox *)value;
        return box->edge ? "edge" : box->sort;
    }
    case VALUE_DRAFT:
        return "draft";
    case VALUE_PIECE:
        return "piece";
    case VALUE_PLACEHOLDER:
    case VALUE_NONE:
        break;
    }
    return "bodice";
}

const char *value_sort(lua_State *L, int index) {
    const Value *value = value_at(L, index);
    if (value)
        return lua_pushstring(L, value_sort_plain(value));
    const int type = lua_type(L, index);
    return lua_pushstring(L, type == LUA_TNONE     ? "nothing"
                             : type == LUA_TSTRING ? "text"
                                                   : lua_typename(L, type));
}

static const char *article(const char *noun) {
    return strchr("aeiou", noun[0]) ? "an" : "a";
}

const char *value_describe(lua_State *L, int index) {
    const Value *value = value_at(L, index);
    if (!value) {
        if (lua_type(L, index) == LUA_TNUMBER)
            return lua_pushfstring(L, "the number %s", push_number(L, lua_tonumber(L, index)));
        if (lua_type(L, index) == LUA_TSTRING) {
            const char *text = lua_tostring(L, index);
            if (lua_rawlen(L, index) <= 60)
                return lua_pushfstring(L, "the text \"%s\"", text);
            return lua_pushliteral(L, "a long text");
        }
        return value_sort(L, index);
    }
    const char *sort = value_sort_plain(value);
    if (value->kind == VALUE_PATH && ((const PathBox *)value)->edge && !value->label.made[0]) {
        const PathBox *box = (const PathBox *)value;
        return lua_pushfstring(L, "'%s' of '%s'", box->edge, box->piece);
    }
    const Label *label = &value->label;
    const char *local = label->name && !label->made[0] ? NULL : local_holding(L, value);
    if (local)
        return lua_pushfstring(L, "'%s'", local);
    const char *first = label->made[0] ? label->made[0] : "", *then = label->made[1] ? label->made[1] : "";
    const char *gap = *first ? " " : "", *gap_then = *then ? " " : "";
    if (label->name)
        return lua_pushfstring(L, "%s%s%s%s'%s'", first, gap, then, gap_then, label->name);
    return lua_pushfstring(L, "%s%s%s%s%s %s", first, gap, then, gap_then, article(sort), sort);
}

const char *value_text(lua_State *L, int index) {
    index = lua_absindex(L, index);
    const Value *value = value_at(L, index);
    if (value && value->kind == VALUE_POINT) {
        const Point p = ((const PointBox *)value)->point;
        char text[80];
        snprintf(text, sizeof text, "point(%.4g, %.4g)", p.x, p.y);
        return lua_pushstring(L, text);
    }
    if (value && value->label.name)
        return lua_pushfstring(L, "%s %s", value_sort_plain(value), value->label.name);
    if (value)
        return lua_pushstring(L, value_sort_plain(value));
    switch (lua_type(L, index)) {
    case LUA_TNUMBER:
        lua_pushvalue(L, index);
        lua_tostring(L, -1);
        return lua_tostring(L, -1);
    case LUA_TSTRING:
        lua_pushvalue(L, index);
        return lua_tostring(L, -1);
    case LUA_TBOOLEAN:
        return lua_pushstring(L, lua_toboolean(L, index) ? "true" : "false");
    default:
        return lua_pushstring(L, luaL_typename(L, index));
    }
}
