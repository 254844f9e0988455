#include "sheet/figures.h"

#include <math.h>

#include "base/memory.h"
#include "sheet/scales.h"

enum { SHARED_SCALES = 7 }; // the first, at which several drafts share a page

static void figure_item(const Spread *spread, int i, double scale, LayoutItem *item) {
    Box box = spread->draft_boxes[i];
    *item = (LayoutItem){
        .width = fmax((box.most.x - box.least.x) * scale + 2 * FIGURE_ROOM_MM,
                      figure_title_width(spread->pattern, spread->drafts[i], scale) + FIGURE_TITLE_GAP_MM),
        .height = (box.most.y - box.least.y) * scale + 2 * FIGURE_ROOM_MM + FIGURE_TITLE_MM};
}

static void draw_figure(const Spread *spread, Canvas *canvas, int i, double scale, Point at) {
    Box box = spread->draft_boxes[i];
    FigureOptions options = {.scale = scale, .units = spread->options->units};
    Point to = point(at.x + FIGURE_ROOM_MM,
                     at.y + FIGURE_TITLE_MM + FIGURE_ROOM_MM + (box.most.y - box.least.y) * scale);
    figure_draw(spread->pattern, spread->drafts[i], &options, canvas, box.least, to);
}

// The largest of some scales of the list at which the drafts from first to last (last left out) fit; 0 where
// none does.
static double lay_figures(const Spread *spread, int first, int last, int from_scale, int to_scale,
                          double width, double height, LayoutItem *items) {
    for (int s = from_scale; s < to_scale; s++) {
        for (int i = first; i < last; i++)
            figure_item(spread, i, scale_at(s), &items[i - first]);
        Layout layout = {.items = items, .count = last - first, .ordered = last - first};
        if (layout_into(&layout, width, height))
            return scale_at(s);
    }
    return 0;
}

int figures_draw(const Spread *spread, Canvas *canvas, double width, double height, PlanPage page,
                 void *context) {
    LayoutItem *items = mem_new(sizeof *items * (size_t)(spread->draft_count + 1));
    double wide = width - 2 * MARGIN_MM, tall = height - 2 * MARGIN_MM;
    int pages = 0;
    for (int first = 0, last; first < spread->draft_count; first = last) {
        double scale = 0;
        for (last = spread->draft_count; last > first + 1; last--) {
            scale = lay_figures(spread, first, last, 0, SHARED_SCALES, wide, tall, items);
            if (scale > 0)
                break;
        }
        if (last == first + 1)
            scale = lay_figures(spread, first, last, 0, SCALES, wide, tall, items);
        if (scale == 0)
            continue;
        page(context);
        pages++;
        for (int i = first; i < last; i++)
            draw_figure(spread, canvas, i, scale,
                        point_add(items[i - first].at, point(MARGIN_MM, MARGIN_MM)));
    }
    mem_free(items);
    return pages;
}

double figures_draw_block(const Spread *spread, Canvas *canvas, Point at, double width, bool small) {
    if (spread->draft_count == 0)
        return 0;
    LayoutItem *items = mem_new(sizeof *items * (size_t)spread->draft_count);
    double scale = lay_figures(spread, 0, spread->draft_count, small ? 1 : 0, SCALES, width,
                               60 + 90.0 * spread->draft_count, items);
    double deepest = 0;
    for (int i = 0; scale > 0 && i < spread->draft_count; i++) {
        if (canvas != NULL)
            draw_figure(spread, canvas, i, scale, point_add(items[i].at, at));
        deepest = fmax(deepest, items[i].at.y + items[i].height);
    }
    mem_free(items);
    return deepest;
}
