// Reads the pattern text back. Every line is read on its own; then, when all is there, what points elsewhere
// (steps, pieces, edges) is checked against what it points to. Texts come from strangers' recipes, so nothing
// is believed.
#include "pattern/write.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "pattern/own.h"
#include "pattern/reader.h"
#include "pattern/sound.h"

#define TEXT_MAX (16u << 20) // bytes
#define COUNT_MAX 100000     // of anything
#define LINE_MAX 10000000
#define CUT_MAX 10000
#define ALLOWANCE_MAX 1000.0 // mm

static void read_pull_on(Reader *r, Pattern *p, bool stated) {
    p->pull_on.stated = stated;
    p->pull_on.step = reader_int(r, -1, COUNT_MAX);
    p->pull_on.length = reader_number(r);
    p->pull_on.slit = reader_number(r);
    p->pull_on.stretch = reader_number(r);
    p->pull_on.ease = reader_number(r);
    p->pull_on.head_girth = reader_number(r);
}

static void read_chapter(Reader *r, Pattern *p) {
    Chapter chapter = {.depth = reader_int(r, 0, COUNT_MAX)};
    chapter.used_in = reader_int(r, -1, COUNT_MAX);
    chapter.recipe = reader_maybe_text(r);
    chapter.title = reader_maybe_text(r);
    chapter.summary = reader_maybe_text(r);
    chapter.hash = reader_maybe_text(r);
    ARRAY_ADD(&p->chapters, chapter);
}

static void read_step(Reader *r, Pattern *p) {
    Step step = {.chapter = reader_int(r, -1, COUNT_MAX)};
    step.line = reader_int(r, 0, LINE_MAX);
    step.title = reader_maybe_text(r);
    ARRAY_ADD(&p->steps, step);
}

static void read_input(Reader *r, Pattern *p) {
    Input input = {.name = reader_text(r)};
    input.chapter = reader_int(r, -1, COUNT_MAX);
    input.choice = reader_choice(r, input_words);
    const int need = reader_choice(r, need_words);
    input.optional = need > 0;
    input.missing = need == 2;
    input.is_default = reader_choice(r, default_words);
    input.measure = (Measure)reader_choice(r, measure_words);
    input.value = reader_number(r);
    input.least = reader_number(r);
    input.most = reader_number(r);
    input.text = reader_maybe_text(r);
    input.options = reader_maybe_text(r);
    input.about = reader_maybe_text(r);
    ARRAY_ADD(&p->inputs, input);
}

static void read_note(Reader *r, Pattern *p) {
    Note note = {.name = reader_text(r)};
    note.step = reader_int(r, -1, COUNT_MAX);
    note.measure = (Measure)reader_choice(r, measure_words);
    note.value = reader_number(r);
    note.text = reader_maybe_text(r);
    if (note.measure == MEASURE_TEXT && !note.text)
        reader_fail(r, "a note in words has no words");
    ARRAY_ADD(&p->notes, note);
}

static void read_filled(Reader *r, Pattern *p) {
    Filled filled = {.step = reader_int(r, -1, COUNT_MAX)};
    filled.line = reader_int(r, 0, LINE_MAX);
    filled.column = reader_int(r, 0, LINE_MAX);
    filled.text = reader_text(r);
    ARRAY_ADD(&p->filled, filled);
}

static void read_mark(Reader *r, Draft *draft) {
    Mark mark = {.kind = (MarkKind)reader_choice(r, mark_words), .piece = -1};
    mark.name = reader_text(r);
    mark.step = reader_int(r, -1, COUNT_MAX);
    mark.line = reader_int(r, 0, LINE_MAX);
    if (mark.kind == MARK_POINT)
        mark.point = reader_point(r);
    else if (mark.kind == MARK_PATH)
        reader_path(r, &mark.path);
    else
        mark.piece = reader_int(r, 0, COUNT_MAX);
    ARRAY_ADD(&draft->marks, mark);
}

static void read_in_draft(Reader *r, Draft *draft) {
    if (!reader_is(r, "dimension")) {
        read_mark(r, draft);
        return;
    }
    Dimension dimension = {.step = reader_int(r, -1, COUNT_MAX)};
    dimension.from = reader_point(r);
    dimension.to = reader_point(r);
    dimension.text = reader_maybe_text(r);
    ARRAY_ADD(&draft->dimensions, dimension);
}

