// Pieces: traced from named edges, then folded, marked and labelled; each method gives a new piece.
#include "script/lib_piece.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "script/check.h"
#include "script/error.h"
#include "script/lib_path.h"
#include "script/library.h"

// One edge of the table piece is given, in the author's order.
typedef struct Given {
    const char *name;
    long place; // in the recipe; -1 where it is not written there
    Path path;
} Given;

static int given_order(const void *a, const void *b) {
    const Given *x = a, *y = b;
    if (x->place != y->place)
        return x->place < 0 ? 1 : y->place < 0 ? -1 : x->place < y->place ? -1 : 1;
    return strcmp(x->name, y->name);
}

// The edges of the table at index 2. Names and paths are held by the table.
static int check_edges(lua_State *L, Given *given) {
    const Run *run = run_of(L);
    const int line = author_line(L);
    int count = 0;
    for (lua_pushnil(L); lua_next(L, 2); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING) {
            run_hint(run_of(L), "write { neckline = path, side = path, ... }");
            fail(L, "piece: every edge needs a name");
        }
        if (count == PIECE_EDGES_MAX)
            fail(L, "piece: more than %d edges", PIECE_EDGES_MAX);
        const PathBox *box = value_path(L, -1);
        const char *name = check_name(L, -2);
        if (!box)
            fail(L, "piece: the edge '%s' should be a path, got %s", name, value_describe(L, -1));
        given[count++] = (Given){
            .name = name, .place = recipe_name_order(run->place.recipe, line, name), .path = box_path(box)};
    }
    qsort(given, (size_t)count, sizeof *given, given_order);
    return count;
}

