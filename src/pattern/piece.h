// A piece of the pattern: a closed outline of named edges, counter-clockwise, net of seam allowance, and everything the
// cutter marks on it.
#ifndef REBATO_PATTERN_PIECE_H
#define REBATO_PATTERN_PIECE_H

#include <stdbool.h>

#include "base/arena.h"
#include "geometry/path.h"

#define ALLOWANCE_DEFAULT_MM 10.0 // the common factory figure for a plain seam (common practice, no source)

// How two cut lines meet where edge `edge` ends and the next one begins (formulas in allowance.h).
typedef enum CornerStyle { CORNER_PLAIN, CORNER_SQUARE, CORNER_REFLECTED, CORNER_BEVEL } CornerStyle;

typedef struct Edge {
    const char *name; // unique on the piece
    const char *root; // the name before it was mirrored over a fold; name itself otherwise
    Path path;        // in the direction the author gave it
    bool backward;    // the outline runs against that direction
    double allowance; // mm; 0 on a fold
    bool fold;        // placed on the fold of the cloth
    CornerStyle corner; // at its end in outline order; of the two edges there, this one is sewn first unless corner_other_first
    bool other_first;
} Edge;

typedef enum InnerKind { INNER_FOLD, INNER_ROLL, INNER_CENTRE, INNER_LINE, INNER_MATCH } InnerKind;
typedef struct InnerLine {
    InnerKind kind;
    const char *name;
    const char *root;
    Path path;
} InnerLine;

typedef struct Notch {
    int edge;
    double at;  // mm from the edge's first end, along the author's direction, on the seam line
    int count;  // 1 front, 2 back, 3 other
    const char *seam; // the seam that put it there, or NULL for the author
} Notch;

typedef enum DotKind { DOT_PIVOT, DOT_DRILL } DotKind; // cross in a circle; small circle with a cross
typedef struct Dot {
    DotKind kind;
    const char *name; // or NULL
    Point at;
} Dot;

typedef enum GrainKind { GRAIN_NONE, GRAIN_ALONG, GRAIN_ACROSS, GRAIN_BIAS, GRAIN_ANGLE } GrainKind;

typedef struct Piece {
    const char *name;
    int draft, step;      // where it was traced, -1 when nowhere
    int cut;              // how many to cut, at least 1
    bool pair;            // half of them turned over
    const char *cloth;    // "self", "lining", "interfacing", "self and interfacing", or "paper" for a tracing template
    const char *note;     // one line printed under the name, or NULL
    GrainKind grain;
    double grain_angle;   // degrees, of the lengthwise grain in the piece's coordinates
    const char *grain_edge; // the edge it was taken from, or NULL
    bool one_way;         // a grain arrow with one head
    struct { Edge *items; int count, capacity; } edges;   // in outline order
    struct { InnerLine *items; int count, capacity; } lines;
    struct { Notch *items; int count, capacity; } notches;
    struct { Dot *items; int count, capacity; } dots;
} Piece;

typedef enum PieceError {
    PIECE_OK,
    PIECE_TOO_FEW,     // fewer than two edges
    PIECE_OPEN,        // *gap tells by how much, *at which edge
    PIECE_CROSSES,     // the outline crosses itself
    PIECE_NO_EDGE,
    PIECE_NOT_STRAIGHT,// a fold must be
    PIECE_OFF_EDGE,    // a notch beyond its edge
    PIECE_NO_ROOM,     // nothing is left
    PIECE_ERROR_COUNT
} PieceError;

const char *piece_error_text(PieceError error);

typedef struct NamedPath {
    const char *name;
    const Path *path;
} NamedPath;

// Pieces live in an arena; every function that gives a Piece makes it anew in the arena and leaves the old one.

// Finds the order of the edges from their shared ends, turns the outline counter-clockwise. The first edge given stays
// first. *gap (mm) and *at (index into given edges) tell of the widest opening when PIECE_OPEN.
PieceError piece_trace(Arena *arena, const char *name, const NamedPath *edges, int count, Piece *out, double *gap,
                       int *at);

int piece_find_edge(const Piece *piece, const char *name); // or -1; edges of the outline only
// The path of an edge or of an inner line (a fold opened out keeps its name), or NULL.
const Path *piece_find_path(const Piece *piece, const char *name);

// Opens the piece out over a straight edge. The edge becomes an inner fold line of the same name; its straight
// continuations (twins from an earlier unfolding) go with it. Every other edge gets a mirrored twin called
// "NAME over FOLD"; notches, dots, lines are mirrored too. piece_fold_angles tells how edges meet the fold.
PieceError piece_unfold(Arena *arena, const Piece *piece, const char *edge, Piece *out);

// Angles between the fold edge and its two neighbours, in degrees inside the piece.
void piece_fold_angles(const Piece *piece, int edge, double *first, double *last);

PieceError piece_place_on_fold(Arena *arena, const Piece *piece, const char *edge, Piece *out);

// A band along an edge: from the edge to its parallel `width` inside, ended on the neighbouring edges. A facing.
PieceError piece_facing(Arena *arena, const Piece *piece, const char *edge, double width, const char *name, Piece *out);

// The same piece, its outline drawn in by `inset`: an interfacing. No allowance.
PieceError piece_interfacing(Arena *arena, const Piece *piece, double inset, const char *name, Piece *out);

PieceError piece_add_notch(Arena *arena, Piece *piece, int edge, double at, int count, const char *seam);

void piece_copy(Arena *arena, const Piece *piece, Piece *out);
void piece_outline(const Piece *piece, Path *out); // heap path, one closed run, counter-clockwise
void piece_edge_path(const Edge *edge, Path *out); // in outline order
double piece_area(const Piece *piece);
Box piece_box_along(const Piece *piece, double angle); // bounds in axes turned so that x runs along angle (degrees)

#endif
