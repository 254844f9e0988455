// What a piece is told besides its shape: grain, allowance, corners, notches, label, dots and lines. Each
// word gives a new piece.
#include <string.h>

#include "pattern/own.h"
#include "script/check.h"
#include "script/lib_piece.h"
#include "script/library.h"

// piece:grain("along" | "across" | "bias", "edge") or piece:grain(degrees)
static int piece_grain(lua_State *L) {
    static const char *const words[] = {"along", "across", "bias", NULL};
    static const GrainKind kinds[] = {GRAIN_ALONG, GRAIN_ACROSS, GRAIN_BIAS};
    static const double turns[] = {0, 90, 45};
    Piece piece = piece_draft(L);
    if (lua_type(L, 2) == LUA_TNUMBER) {
        piece.grain = GRAIN_ANGLE;
        piece.grain_angle = check_degrees(L, 2);
        piece.grain_edge = NULL;
        check_last(L, 2);
    } else {
        const int way = check_word(L, 2, words);
        const PathBox *given = value_path(L, 3);
        const char *name = given && given->edge ? given->edge : check_name(L, 3);
        check_last(L, 3);
        const Path *path = piece_find_path(&piece, name);
        if (!path)
            fail_no_edge(L, &piece, name);
        const Point chord = point_sub(path_last(path), path_first(path));
        if (point_size(chord) <= POINT_SAME_MM)
            fail(L, "grain: '%s' of '%s' comes back to where it begins, so it has no direction", name,
                 piece.name);
        piece.grain = kinds[way];
        piece.grain_angle = point_angle(chord) + turns[way];
        piece.grain_edge = run_text(L, name);
    }
    value_push_piece(L, piece);
    return 1;
}

static void check_allowance(lua_State *L, double value) {
    if (value < 0 || value > 300)
        fail(L, "allow: an allowance should be from 0 to 30 cm, got %s", push_mm(L, value));
}

// piece:allow(mm) or piece:allow { edge = mm, ... }
static int piece_allow(lua_State *L) {
    Piece piece = piece_draft(L);
    check_last(L, 2);
    if (lua_type(L, 2) != LUA_TTABLE) {
        if (lua_type(L, 2) != LUA_TNUMBER)
            fail_argument(L, 2, "a length or a table { edge = length, ... }");
        const double all = check_mm(L, 2);
        check_allowance(L, all);
        for (int i = 0; i < piece.edges.count; i++)
            if (!piece.edges.items[i].fold)
                piece.edges.items[i].allowance = all;
        value_push_piece(L, piece);
        return 1;
    }
    for (lua_pushnil(L); lua_next(L, 2); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            fail(L, "allow: write { edge = length, ... }");
        const char *name = lua_tostring(L, -2);
        bool known = false;
        for (int i = 0; i < piece.edges.count; i++)
            known = known || strcmp(piece.edges.items[i].root, name) == 0 ||
                    strcmp(piece.edges.items[i].name, name) == 0;
        if (!known)
            fail_no_edge(L, &piece, name);
        if (lua_type(L, -1) != LUA_TNUMBER || length_trouble(lua_tonumber(L, -1)))
            fail(L, "allow: '%s' should be a length, got %s", name, value_describe(L, -1));
        check_allowance(L, lua_tonumber(L, -1));
    }
    // An edge's own name stands before the name it had before it was mirrored over a fold.
    for (int i = 0; i < piece.edges.count; i++) {
        Edge *edge = &piece.edges.items[i];
        if (lua_getfield(L, 2, edge->name) == LUA_TNIL) {
            lua_pop(L, 1);
            lua_getfield(L, 2, edge->root);
        }
        if (!lua_isnil(L, -1) && !edge->fold)
            edge->allowance = lua_tonumber(L, -1);
        lua_pop(L, 1);
    }
    value_push_piece(L, piece);
    return 1;
}

