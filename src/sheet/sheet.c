#include "sheet/sheet.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "sheet/figures.h"
#include "sheet/paint.h"
#include "sheet/plan.h"
#include "sheet/spread.h"
#include "sheet/svg.h"
#include "sheet/tile.h"

#define SHEET_LONGEST_MM 5000.0 // readers fail past 14 400 units of 1/72 in, 5080 mm
#define DOTS_MAX 64e6           // of a PNG: 256 MB while it is drawn
#define PICTURE_DOTS 1600.0     // the longer side of a PNG where nothing is asked
#define PICTURE_MARGIN_MM 8.0
#define SCALE_LEAST 0.01

// ISO 216 and the North American sizes, portrait, mm.
static const struct {
    const char *name;
    double width, height;
} papers[] = {
    {"a4", 210, 297},  {"a3", 297, 420},         {"a2", 420, 594},        {"a1", 594, 841},
    {"a0", 841, 1189}, {"letter", 215.9, 279.4}, {"legal", 215.9, 355.6}, {"tabloid", 279.4, 431.8},
};

static bool refuse_paper(Fault *fault, const char *text, const char *why) {
    fault_set(fault, NULL, 0, "no paper \"%.60s\": %s", text, why);
    fault_set_hint(fault, "a4, a3, a2, a1, a0, letter, legal, tabloid, whole, or a size such as 60x90cm");
    return false;
}

#define SIDE_CHARACTERS 60 // of one side

// What stands behind the last number of a side: " cm" of "60 cm".
static const char *unit_of(const char *side) {
    const char *unit = side + strlen(side);
    while (unit > side && (isalpha((unsigned char)unit[-1]) || strchr(" \"'", unit[-1])))
        unit--;
    return unit;
}

// The sides of "60cm x 90cm", and of "60 x 90 cm", where the unit of the second serves both.
static UnitsError read_sides(const char *first, const char *second, double sides[2]) {
    char whole[2 * SIDE_CHARACTERS + 1];
    UnitsError error = units_parse(first, &sides[0]);
    if (error == UNITS_NO_UNIT) {
        snprintf(whole, sizeof whole, "%s%s", first, unit_of(second));
        error = units_parse(whole, &sides[0]);
    }
    return error != UNITS_OK ? error : units_parse(second, &sides[1]);
}

static bool refuse_long_paper(Fault *fault, const char *text) {
    return refuse_paper(fault, text, "a side is longer than 5 m, the longest a page can be");
}

// No name and no two sides: one side alone, perhaps.
static bool refuse_one_side(Fault *fault, const char *text) {
    double side;
    UnitsError error = units_parse(text, &side);
    if (error == UNITS_TOO_LONG || (error == UNITS_OK && side > SHEET_LONGEST_MM))
        return refuse_long_paper(fault, text);
    return refuse_paper(fault, text,
                        error == UNITS_OK || error == UNITS_NO_UNIT ? "that is one side, and paper has two"
                                                                    : "the name is not known");
}

// Where the sign between two sides begins, and its length; NULL for none.
static const char *find_times(const char *text, size_t *length) {
    const char *letter = strpbrk(text, "xX");
    *length = letter ? 1 : strlen("×");
    return letter ? letter : strstr(text, "×");
}

bool sheet_paper(const char *text, SheetOptions *options, Fault *fault) {
    if (strcasecmp(text, "whole") == 0) {
        options->whole = true;
        return true;
    }
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++)
        if (strcasecmp(text, papers[i].name) == 0) {
            options->whole = false;
            options->width = papers[i].width;
            options->height = papers[i].height;
            return true;
        }
    size_t sign;
    const char *times = find_times(text, &sign);
    if (times == NULL || times - text >= SIDE_CHARACTERS || strlen(times + sign) >= SIDE_CHARACTERS)
        return refuse_one_side(fault, text);
    char first[SIDE_CHARACTERS];
    snprintf(first, sizeof first, "%.*s", (int)(times - text), text);
    double sides[2];
    UnitsError error = read_sides(first, times + sign, sides);
    if (error == UNITS_TOO_LONG)
        return refuse_long_paper(fault, text);
    if (error != UNITS_OK)
        return refuse_paper(fault, text, units_error_text(error));
    if (fmax(sides[0], sides[1]) > SHEET_LONGEST_MM)
        return refuse_long_paper(fault, text);
    if (fmin(sides[0], sides[1]) < PLAN_NARROWEST_MM) {
        char why[96];
        snprintf(why, sizeof why, "the test squares need %.1f mm on both sides", PLAN_NARROWEST_MM);
        return refuse_paper(fault, text, why);
    }
    options->whole = false;
    options->width = sides[0];
    options->height = sides[1];
    return true;
}

