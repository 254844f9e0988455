#include <criterion/criterion.h>

#include <math.h>
#include <stdlib.h>

#include "example.h"
#include "sheet/spread.h"

static Fault fault;

static void begin(void) {
    fault_init(&fault);
}

static void end(void) {
    fault_finish(&fault);
}

TestSuite(layout, .init = begin, .fini = end, .timeout = 60);

static bool items_overlap(const LayoutItem *a, const LayoutItem *b) {
    double aw = a->turned ? a->height : a->width, ah = a->turned ? a->width : a->height;
    double bw = b->turned ? b->height : b->width, bh = b->turned ? b->width : b->height;
    return a->at.x < b->at.x + bw - 0.01 && b->at.x < a->at.x + aw - 0.01 && a->at.y < b->at.y + bh - 0.01 &&
           b->at.y < a->at.y + ah - 0.01;
}

Test(layout, no_two_pieces_lie_on_each_other) {
    static const char *const papers[] = {"a4", "letter", "a3", "60cm x 90cm", "130mm x 150mm"};
    Pattern pattern;
    example_large(&pattern);
    for (int p = 0; p < 5; p++) {
        SheetOptions options = example_options(SHEET_PDF);
        cr_assert(sheet_paper(papers[p], &options, &fault));
        Spread spread;
        cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
        cr_assert(spread_pages(&spread, options.width, options.height, &fault));
        for (int i = 0; i < spread.item_count; i++)
            for (int k = 0; k < i; k++)
                cr_expect_not(items_overlap(&spread.items[i], &spread.items[k]), "%s: %d and %d", papers[p],
                              i, k);
        spread_finish(&spread);
    }
    pattern_finish(&pattern);
}

// Where a point of a piece comes to lie on the layout, by plane geometry: turned a quarter to the left or
// not.
static Point on_layout(const Spread *spread, int item, Point p) {
    const LayoutItem *it = &spread->items[item];
    Box box = spread->plates[item].box;
    Point at =
        it->turned ? point(box.most.y - p.y, box.most.x - p.x) : point(p.x - box.least.x, box.most.y - p.y);
    return point_add(
        it->at, point(CLEAR_MM + at.x * spread->options->scale, CLEAR_MM + at.y * spread->options->scale));
}

static bool on_some_page(const Spread *spread, Point p) {
    const Layout *layout = &spread->layout;
    for (int row = 0; row < layout->rows; row++)
        for (int column = 0; column < layout->columns; column++) {
            Point corner = point(column * layout->step_x, row * layout->step_y);
            if (spread_page_used(spread, row, column) && p.x >= corner.x - 0.001 && p.y >= corner.y - 0.001 &&
                p.x <= corner.x + layout->live_x + 0.001 && p.y <= corner.y + layout->live_y + 0.001)
                return true;
        }
    return false;
}

Test(layout, every_point_of_every_cut_line_is_printed_on_some_page) {
    static const char *const papers[] = {"a4", "letter", "a3", "130mm x 150mm"};
    static const double scales[] = {1, 0.5};
    Pattern pattern;
    example_large(&pattern);
    for (int p = 0; p < 4; p++)
        for (int s = 0; s < 2; s++) {
            SheetOptions options = example_options(SHEET_PDF);
            options.scale = scales[s];
            cr_assert(sheet_paper(papers[p], &options, &fault));
            Spread spread;
            cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
            cr_assert(spread_pages(&spread, options.width, options.height, &fault));
            for (int i = 0; i < spread.plate_count; i++) {
                Point *points;
                int count;
                path_flatten(&spread.plates[i].cut, 0.1, &points, &count);
                for (int k = 0; k + 1 < count; k++)
                    for (int t = 0; t < 20; t++)
                        cr_assert(
                            on_some_page(&spread, on_layout(&spread, i,
                                                            point_mix(points[k], points[k + 1], t / 20.0))),
                            "%s at %g: %s", papers[p], scales[s], pattern.pieces.items[i].name);
                free(points);
            }
            spread_finish(&spread);
        }
    pattern_finish(&pattern);
}

