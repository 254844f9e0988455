#include "pattern/label.h"

#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "pattern/flat.h"
#include "pattern/grain.h"

#define GRID 13      // places tried across and along the piece
#define GRID_FINE 41 // the same for the short label of a small piece
#define SCALE_STEP 0.1
#define GRAIN_CLEAR_MM 3.0    // kept free beside the grain line
#define CLEAR_MM 1.5          // and beside the seam line and what is marked inside it
#define DOT_REACH_MM 2.6      // of the cross of a dot from its middle
#define FOLD_BAND_MM 12.0     // where the bracket of a fold and its words stand, along its middle half
#define FOLD_BAND_STEP_MM 3.0 // lines that stand for the band: closer than the smallest label is high
#define INNER_CHORD_MM 0.5    // an inner line is taken as chords this near to it

static void add_line(Label *label, const char *text) {
    if (label->count == LABEL_LINES_MAX || !text || !*text)
        return;
    char *line = label->lines[label->count++];
    size_t length = strlen(text);
    if (length >= LABEL_TEXT_MAX)
        length = LABEL_TEXT_MAX - 1;
    while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80)
        length--; // not in the middle of a character
    memcpy(line, text, length);
    line[length] = '\0';
}

// A whole piece that was drawn as a half.
static bool was_unfolded(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++)
        if (strcmp(piece->edges.items[i].name, piece->edges.items[i].root) != 0)
            return true;
    return false;
}

// A whole piece on the bias lies across both layers of folded cloth in different directions, so that it is
// cut from one layer, unless it is cut in pairs.
static void cut_words(const Piece *piece, Buffer *out) {
    bool folded = false;
    for (int i = 0; i < piece->edges.count; i++)
        folded = folded || piece->edges.items[i].fold;
    if (piece_is_template(piece)) {
        buffer_add_text(out, "paper only: a template to trace");
        return;
    }
    buffer_add_format(out, "cut %d", piece->cut);
    if (piece->pair && piece->cut > 1)
        buffer_add_format(out, piece->cut == 2 ? " (1 pair)" : " (%d pairs)", piece->cut / 2);
    if (folded)
        buffer_add_text(out, " on the fold");
    buffer_add_format(out, " in %s", piece->cloth);
    if (!folded && !piece->pair && was_unfolded(piece) && piece_is_true_bias(piece))
        buffer_add_text(out, ", single layer");
}

static void allowance_words(const Pattern *pattern, const Piece *piece, Buffer *out) {
    double least = INFINITY, most = 0;
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        if (edge->fold)
            continue;
        least = fmin(least, edge->allowance);
        most = fmax(most, edge->allowance);
    }
    if (most == 0) {
        buffer_add_text(out, "no seam allowance");
        return;
    }
    char narrow[32], wide[32];
    if (pattern->units == UNITS_INCH) {
        units_format_inches(least, 16, narrow, sizeof narrow);
        units_format_inches(most, 16, wide, sizeof wide);
    } else {
        snprintf(narrow, sizeof narrow, "%.3g mm", least);
        snprintf(wide, sizeof wide, "%.3g mm", most);
    }
    if (least == most)
        buffer_add_format(out, "seam allowance %s included", wide);
    else
        buffer_add_format(out, "seam allowance %s to %s included", narrow, wide);
}

void pattern_label_lines(const Pattern *pattern, int index, Label *out) {
    const Piece *piece = &pattern->pieces.items[index];
    Buffer text;
    buffer_init(&text);
    out->count = 0;
    add_line(out, pattern->title);
    buffer_add_format(&text, "%s, piece %d of %d", piece->name, index + 1, pattern->pieces.count);
    add_line(out, text.data);
    buffer_clear(&text);
    cut_words(piece, &text);
    add_line(out, text.data);
    if (pattern->body) {
        buffer_clear(&text);
        buffer_add_format(&text, "for %s", pattern->body);
        add_line(out, text.data);
    }
    buffer_clear(&text);
    allowance_words(pattern, piece, &text);
    add_line(out, text.data);
    buffer_clear(&text);
    piece_grain_words(piece, &text);
    add_line(out, text.data);
    add_line(out, piece->note);
    buffer_finish(&text);
}

static int characters(const char *text) {
    int count = 0;
    while (text_next(&text))
        count++;
    return count;
}

