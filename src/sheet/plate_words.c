#include "sheet/plate_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/label.h"

#define NAME_STEP_MM 6.4 // from one base line to the next
#define LINE_STEP_MM 4.3
#define LABEL_EDGE_MM 1.5 // kept clear round the words

// The piece's own name stands first and large, so it is not said again in front of its number.
void plate_write_label(Plate *plate) {
    Label *label = mem_new(sizeof *label);
    pattern_label_lines(plate->pattern, plate->index, label);
    ARRAY_ADD(&plate->label, mem_text(plate->piece->name));
    size_t name = strlen(plate->piece->name);
    for (int i = 0; i < label->count; i++) {
        const char *line = label->lines[i];
        bool again = strncmp(line, plate->piece->name, name) == 0 && strncmp(line + name, ", ", 2) == 0;
        ARRAY_ADD(&plate->label, mem_text(again ? line + name + 2 : line));
    }
    mem_free(label);
}

static void label_measure(const Plate *plate, double *width, double *height) {
    *width = 0;
    *height = 0;
    for (int i = 0; i < plate->label.count; i++) {
        *width = fmax(*width, canvas_text_width(i == 0 ? TEXT_PIECE : TEXT_BODY, plate->label.items[i]));
        *height += i == 0 ? NAME_STEP_MM : LINE_STEP_MM;
    }
    *width += 2 * LABEL_EDGE_MM;
    *height += LABEL_EDGE_MM;
}

// The name, then two lines that hold all the others: for long narrow pieces.
static void label_widen(Plate *plate) {
    Buffer rows[2];
    int others = plate->label.count - 1, first = (others + 1) / 2;
    for (int r = 0; r < 2; r++) {
        buffer_init(&rows[r]);
        for (int i = r == 0 ? 0 : first; i < (r == 0 ? first : others); i++)
            buffer_add_format(&rows[r], "%s%s", rows[r].length > 0 ? "  ·  " : "", plate->label.items[i + 1]);
    }
    while (plate->label.count > 1)
        mem_free(plate->label.items[--plate->label.count]);
    for (int r = 0; r < 2; r++) {
        if (rows[r].length > 0)
            ARRAY_ADD(&plate->label, mem_text(rows[r].data));
        buffer_finish(&rows[r]);
    }
}

// What the words should stay clear of, and the polygon, all turned by -degrees round the origin.
typedef struct Room {
    Polygon polygon;
    LineList lines;
} Room;

static Line line_turned(Line line, Affine m) {
    return (Line){affine_point(m, line.from), affine_point(m, line.to)};
}

static void room_init(Room *room, const Plate *plate, const LineList *joins, double degrees) {
    Affine back = affine_swing(point(0, 0), -degrees);
    *room = (Room){.polygon = {.items = NULL}};
    for (int i = 0; i < plate->inside.count; i++)
        ARRAY_ADD(&room->polygon, affine_point(back, plate->inside.items[i]));
    for (int i = 0; joins != NULL && i < joins->count; i++)
        ARRAY_ADD(&room->lines, line_turned(joins->items[i], back));
    if (plate->has_grain)
        ARRAY_ADD(&room->lines, line_turned(plate->grain, back));
    for (int i = 0; i < plate->inner.count; i++)
        ARRAY_ADD(&room->lines, line_turned(plate->inner.items[i], back));
}

static void room_finish(Room *room) {
    polygon_finish(&room->polygon);
    mem_free(room->lines.items);
}

// Upright first, then along the longest straight side, at three sizes.
static bool label_fit(Plate *plate, const LineList *joins, const double *turns, int turn_count) {
    static const double sizes[] = {1, 0.8, 0.62};
    double width, height;
    label_measure(plate, &width, &height);
    for (int s = plate->scale < 0.6 ? 1 : 0; s < 3; s++)
        for (int t = 0; t < turn_count; t++) {
            Room room;
            room_init(&room, plate, joins, turns[t]);
            Point wish = polygon_centre(&room.polygon), at;
            double k = sizes[s] / plate->scale;
            bool found = polygon_find_room(&room.polygon, &room.lines, width * k, height * k, wish, &at);
            room_finish(&room);
            if (!found)
                continue;
            plate->label_at = affine_point(affine_swing(point(0, 0), turns[t]), at);
            plate->label_turn = turns[t];
            plate->label_size = sizes[s];
            return true;
        }
    return false;
}

// The direction of the longest side, turned so that words on it are not upside down.
static double longest_side(const Polygon *polygon) {
    double longest = 0, degrees = 0;
    for (int i = 0, j = polygon->count - 1; i < polygon->count; j = i++) {
        Point side = point_sub(polygon->items[i], polygon->items[j]);
        if (point_size(side) <= longest)
            continue;
        longest = point_size(side);
        degrees = point_angle(side);
    }
    return degrees > 90.0001 ? degrees - 180 : degrees <= -89.9999 ? degrees + 180 : degrees;
}

// The name, and how often it is cut: all there is room for on a small drawing.
static void label_shorten(Plate *plate) {
    char cut[48];
    snprintf(cut, sizeof cut, "cut %d%s%.32s", plate->piece->cut, plate->piece->cloth != NULL ? " in " : "",
             plate->piece->cloth != NULL ? plate->piece->cloth : "");
    while (plate->label.count > 1)
        mem_free(plate->label.items[--plate->label.count]);
    ARRAY_ADD(&plate->label, mem_text(cut));
}

void plate_place_label(Plate *plate, const LineList *joins) {
    const double turns[3] = {0, longest_side(&plate->inside), 90};
    if (label_fit(plate, joins, turns, 1) || label_fit(plate, joins, turns, 3))
        return;
    label_widen(plate);
    if (label_fit(plate, joins, turns, 3) || label_fit(plate, NULL, turns, 3))
        return;
    label_shorten(plate);
    if (label_fit(plate, joins, turns, 1) || label_fit(plate, joins, turns, 3) ||
        label_fit(plate, NULL, turns, 3))
        return;
    mem_free(plate->label.items[--plate->label.count]);
    if (label_fit(plate, joins, turns, 1) || label_fit(plate, joins, turns, 3) ||
        label_fit(plate, NULL, turns, 3))
        return;
    // No room inside: over the lines, as small as can be read.
    plate->label_at = polygon_centre(&plate->inside);
    plate->label_turn = turns[1];
    plate->label_size = 0.62;
}

void plate_draw_label(const Plate *plate, Canvas *canvas) {
    double width, height, k = plate->label_size / plate->scale;
    label_measure(plate, &width, &height);
    Affine turn = affine_swing(plate->label_at, plate->label_turn);
    double y = plate->label_at.y + height * k / 2 - LABEL_EDGE_MM * k;
    for (int i = 0; i < plate->label.count; i++) {
        TextKind kind = i == 0 ? TEXT_PIECE : TEXT_BODY;
        double size = text_style(kind)->size * plate->label_size;
        y -= (i == 0 ? NAME_STEP_MM * 0.75 : LINE_STEP_MM) * k;
        canvas_text_sized(canvas, kind, size, ALIGN_MIDDLE, affine_point(turn, point(plate->label_at.x, y)),
                          plate->label_turn, plate->label.items[i]);
    }
}
