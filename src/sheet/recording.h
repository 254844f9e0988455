// A drawing kept as it was drawn, to be drawn again at other places: on every page that shows a part of it.
#ifndef REBATO_SHEET_RECORDING_H
#define REBATO_SHEET_RECORDING_H

#include "base/arena.h"
#include "sheet/canvas.h"

typedef struct RecordedAct RecordedAct;

typedef struct Recording {
    Canvas canvas; // first: to draw on; nothing is left out as unseen
    Arena arena;
    struct {
        RecordedAct *items;
        int count, capacity;
    } acts;
    struct {
        PenStep *items;
        int count, capacity;
    } steps;
} Recording;

void recording_init(Recording *recording);
void recording_finish(Recording *recording); // accepts a zeroed recording

// All that was drawn, moved by so many millimetres of paper.
void recording_draw(const Recording *recording, Canvas *canvas, Point by);

#endif