static void read_piece(Reader *r, Pattern *p) {
    Piece piece = {.name = reader_text(r)};
    piece.draft = reader_int(r, -1, COUNT_MAX);
    piece.step = reader_int(r, -1, COUNT_MAX);
    piece.cut = reader_int(r, 1, CUT_MAX);
    piece.pair = reader_choice(r, cut_words);
    piece.cloth = reader_text(r);
    piece.note = reader_maybe_text(r);
    ARRAY_ADD(&p->pieces, piece);
}

static void read_edge(Reader *r, Piece *piece) {
    Edge edge = {.name = reader_text(r)};
    edge.root = reader_text(r);
    edge.backward = reader_choice(r, direction_words);
    edge.allowance = reader_between(r, 0, ALLOWANCE_MAX);
    edge.fold = reader_choice(r, fold_words);
    edge.corner = (CornerStyle)reader_choice(r, corner_words);
    edge.other_first = reader_choice(r, first_words);
    reader_path(r, &edge.path);
    OWN_ADD(r->arena, &piece->edges, edge);
}

static void read_inner_line(Reader *r, Piece *piece) {
    InnerLine line = {.kind = (InnerKind)reader_choice(r, inner_words)};
    line.name = reader_text(r);
    line.root = reader_text(r);
    reader_path(r, &line.path);
    OWN_ADD(r->arena, &piece->lines, line);
}

static void read_in_piece(Reader *r, Piece *piece) {
    if (reader_is(r, "edge")) {
        read_edge(r, piece);
    } else if (reader_is(r, "line")) {
        read_inner_line(r, piece);
    } else if (reader_is(r, "grain")) {
        piece->grain = (GrainKind)reader_choice(r, grain_words);
        piece->grain_angle = reader_number(r);
        piece->grain_edge = reader_maybe_text(r);
        piece->one_way = reader_choice(r, arrow_words);
    } else if (reader_is(r, "notch")) {
        Notch notch = {.edge = reader_int(r, 0, COUNT_MAX)};
        notch.at = reader_between(r, 0, 2 * COORDINATE_LIMIT_MM);
        notch.count = reader_int(r, 1, NOTCH_COUNT_MAX);
        notch.seam = reader_maybe_text(r);
        OWN_ADD(r->arena, &piece->notches, notch);
    } else if (reader_is(r, "dot")) {
        Dot dot = {.kind = (DotKind)reader_choice(r, dot_words)};
        dot.name = reader_maybe_text(r);
        dot.at = reader_point(r);
        OWN_ADD(r->arena, &piece->dots, dot);
    } else if (reader_is(r, "cut")) {
        r->at = r->end;
    } else {
        reader_fail(r, "a line of a piece starts with an unknown word");
    }
}

static void read_seam(Reader *r, Pattern *p) {
    Seam seam = {.name = reader_text(r)};
    seam.step = reader_int(r, -1, COUNT_MAX);
    seam.ease = reader_number(r);
    seam.tolerance = reader_between(r, 0, COORDINATE_LIMIT_MM);
    seam.smooth_first = reader_choice(r, smooth_words);
    seam.smooth_last = reader_choice(r, smooth_words);
    ARRAY_ADD(&p->seams, seam);
}

static void read_in_seam(Reader *r, Seam *seam) {
    SeamEdgeList *side = reader_is(r, "a") ? &seam->a : &seam->b;
    if (side == &seam->b && !reader_is(r, "b"))
        reader_fail(r, "a line of a seam starts with an unknown word");
    SeamEdge edge = {.piece = reader_int(r, 0, COUNT_MAX)};
    edge.edge = reader_int(r, 0, COUNT_MAX);
    edge.backward = reader_choice(r, direction_words);
    ARRAY_ADD(side, edge);
}

static void read_proof(Reader *r, Pattern *p) {
    Proof proof = {.kind = (ProofKind)reader_choice(r, proof_words)};
    proof.what = reader_text(r);
    proof.step = reader_int(r, -1, COUNT_MAX);
    proof.measure = (Measure)reader_choice(r, measure_words);
    proof.found = reader_number(r);
    proof.wanted = reader_number(r);
    proof.relation = reader_text(r);
    proof.tolerance = reader_number(r);
    proof.holds = reader_choice(r, holds_words);
    proof.piece = reader_int(r, -1, COUNT_MAX);
    proof.edge = reader_int(r, -1, COUNT_MAX);
    proof.way_out = reader_maybe_text(r);
    ARRAY_ADD(&p->proofs, proof);
}