static bool check_options(const SheetOptions *options, Fault *fault) {
    if (!(options->scale >= SCALE_LEAST && options->scale <= 1)) {
        fault_set(fault, NULL, 0, "a drawing at %g times its size: the scale must lie between 1:100 and 1:1",
                  options->scale);
        return false;
    }
    if (options->format == SHEET_PDF && !options->whole &&
        !(options->width >= PLAN_NARROWEST_MM && options->height >= PLAN_NARROWEST_MM &&
          options->width <= SHEET_LONGEST_MM && options->height <= SHEET_LONGEST_MM)) {
        fault_set(fault, NULL, 0, "paper of %g x %g mm: both sides must lie between %.1f mm and 5 m",
                  options->width, options->height, PLAN_NARROWEST_MM);
        return false;
    }
    return true;
}

static const char *pattern_title(const Pattern *pattern) {
    return pattern->title != NULL ? pattern->title : "Pattern";
}

typedef struct Document {
    PaintCanvas *paint;
    const SheetOptions *options;
    int front;
} Document;

static void begin_front_page(void *context) {
    Document *document = context;
    char label[24];
    snprintf(label, sizeof label, "plan %d", ++document->front);
    paint_page(document->paint, document->options->width, document->options->height, label);
}

static void draw_pages(Document *document, const Spread *spread) {
    const SheetOptions *options = document->options;
    Canvas *canvas = paint_canvas(document->paint);
    int front = options->show == SHOW_DRAFT && spread->pages == 0 ? 0 : 1;
    if (front > 0)
        front = plan_draw(spread, canvas, options->width, options->height, begin_front_page, document);
    int number = front;
    for (int row = 0; row < spread->layout.rows; row++)
        for (int column = 0; column < spread->layout.columns; column++) {
            if (!spread_page_used(spread, row, column))
                continue;
            char name[16];
            page_name(row, column, name);
            paint_page(document->paint, options->width, options->height, name);
            tile_draw(spread, canvas, row, column, ++number, front + spread->pages);
        }
}

static void draw_one_sheet(Document *document, const Spread *spread) {
    const Layout *layout = &spread->layout;
    Canvas *canvas = paint_canvas(document->paint);
    paint_page(document->paint, layout->width + 2 * MARGIN_MM, layout->height + 2 * MARGIN_MM, NULL);
    plan_draw_block(spread, canvas, point(MARGIN_MM, MARGIN_MM));
    for (int i = 0; i < spread->item_count; i++)
        spread_draw_item(spread, canvas, i, point(MARGIN_MM, MARGIN_MM));
}

static bool draw_pdf(Spread *spread, const SheetOptions *options, Buffer *out, int *pages, Fault *fault) {
    bool laid = options->whole
                    ? spread_whole(spread, PLAN_BLOCK_MM, plan_draw_block(spread, NULL, point(0, 0)),
                                   SHEET_LONGEST_MM - 2 * MARGIN_MM, fault)
                    : spread_pages(spread, options->width, options->height, fault);
    if (!laid)
        return false;
    Buffer subject;
    buffer_init(&subject);
    tile_write_line(spread, &subject);
    Document document = {.options = options,
                         .paint = paint_pdf_new(pattern_title(spread->pattern), subject.data)};
    buffer_finish(&subject);
    if (options->whole)
        draw_one_sheet(&document, spread);
    else
        draw_pages(&document, spread);
    int count = paint_page_count(document.paint);
    if (!paint_finish(document.paint, out)) {
        fault_set(fault, NULL, 0, "the pages could not be drawn: cairo reports an error");
        return false;
    }
    if (pages != NULL)
        *pages = count;
    return true;
}

#define HEAD_MM 10.0
#define DRAFTS_HEAD_MM 12.0 // over the drafts, from the pieces on

// Under full-size pieces the drafts are small, so that none is cut for a piece.
static bool drafts_below(const Spread *spread) {
    return spread->options->show == SHOW_BOTH && spread->options->scale == 1 && spread->item_count > 0 &&
           spread->first_draft_item == spread->item_count && spread->draft_count > 0;
}

// Between the margins.
static double picture_width(const Spread *spread) {
    return fmax(spread->layout.width, 130);
}

static void draw_drafts_below(const Spread *spread, Canvas *canvas, double width) {
    Point at = point(PICTURE_MARGIN_MM, PICTURE_MARGIN_MM + HEAD_MM + spread->layout.height);
    Point rule = point_add(at, point(0, 4)), right = point_add(rule, point(width, 0));
    canvas_group(canvas, "drafts-head", "");
    canvas_draw_line(canvas, LINE_RULE, rule, right);
    canvas_text(canvas, TEXT_HEAD, ALIGN_LEFT, point_add(rule, point(0, 5)), 0,
                "Drafts, drawn small: not to be cut");
    canvas_group_end(canvas);
    figures_draw_block(spread, canvas, point_add(at, point(0, DRAFTS_HEAD_MM)), width, true);
}

