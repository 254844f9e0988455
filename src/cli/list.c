// The list for people: a line for each recipe, by family; or all that one recipe asks for.
#include "cli/commands.h"

#include <stdio.h>
#include <string.h>

#include "cli/listing.h"
#include "cli/run.h"
#include "cli/tell.h"

#define NAME_COLUMN_MOST 40 // a longer name has its line to itself

// A choice that never reaches 3 mm, such as the thickness of cloth, would all be "0.0 cm".
static void add_amount(const Input *input, double value, Units units, Buffer *out) {
    char shown[64];
    if (input->measure != MEASURE_LENGTH || input->most < input->least || input->most >= UNITS_THIN_MM) {
        tell_value(input->measure, value, input->text, units, out);
        return;
    }
    units_format_thin(value, units, shown, sizeof shown);
    buffer_add_text(out, shown);
}

static void add_choice(const Input *input, Units units, Buffer *out) {
    Buffer choice;
    buffer_init(&choice);
    buffer_add_format(&choice, "%s: %s; ", input->name, input->about ? input->about : "");
    add_amount(input, input->value, units, &choice);
    if (input->options) {
        buffer_add_format(&choice, " (of %s)", input->options);
    } else if (input->least <= input->most) {
        buffer_add_text(&choice, " (");
        add_amount(input, input->least, units, &choice);
        buffer_add_text(&choice, " to ");
        add_amount(input, input->most, units, &choice);
        buffer_add_char(&choice, ')');
    }
    tell_wrapped(choice.data, 6, 10, out);
    buffer_finish(&choice);
}

static void add_need(const Input *input, Buffer *out) {
    Buffer need;
    buffer_init(&need);
    buffer_add_format(&need, "%s: %s%s", input->name, input->about ? input->about : "",
                      input->optional ? " (if known)" : "");
    tell_wrapped(need.data, 6, 10, out);
    buffer_finish(&need);
}

static void add_inputs(const Pattern *survey, bool choices, Units units, Buffer *out) {
    bool any = false;
    for (int i = 0; i < survey->inputs.count; i++) {
        const Input *input = &survey->inputs.items[i];
        if (input->choice != choices)
            continue;
        if (!any)
            buffer_add_text(out, choices ? "\n  choices\n" : "\n  needs\n");
        any = true;
        if (choices)
            add_choice(input, units, out);
        else
            add_need(input, out);
    }
}

static void add_recipe(const Entry *entry, Units units, Buffer *out) {
    buffer_add_format(out, "%s\n  %s\n", entry->name, entry->recipe->title);
    if (*entry->recipe->summary)
        tell_wrapped(entry->recipe->summary, 2, 2, out);
    add_inputs(&entry->survey, false, units, out);
    add_inputs(&entry->survey, true, units, out);
    if (entry_without_block(entry))
        buffer_add_text(out,
                        "\n  runs without a block too, on a measured neckline:\n      " WITHOUT_BLOCK "\n");
}

static void add_body(const Entry *entry, Units units, Buffer *out) {
    buffer_add_format(out, "%s\n", entry->name);
    for (int i = 0; i < entry->body.count; i++) {
        const BodyMeasure *measure = &entry->body.items[i];
        buffer_add_format(out, "  %s: ", measure->name);
        tell_value(measure_in_years(measure->name) ? MEASURE_YEARS : MEASURE_LENGTH, measure->value, NULL,
                   units, out);
        buffer_add_char(out, '\n');
    }
}

// Up to the first full stop that a space or nothing follows.
static void add_first_sentence(const char *text, Buffer *out) {
    size_t length = 0;
    while (text[length] && !(strchr(".!?", text[length]) && (!text[length + 1] || text[length + 1] == ' ')))
        length++;
    buffer_add(out, text, text[length] ? length + 1 : length);
}

static int name_column(const Listing *listing) {
    int longest = 0;
    for (int i = 0; i < listing->count; i++) {
        int length = (int)strlen(listing->items[i].name);
        if (length > longest && length <= NAME_COLUMN_MOST)
            longest = length;
    }
    return 2 + longest + 2;
}

