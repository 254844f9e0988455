#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/figure_parts.h"
#include "sheet/font.h"
#include "sheet/plain_name.h"

#define NAMES_MAX 1000    // texts in one figure; what comes behind them is drawn without
#define WORDS_MAX 320     // bytes of a name with its measure
#define NAME_GAP_MM 1.2   // from what it names
#define ALONG_GAP_MM 0.9  // from the line it stands along
#define LEADER_GAP_MM 6.6 // further off there is a line to what is named
#define LEADERS 4
#define CLEAR_LEADERS 2 // only to be off lines

static void add_length(const Figure *figure, double mm, char *out, size_t size) {
    units_format(mm, figure->options->units, out, size);
    number_text_mark(out, figure->options->marks, out, size);
}

// Counts what is written, or tried.
static bool may_write(Figure *figure) {
    return figure->named < NAMES_MAX && ++figure->named;
}

static void write_words(Figure *figure, TextKind look, Align align, Point at, double degrees,
                        const char *words) {
    const Affine view = figure->canvas->view;
    canvas_paper(figure->canvas);
    canvas_text(figure->canvas, look, align, at, degrees, words);
    canvas_view(figure->canvas, view);
}

static double cap_height(TextKind look) {
    return text_style(look)->size * FONT_CAP;
}

static bool write_beside(Figure *figure, TextKind look, Point at, double gap, double worst, const char *words,
                         Point *place) {
    if (!labels_place(&figure->labels, at, gap, canvas_text_width(look, words), cap_height(look), worst,
                      place))
        return false;
    write_words(figure, look, ALIGN_LEFT, *place, 0, words);
    return true;
}

// Further off, with a line between.
static bool write_far(Figure *figure, TextKind look, Point at, double worst, int rings, const char *words) {
    const double width = canvas_text_width(look, words), height = cap_height(look);
    Point place;
    for (int i = 1; i <= rings; i++) {
        if (!write_beside(figure, look, at, LEADER_GAP_MM * i, worst, words, &place))
            continue;
        const Point end = point(fmin(fmax(at.x, place.x), place.x + width),
                                fmin(fmax(at.y, place.y - height), place.y + height * 0.3));
        const Point short_of = point_scale(point_unit(point_sub(end, at)), 0.6);
        const Affine view = figure->canvas->view;
        canvas_paper(figure->canvas);
        canvas_draw_line(figure->canvas, LINE_DIMENSION, at, point_sub(end, short_of));
        canvas_view(figure->canvas, view);
        labels_add_line(&figure->labels, (Line){at, end});
        return true;
    }
    return false;
}

// Upright words near a place of the paper; `far` allows them to stand further off.
static bool write_near(Figure *figure, TextKind look, Point at, bool far, const char *words) {
    Point place;
    return write_beside(figure, look, at, NAME_GAP_MM, LABELS_CROWDED, words, &place) ||
           (far && write_far(figure, look, at, LABELS_CROWDED, LEADERS, words));
}

static bool write_turned(Figure *figure, TextKind look, Line line, double worst, const char *words) {
    Point at;
    double degrees;
    if (!labels_place_along(&figure->labels, line, ALONG_GAP_MM, canvas_text_width(look, words),
                            cap_height(look), worst, &at, &degrees))
        return false;
    write_words(figure, look, ALIGN_MIDDLE, at, degrees, words);
    return true;
}

// Along a line of the draft; where that has no room, near its middle. Off all lines if that can be.
static bool write_along(Figure *figure, TextKind look, Point from, Point to, const char *words) {
    const Affine view = figure->canvas->view;
    const Line line = {affine_point(view, from), affine_point(view, to)};
    const Point middle = point_mix(line.from, line.to, 0.5);
    Point place;
    return write_turned(figure, look, line, LABELS_CLEAR, words) ||
           write_beside(figure, look, middle, NAME_GAP_MM, LABELS_CLEAR, words, &place) ||
           write_turned(figure, look, line, LABELS_CROWDED, words) ||
           write_near(figure, look, middle, true, words);
}

static void draw_dimension(Figure *figure, Point from, Point to, const char *name) {
    Canvas *canvas = figure->canvas;
    const double length = point_distance(from, to), mm = 1 / figure->options->scale;
    const Point side = point_scale(point_left(point_unit(point_sub(to, from))), 1.2 * mm);
    canvas_draw_line(canvas, LINE_DIMENSION, from, to);
    canvas_move(canvas, point_add(from, side));
    canvas_line_to(canvas, point_sub(from, side));
    canvas_move(canvas, point_add(to, side));
    canvas_line_to(canvas, point_sub(to, side));
    canvas_stroke(canvas, LINE_DIMENSION);
    char number[48], words[WORDS_MAX];
    add_length(figure, length, number, sizeof number);
    snprintf(words, sizeof words, "%s%s%s", name, *name != '\0' ? " " : "", number);
    labels_add_line(&figure->labels,
                    (Line){affine_point(canvas->view, from), affine_point(canvas->view, to)});
    if (may_write(figure))
        write_along(figure, TEXT_DIMENSION, from, to, words);
}

