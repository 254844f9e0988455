// Offsets against a general-purpose reference library: GEOS (libgeos, C interface), GEOSBufferWithStyle on
// the polygon. The oracle works on chords, so outlines are handed to it as chords within 0.001 mm, with short
// ones at the ends of each curve, so that it sees the directions at the corners right.
#include <criterion/criterion.h>

#include <geos_c.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include "base/memory.h"
#include "geometry/offset.h"

#define LIMIT 5.0

// xorshift64* (S. Vigna, 2016), so that every run tries the same outlines.
static uint64_t state;

static double any(double from, double to) {
    state ^= state >> 12;
    state ^= state << 25;
    state ^= state >> 27;
    return from + (to - from) * (double)((state * 0x2545f4914f6cdd1du) >> 11) * 0x1p-53;
}

static void quiet(const char *format, void *data) {
    (void)format;
    (void)data;
}

static GEOSContextHandle_t geos_new(void) {
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSContext_setNoticeMessageHandler_r(geos, quiet, NULL);
    GEOSContext_setErrorMessageHandler_r(geos, quiet, NULL);
    return geos;
}

typedef struct Points {
    Point *items;
    int count, capacity;
} Points;

static void sample(const Path *path, double tolerance, Points *out) {
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        ARRAY_ADD(out, s->p0);
        if (s->kind == SEGMENT_LINE)
            continue;
        const double d1 = point_size(point_add(point_sub(s->p0, point_scale(s->p1, 2)), s->p2));
        const double d2 = point_size(point_add(point_sub(s->p1, point_scale(s->p2, 2)), s->p3));
        const int n = 1 + (int)sqrt(0.75 * fmax(d1, d2) / tolerance);
        ARRAY_ADD(out, segment_point(s, 0.001 / n));
        for (int k = 1; k < n; k++)
            ARRAY_ADD(out, segment_point(s, (double)k / n));
        ARRAY_ADD(out, segment_point(s, 1 - 0.001 / n));
    }
}

static GEOSGeometry *ring_of(GEOSContextHandle_t geos, const Path *path, double tolerance, bool polygon) {
    Points points = {0};
    sample(path, tolerance, &points);
    GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, (unsigned)points.count + 1, 2);
    for (int i = 0; i <= points.count; i++) {
        const Point p = points.items[i < points.count ? i : 0];
        GEOSCoordSeq_setXY_r(geos, sequence, (unsigned)i, p.x, p.y);
    }
    mem_free(points.items);
    GEOSGeometry *ring = GEOSGeom_createLinearRing_r(geos, sequence);
    return polygon ? GEOSGeom_createPolygon_r(geos, ring, NULL, 0) : ring;
}

// The largest part of a buffer with its holes filled; NULL when it is empty. *parts counts those of real
// width.
static GEOSGeometry *buffer(GEOSContextHandle_t geos, const GEOSGeometry *polygon, double distance, int join,
                            double limit, int *parts) {
    GEOSGeometry *all = GEOSBufferWithStyle_r(geos, polygon, distance, 200, GEOSBUF_CAP_ROUND, join, limit);
    const GEOSGeometry *largest = NULL;
    double largest_area = 0;
    *parts = 0;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, all); i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, all, i);
        double area = 0, length = 0;
        GEOSArea_r(geos, part, &area);
        GEOSLength_r(geos, part, &length);
        if (area <= 0.01 * length)
            continue;
        ++*parts;
        if (area > largest_area) {
            largest_area = area;
            largest = part;
        }
    }
    GEOSGeometry *result = NULL;
    if (largest)
        result = GEOSGeom_createPolygon_r(geos, GEOSGeom_clone_r(geos, GEOSGetExteriorRing_r(geos, largest)),
                                          NULL, 0);
    GEOSGeom_destroy_r(geos, all);
    return result;
}

