// What a recipe is given rather than calls: the bodice, and the measurements of the body. Nothing is bound
// here; the rows explain what a reader looks up.
#include "script/lib_given.h"

#include <stdio.h>
#include <string.h>

#include "base/measures.h"

#define GIVEN_MAX 120
#define TEXT_MAX 400

static const WordRow bodice_row = {
    WORDS_GIVEN, WORDS_GIVEN, "needs { bodice = \"a bodice\" }  ->  { front = draft, back = draft }",
    "What a block gives, a neckline changes and a collar is drawn on: two half drafts, net of seam "
    "allowance, "
    "darts at the shoulder closed. The centre line lies on x = 0, the body to the right of it, y up, the "
    "neck "
    "point of a fresh block on y = 0. Each half has the edges centre (from the neck down to the hem), "
    "neckline (from the centre to the neck point) and shoulder (from the neck point to the tip), and the "
    "points neck_point, shoulder_point and centre_neck, marked by give where they are not yet. "
    "Where they are known it has the edges armhole (from the tip to the side), side (from the armhole to the "
    "waist) and waist (from the centre to the side), which then close the outline within 0.01 mm, the point "
    "bust_point, and dart, the line from one foot of the dart by its point to the other. The table may hold "
    "more, "
    "such as shoulder_ease, how much longer the back shoulder is, mm: what is not there reads nil.",
    "local function half(name, neck_depth, neck_point, tip)\n"
    "  local h = draft(name)\n"
    "  h.centre   = line(point(0, -neck_depth), point(0, -40*cm))\n"
    "  h.neckline = curve(h.centre.first, neck_point,\n"
    "                     { leave = \"right\", arrive = \"up\", fullness = 0.55 })\n"
    "  h.shoulder = line(neck_point, tip)\n"
    "  return h\n"
    "end\n"
    "give { bodice = {\n"
    "  front = half(\"Typed front\", 7.2*cm, point(6.7*cm, 0), point(18.5*cm, -3.4*cm)),\n"
    "  back  = half(\"Typed back\", 1.5*cm, point(7.2*cm, 0), point(19.5*cm, -5*cm)),\n"
    "} }"};

static WordRow rows[GIVEN_MAX];
static char texts[GIVEN_MAX][3][TEXT_MAX];
static int row_count;

// The known measurements, in the order they are known in.
static void add_measurements(void) {
    int count;
    const KnownMeasure *known = measure_known_all(&count);
    for (int i = 0; i < count && row_count < GIVEN_MAX; i++) {
        char(*text)[TEXT_MAX] = texts[row_count];
        snprintf(text[0], TEXT_MAX, "needs { %s = \"%s\" }  ->  %s", known[i].name, known[i].term,
                 measure_in_years(known[i].name) ? "years" : "mm");
        snprintf(text[1], TEXT_MAX, "A measurement, the %s: %s.", known[i].term, known[i].taken);
        snprintf(text[2], TEXT_MAX, "needs { %s = { \"%s\", optional = true } }", known[i].name,
                 known[i].term);
        rows[row_count++] = (WordRow){known[i].name, WORDS_MEASUREMENTS, text[0], text[1], text[2]};
    }
}

const WordRow *lib_given_rows(int *count) {
    if (row_count == 0) {
        rows[row_count++] = bodice_row;
        add_measurements();
    }
    *count = row_count;
    return rows;
}

bool words_is_given(const WordRow *row) {
    return strcmp(row->subject, WORDS_GIVEN) == 0 || strcmp(row->subject, WORDS_MEASUREMENTS) == 0;
}
