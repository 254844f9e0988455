#include "pattern/mend.h"

#include <assert.h>
#include <string.h>

#include "base/buffer.h"
#include "pattern/proving.h"

static const struct {
    const char *key, *words;
} mends[] = {
    {"mend.opening", "open it with a slit or zip of {1} in all, or widen the neckline"},
    {"mend.fold_peak", "{1} will show a peak when {2} is opened out: draw it square to the fold for the "
                       "first centimetre"},
    {"mend.fold_dip", "{1} will show a dip when {2} is opened out: draw it square to the fold for the first "
                      "centimetre"},
    {"mend.mark", "{1} lies outside the seam line by up to {2}: move it on to the piece, or leave it off"},
    {"mend.mark_pivot",
     "a pivot dot lies outside the seam line by up to {1}: move it on to the piece, or leave it off"},
    {"mend.mark_drill",
     "a drill mark lies outside the seam line by up to {1}: move it on to the piece, or leave it off"},
    {"mend.mark_line",
     "a line lies outside the seam line by up to {1}: move it on to the piece, or leave it off"},
    {"mend.piece_grain", "it has no grain: say along which edge, or at which angle, the grain runs"},
    {"mend.piece_name", "give it a name, and say how many to cut"},
    {"mend.piece_pairs", "it is cut in pairs, so the number to cut must be even"},
    {"mend.outline_crosses", "its outline crosses itself: move the edges apart"},
    {"mend.outline_open", "its outline is open: let each edge end where the next begins"},
    {"mend.cut_line", "the cut line runs inside the seam line at {1}: narrow its allowance"},
    {"mend.cut_line_none", "no cut line can be drawn round it: narrow its allowances"},
    {"mend.label",
     "the piece is too small for its writing: write it on the sheet beside, or shorten its note"},
    {"mend.seam", "{1} of {2} is {3} too long for {4} of {5}: shorten it, most simply at the end by {6}, or "
                  "state {7} of ease on {8}"},
    {"mend.notch", "the notch {1} along the seam on {2} has no partner there: notch the seam anew"},
    {"mend.allowance", "{1} of {2} has {3} and {4} of {5} has {6}: give both the same"},
    {"mend.smooth_peak", "{1} of {2} and {3} of {4} make a peak there: lay the pieces together along the "
                         "seam and true the line across it"},
    {"mend.smooth_dip", "{1} of {2} and {3} of {4} make a dip there: lay the pieces together along the seam "
                        "and true the line across it"},
};
enum { MENDS = sizeof mends / sizeof *mends };

const char *mend_key(int index) {
    return index >= 0 && index < MENDS ? mends[index].key : NULL;
}

const char *mend_words(const char *key) {
    for (int i = 0; i < MENDS; i++)
        if (strcmp(mends[i].key, key) == 0)
            return mends[i].words;
    return NULL;
}

void proof_mend(Pattern *pattern, Proof *proof, const char *key, const MendPart *parts, int count) {
    assert(count <= MEND_PARTS_MAX);
    Mend *mend = arena_take(&pattern->arena, sizeof *mend);
    *mend = (Mend){.key = key, .count = count};
    const char *filled[MEND_PARTS_MAX];
    char said[MEND_PARTS_MAX][SAID_MAX];
    for (int i = 0; i < count; i++) {
        mend->parts[i] = parts[i];
        filled[i] = parts[i].name ? parts[i].name : say_length(pattern, parts[i].mm, said[i]);
    }
    Buffer text;
    buffer_init(&text);
    buffer_fill(&text, mend_words(key), filled, count);
    proof->mend = mend;
    proof->way_out = arena_text(&pattern->arena, text.data);
    buffer_finish(&text);
}
