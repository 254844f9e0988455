#include "sheet/tile.h"

#include <math.h>
#include <stdio.h>

#include "sheet/number_text.h"

// The page shows a part of the layout that is live_x by live_y large. Pages are laid on each other from left
// to right and from top to bottom: the right and lower 10 mm of a page are the band on which its neighbour is
// glued, after the neighbour was cut along its left and upper frame line.

#define MARK_MM 4.0      // half a joining mark
#define OFF_CROSS_MM 4.0 // from the crosses at the corners to words beside them

typedef struct Tile {
    const Spread *spread;
    Canvas *canvas;
    int row, column;
    Box frame; // what is left when the bands are covered, mm of paper
} Tile;

void tile_write_line(const Spread *spread, Buffer *out) {
    char scale[24];
    scale_text(spread->options->scale, (NumberMarks){0}, scale, sizeof scale);
    buffer_add_text(out, spread->pattern->title != NULL ? spread->pattern->title : "Pattern");
    if (spread->pattern->body != NULL)
        buffer_add_format(out, "  ·  %s", spread->pattern->body);
    if (spread->options->scale == 1)
        buffer_add_text(out, "  ·  full size, print at 100 %");
    else
        buffer_add_format(out, "  ·  scale %s, not full size", scale);
}

// Large, for pages spread out on a floor: in the first corner that is free of pieces, else under them.
static void draw_name(const Tile *tile, const char *name) {
    const Spread *spread = tile->spread;
    double width = canvas_text_width(TEXT_PAGE, name), height = 6;
    Point low = point_add(tile->frame.least, point(3, 3)),
          high = point_sub(tile->frame.most, point(3 + width, 3 + height));
    const Point corners[4] = {{low.x, high.y}, low, {high.x, low.y}, high};
    Point origin = point(MARGIN_MM - tile->column * spread->layout.step_x,
                         MARGIN_MM - tile->row * spread->layout.step_y);
    int chosen = 0;
    for (int i = 3; i >= 0; i--) {
        Box box = {point_sub(corners[i], origin),
                   point_sub(point_add(corners[i], point(width, height)), origin)};
        bool is_free = true;
        for (int k = 0; k < spread->item_count && is_free; k++)
            is_free = !spread_shows(spread, k, tile->row, tile->column) || !spread_item_in(spread, k, box);
        if (is_free)
            chosen = i;
    }
    canvas_text(tile->canvas, TEXT_PAGE, ALIGN_LEFT, point_add(corners[chosen], point(0, height)), 0, name);
}

static void draw_head(const Tile *tile, int number, int total) {
    Canvas *canvas = tile->canvas;
    Buffer line;
    buffer_init(&line);
    tile_write_line(tile->spread, &line);
    double y = MARGIN_MM + tile->spread->layout.live_y + 3.2;
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT, point(tile->frame.least.x + OFF_CROSS_MM, y), 0, line.data);
    char page[16];
    page_name(tile->row, tile->column, page);
    buffer_clear(&line);
    buffer_add_format(&line, "%s  ·  page %d of %d", page, number, total);
    canvas_text(canvas, TEXT_PALE, ALIGN_RIGHT, point(tile->frame.most.x - OFF_CROSS_MM, y), 0, line.data);
    buffer_finish(&line);
    draw_name(tile, page);
}

// Half a diamond whose other half is on the neighbour; inward points into the page.
static void half_mark(Canvas *canvas, Point at, Point inward) {
    Point side = point_scale(point_left(inward), MARK_MM);
    canvas_move(canvas, point_add(at, side));
    canvas_line_to(canvas, point_add(at, point_scale(inward, MARK_MM)));
    canvas_line_to(canvas, point_sub(at, side));
    canvas_stroke(canvas, LINE_JOIN);
}

static void corner_cross(Canvas *canvas, Point at) {
    canvas_move(canvas, point(at.x - 3, at.y));
    canvas_line_to(canvas, point(at.x + 3, at.y));
    canvas_move(canvas, point(at.x, at.y - 3));
    canvas_line_to(canvas, point(at.x, at.y + 3));
}

// One join, towards the neighbour down rows and right columns away. glue: on this page lies the band; else
// the cut.
static void draw_join(const Tile *tile, int down, int right, bool glue) {
    const Box *frame = &tile->frame;
    Canvas *canvas = tile->canvas;
    char theirs[16], words[64];
    page_name(tile->row + down, tile->column + right, theirs);
    Point inward = point(-right, -down), from, to;
    if (right != 0) {
        double x = right > 0 ? frame->most.x : frame->least.x;
        from = point(x, frame->least.y);
        to = point(x, frame->most.y);
    } else {
        double y = down > 0 ? frame->most.y : frame->least.y;
        from = point(frame->least.x, y);
        to = point(frame->most.x, y);
    }
    Point middle = point_mix(from, to, 0.5);
    canvas_draw_line(canvas, LINE_FRAME, from, to);
    half_mark(canvas, middle, inward);
    half_mark(canvas, point_mix(from, to, 0.15), inward);
    half_mark(canvas, point_mix(from, to, 0.85), inward);
    if (glue)
        snprintf(words, sizeof words, "glue %s over this band", theirs);
    else
        snprintf(words, sizeof words, "cut here, lay over %s", theirs);
    // On the outer side of the line, halfway between two marks.
    Point at = point_sub(point_mix(from, to, 0.32), point_scale(inward, right != 0 ? 3.0
                                                                        : down > 0 ? 3.8
                                                                                   : 2.0));
    canvas_text(canvas, TEXT_PALE, ALIGN_MIDDLE, at, right != 0 ? 90 : 0, words);
    // The neighbour's name beside the middle mark, inside.
    Point beside = point_add(middle, point_scale(inward, 2.0));
    canvas_text_sized(canvas, TEXT_PALE, 2.2, ALIGN_MIDDLE,
                      point_add(beside, point(0, right != 0 ? 0.8
                                                 : down > 0 ? 1.2
                                                            : 0.6)),
                      0, theirs);
    corner_cross(canvas, from);
    corner_cross(canvas, to);
    canvas_stroke(canvas, LINE_JOIN);
}

void tile_draw(const Spread *spread, Canvas *canvas, int row, int column, int number, int total) {
    const Layout *layout = &spread->layout;
    Tile tile = {.spread = spread, .canvas = canvas, .row = row, .column = column};
    bool right = spread_joined_right(spread, row, column), below = spread_joined_below(spread, row, column);
    tile.frame = (Box){{MARGIN_MM, MARGIN_MM},
                       {MARGIN_MM + (right ? layout->step_x : layout->live_x),
                        MARGIN_MM + (below ? layout->step_y : layout->live_y)}};
    draw_head(&tile, number, total);

    Box live = {{MARGIN_MM, MARGIN_MM}, {MARGIN_MM + layout->live_x, MARGIN_MM + layout->live_y}};
    Point origin = point(MARGIN_MM - column * layout->step_x, MARGIN_MM - row * layout->step_y);
    canvas_clip(canvas, live);
    for (int i = 0; i < spread->item_count; i++)
        if (spread_shows(spread, i, row, column))
            spread_draw_item(spread, canvas, i, origin);
    canvas_unclip(canvas);

    if (right)
        draw_join(&tile, 0, 1, true);
    if (below)
        draw_join(&tile, 1, 0, true);
    if (spread_joined_right(spread, row, column - 1))
        draw_join(&tile, 0, -1, false);
    if (spread_joined_below(spread, row - 1, column))
        draw_join(&tile, -1, 0, false);
}
