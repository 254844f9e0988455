// What is not proven, loud on the piece.
#ifndef REBATO_SHEET_PLATE_FLAGS_H
#define REBATO_SHEET_PLATE_FLAGS_H

#include "sheet/plate.h"

#define FLAGS_MAX 24 // on one piece; the plan page lists all

// Hatches the edges at which failed proofs point, and puts a flag with the name of each proof on the piece,
// upright, none on another.
void plate_draw_flags(const Plate *plate, Canvas *canvas);

#endif
