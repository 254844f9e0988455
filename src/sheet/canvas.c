#include "sheet/canvas.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/font.h"

void canvas_init(Canvas *canvas, const CanvasBackend *backend, double width, double height) {
    *canvas = (Canvas){.backend = backend, .window = {{0, 0}, {width, height}}};
    canvas_paper(canvas);
}

void canvas_finish(Canvas *canvas) {
    mem_free(canvas->pen.items);
    canvas->pen = (Pen){.items = NULL};
}

void canvas_view(Canvas *canvas, Affine view) {
    canvas->view = view;
    canvas->turn = DEGREES(atan2(-view.b, view.a));
}

void canvas_paper(Canvas *canvas) {
    canvas_view(canvas, affine_identity());
}

// x' = s (cos x - sin y), y' = -s (sin x + cos y), moved so that from lands on to.
Affine canvas_place(double scale, double degrees, Point from, Point to) {
    double c = scale * cos(RADIANS(degrees)), s = scale * sin(RADIANS(degrees));
    if (fmod(degrees, 90) == 0) {
        c = scale * round(c / scale);
        s = scale * round(s / scale);
    }
    Affine view = {.a = c, .b = -s, .c = -s, .d = -c};
    Point landed = affine_point(view, from);
    view.e = to.x - landed.x;
    view.f = to.y - landed.y;
    return view;
}

void canvas_group(Canvas *canvas, const char *kind, const char *name) {
    canvas->backend->group(canvas, kind, name);
}

void canvas_group_end(Canvas *canvas) {
    canvas->backend->group(canvas, NULL, NULL);
}

void canvas_clip(Canvas *canvas, Box box) {
    canvas->window = box;
    canvas->backend->clip(canvas, box);
}

void canvas_unclip(Canvas *canvas) {
    canvas->window =
        (Box){{-COORDINATE_LIMIT_MM, -COORDINATE_LIMIT_MM}, {COORDINATE_LIMIT_MM, COORDINATE_LIMIT_MM}};
    canvas->backend->clip(canvas, box_empty());
}

void canvas_move(Canvas *canvas, Point to) {
    ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_MOVE, .to = affine_point(canvas->view, to)}));
}

void canvas_line_to(Canvas *canvas, Point to) {
    ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_LINE, .to = affine_point(canvas->view, to)}));
}

void canvas_close(Canvas *canvas) {
    ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_CLOSE}));
}

void canvas_path(Canvas *canvas, const Path *path) {
    if (path->count == 0)
        return;
    canvas_move(canvas, path->items[0].p0);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (s->kind == SEGMENT_LINE) {
            canvas_line_to(canvas, s->p3);
            continue;
        }
        ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_CURVE,
                                           .from_handle = affine_point(canvas->view, s->p1),
                                           .to_handle = affine_point(canvas->view, s->p2),
                                           .to = affine_point(canvas->view, s->p3)}));
    }
    if (path_is_closed(path))
        canvas_close(canvas);
}

// Four cubics with handles of 4/3 (sqrt 2 - 1) radii: round to 3 parts in 10 000.
void canvas_circle(Canvas *canvas, Point centre, double radius) {
    static const double k = 0.5522847498;
    Point c = affine_point(canvas->view, centre);
    static const double turn[5][2] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 0}};
    ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_MOVE, .to = {c.x + radius, c.y}}));
    for (int i = 0; i < 4; i++) {
        Point from = point_add(c, point(radius * turn[i][0], radius * turn[i][1]));
        Point to = point_add(c, point(radius * turn[i + 1][0], radius * turn[i + 1][1]));
        Point ahead = point_scale(point_sub(to, c), k), back = point_scale(point_sub(from, c), k);
        ARRAY_ADD(&canvas->pen, ((PenStep){.move = PEN_CURVE,
                                           .from_handle = point_add(from, ahead),
                                           .to_handle = point_add(to, back),
                                           .to = to}));
    }
    canvas_close(canvas);
}

void canvas_box(Canvas *canvas, Box box) {
    canvas_move(canvas, box.least);
    canvas_line_to(canvas, point(box.most.x, box.least.y));
    canvas_line_to(canvas, box.most);
    canvas_line_to(canvas, point(box.least.x, box.most.y));
    canvas_close(canvas);
}

#define SEEN_MM 3.0 // corners and arrow points reach that far beyond their line

static Box step_box(const PenStep *step, Point from) {
    Box box = box_add((Box){from, from}, step->to);
    return step->move == PEN_CURVE ? box_add(box_add(box, step->from_handle), step->to_handle) : box;
}

static Box pen_box(const Pen *pen, int first, int last) {
    Box box = box_empty();
    for (int i = first; i < last; i++)
        if (pen->items[i].move != PEN_CLOSE)
            box = box_join(box, step_box(&pen->items[i], pen->items[i].to));
    return box;
}

static bool pen_seen(const Canvas *canvas) {
    return box_touch(pen_box(&canvas->pen, 0, canvas->pen.count), canvas->window, SEEN_MM);
}

static bool box_inside(Box box, Box window) {
    return box.least.x >= window.least.x && box.least.y >= window.least.y && box.most.x <= window.most.x &&
           box.most.y <= window.most.y;
}

