#include "sheet/spread.h"

#include <math.h>
#include <stdio.h>

#include "base/memory.h"

void page_name(int row, int column, char out[16]) {
    if (row < 26)
        snprintf(out, 16, "%c%d", 'A' + row, (column + 1) % 10000);
    else
        snprintf(out, 16, "%c%c%d", 'A' + (row / 26 - 1) % 26, 'A' + row % 26, (column + 1) % 10000);
}

static bool is_draft(const Spread *spread, int item) {
    return item >= spread->first_draft_item;
}

static int item_draft(const Spread *spread, int item) {
    return spread->drafts[item - spread->first_draft_item];
}

static Box item_box(const Spread *spread, int item) {
    if (!is_draft(spread, item))
        return spread->plates[item].box;
    Box box = spread->draft_boxes[item - spread->first_draft_item];
    double mm = 1 / spread->options->scale, room = FIGURE_ROOM_MM * mm;
    box.least = point_sub(box.least, point(room, room));
    box.most = point_add(box.most, point(room, room + FIGURE_TITLE_MM * mm));
    double title = figure_title_width(spread->pattern, item_draft(spread, item), spread->options->scale);
    box.most.x = fmax(box.most.x, box.least.x + (title + FIGURE_TITLE_GAP_MM) * mm);
    return box;
}

static Affine item_view(const Spread *spread, int item, Point origin, double k) {
    const LayoutItem *it = &spread->items[item];
    Box box = item_box(spread, item);
    Point corner = it->turned ? box.most : point(box.least.x, box.most.y);
    Point to = point_add(origin, point_scale(point_add(it->at, point(CLEAR_MM, CLEAR_MM)), k));
    return canvas_place(spread->options->scale * k, it->turned ? 90 : 0, corner, to);
}

// a x + c y + e = x', b x + d y + f = y', solved for x and y.
static Point undo(Affine m, Point p) {
    double det = m.a * m.d - m.b * m.c, x = p.x - m.e, y = p.y - m.f;
    return point((m.d * x - m.c * y) / det, (m.a * y - m.b * x) / det);
}

// The first piece traced from a draft, -1 where none was.
static int draft_piece(const Pattern *pattern, int draft) {
    for (int i = 0; i < pattern->pieces.count; i++)
        if (pattern->pieces.items[i].draft == draft)
            return i;
    return -1;
}

// The drafts the recipe worked on; those it was only built on are their own recipes' to show. All of them
// where it worked on none. In the order they were begun, but as their pieces follow each other: a block may
// begin with the back, and the collar with the front.
static bool find_drafts(Spread *spread, Fault *fault) {
    const Pattern *pattern = spread->pattern;
    bool worked = false;
    for (int i = 0; i < pattern->drafts.count; i++)
        worked = worked || figure_is_new(pattern, i);
    spread->drafts = mem_new(sizeof *spread->drafts * (size_t)(pattern->drafts.count + 1));
    spread->draft_boxes = mem_new(sizeof *spread->draft_boxes * (size_t)(pattern->drafts.count + 1));
    for (int i = 0; i < pattern->drafts.count; i++) {
        if (!figure_check(pattern, i, fault))
            return false;
        const Box box = figure_box(pattern, i);
        if ((worked && !figure_is_new(pattern, i)) || box_is_empty(box))
            continue;
        int at = spread->draft_count++;
        for (; at > 0 && draft_piece(pattern, i) < draft_piece(pattern, spread->drafts[at - 1]); at--) {
            spread->drafts[at] = spread->drafts[at - 1];
            spread->draft_boxes[at] = spread->draft_boxes[at - 1];
        }
        spread->drafts[at] = i;
        spread->draft_boxes[at] = box;
    }
    return true;
}

