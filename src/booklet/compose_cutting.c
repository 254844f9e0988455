// The cutting list: each piece with its count, cloth, grain, allowances and size; what is interfaced; and how
// much cloth the pieces cover, which is not how much to buy, since no lay is worked out.
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/composing.h"
#include "pattern/allowance.h"
#include "pattern/grain.h"

static const Edge *fold_of(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold)
            return &piece->edges.items[i];
    return NULL;
}

static bool was_unfolded(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++)
        if (strcmp(piece->edges.items[i].name, piece->edges.items[i].root) != 0)
            return true;
    return false;
}

static const char *cut_words(Composing *c, const Piece *piece) {
    if (piece_is_template(piece))
        return say(c, "cut.paper", NULL);
    Buffer text;
    buffer_init(&text);
    const char *number = arena_format(c->arena, "%d", piece->cut);
    if (fold_of(piece))
        language_say(c->language, &text, "cut.on_fold", number, NULL);
    else if (piece->pair && piece->cut > 1)
        language_count(c->language, &text, "cut.pairs", piece->cut / 2);
    else
        buffer_add_text(&text, number);
    if (!fold_of(piece) && !piece->pair && was_unfolded(piece) && piece_is_true_bias(piece))
        language_say(c->language, &text, "cut.single_layer", NULL);
    return keep(c, &text);
}

static const char *grain_words(Composing *c, const Piece *piece) {
    if (piece->grain == GRAIN_NONE)
        return say(c, "grain.none", NULL);
    const bool bias = piece_is_true_bias(piece);
    const char *edge = piece->grain_edge ? say_edge(c, piece->grain_edge) : NULL;
    const char *way = piece->grain == GRAIN_ALONG && edge    ? say(c, "grain.along", edge, NULL)
                      : piece->grain == GRAIN_ACROSS && edge ? say(c, "grain.across", edge, NULL)
                      : bias                                 ? NULL
                      : piece->grain == GRAIN_BIAS           ? say(c, "grain.bias", NULL)
                                                             : say(c, "grain.arrow", NULL);
    if (!bias)
        return way;
    const char *true_bias = say(c, "grain.true_bias", NULL);
    return way ? say(c, "list.apart", true_bias, way, NULL) : true_bias;
}

// The common width first, then the edges that differ: "10 mm; neckline 6 mm".
static const char *allowance_words(Composing *c, const Piece *piece) {
    double common = -1;
    int most = 0;
    for (int i = 0; i < piece->edges.count; i++) {
        int same = 0;
        for (int k = 0; k < piece->edges.count; k++)
            same += !piece->edges.items[k].fold &&
                    piece->edges.items[k].allowance == piece->edges.items[i].allowance;
        if (piece->edges.items[i].fold || same <= most)
            continue;
        most = same;
        common = piece->edges.items[i].allowance;
    }
    const char *text = common > 0 ? say_mm(c, common) : say(c, "allowance.none", NULL);
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        bool told = edge->fold || edge->allowance == common;
        for (int k = 0; k < i; k++)
            told = told || strcmp(piece->edges.items[k].root, edge->root) == 0;
        if (!told)
            text = say(c, "list.apart", text,
                       arena_format(c->arena, "%s %s", say_edge(c, edge->root),
                                    edge->allowance > 0 ? say_mm(c, edge->allowance)
                                                        : say(c, "allowance.none", NULL)),
                       NULL);
    }
    return text;
}

// The cut outline, as it lies on the cloth: opened out over its folds.
typedef struct Cut {
    double area;          // mm2, of one
    double along, across; // the grain, mm
} Cut;

static void grow_box(Box *box, const Path *path, Affine m) {
    Path moved = {0};
    path_transform(path, m, &moved);
    const Box more = path_box(&moved);
    box->least = point(fmin(box->least.x, more.least.x), fmin(box->least.y, more.least.y));
    box->most = point(fmax(box->most.x, more.most.x), fmax(box->most.y, more.most.y));
    path_finish(&moved);
}

