#include "pattern/piece.h"

#include <criterion/criterion.h>

#include "sample.h"

static Path straight(Point from, Point to) {
    Path path = {0};
    path_line(from, to, &path);
    return path;
}

static PieceError trace(Arena *arena, const Point ends[][2], int count, Piece *out, double *gap, int *at) {
    Path paths[8] = {0};
    NamedPath edges[8];
    static const char *const names[] = {"one", "two", "three", "four", "five", "six", "seven", "eight"};
    for (int i = 0; i < count; i++) {
        paths[i] = straight(ends[i][0], ends[i][1]);
        edges[i] = (NamedPath){names[i], &paths[i]};
    }
    const PieceError error = piece_trace(arena, "piece", edges, count, out, gap, at);
    for (int i = 0; i < count; i++)
        path_finish(&paths[i]);
    return error;
}

Test(piece, edges_are_found_in_any_order_and_direction) {
    Arena arena = {0};
    Piece piece;
    double gap;
    int at;
    const Point ends[4][2] = {
        {{0, 0}, {100, 0}}, {{0, 50}, {0, 0}}, {{0, 50}, {100, 50}}, {{100, 0}, {100, 50}}};
    cr_assert_eq(trace(&arena, ends, 4, &piece, &gap, &at), PIECE_OK);
    cr_assert_str_eq(piece.edges.items[0].name, "one");
    cr_assert_str_eq(piece.edges.items[1].name, "four");
    cr_assert_str_eq(piece.edges.items[2].name, "three");
    cr_assert_str_eq(piece.edges.items[3].name, "two");
    cr_assert(!piece.edges.items[1].backward);
    cr_assert(piece.edges.items[2].backward);
    cr_assert(!piece.edges.items[3].backward);
    cr_assert_float_eq(piece_area(&piece), 5000, 1e-9);
    arena_finish(&arena);
}

Test(piece, a_clockwise_outline_is_turned_and_keeps_its_first_edge) {
    Arena arena = {0};
    Piece piece;
    double gap;
    int at;
    const Point ends[3][2] = {{{0, 0}, {0, 80}}, {{0, 80}, {60, 0}}, {{60, 0}, {0, 0}}};
    cr_assert_eq(trace(&arena, ends, 3, &piece, &gap, &at), PIECE_OK);
    cr_assert_str_eq(piece.edges.items[0].name, "one");
    cr_assert(piece.edges.items[0].backward);
    cr_assert_str_eq(piece.edges.items[1].name, "three");
    cr_assert_float_eq(piece_area(&piece), 2400, 1e-9);
    arena_finish(&arena);
}

Test(piece, ends_that_nearly_meet_become_one_point) {
    Arena arena = {0};
    Piece piece;
    double gap;
    int at;
    const Point ends[3][2] = {{{0, 0}, {80, 0.004}}, {{80, 0}, {0, 60}}, {{0.003, 60}, {0, 0.006}}};
    cr_assert_eq(trace(&arena, ends, 3, &piece, &gap, &at), PIECE_OK);
    for (int i = 0; i < 3; i++) {
        const Point last = piece_edge_end(&piece.edges.items[i], PATH_LAST);
        const Point next = piece_edge_end(&piece.edges.items[(i + 1) % 3], PATH_FIRST);
        cr_assert(last.x == next.x && last.y == next.y);
    }
    arena_finish(&arena);
}

Test(piece, an_open_outline_tells_its_widest_gap) {
    Arena arena = {0};
    Piece piece;
    double gap = 0;
    int at = -1;
    const Point ends[3][2] = {{{0, 0}, {80, 0}}, {{80, 2}, {0, 60}}, {{0, 57}, {0, 0.5}}};
    cr_assert_eq(trace(&arena, ends, 3, &piece, &gap, &at), PIECE_OPEN);
    cr_assert_float_eq(gap, 3, 1e-9);
    cr_assert_eq(at, 1);
    Path one = straight(ends[0][0], ends[0][1]), two = straight(ends[1][0], ends[1][1]),
         three = straight(ends[2][0], ends[2][1]);
    const NamedPath edges[3] = {{"one", &one}, {"two", &two}, {"three", &three}};
    int from, to;
    cr_assert_float_eq(piece_trace_gap(&arena, edges, 3, &from, &to), 3, 1e-9);
    cr_assert_eq(from, 1);
    cr_assert_eq(to, 2);
    path_finish(&one);
    path_finish(&two);
    path_finish(&three);
    arena_finish(&arena);
}

