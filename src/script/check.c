#include "script/check.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "base/text.h"

// What finding the words of an error costs, about: a recipe may catch errors in a loop.
#define FAIL_WORK 2000

int fail(lua_State *L, const char *format, ...) {
    ledger_charge(L, FAIL_WORK);
    va_list list;
    va_start(list, format);
    lua_pushvfstring(L, format, list);
    va_end(list);
    lua_error(L);
    __builtin_unreachable();
}

// Says the word and, for a method, does not count the receiver.
static const char *word_and_argument(lua_State *L, int *argument) {
    lua_Debug ar;
    if (!lua_getstack(L, 0, &ar) || !lua_getinfo(L, "n", &ar) || !ar.name)
        return run_of(L)->nameless ? run_of(L)->nameless : "this";
    if (strcmp(ar.namewhat, "metamethod") == 0)
        return "a name"; // an index or a plain name
    if (strcmp(ar.namewhat, "method") == 0)
        --*argument;
    else if (strcmp(ar.namewhat, "field") == 0 && !run_of(L)->hint[0])
        run_hint(run_of(L), "is a colon meant? thing:%s(...)", ar.name);
    return ar.name;
}

const char *word_name(lua_State *L) {
    int argument = 0;
    return word_and_argument(L, &argument);
}

int fail_argument(lua_State *L, int argument, const char *should_be) {
    int number = argument;
    const char *word = word_and_argument(L, &number);
    if (number == 0) {
        run_hint(run_of(L), "write a colon, as in thing:%s(...)", word);
        fail(L, "%s is asked of %s, but should be asked of %s", word, value_describe(L, argument), should_be);
    }
    if (lua_isnoneornil(L, argument))
        fail(L, "%s: argument %d should be %s, got nothing (nil)", word, number, should_be);
    fail(L, "%s: argument %d should be %s, got %s", word, number, should_be, value_describe(L, argument));
}

int fail_geometry(lua_State *L, GeomError error) {
    fail(L, "%s: %s", word_name(L), geom_error_text(error));
}

void check_last(lua_State *L, int count) {
    const int got = lua_gettop(L);
    if (got <= count)
        return;
    int most = count;
    const char *word = word_and_argument(L, &most);
    const int given = got - (count - most);
    if (most == 0)
        fail(L, "%s takes no arguments, got %d", word, given);
    fail(L, "%s takes at most %d argument%s, got %d", word, most, most == 1 ? "" : "s", given);
}

const char *length_trouble(double value) {
    if (isnan(value))
        return "is not a number (0/0, or a root of a negative number, somewhere above)";
    if (isinf(value))
        return "is endless (something divided by zero, somewhere above)";
    return fabs(value) > COORDINATE_LIMIT_MM ? "is more than 100 m" : NULL;
}

static double check_finite(lua_State *L, int argument, const char *should_be) {
    if (lua_type(L, argument) == LUA_TSTRING)
        run_hint(run_of(L), "inside a recipe write numbers with a unit: 14*cm, 5/8*inch");
    if (lua_type(L, argument) != LUA_TNUMBER)
        fail_argument(L, argument, should_be);
    const double value = lua_tonumber(L, argument);
    const char *trouble = length_trouble(value);
    if (!trouble)
        return value;
    int number = argument;
    const char *word = word_and_argument(L, &number);
    fail(L, "%s: argument %d %s", word, number, trouble);
}

double check_mm(lua_State *L, int argument) {
    return check_finite(L, argument, "a length");
}

double check_positive_mm(lua_State *L, int argument) {
    const double value = check_mm(L, argument);
    if (value > 0)
        return value;
    int number = argument;
    const char *word = word_and_argument(L, &number);
    fail(L, "%s: argument %d should be a length above zero, got %s", word, number, push_mm(L, value));
}

double check_number(lua_State *L, int argument) {
    return check_finite(L, argument, "a number");
}

static const char *const page_words[] = {"right", "up", "left", "down", NULL};

// The direction a word of the page tells, or false.
static bool page_direction(const char *word, double *out) {
    for (int i = 0; page_words[i]; i++)
        if (strcmp(word, page_words[i]) == 0) {
            *out = i * 90.0;
            return true;
        }
    return false;
}

double check_degrees(lua_State *L, int argument) {
    double out;
    if (lua_type(L, argument) == LUA_TSTRING) {
        if (page_direction(lua_tostring(L, argument), &out))
            return out;
        fail_argument(L, argument, "degrees or \"up\", \"down\", \"left\", \"right\"");
    }
    return check_finite(L, argument, "an angle in degrees");
}

