#include "script/slips.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "base/measures.h"
#include "base/text.h"

#define NAME_BYTES 64

typedef struct Line {
    const char *text;
    size_t length;
} Line;

// What stands in quotation marks behind the words; false where they are not said.
static bool named(const char *said, const char *words, char *name) {
    const char *at = strstr(said, words);
    if (!at)
        return false;
    at += strlen(words);
    const size_t length = strcspn(at, "'");
    if (length == 0 || length >= NAME_BYTES)
        return false;
    memcpy(name, at, length);
    name[length] = '\0';
    return true;
}

static bool is_one_of(const char *name, const char *const *names) {
    for (; *names; names++)
        if (strcmp(name, *names) == 0)
            return true;
    return false;
}

static const char *find(Line line, const char *text) {
    const size_t length = strlen(text);
    for (size_t i = 0; i + length <= line.length; i++)
        if (memcmp(line.text + i, text, length) == 0)
            return line.text + i;
    return NULL;
}

static bool slip_of_quotes(Line line, const char *said, char *out, size_t size) {
    static const char *const curly[] = {"\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E", "\xC2\xAB",
                                        "\xC2\xBB",     "\xE2\x80\x98", "\xE2\x80\x99"};
    if (!strstr(said, "near '<\\"))
        return false;
    for (size_t i = 0; i < sizeof curly / sizeof *curly; i++)
        if (find(line, curly[i])) {
            snprintf(out, size, "write straight quotation marks, \", and not those of a word processor");
            return true;
        }
    return false;
}

static bool slip_of_unit(const char *said, char *out, size_t size) {
    static const char *const units[] = {"cm", "mm", "inch", NULL};
    char near[NAME_BYTES];
    if (!named(said, "expected near '", near) || !is_one_of(near, units))
        return false;
    snprintf(out, size, "write 3*%s: a number is multiplied by its unit", near);
    return true;
}

// What Lua stumbles on first in a line is often the fault of the line before.
static bool slip_of_line_before(Line line, const char *said, char *out, size_t size) {
    char near[NAME_BYTES];
    if (strstr(said, "to close") || !named(said, " near '", near))
        return false;
    while (line.length > 0 && isspace((unsigned char)*line.text))
        line.text++, line.length--;
    if (line.length < strlen(near) || memcmp(line.text, near, strlen(near)) != 0)
        return false;
    snprintf(out, size,
             "look at the end of the line before too: a quotation mark, a bracket or a comma may be missing "
             "there");
    return true;
}

// Where a code block without "lua" opens, or 0: it is prose to the program.
static int block_without_lua(const Recipe *recipe) {
    for (int i = 0; i < recipe->block_count; i++) {
        const RecipeBlock *block = &recipe->blocks[i];
        if (block->kind == BLOCK_OTHER && block->length > 4 && memcmp(block->text, "```\n", 4) == 0)
            return block->first_line;
    }
    return 0;
}

static bool slip_of_name(const Recipe *recipe, Line line, const char *said, char *out, size_t size) {
    static const char *const words[] = {"up",    "down",   "left", "right",   "first",  "last",
                                        "along", "across", "bias", "outward", "inward", NULL};
    char name[NAME_BYTES], joined[NAME_BYTES + 1];
    if (!named(said, "nothing is called '", name))
        return false;
    snprintf(joined, sizeof joined, "%s-", name);
    const char *minus = find(line, joined);
    const int block = block_without_lua(recipe);
    if (is_one_of(name, words))
        snprintf(out, size, "a word for the program stands in quotation marks: \"%s\"", name);
    else if (strcmp(name, "bodice") == 0 || measure_known(name))
        snprintf(out, size, "ask for it first: needs { %s = \"what it is\" }", name);
    else if (minus && minus + strlen(joined) < line.text + line.length &&
             isalpha((unsigned char)minus[strlen(joined)]))
        snprintf(out, size, "a name is written with _ and not with -, which is a minus");
    else if (block > 0)
        snprintf(out, size, "the code block at line %d does not run: it opens without the word lua", block);
    else
        return false;
    return true;
}

static bool slip_of_comma(Line line, const char *said, char *out, size_t size) {
    if (strstr(said, " is a number, so it cannot be called")) {
        snprintf(out, size, "is a comma missing behind it?");
        return true;
    }
    if (!strstr(said, "argument"))
        return false;
    for (size_t i = 0; i + 2 < line.length; i++)
        if (isdigit((unsigned char)line.text[i]) && line.text[i + 1] == ',' &&
            isdigit((unsigned char)line.text[i + 2])) {
            snprintf(out, size, "is a decimal comma meant? inside a recipe write 3.5*cm, with a point");
            return true;
        }
    return false;
}

bool slip_hint(const Recipe *recipe, int number, const char *said, char *out, size_t size) {
    Line line;
    line.text = number > 0 ? text_line(recipe->source, number, &line.length) : NULL;
    if (!line.text)
        return false;
    return slip_of_quotes(line, said, out, size) || slip_of_unit(said, out, size) ||
           slip_of_line_before(line, said, out, size) || slip_of_name(recipe, line, said, out, size) ||
           slip_of_comma(line, said, out, size);
}
