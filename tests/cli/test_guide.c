// The guide holds what it says: its files are written, its commands run in order, and what they print is what
// the page shows.
//
// A fence of a chapter whose first line names a file, as in "markdown my-collar.md", is that file, or with
// "add" what is added to its end. A recipe among them drafts and all its proofs hold, unless the word
// "unproven" or "wrong" stands there too. A fence called console is what a terminal shows: a line that begins
// with "$ " is typed, what follows is printed, and a line "..." stands for any number of lines. A command
// within the prose runs too, and may not be wrong. With REBATO_GOLDENS=write in the environment what differs
// is written into the page.
#include <criterion/criterion.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "recipe/shelf.h"
#include "said.h"

#define PARTED '\036' // between the answers of the steps
#define BEHIND_LAST_STEP "printf '\\036'\n"

typedef struct Slice {
    const char *text;
    size_t length;
} Slice;

typedef enum StepKind {
    STEP_FILE,  // text goes into name
    STEP_TYPED, // text is typed, answer is what the page says it prints
    STEP_PROSE  // text runs
} StepKind;

typedef struct Step {
    StepKind kind;
    int line;
    Slice text, name, answer;
    bool add, unproven, wrong;
} Step;

typedef struct Steps {
    Step *items;
    int count, capacity;
} Steps;

typedef struct Page {
    const char *name; // "guide/1-first-collar"
    char path[512];
    Buffer text;
    Steps steps;
} Page;

static bool next_line(const Page *page, int *line, Slice *out) {
    out->text = text_line(page->text.data, ++*line, &out->length);
    return out->text != NULL;
}

static bool slice_is(Slice slice, const char *text) {
    return slice.length == strlen(text) && memcmp(slice.text, text, slice.length) == 0;
}

static Slice next_word(Slice *rest) {
    while (rest->length > 0 && *rest->text == ' ')
        rest->text++, rest->length--;
    Slice word = {rest->text, 0};
    while (word.length < rest->length && word.text[word.length] != ' ')
        word.length++;
    rest->text += word.length;
    rest->length -= word.length;
    return word;
}

static size_t ticks(Slice line) {
    size_t count = 0;
    while (count < line.length && line.text[count] == '`')
        count++;
    return count;
}

// The commands of a console fence; body is all between its marks.
static void add_typed(Page *page, Slice body, int line) {
    const char *end = body.text + body.length;
    for (const char *at = body.text; at < end; line++) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        cr_assert(stop, "%s:%d: a line without an end", page->name, line);
        if (at[0] == '$' && at[1] == ' ') {
            Step step = {.kind = STEP_TYPED,
                         .line = line,
                         .text = {at + 2, (size_t)(stop - at - 2)},
                         .answer = {stop + 1, 0}};
            ARRAY_ADD(&page->steps, step);
        } else {
            cr_assert(page->steps.count > 0, "%s:%d: an answer to no command", page->name, line);
            page->steps.items[page->steps.count - 1].answer.length += (size_t)(stop + 1 - at);
        }
        at = stop + 1;
    }
}

static void add_fence(Page *page, Slice info, Slice body, int line) {
    Slice kind = next_word(&info);
    Step step = {.kind = STEP_FILE, .line = line, .text = body, .name = next_word(&info)};
    for (Slice word = next_word(&info); word.length > 0; word = next_word(&info)) {
        step.add = step.add || slice_is(word, "add");
        step.unproven = step.unproven || slice_is(word, "unproven");
        step.wrong = step.wrong || slice_is(word, "wrong");
    }
    if (step.name.length > 0)
        ARRAY_ADD(&page->steps, step);
    else if (slice_is(kind, "console"))
        add_typed(page, body, line + 1);
}

static void add_prose(Page *page, Slice line, int number) {
    static const char opening[] = "`rebato ";
    const char *end = line.text + line.length;
    for (const char *at = line.text; at + sizeof opening < end; at++) {
        if (!text_starts(at, opening))
            continue;
        const char *stop = memchr(at + 1, '`', (size_t)(end - at - 1));
        cr_assert(stop, "%s:%d: a command is not closed on its line", page->name, number);
        Step step = {.kind = STEP_PROSE, .line = number, .text = {at + 1, (size_t)(stop - at - 1)}};
        ARRAY_ADD(&page->steps, step);
        at = stop;
    }
}