static void make_item(Spread *spread, int item) {
    Box box = item_box(spread, item);
    double scale = spread->options->scale;
    LayoutItem *it = &spread->items[item];
    *it = (LayoutItem){.width = (box.most.x - box.least.x) * scale + 2 * CLEAR_MM,
                       .height = (box.most.y - box.least.y) * scale + 2 * CLEAR_MM,
                       .may_turn = !is_draft(spread, item)};
    if (is_draft(spread, item))
        return;
    const Polygon *keep = &spread->plates[item].keep;
    Point *points = mem_new(sizeof *points * (size_t)(keep->count + 1));
    for (int i = 0; i < keep->count; i++)
        points[i] = point((keep->items[i].x - box.least.x) * scale + CLEAR_MM,
                          (box.most.y - keep->items[i].y) * scale + CLEAR_MM);
    spread->keep[item] = points;
    it->keep = points;
    it->keep_count = keep->count;
}

bool spread_init(Spread *spread, const Pattern *pattern, const SheetOptions *options, bool pieces,
                 bool drafts, Fault *fault) {
    *spread = (Spread){.pattern = pattern, .options = options};
    spread->plates = mem_new(sizeof *spread->plates * (size_t)(pattern->pieces.count + 1));
    for (int i = 0; i < pattern->pieces.count; i++) {
        spread->plate_count = i + 1;
        if (!plate_init(&spread->plates[i], pattern, i, options->scale, fault)) {
            spread_finish(spread);
            return false;
        }
    }
    if (!find_drafts(spread, fault)) {
        spread_finish(spread);
        return false;
    }
    spread->first_draft_item = pieces ? spread->plate_count : 0;
    spread->item_count = spread->first_draft_item + (drafts ? spread->draft_count : 0);
    spread->items = mem_new(sizeof *spread->items * (size_t)(spread->item_count + 1));
    spread->keep = mem_new(sizeof *spread->keep * (size_t)(spread->item_count + 1));
    for (int i = 0; i < spread->item_count; i++)
        make_item(spread, i);
    spread->layout.items = spread->items;
    spread->layout.count = spread->item_count;
    spread->layout.ordered = spread->item_count - spread->first_draft_item;
    return true;
}

void spread_finish(Spread *spread) {
    for (int i = 0; i < spread->plate_count; i++)
        plate_finish(&spread->plates[i]);
    for (int i = 0; spread->keep != NULL && i < spread->item_count; i++)
        mem_free(spread->keep[i]);
    for (int i = 0; spread->recordings != NULL && i < spread->draft_count; i++)
        recording_finish(&spread->recordings[i]);
    mem_free(spread->recordings);
    mem_free(spread->keep);
    mem_free(spread->plates);
    mem_free(spread->drafts);
    mem_free(spread->draft_boxes);
    mem_free(spread->items);
    mem_free(spread->used);
    mem_free(spread->shows);
    *spread = (Spread){.pattern = NULL};
}

static void place_labels(Spread *spread) {
    const Layout *layout = &spread->layout;
    for (int i = 0; i < spread->first_draft_item && i < spread->item_count; i++) {
        Affine view = item_view(spread, i, point(0, 0), 1);
        LineList joins = {.items = NULL};
        for (int c = 1; c < layout->columns; c++)
            for (int band = 0; band < 2; band++) {
                double x = c * layout->step_x + band * OVERLAP_MM;
                ARRAY_ADD(&joins, ((Line){undo(view, point(x, 0)), undo(view, point(x, layout->height))}));
            }
        for (int r = 1; r < layout->rows; r++)
            for (int band = 0; band < 2; band++) {
                double y = r * layout->step_y + band * OVERLAP_MM;
                ARRAY_ADD(&joins, ((Line){undo(view, point(0, y)), undo(view, point(layout->width, y))}));
            }
        plate_place_label(&spread->plates[i], &joins);
        mem_free(joins.items);
    }
}

