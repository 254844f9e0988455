#include "pattern/report.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "pattern/allowance.h"
#include "pattern/grain.h"
#include "pattern/number.h"
#include "pattern/seam.h"
#include "pattern/words.h"

void json_add_text(Buffer *out, const char *text) {
    buffer_add_char(out, '"');
    while (*text) {
        const char *from = text;
        const uint32_t c = text_next(&text);
        if (c == '"' || c == '\\') {
            buffer_add_char(out, '\\');
            buffer_add_char(out, (char)c);
        } else if (c == '\n') {
            buffer_add_text(out, "\\n");
        } else if (c < 0x20 || c == 0x7F) {
            buffer_add_format(out, "\\u%04x", (unsigned)c);
        } else if (c == 0xFFFD) {
            buffer_add_text(out, "\xEF\xBF\xBD");
        } else {
            buffer_add(out, from, (size_t)(text - from));
        }
    }
    buffer_add_char(out, '"');
}

void json_add_number(Buffer *out, double value) {
    if (!isfinite(value))
        buffer_add_text(out, "null");
    else if (fabs(value) < 1e9)
        number_add_fixed(out, value);
    else
        number_add(out, value);
}

// Commas are put before every key and item but the first, which follows an opening bracket.
static void comma(Buffer *out) {
    const char last = out->data[out->length - 1];
    if (last != '{' && last != '[')
        buffer_add_char(out, ',');
}

static void key(Buffer *out, const char *name) {
    comma(out);
    json_add_text(out, name);
    buffer_add_char(out, ':');
}

static void key_text(Buffer *out, const char *name, const char *text) {
    key(out, name);
    if (text)
        json_add_text(out, text);
    else
        buffer_add_text(out, "null");
}

static void key_number(Buffer *out, const char *name, double value) {
    key(out, name);
    json_add_number(out, value);
}

static void key_bool(Buffer *out, const char *name, bool value) {
    key(out, name);
    buffer_add_text(out, value ? "true" : "false");
}

static void open_list(Buffer *out, const char *name) {
    if (name)
        key(out, name);
    else
        comma(out);
    buffer_add_char(out, '[');
}

static void open_item(Buffer *out) {
    comma(out);
    buffer_add_char(out, '{');
}

static void add_item_number(Buffer *out, double value) {
    comma(out);
    json_add_number(out, value);
}

static int main_chapter(const Pattern *pattern) {
    int main = -1;
    for (int i = 0; i < pattern->chapters.count; i++)
        if (pattern->chapters.items[i].depth == 0)
            main = i;
    return main;
}

// The notes with a number: those of the main recipe by name, those of others as "RECIPE.name". A name stands
// once.
static void add_values(const Pattern *pattern, Buffer *out) {
    const int main = main_chapter(pattern);
    key(out, "values");
    buffer_add_char(out, '{');
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        const int chapter = note->step >= 0 ? pattern->steps.items[note->step].chapter : main;
        if (note->measure == MEASURE_TEXT)
            continue;
        bool again = false;
        for (int k = 0; k < i && !again; k++) {
            const Note *before = &pattern->notes.items[k];
            again = before->measure != MEASURE_TEXT && strcmp(before->name, note->name) == 0 &&
                    (before->step >= 0 ? pattern->steps.items[before->step].chapter : main) == chapter;
        }
        if (again)
            continue;
        if (chapter == main || chapter < 0) {
            key_number(out, note->name, note->value);
            continue;
        }
        const char *recipe = pattern->chapters.items[chapter].recipe;
        const char *slash = recipe ? strrchr(recipe, '/') : NULL;
        Buffer name;
        buffer_init(&name);
        buffer_add_format(&name, "%s.%s", slash ? slash + 1 : recipe ? recipe : "", note->name);
        key_number(out, name.data, note->value);
        buffer_finish(&name);
    }
    buffer_add_char(out, '}');
}

static void add_outline(Buffer *out, const char *name, const Path *outline) {
    Point *points;
    int count;
    path_flatten(outline, CURVE_FIT_MM, &points, &count);
    open_list(out, name);
    for (int i = 0; i < count - 1; i++) {
        open_list(out, NULL);
        add_item_number(out, points[i].x);
        add_item_number(out, points[i].y);
        buffer_add_char(out, ']');
    }
    buffer_add_char(out, ']');
    mem_free(points);
}

static void add_edges(const Piece *piece, Buffer *out) {
    open_list(out, "edges");
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        open_item(out);
        key_text(out, "name", edge->name);
        key_number(out, "length", path_length(&edge->path));
        key_number(out, "allowance", edge->fold ? 0 : edge->allowance);
        key_bool(out, "fold", edge->fold);
        buffer_add_char(out, '}');
    }
    buffer_add_text(out, "]");
    open_list(out, "notches");
    for (int i = 0; i < piece->notches.count; i++) {
        const Notch *notch = &piece->notches.items[i];
        open_item(out);
        key_text(out, "edge", piece->edges.items[notch->edge].name);
        key_number(out, "at", notch->at);
        key_number(out, "count", notch->count);
        key_text(out, "seam", notch->seam);
        buffer_add_char(out, '}');
    }
    buffer_add_text(out, "]");
}

