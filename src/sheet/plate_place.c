#include <math.h>

#include "base/memory.h"
#include "sheet/plate.h"
#include "sheet/plate_words.h"

// Where the label goes. It should stand upright, at full size, clear of the grain line, of all lines inside
// and of the joins between pages. What cannot be had is given up in that order from the front: smaller,
// turned, a grain line half as long (never under 100 mm: common practice, no source), two long lines, across
// a join, fewer words.

#define GRAIN_CLEAR_MM 3.6 // for the words on the grain line, mm of paper
#define GRAIN_SHORTEST_MM 100.0
#define GRAIN_SHORTER 0.6 // of the line given: half of the piece
#define SMALLEST 0.62     // of full size: 2.2 mm letters
enum { TURNS = 4 };

// The seam line and the lines to keep clear of, turned so that the label is upright in it.
typedef struct Room {
    double turn;
    Polygon polygon;
    LineList lines; // inside the piece
    LineList joins; // the same, and joins between pages
    Point centre;
} Room;

typedef struct Placing {
    Plate *plate;
    Room rooms[TURNS];
    Line full, half; // the grain line, and a shorter one that leaves more room
    bool has_half;
} Placing;

static Line line_turned(Line line, Affine m) {
    return (Line){affine_point(m, line.from), affine_point(m, line.to)};
}

static void room_init(Room *room, const Plate *plate, const LineList *joins, double turn) {
    Affine back = affine_swing(point(0, 0), -turn);
    *room = (Room){.turn = turn};
    for (int i = 0; i < plate->inside.count; i++)
        ARRAY_ADD(&room->polygon, affine_point(back, plate->inside.items[i]));
    for (int i = 0; i < plate->inner.count; i++)
        ARRAY_ADD(&room->lines, line_turned(plate->inner.items[i], back));
    for (int i = 0; i < plate->piece->edges.count; i++) {
        Point bracket[4];
        if (!plate_fold_bracket(plate, &plate->piece->edges.items[i], bracket))
            continue;
        for (int k = 0; k < 3; k++)
            ARRAY_ADD(&room->lines, line_turned((Line){bracket[k], bracket[k + 1]}, back));
    }
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
    room->centre = polygon_centre(&room->polygon);
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
    for (int k = -1; k <= 1; k++) {
        Point by = point_scale(side, k);
        ARRAY_ADD(lines, line_turned((Line){point_add(grain.from, by), point_add(grain.to, by)}, back));
    }
}

static bool try_place(Placing *placing, int turn, double size, bool use_half, bool keep_off_joins) {
    Plate *plate = placing->plate;
    Room *room = &placing->rooms[turn];
    LineList *lines = keep_off_joins ? &room->joins : &room->lines;
    Line grain = use_half ? placing->half : placing->full;
    double width, height, k = size / plate->scale;
    plate_measure_label(plate, &width, &height);
    int count = lines->count;
    add_grain(lines, plate, grain, affine_swing(point(0, 0), -room->turn));
    Point at;
    bool found = polygon_find_room(&room->polygon, lines, width * k, height * k, room->centre, &at);
    lines->count = count;
    if (!found)
        return false;
    plate->grain = grain;
    plate->label_at = affine_point(affine_swing(point(0, 0), room->turn), at);
    plate->label_turn = room->turn;
    plate->label_size = size;
    return true;
}

static bool try_all(Placing *placing, int turns, double from, double to, bool keep_off_joins) {
    static const double sizes[] = {1, 0.8, SMALLEST};
    for (int s = 0; s < 3; s++) {
        if (sizes[s] > from || sizes[s] < to)
            continue;
        for (int half = 0; half <= (placing->has_half ? 1 : 0); half++)
            for (int turn = 0; turn < turns; turn++)
                if (try_place(placing, turn, sizes[s], half == 1, keep_off_joins))
                    return true;
    }
    return false;
}

static bool try_words(Placing *placing, bool across_joins) {
    double largest = placing->plate->scale < 0.6 ? 0.8 : 1;
    return try_all(placing, 1, largest, 0.8, true) || try_all(placing, TURNS, largest, 0.8, true) ||
           try_all(placing, TURNS, SMALLEST, SMALLEST, true) ||
           (across_joins && try_all(placing, TURNS, largest, SMALLEST, false));
}

// So that words in this direction are not upside down.
static double readable(double degrees) {
    return degrees > 90.0001 ? degrees - 180 : degrees <= -89.9999 ? degrees + 180 : degrees;
}

static double longest_side(const Polygon *polygon) {
    double longest = 0, degrees = 0;
    for (int i = 0, j = polygon->count - 1; i < polygon->count; j = i++) {
        Point side = point_sub(polygon->items[i], polygon->items[j]);
        if (point_size(side) <= longest)
            continue;
        longest = point_size(side);
        degrees = point_angle(side);
    }
    return readable(degrees);
}

void plate_place_label(Plate *plate, const LineList *joins) {
    Placing placing = {.plate = plate, .full = plate->grain};
    double length = plate->has_grain ? point_distance(plate->grain.from, plate->grain.to) : 0;
    placing.has_half = length * GRAIN_SHORTER >= GRAIN_SHORTEST_MM;
    placing.half = (Line){point_mix(plate->grain.to, plate->grain.from, GRAIN_SHORTER), plate->grain.to};
    const double turns[TURNS] = {
        0, longest_side(&plate->inside), 90,
        plate->has_grain ? readable(point_angle(point_sub(plate->grain.to, plate->grain.from))) : -45};
    for (int i = 0; i < TURNS; i++)
        room_init(&placing.rooms[i], plate, joins, turns[i]);
    bool placed = try_words(&placing, false);
    if (!placed) {
        plate_widen_label(plate);
        placed = try_words(&placing, true);
    }
    if (!placed) {
        plate_shorten_label(plate);
        placed = try_words(&placing, true);
    }
    if (!placed) {
        plate_cut_label(plate, 1);
        placed = try_words(&placing, true);
    }
    if (!placed) { // no room at all: over the lines, as small as can be read
        plate->label_at = polygon_centre(&plate->inside);
        plate->label_turn = turns[1];
        plate->label_size = SMALLEST;
    }
    for (int i = 0; i < TURNS; i++)
        room_finish(&placing.rooms[i]);
}
