// What the files that write pages share: the booklet as a column of rows, each drawn whole, that are then set
// on pages. Millimetres. Inside this room only.
#ifndef REBATO_BOOKLET_PAGING_H
#define REBATO_BOOKLET_PAGING_H

#include "booklet/document.h"
#include "sheet/picture.h"
#include "sheet/typeset.h"

typedef enum RowKind {
    ROW_LINE,     // one line of a paragraph
    ROW_PICTURES, // pictures beside each other
    ROW_CELLS,    // of a table
    ROW_RULE,
    ROW_ENTRY, // a line of the contents
    ROW_PAIR,  // prose at the left, pictures at the right
} RowKind;

typedef struct Placed {
    const BookPicture *picture;
    PictureAsk ask;             // of what is drawn
    double x, y, width, height; // from the upper left corner of the row
} Placed;

typedef struct Cell {
    TypeText *text; // or NULL
    double x, y;    // from the upper left corner of the row
    bool has_picture;
    Placed picture;
} Cell;

#define ROW_PLACES_MAX 4 // sections that begin with one row

typedef struct Row {
    RowKind kind;
    double before, height; // the room above is dropped at the top of a page
    double x, width;
    bool keep;                          // on one page with the next row
    bool breaks;                        // begins a page
    const char *places[ROW_PLACES_MAX]; // links lead here; NULL past the last
    int frame;                          // index of the frame it stands in, or -1
    int table;                          // number of the table it belongs to, or -1
    int header;                         // index of the row repeated above it on a new page, or -1
    bool names;                         // a row of cells that names the columns
    bool rule;                          // a line below it
    const char *role;                   // for reading aloud

    TypeText *text; // ROW_LINE and ROW_ENTRY
    int line;
    TypeText *marker; // of a list item, left of its first line
    const BookEntry *entry;
    Placed *pictures;
    int picture_count;
    Cell *cells;
    int cell_count;
    struct Row *left; // of a pair
    int left_count;

    int page; // set by the breaking, from 0
    double y; // of its upper edge
} Row;

typedef struct RowList {
    Row *items;
    int count, capacity;
} RowList;

typedef struct Frame {
    BookTone tone;
    bool quote;
    int parent;
    double x, width;
} Frame;

typedef struct Paging {
    const Book *book;
    Typeset *set;
    RowList rows;
    struct {
        Frame *items;
        int count, capacity;
    } frames;
    struct {
        TypeText **items;
        int count, capacity;
    } texts; // all, to be given back
    struct {
        const char **items;
        int count, capacity;
    } places; // that links may lead to
    Arena arena;
    double margin, top, bottom, width; // width: of the text
    NumberMarks marks;
    bool quiet_links; // what is made now does not show its links
    int tables;
    int pages;
} Paging;

// Where blocks are laid: a column of a width, and what it is inside of.
typedef struct Column {
    double x, width;
    int frame;
    const char *language; // of its words; NULL for that of the booklet
    bool small;           // in a notice or a cell
    RowList *rows;
} Column;

#define FRAME_PAD_MM 2.5
#define PICTURE_GAP_MM 5.0

TypeText *page_text(Paging *p, TypeLook look, SpanList spans, double width, const char *language,
                    Align align);

// The language of a block's words in a column; NULL as there.
const char *page_language(const Paging *p, const Column *column, bool authored, const char *language);
// The lines of a paragraph in a column, before mm below what is above it.
void page_lines(const Column *column, TypeText *text, double before, const char *role, bool keep_all);
void page_blocks(Paging *p, const Column *column, const BookBlock *blocks, int count);

// pages_table.c
void page_table(Paging *p, const Column *column, const BookTable *table);

// pages_figure.c
// A figure in a column, as rows of pictures.
void page_figure(Paging *p, const Column *column, const BookBlock *figure);
// Prose with the figures of its step beside it, as many of the blocks as stand next to them; gives how many
// were laid, -1 where the figures need the whole width.
int page_beside(Paging *p, const Column *column, const BookBlock *blocks, int count, const BookBlock *figures,
                int figure_count);

// pages_break.c
void page_break(Paging *p);
int page_of(const Paging *p, const char *place); // from 0; -1 where there is none
void page_draw(Paging *p);

#endif
