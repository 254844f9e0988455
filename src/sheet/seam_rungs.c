#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "geometry/tolerance.h"
#include "sheet/font.h"
#include "sheet/plain_name.h"
#include "sheet/seam_parts.h"

#define RUNG_GAP_MM 0.9 // from a rung to its words

typedef struct Rung { // from a place of the first line to that of the second
    double from, to;
} Rung;

static void draw_rung(Canvas *canvas, Point a, Point b, Rung rung) {
    canvas_draw_line(canvas, LINE_MATCH, point(a.x + rung.from, a.y + NOTCH_MM),
                     point(b.x + rung.to, b.y - NOTCH_MM));
}

// The name of the edge that meets the end of another one on its piece; "" where none does, or several names
// would do.
static void name_beyond(const Pattern *pattern, SeamEdge place, bool at_last, char *out) {
    const Piece *piece = &pattern->pieces.items[place.piece];
    const Path *path = &piece->edges.items[place.edge].path;
    const Point end = at_last != place.backward ? path_last(path) : path_first(path);
    *out = '\0';
    for (int k = 0; k < piece->edges.count; k++) {
        const Path *other = &piece->edges.items[k].path;
        if (k != place.edge && (point_distance(path_first(other), end) <= POINT_ON_MM ||
                                point_distance(path_last(other), end) <= POINT_ON_MM)) {
            char name[PLAIN_NAME_MAX];
            plain_name(piece->edges.items[k].name, name);
            const bool other_name = *out != '\0' && strcmp(out, name) != 0;
            snprintf(out, PLAIN_NAME_MAX, "%s", other_name ? "" : name);
            if (other_name)
                return;
        }
    }
}

// A name that tells an end or a joint, and a shorter one for where that has no room; "" where there is none.
typedef struct Told {
    char full[PLAIN_NAME_MAX], brief[PLAIN_NAME_MAX];
} Told;

static void tell(Told *told, const char *full, const char *brief) {
    snprintf(told->full, sizeof told->full, "%s", full);
    snprintf(told->brief, sizeof told->brief, "%s", *brief != '\0' ? brief : full);
}

// What both say, the fuller where one holds the other: "centre back" of that and "centre". One that says
// nothing does not contradict.
static bool agree(const char *a, const char *b, Told *out) {
    const bool first = strstr(a, b) != NULL, second = strstr(b, a) != NULL;
    if (first || second)
        tell(out, first ? a : b, first ? b : a);
    return first || second;
}

// Where the sides say different things, what the one of more edges says: there the other is set on.
static Told name_end(const SeamPicture *picture, bool last) {
    char names[2][PLAIN_NAME_MAX];
    const SeamEdgeList *sides[2] = {&picture->seam->a, &picture->seam->b};
    Told told = {.full = ""};
    for (int s = 0; s < 2; s++)
        name_beyond(picture->pattern, sides[s]->items[last ? sides[s]->count - 1 : 0], last, names[s]);
    if (!agree(names[0], names[1], &told) && sides[0]->count != sides[1]->count)
        tell(&told, names[sides[0]->count > sides[1]->count ? 0 : 1], "");
    return told;
}

static Told name_joint(const SeamPicture *picture, const SeamEdgeList *side, int joint) {
    char names[2][PLAIN_NAME_MAX];
    Told told = {.full = ""};
    name_beyond(picture->pattern, side->items[joint], true, names[0]);
    name_beyond(picture->pattern, side->items[joint + 1], false, names[1]);
    agree(names[0], names[1], &told);
    return told;
}

typedef struct Ladder {
    Rung *rungs;
    int count;
    double from, to; // of the words written last
} Ladder;

static bool is_clear(const Ladder *ladder, double from, double to) {
    for (int i = 0; i < ladder->count; i++)
        if (fmin(ladder->rungs[i].from, ladder->rungs[i].to) < to &&
            fmax(ladder->rungs[i].from, ladder->rungs[i].to) > from)
            return false;
    return ladder->to < from || ladder->from > to;
}

// Between the lines, right of a rung or left of it, where it crosses no other.
static bool write_name(Ladder *ladder, Canvas *canvas, Point a, Rung rung, bool last, const char *name) {
    const double width = canvas_text_width(TEXT_PALE, name), right = fmax(rung.from, rung.to) + RUNG_GAP_MM,
                 left = fmin(rung.from, rung.to) - RUNG_GAP_MM - width;
    const bool fits_right = !last && is_clear(ladder, right, right + width),
               fits_left = left > 0 && is_clear(ladder, left, left + width);
    if (*name == '\0' || (!fits_right && !fits_left))
        return false;
    ladder->from = fits_right ? right : left;
    ladder->to = ladder->from + width;
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT,
                point(a.x + ladder->from, a.y + APART_MM / 2 + text_style(TEXT_PALE)->size * FONT_CAP / 2), 0,
                name);
    return true;
}

static void write_rung(Ladder *ladder, Canvas *canvas, Point a, Rung rung, bool last, Told told) {
    if (!write_name(ladder, canvas, a, rung, last, told.full))
        write_name(ladder, canvas, a, rung, last, told.brief);
}

void seam_draw_rungs(const SeamPicture *picture, Canvas *canvas, Point a, Point b) {
    const int count = picture->matches.count;
    Ladder ladder = {.rungs = mem_new(sizeof *ladder.rungs * (size_t)(count + 2)), .to = -1, .from = -1};
    ladder.rungs[ladder.count++] = (Rung){0, 0};
    for (int i = 0; i < count; i++)
        ladder.rungs[ladder.count++] = (Rung){picture->matches.items[i].at_a * picture->scale,
                                              picture->matches.items[i].at_b * picture->scale};
    ladder.rungs[ladder.count++] =
        (Rung){picture->a.length * picture->scale, picture->b.length * picture->scale};
    for (int i = 0; i < ladder.count; i++)
        draw_rung(canvas, a, b, ladder.rungs[i]);
    write_rung(&ladder, canvas, a, ladder.rungs[0], false, name_end(picture, false));
    for (int i = 0; i < count; i++) {
        const SeamMatch *match = &picture->matches.items[i];
        if (match->joint_a < 0 && match->joint_b < 0)
            continue;
        const SeamEdgeList *side = match->joint_a >= 0 ? &picture->seam->a : &picture->seam->b;
        const int joint = match->joint_a >= 0 ? match->joint_a : match->joint_b;
        write_rung(&ladder, canvas, a, ladder.rungs[i + 1], false, name_joint(picture, side, joint));
    }
    write_rung(&ladder, canvas, a, ladder.rungs[count + 1], true, name_end(picture, true));
    mem_free(ladder.rungs);
}
