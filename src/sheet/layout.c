#include "sheet/layout.h"

#include <math.h>
#include <stdlib.h>

#include "base/memory.h"

// Guided tour. Items are placed one after the other, the tallest first. The places tried for an item are the
// corners made by what lies already, and the starts of pages. The best place is the one that needs the fewest
// new pages, then crosses the fewest joins, then lies nearest to the upper left; an item that has room on one
// page rather takes a page of its own than being split. All of that is done for several numbers of columns
// (pages) or widths (one sheet), and the best whole result is kept. An item that must cross joins gets a
// little slack, and is then moved within it, and within what is free beside it, until no corner, notch or
// fold lies on a join or in the band that is glued.

#define SLACK_MM 5.0      // kept to move an item that crosses joins
#define SHIFT_MM 25.0     // it is moved no further, where more is free
#define OFF_JOIN_MM 2.5   // from a corner or notch to a join
#define PAGE_COST 1e6     // of a new page, in the cost of a place
#define SPLIT_COST 1.5e6  // of splitting an item that has room on one page
#define COVERED_COST 4e4  // of lying in a band that may be glued over
#define CROSSING_COST 1e4 // of a join that an item must cross
#define TURN_COST 2e4     // of turning an item: labels read best upright
#define PLACES_MAX 160    // coordinates tried on one axis, those that items make
#define PLACES_FEW 96     // of many items, the last that were made
#define ITEMS_MANY 150
#define GRID_MAX 4096 // pages looked at while placing

typedef struct Places {
    double items[PLACES_MAX + GRID_MAX];
    int count, next; // next: the one that gives way where there are enough
} Places;

typedef struct Packing {
    Layout *layout;
    int *order;
    int placed;
    double width;        // no item reaches further right
    double top;          // no item that keeps its order begins higher
    int columns;         // 0 on one sheet
    bool used[GRID_MAX]; // pages with something on them
    int pages, crossings;
    double right, bottom; // of what was placed
    int places_most;      // that the items make, on one axis
    Places across, down;  // those that the items placed make
    int *level;           // of the items placed those that reach into the height being tried, -1 before asked
    int level_count;
} Packing;

static double item_width(const LayoutItem *item) {
    return item->turned ? item->height : item->width;
}

static double item_height(const LayoutItem *item) {
    return item->turned ? item->width : item->height;
}

static int last_page(double to, double step, int first) {
    int last = (int)floor((to - OVERLAP_MM - POINT_ON_MM) / step);
    return last < first ? first : last;
}

PageRange layout_range(const Layout *layout, const LayoutItem *item) {
    PageRange range;
    range.first_column = (int)floor((item->at.x + POINT_SAME_MM) / layout->step_x);
    range.first_row = (int)floor((item->at.y + POINT_SAME_MM) / layout->step_y);
    range.last_column = last_page(item->at.x + item_width(item), layout->step_x, range.first_column);
    range.last_row = last_page(item->at.y + item_height(item), layout->step_y, range.first_row);
    return range;
}

Box layout_share(const Layout *layout, PageRange range, int row, int column) {
    Box box = {{column * layout->step_x, row * layout->step_y}, {0, 0}};
    box.most.x = box.least.x + (column == range.last_column ? layout->live_x : layout->step_x);
    box.most.y = box.least.y + (row == range.last_row ? layout->live_y : layout->step_y);
    return box;
}

static bool has_place(const Places *places, double value) {
    for (int i = 0; i < places->count; i++)
        if (fabs(places->items[i] - value) < POINT_ON_MM)
            return true;
    return false;
}

// The first one, 0, stays.
static void add_place(Places *places, double value, int most) {
    if (has_place(places, value))
        return;
    if (places->count < most) {
        places->items[places->count++] = value;
        return;
    }
    places->next = places->next % (most - 1) + 1;
    places->items[places->next] = value;
}

static bool items_overlap(const LayoutItem *a, const LayoutItem *b) {
    return a->at.x < b->at.x + item_width(b) - POINT_ON_MM &&
           b->at.x < a->at.x + item_width(a) - POINT_ON_MM &&
           a->at.y < b->at.y + item_height(b) - POINT_ON_MM &&
           b->at.y < a->at.y + item_height(a) - POINT_ON_MM;
}