static void page_open(Page *page, const char *name) {
    Fault fault;
    *page = (Page){.name = name};
    fault_init(&fault);
    buffer_init(&page->text);
    snprintf(page->path, sizeof page->path, "%s/../stdlib/%s.md", getenv("TESTS"), name);
    cr_assert(file_read(page->path, 1u << 20, &page->text, &fault), "%s", fault.message);
    Slice line, inside;
    for (int at = 0; next_line(page, &at, &line);) {
        const size_t marks = ticks(line);
        if (marks < 3) {
            add_prose(page, line, at);
            continue;
        }
        const int first = at;
        Slice body = {line.text + line.length + 1, 0};
        while (next_line(page, &at, &inside) && !(ticks(inside) >= marks && ticks(inside) == inside.length))
            body.length = (size_t)(inside.text + inside.length + 1 - body.text);
        cr_assert(inside.text, "%s:%d: a fence is not closed", name, first);
        add_fence(page, (Slice){line.text + marks, line.length - marks}, body, first);
    }
}

static void page_close(Page *page) {
    mem_free(page->steps.items);
    buffer_finish(&page->text);
}

// A shell script that goes through the steps; behind each stands a mark, and before it what the step
// answered.
static void add_script(const Page *page, Buffer *out) {
    buffer_add_text(out, "export HOME=$PWD GIT_CONFIG_NOSYSTEM=1 GIT_AUTHOR_NAME=Cutter "
                         "GIT_AUTHOR_EMAIL=cutter@example.org GIT_COMMITTER_NAME=Cutter "
                         "GIT_COMMITTER_EMAIL=cutter@example.org GIT_AUTHOR_DATE='2001-01-01T12:00:00Z' "
                         "GIT_COMMITTER_DATE='2001-01-01T12:00:00Z'\n");
    for (int i = 0; i < page->steps.count; i++) {
        const Step *step = &page->steps.items[i];
        const int length = (int)step->text.length, name = (int)step->name.length;
        if (step->kind == STEP_FILE) {
            buffer_add_format(out, "cat >%s%.*s <<'END OF FILE'\n%.*sEND OF FILE\n", step->add ? ">" : "",
                              name, step->name.text, length, step->text.text);
            if (name > 3 && memcmp(step->name.text + name - 3, ".md", 3) == 0)
                buffer_add_format(out, "rebato check %.*s 2>&1; printf '%%d' $?\n", name, step->name.text);
        } else if (step->kind == STEP_TYPED) {
            buffer_add_format(out, "{ %.*s\n} 2>&1\n", length, step->text.text);
        } else {
            buffer_add_format(out, "{ %.*s\n} 2>&1; printf '%%d' $?\n", length, step->text.text);
        }
        buffer_add_text(out, BEHIND_LAST_STEP);
    }
}

static Said run_page(const Page *page) {
    Buffer script;
    Fault fault;
    char path[] = "/tmp/rebato-guide-XXXXXX";
    buffer_init(&script);
    fault_init(&fault);
    cr_assert(mkdtemp(path));
    add_script(page, &script);
    char file[64];
    snprintf(file, sizeof file, "%s/script", path);
    cr_assert(file_write(file, script.data, script.length, &fault), "%s", fault.message);
    Said s = said("bash %s; rm -r %s", file, path);
    buffer_finish(&script);
    return s;
}

static Slice take_line(Slice *rest) {
    const char *stop = memchr(rest->text, '\n', rest->length);
    Slice line = {rest->text, stop ? (size_t)(stop - rest->text) : rest->length};
    const size_t used = line.length + (stop ? 1 : 0);
    rest->text += used;
    rest->length -= used;
    return line;
}

