// A step can be laid out in several ways: its figures beside its prose, its figures below the prose, or,
// where two short steps follow each other, each with its figure below it in half the width. The rows of each
// way are made; which of them is printed comes out when pages are broken.
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define SIDE_GAP_MM 6.0   // between prose and figures
#define SIDE_ALL_MM 215.0 // of all figures of a step
#define SIDE_OVER_MM 25.0 // prose may run on below its figures
#define STACK_PART 0.7    // of their height several figures have prose beside them, or they go below
#define NARROWEST_MM 60.0 // prose has no figure beside it in less
#define FIGURE_BEFORE_MM 3.5
#define FEW_PARTED_PRICE 180.0 // and where they are few
#define TAIL_LINES 2
#define FEW_LINES 6         // with the heading: kept with the figure below them
#define PAIR_LONGER_MM 40.0 // the prose of steps beside each other differs by no more

// What is less pleasant than a figure beside its prose, as badness of pages (pages_break.c).
#define BELOW_PRICE 25.0
#define ABREAST_PRICE 12.0
#define PARTED_PRICE 80.0 // a figure on the page after its prose
#define TAIL_PRICE 60.0   // the last lines of a step on the next page
#define SHELF_PRICE 40.0  // figures of a step on two pages

static double page_height(const Paging *p) {
    return p->bottom - p->top;
}

typedef struct StepParts {
    const BookBlock *section;
    int headings;           // blocks of its heading
    int words;              // blocks before its first figure, with the heading
    int figures;            // blocks
    int pictures;           // in all of them
    const BookBlock *first; // figure, or NULL
} StepParts;

// The figures that begin at a block.
static void count_figures(const BookBlock *section, int at, StepParts *step) {
    step->first = &section->items[at];
    for (; at < section->count && section->items[at].kind == BOOK_FIGURE; at++, step->figures++)
        step->pictures += section->items[at].picture_count;
}

// Figures that come after steps within the step are not beside its prose.
static StepParts step_of(const BookBlock *section) {
    StepParts step = {.section = section};
    while (step.headings < section->count && section->items[step.headings].kind == BOOK_HEADING)
        step.headings++;
    step.words = step.headings;
    while (step.words < section->count && section->items[step.words].kind != BOOK_FIGURE &&
           section->items[step.words].kind != BOOK_SECTION)
        step.words++;
    if (step.words < section->count && section->items[step.words].kind == BOOK_FIGURE)
        count_figures(section, step.words, &step);
    return step;
}

// A short paragraph at the end, as the values for the margin, does not stand alone on the next page if it can
// be helped.
static void add_prose(Paging *p, const Column *column, const BookBlock *blocks, int count) {
    const BookBlock *last = count > 0 ? &blocks[count - 1] : NULL;
    if (last == NULL || last->kind != BOOK_PARAGRAPH) {
        page_blocks(p, column, blocks, count);
        return;
    }
    page_blocks(p, column, blocks, count - 1);
    const int tail = column->rows->count;
    page_blocks(p, column, last, 1);
    if (column->rows->count > tail && column->rows->count - tail <= TAIL_LINES)
        column->rows->items[tail].parting += TAIL_PRICE;
}

static void words_keep_to_heading(Paging *p, const Column *column, const StepParts *step) {
    const int heading = column->rows->count;
    page_blocks(p, column, step->section->items, step->headings);
    rows_keep(column->rows, heading);
    add_prose(p, column, step->section->items + step->headings, step->words - step->headings);
}

// All pictures of a step's figures in common rows, where these are fewer than the ones from first on.
static void draw_together(Paging *p, const Column *column, const StepParts *step, int first) {
    BookPicture *pictures = arena_take(&p->arena, sizeof *pictures * (size_t)(step->pictures + 1));
    BookBlock all = step->first[0];
    all.pictures = pictures;
    all.picture_count = 0;
    for (int f = 0; f < step->figures; f++)
        for (int i = 0; i < step->first[f].picture_count; i++)
            pictures[all.picture_count++] = step->first[f].pictures[i];
    RowList together = {.items = NULL};
    Column other = *column;
    other.rows = &together;
    page_blocks(p, &other, &all, 1);
    if (together.count < column->rows->count - first) {
        column->rows->count = first;
        for (int i = 0; i < together.count; i++)
            ARRAY_ADD(column->rows, together.items[i]);
    }
    mem_free(together.items);
}

// The figures below each other. parted: what it costs to begin a page with them.
static void add_figures(Paging *p, const Column *column, const StepParts *step, double parted) {
    const int first = column->rows->count;
    page_blocks(p, column, step->first, step->figures);
    if (step->figures > 1 && step->first->pictures[0].kind == BOOK_PICTURE_STEP)
        draw_together(p, column, step, first);
    for (int i = first; i < column->rows->count; i++)
        column->rows->items[i].parting += i == first ? parted : SHELF_PRICE;
}

