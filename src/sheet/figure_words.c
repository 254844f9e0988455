
#include "base/memory.h"
#include "geometry/tolerance.h"
#include "sheet/figure_parts.h"
#include "sheet/font.h"
#include "sheet/plain_name.h"

#define NAMES_MAX 1000    // texts in one figure; what comes behind them is drawn without
#define NAME_GAP_MM 1.2   // from what it names
#define ALONG_GAP_MM 0.9  // from the line it stands along
#define LEADER_GAP_MM 6.6 // further off there is a line to what is named
#define LEADERS 4
#define NEAR_LEADERS 3
#define LEADER_CROSSES 25.0 // its line may cross a name then
#define CURVE_PLACES 7
#define TOUCHED_MOST 300 // of marks; of more it is not asked which the new work touches

bool figure_may_write(Figure *figure) {
    return figure->named < NAMES_MAX && ++figure->named;
}

static LabelAsk ask_for(TextKind look, const char *words, double gap, int rings, double worst) {
    return (LabelAsk){.gap = gap,
                      .width = canvas_text_width(look, words),
                      .height = text_style(look)->size * FONT_CAP,
                      .rings = rings,
                      .worst = worst};
}

static void write_words(Figure *figure, TextKind look, Align align, Point at, double degrees,
                        const char *words) {
    const Affine view = figure->canvas->view;
    canvas_paper(figure->canvas);
    canvas_text(figure->canvas, look, align, at, degrees, words);
    canvas_view(figure->canvas, view);
}

static bool write_beside(Figure *figure, TextKind look, Point at, int rings, double worst,
                         const char *words) {
    const LabelAsk ask = ask_for(look, words, NAME_GAP_MM, rings, worst);
    Point place;
    if (!labels_place(&figure->labels, at, &ask, &place))
        return false;
    write_words(figure, look, ALIGN_LEFT, place, 0, words);
    return true;
}

// Further off, with a line between.
static bool write_far(Figure *figure, TextKind look, Point at, double worst, int rings, const char *words) {
    for (int i = 1; i <= rings; i++) {
        const LabelAsk ask = ask_for(look, words, LEADER_GAP_MM * i, 1, worst);
        Point place;
        Line leader;
        if (!labels_place_led(&figure->labels, at, &ask, &place, &leader))
            continue;
        write_words(figure, look, ALIGN_LEFT, place, 0, words);
        ARRAY_ADD(&figure->thin, ((ThinLine){.line = leader}));
        return true;
    }
    return false;
}

static bool write_turned(Figure *figure, TextKind look, Line line, double worst, const char *words) {
    const LabelAsk ask = ask_for(look, words, ALONG_GAP_MM, 1, worst);
    Point at;
    double degrees;
    if (!labels_place_along(&figure->labels, line, &ask, &at, &degrees))
        return false;
    write_words(figure, look, ALIGN_MIDDLE, at, degrees, words);
    return true;
}

// Near a place of the paper. What must be written stands further off, or across lines, where it has to.
static bool write_near(Figure *figure, TextKind look, Point at, bool must, const char *words) {
    if (!must)
        return write_beside(figure, look, at, 1, LABELS_CLEAR, words);
    return write_beside(figure, look, at, LABEL_RINGS - 1, LABELS_CLEAR, words) ||
           write_far(figure, look, at, LABELS_FREE, NEAR_LEADERS, words) ||
           write_far(figure, look, at, LABELS_CLEAR, NEAR_LEADERS, words) ||
           write_beside(figure, look, at, LABEL_RINGS, LABELS_CROWDED, words) ||
           write_far(figure, look, at, LABELS_CROWDED, LEADERS, words) ||
           write_far(figure, look, at, LEADER_CROSSES, LEADERS, words);
}

bool figure_write_along(Figure *figure, TextKind look, Line line, Effort effort, const char *words) {
    const Point middle = point_mix(line.from, line.to, 0.5);
    return write_turned(figure, look, line, LABELS_CLEAR, words) ||
           write_beside(figure, look, middle, effort > EFFORT_NEAR ? LABEL_RINGS - 1 : 1, LABELS_CLEAR,
                        words) ||
           (effort >= EFFORT_FREE && write_far(figure, look, middle, LABELS_FREE, NEAR_LEADERS, words)) ||
           (effort == EFFORT_ANYHOW && (write_far(figure, look, middle, LABELS_CLEAR, LEADERS, words) ||
                                        write_turned(figure, look, line, LABELS_CROWDED, words) ||
                                        write_near(figure, look, middle, true, words)));
}

// At each place along a curve near it, then further off, then, near its middle, wherever it can be.
bool figure_write_on_curve(Figure *figure, TextKind look, const Path *path, Effort effort,
                           const char *words) {
    static const double places[CURVE_PLACES] = {0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86};
    const double length = path_length(path);
    Point at[CURVE_PLACES];
    const bool anyhow = effort == EFFORT_ANYHOW;
    int count = 0;
    for (int i = 0; i < CURVE_PLACES; i++) {
        PathSpot spot;
        if (path_spot_at(path, length * places[i], &spot) != GEOM_OK)
            return false;
        const Point on = path_spot_point(path, spot);
        if (figure_shows(figure, on))
            at[count++] = affine_point(figure->canvas->view, on);
    }
    for (int i = 0; i < count && (effort > EFFORT_NEAR || count > 1);
         i++) // a scrap at the edge of the figure has no name
        if (write_beside(figure, look, at[i], 1, LABELS_CLEAR, words))
            return true;
    for (int i = 0; effort >= EFFORT_FREE && i < count; i++)
        if (write_beside(figure, look, at[i], LABEL_RINGS - 1, LABELS_CLEAR, words) ||
            write_far(figure, look, at[i], LABELS_FREE, NEAR_LEADERS, words))
            return true;
    for (int i = 0; anyhow && i < count; i++)
        if (write_far(figure, look, at[i], LABELS_CLEAR, NEAR_LEADERS, words))
            return true;
    for (int i = 0; anyhow && i < count; i++)
        if (write_beside(figure, look, at[i], LABEL_RINGS, LABELS_CROWDED, words) ||
            write_far(figure, look, at[i], LABELS_CROWDED, LEADERS, words))
            return true;
    return anyhow && count > 0 && write_far(figure, look, at[0], LEADER_CROSSES, LEADERS, words);
}