int check_count(lua_State *L, int argument, int most) {
    const double value = check_number(L, argument);
    if (value >= 1 && value <= most && value == floor(value))
        return (int)value;
    int number = argument;
    const char *word = word_and_argument(L, &number);
    fail(L, "%s: argument %d should be a whole number from 1 to %d", word, number, most);
}

PointBox *check_point(lua_State *L, int argument) {
    PointBox *box = value_point(L, argument);
    if (!box)
        fail_argument(L, argument, "a point");
    return box;
}

PathBox *check_path(lua_State *L, int argument) {
    PathBox *box = value_path(L, argument);
    if (!box)
        fail_argument(L, argument, "a path");
    return box;
}

DraftBox *check_draft(lua_State *L, int argument) {
    DraftBox *box = value_draft(L, argument);
    if (!box)
        fail_argument(L, argument, "a draft");
    return box;
}

PieceBox *check_piece(lua_State *L, int argument) {
    PieceBox *box = value_piece(L, argument);
    if (!box)
        fail_argument(L, argument, "a piece");
    return box;
}

// Signs that are not drawn but tell a terminal or a reader's eye something: controls, and those that turn the
// direction of writing.
static bool is_control(uint32_t sign) {
    return sign < 0x20 || (sign >= 0x7F && sign < 0xA0) || (sign >= 0x202A && sign <= 0x202E) ||
           (sign >= 0x2066 && sign <= 0x2069);
}

// Nothing but what a typewriter prints: most texts are, and need no closer look.
static bool is_plain_ascii(const char *text, size_t length) {
    size_t at = 0;
    while (at < length && text[at] >= ' ' && text[at] <= '~')
        at++;
    return at == length;
}

const char *check_text(lua_State *L, int argument, size_t most) {
    if (lua_type(L, argument) != LUA_TSTRING)
        fail_argument(L, argument, "text in quotes");
    size_t length;
    const char *text = lua_tolstring(L, argument, &length);
    int number = argument;
    if (length > most)
        fail(L, "%s: the text is %d bytes long, more than %d", word_and_argument(L, &number), (int)length,
             (int)most);
    if (is_plain_ascii(text, length))
        return text;
    if (!text_is_utf8(text, length))
        fail(L, "%s: the text is not UTF-8", word_and_argument(L, &number));
    for (const char *at = text; at < text + length;) {
        const char *sign = at;
        if (*at == '\0') // where text_next would not go on
            fail(L, "%s: the text holds a NUL byte", word_and_argument(L, &number));
        if (is_control(text_next(&at)))
            fail(L, "%s: the text holds a control sign after %d bytes; keep it to letters on one line",
                 word_and_argument(L, &number), (int)(sign - text));
    }
    return text;
}

const char *check_name(lua_State *L, int argument) {
    const char *name = check_text(L, argument, LIMIT_NAME_BYTES);
    if (name[strspn(name, " ")] == '\0')
        fail(L, "%s: the name is empty", word_name(L));
    return name;
}

