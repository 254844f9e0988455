// A draft as it stands when a step is done: which marks there are, which of them the step made, and the part
// of the draft where its work lies.
#ifndef REBATO_SHEET_STAGE_H
#define REBATO_SHEET_STAGE_H

#include "pattern/pattern.h"
#include "sheet/polygon.h"

typedef struct Stage {
    const Pattern *pattern;
    int draft, step;
    int shown; // the marks before that index are there
} Stage;

typedef enum MarkAge { MARK_NOT_YET, MARK_OLD, MARK_NEW } MarkAge;

// Whether the step drew something on the draft: a mark, or a measure. Where it did not, there is no picture.
bool stage_works(const Pattern *pattern, int step, int draft);

void stage_init(Stage *stage, const Pattern *pattern, int step, int draft);

// What was carried over as it is from a draft before it is old work, though the step put it there.
MarkAge stage_age(const Stage *stage, int mark);
bool stage_measures(const Stage *stage, int dimension); // the step asked for it

// The one note of the step with that length, or NULL; NULL too where there are several.
const Note *stage_note_of(const Stage *stage, double length);

// The distance between two points that a note measures, where no line of the step has that length.
bool stage_noted_line(const Stage *stage, int note, Line *out);

// Of what the step made and measured, in the draft's coordinates; where it only carried over, of all that is
// there.
Box stage_box(const Stage *stage);
Box stage_all(const Stage *stage); // of all that is there

#endif