static void label_size(const Label *label, double *width, double *height) {
    int longest = 0;
    for (int i = 0; i < label->count; i++) {
        const int length = characters(label->lines[i]);
        longest = length > longest ? length : longest;
    }
    *width = longest * LABEL_CHARACTER_MM;
    *height = label->count * LABEL_LINE_MM;
}

// Lines joined, so many to a row, where the piece has no room for one under the other.
static bool label_joined(const Label *label, int each, Label *out) {
    out->count = 0;
    for (int i = 0; i < label->count; i += each) {
        char *line = out->lines[out->count++];
        size_t used = 0;
        for (int k = i; k < i + each && k < label->count; k++) {
            const int wrote =
                snprintf(line + used, LABEL_TEXT_MAX - used, "%s%s", k > i ? "; " : "", label->lines[k]);
            used += (size_t)wrote;
            if (used >= LABEL_TEXT_MAX)
                return false;
        }
    }
    return true;
}

// What a label keeps clear of inside the piece: a straight line (or a point) and how much beside it.
typedef struct Bar {
    Point from, to;
    double clear;
} Bar;

typedef struct BarList {
    Bar *items;
    int count, capacity;
} BarList;

// A place for a block on a piece, sought on a grid from the middle outward.
typedef struct Seek {
    Flat flat;
    BarList bars; // the grain line first, where there is one
    bool has_grain, over_grain;
    int grid;
} Seek;

static Box box_grown(Box box, double by) {
    return (Box){point_sub(box.least, point(by, by)), point_add(box.most, point(by, by))};
}

static bool clear_of_bars(const Seek *seek, Box box) {
    for (int i = seek->has_grain && seek->over_grain ? 1 : 0; i < seek->bars.count; i++) {
        const Bar *bar = &seek->bars.items[i];
        if (flat_line_in_box(bar->from, bar->to, box_grown(box, bar->clear)))
            return false;
    }
    return true;
}

static bool seek_place(const Seek *seek, double width, double height, Point *centre) {
    const Box all = box_grown(seek->flat.box, -CLEAR_MM);
    const double free_x = all.most.x - all.least.x - width, free_y = all.most.y - all.least.y - height;
    if (free_x < 0 || free_y < 0)
        return false;
    const Point middle = point_mix(all.least, all.most, 0.5);
    bool found = false;
    double best = INFINITY;
    for (int i = 0; i < seek->grid * seek->grid; i++) {
        const Point at = point(middle.x + free_x * ((double)(i % seek->grid) / (seek->grid - 1) - 0.5),
                               middle.y + free_y * ((double)(i / seek->grid) / (seek->grid - 1) - 0.5));
        const double cost = point_distance(at, middle);
        if (cost >= best)
            continue;
        const Box box = {point_sub(at, point(width / 2, height / 2)),
                         point_add(at, point(width / 2, height / 2))};
        if (!clear_of_bars(seek, box) || !flat_holds_box(&seek->flat, box_grown(box, CLEAR_MM)))
            continue;
        best = cost;
        *centre = at;
        found = true;
    }
    return found;
}

// The band along the middle half of a fold, as lines one beside the other.
static void add_fold_band(Seek *seek, const Edge *edge) {
    const Point first = piece_edge_end(edge, PATH_FIRST), last = piece_edge_end(edge, PATH_LAST);
    const Point inward = point_scale(point_right(point_unit(point_sub(last, first))), -1);
    const Point from = point_mix(first, last, 0.25), to = point_mix(first, last, 0.75);
    for (double in = 0; in <= FOLD_BAND_MM; in += FOLD_BAND_STEP_MM) {
        const Point beside = point_scale(inward, in);
        ARRAY_ADD(&seek->bars, ((Bar){point_add(from, beside), point_add(to, beside), 0}));
    }
}

