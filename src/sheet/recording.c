#include "sheet/recording.h"

#include <stddef.h>

#include "base/memory.h"

typedef enum ActKind { ACT_STROKE, ACT_FILL, ACT_TEXT, ACT_GROUP } ActKind;

struct RecordedAct {
    ActKind kind;
    int first, count; // steps of a stroke or fill
    LineKind line;
    Shade shade;
    TextRun run;
    const char *group, *name;
};

static Recording *of_canvas(Canvas *canvas) {
    return (Recording *)canvas;
}

static void add_lines(Recording *recording, const Pen *pen, RecordedAct act) {
    act.first = recording->steps.count;
    act.count = pen->count;
    for (int i = 0; i < pen->count; i++)
        ARRAY_ADD(&recording->steps, pen->items[i]);
    ARRAY_ADD(&recording->acts, act);
}

static void record_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    add_lines(of_canvas(canvas), pen, (RecordedAct){.kind = ACT_STROKE, .line = kind});
}

static void record_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    add_lines(of_canvas(canvas), pen, (RecordedAct){.kind = ACT_FILL, .shade = shade});
}

static void record_text(Canvas *canvas, const TextRun *run) {
    Recording *recording = of_canvas(canvas);
    RecordedAct act = {.kind = ACT_TEXT, .run = *run};
    act.run.text = arena_text(&recording->arena, run->text);
    ARRAY_ADD(&recording->acts, act);
}

static void record_group(Canvas *canvas, const char *kind, const char *name) {
    Recording *recording = of_canvas(canvas);
    ARRAY_ADD(&recording->acts, ((RecordedAct){.kind = ACT_GROUP,
                                               .group = arena_text(&recording->arena, kind),
                                               .name = arena_text(&recording->arena, name)}));
}

// A clip belongs to the page that is drawn on, not to the drawing.
static void record_clip(Canvas *canvas, Box box) {
    (void)canvas, (void)box;
}

void recording_init(Recording *recording) {
    static const CanvasBackend backend = {record_stroke, record_fill, record_text, record_group, record_clip};
    *recording = (Recording){.acts = {.items = NULL}};
    canvas_init(&recording->canvas, &backend, 0, 0);
    canvas_unclip(&recording->canvas);
    arena_init(&recording->arena);
}

void recording_finish(Recording *recording) {
    canvas_finish(&recording->canvas);
    arena_finish(&recording->arena);
    mem_free(recording->acts.items);
    mem_free(recording->steps.items);
    *recording = (Recording){.acts = {.items = NULL}};
}

static void take_lines(const Recording *recording, const RecordedAct *act, Canvas *canvas, Point by) {
    for (int i = act->first; i < act->first + act->count; i++) {
        PenStep step = recording->steps.items[i];
        step.from_handle = point_add(step.from_handle, by);
        step.to_handle = point_add(step.to_handle, by);
        step.to = point_add(step.to, by);
        ARRAY_ADD(&canvas->pen, step);
    }
}

void recording_draw(const Recording *recording, Canvas *canvas, Point by) {
    canvas_paper(canvas);
    for (int i = 0; i < recording->acts.count; i++) {
        const RecordedAct *act = &recording->acts.items[i];
        const TextRun *run = &act->run;
        switch (act->kind) {
        case ACT_STROKE:
            take_lines(recording, act, canvas, by);
            canvas_stroke(canvas, act->line);
            break;
        case ACT_FILL:
            take_lines(recording, act, canvas, by);
            canvas_fill(canvas, act->shade);
            break;
        case ACT_TEXT:
            canvas_text_sized(canvas, run->kind, run->size, run->align, point_add(run->at, by), run->degrees,
                              run->text);
            break;
        case ACT_GROUP:
            canvas->backend->group(canvas, act->group, act->name);
            break;
        }
    }
}