// A shape round a centre: corners at growing angles with radii that jump, joined by lines and by cubics that
// bulge in or out and end in sharp little bends.
static void star(int corners, double wild, double straight, double scale, Path *out) {
    Point points[64];
    path_clear(out);
    for (int i = 0; i < corners; i++) {
        const double angle = 2 * PI * (i + any(-0.3, 0.3)) / corners;
        const double radius = scale * any(160 - 110 * wild, 160 + 60 * wild);
        points[i] = point(radius * cos(angle) + 300, radius * sin(angle) + 200);
    }
    for (int i = 0; i < corners; i++) {
        const Point a = points[i], b = points[(i + 1) % corners];
        if (any(0, 1) < straight) {
            path_add(out, segment_line(a, b));
            continue;
        }
        const Point chord = point_sub(b, a), aside = point_left(chord);
        const double size = 0.7 * wild;
        const Point p1 =
            point_add(a, point_add(point_scale(chord, any(0.05, 0.7)), point_scale(aside, any(-size, size))));
        const Point p2 =
            point_sub(b, point_add(point_scale(chord, any(0.05, 0.7)), point_scale(aside, any(-size, size))));
        path_add(out, segment_cubic(a, p1, p2, b));
    }
}

// An outline that is simple for the oracle too.
static GEOSGeometry *simple_star(GEOSContextHandle_t geos, double straight, double scale, Path *out) {
    for (;;) {
        star((int)any(3, 12), any(0.1, 1), straight, scale, out);
        GEOSGeometry *polygon = ring_of(geos, out, 0.001, true);
        if (GEOSisValid_r(geos, polygon) == 1)
            return polygon;
        GEOSGeom_destroy_r(geos, polygon);
    }
}

static double gap_to(GEOSContextHandle_t geos, const GEOSPreparedGeometry *source, Point p) {
    GEOSGeometry *at = GEOSGeom_createPointFromXY_r(geos, p.x, p.y);
    double gap = -1;
    GEOSPreparedDistance_r(geos, source, at, &gap);
    GEOSGeom_destroy_r(geos, at);
    return gap;
}

// Whether p is on the mitre of one of the outline's corners: on the line beside a straight continuation of
// one of its sides, or on the line that squares it off at the limit.
static bool on_mitre(const Path *outline, Point p, double distance) {
    for (int i = 0; i < outline->count; i++) {
        const Segment *after = &outline->items[i],
                      *before = &outline->items[i > 0 ? i - 1 : outline->count - 1];
        const Point in = segment_direction(before, 1), out = segment_direction(after, 0);
        const Point from = point_sub(p, after->p0), middle = point_unit(point_sub(in, out));
        const double size = point_size(from);
        if (size > hypot(LIMIT, 1) * distance + 0.01)
            continue;
        if (fabs(fabs(point_cross(in, from)) - distance) < 0.01 ||
            fabs(fabs(point_cross(out, from)) - distance) < 0.01 ||
            fabs(point_dot(middle, from) - LIMIT * distance) < 0.01)
            return true;
    }
    return false;
}

// GEOS leaves out corners of concave chords that are shallower than a hundredth of the distance, which turns
// the last chord before a corner a little, and a sharp mitre's tip with it: tips past 1.5 distances beside a
// curve are compared by on_mitre() instead. Gives what is left of the difference outside the discs round
// those corners.
static GEOSGeometry *without_tips(GEOSContextHandle_t geos, GEOSGeometry *difference, const Path *outline,
                                  double distance) {
    for (int i = 0; i < outline->count; i++) {
        const Segment *after = &outline->items[i],
                      *before = &outline->items[i > 0 ? i - 1 : outline->count - 1];
        const double turn = point_turn(segment_direction(before, 1), segment_direction(after, 0));
        const bool outer = (turn > 0) == (distance > 0);
        if (!outer || (before->kind == SEGMENT_LINE && after->kind == SEGMENT_LINE) ||
            cos(RADIANS(0.5 * turn)) > 1 / 1.5)
            continue;
        GEOSGeometry *corner = GEOSGeom_createPointFromXY_r(geos, after->p0.x, after->p0.y);
        GEOSGeometry *disc = GEOSBuffer_r(geos, corner, (hypot(LIMIT, 1) + 0.1) * fabs(distance), 30);
        GEOSGeometry *rest = GEOSDifference_r(geos, difference, disc);
        GEOSGeom_destroy_r(geos, corner);
        GEOSGeom_destroy_r(geos, disc);
        GEOSGeom_destroy_r(geos, difference);
        difference = rest;
    }
    return difference;
}