static void seek_start(const Piece *piece, Seek *seek) {
    *seek = (Seek){.grid = GRID};
    flat_make(piece, &seek->flat);
    Bar grain = {.clear = GRAIN_CLEAR_MM};
    seek->has_grain = flat_grain_line(&seek->flat, piece, &grain.from, &grain.to);
    if (seek->has_grain)
        ARRAY_ADD(&seek->bars, grain);
    for (int i = 0; i < piece->dots.count; i++) {
        const Point at = piece->dots.items[i].at;
        ARRAY_ADD(&seek->bars, ((Bar){at, at, DOT_REACH_MM + CLEAR_MM}));
    }
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold)
            add_fold_band(seek, &piece->edges.items[i]);
    for (int i = 0; i < piece->lines.count; i++) {
        Point *points;
        int count;
        path_flatten(&piece->lines.items[i].path, INNER_CHORD_MM, &points, &count);
        for (int k = 0; k + 1 < count; k++)
            ARRAY_ADD(&seek->bars, ((Bar){points[k], points[k + 1], CLEAR_MM}));
        mem_free(points);
    }
}

static void seek_finish(Seek *seek) {
    flat_finish(&seek->flat);
    mem_free(seek->bars.items);
}

static bool place_lines(const Seek *seek, const Label *label, LabelPlace *place) {
    label_size(label, &place->width, &place->height);
    for (double scale = 1; scale >= LABEL_SMALLEST - 1e-9; scale -= SCALE_STEP) {
        place->scale = scale;
        place->turned = false;
        if (seek_place(seek, place->width * scale, place->height * scale, &place->centre))
            return true;
        place->turned = true;
        if (seek_place(seek, place->height * scale, place->width * scale, &place->centre))
            return true;
    }
    return false;
}

// What a small piece cannot do without: its name, and how many to cut of what.
static void label_short(const Piece *piece, Label *out) {
    Buffer cut;
    buffer_init(&cut);
    cut_words(piece, &cut);
    out->count = 0;
    add_line(out, piece->name);
    add_line(out, cut.data);
    buffer_finish(&cut);
}

// The lines one by one, then joined into fewer ones; at last a single row.
static bool place_label(const Seek *seek, Label *label, LabelPlace *place) {
    if (place_lines(seek, label, place))
        return true;
    int rows = label->count;
    for (int each = 2; each <= label->count; each++) {
        Label joined;
        if (!label_joined(label, each, &joined) || joined.count == rows)
            continue;
        rows = joined.count;
        if (place_lines(seek, &joined, place)) {
            *label = joined;
            return true;
        }
    }
    return false;
}

#define NARROW_CHARACTERS 12

// The same in narrow lines, for a small piece that is no wider than a word or two. False where they are too
// many.
static bool label_narrow(const Label *brief, Label *out) {
    out->count = 0;
    for (int i = 0; i < brief->count; i++) {
        char *line = NULL;
        for (const char *word = brief->lines[i]; *word;) {
            const size_t length = strcspn(word, " "), used = line ? strlen(line) : 0;
            if (line && used + 1 + length <= NARROW_CHARACTERS) {
                snprintf(line + used, LABEL_TEXT_MAX - used, " %.*s", (int)length, word);
            } else {
                if (out->count == LABEL_LINES_MAX)
                    return false;
                line = out->lines[out->count++];
                snprintf(line, LABEL_TEXT_MAX, "%.*s", (int)length, word);
            }
            word += length;
            word += strspn(word, " ");
        }
    }
    return true;
}

bool pattern_label_place(const Pattern *pattern, int piece, Label *label, LabelPlace *place) {
    Seek seek;
    seek_start(&pattern->pieces.items[piece], &seek);
    bool found = false;
    for (int over = 0; over <= (seek.has_grain ? 1 : 0) && !found; over++) {
        seek.over_grain = over == 1;
        found = place_label(&seek, label, place);
    }
    Label brief[2];
    label_short(&pattern->pieces.items[piece], &brief[0]);
    const int forms = label_narrow(&brief[0], &brief[1]) ? 2 : 1;
    seek.grid = GRID_FINE;
    for (int form = 0; form < forms && !found; form++)
        for (int over = 0; over <= (seek.has_grain ? 1 : 0) && !found; over++) {
            seek.over_grain = over == 1;
            found = place_lines(&seek, &brief[form], place);
            if (found)
                *label = brief[form];
        }
    if (!found) {
        label_size(label, &place->width, &place->height);
        place->centre = point_mix(seek.flat.box.least, seek.flat.box.most, 0.5);
        place->scale = LABEL_SMALLEST;
        place->turned = false;
    }
    seek_finish(&seek);
    return found;
}
