// Cut lines against GEOS, a general-purpose geometry library with its own buffering.
#include <criterion/criterion.h>
#include <geos_c.h>
#include <stdlib.h>

#include "base/memory.h"
#include "pattern/allowance.h"
#include "sample.h"

static GEOSGeometry *polygon_of(GEOSContextHandle_t geos, const Path *outline, double chord) {
    Point *points;
    int count;
    path_flatten(outline, chord, &points, &count);
    GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, (unsigned)count, 2);
    for (int i = 0; i < count; i++)
        GEOSCoordSeq_setXY_r(geos, sequence, (unsigned)i, points[i % (count - 1)].x,
                             points[i % (count - 1)].y);
    mem_free(points);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, sequence), NULL, 0);
}

static double area_of(GEOSContextHandle_t geos, GEOSGeometry *polygon) {
    double area = -1;
    cr_assert_eq(GEOSArea_r(geos, polygon, &area), 1);
    return area;
}

// Plain corners all round are a mitred buffer.
Test(allowance_geos, one_width_with_plain_corners_is_a_mitred_buffer) {
    GEOSContextHandle_t geos = GEOS_init_r();
    int compared = 0;
    srand(11);
    for (int round = 0; round < 200; round++) {
        Arena arena = {0};
        const int count = 3 + rand() % 6;
        Point corners[8];
        for (int i = 0; i < count; i++)
            corners[i] = point_polar(point(0, 0), 360.0 * i / count + rand() % 25, 60 + rand() % 160);
        const Piece piece = sample_polygon(&arena, "random", corners, count);
        bool sharp = false; // spikes are cut off, and not where GEOS cuts them
        for (int i = 0; i < count; i++)
            sharp = sharp || piece_corner_angle(&piece, i) < 30;
        if (!sharp) {
            Path cut = {0}, outline = {0};
            piece_outline(&piece, &outline);
            cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
            GEOSGeometry *net = polygon_of(geos, &outline, 1), *ours = polygon_of(geos, &cut, 1);
            GEOSGeometry *buffer =
                GEOSBufferWithStyle_r(geos, net, 10, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 100);
            GEOSGeometry *outer = GEOSGeom_createPolygon_r(
                geos, GEOSGeom_clone_r(geos, GEOSGetExteriorRing_r(geos, buffer)), NULL, 0);
            GEOSGeometry *apart = GEOSSymDifference_r(geos, outer, ours);
            cr_assert_lt(area_of(geos, apart), 0.01, "round %d", round);
            GEOSGeom_destroy_r(geos, apart);
            GEOSGeom_destroy_r(geos, outer);
            GEOSGeom_destroy_r(geos, buffer);
            GEOSGeom_destroy_r(geos, ours);
            GEOSGeom_destroy_r(geos, net);
            path_finish(&cut);
            path_finish(&outline);
            compared++;
        }
        arena_finish(&arena);
    }
    cr_assert_gt(compared, 100);
    GEOS_finish_r(geos);
}

Test(allowance_geos, cut_lines_are_valid_and_hold_the_piece) {
    GEOSContextHandle_t geos = GEOS_init_r();
    for (int way = 0; way < 64; way++) {
        Arena arena = {0};
        const Piece band = sample_band(&arena, "Facing");
        Piece whole;
        cr_assert_eq(piece_unfold(&arena, &band, "centre", &whole), PIECE_OK);
        for (int i = 0; i < whole.edges.count; i++) {
            whole.edges.items[i].allowance = 5 + 5 * ((way + i) % 4);
            whole.edges.items[i].corner = (CornerStyle)((way / 4 + i) % 4);
            whole.edges.items[i].other_first = way >= 32;
        }
        Path cut = {0}, outline = {0};
        piece_outline(&whole, &outline);
        cr_assert_eq(piece_cut_outline(&whole, &cut), GEOM_OK);
        GEOSGeometry *net = polygon_of(geos, &outline, 0.01), *ours = polygon_of(geos, &cut, 0.001);
        cr_assert_eq(GEOSisValid_r(geos, ours), 1, "way %d", way);
        cr_assert_eq(GEOSContains_r(geos, ours, net), 1, "way %d", way);
        GEOSGeom_destroy_r(geos, ours);
        GEOSGeom_destroy_r(geos, net);
        path_finish(&cut);
        path_finish(&outline);
        arena_finish(&arena);
    }
    GEOS_finish_r(geos);
}

// Opened out, the funnel of width 140 and height 100 is a hexagon of 952 cm2.
Test(allowance_geos, the_opened_funnel_is_a_valid_polygon_of_its_area) {
    GEOSContextHandle_t geos = GEOS_init_r();
    Arena arena = {0};
    const Piece whole = sample_funnel(&arena, "Front", 140, 100);
    Path outline = {0};
    piece_outline(&whole, &outline);
    GEOSGeometry *polygon = polygon_of(geos, &outline, 1);
    cr_assert_eq(GEOSisValid_r(geos, polygon), 1);
    cr_assert_float_eq(area_of(geos, polygon), 95200, 0.01);
    GEOSGeom_destroy_r(geos, polygon);
    path_finish(&outline);
    arena_finish(&arena);
    GEOS_finish_r(geos);
}
