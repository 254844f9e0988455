// One column of entries. An entry is measured first, words on the left and its drawing on the right, at the
// largest scale at which it fits there; then both are drawn where the flow has room for the higher of the
// two.
#include "sheet/book.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "sheet/flow.h"
#include "sheet/paint.h"
#include "sheet/paragraph.h"
#include "sheet/spread.h"

#define SIDE_MM 18.0        // margin left and right
#define FOOT_MM 14.0        // for the number of the page
#define FIGURE_PART 0.42    // of the column, for the drawing
#define FIGURE_TALL_MM 78.0 // of one or two of them
#define BESIDE_MM 6.0       // between words and drawing
#define BELOW_MM 5.0        // between entries
#define SECTION_MM 50.0     // wanted free for a heading: it never stands alone
#define BLANK_MM 1.1        // of one blank before a line of code

typedef struct Book {
    PaintCanvas *paint;
    const SheetOptions *options;
    const char *title;
} Book;

static int begin_page(void *context, int page, Column columns[3]) {
    Book *book = context;
    const double width = book->options->width, height = book->options->height;
    Canvas *canvas = paint_canvas(book->paint);
    char number[16];
    snprintf(number, sizeof number, "%d", page + 1);
    paint_page(book->paint, width, height, number);
    canvas_text(canvas, TEXT_PALE, ALIGN_RIGHT, point(width - SIDE_MM, height - FOOT_MM + 4), 0, number);
    double top = SIDE_MM;
    if (page == 0) {
        canvas_text(canvas, TEXT_TITLE, ALIGN_LEFT, point(SIDE_MM, top + 6), 0, book->title);
        top += 12;
    }
    columns[0] = (Column){.x = SIDE_MM, .width = width - 2 * SIDE_MM, .top = top, .bottom = height - FOOT_MM};
    return 1;
}

// Broken into lines from y down; gives where they end. A NULL canvas draws nothing.
static double write_text(Canvas *canvas, TextKind kind, Point at, double width, const char *text) {
    Buffer line;
    buffer_init(&line);
    while (paragraph_next(&text, kind, width, &line)) {
        at.y += paragraph_step(kind);
        if (canvas)
            canvas_text(canvas, kind, ALIGN_LEFT, point(at.x, at.y - 0.22 * paragraph_step(kind)), 0,
                        line.data);
    }
    buffer_finish(&line);
    return at.y;
}

// Line by line, as far in as each begins.
static double write_lines(Canvas *canvas, TextKind kind, Point at, double width, const char *text) {
    size_t length;
    const char *from;
    for (int i = 1; (from = text_line(text, i, &length)); i++) {
        Buffer line;
        buffer_init(&line);
        buffer_add(&line, from, length);
        const double in = BLANK_MM * (double)strspn(line.data, " ");
        at.y = write_text(canvas, kind, point(at.x + in, at.y), width - in, line.data);
        buffer_finish(&line);
    }
    return at.y;
}

static double write_entry(Canvas *canvas, const BookEntry *entry, Point at, double width) {
    const double x = at.x, in = 4;
    double y = write_text(canvas, TEXT_HEAD, at, width, entry->title);
    y = write_text(canvas, TEXT_BODY, point(x, y + 0.8), width, entry->about);
    if (*entry->code)
        y = write_lines(canvas, TEXT_SMALL, point(x + in, y + 1.6), width - in, entry->code);
    if (*entry->told)
        y = write_lines(canvas, TEXT_PALE, point(x + in, y + 1.6), width - in, entry->told);
    return y;
}

// What an entry draws: the spread borrows the options.
typedef struct Beside {
    SheetOptions options;
    Spread spread;
    bool there;
} Beside;

static bool beside_init(Beside *beside, const Pattern *pattern, Units units, double width, Fault *fault) {
    static const double scales[] = {1 / 2.0, 1 / 3.0,  1 / 4.0,  1 / 5.0,  1 / 6.0,
                                    1 / 8.0, 1 / 10.0, 1 / 12.0, 1 / 15.0, 1 / 20.0};
    beside->there = false;
    for (size_t i = 0; pattern && i < sizeof scales / sizeof *scales; i++) {
        beside->options = (SheetOptions){
            .format = SHEET_PDF, .show = SHOW_BOTH, .whole = true, .scale = scales[i], .units = units};
        if (!spread_init(&beside->spread, pattern, &beside->options, true, true, fault))
            return false;
        const double tall = FIGURE_TALL_MM * ((beside->spread.item_count + 1) / 2); // two side by side
        if (spread_into(&beside->spread, width, tall)) {
            beside->there = true;
            return true;
        }
        spread_finish(&beside->spread);
    }
    return true;
}

static bool add_entry(Flow *flow, const BookEntry *entry, Units units, Fault *fault) {
    const double whole = flow_width(flow);
    const double figure = entry->pattern ? whole * FIGURE_PART : 0;
    const double words = entry->pattern ? whole - figure - BESIDE_MM : whole;
    Beside beside;
    if (!beside_init(&beside, entry->pattern, units, figure, fault))
        return false;
    double height = write_entry(NULL, entry, point(0, 0), words);
    if (beside.there)
        height = fmax(height, beside.spread.layout.height);
    flow_room(flow, height);
    write_entry(flow->canvas, entry, point(flow_x(flow), flow->y), words);
    for (int i = 0; beside.there && i < beside.spread.item_count; i++)
        spread_draw_item(&beside.spread, flow->canvas, i, point(flow_x(flow) + words + BESIDE_MM, flow->y));
    flow->y += height;
    flow_space(flow, BELOW_MM);
    if (beside.there)
        spread_finish(&beside.spread);
    return true;
}

static void begin_section(Flow *flow, const char *name) {
    flow_space(flow, 2 * BELOW_MM);
    flow_room(flow, SECTION_MM);
    const Point at = point(flow_x(flow), flow->y);
    flow->y = write_text(flow->canvas, TEXT_PIECE, at, flow_width(flow), name) + 1;
    canvas_draw_line(flow->canvas, LINE_RULE, point(at.x, flow->y), point(at.x + flow_width(flow), flow->y));
    flow->y += 2;
}

bool book_draw(const char *title, const BookEntry *entries, int count, const SheetOptions *options,
               Buffer *out, int *pages, Fault *fault) {
    if (options->whole) {
        fault_set(fault, NULL, 0, "a book needs pages, and whole is one sheet");
        fault_set_hint(fault, "leave the paper out, or name one such as a4 or letter");
        return false;
    }
    Book book = {.paint = paint_pdf_new(title, title), .options = options, .title = title};
    Flow flow;
    flow_begin(&flow, paint_canvas(book.paint), begin_page, &book);
    bool fine = true;
    for (int i = 0; fine && i < count; i++) {
        if (i == 0 || strcmp(entries[i].section, entries[i - 1].section) != 0)
            begin_section(&flow, entries[i].section);
        fine = add_entry(&flow, &entries[i], options->units, fault);
    }
    const int drawn = paint_page_count(book.paint);
    Buffer bytes;
    buffer_init(&bytes);
    const bool finished = paint_finish(book.paint, &bytes);
    if (fine && !finished)
        fault_set(fault, NULL, 0, "the pages could not be drawn: cairo reports an error");
    fine = fine && finished;
    if (fine) {
        buffer_add(out, bytes.data, bytes.length);
        if (pages)
            *pages = drawn;
    }
    buffer_finish(&bytes);
    return fine;
}
