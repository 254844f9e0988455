#include "cli/commands.h"

#include <string.h>

#include "base/memory.h"
#include "cli/listing.h"
#include "cli/tell.h"
#include "pattern/report.h"

static void add_choice(const Input *input, Buffer *out) {
    Buffer choice;
    buffer_init(&choice);
    buffer_add_format(&choice, "%s: %s; ", input->name, input->about ? input->about : "");
    tell_value(input->measure, input->value, input->text, UNITS_CM, &choice);
    if (input->options) {
        buffer_add_format(&choice, " (of %s)", input->options);
    } else if (input->least <= input->most) {
        buffer_add_text(&choice, " (");
        tell_value(input->measure, input->least, NULL, UNITS_CM, &choice);
        buffer_add_text(&choice, " to ");
        tell_value(input->measure, input->most, NULL, UNITS_CM, &choice);
        buffer_add_char(&choice, ')');
    }
    tell_wrapped(choice.data, 6, 10, out);
    buffer_finish(&choice);
}

static void add_recipe(const Entry *entry, Buffer *out) {
    buffer_add_format(out, "  %s\n      %s\n", entry->name, entry->recipe->title);
    if (*entry->recipe->summary)
        tell_wrapped(entry->recipe->summary, 6, 6, out);
    Buffer needs;
    buffer_init(&needs);
    for (int i = 0; i < entry->survey.inputs.count; i++)
        if (!entry->survey.inputs.items[i].choice)
            buffer_add_format(&needs, "%s%s%s", needs.length == 0 ? "needs " : ", ",
                              entry->survey.inputs.items[i].name,
                              entry->survey.inputs.items[i].optional ? " (if known)" : "");
    if (needs.length > 0)
        tell_wrapped(needs.data, 6, 10, out);
    buffer_finish(&needs);
    for (int i = 0; i < entry->survey.inputs.count; i++)
        if (entry->survey.inputs.items[i].choice)
            add_choice(&entry->survey.inputs.items[i], out);
}

static void add_people(const Listing *listing, const Options *options, Buffer *out) {
    const char *family = "";
    for (int i = 0; i < listing->count; i++) {
        const Entry *entry = &listing->items[i];
        if (options->names) {
            buffer_add_format(out, "%s\n", entry->name);
            continue;
        }
        if (strcmp(family, entry->family) != 0)
            buffer_add_format(out, "%s%s\n", i > 0 ? "\n" : "", entry->family);
        family = entry->family;
        if (entry->recipe)
            add_recipe(entry, out);
        else
            buffer_add_format(out, "  %s: %d measurements\n", entry->name, entry->body.count);
    }
}

static void add_field(Buffer *out, const char *before, const char *name, const char *text) {
    buffer_add_text(out, before);
    json_add_text(out, name);
    buffer_add_char(out, ':');
    json_add_text(out, text ? text : "");
}

static void add_number_field(Buffer *out, const char *name, bool known, double value) {
    buffer_add_char(out, ',');
    json_add_text(out, name);
    buffer_add_char(out, ':');
    if (known)
        json_add_number(out, value);
    else
        buffer_add_text(out, "null");
}

static void add_json_options(const char *options, Buffer *out) {
    buffer_add_text(out, ",\"options\":[");
    for (const char *at = options ? options : ""; *at;) {
        size_t length = strcspn(at, ",");
        char *option = mem_text(at);
        option[length] = '\0';
        buffer_add_text(out, at == options ? "" : ",");
        json_add_text(out, option);
        mem_free(option);
        at += length;
        at += strspn(at, ", ");
    }
    buffer_add_char(out, ']');
}

static const char *const measures[] = {
    [MEASURE_LENGTH] = "length", [MEASURE_AREA] = "area",   [MEASURE_ANGLE] = "angle",
    [MEASURE_NUMBER] = "number", [MEASURE_YEARS] = "years", [MEASURE_TEXT] = "text"};

static void add_json_choice(const Input *input, Buffer *out) {
    bool limited = input->measure != MEASURE_TEXT && input->least <= input->most;
    add_field(out, "{", "name", input->name);
    add_field(out, ",", "measure", measures[input->measure]);
    if (input->measure == MEASURE_TEXT)
        add_field(out, ",", "default", input->text);
    else
        add_number_field(out, "default", true, input->value);
    add_number_field(out, "least", limited, input->least);
    add_number_field(out, "most", limited, input->most);
    add_json_options(input->options, out);
    add_field(out, ",", "about", input->about);
    buffer_add_char(out, '}');
}

static void add_json_inputs(const Pattern *survey, bool choices, Buffer *out) {
    bool any = false;
    for (int i = 0; i < survey->inputs.count; i++) {
        const Input *input = &survey->inputs.items[i];
        if (input->choice != choices)
            continue;
        buffer_add_text(out, any ? "," : "");
        any = true;
        if (choices) {
            add_json_choice(input, out);
            continue;
        }
        add_field(out, "{", "name", input->name);
        add_field(out, ",", "measure", measures[input->measure]);
        add_field(out, ",", "about", input->about);
        buffer_add_format(out, ",\"optional\":%s}", input->optional ? "true" : "false");
    }
}

static void add_json_recipe(const Entry *entry, Buffer *out) {
    add_field(out, "{", "name", entry->name);
    add_field(out, ",", "family", entry->family);
    add_field(out, ",", "title", entry->recipe->title);
    add_field(out, ",", "summary", entry->recipe->summary);
    buffer_add_text(out, ",\"needs\":[");
    add_json_inputs(&entry->survey, false, out);
    buffer_add_text(out, "],\"choices\":[");
    add_json_inputs(&entry->survey, true, out);
    buffer_add_text(out, "]}");
}

static void add_json_body(const Entry *entry, Buffer *out) {
    add_field(out, "{", "name", entry->name);
    buffer_add_text(out, ",\"measurements\":{");
    for (int i = 0; i < entry->body.count; i++) {
        buffer_add_text(out, i > 0 ? "," : "");
        json_add_text(out, entry->body.items[i].name);
        buffer_add_char(out, ':');
        json_add_number(out, entry->body.items[i].value);
    }
    buffer_add_text(out, "}}");
}

static void add_json_part(const Listing *listing, bool recipes, Buffer *out) {
    bool any = false;
    for (int i = 0; i < listing->count; i++) {
        const Entry *entry = &listing->items[i];
        if ((entry->recipe != NULL) != recipes)
            continue;
        buffer_add_text(out, any ? ",\n" : "\n");
        any = true;
        if (recipes)
            add_json_recipe(entry, out);
        else
            add_json_body(entry, out);
    }
}

static void add_json(const Listing *listing, Buffer *out) {
    buffer_add_text(out, "{\"recipes\":[");
    add_json_part(listing, true, out);
    buffer_add_text(out, "],\n\"bodies\":[");
    add_json_part(listing, false, out);
    buffer_add_text(out, "]}\n");
}

int command_list(const Options *options) {
    Listing listing = {0};
    Fault fault;
    Buffer text;
    fault_init(&fault);
    buffer_init(&text);
    bool kind = options->names && !options->json && listing_is_kind(options->argument);
    bool fine = kind || listing_fill(&listing, options, &fault);
    if (kind)
        listing_names(options->argument, &text);
    else if (fine && options->json)
        add_json(&listing, &text);
    else if (fine)
        add_people(&listing, options, &text);
    int code = fine ? tell_text(&text, EXIT_HOLDS)
                    : tell_fault(&fault, shelf_source(&listing.shelf, fault.file), NULL, options->json);
    buffer_finish(&text);
    fault_finish(&fault);
    listing_finish(&listing);
    return code;
}