// Items tried one after the other at one height meet the same few others, mostly the one that was met last.
static bool overlaps(Packing *packing, const LayoutItem *item) {
    const LayoutItem *items = packing->layout->items;
    if (packing->level_count < 0) {
        packing->level_count = 0;
        for (int i = 0; i < packing->placed; i++) {
            const LayoutItem *other = &items[packing->order[i]];
            if (item->at.y < other->at.y + item_height(other) - POINT_ON_MM &&
                other->at.y < item->at.y + item_height(item) - POINT_ON_MM)
                packing->level[packing->level_count++] = packing->order[i];
        }
    }
    for (int i = 0; i < packing->level_count; i++) {
        const int met = packing->level[i];
        if (!items_overlap(&items[met], item))
            continue;
        packing->level[i] = packing->level[0];
        packing->level[0] = met;
        return true;
    }
    return false;
}

// Whether it has room on one page, turned if it may be.
static bool fits_page(const Layout *layout, const LayoutItem *item) {
    return (item->width <= layout->live_x && item->height <= layout->live_y) ||
           (item->may_turn && item->height <= layout->live_x && item->width <= layout->live_y);
}

// Whether it ends in the band of its last page, and the next one has something on it: the two may be glued.
static bool in_used_band(const Packing *packing, const LayoutItem *item, PageRange range) {
    const Layout *layout = packing->layout;
    const double right = item->at.x + item_width(item) - CLEAR_MM,
                 bottom = item->at.y + item_height(item) - CLEAR_MM;
    const bool past_right = right > (range.last_column + 1) * layout->step_x,
               past_bottom = bottom > (range.last_row + 1) * layout->step_y;
    for (int row = range.first_row; row <= range.last_row + past_bottom; row++)
        for (int column = range.first_column; column <= range.last_column + past_right; column++)
            if ((row > range.last_row || column > range.last_column) && column < packing->columns &&
                row * packing->columns + column < GRID_MAX && packing->used[row * packing->columns + column])
                return true;
    return false;
}

static double page_cost(const Packing *packing, const LayoutItem *item) {
    PageRange range = layout_range(packing->layout, item);
    if (range.last_column >= packing->columns || (range.last_row + 1) * packing->columns > GRID_MAX)
        return INFINITY;
    int fresh = 0;
    for (int row = range.first_row; row <= range.last_row; row++)
        for (int column = range.first_column; column <= range.last_column; column++)
            fresh += !packing->used[row * packing->columns + column];
    const bool covered = in_used_band(packing, item, range);
    int crossed = range.last_column - range.first_column + range.last_row - range.first_row;
    return fresh * PAGE_COST + covered * COVERED_COST +
           crossed * (fits_page(packing->layout, item) ? SPLIT_COST : CROSSING_COST);
}

static double place_cost(const Packing *packing, const LayoutItem *item) {
    double right = item->at.x + item_width(item), bottom = item->at.y + item_height(item);
    if (right > packing->width + POINT_ON_MM || item->at.y < packing->top)
        return INFINITY;
    double near = bottom + 0.3 * right + (item->turned ? TURN_COST : 0);
    if (packing->columns > 0)
        return page_cost(packing, item) + near;
    // One sheet: new height is what costs.
    return fmax(bottom - packing->bottom, 0) * 1000 + near;
}

static void add_for_now(Places *places, double value) {
    if (places->count < PLACES_MAX + GRID_MAX && !has_place(places, value))
        places->items[places->count++] = value;
}

// Behind the places that the items make: below all of them, and the starts of pages; of many items those of
// the last rows.
static void add_page_starts(const Packing *packing, bool across, Places *places) {
    const Layout *layout = packing->layout;
    if (!across)
        add_for_now(places, packing->bottom);
    if (packing->columns == 0)
        return;
    double step = across ? layout->step_x : layout->step_y;
    int pages = across ? packing->columns : (int)ceil(packing->bottom / step) + 1;
    for (int i = !across && layout->count > ITEMS_MANY && pages > 4 ? pages - 3 : 1; i < pages; i++)
        add_for_now(places, i * step);
}