Test(layout, pages_with_nothing_on_them_are_left_out) {
    Pattern pattern;
    example_funnel(&pattern);
    SheetOptions options = example_options(SHEET_PDF);
    Spread spread;
    cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
    cr_assert(spread_pages(&spread, 130, 130, &fault));
    int used = 0;
    for (int row = 0; row < spread.layout.rows; row++)
        for (int column = 0; column < spread.layout.columns; column++)
            used += spread_page_used(&spread, row, column);
    cr_expect_eq(used, spread.pages);
    cr_expect_lt(used, spread.layout.rows * spread.layout.columns);
    spread_finish(&spread);
    pattern_finish(&pattern);
}

Test(layout, a_piece_that_fits_one_page_is_on_one_page) {
    Pattern pattern;
    example_square(&pattern, 180, "Square"); // A4 less 10 mm of margin on both sides, less 3 mm clear: 184
    SheetOptions options = example_options(SHEET_PDF);
    Spread spread;
    cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
    cr_assert(spread_pages(&spread, 210, 297, &fault));
    cr_expect_eq(spread.pages, 1);
    cr_expect_not(spread_joined_right(&spread, 0, 0));
    spread_finish(&spread);
    pattern_finish(&pattern);
}

Test(layout, corners_and_notches_keep_off_the_joins_where_there_is_room_to_move) {
    // 177 + 3 mm clear would put the side exactly on the first join of A4, 180 mm from the margin.
    Pattern pattern;
    example_square(&pattern, 300, "Square");
    static Dot dot = {DOT_PIVOT, "K", {177, 50}};
    pattern.pieces.items[0].dots.items = &dot;
    pattern.pieces.items[0].dots.count = 1;
    SheetOptions options = example_options(SHEET_PDF);
    Spread spread;
    cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
    cr_assert(spread_pages(&spread, 210, 297, &fault));
    Point at = on_layout(&spread, 0, dot.at);
    double into = at.x - spread.layout.step_x; // past the join, where the band of OVERLAP_MM begins
    cr_expect(into <= -2.4 || into >= OVERLAP_MM + 2.4, "%g", into);
    spread_finish(&spread);
    pattern_finish(&pattern);
}

Test(layout, a_piece_with_room_on_one_page_is_never_split) {
    static const double papers[][2] = {{210, 297}, {215.9, 279.4}, {297, 420}};
    Pattern pattern, band;
    example_large(&pattern);
    example_band(&band, 210, 30, "Band"); // too long for A4 unless turned
    pattern_add_piece(&pattern, &band.pieces.items[0]);
    pattern_finish(&band);
    for (int p = 0; p < 3; p++) {
        SheetOptions options = example_options(SHEET_PDF);
        Spread spread;
        cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
        cr_assert(spread_pages(&spread, papers[p][0], papers[p][1], &fault));
        int fitting = 0;
        for (int i = 0; i < spread.item_count; i++) {
            const LayoutItem *item = &spread.items[i];
            double shorter = fmin(item->width, item->height), longer = fmax(item->width, item->height);
            if (shorter > papers[p][0] - 2 * MARGIN_MM || longer > papers[p][1] - 2 * MARGIN_MM)
                continue;
            fitting++;
            int shown = 0;
            PageRange range = layout_range(&spread.layout, item);
            for (int row = range.first_row; row <= range.last_row; row++)
                for (int column = range.first_column; column <= range.last_column; column++)
                    shown += spread_shows(&spread, i, row, column);
            cr_expect_eq(shown, 1, "%s on %g", spread.plates[i].piece->name, papers[p][0]);
        }
        cr_expect_geq(fitting, 1);
        spread_finish(&spread);
    }
    pattern_finish(&pattern);
}