// The name, and what is said of it beside it.
static void add_line(const Entry *entry, int column, Buffer *out) {
    Buffer said, lines;
    buffer_init(&said);
    buffer_init(&lines);
    if (!entry->recipe)
        buffer_add_format(&said, "%d measurements", entry->body.count);
    else
        add_first_sentence(*entry->recipe->summary ? entry->recipe->summary : entry->recipe->title, &said);
    tell_wrapped(said.data, column, column, &lines);
    bool beside = 2 + (int)strlen(entry->name) + 2 <= column;
    buffer_add_format(out, "  %-*s", beside ? column - 2 : 0, entry->name);
    buffer_add_text(out, beside ? lines.data + column : "\n");
    buffer_add_text(out, beside ? "" : lines.data);
    buffer_finish(&said);
    buffer_finish(&lines);
}

// The sizes of a family of bodies stand in one paragraph, where other families stand beside it.
static void add_bodies(const Listing *listing, Buffer *out) {
    Buffer names;
    buffer_init(&names);
    for (int i = 0; i < listing->count; i++)
        if (!listing->items[i].recipe)
            buffer_add_format(&names, "%s%s", names.length > 0 ? ", " : "", listing->items[i].name);
    tell_wrapped(names.data, 2, 2, out);
    buffer_finish(&names);
}

static void add_without_block(const Listing *listing, int column, Buffer *out) {
    bool any = false;
    for (int i = 0; i < listing->count; i++) {
        if (!entry_without_block(&listing->items[i]))
            continue;
        if (!any)
            buffer_add_text(out, "\nwithout a block: on a measured neckline, with\n  " WITHOUT_BLOCK
                                 "\n  each half the neckline along the seam, from the centre to the shoulder "
                                 "seam\n\n");
        any = true;
        add_line(&listing->items[i], column, out);
    }
}

static void add_lines(const Listing *listing, bool all, Buffer *out) {
    const int column = name_column(listing);
    const char *family = "";
    for (int i = 0; i < listing->count; i++) {
        const Entry *entry = &listing->items[i];
        bool first = strcmp(family, entry->family) != 0;
        if (first) {
            const char *what = family_heading(entry->family);
            buffer_add_format(out, "%s%s%s%s\n", i > 0 ? "\n" : "", entry->family, what ? ": " : "",
                              what ? what : "");
        }
        family = entry->family;
        if (entry->recipe || !all)
            add_line(entry, column, out);
        else if (first)
            add_bodies(listing, out);
    }
    if (all)
        add_without_block(listing, column, out);
    buffer_add_text(out, "\nrebato list NAME tells what one needs and lets you choose.\n");
}

static void add_people(const Listing *listing, const Options *options, Units units, Buffer *out) {
    if (options->names) {
        for (int i = 0; i < listing->count; i++)
            buffer_add_format(out, "%s\n", listing->items[i].name);
        return;
    }
    if (!listing->full) {
        add_lines(listing, !options->argument, out);
        return;
    }
    const Entry *entry = &listing->items[0];
    if (entry->recipe)
        add_recipe(entry, units, out);
    else
        add_body(entry, units, out);
}

int command_list(const Options *options) {
    Listing listing = {0};
    Fault fault;
    Buffer text;
    Units units;
    fault_init(&fault);
    buffer_init(&text);
    bool kind = options->names && !options->json && listing_is_kind(options->argument);
    bool fine =
        run_units(options->units, &units, &fault) && (kind || listing_fill(&listing, options, &fault));
    if (fine && kind)
        listing_names(options->argument, &text);
    else if (fine && options->json)
        listing_json(&listing, &text);
    else if (fine)
        add_people(&listing, options, units, &text);
    int code = fine ? tell_text(&text, EXIT_HOLDS)
                    : tell_fault(&fault, shelf_source(&listing.shelf, fault.file), NULL, options->json);
    buffer_finish(&text);
    fault_finish(&fault);
    listing_finish(&listing);
    return code;
}
