#include "sheet/figure.h"

#include <stdio.h>

#include "base/memory.h"
#include "sheet/figure_parts.h"
#include "sheet/number_text.h"

// Of chords, mm of paper: where a curve leaves the figure, and for words to keep clear of.
#define CROPPED_MM 0.03
#define TAKEN_MM 0.1
#define DIMENSION_TICK_MM 1.2 // to either side

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

// The part of a path that is drawn, in `segment` where it is cut short; broken: at its first and last end.
Path figure_shown_path(const Figure *figure, const Mark *mark, Segment *segment, bool broken[2]) {
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
            if (!figure_shows(figure, tip))
                continue;
            const Point at = point_add(tip, point_scale(along, (end == 0 ? 1 : -1) * i * 0.9 * mm));
            canvas_move(figure->canvas, point_sub(at, across));
            canvas_line_to(figure->canvas, point_add(at, across));
        }
    if (figure->canvas->pen.count > 0)
        canvas_stroke(figure->canvas, kind);
}

static LineKind path_look(const Figure *figure, int index) {
    const Mark *mark = &figure->pattern->drafts.items[figure->draft].marks.items[index];
    if (figure->ages[index] != MARK_NEW)
        return LINE_CONSTRUCTION;
    return edge_ends_has(figure->edges, &mark->path) ? LINE_DRAFT_EDGE : LINE_DRAFT;
}

// Whether it lies in the part shown as a whole.
static bool is_whole(const Figure *figure, Box box) {
    const Box crop = figure->crop;
    return box_is_empty(crop) || (box.least.x >= crop.least.x && box.least.y >= crop.least.y &&
                                  box.most.x <= crop.most.x && box.most.y <= crop.most.y);
}

// The chords of a path that are shown, mm of paper.
static void shown_chords(const Figure *figure, const Path *path, double tolerance, LineList *out) {
    LineList lines = {.items = NULL};
    const bool whole = is_whole(figure, path_box(path));
    lines_add_path(&lines, path, tolerance / figure->options->scale);
    for (int i = 0; i < lines.count; i++) {
        Line line = lines.items[i];
        if (whole || line_in_box(line, figure->crop, &line))
            ARRAY_ADD(out, ((Line){affine_point(figure->canvas->view, line.from),
                                   affine_point(figure->canvas->view, line.to)}));
    }
    mem_free(lines.items);
}

static Box paper_box(const Figure *figure, Box box) {
    const Affine view = figure->canvas->view;
    return box_add(box_add(box_empty(), affine_point(view, box.least)), affine_point(view, box.most));
}

// Lines of the paper without the gaps for words; those that follow each other are one stroke.
static void trace_lines(Figure *figure, const LineList *lines) {
    LineList parts = {.items = NULL};
    for (int i = 0; i < lines->count; i++)
        labels_outside_gaps(&figure->labels, lines->items[i], &parts);
    const Affine view = figure->canvas->view;
    canvas_paper(figure->canvas);
    for (int i = 0; i < parts.count; i++) {
        if (i == 0 || !point_same(parts.items[i - 1].to, parts.items[i].from))
            canvas_move(figure->canvas, parts.items[i].from);
        canvas_line_to(figure->canvas, parts.items[i].to);
    }
    canvas_view(figure->canvas, view);
    mem_free(parts.items);
}

// Lines are taken into account before words are placed, and drawn when it is known where words lie.
typedef enum Tracing { TRACE_TAKE, TRACE_DRAW } Tracing;

static void trace_path(Figure *figure, Tracing tracing, const Path *path) {
    LineList lines = {.items = NULL};
    const Box box = path_box(path);
    if (tracing == TRACE_DRAW && is_whole(figure, box) &&
        !labels_gap_in(&figure->labels, paper_box(figure, box))) {
        canvas_path(figure->canvas, path);
        return;
    }
    shown_chords(figure, path, tracing == TRACE_TAKE ? TAKEN_MM : CROPPED_MM, &lines);
    for (int i = 0; tracing == TRACE_TAKE && i < lines.count; i++)
        labels_add_line(&figure->labels, lines.items[i]);
    if (tracing == TRACE_DRAW)
        trace_lines(figure, &lines);
    mem_free(lines.items);
}