// Raises where an edge has the name of a word.
static void check_edge_names(lua_State *L, const Given *given, int count) {
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_PIECE_WORDS);
    for (int i = 0; i < count; i++) {
        lua_getfield(L, -1, given[i].name);
        if (!lua_isnil(L, -1))
            fail(L, "'%s' is a word of pieces; choose another name for the edge", given[i].name);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

static void charge_piece(lua_State *L, double segments) {
    ledger_charge(L, 1000 * segments + 4 * segments * segments);
}

// piece("Name", { edge = path, ... })
static int piece_make(lua_State *L) {
    const char *name = check_name(L, 1);
    if (lua_type(L, 2) != LUA_TTABLE)
        fail_argument(L, 2, "a table of edges, { neckline = path, ... }");
    check_last(L, 2);
    Run *run = run_of(L);
    Given given[PIECE_EDGES_MAX];
    NamedPath edges[PIECE_EDGES_MAX];
    const int count = check_edges(L, given);
    check_edge_names(L, given, count);
    double segments = 0;
    for (int i = 0; i < count; i++) {
        edges[i] = (NamedPath){.name = given[i].name, .path = &given[i].path};
        segments += given[i].path.count;
    }
    charge_piece(L, segments);
    Piece piece;
    double gap = 0;
    int at = 0;
    const PieceError error = piece_trace(&run->arena, name, edges, count, &piece, &gap, &at);
    if (error == PIECE_OPEN) {
        int from = 0, to = 0;
        gap = piece_trace_gap(&run->arena, edges, count, &from, &to);
        run_hint(run, "each edge should end where the next begins");
        fail(L, "the outline of '%s' is open by %s between '%s' and '%s'", name, push_mm(L, gap),
             edges[from].name, edges[to].name);
    }
    int one = 0, other = 0;
    Point where;
    // A bow whose two halves are alike encloses nothing on the whole.
    if ((error == PIECE_CROSSES || error == PIECE_NO_ROOM) &&
        piece_trace_crossing(edges, count, &one, &other, &where)) {
        run_hint(run, "the two may only meet at an end they share: move one, or cut it where they cross");
        fail(L,
             one == other ? "the outline of '%s' crosses itself: '%s' does at x = %s, y = %s%s"
                          : "the outline of '%s' crosses itself: '%s' at x = %s, y = %s meets '%s'",
             name, edges[one].name, push_mm(L, where.x), push_mm(L, where.y),
             one == other ? "" : edges[other].name);
    }
    if (error)
        fail(L, "piece '%s': %s", name, piece_error_text(error));
    value_push_piece(L, piece);
    return 1;
}

Piece piece_draft(lua_State *L) {
    Piece copy;
    piece_copy(&run_of(L)->arena, &check_piece(L, 1)->piece, &copy);
    return copy;
}

static int edge_names(const Piece *piece, const char **names) {
    int count = 0;
    for (int i = 0; i < piece->edges.count && count < PIECE_EDGES_MAX; i++)
        names[count++] = piece->edges.items[i].name;
    return count;
}

int fail_no_edge(lua_State *L, const Piece *piece, const char *name) {
    const char *names[PIECE_EDGES_MAX];
    const int count = edge_names(piece, names);
    char what[LIMIT_NAME_BYTES + 40];
    snprintf(what, sizeof what, "the edges of '%s'", piece->name);
    hint_names(L, name, names, count, what);
    if (piece_find_path(piece, name))
        fail(L, "'%s' of '%s' is a fold now, not an edge", name, piece->name);
    fail(L, "'%s' has no edge '%s'", piece->name, name);
}

int check_edge(lua_State *L, const Piece *piece, int argument) {
    const PathBox *box = value_path(L, argument);
    const char *name = box && box->edge ? box->edge : check_name(L, argument);
    const int edge = piece_find_edge(piece, name);
    if (edge < 0)
        fail_no_edge(L, piece, name);
    return edge;
}

static void push_checked(lua_State *L, PieceError error, const Piece *from, Piece made) {
    if (error)
        fail(L, "%s: '%s': %s", word_name(L), from->name, piece_error_text(error));
    value_push_piece(L, made);
}

static int piece_unfolded(lua_State *L) {
    const Piece *piece = &check_piece(L, 1)->piece;
    const int edge = check_edge(L, piece, 2);
    check_last(L, 2);
    const char *name = piece->edges.items[edge].name;
    if (piece->edges.count > PIECE_EDGES_MAX)
        fail(L, "unfold: '%s' has more than %d edges", piece->name, PIECE_EDGES_MAX);
    charge_piece(L, 20.0 * piece->edges.count);
    Piece made = {0};
    const PieceError error = piece_unfold(&run_of(L)->arena, piece, name, &made);
    if (error == PIECE_NOT_STRAIGHT)
        fail(L, "unfold: '%s' of '%s' is not straight, so the cloth cannot fold on it", name, piece->name);
    push_checked(L, error, piece, made);
    return 1;
}

static int piece_on_fold(lua_State *L) {
    const Piece *piece = &check_piece(L, 1)->piece;
    const int edge = check_edge(L, piece, 2);
    check_last(L, 2);
    const char *name = piece->edges.items[edge].name;
    Piece made = {0};
    const PieceError error = piece_place_on_fold(&run_of(L)->arena, piece, name, &made);
    if (error == PIECE_NOT_STRAIGHT)
        fail(L, "fold: '%s' of '%s' is not straight, so it cannot lie on the fold", name, piece->name);
    push_checked(L, error, piece, made);
    return 1;
}

static double piece_segments(const Piece *piece) {
    double segments = 0;
    for (int i = 0; i < piece->edges.count; i++)
        segments += piece->edges.items[i].path.count;
    return segments;
}

// A name for a piece made from another: as given, or NAME and what it is.
static const char *made_name(lua_State *L, int argument, const Piece *piece, const char *what) {
    if (!lua_isnoneornil(L, argument))
        return run_text(L, check_name(L, argument));
    const char *name = arena_format(&run_of(L)->arena, "%s %s", piece->name, what);
    if (strlen(name) > LIMIT_NAME_BYTES)
        fail(L, "%s: the name is too long; give one", word_name(L));
    return name;
}

// Widths are tried down to this, in steps a person reads.
#define FACING_STEP_MM 1.0
#define FACING_STEP_INCH 0.125

// The widest band, in whole steps, that fits along the edge inside the piece where one of the width does not;
// 0 for none. A narrower band fits wherever a wider one does.
static double widest_facing(lua_State *L, const Piece *piece, const char *edge, double width) {
    const bool inches = run_of(L)->job->units == UNITS_INCH;
    const double step = inches ? FACING_STEP_INCH * MM_PER_INCH : FACING_STEP_MM;
    int fits = 0, over = (int)ceil(width / step);
    while (over - fits > 1) {
        const int half = (fits + over) / 2;
        charge_piece(L, 10 * piece_segments(piece));
        Arena arena;
        arena_init(&arena);
        Piece made = {0};
        const bool fine = piece_facing(&arena, piece, edge, half * step, "facing", &made) == PIECE_OK;
        arena_finish(&arena);
        fits = fine ? half : fits;
        over = fine ? over : half;
    }
    return fits * step;
}

// piece:facing("edge", width [, "Name"])
static int piece_face(lua_State *L) {
    const Piece *piece = &check_piece(L, 1)->piece;
    const int edge = check_edge(L, piece, 2);
    const double width = check_positive_mm(L, 3);
    const char *name = made_name(L, 4, piece, "facing");
    check_last(L, 4);
    charge_piece(L, 10 * piece_segments(piece));
    Piece made = {0};
    const char *edge_name = piece->edges.items[edge].name;
    const PieceError error = piece_facing(&run_of(L)->arena, piece, edge_name, width, name, &made);
    if (error == PIECE_NO_ROOM) {
        const double widest = widest_facing(L, piece, edge_name, width);
        if (widest > 0)
            run_hint(run_of(L), "the widest that fits there is %s", push_mm(L, widest));
        fail(L, "facing: there is no room on '%s' for a band of %s along '%s'", piece->name,
             push_mm(L, width), edge_name);
    }
    push_checked(L, error, piece, made);
    return 1;
}

// piece:interfacing(inset [, "Name"])
static int piece_interface(lua_State *L) {
    const Piece *piece = &check_piece(L, 1)->piece;
    const double inset = check_mm(L, 2);
    const char *name = made_name(L, 3, piece, "interfacing");
    check_last(L, 3);
    if (inset < 0)
        fail(L, "interfacing: the inset should not be negative, got %s", push_mm(L, inset));
    charge_piece(L, 10 * piece_segments(piece));
    Piece made = {0};
    const PieceError error = piece_interfacing(&run_of(L)->arena, piece, inset, name, &made);
    push_checked(L, error, piece, made);
    return 1;
}

// piece:named("Name")
static int piece_field_area(lua_State *L) {
    const Piece *piece = &check_piece(L, 1)->piece;
    charge_piece(L, piece_segments(piece));
    lua_pushnumber(L, piece_area(piece));
    return 1;
}

// The piece's own copy of the name an edge or inner line goes by.
static const char *own_name(const Piece *piece, const Path *path) {
    for (int i = 0; i < piece->edges.count; i++)
        if (path == &piece->edges.items[i].path)
            return piece->edges.items[i].name;
    for (int i = 0; i < piece->lines.count; i++)
        if (path == &piece->lines.items[i].path)
            return piece->lines.items[i].name;
    return piece->name;
}

static int by_text(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

// Raises: the piece has neither an edge nor a word of the name. Upvalues: methods, fields.
static void fail_no_field(lua_State *L, const Piece *piece, const char *name) {
    const char *names[100];
    int count = 0;
    for (int table = 1; table <= 2; table++)
        for (lua_pushnil(L); lua_next(L, lua_upvalueindex(table)); lua_pop(L, 1))
            if (count < 100)
                names[count++] = lua_tostring(L, -2);
    qsort(names, (size_t)count, sizeof *names, by_text);
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, names, count) : NULL;
    const char *edges[PIECE_EDGES_MAX];
    const char *near_edge =
        strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, edges, edge_names(piece, edges)) : NULL;
    if (!near || near_edge)
        fail_no_edge(L, piece, name);
    run_hint(run_of(L), "did you mean '%s'?", near);
    fail(L, "'%s' has no '%s'", piece->name, name);
}

