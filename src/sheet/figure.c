#include "sheet/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/font.h"
#include "sheet/labels.h"
#include "sheet/number_text.h"
#include "sheet/plain_name.h"

#define NAMES_MAX 1000 // marks of one draft that are named

// New work is what the last recipe of the command line marked, and the recipes it used; what it was built on
// is old.
static int first_new_chapter(const Pattern *pattern) {
    for (int i = pattern->chapters.count - 1; i > 0; i--)
        if (pattern->chapters.items[i].depth == 0)
            return i;
    return 0;
}

static bool step_is_new(const Pattern *pattern, int step) {
    return step >= 0 && step < pattern->steps.count &&
           pattern->steps.items[step].chapter >= first_new_chapter(pattern);
}

bool figure_is_new(const Pattern *pattern, int draft) {
    const Draft *d = &pattern->drafts.items[draft];
    for (int i = 0; i < d->marks.count; i++)
        if (step_is_new(pattern, d->marks.items[i].step))
            return true;
    for (int i = 0; i < d->dimensions.count; i++)
        if (step_is_new(pattern, d->dimensions.items[i].step))
            return true;
    return false;
}

bool figure_check(const Pattern *pattern, int draft, Fault *fault) {
    const Draft *d = &pattern->drafts.items[draft];
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        if (mark->kind == MARK_POINT ? point_finite(mark->point)
                                     : mark->kind != MARK_PATH || path_finite(&mark->path))
            continue;
        fault_set(fault, NULL, 0, "the draft \"%s\" cannot be drawn: %s in '%s'", d->name,
                  geom_error_text(GEOM_NOT_FINITE), mark->name);
        return false;
    }
    for (int i = 0; i < d->dimensions.count; i++)
        if (!point_finite(d->dimensions.items[i].from) || !point_finite(d->dimensions.items[i].to)) {
            fault_set(fault, NULL, 0, "the draft \"%s\" cannot be drawn: %s in a dimension", d->name,
                      geom_error_text(GEOM_NOT_FINITE));
            return false;
        }
    return true;
}

// An edge of a piece traced from this draft keeps the name the recipe gave it, not always that of the mark;
// so the path itself is compared.
static bool is_edge(const Pattern *pattern, int draft, const Path *path) {
    for (int i = 0; i < pattern->pieces.count; i++) {
        const Piece *piece = &pattern->pieces.items[i];
        if (piece->draft != draft)
            continue;
        for (int k = 0; k < piece->edges.count; k++) {
            const Path *edge = &piece->edges.items[k].path;
            if ((point_same(path_first(edge), path_first(path)) &&
                 point_same(path_last(edge), path_last(path))) ||
                (point_same(path_first(edge), path_last(path)) &&
                 point_same(path_last(edge), path_first(path))))
                return true;
        }
    }
    return false;
}

typedef struct Figure {
    const Pattern *pattern;
    int draft;
    const FigureOptions *options;
    Canvas *canvas;
    Labels labels;
    int new_chapter;
    Box limits; // lines that run beyond are cut short there
} Figure;

// The part of a path that is drawn, in `segment` where it is cut short; broken: at its first and last end.
static Path shown_path(const Figure *figure, const Mark *mark, Segment *segment, bool broken[2]) {
    Point from, to;
    broken[0] = broken[1] = false;
    if (!figure_cut_short(figure->limits, &mark->path, &from, &to, broken))
        return mark->path;
    *segment = segment_line(from, to);
    return (Path){.items = segment, .count = 1};
}

// Two strokes across the end of a line that runs on.
static void draw_break(const Figure *figure, LineKind kind, const Path *path, const bool broken[2]) {
    const double mm = 1 / figure->options->scale;
    const Point along = point_unit(point_sub(path_last(path), path_first(path)));
    const Point across = point_add(point_scale(point_left(along), 1.3 * mm), point_scale(along, 0.6 * mm));
    for (int end = 0; end < 2; end++)
        for (int i = 0; broken[end] && i < 2; i++) {
            const Point tip = end == 0 ? path_first(path) : path_last(path);
            const Point at = point_add(tip, point_scale(along, (end == 0 ? 1 : -1) * i * 0.9 * mm));
            canvas_move(figure->canvas, point_sub(at, across));
            canvas_line_to(figure->canvas, point_add(at, across));
        }
    if (broken[0] || broken[1])
        canvas_stroke(figure->canvas, kind);
}

static void take_path(Labels *labels, const Canvas *canvas, const Path *path, double tolerance) {
    LineList lines = {.items = NULL};
    lines_add_path(&lines, path, tolerance);
    for (int i = 0; i < lines.count; i++)
        labels_add_line(labels, (Line){affine_point(canvas->view, lines.items[i].from),
                                       affine_point(canvas->view, lines.items[i].to)});
    mem_free(lines.items);
}