// A piece on the fold is half of what is cut: its mirror image lies beside it. One on the bias is measured as
// it is drawn, since a strip's length and width are what the hand needs.
static bool cut_of(const Piece *piece, Cut *out) {
    Path outline = {0};
    if (piece_cut_outline(piece, &outline) != GEOM_OK)
        return false;
    const Affine turn = affine_swing(
        point(0, 0), piece->grain == GRAIN_NONE || piece_is_true_bias(piece) ? 0 : -piece->grain_angle);
    Box box = {.least = point(INFINITY, INFINITY), .most = point(-INFINITY, -INFINITY)};
    grow_box(&box, &outline, turn);
    const Edge *fold = fold_of(piece);
    Affine mirror;
    const bool doubled =
        fold && affine_mirror(path_first(&fold->path), path_last(&fold->path), &mirror) == GEOM_OK;
    if (doubled)
        grow_box(&box, &outline, affine_then(mirror, turn));
    *out = (Cut){.area = fabs(path_area(&outline)) * (doubled ? 2 : 1),
                 .along = box.most.x - box.least.x,
                 .across = box.most.y - box.least.y};
    path_finish(&outline);
    return true;
}

static void add_piece(Composing *c, int index, TableMaking *table) {
    const Piece *piece = &c->pattern->pieces.items[index];
    BookPicture *picture = arena_take(c->arena, sizeof *picture);
    *picture = (BookPicture){
        .kind = BOOK_PICTURE_PIECE, .piece = index, .alt = say(c, "figure.piece_alt", piece->name, NULL)};
    table_authored(c, table, arena_format(c->arena, "%d. %s", index + 1, piece->name), piece->step);
    table_add(table, (BookCell){.picture = picture});
    const char *cut = cut_words(c, piece);
    table_text(c, table, piece->note ? say(c, "list.apart", cut, piece->note, NULL) : cut);
    table_text(c, table, say_cloth(c, piece->cloth));
    table_text(c, table, grain_words(c, piece));
    table_text(c, table, allowance_words(c, piece));
    Cut size;
    table_text(c, table,
               cut_of(piece, &size) ? say(c, "cut.size", say_mm(c, size.along), say_mm(c, size.across), NULL)
                                    : "");
}

static void add_pieces(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {{.weight = 4}, {.weight = 4}, {.weight = 3}, {.weight = 3},
                                         {.weight = 4}, {.weight = 4}, {.weight = 3}};
    static const char *const names[] = {"cut.name",  "cut.picture",   "cut.count", "cut.cloth",
                                        "cut.grain", "cut.allowance", "cut.sizes"};
    TableMaking table = table_begin(columns, 7, true, true);
    for (int i = 0; i < 7; i++)
        table_text(c, &table, say(c, names[i], NULL));
    for (int i = 0; i < c->pattern->pieces.count; i++)
        add_piece(c, i, &table);
    table_end(c, &table, say(c, "cut.pieces", NULL), out);
    add_paragraph(c, out, say(c, "cut.sizes_how", NULL));
}

static void add_interfacing(Composing *c, BlockList *out) {
    Buffer own, both;
    buffer_init(&own);
    buffer_init(&both);
    for (int i = 0; i < c->pattern->pieces.count; i++) {
        const Piece *piece = &c->pattern->pieces.items[i];
        Buffer *to = strcmp(piece->cloth, "interfacing") == 0            ? &own
                     : strcmp(piece->cloth, "self and interfacing") == 0 ? &both
                                                                         : NULL;
        if (to)
            buffer_add_format(to, "%s%s", to->length ? ", " : "", piece->name);
    }
    BlockList inner = {0};
    if (own.length)
        add_paragraph(c, &inner, say(c, "interfacing.own", own.data, NULL));
    if (both.length)
        add_paragraph(c, &inner, say(c, "interfacing.both", both.data, NULL));
    if (!own.length && !both.length && c->pattern->pieces.count > 0)
        add_paragraph(c, &inner, say(c, "interfacing.none", NULL));
    buffer_finish(&own);
    buffer_finish(&both);
    add_section(c, out, ROLE_PLAIN, 3, "interfacing", say(c, "interfacing.title", NULL), &inner);
}

