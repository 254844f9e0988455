#include "cli/book.h"

#include <string.h>

#include "base/memory.h"
#include "cli/example.h"
#include "sheet/book.h"

typedef struct Book {
    Example *examples; // of the entries, each run
    BookEntry *entries;
    int count;
} Book;

static void book_finish(Book *book) {
    for (int i = 0; i < book->count; i++)
        example_finish(&book->examples[i]);
    mem_free(book->examples);
    mem_free(book->entries);
}

static bool book_init(Book *book, const char *subject, Units units, Fault *fault) {
    int count;
    const WordRow *rows = words_all(&count);
    *book = (Book){.examples = mem_new(sizeof *book->examples * (size_t)count),
                   .entries = mem_new(sizeof *book->entries * (size_t)count)};
    for (int i = 0; i < count; i++) {
        if (subject && strcmp(subject, rows[i].subject) != 0)
            continue;
        Example *example = &book->examples[book->count];
        const bool fine = example_run(&rows[i], units, example, fault);
        book->entries[book->count++] = (BookEntry){.section = rows[i].subject,
                                                   .title = rows[i].usage,
                                                   .about = rows[i].about,
                                                   .code = rows[i].example,
                                                   .told = example->told.data,
                                                   .pattern = example->draws ? &example->run.pattern : NULL};
        if (!fine)
            return false;
    }
    return true;
}

bool book_target(const char *subject, const SheetOptions *sheet, Target *target, Fault *fault) {
    if (target->kind != TARGET_PDF) {
        fault_set(fault, NULL, 0, "%s can show one word, not many", target->file);
        fault_set_hint(fault, "name the word to be drawn, or write them all to a .pdf");
        return false;
    }
    Book book;
    bool fine = book_init(&book, subject, sheet->units, fault) &&
                book_draw("The words of the recipe language", book.entries, book.count, sheet, &target->bytes,
                          &target->pages, fault);
    book_finish(&book);
    return fine;
}