static bool is_new(const Figure *figure, const Mark *mark) {
    const Pattern *pattern = figure->pattern;
    return mark->step < 0 || mark->step >= pattern->steps.count ||
           pattern->steps.items[mark->step].chapter >= figure->new_chapter;
}

static LineKind path_look(const Figure *figure, const Mark *mark) {
    if (!is_new(figure, mark))
        return LINE_CONSTRUCTION;
    return is_edge(figure->pattern, figure->draft, &mark->path) ? LINE_DRAFT_EDGE : LINE_DRAFT;
}

static void draw_paths(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    double tolerance = 0.3 / figure->options->scale;
    static const LineKind order[] = {LINE_CONSTRUCTION, LINE_DRAFT, LINE_DRAFT_EDGE};
    for (int o = 0; o < 3; o++)
        for (int i = 0; i < d->marks.count; i++) {
            const Mark *mark = &d->marks.items[i];
            if (mark->kind == MARK_PATH && mark->path.count > 0 && path_look(figure, mark) == order[o]) {
                Segment segment;
                bool broken[2];
                const Path path = shown_path(figure, mark, &segment, broken);
                canvas_draw_path(figure->canvas, order[o], &path);
                draw_break(figure, order[o], &path, broken);
                take_path(&figure->labels, figure->canvas, &path, tolerance);
            }
            const Piece *piece = figure_piece(figure->pattern, figure->draft, mark);
            if (piece == NULL || order[o] != LINE_DRAFT_EDGE)
                continue;
            for (int k = 0; k < piece->edges.count; k++) {
                canvas_path(figure->canvas, &piece->edges.items[k].path);
                take_path(&figure->labels, figure->canvas, &piece->edges.items[k].path, tolerance);
            }
            canvas_stroke(figure->canvas, LINE_DRAFT_EDGE);
        }
}

static void draw_dimensions(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    Canvas *canvas = figure->canvas;
    const double mm = 1 / figure->options->scale;
    for (int i = 0; i < d->dimensions.count; i++) {
        const Dimension *dim = &d->dimensions.items[i];
        double length = point_distance(dim->from, dim->to);
        if (length <= POINT_SAME_MM)
            continue;
        Point along = point_unit(point_sub(dim->to, dim->from));
        Point side = point_scale(point_left(along), 1.2 * mm);
        canvas_draw_line(canvas, LINE_DIMENSION, dim->from, dim->to);
        canvas_move(canvas, point_add(dim->from, side));
        canvas_line_to(canvas, point_sub(dim->from, side));
        canvas_move(canvas, point_add(dim->to, side));
        canvas_line_to(canvas, point_sub(dim->to, side));
        canvas_stroke(canvas, LINE_DIMENSION);
        char number[48], words[192];
        units_format(length, figure->options->units, number, sizeof number);
        if (dim->text != NULL && dim->text[0] != '\0')
            snprintf(words, sizeof words, "%s %s", dim->text, number);
        else
            snprintf(words, sizeof words, "%s", number);
        double degrees = point_angle(along);
        if (degrees > 90.0001 || degrees <= -89.9999)
            degrees += 180;
        Point up = point_polar(point(0, 0), degrees + 90, 0.9 * mm);
        Point at = point_add(point_mix(dim->from, dim->to, 0.5), up);
        canvas_text(canvas, TEXT_DIMENSION, ALIGN_MIDDLE, at, degrees, words);

        // The turned words are kept free as a row of small boxes.
        double width = canvas_text_width(TEXT_DIMENSION, words);
        for (double w = -width / 2; w <= width / 2; w += 2) {
            Point p = affine_point(canvas->view, point_add(at, point_polar(point(0, 0), degrees, w * mm)));
            labels_take(&figure->labels, (Box){{p.x - 1, p.y - 2}, {p.x + 1, p.y + 0.5}});
        }
        labels_add_line(&figure->labels,
                        (Line){affine_point(canvas->view, dim->from), affine_point(canvas->view, dim->to)});
    }
}

static void draw_points(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    Canvas *canvas = figure->canvas;
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < d->marks.count; i++) {
            const Mark *mark = &d->marks.items[i];
            bool fresh = is_new(figure, mark);
            if (mark->kind != MARK_POINT || fresh != (pass == 1))
                continue;
            canvas_move(canvas, mark->point);
            canvas_line_to(canvas, mark->point);
            Point at = affine_point(canvas->view, mark->point);
            labels_take(&figure->labels, (Box){{at.x - 0.7, at.y - 0.7}, {at.x + 0.7, at.y + 0.7}});
        }
        if (canvas->pen.count > 0)
            canvas_stroke(canvas, pass == 1 ? LINE_POINT : LINE_OLD_POINT);
    }
}

