#include "script/error.h"

#include <ctype.h>
#include <string.h>

#include "base/text.h"
#include "script/check.h"
#include "script/post.h"
#include "script/slips.h"

// Long enough for any honest sentence.
#define MESSAGE_MOST 600
#define SLIP_MOST 200

// Takes "FILE:LINE: " off the front, where FILE is how Lua shortens the name of a chunk.
static const char *without_place(const char *message, const char *short_src, int *line) {
    const size_t length = strlen(short_src);
    if (strncmp(message, short_src, length) != 0 || message[length] != ':')
        return message;
    const char *at = message + length + 1;
    int number = 0;
    while (isdigit((unsigned char)*at) && number < 1000000)
        number = number * 10 + (*at++ - '0');
    if (at[0] != ':' || at[1] != ' ')
        return message;
    if (line)
        *line = number;
    return at + 2;
}

// Takes off all of them: an error that was caught and raised again has several.
static const char *without_places(const char *message, const char *short_src) {
    for (;;) {
        const char *rest = without_place(message, short_src, NULL);
        if (rest == message)
            return message;
        message = rest;
    }
}

typedef struct Plain {
    const char *lua;   // how Lua's sentence begins, up to the kind of value
    const char *words; // what cannot be done with it
} Plain;

static const Plain plains[] = {
    {"attempt to perform arithmetic on a ", "so it cannot be reckoned with"},
    {"attempt to perform bitwise operation on a ", "so it cannot be reckoned with"},
    {"attempt to index a ", "so nothing can be read from it"},
    {"attempt to call a ", "so it cannot be called"},
    {"attempt to concatenate a ", "so it cannot be joined to text; show(x) turns a number into text"},
    {"attempt to get length of a ", "so it has no number of entries"},
};

// Lua says "bad argument #1 to 'sqrt' (number expected, got nil)"; false for anything else. called: the
// function's name where Lua does not know it.
static bool bad_argument(const char *message, const char *called, char *out, size_t size) {
    int argument = 0, to = 0;
    char name[60];
    if (sscanf(message, "bad argument #%d to '%59[^']' (%n", &argument, name, &to) != 2 || to == 0)
        return false;
    if (strcmp(name, "?") == 0 && called)
        snprintf(name, sizeof name, "%s", called);
    const size_t length = strlen(message + to);
    snprintf(out, size, "%s: argument %d: %.*s", name, argument, (int)(length > 0 ? length - 1 : 0),
             message + to);
    return true;
}

// Lua says "attempt to index a nil value (local 'x')"; a cutter reads "'x' has no value (nil), so ...".
static void in_plain_words(const char *message, const char *called, char *out, size_t size) {
    if (bad_argument(message, called, out, size))
        return;
    for (size_t i = 0; i < sizeof plains / sizeof *plains; i++) {
        if (!text_starts(message, plains[i].lua))
            continue;
        const char *kind = message + strlen(plains[i].lua), *value = strstr(kind, " value");
        if (!value)
            break;
        const char *quote = strchr(value, '\''), *close = quote ? strrchr(quote + 1, '\'') : NULL;
        char name[120] = "what stands here";
        if (close)
            snprintf(name, sizeof name, "'%.*s'", (int)(close - quote - 1), quote + 1);
        const int length = (int)(value - kind);
        if (strncmp(kind, "nil", 3) == 0)
            snprintf(out, size, "%s has no value (nil), %s", name, plains[i].words);
        else
            snprintf(out, size, "%s is a %.*s, %s", name,
                     length == 6 && strncmp(kind, "string", 6) == 0 ? 4 : length,
                     length == 6 && strncmp(kind, "string", 6) == 0 ? "text" : kind, plains[i].words);
        return;
    }
    if (text_starts(message, "attempt to compare ")) {
        snprintf(out, size, "cannot compare %s", message + strlen("attempt to compare "));
        return;
    }
    if (text_starts(message, "stack overflow") || strstr(message, "C stack overflow")) {
        snprintf(out, size, "functions call each other too deep");
        return;
    }
    snprintf(out, size, "%s", message);
}

// The recipe of a running chunk, from its source "@file".
static const Recipe *recipe_of_source(const Run *run, const char *source) {
    for (int i = run->recipes.count - 1; i >= 0; i--)
        if (source[0] == '@' && strcmp(run->recipes.items[i]->file, source + 1) == 0)
            return run->recipes.items[i];
    return NULL;
}

static bool is_glue(lua_State *L, lua_Debug *ar) {
    lua_getinfo(L, "f", ar);
    const bool glue = lua_tocfunction(L, -1) == run_glue;
    lua_pop(L, 1);
    return glue;
}

