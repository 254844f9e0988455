#include "sheet/plate_words.h"

#include <math.h>
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

void plate_measure_label(const Plate *plate, double *width, double *height) {
    *width = 0;
    *height = 0;
    for (int i = 0; i < plate->label.count; i++) {
        *width = fmax(*width, canvas_text_width(i == 0 ? TEXT_PIECE : TEXT_BODY, plate->label.items[i]));
        *height += i == 0 ? NAME_STEP_MM : LINE_STEP_MM;
    }
    *width += 2 * LABEL_EDGE_MM;
    *height += LABEL_EDGE_MM;
}

void plate_cut_label(Plate *plate, int count) {
    while (plate->label.count > count)
        mem_free(plate->label.items[--plate->label.count]);
}

void plate_widen_label(Plate *plate) {
    Buffer rows[2];
    int others = plate->label.count - 1, first = (others + 1) / 2;
    for (int r = 0; r < 2; r++) {
        buffer_init(&rows[r]);
        for (int i = r == 0 ? 0 : first; i < (r == 0 ? first : others); i++)
            buffer_add_format(&rows[r], "%s%s", rows[r].length > 0 ? "  ·  " : "", plate->label.items[i + 1]);
    }
    plate_cut_label(plate, 1);
    for (int r = 0; r < 2; r++) {
        if (rows[r].length > 0)
            ARRAY_ADD(&plate->label, mem_text(rows[r].data));
        buffer_finish(&rows[r]);
    }
}

void plate_shorten_label(Plate *plate) {
    const Piece *piece = plate->piece;
    Buffer cut;
    buffer_init(&cut);
    buffer_add_format(&cut, "cut %d", piece->cut);
    if (piece->cloth != NULL)
        buffer_add_format(&cut, " in %s", piece->cloth);
    plate_cut_label(plate, 1);
    ARRAY_ADD(&plate->label, mem_text(cut.data));
    buffer_finish(&cut);
}

void plate_draw_label(const Plate *plate, Canvas *canvas) {
    double width, height, k = plate->label_size / plate->scale;
    plate_measure_label(plate, &width, &height);
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