// Heading, prose, figures, from the top to the bottom.
static void add_below(Paging *p, const Column *column, const StepParts *step, double price) {
    const int first = column->rows->count;
    words_keep_to_heading(p, column, step);
    const bool seam = step->first->picture_count > 0 && step->first->pictures[0].kind != BOOK_PICTURE_STEP;
    const double parted = column->rows->count - first <= FEW_LINES ? FEW_PARTED_PRICE : PARTED_PRICE;
    if (seam)
        rows_keep(column->rows, first);
    add_figures(p, column, step, parted);
    if (column->rows->count > first)
        column->rows->items[first].price += price;
}

// Below each other in a column of figures; gives how high they stand, 0 where they do not fit there.
static double stack(const Paging *p, const Column *column, const StepParts *step, Placed *out, int *placed) {
    const double width = column->width * SIDE_PART;
    double reached = 0;
    *placed = 0;
    for (int f = 0; f < step->figures; f++)
        for (int i = 0; i < step->first[f].picture_count; i++) {
            const BookPicture *picture = &step->first[f].pictures[i];
            Placed *at = &out[*placed];
            if (picture->kind != BOOK_PICTURE_STEP)
                return 0;
            if (!place_picture(p, picture, width, p->figure_tall, at) ||
                !picture_is_narrow(p, column, picture))
                return 0;
            if (*placed > 0)
                reached += PICTURE_GAP_MM;
            at->y = reached;
            reached += at->height;
            (*placed)++;
        }
    return reached <= fmin(SIDE_ALL_MM, page_height(p) * 0.85) ? reached : 0;
}

double rows_set(Row *rows, int count) {
    double y = 0;
    for (int i = 0; i < count; i++) {
        y += i > 0 ? rows[i].before : rows[i].frame >= 0 ? FRAME_PAD_MM : 0;
        rows[i].y = y;
        y += rows[i].height;
    }
    return y;
}

Row *page_pair(Paging *p, const Column *column, const RowList *rows, double height) {
    Row *inner = arena_take(&p->arena, sizeof *inner * (size_t)(rows->count + 1));
    if (rows->count > 0)
        memcpy(inner, rows->items, sizeof *inner * (size_t)rows->count);
    const Row row = {ROW_AT(column, height), .kind = ROW_PAIR,
                     .before = rows->count > 0 ? inner[0].before : 2.2, .inner = inner,
                     .inner_count = rows->count};
    ARRAY_ADD(column->rows, row);
    return &column->rows->items[column->rows->count - 1];
}

// The lines of code want the whole width.
static bool has_code(const StepParts *step) {
    for (int i = 0; i < step->words; i++)
        if (step->section->items[i].kind == BOOK_CODE)
            return true;
    return false;
}

static bool reads_from_right(const RowList *rows) {
    return rows->count > 0 && rows->items[0].kind == ROW_LINE && type_text_is_rtl(rows->items[0].text);
}

// The heading and the prose with the figures beside them, then what is left of the prose. False where the
// figures need the whole width.
static bool add_beside(Paging *p, const Column *column, const StepParts *step) {
    const double side = column->width * SIDE_PART, prose = column->width - side - SIDE_GAP_MM;
    if (prose < NARROWEST_MM || has_code(step))
        return false;
    Placed *pictures = arena_take(&p->arena, sizeof *pictures * (size_t)(step->pictures + 1));
    int placed, done = 0;
    const double tall = stack(p, column, step, pictures, &placed);
    if (tall == 0)
        return false;
    RowList rows = {.items = NULL};
    Column narrow = *column;
    narrow.width = prose;
    narrow.rows = &rows;
    for (int before; done < step->words; done++) {
        before = rows.count;
        page_blocks(p, &narrow, &step->section->items[done], 1);
        if (done > step->headings && rows_height(&rows) > tall + SIDE_OVER_MM) {
            rows.count = before; // it would stand beside nothing
            break;
        }
    }
    const double words = rows_set(rows.items, rows.count);
    const bool good = words <= page_height(p) * 0.9 && !(placed > 1 && words < tall * STACK_PART);
    if (good) {
        const bool mirrored = reads_from_right(&rows);
        for (int i = 0; i < placed; i++)
            pictures[i].x = mirrored ? 0 : column->width - side;
        for (int i = 0; mirrored && i < rows.count; i++)
            rows.items[i].x += side + SIDE_GAP_MM;
        Row *pair = page_pair(p, column, &rows, fmax(words, tall));
        pair->pictures = pictures;
        pair->picture_count = placed;
        add_prose(p, column, step->section->items + done, step->words - done);
    }
    mem_free(rows.items);
    return good;
}

static bool is_short(const Paging *p, const Column *column, const StepParts *step) {
    return step->pictures == 1 && !has_code(step) && step->words + step->figures == step->section->count &&
           step->first->pictures[0].kind == BOOK_PICTURE_STEP &&
           picture_is_narrow(p, column, &step->first->pictures[0]);
}

