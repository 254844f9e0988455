#include "sheet/polygon.h"

#include "base/memory.h"

void polygon_finish(Polygon *polygon) {
    mem_free(polygon->items);
    *polygon = (Polygon){.items = NULL};
}

void polygon_from_path(const Path *path, double tolerance, Polygon *out) {
    out->count = 0;
    if (path->count == 0)
        return;
    Point *points;
    int count;
    path_flatten(path, tolerance, &points, &count);
    if (count > 1 && point_same(points[0], points[count - 1]))
        count--;
    for (int i = 0; i < count; i++)
        ARRAY_ADD(out, points[i]);
    mem_free(points);
}

// Even and odd crossings of the ray to the right of p.
bool polygon_contains(const Polygon *polygon, Point p) {
    bool inside = false;
    for (int i = 0, j = polygon->count - 1; i < polygon->count; j = i++) {
        Point a = polygon->items[j], b = polygon->items[i];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

// Centre of area: sum of (a + b) (a x b) over three times the sum of a x b, taken from the first corner.
Point polygon_centre(const Polygon *polygon) {
    if (polygon->count == 0)
        return point(0, 0);
    Point o = polygon->items[0], sum = {0, 0};
    double area = 0;
    for (int i = 1; i + 1 < polygon->count; i++) {
        Point a = point_sub(polygon->items[i], o), b = point_sub(polygon->items[i + 1], o);
        double cross = point_cross(a, b);
        sum = point_add(sum, point_scale(point_add(a, b), cross));
        area += cross;
    }
    return fabs(area) < 1e-9 ? o : point_add(o, point_scale(sum, 1 / (3 * area)));
}

Box polygon_box(const Polygon *polygon) {
    Box box = box_empty();
    for (int i = 0; i < polygon->count; i++)
        box = box_add(box, polygon->items[i]);
    return box;
}

// Clips the line to the box side by side (Liang and Barsky, 1984): what is left is the stretch of t from t0
// to t1.
static bool line_stretch(Line line, Box box, double *from, double *to) {
    if ((line.from.x < box.least.x && line.to.x < box.least.x) ||
        (line.from.x > box.most.x && line.to.x > box.most.x) ||
        (line.from.y < box.least.y && line.to.y < box.least.y) ||
        (line.from.y > box.most.y && line.to.y > box.most.y))
        return false;
    double t0 = 0, t1 = 1;
    double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y;
    const double p[4] = {-dx, dx, -dy, dy};
    const double q[4] = {line.from.x - box.least.x, box.most.x - line.from.x, line.from.y - box.least.y,
                         box.most.y - line.from.y};
    for (int i = 0; i < 4; i++) {
        if (p[i] == 0) {
            if (q[i] < 0)
                return false;
        } else if (p[i] < 0)
            t0 = fmax(t0, q[i] / p[i]);
        else
            t1 = fmin(t1, q[i] / p[i]);
        if (t0 > t1)
            return false;
    }
    *from = t0;
    *to = t1;
    return true;
}

bool line_touches_box(Line line, Box box) {
    double from, to;
    return line_stretch(line, box, &from, &to);
}

bool line_in_box(Line line, Box box, Line *out) {
    double from, to;
    if (!line_stretch(line, box, &from, &to))
        return false;
    *out = (Line){from > 0 ? point_mix(line.from, line.to, from) : line.from,
                  to < 1 ? point_mix(line.from, line.to, to) : line.to};
    return true;
}

static bool edges_touch_box(const Polygon *polygon, Box box) {
    for (int i = 0, j = polygon->count - 1; i < polygon->count; j = i++)
        if (line_touches_box((Line){polygon->items[j], polygon->items[i]}, box))
            return true;
    return false;
}

bool polygon_touches_box(const Polygon *polygon, Box box) {
    return edges_touch_box(polygon, box) || polygon_contains(polygon, point_mix(box.least, box.most, 0.5));
}

void lines_add_path(LineList *lines, const Path *path, double tolerance) {
    if (path->count == 0)
        return;
    Point *points;
    int count;
    path_flatten(path, tolerance, &points, &count);
    for (int i = 0; i + 1 < count; i++)
        ARRAY_ADD(lines, ((Line){points[i], points[i + 1]}));
    mem_free(points);
}

bool polygon_find_room(const Polygon *polygon, const LineList *lines, double width, double height, Point wish,
                       Point *centre) {
    enum { ACROSS = 15 };
    Box box = polygon_box(polygon);
    double free_x = box.most.x - box.least.x - width, free_y = box.most.y - box.least.y - height;
    if (polygon->count < 3 || free_x < 0 || free_y < 0)
        return false;
    bool found = false;
    double nearest = INFINITY;
    for (int i = 0; i <= ACROSS * ACROSS; i++) {
        Point at = i == 0
                       ? wish
                       : point(box.least.x + width / 2 + free_x * ((i - 1) % ACROSS) / (ACROSS - 1),
                               box.least.y + height / 2 + free_y * ((i - 1) / ACROSS) / (double)(ACROSS - 1));
        double away = point_distance(at, wish);
        if (away >= nearest)
            continue;
        Box room = {{at.x - width / 2, at.y - height / 2}, {at.x + width / 2, at.y + height / 2}};
        if (edges_touch_box(polygon, room) || !polygon_contains(polygon, at))
            continue;
        bool clear = true;
        for (int k = 0; k < lines->count && clear; k++)
            clear = !line_touches_box(lines->items[k], room);
        if (!clear)
            continue;
        nearest = away;
        *centre = at;
        found = true;
    }
    return found;
}
