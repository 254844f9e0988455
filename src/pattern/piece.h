// A piece of the pattern: a closed outline of named edges, counter-clockwise, net of seam allowance, and
// everything the cutter marks on it.
#ifndef REBATO_PATTERN_PIECE_H
#define REBATO_PATTERN_PIECE_H

#include <stdbool.h>

#include "base/arena.h"
#include "geometry/path.h"

#define NOTCH_COUNT_MAX 3         // one front, two back, three other (common practice, no source)
#define NOTCH_APART_MM 6.0        // between the notches of a group (common practice, no source)
#define ALLOWANCE_DEFAULT_MM 10.0 // the common factory figure for a plain seam (common practice, no source)

// How two cut lines meet where edge `edge` ends and the next one begins (formulas in allowance.h).
typedef enum CornerStyle { CORNER_PLAIN, CORNER_SQUARE, CORNER_REFLECTED, CORNER_BEVEL } CornerStyle;

typedef struct Edge {
    const char *name;   // unique on the piece
    const char *root;   // the name before it was mirrored over a fold; name itself otherwise
    Path path;          // in the direction the author gave it
    bool backward;      // the outline runs against that direction
    double allowance;   // mm; 0 on a fold
    bool fold;          // placed on the fold of the cloth
    CornerStyle corner; // at its end in outline order; of the two edges there, this one is sewn first
    bool other_first;   // ... unless this is set
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
    double at;        // mm from the edge's first end, along the author's direction, on the seam line
    int count;        // 1 front, 2 back, 3 other
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
    int draft, step; // where it was traced, -1 when nowhere
    int cut;         // how many to cut, at least 1
    bool pair;       // half of them turned over
    const char
        *cloth; // "self", "lining", "interfacing", "self and interfacing", or "paper" for a tracing template
    const char *note; // one line printed under the name, or NULL
    GrainKind grain;
    double grain_angle;     // degrees, of the lengthwise grain in the piece's coordinates
    const char *grain_edge; // the edge, of it or of its parent, it was taken from; or NULL
    bool one_way;           // a grain arrow with one head
    struct {
        Edge *items;
        int count, capacity;
    } edges; // in outline order
    struct {
        InnerLine *items;
        int count, capacity;
    } lines;
    struct {
        Notch *items;
        int count, capacity;
    } notches;
    struct {
        Dot *items;
        int count, capacity;
    } dots;
} Piece;

typedef enum PieceError {
    PIECE_OK,
    PIECE_TOO_FEW, // fewer than two edges
    PIECE_OPEN,    // *gap tells by how much, *at which edge
    PIECE_CROSSES, // the outline crosses itself
    PIECE_NO_EDGE,
    PIECE_NOT_STRAIGHT, // a fold must be
    PIECE_OFF_EDGE,     // a notch beyond its edge
    PIECE_NO_ROOM,      // nothing is left
    PIECE_SAME_NAME,    // two edges of one name
    PIECE_ERROR_COUNT
} PieceError;

const char *piece_error_text(PieceError error);

typedef struct NamedPath {
    const char *name;
    const Path *path;
} NamedPath;

// Pieces live in an arena, their lists and paths with them: grow the lists with OWN_ADD (own.h), never with
// ARRAY_ADD. Every function that gives a Piece makes it anew in the arena and leaves the old one.

// Finds the order of the edges from their shared ends, turns the outline counter-clockwise. The first edge
// given stays first. One closed path is an outline too. Ends within POINT_ON_MM become one point. *gap (mm)
// and *at (index into given edges) tell of the widest opening when PIECE_OPEN, and the edge before it.
PieceError piece_trace(Arena *arena, const char *name, const NamedPath *edges, int count, Piece *out,
                       double *gap, int *at);

// The widest opening of an outline that piece_trace would refuse, mm, and the two given edges it lies
// between.
double piece_trace_gap(Arena *arena, const NamedPath *edges, int count, int *from, int *to);

// Where an outline crosses itself that piece_trace refuses with PIECE_CROSSES: the two given edges (one and
// the same where an edge crosses itself) and the first place. False where no two edges do.
bool piece_trace_crossing(const NamedPath *edges, int count, int *one, int *other, Point *where);

int piece_find_edge(const Piece *piece, const char *name); // or -1; edges of the outline only
// The path of an edge or of an inner line (a fold opened out keeps its name), or NULL.
const Path *piece_find_path(const Piece *piece, const char *name);

// Opens the piece out over a straight edge. The edge becomes an inner fold line of the same name; its
// straight continuations (twins from an earlier unfolding) go with it. Every other edge gets a mirrored twin
// called "NAME over FOLD" with the same root; notches, dots, lines are mirrored too, and a notch on the fold
// itself becomes a dot. piece_fold_angles tells how edges meet the fold.
PieceError piece_unfold(Arena *arena, const Piece *piece, const char *edge, Piece *out);

// Angles between the fold edge and its two neighbours, in degrees inside the piece, at the first and the last
// end of the edge as its author gave it. Straight continuations of the fold count as part of it.
void piece_fold_angles(const Piece *piece, int edge, double *first, double *last);

PieceError piece_place_on_fold(Arena *arena, const Piece *piece, const char *edge, Piece *out);

// A band along an edge and its twins that follow on: from the edge to its parallel `width` inside, ended on
// the neighbouring edges. A facing. The free edge is called "inner" and has no allowance.
PieceError piece_facing(Arena *arena, const Piece *piece, const char *edge, double width, const char *name,
                        Piece *out);

// The same piece, its outline drawn in by `inset` except on folds: an interfacing. No allowance. The edges
// keep their names, or, where the inset outline has to be mended, become one closed edge "outline".
PieceError piece_interfacing(Arena *arena, const Piece *piece, double inset, const char *name, Piece *out);

// A group of 1 to NOTCH_COUNT_MAX notches about a place on an edge; a negative distance counts from the
// edge's last end. The same group at the same place is added once.
PieceError piece_add_notch(Arena *arena, Piece *piece, int edge, double at, int count, const char *seam);

// The places of a group, NOTCH_APART_MM from each other and centred on it: where each starts on the seam
// line, and the unit vector square to the seam line away from the piece. Room for NOTCH_COUNT_MAX in both;
// gives how many.
int piece_notch_places(const Piece *piece, const Notch *notch, Point *on_seam, Point *outward);

void piece_copy(Arena *arena, const Piece *piece, Piece *out);
bool piece_is_simple(const Piece *piece);                  // the outline does not cross itself
void piece_outline(const Piece *piece, Path *out);         // heap path, one closed run, counter-clockwise
void piece_edge_path(const Edge *edge, Path *out);         // in outline order
Point piece_edge_end(const Edge *edge, PathEnd end);       // in outline order
Point piece_edge_direction(const Edge *edge, PathEnd end); // in outline order, unit tangent
double piece_corner_angle(const Piece *piece,
                          int edge);        // inside the piece where edge ends in outline order, degrees
bool piece_is_template(const Piece *piece); // cut of "paper", only to be traced
double piece_area(const Piece *piece);
Box piece_box_along(const Piece *piece,
                    double angle); // bounds in axes turned so that x runs along angle (degrees)

#endif