static void read_remark(Reader *r, Pattern *p) {
    Remark remark = {.kind = (RemarkKind)reader_choice(r, remark_words)};
    remark.step = reader_int(r, -1, COUNT_MAX);
    remark.text = reader_text(r);
    ARRAY_ADD(&p->remarks, remark);
}

// What the indented lines belong to: the draft, piece or seam above them.
typedef enum Inside { INSIDE_NOTHING, INSIDE_DRAFT, INSIDE_PIECE, INSIDE_SEAM } Inside;

static void read_indented(Reader *r, Pattern *p, Inside inside) {
    if (inside == INSIDE_DRAFT)
        read_in_draft(r, &p->drafts.items[p->drafts.count - 1]);
    else if (inside == INSIDE_PIECE)
        read_in_piece(r, &p->pieces.items[p->pieces.count - 1]);
    else if (inside == INSIDE_SEAM)
        read_in_seam(r, &p->seams.items[p->seams.count - 1]);
    else
        reader_fail(r, "a line is indented under nothing");
}

static Inside read_plain(Reader *r, Pattern *p) {
    if (reader_is(r, "filled")) {
        read_filled(r, p);
    } else if (reader_is(r, "note")) {
        read_note(r, p);
    } else if (reader_is(r, "proof")) {
        read_proof(r, p);
    } else if (reader_is(r, "step")) {
        read_step(r, p);
    } else if (reader_is(r, "input")) {
        read_input(r, p);
    } else if (reader_is(r, "draft")) {
        ARRAY_ADD(&p->drafts, ((Draft){.name = reader_text(r), .step = reader_int(r, -1, COUNT_MAX)}));
        return INSIDE_DRAFT;
    } else if (reader_is(r, "piece")) {
        read_piece(r, p);
        return INSIDE_PIECE;
    } else if (reader_is(r, "seam")) {
        read_seam(r, p);
        return INSIDE_SEAM;
    } else if (reader_is(r, "remark")) {
        read_remark(r, p);
    } else if (reader_is(r, "chapter")) {
        read_chapter(r, p);
    } else if (reader_is(r, "units")) {
        p->units = (Units)reader_choice(r, units_words);
    } else if (reader_is(r, "recipe")) {
        p->recipe = reader_text(r);
    } else if (reader_is(r, "title")) {
        p->title = reader_text(r);
    } else if (reader_is(r, "body")) {
        p->body = reader_maybe_text(r);
    } else if (reader_is(r, "pull_on")) {
        read_pull_on(r, p, true);
    } else if (reader_is(r, "head")) {
        read_pull_on(r, p, false);
    } else {
        reader_fail(r, "a line starts with an unknown word");
    }
    return INSIDE_NOTHING;
}

static void read_all(Reader *r, Pattern *p) {
    if (!reader_line(r) || !reader_is(r, "rebato_pattern") || reader_int(r, 0, COUNT_MAX) != 1) {
        reader_fail(r, "it does not start with \"rebato_pattern 1\"");
        return;
    }
    Inside inside = INSIDE_NOTHING;
    while (!r->failed) {
        if (!reader_line(r)) {
            reader_fail(r, "its end is missing");
            return;
        }
        if (r->at < r->end && *r->at == ' ')
            read_indented(r, p, inside);
        else if (reader_is(r, "end"))
            break;
        else
            inside = read_plain(r, p);
        reader_done(r);
        if (r->line > 10 * COUNT_MAX)
            reader_fail(r, "it has too many lines");
    }
    reader_done(r);
    if (r->next != r->stop)
        reader_fail(r, "something follows its end");
}

bool pattern_read(const char *text, size_t length, Pattern *out, Fault *fault) {
    *out = (Pattern){0};
    if (length > TEXT_MAX || memchr(text, '\0', length) || !text_is_utf8(text, length)) {
        fault_set(fault, NULL, 1, "the pattern text is damaged: %s",
                  length > TEXT_MAX ? "it is longer than 16 MB" : "it is not UTF-8");
        return false;
    }
    Pattern pattern;
    pattern_init(&pattern);
    Reader reader = {.next = text, .stop = text + length, .arena = &pattern.arena, .fault = fault};
    read_all(&reader, &pattern);
    if (!reader.failed) {
        const char *wrong = pattern_wrong(&pattern);
        if (wrong)
            reader_fail(&reader, wrong);
    }
    path_finish(&reader.scratch);
    if (reader.failed) {
        pattern_finish(&pattern);
        return false;
    }
    *out = pattern;
    return true;
}