// The part of a difference that cannot be laid to the oracle: inward of curves GEOS 3.11 at times cuts off
// more than the distance. A point of each part and its distance from the source, by GEOS too, tell which of
// the two is right.
static double own_difference(GEOSContextHandle_t geos, const GEOSGeometry *difference,
                             const GEOSGeometry *found, const GEOSGeometry *source, double distance,
                             bool *oracle_wrong) {
    const GEOSGeometry *ring = GEOSGetExteriorRing_r(geos, source);
    double sum = 0;
    *oracle_wrong = false;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, difference); i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, difference, i);
        double area = 0, gap = 0;
        GEOSArea_r(geos, part, &area);
        sum += area;
        GEOSGeometry *at = area > 0.01 ? GEOSPointOnSurface_r(geos, part) : NULL;
        if (!at)
            continue;
        GEOSDistance_r(geos, ring, at, &gap);
        const bool inside = GEOSIntersects_r(geos, source, at) == 1;
        const bool has = GEOSIntersects_r(geos, found, at) == 1;
        const double off =
            inside ? -gap - distance : gap - distance; // inside the wanted result when negative
        if (has ? off <= 0.01 : off >= -0.01) {
            *oracle_wrong = true;
            sum -= area;
        }
        GEOSGeom_destroy_r(geos, at);
    }
    return sum;
}

// The radius of the largest circle inside.
static double inner_radius(GEOSContextHandle_t geos, const GEOSGeometry *polygon) {
    GEOSGeometry *spoke = GEOSMaximumInscribedCircle_r(geos, polygon, 0.001);
    double radius = 0;
    GEOSLength_r(geos, spoke, &radius);
    GEOSGeom_destroy_r(geos, spoke);
    return radius;
}

typedef struct Totals {
    int tried, vanished, split, oracle_wrong;
    double area, gap;
} Totals;

static void compare(GEOSContextHandle_t geos, const Path *outline, const GEOSGeometry *polygon,
                    double distance, OffsetJoin join, int number, Totals *totals) {
    int parts = 0, oracle_parts;
    Path result = {0};
    GEOSGeometry *expected =
        buffer(geos, polygon, distance, join == JOIN_ROUND ? GEOSBUF_JOIN_ROUND : GEOSBUF_JOIN_MITRE, LIMIT,
               &oracle_parts);
    const GeomError error = outline_offset(
        outline, distance, (OffsetOptions){.join = join, .mitre_limit = LIMIT}, &result, &parts);
    totals->tried++;
    if (!expected && error == GEOM_OK && inner_radius(geos, polygon) > -distance) {
        totals->oracle_wrong++;
        path_finish(&result);
        return;
    }
    if (!expected) {
        totals->vanished++;
        cr_expect_eq(error, GEOM_VANISHES, "outline %d at %.3f mm: nothing is left, but got %d", number,
                     distance, error);
        path_finish(&result);
        return;
    }
    cr_expect_eq(error, GEOM_OK, "outline %d at %.3f mm: %s", number, distance, geom_error_text(error));
    if (error != GEOM_OK) {
        GEOSGeom_destroy_r(geos, expected);
        return;
    }
    totals->split += oracle_parts > 1;
    cr_expect_eq(parts, oracle_parts, "outline %d at %.3f mm: %d parts, not %d", number, distance, parts,
                 oracle_parts);

    GEOSGeometry *found = ring_of(geos, &result, 0.001, true);
    char *reason = GEOSisValidReason_r(geos, found);
    cr_expect_eq(GEOSisValid_r(geos, found), 1, "outline %d at %.3f mm: %s", number, distance, reason);
    GEOSFree_r(geos, reason);
    GEOSGeometry *difference = GEOSSymDifference_r(geos, found, expected);
    double area = 0, length = 0;
    GEOSLength_r(geos, expected, &length);
    if (difference && join == JOIN_MITRE)
        difference = without_tips(geos, difference, outline, distance);
    bool oracle_wrong = false;
    if (difference)
        GEOSArea_r(geos, difference, &area);
    if (difference && area >= 0.01 * length)
        area = own_difference(geos, difference, found, polygon, distance, &oracle_wrong);
    totals->oracle_wrong += oracle_wrong;
    cr_expect(difference != NULL && area < 0.01 * length,
              "outline %d at %.3f mm: areas differ by %.4f mm2 of %.1f mm", number, distance, area, length);
    totals->area = fmax(totals->area, area / length);

    // Every point is the distance from the source; next to a corner it may be up to the mitre's tip.
    GEOSGeometry *ring = ring_of(geos, outline, 0.0005, false);
    const GEOSPreparedGeometry *prepared = GEOSPrepare_r(geos, ring);
    Points points = {0};
    sample(&result, 0.01, &points);
    for (int i = 0; i < points.count; i++) {
        const Point p = points.items[i];
        const double gap = gap_to(geos, prepared, p), off = gap - fabs(distance);
        const bool mitre = join == JOIN_MITRE && off >= 0.001 && on_mitre(outline, p, fabs(distance));
        if (!mitre)
            totals->gap = fmax(totals->gap, fabs(off));
        cr_expect(off > -0.01 && (off < 0.01 || mitre),
                  "outline %d at %.3f mm: point %.4f, %.4f is %.4f mm away", number, distance, p.x, p.y, gap);
    }
    mem_free(points.items);
    GEOSPreparedGeom_destroy_r(geos, prepared);
    GEOSGeom_destroy_r(geos, ring);
    GEOSGeom_destroy_r(geos, difference);
    GEOSGeom_destroy_r(geos, found);
    GEOSGeom_destroy_r(geos, expected);
    path_finish(&result);
}

