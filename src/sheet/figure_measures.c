// The measures of a figure: dimensions as thin lines with ticks at their ends, and the lengths of new lines
// along them. A dimension along a line that is drawn stands beside it, with thin lines out to it from the
// points it measures. A new line with corners has a length for each part between them, as a hand measures it.
#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "geometry/tolerance.h"
#include "sheet/figure_parts.h"
#include "sheet/number_text.h"
#include "sheet/plain_name.h"

#define WORDS_MAX 320      // bytes of a name with its measure
#define CORNER_DEGREES 8.0 // less is no corner for a hand
#define PARTS_MOST 4       // of more parts none is measured
#define PART_LEAST_MM 7.0  // nor is one shorter than that, mm of paper
#define ASIDE_MM 4.0       // a dimension stands so far off its line, mm of paper
#define PAST_MM 1.0        // the lines out to it run on by so much

static void add_length(const Figure *figure, double mm, char *out, size_t size) {
    units_format(mm, figure->options->units, out, size);
    number_text_mark(out, figure->options->marks, out, size);
}

static Line on_paper(const Figure *figure, Point from, Point to) {
    return (Line){affine_point(figure->canvas->view, from), affine_point(figure->canvas->view, to)};
}

// Whether a line is drawn there already.
static bool is_drawn(Figure *figure, Line line) {
    int met = 0;
    for (int i = 1; i <= 5; i++)
        met += labels_on_line(&figure->labels, point_mix(line.from, line.to, i / 6.0));
    return met >= 4;
}

static Line shortened(Line line, double by) {
    const Point along = point_scale(point_unit(point_sub(line.to, line.from)), by);
    return (Line){point_add(line.from, along), point_sub(line.to, along)};
}

static void add_thin(Figure *figure, Line line, bool ticked) {
    ARRAY_ADD(&figure->thin, ((ThinLine){line, ticked}));
    labels_add_line(&figure->labels, line);
    for (int i = 0; i < 2 && ticked; i++)
        labels_add_line(&figure->labels, figure_tick(line, i));
}

// On the straight way between the points, or to the side where less is crossed.
static Line lay_dimension(Figure *figure, Line straight) {
    static const double places[] = {0, ASIDE_MM, -ASIDE_MM, 1.8 * ASIDE_MM, -1.8 * ASIDE_MM};
    const Point side = point_left(point_unit(point_sub(straight.to, straight.from)));
    const bool aside = is_drawn(figure, straight);
    double best = INFINITY;
    Line chosen = straight;
    for (int i = aside ? 1 : 0; i < (aside ? 5 : 1); i++) {
        const Point off = point_scale(side, places[i]);
        const Line line = {point_add(straight.from, off), point_add(straight.to, off)};
        const double cost = labels_line_cost(&figure->labels, shortened(line, 1.2)) + 0.1 * i +
                            (is_drawn(figure, line) ? 10 : 0);
        if (cost >= best)
            continue;
        best = cost;
        chosen = line;
    }
    for (int i = 0; i < 2 && aside; i++) {
        const Point from = i == 0 ? straight.from : straight.to, to = i == 0 ? chosen.from : chosen.to;
        const Point out = point_unit(point_sub(to, from));
        add_thin(figure, (Line){point_add(from, out), point_add(to, point_scale(out, PAST_MM))}, false);
    }
    add_thin(figure, chosen, true);
    return chosen;
}

static void lay(Figure *figure, Point from, Point to, const char *name) {
    Measured measured = {.line = lay_dimension(figure, on_paper(figure, from, to)), .name = name};
    measured.length = point_distance(from, to);
    ARRAY_ADD(&figure->measured, measured);
}

void figure_lay_dimensions(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    const Stage *stage = figure->options->stage;
    for (int i = 0; i < d->dimensions.count; i++) {
        const Dimension *dim = &d->dimensions.items[i];
        const bool told =
            stage == NULL ? !figure_step_is_old(figure->pattern, dim->step) : stage_measures(stage, i);
        if (told && point_distance(dim->from, dim->to) > POINT_SAME_MM)
            lay(figure, dim->from, dim->to, dim->text);
    }
    for (int i = 0; stage != NULL && i < stage->lines.count; i++) {
        const StageLine *noted = &stage->lines.items[i];
        lay(figure, noted->line.from, noted->line.to, noted->note->name);
    }
}

