// Times outline_offset against GEOSBufferWithStyle (libgeos) on the same closed outline of chords, like a
// sleeve of 365 x 600 mm, 10 mm outside, mitred with limit 5. Prints per line: name, our median in
// microseconds, that of GEOS, their ratio, and for both the largest error of the distance, in mm, over the
// result away from its corners.
#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "geometry/offset.h"

#define DISTANCE 10.0
#define LIMIT 5.0
#define ROUNDS_MAX 2000

static double now_us(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static int compare_numbers(const void *left, const void *right) {
    const double a = *(const double *)left, b = *(const double *)right;
    return a < b ? -1 : a > b;
}

static double median(double *times, int count) {
    qsort(times, (size_t)count, sizeof *times, compare_numbers);
    return times[count / 2];
}

// A sleeve: hem, underarm seams and a cap that swings in and out.
static void sleeve(Path *out) {
    path_clear(out);
    path_add(out, segment_line(point(60, 0), point(305, 0)));
    path_add(out, segment_line(point(305, 0), point(365, 450)));
    path_add(out, segment_cubic(point(365, 450), point(300, 465), point(290, 520), point(260, 560)));
    path_add(out, segment_cubic(point(260, 560), point(240, 585), point(215, 600), point(185, 600)));
    path_add(out, segment_cubic(point(185, 600), point(150, 600), point(125, 580), point(105, 545)));
    path_add(out, segment_cubic(point(105, 545), point(85, 510), point(70, 470), point(0, 450)));
    path_add(out, segment_line(point(0, 450), point(60, 0)));
}

// The outline in count chords of about one length, with the corners of the curve kept.
static void chords_of(const Path *curve, int count, Path *out) {
    path_clear(out);
    const double step = path_length(curve) / count;
    Point at = path_first(curve);
    for (int i = 0; i < curve->count; i++) {
        const Segment *s = &curve->items[i];
        const double length = segment_length(s);
        const int n = (int)fmax(1, round(length / step));
        for (int k = 1; k <= n; k++) {
            const Point to = k == n ? s->p3 : segment_point(s, segment_at_length(s, length * k / n));
            path_add(out, segment_line(at, to));
            at = to;
        }
    }
}

static GEOSGeometry *polygon_of(GEOSContextHandle_t geos, const Path *path) {
    GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, (unsigned)path->count + 1, 2);
    for (int i = 0; i <= path->count; i++) {
        const Point p = i < path->count ? path->items[i].p0 : path->items[0].p0;
        GEOSCoordSeq_setXY_r(geos, sequence, (unsigned)i, p.x, p.y);
    }
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, sequence), NULL, 0);
}

static double ours_us(const Path *outline, int rounds) {
    static double times[ROUNDS_MAX];
    for (int i = 0; i < rounds; i++) {
        Path result = {0};
        const double start = now_us();
        const GeomError error =
            outline_offset(outline, DISTANCE, (OffsetOptions){.mitre_limit = LIMIT}, &result, NULL);
        path_finish(&result);
        times[i] = now_us() - start;
        if (error != GEOM_OK) {
            fprintf(stderr, "bench_offset: %s\n", geom_error_text(error));
            exit(1);
        }
    }
    return median(times, rounds);
}

static GEOSGeometry *geos_offset(GEOSContextHandle_t geos, const GEOSGeometry *polygon) {
    return GEOSBufferWithStyle_r(geos, polygon, DISTANCE, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, LIMIT);
}

static double geos_us(GEOSContextHandle_t geos, const GEOSGeometry *polygon, int rounds) {
    static double times[ROUNDS_MAX];
    for (int i = 0; i < rounds; i++) {
        const double start = now_us();
        GEOSGeom_destroy_r(geos, geos_offset(geos, polygon));
        times[i] = now_us() - start;
    }
    return median(times, rounds);
}

// How wrong the distance from the curve to p is; 0 where the nearest point is a corner of the curve.
static double point_error(const Path *curve, Point p) {
    const double gap = path_distance(curve, p);
    for (int i = 0; i < curve->count; i++)
        if (point_distance(curve->items[i].p0, p) < gap + 0.05 * DISTANCE)
            return 0;
    return fabs(gap - DISTANCE);
}

static double segment_error(const Path *curve, const Segment *s) {
    double worst = 0;
    for (int k = 0; k <= 8; k++)
        worst = fmax(worst, point_error(curve, segment_point(s, k / 8.0)));
    return worst;
}

static double our_error(const Path *curve, const Path *outline) {
    Path result = {0};
    double worst = 0;
    if (outline_offset(outline, DISTANCE, (OffsetOptions){.mitre_limit = LIMIT}, &result, NULL) == GEOM_OK)
        for (int i = 0; i < result.count; i++)
            worst = fmax(worst, segment_error(curve, &result.items[i]));
    path_finish(&result);
    return worst;
}

static double geos_error(GEOSContextHandle_t geos, const Path *curve, const GEOSGeometry *polygon) {
    GEOSGeometry *result = geos_offset(geos, polygon);
    const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r(geos, GEOSGetExteriorRing_r(geos, result));
    unsigned count = 0;
    double worst = 0;
    GEOSCoordSeq_getSize_r(geos, sequence, &count);
    Point before = {0};
    for (unsigned i = 0; i < count; i++) {
        Point p;
        GEOSCoordSeq_getXY_r(geos, sequence, i, &p.x, &p.y);
        const Segment chord = segment_line(before, p);
        if (i > 0)
            worst = fmax(worst, segment_error(curve, &chord));
        before = p;
    }
    GEOSGeom_destroy_r(geos, result);
    return worst;
}

int main(int argc, char **argv) {
    const bool all = argc > 1 && strcmp(argv[1], "all") == 0;
    GEOSContextHandle_t geos = GEOS_init_r();
    Path curve = {0}, outline = {0};
    sleeve(&curve);
    if (all)
        printf("name ours_us geos_us ratio ours_error_mm geos_error_mm\n");
    for (int round = 0; round < 2; round++) {
        const int points = round == 0 ? 60 : 2000, rounds = round == 0 ? 2000 : 400;
        chords_of(&curve, points, &outline);
        GEOSGeometry *polygon = polygon_of(geos, &outline);
        ours_us(&outline, rounds / 10); // both warmed up
        geos_us(geos, polygon, rounds / 10);
        const double ours = ours_us(&outline, rounds), theirs = geos_us(geos, polygon, rounds);
        if (all)
            printf("offset_%d %.2f %.2f %.2f %.4f %.4f\n", points, ours, theirs, ours / theirs,
                   our_error(&curve, &outline), geos_error(geos, &curve, polygon));
        else
            printf("%d %.2f %.2f 1\n", points, ours, theirs);
        GEOSGeom_destroy_r(geos, polygon);
    }
    if (all) // the curves themselves: no chords needed, and right to the tolerance
        printf("offset_curves %.2f - - %.4f -\n", ours_us(&curve, 2000), our_error(&curve, &curve));
    path_finish(&curve);
    path_finish(&outline);
    GEOS_finish_r(geos);
    return 0;
}
