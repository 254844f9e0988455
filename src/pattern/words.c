#include "pattern/words.h"

#define WORDS(name, ...)                                     \
    static const char *const name##_items[] = {__VA_ARGS__}; \
    const Words name = {name##_items, sizeof name##_items / sizeof name##_items[0]}

WORDS(units_words, "cm", "inch");
WORDS(measure_words, "length", "area", "angle", "number", "years", "text");
WORDS(mark_words, "point", "path", "piece");
WORDS(corner_words, "plain", "square", "reflected", "bevel");
WORDS(inner_words, "fold", "roll", "centre", "line", "match");
WORDS(dot_words, "pivot", "drill");
WORDS(grain_words, "none", "along", "across", "bias", "angle");
WORDS(proof_words, "told", "own");
WORDS(remark_words, "warning", "caution", "note");
WORDS(need_words, "required", "optional", "missing"); // the last: optional and not given

// false first, true second
WORDS(input_words, "need", "choice");
WORDS(default_words, "given", "default");
WORDS(direction_words, "forward", "backward");
WORDS(fold_words, "open", "fold");
WORDS(first_words, "this_first", "other_first");
WORDS(cut_words, "single", "pair");
WORDS(arrow_words, "both_ways", "one_way");
WORDS(smooth_words, "free", "smooth");
WORDS(holds_words, "fails", "holds");