// A part of a piece beside which no join is drawn would be taken for a line to cut.
Test(layout, a_page_shows_a_piece_of_another_page_only_where_it_is_glued_over_it) {
    static const double papers[][2] = {{210, 297}, {215.9, 279.4}, {130, 150}};
    Pattern pattern;
    example_large(&pattern);
    for (int p = 0; p < 3; p++) {
        SheetOptions options = example_options(SHEET_PDF);
        Spread spread;
        cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
        cr_assert(spread_pages(&spread, papers[p][0], papers[p][1], &fault));
        for (int i = 0; i < spread.item_count; i++)
            for (int row = 0; row < spread.layout.rows; row++)
                for (int column = 0; column < spread.layout.columns; column++) {
                    PageRange range = layout_range(&spread.layout, &spread.items[i]);
                    if (!spread_shows(&spread, i, row, column) ||
                        (row >= range.first_row && row <= range.last_row && column >= range.first_column &&
                         column <= range.last_column))
                        continue;
                    cr_expect((spread_joined_right(&spread, row, column - 1) &&
                               spread_shows(&spread, i, row, column - 1)) ||
                                  (spread_joined_below(&spread, row - 1, column) &&
                                   spread_shows(&spread, i, row - 1, column)),
                              "%s on row %d, column %d", spread.plates[i].piece->name, row, column);
                }
        spread_finish(&spread);
    }
    pattern_finish(&pattern);
}

Test(layout, a_fold_is_moved_out_of_the_band_that_is_glued) {
    // 180 mm from the side and 3 mm clear: 3 mm into the band after the first join of A4.
    Pattern pattern;
    example_square(&pattern, 300, "Square");
    Segment fold = segment_line(point(180, 0), point(180, 300));
    static InnerLine line = {.kind = INNER_FOLD, .name = "fold", .root = "fold"};
    line.path = (Path){.items = &fold, .count = 1};
    pattern.pieces.items[0].lines.items = &line;
    pattern.pieces.items[0].lines.count = 1;
    SheetOptions options = example_options(SHEET_PDF);
    Spread spread;
    cr_assert(spread_init(&spread, &pattern, &options, true, false, &fault));
    cr_assert(spread_pages(&spread, 210, 297, &fault));
    double into = on_layout(&spread, 0, fold.p0).x - spread.layout.step_x;
    cr_expect(into <= -2.4 || into >= OVERLAP_MM + 2.4, "%g", into);
    spread_finish(&spread);
    pattern_finish(&pattern);
}

Test(layout, pages_are_named_by_row_letter_and_column_number) {
    char name[16];
    page_name(0, 0, name);
    cr_expect_str_eq(name, "A1");
    page_name(1, 11, name);
    cr_expect_str_eq(name, "B12");
    page_name(26, 0, name);
    cr_expect_str_eq(name, "AA1");
}

// Sides of a linear congruential generator (constants of Numerical Recipes, from memory).
Test(layout, hundreds_of_items_lie_apart_on_one_sheet_and_on_pages) {
    enum { COUNT = 450 };
    static LayoutItem items[COUNT];
    for (int pages = 0; pages < 2; pages++) {
        unsigned state = 7;
        for (int i = 0; i < COUNT; i++) {
            double sides[2];
            for (int k = 0; k < 2; k++) {
                state = state * 1664525u + 1013904223u;
                sides[k] = 8 + (state >> 16) % 90;
            }
            items[i] = (LayoutItem){.width = sides[0], .height = sides[1], .may_turn = true};
        }
        Layout layout = {.items = items, .count = COUNT};
        cr_assert(pages ? layout_pages(&layout, 210, 297) : layout_whole(&layout, 5000));
        double area = 0;
        for (int i = 0; i < COUNT; i++) {
            area += items[i].width * items[i].height;
            for (int k = 0; k < i; k++)
                cr_assert_not(items_overlap(&items[i], &items[k]), "%d and %d", i, k);
        }
        if (!pages)
            cr_expect_gt(area, 0.6 * layout.width * layout.height, "of the sheet %.0f %% are used",
                         100 * area / (layout.width * layout.height));
    }
}
