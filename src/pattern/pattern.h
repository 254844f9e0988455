// The pattern: everything one run of a recipe made. A document: it can be written as text, read back, proven
// and drawn. Names, texts, paths and whole pieces lie in its arena and live as long as it does. The lists of
// a Pattern, a Draft and a Seam are on the heap: grow them with ARRAY_ADD, pattern_finish gives them back.
#ifndef REBATO_PATTERN_PATTERN_H
#define REBATO_PATTERN_PATTERN_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/units.h"
#include "geometry/path.h"
#include "pattern/piece.h"

// A recipe that ran, in the order of the chain: block, necklines, collar, and those used inside.
typedef struct Chapter {
    const char *recipe; // its name as found ("bands/square-funnel")
    const char *title;
    const char *summary;
    const char *hash; // of its text
    int depth;        // 0 for the recipes of the command line, 1 for one used by them, ...
    int used_in;      // the step that used it; -1 at depth 0
} Chapter;

typedef struct Step {
    int chapter;
    int line; // of its heading; the opening before the first heading is a step with the recipe's title
    const char *title;
} Step;

typedef enum Measure {
    MEASURE_LENGTH,
    MEASURE_AREA,
    MEASURE_ANGLE,
    MEASURE_NUMBER,
    MEASURE_YEARS, // the wearer's age
    MEASURE_TEXT
} Measure;

// A note in the margin: a plain name given a value.
typedef struct Note {
    const char *name;
    int step;
    Measure measure;
    double value;     // mm, mm2, degrees or a plain number
    const char *text; // MEASURE_TEXT
} Note;

// What went in: a measurement or a choice, with the value used.
typedef struct Input {
    const char *name;
    const char *about;
    int chapter;
    bool choice;               // else a need
    bool optional;             // a need that may be missing
    bool missing;              // optional and not given: value and text say nothing
    bool is_default;           // nobody set it
    Measure measure;           // LENGTH, NUMBER, YEARS or TEXT
    double value, least, most; // least > most where there are no limits
    const char *text;
    const char *options; // of a choice between words: "seam, fold"
} Input;

// An inline value of the prose, filled in.
typedef struct Filled {
    int step, line, column;
    const char *text;
} Filled;

typedef enum MarkKind { MARK_POINT, MARK_PATH, MARK_PIECE } MarkKind;

// A mark on a draft: what the recipe named.
typedef struct Mark {
    const char *name;
    int step, line;
    MarkKind kind;
    Point point;
    Path path; // arena memory, capacity 0
    int piece; // index into pieces
} Mark;

// A measure asked for on the figure: the distance between two points, written along the line.
typedef struct Dimension {
    Point from, to;
    int step;
    const char *text; // NULL: the length alone
} Dimension;

typedef struct MarkList {
    Mark *items;
    int count, capacity;
} MarkList;
typedef struct DimensionList {
    Dimension *items;
    int count, capacity;
} DimensionList;

typedef struct Draft {
    const char *name;
    int step;
    MarkList marks;
    DimensionList dimensions;
} Draft;

// One edge in a seam. The walk goes along the author's direction of the edge, or against it where backward.
typedef struct SeamEdge {
    int piece, edge;
    bool backward;
} SeamEdge;
typedef struct SeamEdgeList {
    SeamEdge *items;
    int count, capacity;
} SeamEdgeList;

// Two runs of edges sewn to each other, both walked from the end where they are matched.
typedef struct Seam {
    const char *name;
    int step;
    SeamEdgeList a, b;
    double ease;      // how much longer a is meant to be than b, mm (negative: a is stretched on to b)
    double tolerance; // mm: 1 at a neck seam, 2 elsewhere (common practice, no source)
    bool smooth_first, smooth_last; // the edges that meet at this end of the seam run on smoothly across it
} Seam;

typedef struct Mend Mend; // mend.h

typedef enum ProofKind { PROOF_TOLD, PROOF_OWN } ProofKind; // told by the recipe, or the program's own

// Something proven, or not.
typedef struct Proof {
    ProofKind kind;
    const char *what; // its name, by which a cutter may accept it
    int step;         // or -1
    Measure measure;
    double found, wanted;
    const char *relation; // "at least", "at most", "equal", "" for a plain yes or no
    double tolerance;
    bool holds;
    bool accepted;       // by name on the command line
    const char *way_out; // what would mend it, or NULL
    const Mend *mend; // the same in parts, of a proof of the program's own; NULL where it was not proven here
    int piece, edge;  // where on the drawing, or -1
} Proof;

typedef enum RemarkKind { REMARK_WARNING, REMARK_CAUTION, REMARK_NOTE } RemarkKind;
// What the program remarks itself; all other remarks are a recipe's words.
#define REMARK_NO_OPENING "no opening was stated: say how it goes over the head with pull_on"
typedef struct Remark {
    RemarkKind kind;
    int step;
    const char *text;
} Remark;

// How the garment goes over the head. length: round the finished opening, mm; slit: length of slits or zips;
// stretch: usable, as a part (0.03 = 3 per cent); ease: room wanted over the head girth.
typedef struct PullOn {
    bool stated;
    int step;
    double length, slit, stretch, ease;
    double head_girth; // 0 where not measured
} PullOn;

#define LIST_OF(Type)        \
    struct {                 \
        Type *items;         \
        int count, capacity; \
    }

typedef struct Pattern {
    Arena arena;
    Units units;
    const char *recipe; // the main recipe's name
    const char *title;
    const char *body; // the measurement set's name, or NULL
    LIST_OF(Chapter) chapters;
    LIST_OF(Step) steps;
    LIST_OF(Input) inputs;
    LIST_OF(Note) notes;
    LIST_OF(Filled) filled;
    LIST_OF(Draft) drafts;
    LIST_OF(Piece) pieces;
    LIST_OF(Seam) seams;
    LIST_OF(Proof) proofs;
    LIST_OF(Remark) remarks;
    PullOn pull_on;
} Pattern;

void pattern_init(Pattern *pattern);
void pattern_finish(Pattern *pattern); // accepts a zeroed pattern

// Adders copy texts and paths into the arena and return the index. Names are checked by the caller.
int pattern_add_draft(Pattern *pattern, const char *name, int step);
int pattern_add_piece(Pattern *pattern, const Piece *piece);          // deep copy
void pattern_own_path(Pattern *pattern, const Path *path, Path *out); // a copy of path in the arena
int pattern_find_piece(const Pattern *pattern, const char *name);     // or -1
const Mark *draft_find_mark(const Draft *draft, const char *name);    // or NULL

// True when every proof holds or was accepted.
bool pattern_holds(const Pattern *pattern);

#endif
