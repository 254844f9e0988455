// Where every drawing lies, and which pages that takes: pieces side by side on one sheet, or on a grid of
// pages that are joined after printing. Millimetres of paper, y down.
#ifndef REBATO_SHEET_LAYOUT_H
#define REBATO_SHEET_LAYOUT_H

#include <stdbool.h>

#include "geometry/segment.h"

#define MARGIN_MM 10.0  // unprinted round each page; printers need from 4 to 7 (manufacturers' sheets)
#define OVERLAP_MM 10.0 // the band in which neighbouring pages are glued (common practice, no source)
#define CLEAR_MM 3.0    // kept free round each piece: no cut line lies on the frame of a page
#define PAGES_MAX 400

typedef struct LayoutItem {
    double width, height; // CLEAR_MM included
    double slack;         // set by the layout: room it gave to move an item that crosses joins
    bool may_turn;
    Point at;    // its upper left corner; set by the layout
    bool turned; // by 90 degrees counter-clockwise
    // What should not lie on a join: points measured from the upper left corner of the item as it is not
    // turned; borrowed.
    const Point *keep;
    int keep_count;
} LayoutItem;

typedef struct Layout {
    LayoutItem *items; // borrowed
    int count;
    int ordered;          // so many of the last items are placed after the others, in their own order
    double width, height; // of all that was placed
    // Pages. Page (row, column) shows what lies right and below of (column * step_x, row * step_y), live_x by
    // live_y large.
    int columns, rows;
    double live_x, live_y, step_x, step_y;
} Layout;

// On one sheet no wider or taller than limit on either side; false when it cannot be.
bool layout_whole(Layout *layout, double limit);

// In a space of that size, as it is; false when it does not fit.
bool layout_into(Layout *layout, double width, double height);

// On pages of that paper. False when it takes more than PAGES_MAX.
bool layout_pages(Layout *layout, double paper_width, double paper_height);

// The pages an item lies on, all included; only a part of an outline may touch some of them.
typedef struct PageRange {
    int first_row, last_row, first_column, last_column;
} PageRange;
PageRange layout_range(const Layout *layout, const LayoutItem *item);

// What a page has to show of an item that ends in column `last_column` and row `last_row`: these boxes fill
// the item without overlap.
Box layout_share(const Layout *layout, PageRange range, int row, int column);

#endif
