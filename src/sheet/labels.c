#include "sheet/labels.h"

#include <math.h>

#include "base/memory.h"
#include "geometry/tolerance.h"

void labels_begin(Labels *labels, Box frame) {
    *labels = (Labels){.frame = frame};
    cells_begin(&labels->taken_cells, frame);
    cells_begin(&labels->line_cells, frame);
    cells_begin(&labels->point_cells, frame);
}

void labels_finish(Labels *labels) {
    mem_free(labels->taken.items);
    mem_free(labels->lines.items);
    mem_free(labels->points.items);
    mem_free(labels->gaps.items);
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

Box label_room_box(const LabelRoom *text) {
    const double x = fabs(text->along.x), y = fabs(text->along.y);
    const Point reach =
        point(x * text->half_width + y * text->half_height, y * text->half_width + x * text->half_height);
    return (Box){point_sub(text->centre, reach), point_add(text->centre, reach)};
}

// Two boxes share a point unless one of the four directions of their sides keeps them apart.
static bool room_touches_box(const LabelRoom *text, Box box) {
    const Point half = point_scale(point_sub(box.most, box.least), 0.5);
    const Point off = point_sub(point_mix(box.least, box.most, 0.5), text->centre);
    const Point across = point_left(text->along);
    return box_touch(label_room_box(text), box, 0) &&
           fabs(point_dot(off, text->along)) <=
               text->half_width + half.x * fabs(text->along.x) + half.y * fabs(text->along.y) &&
           fabs(point_dot(off, across)) <=
               text->half_height + half.x * fabs(across.x) + half.y * fabs(across.y);
}

static bool room_touches_line(const LabelRoom *text, Line line) {
    const Point across = point_left(text->along), from = point_sub(line.from, text->centre),
                to = point_sub(line.to, text->centre);
    const Line own = {{point_dot(from, text->along), point_dot(from, across)},
                      {point_dot(to, text->along), point_dot(to, across)}};
    const Point half = point(text->half_width, text->half_height);
    return line_touches_box(own, (Box){point_scale(half, -1), half});
}

// What a place for a text costs: another name underneath is worst, then the edge of the frame, then a line.
// What costs `most` or more is not reckoned to its end.
typedef struct Costing {
    const Labels *labels;
    Box box;               // of the text
    const LabelRoom *text; // where it is turned, else NULL
    double cost, most;
    double lines; // of those it crosses
} Costing;

#define LINES_WORST 9.0 // to cross more is no worse

static bool cost_of_name(void *context, int index) {
    Costing *costing = context;
    const Box taken = costing->labels->taken.items[index];
    if (costing->text ? room_touches_box(costing->text, taken) : box_touch(taken, costing->box, 0))
        costing->cost += 20;
    return costing->cost < costing->most;
}

static bool cost_of_line(void *context, int index) {
    Costing *costing = context;
    const Line *line = &costing->labels->lines.items[index];
    if (line_near_box(line, costing->box) &&
        (costing->text ? room_touches_line(costing->text, *line) : line_touches_box(*line, costing->box)))
        costing->lines += 3;
    return costing->cost + costing->lines < costing->most && costing->lines < LINES_WORST;
}

static double place_cost(Labels *labels, Box box, const LabelRoom *text, double most) {
    Costing costing = {.labels = labels, .box = box, .text = text, .most = most};
    if (box.least.x < labels->frame.least.x || box.least.y < labels->frame.least.y ||
        box.most.x > labels->frame.most.x || box.most.y > labels->frame.most.y)
        costing.cost += 30;
    if (costing.cost < most && cells_visit(&labels->taken_cells, box, cost_of_name, &costing))
        cells_visit(&labels->line_cells, box, cost_of_line, &costing);
    return costing.cost + costing.lines;
}

#define ASTRAY 2.95 // hardly better than to cross a line

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

// As a row of small upright boxes.
static void take_room(Labels *labels, const LabelRoom *text) {
    const int parts = text->along.y == 0 ? 1 : (int)ceil(text->half_width / text->half_height);
    for (int i = 0; i < parts; i++) {
        LabelRoom part = *text;
        part.half_width = text->half_width / parts;
        part.centre =
            point_add(text->centre, point_scale(text->along, text->half_width * ((2.0 * i + 1) / parts - 1)));
        labels_take(labels, label_room_box(&part));
    }
}

#define BESIDE_MM 0.6 // kept free before and behind the words, and 0.2 above and below
#define ABOVE_MM 0.2
#define ORDER_COST 0.06 // of each place behind the one before it: breaks ties

static double deep_of(const LabelAsk *ask) {
    return ask->height * (1 + DESCENT);
}

static LabelRoom room_of(const LabelAsk *ask, Point centre, Point along) {
    return (LabelRoom){.centre = centre,
                       .along = along,
                       .half_width = ask->width / 2 + BESIDE_MM,
                       .half_height = deep_of(ask) / 2 + ABOVE_MM};
}

static double room_cost(Labels *labels, const LabelRoom *room, double most) {
    return place_cost(labels, label_room_box(room), room->along.y != 0 ? room : NULL, most);
}

static bool room_meets_line(void *context, int index) {
    const Costing *costing = context;
    return !room_touches_line(costing->text, costing->labels->lines.items[index]);
}

// Takes it; where it lies across lines, those have a gap there.
static void choose_room(Labels *labels, const LabelRoom *room) {
    Costing costing = {.labels = labels, .text = room};
    take_room(labels, room);
    if (!cells_visit(&labels->line_cells, label_room_box(room), room_meets_line, &costing))
        ARRAY_ADD(&labels->gaps, *room);
}

enum { PLACES = 12 };

// Right above first, as a draughtsman letters, then round the point.
static Point round_place(const LabelAsk *ask, Point at, int place, double away) {
    static const double places[PLACES][2] = {{1, -1}, {-1, -1}, {1, 1},    {-1, 1},    {1, 0},   {-1, 0},
                                             {0, -1}, {0, 1},   {0.5, -1}, {-0.5, -1}, {0.5, 1}, {-0.5, 1}};
    const double x = places[place][0], y = places[place][1], width = ask->width / 2;
    if (fabs(x) == 1 && y != 0)
        away *= 0.75;
    return point(at.x + x * width + (fabs(x) == 1 ? x * away : 0), at.y + y * (away + deep_of(ask) / 2));
}

static Point upright_base(const LabelAsk *ask, const LabelRoom *room) {
    return point(room->centre.x - ask->width / 2, room->centre.y - deep_of(ask) / 2 + ask->height);
}

bool labels_place(Labels *labels, Point at, const LabelAsk *ask, Point *out) {
    double best = ask->worst;
    LabelRoom chosen = {.half_width = 0};
    for (int i = 0; i < PLACES * ask->rings && ORDER_COST * i < best; i++) {
        const LabelRoom room =
            room_of(ask, round_place(ask, at, i % PLACES, ask->gap + 2.2 * (i / PLACES)), point(1, 0));
        double cost = room_cost(labels, &room, best) + ORDER_COST * i;
        if (cost < best)
            cost += astray_cost(labels, at, label_room_box(&room));
        if (cost >= best)
            continue;
        best = cost;
        chosen = room;
    }
    if (chosen.half_width == 0)
        return false;
    choose_room(labels, &chosen);
    *out = upright_base(ask, &chosen);
    return true;
}

#define CROSSED_LINE 1.5

typedef struct Crossing {
    const Labels *labels;
    Line line;
    double cost;
} Crossing;

static bool cross_name(void *context, int index) {
    Crossing *crossing = context;
    if (line_touches_box(crossing->line, crossing->labels->taken.items[index]))
        crossing->cost += 20;
    return true;
}

static bool lines_meet(Line a, Line b) {
    const Point along = point_sub(a.to, a.from), other = point_sub(b.to, b.from);
    if (!line_near_box(&b, box_add((Box){a.from, a.from}, a.to)))
        return false; // on one line with it, and apart
    return point_cross(along, point_sub(b.from, a.from)) * point_cross(along, point_sub(b.to, a.from)) <= 0 &&
           point_cross(other, point_sub(a.from, b.from)) * point_cross(other, point_sub(a.to, b.from)) <= 0;
}

static bool cross_line(void *context, int index) {
    Crossing *crossing = context;
    if (lines_meet(crossing->line, crossing->labels->lines.items[index]))
        crossing->cost += CROSSED_LINE;
    return true;
}

static bool in_box(Box box, Point at) {
    return at.x >= box.least.x && at.x <= box.most.x && at.y >= box.least.y && at.y <= box.most.y;
}

double labels_line_cost(Labels *labels, Line line) {
    Crossing crossing = {.labels = labels, .line = line};
    if (!in_box(labels->frame, line.from) || !in_box(labels->frame, line.to))
        crossing.cost += 30;
    cells_visit_line(&labels->taken_cells, line, cross_name, &crossing);
    cells_visit_line(&labels->line_cells, line, cross_line, &crossing);
    return crossing.cost;
}

#define LEADER_OFF_MM 1.1 // a leader begins so far from its point, outside the room of a dot

static Line leader_to(Point at, const LabelRoom *room) {
    const Box box = label_room_box(room);
    const Point end = point(fmin(fmax(at.x, box.least.x + BESIDE_MM), box.most.x - BESIDE_MM),
                            fmin(fmax(at.y, box.least.y), box.most.y));
    const Point along = point_unit(point_sub(end, at));
    return (Line){point_add(at, point_scale(along, LEADER_OFF_MM)), point_sub(end, point_scale(along, 0.2))};
}

typedef struct Crossed {
    Labels *labels;
    Line line;
} Crossed;

static bool part_for_name(void *context, int index) {
    const Crossed *crossed = context;
    const Box box = crossed->labels->taken.items[index];
    const Point half = point_scale(point_sub(box.most, box.least), 0.5);
    if (half.x > DOT_MM + POINT_SAME_MM && line_touches_box(crossed->line, box))
        ARRAY_ADD(&crossed->labels->gaps,
                  ((LabelRoom){point_mix(box.least, box.most, 0.5), {1, 0}, half.x, half.y}));
    return true;
}

// It has a gap where it must cross names.
static void take_leader(Labels *labels, Line leader) {
    Crossed crossed = {labels, leader};
    cells_visit(&labels->taken_cells, box_add((Box){leader.from, leader.from}, leader.to), part_for_name,
                &crossed);
    labels_add_line(labels, leader);
}

bool labels_place_led(Labels *labels, Point at, const LabelAsk *ask, Point *out, Line *leader) {
    double best = ask->worst;
    LabelRoom chosen = {.half_width = 0};
    for (int i = 0; i < PLACES && ORDER_COST * i < best; i++) {
        const LabelRoom room = room_of(ask, round_place(ask, at, i, ask->gap), point(1, 0));
        double cost = room_cost(labels, &room, fmin(best, LABELS_CROWDED)) + ORDER_COST * i;
        if (cost >= fmin(best, LABELS_CROWDED))
            continue;
        cost += labels_line_cost(labels, leader_to(at, &room));
        if (cost >= best)
            continue;
        best = cost;
        chosen = room;
    }
    if (chosen.half_width == 0)
        return false;
    *leader = leader_to(at, &chosen);
    take_leader(labels, *leader);
    choose_room(labels, &chosen);
    *out = upright_base(ask, &chosen);
    return true;
}

bool labels_place_along(Labels *labels, Line line, const LabelAsk *ask, Point *out, double *degrees) {
    static const double places[] = {0.5, 0.38, 0.62, 0.27, 0.73, 0.16, 0.84};
    enum { ALONG = sizeof places / sizeof *places };
    const double length = point_distance(line.from, line.to);
    if (length <= 0)
        return false;
    Point along = point_unit(point_sub(line.to, line.from));
    if (along.x < -1e-6 || (fabs(along.x) <= 1e-6 && along.y > 0))
        along = point_scale(along, -1);
    const Point up = point(along.y, -along.x); // on the paper, whose y runs down
    const double deep = deep_of(ask), below = ask->height * DESCENT;
    double best = ask->worst;
    LabelRoom chosen = {.half_width = 0};
    for (int i = 0; i < 2 * ALONG && ORDER_COST * i < best; i++) {
        const double off = (i % 2 == 0 ? 1 : -1) * (ask->gap + deep / 2);
        const Point middle = point_mix(line.from, line.to, places[i / 2]);
        const LabelRoom room = room_of(ask, point_add(middle, point_scale(up, off)), along);
        const double cost = room_cost(labels, &room, best) + ORDER_COST * i;
        if (cost >= best)
            continue;
        best = cost;
        chosen = room;
    }
    if (chosen.half_width == 0)
        return false;
    choose_room(labels, &chosen);
    *out = point_sub(chosen.centre, point_scale(up, deep / 2 - below));
    *degrees = DEGREES(atan2(-along.y, along.x));
    return true;
}

#define ON_LINE_MM 0.3

static bool misses_box(void *context, int index) {
    const Costing *costing = context;
    return !line_touches_box(costing->labels->lines.items[index], costing->box);
}

bool labels_on_line(Labels *labels, Point at) {
    Costing costing = {.labels = labels, .box = box_round((Box){at, at}, ON_LINE_MM)};
    return !cells_visit(&labels->line_cells, costing.box, misses_box, &costing);
}