static void compare_many(OffsetJoin join, double straight, double scale, uint64_t seed, int count) {
    GEOSContextHandle_t geos = geos_new();
    state = seed;
    Totals totals = {0};
    for (int i = 0; i < count; i++) {
        Path outline = {0};
        GEOSGeometry *polygon = simple_star(geos, straight, scale, &outline);
        compare(geos, &outline, polygon, any(1, 25), join, i, &totals);
        compare(geos, &outline, polygon, -any(1, 25), join, i, &totals);
        GEOSGeom_destroy_r(geos, polygon);
        path_finish(&outline);
    }
    GEOS_finish_r(geos);
    cr_expect(20 * totals.oracle_wrong <= totals.tried, "%d of %d differ from the oracle",
              totals.oracle_wrong, totals.tried);
    cr_log_info("%d offsets, %d vanished, %d split, oracle wrong in %d; area / length %.5f mm, distance "
                "error %.5f mm",
                totals.tried, totals.vanished, totals.split, totals.oracle_wrong, totals.area, totals.gap);
}

Test(offset_geos, mitred_offsets_of_200_random_outlines_agree_with_geos) {
    compare_many(JOIN_MITRE, 0.4, 1, 20240501, 200);
}

Test(offset_geos, mitred_offsets_of_200_random_polygons_agree_with_geos) {
    compare_many(JOIN_MITRE, 1.1, 1, 31, 200);
}

Test(offset_geos, rounded_offsets_of_200_random_outlines_agree_with_geos) {
    compare_many(JOIN_ROUND, 0.3, 1, 77, 200);
}

Test(offset_geos, offsets_of_100_small_outlines_that_split_or_vanish_agree_with_geos) {
    compare_many(JOIN_ROUND, 0.3, 0.25, 4711, 100);
    compare_many(JOIN_MITRE, 1.1, 0.25, 4712, 100);
}

Test(offset_geos, an_inward_offset_vanishes_past_the_radius_of_the_largest_circle_inside) {
    GEOSContextHandle_t geos = geos_new();
    state = 99;
    for (int i = 0; i < 100; i++) {
        Path outline = {0}, result = {0};
        GEOSGeometry *polygon = simple_star(geos, 0.4, 0.4, &outline);
        const double radius = inner_radius(geos, polygon);
        const OffsetOptions round = {.join = JOIN_ROUND};
        cr_expect_eq(outline_offset(&outline, -(radius + 0.05), round, &result, NULL), GEOM_VANISHES,
                     "outline %d past %.4f mm", i, radius);
        cr_expect_eq(outline_offset(&outline, -(radius - 0.1), round, &result, NULL), GEOM_OK,
                     "outline %d before %.4f mm", i, radius);
        GEOSGeom_destroy_r(geos, polygon);
        path_finish(&outline);
        path_finish(&result);
    }
    GEOS_finish_r(geos);
}

