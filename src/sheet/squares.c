#include "sheet/squares.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "sheet/number_text.h"
#include "sheet/paragraph.h"

#define HUNDRED_MM 100.0
#define FOUR_INCHES_MM (4 * MM_PER_INCH)
#define INSET_MM 6.0

static double write_in(Canvas *canvas, TextKind kind, Point at, double width, const char *text) {
    Buffer line;
    buffer_init(&line);
    double y = at.y;
    while (paragraph_next(&text, kind, width, &line)) {
        y += paragraph_step(kind);
        canvas_text(canvas, kind, ALIGN_LEFT, point(at.x, y), 0, line.data);
    }
    buffer_finish(&line);
    return y;
}

// Ticks inside the upper and the left side: a ruler in both directions, since a printer can be true in one of
// them only.
static void draw_ticks(Canvas *canvas, Point corner, int count, double apart) {
    for (int i = 1; i < count; i++) {
        double length = i * 2 == count ? 3 : 1.8;
        canvas_move(canvas, point_add(corner, point(i * apart, 0)));
        canvas_line_to(canvas, point_add(corner, point(i * apart, length)));
        canvas_move(canvas, point_add(corner, point(0, i * apart)));
        canvas_line_to(canvas, point_add(corner, point(length, i * apart)));
    }
    canvas_stroke(canvas, LINE_FRAME);
}

static void draw_square(Canvas *canvas, Point at, double side) {
    canvas_box(canvas, (Box){at, point_add(at, point(side, side))});
    canvas_stroke(canvas, LINE_SQUARE);
}

static bool joined_anywhere(const Spread *spread) {
    for (int row = 0; row < spread->layout.rows; row++)
        for (int column = 0; column < spread->layout.columns; column++)
            if (spread_joined_right(spread, row, column) || spread_joined_below(spread, row, column))
                return true;
    return false;
}

static void write_instructions(const Spread *spread, Canvas *canvas, Point at, double width) {
    double y = write_in(canvas, TEXT_HEAD, at, width,
                        "Print at 100 % (actual size). Measure the squares before you cut.");
    y = write_in(canvas, TEXT_BODY, point(at.x, y + 1.6), width,
                 "Each side must be right to within half a millimetre, across and up the page. If it is not, "
                 "turn off every \"fit to page\" in the print dialog and print this page again.");
    if (spread->pages > 1 && joined_anywhere(spread)) {
        y = write_in(canvas, TEXT_HEAD, point(at.x, y + 3), width, "Join the pages");
        write_in(canvas, TEXT_BODY, point(at.x, y + 0.6), width,
                 "Cut a page along the line that says \"cut here\", lay it over the band of its neighbour "
                 "until the line "
                 "and the half diamonds meet, and glue or tape. Rows first, from left to right, then row "
                 "under row. "
                 "Pages without a band stand alone.");
    } else if (spread->pages > 1)
        write_in(canvas, TEXT_BODY, point(at.x, y + 3), width,
                 "No piece runs over the edge of its page: nothing to join.");
}

// The pages as they lie, each with its name, and the pieces on them.
static void draw_map(const Spread *spread, Canvas *canvas, Point at, double width, double height) {
    const Layout *layout = &spread->layout;
    if (spread->pages == 0)
        return;
    double whole_x = (layout->columns - 1) * layout->step_x + layout->live_x;
    double whole_y = (layout->rows - 1) * layout->step_y + layout->live_y;
    double k = fmin(fmin(width / whole_x, height / whole_y), 0.25);
    at = point_add(at, point((width - whole_x * k) / 2, 0));
    for (int i = 0; i < spread->item_count; i++)
        spread_draw_small(spread, canvas, i, at, k);
    double size = fmin(fmax(layout->step_x * k * 0.28, 1.6), 6);
    for (int row = 0; row < layout->rows; row++)
        for (int column = 0; column < layout->columns; column++) {
            if (!spread_page_used(spread, row, column))
                continue;
            bool right = spread_joined_right(spread, row, column),
                 below = spread_joined_below(spread, row, column);
            Point corner = point_add(at, point(column * layout->step_x * k, row * layout->step_y * k));
            Point far = point_add(corner, point((right ? layout->step_x : layout->live_x) * k,
                                                (below ? layout->step_y : layout->live_y) * k));
            canvas_box(canvas, (Box){corner, far});
            canvas_stroke(canvas, LINE_FRAME);
        }
    for (int row = 0; row < layout->rows; row++)
        for (int column = 0; column < layout->columns; column++) {
            if (!spread_page_used(spread, row, column))
                continue;
            Point middle =
                point_add(at, point((column + 0.5) * layout->step_x * k, (row + 0.5) * layout->step_y * k));
            char name[16];
            page_name(row, column, name);
            canvas_text_sized(canvas, TEXT_HEAD, size, ALIGN_MIDDLE, point_add(middle, point(0, size * 0.36)),
                              0, name);
        }
}

