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
    ROW_PAIR,  // rows and pictures beside each other, on one page
} RowKind;

// What rows are inside of for those who hear them, by the names of PDF (ISO 32000-1, 14.8.4): "L", "LI", ...
typedef struct Nest {
    const char *role;
    const struct Nest *outer; // or NULL
} Nest;

// Whether a chapter would rather begin a page, or runs on where there is room.
typedef enum ChapterStart { CHAPTER_NONE, CHAPTER_RUNS_ON, CHAPTER_BEGINS_PAGE } ChapterStart;

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
    ChapterStart chapter;               // begins one
    double parting;                     // what it costs to begin a page with it
    double price;                       // what it costs to choose the layout it begins
    int joint;                          // index of the joint that follows it; -1 where the next row does
    const char *places[ROW_PLACES_MAX]; // links lead here; NULL past the last
    int frame;                          // index of the frame it stands in, or -1
    int table;                          // number of the table it belongs to, or -1
    int header;                         // index of the row repeated above it on a new page, or -1
    bool names;                         // a row of cells that names the columns
    bool rule;                          // a line below it
    const char *role;                   // for reading aloud
    const Nest *nest;                   // what that is in
    bool first_names;                   // the first of its cells names the row

    TypeText *text; // ROW_LINE and ROW_ENTRY
    int line;
    TypeText *marker;   // of a list item, left of its first line
    const Nest *marked; // the item
    const BookEntry *entry;
    Placed *pictures;
    int picture_count;
    Cell *cells;
    int cell_count;
    struct Row *inner; // of a pair; their y from its upper edge
    int inner_count;

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

// Where the column of rows goes on in one of several ways: layouts of the same step, of which the breaking
// into pages chooses one. Each is a run of rows; their last rows lead to another joint.
#define JOINT_WAYS_MAX 4
typedef struct Joint {
    int ways[JOINT_WAYS_MAX]; // indices of first rows
    int count;
} Joint;

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
    struct {
        Joint *items; // the first leads to the first row
        int count, capacity;
    } joints;
    int closed;                        // the last joint from which no way but the next row goes, or -1
    double margin, top, bottom, width; // width: of the text
    double figure_tall;                // of a figure beside its step, at most
    NumberMarks marks;
    int front;        // 0, or from 1 on the number of the section in front that is made
    bool quiet_links; // what is made now does not show its links
    int tables;
    int pages;
    const Nest *open; // while it is drawn: where the reading is
} Paging;

// Where blocks are laid: a column of a width, and what it is inside of.
typedef struct Column {
    double x, width;
    int frame;
    const char *language; // of its words; NULL for that of the booklet
    bool small;           // in a notice or a cell
    const Nest *nest;
    RowList *rows;
} Column;

// pages.c
// The booklet on its pages, ready to be drawn. False where the machine has no pango: there is nothing to
// finish then. The typeset of out is the caller's.
bool paging_make(const Book *book, Paging *out);
void paging_finish(Paging *p);

#define FRAME_PAD_MM 2.5
#define PICTURE_GAP_MM 5.0
#define ROW_AT(given, tall)                                                                           \
    .x = (given)->x, .width = (given)->width, .frame = (given)->frame, .height = (tall), .table = -1, \
    .header = -1, .joint = -1, .nest = (given)->nest

TypeText *page_text(Paging *p, TypeLook look, SpanList spans, double width, const char *language,
                    Align align);

const Nest *page_nest(Paging *p, const Nest *outer, const char *role);

// The language of a block's words in a column; NULL as there.
const char *page_language(const Paging *p, const Column *column, bool authored, const char *language);
// The lines of a paragraph in a column, before mm below what is above it.
void page_lines(const Column *column, TypeText *text, double before, const char *role, bool keep_all);
void page_blocks(Paging *p, const Column *column, const BookBlock *blocks, int count);
void rows_keep(RowList *rows, int first); // each from there on with the next one
double rows_height(const RowList *rows);
double rows_set(Row *rows, int count); // below each other in what they stand in; gives where they end

// pages_inside.c
void page_list(Paging *p, const Column *column, const BookBlock *list);
void page_framed(Paging *p, const Column *column, const BookBlock *block); // a quote or a notice
void page_code(Paging *p, const Column *column, const BookBlock *block);

// pages_table.c
void page_table(Paging *p, const Column *column, const BookTable *table);

// pages_figure.c
#define SIDE_PART 0.485 // of the width, for a figure beside prose; two of them stand beside each other
bool place_picture(const Paging *p, const BookPicture *picture, double width, double height, Placed *out);
// What a picture shows, emphasised, where it cannot be drawn; below it other words.
SpanList page_picture_words(Paging *p, const BookPicture *picture, SpanList below);
// Whether a step's picture can be read in a part of the column: it is large there, or hardly smaller than it
// would be in the whole width.
bool picture_is_narrow(const Paging *p, const Column *column, const BookPicture *picture);
// A figure in a column, as rows of pictures.
void page_figure(Paging *p, const Column *column, const BookBlock *figure);
void page_pictures(Paging *p, const Column *column, const Placed *pictures, int count, double before);

// pages_step.c
// A row in which the given ones, set already, stand on one page.
Row *page_pair(Paging *p, const Column *column, const RowList *rows, double height);
// A step, in the layouts it can have; gives how many of the blocks are laid out, since two short steps may
// stand beside each other.
int page_steps(Paging *p, const Column *column, const BookBlock *blocks, int count);

// pages_joint.c
// Ways are added to p->rows: joint_here, then for each way way_begins, its rows, way_ends, then joint_close.
int joint_here(Paging *p); // at the end of the rows there are
int joint_new(Paging *p);  // that ways will lead to
void way_begins(Paging *p, int joint);
void way_ends(Paging *p, int from, int to);    // a way without rows is none
void joint_close(Paging *p, int from, int to); // the rows added next follow
// Tells where links to a section lead: to its first row, in each way.
void page_place(Paging *p, const Column *column, int first, const char *anchor);

// pages_contents.c
void page_contents(Paging *p, const Column *column);

// pages_break.c
// Sets the rows on pages, and leaves those of the layouts that were chosen.
double page_break(Paging *p);

// pages_draw.c
int page_of(const Paging *p, const char *place); // from 0; -1 where there is none
void page_draw(Paging *p);

#endif
