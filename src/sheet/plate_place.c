#include <math.h>

#include "base/memory.h"
#include "sheet/plate.h"
#include "sheet/plate_words.h"

// Where the label goes. At full size pattern/label.h decides its lines, its size, and that there is room for
// it, as the proof says. Where something is drawn at the place it names (the grain line, lines inside, a
// fold, dots, a join between pages), the block as it is moves to the nearest free place. What cannot be had
// is given up in this order: the direction it reads in, a grain line at its full length (never under 100 mm:
// common practice, no source), its size, standing clear of joins, a row for each line; and where nothing
// helps, it stands where it was put.
//
// Under full size letters do not shrink with the piece: fewer words, placed by the same rules. There the
// grain line may also stand aside of its place, so that it stays long beside the words.

#define GRAIN_CLEAR_MM 3.6 // for the words on the grain line, mm of paper
#define GRAIN_SHORTEST_MM 100.0
#define GRAIN_SHORTER 0.6     // of the line given
#define GRAIN_HALF_PIECE 0.75 // of the line given: half the piece, of which the line has seven tenths or more
#define GRAIN_LEAST 0.4       // the same in drawings under full size, which nothing is cut by
#define GRAIN_OF_PIECE 0.8    // of the piece, which a line has at its full length
#define GRAIN_ASIDE_LEAST 0.85 // of the length at its own place, where it was moved aside
#define GRAIN_OFF_FOLD_MM 3.0  // from the bracket of a fold, where it was moved aside, mm of paper
#define FOLD_WORDS_MM 5.0      // kept clear on both sides of the bracket of a fold
#define ROW_LINES_MAX 3        // lines joined into one row
#define LARGEST_UNDER_FULL 0.8 // size of the words in drawings under full size
#define TINY 0.42              // the least size there: names stay 2 mm tall
#define SHORT_BELOW 0.5        // scales under which only the name and the cutting count are tried

// The seam line and the lines to keep clear of, turned so that the label is upright in it.
typedef struct Room {
    double turn;
    Polygon polygon;
    LineList lines; // inside the piece
    LineList joins; // the same, and joins between pages
} Room;

enum { TURNS = 2 }; // upright, and reading upwards
enum { ASIDES = 7, GRAINS_MAX = 3 * ASIDES };

typedef struct Placing {
    Plate *plate;
    Room rooms[TURNS];
    int first_turn;          // the one to try first
    Point wish;              // the nearer to it, the better
    Line grains[GRAINS_MAX]; // the grain line, and others that leave more room, the best first
    int grain_count;
    int long_grains; // the first so many are long enough to be preferred to larger words
} Placing;

static Line line_turned(Line line, Affine m) {
    return (Line){affine_point(m, line.from), affine_point(m, line.to)};
}

static Line line_moved(Line line, Point by) {
    return (Line){point_add(line.from, by), point_add(line.to, by)};
}

static void add_fold(Room *room, const Plate *plate, const Edge *edge, Affine back) {
    Point bracket[4];
    if (!plate_fold_bracket(plate, edge, bracket))
        return;
    for (int k = 0; k < 3; k++)
        ARRAY_ADD(&room->lines, line_turned((Line){bracket[k], bracket[k + 1]}, back));
    Line long_side = {bracket[1], bracket[2]};
    Point across = point_scale(point_unit(point_sub(bracket[1], bracket[0])),
                               FOLD_WORDS_MM * plate->fine / plate->scale);
    ARRAY_ADD(&room->lines, line_turned(line_moved(long_side, across), back));
    ARRAY_ADD(&room->lines, line_turned(line_moved(long_side, point_scale(across, -1)), back));
}

static void room_init(Room *room, const Plate *plate, const LineList *joins, double turn) {
    Affine back = affine_swing(point(0, 0), -turn);
    *room = (Room){.turn = turn};
    for (int i = 0; i < plate->inside.count; i++)
        ARRAY_ADD(&room->polygon, affine_point(back, plate->inside.items[i]));
    for (int i = 0; i < plate->inner.count; i++)
        ARRAY_ADD(&room->lines, line_turned(plate->inner.items[i], back));
    for (int i = 0; i < plate->piece->edges.count; i++)
        add_fold(room, plate, &plate->piece->edges.items[i], back);
    for (int i = 0; i < plate->piece->dots.count; i++) {
        Point at = affine_point(back, plate->piece->dots.items[i].at);
        double reach = 3 * plate->fine / plate->scale;
        ARRAY_ADD(&room->lines, ((Line){{at.x - reach, at.y}, {at.x + reach, at.y}}));
        ARRAY_ADD(&room->lines, ((Line){{at.x, at.y - reach}, {at.x, at.y + reach}}));
    }
    for (int i = 0; i < room->lines.count; i++)
        ARRAY_ADD(&room->joins, room->lines.items[i]);
    for (int i = 0; i < joins->count; i++)
        ARRAY_ADD(&room->joins, line_turned(joins->items[i], back));
}

static void room_finish(Room *room) {
    polygon_finish(&room->polygon);
    mem_free(room->lines.items);
    mem_free(room->joins.items);
}

