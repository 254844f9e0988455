#include "sheet/labels.h"

#include <math.h>

#include "base/memory.h"
#include "geometry/tolerance.h"

void labels_finish(Labels *labels) {
    mem_free(labels->taken.items);
    mem_free(labels->lines.items);
    mem_free(labels->points.items);
    cells_finish(&labels->taken_cells);
    cells_finish(&labels->line_cells);
    cells_finish(&labels->point_cells);
    *labels = (Labels){.frame = {{0, 0}, {0, 0}}};
}

void labels_take(Labels *labels, Box box) {
    ARRAY_ADD(&labels->taken, box);
    cells_add_box(&labels->taken_cells, box);
}

void labels_add_line(Labels *labels, Line line) {
    ARRAY_ADD(&labels->lines, line);
    cells_add_line(&labels->line_cells, line);
}

#define DOT_MM 0.7 // half the room a dot takes

void labels_add_point(Labels *labels, Point at) {
    ARRAY_ADD(&labels->points, at);
    cells_add_box(&labels->point_cells, (Box){at, at});
    labels_take(labels, (Box){{at.x - DOT_MM, at.y - DOT_MM}, {at.x + DOT_MM, at.y + DOT_MM}});
}

#define DESCENT 0.34 // of letters below the base line, as a part of the height of a capital

static bool line_near_box(const Line *line, Box box) {
    return fmax(line->from.x, line->to.x) >= box.least.x && fmin(line->from.x, line->to.x) <= box.most.x &&
           fmax(line->from.y, line->to.y) >= box.least.y && fmin(line->from.y, line->to.y) <= box.most.y;
}

// A turned text: a box round centre, half_width to both sides along the unit vector along.
typedef struct Turned {
    Point centre, along;
    double half_width, half_height;
} Turned;

// What a place for a text costs: another name underneath is worst, then the edge of the frame, then a line.
// What costs `most` or more is not reckoned to its end.
typedef struct Costing {
    const Labels *labels;
    Box box;            // of the text
    const Turned *text; // where it is turned, else NULL
    double cost, most;
} Costing;

static bool turned_touches_box(const Turned *text, Box box);
static bool turned_touches_line(const Turned *text, Line line);

static bool cost_of_name(void *context, int index) {
    Costing *costing = context;
    const Box taken = costing->labels->taken.items[index];
    if (costing->text ? turned_touches_box(costing->text, taken) : box_touch(taken, costing->box, 0))
        costing->cost += 20;
    return costing->cost < costing->most;
}

static bool cost_of_line(void *context, int index) {
    Costing *costing = context;
    const Line *line = &costing->labels->lines.items[index];
    if (line_near_box(line, costing->box) &&
        (costing->text ? turned_touches_line(costing->text, *line) : line_touches_box(*line, costing->box)))
        costing->cost += 3;
    return costing->cost < costing->most;
}

static double place_cost(Labels *labels, Box box, const Turned *text, double most) {
    Costing costing = {.labels = labels, .box = box, .text = text, .most = most};
    if (box.least.x < labels->frame.least.x || box.least.y < labels->frame.least.y ||
        box.most.x > labels->frame.most.x || box.most.y > labels->frame.most.y)
        costing.cost += 30;
    if (costing.cost < most && cells_visit(&labels->taken_cells, box, cost_of_name, &costing))
        cells_visit(&labels->line_cells, box, cost_of_line, &costing);
    return costing.cost;
}

#define ASTRAY 5.0 // worse than to cross a line

typedef struct Straying {
    const Labels *labels;
    Point at;
    Box box;
    double own; // from the box to its own dot
    bool is_dot, astray;
} Straying;

static bool find_dot(void *context, int index) {
    Straying *straying = context;
    straying->is_dot = point_same(straying->labels->points.items[index], straying->at);
    return !straying->is_dot;
}

static bool find_nearer(void *context, int index) {
    Straying *straying = context;
    const Point other = straying->labels->points.items[index];
    straying->astray = !point_same(other, straying->at) && box_distance(straying->box, other) < straying->own;
    return !straying->astray;
}

static Box box_round(Box box, double by) {
    return (Box){point_sub(box.least, point(by, by)), point_add(box.most, point(by, by))};
}

// A name nearer to another dot than to its own is read as that one's.
static double astray_cost(Labels *labels, Point at, Box box) {
    Straying straying = {.labels = labels, .at = at, .box = box, .own = box_distance(box, at)};
    cells_visit(&labels->point_cells, box_round((Box){at, at}, POINT_SAME_MM), find_dot, &straying);
    if (!straying.is_dot)
        return 0;
    cells_visit(&labels->point_cells, box_round(box, straying.own), find_nearer, &straying);
    return straying.astray ? ASTRAY : 0;
}