// Two short steps beside each other, each with its figure below its prose; the figures stand level.
static bool add_abreast(Paging *p, const Column *column, const StepParts steps[2]) {
    const double width = column->width * SIDE_PART;
    if (width < NARROWEST_MM || !is_short(p, column, &steps[0]) || !is_short(p, column, &steps[1]))
        return false;
    RowList rows = {.items = NULL};
    double words[2], height = 0;
    int ends[2];
    Placed pictures[2];
    for (int i = 0; i < 2; i++) {
        const int first = rows.count;
        Column half = *column;
        half.rows = &rows;
        half.width = width;
        page_blocks(p, &half, steps[i].section->items, steps[i].words);
        words[i] = rows_set(rows.items + first, rows.count - first);
        ends[i] = rows.count;
        if (!place_picture(p, &steps[i].first->pictures[0], width, p->figure_tall, &pictures[i]))
            ends[i] = -1;
    }
    const bool good = ends[0] >= 0 && ends[1] >= 0 && fabs(words[0] - words[1]) <= PAIR_LONGER_MM &&
                      fmax(words[0], words[1]) + p->figure_tall + FIGURE_BEFORE_MM < page_height(p) * 0.9;
    if (good) {
        const bool mirrored = reads_from_right(&rows);
        const double x[2] = {mirrored ? column->width - width : 0, mirrored ? 0 : column->width - width};
        RowList both = {.items = NULL};
        for (int i = 0; i < 2; i++) {
            for (int k = i == 0 ? 0 : ends[0]; k < ends[i]; k++) {
                rows.items[k].x += x[i];
                ARRAY_ADD(&both, rows.items[k]);
            }
            Column half = *column;
            half.x += x[i];
            half.width = width;
            half.rows = &both;
            page_pictures(p, &half, &pictures[i], 1, 0);
            Row *last = &both.items[both.count - 1];
            last->y = fmax(words[0], words[1]) + FIGURE_BEFORE_MM;
            height = fmax(height, last->y + last->height);
        }
        page_pair(p, column, &both, height)->price = ABREAST_PRICE;
        mem_free(both.items);
    }
    mem_free(rows.items);
    return good;
}

// The ways of one step from a joint on; gives the joint behind it.
static int add_ways(Paging *p, const Column *column, const StepParts *step, int from) {
    const int to = joint_new(p);
    const int first = p->rows.count;
    way_begins(p, from);
    const bool beside = add_beside(p, column, step);
    if (!beside)
        p->rows.count = first;
    way_ends(p, from, to);
    way_begins(p, from);
    add_below(p, column, step, beside ? BELOW_PRICE : 0);
    way_ends(p, from, to);
    return to;
}

static void add_plain(Paging *p, const Column *column, const StepParts *step) {
    if (step->first == NULL) {
        words_keep_to_heading(p, column, step);
    } else if (column->rows != &p->rows) {
        add_below(p, column, step, 0);
    } else {
        const int from = joint_here(p);
        joint_close(p, from, add_ways(p, column, step, from));
    }
}

// Steps within the step, and figures of what came out of them.
static void add_rest(Paging *p, const Column *column, const StepParts *step) {
    const BookBlock *section = step->section;
    for (int i = step->words + step->figures; i < section->count;) {
        StepParts more = {.section = section};
        int others = 0;
        while (i + others < section->count && section->items[i + others].kind != BOOK_FIGURE)
            others++;
        page_blocks(p, column, &section->items[i], others);
        i += others;
        if (i == section->count)
            break;
        count_figures(section, i, &more);
        add_figures(p, column, &more, PARTED_PRICE);
        i += more.figures;
    }
}

static Column column_of(const Paging *p, const Column *column, const BookBlock *section) {
    Column own = *column;
    own.language = page_language(p, column, section->authored, section->language);
    return own;
}

int page_steps(Paging *p, const Column *column, const BookBlock *blocks, int count) {
    StepParts steps[2] = {step_of(&blocks[0])};
    const Column own = column_of(p, column, &blocks[0]);
    const bool two = count > 1 && blocks[1].kind == BOOK_SECTION && blocks[1].role == ROLE_STEP &&
                     column->rows == &p->rows && steps[0].first != NULL;
    if (two)
        steps[1] = step_of(&blocks[1]);
    const int first = column->rows->count;
    if (!two || steps[1].first == NULL) {
        add_plain(p, &own, &steps[0]);
        page_place(p, column, first, blocks[0].anchor);
        add_rest(p, &own, &steps[0]);
        return 1;
    }
    const int from = joint_here(p), between = add_ways(p, &own, &steps[0], from);
    way_begins(p, from);
    const int abreast = p->rows.count;
    if (!add_abreast(p, &own, steps)) {
        p->joints.items[from].count--;
        joint_close(p, from, between);
        page_place(p, column, first, blocks[0].anchor);
        add_rest(p, &own, &steps[0]);
        return 1;
    }
    page_place(p, column, first, blocks[0].anchor);
    const Column next = column_of(p, column, &blocks[1]);
    const int second = p->rows.count, to = add_ways(p, &next, &steps[1], between);
    p->rows.items[abreast].joint = to;
    joint_close(p, between, to);
    page_place(p, column, second, blocks[1].anchor);
    page_place(p, &(Column){.rows = &(RowList){.items = &p->rows.items[abreast], .count = 1}}, 0,
               blocks[1].anchor);
    return 2;
}