static void write_dimension(Figure *figure, const Measured *measured) {
    char number[48], name[PLAIN_NAME_MAX] = "", words[WORDS_MAX];
    add_length(figure, measured->length, number, sizeof number);
    if (measured->name != NULL)
        plain_name(measured->name, name);
    snprintf(words, sizeof words, "%s%s%s", name, *name != '\0' ? " " : "", number);
    if (figure_may_write(figure))
        figure_write_along(figure, TEXT_DIMENSION, measured->line, EFFORT_ANYHOW, words);
}

static bool turns_between(const Path *path, int segment) {
    const Path before = {.items = &path->items[segment], .count = 1},
               after = {.items = &path->items[segment + 1], .count = 1};
    const Point a = path_direction(&before, PATH_LAST), b = path_direction(&after, PATH_FIRST);
    return fabs(DEGREES(atan2(point_cross(a, b), point_dot(a, b)))) > CORNER_DEGREES;
}

// The parts between corners, borrowed from the path; gives how many there are, though no more than most are
// stored.
static int find_parts(const Path *path, Path *parts, int most) {
    int count = 0, first = 0;
    for (int i = 0; i < path->count; i++) {
        if (i + 1 < path->count && !turns_between(path, i))
            continue;
        if (count < most)
            parts[count] = (Path){.items = &path->items[first], .count = i + 1 - first};
        count++;
        first = i + 1;
    }
    return count;
}

static bool write_on_part(Figure *figure, const Path *part, Effort effort, const char *words) {
    if (path_is_straight(part))
        return figure_write_along(figure, TEXT_LINE_NAME, on_paper(figure, path_first(part), path_last(part)),
                                  effort, words);
    return figure_write_on_curve(figure, TEXT_LINE_NAME, part, effort, words);
}

// A dimension between its ends has the number.
static bool is_measured(const Figure *figure, const Path *path) {
    const Line line = on_paper(figure, path_first(path), path_last(path));
    for (int i = 0; i < figure->measured.count && path_is_straight(path); i++)
        if (fabs(figure->measured.items[i].length - path_length(path)) < POINT_SAME_MM &&
            fabs(point_cross(point_unit(point_sub(line.to, line.from)),
                             point_sub(figure->measured.items[i].line.from, line.from))) < 2 * ASIDE_MM)
            return true;
    return false;
}

static void write_path(Figure *figure, const Mark *mark) {
    Segment segment;
    bool broken[2];
    const Path path = figure_shown_path(figure, mark, &segment, broken);
    Path parts[PARTS_MOST];
    const int count = find_parts(&path, parts, PARTS_MOST);
    char name[PLAIN_NAME_MAX];
    plain_name(mark->name, name);
    if (count > PARTS_MOST || broken[0] || broken[1] || is_measured(figure, &path)) {
        write_on_part(figure, count > PARTS_MOST ? &path : &parts[0], EFFORT_ANYHOW, name);
        return;
    }
    int longest = 0;
    for (int i = 1; i < count; i++)
        if (path_length(&parts[i]) > path_length(&parts[longest]) + POINT_SAME_MM)
            longest = i;
    for (int k = 0; k < count; k++) {
        const int i = k == 0 ? longest : k <= longest ? k - 1 : k; // the one with the name first
        char number[48], words[WORDS_MAX];
        add_length(figure, path_length(&parts[i]), number, sizeof number);
        if (k > 0 && path_length(&parts[i]) * figure->options->scale < PART_LEAST_MM)
            continue;
        snprintf(words, sizeof words, "%s%s%s", k == 0 ? name : "", k == 0 ? " " : "", number);
        if (k > 0)
            write_on_part(figure, &parts[i], EFFORT_NEAR, words);
        else if (!write_on_part(figure, &parts[i], EFFORT_FREE, words) &&
                 !write_on_part(figure, &parts[i], EFFORT_NEAR, number)) // the number is what is measured
            write_on_part(figure, &parts[i], EFFORT_ANYHOW, words);
    }
}

void figure_write_measures(Figure *figure) {
    const Draft *d = &figure->pattern->drafts.items[figure->draft];
    for (int i = 0; i < figure->measured.count; i++)
        write_dimension(figure, &figure->measured.items[i]);
    for (int i = 0; figure->options->stage != NULL && i < d->marks.count; i++)
        if (d->marks.items[i].kind == MARK_PATH && d->marks.items[i].path.count > 0 &&
            d->marks.items[i].name != NULL && figure->ages[i] == MARK_NEW && figure_may_write(figure))
            write_path(figure, &d->marks.items[i]);
}