static void draw_full_squares(Flow *flow, const Spread *spread) {
    Canvas *canvas = flow->canvas;
    flow_room(flow, HUNDRED_MM);
    Point at = point(flow_x(flow), flow->y);
    draw_square(canvas, at, HUNDRED_MM);
    draw_ticks(canvas, at, 10, 10);
    double y = write_in(canvas, TEXT_PIECE, point(at.x + INSET_MM, at.y + INSET_MM - 1),
                        HUNDRED_MM - 2 * INSET_MM, "100 mm");
    write_instructions(spread, canvas, point(at.x + INSET_MM, y + 2.5), HUNDRED_MM - 2 * INSET_MM);
    flow->y += HUNDRED_MM + 6;

    flow_room(flow, FOUR_INCHES_MM);
    at = point(flow_x(flow), flow->y);
    draw_square(canvas, at, FOUR_INCHES_MM);
    draw_ticks(canvas, at, 8, MM_PER_INCH / 2);
    canvas_text(canvas, TEXT_PIECE, ALIGN_LEFT, point(at.x + INSET_MM, at.y + INSET_MM + 5.4), 0, "4 in");
    if (spread->pages > 0) {
        canvas_text(canvas, TEXT_BODY, ALIGN_RIGHT,
                    point(at.x + FOUR_INCHES_MM - INSET_MM, at.y + INSET_MM + 5.4), 0, "the pages");
        draw_map(spread, canvas, point(at.x + INSET_MM, at.y + 16), FOUR_INCHES_MM - 2 * INSET_MM,
                 FOUR_INCHES_MM - 22);
    }
    flow->y += FOUR_INCHES_MM;
}

static void draw_scaled_squares(Flow *flow, const Spread *spread) {
    Canvas *canvas = flow->canvas;
    double scale = spread->options->scale, one = HUNDRED_MM * scale, other = FOUR_INCHES_MM * scale;
    char at_scale[24], words[160];
    scale_text(scale, (NumberMarks){0}, at_scale, sizeof at_scale);
    bool beside = one + other + 8 <= flow_width(flow);
    flow_room(flow, beside ? other : one + other + 6);
    Point at = point(flow_x(flow), flow->y);
    draw_square(canvas, at, one);
    draw_square(canvas, beside ? point(at.x + one + 8, at.y) : point(at.x, at.y + one + 6), other);
    flow->y += (beside ? other : one + other + 6) + 2;
    snprintf(
        words, sizeof words,
        "At %s the first square, 100 mm at full size, measures %.4g mm; the other, 4 in, measures %.4g in.",
        at_scale, one, 4 * scale);
    flow_text(flow, TEXT_HEAD, 0, words);
    flow_space(flow, 1.5);
    flow_text(flow, TEXT_BODY, 0,
              "Print at 100 % (actual size). Measure the squares before you use the drawing. "
              "Nothing here is to be cut in cloth.");
    if (spread->pages == 0)
        return;
    flow_space(flow, 4);
    flow_room(flow, 70);
    draw_map(spread, canvas, point(flow_x(flow), flow->y), flow_width(flow), 70);
    flow->y += 70;
}

void squares_draw(Flow *flow, const Spread *spread) {
    canvas_group(flow->canvas, "squares", "");
    if (spread->options->scale == 1)
        draw_full_squares(flow, spread);
    else
        draw_scaled_squares(flow, spread);
    canvas_group_end(flow->canvas);
}
