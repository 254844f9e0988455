#include <math.h>
#include <stdio.h>
#include <string.h>

#include "booklet/paging.h"

#define HEAD_MM 9.0 // of the base line of the head above the text, and of the foot below it

int page_of(const Paging *p, const char *place) {
    for (int i = 0; i < p->rows.count; i++)
        for (int k = 0; k < ROW_PLACES_MAX && p->rows.items[i].places[k] != NULL; k++)
            if (strcmp(p->rows.items[i].places[k], place) == 0)
                return p->rows.items[i].page;
    return -1;
}

static void draw_placed(Paging *p, const Placed *placed, Point corner) {
    const Point at = point_add(corner, point(placed->x, placed->y));
    typeset_begin(p->set, "Figure");
    typeset_figure_text(p->set, placed->picture->alt);
    if (placed->picture->kind == BOOK_PICTURE_IMAGE) {
        const BookImage *image = &placed->picture->image;
        const TypeImage given = // image_read has opened it once
            {.bytes = image->bytes,
             .length = image->length,
             .jpeg = image->kind == IMAGE_JPEG,
             .width = image->width,
             .height = image->height};
        (void)typeset_image(p->set, &given, (Box){at, point_add(at, point(placed->width, placed->height))});
    } else {
        picture_draw(p->book->pictures, &placed->ask, typeset_canvas(p->set), at);
    }
    typeset_end(p->set, "Figure");
}

static bool is_around(const Nest *outer, const Nest *nest) {
    while (nest != NULL && nest != outer)
        nest = nest->outer;
    return nest == outer;
}

static void open_nest(Paging *p, const Nest *nest) {
    if (nest == p->open)
        return;
    open_nest(p, nest->outer);
    typeset_begin(p->set, nest->role);
    p->open = nest;
}

// Ends what the next row is not inside of, and begins what it is. It may run on over pages.
static void move_to(Paging *p, const Nest *nest) {
    while (!is_around(p->open, nest)) {
        typeset_end(p->set, p->open->role);
        p->open = p->open->outer;
    }
    open_nest(p, nest);
}

static void draw_cells(Paging *p, const Row *row, double y) {
    typeset_begin(p->set, "TR");
    for (int i = 0; i < row->cell_count; i++) {
        const Cell *cell = &row->cells[i];
        const char *role = row->names || (row->first_names && i == 0) ? "TH" : "TD";
        typeset_begin(p->set, role);
        if (cell->has_picture)
            draw_placed(p, &cell->picture, point(row->x, y));
        double down = y + cell->y;
        for (int k = 0; cell->text != NULL && k < type_text_lines(cell->text); k++) {
            typeset_line(p->set, cell->text, k, point(row->x + cell->x, down));
            down += type_text_line_height(cell->text, k);
        }
        typeset_end(p->set, role);
    }
    typeset_end(p->set, "TR");
    Canvas *canvas = typeset_canvas(p->set);
    if (row->rule)
        canvas_draw_line(canvas, row->names ? LINE_INNER : LINE_RULE, point(row->x, y + row->height),
                         point(row->x + row->width, y + row->height));
}

static void draw_rows(Paging *p, const Row *rows, int count, double down);

static void draw_entry(Paging *p, const Row *row, double y) {
    typeset_line(p->set, row->text, row->line, point(row->x, y));
    const int page = row->entry != NULL ? page_of(p, row->entry->anchor) : -1;
    if (page < 0)
        return;
    char number[16];
    snprintf(number, sizeof number, "%d", page + 1);
    const Span span = {.text = number, .link = arena_format(&p->arena, "#%s", row->entry->anchor)};
    p->quiet_links = true;
    TypeText *text = page_text(p, row->entry->depth == 0 ? TYPE_BODY : TYPE_SMALL,
                               (SpanList){.items = &span, .count = 1}, 13, NULL, ALIGN_RIGHT);
    p->quiet_links = false;
    const double down = type_text_baseline(row->text, row->line) - type_text_baseline(text, 0);
    typeset_line(p->set, text, 0, point(row->x + row->width - 13, y + down));
}

static void draw_marker(Paging *p, const Row *row, double y) {
    const double x = type_text_is_rtl(row->text) ? row->x + row->width + 2 : row->x - 5;
    move_to(p, row->marked);
    typeset_begin(p->set, "Lbl");
    typeset_line(p->set, row->marker, 0, point(x, y));
    typeset_end(p->set, "Lbl");
}

// down: what is added to the place of a row that stands inside another.
static void draw_row(Paging *p, const Row *row, double down) {
    const double y = row->y + down;
    Canvas *canvas = typeset_canvas(p->set);
    switch (row->kind) {
    case ROW_LINE:
        typeset_line(p->set, row->text, row->line, point(row->x, y));
        break;
    case ROW_PAIR:
        draw_rows(p, row->inner, row->inner_count, y);
        // fall through
    case ROW_PICTURES:
        for (int i = 0; i < row->picture_count; i++)
            draw_placed(p, &row->pictures[i], point(row->x, y));
        break;
    case ROW_CELLS:
        draw_cells(p, row, y);
        break;
    case ROW_RULE:
        canvas_draw_line(canvas, LINE_RULE, point(row->x, y + 0.5), point(row->x + row->width, y + 0.5));
        break;
    case ROW_ENTRY:
        draw_entry(p, row, y);
        break;
    }
}

static bool in_frame(const Paging *p, int row_frame, int frame) {
    while (row_frame >= 0 && row_frame != frame)
        row_frame = p->frames.items[row_frame].parent;
    return row_frame == frame;
}

static LineKind frame_line(const Frame *frame) {
    if (frame->quote)
        return LINE_FRAME;
    switch (frame->tone) {
    case TONE_FAILED:
        return LINE_FLAG;
    case TONE_WARNING:
    case TONE_CAUTION:
        return LINE_CUT;
    default:
        return LINE_FRAME;
    }
}