int piece_index(lua_State *L) {
    PieceBox *box = check_piece(L, 1);
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(2)) != LUA_TNIL) {
        const lua_CFunction field = lua_tocfunction(L, -1);
        lua_settop(L, 1);
        return field(L);
    }
    if (lua_type(L, 2) != LUA_TSTRING)
        fail(L, "'%s' has nothing under %s", box->piece.name, value_describe(L, 2));
    const char *name = lua_tostring(L, 2);
    const Path *path = piece_find_path(&box->piece, name);
    if (!path)
        fail_no_field(L, &box->piece, name);
    const bool is_line = path->count == 1 && path->items[0].kind == SEGMENT_LINE;
    PathBox *edge = value_push_path(L, path, is_line ? "line" : "path");
    edge->piece = box->piece.name;
    edge->edge = own_name(&box->piece, path);
    return 1;
}

const Binding lib_piece_rows[] = {
    {{"piece", "pieces", "piece(\"Name\", { edge = path, ... })  ->  piece",
      "A piece traced round its named edges; their order is found from the ends they share, and an opening "
      "of more than 0.01 mm "
      "is an error that says where. piece.edge is one of its edges. The piece enters the pattern when it is "
      "put on a draft: "
      "draft.name = piece. Allowance 10 mm unless said.",
      PIECE_EXAMPLE "d.band = band"},
     piece_make},
    {{"piece:unfold", "pieces", "piece:unfold \"edge\"  ->  piece",
      "Opens the piece out over a straight edge, which becomes a fold line of that name; every other edge "
      "gets a twin called "
      "\"NAME over EDGE\".",
      PIECE_EXAMPLE "d.whole = band:unfold \"right_end\""},
     piece_unfolded},
    {{"piece:fold", "pieces", "piece:fold \"edge\"  ->  piece",
      "Lays a straight edge on the fold of the cloth: half the piece is drawn, no allowance there.",
      PIECE_EXAMPLE "d.half = band:fold \"right_end\""},
     piece_on_fold},
    {{"piece:facing", "pieces", "piece:facing(\"edge\", width [, \"Name\"])  ->  piece",
      "A band of the width, mm, along an edge and inside it: a facing. Its free edge is called inner.",
      PIECE_EXAMPLE "d.band, d.facing = band, band:facing(\"upper\", 1*cm)"},
     piece_face},
    {{"piece:interfacing", "pieces", "piece:interfacing(inset [, \"Name\"])  ->  piece",
      "The same piece drawn in by so many mm, without allowance: an interfacing.",
      PIECE_EXAMPLE "d.band, d.inner = band, band:interfacing(2*mm)"},
     piece_interface},
    {{"piece.area", "pieces", "piece.area", "The area inside the seam lines, square mm.",
      PIECE_EXAMPLE "d.band = band\n"
                    "note(\"cloth\", band.area, \"area\")"},
     piece_field_area},
    {{NULL}, NULL},
};