static void add_piece(const Piece *piece, Buffer *out) {
    const Box box = piece_box_along(piece, piece->grain_angle);
    Path outline = {0};
    open_item(out);
    key_text(out, "name", piece->name);
    key_number(out, "cut", piece->cut);
    key_bool(out, "pair", piece->pair);
    key_text(out, "cloth", piece->cloth);
    key_text(out, "note", piece->note);
    key_number(out, "area", piece_area(piece));
    open_list(out, "bounds");
    add_item_number(out, box.most.x - box.least.x);
    add_item_number(out, box.most.y - box.least.y);
    buffer_add_char(out, ']');
    key_number(out, "grain", piece->grain_angle);
    key_text(out, "grain_kind", grain_words.items[piece->grain]);
    key_bool(out, "true_bias", piece_is_true_bias(piece));
    add_edges(piece, out);
    piece_outline(piece, &outline);
    add_outline(out, "outline", &outline);
    if (piece_cut_outline(piece, &outline) == GEOM_OK)
        add_outline(out, "cut_outline", &outline);
    else
        buffer_add_text(out, ",\"cut_outline\":[]");
    path_finish(&outline);
    buffer_add_char(out, '}');
}

static void add_seam(const Pattern *pattern, const Seam *seam, Buffer *out) {
    const SeamWalk walk = seam_walk(pattern, seam);
    open_item(out);
    key_text(out, "name", seam->name);
    open_list(out, "lengths");
    add_item_number(out, walk.length_a);
    add_item_number(out, walk.length_b);
    buffer_add_char(out, ']');
    key_number(out, "ease", seam->ease);
    key_number(out, "difference", walk.difference);
    key_bool(out, "holds", walk.holds);
    buffer_add_char(out, '}');
}

static void add_proof(const Proof *proof, Buffer *out) {
    open_item(out);
    key_text(out, "what", proof->what);
    key_number(out, "found", proof->found);
    key_number(out, "wanted", proof->wanted);
    key_text(out, "relation", proof->relation ? proof->relation : "");
    key_text(out, "measure", measure_words.items[proof->measure]);
    key_bool(out, "holds", proof->holds);
    key_bool(out, "accepted", proof->accepted);
    key_text(out, "way_out", proof->way_out);
    buffer_add_char(out, '}');
}

static void add_story(const Pattern *pattern, Buffer *out) {
    open_list(out, "chapters");
    for (int i = 0; i < pattern->chapters.count; i++) {
        const Chapter *chapter = &pattern->chapters.items[i];
        open_item(out);
        key_text(out, "recipe", chapter->recipe);
        key_text(out, "title", chapter->title);
        key_text(out, "hash", chapter->hash);
        buffer_add_char(out, '}');
    }
    buffer_add_char(out, ']');
    open_list(out, "inputs");
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        open_item(out);
        key_text(out, "name", input->name);
        key_text(out, "kind", input_words.items[input->choice]);
        if (input->measure == MEASURE_TEXT || input->missing)
            key_text(out, "value", input->missing ? NULL : input->text);
        else
            key_number(out, "value", input->value);
        key_bool(out, "optional", input->optional);
        key_bool(out, "default", input->is_default);
        buffer_add_char(out, '}');
    }
    buffer_add_char(out, ']');
    open_list(out, "remarks");
    for (int i = 0; i < pattern->remarks.count; i++) {
        open_item(out);
        key_text(out, "kind", remark_words.items[pattern->remarks.items[i].kind]);
        key_text(out, "text", pattern->remarks.items[i].text);
        buffer_add_char(out, '}');
    }
    buffer_add_char(out, ']');
}

void pattern_report_json(const Pattern *pattern, Buffer *out) {
    buffer_add_char(out, '{');
    key_text(out, "recipe", pattern->recipe);
    key_text(out, "title", pattern->title);
    key_text(out, "body", pattern->body);
    key_bool(out, "holds", pattern_holds(pattern));
    add_values(pattern, out);
    open_list(out, "pieces");
    for (int i = 0; i < pattern->pieces.count; i++)
        add_piece(&pattern->pieces.items[i], out);
    buffer_add_char(out, ']');
    open_list(out, "seams");
    for (int i = 0; i < pattern->seams.count; i++)
        add_seam(pattern, &pattern->seams.items[i], out);
    buffer_add_char(out, ']');
    open_list(out, "proofs");
    for (int i = 0; i < pattern->proofs.count; i++)
        add_proof(&pattern->proofs.items[i], out);
    buffer_add_char(out, ']');
    add_story(pattern, out);
    buffer_add_text(out, "}\n");
}
