// Copies in an arena: paths and lists that live as long as the pattern they belong to.
#ifndef REBATO_PATTERN_OWN_H
#define REBATO_PATTERN_OWN_H

#include <string.h>

#include "base/arena.h"
#include "geometry/path.h"

// A path whose segments lie in the arena, capacity 0, so that path_finish leaves them alone.
void own_path(Arena *arena, const Path *path, Path *out);
void own_reversed(Arena *arena, const Path *path, Path *out);
void own_transformed(Arena *arena, const Path *path, Affine m, Path *out);

// A path of the arena made to start and end exactly at these points; handles move with their ends, lines stay
// lines.
void own_path_ends(Path *path, Point first, Point last);

// Adds item to a list whose memory lies in the arena. Such a list is never given to ARRAY_ADD.
#define OWN_ADD(arena, list, item)                                                           \
    do {                                                                                     \
        if ((list)->count == (list)->capacity) {                                             \
            const int grown_ = (list)->capacity ? (list)->capacity * 2 : 8;                  \
            void *const room_ = arena_take((arena), sizeof *(list)->items * (size_t)grown_); \
            if ((list)->count)                                                               \
                memcpy(room_, (list)->items, sizeof *(list)->items *(size_t)(list)->count);  \
            (list)->items = room_;                                                           \
            (list)->capacity = grown_;                                                       \
        }                                                                                    \
        (list)->items[(list)->count++] = (item);                                             \
    } while (0)

#endif
