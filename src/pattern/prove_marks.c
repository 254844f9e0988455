// Whether what is marked on a piece lies on it: a mark outside the seam line is cut away, or points at
// nothing.
#include "geometry/crossing.h"
#include "pattern/mend.h"
#include "pattern/proving.h"

#define SAMPLES 4 // places tried on a stretch of a line that lies outside

// How far a point lies outside a closed path, mm; 0 inside and on it.
static double outside(const Path *outline, Point p) {
    return path_winding(outline, p) != 0 ? 0 : path_distance(outline, p);
}

// The same for the whole of a line. Between two crossings it lies on one side, so that a place between them
// tells; the others on a stretch outside tell how far.
static double line_outside(const Path *outline, const Path *line) {
    const double length = path_length(line);
    double worst = fmax(outside(outline, path_first(line)), outside(outline, path_last(line))), from = 0;
    CrossingList crossings = {0};
    path_crossings(line, outline, &crossings);
    for (int i = 0; i <= crossings.count; i++) {
        const double to = i < crossings.count ? path_spot_distance(line, crossings.items[i].on_a) : length;
        for (int k = 0; k < SAMPLES && to - from > POINT_ON_MM; k++) {
            static const double parts[SAMPLES] = {0.5, 0.25, 0.75, 0.9};
            Point at;
            if (path_at(line, from + parts[k] * (to - from), &at) != GEOM_OK)
                break;
            const double off = outside(outline, at);
            if (off <= POINT_ON_MM)
                break;
            worst = fmax(worst, off);
        }
        from = to;
    }
    crossings_finish(&crossings);
    return worst;
}

void prove_marks(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    if (piece->dots.count + piece->lines.count == 0)
        return;
    Path outline = {0};
    piece_outline(piece, &outline);
    double worst = 0;
    const char *mark = NULL, *kind = "mend.mark";
    for (int i = 0; i < piece->dots.count; i++) {
        const Dot *dot = &piece->dots.items[i];
        const double off = outside(&outline, dot->at);
        if (off <= worst)
            continue;
        worst = off;
        mark = dot->name;
        kind = dot->kind == DOT_PIVOT ? "mend.mark_pivot" : "mend.mark_drill";
    }
    for (int i = 0; i < piece->lines.count; i++) {
        const InnerLine *line = &piece->lines.items[i];
        const double off = line_outside(&outline, &line->path);
        if (off <= worst)
            continue;
        worst = off;
        mark = line->name;
        kind = "mend.mark_line";
    }
    path_finish(&outline);
    Proof proof = {.step = piece->step,
                   .measure = MEASURE_NUMBER,
                   .wanted = 1,
                   .holds = worst <= POINT_ON_MM,
                   .piece = index,
                   .edge = -1};
    proof.found = proof.holds;
    if (!proof.holds && mark)
        proof_mend(pattern, &proof, "mend.mark", (MendPart[]){{.name = mark}, {.mm = worst}}, 2);
    else if (!proof.holds)
        proof_mend(pattern, &proof, kind, (MendPart[]){{.mm = worst}}, 1);
    proof_add(pattern, proof, "marks: %s", piece->name);
}