bool spread_whole(Spread *spread, double block_width, double block_height, double limit, Fault *fault) {
    // The title block stands on the left of all pieces, or above them, whichever leaves the smaller sheet.
    bool block = block_width > 0;
    Layout *layout = &spread->layout;
    bool good = layout_whole(layout, limit);
    if (good && block) {
        double gap = spread->item_count > 0 ? 2 * CLEAR_MM : 0;
        bool above = fmax(layout->width, block_width) * (layout->height + block_height + gap) <
                     (layout->width + block_width + gap) * fmax(layout->height, block_height);
        Point by = above ? point(0, block_height + gap) : point(block_width + gap, 0);
        for (int i = 0; i < spread->item_count; i++)
            spread->items[i].at = point_add(spread->items[i].at, by);
        layout->width = fmax(layout->width + by.x, block_width);
        layout->height = fmax(layout->height + by.y, block_height);
        good = layout->width <= limit && layout->height <= limit;
    }
    if (!good) {
        fault_set(fault, NULL, 0, "the pieces do not fit one sheet of %.1f m on each side", limit / 1000);
        fault_set_hint(fault, "print on pages (a4, letter, or a size of your own), or at a smaller scale");
        return false;
    }
    place_labels(spread);
    return true;
}

bool spread_into(Spread *spread, double width, double height) {
    if (!layout_into(&spread->layout, width, height))
        return false;
    place_labels(spread);
    return true;
}

bool spread_item_in(const Spread *spread, int item, Box box) {
    Affine view = item_view(spread, item, point(0, 0), 1);
    Point a = undo(view, box.least), b = undo(view, box.most);
    Box inside = {{fmin(a.x, b.x), fmin(a.y, b.y)}, {fmax(a.x, b.x), fmax(a.y, b.y)}};
    if (is_draft(spread, item))
        return box_touch(item_box(spread, item), inside, 0);
    const Plate *plate = &spread->plates[item];
    if (polygon_touches_box(&plate->outside, inside))
        return true;
    for (int i = 0; i < plate->notches.count; i++)
        if (line_touches_box((Line){plate->notches.items[i].seam, plate->notches.items[i].cut}, inside))
            return true;
    return false;
}

static bool *shown(const Spread *spread, int item, int row, int column) {
    const Layout *layout = &spread->layout;
    return &spread->shows[(item * layout->rows + row) * layout->columns + column];
}

static Box page_box(const Layout *layout, int row, int column) {
    const Point corner = point(column * layout->step_x, row * layout->step_y);
    return (Box){corner, point_add(corner, point(layout->live_x, layout->live_y))};
}

// A page that is glued over another shows what it covers there.
static void show_covered(Spread *spread, int row, int column, int down, int right) {
    const Layout *layout = &spread->layout;
    if (right ? !spread_joined_right(spread, row, column - 1) : !spread_joined_below(spread, row - 1, column))
        return;
    const Box over = page_box(layout, row, column), under = page_box(layout, row - down, column - right);
    for (int i = 0; i < spread->item_count; i++)
        if (*shown(spread, i, row - down, column - right) &&
            spread_item_in(
                spread, i,
                (Box){over.least, point(fmin(over.most.x, under.most.x), fmin(over.most.y, under.most.y))}))
            *shown(spread, i, row, column) = true;
}

static void find_shown(Spread *spread) {
    const Layout *layout = &spread->layout;
    const size_t pages = (size_t)(layout->rows * layout->columns);
    spread->used = mem_new((pages + 1) * sizeof *spread->used);
    spread->shows = mem_new((pages * (size_t)spread->item_count + 1) * sizeof *spread->shows);
    for (int i = 0; i < spread->item_count; i++) {
        PageRange range = layout_range(layout, &spread->items[i]);
        for (int row = range.first_row; row <= range.last_row; row++)
            for (int column = range.first_column; column <= range.last_column; column++) {
                if (!spread_item_in(spread, i, layout_share(layout, range, row, column)))
                    continue;
                *shown(spread, i, row, column) = true;
                bool *used = &spread->used[row * layout->columns + column];
                spread->pages += !*used;
                *used = true;
            }
    }
    // From the upper left on, so that what two bands share passes over both.
    for (int row = 0; row < layout->rows; row++)
        for (int column = 0; column < layout->columns; column++) {
            show_covered(spread, row, column, 0, 1);
            show_covered(spread, row, column, 1, 0);
        }
}

