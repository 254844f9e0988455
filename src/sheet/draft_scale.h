// The scales of the pictures of a draft: one for all its steps and, where some of them could not be read at
// it, one more for its details. Drafts that are drawn beside each other, as a front and a back, share them.
#ifndef REBATO_SHEET_DRAFT_SCALE_H
#define REBATO_SHEET_DRAFT_SCALE_H

#include "sheet/picture_kinds.h"

// Of a stage, in pictures of at most width by height mm; a smaller one has the scale of the others where its
// work has room.
double draft_scale(Pictures *pictures, const Stage *stage, double width, double height);

// The room for the draft itself in a picture of that size.
Point draft_room(double width, double height);

#endif