// A line with the title, and 100 mm (at the drawing's scale) to hold a ruler against.
static void draw_picture(const Spread *spread, Canvas *canvas) {
    Buffer line;
    buffer_init(&line);
    tile_write_line(spread, &line);
    Point at = point(PICTURE_MARGIN_MM, PICTURE_MARGIN_MM);
    canvas_group(canvas, "title-line", "");
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT, point_add(at, point(0, 2)), 0, line.data);
    canvas_group_end(canvas);
    buffer_finish(&line);
    double length = 100 * spread->options->scale;
    canvas_group(canvas, "test-line", "100 mm");
    Point from = point_add(at, point(0, 6));
    canvas_move(canvas, point_sub(from, point(0, 1.5)));
    canvas_line_to(canvas, from);
    canvas_line_to(canvas, point_add(from, point(length, 0)));
    canvas_line_to(canvas, point_add(from, point(length, -1.5)));
    canvas_stroke(canvas, LINE_SQUARE);
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT, point_add(from, point(length + 1.5, 0)), 0, "100 mm");
    canvas_group_end(canvas);
    for (int i = 0; i < spread->item_count; i++)
        spread_draw_item(spread, canvas, i, point_add(at, point(0, HEAD_MM)));
    if (drafts_below(spread))
        draw_drafts_below(spread, canvas, picture_width(spread));
}

static bool draw_png(const Spread *spread, double width, double height, Buffer *out, Fault *fault) {
    double dots = spread->options->dots_per_mm;
    if (!(dots > 0))
        dots = PICTURE_DOTS / fmax(width, height);
    if (ceil(width * dots) * ceil(height * dots) > DOTS_MAX || fmax(width, height) * dots > 32000) {
        fault_set(fault, NULL, 0, "a picture of %.0f x %.0f dots is too large", width * dots, height * dots);
        fault_set_hint(fault,
                       "ask for fewer dots or a smaller scale: up to 64 million dots, 32000 on a side");
        return false;
    }
    PaintCanvas *paint = paint_png_new(width, height, dots);
    draw_picture(spread, paint_canvas(paint));
    if (!paint_finish(paint, out)) {
        fault_set(fault, NULL, 0, "the picture could not be drawn: cairo reports an error");
        return false;
    }
    return true;
}

static bool draw_svg(const Spread *spread, double width, double height, Buffer *out) {
    const Pattern *pattern = spread->pattern;
    Buffer desc;
    buffer_init(&desc);
    tile_write_line(spread, &desc);
    buffer_add_format(&desc, ". %d piece%s, lengths in millimetres.", pattern->pieces.count,
                      pattern->pieces.count == 1 ? "" : "s");
    SvgCanvas svg;
    svg_begin(&svg, width, height, pattern_title(pattern), desc.data, out);
    draw_picture(spread, &svg.canvas);
    svg_end(&svg);
    buffer_finish(&desc);
    return true;
}

static bool draw_one_picture(Spread *spread, const SheetOptions *options, Buffer *out, Fault *fault) {
    if (!spread_whole(spread, 0, 0, SHEET_LONGEST_MM - 2 * PICTURE_MARGIN_MM - HEAD_MM, fault))
        return false;
    double width = picture_width(spread) + 2 * PICTURE_MARGIN_MM;
    double height = spread->layout.height + 2 * PICTURE_MARGIN_MM + HEAD_MM;
    if (drafts_below(spread))
        height += DRAFTS_HEAD_MM + figures_draw_block(spread, NULL, point(0, 0), picture_width(spread), true);
    return options->format == SHEET_SVG ? draw_svg(spread, width, height, out)
                                        : draw_png(spread, width, height, out, fault);
}

bool sheet_draw(const Pattern *pattern, const SheetOptions *options, Buffer *out, int *pages, Fault *fault) {
    if (!check_options(options, fault))
        return false;
    bool pdf = options->format == SHEET_PDF;
    bool pieces = options->show != SHOW_DRAFT;
    bool small = options->scale == 1 && pattern->pieces.count > 0; // drafts: apart, not among the items
    bool drafts = options->show == SHOW_DRAFT || (!pdf && options->show == SHOW_BOTH && !small);
    Spread spread;
    if (!spread_init(&spread, pattern, options, pieces, drafts, fault))
        return false;
    bool good =
        pdf ? draw_pdf(&spread, options, out, pages, fault) : draw_one_picture(&spread, options, out, fault);
    if (good && !pdf && pages != NULL)
        *pages = 1;
    spread_finish(&spread);
    return good;
}