// piece:corner("edge a", "edge b", style); a is sewn first
static int piece_corner(lua_State *L) {
    static const char *const words[] = {"plain", "square", "reflected", "bevel", NULL};
    static const CornerStyle styles[] = {CORNER_PLAIN, CORNER_SQUARE, CORNER_REFLECTED, CORNER_BEVEL};
    Piece piece = piece_draft(L);
    const int a = check_edge(L, &piece, 2), b = check_edge(L, &piece, 3);
    const CornerStyle style = styles[check_word(L, 4, words)];
    check_last(L, 4);
    const int count = piece.edges.count;
    if ((a + 1) % count == b) {
        piece.edges.items[a].corner = style;
        piece.edges.items[a].other_first = false;
    } else if ((b + 1) % count == a) {
        piece.edges.items[b].corner = style;
        piece.edges.items[b].other_first = true;
    } else {
        fail(L, "corner: '%s' and '%s' of '%s' do not meet at a corner", piece.edges.items[a].name,
             piece.edges.items[b].name, piece.name);
    }
    value_push_piece(L, piece);
    return 1;
}

// piece:notch("edge", at [, count])
static int piece_notch(lua_State *L) {
    Piece piece = piece_draft(L);
    const int edge = check_edge(L, &piece, 2);
    const Path *path = &piece.edges.items[edge].path;
    const int count = lua_isnoneornil(L, 4) ? 1 : check_count(L, 4, NOTCH_COUNT_MAX);
    check_last(L, 4);
    if (piece.notches.count >= 500)
        fail(L, "notch: '%s' has more than 500 notches", piece.name);
    double at;
    const PointBox *p = value_point(L, 3);
    if (p) {
        if (path_along(path, p->point, &at))
            fail(L, "notch: the point does not lie on '%s' of '%s'", piece.edges.items[edge].name,
                 piece.name);
    } else {
        at = check_mm(L, 3);
        if (at < 0)
            at += path_length(path);
    }
    if (at < 0 || piece_add_notch(&run_of(L)->arena, &piece, edge, at, count, NULL))
        fail(L, "notch: the place lies beyond the end of '%s' of '%s', which is %s long",
             piece.edges.items[edge].name, piece.name, push_mm(L, path_length(path)));
    value_push_piece(L, piece);
    return 1;
}

// piece:cut(n, "cloth" [, "pair"])
static int piece_cut(lua_State *L) {
    static const char *const words[] = {"pair", NULL};
    Piece piece = piece_draft(L);
    piece.cut = check_count(L, 2, 100);
    if (!lua_isnoneornil(L, 3))
        piece.cloth = run_text(L, check_name(L, 3));
    piece.pair = !lua_isnoneornil(L, 4) && check_word(L, 4, words) == 0;
    check_last(L, 4);
    if (piece.pair && piece.cut % 2 != 0)
        fail(L, "cut: a pair is an even number, got %d", piece.cut);
    value_push_piece(L, piece);
    return 1;
}

static int piece_say(lua_State *L) {
    Piece piece = piece_draft(L);
    piece.note = run_text(L, check_text(L, 2, 300));
    check_last(L, 2);
    value_push_piece(L, piece);
    return 1;
}

static int piece_dot(lua_State *L, DotKind kind) {
    Piece piece = piece_draft(L);
    const Point at = check_point(L, 2)->point;
    const char *name = lua_isnoneornil(L, 3) ? NULL : run_text(L, check_name(L, 3));
    check_last(L, 3);
    if (piece.dots.count >= 500)
        fail(L, "%s: '%s' has more than 500 dots", word_name(L), piece.name);
    OWN_ADD(&run_of(L)->arena, &piece.dots, ((Dot){.kind = kind, .name = name, .at = at}));
    value_push_piece(L, piece);
    return 1;
}

static int piece_pivot(lua_State *L) {
    return piece_dot(L, DOT_PIVOT);
}
static int piece_drill(lua_State *L) {
    return piece_dot(L, DOT_DRILL);
}