static void draw_draft(const Spread *spread, Canvas *canvas, int item, Point origin) {
    FigureOptions options = {.scale = spread->options->scale, .units = spread->options->units};
    Point from = item_box(spread, item).least;
    figure_draw(spread->pattern, item_draft(spread, item), &options, canvas, from,
                affine_point(item_view(spread, item, origin, 1), from));
}

// The words of a draft are placed once, however many pages show it.
static void record_drafts(Spread *spread) {
    if (spread->item_count == spread->first_draft_item)
        return;
    spread->recordings = mem_new(sizeof *spread->recordings * (size_t)spread->draft_count);
    for (int i = 0; i < spread->draft_count; i++) {
        recording_init(&spread->recordings[i]);
        draw_draft(spread, &spread->recordings[i].canvas, spread->first_draft_item + i, point(0, 0));
    }
}

bool spread_pages(Spread *spread, double paper_width, double paper_height, Fault *fault) {
    Layout *layout = &spread->layout;
    if (!layout_pages(layout, paper_width, paper_height)) {
        fault_set(fault, NULL, 0, "the drawing takes more than %d pages of %.0f x %.0f mm", PAGES_MAX,
                  paper_width, paper_height);
        fault_set_hint(fault, "use larger paper, or a smaller scale");
        return false;
    }
    place_labels(spread);
    find_shown(spread);
    record_drafts(spread);
    return true;
}

bool spread_page_used(const Spread *spread, int row, int column) {
    return row >= 0 && column >= 0 && row < spread->layout.rows && column < spread->layout.columns &&
           spread->used[row * spread->layout.columns + column];
}

bool spread_shows(const Spread *spread, int item, int row, int column) {
    return spread_page_used(spread, row, column) && *shown(spread, item, row, column);
}

// Whether an item is on both pages and lies on the band between them. What show_covered adds makes no join:
// that item ends in the band.
static bool joined(const Spread *spread, int row, int column, int down, int right) {
    const Layout *layout = &spread->layout;
    for (int i = 0; i < spread->item_count; i++) {
        if (!spread_shows(spread, i, row, column) || !spread_shows(spread, i, row + down, column + right))
            continue;
        const PageRange range = layout_range(layout, &spread->items[i]);
        if (row + down > range.last_row || column + right > range.last_column || row < range.first_row ||
            column < range.first_column)
            continue;
        Box band = page_box(layout, row + down, column + right);
        const Box page = page_box(layout, row, column);
        band.most = point(fmin(band.most.x, page.most.x), fmin(band.most.y, page.most.y));
        if (spread_item_in(spread, i, band))
            return true;
    }
    return false;
}

bool spread_joined_right(const Spread *spread, int row, int column) {
    return joined(spread, row, column, 0, 1);
}

bool spread_joined_below(const Spread *spread, int row, int column) {
    return joined(spread, row, column, 1, 0);
}

void spread_draw_item(const Spread *spread, Canvas *canvas, int item, Point origin) {
    if (is_draft(spread, item)) {
        if (spread->recordings != NULL)
            recording_draw(&spread->recordings[item - spread->first_draft_item], canvas, origin);
        else
            draw_draft(spread, canvas, item, origin);
        return;
    }
    canvas_view(canvas, item_view(spread, item, origin, 1));
    plate_draw(&spread->plates[item], canvas);
    canvas_paper(canvas);
}

void spread_draw_small(const Spread *spread, Canvas *canvas, int item, Point origin, double k) {
    canvas_view(canvas, item_view(spread, item, origin, k));
    if (!is_draft(spread, item))
        plate_draw_small(&spread->plates[item], canvas);
    canvas_paper(canvas);
}