// A walk over the calls that are running, from the innermost to the chunk.
typedef struct Walk {
    int level;              // of the call it came to
    const Filling *filling; // the value whose call is next
    lua_Debug ar;           // of that call, "nSl"
    int line;               // where it stands in the author's file
} Walk;

// Goes on to the next call that stands in a recipe; *called, where not NULL, is the first name on the way.
// The code of a value has no line of its own in the chunk: it stands where its prose does.
static bool walk_next(lua_State *L, Walk *walk, const char **called) {
    while (lua_getstack(L, ++walk->level, &walk->ar)) {
        lua_Debug *ar = &walk->ar, caller;
        lua_getinfo(L, called ? "nSl" : "l", ar);
        if (called && !*called)
            *called = ar->name;
        if (walk->filling && ar->currentline > 0 && lua_getstack(L, walk->level + 1, &caller) &&
            is_glue(L, &caller)) {
            walk->line = walk->filling->value->line;
            return true;
        }
        if (walk->filling && ar->currentline <= 0 && is_glue(L, ar)) {
            // What it called has been passed, or has come back: then the chunk's line is that of the value.
            walk->line = walk->filling->value->line;
            walk->filling = walk->filling->outer;
            if (lua_getstack(L, ++walk->level, ar)) {
                lua_getinfo(L, called ? "nSl" : "l", ar);
                return true;
            }
            return false;
        }
        walk->line = ar->currentline;
        if (walk->line > 0)
            return true;
    }
    return false;
}

int author_line(lua_State *L) {
    Walk walk = {.level = -1, .filling = run_of(L)->filling};
    return walk_next(L, &walk, NULL) ? walk.line : 0;
}

static void fault_place(Fault *fault, const Recipe *recipe, int line, const char *message) {
    fault_set(fault, recipe->file, line, "%s", message);
    const char *step = recipe_step_title(recipe, recipe_step_at(recipe, line));
    fault_set_step(fault, step ? step : recipe->title);
}

// Keeps what would work where a sentence says that something cannot be reckoned with.
static void hint_reckoning(Run *run, const char *plain) {
    const char *sort = strstr(plain, ", so it cannot be reckoned with");
    if (!sort)
        return;
    char name[120] = "point";
    if (plain[0] == '\'')
        snprintf(name, sizeof name, "%.*s", (int)strcspn(plain + 1, "'"), plain + 1);
    if (strstr(plain, " is a text, "))
        run_hint(run, "inside a recipe write numbers with a unit: 14*cm, 5/8*inch");
    else if (strstr(plain, " is a point, "))
        run_hint(run,
                 "to move a point write %s:right(3*cm), or left, up, down; its numbers are %s.x and %s.y",
                 name, name, name);
    else if (strstr(plain, " is a path, "))
        run_hint(run, "the number of a path is its length: %s.length", plain[0] == '\'' ? name : "path");
}

int error_handle(lua_State *L) {
    Run *run = run_of(L);
    if (run->surveyed || run->faulted)
        return 1;
    size_t length = 0;
    const char *raised = lua_type(L, 1) == LUA_TSTRING ? lua_tolstring(L, 1, &length) : NULL;
    const Recipe *own = run->main_recipe, *shown = NULL, *inner = NULL;
    int line = 0, inner_line = 0;
    const char *message = raised, *called = NULL;
    for (Walk walk = {.filling = run->filling}; walk_next(L, &walk, &called);) {
        if (message)
            message = without_places(message, walk.ar.short_src);
        const Recipe *recipe = recipe_of_source(run, walk.ar.source);
        const int stands = !inner && run->input_line > 0 ? run->input_line : walk.line;
        if (!inner) {
            inner = recipe;
            inner_line = stands;
        }
        if (recipe == own) {
            shown = recipe;
            line = stands;
            break;
        }
    }
    if (!shown) {
        shown = inner;
        line = inner_line;
    }
    char text[MESSAGE_MOST], plain[MESSAGE_MOST + 200], slip[SLIP_MOST];
    if (message)
        text_clean(message, length - (size_t)(message - raised), text, sizeof text);
    else if (lua_isnil(L, 1))
        snprintf(text, sizeof text, "the recipe raised an error without a message");
    else
        snprintf(text, sizeof text, "the recipe raised an error with a %s instead of a message",
                 luaL_typename(L, 1));
    in_plain_words(text, called, plain, sizeof plain);
    if (!run->hint[0])
        hint_reckoning(run, plain);
    if (!shown) {
        fault_set(run->fault, own ? own->file : NULL, 0, "%s", plain);
    } else {
        if (inner && inner != shown) {
            const size_t used = strlen(plain);
            snprintf(plain + used, sizeof plain - used, " (at %s:%d)", inner->file, inner_line);
        }
        fault_place(run->fault, shown, line, plain);
    }
    if (!run->hint[0] && shown && shown == inner && slip_hint(shown, line, plain, slip, sizeof slip))
        run_hint(run, "%s", slip);
    if (run->hint[0]) {
        char hint[sizeof run->hint];
        text_clean_lines(run->hint, strlen(run->hint), hint, sizeof hint);
        fault_set_hint(run->fault, "%s", hint);
    }
    run->faulted = true;
    return 1;
}

