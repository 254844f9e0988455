// The booklet as a tree of blocks, independent of what it is written to. compose.c makes it from a recipe and
// its pattern; html.c and pages.c write it. They only lay out: every word is here already, in the reader's
// language, but for the few of book_word (page numbers).
//
// The order is the order of reading. The top blocks are BOOK_SECTIONs: the front first, then the contents,
// the steps, and so on (BookRole). In a step's section the figures of the draft come behind its prose, and
// the steps of what it used behind them; a writer with room may set prose and figures beside each other, and
// keeps them together.
#ifndef REBATO_BOOKLET_DOCUMENT_H
#define REBATO_BOOKLET_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "booklet/language.h"
#include "pattern/pattern.h"
#include "recipe/prose.h"
#include "sheet/picture.h"

typedef enum BookKind {
    BOOK_SECTION,   // items; the first is its BOOK_HEADING. role, anchor
    BOOK_HEADING,   // spans, level, number
    BOOK_PARAGRAPH, // spans
    BOOK_LIST,      // items are BOOK_ITEM; ordered, start, tight
    BOOK_ITEM,      // items
    BOOK_QUOTE,     // items
    BOOK_CODE,      // text, its lines ended by \n
    BOOK_RULE,
    BOOK_TABLE,    // table
    BOOK_FIGURE,   // pictures, that stand beside or below each other, with one caption (spans, may be empty)
    BOOK_NOTICE,   // tone; items, the first a BOOK_PARAGRAPH that says in words what tone it is
    BOOK_CONTENTS, // the table of contents stands here; its lines are book->entries
} BookKind;

// What a section is, so that a writer may begin a page with it or set it apart.
typedef enum BookRole {
    ROLE_PLAIN,
    ROLE_FRONT,    // name, picture, finished sizes; then measurements and choices, on a second page maybe
    ROLE_CONTENTS, // holds BOOK_CONTENTS
    ROLE_PART,     // a recipe of the chain, or the steps as a whole; holds ROLE_STEPs
    ROLE_STEP,     // prose, then figures, then the ROLE_STEPs of the recipes it used; also each seam
    ROLE_USED,     // a recipe told before that is used again, here with its figures; holds ROLE_STEPs
    ROLE_CUTTING,
    ROLE_SEWING,
    ROLE_PROOFS,
    ROLE_VERSION,
} BookRole;

typedef enum BookTone { TONE_NOTE, TONE_CAUTION, TONE_WARNING, TONE_FAILED } BookTone; // ever louder

// What is drawn: the pictures of sheet/picture.h, and pictures beside the recipe.
typedef enum BookPictureKind {
    BOOK_PICTURE_ALL,   // all pieces
    BOOK_PICTURE_STEP,  // of draft: earlier work grey, what step marked dark
    BOOK_PICTURE_DRAFT, // the whole draft
    BOOK_PICTURE_PIECE, // piece, small
    BOOK_PICTURE_SEAM,  // seam: both sides with their notches
    BOOK_PICTURE_IMAGE, // image
} BookPictureKind;

// A picture of the author's: whole bytes, checked to be what they say, and to have few enough pixels.
typedef struct BookImage {
    enum { IMAGE_PNG, IMAGE_JPEG } kind;
    const unsigned char *bytes;
    size_t length;
    int width, height; // pixels
} BookImage;

typedef struct BookPicture {
    BookPictureKind kind;
    int step, draft; // indices into pattern->steps and ->drafts
    int piece, seam; // indices into pattern->pieces and ->seams
    BookImage image;
    const char *alt; // what it shows, in words; never empty
} BookPicture;

// In a cell the spans stand under the pictures.
typedef struct BookCell {
    SpanList spans;
    bool authored;
    const char *language;       // of authored words, as of a block
    const BookPicture *picture; // or NULL
} BookCell;

typedef struct BookColumn {
    bool number; // aligned to the right
    int weight;  // of the width, against the others: 1 for narrow, 4 for prose
} BookColumn;

#define BOOK_COLUMNS_MOST 16 // of a table: more have no room for words on a page

typedef struct BookTable {
    const BookColumn *columns;
    int column_count;
    const BookCell *cells; // row by row; the first row_count * column_count
    int row_count;
    bool header;       // the first row names the columns
    bool names_first;  // the first cell of a row names the row
    const char *title; // what the table tells, for those who cannot see it
} BookTable;

typedef struct BookBlock {
    BookKind kind;
    BookRole role;
    BookTone tone;
    bool authored;        // the words are of book->prose_language; else of the book's language
    const char *language; // of authored words, where it is another than book->prose_language
    int level;            // of a heading: 1 is the title, 2 the sections, 3 the steps, ...
    const char *anchor;   // of a section: unique, letters a to z, digits and "-"; or NULL
    const char *number;   // of a heading, "1" or "2.3", or NULL; not part of its spans
    SpanList spans;
    const char *text;
    bool ordered, tight;
    int start;
    const BookPicture *pictures;
    int picture_count;
    const BookTable *table;
    struct BookBlock *items;
    int count;
} BookBlock;

// A line of the contents and of a PDF's outline: one for each section with an anchor, front and contents
// apart.
typedef struct BookEntry {
    int depth; // 0 for the sections of the booklet
    bool authored;
    const char *language; // as of its heading
    const char *number, *title, *anchor;
} BookEntry;

typedef struct Book {
    const char *title;
    const char *subject;              // one line, what it is
    const Language *language;         // language_tag for "en", book_word for its words
    const char *prose_language;       // the tag of the author's own words, "en" or any other
    const Pattern *pattern;           // borrowed, drawn from
    Pictures *pictures;               // of the pattern
    double paper_width, paper_height; // mm, for pages
    BookBlock *blocks;
    int count;
    const BookEntry *entries;
    int entry_count;
    Arena arena; // owns all of it
} Book;

void book_finish(Book *book); // accepts a zeroed book

// One of the program's own words in the book's language, by its key ("page"); English where it has none.
const char *book_word(const Book *book, const char *key);

#endif
