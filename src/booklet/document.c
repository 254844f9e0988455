#include "booklet/document.h"

void book_finish(Book *book) {
    pictures_free(book->pictures);
    arena_finish(&book->arena);
    *book = (Book){0};
}

const char *book_word(const Book *book, const char *key) {
    return language_word(book->language, key);
}
