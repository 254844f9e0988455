// The text is line by line: a word that says what the line is, then its fields in a fixed order. Numbers as
// number.h writes them, texts in quotes, `-` for a text that is not there. What belongs to a draft, piece or
// seam follows it, indented. A path is its first point, then `L x y` for each line and `C x y x y x y` for
// each curve.
#include "pattern/write.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "pattern/allowance.h"
#include "pattern/number.h"
#include "pattern/words.h"

static void put_word(Buffer *out, const char *word) {
    buffer_add_char(out, ' ');
    buffer_add_text(out, word);
}

static void put_choice(Buffer *out, Words words, int index) {
    put_word(out, words.items[index]);
}

static void put_int(Buffer *out, int value) {
    buffer_add_char(out, ' ');
    number_add_fixed(out, value);
}

static void put_fixed(Buffer *out, double value) {
    buffer_add_char(out, ' ');
    number_add_fixed(out, value);
}

static void put_number(Buffer *out, double value) {
    buffer_add_char(out, ' ');
    number_add(out, value);
}

static void put_point(Buffer *out, Point p) {
    put_fixed(out, p.x);
    put_fixed(out, p.y);
}

// Quotes, backslashes and control characters are escaped; bytes that are not UTF-8 become U+FFFD.
static void put_text(Buffer *out, const char *text) {
    if (!text) {
        buffer_add_text(out, " -");
        return;
    }
    buffer_add_text(out, " \"");
    while (*text) {
        size_t plain = 0;
        while ((unsigned char)text[plain] >= 0x20 && (unsigned char)text[plain] < 0x7F &&
               text[plain] != '"' && text[plain] != '\\')
            plain++;
        buffer_add(out, text, plain);
        text += plain;
        const unsigned char c = (unsigned char)*text;
        if (c == '\0')
            break;
        if (c == '\n' || c == '"' || c == '\\') {
            buffer_add_char(out, '\\');
            buffer_add_char(out, c == '\n' ? 'n' : (char)c);
            text++;
        } else if (c < 0x20 || c == 0x7F) {
            buffer_add_format(out, "\\x%02x", c);
            text++;
        } else {
            const char *from = text;
            if (text_next(&text) == 0xFFFD)
                buffer_add_text(out, "\xEF\xBF\xBD");
            else
                buffer_add(out, from, (size_t)(text - from));
        }
    }
    buffer_add_char(out, '"');
}

static void put_path(Buffer *out, const Path *path) {
    if (path->count > 0)
        put_point(out, path->items[0].p0);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (s->kind == SEGMENT_LINE) {
            buffer_add_text(out, " L");
        } else {
            buffer_add_text(out, " C");
            put_point(out, s->p1);
            put_point(out, s->p2);
        }
        put_point(out, s->p3);
    }
    buffer_add_char(out, '\n');
}

static void put_head(const Pattern *pattern, Buffer *out) {
    buffer_add_text(out, "rebato_pattern 1\nunits");
    put_choice(out, units_words, pattern->units);
    buffer_add_text(out, "\nrecipe");
    put_text(out, pattern->recipe ? pattern->recipe : "");
    buffer_add_text(out, "\ntitle");
    put_text(out, pattern->title ? pattern->title : "");
    buffer_add_text(out, "\nbody");
    put_text(out, pattern->body);
    buffer_add_char(out, '\n');
    const PullOn *pull = &pattern->pull_on;
    if (pull->stated || pull->head_girth != 0) {
        buffer_add_text(out, pull->stated ? "pull_on" : "head");
        put_int(out, pull->step);
        put_number(out, pull->length);
        put_number(out, pull->slit);
        put_number(out, pull->stretch);
        put_number(out, pull->ease);
        put_number(out, pull->head_girth);
        buffer_add_char(out, '\n');
    }
}