static void write_path_name(Figure *figure, const Mark *mark, TextKind look, bool must, const char *name) {
    if (mark->path.count == 0)
        return;
    Segment segment;
    bool broken[2];
    const Path path = figure_shown_path(figure, mark, &segment, broken);
    figure_write_on_curve(figure, look, &path, must ? EFFORT_ANYHOW : EFFORT_NEAR, name);
}

static bool at_end_of(const Path *path, Point p) {
    return point_distance(path_first(path), p) <= POINT_ON_MM ||
           point_distance(path_last(path), p) <= POINT_ON_MM;
}

// Whether a new mark stands on the old one, or begins or ends there.
static bool mark_touches(const Mark *fresh, const Mark *old) {
    if (old->kind == MARK_POINT)
        return fresh->kind == MARK_PATH && fresh->path.count > 0 && at_end_of(&fresh->path, old->point);
    if (old->kind != MARK_PATH || old->path.count == 0)
        return false;
    if (fresh->kind == MARK_POINT)
        return path_distance(&old->path, fresh->point) <= POINT_ON_MM;
    return fresh->kind == MARK_PATH && fresh->path.count > 0 &&
           (path_distance(&old->path, path_first(&fresh->path)) <= POINT_ON_MM ||
            path_distance(&old->path, path_last(&fresh->path)) <= POINT_ON_MM);
}

static bool is_touched(const Figure *figure, int index) {
    const MarkList *marks = &figure->pattern->drafts.items[figure->draft].marks;
    if (marks->count > TOUCHED_MOST)
        return true;
    for (int i = 0; i < marks->count; i++)
        if (figure->ages[i] == MARK_NEW && mark_touches(&marks->items[i], &marks->items[index]))
            return true;
    return false;
}

static void write_name(Figure *figure, int index, TextKind look) {
    const Mark *mark = &figure->pattern->drafts.items[figure->draft].marks.items[index];
    const bool must = figure->ages[index] == MARK_NEW;
    char name[PLAIN_NAME_MAX];
    if (!figure_may_write(figure))
        return;
    plain_name(mark->name, name);
    if (mark->kind == MARK_PATH)
        write_path_name(figure, mark, look, must, name);
    else if (figure_shows(figure, mark->point))
        write_near(figure, look, affine_point(figure->canvas->view, mark->point), must, name);
}

static bool is_named(const Figure *figure, int index, MarkKind kind, MarkAge age) {
    const Mark *mark = &figure->pattern->drafts.items[figure->draft].marks.items[index];
    return mark->kind == kind && mark->name != NULL && figure->ages[index] == age;
}

static void write_new_names(Figure *figure, MarkKind kind) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->marks.count; i++)
        if (is_named(figure, i, kind, MARK_NEW))
            write_name(figure, i, kind == MARK_POINT ? TEXT_MARK : TEXT_LINE_NAME);
}

// What the new work stands on is the most useful to know again.
static void write_old_names(Figure *figure) {
    static const struct {
        MarkKind kind;
        bool touched;
    } order[] = {{MARK_POINT, true}, {MARK_PATH, true}, {MARK_POINT, false}, {MARK_PATH, false}};
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    const int count = d->marks.count;
    bool *touched = mem_new(sizeof *touched * (size_t)(count + 1));
    for (int i = 0; i < count; i++)
        touched[i] =
            d->marks.items[i].kind != MARK_PIECE && figure->ages[i] == MARK_OLD && is_touched(figure, i);
    for (int pass = 0; pass < 4; pass++)
        for (int i = 0; i < count; i++)
            if (is_named(figure, i, order[pass].kind, MARK_OLD) && touched[i] == order[pass].touched)
                write_name(figure, i, TEXT_OLD_MARK);
    mem_free(touched);
}

// What a step traced beside its other work, in the middle of it.
static void write_traced_names(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < d->marks.count; i++) {
        const Piece *piece = figure_piece(figure->pattern, figure->draft, &d->marks.items[i]);
        if (piece == NULL || figure->ages[i] != MARK_NEW || !figure_may_write(figure))
            continue;
        Box box = box_empty();
        for (int k = 0; k < piece->edges.count; k++)
            box = box_join(box, path_box(&piece->edges.items[k].path));
        const Point middle = affine_point(figure->canvas->view, point_mix(box.least, box.most, 0.5));
        write_beside(figure, TEXT_LINE_NAME, middle, LABEL_RINGS, LABELS_CLEAR, piece->name);
    }
}

void figure_draw_words(Figure *figure) {
    write_new_names(figure, MARK_POINT);
    figure_write_measures(figure);
    if (figure->options->stage == NULL)
        write_new_names(figure, MARK_PATH);
    else
        write_traced_names(figure);
    write_old_names(figure);
}