// How much of a cloth all pieces cover, and its largest piece.
typedef struct Needed {
    const char *cloth;
    double area;
    const Piece *largest;
    Cut cut;
    int pieces;
} Needed;

typedef struct NeededList {
    Needed *items;
    int count, capacity;
} NeededList;

static void need(NeededList *list, const char *cloth, const Piece *piece, Cut cut) {
    int at = 0;
    while (at < list->count && strcmp(list->items[at].cloth, cloth) != 0)
        at++;
    if (at == list->count)
        ARRAY_ADD(list, ((Needed){.cloth = cloth}));
    Needed *needed = &list->items[at];
    needed->area += cut.area * piece->cut;
    needed->pieces += piece->cut;
    if (!needed->largest || cut.area > needed->cut.area) {
        needed->largest = piece;
        needed->cut = cut;
    }
}

static void add_cloth(Composing *c, BlockList *out) {
    NeededList list = {0};
    for (int i = 0; i < c->pattern->pieces.count; i++) {
        const Piece *piece = &c->pattern->pieces.items[i];
        Cut cut;
        if (piece_is_template(piece) || !cut_of(piece, &cut))
            continue;
        if (strcmp(piece->cloth, "self and interfacing") == 0) {
            need(&list, "self", piece, cut);
            need(&list, "interfacing", piece, cut);
        } else {
            need(&list, piece->cloth, piece, cut);
        }
    }
    BlockList inner = {0};
    static const BookColumn columns[] = {{.weight = 3}, {.number = true, .weight = 2}, {.weight = 5}};
    TableMaking table = table_begin(columns, 3, true, true);
    table_text(c, &table, say(c, "cut.cloth", NULL));
    table_text(c, &table, say(c, "cloth.area", NULL));
    table_text(c, &table, say(c, "cloth.largest", NULL));
    for (int i = 0; i < list.count; i++) {
        const Needed *needed = &list.items[i];
        table_text(c, &table, say_cloth(c, needed->cloth));
        table_text(c, &table, say_area(c, needed->area));
        table_text(c, &table,
                   say(c, "cloth.piece", needed->largest->name, say_mm(c, needed->cut.along),
                       say_mm(c, needed->cut.across), NULL));
    }
    table_end(c, &table, say(c, "cloth.title", NULL), &inner);
    if (inner.count > 0)
        add_paragraph(c, &inner, say(c, "cloth.no_lay", NULL));
    mem_free(list.items);
    add_section(c, out, ROLE_PLAIN, 3, "cloth", say(c, "cloth.title", NULL), &inner);
}

// What the recipe lists in a step of its own, such as "What to buy".
static void add_buying(Composing *c, BlockList *out) {
    const Lesson *lesson = &c->lessons[c->last];
    for (int step = lesson->first_step + 1; step < lesson->first_step + lesson->step_count; step++) {
        if (!step_is_titled(c, step, "buying.titles"))
            continue;
        BlockList inner = {0};
        add_prose(c, lesson, step - lesson->first_step, 3, PROSE_ALL, &inner);
        add_section(c, out, ROLE_PLAIN, 3, c->anchors[step], say(c, "buying.title", NULL), &inner);
    }
}

void add_cutting(Composing *c, BlockList *out) {
    BlockList inner = {0};
    if (c->pattern->pieces.count > 0) {
        add_pieces(c, &inner);
        add_interfacing(c, &inner);
        add_cloth(c, &inner);
    }
    add_buying(c, &inner);
    add_section(c, out, ROLE_CUTTING, 2, "cutting", say(c, "part.cutting", NULL), &inner);
}
