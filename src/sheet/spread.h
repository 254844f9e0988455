// The drawings of a pattern spread out on paper: pieces made ready and laid out, or drafts where those are
// asked for.
#ifndef REBATO_SHEET_SPREAD_H
#define REBATO_SHEET_SPREAD_H

#include "sheet/figure.h"
#include "sheet/layout.h"
#include "sheet/plate.h"
#include "sheet/recording.h"
#include "sheet/sheet.h"

typedef struct Spread {
    const Pattern *pattern;
    const SheetOptions *options;
    Plate *plates; // all pieces of the pattern
    int plate_count;
    int *drafts;      // the drafts that have something to draw
    Box *draft_boxes; // theirs
    int draft_count;
    LayoutItem *items; // the pieces first, then the drafts where both are items
    Point **keep;
    int item_count, first_draft_item;
    Layout layout;
    Recording *recordings; // of the drafts that are items, drawn with the layout at (0, 0): on pages only
    bool *used;            // pages, row by row
    bool *shows;           // items on pages: those of the first item, then of the next
    int pages;             // that are used
} Spread;

// pieces, drafts: what the items are. Makes everything ready, lays out nothing.
bool spread_init(Spread *spread, const Pattern *pattern, const SheetOptions *options, bool pieces,
                 bool drafts, Fault *fault);
void spread_finish(Spread *spread);

// One sheet; a block of that size (0, 0 for none) stands free in its upper left corner, for the title and
// squares.
bool spread_whole(Spread *spread, double block_width, double block_height, double limit, Fault *fault);
// In a space of that size; false where it does not fit.
bool spread_into(Spread *spread, double width, double height);
bool spread_pages(Spread *spread, double paper_width, double paper_height, Fault *fault);

bool spread_page_used(const Spread *spread, int row, int column);
// Whether the page shows the item. An item that ends inside a page's band shows on the neighbour only where
// that one is glued over it.
bool spread_shows(const Spread *spread, int item, int row, int column);
// Whether something passes from a page to the one on its right, or below it.
bool spread_joined_right(const Spread *spread, int row, int column);
bool spread_joined_below(const Spread *spread, int row, int column);

// Draws an item with the layout's upper left corner at origin; small: its outline alone, everything
// multiplied by k.
void spread_draw_item(const Spread *spread, Canvas *canvas, int item, Point origin);
void spread_draw_small(const Spread *spread, Canvas *canvas, int item, Point origin, double k);

// Whether an item has anything to show in a box of the layout.
bool spread_item_in(const Spread *spread, int item, Box box);

// "A1", "B12", "AA1".
void page_name(int row, int column, char out[16]);

#endif
