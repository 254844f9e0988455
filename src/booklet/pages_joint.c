#include <assert.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/paging.h"

void page_place(Paging *p, const Column *column, int first, const char *anchor) {
    if (anchor == NULL || first >= column->rows->count)
        return;
    int ways[JOINT_WAYS_MAX] = {first}, count = 1;
    for (int i = 0; column->rows == &p->rows && i < p->joints.count; i++) {
        const Joint *joint = &p->joints.items[i];
        for (int k = 0; k < joint->count; k++)
            if (joint->ways[k] == first) {
                count = joint->count;
                memcpy(ways, joint->ways, sizeof ways);
            }
    }
    for (int w = 0; w < count; w++) {
        Row *row = &column->rows->items[ways[w]];
        for (int i = 0; i < ROW_PLACES_MAX; i++) {
            if (row->places[i] != NULL)
                continue;
            row->places[i] = anchor;
            break;
        }
    }
}

int joint_here(Paging *p) {
    const int last = p->rows.count - 1;
    if (p->closed >= 0 && p->joints.items[p->closed].ways[0] == p->rows.count) {
        p->joints.items[p->closed].count = 0;
        return p->closed;
    }
    if (last >= 0)
        p->rows.items[last].joint = p->joints.count;
    ARRAY_ADD(&p->joints, (Joint){.count = 0});
    return p->joints.count - 1;
}

int joint_new(Paging *p) {
    ARRAY_ADD(&p->joints, ((Joint){.count = 0}));
    return p->joints.count - 1;
}

void way_begins(Paging *p, int joint) {
    Joint *at = &p->joints.items[joint];
    assert(at->count < JOINT_WAYS_MAX);
    at->ways[at->count++] = p->rows.count;
}

void way_ends(Paging *p, int from, int to) {
    Joint *at = &p->joints.items[from];
    if (at->ways[at->count - 1] == p->rows.count)
        at->count--; // nothing was there to lay out
    else
        p->rows.items[p->rows.count - 1].joint = to;
}

void joint_close(Paging *p, int from, int to) {
    p->closed = p->joints.items[from].count > 0 ? to : from;
    p->joints.items[p->closed] = (Joint){.ways = {p->rows.count}, .count = 1};
}