static void put_story(const Pattern *pattern, Buffer *out) {
    for (int i = 0; i < pattern->chapters.count; i++) {
        const Chapter *chapter = &pattern->chapters.items[i];
        buffer_add_text(out, "chapter");
        put_int(out, chapter->depth);
        put_int(out, chapter->used_in);
        put_text(out, chapter->recipe);
        put_text(out, chapter->title);
        put_text(out, chapter->summary);
        put_text(out, chapter->hash);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < pattern->steps.count; i++) {
        const Step *step = &pattern->steps.items[i];
        buffer_add_text(out, "step");
        put_int(out, step->chapter);
        put_int(out, step->line);
        put_text(out, step->title);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        buffer_add_text(out, "input");
        put_text(out, input->name);
        put_int(out, input->chapter);
        put_choice(out, input_words, input->choice);
        put_choice(out, need_words, input->missing ? 2 : input->optional);
        put_choice(out, default_words, input->is_default);
        put_choice(out, measure_words, (int)input->measure);
        put_number(out, input->value);
        put_number(out, input->least);
        put_number(out, input->most);
        put_text(out, input->text);
        put_text(out, input->options);
        put_text(out, input->about);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        buffer_add_text(out, "note");
        put_text(out, note->name);
        put_int(out, note->step);
        put_choice(out, measure_words, (int)note->measure);
        put_number(out, note->value);
        put_text(out, note->text);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < pattern->filled.count; i++) {
        const Filled *filled = &pattern->filled.items[i];
        buffer_add_text(out, "filled");
        put_int(out, filled->step);
        put_int(out, filled->line);
        put_int(out, filled->column);
        put_text(out, filled->text);
        buffer_add_char(out, '\n');
    }
}

static void put_draft(const Draft *draft, Buffer *out) {
    buffer_add_text(out, "draft");
    put_text(out, draft->name);
    put_int(out, draft->step);
    buffer_add_char(out, '\n');
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        buffer_add_char(out, ' ');
        put_choice(out, mark_words, (int)mark->kind);
        put_text(out, mark->name);
        put_int(out, mark->step);
        put_int(out, mark->line);
        if (mark->kind == MARK_PATH) {
            put_path(out, &mark->path);
            continue;
        }
        if (mark->kind == MARK_POINT)
            put_point(out, mark->point);
        else
            put_int(out, mark->piece);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < draft->dimensions.count; i++) {
        const Dimension *dimension = &draft->dimensions.items[i];
        buffer_add_text(out, "  dimension");
        put_int(out, dimension->step);
        put_point(out, dimension->from);
        put_point(out, dimension->to);
        put_text(out, dimension->text);
        buffer_add_char(out, '\n');
    }
}

static void put_edges(const Piece *piece, Buffer *out) {
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        buffer_add_text(out, "  edge");
        put_text(out, edge->name);
        put_text(out, edge->root);
        put_choice(out, direction_words, edge->backward);
        put_fixed(out, edge->allowance);
        put_choice(out, fold_words, edge->fold);
        put_choice(out, corner_words, (int)edge->corner);
        put_choice(out, first_words, edge->other_first);
        put_path(out, &edge->path);
    }
}

// The cut line of the piece as it will be read back, its points and widths rounded as they are written.
static void put_cut_line(const Piece *piece, Buffer *out) {
    Path cut = {0};
    Arena arena;
    arena_init(&arena);
    Piece rounded;
    piece_copy(&arena, piece, &rounded);
    for (int i = 0; i < rounded.edges.count; i++) {
        Edge *edge = &rounded.edges.items[i];
        edge->allowance = number_fixed(edge->allowance);
        for (int k = 0; k < edge->path.count; k++) {
            Segment *s = &edge->path.items[k];
            if (s->kind == SEGMENT_LINE)
                *s = segment_line(number_fixed_point(s->p0), number_fixed_point(s->p3));
            else
                *s = segment_cubic(number_fixed_point(s->p0), number_fixed_point(s->p1),
                                   number_fixed_point(s->p2), number_fixed_point(s->p3));
        }
    }
    if (piece_cut_outline(&rounded, &cut) == GEOM_OK) {
        buffer_add_text(out, "  cut");
        put_path(out, &cut);
    }
    path_finish(&cut);
    arena_finish(&arena);
}

