// Words and small drawings that flow down the columns of a page, on to the next column, on to the next page.
#ifndef REBATO_SHEET_FLOW_H
#define REBATO_SHEET_FLOW_H

#include "sheet/canvas.h"

typedef struct Column {
    double x, width, top, bottom;
} Column;

// What a page of the flow looks like: gives its columns (at most 3), in the order they are filled.
typedef int (*FlowPage)(void *context, int page, Column columns[3]);

typedef struct Flow {
    Canvas *canvas;
    FlowPage begin_page; // called for every page but the first
    void *context;
    Column columns[3];
    int column_count, column;
    int page;
    double y; // where the next row starts
} Flow;

void flow_begin(Flow *flow, Canvas *canvas, FlowPage begin_page, void *context);

static inline double flow_x(const Flow *flow) {
    return flow->columns[flow->column].x;
}
static inline double flow_width(const Flow *flow) {
    return flow->columns[flow->column].width;
}

// Makes sure that height fits below; goes on to the next column or page otherwise.
void flow_room(Flow *flow, double height);

void flow_space(Flow *flow, double height); // dropped at the top of a column
void flow_head(Flow *flow, const char *text);
void flow_text(Flow *flow, TextKind kind, double indent, const char *text); // broken into lines

// One row of two texts, left and right; two rows where they do not fit beside each other.
void flow_pair(Flow *flow, TextKind kind, const char *left, const char *right);

#endif
