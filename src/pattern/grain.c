#include "pattern/grain.h"

#include <string.h>

#define SCAN_LINES 41
#define OFF_CENTRE 0.5  // mm of length worth giving up to lie 1 mm nearer to the middle
#define MARGIN_PART 0.1 // of the stretch, left free at each end
#define ENOUGH_MM 150.0 // a line that long is long enough to lay the piece by (common practice, no source)
#define ENOUGH_PART 0.6 // of the longest line in the piece: a shorter one goes nearer to the edge instead
#define BIAS_DEGREES 45.0
#define BIAS_WITHIN 0.5 // degrees: 1 mm in 12 cm (common practice, no source)

// The best level line of a turned outline that stays so far clear of it, before its margins.
typedef struct Chord {
    double left, right, level;
} Chord;

static bool find_chord(const Flat *flat, double clear, Chord *out) {
    const double low = flat->box.least.y, high = flat->box.most.y, middle = (low + high) / 2;
    double best = -INFINITY;
    for (int i = 1; i < SCAN_LINES; i++) {
        const double y = low + (high - low) * i / SCAN_LINES;
        double left, right;
        if (!flat_clear_stretch(flat, y, clear, &left, &right))
            continue;
        const double score = right - left - OFF_CENTRE * fabs(y - middle);
        if (score > best + POINT_SAME_MM) {
            best = score;
            *out = (Chord){left, right, y};
        }
    }
    return best > -INFINITY;
}

bool flat_grain_line(const Flat *outline, const Piece *piece, Point *from, Point *to) {
    if (piece->grain == GRAIN_NONE)
        return false;
    // On a narrow piece the line goes nearer to the edge rather than become too short to lay a ruler on;
    // never nearer than the polygon may lie off the outline, unless there is no other place at all.
    static const double clears[] = {5, 3, 1.5, FLAT_MM};
    Flat flat;
    flat_turned(outline, -piece->grain_angle, &flat);
    Chord longest = {0}, chord = {0};
    double enough = ENOUGH_MM * ENOUGH_PART; // on most pieces the first try is: no need of the longest
    bool found = find_chord(&flat, clears[0], &chord) && chord.right - chord.left >= enough;
    bool clear = found;
    if (!clear) {
        found = find_chord(&flat, 0, &longest);
        enough = fmin(longest.right - longest.left, ENOUGH_MM) * ENOUGH_PART;
    }
    for (size_t i = 0; i < sizeof clears / sizeof clears[0] && found && !clear; i++)
        clear = find_chord(&flat, clears[i], &chord) && chord.right - chord.left >= enough;
    if (!clear)
        chord = longest;
    flat_finish(&flat);
    found = found && chord.right > chord.left;
    if (!found)
        return false;
    const double margin = (chord.right - chord.left) * MARGIN_PART;
    const Affine back = affine_swing(point(0, 0), piece->grain_angle);
    *from = affine_point(back, point(chord.left + margin, chord.level));
    *to = affine_point(back, point(chord.right - margin, chord.level));
    return true;
}

bool piece_grain_line(const Piece *piece, Point *from, Point *to) {
    Flat flat;
    flat_make(piece, &flat);
    const bool found = flat_grain_line(&flat, piece, from, to);
    flat_finish(&flat);
    return found;
}

// The longest straight fold or centre line of the piece, or NULL.
static const Path *piece_axis(const Piece *piece) {
    const Path *axis = NULL;
    double longest = 0;
    for (int i = 0; i < piece->edges.count + piece->lines.count; i++) {
        const bool outer = i < piece->edges.count;
        const Edge *edge = outer ? &piece->edges.items[i] : NULL;
        const InnerLine *line = outer ? NULL : &piece->lines.items[i - piece->edges.count];
        const bool counts = outer ? edge->fold || strcmp(edge->root, "centre") == 0
                                  : line->kind == INNER_FOLD || line->kind == INNER_CENTRE ||
                                        strcmp(line->root, "centre") == 0;
        const Path *path = outer ? &edge->path : &line->path;
        const double span = point_distance(path_first(path), path_last(path));
        if (!counts || span <= longest + POINT_ON_MM || !path_is_straight(path))
            continue;
        axis = path;
        longest = span;
    }
    return axis;
}

bool piece_is_true_bias(const Piece *piece) {
    if (piece->grain == GRAIN_NONE)
        return false;
    const Path *axis = piece_axis(piece);
    if (!axis)
        return piece->grain == GRAIN_BIAS;
    const double apart =
        fabs(remainder(point_angle(path_direction(axis, PATH_FIRST)) - piece->grain_angle, 90));
    return fabs(apart - BIAS_DEGREES) <= BIAS_WITHIN;
}

bool piece_is_called_bias(const Piece *piece) {
    const bool by_edge = piece->grain_edge && (piece->grain == GRAIN_ALONG || piece->grain == GRAIN_ACROSS);
    return !by_edge && piece_is_true_bias(piece);
}

// A name of the recipe as a hand would write it: its underscores are blanks.
static void add_spoken(Buffer *out, const char *name) {
    for (const char *c = name; *c; c++)
        buffer_add_char(out, *c == '_' ? ' ' : *c);
}

void piece_grain_words(const Piece *piece, Buffer *out) {
    const bool bias = piece_is_called_bias(piece);
    if (bias)
        buffer_add_text(out, "true bias");
    if (piece->grain == GRAIN_NONE) {
        buffer_add_text(out, "no grain given");
        return;
    }
    const char *way = piece->grain == GRAIN_ACROSS  ? "grain across"
                      : piece->grain == GRAIN_ALONG ? "grain along"
                                                    : NULL;
    if (way && piece->grain_edge) {
        buffer_add_format(out, "%s ", way);
        add_spoken(out, piece->grain_edge);
    } else if (!bias && piece->grain == GRAIN_BIAS) {
        buffer_add_text(out, piece->grain_edge ? "bias to " : "bias");
        add_spoken(out, piece->grain_edge ? piece->grain_edge : "");
    } else if (!bias)
        buffer_add_text(out, "grain along the arrow");
}
