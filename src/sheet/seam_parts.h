// What the files that draw a seam share. Inside this room only.
#ifndef REBATO_SHEET_SEAM_PARTS_H
#define REBATO_SHEET_SEAM_PARTS_H

#include "pattern/seam_match.h"
#include "sheet/picture_kinds.h"

#define APART_MM 11.0 // between the lines
#define NOTCH_MM 2.2
#define THUMBS_MAX 5

typedef struct EdgeName {
    char words[400];
    double from, to;      // of the edge on the line, mm of paper
    double centre, width; // of the words
    double size;          // as a part of what is usual
    int row;
} EdgeName;

typedef struct SeamSide {
    const SeamEdgeList *edges;
    double length; // mm of cloth
    EdgeName *names;
    int rows;
    int thumbs[THUMBS_MAX]; // pieces
    int thumb_count;
    double thumb_tall;
    SeamNotchList notches;
} SeamSide;

typedef struct SeamPicture {
    const Pattern *pattern;
    const PictureAsk *ask;
    const Seam *seam;
    SeamWalk walk;
    double scale, width;
    bool stacked;      // the pieces in small stand above and below the lines
    double thumb_wide; // mm, at most, of each
    SeamSide a, b;
    SeamMatchList matches;
    double notch; // mm of paper, so that groups stand apart
} SeamPicture;

// What is laid on what, from a place of the first line to that of the second, with the names of the ends and
// of the seams that are met.
void seam_draw_rungs(const SeamPicture *picture, Canvas *canvas, Point a, Point b);

#endif
