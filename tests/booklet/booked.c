#include "booked.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "booklet/html.h"
#include "pattern/prove.h"
#include "script/script.h"

static void find(Booked *out, const char *name, const Recipe **recipe) {
    Fault fault;
    fault_init(&fault);
    const bool found = shelf_find(&out->shelf, name, recipe, &fault);
    cr_assert(found, "%s: %s", name, fault.message ? fault.message : "");
    fault_finish(&fault);
}

static Units units; // of the values shown

static bool run(Booked *out, const char *recipe_name, const char *body, const char *setting, Fault *fault) {
    const Recipe *recipe, *block;
    find(out, recipe_name, &recipe);
    const char *chain[2];
    int count = 0;
    if (recipe_needs(recipe, "bodice")) {
        find(out, "blocks/close-fitting", &block);
        chain[count++] = block->name;
    }
    chain[count++] = recipe->name;
    char name[64] = "";
    const char *equals = setting ? strchr(setting, '=') : NULL;
    if (equals)
        snprintf(name, sizeof name, "%.*s", (int)(equals - setting), setting);
    const Setting one = {.name = name, .value = equals ? equals + 1 : ""};
    cr_assert(shelf_measures(&out->shelf, body ? body : "women-88", &out->body, fault), "%s", fault->message);
    const ScriptJob job = {.shelf = &out->shelf,
                           .chain = chain,
                           .chain_count = count,
                           .settings = &one,
                           .setting_count = equals ? 1 : 0,
                           .body = &out->body,
                           .body_name = "trial",
                           .units = units};
    if (!script_run(&job, &out->pattern, fault))
        return false;
    pattern_prove(&out->pattern, NULL, 0, NULL);
    return true;
}

static bool weave(const char *recipe, const char *body, const char *setting, const ComposeOptions *options,
                  Booked *out, Fault *fault) {
    *out = (Booked){0};
    shelf_init(&out->shelf);
    buffer_init(&out->notes);
    buffer_init(&out->html);
    if (!run(out, recipe, body, setting, fault))
        return false;
    const ComposeOptions usual = {.paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    book_compose(&out->pattern, &out->shelf, options ? options : &usual, &out->book, &out->notes);
    html_write(&out->book, &out->html);
    return true;
}

void booked(const char *recipe, const char *body, const char *setting, const ComposeOptions *options,
            Booked *out) {
    Fault fault;
    fault_init(&fault);
    const bool woven = weave(recipe, body, setting, options, out, &fault);
    cr_assert(woven, "%s: %s:%d: %s", recipe, fault.file ? fault.file : "", fault.line,
              fault.message ? fault.message : "");
    fault_finish(&fault);
}

void booked_inches(const char *recipe, const ComposeOptions *options, Booked *out) {
    units = UNITS_INCH;
    booked(recipe, NULL, NULL, options, out);
    units = UNITS_CM;
}

bool booked_alone(const char *name) {
    if (!text_starts(name, "pieces/"))
        return true;
    Booked b = {0};
    Fault fault;
    fault_init(&fault);
    shelf_init(&b.shelf);
    const bool ran = run(&b, name, NULL, NULL, &fault);
    cr_expect(ran || strstr(fault.message, " needs "), "%s: %s", name, fault.message);
    fault_finish(&fault);
    booked_finish(&b);
    return ran;
}

void booked_each(void (*check)(const char *name, const Booked *booked)) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    for (int i = 0; i < count; i += BOOKED_EACH) {
        if (strcmp(all[i].family, "bodies") == 0 || !booked_alone(all[i].name))
            continue;
        const bool measured = strcmp(all[i].name, "blocks/measured") == 0;
        Booked b;
        booked(all[i].name, measured ? TESTS_DIR "/bodies/paper-88.txt" : NULL, NULL, NULL, &b);
        check(all[i].name, &b);
        booked_finish(&b);
    }
}

void booked_finish(Booked *booked) {
    book_finish(&booked->book);
    pattern_finish(&booked->pattern);
    measures_finish(&booked->body);
    shelf_finish(&booked->shelf);
    buffer_finish(&booked->notes);
    buffer_finish(&booked->html);
}

void has(const Booked *booked, const char *text) {
    cr_expect_not_null(strstr(booked->html.data, text), "missing: %s", text);
}

void has_not(const Booked *booked, const char *text) {
    const char *at = strstr(booked->html.data, text);
    cr_expect_null(at, "%s stands there: %.120s", text, at ? at : "");
}
