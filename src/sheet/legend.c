#include "sheet/legend.h"

#define SAMPLE_MM 24.0
#define ROW_MM 5.2

static void find_used(const Pattern *pattern, bool used[LINE_KIND_COUNT]) {
    static const LineKind inner[] = {[INNER_FOLD] = LINE_FOLD,
                                     [INNER_ROLL] = LINE_ROLL,
                                     [INNER_CENTRE] = LINE_CENTRE,
                                     [INNER_LINE] = LINE_INNER,
                                     [INNER_MATCH] = LINE_MATCH};
    for (int i = 0; i < pattern->pieces.count; i++) {
        const Piece *piece = &pattern->pieces.items[i];
        used[LINE_CUT] = true;
        used[LINE_GRAIN] |= piece->grain != GRAIN_NONE;
        used[LINE_NOTCH] |= piece->notches.count > 0;
        used[LINE_DOT] |= piece->dots.count > 0;
        for (int k = 0; k < piece->edges.count; k++) {
            used[LINE_FOLD_EDGE] |= piece->edges.items[k].fold;
            used[LINE_STITCH] |= !piece->edges.items[k].fold && piece->edges.items[k].allowance > 0;
        }
        for (int k = 0; k < piece->lines.count; k++)
            used[inner[piece->lines.items[k].kind]] = true;
    }
}

static void draw_sample(Canvas *canvas, LineKind kind, Point from) {
    Point to = point_add(from, point(SAMPLE_MM, 0));
    if (kind == LINE_GRAIN) {
        canvas_draw_line(canvas, kind, point_add(from, point(3, 0)), point_sub(to, point(3, 0)));
        canvas_draw_arrow_head(canvas, SHADE_INK, from, to, 4);
        canvas_draw_arrow_head(canvas, SHADE_INK, to, from, 4);
        return;
    }
    if (kind == LINE_NOTCH) {
        for (int i = 0; i < 3; i++) {
            Point at = point_add(from, point(i == 0 ? 4 : i == 1 ? 14 : 20, 0));
            canvas_draw_line(canvas, LINE_NOTCH, point_sub(at, point(0, 0.2)), point_add(at, point(0, 2)));
            canvas_move(canvas, point(at.x - 1.4, at.y - 0.2));
            canvas_line_to(canvas, point(at.x, at.y - 2));
            canvas_line_to(canvas, point(at.x + 1.4, at.y - 0.2));
            canvas_close(canvas);
            canvas_fill(canvas, SHADE_INK);
        }
        canvas_draw_line(canvas, LINE_CUT, point_sub(from, point(0, 0.2)), point_sub(to, point(0, 0.2)));
        return;
    }
    if (kind == LINE_DOT) {
        for (int i = 0; i < 2; i++) {
            Point at = point_add(from, point(i == 0 ? 6 : 17, 0));
            double reach = i == 0 ? 2.0 : 2.4;
            canvas_circle(canvas, at, i == 0 ? 2.0 : 1.4);
            canvas_move(canvas, point(at.x - reach, at.y));
            canvas_line_to(canvas, point(at.x + reach, at.y));
            canvas_move(canvas, point(at.x, at.y - reach));
            canvas_line_to(canvas, point(at.x, at.y + reach));
        }
        canvas_stroke(canvas, LINE_DOT);
        return;
    }
    canvas_draw_line(canvas, kind, from, to);
}

void legend_draw(Flow *flow, const Spread *spread) {
    bool used[LINE_KIND_COUNT] = {false};
    if (spread->first_draft_item > 0)
        find_used(spread->pattern, used);
    bool any = false;
    for (int kind = 0; kind < LINE_KIND_COUNT; kind++) {
        const LineStyle *style = line_style((LineKind)kind);
        if (!used[kind] || style->words == NULL)
            continue;
        if (!any)
            flow_head(flow, "Lines");
        any = true;
        flow_room(flow, ROW_MM);
        Point at = point(flow_x(flow), flow->y + ROW_MM / 2);
        draw_sample(flow->canvas, (LineKind)kind, at);
        const char *words = kind == LINE_NOTCH ? "notch: one front, two back" : style->words;
        canvas_text(flow->canvas, TEXT_SMALL, ALIGN_LEFT, point_add(at, point(SAMPLE_MM + 3, 1)), 0, words);
        flow->y += ROW_MM;
    }
}