// The outline of winding number 1 or more, as GEOS sees it: the raw outline noded and polygonized, its faces
// chosen by the winding number of a point in each, joined, and the holes of the largest part filled.
static GEOSGeometry *wound(GEOSContextHandle_t geos, const Path *raw) {
    GEOSGeometry *ring = ring_of(geos, raw, 0.001, false);
    GEOSGeometry *noded = GEOSUnaryUnion_r(geos, ring);
    GEOSGeometry *faces = GEOSPolygonize_r(geos, (const GEOSGeometry *const *)&noded, 1);
    const int count = GEOSGetNumGeometries_r(geos, faces);
    GEOSGeometry **chosen = mem_new(sizeof(GEOSGeometry *) * (size_t)count);
    unsigned number = 0;
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *face = GEOSGetGeometryN_r(geos, faces, i);
        GEOSGeometry *at = GEOSPointOnSurface_r(geos, face);
        Point p;
        GEOSGeomGetX_r(geos, at, &p.x);
        GEOSGeomGetY_r(geos, at, &p.y);
        if (path_winding(raw, p) >= 1)
            chosen[number++] = GEOSGeom_clone_r(geos, face);
        GEOSGeom_destroy_r(geos, at);
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, chosen, number);
    GEOSGeometry *joined = GEOSUnaryUnion_r(geos, all);
    const GEOSGeometry *largest = NULL;
    double most = 0;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, joined); i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, joined, i);
        double area = 0;
        GEOSArea_r(geos, part, &area);
        if (area > most) {
            most = area;
            largest = part;
        }
    }
    GEOSGeometry *result =
        GEOSGeom_createPolygon_r(geos, GEOSGeom_clone_r(geos, GEOSGetExteriorRing_r(geos, largest)), NULL, 0);
    GEOSGeom_destroy_r(geos, joined);
    GEOSGeom_destroy_r(geos, all);
    mem_free(chosen);
    GEOSGeom_destroy_r(geos, faces);
    GEOSGeom_destroy_r(geos, noded);
    GEOSGeom_destroy_r(geos, ring);
    return result;
}

// Raw outlines with another allowance on every edge, the ends of neighbouring parallels linked by straight
// lines.
Test(offset_geos, outlines_of_200_changing_allowances_lose_their_loops) {
    GEOSContextHandle_t geos = geos_new();
    state = 8086;
    for (int i = 0; i < 200; i++) {
        Path outline = {0}, raw = {0}, edge = {0}, beside = {0}, found = {0};
        GEOSGeom_destroy_r(geos, simple_star(geos, 0.5, 1, &outline));
        for (int k = 0; k < outline.count; k++) {
            path_clear(&edge);
            path_add(&edge, outline.items[k]);
            cr_assert_eq(path_offset_raw(&edge, any(2, 30), SIDE_RIGHT, 0, &beside), GEOM_OK);
            if (raw.count > 0)
                path_add_line(&raw, path_first(&beside));
            path_add_path(&raw, &beside);
        }
        path_add_line(&raw, path_first(&raw));
        int parts = 0;
        const GeomError error = outline_unloop(&raw, false, 0, &found, &parts);
        cr_expect_eq(error, GEOM_OK, "outline %d", i);
        if (error == GEOM_OK) {
            GEOSGeometry *expected = wound(geos, &raw), *polygon = ring_of(geos, &found, 0.001, true);
            cr_expect_eq(GEOSisValid_r(geos, polygon), 1, "outline %d crosses itself", i);
            GEOSGeometry *difference = GEOSSymDifference_r(geos, polygon, expected);
            double area = 0, length = 0;
            if (difference)
                GEOSArea_r(geos, difference, &area);
            GEOSLength_r(geos, expected, &length);
            cr_expect(difference && area < 0.01 * length, "outline %d: areas differ by %.4f mm2 of %.1f mm",
                      i, area, length);
            GEOSGeom_destroy_r(geos, difference);
            GEOSGeom_destroy_r(geos, polygon);
            GEOSGeom_destroy_r(geos, expected);
        }
        path_finish(&outline);
        path_finish(&raw);
        path_finish(&edge);
        path_finish(&beside);
        path_finish(&found);
    }
    GEOS_finish_r(geos);
}
