#include "sheet/labels.h"

#include <math.h>

#include "base/memory.h"

void labels_finish(Labels *labels) {
    mem_free(labels->taken.items);
    mem_free(labels->lines.items);
    *labels = (Labels){.frame = {{0, 0}, {0, 0}}};
}

void labels_take(Labels *labels, Box box) {
    ARRAY_ADD(&labels->taken, box);
}

void labels_add_line(Labels *labels, Line line) {
    ARRAY_ADD(&labels->lines, line);
}

#define DESCENT 0.34 // of letters below the base line, as a part of the height of a capital

static bool line_near_box(const Line *line, Box box) {
    return fmax(line->from.x, line->to.x) >= box.least.x && fmin(line->from.x, line->to.x) <= box.most.x &&
           fmax(line->from.y, line->to.y) >= box.least.y && fmin(line->from.y, line->to.y) <= box.most.y;
}

// Another name underneath is worst, then the edge of the frame, then a line.
double labels_cost(const Labels *labels, Box box) {
    double cost = 0;
    if (box.least.x < labels->frame.least.x || box.least.y < labels->frame.least.y ||
        box.most.x > labels->frame.most.x || box.most.y > labels->frame.most.y)
        cost += 30;
    for (int i = 0; i < labels->taken.count; i++)
        if (box_touch(labels->taken.items[i], box, 0))
            cost += 20;
    for (int i = 0; i < labels->lines.count; i++)
        if (line_near_box(&labels->lines.items[i], box) && line_touches_box(labels->lines.items[i], box))
            cost += 3;
    return cost;
}

// Right above first, as a draughtsman letters, then round the point; the order breaks ties. Each of the three
// rings stands further off.
bool labels_place(Labels *labels, Point at, double gap, double width, double height, double worst,
                  Point *out) {
    static const double places[8][2] = {{1, -1}, {-1, -1}, {1, 1}, {-1, 1}, {1, 0}, {-1, 0}, {0, -1}, {0, 1}};
    double best = INFINITY;
    Box chosen = {at, at};
    for (int i = 0; i < 24 && 0.1 * i < best; i++) {
        const double *place = places[i % 8];
        double away = gap + 2.2 * (i / 8);
        if (place[0] != 0 && place[1] != 0)
            away *= 0.75;
        double left = place[0] > 0 ? at.x + away : place[0] < 0 ? at.x - away - width : at.x - width / 2;
        double deep = height * (1 + DESCENT);
        double top = place[1] > 0 ? at.y + away : place[1] < 0 ? at.y - away - deep : at.y - height / 2;
        Box box = {{left, top}, {left + width, top + deep}};
        double cost = labels_cost(labels, box) + 0.1 * i;
        if (cost >= best)
            continue;
        best = cost;
        chosen = box;
    }
    if (best >= worst)
        return false;
    labels_take(labels, chosen);
    *out = point(chosen.least.x, chosen.least.y + height);
    return true;
}
