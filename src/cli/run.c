#include "cli/run.h"

#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "cli/asked.h"
#include "pattern/prove.h"
#include "pattern/write.h"
#include "script/script.h"

typedef struct Settings {
    Setting *items;
    int count, capacity;
} Settings;

void run_init(Run *run) {
    *run = (Run){0};
    shelf_init(&run->shelf);
    buffer_init(&run->text);
    buffer_init(&run->notes);
}

void run_finish(Run *run) {
    pattern_finish(&run->pattern);
    measures_finish(&run->body);
    mem_free(run->body_title);
    shelf_finish(&run->shelf);
    buffer_finish(&run->text);
    buffer_finish(&run->notes);
    *run = (Run){0};
}

const char *run_source(const Run *run, const Fault *fault) {
    if (!fault->file)
        return NULL;
    if (run->text.length > 0 && text_ends_any_case(fault->file, ".pattern"))
        return run->text.data;
    return shelf_source(&run->shelf, fault->file);
}

bool run_units(const char *text, Units *out, Fault *fault) {
    if (!text || strcmp(text, "cm") == 0)
        *out = UNITS_CM;
    else if (strcmp(text, "in") == 0)
        *out = UNITS_INCH;
    else {
        fault_set(fault, NULL, 0, "there are no units %s", text);
        fault_set_hint(fault, text_starts(text, "in") ? "did you mean in?" : "the units are cm and in");
        return false;
    }
    return true;
}

// Splits "NAME=VALUE" at its first equals sign; the texts live in the list until settings_finish.
static bool settings_add(Settings *settings, const char *typed, Fault *fault) {
    const char *equals = strchr(typed, '=');
    if (!equals || equals == typed || !equals[1]) {
        fault_set(fault, NULL, 0, "--set %s does not say which name gets which value", typed);
        fault_set_hint(fault, "write it as --set height=12cm");
        return false;
    }
    char *name = mem_text(typed);
    name[equals - typed] = '\0';
    for (int i = 0; i < settings->count; i++) {
        if (strcmp(settings->items[i].name, name) != 0)
            continue;
        fault_set(fault, NULL, 0, "--set gives %s twice: %s and %s", name, settings->items[i].value,
                  equals + 1);
        fault_set_hint(fault, "keep the one that is meant");
        mem_free(name);
        return false;
    }
    Setting setting = {.name = name, .value = equals + 1};
    ARRAY_ADD(settings, setting);
    return true;
}

static void settings_finish(Settings *settings) {
    for (int i = 0; i < settings->count; i++)
        mem_free((char *)settings->items[i].name);
    mem_free(settings->items);
}

// A set's own name, as it stands on the pieces: no folder, no ".txt".
static char *body_title(const char *name) {
    const char *slash = strrchr(name, '/');
    char *title = mem_text(slash ? slash + 1 : name);
    if (text_ends(title, ".txt"))
        title[strlen(title) - 4] = '\0';
    return title;
}

static bool find_body(Run *run, const Options *options, ScriptJob *job, Fault *fault) {
    run->body_taken = !options->body;
    const char *name = options->body ? options->body : RUN_BODY;
    if (!shelf_measures(&run->shelf, name, &run->body, fault))
        return false;
    run->body_title = body_title(name);
    job->body_name = run->body_title;
    job->body = &run->body;
    measures_doubts(&run->body, &run->notes);
    return true;
}

static bool chain_add(Run *run, TextList *chain, const char *name, Fault *fault) {
    const Recipe *recipe;
    if (!shelf_find(&run->shelf, name, &recipe, fault))
        return false;
    const char *known = recipe->name;
    ARRAY_ADD(chain, known);
    return true;
}

// A neckline cuts a bodice, so it asks for one.
static bool chain_add_neckline(Run *run, TextList *chain, const char *name, Fault *fault) {
    const Recipe *recipe;
    if (!shelf_find(&run->shelf, name, &recipe, fault))
        return false;
    if (recipe_needs(recipe, "bodice"))
        return chain_add(run, chain, name, fault);
    fault_set(fault, NULL, 0, "--on %s is no neckline: it asks for no bodice to be cut into", name);
    if (text_starts(recipe->name, "blocks/"))
        fault_set_hint(fault, "a block goes under a recipe with --block %s", name);
    else
        fault_set_hint(fault, "rebato list necklines tells the necklines");
    return false;
}