// The grain line and a parallel on both sides of it, added to the end of a list.
static void add_grain(LineList *lines, const Plate *plate, Line grain, Affine back) {
    if (!plate->has_grain)
        return;
    Point side = point_scale(point_left(point_unit(point_sub(grain.to, grain.from))),
                             GRAIN_CLEAR_MM * plate->fine / plate->scale);
    for (int k = -1; k <= 1; k++)
        ARRAY_ADD(lines, line_turned(line_moved(grain, point_scale(side, k)), back));
}

static bool try_place(Placing *placing, int turn, double size, Line grain, bool keep_off_joins) {
    Plate *plate = placing->plate;
    Room *room = &placing->rooms[turn];
    LineList *lines = keep_off_joins ? &room->joins : &room->lines;
    Affine back = affine_swing(point(0, 0), -room->turn);
    double k = size / plate->scale;
    int count = lines->count;
    add_grain(lines, plate, grain, back);
    Point at;
    bool found = polygon_find_room(&room->polygon, lines, plate->label_width * k, plate->label_height * k,
                                   affine_point(back, placing->wish), &at);
    lines->count = count;
    if (!found)
        return false;
    plate->grain = grain;
    plate->label_at = affine_point(affine_swing(point(0, 0), room->turn), at);
    plate->label_turn = room->turn;
    plate->label_size = size;
    return true;
}

static bool try_grains(Placing *placing, double size, int from, int to, bool keep_off_joins) {
    for (int i = from; i < to; i++)
        for (int turn = 0; turn < TURNS; turn++)
            if (try_place(placing, (placing->first_turn + turn) % TURNS, size, placing->grains[i],
                          keep_off_joins))
                return true;
    return false;
}

static bool try_all(Placing *placing, double largest, double smallest) {
    const double sizes[] = {largest, 0.8, LABEL_SMALLEST, TINY};
    const int bounds[] = {0, placing->long_grains, placing->grain_count};
    for (int joins = 0; joins < 2; joins++)
        for (int pass = 0; pass < 2; pass++)
            for (int s = 0; s < 4; s++) {
                if (s > 0 && (sizes[s] >= largest || sizes[s] < smallest - 1e-9))
                    continue;
                if (try_grains(placing, sizes[s], bounds[pass], bounds[pass + 1], joins == 0))
                    return true;
            }
    return false;
}

static void place_at_full_size(Placing *placing) {
    Plate *plate = placing->plate;
    LabelPlace place;
    pattern_label_lines(plate->pattern, plate->index, &plate->label);
    pattern_label_place(plate->pattern, plate->index, &plate->label, &place);
    const Label proven = plate->label;
    plate->label_at = place.centre;
    plate->label_turn = place.turned ? 90 : 0;
    plate->label_size = place.scale;
    plate->label_width = place.width;
    plate->label_height = place.height;
    placing->first_turn = place.turned ? 1 : 0;
    placing->wish = place.centre;
    if (try_all(placing, place.scale, LABEL_SMALLEST))
        return;
    for (int each = 2; each <= ROW_LINES_MAX; each++) {
        plate_join_label(plate, each);
        plate_measure_label(plate);
        if (try_all(placing, 1, LABEL_SMALLEST))
            return;
    }
    plate->label = proven;
    plate->label_width = place.width;
    plate->label_height = place.height;
}

static bool try_forms(Placing *placing, ShortLabel last, double largest, double smallest) {
    for (int form = 0; form <= (int)last; form++) {
        plate_write_short_label(placing->plate, (ShortLabel)form);
        plate_measure_label(placing->plate);
        if (try_all(placing, largest, smallest))
            return true;
    }
    return false;
}

static void place_under_full_size(Placing *placing) {
    Plate *plate = placing->plate;
    placing->wish = polygon_centre(&plate->inside);
    if (plate->scale >= SHORT_BELOW) {
        pattern_label_lines(plate->pattern, plate->index, &plate->label);
        plate_measure_label(plate);
        if (try_all(placing, LARGEST_UNDER_FULL, LABEL_SMALLEST))
            return;
    }
    const int grains = placing->grain_count;
    placing->grain_count = placing->long_grains; // name and count beside a long arrow before a short one
    if (try_forms(placing, SHORT_CUT_NARROW, LARGEST_UNDER_FULL, TINY))
        return;
    placing->grain_count = grains;
    if (try_forms(placing, SHORT_CUT_NARROW, LARGEST_UNDER_FULL, TINY) ||
        try_forms(placing, SHORT_BROKEN, LARGEST_UNDER_FULL, LABEL_SMALLEST) ||
        try_forms(placing, SHORT_BROKEN, TINY, TINY))
        return;
    Box box = polygon_box(&plate->inside); // no room at all: over the lines, as small as can be read
    plate->label_at = placing->wish;
    plate->label_turn = box.most.y - box.least.y > box.most.x - box.least.x ? 90 : 0;
    plate->label_size = TINY;
}

