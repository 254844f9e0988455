// What the files that compose a booklet share: the pattern read as lessons, and the small makers of blocks.
// Inside this room only.
#ifndef REBATO_BOOKLET_COMPOSING_H
#define REBATO_BOOKLET_COMPOSING_H

#include "booklet/compose.h"
#include "booklet/image.h"

typedef struct BlockList {
    BookBlock *items;
    int count, capacity;
} BlockList;

// A chapter of the pattern as it is told.
typedef struct Lesson {
    const Recipe *recipe; // NULL where the shelf has it not, or another text of it
    const Prose *prose;
    int prose_count;
    const char *language;       // of its prose, where it is another than that of the book's; or NULL
    bool shows_code;            // asked for, or stated by the recipe, as one that teaches the language does
    int first_step, step_count; // in pattern->steps; the first is the opening
    const char **titles;        // of its steps, as anchors: what a link in its prose names
    bool works;                 // something was drawn, traced or sewn in it, or in one it used
    int told_by;                // the first chapter of the same recipe that works: tells its prose
} Lesson;

typedef struct Composing {
    const Pattern *pattern;
    const Shelf *shelf;
    const ComposeOptions *options;
    const Language *language;
    Book *book;
    Arena *arena; // the book's
    Lesson *lessons;
    int last;             // the chapter of the recipe that was asked for
    const char **anchors; // of pattern->steps
    bool *told;           // remarks that stand somewhere already
    Buffer *notes;
    ImageRoom image_room;
    int step_pictures, pictures_left_out;
} Composing;

void lessons_find(Composing *c);
void lessons_stated(Composing *c); // what the recipes state: their languages, whether code is shown

// What a step is; an index of pattern->steps.
bool step_works(const Composing *c, int step);       // something was drawn, traced, sewn or worked out in it
bool step_uses(const Composing *c, int step);        // a recipe that works was used in it
bool step_is_told(const Composing *c, int step);     // either
bool step_sews(const Composing *c, int step);        // it tells the order of sewing, told under that heading
bool step_lists_order(const Composing *c, int step); // in a numbered list
// Its title begins with one of the words of a key in any language: "sizes.titles", told on the front page, or
// "buying.titles", told under cutting.
bool step_is_titled(const Composing *c, int step, const char *titles);
bool step_stands_apart(const Composing *c, int step); // sews, or is titled so
int sewing_step(const Composing *c); // the first that tells how the recipe that was asked for is sewn, or -1
bool lesson_is_block(const Composing *c, int chapter); // not the last, and asks for no bodice: it makes one

void add_lesson(Composing *c, int chapter, bool block,
                BlockList *out);                     // a recipe of the command line: a part
void add_sewing_steps(Composing *c, BlockList *out); // the steps that tell the sewing

typedef enum ProsePart { PROSE_ALL, PROSE_SUMMARY, PROSE_REST, PROSE_UNLISTED } ProsePart;

// The blocks of a step of the lesson's recipe (0 for its opening), its heading apart; the level is that of
// the heading they stand under. The summary is the first paragraph of the opening; unlisted is all but the
// lists.
void add_prose(Composing *c, const Lesson *lesson, int step, int level, ProsePart part, BlockList *out);
SpanList prose_spans(Composing *c, const Lesson *lesson, SpanList spans); // as they stand in the booklet

// The parts of the booklet.
void add_front(Composing *c, BlockList *out);
void add_sizes(Composing *c, BlockList *out);    // finished sizes, on the front page
void add_hardness(Composing *c, BlockList *out); // likewise
void add_cutting(Composing *c, BlockList *out);
void add_sewing(Composing *c, BlockList *out);
void add_proofs(Composing *c, BlockList *out);
void add_version(Composing *c, BlockList *out);
void add_failed_of_step(Composing *c, int step, BlockList *out);
void add_remarks(Composing *c, int step, BlockList *out); // of a step, those not told yet; of all for -1
int proofs_failing(const Pattern *pattern);               // that do not hold, and were not accepted
const char *proof_name(Composing *c, const Proof *proof);
bool input_is_measurement(const Composing *c, int index); // of the wearer; of pattern->inputs

// Texts in the arena, in the book's language.
const char *say(Composing *c, const char *key, ...) __attribute__((sentinel));
const char *say_count(Composing *c, const char *key, int count);
const char *say_value(Composing *c, Measure measure, double value, const char *text);
const char *say_mm(Composing *c, double mm);
const char *say_mm_beside(Composing *c, double mm, double other); // in the unit that both need
const char *say_thin(Composing *c, double mm); // of cloth
const char *say_area(Composing *c, double mm2);
const char *say_name(Composing *c, const char *name);       // "neck_point" as "neck point"
const char *say_whole_name(Composing *c, const char *name); // of a piece or a seam: "over" is a word of it
const char *say_cloth(Composing *c, const char *cloth);
const char *say_input(Composing *c, const Input *input); // its name: that of a known measurement translated
const char *say_taken(Composing *c,
                      const char *name);              // how that measurement is taken; NULL for one not known
const char *say_edge(Composing *c, const char *name); // as say_name, and what the program named
const char *say_way_out(Composing *c, const Proof *proof); // what would mend it; NULL where nothing is known
const char *say_filled(Composing *c, const char *language, const char *text); // in prose of that language
// "14.0 cm" as "14,0 cm" where that is written: in a text that is a measure, and within a sentence.
const char *say_numbers(Composing *c, const char *text);
const char *begun_large(Composing *c,
                        const char *text);    // names and messages begin small, a sentence does not
const char *keep(Composing *c, Buffer *text); // and finishes it

// Blocks; lists are emptied into them.
SpanList span_plain(Composing *c, const char *text);
SpanList span_styled(Composing *c, unsigned style, const char *text);
SpanList span_link(Composing *c, const char *text, const char *anchor);
BookBlock block_paragraph(SpanList spans);
#define HEADING_LEVEL_MOST 6 // as HTML has them; a deeper heading is set as one of these
BookBlock block_heading(int level, const char *number, SpanList spans);
void add_block(BlockList *list, BookBlock block);
void add_paragraph(Composing *c, BlockList *list, const char *text);
void add_holding(Composing *c, BlockList *list, BookBlock holder, BlockList *inner);
// A section headed by text; nothing where inner is empty.
void add_section(Composing *c, BlockList *list, BookRole role, int level, const char *anchor,
                 const char *text, BlockList *inner);
// step: of the recipe whose words they are; -1 for the program's.
void add_notice(Composing *c, BlockList *list, BookTone tone, const char *text, int step);
const char *language_of_step(const Composing *c, int step); // as of a block of the recipe that has the step
BookPicture *add_figure(Composing *c, BlockList *list, int pictures, SpanList caption);

// A table that grows row by row: table_add for each cell in turn.
typedef struct TableMaking {
    BookTable table;
    BookCell *cells;
    int count, capacity;
} TableMaking;
TableMaking table_begin(const BookColumn *columns, int count, bool header, bool names_first);
void table_add(TableMaking *table, BookCell cell);
void table_text(Composing *c, TableMaking *table, const char *text);               // the program's words
void table_authored(Composing *c, TableMaking *table, const char *text, int step); // words of a recipe's step
void table_end(Composing *c, TableMaking *table, const char *title, BlockList *out); // nothing without rows

#endif