// Where the name of a path may stand: by its middle, else nearer to one of its ends.
static const double path_name_places[] = {0.5, 0.3, 0.7};

static bool place_name(Figure *figure, const Mark *mark, double width, double height, Point *place) {
    Affine view = figure->canvas->view;
    if (mark->kind == MARK_POINT)
        return labels_place(&figure->labels, affine_point(view, mark->point), 1.2, width, height,
                            LABELS_CROWDED, place);
    if (mark->path.count == 0)
        return false;
    Segment segment;
    bool broken[2];
    const Path path = shown_path(figure, mark, &segment, broken);
    const double length = path_length(&path);
    for (int i = 0; i < 3; i++) {
        PathSpot spot;
        if (path_spot_at(&path, length * path_name_places[i], &spot) != GEOM_OK)
            return false;
        Point at = affine_point(view, path_spot_point(&path, spot));
        if (labels_place(&figure->labels, at, 1.2, width, height, LABELS_CROWDED, place))
            return true;
    }
    return false;
}

// A name that would cover another one is left out: points come first, and new work before old.
static void draw_names(Figure *figure, MarkKind kind, bool fresh) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    Canvas *canvas = figure->canvas;
    TextKind look = kind == MARK_POINT && fresh ? TEXT_MARK : fresh ? TEXT_LINE_NAME : TEXT_OLD_MARK;
    const TextStyle *style = text_style(look);
    Affine view = canvas->view;
    for (int i = 0; i < d->marks.count && i < NAMES_MAX; i++) {
        const Mark *mark = &d->marks.items[i];
        if (mark->kind != kind || is_new(figure, mark) != fresh || mark->name == NULL)
            continue;
        char name[PLAIN_NAME_MAX];
        plain_name(mark->name, name);
        double width = font_width(style->bold, style->size, name), height = style->size * FONT_CAP;
        Point place;
        if (!place_name(figure, mark, width, height, &place))
            continue;
        canvas_paper(canvas);
        canvas_text(canvas, look, ALIGN_LEFT, place, 0, name);
        canvas_view(canvas, view);
    }
}

#define TITLE_GAP_MM 2.5 // between the name and the scale

static void scale_words(double scale, char *out, size_t size) {
    char text[24];
    scale_text(scale, text, sizeof text);
    if (scale == 1)
        snprintf(out, size, "draft, full size");
    else
        snprintf(out, size, "draft, drawn at %s", text);
}

double figure_title_width(const Pattern *pattern, int draft, double scale) {
    char words[64];
    scale_words(scale, words, sizeof words);
    return canvas_text_width(TEXT_HEAD, pattern->drafts.items[draft].name) + TITLE_GAP_MM +
           canvas_text_width(TEXT_PALE, words);
}

static void draw_title(const Figure *figure) {
    const char *name = figure->pattern->drafts.items[figure->draft].name;
    Point at = point(figure->labels.frame.least.x, figure->labels.frame.least.y - FIGURE_TITLE_MM + 4.5);
    char words[64];
    scale_words(figure->options->scale, words, sizeof words);
    Affine view = figure->canvas->view;
    canvas_paper(figure->canvas);
    canvas_text(figure->canvas, TEXT_HEAD, ALIGN_LEFT, at, 0, name);
    at.x += canvas_text_width(TEXT_HEAD, name) + TITLE_GAP_MM;
    canvas_text(figure->canvas, TEXT_PALE, ALIGN_LEFT, at, 0, words);
    canvas_view(figure->canvas, view);
}

void figure_draw(const Pattern *pattern, int draft, const FigureOptions *options, Canvas *canvas, Point from,
                 Point to) {
    Box box = figure_box(pattern, draft);
    if (box_is_empty(box))
        return;
    canvas_view(canvas, canvas_place(options->scale, 0, from, to));
    Figure figure = {.pattern = pattern,
                     .draft = draft,
                     .options = options,
                     .canvas = canvas,
                     .new_chapter = first_new_chapter(pattern),
                     .limits = figure_limits(pattern, draft)};
    Point low = affine_point(canvas->view, box.least), high = affine_point(canvas->view, box.most);
    figure.labels.frame = (Box){{low.x - FIGURE_ROOM_MM, high.y - FIGURE_ROOM_MM},
                                {high.x + FIGURE_ROOM_MM, low.y + FIGURE_ROOM_MM}};
    canvas_group(canvas, "draft", pattern->drafts.items[draft].name);
    draw_title(&figure);
    draw_paths(&figure);
    draw_dimensions(&figure);
    draw_points(&figure);
    draw_names(&figure, MARK_POINT, true);
    draw_names(&figure, MARK_POINT, false);
    draw_names(&figure, MARK_PATH, true);
    draw_names(&figure, MARK_PATH, false);
    canvas_group_end(canvas);
    canvas_paper(canvas);
    labels_finish(&figure.labels);
}