// Keeps what can be seen of the line from first to last (last left out), moved down to kept; gives where it
// ends. Never more steps than there were: what is left out makes room for the move after it.
static int keep_seen(Canvas *canvas, int first, int last, int kept) {
    PenStep *items = canvas->pen.items;
    Point start = items[first].to, at = start;
    bool all = true, open = false;
    for (int i = first + 1; i < last; i++) {
        PenStep step = items[i];
        if (step.move == PEN_CLOSE)
            step = (PenStep){.move = all ? PEN_CLOSE : PEN_LINE, .to = start};
        bool seen = step.move == PEN_CLOSE || box_touch(step_box(&step, at), canvas->window, SEEN_MM);
        if (seen && !open)
            items[kept++] = (PenStep){.move = PEN_MOVE, .to = at};
        if (seen)
            items[kept++] = step;
        open = seen;
        all = all && seen;
        at = step.to;
    }
    return kept;
}

#define DASHED_MOST_MM 20000.0 // a longer one takes too long on every page, and is no honest line

static double pen_length(const Pen *pen, int first, int last) {
    double length = 0;
    for (int i = first + 1; i < last; i++)
        if (pen->items[i].move != PEN_CLOSE)
            length += point_distance(pen->items[i - 1].to, pen->items[i].to);
    return length;
}

// A dashed line is kept whole or left out whole, so that its dashes lie the same on every page.
static int keep_dashed(Canvas *canvas, int first, int last, int kept) {
    if (!box_touch(pen_box(&canvas->pen, first, last), canvas->window, SEEN_MM))
        return kept;
    for (int i = first; i < last; i++)
        canvas->pen.items[kept++] = canvas->pen.items[i];
    return kept;
}

static void leave_out_unseen(Canvas *canvas, bool dashed) {
    Pen *pen = &canvas->pen;
    if (box_inside(pen_box(pen, 0, pen->count), canvas->window))
        return;
    int kept = 0;
    for (int first = 0, last; first < pen->count; first = last) {
        for (last = first + 1; last < pen->count && pen->items[last].move != PEN_MOVE;)
            last++;
        kept = dashed && pen_length(pen, first, last) <= DASHED_MOST_MM
                   ? keep_dashed(canvas, first, last, kept)
                   : keep_seen(canvas, first, last, kept);
    }
    pen->count = kept;
}

void canvas_stroke(Canvas *canvas, LineKind kind) {
    leave_out_unseen(canvas, line_style(kind)->dash[0] > 0);
    if (canvas->pen.count > 0)
        canvas->backend->stroke(canvas, &canvas->pen, kind);
    canvas->pen.count = 0;
}

void canvas_fill(Canvas *canvas, Shade shade) {
    if (pen_seen(canvas))
        canvas->backend->fill(canvas, &canvas->pen, shade);
    canvas->pen.count = 0;
}

void canvas_fill_stroke(Canvas *canvas, Shade shade, LineKind kind) {
    if (pen_seen(canvas))
        canvas->backend->fill(canvas, &canvas->pen, shade);
    canvas_stroke(canvas, kind);
}

void canvas_draw_line(Canvas *canvas, LineKind kind, Point from, Point to) {
    canvas_move(canvas, from);
    canvas_line_to(canvas, to);
    canvas_stroke(canvas, kind);
}

void canvas_draw_path(Canvas *canvas, LineKind kind, const Path *path) {
    canvas_path(canvas, path);
    canvas_stroke(canvas, kind);
}

void canvas_draw_arrow_head(Canvas *canvas, Shade shade, Point tip, Point away, double length) {
    double scale = hypot(canvas->view.a, canvas->view.b);
    Point along = point_scale(point_unit(point_sub(away, tip)), length / scale);
    Point side = point_scale(point_left(along), 0.32);
    canvas_move(canvas, tip);
    canvas_line_to(canvas, point_add(point_add(tip, along), side));
    canvas_line_to(canvas, point_sub(point_add(tip, along), side));
    canvas_close(canvas);
    canvas_fill(canvas, shade);
}

void canvas_text_sized(Canvas *canvas, TextKind kind, double size, Align align, Point at, double degrees,
                       const char *text) {
    if (text == NULL || *text == '\0')
        return;
    // No letter is wider than its em: what lies outside by that measure need not be measured.
    Point place = affine_point(canvas->view, at);
    if (!box_touch((Box){place, place}, canvas->window, (double)(strlen(text) + 1) * size))
        return;
    TextRun run = {.kind = kind,
                   .text = text,
                   .at = place,
                   .degrees = degrees + canvas->turn,
                   .align = align,
                   .size = size,
                   .width = align == ALIGN_LEFT ? 0 : font_width(text_style(kind)->bold, size, text)};
    if (fabs(run.degrees) < 1e-9)
        run.degrees = 0;
    canvas->backend->text(canvas, &run);
}

void canvas_text(Canvas *canvas, TextKind kind, Align align, Point at, double degrees, const char *text) {
    canvas_text_sized(canvas, kind, text_style(kind)->size, align, at, degrees, text);
}

double canvas_text_width(TextKind kind, const char *text) {
    return font_width(text_style(kind)->bold, text_style(kind)->size, text);
}