// The longest stretch inside the polygon of the endless line through a point; along is a unit vector. False
// where there is none.
static bool longest_inside(const Polygon *inside, Point through, Point along, Line *out) {
    enum { CROSSINGS_MAX = 16 };
    double places[CROSSINGS_MAX];
    int count = 0;
    for (int i = 0; i < inside->count; i++) {
        const Point p = point_sub(inside->items[i], through),
                    q = point_sub(inside->items[(i + 1) % inside->count], through);
        const double from = point_dot(p, point_left(along)), to = point_dot(q, point_left(along));
        if ((from < 0) == (to < 0))
            continue;
        if (count == CROSSINGS_MAX)
            return false;
        const double place = point_dot(point_mix(p, q, from / (from - to)), along);
        int k = count++;
        for (; k > 0 && places[k - 1] > place; k--)
            places[k] = places[k - 1];
        places[k] = place;
    }
    int best = -1;
    for (int k = 0; k + 1 < count; k += 2)
        if (best < 0 || places[k + 1] - places[k] > places[best + 1] - places[best])
            best = k;
    if (best < 0)
        return false;
    *out = (Line){point_add(through, point_scale(along, places[best])),
                  point_add(through, point_scale(along, places[best + 1]))};
    return true;
}

static void add_part(Placing *placing, double part) {
    const Line full = placing->plate->grain;
    placing->grains[placing->grain_count++] = (Line){point_mix(full.to, full.from, part), full.to};
}

// Nine places along a line are off the strip beside a fold where its bracket and words stand.
static bool off_folds(const Plate *plate, Line line) {
    const double mm = plate->fine / plate->scale;
    for (int i = 0; i < plate->piece->edges.count; i++) {
        Point bracket[4];
        if (!plate_fold_bracket(plate, &plate->piece->edges.items[i], bracket))
            continue;
        const Point along = point_unit(point_sub(bracket[3], bracket[0])),
                    in = point_unit(point_sub(bracket[1], bracket[0]));
        const double length = point_distance(bracket[0], bracket[3]),
                     deep = point_distance(bracket[0], bracket[1]) + GRAIN_OFF_FOLD_MM * mm;
        for (int k = 0; k <= 8; k++) {
            const Point from = point_sub(point_mix(line.from, line.to, k / 8.0), bracket[0]);
            const double at = point_dot(from, along);
            if (point_dot(from, in) < deep && at > -GRAIN_OFF_FOLD_MM * mm &&
                at < length + GRAIN_OFF_FOLD_MM * mm)
                return false;
        }
    }
    return true;
}

// The part of a line beside the given one, at places across the piece where it is nearly as long.
static void add_aside(Placing *placing, double part) {
    static const double places[ASIDES - 1] = {0.15, 0.85, 0.06, 0.94, 0.3, 0.7};
    const Plate *plate = placing->plate;
    const Line full = plate->grain;
    const Point along = point_unit(point_sub(full.to, full.from)), across = point_left(along);
    double least = INFINITY, most = -INFINITY;
    for (int i = 0; i < plate->inside.count; i++) {
        const double off = point_dot(point_sub(plate->inside.items[i], full.from), across);
        least = fmin(least, off);
        most = fmax(most, off);
    }
    for (int i = 0; i < ASIDES - 1; i++) {
        const double off = least + (most - least) * places[i];
        Line inside;
        if (!longest_inside(&plate->inside, point_add(full.from, point_scale(across, off)), along, &inside))
            continue;
        const double margin = (1 - GRAIN_OF_PIECE * part) / 2;
        const Line line = {point_mix(inside.from, inside.to, margin),
                           point_mix(inside.to, inside.from, margin)};
        if (point_distance(line.from, line.to) >=
                GRAIN_ASIDE_LEAST * part * point_distance(full.from, full.to) &&
            off_folds(plate, line))
            placing->grains[placing->grain_count++] = line;
    }
}

static void find_grains(Placing *placing) {
    const Plate *plate = placing->plate;
    add_part(placing, 1);
    placing->long_grains = 1;
    if (!plate->has_grain)
        return;
    if (plate->scale < 1) {
        add_aside(placing, 1);
        add_part(placing, GRAIN_HALF_PIECE);
        add_aside(placing, GRAIN_HALF_PIECE);
        placing->long_grains = placing->grain_count;
        add_part(placing, GRAIN_LEAST);
        add_aside(placing, GRAIN_LEAST);
    } else if (point_distance(plate->grain.from, plate->grain.to) * GRAIN_SHORTER >= GRAIN_SHORTEST_MM) {
        add_part(placing, GRAIN_SHORTER);
        placing->long_grains = placing->grain_count;
    }
}

void plate_place_label(Plate *plate, const LineList *joins) {
    Placing placing = {.plate = plate};
    find_grains(&placing);
    for (int i = 0; i < TURNS; i++)
        room_init(&placing.rooms[i], plate, joins, 90 * i);
    if (plate->scale == 1)
        place_at_full_size(&placing);
    else
        place_under_full_size(&placing);
    for (int i = 0; i < TURNS; i++)
        room_finish(&placing.rooms[i]);
}
