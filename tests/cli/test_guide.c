// The guide holds what it says: its files are written, its commands run in order, and what they print is what
// the page shows.
//
// A fence of a chapter whose first line names a file, as in "markdown my-collar.md", is that file, or with
// "add" what is added to its end. With "from" and "to" a line of it is changed; with "same" it is the file as
// it should be by then. A recipe among them drafts and all its proofs hold, unless the word "unproven" or
// "wrong" stands there too. A fence called console is what a terminal shows: a line that begins with "$ " is
// typed, what follows is printed, and a line "..." stands for any number of lines. A command within the prose
// runs too, and may not be wrong. With REBATO_GOLDENS=write in the environment what differs is written into
// the page.
#define _GNU_SOURCE // memmem
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
    STEP_ADD,   // at its end
    STEP_FROM,  // text is a line of name
    STEP_TO,    // text takes its place
    STEP_SAME,  // name holds text
    STEP_TYPED, // text is typed, answer is what the page says it prints
    STEP_PROSE  // text runs
} StepKind;

typedef struct Step {
    StepKind kind;
    int line;
    Slice text, name, answer;
    bool unproven, wrong;
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
        if (slice_is(word, "add"))
            step.kind = STEP_ADD;
        if (slice_is(word, "from"))
            step.kind = STEP_FROM;
        if (slice_is(word, "to"))
            step.kind = STEP_TO;
        if (slice_is(word, "same"))
            step.kind = STEP_SAME;
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

// The lines are in the environment: awk would read backslashes in its own.
static const char CHANGE[] = "awk '$0 == ENVIRON[\"from\"] { print ENVIRON[\"to\"]; count++; next } { print "
                             "} END { exit count != 1 }' "
                             "%.*s >changed && mv changed ";

// What a step does in the shell. One with a file ends with the number that a check of the file ends with.
static void add_step(const Step *step, Buffer *out) {
    const int length = (int)step->text.length, name_length = (int)step->name.length;
    const char *text = step->text.text, *name = step->name.text;
    switch (step->kind) {
    case STEP_TYPED:
        buffer_add_format(out, "{ %.*s\n} 2>&1\n", length, text);
        return;
    case STEP_PROSE:
        buffer_add_format(out, "{ %.*s\n} 2>&1; printf '%%d' $?\n", length, text);
        return;
    case STEP_FROM:
        buffer_add_format(out, "export from=$(cat <<'END OF FILE'\n%.*sEND OF FILE\n)\n", length, text);
        return;
    case STEP_TO:
        buffer_add_format(out, "export to=$(cat <<'END OF FILE'\n%.*sEND OF FILE\n)\n", length, text);
        buffer_add_format(out, CHANGE, name_length, name);
        buffer_add_format(out, "%.*s && ", name_length, name);
        break;
    default:
        buffer_add_format(out, "%s%.*s <<'END OF FILE' &&\n%.*sEND OF FILE\n",
                          step->kind == STEP_FILE  ? "cat >"
                          : step->kind == STEP_ADD ? "cat >>"
                                                   : "cmp - ",
                          name_length, name, length, text);
    }
    const bool recipe = name_length > 3 && memcmp(name + name_length - 3, ".md", 3) == 0;
    buffer_add_format(out, "%s%.*s 2>&1; printf '%%d' $?\n", recipe ? "rebato check " : "true ", name_length,
                      name);
}

// A shell script that goes through the steps; behind each stands a mark, and before it what the step
// answered.
static void add_script(const Page *page, Buffer *out) {
    buffer_add_text(out, "export HOME=$PWD GIT_CONFIG_NOSYSTEM=1 GIT_AUTHOR_NAME=Cutter "
                         "GIT_AUTHOR_EMAIL=cutter@example.org GIT_COMMITTER_NAME=Cutter "
                         "GIT_COMMITTER_EMAIL=cutter@example.org GIT_AUTHOR_DATE='2001-01-01T12:00:00Z' "
                         "GIT_COMMITTER_DATE='2001-01-01T12:00:00Z'\n");
    for (int i = 0; i < page->steps.count; i++) {
        add_step(&page->steps.items[i], out);
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

static bool slice_has(Slice slice, const char *text) {
    return memmem(slice.text, slice.length, text, strlen(text)) != NULL;
}

static void skip_digits(Slice *rest) {
    while (rest->length > 0 && *rest->text >= '0' && *rest->text <= '9')
        rest->text++, rest->length--;
}

// Equal, or, unless strict, but for how many proofs and pages there are: those change whenever a recipe of
// the shelf does, and the page is not less true for it.
static bool same_line(Slice a, Slice b, bool strict) {
    const bool counts =
        !strict && (slice_has(a, " proofs hold") || slice_has(a, " pages)") || slice_has(a, "also hold: "));
    for (bool equal = true; equal && a.length > 0 && b.length > 0;) {
        if (counts) {
            skip_digits(&a);
            skip_digits(&b);
        }
        equal = a.length > 0 && b.length > 0 && *a.text == *b.text;
        if (equal) {
            a.text++, a.length--;
            b.text++, b.length--;
        }
    }
    return a.length == 0 && b.length == 0;
}

// Whether the page shows what was said: line by line, "..." for any number of them.
static bool shows(Slice page, Slice answer, bool strict) {
    while (page.length > 0) {
        Slice line = take_line(&page);
        if (slice_is(line, "...")) {
            while (!shows(page, answer, strict)) {
                if (answer.length == 0)
                    return false;
                take_line(&answer);
            }
            return true;
        }
        if (answer.length == 0)
            return false;
        if (!same_line(line, take_line(&answer), strict))
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
        } else if (!shows(step->answer, answer, write)) {
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
