#include "recorder.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"

#define CAP 0.714    // of the em: Open Sans, OS/2 table
#define BELOW 0.24   // g, j, p, q, y: the same font's letters
#define TOUCH_MM 0.1 // less is no overlap that can be seen

static Point curve_point(Point a, const PenStep *step, double t) {
    const double u = 1 - t;
    return point_add(
        point_add(point_scale(a, u * u * u), point_scale(step->from_handle, 3 * u * u * t)),
        point_add(point_scale(step->to_handle, 3 * u * t * t), point_scale(step->to, t * t * t)));
}

static void record_line(Recorder *recorder, const Pen *pen) {
    Point at = {0, 0};
    for (int i = 0; i < pen->count; i++) {
        const PenStep *step = &pen->items[i];
        const int parts = step->move == PEN_LINE ? 1 : step->move == PEN_CURVE ? 24 : 0;
        Point from = at;
        for (int k = 1; k <= parts; k++) {
            const Point to = step->move == PEN_LINE ? step->to : curve_point(at, step, k / (double)parts);
            ARRAY_ADD(&recorder->lines, ((Stretch){from, to}));
            from = to;
        }
        if (step->move != PEN_CLOSE)
            at = step->to;
    }
}

static void record_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    Recorder *recorder = (Recorder *)canvas;
    recorder->strokes[kind]++;
    record_line(recorder, pen);
    for (int i = 0; i < pen->count; i++)
        if (pen->items[i].move != PEN_CLOSE)
            recorder->drawn = box_add(recorder->drawn, pen->items[i].to);
}

static void record_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    (void)canvas, (void)pen, (void)shade;
}

static void record_text(Canvas *canvas, const TextRun *run) {
    Recorder *recorder = (Recorder *)canvas;
    const double width = canvas_text_width(run->kind, run->text) * run->size / text_style(run->kind)->size;
    const double from = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? -width / 2 : -width;
    const double c = cos(RADIANS(run->degrees)), s = sin(RADIANS(run->degrees));
    const double along[4] = {from, from + width, from + width, from};
    const double up[4] = {-BELOW * run->size, -BELOW * run->size, CAP * run->size, CAP * run->size};
    Word word = {.text = ""};
    snprintf(word.text, sizeof word.text, "%s", run->text);
    for (int i = 0; i < 4; i++)
        word.corners[i] = point(run->at.x + along[i] * c - up[i] * s, run->at.y - along[i] * s - up[i] * c);
    ARRAY_ADD(&recorder->words, word);
}

static void record_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas, (void)kind, (void)name;
}

static void record_clip(Canvas *canvas, Box box) {
    (void)canvas, (void)box;
}

void recorder_init(Recorder *recorder, double width, double height) {
    static const CanvasBackend backend = {record_stroke, record_fill, record_text, record_group, record_clip};
    *recorder = (Recorder){.drawn = box_empty()};
    canvas_init(&recorder->canvas, &backend, width, height);
    recorder->canvas.window = (Box){{-1000, -1000}, {width + 1000, height + 1000}}; // nothing is left out
}

void recorder_finish(Recorder *recorder) {
    mem_free(recorder->words.items);
    mem_free(recorder->lines.items);
    canvas_finish(&recorder->canvas);
}

// Whether a line along a side of a keeps the two apart.
static bool side_parts(const Word *a, const Word *b) {
    for (int i = 0; i < 2; i++) {
        const Point side = point_unit(point_sub(a->corners[i + 1], a->corners[i]));
        double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
        for (int k = 0; k < 4; k++) {
            low[0] = fmin(low[0], point_dot(a->corners[k], side));
            high[0] = fmax(high[0], point_dot(a->corners[k], side));
            low[1] = fmin(low[1], point_dot(b->corners[k], side));
            high[1] = fmax(high[1], point_dot(b->corners[k], side));
        }
        if (high[0] < low[1] + TOUCH_MM || high[1] < low[0] + TOUCH_MM)
            return true;
    }
    return false;
}

bool words_overlap(const Word *a, const Word *b) {
    return !side_parts(a, b) && !side_parts(b, a);
}

// In fine steps along each line; a line at the very edge of the letters does not cross them.
bool word_crossed(const Word *word, const Recorder *recorder) {
    const Point corner = word->corners[0], along = point_sub(word->corners[1], corner),
                up = point_sub(word->corners[3], corner);
    const double width = hypot(along.x, along.y), height = hypot(up.x, up.y);
    for (int i = 0; i < recorder->lines.count; i++) {
        const Stretch *line = &recorder->lines.items[i];
        const int steps = (int)ceil(point_distance(line->from, line->to) / 0.2) + 1;
        for (int k = 0; k <= steps; k++) {
            const Point off = point_sub(point_mix(line->from, line->to, k / (double)steps), corner);
            const double x = point_dot(off, along) / width, y = point_dot(off, up) / height;
            if (x > TOUCH_MM && x < width - TOUCH_MM && y > TOUCH_MM && y < height - TOUCH_MM)
                return true;
        }
    }
    return false;
}

bool word_inside(const Word *word, Box box) {
    for (int i = 0; i < 4; i++)
        if (word->corners[i].x < box.least.x - TOUCH_MM || word->corners[i].x > box.most.x + TOUCH_MM ||
            word->corners[i].y < box.least.y - TOUCH_MM || word->corners[i].y > box.most.y + TOUCH_MM)
            return false;
    return true;
}

bool recorder_has(const Recorder *recorder, const char *text) {
    for (int i = 0; i < recorder->words.count; i++)
        if (strcmp(recorder->words.items[i].text, text) == 0)
            return true;
    return false;
}
