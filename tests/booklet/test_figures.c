// The pictures of every recipe of the shelf, at the sizes the pages and the HTML ask for.
#include <criterion/criterion.h>

#include <stdio.h>
#include <string.h>

#include "../sheet/recorder.h"
#include "booked.h"
#include "sheet/picture.h"
#include "sheet/stage.h"

static void check(const Booked *b, const PictureAsk *ask, const char *what) {
    PictureSize size;
    cr_assert(picture_measure(b->book.pictures, ask, &size), "%s is empty", what);
    cr_expect_leq(size.width, ask->width + 0.01, "%s: %g", what, size.width);
    cr_expect_leq(size.height, ask->height + 0.01, "%s: %g", what, size.height);
    Recorder recorder;
    recorder_init(&recorder, size.width, size.height);
    picture_draw(b->book.pictures, ask, &recorder.canvas, point(0, 0));
    const Box box = {{0, 0}, {size.width, size.height}};
    cr_expect_not(box_is_empty(recorder.drawn), "%s has no lines", what);
    cr_expect(recorder.drawn.least.x >= -0.5 && recorder.drawn.least.y >= -0.5 &&
                  recorder.drawn.most.x <= size.width + 0.5 && recorder.drawn.most.y <= size.height + 0.5,
              "%s: lines from %g %g to %g %g leave the picture of %g by %g", what, recorder.drawn.least.x,
              recorder.drawn.least.y, recorder.drawn.most.x, recorder.drawn.most.y, size.width, size.height);
    for (int i = 0; i < recorder.words.count; i++) {
        const Word *word = &recorder.words.items[i];
        cr_expect(word_inside(word, box), "%s: \"%s\" leaves the picture", what, word->text);
        if (ask->kind == PICTURE_STEP)
            cr_expect_not(word_crossed(word, &recorder), "%s: a line crosses \"%s\"", what, word->text);
        for (int k = 0; k < i; k++)
            cr_expect_not(words_overlap(word, &recorder.words.items[k]), "%s: \"%s\" covers \"%s\"", what,
                          word->text, recorder.words.items[k].text);
    }
    recorder_finish(&recorder);
}

// What a step marked and named is named in its picture.
static void check_names(const Booked *b, const PictureAsk *ask, const char *what) {
    const Draft *draft = &b->pattern.drafts.items[ask->draft];
    PictureSize size;
    Recorder recorder;
    Names names;
    Stages stages;
    names_init(&names, &b->pattern);
    stages_init(&stages, &names, ask->draft);
    const Stage *stage = stages_at(&stages, ask->step);
    cr_assert(picture_measure(b->book.pictures, ask, &size));
    recorder_init(&recorder, size.width, size.height);
    picture_draw(b->book.pictures, ask, &recorder.canvas, point(0, 0));
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->kind != MARK_POINT || stage_age(stage, i) != MARK_NEW)
            continue;
        char name[96];
        snprintf(name, sizeof name, "%s", mark->name);
        for (char *at = name; *at; at++)
            if (*at == '_')
                *at = ' ';
        cr_expect(recorder_has(&recorder, name), "%s: \"%s\" is not named", what, name);
    }
    recorder_finish(&recorder);
    stages_finish(&stages);
    names_finish(&names);
}

// A draft is drawn at one scale, and its details at a second one.
static void check_scales(const Booked *b, const char *recipe) {
    for (int d = 0; d < b->pattern.drafts.count; d++) {
        double scales[3];
        int count = 0;
        for (int s = 0; s < b->pattern.steps.count; s++) {
            PictureAsk ask = {.kind = PICTURE_STEP, .step = s, .draft = d, .width = 170, .height = 150};
            PictureSize size;
            bool known = !picture_measure(b->book.pictures, &ask, &size);
            for (int i = 0; i < count; i++)
                known = known || scales[i] == size.scale;
            if (!known && count < 3)
                scales[count++] = size.scale;
        }
        cr_expect_leq(count, 2, "%s, draft \"%s\" has more than two scales", recipe,
                      b->pattern.drafts.items[d].name);
    }
}

// Of the picture of a step that did no more than trace pieces: each with its name.
static void check_traced(const Booked *b, const PictureAsk *ask, const char *what) {
    const Draft *draft = &b->pattern.drafts.items[ask->draft];
    for (int i = 0; i < draft->marks.count; i++)
        if (draft->marks.items[i].step == ask->step && draft->marks.items[i].kind != MARK_PIECE)
            return;
    for (int i = 0; i < draft->dimensions.count; i++)
        if (draft->dimensions.items[i].step == ask->step)
            return;
    PictureSize size;
    Recorder recorder;
    recorder_init(&recorder, ask->width, ask->height);
    cr_assert(picture_measure(b->book.pictures, ask, &size));
    picture_draw(b->book.pictures, ask, &recorder.canvas, point(0, 0));
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        const Piece *piece = mark->step == ask->step ? &b->pattern.pieces.items[mark->piece] : NULL;
        if (piece != NULL && piece->draft == ask->draft)
            cr_expect(recorder_has(&recorder, piece->name), "%s: \"%s\" is not named", what, piece->name);
    }
    recorder_finish(&recorder);
}

static void check_steps(const Booked *b, const char *recipe) {
    static const double rooms[][2] = {
        {PICTURE_BESIDE_WIDE_MM, PICTURE_BESIDE_TALL_MM}, {92, 120}, {150, 150}};
    char what[300];
    for (int s = 0; s < b->pattern.steps.count; s++)
        for (int d = 0; d < b->pattern.drafts.count; d++)
            for (int r = 0; r < 3 && picture_has_step(b->book.pictures, s, d); r++) {
                const PictureAsk ask = {
                    .kind = PICTURE_STEP, .step = s, .draft = d, .width = rooms[r][0], .height = rooms[r][1]};
                snprintf(what, sizeof what, "%s, step \"%s\", draft \"%s\", %g mm", recipe,
                         b->pattern.steps.items[s].title, b->pattern.drafts.items[d].name, ask.width);
                check(b, &ask, what);
                check_names(b, &ask, what);
                check_traced(b, &ask, what);
            }
}

static void check_rest(const Booked *b, const char *recipe) {
    char what[300];
    for (int i = 0; i < b->pattern.seams.count; i++) {
        const PictureAsk ask = {.kind = PICTURE_SEAM, .seam = i, .width = 170, .height = 120};
        snprintf(what, sizeof what, "%s, seam \"%s\"", recipe, b->pattern.seams.items[i].name);
        check(b, &ask, what);
    }
    for (int i = 0; i < b->pattern.pieces.count; i++) {
        const PictureAsk ask = {.kind = PICTURE_PIECE, .piece = i, .width = 30, .height = 20};
        snprintf(what, sizeof what, "%s, piece \"%s\"", recipe, b->pattern.pieces.items[i].name);
        check(b, &ask, what);
    }
    if (b->pattern.pieces.count > 0) {
        const PictureAsk ask = {.kind = PICTURE_ALL, .width = 170, .height = 105};
        snprintf(what, sizeof what, "%s, all pieces", recipe);
        check(b, &ask, what);
    }
}

static void check_all(const char *recipe, const Booked *b) {
    check_steps(b, recipe);
    check_scales(b, recipe);
    check_rest(b, recipe);
}

Test(figures, no_picture_of_the_shelf_is_empty_and_no_name_covers_another_or_a_line_or_leaves_it,
     .timeout = 300) {
    booked_each(check_all);
}