// Right above first, as a draughtsman letters, then round the point; the order breaks ties. Each of the three
// rings stands further off.
bool labels_place(Labels *labels, Point at, double gap, double width, double height, double worst,
                  Point *out) {
    static const double places[8][2] = {{1, -1}, {-1, -1}, {1, 1}, {-1, 1}, {1, 0}, {-1, 0}, {0, -1}, {0, 1}};
    double best = INFINITY, covers = INFINITY;
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
        const double cost = place_cost(labels, box, NULL, fmin(best, worst + ASTRAY)) + 0.1 * i;
        if (cost >= fmin(best, worst + ASTRAY)) // no place as bad is ever taken
            continue;
        const double astray = astray_cost(labels, at, box);
        if (cost + astray >= best)
            continue;
        best = cost + astray;
        covers = cost;
        chosen = box;
    }
    if (covers >= worst)
        return false;
    labels_take(labels, chosen);
    *out = point(chosen.least.x, chosen.least.y + height);
    return true;
}

static Box turned_box(const Turned *text) {
    const double x = fabs(text->along.x), y = fabs(text->along.y);
    const Point reach =
        point(x * text->half_width + y * text->half_height, y * text->half_width + x * text->half_height);
    return (Box){point_sub(text->centre, reach), point_add(text->centre, reach)};
}

// Two boxes share a point unless one of the four directions of their sides keeps them apart.
static bool turned_touches_box(const Turned *text, Box box) {
    const Point half = point_scale(point_sub(box.most, box.least), 0.5);
    const Point off = point_sub(point_mix(box.least, box.most, 0.5), text->centre);
    const Point across = point_left(text->along);
    return box_touch(turned_box(text), box, 0) &&
           fabs(point_dot(off, text->along)) <=
               text->half_width + half.x * fabs(text->along.x) + half.y * fabs(text->along.y) &&
           fabs(point_dot(off, across)) <=
               text->half_height + half.x * fabs(across.x) + half.y * fabs(across.y);
}

static bool turned_touches_line(const Turned *text, Line line) {
    const Point across = point_left(text->along), from = point_sub(line.from, text->centre),
                to = point_sub(line.to, text->centre);
    const Line own = {{point_dot(from, text->along), point_dot(from, across)},
                      {point_dot(to, text->along), point_dot(to, across)}};
    const Point half = point(text->half_width, text->half_height);
    return line_touches_box(own, (Box){point_scale(half, -1), half});
}

// As a row of small upright boxes.
static void take_turned(Labels *labels, const Turned *text) {
    const int parts = text->along.y == 0 ? 1 : (int)ceil(text->half_width / text->half_height);
    for (int i = 0; i < parts; i++) {
        Turned part = *text;
        part.half_width = text->half_width / parts;
        part.centre =
            point_add(text->centre, point_scale(text->along, text->half_width * ((2.0 * i + 1) / parts - 1)));
        labels_take(labels, turned_box(&part));
    }
}

bool labels_place_along(Labels *labels, Line line, double gap, double width, double height, double worst,
                        Point *out, double *degrees) {
    static const double places[] = {0.5, 0.38, 0.62, 0.25, 0.75};
    const double length = point_distance(line.from, line.to);
    if (length <= 0)
        return false;
    Point along = point_unit(point_sub(line.to, line.from));
    if (along.x < -1e-6 || (fabs(along.x) <= 1e-6 && along.y > 0))
        along = point_scale(along, -1);
    const Point up = point(along.y, -along.x); // on the paper, whose y runs down
    const double deep = height * (1 + DESCENT), below = height * DESCENT;
    double best = INFINITY;
    Turned chosen = {.half_width = width / 2, .half_height = deep / 2, .along = along};
    for (int i = 0; i < 10; i++) {
        const double off = i % 2 == 0 ? gap + deep / 2 : -gap - deep / 2;
        Turned text = chosen;
        text.centre = point_add(point_mix(line.from, line.to, places[i / 2]), point_scale(up, off));
        const double cost = place_cost(labels, turned_box(&text), &text, fmin(best, worst)) + 0.1 * i;
        if (cost >= fmin(best, worst))
            continue;
        best = cost;
        chosen = text;
    }
    if (best == INFINITY)
        return false;
    take_turned(labels, &chosen);
    *out = point_sub(chosen.centre, point_scale(up, deep / 2 - below));
    *degrees = DEGREES(atan2(-along.y, along.x));
    return true;
}
