// The list as JSON.
#include "cli/listing.h"

#include <string.h>

#include "base/memory.h"
#include "pattern/report.h"

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
    buffer_add_format(out, "],\"without_block\":%s}", entry_without_block(entry) ? "true" : "false");
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

void listing_json(const Listing *listing, Buffer *out) {
    buffer_add_text(out, "{\"recipes\":[");
    add_json_part(listing, true, out);
    buffer_add_text(out, "],\n\"bodies\":[");
    add_json_part(listing, false, out);
    buffer_add_text(out, "]}\n");
}