static bool place_item(Packing *packing, LayoutItem *item) {
    Places *across = &packing->across, *down = &packing->down;
    const int own_across = across->count, own_down = down->count;
    add_page_starts(packing, true, across);
    add_page_starts(packing, false, down);
    LayoutItem best = *item;
    double least = INFINITY;
    for (int turn = 0; turn <= (item->may_turn ? 1 : 0); turn++)
        for (int y = 0; y < down->count; y++) {
            packing->level_count = -1;
            for (int x = 0; x < across->count; x++) {
                LayoutItem tried = *item;
                tried.turned = turn == 1;
                tried.at = point(across->items[x], down->items[y]);
                double cost = place_cost(packing, &tried);
                if (cost >= least || overlaps(packing, &tried))
                    continue;
                least = cost;
                best = tried;
            }
        }
    across->count = own_across;
    down->count = own_down;
    if (least == INFINITY)
        return false;
    *item = best;
    add_place(across, item->at.x + item_width(item), packing->places_most);
    add_place(down, item->at.y + item_height(item), packing->places_most);
    packing->right = fmax(packing->right, item->at.x + item_width(item));
    packing->bottom = fmax(packing->bottom, item->at.y + item_height(item));
    if (packing->columns == 0)
        return true;
    PageRange range = layout_range(packing->layout, item);
    packing->crossings += range.last_column - range.first_column + range.last_row - range.first_row;
    for (int row = range.first_row; row <= range.last_row; row++)
        for (int column = range.first_column; column <= range.last_column; column++) {
            bool *used = &packing->used[row * packing->columns + column];
            packing->pages += !*used;
            *used = true;
        }
    return true;
}

// The order is that of the heights, so that shelves come out even; equal ones keep the order of the pattern.
// With as much room behind it, for the items at one height.
static int *order_new(const Layout *layout) {
    int *order = mem_new(sizeof *order * 2 * (size_t)layout->count);
    for (int i = 0; i < layout->count; i++) {
        int k = i;
        for (; k > 0 && i < layout->count - layout->ordered &&
               layout->items[order[k - 1]].height < layout->items[i].height;
             k--)
            order[k] = order[k - 1];
        order[k] = i;
    }
    return order;
}

static bool pack(Packing *packing, Layout *layout, double width, int columns, int *order) {
    *packing = (Packing){
        .layout = layout, .order = order, .width = width, .columns = columns, .level = order + layout->count};
    packing->places_most = layout->count > ITEMS_MANY ? PLACES_FEW : PLACES_MAX;
    add_place(&packing->across, 0, PLACES_MAX);
    add_place(&packing->down, 0, PLACES_MAX);
    for (int i = 0; i < layout->count; i++) {
        LayoutItem *item = &layout->items[order[i]];
        item->turned = false;
        if (!place_item(packing, item))
            return false;
        if (order[i] >= layout->count - layout->ordered)
            packing->top = item->at.y;
        packing->placed++;
    }
    return true;
}

static void measure(Layout *layout) {
    layout->width = layout->height = 0;
    for (int i = 0; i < layout->count; i++) {
        layout->width = fmax(layout->width, layout->items[i].at.x + item_width(&layout->items[i]));
        layout->height = fmax(layout->height, layout->items[i].at.y + item_height(&layout->items[i]));
    }
}

// The least sheet, but one that fits a roll of 36 in (914 mm) wherever a width can be found that does.
bool layout_whole(Layout *layout, double limit) {
    if (layout->count == 0)
        return true;
    double widest = 0, sum = 0;
    for (int i = 0; i < layout->count; i++) {
        widest = fmax(widest, layout->items[i].width);
        sum += layout->items[i].width;
    }
    Packing *packing = mem_new(sizeof *packing);
    int *order = order_new(layout);
    double best_cost = INFINITY, best_width = 0;
    enum { WIDTHS = 12 };
    for (int i = 0; i < WIDTHS; i++) {
        double width = fmin(widest + (sum - widest) * i / (WIDTHS - 1), limit);
        if (!pack(packing, layout, width, 0, order) || packing->right > limit || packing->bottom > limit)
            continue;
        double cost = packing->right * packing->bottom;
        if (fmin(packing->right, packing->bottom) > 890)
            cost *= 2;
        // A sheet much longer than wide is awkward where there is a choice.
        cost *= 1 + 0.1 * fmax(packing->right / packing->bottom, packing->bottom / packing->right);
        if (cost >= best_cost)
            continue;
        best_cost = cost;
        best_width = width;
    }
    bool good = best_cost < INFINITY && pack(packing, layout, best_width, 0, order);
    measure(layout);
    mem_free(order);
    mem_free(packing);
    return good;
}

bool layout_into(Layout *layout, double width, double height) {
    if (layout->count == 0)
        return true;
    Packing *packing = mem_new(sizeof *packing);
    int *order = order_new(layout);
    bool good = pack(packing, layout, width, 0, order) && packing->bottom <= height;
    measure(layout);
    mem_free(order);
    mem_free(packing);
    return good;
}

