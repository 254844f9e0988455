#include "sheet/plan.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "pattern/prove.h"
#include "sheet/figures.h"
#include "sheet/flow.h"
#include "sheet/legend.h"
#include "sheet/number_text.h"
#include "sheet/paragraph.h"
#include "sheet/plain_name.h"
#include "sheet/squares.h"
#include "sheet/tile.h"

#define GAP_MM 7.0       // between columns
#define SQUARES_MM 101.6 // the column of the test squares

typedef struct Plan {
    const Spread *spread;
    Canvas *canvas;
    double width, height; // of the paper
    PlanPage page;
    void *context;
    int pages;
    double head_bottom; // of the first page
} Plan;

static void count_proofs(const Pattern *pattern, int *failed, int *accepted) {
    *failed = *accepted = 0;
    for (int i = 0; i < pattern->proofs.count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        *failed += !proof->holds && !proof->accepted;
        *accepted += !proof->holds && proof->accepted;
    }
}

static const char *summary(const Pattern *pattern) {
    for (int i = pattern->chapters.count - 1; i >= 0; i--)
        if (pattern->chapters.items[i].depth == 0 && pattern->chapters.items[i].summary != NULL)
            return pattern->chapters.items[i].summary;
    return NULL;
}

// Title, one line of what it is, whose and at what scale; and a loud band where something is not proven.
// Gives where it ends.
static double draw_head(const Spread *spread, Canvas *canvas, Point at, double width) {
    const Pattern *pattern = spread->pattern;
    Buffer line;
    buffer_init(&line);
    const char *title = pattern->title != NULL ? pattern->title : "Pattern";
    double y = at.y;
    while (paragraph_next(&title, TEXT_TITLE, width, &line)) {
        y += 8.2;
        canvas_text(canvas, TEXT_TITLE, ALIGN_LEFT, point(at.x - 0.4, y - 0.8), 0, line.data);
    }
    y += 1.2;
    const char *about = summary(pattern);
    int rows = 0;
    while (about != NULL && rows++ < 3 && paragraph_next(&about, TEXT_BODY, width, &line)) {
        y += paragraph_step(TEXT_BODY);
        canvas_text(canvas, TEXT_BODY, ALIGN_LEFT, point(at.x, y - 1), 0, line.data);
    }
    buffer_clear(&line);
    char scale[24];
    scale_text(spread->options->scale, (NumberMarks){0}, scale, sizeof scale);
    if (pattern->body != NULL)
        buffer_add_format(&line, "%s  ·  ", pattern->body);
    if (spread->options->scale == 1)
        buffer_add_text(&line, "full size");
    else
        buffer_add_format(&line, "scale %s, not full size", scale);
    buffer_add_format(&line, "  ·  %d piece%s", pattern->pieces.count, pattern->pieces.count == 1 ? "" : "s");
    if (spread->pages > 0)
        buffer_add_format(&line, " on %d page%s", spread->pages, spread->pages == 1 ? "" : "s");
    if (pattern->recipe != NULL)
        buffer_add_format(&line, "  ·  %s", pattern->recipe);
    y += paragraph_step(TEXT_PALE) + 0.6;
    canvas_text(canvas, TEXT_PALE, ALIGN_LEFT, point(at.x, y - 0.8), 0, line.data);
    y += 2.4;

    int failed, accepted;
    count_proofs(pattern, &failed, &accepted);
    if (failed > 0) {
        canvas_box(canvas, (Box){{at.x, y}, {at.x + width, y + 8}});
        canvas_fill(canvas, SHADE_FLAG);
        buffer_clear(&line);
        buffer_add_format(&line, "NOT PROVEN: %d of %d proofs fail. Mend the draft before you cut.", failed,
                          pattern->proofs.count);
        canvas_text(canvas, TEXT_FLAG, ALIGN_LEFT, point(at.x + 2.5, y + 5.3), 0, line.data);
        y += 10.5;
    }
    buffer_finish(&line);
    return y;
}

static bool piece_on_fold(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold)
            return true;
    return false;
}

static void write_pieces(Flow *flow, const Pattern *pattern) {
    if (pattern->pieces.count == 0)
        return;
    flow_head(flow, "Pieces");
    for (int i = 0; i < pattern->pieces.count; i++) {
        const Piece *piece = &pattern->pieces.items[i];
        char left[160], right[160];
        snprintf(left, sizeof left, "%d  %s", i + 1, piece->name);
        int length = snprintf(right, sizeof right, "cut %d", piece->cut);
        if (piece->pair && length > 0)
            length += snprintf(right + length, sizeof right - (size_t)length, ", %s",
                               piece->cut == 2 ? "1 pair" : "in pairs");
        if (piece_on_fold(piece) && length > 0)
            length += snprintf(right + length, sizeof right - (size_t)length, " on the fold");
        if (piece->cloth != NULL)
            snprintf(right + length, sizeof right - (size_t)length, ", %s", piece->cloth);
        flow_pair(flow, TEXT_BODY, left, right);
    }
}