bool is_plain_name(const char *name) {
    if (!((name[0] >= 'a' && name[0] <= 'z') || (name[0] >= 'A' && name[0] <= 'Z') || name[0] == '_'))
        return false;
    for (const char *at = name; *at; at++)
        if (!((*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z') || (*at >= '0' && *at <= '9') ||
              *at == '_'))
            return false;
    return true;
}

// Past so many, a list is no help.
#define LIST_BYTES_MAX 700

void hint_names(lua_State *L, const char *given, const char *const *names, int count, const char *what) {
    ledger_charge(L, 100.0 * count);
    const char *near = strlen(given) <= LIMIT_NAME_BYTES ? text_nearest(given, names, count) : NULL;
    char list[LIST_BYTES_MAX] = "";
    for (int i = 0; i < count; i++) {
        const size_t used = strlen(list);
        const char *gap = i == 0 ? "" : i + 1 < count ? ", " : " and ";
        if (used + strlen(names[i]) + strlen(gap) + 10 > sizeof list) {
            snprintf(list + used, sizeof list - used, ", ...");
            break;
        }
        snprintf(list + used, sizeof list - used, "%s%s", gap, names[i]);
    }
    if (near)
        run_hint(run_of(L), "did you mean '%s'? %s are %s", near, what, list);
    else if (count > 0)
        run_hint(run_of(L), "%s are %s", what, list);
}

int check_word(lua_State *L, int argument, const char *const *words) {
    const char *given = lua_type(L, argument) == LUA_TSTRING ? lua_tostring(L, argument) : NULL;
    int count = 0;
    for (; words[count]; count++)
        if (given && strcmp(given, words[count]) == 0)
            return count;
    char list[300] = "";
    for (int i = 0; i < count; i++) {
        const size_t used = strlen(list);
        snprintf(list + used, sizeof list - used, "%s\"%s\"",
                 i == 0           ? ""
                 : i == count - 1 ? " or "
                                  : ", ",
                 words[i]);
    }
    const char *near = given ? text_nearest(given, words, count) : NULL;
    if (near)
        run_hint(run_of(L), "did you mean \"%s\"?", near);
    fail_argument(L, argument, list);
}

PathEnd check_end(lua_State *L, int argument) {
    static const char *const words[] = {"first", "last", NULL};
    return check_word(L, argument, words) == 0 ? PATH_FIRST : PATH_LAST;
}

bool field_number(lua_State *L, int index, const char *field, double *out) {
    index = lua_absindex(L, index);
    const int type = lua_getfield(L, index, field);
    if (type == LUA_TNIL) {
        lua_pop(L, 1);
        return false;
    }
    if (type != LUA_TNUMBER) {
        if (type == LUA_TSTRING)
            run_hint(run_of(L), "inside a recipe write numbers with a unit: 14*cm, 5/8*inch");
        fail(L, "%s: %s should be a number, got %s", word_name(L), field, value_describe(L, -1));
    }
    const double value = lua_tonumber(L, -1);
    const char *trouble = length_trouble(value);
    if (trouble)
        fail(L, "%s: %s %s", word_name(L), field, trouble);
    lua_pop(L, 1);
    *out = value;
    return true;
}

bool field_mm(lua_State *L, int index, const char *field, double *out) {
    return field_number(L, index, field, out);
}

bool field_degrees(lua_State *L, int index, const char *field, double *out) {
    index = lua_absindex(L, index);
    const int type = lua_getfield(L, index, field);
    const bool is_text = type == LUA_TSTRING;
    if (is_text && !page_direction(lua_tostring(L, -1), out)) {
        run_hint(run_of(L), "a direction is a number of degrees, or \"up\", \"down\", \"left\", \"right\"");
        fail(L, "%s: %s is no direction: \"%s\"", word_name(L), field, lua_tostring(L, -1));
    }
    lua_pop(L, 1);
    return is_text ? true : field_number(L, index, field, out);
}

bool field_point(lua_State *L, int index, const char *field, Point *out) {
    index = lua_absindex(L, index);
    const int type = lua_getfield(L, index, field);
    if (type == LUA_TNIL) {
        lua_pop(L, 1);
        return false;
    }
    const PointBox *box = value_point(L, -1);
    if (!box)
        fail(L, "%s: %s should be a point, got %s", word_name(L), field, value_describe(L, -1));
    *out = box->point;
    lua_pop(L, 1);
    return true;
}

bool field_flag(lua_State *L, int index, const char *field) {
    lua_getfield(L, index, field);
    const bool flag = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return flag;
}

const char *field_text(lua_State *L, int index, const char *field, const char *otherwise) {
    const int type = lua_getfield(L, index, field);
    if (type == LUA_TNIL) {
        lua_pop(L, 1);
        return otherwise;
    }
    if (type != LUA_TSTRING)
        fail(L, "%s: %s should be text, got %s", word_name(L), field, value_describe(L, -1));
    const char *text = run_text(L, check_text(L, -1, LIMIT_TEXT_BYTES));
    lua_pop(L, 1);
    return text;
}

void check_fields(lua_State *L, int index, const char *const *fields) {
    index = lua_absindex(L, index);
    const char *stranger =
        NULL; // the first in the order of the alphabet, so that the message is always the same
    int count = 0;
    while (fields[count])
        count++;
    for (lua_pushnil(L); lua_next(L, index); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            continue;
        const char *key = lua_tostring(L, -2);
        bool known = false;
        for (int i = 0; i < count && !known; i++)
            known = strcmp(key, fields[i]) == 0;
        if (!known && (!stranger || strcmp(key, stranger) < 0))
            stranger = key; // held by the table
    }
    if (!stranger)
        return;
    const char *near = text_nearest(stranger, fields, count);
    if (near)
        run_hint(run_of(L), "did you mean '%s'?", near);
    fail(L, "%s has no '%s'", word_name(L), stranger);
}

const char *run_text(lua_State *L, const char *text) {
    const char *copy = arena_text(&run_of(L)->arena, text);
    ledger_settle(L);
    return copy;
}

const char *push_number(lua_State *L, double value) {
    char text[40];
    snprintf(text, sizeof text, "%.10g", value);
    return lua_pushstring(L, text);
}

const char *push_mm(lua_State *L, double mm) {
    char text[80];
    run_show(run_of(L), MEASURE_LENGTH, mm, text, sizeof text);
    return lua_pushstring(L, text);
}
