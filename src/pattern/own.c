#include "pattern/own.h"

void own_path(Arena *arena, const Path *path, Path *out) {
    const size_t size = sizeof(Segment) * (size_t)path->count;
    Segment *items = arena_take(arena, size);
    if (path->count)
        memcpy(items, path->items, size);
    *out = (Path){.items = items, .count = path->count, .capacity = 0};
}

void own_reversed(Arena *arena, const Path *path, Path *out) {
    Segment *items = arena_take(arena, sizeof(Segment) * (size_t)path->count);
    for (int i = 0; i < path->count; i++)
        items[i] = segment_reverse(&path->items[path->count - 1 - i]);
    *out = (Path){.items = items, .count = path->count, .capacity = 0};
}

void own_transformed(Arena *arena, const Path *path, Affine m, Path *out) {
    Segment *items = arena_take(arena, sizeof(Segment) * (size_t)path->count);
    for (int i = 0; i < path->count; i++)
        items[i] = segment_transform(&path->items[i], m);
    *out = (Path){.items = items, .count = path->count, .capacity = 0};
}

static void move_ends(Segment *s, Point first, Point last) {
    if (s->kind == SEGMENT_LINE) {
        *s = segment_line(first, last);
        return;
    }
    s->p1 = point_add(s->p1, point_sub(first, s->p0));
    s->p2 = point_add(s->p2, point_sub(last, s->p3));
    s->p0 = first;
    s->p3 = last;
}

void own_path_ends(Path *path, Point first, Point last) {
    Segment *items = path->items;
    const int end = path->count - 1;
    if (end == 0) {
        move_ends(&items[0], first, last);
        return;
    }
    move_ends(&items[0], first, items[0].p3);
    move_ends(&items[end], items[end].p0, last);
}