// How many kept points of an item lie on a join or in a band of one axis.
static int points_on_joins(const LayoutItem *item, bool across, double step) {
    int count = 0;
    for (int i = 0; i < item->keep_count; i++) {
        Point p = item->keep[i];
        if (item->turned)
            p = point(p.y, item->width - p.x);
        double at = (across ? item->at.x + p.x : item->at.y + p.y) + OFF_JOIN_MM;
        count += at >= step && fmod(at, step) < OVERLAP_MM + 2 * OFF_JOIN_MM;
    }
    return count;
}

static bool lies_free(const Layout *layout, const LayoutItem *item) {
    for (int i = 0; i < layout->count; i++)
        if (&layout->items[i] != item && items_overlap(&layout->items[i], item))
            return false;
    return true;
}

static bool same_range(PageRange a, PageRange b) {
    return a.first_row == b.first_row && a.last_row == b.last_row && a.first_column == b.first_column &&
           a.last_column == b.last_column;
}

// The least move along an axis that leaves the fewest points on joins; the item stays on its pages.
static void move_off_joins(const Layout *layout, LayoutItem *item, bool across) {
    const double step = across ? layout->step_x : layout->step_y;
    const PageRange range = layout_range(layout, item);
    if (across ? range.first_column == range.last_column : range.first_row == range.last_row)
        return;
    const Point from = item->at;
    Point best = from;
    int least = points_on_joins(item, across, step);
    for (double shift = 0.5; shift <= SHIFT_MM && least > 0; shift += 0.5) {
        item->at = across ? point(from.x + shift, from.y) : point(from.x, from.y + shift);
        if (!same_range(range, layout_range(layout, item)) || !lies_free(layout, item))
            break;
        const int count = points_on_joins(item, across, step);
        if (count >= least)
            continue;
        least = count;
        best = item->at;
    }
    item->at = best;
}

bool layout_pages(Layout *layout, double paper_width, double paper_height) {
    layout->live_x = paper_width - 2 * MARGIN_MM;
    layout->live_y = paper_height - 2 * MARGIN_MM;
    layout->step_x = layout->live_x - OVERLAP_MM;
    layout->step_y = layout->live_y - OVERLAP_MM;
    layout->columns = layout->rows = 0;
    if (layout->count == 0)
        return true;

    double widest = 0, sum = 0;
    for (int i = 0; i < layout->count; i++) {
        LayoutItem *item = &layout->items[i];
        if (item->width > layout->live_x || item->height > layout->live_y) {
            item->slack = SLACK_MM;
            item->width += item->slack;
            item->height += item->slack;
        }
        widest = fmax(widest, item->width);
        sum += item->width;
    }
    int least = (int)ceil(fmax(widest - OVERLAP_MM, 1) / layout->step_x), best_columns = 0;
    int most = (int)fmin(fmax(ceil(sum / layout->step_x), least), least + 5);
    Packing *packing = mem_new(sizeof *packing);
    int *order = order_new(layout);
    double best_cost = INFINITY;
    for (int columns = least; columns <= most && columns <= PAGES_MAX; columns++) {
        if (!pack(packing, layout, columns * layout->step_x + OVERLAP_MM, columns, order))
            continue;
        double cost = packing->pages * 100 + packing->crossings * 10 + columns * 0.1;
        if (packing->pages > PAGES_MAX || cost >= best_cost)
            continue;
        best_cost = cost;
        best_columns = columns;
    }
    bool good = best_columns > 0 &&
                pack(packing, layout, best_columns * layout->step_x + OVERLAP_MM, best_columns, order);
    mem_free(order);
    mem_free(packing);
    if (!good)
        return false;
    for (int i = 0; i < layout->count; i++) {
        layout->items[i].width -= layout->items[i].slack;
        layout->items[i].height -= layout->items[i].slack;
    }
    for (int i = 0; i < layout->count; i++) {
        LayoutItem *item = &layout->items[i];
        move_off_joins(layout, item, true);
        move_off_joins(layout, item, false);
        const PageRange range = layout_range(layout, item);
        layout->columns = layout->columns > range.last_column + 1 ? layout->columns : range.last_column + 1;
        layout->rows = layout->rows > range.last_row + 1 ? layout->rows : range.last_row + 1;
    }
    measure(layout);
    return true;
}