static void trace_piece(Figure *figure, Tracing tracing, const Piece *piece) {
    for (int k = 0; k < piece->edges.count; k++)
        trace_path(figure, tracing, &piece->edges.items[k].path);
}

static void take_paths(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        if (figure->ages[i] == MARK_NOT_YET)
            continue;
        if (mark->kind == MARK_PATH && mark->path.count > 0) {
            Segment segment;
            bool broken[2];
            const Path path = figure_shown_path(figure, mark, &segment, broken);
            trace_path(figure, TRACE_TAKE, &path);
        }
        const Piece *piece = figure_piece(figure->pattern, figure->draft, mark);
        if (piece != NULL)
            trace_piece(figure, TRACE_TAKE, piece);
    }
}

static void draw_paths(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    static const LineKind order[] = {LINE_CONSTRUCTION, LINE_DRAFT, LINE_DRAFT_EDGE};
    for (int o = 0; o < 3; o++)
        for (int i = 0; i < d->marks.count; i++) {
            const Mark *mark = &d->marks.items[i];
            if (figure->ages[i] == MARK_NOT_YET)
                continue;
            if (mark->kind == MARK_PATH && mark->path.count > 0 && path_look(figure, i) == order[o]) {
                Segment segment;
                bool broken[2];
                const Path path = figure_shown_path(figure, mark, &segment, broken);
                trace_path(figure, TRACE_DRAW, &path);
                if (figure->canvas->pen.count > 0)
                    canvas_stroke(figure->canvas, order[o]);
                draw_break(figure, order[o], &path, broken);
            }
            const Piece *piece = figure_piece(figure->pattern, figure->draft, mark);
            const bool staged = figure->options->stage != NULL, old = staged && figure->ages[i] == MARK_OLD;
            if (piece == NULL || order[o] != (old      ? LINE_CONSTRUCTION
                                              : staged ? LINE_DRAFT
                                                       : LINE_DRAFT_EDGE))
                continue;
            trace_piece(figure, TRACE_DRAW, piece);
            if (figure->canvas->pen.count > 0)
                canvas_stroke(figure->canvas, order[o]);
        }
}

Line figure_tick(Line line, int end) {
    const Point at = end == 0 ? line.from : line.to,
                side = point_scale(point_left(point_unit(point_sub(line.to, line.from))), DIMENSION_TICK_MM);
    return (Line){point_add(at, side), point_sub(at, side)};
}

static void draw_thin_lines(Figure *figure) {
    LineList lines = {.items = NULL};
    for (int i = 0; i < figure->thin.count; i++) {
        const Line line = figure->thin.items[i].line;
        ARRAY_ADD(&lines, line);
        for (int end = 0; end < 2 && figure->thin.items[i].ticked; end++)
            ARRAY_ADD(&lines, figure_tick(line, end));
    }
    trace_lines(figure, &lines);
    if (figure->canvas->pen.count > 0)
        canvas_stroke(figure->canvas, LINE_DIMENSION);
    mem_free(lines.items);
}

static void take_points(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->marks.count; i++)
        if (d->marks.items[i].kind == MARK_POINT && figure->ages[i] != MARK_NOT_YET &&
            figure_shows(figure, d->marks.items[i].point))
            labels_add_point(&figure->labels, affine_point(figure->canvas->view, d->marks.items[i].point));
}

// Old points under new ones.
static void draw_points(const Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    Canvas *canvas = figure->canvas;
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < d->marks.count; i++) {
            const Mark *mark = &d->marks.items[i];
            if (mark->kind != MARK_POINT || figure->ages[i] != (pass == 1 ? MARK_NEW : MARK_OLD) ||
                !figure_shows(figure, mark->point))
                continue;
            canvas_move(canvas, mark->point);
            canvas_line_to(canvas, mark->point);
        }
        if (canvas->pen.count > 0)
            canvas_stroke(canvas, pass == 1 ? LINE_POINT : LINE_OLD_POINT);
    }
}

#define TITLE_GAP_MM 2.5 // between the name and the scale

static void scale_words(double scale, char *out, size_t size) {
    char text[24];
    scale_text(scale, (NumberMarks){0}, text, sizeof text);
    if (scale == 1)
        snprintf(out, size, "draft, full size");
    else
        snprintf(out, size, "draft, drawn at %s", text);
}

