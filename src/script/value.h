// The things a recipe holds: points, paths (edges of pieces among them), drafts, pieces. Userdata without
// finalisers, so that the state's own allocator and collector account for all of it.
#ifndef REBATO_SCRIPT_VALUE_H
#define REBATO_SCRIPT_VALUE_H

#include <lua.h>

#include "geometry/path.h"
#include "pattern/piece.h"

typedef enum ValueKind {
    VALUE_NONE,
    VALUE_POINT,
    VALUE_PATH,
    VALUE_DRAFT,
    VALUE_PIECE,
    VALUE_PLACEHOLDER, // stands for a bodice while a recipe is surveyed
} ValueKind;

// How messages call a thing: "'axis'", "the offset of 'axis'", "a line". All texts are static or live in the
// run.
typedef struct Label {
    const char *name;    // under which it was marked first, or NULL
    const char *made[2]; // how it came from the named thing, last first: "the offset of"
} Label;

// Every userdata of a run's state begins with this.
typedef struct Value {
    ValueKind kind;
    Label label;
} Value;

typedef struct PointBox {
    Value value;
    Point point;
} PointBox;

typedef struct PathBox {
    Value value;
    const char *sort;         // "line", "curve", "arc", "path"
    double offset;            // of a straight line's parallel: its distance to the left of that line, mm
    const char *piece, *edge; // of an edge of a piece; NULL otherwise
    bool backward;            // an edge walked against the author's direction
    int count;
    Segment items[];
} PathBox;

typedef struct DraftBox {
    Value value;
    int draft;  // index in the pattern
    bool recut; // made from another half: its neck point may lie anywhere
    int given;  // how many marks it had when a recipe gave it as part of a bodice; 0 before
} DraftBox;

typedef struct PieceBox {
    Value value;
    Piece piece; // memory of the run
} PieceBox;

// What stands at an index, or NULL.
Value *value_at(lua_State *L, int index);
PointBox *value_point(lua_State *L, int index);
PathBox *value_path(lua_State *L, int index);
DraftBox *value_draft(lua_State *L, int index);
PieceBox *value_piece(lua_State *L, int index);

// A borrowed view of a path on the stack.
Path box_path(const PathBox *box);

// New values on the stack. Results that are not finite or have too many segments raise.
PointBox *value_push_point(lua_State *L, Point point);
PathBox *value_push_path(lua_State *L, const Path *path, const char *sort);
PieceBox *value_push_piece(lua_State *L, Piece piece);
DraftBox *value_push_draft(lua_State *L, int draft); // its table of marks is empty
void value_push_placeholder(lua_State *L);

// Says that a value came from another: value_derive(&box->value, &self->value, "the offset of").
void value_derive(Value *value, const Value *from, const char *made);

// Gives a value its name, where it has none of its own yet. name lives in the run.
void value_name(Value *value, const char *name);

// Pushes what a message calls the thing at index: its name, what it came from, a local's name, or "a line",
// "nil", "the number 12". Gives the text pushed.
const char *value_describe(lua_State *L, int index);

// Pushes the word for what stands at an index: "point", "line", "edge", "number", "nil".
const char *value_sort(lua_State *L, int index);

// tostring without addresses; pushes.
const char *value_text(lua_State *L, int index);

// Makes the metatables, with the methods and fields of the library rows.
void value_open(lua_State *L);

#endif