void error_unhandled(Run *run, int status) {
    const Recipe *recipe = run->place.recipe ? run->place.recipe : run->main_recipe;
    const Ledger *ledger = &run->ledger;
    char text[120];
    int line = 0;
    if (status == LUA_ERRMEM) {
        snprintf(text, sizeof text, "the recipe used more than %d MB", (int)(ledger->cap >> 20));
        if (recipe && strcmp(ledger->refused_file, recipe->file) == 0)
            line = ledger->refused_line;
    } else {
        snprintf(text, sizeof text, "functions call each other too deep");
    }
    if (line > 0)
        fault_place(run->fault, recipe, line, text);
    else
        fault_set(run->fault, recipe ? recipe->file : NULL, 0, "%s", text);
    if (line == 0 && run->place.recipe && run->place.step >= 0 && run->place.step < run->pattern->steps.count)
        fault_set_step(run->fault, run->pattern->steps.items[run->place.step].title);
    fault_set_hint(run->fault, "it may be in a loop that never ends, or make far more than it draws");
}

// Lua says "malformed number near '3c'" and stops reading there: the whole, 3cm, is in the author's line.
static bool fault_of_number(Fault *fault, const Recipe *recipe, int line, const char *said) {
    const char *near = strstr(said, "malformed number near '");
    size_t length;
    const char *source = near && line > 0 ? text_line(recipe->source, line, &length) : NULL;
    if (!source)
        return false;
    near += strlen("malformed number near '");
    const size_t known = strcspn(near, "'");
    for (const char *at = source; at + known <= source + length; at++) {
        if (strncmp(at, near, known) != 0)
            continue;
        const size_t digits = strspn(at, "0123456789.");
        size_t unit = 0;
        while (at + digits + unit < source + length && isalnum((unsigned char)at[digits + unit]))
            unit++;
        char words[100];
        snprintf(words, sizeof words, "'%.*s' is neither a number nor a name",
                 (int)(digits + unit < 40 ? digits + unit : 40), at);
        fault_place(fault, recipe, line, words);
        if (digits > 0 && digits + unit <= 40)
            fault_set_hint(fault, "write %.*s*%.*s: a number is multiplied by its unit", (int)digits, at,
                           (int)unit, at + digits);
        return true;
    }
    return false;
}

void error_compile(lua_State *L, const Recipe *recipe, int status, const char *message, const char *part,
                   int part_line) {
    Run *run = run_of(L);
    run->faulted = run->unreadable = true;
    if (status == LUA_ERRMEM) {
        fault_set(run->fault, recipe->file, 0, "the recipe used more than %d MB",
                  (int)(run->ledger.cap >> 20));
        return;
    }
    char text[MESSAGE_MOST];
    text_clean(message, strlen(message), text, sizeof text);
    int line = 0;
    char short_src[LUA_IDSIZE];
    const char *colon = text;
    // The shortened name may hold colons itself: the place is the last "NAME:LINE: " whose LINE is a number.
    for (const char *at = text; (at = strchr(at, ':')); at++)
        if (isdigit((unsigned char)at[1])) {
            colon = at;
            break;
        }
    snprintf(short_src, sizeof short_src, "%.*s", (int)(colon - text), text);
    const char *said = without_place(text, short_src, &line);
    const char *near_end = strstr(said, " near <eof>");
    char words[MESSAGE_MOST];
    if (strstr(said, "too many local variables")) {
        snprintf(words, sizeof words, "the recipe has more than 200 locals");
        fault_place(run->fault, recipe, line, words);
        fault_set_hint(run->fault,
                       "name on a draft or with a plain name what should be seen, or put do ... end "
                       "round the code of a step");
        return;
    }
    if (fault_of_number(run->fault, recipe, line, said))
        return;
    if (near_end) {
        snprintf(words, sizeof words, "%.*s before the %s ends", (int)(near_end - said), said, part);
        fault_place(run->fault, recipe, part_line > 0 ? part_line : line, words);
        fault_set_hint(run->fault, "every %s must be complete by itself", part);
        return;
    }
    fault_place(run->fault, recipe, line, said);
    char slip[SLIP_MOST];
    if (slip_hint(recipe, line, said, slip, sizeof slip))
        fault_set_hint(run->fault, "%s", slip);
}