static void drop_end(Buffer *line, const char *end) {
    const size_t length = strlen(end);
    if (line->length < length || strcmp(line->data + line->length - length, end) != 0)
        return;
    line->length -= length;
    line->data[line->length] = '\0';
}

static void write_proofs(Flow *flow, const Pattern *pattern) {
    int failed, accepted;
    count_proofs(pattern, &failed, &accepted);
    if (pattern->proofs.count == 0)
        return;
    flow_head(flow, "Proofs");
    Buffer line;
    buffer_init(&line);
    int count = pattern->proofs.count, hold = count - failed - accepted;
    if (hold < count)
        buffer_add_format(&line, "%d of %d hold.", hold, count);
    else if (count == 1)
        buffer_add_text(&line, "The one proof holds.");
    else
        buffer_add_format(&line, "All %d hold.", count);
    flow_text(flow, TEXT_BODY, 0, line.data);
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < pattern->proofs.count; i++) {
            const Proof *proof = &pattern->proofs.items[i];
            if (proof->holds || proof->accepted != (pass == 1))
                continue;
            buffer_clear(&line);
            buffer_add_text(&line, pass == 0 ? "Fails: " : "Accepted as it is: ");
            proof_sentence(pattern, proof, &line);
            drop_end(&line, " (accepted)");
            flow_text(flow, pass == 0 ? TEXT_LOUD : TEXT_BODY, 0, line.data);
        }
    buffer_finish(&line);
}

static void write_remarks(Flow *flow, const Pattern *pattern) {
    static const char *const heads[] = {
        [REMARK_WARNING] = "Warnings", [REMARK_CAUTION] = "Cautions", [REMARK_NOTE] = "Notes"};
    static const RemarkKind order[] = {REMARK_CAUTION, REMARK_WARNING, REMARK_NOTE};
    for (int o = 0; o < 3; o++) {
        bool any = false;
        for (int i = 0; i < pattern->remarks.count; i++) {
            if (pattern->remarks.items[i].kind != order[o])
                continue;
            if (!any)
                flow_head(flow, heads[order[o]]);
            any = true;
            Buffer text;
            buffer_init(&text);
            buffer_add_text(&text, pattern->remarks.items[i].text);
            text.data[0] = (char)toupper((unsigned char)text.data[0]);
            flow_text(flow, TEXT_BODY, 0, text.data);
            buffer_finish(&text);
            flow_space(flow, 0.8);
        }
    }
}

// A measurement that several recipes of the chain need is listed once; what a chapter hands to the next, and
// the choices of recipes used inside others, are not the cutter's to set.
static bool input_listed(const Pattern *pattern, int index) {
    const Input *input = &pattern->inputs.items[index];
    bool used_inside = input->chapter >= 0 && input->chapter < pattern->chapters.count &&
                       pattern->chapters.items[input->chapter].depth > 0;
    if (input->choice)
        return !used_inside;
    if (input->measure == MEASURE_TEXT || input->missing)
        return false;
    for (int i = 0; i < index; i++)
        if (!pattern->inputs.items[i].choice && !pattern->inputs.items[i].missing &&
            strcmp(pattern->inputs.items[i].name, input->name) == 0)
            return false;
    return true;
}

// A length as it was typed: to 1 mm or 1/16 in, and finer (0.1 mm, 1/32 in) where it was given finer.
static void write_typed(double mm, Units units, char *out, size_t size) {
    const double tenths = mm * 10, near = 0.01; // mm: of what was typed in that unit, only rounding is lost
    const double thirty_seconds = mm * 32 / MM_PER_INCH;
    if (units == UNITS_CM && fabs(mm - round(mm)) > near)
        snprintf(out, size, "%.2f cm", round(tenths) / 100);
    else if (units == UNITS_INCH && fabs(thirty_seconds - round(thirty_seconds)) < near &&
             fmod(round(thirty_seconds), 2) != 0)
        units_format_inches(mm, 32, out, size);
    else
        units_format(mm, units, out, size);
}