// piece:rule("roll" | "centre" | "line" | "match" | "fold", path [, "name"])
static int piece_rule(lua_State *L) {
    static const char *const words[] = {"fold", "roll", "centre", "line", "match", NULL};
    static const InnerKind kinds[] = {INNER_FOLD, INNER_ROLL, INNER_CENTRE, INNER_LINE, INNER_MATCH};
    Piece piece = piece_draft(L);
    const int kind = check_word(L, 2, words);
    const Path view = box_path(check_path(L, 3));
    const char *name = lua_isnoneornil(L, 4) ? words[kind] : run_text(L, check_name(L, 4));
    check_last(L, 4);
    if (piece.lines.count >= 500)
        fail(L, "rule: '%s' has more than 500 lines", piece.name);
    InnerLine line = {.kind = kinds[kind], .name = name, .root = name};
    own_path(&run_of(L)->arena, &view, &line.path);
    OWN_ADD(&run_of(L)->arena, &piece.lines, line);
    value_push_piece(L, piece);
    return 1;
}

static int piece_arrow(lua_State *L) {
    Piece piece = piece_draft(L);
    check_last(L, 1);
    piece.one_way = true;
    value_push_piece(L, piece);
    return 1;
}

const Binding lib_piece_mark_rows[] = {
    {{"piece:grain", "pieces",
      "piece:grain(\"along\" | \"across\" | \"bias\", \"edge\")  or  piece:grain(degrees)",
      "The lengthwise grain: along an edge, square to it, at 45 degrees to it, or in a direction of the "
      "draft.",
      PIECE_EXAMPLE "d.band = band:grain(\"bias\", \"lower\")"},
     piece_grain},
    {{"piece:allow", "pieces", "piece:allow(mm)  or  piece:allow { edge = mm, ... }",
      "Seam allowance for all edges, or edge by edge; twins over a fold follow the edge they came from. 0 to "
      "300 mm.",
      PIECE_EXAMPLE "d.band = band:allow(1*cm):allow { upper = 6*mm }"},
     piece_allow},
    {{"piece:corner", "pieces",
      "piece:corner(\"edge a\", \"edge b\", \"plain\" | \"square\" | \"reflected\" | \"bevel\")",
      "How the allowance is shaped where two edges meet; a is the one sewn first.",
      PIECE_EXAMPLE "d.band = band:corner(\"lower\", \"left_end\", \"bevel\")"},
     piece_corner},
    {{"piece:notch", "pieces", "piece:notch(\"edge\", at [, count])",
      "Notches at a distance along an edge, mm, from the far end where negative, or at a point on it.",
      PIECE_EXAMPLE "d.band = band:notch(\"lower\", 5*cm):notch(\"lower\", -5*cm, 2)"},
     piece_notch},
    {{"piece:cut", "pieces", "piece:cut(n [, \"cloth\" [, \"pair\"]])",
      "How many to cut and of what: \"self\", \"lining\", \"interfacing\", or \"paper\" for a template. A "
      "pair is mirrored.",
      PIECE_EXAMPLE "d.band = band:cut(2, \"self\", \"pair\")"},
     piece_cut},
    {{"piece:say", "pieces", "piece:say \"text\"", "One line more on the piece's label.",
      PIECE_EXAMPLE "d.band = band:say \"stretch the lower edge a little\""},
     piece_say},
    {{"piece:pivot", "pieces", "piece:pivot(point [, \"name\"])",
      "A dot to pivot the seam on: a cross in a circle.",
      PIECE_EXAMPLE "d.band = band:pivot(point(1*cm, 1*cm), \"corner\")"},
     piece_pivot},
    {{"piece:drill", "pieces", "piece:drill(point [, \"name\"])",
      "A drill hole, such as the point of a dart.",
      PIECE_EXAMPLE "d.band = band:drill(point(15*cm, 3*cm), \"button\")"},
     piece_drill},
    {{"piece:rule", "pieces",
      "piece:rule(\"roll\" | \"centre\" | \"line\" | \"match\" | \"fold\", path [, \"name\"])",
      "A line drawn inside the piece.",
      PIECE_EXAMPLE "d.band = band:rule(\"roll\", line(point(0, 2*cm), point(20*cm, 2*cm)), \"roll line\")"},
     piece_rule},
    {{"piece:one_way", "pieces", "piece:one_way()",
      "Every piece lies the same way up on the cloth: nap, or a one-way print.",
      PIECE_EXAMPLE "d.band = band:one_way()"},
     piece_arrow},
    {{NULL}, NULL},
};