Test(piece, what_is_no_outline_is_refused) {
    Arena arena = {0};
    Piece piece;
    double gap;
    int at;
    const Point crossed[4][2] = {
        {{0, 0}, {100, 0}}, {{100, 0}, {10, 90}}, {{10, 90}, {100, 80}}, {{100, 80}, {0, 0}}};
    cr_assert_eq(trace(&arena, crossed, 4, &piece, &gap, &at), PIECE_CROSSES);
    const Point flat[2][2] = {{{0, 0}, {100, 0}}, {{100, 0}, {0, 0}}};
    cr_assert_eq(trace(&arena, flat, 2, &piece, &gap, &at), PIECE_NO_ROOM);
    cr_assert_eq(trace(&arena, flat, 1, &piece, &gap, &at), PIECE_TOO_FEW);
    Path line = straight(point(0, 0), point(10, 0));
    const NamedPath twice[2] = {{"one", &line}, {"one", &line}};
    cr_assert_eq(piece_trace(&arena, "piece", twice, 2, &piece, &gap, &at), PIECE_SAME_NAME);
    path_finish(&line);
    arena_finish(&arena);
}

Test(piece, a_crossing_is_told_by_its_edges_and_place) {
    Path paths[4] = {straight(point(0, 0), point(100, 0)), straight(point(100, 0), point(0, 80)),
                     straight(point(0, 80), point(100, 80)), straight(point(100, 80), point(0, 0))};
    const NamedPath edges[4] = {
        {"one", &paths[0]}, {"two", &paths[1]}, {"three", &paths[2]}, {"four", &paths[3]}};
    int one = -1, other = -1;
    Point where = {0};
    cr_assert(piece_trace_crossing(edges, 4, &one, &other, &where));
    cr_assert_eq(one, 1);
    cr_assert_eq(other, 3);
    cr_assert_lt(point_distance(where, point(50, 40)), 1e-6);
    cr_assert(!piece_trace_crossing(edges, 2, &one, &other, &where));
    for (int i = 0; i < 4; i++)
        path_finish(&paths[i]);
}

Test(piece, two_edges_or_one_closed_curve_make_an_outline) {
    Arena arena = {0};
    Piece piece;
    double gap;
    int at;
    Path arc = {0}, chord = straight(point(-50, 0), point(50, 0)), circle = {0};
    cr_assert_eq(path_arc(point(0, 0), 50, 0, 180, &arc), GEOM_OK);
    cr_assert_eq(path_arc(point(0, 0), 50, 0, -360, &circle), GEOM_OK);
    const NamedPath two[2] = {{"arc", &arc}, {"chord", &chord}};
    cr_assert_eq(piece_trace(&arena, "half", two, 2, &piece, &gap, &at), PIECE_OK);
    cr_assert_float_eq(piece_area(&piece), PI * 2500 / 2, 0.01);
    const NamedPath one[1] = {{"round", &circle}};
    cr_assert_eq(piece_trace(&arena, "disc", one, 1, &piece, &gap, &at), PIECE_OK);
    cr_assert_float_eq(piece_area(&piece), PI * 2500, 0.01);
    cr_assert(piece.edges.items[0].backward);
    path_finish(&arc);
    path_finish(&chord);
    path_finish(&circle);
    arena_finish(&arena);
}

Test(piece, every_error_has_a_sentence) {
    for (int i = 0; i < PIECE_ERROR_COUNT; i++)
        cr_assert_gt(strlen(piece_error_text((PieceError)i)), 10u);
}