// The part of a frame among some rows, round those that stand in it; moved down by y.
static void draw_frame(Paging *p, int index, const Row *rows, int count, double y) {
    const Frame *frame = &p->frames.items[index];
    double top = INFINITY, bottom = -INFINITY;
    for (int i = 0; i < count; i++)
        if (in_frame(p, rows[i].frame, index)) {
            top = fmin(top, rows[i].y + y);
            bottom = fmax(bottom, rows[i].y + rows[i].height + y);
        }
    if (!(top < bottom))
        return;
    Canvas *canvas = typeset_canvas(p->set);
    const LineKind kind = frame_line(frame);
    if (frame->quote) {
        canvas_draw_line(canvas, kind, point(frame->x + 1, top), point(frame->x + 1, bottom - FRAME_PAD_MM));
        return;
    }
    canvas_box(canvas, (Box){{frame->x, top - FRAME_PAD_MM}, {frame->x + frame->width, bottom}});
    canvas_stroke(canvas, kind);
    if (frame->tone == TONE_FAILED)
        for (int i = 0; i < 3; i++)
            canvas_draw_line(canvas, kind, point(frame->x + 0.5 + 0.6 * i, top - FRAME_PAD_MM),
                             point(frame->x + 0.5 + 0.6 * i, bottom));
}

static void draw_frames(Paging *p, const Row *rows, int count) {
    for (int i = 0; i < p->frames.count; i++)
        draw_frame(p, i, rows, count, 0);
    for (int i = 0; i < count; i++)
        for (int f = 0; rows[i].kind == ROW_PAIR && f < p->frames.count; f++)
            draw_frame(p, f, rows[i].inner, rows[i].inner_count, rows[i].y);
}

static void draw_margins(Paging *p, int page) {
    char number[24], total[24];
    snprintf(number, sizeof number, "%d", page + 1);
    snprintf(total, sizeof total, "%d", p->pages);
    Buffer words;
    buffer_init(&words);
    language_say(p->book->language, &words, "page", number, total, NULL);
    const Span foot = {.text = words.data}, head = {.text = p->book->title};
    TypeText *text =
        page_text(p, TYPE_PALE, (SpanList){.items = &foot, .count = 1}, p->width, NULL, ALIGN_RIGHT);
    typeset_line(p->set, text, 0, point(p->margin, p->bottom + HEAD_MM - type_text_baseline(text, 0)));
    buffer_finish(&words);
    if (page == 0)
        return;
    text = page_text(p, TYPE_PALE, (SpanList){.items = &head, .count = 1}, p->width, p->book->prose_language,
                     ALIGN_LEFT);
    typeset_line(p->set, text, 0, point(p->margin, p->top - HEAD_MM + 2 - type_text_baseline(text, 0)));
}

// A paragraph, or the rows of a table, are one part of the reading on each page they stand on.
static void draw_rows(Paging *p, const Row *rows, int count, double down) {
    for (int i = 0; i < count; i++) {
        const Row *row = &rows[i], *before = i > 0 ? row - 1 : NULL, *after = i + 1 < count ? row + 1 : NULL;
        for (int k = 0; k < ROW_PLACES_MAX && row->places[k] != NULL; k++)
            typeset_place(p->set, row->places[k], point(p->margin, fmax(0, row->y + down - 4)));
        const bool words = row->kind == ROW_LINE || row->kind == ROW_ENTRY;
        if (row->marker != NULL)
            draw_marker(p, row, row->y + down);
        move_to(p, row->nest);
        if (words && (before == NULL || before->text != row->text))
            typeset_begin(p->set, row->role);
        if (row->table >= 0 && (before == NULL || before->table != row->table)) {
            typeset_begin(p->set, "Table");
            if (row->header >= 0 && before == NULL) // its room is kept at the head of a page alone
                draw_cells(p, &p->rows.items[row->header], row->y - p->rows.items[row->header].height);
        }
        draw_row(p, row, down);
        if (row->table >= 0 && (after == NULL || after->table != row->table))
            typeset_end(p->set, "Table");
        if (words && (after == NULL || after->text != row->text))
            typeset_end(p->set, row->role);
    }
}

static void add_outline(Paging *p) {
    enum { DEPTH_MAX = 8 };
    int parents[DEPTH_MAX];
    for (int i = 0; i < DEPTH_MAX; i++)
        parents[i] = -1;
    for (int i = 0; i < p->book->entry_count; i++) {
        const BookEntry *entry = &p->book->entries[i];
        const int depth = entry->depth < DEPTH_MAX - 1 ? entry->depth : DEPTH_MAX - 2;
        if (page_of(p, entry->anchor) < 0)
            continue;
        const char *title = entry->number != NULL
                                ? arena_format(&p->arena, "%s  %s", entry->number, entry->title)
                                : entry->title;
        parents[depth] = typeset_outline(p->set, depth == 0 ? -1 : parents[depth - 1], title, entry->anchor);
    }
}

void page_draw(Paging *p) {
    for (int page = 0, first = 0, end; page < p->pages; page++, first = end) {
        for (end = first; end < p->rows.count && p->rows.items[end].page == page;)
            end++;
        typeset_page(p->set);
        draw_frames(p, &p->rows.items[first], end - first);
        draw_margins(p, page);
        draw_rows(p, &p->rows.items[first], end - first, 0);
    }
    move_to(p, NULL);
    // A section of which nothing is seen has no row; links to it lead to the end.
    for (int i = 0; i < p->places.count; i++)
        typeset_place(p->set, p->places.items[i], point(p->margin, p->top));
    add_outline(p);
}
