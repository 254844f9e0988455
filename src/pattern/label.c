#include "pattern/label.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "pattern/flat.h"
#include "pattern/grain.h"

#define GRID 9       // places tried across and along the piece
#define GRID_FINE 41 // the same for the short label of a small piece
#define SCALE_STEP 0.1
#define GRAIN_CLEAR_MM 3 // kept free beside the grain line where it can be
#define JOINED_MAX 3     // lines written as one on narrow pieces

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
    buffer_add_format(out, " in %s", piece->cloth);
    if (folded)
        buffer_add_text(out, ", place on fold");
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

// Lines joined by threes or pairs, where the piece has no room for one under the other.
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

// A place for a block on a piece, sought on a grid from the middle outward. Where a block only fits across
// the grain line, that will do.
typedef struct Seek {
    Flat flat;
    Point grain_from, grain_to;
    bool has_grain;
    int grid;
} Seek;

static bool clear_of_grain(const Seek *seek, Box box) {
    if (!seek->has_grain)
        return true;
    const Box wider = {point_sub(box.least, point(GRAIN_CLEAR_MM, GRAIN_CLEAR_MM)),
                       point_add(box.most, point(GRAIN_CLEAR_MM, GRAIN_CLEAR_MM))};
    return !flat_line_in_box(seek->grain_from, seek->grain_to, wider);
}

static bool seek_place(const Seek *seek, double width, double height, Point *centre) {
    const Box all = seek->flat.box;
    const double free_x = all.most.x - all.least.x - width, free_y = all.most.y - all.least.y - height;
    if (free_x < 0 || free_y < 0)
        return false;
    const Point middle = point_mix(all.least, all.most, 0.5);
    bool found = false;
    double best = INFINITY;
    for (int i = 0; i < seek->grid * seek->grid; i++) {
        const Point at = point(middle.x + free_x * ((double)(i % seek->grid) / (seek->grid - 1) - 0.5),
                               middle.y + free_y * ((double)(i / seek->grid) / (seek->grid - 1) - 0.5));
        const Box box = {point_sub(at, point(width / 2, height / 2)),
                         point_add(at, point(width / 2, height / 2))};
        double cost = point_distance(at, middle);
        if (!clear_of_grain(seek, box))
            cost += COORDINATE_LIMIT_MM;
        if (cost >= best || !flat_holds_box(&seek->flat, box))
            continue;
        best = cost;
        *centre = at;
        found = true;
    }
    return found;
}

static void seek_start(const Piece *piece, Seek *seek) {
    flat_make(piece, &seek->flat);
    seek->grid = GRID;
    seek->has_grain = flat_grain_line(&seek->flat, piece, &seek->grain_from, &seek->grain_to);
}

bool piece_label_box(const Piece *piece, double width, double height, Point *centre) {
    Seek seek;
    seek_start(piece, &seek);
    const bool found = seek_place(&seek, width, height, centre);
    flat_finish(&seek.flat);
    return found;
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

bool pattern_label_place(const Pattern *pattern, int piece, Label *label, LabelPlace *place) {
    Seek seek;
    seek_start(&pattern->pieces.items[piece], &seek);
    bool found = place_lines(&seek, label, place);
    for (int each = 2; each <= JOINED_MAX && !found; each++) {
        Label joined;
        if (label_joined(label, each, &joined) && place_lines(&seek, &joined, place)) {
            *label = joined;
            found = true;
        }
    }
    if (!found) {
        Label brief;
        label_short(&pattern->pieces.items[piece], &brief);
        seek.grid = GRID_FINE;
        if (place_lines(&seek, &brief, place)) {
            *label = brief;
            found = true;
        }
    }
    if (!found) {
        label_size(label, &place->width, &place->height);
        place->centre = point_mix(seek.flat.box.least, seek.flat.box.most, 0.5);
        place->scale = LABEL_SMALLEST;
        place->turned = false;
    }
    flat_finish(&seek.flat);
    return found;
}