static void put_piece(const Piece *piece, bool derived, Buffer *out) {
    buffer_add_text(out, "piece");
    put_text(out, piece->name);
    put_int(out, piece->draft);
    put_int(out, piece->step);
    put_int(out, piece->cut);
    put_choice(out, cut_words, piece->pair);
    put_text(out, piece->cloth);
    put_text(out, piece->note);
    buffer_add_text(out, "\n  grain");
    put_choice(out, grain_words, (int)piece->grain);
    put_number(out, piece->grain_angle);
    put_text(out, piece->grain_edge);
    put_choice(out, arrow_words, piece->one_way);
    buffer_add_char(out, '\n');
    put_edges(piece, out);
    for (int i = 0; i < piece->lines.count; i++) {
        const InnerLine *line = &piece->lines.items[i];
        buffer_add_text(out, "  line");
        put_choice(out, inner_words, (int)line->kind);
        put_text(out, line->name);
        put_text(out, line->root);
        put_path(out, &line->path);
    }
    for (int i = 0; i < piece->notches.count; i++) {
        const Notch *notch = &piece->notches.items[i];
        buffer_add_text(out, "  notch");
        put_int(out, notch->edge);
        put_fixed(out, notch->at);
        put_int(out, notch->count);
        put_text(out, notch->seam);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < piece->dots.count; i++) {
        const Dot *dot = &piece->dots.items[i];
        buffer_add_text(out, "  dot");
        put_choice(out, dot_words, (int)dot->kind);
        put_text(out, dot->name);
        put_point(out, dot->at);
        buffer_add_char(out, '\n');
    }
    if (derived)
        put_cut_line(piece, out);
}

static void put_seam_side(const char *side, const SeamEdgeList *edges, Buffer *out) {
    for (int i = 0; i < edges->count; i++) {
        buffer_add_text(out, "  ");
        buffer_add_text(out, side);
        put_int(out, edges->items[i].piece);
        put_int(out, edges->items[i].edge);
        put_choice(out, direction_words, edges->items[i].backward);
        buffer_add_char(out, '\n');
    }
}

static void put_seam(const Seam *seam, Buffer *out) {
    buffer_add_text(out, "seam");
    put_text(out, seam->name);
    put_int(out, seam->step);
    put_number(out, seam->ease);
    put_number(out, seam->tolerance);
    put_choice(out, smooth_words, seam->smooth_first);
    put_choice(out, smooth_words, seam->smooth_last);
    buffer_add_char(out, '\n');
    put_seam_side("a", &seam->a, out);
    put_seam_side("b", &seam->b, out);
}

static void put_proof(const Proof *proof, Buffer *out) {
    buffer_add_text(out, "proof");
    put_choice(out, proof_words, (int)proof->kind);
    put_text(out, proof->what);
    put_int(out, proof->step);
    put_choice(out, measure_words, (int)proof->measure);
    put_number(out, proof->found);
    put_number(out, proof->wanted);
    put_text(out, proof->relation ? proof->relation : "");
    put_number(out, proof->tolerance);
    put_choice(out, holds_words, proof->holds);
    put_int(out, proof->piece);
    put_int(out, proof->edge);
    put_text(out, proof->way_out);
    buffer_add_char(out, '\n');
}

static void put_pattern(const Pattern *pattern, bool derived, Buffer *out) {
    put_head(pattern, out);
    put_story(pattern, out);
    for (int i = 0; i < pattern->drafts.count; i++)
        put_draft(&pattern->drafts.items[i], out);
    for (int i = 0; i < pattern->pieces.count; i++)
        put_piece(&pattern->pieces.items[i], derived, out);
    for (int i = 0; i < pattern->seams.count; i++)
        put_seam(&pattern->seams.items[i], out);
    for (int i = 0; i < pattern->proofs.count; i++)
        put_proof(&pattern->proofs.items[i], out);
    for (int i = 0; i < pattern->remarks.count; i++) {
        const Remark *remark = &pattern->remarks.items[i];
        buffer_add_text(out, "remark");
        put_choice(out, remark_words, (int)remark->kind);
        put_int(out, remark->step);
        put_text(out, remark->text);
        buffer_add_char(out, '\n');
    }
    buffer_add_text(out, "end\n");
}

void pattern_write(const Pattern *pattern, Buffer *out) {
    put_pattern(pattern, true, out);
}

void pattern_write_bare(const Pattern *pattern, Buffer *out) {
    put_pattern(pattern, false, out);
}