static double title_width(const char *name, const char *scale) {
    return canvas_text_width(TEXT_HEAD, name) + TITLE_GAP_MM + canvas_text_width(TEXT_PALE, scale);
}

double figure_title_width(const Pattern *pattern, int draft, double scale) {
    char words[64];
    scale_words(scale, words, sizeof words);
    return title_width(pattern->drafts.items[draft].name, words);
}

double figure_stage_title_width(const Pattern *pattern, int draft, double scale, NumberMarks marks) {
    char words[64];
    scale_text(scale, marks, words, sizeof words);
    return title_width(pattern->drafts.items[draft].name, words);
}

static void write_title(const char *name, const char *scale, Canvas *canvas, Point above) {
    Point at = point(above.x, above.y - FIGURE_TITLE_MM + 4.5);
    const Affine view = canvas->view;
    canvas_paper(canvas);
    canvas_text(canvas, TEXT_HEAD, ALIGN_LEFT, at, 0, name);
    at.x += canvas_text_width(TEXT_HEAD, name) + TITLE_GAP_MM;
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT, at, 0, scale);
    canvas_view(canvas, view);
}

void figure_draw_stage_title(const Pattern *pattern, int draft, double scale, NumberMarks marks,
                             Canvas *canvas, Point above) {
    char words[64];
    scale_text(scale, marks, words, sizeof words);
    write_title(pattern->drafts.items[draft].name, words, canvas, above);
}

static void draw_title(const Figure *figure) {
    const Point above = figure->labels.frame.least;
    char words[64];
    if (figure->options->stage != NULL || figure->options->wordless) {
        figure_draw_stage_title(figure->pattern, figure->draft, figure->options->scale,
                                figure->options->marks, figure->canvas, above);
        return;
    }
    scale_words(figure->options->scale, words, sizeof words);
    write_title(figure->pattern->drafts.items[figure->draft].name, words, figure->canvas, above);
}

bool figure_shows(const Figure *figure, Point p) {
    const Box crop = figure->crop;
    return box_is_empty(crop) ||
           (p.x >= crop.least.x && p.x <= crop.most.x && p.y >= crop.least.y && p.y <= crop.most.y);
}

void figure_draw(const Pattern *pattern, int draft, const FigureOptions *options, Canvas *canvas, Point from,
                 Point to) {
    const Stage *stage = options->stage;
    const Box crop = stage != NULL ? options->crop : box_empty();
    const Box box = stage != NULL ? crop : figure_box(pattern, draft);
    if (box_is_empty(box))
        return;
    canvas_view(canvas, canvas_place(options->scale, 0, from, to));
    Figure figure = {.pattern = pattern,
                     .draft = draft,
                     .options = options,
                     .canvas = canvas,
                     .crop = crop,
                     .limits = stage != NULL ? stage->of->limits : figure_limits(pattern, draft)};
    EdgeEnds edges = {.items = NULL};
    if (stage == NULL)
        edge_ends_init(&edges, pattern, draft);
    figure.edges = stage != NULL ? &stage->of->edges : &edges;
    figure_find_ages(&figure);
    Point low = affine_point(canvas->view, box.least), high = affine_point(canvas->view, box.most);
    const double tall = stage != NULL ? FIGURE_STAGE_ROOM_MM : FIGURE_ROOM_MM;
    labels_begin(&figure.labels,
                 (Box){{low.x - FIGURE_ROOM_MM, high.y - tall}, {high.x + FIGURE_ROOM_MM, low.y + tall}});
    canvas_group(canvas, "draft", pattern->drafts.items[draft].name);
    draw_title(&figure);
    take_paths(&figure);
    take_points(&figure);
    figure_lay_dimensions(&figure);
    figure_draw_words(&figure);
    draw_paths(&figure);
    draw_thin_lines(&figure);
    draw_points(&figure);
    canvas_group_end(canvas);
    canvas_paper(canvas);
    labels_finish(&figure.labels);
    edge_ends_finish(&edges);
    mem_free(figure.ages);
    mem_free(figure.thin.items);
    mem_free(figure.measured.items);
}
