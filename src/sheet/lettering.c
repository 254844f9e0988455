#include "sheet/lettering.h"

#include <math.h>

#include "base/memory.h"
#include "sheet/font.h"

#define APART_MM 0.6 // kept free round words, mm of paper

static double paper_mm(const Plate *plate) {
    return plate->fine / plate->scale;
}

static void take_label(Lettering *lettering) {
    const Plate *plate = lettering->plate;
    const double k = plate->label_size / plate->scale / 2;
    if (plate->label.count > 0)
        lettering_take(lettering, (Words){.centre = plate->label_at,
                                          .along = point_polar(point(0, 0), plate->label_turn, 1),
                                          .half_width = plate->label_width * k,
                                          .half_height = plate->label_height * k});
}

void lettering_init(Lettering *lettering, const Plate *plate, double turn) {
    *lettering = (Lettering){.plate = plate, .turn = turn};
    const double reach = 2.6 * paper_mm(plate);
    take_label(lettering);
    for (int i = 0; i < plate->piece->dots.count; i++)
        lettering_take(lettering, (Words){plate->piece->dots.items[i].at, {1, 0}, reach, reach});
    for (int i = 0; i < plate->inner.count; i++)
        ARRAY_ADD(&lettering->lines, plate->inner.items[i]);
    for (int i = 0; i < plate->inside.count; i++)
        ARRAY_ADD(&lettering->lines,
                  ((Line){plate->inside.items[i], plate->inside.items[(i + 1) % plate->inside.count]}));
    if (plate->has_grain)
        ARRAY_ADD(&lettering->lines, plate->grain);
    for (int i = 0; i < plate->piece->edges.count; i++) {
        Point bracket[4];
        if (!plate_fold_bracket(plate, &plate->piece->edges.items[i], bracket))
            continue;
        for (int k = 0; k < 3; k++)
            ARRAY_ADD(&lettering->lines, ((Line){bracket[k], bracket[k + 1]}));
    }
}

void lettering_finish(Lettering *lettering) {
    mem_free(lettering->taken.items);
    mem_free(lettering->lines.items);
    *lettering = (Lettering){.plate = NULL};
}

void lettering_take(Lettering *lettering, Words words) {
    ARRAY_ADD(&lettering->taken, words);
}

static double words_size(const Plate *plate, TextKind kind) {
    return text_style(kind)->size * plate->fine;
}

Words lettering_words(const Lettering *lettering, TextKind kind, const char *text, Point centre,
                      Point along) {
    const Plate *plate = lettering->plate;
    const double seen = fmod(point_angle(along) + lettering->turn + 720, 360);
    if (seen > 90.0001 && seen <= 270.0001)
        along = point_scale(along, -1);
    const double mm = paper_mm(plate), width = canvas_text_width(kind, text) * mm;
    return (Words){centre, along, width / 2 + APART_MM * mm,
                   words_size(plate, kind) * FONT_CAP / plate->scale / 2 + APART_MM * mm};
}

// Two boxes lie apart where they do so along a side of one of them (separating axes, plane geometry).
static bool apart_along(const Words *a, const Words *b, Point axis) {
    const double between = fabs(point_dot(point_sub(b->centre, a->centre), axis));
    const Words *both[2] = {a, b};
    double reach = 0;
    for (int i = 0; i < 2; i++)
        reach += both[i]->half_width * fabs(point_dot(both[i]->along, axis)) +
                 both[i]->half_height * fabs(point_dot(point_left(both[i]->along), axis));
    return between >= reach;
}

static bool words_meet(const Words *a, const Words *b) {
    return !apart_along(a, b, a->along) && !apart_along(a, b, point_left(a->along)) &&
           !apart_along(a, b, b->along) && !apart_along(a, b, point_left(b->along));
}

static bool words_touch_line(const Words *words, Line line) {
    const Point from = point_sub(line.from, words->centre), to = point_sub(line.to, words->centre),
                up = point_left(words->along);
    const Line turned = {{point_dot(from, words->along), point_dot(from, up)},
                         {point_dot(to, words->along), point_dot(to, up)}};
    return line_touches_box(
        turned, (Box){{-words->half_width, -words->half_height}, {words->half_width, words->half_height}});
}

static bool inside_cut(const Plate *plate, const Words *words) {
    if (!polygon_contains(&plate->outside, words->centre))
        return false;
    for (int i = 0; i < plate->outside.count; i++)
        if (words_touch_line(
                words, (Line){plate->outside.items[i], plate->outside.items[(i + 1) % plate->outside.count]}))
            return false;
    return true;
}

static bool is_free(const Lettering *lettering, const Words *words, bool off_lines) {
    for (int i = 0; i < lettering->taken.count; i++)
        if (words_meet(&lettering->taken.items[i], words))
            return false;
    for (int i = 0; off_lines && i < lettering->lines.count; i++)
        if (words_touch_line(words, lettering->lines.items[i]))
            return false;
    return inside_cut(lettering->plate, words);
}

int lettering_choose(Lettering *lettering, const Words *places, int count) {
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < count; i++)
            if (is_free(lettering, &places[i], pass == 0)) {
                lettering_take(lettering, places[i]);
                return i;
            }
    return -1;
}

void lettering_draw(const Lettering *lettering, Canvas *canvas, TextKind kind, const char *text,
                    const Words *words) {
    const Plate *plate = lettering->plate;
    const double size = words_size(plate, kind), down = size * FONT_CAP / plate->scale / 2;
    canvas_text_sized(canvas, kind, size, ALIGN_MIDDLE,
                      point_sub(words->centre, point_scale(point_left(words->along), down)),
                      point_angle(words->along), text);
}
