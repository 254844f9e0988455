#include "sheet/style.h"

#include <string.h>

// Widths from 0.3 to 0.6 mm for all that is cut or sewn by (common practice, no source); construction is
// thinner.
#define INK \
    { 0.09, 0.09, 0.11 }
#define INDIGO \
    { 0.13, 0.25, 0.52 }
#define MADDER \
    { 0.60, 0.11, 0.17 }
#define FERN \
    { 0.10, 0.40, 0.30 }
#define OCHRE \
    { 0.58, 0.38, 0.05 }
#define GREY \
    { 0.60, 0.60, 0.62 }
#define DARK_GREY \
    { 0.40, 0.40, 0.43 }
#define LOUD \
    { 0.80, 0.04, 0.10 }

static const LineStyle lines[LINE_KIND_COUNT] = {
    [LINE_CUT] = {.name = "cut", .words = "cut line", .width = 0.5, .colour = INK},
    [LINE_STITCH] =
        {.name = "stitch", .words = "seam line", .width = 0.35, .dash = {3.5, 1.8}, .colour = INDIGO},
    [LINE_FOLD_EDGE] = {.name = "fold-edge",
                        .words = "place on fold, do not cut",
                        .width = 0.6,
                        .dash = {14, 2.5},
                        .colour = FERN},
    [LINE_FOLD] = {.name = "fold", .words = "fold line", .width = 0.4, .dash = {10, 2.5}, .colour = FERN},
    [LINE_ROLL] =
        {.name = "roll", .words = "roll line", .width = 0.4, .dash = {7, 1.6, 0.8, 1.6}, .colour = MADDER},
    [LINE_CENTRE] =
        {.name = "centre", .words = "centre line", .width = 0.35, .dash = {12, 1.6, 2.6, 1.6}, .colour = INK},
    [LINE_MATCH] =
        {.name = "match", .words = "match here", .width = 0.35, .dash = {0.8, 1.4}, .colour = OCHRE},
    [LINE_INNER] = {.name = "inner", .words = "inner line", .width = 0.3, .colour = DARK_GREY},
    [LINE_GRAIN] = {.name = "grain", .words = "grain", .width = 0.4, .colour = INK},
    [LINE_NOTCH] = {.name = "notch", .words = "notches", .width = 0.4, .colour = INK},
    [LINE_DOT] = {.name = "dot", .words = "pivot dot, drill mark", .width = 0.35, .colour = INK},
    [LINE_BRACKET] = {.name = "fold-bracket", .width = 0.4, .colour = INK},
    [LINE_CONSTRUCTION] = {.name = "construction", .width = 0.2, .colour = GREY, .round = true},
    [LINE_DRAFT] = {.name = "draft", .width = 0.3, .colour = INK, .round = true},
    [LINE_DRAFT_EDGE] = {.name = "draft-edge", .width = 0.45, .colour = INK, .round = true},
    [LINE_OLD_POINT] = {.name = "old-point", .width = 0.8, .colour = GREY, .round = true},
    [LINE_POINT] = {.name = "point", .width = 1.1, .colour = INK, .round = true},
    [LINE_DIMENSION] = {.name = "dimension", .width = 0.2, .colour = INDIGO},
    [LINE_FLAG] = {.name = "flag", .width = 0.7, .colour = LOUD},
    [LINE_FRAME] = {.name = "frame", .width = 0.25, .colour = GREY},
    [LINE_JOIN] = {.name = "join", .width = 0.3, .colour = DARK_GREY},
    [LINE_SQUARE] = {.name = "square", .width = 0.3, .colour = INK},
    [LINE_RULE] = {.name = "rule", .width = 0.25, .colour = GREY},
};

static const TextStyle texts[TEXT_KIND_COUNT] = {
    [TEXT_TITLE] = {.name = "title", .size = 8.0, .bold = true, .colour = INK},
    [TEXT_HEAD] = {.name = "head", .size = 3.5, .bold = true, .colour = INK},
    [TEXT_BODY] = {.name = "body", .size = 3.5, .colour = INK},
    [TEXT_SMALL] = {.name = "small", .size = 2.7, .colour = INK},
    [TEXT_PALE] = {.name = "pale", .size = 2.7, .colour = DARK_GREY},
    [TEXT_PIECE] = {.name = "piece-name", .size = 5.5, .bold = true, .colour = INK},
    [TEXT_MARK] = {.name = "mark", .size = 2.7, .bold = true, .colour = INK},
    [TEXT_LINE_NAME] = {.name = "line-name", .size = 2.7, .colour = INK},
    [TEXT_OLD_MARK] = {.name = "old-mark", .size = 2.7, .colour = GREY},
    [TEXT_DIMENSION] = {.name = "dimension", .size = 2.7, .colour = INDIGO},
    [TEXT_PAGE] = {.name = "page-name", .size = 8.0, .bold = true, .colour = GREY},
    [TEXT_FLAG] = {.name = "flag", .size = 3.5, .bold = true, .colour = {1, 1, 1}},
    [TEXT_LOUD] = {.name = "loud", .size = 3.5, .bold = true, .colour = LOUD},
};

static const struct {
    const char *name;
    Colour colour;
} shades[SHADE_COUNT] = {
    [SHADE_INK] = {"ink", INK},
    [SHADE_PAPER] = {"paper", {1, 1, 1}},
    [SHADE_SELF] = {"self", {0.96, 0.93, 0.86}},
    [SHADE_LINING] = {"lining", {0.87, 0.91, 0.96}},
    [SHADE_INTERFACING] = {"interfacing", {0.91, 0.91, 0.91}},
    [SHADE_FLAG] = {"flag", LOUD},
};

const LineStyle *line_style(LineKind kind) {
    return &lines[kind];
}

const TextStyle *text_style(TextKind kind) {
    return &texts[kind];
}

Colour shade_colour(Shade shade) {
    return shades[shade].colour;
}

const char *shade_name(Shade shade) {
    return shades[shade].name;
}

Shade cloth_shade(const char *cloth) {
    if (cloth == NULL || strstr(cloth, "self") != NULL)
        return SHADE_SELF;
    if (strstr(cloth, "lining") != NULL)
        return SHADE_LINING;
    if (strstr(cloth, "interfacing") != NULL)
        return SHADE_INTERFACING;
    return SHADE_PAPER;
}
