// A draft as it stands when a step is done: which marks there are, which of them the step made, and the part
// of the draft where its work lies. All stages of a draft are worked out together.
#ifndef REBATO_SHEET_STAGE_H
#define REBATO_SHEET_STAGE_H

#include "sheet/edge_ends.h"
#include "sheet/names.h"
#include "sheet/polygon.h"

// A note that is the distance between two points, where no line of the step has that length.
typedef struct StageLine {
    const Note *note;
    Line line;
} StageLine;

typedef struct Stages Stages;

typedef struct Stage {
    const Stages *of;
    int step;
    int shown; // the marks before that index are there
    Box box;   // of what the step made and measured, in the draft's coordinates; where it only carried over,
               // of all that is there
    Box context; // with the nearest points of earlier work, from which a hand finds the place again
    int named;   // what it made that has a name
    struct {
        const Note **items; // lengths that the step noted on this draft, rising
        int count, capacity;
    } notes;
    struct {
        StageLine *items; // in the order of the notes
        int count, capacity;
    } lines;
} Stage;

// What is told of a mark once for all stages.
typedef struct StagePlace {
    Box box;      // of what is drawn of it
    bool carried; // over as it is from a draft before: old work, though a step put it there
} StagePlace;

struct Stages {
    const Pattern *pattern;
    int draft;
    bool drawable; // every number of it is finite
    Box limits;    // as of figure_limits
    EdgeEnds edges;
    StagePlace *places; // of the draft's marks
    struct {
        Stage *items; // by rising step: those that marked something on the draft, or measured
        int count, capacity;
    } list;
};

void stages_init(Stages *stages, const Names *names, int draft);
void stages_finish(Stages *stages);

const Stage *stages_at(const Stages *stages, int step); // NULL where the step drew nothing on the draft

typedef enum MarkAge { MARK_NOT_YET, MARK_OLD, MARK_NEW } MarkAge;
MarkAge stage_age(const Stage *stage, int mark);
bool stage_measures(const Stage *stage, int dimension); // the step asked for it
Box stage_all(const Stage *stage);                      // of all that is there

// Fills in the notes of all stages; inside this room only.
void stages_find_notes(Stages *stages, const Names *names);

#endif
