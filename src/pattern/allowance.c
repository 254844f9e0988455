#include "pattern/allowance.h"

#include "base/memory.h"
#include "geometry/offset.h"
#include "pattern/beside.h"

GeomError piece_cut_outline(const Piece *piece, Path *out) {
    double *widths = mem_new(sizeof *widths * (size_t)piece->edges.count);
    for (int i = 0; i < piece->edges.count; i++)
        widths[i] = piece->edges.items[i].fold ? 0 : piece->edges.items[i].allowance;
    Beside cut = {0};
    GeomError error = beside_make(piece, widths, false, &cut);
    mem_free(widths);
    if (error == GEOM_OK && !cut.rough) {
        beside_outline(&cut, out);
    } else if (error == GEOM_OK) {
        Path raw = {0};
        beside_outline(&cut, &raw);
        error = outline_unloop(&raw, false, CURVE_FIT_MM, out, NULL);
        path_finish(&raw);
    }
    beside_finish(&cut);
    return error;
}
