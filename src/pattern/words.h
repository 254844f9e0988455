// The words of the pattern text for every choice of a kind, in the order of its enum.
#ifndef REBATO_PATTERN_WORDS_H
#define REBATO_PATTERN_WORDS_H

typedef struct Words {
    const char *const *items;
    int count;
} Words;

extern const Words units_words, measure_words, mark_words, corner_words, inner_words, dot_words, grain_words,
    proof_words, remark_words, input_words, default_words, need_words, direction_words, fold_words,
    first_words, cut_words, arrow_words, smooth_words, holds_words;

#endif
