#include <string.h>

#include "base/memory.h"
#include "pattern/allowance.h"
#include "pattern/label.h"
#include "pattern/mend.h"
#include "pattern/proving.h"

#define CUT_CHORD_MM 0.1 // the cut line is taken as a polygon this near to it
#define SAMPLES 3        // places of a curve tried against the cut line

static Proof yes_or_no(const Piece *piece, int index, bool holds) {
    return (Proof){.step = piece->step,
                   .measure = MEASURE_NUMBER,
                   .found = holds,
                   .wanted = 1,
                   .holds = holds,
                   .piece = index,
                   .edge = -1};
}

static void prove_named(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    const bool needs_grain = !piece_is_template(piece);
    const bool named = piece->name[0] != '\0' && piece->cut >= 1;
    const bool grained = piece->grain != GRAIN_NONE || !needs_grain;
    const bool paired = !piece->pair || piece->cut % 2 == 0;
    Proof proof = yes_or_no(piece, index, named && grained && paired);
    if (!proof.holds)
        proof_mend(pattern, &proof,
                   !grained ? "mend.piece_grain"
                   : !named ? "mend.piece_name"
                            : "mend.piece_pairs",
                   NULL, 0);
    proof_add(pattern, proof, "piece: %s", piece->name);
}

static bool outline_closed(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *next = &piece->edges.items[(i + 1) % piece->edges.count];
        if (point_distance(piece_edge_end(&piece->edges.items[i], PATH_LAST),
                           piece_edge_end(next, PATH_FIRST)) > POINT_ON_MM)
            return false;
    }
    return true;
}

static void prove_outline(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    const bool closed = outline_closed(piece);
    Proof proof = yes_or_no(piece, index, closed && piece_area(piece) > 0 && piece_is_simple(piece));
    if (!proof.holds)
        proof_mend(pattern, &proof, closed ? "mend.outline_crosses" : "mend.outline_open", NULL, 0);
    proof_add(pattern, proof, "outline: %s", piece->name);
}

typedef struct Polygon {
    Point *points;
    int count;
} Polygon;

// Inside, or on the line within the chords it is made of.
static bool polygon_holds(const Polygon *polygon, Point p) {
    bool inside = false;
    for (int i = 0; i + 1 < polygon->count; i++) {
        const Point a = polygon->points[i], b = polygon->points[i + 1];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    if (inside)
        return true;
    for (int i = 0; i + 1 < polygon->count; i++) {
        const Point a = polygon->points[i], along = point_sub(polygon->points[i + 1], a);
        const double span = point_dot(along, along);
        const double t = span > 0 ? fmin(fmax(point_dot(point_sub(p, a), along) / span, 0), 1) : 0;
        if (point_distance(p, point_add(a, point_scale(along, t))) <= 2 * CUT_CHORD_MM)
            return true;
    }
    return false;
}

// The first edge that is not inside the cut line, or -1. The cut line is simple, and does not cross a seam
// line whose places all lie inside: a line every allowance away from it cannot pass between two of them.
static int edge_outside(const Piece *piece, const Path *cut) {
    Polygon polygon;
    path_flatten(cut, CUT_CHORD_MM, &polygon.points, &polygon.count);
    int outside = -1;
    for (int i = 0; i < piece->edges.count && outside < 0; i++) {
        const Edge *edge = &piece->edges.items[i];
        if (edge->fold || edge->allowance == 0)
            continue;
        for (int k = 0; k < edge->path.count && outside < 0; k++) {
            const Segment *s = &edge->path.items[k];
            const int samples = s->kind == SEGMENT_LINE ? 2 : SAMPLES;
            for (int n = k == 0 ? 0 : 1; n <= samples && outside < 0; n++)
                if (!polygon_holds(&polygon, segment_point(s, (double)n / samples)))
                    outside = i;
        }
    }
    mem_free(polygon.points);
    return outside;
}

static void prove_cut_line(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    Path cut = {0};
    const GeomError error = piece_cut_outline(piece, &cut);
    const int outside = error == GEOM_OK ? edge_outside(piece, &cut) : -1;
    Proof proof = yes_or_no(piece, index, error == GEOM_OK && outside < 0);
    proof.edge = outside;
    if (outside >= 0)
        proof_mend(pattern, &proof, "mend.cut_line", (MendPart[]){{.name = piece->edges.items[outside].name}},
                   1);
    else if (error != GEOM_OK)
        proof_mend(pattern, &proof, "mend.cut_line_none", NULL, 0);
    path_finish(&cut);
    proof_add(pattern, proof, "cut line: %s", piece->name);
}

static void prove_label(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    Label label;
    LabelPlace place;
    pattern_label_lines(pattern, index, &label);
    Proof proof = yes_or_no(piece, index, pattern_label_place(pattern, index, &label, &place));
    if (!proof.holds)
        proof_mend(pattern, &proof, "mend.label", NULL, 0);
    proof_add(pattern, proof, "label: %s", piece->name);
}

void prove_piece(Pattern *pattern, int index) {
    prove_named(pattern, index);
    prove_outline(pattern, index);
    prove_cut_line(pattern, index);
    prove_label(pattern, index);
}