// Block, necklines in the order given, recipe; the recipe alone where it needs no bodice.
static bool find_chain(Run *run, const Options *options, TextList *chain, Fault *fault) {
    const Recipe *recipe;
    if (!shelf_find(&run->shelf, options->argument, &recipe, fault))
        return false;
    const bool bodice = recipe_needs(recipe, "bodice");
    const bool bare = options->block && strcmp(options->block, RUN_NO_BLOCK) == 0;
    if (!bodice && ((options->block && !bare) || options->necklines.count > 0)) {
        fault_set(fault, NULL, 0, "%s needs no bodice, so %s has nothing to do", options->argument,
                  options->block ? "--block" : "--on");
        fault_set_hint(fault, "leave it out, or draft a recipe that needs a bodice on it");
        return false;
    }
    run->block_taken = bodice && !options->block;
    if (bodice && !bare && !chain_add(run, chain, options->block ? options->block : RUN_BLOCK, fault))
        return false;
    for (int i = 0; i < options->necklines.count; i++)
        if (!chain_add_neckline(run, chain, options->necklines.items[i], fault))
            return false;
    return chain_add(run, chain, options->argument, fault);
}

static bool run_recipe(Run *run, const Options *options, Fault *fault) {
    Settings settings = {0};
    TextList chain = {0};
    ScriptJob job = {.shelf = &run->shelf};
    bool fine = run_units(options->units, &job.units, fault);
    for (int i = 0; fine && i < options->settings.count; i++)
        fine = settings_add(&settings, options->settings.items[i], fault);
    fine = fine && find_body(run, options, &job, fault) && find_chain(run, options, &chain, fault);
    if (fine) {
        job.chain = chain.items;
        job.chain_count = chain.count;
        job.settings = settings.items;
        job.setting_count = settings.count;
        fine = script_run_apart(&job, &run->pattern, fault);
    }
    asked_note(&run->shelf, &chain, &run->pattern, &run->body, &run->notes);
    buffer_add(&run->notes, run->shelf.notes.data, run->shelf.notes.length);
    settings_finish(&settings);
    mem_free(chain.items);
    return fine;
}

static bool read_pattern(Run *run, const Options *options, Fault *fault) {
    const char *idle = options->block             ? "--block"
                       : options->necklines.count ? "--on"
                       : options->body            ? "--body"
                       : options->settings.count  ? "--set"
                                                  : NULL;
    if (idle) {
        fault_set(fault, NULL, 0, "%s is already drafted, so %s has nothing to do", options->argument, idle);
        fault_set_hint(fault, "draft its recipe anew with %s", idle);
        return false;
    }
    Units units;
    if (!run_units(options->units, &units, fault) ||
        !file_read(options->argument, RUN_PATTERN_BYTES_MOST, &run->text, fault))
        return false;
    if (!pattern_read(run->text.data, run->text.length, &run->pattern, fault)) {
        mem_free(fault->file);
        fault->file = mem_text(options->argument);
        return false;
    }
    if (options->units)
        run->pattern.units = units;
    return true;
}

static bool fail_accept(const Pattern *pattern, const char *name, Fault *fault) {
    TextList names = {0};
    for (int i = 0; i < pattern->proofs.count; i++)
        ARRAY_ADD(&names, pattern->proofs.items[i].what);
    const char *nearest = text_nearest(name, names.items, names.count);
    fault_set(fault, NULL, 0, "no proof is called \"%s\", so it cannot be accepted", name);
    if (nearest)
        fault_set_hint(fault, "did you mean \"%s\"?", nearest);
    else
        fault_set_hint(fault, "rebato check tells the names of the proofs");
    mem_free(names.items);
    return false;
}

bool run_written(Run *run, const char *name, const char *text, Units units, Fault *fault) {
    const Options none = {0};
    TextList chain = {0};
    ScriptJob job = {.shelf = &run->shelf, .units = units};
    const Recipe *recipe;
    bool fine = find_body(run, &none, &job, fault) && shelf_put(&run->shelf, name, text, &recipe, fault) &&
                (!recipe_needs(recipe, "bodice") || chain_add(run, &chain, RUN_BLOCK, fault));
    if (fine) {
        ARRAY_ADD(&chain, recipe->name);
        job.chain = chain.items;
        job.chain_count = chain.count;
        fine = script_run_apart(&job, &run->pattern, fault);
    }
    if (fine)
        pattern_prove(&run->pattern, NULL, 0, NULL);
    mem_free(chain.items);
    return fine;
}

bool run_make(Run *run, const Options *options, Fault *fault) {
    bool drafted = text_ends_any_case(options->argument, ".pattern") ? read_pattern(run, options, fault)
                                                                     : run_recipe(run, options, fault);
    if (!drafted)
        return false;
    const char *unknown = NULL;
    pattern_prove(&run->pattern, options->accepted.items, options->accepted.count, &unknown);
    return !unknown || fail_accept(&run->pattern, unknown, fault);
}
