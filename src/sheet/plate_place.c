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
// Under full size letters do not shrink with the piece: fewer words, placed by the same rules.

#define GRAIN_CLEAR_MM 3.6 // for the words on the grain line, mm of paper
#define GRAIN_SHORTEST_MM 100.0
#define GRAIN_SHORTER 0.6       // of the line given
#define GRAIN_SHORTER_SMALL 0.4 // the same in drawings under full size, which nothing is cut by
#define FOLD_WORDS_MM 5.0       // kept clear on both sides of the bracket of a fold
#define ROW_LINES_MAX 3         // lines joined into one row
#define LARGEST_UNDER_FULL 0.8  // size of the words in drawings under full size
#define TINY 0.42               // the least size there: names stay 2 mm tall
#define SHORT_BELOW 0.5         // scales under which only the name and the cutting count are tried

// The seam line and the lines to keep clear of, turned so that the label is upright in it.
typedef struct Room {
    double turn;
    Polygon polygon;
    LineList lines; // inside the piece
    LineList joins; // the same, and joins between pages
} Room;

enum { TURNS = 2 }; // upright, and reading upwards

typedef struct Placing {
    Plate *plate;
    Room rooms[TURNS];
    int first_turn;  // the one to try first
    Point wish;      // the nearer to it, the better
    Line full, half; // the grain line, and a shorter one that leaves more room
    bool has_half;
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

static bool try_place(Placing *placing, int turn, double size, bool use_half, bool keep_off_joins) {
    Plate *plate = placing->plate;
    Room *room = &placing->rooms[turn];
    LineList *lines = keep_off_joins ? &room->joins : &room->lines;
    Line grain = use_half ? placing->half : placing->full;
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

static bool try_all(Placing *placing, double largest) {
    const double sizes[] = {largest, 0.8, LABEL_SMALLEST};
    for (int joins = 0; joins < 2; joins++)
        for (int s = 0; s < 3; s++) {
            if (s > 0 && sizes[s] >= largest)
                continue;
            for (int half = 0; half <= (placing->has_half ? 1 : 0); half++)
                for (int turn = 0; turn < TURNS; turn++)
                    if (try_place(placing, (placing->first_turn + turn) % TURNS, sizes[s], half == 1,
                                  joins == 0))
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
    if (try_all(placing, place.scale))
        return;
    for (int each = 2; each <= ROW_LINES_MAX; each++) {
        plate_join_label(plate, each);
        plate_measure_label(plate);
        if (try_all(placing, 1))
            return;
    }
    plate->label = proven;
    plate->label_width = place.width;
    plate->label_height = place.height;
}

static void place_under_full_size(Placing *placing) {
    Plate *plate = placing->plate;
    placing->wish = polygon_centre(&plate->inside);
    if (plate->scale >= SHORT_BELOW) {
        pattern_label_lines(plate->pattern, plate->index, &plate->label);
        plate_measure_label(plate);
        if (try_all(placing, LARGEST_UNDER_FULL))
            return;
    }
    for (int form = 0; form < SHORT_COUNT; form++) {
        plate_write_short_label(plate, (ShortLabel)form);
        plate_measure_label(plate);
        if (try_all(placing, LARGEST_UNDER_FULL))
            return;
    }
    if (try_all(placing, TINY))
        return;
    Box box = polygon_box(&plate->inside); // no room at all: over the lines, as small as can be read
    plate->label_at = placing->wish;
    plate->label_turn = box.most.y - box.least.y > box.most.x - box.least.x ? 90 : 0;
    plate->label_size = TINY;
}

void plate_place_label(Plate *plate, const LineList *joins) {
    Placing placing = {.plate = plate, .full = plate->grain};
    double length = plate->has_grain ? point_distance(plate->grain.from, plate->grain.to) : 0;
    double part = plate->scale < 1 ? GRAIN_SHORTER_SMALL : GRAIN_SHORTER;
    placing.has_half = plate->has_grain && (plate->scale < 1 || length * part >= GRAIN_SHORTEST_MM);
    placing.half = (Line){point_mix(plate->grain.to, plate->grain.from, part), plate->grain.to};
    for (int i = 0; i < TURNS; i++)
        room_init(&placing.rooms[i], plate, joins, 90 * i);
    if (plate->scale == 1)
        place_at_full_size(&placing);
    else
        place_under_full_size(&placing);
    for (int i = 0; i < TURNS; i++)
        room_finish(&placing.rooms[i]);
}
