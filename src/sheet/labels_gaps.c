// The gaps of lines where names lie across them.
#include "base/memory.h"
#include "sheet/labels.h"

bool labels_gap_in(const Labels *labels, Box box) {
    for (int i = 0; i < labels->gaps.count; i++)
        if (box_touch(label_room_box(&labels->gaps.items[i]), box, 0))
            return true;
    return false;
}

// The part of the line in a gap, as parts of its length; false where there is none.
static bool gap_part(const LabelRoom *gap, Line line, double *from, double *to) {
    const Point across = point_left(gap->along), a = point_sub(line.from, gap->centre),
                b = point_sub(line.to, gap->centre);
    const Line own = {{point_dot(a, gap->along), point_dot(a, across)},
                      {point_dot(b, gap->along), point_dot(b, across)}};
    const Point half = point(gap->half_width, gap->half_height);
    Line in;
    if (!line_in_box(own, (Box){point_scale(half, -1), half}, &in))
        return false;
    const double length = point_distance(own.from, own.to);
    if (length <= 0)
        return false;
    *from = point_distance(own.from, in.from) / length;
    *to = point_distance(own.from, in.to) / length;
    return *to > *from;
}

void labels_outside_gaps(const Labels *labels, Line line, LineList *out) {
    const int first = out->count;
    ARRAY_ADD(out, line);
    for (int i = 0; i < labels->gaps.count; i++)
        for (int k = out->count - 1; k >= first; k--) {
            const Line whole = out->items[k];
            double from, to;
            if (!gap_part(&labels->gaps.items[i], whole, &from, &to))
                continue;
            if (from <= 0) { // nothing is left where it lies in the gap as a whole
                out->items[k] =
                    to < 1 ? (Line){point_mix(whole.from, whole.to, to), whole.to} : out->items[--out->count];
                continue;
            }
            out->items[k].to = point_mix(whole.from, whole.to, from);
            if (to < 1)
                ARRAY_ADD(out, ((Line){point_mix(whole.from, whole.to, to), whole.to}));
        }
}
