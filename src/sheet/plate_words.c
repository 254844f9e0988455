#include "sheet/plate_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NAME_SIZE_MM 4.8  // of the em, at full size, where the line has room for it
#define LABEL_EDGE_MM 1.5 // kept clear round the words

#define BROKEN_ROWS 3

// A word a row; the words left over share the last.
static void break_name(const char *name, int rows, Label *out) {
    out->count = 0;
    while (*name) {
        const bool last = out->count == rows - 1;
        const size_t length = last ? strlen(name) : strcspn(name, " ");
        snprintf(out->lines[out->count++], LABEL_TEXT_MAX, "%.*s", (int)length, name);
        name += length;
        name += strspn(name, " ");
    }
}

void plate_write_short_label(Plate *plate, ShortLabel form) {
    const Piece *piece = plate->piece;
    if (form == SHORT_BROKEN || form == SHORT_CUT_BROKEN || form == SHORT_CUT_NARROW) {
        break_name(piece->name, form == SHORT_CUT_BROKEN ? BROKEN_ROWS - 1 : BROKEN_ROWS, &plate->label);
        if (form != SHORT_BROKEN)
            snprintf(plate->label.lines[plate->label.count++], LABEL_TEXT_MAX, "cut %d", piece->cut);
        return;
    }
    snprintf(plate->label.lines[0], LABEL_TEXT_MAX, "%s", piece->name);
    plate->label.count = 1;
    if (form == SHORT_NAME)
        return;
    snprintf(plate->label.lines[1], LABEL_TEXT_MAX, "cut %d%s%s", piece->cut,
             piece->cloth != NULL ? " in " : "", piece->cloth != NULL ? piece->cloth : "");
    plate->label.count = 2;
}

// "Collar, piece 1 of 3", or the name alone or in parts where the label is short; not a title that is the
// same.
static bool is_name_line(const Plate *plate, const char *line) {
    if (plate->scale < 1 && strstr(plate->piece->name, line))
        return true;
    size_t length = strlen(plate->piece->name);
    return strncmp(line, plate->piece->name, length) == 0 &&
           (line[length] == ',' || (line[length] == '\0' && plate->label.count <= 2));
}

// Rows stay shorter than a line of the label can be: what does not fit is left on a row of its own.
void plate_join_label(Plate *plate, int each) {
    const Label full = plate->label;
    Label *out = &plate->label;
    int name = 0;
    while (name < full.count && !is_name_line(plate, full.lines[name]))
        name++;
    out->count = 0;
    if (name < full.count)
        memcpy(out->lines[out->count++], full.lines[name], LABEL_TEXT_MAX);
    int joined = each;
    for (int i = 0; i < full.count; i++) {
        if (i == name)
            continue;
        char *row = out->count > 0 ? out->lines[out->count - 1] : NULL;
        size_t used = row != NULL ? strlen(row) : 0;
        if (row == NULL || joined == each || used + strlen(full.lines[i]) + 8 > LABEL_TEXT_MAX) {
            memcpy(out->lines[out->count++], full.lines[i], LABEL_TEXT_MAX);
            joined = 1;
            continue;
        }
        snprintf(row + used, LABEL_TEXT_MAX - used, "  ·  %s", full.lines[i]);
        joined++;
    }
}

void plate_measure_label(Plate *plate) {
    plate->label_width = 0;
    for (int i = 0; i < plate->label.count; i++) {
        const char *line = plate->label.lines[i];
        double width = is_name_line(plate, plate->label.lines[i])
                           ? canvas_text_width(TEXT_PIECE, line) * NAME_SIZE_MM / text_style(TEXT_PIECE)->size
                           : canvas_text_width(TEXT_BODY, line);
        plate->label_width = fmax(plate->label_width, width);
    }
    plate->label_width += LABEL_EDGE_MM;
    plate->label_height = plate->label.count * LABEL_LINE_MM;
}

// On the paper the words read within 90 degrees of upright, wherever the plan has turned the piece: half a
// turn about its middle leaves the block where it is.
static double label_turn_on(const Plate *plate, const Canvas *canvas) {
    const double seen = remainder(plate->label_turn + canvas->turn, 360);
    return seen > 90.0001 || seen < -89.9999 ? plate->label_turn + 180 : plate->label_turn;
}

// Lines in the middle of equal rows. A line too wide for the block, by letters wider than most, is set
// smaller.
void plate_draw_label(const Plate *plate, Canvas *canvas) {
    double row = LABEL_LINE_MM * plate->label_size, mm = 1 / plate->scale;
    double room = (plate->label_width - LABEL_EDGE_MM / 2) * plate->label_size;
    const double degrees = label_turn_on(plate, canvas);
    Affine turn = affine_swing(plate->label_at, degrees);
    for (int i = 0; i < plate->label.count; i++) {
        TextKind kind = is_name_line(plate, plate->label.lines[i]) ? TEXT_PIECE : TEXT_BODY;
        double full = text_style(kind)->size, width = canvas_text_width(kind, plate->label.lines[i]) / full;
        double size = fmin((kind == TEXT_PIECE ? NAME_SIZE_MM : full) * plate->label_size, room / width);
        double down = (i + 0.5 - plate->label.count / 2.0) * row + size * 0.36; // half of a capital's height
        Point at = point(plate->label_at.x, plate->label_at.y - down * mm);
        canvas_text_sized(canvas, kind, size, ALIGN_MIDDLE, affine_point(turn, at), degrees,
                          plate->label.lines[i]);
    }
}