// Whether the page shows what was said: line by line, "..." for any number of them.
static bool shows(Slice page, Slice answer) {
    while (page.length > 0) {
        Slice line = take_line(&page);
        if (slice_is(line, "...")) {
            while (!shows(page, answer)) {
                if (answer.length == 0)
                    return false;
                take_line(&answer);
            }
            return true;
        }
        if (answer.length == 0)
            return false;
        Slice found = take_line(&answer);
        if (found.length != line.length || memcmp(found.text, line.text, line.length) != 0)
            return false;
    }
    return answer.length == 0;
}

static int count_lines(Slice text) {
    int count = 0;
    for (; text.length > 0; take_line(&text))
        count++;
    return count;
}

// The answer as the page shows it: as many lines as there were before the first "..." and behind the last
// one.
static void add_answer(Slice page, Slice answer, Buffer *out) {
    int before = 0, behind = 0, lines = count_lines(answer);
    bool left_out = false;
    while (page.length > 0) {
        const bool dots = slice_is(take_line(&page), "...");
        left_out = left_out || dots;
        before += !left_out;
        behind = dots ? 0 : behind + left_out;
    }
    for (int i = 0; answer.length > 0; i++) {
        const Slice line = take_line(&answer);
        if (left_out && i == before)
            buffer_add_text(out, "...\n");
        if (!left_out || i < before || i >= lines - behind)
            buffer_add_format(out, "%.*s\n", (int)line.length, line.text);
    }
}

static void check_code(const Page *page, const Step *step, Slice answer) {
    const int code = answer.length > 0 ? answer.text[answer.length - 1] - '0' : -1;
    if (step->kind == STEP_PROSE)
        cr_expect(code == 0 || code == 1, "%s:%d: %.*s\n%.*s", page->name, step->line, (int)step->text.length,
                  step->text.text, (int)answer.length, answer.text);
    else if (answer.length > 0)
        cr_expect_eq(code,
                     step->wrong      ? 2
                     : step->unproven ? 1
                                      : 0,
                     "%s:%d: the file shown ends with %d\n%.*s", page->name, step->line, code,
                     (int)answer.length, answer.text);
}

// Holds each step against what it answered; gives the page with the answers in it.
static void check_page(const Page *page, const Said *s, bool write, Buffer *out) {
    const char *at = s->out.data, *copied = page->text.data;
    for (int i = 0; i < page->steps.count; i++) {
        const Step *step = &page->steps.items[i];
        const char *stop = strchr(at, PARTED);
        cr_assert(stop, "%s:%d: the steps ended here\n%s", page->name, step->line, s->err.data);
        Slice answer = {at, (size_t)(stop - at)};
        at = stop + 1;
        if (step->kind != STEP_TYPED) {
            check_code(page, step, answer);
        } else if (!shows(step->answer, answer)) {
            cr_expect(write, "%s:%d: %.*s prints\n%.*s", page->name, step->line, (int)step->text.length,
                      step->text.text, (int)answer.length, answer.text);
            buffer_add(out, copied, (size_t)(step->answer.text - copied));
            add_answer(step->answer, answer, out);
            copied = step->answer.text + step->answer.length;
        }
    }
    buffer_add_text(out, copied);
}

static void follow(const char *name) {
    Page page;
    page_open(&page, name);
    Said s = run_page(&page);
    Buffer written;
    buffer_init(&written);
    const char *goldens = getenv("REBATO_GOLDENS");
    const bool write = goldens && strcmp(goldens, "write") == 0;
    check_page(&page, &s, write, &written);
    Fault fault;
    fault_init(&fault);
    if (write && strcmp(written.data, page.text.data) != 0)
        cr_assert(file_write(page.path, written.data, written.length, &fault), "%s", fault.message);
    fault_finish(&fault);
    buffer_finish(&written);
    said_finish(&s);
    page_close(&page);
}

Test(guide, what_every_chapter_shows_is_what_a_terminal_shows) {
    int count, chapters = 0;
    const BuiltIn *built_in = shelf_built_in(&count);
    for (int i = 0; i < count; i++) {
        if (strcmp(built_in[i].family, "guide") != 0)
            continue;
        follow(built_in[i].name);
        chapters++;
    }
    cr_expect(chapters >= 7, "only %d chapters", chapters);
}
