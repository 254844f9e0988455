#include "sheet/flow.h"

#include "sheet/paragraph.h"

void flow_begin(Flow *flow, Canvas *canvas, FlowPage begin_page, void *context) {
    *flow = (Flow){.canvas = canvas, .begin_page = begin_page, .context = context};
    flow->column_count = begin_page(context, 0, flow->columns);
    flow->y = flow->columns[0].top;
}

void flow_room(Flow *flow, double height) {
    // What is higher than a whole empty column is drawn there all the same.
    while (flow->y + height > flow->columns[flow->column].bottom) {
        if (++flow->column < flow->column_count) {
            flow->y = flow->columns[flow->column].top;
            continue;
        }
        if (flow->y <= flow->columns[flow->column_count - 1].top && flow->page > 0) {
            flow->column--;
            return;
        }
        flow->page++;
        flow->column_count = flow->begin_page(flow->context, flow->page, flow->columns);
        flow->column = 0;
        flow->y = flow->columns[0].top;
        if (height > flow->columns[0].bottom - flow->columns[0].top)
            return;
    }
}

void flow_space(Flow *flow, double height) {
    if (flow->y > flow->columns[flow->column].top)
        flow->y += height;
}

void flow_head(Flow *flow, const char *text) {
    flow_space(flow, 3.5);
    flow_room(flow, 15); // never a heading alone at the foot of a column
    double x = flow_x(flow), step = paragraph_step(TEXT_HEAD);
    canvas_text(flow->canvas, TEXT_HEAD, ALIGN_LEFT, point(x, flow->y + step * 0.8), 0, text);
    flow->y += step + 0.6;
    canvas_draw_line(flow->canvas, LINE_RULE, point(x, flow->y), point(x + flow_width(flow), flow->y));
    flow->y += 1.4;
}

void flow_text(Flow *flow, TextKind kind, double indent, const char *text) {
    if (text == NULL)
        return;
    Buffer line;
    buffer_init(&line);
    double step = paragraph_step(kind);
    while (paragraph_next(&text, kind, flow_width(flow) - indent, &line)) {
        flow_room(flow, step);
        canvas_text(flow->canvas, kind, ALIGN_LEFT, point(flow_x(flow) + indent, flow->y + step * 0.78), 0,
                    line.data);
        flow->y += step;
    }
    buffer_finish(&line);
}

void flow_pair(Flow *flow, TextKind kind, const char *left, const char *right) {
    double step = paragraph_step(kind), room = canvas_text_width(kind, right) + 3;
    flow_room(flow, step);
    if (room > flow_width(flow) * 0.6 || canvas_text_width(kind, left) + room > flow_width(flow)) {
        flow_text(flow, kind, 0, left);
        flow_text(flow, kind, 4, right);
        return;
    }
    double y = flow->y + step * 0.78, x = flow_x(flow);
    canvas_text(flow->canvas, kind, ALIGN_LEFT, point(x, y), 0, left);
    canvas_text(flow->canvas, kind, ALIGN_RIGHT, point(x + flow_width(flow), y), 0, right);
    flow->y += step;
}