static void draw_dimensions(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->dimensions.count; i++) {
        const Dimension *dim = &d->dimensions.items[i];
        if (point_distance(dim->from, dim->to) <= POINT_SAME_MM ||
            (figure->options->stage != NULL && !stage_measures(figure->options->stage, i)))
            continue;
        draw_dimension(figure, dim->from, dim->to, dim->text != NULL ? dim->text : "");
    }
}

static bool is_new_path(const Figure *figure, int index) {
    const Mark *mark = &figure->pattern->drafts.items[figure->draft].marks.items[index];
    return mark->kind == MARK_PATH && mark->path.count > 0 && mark->name != NULL &&
           figure->ages[index] == MARK_NEW;
}

static void draw_noted_distances(Figure *figure) {
    const Stage *stage = figure->options->stage;
    for (int i = 0; i < stage->lines.count; i++) {
        char name[PLAIN_NAME_MAX];
        plain_name(stage->lines.items[i].note->name, name);
        draw_dimension(figure, stage->lines.items[i].line.from, stage->lines.items[i].line.to, name);
    }
}

// Near some place of a curve, off all lines if that can be.
static void write_on_curve(Figure *figure, const Path *path, const char *words) {
    static const double places[] = {0.5, 0.35, 0.65, 0.2, 0.8};
    const double length = path_length(path);
    Point middle = path_first(path), place;
    for (int i = 0; i < 5; i++) {
        PathSpot spot;
        if (path_spot_at(path, length * places[i], &spot) != GEOM_OK)
            return;
        const Point at = affine_point(figure->canvas->view, path_spot_point(path, spot));
        if (i == 0)
            middle = at;
        if (write_beside(figure, TEXT_LINE_NAME, at, NAME_GAP_MM, LABELS_CLEAR, words, &place))
            return;
    }
    if (!write_far(figure, TEXT_LINE_NAME, middle, LABELS_CLEAR, CLEAR_LEADERS, words))
        write_near(figure, TEXT_LINE_NAME, middle, true, words);
}

// The names of new lines with their lengths: what a hand measures off as it draws them.
static void write_new_paths(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        if (!is_new_path(figure, i) || !may_write(figure))
            continue;
        Segment segment;
        bool broken[2];
        const Path path = figure_shown_path(figure, mark, &segment, broken);
        const double length = path_length(&path);
        char words[WORDS_MAX], number[48] = "", name[PLAIN_NAME_MAX], noted[PLAIN_NAME_MAX] = "";
        plain_name(mark->name, name);
        if (!broken[0] && !broken[1]) {
            const Note *note = stage_note_of(figure->options->stage, length);
            add_length(figure, length, number, sizeof number);
            if (note != NULL)
                plain_name(note->name, noted);
            if (strstr(noted, name) != NULL) // "front neckline" tells no more of a "neckline" on the front
                noted[0] = '\0';
        }
        snprintf(words, sizeof words, "%s%s%s%s%s", name, *noted != '\0' ? ": " : "", noted,
                 *number != '\0' ? " " : "", number);
        if (path_is_straight(&path)) {
            write_along(figure, TEXT_LINE_NAME, path_first(&path), path_last(&path), words);
            continue;
        }
        write_on_curve(figure, &path, words);
    }
}

// Where the name of a path may stand: by its middle, else nearer to one of its ends.
static const double path_name_places[] = {0.5, 0.3, 0.7};

static void write_path_name(Figure *figure, const Mark *mark, TextKind look, const char *name) {
    if (mark->path.count == 0)
        return;
    Segment segment;
    bool broken[2];
    const Path path = figure_shown_path(figure, mark, &segment, broken);
    const double length = path_length(&path);
    for (int i = 0; i < 3; i++) {
        PathSpot spot;
        if (path_spot_at(&path, length * path_name_places[i], &spot) != GEOM_OK)
            return;
        const Point at = path_spot_point(&path, spot);
        if (figure_shows(figure, at) &&
            write_near(figure, look, affine_point(figure->canvas->view, at), false, name))
            return;
    }
}

static void write_names(Figure *figure, MarkKind kind, MarkAge age) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    const bool fresh = age == MARK_NEW, staged = figure->options->stage != NULL;
    const TextKind look = kind == MARK_POINT && fresh ? TEXT_MARK : fresh ? TEXT_LINE_NAME : TEXT_OLD_MARK;
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        if (mark->kind != kind || figure->ages[i] != age || mark->name == NULL || !may_write(figure))
            continue;
        char name[PLAIN_NAME_MAX];
        plain_name(mark->name, name);
        if (kind == MARK_PATH)
            write_path_name(figure, mark, look, name);
        else if (figure_shows(figure, mark->point))
            write_near(figure, look, affine_point(figure->canvas->view, mark->point), staged && fresh, name);
    }
}

void figure_draw_words(Figure *figure) {
    const bool staged = figure->options->stage != NULL;
    if (staged)
        write_names(figure, MARK_POINT, MARK_NEW);
    draw_dimensions(figure);
    if (staged) {
        draw_noted_distances(figure);
        write_new_paths(figure);
    } else {
        write_names(figure, MARK_POINT, MARK_NEW);
    }
    write_names(figure, MARK_POINT, MARK_OLD);
    if (!staged)
        write_names(figure, MARK_PATH, MARK_NEW);
    write_names(figure, MARK_PATH, MARK_OLD);
}