static void write_inputs(Flow *flow, const Spread *spread) {
    const Pattern *pattern = spread->pattern;
    for (int choices = 0; choices < 2; choices++) {
        bool any = false;
        for (int i = 0; i < pattern->inputs.count; i++) {
            const Input *input = &pattern->inputs.items[i];
            if (input->choice != (choices == 1) || !input_listed(pattern, i))
                continue;
            if (!any)
                flow_head(flow, choices == 1 ? "Choices" : "Measurements");
            any = true;
            char value[96] = "";
            if (input->measure == MEASURE_LENGTH)
                write_typed(input->value, spread->options->units, value, sizeof value);
            else if (input->measure == MEASURE_YEARS)
                units_format_years(input->value, value, sizeof value);
            else if (input->measure == MEASURE_TEXT)
                snprintf(value, sizeof value, "%s", input->text != NULL ? input->text : "");
            else
                snprintf(value, sizeof value, input->measure == MEASURE_ANGLE ? "%g°" : "%g", input->value);
            char name[PLAIN_NAME_MAX];
            plain_name(input->name, name);
            flow_pair(flow, TEXT_SMALL, name, value);
        }
    }
}

static void write_words(Flow *flow, const Spread *spread) {
    write_pieces(flow, spread->pattern);
    write_proofs(flow, spread->pattern);
    write_remarks(flow, spread->pattern);
    legend_draw(flow, spread);
    write_inputs(flow, spread);
}

static int begin_page(void *context, int page, Column columns[3]) {
    Plan *plan = context;
    double left = MARGIN_MM, right = plan->width - MARGIN_MM, bottom = plan->height - MARGIN_MM;
    if (page > 0 || plan->pages == 0) {
        plan->page(plan->context);
        plan->pages++;
    }
    double top = MARGIN_MM;
    if (page == 0)
        top = draw_head(plan->spread, plan->canvas, point(left, MARGIN_MM - 2), right - left) + 1;
    bool two = right - left >= SQUARES_MM + GAP_MM + 60;
    double first = two && page == 0 ? SQUARES_MM : two ? (right - left - GAP_MM) / 2 : right - left;
    columns[0] = (Column){left, first, top, bottom};
    if (!two)
        return 1;
    columns[1] = (Column){left + first + GAP_MM, right - left - first - GAP_MM, top, bottom};
    return 2;
}

int plan_draw(const Spread *spread, Canvas *canvas, double width, double height, PlanPage page,
              void *context) {
    Plan plan = {.spread = spread,
                 .canvas = canvas,
                 .width = width,
                 .height = height,
                 .page = page,
                 .context = context};
    Flow flow;
    flow_begin(&flow, canvas, begin_page, &plan);
    squares_draw(&flow, spread);
    // The words start in the second column where there is one, and come back under the squares only when it
    // is full.
    if (flow.column_count > 1) {
        double under = flow.y + 4;
        flow.columns[2] = flow.columns[0];
        flow.columns[2].top = under;
        flow.column_count = under + 20 < flow.columns[0].bottom ? 3 : 2;
        flow.column = 1;
        flow.y = flow.columns[1].top;
    }
    write_words(&flow, spread);
    if (spread->options->show == SHOW_BOTH)
        plan.pages += figures_draw(spread, canvas, width, height, page, context);
    return plan.pages;
}

// Where only the height of a block is wanted: a canvas on which nothing is drawn.
static void no_pen(Canvas *canvas, const Pen *pen, LineKind kind) {
    (void)canvas, (void)pen, (void)kind;
}
static void no_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    (void)canvas, (void)pen, (void)shade;
}
static void no_text(Canvas *canvas, const TextRun *run) {
    (void)canvas, (void)run;
}
static void no_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas, (void)kind, (void)name;
}
static void no_clip(Canvas *canvas, Box box) {
    (void)canvas, (void)box;
}
static const CanvasBackend nowhere = {no_pen, no_fill, no_text, no_group, no_clip};

typedef struct Block {
    Point at;
    double head;
    bool words;
} Block;

static int block_columns(void *context, int page, Column columns[3]) {
    const Block *block = context;
    (void)page;
    double words = block->at.x + SQUARES_MM + GAP_MM;
    columns[0] = block->words ? (Column){words, block->at.x + PLAN_BLOCK_MM - words, block->head, INFINITY}
                              : (Column){block->at.x, SQUARES_MM, block->head, INFINITY};
    return 1;
}

double plan_draw_block(const Spread *spread, Canvas *canvas, Point at) {
    Canvas measuring;
    canvas_init(&measuring, &nowhere, 0, 0);
    if (canvas == NULL)
        canvas = &measuring;
    Block block = {.at = at};
    block.head = draw_head(spread, canvas, point(at.x, at.y - 2), PLAN_BLOCK_MM) + 1;
    Flow left, right;
    flow_begin(&left, canvas, block_columns, &block);
    squares_draw(&left, spread);
    block.words = true;
    flow_begin(&right, canvas, block_columns, &block);
    write_words(&right, spread);
    double bottom = fmax(left.y, right.y) + 2;
    if (spread->options->show == SHOW_BOTH)
        bottom += figures_draw_block(spread, canvas, point(at.x, bottom), PLAN_BLOCK_MM, false);
    canvas_finish(&measuring);
    return bottom - at.y;
}
